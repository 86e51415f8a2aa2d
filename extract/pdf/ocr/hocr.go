package ocr

import (
	"image"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/net/html"

	"probity/extract/pdf/glyph"
)

// scale turns dots into points.
const scale = 72.0 / DPI

// maxGlyphs is far above any page of print.
const maxGlyphs = 200_000

// page makes a page of hOCR with a box for each character and of the ruled
// lines of the picture.
func page(hocr io.Reader, picture *image.Gray) *glyph.Page {
	r := &reader{font: &glyph.Font{Name: "recognised"}}
	r.out = &glyph.Page{Recognised: true, Width: float64(picture.Rect.Dx()) * scale, Height: float64(picture.Rect.Dy()) * scale}
	r.read(html.NewTokenizer(hocr))
	r.out.Rules = append(rules(picture, false), rules(picture, true)...)
	return r.out
}

type reader struct {
	out   *glyph.Page
	font  *glyph.Font
	line  line
	box   glyph.Box // of the characters to come: one, or those of a word
	inBox bool
	word  bool // a word has begun: a space stands before its first character
}

// A line is what hOCR says of a line: its box, its baseline as a slope and an
// offset from the box's lower left corner, and the height of its letters from
// the deepest to the highest.
type line struct {
	box          glyph.Box
	slope, below float64
	size         float64
}

func (l line) base(x float64) float64 { return l.box.Y1 + l.slope*(x-l.box.X0) + l.below }

func (r *reader) read(z *html.Tokenizer) {
	for len(r.out.Glyphs) < maxGlyphs {
		switch z.Next() {
		case html.ErrorToken:
			return
		case html.StartTagToken:
			t := z.Token()
			r.open(attribute(t, "class"), attribute(t, "title"))
		case html.TextToken:
			if r.inBox {
				r.text(z.Token().Data)
			}
		}
	}
}

func attribute(t html.Token, name string) string {
	for _, a := range t.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func (r *reader) open(class, title string) {
	r.inBox = false
	switch class {
	case "ocr_line", "ocr_caption", "ocr_header", "ocr_textfloat":
		r.line = line{box: boxOf(property(title, "bbox"))}
		if v := property(title, "baseline"); len(v) == 2 {
			r.line.slope, r.line.below = v[0], v[1]*scale
		}
		if v := property(title, "x_size"); len(v) == 1 {
			r.line.size = v[0] * scale
		}
	case "ocrx_word":
		r.word = true
		r.box = boxOf(property(title, "bbox")) // for programs that give no boxes of characters
		r.inBox = !r.box.Empty()
	case "ocrx_cinfo":
		r.box = boxOf(property(title, "x_bboxes"))
		r.inBox = !r.box.Empty()
	}
}

// property finds the numbers after a name in an hOCR title: "bbox 1 2 3 4; …".
func property(title, name string) []float64 {
	for part := range strings.SplitSeq(title, ";") {
		fields := strings.Fields(part)
		if len(fields) == 0 || fields[0] != name {
			continue
		}
		var out []float64
		for _, f := range fields[1:] {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil || math.IsNaN(v) || math.Abs(v) > 1e6 {
				return nil
			}
			out = append(out, v)
		}
		return out
	}
	return nil
}

func boxOf(v []float64) glyph.Box {
	if len(v) != 4 {
		return glyph.Box{}
	}
	return glyph.Box{X0: v[0] * scale, Y0: v[1] * scale, X1: v[2] * scale, Y1: v[3] * scale}
}

// text adds the characters of a box. Cells are as high as the line, so that
// letters with and without a stem stand level; one that hangs in the upper half
// of the line is set smaller, on a baseline of its own, as raised marks are.
func (r *reader) text(s string) {
	size := r.line.size
	if size <= 0 {
		size = r.box.Height()
	}
	chars := []rune(strings.TrimSpace(s))
	whole, width := r.box, r.box.Width()/float64(max(1, len(chars)))
	for i, c := range chars {
		r.box = whole
		r.box.X0 += float64(i) * width
		r.box.X1 = r.box.X0 + width
		if c == '|' || c == '¦' || !unicode.IsGraphic(c) { // an upright rule of a table
			continue
		}
		base := r.line.base(r.box.X0)
		own := size
		if raised(c) && r.box.Y1 < base-0.2*size && r.box.Height() < 0.65*size {
			base, own = r.box.Y1, 0.65*size
		}
		g := glyph.Glyph{Rune: c, Base: base, Size: own, Font: r.font, Hint: r.word}
		g.Box = glyph.Box{X0: r.box.X0, X1: r.box.X1, Y0: base - 0.75*own, Y1: base + 0.25*own}
		if n := len(r.out.Glyphs); !r.word && n > 0 {
			// the boxes are of ink: within a word they are widened to touch, or a
			// slim 1 would stand apart
			before := &r.out.Glyphs[n-1]
			g.X0 = max(g.X0, before.X0+0.1)
			g.X1 = max(g.X1, g.X0+0.1)
			before.X1 = g.X0
		}
		r.out.Glyphs = append(r.out.Glyphs, g)
		r.word = false
	}
}

// raised reports a character that stands on the line unless it is raised.
func raised(c rune) bool { return unicode.IsLetter(c) || unicode.IsDigit(c) }
