package html

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"probity/extract"
	"probity/extract/internal/flow"
)

// maxDepth bounds the recursion; the parser itself allows 512.
const maxDepth = 600

// blocks gives what stands inside n, in order. Text and inline elements
// between blocks make a paragraph of their own.
func (r *reader) blocks(n *html.Node, s scope) {
	if s.depth++; s.depth > maxDepth {
		return
	}
	var loose []extract.Run
	flush := func() {
		r.Paragraph(loose, s.kind)
		loose = nil
	}
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		switch {
		case k.Type == html.TextNode:
			loose = inline(loose, k, style{})
		case k.Type != html.ElementNode || skipped(k):
		case isBlock[k.DataAtom] || holdsBlock(k):
			flush()
			r.block(k, s)
		default:
			loose = inline(loose, k, style{})
		}
	}
	flush()
}

// holdsBlock reports an inline element with a block inside it, as custom
// elements and spans round whole sections are.
func holdsBlock(n *html.Node) bool {
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		if k.Type == html.ElementNode && (isBlock[k.DataAtom] || holdsBlock(k)) {
			return true
		}
	}
	return false
}

func (r *reader) block(n *html.Node, s scope) {
	note, ref, cap := kind(n)
	s.kind.Note, s.kind.Reference, s.kind.Caption = s.kind.Note || note, s.kind.Reference || ref, s.kind.Caption || cap
	switch n.DataAtom {
	case atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6:
		r.heading(n)
	case atom.Table:
		if layout(n) {
			r.blocks(n, s)
		} else {
			r.table(n, nil)
		}
	case atom.Figure:
		r.figure(n, s)
	case atom.P, atom.Dt, atom.Dd, atom.Pre, atom.Address:
		r.lines(n, s)
	case atom.Hr:
	case atom.Dl:
		r.definitions(n, s)
	default:
		if wraps(n) {
			r.wrapped(n)
			return
		}
		r.blocks(n, s)
	}
}

// lines gives a paragraph, or what stands in it where it holds blocks.
func (r *reader) lines(n *html.Node, s scope) {
	if holdsBlock(n) {
		r.blocks(n, s)
		return
	}
	r.Paragraph(runs(n), s.kind)
}

// definitions gives each term with its meaning as one paragraph: lists of
// abbreviations are set so.
func (r *reader) definitions(n *html.Node, s scope) {
	var term []extract.Run
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		switch {
		case k.Type != html.ElementNode || skipped(k):
		case k.DataAtom == atom.Dt:
			term = append(runs(k), extract.Run{Text: " "})
		case k.DataAtom == atom.Dd && !holdsBlock(k):
			r.Paragraph(append(term, runs(k)...), s.kind)
			term = nil
		default:
			r.Paragraph(term, s.kind)
			term = nil
			r.block(k, s)
		}
	}
	r.Paragraph(term, s.kind)
}

// kind reads from class and id what an element holds.
func kind(n *html.Node) (note, reference, caption bool) {
	for _, a := range n.Attr {
		if a.Key != "class" && a.Key != "id" && a.Key != "role" && a.Key != "aria-labelledby" {
			continue
		}
		v := strings.ToLower(a.Val)
		note = note || hasWord(v, noteWords)
		reference = reference || hasWord(v, referenceWords)
		caption = caption || hasWord(v, captionWords)
	}
	big := n.DataAtom == atom.Body || n.DataAtom == atom.Main || n.DataAtom == atom.Article
	if note && hasWord(strings.ToLower(attr(n, "class")), figureWords) {
		note, caption = false, true
	}
	return note && !big, reference && !big, caption && !big && n.DataAtom != atom.Section
}

// Words in class names. Source: common practice of publishers' pages.
var (
	noteWords      = map[string]bool{"fn": true, "footnote": true, "footnotes": true, "tfoot": true, "foot": true, "legend": true, "tablenote": true, "tablenotes": true, "notes": true}
	referenceWords = map[string]bool{"references": true, "bibliography": true, "reflist": true, "biblist": true, "citations": true, "doc-bibliography": true}
	figureWords    = map[string]bool{"fig": true, "figure": true, "figures": true}
	captionWords   = map[string]bool{"cap": true, "caption": true, "captions": true, "figcaption": true}
)

// heading gives a heading. The first of the highest rank is the title, which
// belongs to the title page and not to the text.
func (r *reader) heading(n *html.Node) {
	text := runs(n)
	title := extract.Flatten(text)
	if title == "" {
		return
	}
	depth := int(n.Data[1] - '0')
	if depth == 1 && !r.named {
		if s, _ := flow.Named(title); s == "" {
			r.named = true
			if r.Doc.Meta.Title == "" {
				r.Doc.Meta.Title = title
			}
			if flow.Alike(title, r.Doc.Meta.Title) {
				return
			}
		}
	}
	r.HeadingAt(depth, text)
}

// figure gives a figure: its table if it holds one, or its caption.
func (r *reader) figure(n *html.Node, s scope) {
	if find(n, func(k *html.Node) bool { return k.DataAtom == atom.Table && !layout(k) }) != nil {
		r.wrapped(n)
		return
	}
	cap := find(n, func(k *html.Node) bool { return k.DataAtom == atom.Figcaption })
	if cap == nil {
		s.kind.Caption = true
		r.blocks(n, s)
		return
	}
	text := runs(cap)
	if label, _ := flow.Label(extract.Flatten(text)); label != "" {
		r.elsewhere(label, text, n)
		return
	}
	r.Flush()
	r.Prose(extract.Caption, text)
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		if k != cap && k.Type == html.ElementNode && !skipped(k) && k.DataAtom == atom.Div && len(rawText(k)) > 60 {
			r.blocks(k, scope{kind: flow.Kind{Caption: true}, depth: s.depth})
		}
	}
}

// elsewhere reports a table of which the page has only the caption.
func (r *reader) elsewhere(label string, caption []extract.Run, n *html.Node) {
	what := "the table stands on a page of its own and is not in this file"
	if find(n, func(k *html.Node) bool { return k.DataAtom == atom.Img }) != nil {
		what = "the table is only a picture; its figures are not read"
	}
	r.Missing(label, what, caption)
}
