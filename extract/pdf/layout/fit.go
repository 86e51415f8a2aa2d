package layout

import "math"

// fit lays the words of a header line over the columns. Names of columns are
// set so close that spaces alone do not part them, and run wider than their
// columns; but each stands over the middle, or the left edge, of what it
// names. Of all ways to part the line, the one that fits best is taken.
func (g *grid) fit(l *vline) []piece {
	var words []Word
	for i := range l.pieces {
		words = append(words, l.pieces[i].words...)
	}
	n, c := len(words), len(g.cols)
	if each := g.oneEach(words); each != nil {
		return each
	}
	if n == 0 || n > 60 || c > 40 {
		return g.coarse(l)
	}
	cost := make([][]float64, n+1) // cost[i][j]: words before i laid over columns before j
	from := make([][][3]int, n+1)
	for i := range cost {
		cost[i], from[i] = make([]float64, c+1), make([][3]int, c+1)
		for j := range cost[i] {
			cost[i][j] = math.Inf(1)
		}
	}
	for j := range cost[0] {
		cost[0][j] = 0
	}
	for k := 1; k <= n; k++ {
		for i := k - 1; i >= 0 && k-i <= 16; i-- {
			if k-i > 1 && words[i+1].X0-words[i].X1 > 0.7*words[i].Size {
				break // cells, by any measure
			}
			p := newPiece(words[i:k])
			loose := looseness(words[i:k])
			for a := 0; a < c; a++ {
				if math.IsInf(cost[i][a], 1) {
					continue
				}
				for b := a; b < c; b++ {
					v := cost[i][a] + loose + g.misfit(&p, a, b) + cutCost(words, i)
					if v < cost[k][b+1]-1e-9 {
						cost[k][b+1], from[k][b+1] = v, [3]int{i, a, b}
					}
				}
			}
		}
		for j := 1; j <= c; j++ { // columns may stay free
			if cost[k][j-1] < cost[k][j] {
				cost[k][j], from[k][j] = cost[k][j-1], [3]int{-1, 0, 0}
			}
		}
	}
	if math.IsInf(cost[n][c], 1) {
		return g.coarse(l)
	}
	var out []piece
	for k, j := n, c; k > 0; {
		f := from[k][j]
		if f[0] < 0 {
			j--
			continue
		}
		p := newPiece(words[f[0]:k])
		p.c0, p.c1 = f[1], f[2]
		out = append([]piece{p}, out...)
		k, j = f[0], f[1]
	}
	return out
}

// oneEach reads a line that has a name for nearly every column, each in the
// middle or at the left edge of its own: then spaces do not matter.
func (g *grid) oneEach(words []Word) []piece {
	groups := make([][]Word, len(g.cols))
	for i := range words {
		w := &words[i]
		at := -1
		for j := range g.cols {
			left, right := g.edges(j, j)
			if mid := (w.X0 + w.X1) / 2; mid > left && mid <= right && w.X0 > left-0.3*w.Size && w.X1 < right+0.3*w.Size {
				at = j
				break
			}
		}
		if at < 0 {
			return nil
		}
		groups[at] = append(groups[at], *w)
	}
	var out []piece
	sum := 0.0
	for j, ws := range groups {
		if len(ws) == 0 {
			continue
		}
		p := newPiece(ws)
		p.c0, p.c1 = j, j
		left, right := g.edges(j, j)
		mid := (p.X0 + p.X1) / 2
		off := math.Min(math.Abs(mid-(g.cols[j].x0+g.cols[j].x1)/2), math.Abs(mid-(left+right)/2))
		off = math.Min(off, math.Min(math.Abs(p.X0-g.cols[j].x0), math.Abs(p.X1-g.cols[j].x1)))
		if off > 0.6*p.size {
			return nil
		}
		sum += off / p.size
		out = append(out, p)
	}
	if len(out) < 5 || sum > 0.35*float64(len(out)) || len(out)*5 < 4*(len(g.cols)-1) {
		return nil
	}
	return out
}

// looseness is the price of wide spaces inside one cell.
func looseness(words []Word) float64 {
	c := 0.0
	for i := 1; i < len(words); i++ {
		if gap := (words[i].X0 - words[i-1].X1) / words[i].Size; gap > 0.45 {
			c += 3 * (gap - 0.45)
		}
	}
	return c
}

// coarse keeps the pieces as they are, over the columns that their ends touch.
func (g *grid) coarse(l *vline) []piece {
	for i := range l.pieces {
		l.pieces[i].c0, l.pieces[i].c1 = g.covers(&l.pieces[i])
	}
	return l.pieces
}

// cutCost is the price of parting a line before word i: high at a plain space.
func cutCost(words []Word, i int) float64 {
	if i == 0 {
		return 0
	}
	switch gap := (words[i].X0 - words[i-1].X1) / words[i].Size; {
	case gap < 0.3:
		return 2
	case gap < 0.42:
		return 1
	case gap < 0.52:
		return 0.4
	}
	return 0
}

// misfit is how badly a piece stands over columns a to b, in ems.
func (g *grid) misfit(p *piece, a, b int) float64 {
	left, right := g.edges(a, b)
	x0, x1 := g.cols[a].x0, g.cols[b].x1
	mid := (p.X0 + p.X1) / 2
	off := math.Min(math.Abs(mid-(x0+x1)/2), math.Abs(mid-(left+right)/2))
	if a == b {
		off = math.Min(off, math.Min(math.Abs(p.X0-x0), math.Abs(p.X1-x1)))
	} else {
		off = math.Min(off, math.Abs(p.X0-x0)+0.5*p.size)
		if p.X1 < g.cols[b].x0 || p.X0 > g.cols[a].x1 { // does not reach its outer columns
			off += 0.3 * p.size
		}
	}
	over := math.Max(0, left-p.X0-0.4*p.size) + math.Max(0, p.X1-right-0.4*p.size)
	return 0.3 + 0.12*float64(b-a) + math.Min(off/p.size, 4) + 1.5*over/p.size
}
