package engine

import (
	"math"

	"probity/extract/pdf/glyph"
)

// turnedEnough is how many glyphs set sideways make a table or a page of their
// own; fewer are axis labels, stamps and the like.
const turnedEnough = 150

// sheets splits the page by the direction of its text, turns every part
// upright and drops what is printed twice.
func (p *sheetPage) sheets() []*glyph.Page {
	digits := p.digits()
	p.dropHidden()
	var count [4]int
	for i, t := range p.turn {
		if t >= 0 && !p.Glyphs[i].Space {
			count[t]++
		}
	}
	var out []*glyph.Page
	for q := int8(0); q < 4; q++ {
		if q != 0 && count[q] < turnedEnough && !(count[q] > 0 && count[q] == count[0]+count[1]+count[2]+count[3]) {
			continue
		}
		if q == 0 || count[q] > 0 {
			out = append(out, p.upright(q))
		}
	}
	if len(out) > 1 && count[0] == 0 {
		out = out[1:]
	}
	taken := map[int8]bool{}
	for _, s := range out {
		taken[int8(s.Turned/90)] = true
	}
	for i, t := range p.turn {
		if t == askew && !p.Glyphs[i].Space {
			out[0].Skewed++
		}
		if r := p.Glyphs[i].Rune; !taken[t] && r >= '0' && r <= '9' {
			out[0].Aside++
		}
	}
	out[0].Digits, out[0].Objects, out[0].Ink = digits, p.Objects, p.Ink
	return out
}

// digits counts the digits of the page before anything is left out.
func (p *sheetPage) digits() (n [10]int) {
	for i := range p.Glyphs {
		if r := p.Glyphs[i].Rune; r >= '0' && r <= '9' {
			n[r-'0']++
		}
	}
	return n
}

// dropHidden leaves invisible text out where the page has visible text of its
// own: it is then the same words a second time.
func (p *sheetPage) dropHidden() {
	hidden, seen := 0, 0
	for i, h := range p.hidden {
		if p.Glyphs[i].Space {
			continue
		}
		if h {
			hidden++
		} else {
			seen++
		}
	}
	if hidden == 0 {
		return
	}
	if seen*5 < hidden {
		p.Hidden = hidden
		return
	}
	glyphs, turn := p.Glyphs[:0], p.turn[:0]
	for i, h := range p.hidden {
		if !h {
			glyphs, turn = append(glyphs, p.Glyphs[i]), append(turn, p.turn[i])
		}
	}
	p.Glyphs, p.turn, p.hidden = glyphs, turn, nil
}

func (p *sheetPage) upright(q int8) *glyph.Page {
	out := &glyph.Page{Number: p.Number, Width: p.Width, Height: p.Height, Turned: int(q) * 90, Hidden: p.Hidden}
	if q%2 == 1 {
		out.Width, out.Height = p.Height, p.Width
	}
	seen := newTwice(len(p.Glyphs))
	out.Glyphs = make([]glyph.Glyph, 0, len(p.Glyphs))
	for i, g := range p.Glyphs {
		if p.turn[i] != q {
			continue
		}
		if q != 0 {
			g = p.turnGlyph(g, q)
		}
		if !g.Space && seen.before(i, &g) {
			continue
		}
		out.Glyphs = append(out.Glyphs, g)
	}
	for _, r := range p.Rules {
		out.Rules = append(out.Rules, glyph.Rule{Box: p.turnBox(r.Box, q)})
	}
	for _, b := range p.Pictures {
		out.Pictures = append(out.Pictures, p.turnBox(b, q))
	}
	return out
}

func (p *sheetPage) turnPoint(x, y float64, q int8) (float64, float64) {
	switch q {
	case 1: // runs upwards
		return p.Height - y, x
	case 2:
		return p.Width - x, p.Height - y
	case 3: // runs downwards
		return y, p.Width - x
	}
	return x, y
}

func (p *sheetPage) turnBox(b glyph.Box, q int8) glyph.Box {
	ax, ay := p.turnPoint(b.X0, b.Y0, q)
	bx, by := p.turnPoint(b.X1, b.Y1, q)
	return glyph.Box{X0: math.Min(ax, bx), Y0: math.Min(ay, by), X1: math.Max(ax, bx), Y1: math.Max(ay, by)}
}

// turnGlyph turns a glyph whose X0 and Base hold the pen's place and whose
// other edges hold its ink.
func (p *sheetPage) turnGlyph(g glyph.Glyph, q int8) glyph.Glyph {
	x, base := p.turnPoint(g.X0, g.Base, q)
	ink := p.turnBox(g.Box, q)
	w := ink.X1 - x
	if g.Space || w <= 0 || w > 3*g.Size {
		w = 0.25 * g.Size
		if !g.Space {
			w = 0.5 * g.Size
		}
	}
	g.Base = base
	g.Box = glyph.Box{X0: x, X1: x + w + 0.04*g.Size, Y0: base - 0.75*g.Size, Y1: base + 0.25*g.Size}
	return g
}

// twice remembers where each character stands, to leave out what is printed
// again a hair beside it to look bold.
type twice struct {
	first map[uint64]int32 // by character and place: the newest in seen, from 1
	seen  []placed
}

type placed struct {
	at   int
	x, y float64
	next int32 // the one before at that place, from 1
}

func newTwice(n int) *twice {
	return &twice{first: make(map[uint64]int32, n), seen: make([]placed, 0, n)}
}

// spot packs a character and a square of the page, four points wide.
func spot(r rune, x, y int) uint64 {
	return uint64(uint32(r))<<32 | uint64(uint16(x))<<16 | uint64(uint16(y))
}

func (t *twice) before(i int, g *glyph.Glyph) bool {
	cell := func(v float64) int { return int(v / 4) }
	near := 0.09 * g.Size
	for cx := cell(g.X0 - near); cx <= cell(g.X0+near); cx++ {
		for cy := cell(g.Base - near); cy <= cell(g.Base+near); cy++ {
			for k := t.first[spot(g.Rune, cx, cy)]; k > 0; k = t.seen[k-1].next {
				// the letters of a ligature stand at one place, one after the other
				p := &t.seen[k-1]
				if i-p.at > 3 && math.Abs(p.x-g.X0) < near && math.Abs(p.y-g.Base) < near {
					return true
				}
			}
		}
	}
	k := spot(g.Rune, cell(g.X0), cell(g.Base))
	t.seen = append(t.seen, placed{i, g.X0, g.Base, t.first[k]})
	t.first[k] = int32(len(t.seen))
	return false
}
