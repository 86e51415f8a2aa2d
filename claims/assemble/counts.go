package assemble

import (
	"math"
	"strings"

	"probity/extract/numeral"
)

// This file tells "23 (58)", a count with its percentage, from "41 (8.1)", a
// mean with its SD, where both are whole numbers. Words beside the figures go
// first: "Age, mean (SD)", "Women, n (%)". Else the figures are weighed
// together, as shares.go says: a row is of one kind in all its columns, and
// the rows of a section mostly are.
//
// Weights are, roughly, logarithms of likelihood ratios: above nought they
// speak for a count, below for a mean.

// tally says what a cell "a (b)" is. Zero is "not settled".
type tally int8

const (
	aCount tally = 1
	aMean  tally = -1
)

// isPair reports whether a cell holds a figure with another in brackets.
func isPair(rd *numeral.Reading) bool {
	return rd.Form == numeral.Count && rd.Sign != "/" || rd.Form == numeral.Spread && (rd.Sign == "(" || rd.Sign == "[")
}

// counted reports whether a cell is a count with its percentage.
func (t *table) counted(r, c int) bool {
	rd := &t.g.read[r][c]
	switch {
	case rd.Form == numeral.Count:
		return true
	case isPair(rd):
		return t.tallies[r][c] == aCount
	}
	return rd.Form == numeral.Spread && rd.Sign != "±" && (t.row[r].speaks() > 0 || t.col[c].speaks() > 0)
}

// unsettled reports whether neither words nor figures tell what a cell is.
func (t *table) unsettled(r, c int) bool {
	return isPair(&t.g.read[r][c]) && t.tallies[r][c] == 0
}

// spreadAt reports whether a cell is a centre with its spread.
func (t *table) spreadAt(r, c int) bool {
	rd := &t.g.read[r][c]
	return rd.Form == numeral.Spread && (!isPair(rd) || t.tallies[r][c] == aMean)
}

// speaks says what the words of an axis call its figures: counts (1), means
// with their spread (-1), or neither (0). The innermost label that says
// something decides.
func (a *axis) speaks() int {
	for i := len(a.labels) - 1; i >= 0; i-- {
		if k := a.labels[i].speaks(); k != 0 {
			return k
		}
	}
	return 0
}

func (l *label) speaks() int {
	count := l.has("count") || l.has("n") && l.has("percent")
	mean := (l.centre() || l.spread() != "") && len(l.text) > 1 // "M" is a sex as well
	switch {
	case count && !mean:
		return 1
	case mean && !count:
		return -1
	}
	return 0
}

// captionSpeaks weighs the words of caption and notes. Those of means are
// often meant for some of the rows only.
func (t *table) captionSpeaks() float64 {
	count := contains(t.marks, "count")
	mean := t.caption.centre() || contains(t.marks, "mean") || contains(t.marks, "median") || contains(t.marks, "sd") || contains(t.marks, "se")
	switch {
	case count && !mean:
		return 5
	case mean && !count:
		return -1.5
	}
	return 0
}

// expects weighs what the names of an axis let expect of its figures.
func (a *axis) expects() float64 {
	out := 0.0
	for i, l := range a.labels {
		inner := i == len(a.labels)-1
		switch {
		case l.has("percent") || l.unitID == "%" || l.has("n"):
			out += 1.5
		case l.unit != "" && inner && !l.limited():
			out -= 3
		case l.outcome != nil && inner:
			out--
		}
	}
	return min(max(out, -3), 3)
}

// limited reports whether the unit of a label belongs to a figure in it:
// "Sodium > 150 mmol/L" is a class, "Orlin 3 mg" a dose.
func (l *label) limited() bool {
	if strings.ContainsAny(l.text, "<>≤≥") {
		return true
	}
	before, _, _ := strings.Cut(l.text, l.unit)
	before = strings.TrimRight(before, " ")
	return before != "" && strings.Contains("0123456789", before[len(before)-1:])
}

// measured reports whether an axis names an outcome or a unit.
func (a *axis) measured() bool {
	for _, l := range a.labels {
		if l.outcome != nil || l.unit != "" && !l.limited() {
			return true
		}
	}
	return false
}

// tallied is what the figures of a table say together. Those of a row are
// kept apart by what the words of their columns say.
type tallied struct {
	rows     [][3]float64
	sections map[string]float64
	table    float64
}

// tally decides what each cell "a (b)" is.
func (t *table) tally() {
	w := t.weigh()
	sum := tallied{rows: make([][3]float64, len(t.g.rows)), sections: map[string]float64{}}
	paths := make([]string, len(t.g.rows))
	for r := t.g.head; r < len(t.g.rows); r++ {
		paths[r] = strings.Join(t.g.rows[r].sections, "\x00")
		for c := range w[r] {
			sum.rows[r][t.col[c].speaks()+1] += float64(w[r][c])
		}
		for _, x := range sum.rows[r] {
			sum.sections[paths[r]] += bounded(x, mostTelling)
			sum.table += bounded(x, mostTelling)
		}
	}
	t.tallies = make([][]tally, len(t.g.rows))
	caption := t.captionSpeaks()
	for r := range t.tallies {
		t.tallies[r] = make([]tally, t.g.cols)
		for c := range t.tallies[r] {
			if r >= t.g.head && !t.g.stub[c] && isPair(&t.g.read[r][c]) {
				t.tallies[r][c] = t.settle(r, c, &sum, paths[r], caption)
			}
		}
	}
}

func bounded(x, most float64) float64 { return min(max(x, -most), most) }

// settle decides what one cell is.
func (t *table) settle(r, c int, sum *tallied, path string, caption float64) tally {
	row, col := &t.row[r], &t.col[c]
	if n := len(row.labels); n > 0 {
		l := row.labels[n-1]
		if k := l.speaks(); k > 0 || k < 0 && l.spread() != "" { // "Mean" alone does not say what the brackets hold
			return tally(k)
		}
	}
	words := col.speaks()
	figures := sum.rows[r][words+1]
	out := figures + 4*float64(words+row.speaks()) + caption + row.expects()
	if words == 0 {
		out += col.expects()
	}
	if math.Abs(out) < 3 { // the rows around are of one kind more often than not
		own := bounded(figures, mostTelling)
		out += bounded((sum.sections[path]-own)/4, 2) + bounded((sum.table-own)/8, 1)
	}
	may := words < 0 || row.speaks() < 0 || caption != 0 || figures <= -2 || row.measured() || col.measured() ||
		t.caption.outcome != nil || t.caption.unit != "" // something lets expect a mean
	switch {
	case out >= 1 || out > 0 && may:
		return aCount
	case may:
		return aMean
	}
	return 0
}
