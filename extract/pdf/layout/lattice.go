package layout

import (
	"math"
	"slices"
)

// lattice reads the body of a table whose cells are framed on all sides: each
// rule parts exactly the cells it runs between, so that cells over several
// rows show. Nil when the rules do not do that.
func (g *grid) lattice(lines []vline) [][]Cell {
	cuts := g.uprights()
	if len(cuts) < 2 || len(g.cols) < 2 {
		return nil
	}
	bounds := make([][]float64, len(g.cols)) // per column, the heights of its rules
	var all []float64
	top, foot := lines[0].base-1.5*lines[0].size, lines[len(lines)-1].base+lines[len(lines)-1].size
	add := func(x0, x1, y float64) {
		if y < top+0.2*lines[0].size || y > foot {
			return
		}
		hit := false
		for j, c := range g.cols {
			if mid := (c.x0 + c.x1) / 2; mid > x0 && mid < x1 {
				bounds[j] = append(bounds[j], y)
				hit = true
			}
		}
		if hit {
			all = append(all, y)
		}
	}
	for _, y := range g.full {
		add(g.box.X0, g.box.X1, y)
	}
	for _, r := range g.region.part {
		add(r.X0, r.X1, (r.Y0+r.Y1)/2)
	}
	all = heights(all)
	if !g.single(lines, all) {
		return nil
	}
	return g.filled(lines, bounds, all)
}

// heights sorts heights and drops those that are the same.
func heights(ys []float64) []float64 {
	slices.Sort(ys)
	return slices.CompactFunc(ys, func(a, b float64) bool { return math.Abs(a-b) < 2 })
}

// single reports that hardly any band between two rules holds two rows: in
// most of its columns at most one figure begins, what follows finishes it.
func (g *grid) single(lines []vline, all []float64) bool {
	type place struct{ band, col int }
	begun := map[place]int{}
	last := map[place]*piece{}
	for i := range lines {
		for k := range lines[i].pieces {
			p := &lines[i].pieces[k]
			at := place{band(all, p.base), p.c0}
			above := last[at]
			last[at] = p
			if p.c0 == 0 || !figure(p.plain()) {
				continue
			}
			if above == nil || !unfinish.MatchString(above.plain()) && !(bracketed.MatchString(p.plain()) && !bracketed.MatchString(above.plain())) {
				begun[at]++
			}
		}
	}
	rows := map[int][]float64{}
	for at, n := range begun { // any order: the median sorts
		rows[at.band] = append(rows[at.band], float64(n))
	}
	more := 0
	for _, ns := range rows { // any order: counting
		if median(ns) > 1 {
			more++
		}
	}
	return more*5 <= len(rows)
}

// band is the number of heights above y.
func band(ys []float64, y float64) int {
	n := 0
	for n < len(ys) && ys[n] < y {
		n++
	}
	return n
}

func (g *grid) filled(lines []vline, bounds [][]float64, all []float64) [][]Cell {
	out := make([][]Cell, len(all)+1)
	for i := range out {
		out[i] = make([]Cell, len(g.cols))
	}
	for i := range lines {
		for k := range lines[i].pieces {
			p := &lines[i].pieces[k]
			own := heights(slices.Clone(bounds[p.c0]))
			n := band(own, p.base-0.25*p.size)
			from, to := 0, len(all)
			if n > 0 {
				from = band(all, own[n-1]+1)
			}
			if n < len(own) {
				to = band(all, own[n]-1)
			}
			c := &out[from][p.c0]
			c.add(p, len(c.Lines) > 0 && k > 0 && lines[i].pieces[k-1].c0 == p.c0)
			c.Rows, c.Cols = to-from+1, p.c1-p.c0+1
		}
	}
	for i := range out {
		for j := range out[i] {
			c := out[i][j]
			if len(c.Lines) == 0 || c.Copy {
				continue
			}
			for r := i; r < i+max(c.Rows, 1) && r < len(out); r++ {
				for k := j; k < j+max(c.Cols, 1) && k < len(g.cols); k++ {
					if (r > i || k > j) && len(out[r][k].Lines) == 0 {
						out[r][k] = c
						out[r][k].Copy = true
					}
				}
			}
		}
	}
	return slices.DeleteFunc(out, func(row []Cell) bool {
		for i := range row {
			if len(row[i].Lines) > 0 && !row[i].Copy {
				return false
			}
		}
		return true
	})
}
