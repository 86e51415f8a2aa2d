package docx

import (
	"regexp"
	"slices"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/formula"
	"probity/extract/internal/xmltree"
)

// field is a field that stands open: before its separator stands its code,
// after it the result a reader sees.
type field struct {
	code   strings.Builder
	result bool
	cites  bool
}

// citing are the codes of fields that reference managers and word processors
// write for citations.
var citing = regexp.MustCompile(`\bCITATION\b|EN\.CITE|_CITATION|ZOTERO_ITEM|CSL_CITATION|ADDIN REFMGR|NOTEREF`)

// paragraphFont is the font that the style of a paragraph sets. Bold of a
// style says nothing of a single word, so only its height counts.
func (r *reader) paragraphFont(pPr *xmltree.Node) font {
	if s := r.styles[pPr.Child("pStyle").Attr0("val")]; s != nil {
		return font{bold: s.bold, hidden: s.hidden}
	}
	return font{}
}

// runs adds the text inside n.
func (r *reader) runs(out []extract.Run, n *xmltree.Node, f font) []extract.Run {
	for _, k := range n.Kids {
		out = r.inline(out, k, f)
	}
	return out
}

func (r *reader) inline(out []extract.Run, n *xmltree.Node, f font) []extract.Run {
	switch n.Name {
	case "r":
		return r.run(out, n, f)
	case "ins", "moveTo":
		r.count.inserted++
		return r.runs(out, n, f)
	case "hyperlink", "smartTag", "fldSimple", "dir", "bdo", "customXml":
		return r.runs(out, n, f)
	case "sdt":
		cites := strings.Contains(strings.ToUpper(n.Child("sdtPr").Child("tag").Attr0("val")), "CITATION")
		from := len(out)
		if c := n.Child("sdtContent"); c != nil {
			out = r.runs(out, c, f)
		}
		for i := from; cites && i < len(out); i++ {
			out[i].Cites = true
		}
		return out
	case "del", "moveFrom":
		r.count.deleted++
	case "oMath", "oMathPara":
		return append(out, formula.OMML(n)...)
	case "AlternateContent":
		if b := branch(n); b != nil {
			return r.runs(out, b, f)
		}
	}
	return out
}

// run adds one run of text set one way.
func (r *reader) run(out []extract.Run, n *xmltree.Node, f font) []extract.Run {
	if p := n.Child("rPr"); p != nil {
		if s := r.styles[p.Child("rStyle").Attr0("val")]; s != nil {
			f.raised, f.lowered = f.raised || s.raised, f.lowered || s.lowered
			f.bold, f.hidden = f.bold || s.bold, f.hidden || s.hidden
		}
		f.read(p)
	}
	for _, k := range n.Kids {
		out = r.piece(out, k, f)
	}
	return out
}

func (r *reader) piece(out []extract.Run, k *xmltree.Node, f font) []extract.Run {
	switch k.Name {
	case "t":
		return r.add(out, text(k, f.symbol), f)
	case "tab", "ptab":
		return r.add(out, "\t", f)
	case "br":
		if k.Attr("type") == "" || k.Attr("type") == "textWrapping" {
			return append(out, extract.Run{Text: "\n"})
		}
		return r.add(out, " ", f)
	case "cr":
		return append(out, extract.Run{Text: "\n"})
	case "noBreakHyphen":
		return r.add(out, "-", f)
	case "sym":
		return r.add(out, symbol(k), f)
	case "footnoteReference", "endnoteReference":
		return r.mark(out, k.Name[:1]+k.Attr("id"), k.Attr("customMarkFollows"))
	case "fldChar":
		r.fieldChar(k.Attr("fldCharType"))
	case "instrText":
		if n := len(r.fields); n > 0 && !r.fields[n-1].result {
			for _, t := range k.Kids {
				r.fields[n-1].code.WriteString(t.Text)
			}
		}
	case "AlternateContent":
		if b := branch(k); b != nil {
			return r.run(out, b, f)
		}
	case "drawing", "pict":
		r.boxes(k)
	case "object":
		r.count.objects++
	case "ruby":
		if base := k.Child("rubyBase"); base != nil {
			return r.runs(out, base, f)
		}
	}
	return out
}

// add appends text that a reader sees: not hidden, not the code of a field.
func (r *reader) add(out []extract.Run, s string, f font) []extract.Run {
	if s == "" || f.hidden {
		return out
	}
	cites := false
	for i := range r.fields {
		if !r.fields[i].result {
			return out
		}
		cites = cites || r.fields[i].cites
	}
	return flow.Append(out, extract.Run{Text: s, Raised: f.raised, Lowered: f.lowered, Bold: f.bold, Cites: cites})
}

func (r *reader) fieldChar(kind string) {
	n := len(r.fields)
	switch kind {
	case "begin":
		if n < 100 {
			r.fields = append(r.fields, field{})
		}
	case "separate":
		if n > 0 {
			r.fields[n-1].result = true
			r.fields[n-1].cites = citing.MatchString(r.fields[n-1].code.String())
		}
	case "end":
		if n > 0 {
			r.fields = r.fields[:n-1]
		}
	}
}

// mark adds the raised number of a note and remembers the note.
func (r *reader) mark(out []extract.Run, key, custom string) []extract.Run {
	if r.notes[key] == nil && !slices.Contains(r.order, key) {
		r.count.notes++
	}
	n := r.number(key)
	r.marks = append(r.marks, key)
	if custom == "1" || custom == "true" || custom == "on" {
		return out // its own mark follows as text
	}
	return append(out, extract.Run{Text: itoa(n), Raised: true})
}

// boxes holds back the text boxes of a drawing.
func (r *reader) boxes(n *xmltree.Node) {
	r.held = append(r.held, n.All("txbxContent")...)
}

// text is the text of a t element. White space counts; that is what
// xml:space="preserve" is for, and nothing indents the text of these files.
func text(n *xmltree.Node, symbols bool) string {
	var b strings.Builder
	for _, k := range n.Kids {
		for _, c := range k.Text {
			switch {
			case c == '\n' || c == '\r':
				b.WriteByte(' ')
			case c == '\u00ad':
			case symbols || c >= 0xF020 && c <= 0xF0FF:
				b.WriteRune(fromSymbol(c))
			default:
				b.WriteRune(c)
			}
		}
	}
	return b.String()
}
