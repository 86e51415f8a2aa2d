// Package docx reads a manuscript from a WordprocessingML document (ISO/IEC
// 29500), as word processors save it.
//
//	bytes → extract.Document: prose in reading order, tables as rectangles
//
// It reads what a reader of the document would see with all changes accepted:
// insertions are kept, deletions and comments are not, and a Problem says so.
// Fields give their last result, text boxes stand after the paragraph they are
// anchored in, footnotes after the paragraph that refers to them.
package docx

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
	r := &reader{Flat: flow.NewFlat(name, "docx"), parts: parts.New(zip), notes: map[string]*xmltree.Node{}}
	main := r.mainPart()
	if !zip.Has(main) {
		return nil, problem(fmt.Errorf("the archive holds no text document"), "give the paper as JATS XML, HTML, text, DOCX, ODT or PDF")
	}
	top, err := r.parts.Part(main)
	body := top.Find("body")
	if body == nil || xmltree.Refused(err) {
		if err == nil {
			err = fmt.Errorf("the document has no body")
		}
		return nil, problem(err, again)
	}
	r.side(path.Dir(main))
	r.blocks(body)
	r.said()
	d := r.Finish()
	if len(d.Blocks) == 0 {
		if err == nil {
			err = fmt.Errorf("the document holds no text")
		}
		return nil, problem(err, again)
	}
	r.parts.Damage(d, main)
	return d, nil
}

// reader walks one document.
type reader struct {
	*flow.Flat
	parts  *parts.Reader
	styles map[string]*style
	notes  map[string]*xmltree.Node // "f3": footnote 3, "e1": endnote 1
	order  []string                 // notes in the order of their marks
	held   []*xmltree.Node          // text boxes and nested tables of the paragraph being read
	marks  []string                 // notes that the paragraph being read refers to
	fields []field                  // fields that stand open
	titled bool
	styled bool // paragraphs ask for styles
	count  struct{ deleted, inserted, objects, cut, notes int }
}

// mainPart names the part that holds the text.
func (r *reader) mainPart() string {
	rels, _ := r.parts.Part("_rels/.rels")
	for _, rel := range rels.All("Relationship") {
		if strings.HasSuffix(rel.Attr("Type"), "/officeDocument") {
			return strings.TrimPrefix(rel.Attr("Target"), "/")
		}
	}
	return "word/document.xml"
}

// side reads the parts beside the text: styles and notes.
func (r *reader) side(dir string) {
	if top, _ := r.parts.Part(path.Join(dir, "styles.xml")); top != nil {
		r.styles = readStyles(top)
	}
	for _, kind := range []struct{ part, name, key string }{{"footnotes.xml", "footnote", "f"}, {"endnotes.xml", "endnote", "e"}} {
		top, _ := r.parts.Part(path.Join(dir, kind.part))
		for _, n := range top.All(kind.name) {
			if t := n.Attr("type"); t == "" || t == "normal" {
				r.notes[kind.key+n.Attr("id")] = n
			}
		}
	}
}

// said turns what was passed over into problems.
func (r *reader) said() {
	const again = "open it in a word processor, look whether it is whole, and save it again"
	if r.count.notes > 0 {
		r.Problem("", fmt.Sprintf("notes that the text refers to are missing from the file (%d)", r.count.notes), again)
	}
	if r.styled && r.styles == nil {
		r.Problem("", "the styles are missing from the file: headings are guessed, and raised figures may stand as plain ones", again)
	}
	if r.count.deleted > 0 {
		r.Problem("", fmt.Sprintf("the document has tracked changes; %d deletions are left out and insertions are read as text", r.count.deleted), "accept or reject the changes where that is not meant")
	} else if r.count.inserted > 0 {
		r.Problem("", fmt.Sprintf("the document has tracked changes; %d insertions are read as text", r.count.inserted), "accept or reject the changes where that is not meant")
	}
	if r.count.objects > 0 {
		r.Problem("", fmt.Sprintf("%d embedded objects, which may be equations, are not read", r.count.objects), "look them up in the document")
	}
	if r.count.cut > 0 {
		r.Problem("", "part of the document is kept in another format inside it and is not read", "open it in a word processor and save it again")
	}
}
