package layout

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"probity/extract/pdf/glyph"
)

// framed gives the columns of a table whose columns are all parted by vertical
// rules; nil for any other.
func (g *grid) framed() []span {
	cuts := g.uprights()
	if len(cuts) < 3 && !(len(cuts) >= 1 && len(cuts) <= 2 && cuts[0] > g.box.X0+20 && cuts[len(cuts)-1] < g.box.X1-20) {
		return nil
	}
	edges := append(append([]float64{g.box.X0 - 1}, cuts...), g.box.X1+1)
	var out []span
	for k := 1; k < len(edges); k++ {
		s := span{math.Inf(1), math.Inf(-1)}
		for _, l := range g.lines[g.head:] {
			for i := range l.pieces {
				for _, w := range l.pieces[i].words {
					if mid := (w.X0 + w.X1) / 2; mid > edges[k-1] && mid < edges[k] {
						s.x0, s.x1 = math.Min(s.x0, w.X0), math.Max(s.x1, w.X1)
					}
				}
			}
		}
		if s.x1 > s.x0 {
			out = append(out, s)
		}
	}
	// every wide strip of white must be ruled, or the rules part groups only
	for _, s := range out {
		inner := 0
		for _, c := range columnsOf(g.lines[g.head:], nil, cuts) {
			if c.x0 >= s.x0-1 && c.x1 <= s.x1+1 {
				inner++
			}
		}
		if inner > 1 && !g.loneCells(s) {
			return nil
		}
	}
	return out
}

// loneCells reports that no line has two pieces far apart inside a strip: what
// looks like two columns is one whose cells are set left, middle and right.
func (g *grid) loneCells(s span) bool {
	for _, l := range g.lines[g.head:] {
		n := 0
		for i := range l.pieces {
			if l.pieces[i].X0 >= s.x0-1 && l.pieces[i].X1 <= s.x1+1 {
				n++
			}
		}
		if n > 1 {
			return false
		}
	}
	return true
}

// uprights are the places of vertical rules that run through much of the table.
func (g *grid) uprights() []float64 {
	vs := slices.Clone(g.down)
	slices.SortFunc(vs, func(a, b glyph.Box) int { return cmp.Compare(a.X0, b.X0) })
	var out []float64
	for i := 0; i < len(vs); {
		j, h := i, 0.0
		for j < len(vs) && vs[j].X0-vs[i].X0 < 2.5 {
			h += vs[j].Height()
			j++
		}
		if h > 0.5*g.box.Height() {
			out = append(out, (vs[i].X0+vs[i].X1)/2)
		}
		i = j
	}
	return out
}

// gutterEm is the narrowest white strip between two columns, in ems.
const gutterEm = 0.5

// columnsOf gives the columns of lines: what is left between white strips. A
// line that alone bridges a strip holds a cell that spans columns.
func columnsOf(body, head []vline, cuts []float64) []span {
	var use []int
	for i := range body {
		if len(body[i].pieces) >= 2 || halfway(body, i) {
			use = append(use, i)
		}
	}
	if len(use) == 0 {
		return nil
	}
	cols := strips(body, use, cuts)
	for round := 0; round < 4 && len(use) > 3; round++ {
		best, at := cols, -1
		for k := range use {
			rest := append(append([]int(nil), use[:k]...), use[k+1:]...)
			if c := strips(body, rest, cuts); len(c) > len(best) {
				best, at = c, k
			}
		}
		if at < 0 || float64(len(use)-1) < 0.8*float64(len(body)) && len(use) <= 4 {
			break
		}
		cols, use = best, append(use[:at], use[at+1:]...)
	}
	return addHeads(cols, head)
}

// halfway reports a line that stands half-way between others: a cell set to
// the middle of a row whose other cells have two lines.
func halfway(lines []vline, i int) bool {
	near := func(j int) bool {
		return j >= 0 && j < len(lines) && math.Abs(lines[i].base-lines[j].base) < 0.85*math.Min(lines[i].size, lines[j].size) && len(lines[j].pieces) >= 2
	}
	return near(i-1) || near(i+1)
}

// strips projects the pieces of the chosen lines on the x axis.
func strips(lines []vline, use []int, cuts []float64) []span {
	var all []span
	em := 0.0
	for _, i := range use {
		em = math.Max(em, lines[i].size)
		for k := range lines[i].pieces {
			p := &lines[i].pieces[k]
			all = append(all, cutSpan(span{p.X0, p.X1}, p, cuts)...)
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].x0 < all[j].x0 })
	var out []span
	for _, s := range all {
		n := len(out)
		if n > 0 && s.x0-out[n-1].x1 < gutterEm*em && !ruled(out[n-1].x1, s.x0, cuts) {
			out[n-1].x1 = math.Max(out[n-1].x1, s.x1)
			continue
		}
		out = append(out, s)
	}
	return out
}

// ruled reports a vertical rule between two places.
func ruled(x0, x1 float64, cuts []float64) bool {
	for _, c := range cuts {
		if c > x0-2.5 && c < x1+2.5 {
			return true
		}
	}
	return false
}

// cutSpan parts a piece at the vertical rules that pass between its words.
func cutSpan(s span, p *piece, cuts []float64) []span {
	out := []span{s}
	for _, c := range cuts {
		for k := 1; k < len(p.words); k++ {
			if p.words[k-1].X1 <= c+1 && p.words[k].X0 >= c-1 {
				n := len(out) - 1
				out[n].x1 = p.words[k-1].X1
				out = append(out, span{p.words[k].X0, s.x1})
			}
		}
	}
	return out
}

// addHeads adds columns that only the header shows: a piece of it in white.
func addHeads(cols []span, head []vline) []span {
	if len(head) == 0 || len(cols) == 0 {
		return cols
	}
	for h := len(head) - 1; h >= 0; h-- {
		if len(head[h].pieces) <= len(cols) && head[h].pieces[0].X0 > cols[0].x0-2*head[h].size {
			continue // as many names as columns: they are set apart, no more
		}
		for i := range head[h].pieces {
			p := &head[h].pieces[i]
			free := true
			for _, c := range cols {
				if math.Min(c.x1, p.X1)-math.Max(c.x0, p.X0) > -0.5*p.size {
					free = false
				}
			}
			// above the last line a free piece may stand over two columns; only
			// at the edges it must have one of its own
			if free && (h == len(head)-1 || p.X1 < cols[0].x0 || p.X0 > cols[len(cols)-1].x1) {
				cols = append(cols, span{p.X0, p.X1})
				sort.Slice(cols, func(i, j int) bool { return cols[i].x0 < cols[j].x0 })
			}
		}
	}
	return cols
}
