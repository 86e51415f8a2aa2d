package ocr

import (
	"errors"
	"image"
	"math"
	"strings"
	"testing"

	"probity/extract/pdf/glyph"
)

// blank is a white picture.
func blank(w, h int) *image.Gray {
	p := image.NewGray(image.Rect(0, 0, w, h))
	for i := range p.Pix {
		p.Pix[i] = 255
	}
	return p
}

func near(a, b float64) bool { return math.Abs(a-b) < 0.01 }

// Boxes are in dots of 1/300 inch: 300 of them are 72 points.
const sample = `<html><body><div class='ocr_page' title='bbox 0 0 2480 3508'>
<span class='ocr_line' title="bbox 300 600 900 650; baseline 0 -10; x_size 50; x_descenders 10; x_ascenders 12">
<span class='ocrx_word' title='bbox 300 600 375 650; x_wconf 96'><span class='ocrx_cinfo' title='x_bboxes 300 605 320 640; x_conf 99'>&lt;</span><span class='ocrx_cinfo' title='x_bboxes 335 605 345 640; x_conf 99'>1</span><span class='ocrx_cinfo' title='x_bboxes 350 600 362 615; x_conf 80'>a</span></span>
<span class='ocrx_word' title='bbox 450 600 550 640; x_wconf 90'>2.50</span>
</span></div></body></html>`

func TestPage(t *testing.T) {
	p := page(strings.NewReader(sample), blank(2480, 3508))
	if !p.Recognised || !near(p.Width, 595.2) || !near(p.Height, 841.92) {
		t.Errorf("the page is %v × %v, Recognised = %v; want 595.2 × 841.92 and true", p.Width, p.Height, p.Recognised)
	}
	want := []struct {
		r          rune
		x0, x1     float64
		base, size float64
		hint       bool
	}{
		{'<', 72, 80.4, 153.6, 12, true},    // to where the 1 begins; base (650-10)·72/300
		{'1', 80.4, 84, 153.6, 12, false},   // to where the a begins
		{'a', 84, 86.88, 147.6, 7.8, false}, // hangs high: raised, 0.65 of 12
		{'2', 108, 114, 153.6, 12, true},    // a word without boxes of characters
		{'.', 114, 120, 153.6, 12, false},   // is shared out
		{'5', 120, 126, 153.6, 12, false},
		{'0', 126, 132, 153.6, 12, false},
	}
	if len(p.Glyphs) != len(want) {
		t.Fatalf("%d glyphs, want %d", len(p.Glyphs), len(want))
	}
	for i, w := range want {
		g := p.Glyphs[i]
		if g.Rune != w.r || !near(g.X0, w.x0) || !near(g.X1, w.x1) || !near(g.Base, w.base) || !near(g.Size, w.size) || g.Hint != w.hint {
			t.Errorf("glyph %d is %q from %.2f to %.2f, base %.2f, size %.2f, hint %v; want %+v", i, g.Rune, g.X0, g.X1, g.Base, g.Size, g.Hint, w)
		}
	}
}

// A line three dots thick and two inches long is a rule; letters, a short line
// and a dark bar are none.
func TestRules(t *testing.T) {
	p := blank(1000, 800)
	fill := func(x0, y0, x1, y1 int) {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				p.Pix[y*p.Stride+x] = 0
			}
		}
	}
	fill(100, 100, 700, 103) // level
	fill(50, 200, 53, 700)   // upright
	fill(200, 300, 230, 340) // a letter
	fill(400, 300, 500, 303) // too short
	fill(200, 500, 700, 600) // a bar
	level, upright := rules(p, false), rules(p, true)
	if want := (glyph.Box{X0: 24, X1: 168, Y0: 24, Y1: 24.72}); len(level) != 1 || !near(level[0].X0, want.X0) || !near(level[0].X1, want.X1) || !near(level[0].Y0, want.Y0) || !near(level[0].Y1, want.Y1) {
		t.Errorf("level rules %v, want one, %v", level, want)
	}
	if want := (glyph.Box{X0: 12, X1: 12.72, Y0: 48, Y1: 168}); len(upright) != 1 || !near(upright[0].X0, want.X0) || !near(upright[0].X1, want.X1) || !near(upright[0].Y0, want.Y0) || !near(upright[0].Y1, want.Y1) {
		t.Errorf("upright rules %v, want one, %v", upright, want)
	}
}

func TestMissing(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	if program, err := Find(); !errors.Is(err, ErrMissing) || program != "" {
		t.Errorf("Find() = %q, %v; want ErrMissing", program, err)
	}
	if p, err := By("/nonexistent/program")(blank(10, 10)); err == nil || p != nil {
		t.Errorf("a program that is not there gave %v, %v; want an error", p, err)
	}
}

// Any output of the program gives a page.
func FuzzPage(f *testing.F) {
	f.Add(sample)
	f.Add("<span class='ocrx_cinfo' title='x_bboxes 1 2 nan 4'>5</span>")
	f.Fuzz(func(t *testing.T, hocr string) {
		p := page(strings.NewReader(hocr), blank(20, 20))
		for _, g := range p.Glyphs {
			if g.X1 < g.X0 || math.IsNaN(g.X0+g.X1+g.Base+g.Size) {
				t.Errorf("a glyph from %v to %v, base %v, size %v", g.X0, g.X1, g.Base, g.Size)
			}
		}
	})
}
