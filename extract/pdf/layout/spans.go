package layout

import (
	"math"
)

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

// cover widens a cell that spans columns to all the cells of the lowest line
// that it stands over the middle of, none of them in part.
func (g *grid) cover(upper []vline) {
	if len(upper) < 2 {
		return
	}
	var spans []piece
	for _, q := range upper[len(upper)-1].pieces {
		if q.c1 > q.c0 {
			spans = append(spans, q)
		}
	}
	for _, l := range upper[:len(upper)-1] {
		for k := range l.pieces {
			if p := &l.pieces[k]; p.c1 > p.c0 {
				p.c0, p.c1 = g.covered(l.pieces, k, spans)
			}
		}
	}
}

// covered gives the columns of cell k: the widest run of spans that begins and
// ends between its neighbours and has its middle where the cell has.
func (g *grid) covered(ps []piece, k int, spans []piece) (int, int) {
	p := &ps[k]
	mid := (p.X0 + p.X1) / 2
	c0, c1 := p.c0, p.c1
	for i := range spans {
		for j := i + 1; j < len(spans); j++ {
			a, b := spans[i].c0, spans[j].c1
			if a > p.c0 || b < p.c1 || b-a <= c1-c0 || k > 0 && a <= ps[k-1].c1 || k+1 < len(ps) && b >= ps[k+1].c0 {
				continue
			}
			left, right := g.edges(a, b)
			if within := 0.9 * p.size; math.Abs((left+right)/2-mid) <= within || math.Abs((g.cols[a].x0+g.cols[b].x1)/2-mid) <= within {
				c0, c1 = a, b
			}
		}
	}
	return c0, c1
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
		for len(ps) > 1 && !g.anyRounds(names, ps) && ps[0].c0 == ps[0].c1 && ps[0].c0 <= 1 {
			ps = ps[1:] // names of the first columns
		}
	}
}

// anyRounds is inRounds for the cells, or for those before the names of the
// last columns.
func (g *grid) anyRounds(names []string, ps []piece) bool {
	for len(ps) > 1 {
		if g.inRounds(names, ps) {
			return true
		}
		last := &ps[len(ps)-1]
		if last.c0 != last.c1 || names[last.c0] != "" {
			return false
		}
		ps = ps[:len(ps)-1]
	}
	return false
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
// at most a column before and three after them.
func rounds(names []string, k int) (start, period int, ok bool) {
	if k < 2 {
		return 0, 0, false
	}
	for start = 1; start <= 2; start++ {
		for tail := 0; tail <= 3; tail++ {
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
