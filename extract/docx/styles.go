package docx

import (
	"strconv"
	"strings"

	"probity/extract/internal/xmltree"
)

// style is what a named style means for reading.
type style struct {
	name    string // in lower case; built-in names are English in every language
	based   string
	depth   int // as a heading, from 1; 0 is none
	raised  bool
	lowered bool
	bold    bool
	hidden  bool
}

func readStyles(top *xmltree.Node) map[string]*style {
	out := map[string]*style{}
	for _, n := range top.All("style") {
		s := &style{name: strings.ToLower(n.Child("name").Attr0("val")), based: n.Child("basedOn").Attr0("val")}
		s.depth = headingDepth(s.name, n.Child("pPr"))
		if p := n.Child("rPr"); p != nil {
			f := font{}
			f.read(p)
			s.raised, s.lowered, s.bold, s.hidden = f.raised, f.lowered, f.bold, f.hidden
		}
		out[n.Attr("styleId")] = s
	}
	depths := map[*style]int{}
	for _, s := range out { // any order: all depths are found before one is changed
		depths[s] = inheritedDepth(out, s)
	}
	for s, d := range depths { // any order: each style has its own
		s.depth = d
	}
	return out
}

// headingDepth reads the depth of a heading from the name of its style or from
// its outline level.
func headingDepth(name string, pPr *xmltree.Node) int {
	if rest, ok := strings.CutPrefix(name, "heading "); ok {
		if n, err := strconv.Atoi(strings.TrimSpace(rest)); err == nil && n >= 1 && n <= 9 {
			return n
		}
	}
	return outlineDepth(pPr)
}

func outlineDepth(pPr *xmltree.Node) int {
	if lvl := pPr.Child("outlineLvl"); lvl != nil {
		if n, err := strconv.Atoi(lvl.Attr("val")); err == nil && n >= 0 && n < 9 {
			return n + 1
		}
	}
	return 0
}

func inheritedDepth(all map[string]*style, s *style) int {
	for range 12 { // styles are based on one another, perhaps in a circle
		if s == nil || s.depth > 0 {
			break
		}
		s = all[s.based]
	}
	if s == nil {
		return 0
	}
	return s.depth
}

// font is how a run is set.
type font struct {
	raised, lowered, bold, hidden, symbol bool
}

// read takes over what run properties say.
func (f *font) read(p *xmltree.Node) {
	for _, k := range p.Kids {
		switch k.Name {
		case "vertAlign":
			f.raised, f.lowered = k.Attr("val") == "superscript", k.Attr("val") == "subscript"
		case "position": // in half-points
			if n, err := strconv.Atoi(k.Attr("val")); err == nil && p.Child("vertAlign") == nil {
				f.raised, f.lowered = n >= 5, n <= -4
			}
		case "b":
			f.bold = on(k)
		case "vanish":
			f.hidden = on(k)
		case "rFonts":
			f.symbol = strings.EqualFold(k.Attr("ascii"), "Symbol") || strings.EqualFold(k.Attr("hAnsi"), "Symbol")
		}
	}
}

// on reads a toggle: it is on unless it says not.
func on(n *xmltree.Node) bool {
	switch n.Attr("val") {
	case "0", "false", "off":
		return false
	}
	return true
}
