package layout

import (
	"math"
	"sort"
)

// middled reports that cells of several lines are set to the middle of their
// row: lines of figures stand half-way between lines of the first column.
func (g *grid) middled(lines []vline) bool {
	halves := 0
	for i := 1; i < len(lines); i++ {
		d := lines[i].base - lines[i-1].base
		if d < 0.85*math.Min(lines[i].size, lines[i-1].size) && !g.ruleBetween(lines[i-1].base-0.3*lines[i-1].size, lines[i].base-0.9*lines[i].size) {
			halves++
		}
	}
	return halves >= 2 || halves == 1 && len(lines) <= 6
}

// anchored reads rows whose cells are set to their middle. A column that
// never wraps tells where the rows are; in every other column the lines are
// shared out so that each cell's middle lies as near as can be to its row's.
func (g *grid) anchored(lines []vline) []row {
	at := g.anchors(lines)
	if len(at) < 2 {
		return g.gathered(lines)
	}
	rows := make([]row, len(at))
	for j := range g.cols {
		var ps []piece
		for i := range lines {
			for _, p := range lines[i].pieces {
				if p.c0 == j {
					ps = append(ps, p)
				}
			}
		}
		sort.SliceStable(ps, func(a, b int) bool {
			if math.Abs(ps[a].base-ps[b].base) > 0.3*ps[a].size {
				return ps[a].base < ps[b].base
			}
			return ps[a].X0 < ps[b].X0
		})
		for i, k := range share(ps, at) {
			rows[k].lines = append(rows[k].lines, vline{base: ps[i].base, size: ps[i].size, pieces: []piece{ps[i]}})
		}
	}
	var out []row
	for k, r := range rows {
		if len(r.lines) == 0 {
			continue
		}
		if h := headingOf(&r, at[k]); len(h.lines) > 0 {
			out = append(out, h)
		}
		out = append(out, r)
	}
	return out
}

// headingOf takes the lines above a row's name out of the row when the name
// itself stands level with the row: then they head a group of rows.
func headingOf(r *row, at float64) row {
	n, level := 0, false
	for n < len(r.lines) && r.lines[n].pieces[0].c0 == 0 {
		n++
	}
	k := 0
	for k < n {
		if math.Abs(r.lines[k].base-at) < 0.2*r.lines[k].size {
			level = true
			break
		}
		k++
	}
	if !level || k == 0 || n-k > k {
		return row{}
	}
	h := row{lines: r.lines[:k:k], group: true}
	r.lines = r.lines[k:]
	return h
}

// strayed charges for pieces on the very height of another row than theirs.
func strayed(ps []piece, at []float64, own int) float64 {
	c := 0.0
	for i := range ps {
		if i > 0 && ps[i].base-ps[i-1].base > 1.6*ps[i].size {
			c += 3 // no cell has its lines so far apart
		}
		for k := range at {
			if k != own && math.Abs(ps[i].base-at[k]) < 0.15*ps[i].size {
				c += 2
			}
		}
	}
	return c
}

// anchors are the heights of the cells of the column that has most of them
// without wrapping.
func (g *grid) anchors(lines []vline) []float64 {
	var best []float64
	for k := 1; k <= len(g.cols); k++ {
		j := k % len(g.cols) // the first column last
		var at []float64
		var above *piece
		tight := false
		for i := range lines {
			for m := range lines[i].pieces {
				p := &lines[i].pieces[m]
				if p.c0 != j || p.c1 != j {
					continue
				}
				if above != nil && !apart(above, p) && (p.base-above.base < 1.35*p.size || p.base-above.base < 1.8*p.size && spreadBelow(above, p)) {
					tight = true
				}
				at, above = append(at, p.base), p
			}
		}
		if !tight && len(at) > len(best) {
			best = at
		}
	}
	return best
}

// apart reports two whole figures one below the other: they stand in rows of
// their own, however close.
func apart(above, p *piece) bool {
	return figure(above.plain()) && figure(p.plain()) && !unfinish.MatchString(above.plain()) && !bracketed.MatchString(p.plain())
}

// spreadBelow reports a spread in brackets under the mean it belongs to.
func spreadBelow(above, p *piece) bool {
	return figure(above.plain()) && bracketed.MatchString(p.plain()) && !bracketed.MatchString(above.plain())
}

// share gives each piece of a column a row: consecutive pieces, groups in
// order, the middle of each group near the row's height.
func share(ps []piece, at []float64) []int {
	n, m := len(ps), len(at)
	if n == 0 {
		return nil
	}
	cost := make([][]float64, m+1)
	from := make([][]int, m+1)
	for k := range cost {
		cost[k], from[k] = make([]float64, n+1), make([]int, n+1)
		for i := range cost[k] {
			cost[k][i] = math.Inf(1)
		}
	}
	cost[0][0] = 0
	for k := 1; k <= m; k++ {
		for i := 0; i <= n; i++ {
			for h := i; h >= 0 && i-h < 40; h-- {
				c := cost[k-1][h]
				if h < i {
					// half-way between two rows a name belongs to the first
					mid := (ps[h].base+ps[i-1].base)/2 - 0.08*ps[h].size
					d := math.Abs(mid-at[k-1]) / ps[h].size
					c += d*d*math.Sqrt(float64(i-h)) + strayed(ps[h:i], at, k-1)
				} else {
					c += 0.15
				}
				if c < cost[k][i] {
					cost[k][i], from[k][i] = c, h
				}
			}
		}
	}
	out := make([]int, n)
	for k, i := m, n; k > 0; k-- {
		for h := from[k][i]; h < i; h++ {
			out[h] = k - 1
		}
		i = from[k][i]
	}
	return out
}
