package numeral

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// figure reads a figure of running text with the spread that belongs to it:
// "12.3 ± 1.1 MPa", "12.3 MPa (SD = 1.1 MPa)", "3.1 [2.0–4.5]", "5–10 %".
func (s *scanner) figure() bool {
	from := s.i
	f := Figures{Form: Figure, Number: s.at(0).number}
	hyphen := false
	k := 1
	if n, items, unit, ok := s.duration(); ok && unit != "min:s" { // "1:3" in a sentence is a ratio
		f.Number, f.Unit, k = n, unit, items
	}
	if s.is(k, aRaised) {
		k++ // grouping letters or a citation
	}
	if s.is(k, aDash) && s.at(k).glued && s.is(k+1, aWord) && s.at(k+1).glued {
		hyphen = true
		f.Unit = s.at(k + 1).text
		s.emit(f, from, from+k+2)
		s.tokens[len(s.tokens)-1].Hyphen = hyphen
		return true
	}
	if j, ok := s.upper(k); ok {
		return s.limitsOf(f, from, k, j)
	}
	k = s.unit(&f, k)
	k = s.spreadOf(&f, k)
	s.emit(f, from, from+k)
	return true
}

// upper finds the upper figure of a range: "5–10", "5 - 10"; "from 5 to 10"
// is left as two figures, since it may be a change.
func (s *scanner) upper(k int) (int, bool) {
	if !s.is(k, aDash) || !s.is(k+1, aNumber) {
		return 0, false
	}
	a, b := s.at(0).number, s.at(k+1).number
	if b.Value <= a.Value && a.Value > 0 {
		return 0, false // 3630-1
	}
	return k + 1, true
}

func (s *scanner) limitsOf(f Figures, from, k, j int) bool {
	f.Low, f.High, f.Form = f.Number, s.at(j).number, Limits
	f.Number = f.Low
	k = s.unit(&f, j+1)
	s.emit(f, from, from+k)
	return true
}

// unit reads "%" or the words after a figure that may be its unit, up to
// three, as far as a spread or a break; a single word is taken at once.
func (s *scanner) unit(f *Figures, k int) int {
	if s.is(k, aPercent) {
		f.Percent, f.Unit = true, "%"
		return k + 1
	}
	if s.is(k, aRaised) {
		k++
	}
	if !s.is(k, aWord) || f.Unit != "" {
		return k
	}
	for n := 1; n <= 3 && s.is(k+n-1, aWord); n++ {
		if next := s.at(k + n); next.class == aSign || next.class == '(' || next.class == '[' {
			f.Unit = s.l.slice(s.at(k).from, s.at(k+n-1).to)
			if s.spreadOf(&Figures{Form: Figure}, k+n) > k+n {
				return k + n
			}
			break
		}
	}
	f.Unit = unitWords(s, k)
	return k
}

// unitWords gives the first word after the figure and what is joined to it,
// without taking it: whether it is a unit is for the catalogue to say.
func unitWords(s *scanner, k int) string {
	end := k
	for n := 1; n < 3 && s.is(k+n, aWord); n++ {
		if utf8.RuneCountInString(s.at(k+n).text) > 4 || !unicode.IsLetter([]rune(s.at(k + n).text)[0]) {
			break
		}
		if len(s.at(k).text) > 3 && s.at(k).text != "Vickers" {
			break
		}
		end = k + n
	}
	if end > k && (len(s.at(end).text) > 3 || isStop(s.at(k+1).text)) {
		end = k
	}
	return s.l.slice(s.at(k).from, s.at(end).to)
}

func isStop(w string) bool {
	switch strings.ToLower(w) {
	case "and", "in", "for", "of", "at", "to", "was", "the", "vs", "on", "by", "with", "or", "as":
		return true
	}
	return false
}

// spreadOf reads the spread at item k, if one stands there, and gives the
// item after it.
func (s *scanner) spreadOf(f *Figures, k int) int {
	switch {
	case s.is(k, aSign) && s.is(k+1, aNumber):
		f.Form, f.Spread, f.Sign = Spread, s.at(k+1).number, "±"
		return s.unitAfter(f, k+2)
	case s.is(k, aSign) && s.is(k+1, '(') && s.is(k+2, aNumber) && s.is(k+3, ')'):
		f.Form, f.Spread, f.Sign = Spread, s.at(k+2).number, "±"
		return s.unitAfter(f, k+4)
	case s.is(k, '+') && s.is(k+1, aNumber) && s.at(k+1).number.Decimals == f.Number.Decimals && f.Number.Decimals > 0 && f.Number.Known():
		f.Form, f.Spread, f.Sign = Spread, s.at(k+1).number, "?"
		f.Note = "a + stands between the two figures; read as ±"
		return s.unitAfter(f, k+2)
	case s.is(k, '(') || s.is(k, '['):
		return s.bracketOf(f, k)
	}
	return k
}

// unitAfter reads the unit after a spread, where none stood before it.
func (s *scanner) unitAfter(f *Figures, k int) int {
	if s.is(k, aPercent) {
		f.Percent = true
		f.Unit = "%"
		return k + 1
	}
	if f.Unit == "" && s.is(k, aWord) {
		f.Unit = unitWords(s, k)
	}
	return k
}

// bracketOf reads a bracket after a figure where it holds a spread or a pair
// and nothing else; other brackets are left for the next tokens.
func (s *scanner) bracketOf(f *Figures, k int) int {
	end := s.closed(k)
	if end == 0 || end-k > 12 {
		return k
	}
	in := s.inside(k+1, end)
	if in.count || strings.ContainsFunc(s.l.slice(s.at(k).from, s.at(end).to), func(r rune) bool { return r == ';' || r == '<' || r == '>' }) && len(in.numbers) != 2 {
		return k
	}
	mark := strings.Join(in.words, " ")
	for _, w := range in.words {
		if w == "p" || w == "P" || labels[strings.ToLower(strings.TrimRight(w, "."))] {
			return k
		}
	}
	switch {
	case len(in.words) > 4:
		return k
	case len(in.numbers) == 1 && in.percent && !f.Percent && f.Number.Decimals == 0:
		f.Form, f.Spread = Count, in.numbers[0]
	case len(in.numbers) == 1 && (in.percent == f.Percent || f.Percent) && !isCitedYear(in.numbers[0].Text):
		f.Form, f.Spread = Spread, in.numbers[0]
	case len(in.numbers) == 2 && in.numbers[0].Value <= in.numbers[1].Value:
		f.Form, f.Low, f.High = Interval, in.numbers[0], in.numbers[1]
	default:
		return k
	}
	f.Sign, f.Mark = s.at(k).text, mark
	return s.unitAfter(f, end+1)
}

func isCitedYear(s string) bool {
	return len(s) == 4 && (strings.HasPrefix(s, "19") || strings.HasPrefix(s, "20"))
}
