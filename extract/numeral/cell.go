package numeral

import (
	"strings"
	"unicode/utf8"

	"probity/extract"
)

// Cell reads one cell of a table whose figures are printed in style.
func Cell(c extract.Cell, style Style) Reading {
	l := fromRuns(c.Runs)
	out := read(l, style)
	out.place(c.Place)
	return out
}

// Text reads a text as if it were a cell.
func Text(s string, style Style) Reading { return read(flat(extract.Fold(s)), style) }

func (r *Reading) place(at extract.Place) {
	for _, n := range []*extract.Number{&r.Number, &r.Spread, &r.Low, &r.High, &r.N, &r.Min, &r.Max} {
		if n.Known() {
			from, to := n.Place.Start, n.Place.End
			n.Place = at
			n.Place.Start, n.Place.End = from, to
		}
	}
}

// reader walks the items of one cell.
type reader struct {
	l   *line
	it  []item
	i   int
	out Reading
}

func read(l *line, style Style) Reading {
	r := &reader{l: l, it: l.items(style)}
	r.out.Text = l.text
	if len(r.it) == 0 {
		return r.out
	}
	r.head()
	if r.out.Form == None && !r.centre() {
		r.out.Rest = l.text
		return r.out
	}
	for r.i < len(r.it) && r.step() {
	}
	if r.i < len(r.it) {
		r.out.Rest = l.slice(r.it[r.i].from, len(l.r))
	}
	return r.out
}

func (r *reader) at(k int) item {
	if r.i+k < len(r.it) {
		return r.it[r.i+k]
	}
	return item{}
}

func (r *reader) is(k int, c class) bool { return r.at(k).class == c }

// head reads what stands before the first figure: raised letters on the
// left, words, "p <", "n =", and a form that is all in brackets.
func (r *reader) head() {
	if r.is(0, aRaised) {
		r.letters(r.at(0).text, true)
		r.i++
	}
	start := r.i
	for r.i < len(r.it) && (r.is(0, aWord) || r.is(0, ':') || r.is(0, aMark) || r.is(0, aOther) || r.is(0, 127) || r.is(0, '.')) {
		r.i++
	}
	if r.i > start && r.i < len(r.it) {
		r.out.Label = strings.TrimRight(r.l.slice(r.it[start].from, r.it[r.i].from), " :")
	}
	if r.is(0, aRelation) && r.is(1, aNumber) {
		n := r.at(1).number
		n.Relation = relation(r.at(0).text)
		n.Text = r.numberText(n)
		switch strings.ToLower(r.out.Label) {
		case "p", "p value", "p-value":
			r.take(P, n, 2)
		case "n":
			r.take(N, n, 2)
			r.out.N = n
		default:
			r.take(Figure, n, 2)
		}
		return
	}
	switch {
	case (r.is(0, '(') || r.is(0, '[')) && r.closed(0) > 0:
		r.bracketAlone()
	case r.is(0, aSign) && r.is(1, aNumber):
		r.take(Figure, r.at(1).number, 2)
		r.out.Sign = "±"
	}
}

func (r *reader) numberText(n extract.Number) string { return strings.TrimSpace(n.Text) }

func (r *reader) take(f Form, n extract.Number, items int) {
	r.out.Form, r.out.Number = f, n
	r.i += items
}

// centre reads the first figure.
func (r *reader) centre() bool {
	if !r.is(0, aNumber) {
		return false
	}
	if r.is(1, aPercent) && r.is(2, aWord) && strings.EqualFold(r.at(2).text, "ci") {
		if r.out.Mark == "" {
			r.out.Mark = r.at(0).text + "% CI"
		}
		for r.i += 3; r.is(0, ':') || r.is(0, ',') || r.is(0, aRelation); r.i++ {
		}
		return r.centre() // "95% CI 1.2 to 3.4"
	}
	if n, items, unit, ok := r.duration(); ok {
		r.take(Figure, n, items)
		r.out.Unit = unit
		return true
	}
	if r.size() {
		return true
	}
	r.take(Figure, r.at(0).number, 1)
	return true
}

// size reads an instrument size: 25/.06, #25/04.
func (r *reader) size() bool {
	if isSize(r.it, r.i) {
		r.take(Size, r.at(0).number, 3)
		return true
	}
	return false
}

// step reads one thing after the centre, and reports whether it could.
func (r *reader) step() bool {
	it := r.at(0)
	switch it.class {
	case aRaised:
		r.raised()
		return true
	case aMark:
		r.out.Marks += it.text
	case aPercent:
		r.out.Percent = r.out.Percent || r.out.Form == Figure
	case aWord:
		return r.word()
	case aSign:
		return r.spread(1, "±")
	case '(', '[', '{':
		return r.bracket()
	case aDash:
		return r.dash()
	case ',', ';':
		return r.pair()
	case '/':
		return r.slash()
	case aNumber:
		// "12.3 6 1.1": the 6 is a ± set in a font that was lost
		if it.number.Text == "6" && r.out.Form == Figure && r.is(1, aNumber) && len(r.it) == r.i+2 {
			return r.spread(1, "?")
		}
		return false
	case '+', '?', '_', '\\', 127, '¼', '!', '|':
		return r.damaged()
	default:
		return false
	}
	r.i++
	return true
}

// damaged reads a sign that stands where ± must stand.
func (r *reader) damaged() bool {
	k := 1
	for r.is(k, '+') || r.is(k, '_') || r.is(k, aDash) || r.is(k, '/') || r.is(k, 127) {
		k++
	}
	if k > 3 || r.out.Form != Figure || r.out.Percent || r.is(k+1, aPercent) || r.is(k+1, aWord) && r.at(k+1).text == r.out.Unit {
		return false // "0.2 % + 0.1 %" is a mixture
	}
	return r.spread(k, "?")
}

// spread reads the figure after a sign of k items.
func (r *reader) spread(k int, sign string) bool {
	if r.out.Form != Figure || r.out.Spread.Known() {
		return false
	}
	open := 0
	if r.is(k, '(') && r.is(k+1, aNumber) && r.is(k+2, ')') {
		open = 1
	}
	if !r.is(k+open, aNumber) {
		return false
	}
	r.i += k + open
	n, items, unit, ok := r.duration()
	if !ok {
		n, items = r.at(0).number, 1
	} else if r.out.Unit == "" {
		r.out.Unit = unit
	}
	r.i += items + open
	r.out.Form, r.out.Spread, r.out.Sign = Spread, n, sign
	if sign == "?" {
		r.out.Note = "the sign between the two figures is damaged; read as ±"
	}
	return true
}

// dash reads the upper figure of a pair of limits.
func (r *reader) dash() bool {
	if r.out.Form != Figure || r.out.Spread.Known() {
		return false
	}
	k := 1
	if !r.is(k, aNumber) {
		return false
	}
	r.limits(r.at(k).number, k+1)
	return true
}

func (r *reader) limits(high extract.Number, items int) {
	r.out.Form, r.out.Low, r.out.High = Limits, r.out.Number, high
	r.out.Number = extract.Number{}
	r.i += items
}

// pair reads "7.6, 31.8" and the "; 0, 3" after a mean and spread.
func (r *reader) pair() bool {
	if !r.is(1, aNumber) {
		return false
	}
	if (r.is(2, ',') || r.is(2, ';') || r.is(2, aDash)) && r.is(3, aNumber) {
		if r.out.Form == Spread || r.out.Form == Interval {
			r.out.Min, r.out.Max = r.at(1).number, r.at(3).number
			r.i += 4
			return true
		}
		return false
	}
	if r.out.Form != Figure || len(r.it) > r.i+4 {
		return false
	}
	r.out.Form, r.out.Spread, r.out.Sign = Spread, r.at(1).number, ","
	r.i += 2
	return true
}

// slash reads "12/30" and "12.3/1.1".
func (r *reader) slash() bool {
	if r.out.Form != Figure || !r.is(1, aNumber) {
		return false
	}
	n := r.at(1).number
	r.out.Sign, r.out.Spread = "/", n
	r.out.Form = Spread
	if n.Decimals == 0 && r.out.Number.Decimals == 0 {
		r.out.Form = Count
	}
	r.i += 2
	return true
}

// word reads a word after a figure: "to" of a range, grouping letters, or
// words that may be a unit.
func (r *reader) word() bool {
	it := r.at(0)
	if strings.EqualFold(it.text, "to") && r.is(1, aNumber) && r.out.Form == Figure {
		r.limits(r.at(1).number, 2)
		return true
	}
	if r.out.Letters == "" {
		text, items := it.text, 1
		for r.is(items, ',') && r.is(items+1, aWord) && utf8.RuneCountInString(r.at(items+1).text) <= 2 {
			text += "," + r.at(items+1).text
			items += 2
		}
		if s, ok := letters(text, false); ok {
			r.letters(s, false)
			r.i += items
			return true
		}
	}
	if r.out.Unit == "" && utf8.RuneCountInString(it.text) <= 12 {
		r.out.Unit = it.text
		r.i++
		return true
	}
	if r.out.Form == Figure || r.out.Form == Spread {
		r.out.Unit += " " + it.text
		r.i++
		return utf8.RuneCountInString(r.out.Unit) <= 30
	}
	return false
}

func (r *reader) raised() {
	text := r.at(0).text
	r.i++
	// raised letters around a comma on the line: a,b
	for r.is(0, ',') && r.is(1, aRaised) {
		text += "," + r.at(1).text
		r.i += 2
	}
	r.letters(text, true)
}

// letters keeps grouping letters; raised digits and signs are marks.
func (r *reader) letters(text string, raised bool) {
	s, ok := letters(text, raised)
	if !ok {
		r.out.Marks += strings.TrimSpace(text)
		return
	}
	if r.out.Letters != "" {
		s = r.out.Letters + "," + s
	}
	r.out.Letters, r.out.Raised = s, r.out.Raised || raised
}
