package statement

import (
	"math"
	"strconv"
	"strings"

	"probity/claims"
	"probity/extract"
)

// folds reads "1.4-fold higher", "three times as long as", "twice that of",
// "half the number", "a third less", "by a factor of 2.5".
func (s *sentence) folds() []found {
	var out []found
	for i := s.from; i < s.to; i++ {
		t := s.at(i)
		if t.inside && !t.is.any(setOf(kWord, halfWord, foldWord, timesWord, fraction)) {
			continue
		}
		var f found
		var ok bool
		switch {
		case t.is.has(magnitude):
			f, ok = s.magnitudeClaim(i)
		case t.is.has(factorWord):
			f, ok = s.factorClaim(i)
		case t.is.has(kWord):
			f, ok = s.kClaim(i)
		case t.is.has(foldWord):
			f, ok = s.timesClaim(i, true)
		case t.is.has(timesWord), s.crossAt(i):
			f, ok = s.timesClaim(i, false)
		case t.is.has(halfWord):
			f, ok = s.halfClaim(i)
		case t.is.has(fraction):
			f, ok = s.fractionClaim(i)
		}
		if ok {
			out = append(out, f)
			i = max(i, f.end-1)
		}
	}
	return out
}

// multiple finds the number that "fold" or "times" at i counts: 2.5, "three",
// "1.3 - 1.6", "two to three".
func (s *sentence) multiple(i int) (value, high extract.Number, at int, isWord, ok bool) {
	j := i - 1
	if c := s.sign(j); (c == '-' || c == '‐' || c == '‑' || c == '–') && s.sortOf(j) == signToken {
		j--
	}
	num := func(j int) (extract.Number, bool, bool) {
		t := s.at(j)
		switch {
		case t.sort == numberToken && !t.negative:
			return s.number(j), false, true
		case t.is.has(numberWord) && t.sort == wordToken && t.value > 1:
			n := extract.Number{Text: s.raw(j, j+1), Value: t.value, Place: s.place}
			n.Place.Start, n.Place.End = t.start, t.end
			return n, true, true
		}
		return extract.Number{}, false, false
	}
	value, isWord, ok = num(j)
	if !ok {
		return value, high, j, false, false
	}
	k := j - 1
	switch c := s.sign(k); {
	case c == '-' || c == '–' || c == '—', s.is(k, toWord) && !s.is(s.skipLeft(k-2), fromWord), s.raw(k, k+1) == "or":
		k--
		if s.sign(k) == '-' {
			k--
		}
		if s.is(k, foldWord) {
			k--
		}
		if s.sign(k) == '-' {
			k--
		}
		if low, _, lowOK := num(k); lowOK && low.Value < value.Value {
			return low, value, k, isWord, true
		}
	}
	return value, high, j, isWord, true
}

func (s *sentence) foldStatement(value, high extract.Number, at, end int) *claims.Statement {
	st := &claims.Statement{Kind: claims.Fold, Form: claims.Times, Unit: "x", Value: value, High: high, Printed: s.raw(at, end)}
	st.Value.Relation = s.boundOf(at, s.relationBefore(at))
	st.Most = s.mostOf(at)
	return st
}

// timesClaim: "2.5-fold higher", "increased 45-fold", "three times as long".
func (s *sentence) timesClaim(i int, fold bool) (found, bool) {
	value, high, at, _, ok := s.multiple(i)
	if !ok || value.Value == 0 {
		return found{}, false
	}
	end := i + 1
	f := found{at: at, end: end}
	if s.any(end, setOf(timesOther, counted)) || s.word(end) == "and" && !s.any(end+1, adjectives) {
		return f, false
	}
	f.st = s.foldStatement(value, high, at, end)
	sn, right := s.senseRight(end)
	switch {
	case right:
	case s.asAs(end):
		sn, right = s.asSense(end, end), true
	case s.ofThat(end):
		sn = sense{at: end, dir: claims.Higher}
		right = true
	case !fold && s.nounOf(end) && (s.sign(i) == 0 || s.r.typed):
		sn = sense{at: end, dir: claims.Higher}
		right = true
	}
	if !right {
		left, ok := s.foldLeft(at)
		if !ok {
			return f, false
		}
		sn = left
	} else if sn.diff && !sn.noun {
		return f, false
	}
	if s.crossAt(i) && !right {
		return f, false
	}
	if value.Value < 1 && sn.dir == claims.Higher {
		sn.dir = claims.DirectionNotGiven // "0.8 times the load": the size carries the direction
	}
	f.sense = sn
	f.st.Orderless = sn.diff && sn.noun
	s.foldSense(f.st, sn, fold, end)
	return f, true
}

// foldSense gives the form: "k-fold" and "k times as" are ratios; "k times
// more" is read as 1 + k by some, "k times less" has no one meaning.
func (s *sentence) foldSense(st *claims.Statement, sn sense, fold bool, end int) {
	s.senseTo(st, sn)
	switch {
	case sn.at == end && s.raw(end, end+1) == "as", !s.any(sn.at, adjectives.or(nouns).or(verbs)):
		st.Form = claims.Times
	case fold || s.any(sn.at, verbs) && sn.at < end:
		st.Form = claims.Times
	case s.any(sn.at, setOf(adjDown)) || s.word(sn.at) == "less" || s.word(sn.at) == "fewer":
		st.Form = claims.TimesLess
	case s.any(sn.at, setOf(adjUp)):
		st.Form = claims.TimesMore
	}
}

// asAs: "as long as", "as many", "as likely to".
func (s *sentence) asAs(i int) bool { return s.raw(i, i+1) == "as" }

// crossAt: the sign of "5× longer", and the letter that stands for it in "5x
// longer" and "5 x longer"; not that of "25 x 4 mm".
func (s *sentence) crossAt(i int) bool {
	t := s.at(i)
	if t.sort == signToken {
		return t.sign == '×'
	}
	return t.sort == wordToken && isCross(s.text[t.start:t.end]) && s.sortOf(i-1) == numberToken && s.sortOf(i+1) == wordToken
}

func isCross(word string) bool { return word == "x" || word == "X" }

// asSense is the direction of "k times as long as" whose "as" stands at i. An
// adjective that turns the measured outcome round does so here too: "twice as
// flexible" is told of a lower bending load.
func (s *sentence) asSense(at, i int) sense {
	out := sense{at: at, dir: claims.Higher}
	words, quality := s.r.lex.lex.words, strings.ToLower(s.raw(i+1, i+2))
	if w := words[quality+"er"]; w != nil && w.is.has(inverting) {
		out.inverts = w.note
	}
	if more := words["more"]; more != nil {
		for _, p := range more.phrases {
			if p.is.has(inverting) && len(p.rest) == 1 && p.rest[0].text == quality {
				out.inverts = p.note
			}
		}
	}
	return out
}

// ofThat: "that of", "the number of", "those of", "of that of".
func (s *sentence) ofThat(i int) bool {
	if s.raw(i, i+1) == "of" {
		i++
	}
	w := s.raw(i, i+1)
	return (w == "that" || w == "those") && (s.raw(i+1, i+2) == "of" || s.raw(i+1, i+2) == "for" || s.raw(i+1, i+2) == "in" || s.raw(i+1, i+2) == "with" || s.raw(i+1, i+2) == "seen" || s.raw(i+1, i+2) == "observed" || s.raw(i+1, i+2) == "recorded" || s.raw(i+1, i+2) == "achieved")
}

// nounOf: "had three times the influence", "two times the load of B".
func (s *sentence) nounOf(i int) bool {
	return s.raw(i, i+1) == "the" && s.sortOf(i+1) == wordToken && !s.is(i+1, counted)
}

// foldLeft: "increased 45-fold", "an increase of threefold", "doubled".
func (s *sentence) foldLeft(at int) (sense, bool) {
	if v, ok := s.senseLeft(at); ok {
		return v, true
	}
	j := s.skipLeft(at - 1)
	if v, ok := s.senseAt(j); ok && s.any(j, setOf(verbUp, verbDown, verbMerit, nounUp, nounDown)) {
		return v, true
	}
	// "was increased in group B 3-fold": not read
	return sense{}, false
}

func wordNumber(s *sentence, i, end int, value float64) extract.Number {
	p := s.place
	p.Start, p.End = s.at(i).start, s.at(end-1).end
	return extract.Number{Text: s.raw(i, end), Value: value, Decimals: decimalsOf(value), Place: p}
}

func decimalsOf(x float64) int {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if k := strings.IndexByte(text, '.'); k >= 0 {
		return min(len(text)-k-1, 2)
	}
	return 0
}

// kClaim: "twice as", "double that of", "doubled", "threefold higher".
func (s *sentence) kClaim(i int) (found, bool) {
	t := s.at(i)
	end := i + int(t.span)
	f := found{at: i, end: end}
	value := wordNumber(s, i, end, t.value)
	text := strings.ToLower(value.Text)
	numeral := strings.Contains(text, "fold") && text != "twofold" && text != "two-fold" && text != "two fold" // "threefold" rounds as a numeral does
	f.st = s.foldStatement(value, extract.Number{}, i, end)
	f.st.Word = !numeral
	verb := strings.HasSuffix(text, "d") && text != "twofold" && !strings.HasSuffix(text, "fold") || strings.HasSuffix(text, "ing") || strings.HasSuffix(text, "es")
	if sn, ok := s.senseRight(end); ok && !verb {
		f.sense = sn
		s.foldSense(f.st, sn, true, end)
		if s.any(sn.at, setOf(adjDown)) && sn.noun == false {
			f.st.Form = claims.Times
		}
		return f, true
	}
	switch {
	case verb:
		if s.sign(end) == '-' || s.is(end, notClaim) {
			return f, false
		}
		f.sense = sense{at: i, dir: claims.Higher}
	case s.asAs(end):
		f.sense = s.asSense(i, end)
	case s.ofThat(end):
		f.sense = sense{at: i, dir: claims.Higher}
	case s.nounOf(end) && !s.any(end+1, setOf(timeUnit)):
		f.sense = sense{at: i, dir: claims.Higher}
	case s.is(end, relative) || s.armAt(end) != nil || s.is(end, control):
		f.sense = sense{at: i, dir: claims.Higher}
	case s.raw(end, end+1) == "of" && (s.armAt(end+1) != nil):
		f.sense = sense{at: i, dir: claims.Higher}
	default:
		sn, ok := s.foldLeft(i)
		if !ok || text == "double" || text == "triple" || text == "doubles" {
			return f, false
		}
		f.sense = sn
		s.foldSense(f.st, sn, true, end)
		return f, true
	}
	s.senseTo(f.st, f.sense)
	return f, true
}

// halfClaim: "half as likely", "less than half that of", "halved", "by half",
// "half the number"; not "the first half", "half of the teeth", "half-life".
func (s *sentence) halfClaim(i int) (found, bool) {
	t := s.at(i)
	end := i + int(t.span)
	f := found{at: i, end: end}
	value := wordNumber(s, i, end, 0.5)
	value.Decimals = 1
	f.st = s.foldStatement(value, extract.Number{}, i, end)
	f.st.Word, f.st.Direction = true, claims.Lower
	f.sense = sense{at: i, dir: claims.Lower}
	text := s.word(i)
	switch {
	case text == "halved" || text == "halving" || text == "halves" && s.is(end, equalWord):
	case s.sign(end) == '-' || s.sign(i-1) == '-' && !s.at(i-1).gap && s.word(i-2) != "one":
		return f, false
	case s.is(i-1, thirdOther) || s.raw(i-1, i) == "a" && s.raw(i-2, i-1) == "and" || s.word(i-1) == "and":
		return f, false
	case s.raw(i-1, i) == "in" && s.cutBefore(i):
	case s.onceMore(end):
		// "half as much again": a change of 50 %
		f.sense, f.st.Direction = sense{at: i, dir: claims.Higher}, claims.Higher
		f.st.Kind, f.st.Form, f.st.Unit = claims.Percent, claims.Change, "%"
		f.st.Value.Value, f.st.Value.Decimals = 50, 0
		return f, true
	case s.asAs(end):
		f.sense.inverts = turned(s.asSense(i, end).inverts)
	case s.ofThat(end):
	case s.nounOf(end) && !s.any(end+1, setOf(counted, timeUnit)):
	case s.raw(end, end+1) == "of" && s.shareOfThing(end+1):
	case s.is(s.skipLeft(i-1), adjDown), strings.EqualFold(s.raw(s.skipLeft(i-1), s.skipLeft(i-1)+1), "by"):
		sn, ok := s.senseLeft(i)
		if !ok {
			return f, false
		}
		f.sense = sn
		f.st.Direction = sn.dir
		if sn.dir == claims.Higher {
			// "increased by half": a change of 50 %
			f.st.Kind, f.st.Form, f.st.Unit = claims.Percent, claims.Change, "%"
			f.st.Value.Value, f.st.Value.Decimals = 50, 0
		}
	default:
		return f, false
	}
	s.senseTo(f.st, f.sense)
	return f, true
}

// turned gives the note of an inverting adjective the other sign: half as
// flexible is told of a higher load.
func turned(note string) string {
	if what, ok := strings.CutSuffix(note, ":-1"); ok {
		return what + ":1"
	}
	if what, ok := strings.CutSuffix(note, ":1"); ok {
		return what + ":-1"
	}
	return note
}

// onceMore: "as much again as", "again as much as" after a half.
func (s *sentence) onceMore(end int) bool {
	for k := end; k < end+4; k++ {
		if strings.EqualFold(s.raw(k, k+1), "again") {
			return true
		}
	}
	return false
}

// cutBefore: "cuts preparation time in half".
func (s *sentence) cutBefore(i int) bool {
	for k := i - 2; k > i-9; k-- {
		if s.is(k, verbDown) {
			return true
		}
	}
	return false
}

// shareOfThing: "half of DNA positivity", "half of the improvement seen", not
// "half of the specimens" and not "half of all".
func (s *sentence) shareOfThing(i int) bool {
	for j := i; j < i+6; j++ {
		t := s.at(j)
		if t.is.has(counted) || t.is.has(timeUnit) || s.raw(j, j+1) == "all" || s.raw(j, j+1) == "them" || s.raw(j, j+1) == "these" || s.raw(j, j+1) == "our" {
			return false
		}
		if j > i && (s.raw(j, j+1) == "of" || s.raw(j, j+1) == "in" || s.raw(j, j+1) == "seen" || s.sign(j) == '(') {
			return true
		}
		if t.sort == signToken || t.sort == emptyToken {
			return false
		}
	}
	return false
}

// fractionClaim: "one-sixth higher", "decreased by over a third", "two thirds
// that of"; not "the apical third", "the third group".
func (s *sentence) fractionClaim(i int) (found, bool) {
	t := s.at(i)
	at, top := i, 1.0
	j := i - 1
	if s.sign(j) == '-' {
		j--
	}
	switch {
	case s.is(j, numberWord) && s.at(j).value < t.value:
		at, top = j, s.at(j).value
	case s.raw(j, j+1) == "a" || s.raw(j, j+1) == "A":
		at = j
	default:
		return found{}, false
	}
	if s.is(i-1, thirdOther) || top > 1 && !strings.HasSuffix(s.word(i), "s") && top != 1 {
		return found{}, false
	}
	end := i + 1
	f := found{at: at, end: end}
	share := top / t.value
	value := wordNumber(s, at, end, math.Round(share*10000)/100)
	value.Decimals = 2
	f.st = &claims.Statement{Kind: claims.Percent, Form: claims.Change, Unit: "%", Value: value, Printed: value.Text, Word: true}
	f.st.Value.Relation = s.boundOf(at, extract.Equal)
	if sn, ok := s.senseRight(end); ok && !sn.diff {
		f.sense = sn
		s.senseTo(f.st, sn)
		return f, true
	}
	if s.ofThat(end) || s.asAs(end) || s.nounOf(end) && s.raw(end+2, end+3) == "of" {
		f.sense = sense{at: at, share: true}
		f.st.Form = claims.Share
		return f, true
	}
	if by := s.skipLeft(at - 1); strings.EqualFold(s.raw(by, by+1), "by") {
		if sn, ok := s.governing(by-1, 14, true); ok {
			f.sense = sn
			s.senseTo(f.st, sn)
			return f, true
		}
	}
	return f, false
}

// factorClaim: "by a factor of 2.5", "higher by a factor of two".
func (s *sentence) factorClaim(i int) (found, bool) {
	j := i + int(s.at(i).span)
	for s.any(j, setOf(approx, filler, boundUp, boundDown)) {
		j += int(s.at(j).span)
	}
	t := s.at(j)
	var value extract.Number
	switch {
	case t.sort == numberToken:
		value = s.number(j)
	case t.is.has(numberWord):
		value = wordNumber(s, j, j+1, t.value)
	default:
		return found{}, false
	}
	f := found{at: j, end: j + 1}
	f.st = s.foldStatement(value, extract.Number{}, j, j+1)
	k := i - 1
	if s.raw(k, k+1) == "a" {
		k--
	}
	if k = s.skipLeft(k); !strings.EqualFold(s.raw(k, k+1), "by") {
		return f, false
	}
	sn, ok := s.governing(k-1, 14, true)
	if !ok {
		return f, false
	}
	f.sense = sn
	s.senseTo(f.st, sn)
	return f, true
}

// magnitudeClaim: "an order of magnitude higher", "two orders of magnitude".
func (s *sentence) magnitudeClaim(i int) (found, bool) {
	end := i + int(s.at(i).span)
	at, orders := i, 1.0
	if s.is(i-1, numberWord) {
		at, orders = i-1, s.at(i-1).value
	} else if s.sortOf(i-1) == numberToken && s.at(i-1).value < 10 && s.at(i-1).value > 0 {
		at, orders = i-1, s.at(i-1).value
	}
	f := found{at: at, end: end}
	sn, ok := s.senseRight(end)
	if !ok {
		if sn, ok = s.foldLeft(at); !ok {
			return f, false
		}
	}
	value := wordNumber(s, at, end, math.Pow(10, math.Min(orders, 12)))
	f.st = s.foldStatement(value, extract.Number{}, at, end)
	f.st.Word = true
	if f.st.Value.Relation == extract.Equal {
		f.st.Value.Relation = extract.About
	}
	f.sense = sn
	s.senseTo(f.st, sn)
	return f, true
}
