package html

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/formula"
	"probity/extract/internal/xmltree"
)

// style is how text stands at a point of the page.
type style struct{ raised, lowered, bold, cites bool }

// isBlock are the elements that stand on lines of their own.
var isBlock = map[atom.Atom]bool{
	atom.P: true, atom.Div: true, atom.Section: true, atom.Article: true, atom.Main: true, atom.Header: true,
	atom.Footer: true, atom.Aside: true, atom.H1: true, atom.H2: true, atom.H3: true, atom.H4: true, atom.H5: true,
	atom.H6: true, atom.Ul: true, atom.Ol: true, atom.Li: true, atom.Dl: true, atom.Dt: true, atom.Dd: true,
	atom.Table: true, atom.Caption: true, atom.Thead: true, atom.Tbody: true, atom.Tfoot: true, atom.Tr: true,
	atom.Td: true, atom.Th: true, atom.Figure: true, atom.Figcaption: true, atom.Blockquote: true, atom.Pre: true,
	atom.Hr: true, atom.Address: true, atom.Details: true, atom.Summary: true, atom.Fieldset: true, atom.Center: true,
	atom.Body: true, atom.Html: true, atom.Form: true, atom.Hgroup: true,
}

// runs is the text under n; blocks inside stand on lines of their own.
func runs(n *html.Node) []extract.Run {
	var out []extract.Run
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		out = inline(out, k, style{})
	}
	return flow.Trim(out)
}

// inline adds the text of one node.
func inline(out []extract.Run, n *html.Node, s style) []extract.Run {
	if n.Type == html.TextNode {
		return add(out, n.Data, s)
	}
	if n.Type != html.ElementNode || skipped(n) {
		return out
	}
	switch n.DataAtom {
	case atom.Sup:
		s.raised, s.lowered = true, false
	case atom.Sub:
		s.raised, s.lowered = false, true
	case atom.B, atom.Strong, atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6:
		s.bold = true
	case atom.A:
		s.cites = s.cites || cites(n)
	case atom.Br:
		return append(out, extract.Run{Text: "\n"})
	case atom.Math:
		return styled(out, formula.MathML(tree(n)), s)
	case atom.Script: // TeX in a page that draws its formulas in the browser
		return styled(out, formula.TeX(rawText(n)), s)
	case atom.Img:
		return add(out, sign(attr(n, "alt")), s)
	case atom.Table:
		return append(flow.Feed(out), extract.Run{Text: " "})
	}
	s = cssHeight(n, s)
	if class := attr(n, "class"); strings.Contains(class, "mathjax-tex") || strings.Contains(class, "math-tex") {
		if find(n, func(k *html.Node) bool { return k.DataAtom == atom.Math }) == nil {
			return styled(out, formula.TeX(unwrapped(rawText(n))), s)
		}
	}
	block := isBlock[n.DataAtom]
	if block {
		out = flow.Feed(out)
	}
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		out = inline(out, k, s)
	}
	if block {
		out = flow.Feed(out)
	}
	return out
}

// cssHeight reads raising and lowering from a style attribute or the class
// names that stand for them.
func cssHeight(n *html.Node, s style) style {
	if len(n.Attr) == 0 {
		return s
	}
	css := strings.ReplaceAll(attr(n, "style"), " ", "")
	class := attr(n, "class")
	switch {
	case strings.Contains(css, "vertical-align:super") || class == "sup" || class == "superscript":
		s.raised, s.lowered = true, false
	case strings.Contains(css, "vertical-align:sub") || class == "sub" || class == "subscript":
		s.raised, s.lowered = false, true
	}
	if strings.Contains(css, "font-weight:bold") || strings.Contains(css, "font-weight:700") {
		s.bold = true
	}
	return s
}

// sign lets through the alternative text of a picture that is one sign, as
// old pages print "±" and Greek letters.
func sign(alt string) string {
	if len([]rune(alt)) <= 2 {
		return alt
	}
	return ""
}

// cites reports a link to the reference list.
func cites(n *html.Node) bool {
	if attr(n, "role") == "doc-biblioref" || hasWord(strings.ToLower(attr(n, "class")), citeWords) {
		return true
	}
	_, id, ok := strings.Cut(strings.ToLower(attr(n, "href")), "#")
	if !ok {
		return false
	}
	name := strings.TrimRight(id, "0123456789-_.")
	if i := strings.LastIndexAny(name, "-_."); i >= 0 && len(name) > 12 {
		name = name[i+1:]
	}
	return id != name && refNames[name]
}

// citeWords are words in the class of links to the reference list; refNames
// are what comes before the number in their targets. Source: common practice.
var (
	citeWords = map[string]bool{"bibr": true, "citation": true, "biblioref": true, "xrefbibr": true, "refbib": true}
	refNames  = map[string]bool{
		"b": true, "bb": true, "bib": true, "r": true, "rf": true, "ref": true, "cr": true, "cit": true, "cite": true,
		"ref-cr": true, "reference": true, "references": true, "bibr": true, "en": true, "core-r": true, "cit0": true,
	}
)

// add appends text in a style.
func add(out []extract.Run, text string, s style) []extract.Run {
	if strings.Contains(text, "&") {
		text = xmltree.Entities(text)
	}
	return flow.Append(out, extract.Run{Text: flow.Plain(text), Raised: s.raised, Lowered: s.lowered, Bold: s.bold, Cites: s.cites})
}

func styled(out, more []extract.Run, s style) []extract.Run {
	for _, m := range more {
		m.Raised = m.Raised || s.raised && !m.Lowered
		m.Bold, m.Cites = m.Bold || s.bold, m.Cites || s.cites
		out = append(out, m)
	}
	return out
}

// rawText is the text under n whatever it is.
func rawText(n *html.Node) string {
	if n.Type == html.TextNode {
		return n.Data
	}
	s := ""
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		s += rawText(k)
	}
	return s
}

// unwrapped takes off the marks between which pages set TeX.
func unwrapped(s string) string {
	for _, m := range []string{`\(`, `\)`, `\[`, `\]`} {
		s = strings.ReplaceAll(s, m, "")
	}
	return s
}

// tree is a formula as the tree that package formula reads.
func tree(n *html.Node) *xmltree.Node {
	out := &xmltree.Node{}
	if n.Type == html.TextNode {
		out.Text = n.Data
		return out
	}
	out.Name = strings.ToLower(n.Data)
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		out.Kids = append(out.Kids, tree(k))
	}
	return out
}
