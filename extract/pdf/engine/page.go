package engine

import (
	"errors"
	"math"
	"strings"
	"unicode/utf16"

	"probity/extract/pdf/glyph"
)

// scratch holds the functions and the buffers used for every glyph.
type scratch struct {
	*raw
	buf                                                   uint32 // room for results
	unicode, origin, loose, tight, generated, object, bad caller
}

func newScratch(r *raw) *scratch {
	return &scratch{raw: r, buf: r.alloc(512),
		unicode: r.fn("FPDFText_GetUnicode"), origin: r.fn("FPDFText_GetCharOrigin"),
		loose: r.fn("FPDFText_GetLooseCharBox"), tight: r.fn("FPDFText_GetCharBox"),
		generated: r.fn("FPDFText_IsGenerated"), object: r.fn("FPDFText_GetTextObject"),
		bad: r.fn("FPDFText_HasUnicodeMapError")}
}

// A sheetPage is one page in the frame it is shown in, its glyphs with their
// direction still.
type sheetPage struct {
	glyph.Page
	turn   []int8 // direction of each glyph: quarter turns anticlockwise, or askew
	hidden []bool
	drawn  *glyph.Page // what was made of its picture instead
}

const askew int8 = -1

// frame maps PDF user space (y upwards) to the shown page (y downwards).
type frame struct {
	left, bottom, right, top float64
	quarter                  int // clockwise quarter turns the page is shown with
}

func (f frame) point(x, y float64) (float64, float64) {
	switch f.quarter {
	case 1:
		return y - f.bottom, x - f.left
	case 2:
		return f.right - x, y - f.bottom
	case 3:
		return f.top - y, f.right - x
	}
	return x - f.left, f.top - y
}

// direction is the same map for a vector.
func (f frame) direction(x, y float64) (float64, float64) {
	x0, y0 := f.point(0, 0)
	x1, y1 := f.point(x, y)
	return x1 - x0, y1 - y0
}

func (f frame) box(x0, y0, x1, y1 float64) glyph.Box {
	ax, ay := f.point(x0, y0)
	bx, by := f.point(x1, y1)
	return glyph.Box{X0: math.Min(ax, bx), Y0: math.Min(ay, by), X1: math.Max(ax, bx), Y1: math.Max(ay, by)}
}

// maxGlyphs is far above any page of print; a damaged file can claim more.
const maxGlyphs = 200_000

var errPage = errors.New("the page cannot be loaded")

func (s *scratch) page(doc uint32, index int, lim Limits) (*sheetPage, error) {
	page := s.call("FPDF_LoadPage", uint64(doc), uint64(index))
	if page == 0 {
		return nil, errPage
	}
	defer s.call("FPDF_ClosePage", page)
	text := s.call("FPDFText_LoadPage", page)
	if text == 0 {
		return nil, errPage
	}
	defer s.call("FPDFText_ClosePage", text)

	f := s.frame(page)
	out := &sheetPage{Page: glyph.Page{Number: index + 1, Width: f.right - f.left, Height: f.top - f.bottom}}
	if f.quarter%2 == 1 {
		out.Width, out.Height = out.Height, out.Width
	}
	s.glyphs(text, f, out)
	s.drawings(page, f, out)
	out.Ink = out.Empty() && out.Objects > 0 && s.ink(page, out.Width, out.Height)
	if lim.Draw != nil && (out.Scanned() || out.Stamped() || out.Ink) {
		if picture, err := s.picture(page, out.Width, out.Height, lim.DrawDPI); err == nil {
			out.drawn = lim.Draw(&out.Page, picture)
		}
	}
	return out, nil
}

func (s *scratch) frame(page uint64) frame {
	f := frame{right: 612, top: 792}
	if s.call("FPDF_GetPageBoundingBox", page, uint64(s.buf)) != 0 { // FS_RECTF: left, top, right, bottom
		l, t, r, b := s.f32(s.buf), s.f32(s.buf+4), s.f32(s.buf+8), s.f32(s.buf+12)
		if r > l && t > b {
			f.left, f.top, f.right, f.bottom = l, t, r, b
		}
	}
	f.quarter = int(s.call("FPDFPage_GetRotation", page)) & 3
	return f
}

// style is what one text object gives to all its glyphs.
type style struct {
	face
	object uint64
	size   float64
	turn   int8
	hidden bool
}

// A face is a font and whether it draws signs in the place of letters.
type face struct {
	font   *glyph.Font
	mathPi bool
}

// fonts are the faces of a page, by PDFium's handle and by what is said of
// them: some programs write a text object for every letter, and asking for a
// name each time costs more than all else.
type fonts struct {
	of    map[uint64]face
	named map[string]face
}

func (s *scratch) glyphs(text uint64, f frame, out *sheetPage) {
	n := min(s.count("FPDFText_CountChars", text), maxGlyphs)
	out.Glyphs = make([]glyph.Glyph, 0, n)
	out.turn = make([]int8, 0, n)
	out.hidden = make([]bool, 0, n)
	fonts := &fonts{of: map[uint64]face{}, named: map[string]face{}}
	var st style
	var half rune
	hint := false
	for i := 0; i < n && s.err == nil; i++ {
		at := uint64(i)
		r := rune(uint32(s.use(s.unicode, text, at)))
		if r <= ' ' && r != 2 && uint32(s.use(s.generated, text, at)) == 1 {
			hint = true // a space or line end that PDFium puts in by guess
			continue
		}
		if r >= 0xd800 && r < 0xdc00 { // the first half of a character beyond U+FFFF
			half = r
			continue
		}
		if half != 0 {
			r, half = utf16.DecodeRune(half, r), 0
		}
		if obj := s.use(s.object, text, at); obj != st.object || i == 0 {
			st = s.style(text, at, obj, f, fonts)
		}
		if st.size < 0.5 {
			continue
		}
		g, ok := s.glyph(text, at, r, f, st)
		if !ok {
			continue
		}
		g.Hint, hint = hint, false
		out.Glyphs = append(out.Glyphs, g)
		out.turn = append(out.turn, st.turn)
		out.hidden = append(out.hidden, st.hidden)
	}
}

func (s *scratch) glyph(text, at uint64, r rune, f frame, st style) (glyph.Glyph, bool) {
	g := glyph.Glyph{Size: st.size, Font: st.font}
	g.Rune, g.Space, g.Bad = plain(r, st.mathPi)
	if g.Bad && g.Rune != '\ufffd' {
		g.Bad = false
	} else if !g.Space && r >= 0x80 && uint32(s.use(s.bad, text, at)) == 1 {
		g.Bad = true
	}
	if s.use(s.origin, text, at, uint64(s.buf), uint64(s.buf+8)) == 0 {
		return g, false
	}
	ox, oy := s.f64(s.buf), s.f64(s.buf+8)
	x, y := f.point(ox, oy)
	if x < -2 || y < -2 || x > f.width()+2 || y > f.height()+2 {
		return g, false // outside the visible page
	}
	var b glyph.Box
	if s.use(s.loose, text, at, uint64(s.buf)) != 0 {
		b = f.box(s.f32(s.buf), s.f32(s.buf+12), s.f32(s.buf+8), s.f32(s.buf+4))
	}
	along := b.Width()
	if st.turn%2 != 0 {
		along = b.Height()
	}
	if along <= 0 || along > 4*st.size || st.turn != 0 {
		if s.use(s.tight, text, at, uint64(s.buf), uint64(s.buf+8), uint64(s.buf+16), uint64(s.buf+24)) != 0 {
			b = f.box(s.f64(s.buf), s.f64(s.buf+16), s.f64(s.buf+8), s.f64(s.buf+24))
		}
	}
	g.Box, g.Base = b, y
	g.X0 = x // the pen's place, kept in Box until the sheet is turned upright
	if st.turn == 0 {
		w := b.X1 - x
		if w <= 0 || w > 4*st.size {
			w = 0.5 * st.size
		}
		g.X1 = x + w
		g.Y0, g.Y1 = y-0.75*st.size, y+0.25*st.size
	}
	return g, true
}

func (f frame) width() float64 {
	if f.quarter%2 == 1 {
		return f.top - f.bottom
	}
	return f.right - f.left
}

func (f frame) height() float64 {
	if f.quarter%2 == 1 {
		return f.right - f.left
	}
	return f.top - f.bottom
}

func (s *scratch) style(text, at, obj uint64, f frame, fonts *fonts) style {
	st := style{object: obj}
	size := math.Float64frombits(s.call("FPDFText_GetFontSize", text, at))
	a, b, c, d := 1.0, 0.0, 0.0, 1.0
	if s.call("FPDFText_GetMatrix", text, at, uint64(s.buf)) != 0 {
		a, b, c, d = s.f32(s.buf), s.f32(s.buf+4), s.f32(s.buf+8), s.f32(s.buf+12)
	}
	st.size = math.Abs(size) * math.Hypot(c, d)
	if math.IsNaN(st.size) || st.size > 2000 {
		st.size = 0
	}
	if size < 0 {
		a, b = -a, -b
	}
	st.turn = quarter(f.direction(a, b))
	st.hidden = obj != 0 && uint32(s.call("FPDFTextObj_GetTextRenderMode", obj)) == 3
	st.face = s.face(text, at, obj, fonts)
	return st
}

// quarter names the direction text runs in (y downwards): 0 to the right, 1
// upwards, 2 to the left, 3 downwards.
func quarter(x, y float64) int8 {
	const slack = 0.09 // about five degrees
	n := math.Hypot(x, y)
	if n == 0 || math.IsNaN(n) {
		return 0
	}
	x, y = x/n, y/n
	switch {
	case x > 0 && math.Abs(y) < slack:
		return 0
	case y < 0 && math.Abs(x) < slack:
		return 1
	case x < 0 && math.Abs(y) < slack:
		return 2
	case y > 0 && math.Abs(x) < slack:
		return 3
	}
	return askew
}

// boldFlag is ForceBold of the font descriptor's flags (ISO 32000-1, table 123).
const (
	italicFlag = 1 << 6
	boldFlag   = 1 << 18
)

func (s *scratch) face(text, at, obj uint64, fonts *fonts) face {
	handle := uint64(0)
	if obj != 0 {
		handle = s.call("FPDFTextObj_GetFont", obj)
	}
	if f, ok := fonts.of[handle]; ok && handle != 0 {
		return f
	}
	f := s.newFace(text, at, fonts.named)
	fonts.of[handle] = f
	return f
}

func (s *scratch) newFace(text, at uint64, named map[string]face) face {
	const room = 256
	n := s.count("FPDFText_GetFontInfo", text, at, uint64(s.buf), room, uint64(s.buf+room))
	flags := s.u32(s.buf + room)
	name := ""
	if n > 1 && n <= room {
		if b, ok := s.mem.Read(s.buf, uint32(n-1)); ok {
			name = string(b)
		}
	}
	key := name + string(rune(flags&0xffff)) + string(rune(flags>>16))
	if f, ok := named[key]; ok {
		return f
	}
	weight := s.count("FPDFText_GetFontWeight", text, at)
	if len(name) > 7 && name[6] == '+' {
		name = name[7:]
	}
	low := strings.ToLower(name)
	f := &glyph.Font{Name: name,
		Bold: flags&boldFlag != 0 || weight >= 600 || containsAny(low, "bold", "black", "heavy", "cmbx", "sfbx", "ecbx", "semibold", "-demi") ||
			strings.HasSuffix(low, ".b") || strings.HasSuffix(low, "-b"),
		Italic: flags&italicFlag != 0 || containsAny(low, "italic", "oblique", "cmti", "sfti", "ecti", "cmmi")}
	named[key] = face{f, isMathPi(name)}
	return named[key]
}

func containsAny(s string, parts ...string) bool {
	for _, p := range parts {
		if strings.Contains(s, p) {
			return true
		}
	}
	return false
}
