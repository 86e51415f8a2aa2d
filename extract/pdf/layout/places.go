package layout

import (
	"regexp"
	"strings"
)

var (
	attached = regexp.MustCompile(`^(?:±.*|[(\[].*[)\]]|[a-zA-Z]{1,3}(?:,\s?[a-zA-Z]{1,3})*|[*†‡§¶#]+|%|[ᵃᵇᶜᵈᵉᶠᵍʰ⁎, ]+)$`)
	openEnd  = regexp.MustCompile(`±$`)
)

// merge joins columns that are parts of one: a column of ±, of spreads in
// brackets or of letters without a header of its own.
func (g *grid) merge() {
	for j := 1; j < len(g.cols); {
		texts, before := g.textsIn(j), g.textsIn(j-1)
		own := g.headed(j)
		all := func(ts []string, ok func(string) bool) bool {
			for _, t := range ts {
				if !ok(t) {
					return false
				}
			}
			return len(ts) > 0
		}
		figures := 0
		for _, t := range before {
			if figure(t) {
				figures++
			}
		}
		plus := all(texts, func(s string) bool { return strings.HasPrefix(s, "±") })
		open := all(before, openEnd.MatchString)
		tail := !own && j > 1 && figures*3 >= 2*len(before) && all(texts, attached.MatchString)
		if plus || open || tail {
			g.cols[j-1].x1 = g.cols[j].x1
			g.cols = append(g.cols[:j], g.cols[j+1:]...)
			continue
		}
		j++
	}
}

// textsIn are the texts of the body's pieces that lie in a column.
func (g *grid) textsIn(j int) []string {
	var out []string
	for _, l := range g.lines[g.head:] {
		if len(l.pieces) < 2 {
			continue
		}
		for i := range l.pieces {
			p := &l.pieces[i]
			if p.X0 >= g.cols[j].x0-1 && p.X1 <= g.cols[j].x1+1 {
				out = append(out, p.text())
			}
		}
	}
	return out
}

// headed reports a piece of header that stands over this column and no other.
func (g *grid) headed(j int) bool {
	for _, l := range g.lines[:g.head] {
		for i := range l.pieces {
			p := &l.pieces[i]
			mid := (p.X0 + p.X1) / 2
			if mid > g.cols[j].x0-0.6*p.size && mid < g.cols[j].x1+0.6*p.size && !(j > 0 && p.X0 < g.cols[j-1].x1-0.3*p.size) {
				return true
			}
		}
	}
	return false
}

// place says which columns each piece covers, and parts pieces that run over a
// strip because two cells stand close together.
func (g *grid) place() {
	for i := range g.lines {
		l := &g.lines[i]
		if i < g.head {
			l.pieces = g.fit(l)
			continue
		}
		var out []piece
		for k := range l.pieces {
			out = append(out, g.part(l.pieces[k])...)
		}
		l.pieces = out
	}
}

// bound is the middle of the strip after column j.
func (g *grid) bound(j int) float64 { return (g.cols[j].x1 + g.cols[j+1].x0) / 2 }

func (g *grid) part(p piece) []piece {
	p.c0, p.c1 = g.covers(&p)
	if p.c0 == p.c1 || len(p.words) < 2 {
		return []piece{p}
	}
	// look for a space near a strip
	for j := p.c0; j < p.c1; j++ {
		lo, hi := g.cols[j].x1-0.6*p.size, g.cols[j+1].x0+0.6*p.size
		for k := 1; k < len(p.words); k++ {
			a, b := p.words[k-1].X1, p.words[k].X0
			if a >= lo-0.1*p.size && b <= hi+0.1*p.size && (b-a > 0.33*p.size || ruled(a, b, g.uprights())) {
				left, right := newPiece(p.words[:k]), newPiece(p.words[k:])
				return append(g.part(left), g.part(right)...)
			}
		}
	}
	return []piece{p}
}

// covers gives the columns in which the ends of a piece of the body lie.
func (g *grid) covers(p *piece) (int, int) {
	n := len(g.cols)
	at := func(x float64) int {
		for j := 0; j < n-1; j++ {
			if x < g.bound(j) {
				return j
			}
		}
		return n - 1
	}
	c0, c1 := at(p.X0+0.3*p.size), at(p.X1-0.3*p.size)
	return c0, max(c0, c1)
}
