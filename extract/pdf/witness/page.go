package witness

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"

	"github.com/ledongthuc/pdf"
)

// Bounds on the walk through one file.
const (
	maxDepth = 50       // of the tree of pages, and of forms within forms
	maxNodes = 10_000   // of the tree of pages
	maxForms = 200      // of one page
	maxPart  = 64 << 20 // of one stream, unfolded
)

// A walk visits the leaves of the tree of pages in their order.
type walk struct {
	nodes, pages int
	visit        func(Page) error
}

// leaves visits the pages below a node. What stands in the place of a page and
// is none counts as one that cannot be read.
func (w *walk) leaves(node pdf.Value, depth int) error {
	kids := node.Key("Kids")
	for i := range kids.Len() {
		if w.nodes++; w.nodes > maxNodes || w.pages >= maxPages {
			return nil
		}
		kid, err := at(kids, i)
		if err == nil && depth < maxDepth && kid.Key("Type").Name() == "Pages" {
			if err := w.leaves(kid, depth+1); err != nil {
				return err
			}
			continue
		}
		w.pages++
		p := Page{Number: w.pages, Failed: "the page is missing from the file"}
		if err == nil && kid.Key("Type").Name() == "Page" {
			p = page(kid, w.pages)
		}
		if err := w.visit(p); err != nil {
			return err
		}
	}
	return nil
}

// at is a kid of the tree; the reader panics where another object stands in
// its place.
func at(kids pdf.Value, i int) (kid pdf.Value, err error) {
	defer failed(&err)
	return kids.Index(i), nil
}

// failed turns a panic of the reader into an error.
func failed(err *error) {
	if r := recover(); r != nil {
		*err = fmt.Errorf("%v", r)
	}
}

// page reads one page, and first whether all that it is made of is there.
func page(v pdf.Value, n int) Page {
	out := Page{Number: n}
	if err := out.read(v); err != nil {
		out.Failed, out.Text, out.Digits = err.Error(), "", [10]int{}
	}
	return out
}

func (p *Page) read(v pdf.Value) (err error) {
	defer failed(&err)
	in := &inspection{}
	resources := pdf.Page{V: v}.Resources()
	if err := in.content(v.Key("Contents"), slices.Contains(v.Keys(), "Contents"), resources, 0); err != nil {
		return err
	}
	p.Shows = in.shows
	// a table of fonts for this page only: pages give different fonts one name
	text, err := pdf.Page{V: v}.GetPlainText(nil)
	if err != nil {
		return err
	}
	p.Text = text[:min(len(text), maxText)]
	p.Digits = Count(text)
	return nil
}

// An inspection looks whether everything that a page is made of is there and
// unfolds: its content, the fonts it sets text in, the forms it places.
type inspection struct {
	shows bool
	forms int
}

// shown are the operators that print or draw (ISO 32000-1, tables 51 to 113).
var shown = regexp.MustCompile(`(?:^|[\s\]\)>])(?:Tj|TJ|'|"|Do|sh|EI|[SsFBb]|[fBb]\*?)(?:\s|$)`)

// content inspects a stream or an array of streams; named says that the page
// has an entry for it.
func (in *inspection) content(v pdf.Value, named bool, resources pdf.Value, depth int) error {
	var data []byte
	var err error
	switch v.Kind() {
	case pdf.Stream:
		data, err = unfold(v, "its content")
	case pdf.Array:
		for i := 0; i < v.Len() && err == nil; i++ {
			var part []byte
			part, err = unfold(v.Index(i), "its content")
			data = append(append(data, part...), '\n')
		}
	default:
		if named {
			return errors.New("its content is missing from the file")
		}
	}
	if err != nil {
		return err
	}
	in.shows = in.shows || shown.Match(data)
	for _, name := range operands(data, "Tf", 2) {
		if err := font(resources.Key("Font").Key(name)); err != nil {
			return err
		}
	}
	for _, name := range operands(data, "Do", 1) {
		if err := in.placed(resources.Key("XObject").Key(name), resources, depth); err != nil {
			return err
		}
	}
	return nil
}

// operands are the names that an operator is given, each once; the name stands
// so many words before it. Names written with escapes are passed over.
func operands(data []byte, op string, back int) []string {
	var out []string
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte(op))
		if i < 0 {
			return out
		}
		i += at
		at = i + len(op)
		if at < len(data) && !bytes.ContainsRune(blanks, rune(data[at])) {
			continue
		}
		words := bytes.FieldsFunc(data[max(0, i-100):i], func(r rune) bool { return bytes.ContainsRune(blanks, r) })
		if len(words) < back {
			continue
		}
		w := words[len(words)-back]
		name := w[bytes.LastIndexByte(w, '/')+1:]
		if len(name) < len(w) && !bytes.ContainsAny(name, "#()<>[]{}%") && !slices.Contains(out, string(name)) {
			out = append(out, string(name))
		}
	}
}

// blanks are the white space of a PDF.
var blanks = []byte("\x00\t\n\f\r ")

// placed inspects what a page places: a form is content of its own.
func (in *inspection) placed(v, outer pdf.Value, depth int) error {
	if v.Kind() != pdf.Stream {
		return errors.New("something it places is missing from the file")
	}
	if v.Key("Subtype").Name() != "Form" || depth >= maxDepth {
		return nil
	}
	if in.forms++; in.forms > maxForms {
		return nil
	}
	if own := v.Key("Resources"); !own.IsNull() {
		outer = own
	}
	return in.content(v, true, outer, depth+1)
}

// font inspects what says which characters a font prints.
func font(v pdf.Value) error {
	if v.IsNull() {
		return errors.New("a font of it is missing from the file")
	}
	if v.Key("Subtype").Name() == "Type0" && v.Key("DescendantFonts").Index(0).IsNull() {
		return errors.New("a part of one of its fonts is missing from the file")
	}
	if !slices.Contains(v.Keys(), "ToUnicode") {
		return nil
	}
	switch names := v.Key("ToUnicode"); names.Kind() {
	case pdf.Name: // a table known by its name
		return nil
	case pdf.Stream:
		_, err := unfold(names, "the table of characters of one of its fonts")
		return err
	}
	return errors.New("the table of characters of one of its fonts is missing from the file")
}

// zeroes is a stretch that no content holds outside pictures.
var zeroes = bytes.Repeat([]byte{0}, 32)

// unfold reads a stream to its end; one that is checked by a sum is held
// against it.
func unfold(v pdf.Value, what string) ([]byte, error) {
	if v.Kind() != pdf.Stream {
		return nil, fmt.Errorf("a part of %s is missing from the file", what)
	}
	data, err := io.ReadAll(io.LimitReader(v.Reader(), maxPart))
	if err != nil {
		return nil, fmt.Errorf("%s does not unfold: %w", what, err)
	}
	if bytes.Contains(data, zeroes) && !bytes.Contains(data, []byte("ID")) {
		return nil, fmt.Errorf("a stretch of %s is zeroes", what)
	}
	return data, nil
}

// header is the newest one that the reader knows.
const header = "%PDF-1.7\n"

// trimmed gives the PDF inside data: without what stands before its header and
// after its end mark, under a header that the reader knows.
func trimmed(data []byte) []byte {
	const start = 1024 // readers look for the header within the first 1,024 bytes
	if i := bytes.Index(data[:min(start, len(data))], []byte("%PDF-")); i > 0 {
		data = data[i:]
	}
	if i := bytes.LastIndex(data, []byte("%%EOF")); i > 0 {
		data = data[:i+len("%%EOF")]
	}
	if len(data) > len(header) && bytes.HasPrefix(data, []byte("%PDF-")) {
		data = bytes.Clone(data)
		copy(data, header)
	}
	return data
}
