package formula

import (
	"strings"

	"probity/extract"
	"probity/extract/internal/xmltree"
)

// OMML writes the formula under n, in the mathematical markup of
// WordprocessingML documents (ISO/IEC 29500-1, section 22.1).
func OMML(n *xmltree.Node) []extract.Run {
	m := &math{}
	m.office(n, 0)
	return m.runs
}

func (m *math) officeKids(n *xmltree.Node, height int) {
	if n == nil {
		return
	}
	for _, k := range n.Kids {
		m.office(k, height)
	}
}

func (m *math) office(n *xmltree.Node, height int) {
	switch n.Name {
	case "":
	case "t":
		m.add(spaced(text(n)), height)
	case "sSup":
		m.officeKids(n.Child("e"), height)
		m.officeKids(n.Child("sup"), 1)
	case "sSub":
		m.officeKids(n.Child("e"), height)
		m.officeKids(n.Child("sub"), -1)
	case "sSubSup", "sPre":
		m.officeKids(n.Child("e"), height)
		m.officeKids(n.Child("sub"), -1)
		m.officeKids(n.Child("sup"), 1)
	case "f":
		m.officePart(n.Child("num"), height)
		m.add("/", height)
		m.officePart(n.Child("den"), height)
	case "rad":
		m.officeKids(n.Child("deg"), 1)
		m.add("√(", height)
		m.officeKids(n.Child("e"), height)
		m.add(")", height)
	case "d":
		m.delimited(n, height)
	case "acc", "bar":
		m.officeKids(n.Child("e"), height)
		chr := n.Child("accPr").Child("chr").Attr0("val")
		if mark[chr] != "" || n.Name == "bar" {
			chr = "\u0304"
		} else if chr == "" {
			chr = "\u0302"
		}
		m.add(chr, height)
	case "nary":
		chr := n.Child("naryPr").Child("chr").Attr0("val")
		if chr == "" {
			chr = "∫"
		}
		m.add(chr, height)
		m.officeKids(n.Child("sub"), -1)
		m.officeKids(n.Child("sup"), 1)
		m.officeKids(n.Child("e"), height)
	case "rPr", "ctrlPr", "del", "instrText":
	default:
		if strings.HasSuffix(n.Name, "Pr") {
			return
		}
		m.officeKids(n, height)
	}
}

// delimited writes the parts of a bracket.
func (m *math) delimited(n *xmltree.Node, height int) {
	begin, end, sep := "(", ")", "|"
	if p := n.Child("dPr"); p != nil {
		for name, to := range map[string]*string{"begChr": &begin, "endChr": &end, "sepChr": &sep} { // any order: each has its own
			if c := p.Child(name); c != nil {
				*to = c.Attr("val")
			}
		}
	}
	m.add(begin, height)
	first := true
	for _, k := range n.Kids {
		if !k.Is("e") {
			continue
		}
		if !first {
			m.add(sep, height)
		}
		first = false
		m.officeKids(k, height)
	}
	m.add(end, height)
}

// officePart puts brackets round a part of a fraction that is more than one
// thing.
func (m *math) officePart(n *xmltree.Node, height int) {
	compound := strings.ContainsAny(n.String(), "+-−±×·/= ")
	if compound {
		m.add("(", height)
	}
	m.officeKids(n, height)
	if compound {
		m.add(")", height)
	}
}

// spaced sets the signs between quantities apart, as operator does for a sign
// alone.
func spaced(s string) string {
	for _, sign := range []string{"±", "=", "≤", "≥", "≈", "×", "≠"} {
		if strings.Contains(s, sign) {
			s = strings.ReplaceAll(s, " "+sign+" ", sign)
			s = strings.ReplaceAll(s, sign, " "+sign+" ")
		}
	}
	return s
}
