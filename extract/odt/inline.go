package odt

import (
	"strconv"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/formula"
	"probity/extract/internal/xmltree"
)

// runs adds the text inside n.
func (r *reader) runs(out []extract.Run, n *xmltree.Node, s style) []extract.Run {
	for _, k := range n.Kids {
		out = r.inline(out, k, s)
	}
	return out
}

func (r *reader) inline(out []extract.Run, n *xmltree.Node, s style) []extract.Run {
	switch n.Name {
	case "":
		return add(out, n.Text, s)
	case "span":
		return r.runs(out, n, r.span(n, s))
	case "s": // a stretch of spaces
		return add(out, " ", s)
	case "tab":
		return add(out, "\t", s)
	case "line-break":
		return append(out, extract.Run{Text: "\n"})
	case "note":
		r.held = append(r.held, n)
		return append(out, extract.Run{Text: n.Child("note-citation").String(), Raised: true})
	case "bibliography-mark":
		from := len(out)
		out = r.runs(out, n, s)
		for i := from; i < len(out); i++ {
			out[i].Cites = true
		}
		return out
	case "frame":
		return r.frame(out, n, s)
	case "text-box", "table":
		r.held = append(r.held, n)
	case "annotation", "annotation-end", "tracked-changes", "hidden-text", "hidden-paragraph", "script", "soft-page-break",
		"bookmark", "bookmark-start", "bookmark-end", "change", "change-start", "change-end", "desc", "title":
	case "ruby":
		if base := n.Child("ruby-base"); base != nil {
			return r.runs(out, base, s)
		}
	default:
		return r.runs(out, n, s)
	}
	return out
}

// span is the style inside a span.
func (r *reader) span(n *xmltree.Node, s style) style {
	for i, b := range r.base(n.Attr("style-name")) {
		if b.raised || b.lowered {
			s.raised, s.lowered = b.raised, b.lowered
		}
		if b.marked && i == 0 {
			s.bold = b.bold
		}
		s.hidden = s.hidden || b.hidden
	}
	return s
}

// frame gives the formula that a frame holds, or holds back its text box.
func (r *reader) frame(out []extract.Run, n *xmltree.Node, s style) []extract.Run {
	if box := n.Child("text-box"); box != nil {
		r.held = append(r.held, box)
		return out
	}
	o := n.Child("object")
	if o == nil {
		if n.Child("object-ole") != nil {
			r.objects++
		}
		return out
	}
	math := o.Find("math")
	if math == nil {
		math = r.object(o.Attr("href"))
	}
	if math == nil {
		r.objects++
		return out
	}
	for _, m := range formula.MathML(math) {
		m.Bold = m.Bold || s.bold
		m.Raised = m.Raised || s.raised
		out = append(out, m)
	}
	return out
}

// add appends text in a style. White space in these files is folded; what
// counts is written as elements.
func add(out []extract.Run, text string, s style) []extract.Run {
	if s.hidden || text == "" {
		return out
	}
	text = strings.ReplaceAll(flow.Plain(text), "\u00ad", "")
	return flow.Append(out, extract.Run{Text: text, Raised: s.raised, Lowered: s.lowered, Bold: s.bold})
}

func count(n *xmltree.Node, name string) int {
	v, err := strconv.Atoi(n.Attr(name))
	if err != nil || v < 1 {
		return 1
	}
	return v
}
