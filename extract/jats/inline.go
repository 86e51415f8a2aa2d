package jats

import (
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/formula"
	"probity/extract/internal/xmltree"
)

// style is how text stands at a point of the tree.
type style struct{ raised, lowered, bold, cites bool }

// inline are the elements that stand inside a line of text.
var inline = map[string]bool{
	"bold": true, "italic": true, "sup": true, "sub": true, "sc": true, "b": true, "i": true,
	"underline": true, "overline": true, "monospace": true, "roman": true, "sans-serif": true,
	"strike": true, "styled-content": true, "named-content": true, "abbrev": true, "milestone-start": true,
	"xref": true, "ext-link": true, "uri": true, "email": true, "inline-formula": true, "math": true,
	"inline-graphic": true, "private-char": true, "break": true, "hr": true, "target": true,
	"chem-struct": true, "text": true, "index-term": true, "fixed-case": true, "institution": true,
}

// held are the blocks that may stand inside a paragraph.
var held = map[string]bool{
	"table-wrap": true, "table": true, "fig": true, "fig-group": true, "table-wrap-group": true, "list": true,
	"def-list": true, "boxed-text": true, "disp-quote": true, "media": true, "supplementary-material": true, "array": true,
}

// runs is the text inside n.
func (r *reader) runs(n *xmltree.Node) []extract.Run {
	if n == nil {
		return nil
	}
	return r.kids(nil, n, style{})
}

func (r *reader) kids(runs []extract.Run, n *xmltree.Node, s style) []extract.Run {
	for _, k := range n.Kids {
		runs = r.inline(runs, k, s)
	}
	return runs
}

// inline adds the text of n to runs. Blocks that stand inside (a table in a
// paragraph) are held back for whoever gives the paragraph.
func (r *reader) inline(runs []extract.Run, n *xmltree.Node, s style) []extract.Run {
	if held[n.Name] {
		r.held = append(r.held, n)
		return append(runs, extract.Run{Text: " "})
	}
	switch n.Name {
	case "":
		return add(runs, n.Text, s)
	case "sup":
		s.raised, s.lowered = true, false
	case "sub":
		s.raised, s.lowered = false, true
	case "bold", "b":
		s.bold = true
	case "xref":
		s.cites = s.cites || n.Attr("ref-type") == "bibr"
		if t := n.Attr("ref-type"); (t == "table-fn" || t == "fn") && len(n.String()) <= 3 {
			s.raised = true // print sets the mark of a footnote high
		}
		r.held = append(r.held, n)
	case "break":
		return append(runs, extract.Run{Text: "\n"})
	case "fn":
		r.held = append(r.held, n)
		return runs
	case "alternatives", "inline-formula", "disp-formula":
		return r.formula(runs, n, s)
	case "math":
		return styled(runs, formula.MathML(n), s)
	case "tex-math":
		return styled(runs, formula.TeX(n.String()), s)
	case "label":
		return r.label(runs, n, s)
	case "p", "title", "subtitle", "list-item", "def-item", "term", "def", "sec", "verse-line", "attrib", "preformat":
		return r.apart(runs, n, s)
	case "name", "person-group", "string-name", "mixed-citation", "element-citation", "citation", "nlm-citation", "note":
		return r.citation(runs, n, s)
	case "graphic", "inline-graphic", "object-id", "alt-text", "long-desc", "permissions", "annotation", "index-term", "private-char", "hr":
		return runs
	}
	return r.kids(runs, n, s)
}

// add appends text in a style.
func add(runs []extract.Run, text string, s style) []extract.Run {
	return flow.Append(runs, extract.Run{Text: flow.Plain(text), Raised: s.raised, Lowered: s.lowered, Bold: s.bold, Cites: s.cites})
}

// styled adds runs that come with their own height to text in a style.
func styled(runs, more []extract.Run, s style) []extract.Run {
	for _, m := range more {
		m.Raised = m.Raised || s.raised && !m.Lowered
		m.Lowered = m.Lowered || s.lowered && !m.Raised
		m.Bold, m.Cites = m.Bold || s.bold, m.Cites || s.cites
		runs = append(runs, m)
	}
	return runs
}

// label adds the label of a note or list entry; what it labels stays on its
// line. A single letter or digit is a mark, which print sets high.
func (r *reader) label(runs []extract.Run, n *xmltree.Node, s style) []extract.Run {
	if text := n.String(); len(text) == 1 && text >= "0" {
		s.raised = true
	}
	runs = r.kids(runs, n, s)
	return append(runs, extract.Run{Text: joint})
}

// joint is the white space between a label or term and what it belongs to.
const joint = "\u2002"

// apart adds a paragraph that stands inside a cell or a paragraph: on a line
// of its own.
func (r *reader) apart(runs []extract.Run, n *xmltree.Node, s style) []extract.Run {
	if k := len(runs); k > 0 && runs[k-1].Text != joint {
		runs = flow.Feed(runs)
	}
	runs = r.kids(runs, n, s)
	if n.Is("term") {
		return append(runs, extract.Run{Text: joint})
	}
	return flow.Feed(runs)
}

// citation adds a reference entry. In an element-citation the parts follow
// each other without the marks a reader would print between them.
func (r *reader) citation(runs []extract.Run, n *xmltree.Node, s style) []extract.Run {
	bare := !n.Is("mixed-citation")
	for _, k := range n.Kids {
		bare = bare && (k.Name != "" || strings.TrimSpace(k.Text) == "")
	}
	runs = add(runs, " ", s)
	for _, k := range n.Kids {
		runs = r.inline(runs, k, s)
		if bare && k.Name != "" {
			runs = add(runs, " ", s)
		}
	}
	return runs
}

// formula adds a formula or another element that offers the same thing in
// several ways: the first of MathML, TeX and text, never two.
func (r *reader) formula(runs []extract.Run, n *xmltree.Node, s style) []extract.Run {
	if n.Is("disp-formula") {
		runs = flow.Feed(runs)
	}
	for _, name := range []string{"alternatives", "textual-form", "math", "tex-math"} {
		if k := n.Child(name); k != nil {
			runs = r.around(runs, n, k, s)
			return runs
		}
	}
	return r.kids(runs, n, s)
}

// around adds the chosen form together with the text and label beside it.
func (r *reader) around(runs []extract.Run, n, chosen *xmltree.Node, s style) []extract.Run {
	for _, k := range n.Kids {
		form := k.Is("alternatives", "textual-form", "math", "tex-math", "graphic", "inline-graphic")
		if k == chosen || !form {
			runs = r.inline(runs, k, s)
		}
	}
	return runs
}
