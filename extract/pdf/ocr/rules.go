package ocr

import (
	"image"

	"probity/extract/pdf/glyph"
)

// Bounds of what counts as a ruled line, in dots.
const (
	dark     = 128
	longRule = DPI / 2 // half an inch
	thickest = DPI / 25
	maxRules = 2000
)

// A run is a stretch of dark dots, over the rows that it fills.
type run struct{ from, to, first, last int }

// rules finds the level, or the upright, lines of a picture: runs of dark dots
// far longer than any letter and thinner than a bar.
func rules(p *image.Gray, upright bool) []glyph.Rule {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	at := func(along, across int) uint8 { return p.Pix[across*p.Stride+along] }
	if upright {
		w, h = h, w
		at = func(along, across int) uint8 { return p.Pix[along*p.Stride+across] }
	}
	var open, done []run
	for y := range h {
		start := -1
		for x := 0; x <= w; x++ {
			if x < w && at(x, y) < dark {
				if start < 0 {
					start = x
				}
				continue
			}
			if start >= 0 && x-start >= longRule {
				open = extend(open, start, x, y)
			}
			start = -1
		}
		open, done = settle(open, done, y)
	}
	var out []glyph.Rule
	for _, o := range append(done, open...) {
		if o.last-o.first >= thickest || len(out) == maxRules {
			continue
		}
		b := glyph.Box{X0: float64(o.from) * scale, X1: float64(o.to) * scale, Y0: float64(o.first) * scale, Y1: float64(o.last+1) * scale}
		if upright {
			b = glyph.Box{X0: b.Y0, X1: b.Y1, Y0: b.X0, Y1: b.X1}
		}
		out = append(out, glyph.Rule{Box: b})
	}
	return out
}

// slack is how many rows a line may be broken for.
const slack = 2

// extend adds a stretch of row y to the line it touches, or begins one.
func extend(open []run, from, to, y int) []run {
	for i := range open {
		if o := &open[i]; o.last >= y-slack && from < o.to && to > o.from {
			o.from, o.to, o.last = min(o.from, from), max(o.to, to), y
			return open
		}
	}
	return append(open, run{from, to, y, y})
}

// settle moves the lines that have ended by row y from open to done.
func settle(open, done []run, y int) (still, ended []run) {
	still = open[:0]
	for _, o := range open {
		if o.last < y-slack {
			done = append(done, o)
		} else {
			still = append(still, o)
		}
	}
	return still, done
}
