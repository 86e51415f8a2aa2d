package layout

import (
	"math"
	"slices"

	"probity/extract"
)

// A heading is a printed cell of the header: its lines and its columns.
type heading struct {
	c0, c1 int
	lines  []piece
}

// header makes the header rows: the names of single columns in the last, what
// spans columns above them.
func (g *grid) header() ([][]Cell, int) {
	if g.head == 0 {
		return nil, 0
	}
	lines := g.lines[:g.head]
	g.narrow(lines)
	var upper []vline // lines that hold cells spanning columns
	leaf := lines
	for i := len(lines) - 1; i >= 0; i-- {
		if g.spanning(i) {
			upper, leaf = lines[:i+1], lines[i+1:]
			break
		}
	}
	if len(leaf) == 0 { // spans straight above the body: they are the last row
		leaf, upper = upper[len(upper)-1:], upper[:len(upper)-1]
	}
	g.repeat(upper, leaf)
	nest(upper)
	g.cover(upper)
	bands := g.bands(upper)
	rows := make([][]Cell, len(bands)+1)
	for i := range rows {
		rows[i] = make([]Cell, len(g.cols))
	}
	for i, band := range bands {
		for _, h := range g.headings(band) {
			h.put(rows[i])
		}
	}
	for _, h := range g.headings(leaf) {
		h.put(rows[len(bands)])
	}
	stretch(rows)
	return rows, len(rows)
}

// narrow takes from each cell of the header the columns at its ends that it
// does not reach and that cannot be under it: the first column, where the names
// of rows stand, and those that have a name of their own above.
func (g *grid) narrow(lines []vline) {
	named := make([]bool, len(g.cols))
	named[0] = true
	for i := range lines {
		for k := range lines[i].pieces {
			p := &lines[i].pieces[k]
			for p.c0 < p.c1 && named[p.c0] && p.X0 > g.cols[p.c0].x1+0.3*p.size {
				p.c0++
			}
			for p.c0 < p.c1 && named[p.c1] && p.X1 < g.cols[p.c1].x0-0.3*p.size {
				p.c1--
			}
		}
		for _, p := range lines[i].pieces {
			if p.c0 == p.c1 {
				named[p.c0] = true
			}
		}
	}
}

// spanning reports that line i of the header holds a cell over two columns or
// more; it widens such cells to the columns they are centred over.
func (g *grid) spanning(i int) bool {
	l := &g.lines[i]
	found := false
	for k := range l.pieces {
		p := &l.pieces[k]
		if c0, c1, ok := g.underline(p, i); ok {
			p.c0, p.c1 = c0, c1
			found = found || c1 > c0
			continue
		}
		if p.c1 == p.c0 {
			g.follow(p, i)
		}
		if p.c1 > p.c0 {
			found = true
		}
	}
	if i+1 >= g.head {
		return found
	}
	below := &g.lines[i+1]
	if !found && (len(l.pieces) >= len(below.pieces) || len(below.pieces) < 3) {
		return false
	}
	for k := range l.pieces {
		p := &l.pieces[k]
		if p.c0 == 0 && p.c1 == 0 {
			continue
		}
		if _, _, ok := g.underline(p, i); ok {
			continue
		}
		if c0, c1 := g.centred(l, k); c1-c0 > p.c1-p.c0 {
			p.c0, p.c1 = c0, c1
			found = true
		}
	}
	return found
}

// bands groups the upper lines into rows: a line whose cells cover the same
// columns as those above goes on with them.
func (g *grid) bands(upper []vline) [][]vline {
	var out [][]vline
	for i, l := range upper {
		if i > 0 && !g.ruleBetween(upper[i-1].base, l.base) && goesOnBelow(&upper[i-1], &l) {
			out[len(out)-1] = append(out[len(out)-1], l)
			continue
		}
		out = append(out, []vline{l})
	}
	return out
}

// goesOnBelow reports that the cells of b go on with those of a: they stand
// close below, or each stands below one that covers the very same columns.
func goesOnBelow(a, b *vline) bool {
	gap := (b.base - a.base) / b.size
	return gap < 1.5 && within(a, b) || gap < 2.8 && each(a, b)
}

// each reports that every cell of b covers the very columns of one of a.
func each(a, b *vline) bool {
	for i := range b.pieces {
		p := &b.pieces[i]
		if !slices.ContainsFunc(a.pieces, func(q piece) bool { return q.c0 == p.c0 && q.c1 == p.c1 }) {
			return false
		}
	}
	return true
}

// ruleBetween reports a rule of any width between two heights.
func (g *grid) ruleBetween(y0, y1 float64) bool {
	for _, y := range g.full {
		if y > y0 && y < y1 {
			return true
		}
	}
	for _, r := range g.region.part {
		if y := (r.Y0 + r.Y1) / 2; y > y0 && y < y1 {
			return true
		}
	}
	return false
}

// within reports that each cell of b covers the same columns as one of a, or
// columns that a leaves free.
func within(a, b *vline) bool {
	for i := range b.pieces {
		for j := range a.pieces {
			p, q := &b.pieces[i], &a.pieces[j]
			if p.c0 <= q.c1 && q.c0 <= p.c1 && (p.c0 != q.c0 || p.c1 != q.c1) {
				return false
			}
		}
	}
	return true
}

// headings gathers the pieces of header lines by the columns they cover.
func (g *grid) headings(lines []vline) []heading {
	var out []heading
	for _, l := range lines {
	next:
		for _, p := range l.pieces {
			for i := range out {
				if out[i].c0 <= p.c1 && p.c0 <= out[i].c1 {
					out[i].c0, out[i].c1 = min(out[i].c0, p.c0), max(out[i].c1, p.c1)
					out[i].lines = append(out[i].lines, p)
					continue next
				}
			}
			out = append(out, heading{p.c0, p.c1, []piece{p}})
		}
	}
	return out
}

func (h *heading) put(row []Cell) {
	slices.SortStableFunc(h.lines, func(a, b piece) int {
		switch {
		case a.base < b.base-0.42*a.size:
			return -1
		case b.base < a.base-0.42*a.size:
			return 1
		case a.X0 < b.X0:
			return -1
		}
		return 1
	})
	c := Cell{Cols: h.c1 - h.c0 + 1, Rows: 1}
	for i := range h.lines {
		c.add(&h.lines[i], i > 0 && math.Abs(h.lines[i].base-h.lines[i-1].base) < 0.42*h.lines[i].size)
	}
	for j := h.c0; j <= h.c1 && j < len(row); j++ {
		row[j] = c
		row[j].Copy = j > h.c0
	}
}

// add puts a piece into a cell, on its last line or on a new one.
func (c *Cell) add(p *piece, sameLine bool) {
	var runs []extract.Run
	for i := range p.words {
		if i > 0 {
			runs = append(runs, extract.Run{Text: " "})
		}
		runs = append(runs, p.words[i].Runs...)
		c.Bad = c.Bad || p.words[i].Bad
	}
	if n := len(c.Lines); sameLine && n > 0 {
		c.Lines[n-1] = append(append(c.Lines[n-1], extract.Run{Text: " "}), runs...)
		return
	}
	c.Lines = append(c.Lines, runs)
}

// stretch lets a name that stands alone in its column of the header cover all
// header rows, whichever row it is printed in.
func stretch(rows [][]Cell) {
	if len(rows) < 2 {
		return
	}
	for j := range rows[0] {
		at, n := -1, 0
		for i := range rows {
			if len(rows[i][j].Lines) > 0 {
				at, n = i, n+1
			}
		}
		if n != 1 || rows[at][j].Cols > 1 {
			continue
		}
		c := rows[at][j]
		c.Rows = len(rows)
		for i := range rows {
			rows[i][j] = c
			rows[i][j].Copy = i > 0
		}
	}
}
