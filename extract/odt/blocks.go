package odt

import (
	"strconv"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/xmltree"
)

// blocks gives what stands inside n, in order.
func (r *reader) blocks(n *xmltree.Node) {
	for _, k := range n.Kids {
		switch k.Name {
		case "p", "h":
			r.paragraph(k)
		case "table":
			r.table(k)
		case "tracked-changes":
			r.deleted += len(k.All("deletion"))
		case "list", "list-item", "list-header", "section", "text-box", "frame", "index-body", "numbered-paragraph", "g", "custom-shape":
			r.blocks(k)
		case "bibliography":
			for _, p := range k.All("p") {
				r.Paragraph(r.runs(nil, p, style{}), flow.Kind{Reference: true})
			}
		case "note":
			r.note(k)
		}
	}
}

// paragraph gives one paragraph or heading, then what hangs on it.
func (r *reader) paragraph(n *xmltree.Node) {
	outer := r.held
	r.held = nil
	bases := r.base(n.Attr("style-name"))
	text := flow.Trim(r.runs(nil, n, paragraphStyle(bases)))
	if len(text) > 0 {
		r.give(n, text, bases)
	}
	held := r.held
	r.held = outer
	for _, h := range held {
		switch h.Name {
		case "note":
			r.note(h)
		case "table":
			r.table(h)
		default:
			r.blocks(h)
		}
	}
}

// paragraphStyle is the weight that a paragraph's styles set.
func paragraphStyle(bases []*style) style {
	for _, s := range bases {
		if s.marked {
			return style{bold: s.bold}
		}
	}
	return style{}
}

// give decides what a paragraph is: from its element and style, then from its
// look.
func (r *reader) give(n *xmltree.Node, text []extract.Run, bases []*style) {
	line := extract.Flatten(text)
	depth := 0
	if n.Is("h") {
		depth, _ = strconv.Atoi(n.Attr("outline-level"))
		depth = max(depth, 1)
	}
	k := flow.Kind{}
	for _, s := range bases {
		switch {
		case s.name == "title" || s.name == "subtitle":
			if r.Doc.Meta.Title == "" {
				r.Doc.Meta.Title, r.titled = line, true
			} else {
				r.Prose(extract.Heading, text)
			}
			return
		case s.depth > 0 && depth == 0:
			depth = s.depth
		case strings.Contains(s.name, "caption") || s.name == "table" || s.name == "illustration" || s.name == "figure":
			k.Caption = true
		case strings.HasPrefix(s.name, "bibliography") || strings.Contains(s.name, "references"):
			k.Reference = true
		}
	}
	switch {
	case depth == 1 && !r.titled && len(r.Doc.Blocks) < 3 && flow.TitleLike(line) && r.Doc.Meta.Title == "":
		r.Doc.Meta.Title, r.titled = line, true
	case depth > 0:
		r.HeadingAt(depth, text)
	case !r.titled && len(r.Doc.Blocks) == 0 && allBold(text) && flow.TitleLike(line):
		r.Doc.Meta.Title, r.titled = line, true
	case looksLikeHeading(line) && !k.Caption:
		r.HeadingAt(6, text)
	default:
		r.Paragraph(text, k)
	}
}

// looksLikeHeading reports the name of a main section in a paragraph without a
// heading style.
func looksLikeHeading(line string) bool {
	s, plain := flow.Named(line)
	return s != "" && plain && len(line) < 60
}

func allBold(text []extract.Run) bool {
	for _, r := range text {
		if !r.Bold && strings.TrimSpace(r.Text) != "" {
			return false
		}
	}
	return len(text) > 0
}

// note gives a footnote or endnote.
func (r *reader) note(n *xmltree.Node) {
	for _, line := range r.noteLines(n) {
		r.Prose(extract.Footnote, line)
	}
}

// noteLines are the paragraphs of a note, the first with its mark.
func (r *reader) noteLines(n *xmltree.Node) [][]extract.Run {
	mark := n.Child("note-citation").String()
	var out [][]extract.Run
	for _, p := range n.Child("note-body").All("p") {
		text := flow.Trim(r.runs(nil, p, style{}))
		if len(text) == 0 {
			continue
		}
		if len(out) == 0 && mark != "" {
			text = append([]extract.Run{{Text: mark, Raised: true}, {Text: " "}}, text...)
		}
		out = append(out, text)
	}
	return out
}
