// Package odt reads a manuscript from an OpenDocument text (ISO/IEC 26300).
//
//	bytes → extract.Document: prose in reading order, tables as rectangles
//
// As with any word processor's file it reads the text with all changes
// accepted: deletions and comments are left out, and a Problem says so.
package odt

import (
	"fmt"
	"path"
	"strings"

	"probity/extract"
	"probity/extract/internal/archive"
	"probity/extract/internal/flow"
	"probity/extract/internal/parts"
	"probity/extract/internal/xmltree"
)

// Read reads the document in data; name is the file it came from, for messages
// and places.
func Read(data []byte, name string) (*extract.Document, error) {
	problem := func(err error, try string) error {
		return &extract.Problem{Place: extract.Place{File: name}, What: err.Error(), Try: try, Err: err}
	}
	const again = "open it in a word processor and save it again"
	zip, err := archive.Open(data)
	if err != nil {
		return nil, problem(err, again)
	}
	if manifest, _ := zip.Part("META-INF/manifest.xml"); strings.Contains(string(manifest), "encryption-data") {
		return nil, problem(fmt.Errorf("the document is protected with a password"), "save it without one")
	}
	r := &reader{Flat: flow.NewFlat(name, "odt"), parts: parts.New(zip), styles: map[string]*style{}}
	const text = "content.xml"
	top, err := r.parts.Part(text)
	body := top.Find("body").Child("text")
	if body == nil || xmltree.Refused(err) {
		if err == nil {
			err = fmt.Errorf("the archive holds no text document")
		}
		return nil, problem(err, "give the paper as JATS XML, HTML, text, DOCX, ODT or PDF")
	}
	if named, _ := r.parts.Part("styles.xml"); named != nil {
		r.readStyles(named)
	}
	r.readStyles(top)
	r.blocks(body)
	r.said()
	d := r.Finish()
	if len(d.Blocks) == 0 {
		if err == nil {
			err = fmt.Errorf("the document holds no text")
		}
		return nil, problem(err, again)
	}
	r.parts.Damage(d, text)
	return d, nil
}

// reader walks one document.
type reader struct {
	*flow.Flat
	parts   *parts.Reader
	styles  map[string]*style
	held    []*xmltree.Node // text boxes, nested tables and notes of the paragraph being read
	titled  bool
	deleted int
	objects int
}

// object is the formula that an embedded object holds, or nil.
func (r *reader) object(href string) *xmltree.Node {
	top, err := r.parts.Part(path.Join(strings.TrimPrefix(href, "./"), "content.xml"))
	if err != nil {
		return nil
	}
	return top.Find("math")
}

// said turns what was passed over into problems.
func (r *reader) said() {
	if r.deleted > 0 {
		r.Problem("", fmt.Sprintf("the document has tracked changes; %d deletions are left out and insertions are read as text", r.deleted), "accept or reject the changes where that is not meant")
	}
	if r.objects > 0 {
		r.Problem("", fmt.Sprintf("%d embedded objects are not read", r.objects), "look them up in the document")
	}
}

// style is what a style means for reading.
type style struct {
	name, parent         string
	depth                int
	raised, lowered      bool
	bold, hidden, marked bool // marked: it says whether it is bold
}

func (r *reader) readStyles(top *xmltree.Node) {
	for _, n := range top.All("style") {
		s := &style{name: strings.ToLower(n.Attr("display-name")), parent: n.Attr("parent-style-name")}
		if s.name == "" {
			s.name = plainName(n.Attr("name"))
		}
		if n := n.Attr("default-outline-level"); len(n) == 1 && n[0] >= '1' && n[0] <= '9' {
			s.depth = int(n[0] - '0')
		}
		if p := n.Child("text-properties"); p != nil {
			s.read(p)
		}
		r.styles[n.Attr("name")] = s
	}
}

// read takes over text properties: position ("super 58%", "-33% 58%"), weight
// and visibility.
func (s *style) read(p *xmltree.Node) {
	switch pos, _, _ := strings.Cut(p.Attr("text-position"), " "); {
	case pos == "super", strings.HasSuffix(pos, "%") && pos[0] != '-' && pos[0] != '0':
		s.raised = true
	case pos == "sub", strings.HasPrefix(pos, "-"):
		s.lowered = true
	}
	if w := p.Attr("font-weight"); w != "" {
		s.marked, s.bold = true, w == "bold" || w >= "600" && w <= "900"
	}
	s.hidden = p.Attr("display") == "none"
}

// plainName undoes the escapes of a style's internal name.
func plainName(s string) string { return strings.ToLower(strings.ReplaceAll(s, "_20_", " ")) }

// base follows a style to the named styles it stands on, nearest first.
func (r *reader) base(name string) []*style {
	var out []*style
	for range 12 { // styles may stand on one another in a circle
		s := r.styles[name]
		if s == nil {
			if name != "" {
				out = append(out, &style{name: plainName(name)}) // a built-in one that is not written out
			}
			break
		}
		out = append(out, s)
		name = s.parent
	}
	return out
}
