package jats

import (
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/xmltree"
)

// blocks gives what stands inside n, in order. Text and inline elements that
// stand there without a paragraph around them make one.
func (r *reader) blocks(n *xmltree.Node) {
	var loose []*xmltree.Node
	flush := func() {
		if len(loose) > 0 {
			r.paragraph(extract.Paragraph, loose...)
			loose = nil
		}
	}
	for _, k := range n.Kids {
		if k.Name == "" || inline[k.Name] {
			loose = append(loose, k)
			continue
		}
		flush()
		r.block(k)
	}
	flush()
}

// block gives one block element.
func (r *reader) block(n *xmltree.Node) {
	switch n.Name {
	case "sec", "app", "ack", "glossary", "notes", "bio", "boxed-text", "statement", "disp-quote", "fn-group", "ref-list", "def-list", "list", "verse-group", "supplement":
		r.section(n)
	case "title", "label", "subtitle", "alt-title", "sec-meta", "object-id", "permissions", "kwd-group", "counts", "table-count":
		// given by whoever encloses them, or not print
	case "p", "verse-line", "speech", "attrib", "disp-formula", "preformat", "code", "corresp", "chem-struct-wrap", "related-article":
		r.paragraph(extract.Paragraph, n)
	case "fn":
		r.footnote(n)
	case "def-item":
		r.paragraph(extract.Paragraph, n)
	case "ref":
		r.reference(n)
	case "table-wrap":
		r.table(n)
	case "table":
		r.table(&xmltree.Node{Name: "table-wrap", Kids: []*xmltree.Node{n}})
	case "fig", "media", "supplementary-material":
		r.figure(n)
	case "graphic", "inline-supplementary-material", "tex-math", "sub-article", "response", "processing-meta":
		// a picture, or a paper of its own
	default: // groups: app-group, fig-group, table-wrap-group, floats-group …
		r.group(n)
	}
}

// group gives the members of a group; the caption and label of a group of
// tables hold for a member that has none of its own.
func (r *reader) group(n *xmltree.Node) {
	label, caption := n.Child("label"), n.Child("caption")
	if n.Is("fig-group") && caption != nil {
		r.figure(&xmltree.Node{Name: "fig", Kids: []*xmltree.Node{label, caption}})
	}
	if !n.Is("table-wrap-group") {
		r.blocks(n)
		return
	}
	for _, k := range n.Kids {
		if k.Is("table-wrap") {
			k = inheriting(k, label, caption)
		}
		if !k.Is("label", "caption") && k.Name != "" {
			r.block(k)
		}
	}
}

// inheriting is a table-wrap with the label and caption of its group where it
// has none.
func inheriting(n, label, caption *xmltree.Node) *xmltree.Node {
	own := *n
	own.Kids = nil
	if n.Child("label") == nil && label != nil {
		own.Kids = append(own.Kids, label)
	}
	if caption != nil {
		own.Kids = append(own.Kids, caption)
	}
	own.Kids = append(own.Kids, n.Kids...)
	return &own
}

// section gives a section: its title as a heading and what it holds.
func (r *reader) section(n *xmltree.Node) {
	title := r.runs(n.Child("title"))
	named := sectionType(n)
	if label := n.Child("label"); label != nil && len(flow.Trim(title)) > 0 {
		title = append(append(r.runs(label), extract.Run{Text: " "}), title...)
	}
	r.Enter(named, extract.Flatten(r.runs(n.Child("title"))))
	r.Prose(extract.Heading, title)
	if n.Is("list") {
		r.list(n)
	} else {
		r.blocks(n)
	}
	r.Leave()
}

// sectionType reads sec-type ("materials|methods", "COI-statement"). What is
// not known there is left to the title.
func sectionType(n *xmltree.Node) extract.Section {
	if n.Is("ack", "ref-list", "glossary", "app", "bio") {
		return extract.Back
	}
	switch t := strings.ToLower(n.Attr("sec-type")); t {
	case "":
		return ""
	case "intro":
		return extract.Introduction
	case "coi-statement", "conflict", "data-availability", "supplementary-material", "funding", "ethics-statement":
		return extract.Back
	default:
		if strings.Contains(t, "method") || strings.Contains(t, "materials") {
			return extract.Methods
		}
		s, _ := flow.Named(strings.ReplaceAll(t, "|", " and "))
		return s
	}
}

// list gives each item of a list as a paragraph.
func (r *reader) list(n *xmltree.Node) {
	for _, k := range n.Kids {
		if k.Is("list-item") {
			r.blocks(k)
		}
	}
}

// paragraph gives one paragraph. A table, figure or list inside it parts it
// where a sentence has ended; in the middle of one it comes after.
func (r *reader) paragraph(role extract.Role, nodes ...*xmltree.Node) {
	outer := r.held
	r.held = nil
	var runs []extract.Run
	for _, n := range nodes {
		if n.Name == "" || inline[n.Name] || n.Is("disp-formula") {
			runs = r.inline(runs, n, style{})
			continue
		}
		for _, k := range n.Kids {
			if held[k.Name] && flow.Ended(runs) {
				r.give(role, runs)
				runs = nil
			}
			runs = r.inline(runs, k, style{})
			if held[k.Name] && (extract.Cell{Runs: runs}).Empty() {
				r.give(role, nil)
				runs = nil
			}
		}
	}
	r.give(role, runs)
	r.held = outer
}

// give gives the text of a paragraph, then what was held back in it and the
// floats it refers to.
func (r *reader) give(role extract.Role, runs []extract.Run) {
	if runs = flow.Trim(runs); role == extract.Paragraph && r.Section() != extract.Back && flow.SetAsHeading(runs) {
		r.Subheading(runs)
	} else {
		r.Prose(role, runs)
	}
	waiting := r.held
	r.held = nil
	for _, n := range waiting {
		if !n.Is("xref") {
			r.block(n)
			continue
		}
		for _, id := range strings.Fields(n.Attr("rid")) {
			if f := r.floats[id]; f != nil {
				r.float(f)
			}
		}
	}
}

// footnote gives a footnote of the text or of the title page.
func (r *reader) footnote(n *xmltree.Node) {
	r.paragraph(extract.Footnote, n)
}

// reference gives one entry of the reference list.
func (r *reader) reference(n *xmltree.Node) {
	r.paragraph(extract.Reference, n)
}

// figure gives the caption of a figure. The figure itself is a picture.
func (r *reader) figure(n *xmltree.Node) {
	if r.again(n) {
		return
	}
	runs := r.runs(n.Child("label"))
	if len(flow.Trim(runs)) > 0 {
		runs = append(runs, extract.Run{Text: " "})
	}
	outer := r.held
	r.held = nil
	if caption := flow.Trim(r.legend(n)); len(caption) > 0 {
		r.Prose(extract.Caption, append(runs, caption...))
	}
	waiting := r.held
	r.held = outer
	for _, k := range append(waiting, n.Kids...) {
		if k.Is("table-wrap", "table", "fig") {
			r.block(k)
		}
	}
}

// legend is the text of a figure: its caption and whatever else is set as text
// in it.
func (r *reader) legend(n *xmltree.Node) []extract.Run {
	var runs []extract.Run
	for _, k := range n.Kids {
		switch {
		case k.Is("caption", "statement", "p", "attrib", "legend", "fn", "disp-quote", "list", "def-list"):
			runs = r.kids(flow.Feed(runs), k, style{})
		case k.Is("media") && n.Is("supplementary-material"):
			runs = append(flow.Feed(runs), r.runs(k.Child("label"))...)
			runs = append(append(runs, extract.Run{Text: " "}), r.legend(k)...)
		}
	}
	return runs
}

// again reports whether a block with this id was given before.
func (r *reader) again(n *xmltree.Node) bool {
	id := n.Attr("id")
	if id == "" {
		return false
	}
	was := r.seen[id]
	r.seen[id] = true
	return was
}
