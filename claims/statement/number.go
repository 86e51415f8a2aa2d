package statement

import (
	"math"
	"strings"

	"probity/extract"
)

// ratioBracket: the interval behind a printed ratio, "RR: 0.42 [0.25–0.69]".
func (s *sentence) ratioBracket(i int) bool {
	p := int(s.at(i).paren)
	if p < s.from || len(s.quants) == 0 {
		return false
	}
	last := &s.quants[len(s.quants)-1]
	return last.role == roleRatio && p >= last.at && p <= last.end+1 || last.role == roleCI && int(s.at(last.at).paren) == p && s.sign(p) == '['
}

// isCitation: "[12]", "[3, 5-7]", "(12)" after "et al".
func (s *sentence) isCitation(i int) bool {
	p := int(s.at(i).paren)
	if p < s.from || s.sign(p) != '[' {
		return s.sortOf(i-1) == wordToken && !s.at(i).gap && s.word(i-1) == "al"
	}
	for j := p + 1; j < s.to && j < p+40; j++ {
		t := s.at(j)
		switch {
		case t.sort == numberToken && t.decimals == 0:
		case t.sort == signToken && (t.sign == ',' || t.sign == '-' || t.sign == '–' || t.sign == ';'):
		case t.sort == signToken && t.sign == ']':
			return s.at(p-1).sort != numberToken // "86 [28]" is a figure with its share
		default:
			return false
		}
	}
	return false
}

// partOfName: "Vel-300", "#25", "25/.06", "Q100", "T1", "n°5", "3D".
func (s *sentence) partOfName(i int) bool {
	t, p := s.at(i), s.at(i-1)
	switch {
	case !t.gap && p.sort == signToken && (p.sign == '-' || p.sign == '‐' || p.sign == '‑' || p.sign == '–') && !p.gap && s.sortOf(i-2) == wordToken && !t.negative:
		return true
	case p.sort == signToken && (p.sign == '#' || p.sign == '№'):
		return true
	case !t.gap && p.sort == wordToken && t.start == p.end:
		return !p.is.has(unitWord)
	case s.sign(i+1) == '/' && s.sortOf(i+2) == numberToken && !s.at(i+1).gap:
		return true
	case p.sign == '/' && s.sortOf(i-2) == numberToken && !p.gap && !t.gap:
		return true
	}
	if n := s.at(i + 1); n.sort == wordToken && !n.gap {
		if n.end-n.start == 1 && !n.is.any(setOf(unitWord, timeUnit, foldWord)) && t.decimals == 0 {
			return true // "Figures 5a and 5b"
		}
		switch s.raw(i+1, i+2) {
		case "st", "nd", "rd", "th", "D":
			return true
		}
	}
	return false
}

// isP: p or P, then =, <, >, "of" or a damaged sign, then the number.
func (s *sentence) isP(i int) bool {
	t := s.at(i)
	if v := math.Abs(t.value); v > 1 || t.negative {
		return false
	}
	for j, n := i-1, 0; j >= s.from && n < 5; j, n = j-1, n+1 {
		u := s.at(j)
		if u.sort == wordToken {
			text := s.raw(j, j+1)
			if text == "p" || text == "P" || text == "Ps" || text == "ps" {
				return true
			}
			switch strings.ToLower(text) {
			case "value", "values", "of", "was", "is", "all", "and", "to", "from":
				continue
			}
			return false
		}
		if u.sort == numberToken {
			if u.value > 1 || n > 3 {
				return false
			}
			continue
		}
		switch u.sign {
		case '=', '<', '>', '≤', '≥', ',', '[', '\\', '¼', '5', '.', ':', '-', '–', '/', '‹', '›', '˂', '˃', '⩽', '⩾', 'ﬁ', '≈', '(':
			continue
		}
		if u.sort == markToken {
			continue
		}
		return false
	}
	return false
}

// isStat: a number after "F(2,27) =", "t =", "r =", "α =", "effect size".
func (s *sentence) isStat(i int) bool {
	if s.inStatBrackets(i) {
		return true
	}
	j := i - 1
	if c := s.sign(j); c == '=' || c == ':' || c == '<' || c == '>' {
		j--
	} else if s.word(j) == "of" || s.word(j) == "was" {
		j--
		return s.is(j, statisticWord) && !s.is(j, confidence)
	} else if !s.is(j, statisticWord) {
		return false
	}
	if s.sign(j) == ')' {
		if o := int(s.at(j).paren); o > s.from && statName(s.raw(o-1, o)) != "" {
			return true
		}
	}
	if s.sortOf(j) == markToken {
		j--
	}
	if s.is(j, statisticWord) {
		return true
	}
	switch s.raw(j, j+1) {
	case "F", "t", "T", "z", "Z", "H", "U", "W", "r", "R", "χ", "X", "α", "β", "κ", "η", "d", "df", "rho", "ρ", "ICC", "q", "Q", "x", "chi", "square", "squared", "McNemar", "λ":
		return s.sign(i-1) == '=' || s.sign(i-1) == ':'
	}
	return false
}

// inStatBrackets: the degrees of freedom in "F(2,27)".
func (s *sentence) inStatBrackets(i int) bool {
	p := int(s.at(i).paren)
	return p > s.from && s.sortOf(p-1) == wordToken && !s.at(p).gap && statName(s.raw(p-1, p)) != ""
}

func (s *sentence) isN(i int) bool {
	if s.at(i).decimals > 0 {
		return false
	}
	for j, n := i-1, 0; n < 3; j, n = j-1, n+1 {
		switch u := s.at(j); {
		case u.sign == '=' || u.sign == ':':
			continue
		case u.sort == wordToken && u.end-u.start == 1:
			c := s.text[u.start]
			return (c == 'n' || c == 'N') && n > 0
		default:
			return false
		}
	}
	return false
}

// isConfidence: "95% CI", "95% confidence", and the bounds behind it.
func (s *sentence) isConfidence(q *quantity) bool {
	if q.percent && s.is(q.end, confidence) {
		return true
	}
	for j, n := q.at-1, 0; n < 9; j, n = j-1, n+1 {
		t := s.at(j)
		switch {
		case t.is.has(confidence) || t.inside && s.covered(j, setOf(confidence)):
			return true
		case t.sort == numberToken && n < 8, t.sort == markToken:
		case t.sort == signToken && strings.ContainsRune("=:,-–−%([", t.sign):
		case t.is.has(toWord), t.is.has(unitWord), t.is.has(timeUnit):
		case t.sort == wordToken && (s.raw(j, j+1) == "of" || s.raw(j, j+1) == "for" || s.raw(j, j+1) == "difference" || s.raw(j, j+1) == "from" || s.raw(j, j+1) == "and"):
		default:
			return false
		}
		if t.sign == '(' || t.sign == '[' {
			// only one bracket is opened between "CI" and its bounds
			return s.is(j-1, confidence)
		}
	}
	return false
}

// isSpreadMark: "± 12", "SD 12", "(SE: 0.5)".
func (s *sentence) isSpreadMark(i int) bool {
	switch s.sign(i - 1) {
	case '±', '∓':
		return true
	case '/':
		return s.sign(i-2) == '+' // +/-
	}
	if s.sign(i-1) == '-' && s.sign(i-2) == '/' && s.sign(i-3) == '+' || s.at(i).negative && s.sign(i-1) == '/' && s.sign(i-2) == '+' {
		return true
	}
	j := i - 1
	if c := s.sign(j); c == ':' || c == '=' {
		j--
	}
	if s.word(j) == "of" {
		j--
	}
	return s.any(j, setOf(spreadSD, spreadSE, spreadIQR, spreadCV)) || s.is(j, spreadRange) && s.at(j).paren >= 0
}

// isLabel: "Table 2", "groups 1, 2, 4 and 5", "day 7", "in 2010".
func (s *sentence) isLabel(i int) bool {
	t := s.at(i)
	if t.decimals > 0 {
		return false
	}
	if t.value >= 1900 && t.value <= 2100 {
		switch strings.ToLower(s.raw(i-1, i)) {
		case "in", "since", "until", "(", "et", "al", ".", ",":
			if t.end-t.start == 4 && s.sign(i+1) != '%' && (s.sign(i-1) != ',' || s.at(i).paren >= 0) && !s.is(i+1, unitWord) {
				return true
			}
		}
	}
	for j, n := i-1, 0; n < 12; j, n = j-1, n+1 {
		u := s.at(j)
		switch {
		case u.is.has(label):
			return !(u.is.has(timeUnit) && s.sortOf(j-1) == numberToken) // "10 days 12" is no label
		case u.sort == numberToken && u.decimals == 0:
		case u.sort == signToken && strings.ContainsRune(",-–.&:", u.sign):
			if u.sign == ':' && n > 0 {
				return false
			}
		case u.sort == wordToken && (u.is.has(toWord) && !u.inside || s.raw(j, j+1) == "and" || s.raw(j, j+1) == "or"):
		default:
			return false
		}
	}
	return false
}

// isRatio: a hazard, odds or rate ratio: "HR 3.13", "rate ratio 0.63", "RR: 0.42".
func (s *sentence) isRatio(i int) bool {
	for j, n := i-1, 0; n < 12; j, n = j-1, n+1 {
		u := s.at(j)
		switch {
		case u.is.has(ratioWord) && !u.inside && (u.span > 1 || u.end-u.start > 3 || s.text[u.end-1] < 'a'):
			return true // "OR 1.2", not "4 or 12"
		case u.inside, u.sort == signToken && strings.ContainsRune("=:,", u.sign):
		case u.sort == wordToken && !u.is.any(adjectives) && u.paren >= 0 && s.at(i).paren == u.paren:
		case u.sort == wordToken && (s.raw(j, j+1) == "of" || s.raw(j, j+1) == "was"):
		default:
			return false
		}
	}
	return false
}

// isCondition: "at 37 °C", "after 6 months", "over 0 to 2 h".
func (s *sentence) isCondition(q *quantity) bool {
	if q.unit == "°C" || q.unit == "°F" {
		return true
	}
	if q.unit == "ppm" || q.unit == "rpm" {
		return true
	}
	j := q.at - 1
	if s.raw(j, j+1) == "between" && s.raw(q.end, q.end+1) == "and" && s.sortOf(q.end+1) == numberToken {
		return true
	}
	if n := len(s.quants); n > 0 && s.raw(j, j+1) == "and" && s.quants[n-1].end == j && s.quants[n-1].role == roleCondition && s.raw(s.quants[n-1].at-1, s.quants[n-1].at) == "between" {
		return true
	}
	if s.at(q.at).value == 0 && s.is(q.end, toWord) && s.timeFollows(q.end) {
		return true
	}
	if s.sign(j) == '–' || s.sign(j) == '-' || s.is(j, toWord) {
		if s.sortOf(j-1) == numberToken && len(s.quants) > 0 && s.quants[len(s.quants)-1].role == roleCondition {
			return true
		}
	}
	if !q.time && !(s.is(q.end, toWord) && s.sortOf(q.end+1) == numberToken) {
		return false
	}
	for s.any(j, setOf(approx, filler, bothWord)) || s.raw(j, j+1) == "the" {
		j--
	}
	if s.is(j, timeBefore) || s.raw(j, j+1) == "of" && s.is(q.end, endTime) {
		return q.time || s.timeFollows(q.end)
	}
	switch s.raw(j, j+1) {
	case "first", "last", "next", "previous", "by", "≤", "≥":
		return q.time && !s.any(j-1, verbs)
	}
	return q.time && (s.sign(j) == '≤' || s.sign(j) == '≥') || q.time && s.any(q.end, setOf(baseTime, endTime)) && s.word(q.end) != "pre" && s.word(q.end) != "before"
}

// timeFollows: "0 to 2 h".
func (s *sentence) timeFollows(i int) bool {
	for n := 0; n < 4; n++ {
		if s.is(i+n, timeUnit) {
			return true
		}
	}
	return false
}

// isThreshold: "≥ 5 mm", "<7%" without a comparison behind it.
func (s *sentence) isThreshold(i int, q quantity) bool {
	switch q.relation {
	case extract.Less, extract.Greater, extract.LessEqual, extract.GreaterEqual:
		return !(q.percent && s.comparisonFollows(q.end))
	}
	// "above 13.9 mmol/L", "up to 5 mg"
	if s.any(i-1, bounds) && s.at(i-1).span == 1 && !s.at(i-1).is.has(adjUp) && !q.percent && q.unit != "" && s.word(i-1) != "over" {
		return true
	}
	if (s.word(i-1) == "above" || s.word(i-1) == "below" || s.word(i-1) == "to" && s.word(i-2) == "up") && !q.percent && q.unit != "" {
		return true
	}
	// "10% or less", "7 or more"
	return s.raw(q.end, q.end+1) == "or" && s.any(q.end+1, setOf(adjUp, adjDown)) && !s.is(q.end+2, comparator)
}

// comparisonFollows reports whether an adjective of comparison stands behind
// a percentage, with its other side somewhere after it: "<6% lower versus".
func (s *sentence) comparisonFollows(i int) bool {
	for j := i; j < i+3; j++ {
		if s.any(j, adjectives) {
			for k := j + 1; k < s.to && k < j+12; k++ {
				if s.is(k, comparator) {
					return true
				}
			}
			return false
		}
	}
	return false
}

// isConcentration: "5 % KNO₃", "2 % lidocaine", "17% EDTA".
func (s *sentence) isConcentration(i int) bool {
	t := s.at(i)
	if t.sort != wordToken {
		return false
	}
	if s.any(i+1, setOf(nounUp, nounDown, adjUp, adjDown)) {
		return false // "1.3 % A1C reduction"
	}
	if t.is.has(notClaim) {
		return true
	}
	if t.word != nil {
		return false
	}
	upper := 0
	for _, c := range s.text[t.start:t.end] {
		if c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' {
			upper++
		}
	}
	return upper > 1 || t.upper && s.sortOf(i+1) == markToken && !s.at(i+1).gap
}

// isCount: "12 specimens", "14/15", "three of 20".
func (s *sentence) isCount(q *quantity) bool {
	if q.percent || s.at(q.at).decimals > 0 {
		return false
	}
	for j := q.end; j < q.end+3; j++ {
		if s.is(j, counted) {
			q.counted = true
			return !s.versusNear(q.at)
		}
		if s.sortOf(j) != wordToken {
			return false
		}
	}
	return false
}

func (s *sentence) versusNear(i int) bool {
	for j := i - 6; j < i+6; j++ {
		if s.is(j, versus) && s.at(j).span == 1 {
			return true
		}
	}
	return false
}
