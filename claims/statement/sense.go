package statement

import (
	"strings"

	"probity/claims"
)

// sense is the direction that a word gives a claim.
type sense struct {
	at      int // its token
	dir     claims.Direction
	merit   int8   // better or worse; dir is then open
	inverts string // "time:-1": what the adjective turns round
	diff    bool   // "difference of 20 %": no direction
	over    bool   // "exceeded", "outlasted": the reference is its object
	noun    bool
	abs     bool // "absolute reduction"
	rel     bool // "relative reduction"
	share   bool // "P % of B"
	more    bool // "more", "less": for "k times more"
}

// found is a percent or fold claim as read, before its figures are sought.
type found struct {
	at, end int // tokens of the printed value
	sense   sense
	st      *claims.Statement
	shared  bool // takes its verb from the claim before: "by 31 % … and by 20 %"
}

func (s *sentence) senseAt(i int) (sense, bool) {
	t := s.at(i)
	out := sense{at: i}
	switch {
	case t.inside:
		return out, false
	case t.is.any(setOf(adjUp, verbUp, nounUp)):
		out.dir, out.noun = claims.Higher, t.is.has(nounUp)
		out.more = t.word != nil && t.word.text == "more"
	case t.is.any(setOf(adjDown, verbDown, nounDown)):
		out.dir, out.noun = claims.Lower, t.is.has(nounDown)
		out.more = t.word != nil && (t.word.text == "less" || t.word.text == "fewer")
	case t.is.has(verbOver):
		out.over = true
		out.dir = claims.Direction(t.word.merit)
	case t.is.has(inverting):
		out.inverts = t.note()
		out.more = true
	case t.is.any(setOf(adjMerit, verbMerit, nounMerit)):
		out.merit, out.noun = t.merit(), t.is.has(nounMerit)
	case t.is.any(setOf(nounDiff, verbDiff)):
		out.diff, out.noun = true, t.is.has(nounDiff)
	default:
		return out, false
	}
	return out, true
}

func (t *token) note() string {
	if t.phrase != nil && t.phrase.note != "" {
		return t.phrase.note
	}
	if t.word != nil {
		return t.word.note
	}
	return ""
}

func (t *token) merit() int8 {
	if t.phrase != nil && t.phrase.merit != 0 {
		return t.phrase.merit
	}
	if t.word != nil {
		return t.word.merit
	}
	return 0
}

// stopsRight ends the search for a direction word to the right.
func (s *sentence) stopsRight(i int) bool {
	t := s.at(i)
	switch t.sort {
	case emptyToken, numberToken:
		return true
	case signToken:
		return t.sign != '-' && t.sign != '“' && t.sign != '"' && t.sign != '’' && t.sign != '\''
	}
	if t.is.any(setOf(comparator, versus, clauseWord)) {
		return true
	}
	switch strings.ToLower(s.raw(i, i+1)) {
	case "of", "in", "for", "with", "by", "to", "at", "from", "on", "was", "were", "is", "are", "be", "had", "has", "have", "and", "or", "that", "which",
		"who", "showed", "did", "as", "the", "a", "an", "after", "when", "if", "among", "between", "only", "used", "per", "would", "can", "will":
		return true
	}
	return false
}

// senseRight finds the direction word behind a value: "24 % greater", "37 %
// relative risk reduction", "20 % less covering surface".
func (s *sentence) senseRight(i int) (sense, bool) {
	var out sense
	for j, n := i, 0; n < 5; j++ {
		t := s.at(j)
		if t.sort == markToken || t.inside || t.sort == signToken && (t.sign == '-' || t.sign == '“' || t.sign == '"' || t.sign == '’') {
			continue
		}
		if t.is.has(absolute) {
			out.abs = true
		}
		if t.is.has(relative) {
			out.rel = true
		}
		if v, ok := s.senseAt(j); ok && !(v.diff && !v.noun) {
			v.abs, v.rel = out.abs, out.rel
			// "20 % increased risk", "P % decrease in": the noun or adjective leads
			return v, true
		}
		if t.is.has(notClaim) && n == 0 || t.is.has(counted) || s.stopsRight(j) {
			return out, false
		}
		n++
	}
	return out, false
}

// skipLeft passes what softens or bounds a value: "by about", "nearly", "~".
func (s *sentence) skipLeft(i int) int {
	for {
		t := s.at(i)
		switch {
		case t.inside && s.covered(i, setOf(approx, boundUp, boundDown, filler, meanWord)):
		case t.is.any(setOf(approx, boundUp, boundDown, filler, meanWord)) && !s.clauseAdjective(i):
		case t.sort == signToken && strings.ContainsRune("~∼≈≅<>≤≥+−-–±˜∽⁓", t.sign) && !(t.sign == '-' && !t.gap && s.sortOf(i-1) == wordToken):
		case t.sort == wordToken && t.word == nil && strings.HasSuffix(s.raw(i, i+1), "ly"):
		case t.sort == wordToken && (s.raw(i, i+1) == "a" || s.raw(i, i+1) == "an" || s.raw(i, i+1) == "on"):
		case t.is.any(setOf(significant)):
		default:
			return i
		}
		i--
	}
}

// clauseAdjective: "more" in "50 % more", never a bound there.
func (s *sentence) clauseAdjective(i int) bool {
	t := s.at(i)
	return t.is.any(bounds) && t.span == 1 && t.is.any(adjectives) && !t.is.any(setOf(boundUp, boundDown))
}

// covered reports whether the phrase that covers token i is of these kinds.
func (s *sentence) covered(i int, k kinds) bool {
	for j := i - 1; j >= i-5 && j >= s.from; j-- {
		if !s.toks[j].inside {
			return int(s.toks[j].span) > i-j && s.toks[j].is.any(k)
		}
	}
	return false
}

// senseLeft finds the direction word before a value: "decreased by 14 %", "a
// reduction of 11 %", "the same treatment decreased 34.1 %".
func (s *sentence) senseLeft(i int) (sense, bool) {
	j := s.skipLeft(i - 1)
	switch w := strings.ToLower(s.raw(j, j+1)); {
	case w == "by":
		return s.governing(j-1, 16, true)
	case w == "of":
		if v, ok := s.ofNoun(j - 1); ok {
			return v, true
		}
		for k := j - 1; k > j-5; k-- { // "by an absolute value of"
			if s.raw(k, k+1) == "by" {
				return s.governing(k-1, 16, true)
			}
		}
		return sense{}, false
	case w == "was" || w == "is" || w == "to" && s.is(j-1, verbShare):
		return s.subjectNoun(j, i)
	default:
		if v, ok := s.senseAt(j); ok && v.noun && !v.diff && s.at(j).paren >= 0 {
			return v, true // "(6 % vs 13 %, decrease 7 %)"
		}
		if v, ok := s.senseAt(j); ok && s.any(j, setOf(verbUp, verbDown, verbMerit, verbOver)) {
			return v, true
		}
		// "increased significantly 25 %", "was reduced on average 25 %"
		if s.is(j, verbDiff) {
			return sense{}, false
		}
	}
	return sense{}, false
}

// subjectNoun: "The reduction in load was 24 %", "The difference between P and
// Q amounted to 20 %"; not "the percent decrease was 54 % versus 21 %".
func (s *sentence) subjectNoun(verb, value int) (sense, bool) {
	for k := value; k < value+6; k++ {
		if s.any(k, setOf(versus)) || s.raw(k, k+1) == "and" {
			return sense{}, false
		}
	}
	between := false
	for i, n := verb-1, 0; i >= s.from && n < 14; i, n = i-1, n+1 {
		t := s.at(i)
		if t.sign == ';' || t.sign == ',' || t.is.has(clauseWord) || t.sort == numberToken {
			return sense{}, false
		}
		between = between || s.raw(i, i+1) == "between"
		v, ok := s.senseAt(i)
		if !ok || !v.noun {
			continue
		}
		if s.is(i-1, percentWord) || v.diff && !between || v.merit != 0 || !s.headsClause(i) {
			return sense{}, false
		}
		return v, true
	}
	return sense{}, false
}

// headsClause: the noun is its clause's subject, with at most a few words
// before it: "The mean reduction".
func (s *sentence) headsClause(i int) bool {
	for k, n := i-1, 0; n < 5; k, n = k-1, n+1 {
		if k < s.from || s.sortOf(k) == signToken && s.sign(k) != '-' {
			return true
		}
		if s.raw(k, k+1) == "of" || s.raw(k, k+1) == "with" || s.raw(k, k+1) == "for" {
			return false
		}
	}
	return false
}

// governing looks left for the verb or adjective that "by P %" belongs to.
func (s *sentence) governing(i, reach int, verb bool) (sense, bool) {
	var pending *sense
	abs := false
	for n := 0; n < reach && i >= s.from; n, i = n+1, i-1 {
		t := s.at(i)
		if t.sign == ';' || t.sign == '.' && t.paren < 0 {
			break
		}
		if t.sort == signToken && (t.sign == ')' || t.sign == ']') {
			if o := int(t.paren); o >= s.from {
				n -= min(i-o, 6) // what stands in brackets takes little reach
				i = o
				continue
			}
		}
		if t.is.has(absolute) {
			abs = true
		}
		v, ok := s.senseAt(i)
		if !ok {
			continue
		}
		if v.over || s.any(i, setOf(verbUp, verbDown, verbMerit, adjUp, adjDown, adjMerit, inverting)) || v.noun && !v.diff {
			// "reduced the decrease by": the outermost verb governs, a noun between is its object
			if v.noun && n == 0 && !strings.EqualFold(s.raw(i-1, i), "the") {
				return v, true // "a reduction by 70 %"
			}
			if v.noun && !s.any(i, verbs) && pending == nil && !v.diff {
				c := v
				pending = &c
				continue
			}
			v.abs = abs
			return v, true
		}
		if v.diff && pending == nil && s.any(i, setOf(verbDiff)) {
			v.abs = abs
			return v, true
		}
	}
	if pending != nil {
		pending.abs = abs
		return *pending, true
	}
	return sense{}, false
}

// ofNoun: "a reduction of", "an improvement in bending of", "difference of".
func (s *sentence) ofNoun(i int) (sense, bool) {
	for n := 0; n < 9 && i >= s.from; n, i = n+1, i-1 {
		t := s.at(i)
		if t.sort == signToken && t.sign != '-' && t.sign != ')' || t.sort == numberToken {
			return sense{}, false
		}
		if v, ok := s.senseAt(i); ok && v.noun {
			for k := i - 1; k >= i-3; k-- {
				v.abs = v.abs || s.is(k, absolute)
				v.rel = v.rel || s.is(k, relative)
			}
			return v, true
		}
		if s.is(i, verbShare) || s.any(i, setOf(clauseWord, comparator)) {
			return sense{}, false
		}
		switch strings.ToLower(s.raw(i, i+1)) {
		case "was", "were", "is", "are", "had", "by", "to", "from", "which", "and", "with":
			if n > 0 {
				return sense{}, false
			}
		}
	}
	return sense{}, false
}
