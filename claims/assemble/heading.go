package assemble

import (
	"strings"

	"probity/extract/numeral"
)

// headRows trusts the format's heading rows, but stops at a row of data, and
// goes on over rows that only hold marks of statistics or, where the format
// marks nothing, no figures.
func (g *grid) headRows(ls *labels) {
	n := len(g.t.Rows)
	h := min(g.t.Head, n, mostLevels)
	for r := 0; r < h; r++ {
		if g.dataRow(r, ls) && !g.amountsRow(r) {
			h = r
			break
		}
	}
	if h == 0 {
		for h < n && h < 4 && (!g.dataRow(h, ls) || g.amountsRow(h)) && (h == 0 || !g.oneLabel(h)) {
			h++
		}
		if h == n {
			h = min(1, n)
		}
	}
	for h < min(n, mostLevels) && g.marksOnly(h, ls) {
		h++
	}
	g.head = h
}

// dataRow reports whether a row holds figures of measures.
func (g *grid) dataRow(r int, ls *labels) bool {
	figures, words := 0, 0
	for c := range g.read[r] {
		if g.text[r][c] == "" || g.cell(r, c).Copy {
			continue
		}
		rd := &g.read[r][c]
		switch {
		case rd.Form == numeral.Spread && rd.Label == "" && rd.Rest == "", rd.Form == numeral.Count:
			return true
		case rd.Form == numeral.Figure && rd.Label == "" && rd.Rest == "" && rd.Unit == "":
			figures++
		case c > 0:
			words++
		}
	}
	return figures > 0 && (figures > words || figures > 1) && !g.marksOnly(r+1, ls)
}

// amountsRow reports whether the figures of a row all have a unit, as those of
// the row below have not: "24 h", "7 days" head columns.
func (g *grid) amountsRow(r int) bool {
	amounts, below := 0, 0
	for c := range g.read[r] {
		rd := &g.read[r][c]
		switch {
		case rd.Form == numeral.None || g.cell(r, c).Copy:
			continue
		case amount(rd):
			amounts++
		case g.figure(r, c):
			return false
		}
		for k := r + 1; k < len(g.read); k++ {
			if g.figure(k, c) {
				if !amount(&g.read[k][c]) {
					below++
				}
				break
			}
		}
	}
	return amounts > 0 && below > 0
}

// marksOnly reports whether a row has hardly anything but marks of statistics,
// at least two of them, and no figures.
func (g *grid) marksOnly(r int, ls *labels) bool {
	if r >= len(g.t.Rows) {
		return false
	}
	marks, others := 0, 0
	for c, s := range g.text[r] {
		if s == "" || g.cell(r, c).Copy {
			continue
		}
		l := ls.read(s)
		switch {
		case l.whole:
			marks++
		case c == 0:
		case g.figure(r, c):
			return false
		default:
			others++
		}
	}
	return marks >= 2 && marks > 2*others
}

// oneLabel reports whether a row has one label and nothing else.
func (g *grid) oneLabel(r int) bool {
	n, at := 0, 0
	for c, s := range g.text[r] {
		if s != "" && !g.cell(r, c).Copy {
			n++
			at = c
		}
	}
	return n == 1 && at <= 1
}

// lastHeading is the lowest heading of a column.
func (g *grid) lastHeading(c int) string {
	for r := g.head - 1; r >= 0; r-- {
		if s := g.text[r][c]; s != "" {
			return s
		}
	}
	return ""
}

// heading joins the headings of a column.
func (g *grid) heading(c int) string {
	var parts []string
	for r := 0; r < g.head; r++ {
		if s := g.text[r][c]; s != "" && (len(parts) == 0 || parts[len(parts)-1] != s) {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, " ")
}

// headingsOf collects the headings of each column from the top, without the
// repetitions that merging makes.
func (g *grid) headingsOf() {
	g.headings = make([][]string, g.cols)
	for c := range g.headings {
		g.headings[c] = make([]string, g.head)
		for r := 0; r < g.head; r++ {
			s := g.text[r][c]
			if r > 0 && s == g.text[r-1][c] && g.cell(r, c).Copy {
				continue // a heading that covers several rows stands once
			}
			g.headings[c][r] = s
		}
	}
	g.periods()
}

// periods puts right headings that are centred over too few columns, or span
// the wrong ones: where the printed headings of the lowest row repeat
// themselves as often as a row above has labels, each label stands over one
// repetition.
func (g *grid) periods() {
	if g.head < 2 {
		return
	}
	low := g.head - 1
	first := 0
	for first < g.cols && g.stub[first] {
		first++
	}
	var starts []int // columns where a printed heading of the lowest row begins
	for c := first; c < g.cols; c++ {
		if g.headings[c][low] == "" {
			return
		}
		if c == first || !g.cell(low, c).Copy {
			starts = append(starts, c)
		}
	}
	for n := 2; n <= len(starts)/2; n++ {
		if len(starts)%n != 0 || !g.repeats(starts, low, n) {
			continue
		}
		for r := 0; r < low; r++ {
			g.spreadLabels(r, starts, n)
		}
		return
	}
}

// repeats reports whether the headings at starts repeat every n, each set
// having different ones.
func (g *grid) repeats(starts []int, low, n int) bool {
	for i, c := range starts {
		if i >= n && g.headings[c][low] != g.headings[starts[i-n]][low] {
			return false
		}
		if i > 0 && i < n && g.headings[c][low] == g.headings[starts[0]][low] {
			return false
		}
	}
	return true
}

// spreadLabels gives each repetition its label, where a row has just one for
// each.
func (g *grid) spreadLabels(r int, starts []int, n int) {
	var labels []string
	for c := starts[0]; c < g.cols; c++ {
		s := g.headings[c][r]
		if s != "" && !(g.cell(r, c).Copy && c > 0 && s == g.headings[c-1][r]) {
			labels = append(labels, s)
		}
	}
	if len(labels) != len(starts)/n {
		return
	}
	for i := range labels {
		end := g.cols
		if (i+1)*n < len(starts) {
			end = starts[(i+1)*n]
		}
		for c := starts[i*n]; c < end; c++ {
			g.headings[c][r] = labels[i]
		}
	}
}
