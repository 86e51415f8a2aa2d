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

// nest widens a cell that covers only part of a wider cell below it: spans lie
// inside one another.
func nest(upper []vline) {
	for i := len(upper) - 2; i >= 0; i-- {
		ps := upper[i].pieces
		for k := range ps {
			for _, q := range upper[i+1].pieces {
				if ps[k].c1 == ps[k].c0 || q.c1 == q.c0 || q.c0 > ps[k].c1 || q.c1 < ps[k].c0 {
					continue
				}
				if k+1 == len(ps) || q.c1 < ps[k+1].c0 {
					ps[k].c1 = max(ps[k].c1, q.c1)
				}
				if k == 0 || q.c0 > ps[k-1].c1 {
					ps[k].c0 = min(ps[k].c0, q.c0)
				}
			}
		}
	}
}

// repeat sets the columns of cells above names that come again and again
// ("Mean SD p Mean SD p"): each cell covers one round of them.
func (g *grid) repeat(upper, leaf []vline) {
	names := make([]string, len(g.cols))
	for _, h := range g.headings(leaf) {
		if h.c0 == h.c1 {
			c := Cell{}
			for i := range h.lines {
				c.add(&h.lines[i], false)
			}
			names[h.c0] = c.text()
		}
	}
	for _, l := range upper {
		ps := l.pieces
		for len(ps) > 1 && !g.inRounds(names, ps) && ps[0].c0 == ps[0].c1 && ps[0].c0 <= 1 {
			ps = ps[1:] // names of the first columns
		}
	}
}

// inRounds gives cells the columns of their rounds, if there are as many.
func (g *grid) inRounds(names []string, ps []piece) bool {
	start, period, ok := rounds(names, len(ps))
	if !ok {
		return false
	}
	for i := range ps {
		left, right := g.edges(start+i*period, start+(i+1)*period-1)
		if mid := (ps[i].X0 + ps[i].X1) / 2; mid <= left || mid >= right {
			return false
		}
	}
	for i := range ps {
		ps[i].c0, ps[i].c1 = start+i*period, start+(i+1)*period-1
	}
	return true
}

// rounds finds k rounds of the same two names or more among the columns, with
// at most a column before and two after them.
func rounds(names []string, k int) (start, period int, ok bool) {
	if k < 2 {
		return 0, 0, false
	}
	for start = 1; start <= 2; start++ {
		for tail := 0; tail <= 2; tail++ {
			n := len(names) - start - tail
			if n < 2*k || n%k != 0 {
				continue
			}
			period = n / k
			same := true
			for j := start; j < start+n-period; j++ {
				same = same && names[j] != "" && names[j] == names[j+period]
			}
			if same {
				return start, period, true
			}
		}
	}
	return 0, 0, false
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

// follow gives a piece the columns of the wider one straight above it, whose
// second line it is.
func (g *grid) follow(p *piece, i int) {
	if i == 0 {
		return
	}
	l := &g.lines[i-1]
	for k := range l.pieces {
		q := &l.pieces[k]
		if q.c1 > q.c0 && q.c0 <= p.c0 && p.c1 <= q.c1 && p.base-q.base < 1.7*p.size &&
			math.Abs(p.X0+p.X1-q.X0-q.X1) < 1.2*p.size && !g.ruleBetween(q.base, p.base-0.7*p.size) && g.alone(p, q, i) {
			p.c0, p.c1 = q.c0, q.c1
		}
	}
}

// alone reports that p is the only piece of its line below q.
func (g *grid) alone(p, q *piece, i int) bool {
	n := 0
	for k := range g.lines[i].pieces {
		if o := &g.lines[i].pieces[k]; o.c0 <= q.c1 && q.c0 <= o.c1 {
			n++
		}
	}
	return n == 1
}

// underline finds a rule below a header cell that is not as wide as the table:
// it shows exactly which columns the cell spans.
func (g *grid) underline(p *piece, i int) (int, int, bool) {
	next := math.Inf(1)
	if i+1 < len(g.lines) {
		next = g.lines[i+1].base
	}
	for _, r := range g.region.part {
		y := (r.Y0 + r.Y1) / 2
		if y < p.base-0.2*p.size || y > math.Min(next, p.base+2.2*p.size) {
			continue
		}
		mid := (p.X0 + p.X1) / 2
		if mid < r.X0-1 || mid > r.X1+1 {
			continue
		}
		c0, c1 := -1, -1
		for j, c := range g.cols {
			if m := (c.x0 + c.x1) / 2; m > r.X0-1 && m < r.X1+1 {
				if c0 < 0 {
					c0 = j
				}
				c1 = j
			}
		}
		if c0 >= 0 {
			return c0, c1, true
		}
	}
	return 0, 0, false
}

// centred widens a header cell evenly to both sides as far as its middle stays
// the middle of its columns and no other cell of the line stands in the way.
func (g *grid) centred(l *vline, k int) (int, int) {
	p := &l.pieces[k]
	lo, hi := 1, len(g.cols)-1
	if k > 0 {
		lo = max(lo, l.pieces[k-1].c1+1)
	}
	if k+1 < len(l.pieces) {
		hi = min(hi, l.pieces[k+1].c0-1)
	}
	mid := (p.X0 + p.X1) / 2
	best0, best1 := p.c0, p.c1
	for a := lo; a <= p.c0; a++ {
		for b := p.c1; b <= hi; b++ {
			if b-a <= best1-best0 {
				continue
			}
			x0, x1 := g.cols[a].x0, g.cols[b].x1
			slack := math.Max(0.9*p.size, 0.05*(x1-x0))
			left, right := g.edges(a, b)
			if math.Abs((x0+x1)/2-mid) <= slack || math.Abs((left+right)/2-mid) <= slack {
				best0, best1 = a, b
			}
		}
	}
	return best0, best1
}

// edges are the outer edges of columns a to b with half of the white around
// them.
func (g *grid) edges(a, b int) (float64, float64) {
	left, right := g.cols[a].x0, g.cols[b].x1
	if a > 0 {
		left = g.bound(a - 1)
	}
	if b+1 < len(g.cols) {
		right = g.bound(b)
	} else {
		right = g.box.X1
	}
	return left, right
}

// bands groups the upper lines into rows: a line whose cells cover the same
// columns as those above goes on with them.
func (g *grid) bands(upper []vline) [][]vline {
	var out [][]vline
	for i, l := range upper {
		if i > 0 && !g.ruleBetween(upper[i-1].base, l.base) && l.base-upper[i-1].base < 1.5*l.size && within(&upper[i-1], &l) {
			out[len(out)-1] = append(out[len(out)-1], l)
			continue
		}
		out = append(out, []vline{l})
	}
	return out
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
