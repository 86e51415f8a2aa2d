package layout

import (
	"math"
)

// cells makes the cells of one row.
func (g *grid) cells(r *row) []Cell {
	out := make([]Cell, len(g.cols))
	for i := range r.lines {
		ps := r.lines[i].pieces
		for k := range ps {
			p := &ps[k]
			sameLine := k > 0 && ps[k-1].c0 <= p.c0 && p.c0 <= ps[k-1].c1
			if sameLine {
				out[ps[k-1].c0].add(p, true)
				continue
			}
			c := &out[p.c0]
			if c.Copy { // inside a wider cell that began further left
				for j := p.c0; j >= 0; j-- {
					if !out[j].Copy {
						c = &out[j]
						break
					}
				}
			}
			c.add(p, false)
			if p.c1 > p.c0 && c.Cols <= 1 && free(out, p.c0+1, p.c1) {
				c.Cols = p.c1 - p.c0 + 1
				for j := p.c0 + 1; j <= p.c1; j++ {
					out[j].Copy = true
				}
			}
		}
	}
	if lone := r.lines[0].pieces; len(r.lines) == 1 && len(lone) == 1 && out[lone[0].c0].Cols > 1 {
		out[lone[0].c0].Cols = len(out) - lone[0].c0 // a heading: nothing stands beside it
	}
	for j := range out { // a spanning cell stands in each place it covers
		if out[j].Copy {
			continue
		}
		for k := j + 1; k < j+out[j].Cols && k < len(out); k++ {
			out[k] = out[j]
			out[k].Copy = true
		}
	}
	return out
}

func free(cells []Cell, from, to int) bool {
	for j := from; j <= to && j < len(cells); j++ {
		if len(cells[j].Lines) > 0 || cells[j].Copy {
			return false
		}
	}
	return true
}

// indents measures how far the entries of the first column stand in.
func (g *grid) indents(rows []row, out [][]Cell) {
	left, size := math.Inf(1), 0.0
	x := make([]float64, len(rows))
	for i := range rows {
		x[i] = -1
		for _, l := range rows[i].lines {
			if g.starts(&l) {
				x[i] = l.pieces[0].X0
				size = math.Max(size, l.pieces[0].size)
				left = math.Min(left, x[i])
				break
			}
		}
	}
	if g.centredStub(rows) {
		return
	}
	for i := range rows {
		if x[i] >= 0 {
			out[i][0].Indent = min(3, int((x[i]-left+0.2*size)/(0.8*size)))
		}
	}
}

// centredStub reports a first column set to its middle: its left edges then
// say nothing.
func (g *grid) centredStub(rows []row) bool {
	edges, mids := map[int]bool{}, map[int]bool{}
	n := 0
	for i := range rows {
		if l := rows[i].lines[0]; g.starts(&l) {
			edges[int(l.pieces[0].X0/2)] = true
			mids[int((l.pieces[0].X0+l.pieces[0].X1)/4)] = true
			n++
		}
	}
	return n > 2 && len(mids) < len(edges)
}

// spanRows fills the places under a name in the first column that stands for
// several rows: the rows below it have none, but have a name in the second.
func (g *grid) spanRows(rows []row, out [][]Cell) {
	if len(g.cols) < 3 || len(out) < 2 {
		return
	}
	named := 0
	empty := 0
	for i := range out {
		if len(out[i][0].Lines) == 0 {
			empty++
			if s := out[i][1].text(); s != "" && !figure(s) {
				named++
			}
		}
	}
	if empty == 0 || named*5 < empty*4 {
		return
	}
	from := g.nearest(rows, out)
	for i := range out {
		if len(out[i][0].Lines) > 0 || from[i] < 0 {
			continue
		}
		c := out[from[i]][0]
		if out[from[i]][0].Cols > 1 {
			continue
		}
		c.Copy = true
		out[i][0] = c
	}
	spanFirst(out)
}

// nearest gives for each row the row whose first cell stands for it: the one
// above, or, where names stand in the middle of their rows, the nearest.
func (g *grid) nearest(rows []row, out [][]Cell) []int {
	from := make([]int, len(out))
	top := len(out[0][0].Lines) > 0
	for i := range out {
		from[i] = -1
		best := math.Inf(1)
		for k := range out {
			if !leads(out[k]) || top && k > i || g.between(rows, i, k) {
				continue
			}
			d := math.Abs(float64(i - k))
			if d < best {
				best, from[i] = d, k
			}
		}
	}
	return from
}

// leads reports a row that has a name in its first cell and more beside it; a
// name alone is a heading, and formats print those once.
func leads(cells []Cell) bool {
	if len(cells[0].Lines) == 0 {
		return false
	}
	for j := 1; j < len(cells); j++ {
		if len(cells[j].Lines) > 0 && !cells[j].Copy {
			return true
		}
	}
	return false
}

// between reports a rule between two rows.
func (g *grid) between(rows []row, i, k int) bool {
	if i > k {
		i, k = k, i
	}
	return g.fullBetween(rows[i].lines[0].base, rows[k].lines[0].base-0.5*rows[k].lines[0].size)
}

// spanFirst moves the original of a copied first cell to its first row and counts
// its rows.
func spanFirst(out [][]Cell) {
	for i := 0; i < len(out); {
		j := i + 1
		text := out[i][0].text()
		for j < len(out) && text != "" && out[j][0].text() == text && (out[j][0].Copy || out[i][0].Copy) {
			j++
		}
		for k := i; k < j && j-i > 1; k++ {
			out[k][0].Copy = k > i
			out[k][0].Rows = j - i
		}
		i = j
	}
}
