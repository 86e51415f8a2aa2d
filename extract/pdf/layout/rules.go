package layout

import (
	"math"
	"sort"

	"probity/extract/pdf/glyph"
)

// rules are the straight lines of a page, pieces of one line joined.
type rules struct {
	across []glyph.Box // horizontal, by height
	down   []glyph.Box // vertical, from left to right
}

// oneLine is how far apart, in points, pieces of one ruled line may be.
const oneLine = 1.6

func newRules(p *glyph.Page) rules {
	var h, v []glyph.Box
	for _, r := range p.Rules {
		if r.Horizontal() {
			h = append(h, r.Box)
		} else {
			v = append(v, r.Box)
		}
	}
	return rules{joinRules(h), flipAll(joinRules(flipAll(v)))}
}

func flip(b glyph.Box) glyph.Box { return glyph.Box{X0: b.Y0, X1: b.Y1, Y0: b.X0, Y1: b.X1} }

func flipAll(bs []glyph.Box) []glyph.Box {
	out := make([]glyph.Box, len(bs))
	for i, b := range bs {
		out[i] = flip(b)
	}
	return out
}

// joinRules merges pieces at one height that touch, and double lines.
func joinRules(h []glyph.Box) []glyph.Box {
	mid := func(b glyph.Box) float64 { return (b.Y0 + b.Y1) / 2 }
	sort.Slice(h, func(i, j int) bool {
		if a, b := mid(h[i]), mid(h[j]); a != b {
			return a < b
		}
		return h[i].X0 < h[j].X0
	})
	var out []glyph.Box
	for i := 0; i < len(h); {
		j := i + 1
		for j < len(h) && mid(h[j])-mid(h[i]) <= oneLine {
			j++
		}
		group := append([]glyph.Box(nil), h[i:j]...)
		sort.Slice(group, func(a, b int) bool { return group[a].X0 < group[b].X0 })
		cur := group[0]
		for _, r := range group[1:] {
			if r.X0-cur.X1 <= oneLine {
				cur = cur.Union(r)
				continue
			}
			out = append(out, cur)
			cur = r
		}
		out = append(out, cur)
		i = j
	}
	return doubled(out)
}

// doubled joins two lines of one width drawn close together.
func doubled(h []glyph.Box) []glyph.Box {
	var out []glyph.Box
next:
	for _, r := range h {
		for k := len(out) - 1; k >= 0 && r.Y0-out[k].Y1 < 3.2; k-- {
			if math.Abs(out[k].X0-r.X0) < 2 && math.Abs(out[k].X1-r.X1) < 2 {
				out[k] = out[k].Union(r)
				continue next
			}
		}
		out = append(out, r)
	}
	return out
}
