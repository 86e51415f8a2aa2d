// Package glyph is the page model of the PDF reader: every character with its
// box, baseline, size, angle and font, and every ruled line, in one upright
// frame whose origin is the top left corner of the visible page.
//
//	engine (PDFium) → glyph.Page → layout (words, lines, columns, tables)
//
// Nothing after this package knows which engine the characters came from.
package glyph

import "math"

// A Box is a rectangle in points; y runs downwards, so Y0 is the upper edge.
type Box struct{ X0, Y0, X1, Y1 float64 }

// Width is the box's extent from left to right.
func (b Box) Width() float64 { return b.X1 - b.X0 }

// Height is the box's extent from top to bottom.
func (b Box) Height() float64 { return b.Y1 - b.Y0 }

// Empty reports whether the box covers nothing.
func (b Box) Empty() bool { return b.X1 <= b.X0 || b.Y1 <= b.Y0 }

// Union is the smallest box around both; an empty Box{} joins nothing.
func (b Box) Union(o Box) Box {
	if b == (Box{}) {
		return o
	}
	if o == (Box{}) {
		return b
	}
	return Box{math.Min(b.X0, o.X0), math.Min(b.Y0, o.Y0), math.Max(b.X1, o.X1), math.Max(b.Y1, o.Y1)}
}

// OverlapX is how many points the two share horizontally; below 0 a gap.
func (b Box) OverlapX(o Box) float64 { return math.Min(b.X1, o.X1) - math.Max(b.X0, o.X0) }

// OverlapY is how many points the two share vertically; below 0 a gap.
func (b Box) OverlapY(o Box) float64 { return math.Min(b.Y1, o.Y1) - math.Max(b.Y0, o.Y0) }

// A Font is what the typography says about a glyph, shared by many glyphs.
type Font struct {
	Name   string // as embedded, subset tag removed
	Bold   bool
	Italic bool
}

// A Glyph is one printed character.
type Glyph struct {
	Rune  rune
	Box           // cell box: advance wide, ascent to descent high
	Base  float64 // y of the baseline
	Size  float64 // effective size in points
	Font  *Font   // never nil
	Space bool    // a white-space character of the text itself
	Hint  bool    // the engine guesses a space before it
	Bad   bool    // the font gives no character for it: Rune is a stand-in
}

// A Rule is a straight printed line, thin enough to be one, or the edge of a
// framed box.
type Rule struct{ Box }

// Horizontal reports whether the rule runs from left to right.
func (r Rule) Horizontal() bool { return r.Width() >= r.Height() }

// A Page is one page, or the part of it that is set in one direction: a
// landscape table on an upright page is a Page of its own with the same Number.
type Page struct {
	Number   int // from 1
	Width    float64
	Height   float64
	Turned   int // degrees that this part was turned by to stand upright
	Glyphs   []Glyph
	Rules    []Rule
	Pictures []Box   // images, in points; a scan fills the page
	Digits   [10]int // how often each digit is printed, whatever its direction
	Skewed   int     // glyphs at other angles (watermarks), left out
	Aside    int     // digits at other angles or among few sideways glyphs, left out
	Objects  int     // pieces of text, drawings and pictures that the page is made of
	Ink      bool    // something shows on the page though none of it is text
	Hidden   int     // invisible glyphs (recognised text under a scan), kept

	Recognised bool // its text was read from the page's picture
}

// Empty reports whether nothing is printed as text.
func (p *Page) Empty() bool { return len(p.Glyphs) == 0 }

// Scanned reports whether the page is a picture with hardly any text of its
// own.
func (p *Page) Scanned() bool { return p.letters() < 20 && p.pictured() > 0.3 }

// Stamped reports whether the page is a picture as large as itself, with no
// more text than a stamp that says where it was fetched.
func (p *Page) Stamped() bool { return p.Hidden == 0 && p.letters() < 200 && p.pictured() > 0.8 }

func (p *Page) letters() int {
	seen := 0
	for i := range p.Glyphs {
		if !p.Glyphs[i].Space {
			seen++
		}
	}
	return seen
}

// pictured is the share of the page that pictures cover.
func (p *Page) pictured() float64 {
	area := 0.0
	for _, b := range p.Pictures {
		area += b.Width() * b.Height()
	}
	return area / (p.Width * p.Height)
}
