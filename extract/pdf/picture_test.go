package pdf

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"probity/extract/pdf/glyph"
)

// drawnPNG is an empty picture of a size.
func drawnPNG(t *testing.T, w, h int) []byte {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, w, h)) // see-through: white on paper
	m.Set(0, 0, color.NRGBA{A: 255})
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// lines sets words at places, in lines 20 points apart.
func lines(rows [][]string) *glyph.Page {
	p := &glyph.Page{Recognised: true, Width: 500, Height: 700}
	font := &glyph.Font{Name: "recognised"}
	for i, row := range rows {
		for j, text := range row {
			x := 20 + 150*float64(j)
			for k, r := range text {
				g := glyph.Glyph{Rune: r, Base: 40 + 20*float64(i), Size: 10, Font: font, Hint: k == 0}
				g.Box = glyph.Box{X0: x, X1: x + 5, Y0: g.Base - 7.5, Y1: g.Base + 2.5}
				p.Glyphs = append(p.Glyphs, g)
				x += 5
			}
		}
	}
	return p
}

// The picture of a table has no caption and may have no rules: all that stands
// in it is the table, and every table says that it was recognised.
func TestPicture(t *testing.T) {
	var seen image.Rectangle
	see := func(m *image.Gray) (*glyph.Page, error) {
		seen = m.Rect
		if m.Pix[0] > 10 || m.Pix[len(m.Pix)-1] != 255 {
			t.Errorf("a dot of ink on nothing came as %d on %d, want ink on white", m.Pix[0], m.Pix[len(m.Pix)-1])
		}
		return lines([][]string{{"File", "New", "Used"}, {"Alvo", "412.6", "371.0"}, {"Brell", "355.2", "322.4"}}), nil
	}
	tables, err := Picture(drawnPNG(t, 600, 300), see)
	if err != nil || len(tables) != 1 {
		t.Fatalf("Picture gave %d tables, %v; want one", len(tables), err)
	}
	if want := image.Rect(0, 0, 2400, 1200); seen != want {
		t.Errorf("a picture 600 dots wide was shown as %v, want %v", seen, want)
	}
	got := drawn(tables[0])
	if !strings.Contains(got, "Alvo | 412.6 | 371.0") || tables[0].Head != 1 || !strings.Contains(tables[0].Doubt, guessed) {
		t.Errorf("the table is read as\n%s\nwant one row of header, Alvo | 412.6 | 371.0 and a doubt", got)
	}
}

func TestPictureRefused(t *testing.T) {
	none := func(*image.Gray) (*glyph.Page, error) { return &glyph.Page{}, nil }
	huge := append([]byte(nil), drawnPNG(t, 1, 1)...)
	copy(huge[16:24], []byte{0, 1, 0, 0, 0, 1, 0, 0}) // the size in IHDR: 65,536 × 65,536
	for what, data := range map[string][]byte{"no picture": []byte("MZ"), "no text": drawnPNG(t, 5, 5), "cut off": drawnPNG(t, 50, 50)[:60], "too large": huge} {
		if tables, err := Picture(data, none); err == nil || len(tables) > 0 {
			t.Errorf("%s: %d tables, %v; want an error", what, len(tables), err)
		}
	}
}
