package engine

import (
	"math"

	"probity/extract/pdf/glyph"
)

// Kinds of page objects and path segments (PDFium's fpdf_edit.h).
const (
	kindPath, kindImage, kindForm = 2, 3, 5
	segLine, segMove              = 0, 2
)

// Bounds on work for drawings: a chart may hold 100,000 strokes, a table a few
// hundred.
const (
	maxObjects  = 40_000
	maxSegments = 4_000
	maxRules    = 6_000
	thin        = 3.5 // a line in points; thicker is an area
	shortest    = 4.0
)

type affine struct{ a, b, c, d, e, f float64 }

func (m affine) then(n affine) affine {
	return affine{m.a*n.a + m.b*n.c, m.a*n.b + m.b*n.d, m.c*n.a + m.d*n.c, m.c*n.b + m.d*n.d,
		m.e*n.a + m.f*n.c + n.e, m.e*n.b + m.f*n.d + n.f}
}

func (m affine) apply(x, y float64) (float64, float64) {
	return x*m.a + y*m.c + m.e, x*m.b + y*m.d + m.f
}

type drawer struct {
	*scratch
	f        frame
	out      *sheetPage
	objects  int
	segments int
}

func (s *scratch) drawings(page uint64, f frame, out *sheetPage) {
	d := &drawer{scratch: s, f: f, out: out}
	n := s.count("FPDFPage_CountObjects", page)
	get := s.fn("FPDFPage_GetObject")
	for i := 0; i < n && d.more(); i++ {
		d.object(s.use(get, page, uint64(i)), affine{a: 1, d: 1}, 0)
	}
	out.Objects = n
}

func (d *drawer) more() bool {
	return d.err == nil && d.objects < maxObjects && d.segments < maxSegments*4 && len(d.out.Rules) < maxRules
}

func (d *drawer) object(obj uint64, m affine, depth int) {
	d.objects++
	if obj == 0 {
		return
	}
	switch uint32(d.call("FPDFPageObj_GetType", obj)) {
	case kindPath:
		d.path(obj, m)
	case kindImage:
		if b, ok := d.bounds(obj, m); ok {
			if min(b.Width(), b.Height()) <= thin && max(b.Width(), b.Height()) > 20 {
				d.rule(b)
			} else {
				d.out.Pictures = append(d.out.Pictures, b)
			}
		}
	case kindForm:
		if depth > 8 {
			return
		}
		inner := d.matrix(obj).then(m)
		n := d.count("FPDFFormObj_CountObjects", obj)
		for i := 0; i < n && d.more(); i++ {
			d.object(d.call("FPDFFormObj_GetObject", obj, uint64(i)), inner, depth+1)
		}
	}
}

func (d *drawer) matrix(obj uint64) affine {
	if d.call("FPDFPageObj_GetMatrix", obj, uint64(d.buf)) == 0 {
		return affine{a: 1, d: 1}
	}
	v := func(i uint32) float64 { return d.f32(d.buf + 4*i) }
	return affine{v(0), v(1), v(2), v(3), v(4), v(5)}
}

// bounds asks for left, bottom, right, top.
func (d *drawer) bounds(obj uint64, m affine) (glyph.Box, bool) {
	b := uint64(d.buf)
	if d.call("FPDFPageObj_GetBounds", obj, b, b+4, b+8, b+12) == 0 {
		return glyph.Box{}, false
	}
	x0, y0 := m.apply(d.f32(d.buf), d.f32(d.buf+4))
	x1, y1 := m.apply(d.f32(d.buf+8), d.f32(d.buf+12))
	return d.clip(d.f.box(x0, y0, x1, y1))
}

func (d *drawer) clip(b glyph.Box) (glyph.Box, bool) {
	w, h := d.f.width(), d.f.height()
	b.X0, b.Y0 = math.Max(b.X0, 0), math.Max(b.Y0, 0)
	b.X1, b.Y1 = math.Min(b.X1, w), math.Min(b.Y1, h)
	return b, b.X1 >= b.X0 && b.Y1 >= b.Y0 && !math.IsNaN(b.X0+b.X1+b.Y0+b.Y1)
}

func (d *drawer) rule(b glyph.Box) {
	if math.Max(b.Width(), b.Height()) >= shortest {
		d.out.Rules = append(d.out.Rules, glyph.Rule{Box: b})
	}
}

// path takes a thin filled shape as one rule, and every straight horizontal or
// vertical stroke of the others.
func (d *drawer) path(obj uint64, m affine) {
	b, ok := d.bounds(obj, m)
	if !ok || math.Max(b.Width(), b.Height()) < shortest {
		return
	}
	mode, stroke := d.drawMode(obj)
	if mode == 0 && !stroke || d.white(obj, stroke) {
		return
	}
	if math.Min(b.Width(), b.Height()) <= thin {
		d.rule(b)
		return
	}
	if stroke {
		d.strokes(obj, m)
	}
}

func (d *drawer) drawMode(obj uint64) (fill int, stroke bool) {
	if d.call("FPDFPath_GetDrawMode", obj, uint64(d.buf), uint64(d.buf+4)) == 0 {
		return 1, true
	}
	return int(d.u32(d.buf)), d.u32(d.buf+4) != 0
}

// white reports whether the path is drawn in the colour of paper: such shapes
// mask, they do not rule.
func (d *drawer) white(obj uint64, stroke bool) bool {
	name := "FPDFPageObj_GetFillColor"
	if stroke {
		name = "FPDFPageObj_GetStrokeColor"
	}
	b := uint64(d.buf)
	if d.call(name, obj, b, b+4, b+8, b+12) == 0 {
		return false
	}
	return d.u32(d.buf+12) == 0 || d.u32(d.buf) > 250 && d.u32(d.buf+4) > 250 && d.u32(d.buf+8) > 250
}

func (d *drawer) strokes(obj uint64, m affine) {
	m = d.matrix(obj).then(m)
	n := min(d.count("FPDFPath_CountSegments", obj), maxSegments)
	var startX, startY, x, y float64
	for i := 0; i < n && d.more(); i++ {
		d.segments++
		seg := d.call("FPDFPath_GetPathSegment", obj, uint64(i))
		if seg == 0 || d.call("FPDFPathSegment_GetPoint", seg, uint64(d.buf), uint64(d.buf+4)) == 0 {
			return
		}
		nx, ny := m.apply(d.f32(d.buf), d.f32(d.buf+4))
		kind := uint32(d.call("FPDFPathSegment_GetType", seg))
		if kind == segMove {
			startX, startY = nx, ny
		} else if kind == segLine {
			d.stroke(x, y, nx, ny)
		}
		x, y = nx, ny
		if d.call("FPDFPathSegment_GetClose", seg) != 0 {
			d.stroke(x, y, startX, startY)
			x, y = startX, startY
		}
	}
}

func (d *drawer) stroke(x0, y0, x1, y1 float64) {
	if math.Abs(x1-x0) > 0.7 && math.Abs(y1-y0) > 0.7 {
		return // neither level nor upright: part of a drawing
	}
	if b, ok := d.clip(d.f.box(x0, y0, x1, y1)); ok {
		d.rule(b)
	}
}
