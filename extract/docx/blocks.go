package docx

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
		case "p":
			r.paragraph(k, flow.Kind{})
		case "tbl":
			r.table(k)
		case "sdt":
			if toc(k) {
				continue
			}
			if c := k.Child("sdtContent"); c != nil {
				r.blocks(c)
			}
		case "ins", "moveTo", "customXml", "smartTag":
			r.blocks(k)
		case "del", "moveFrom":
			r.count.deleted++
		case "AlternateContent":
			if b := branch(k); b != nil {
				r.blocks(b)
			}
		case "altChunk":
			r.count.cut++
		}
	}
}

// toc reports a table of contents, which repeats every heading.
func toc(n *xmltree.Node) bool {
	gallery := n.Child("sdtPr").Find("docPartGallery")
	return strings.Contains(strings.ToLower(gallery.Attr0("val")), "table of contents")
}

// branch is the one branch of alternative content that is read.
func branch(n *xmltree.Node) *xmltree.Node {
	if c := n.Child("Choice"); c != nil {
		return c
	}
	return n.Child("Fallback")
}

// paragraph gives one paragraph, then the boxes, tables and notes that hang on
// it.
func (r *reader) paragraph(n *xmltree.Node, k flow.Kind) {
	outer, outerMarks := r.held, r.marks
	r.held, r.marks = nil, nil
	pPr := n.Child("pPr")
	text := flow.Trim(r.runs(nil, n, r.paragraphFont(pPr)))
	if len(text) > 0 {
		r.give(text, pPr, k)
	}
	held, marks := r.held, r.marks
	r.held, r.marks = outer, outerMarks
	for _, h := range held {
		if h.Is("tbl") {
			r.table(h)
		} else {
			r.blocks(h)
		}
	}
	for _, key := range marks {
		r.footnote(key)
	}
}

// give decides what a paragraph is: from its style, then from its look.
func (r *reader) give(text []extract.Run, pPr *xmltree.Node, k flow.Kind) {
	id := pPr.Child("pStyle").Attr0("val")
	r.styled = r.styled || id != ""
	name, depth := "", outlineDepth(pPr)
	if s := r.styles[id]; s != nil {
		name = s.name
		if depth == 0 {
			depth = s.depth
		}
	}
	line := extract.Flatten(text)
	switch {
	case name == "title" || name == "subtitle" && r.Doc.Meta.Title == "":
		if r.Doc.Meta.Title == "" {
			r.Doc.Meta.Title, r.titled = line, true
			return
		}
		r.Prose(extract.Heading, text)
	case strings.HasPrefix(name, "toc ") || name == "table of figures":
	case depth > 0 && len(line) <= 300:
		r.heading(depth, text)
	case strings.Contains(name, "caption") || strings.Contains(name, "legend"):
		k.Caption = true
		r.Paragraph(text, k)
	case name == "bibliography" || strings.Contains(name, "references"):
		k.Reference = true
		r.Paragraph(text, k)
	case strings.Contains(name, "footnote") || strings.Contains(name, "endnote"):
		k.Note = true
		r.Paragraph(text, k)
	case !k.Note && r.looksLikeTitle(line, text):
		r.Doc.Meta.Title, r.titled = line, true
	case !k.Note && looksLikeHeading(line):
		r.heading(6, text)
	default:
		r.Paragraph(text, k)
	}
}

// heading gives a heading. The first one of a manuscript may be its title set
// in the style of a heading.
func (r *reader) heading(depth int, text []extract.Run) {
	line := extract.Flatten(text)
	if depth == 1 && !r.titled && len(r.Doc.Blocks) < 3 && flow.TitleLike(line) {
		r.titled = true
		if r.Doc.Meta.Title == "" {
			r.Doc.Meta.Title = line
			return
		}
	}
	r.HeadingAt(depth, text)
}

// looksLikeTitle reports the first paragraph of a manuscript without styles,
// set in bold.
func (r *reader) looksLikeTitle(line string, text []extract.Run) bool {
	return !r.titled && len(r.Doc.Blocks) == 0 && allBold(text) && flow.TitleLike(line)
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

// footnote gives a footnote or endnote, once.
func (r *reader) footnote(key string) {
	n := r.notes[key]
	if n == nil {
		return
	}
	delete(r.notes, key)
	mark := extract.Run{Text: strconv.Itoa(r.number(key)), Raised: true}
	first := true
	for _, p := range n.All("p") {
		text := flow.Trim(r.runs(nil, p, font{}))
		if len(text) == 0 {
			continue
		}
		if first {
			text = append([]extract.Run{mark, {Text: " "}}, text...)
		}
		first = false
		r.Prose(extract.Footnote, text)
	}
}

// number is the place of a note among those referred to.
func (r *reader) number(key string) int {
	n := 0
	for _, k := range r.order {
		if k[0] == key[0] {
			n++
		}
		if k == key {
			return n
		}
	}
	r.order = append(r.order, key)
	return n + 1
}
