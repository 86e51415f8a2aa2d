// Package formula writes formulas as the line of text a reader would speak:
// "12.3 ± 1.1", "10" with a raised 2, "(a + b)/c".
//
//	MathML, TeX → []extract.Run in the order of print
package formula

import (
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/xmltree"
)

// MathML writes the formula under n.
func MathML(n *xmltree.Node) []extract.Run {
	m := &math{}
	m.kids(n, 0)
	return m.runs
}

type math struct{ runs []extract.Run }

func (m *math) add(s string, height int) {
	m.runs = flow.Append(m.runs, extract.Run{Text: s, Raised: height > 0, Lowered: height < 0})
}

func (m *math) kids(n *xmltree.Node, height int) {
	for _, k := range n.Kids {
		m.node(k, height)
	}
}

func (m *math) node(n *xmltree.Node, height int) {
	parts := elements(n)
	switch n.Name {
	case "":
		m.add(strings.TrimSpace(n.Text), height)
	case "mi", "mn", "ms":
		m.add(n.String(), height)
	case "mo":
		m.add(operator(n.String()), height)
	case "mtext":
		m.add(strings.Join(strings.FieldsFunc(text(n), isLine), " "), height)
	case "mspace":
		m.add(" ", height)
	case "semantics":
		if len(parts) > 0 {
			m.node(parts[0], height)
		}
	case "annotation", "annotation-xml", "mphantom", "none", "mprescripts":
	case "msup", "msub", "msubsup", "munderover", "munder", "mover":
		m.script(n.Name, parts, height)
	case "mfrac":
		m.fraction(parts, height)
	case "msqrt":
		m.add("√(", height)
		m.kids(n, height)
		m.add(")", height)
	case "mroot":
		if len(parts) == 2 {
			m.node(parts[1], 1)
			m.add("√(", height)
			m.node(parts[0], height)
			m.add(")", height)
		}
	case "mfenced":
		m.fenced(n, parts, height)
	case "mtr", "mlabeledtr", "mtd":
		m.kids(n, height)
		m.add(" ", height)
	default: // math, mrow, mstyle, mpadded, mtable …
		m.kids(n, height)
	}
}

// script writes a base and what stands above and below it. A line or hat over
// a letter stays at its side.
func (m *math) script(name string, parts []*xmltree.Node, height int) {
	if len(parts) == 0 {
		return
	}
	m.node(parts[0], height)
	heights := map[string][]int{
		"msup": {1}, "msub": {-1}, "msubsup": {-1, 1},
		"munder": {-1}, "mover": {1}, "munderover": {-1, 1},
	}[name]
	for i, part := range parts[1:] {
		if i >= len(heights) {
			return
		}
		if s := part.String(); strings.HasPrefix(name, "m") && (name == "mover" || name == "munder") && mark[s] != "" {
			m.add(mark[s], height)
			continue
		}
		m.node(part, heights[i])
	}
}

// mark gives the combining form of signs set over a letter.
var mark = map[string]string{
	"¯": "\u0304", "‾": "\u0304", "_": "\u0304", "-": "\u0304", "―": "\u0304", "\u0304": "\u0304",
	"^": "\u0302", "ˆ": "\u0302", "~": "\u0303", "˜": "\u0303", "→": "\u20d7", "˙": "\u0307",
}

func (m *math) fraction(parts []*xmltree.Node, height int) {
	if len(parts) != 2 {
		return
	}
	m.group(parts[0], height)
	m.add("/", height)
	m.group(parts[1], height)
}

// group puts brackets round a part of a fraction that is more than one thing.
func (m *math) group(n *xmltree.Node, height int) {
	compound := strings.ContainsAny(n.String(), "+-−±×·/=") && n.Is("mrow", "mstyle", "mpadded")
	if compound {
		m.add("(", height)
	}
	m.node(n, height)
	if compound {
		m.add(")", height)
	}
}

func (m *math) fenced(n *xmltree.Node, parts []*xmltree.Node, height int) {
	value := func(name, otherwise string) string {
		for _, a := range n.Attrs {
			if a.Name.Local == name {
				return a.Value
			}
		}
		return otherwise
	}
	between := []rune(strings.ReplaceAll(value("separators", ","), " ", ""))
	m.add(value("open", "("), height)
	for i, p := range parts {
		if i > 0 && len(between) > 0 {
			m.add(string(between[min(i-1, len(between)-1)]), height)
		}
		m.node(p, height)
	}
	m.add(value("close", ")"), height)
}

func elements(n *xmltree.Node) []*xmltree.Node {
	var out []*xmltree.Node
	for _, k := range n.Kids {
		if k.Name != "" {
			out = append(out, k)
		}
	}
	return out
}

func text(n *xmltree.Node) string {
	s := n.Text
	for _, k := range n.Kids {
		s += text(k)
	}
	return s
}

func isLine(r rune) bool { return r == '\n' || r == '\r' || r == '\t' }

// operator sets the signs between quantities apart, as print does, so that
// "12.3±1.1" and "12.3 ± 1.1" read the same; invisible operators are nothing.
func operator(s string) string {
	switch s {
	case "±", "=", "<", ">", "≤", "≥", "≈", "×", "+", "≠":
		return " " + s + " "
	case "\u2061", "\u2062", "\u2063", "\u2064":
		return ""
	}
	return s
}
