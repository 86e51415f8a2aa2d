// Package open is the list of formats that papers come in. It picks the reader
// from the first bytes of a file, never from its name, and undoes gzip.
//
//	bytes → which format → its reader → extract.Document with its ID
package open

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"probity/extract"
	"probity/extract/docx"
	"probity/extract/html"
	"probity/extract/jats"
	"probity/extract/odt"
	"probity/extract/pdf"
	"probity/extract/text"
)

// MaxInflated is the most that a compressed paper may unfold to.
const MaxInflated = 256 << 20

// A Format is one kind of file that papers come in.
type Format struct {
	Name  string // as in Document.Format
	Is    func(data []byte, name string) bool
	Read  func(data []byte, name string) (*extract.Document, error)
	Extra func(data []byte, name string) ([]*extract.Document, error) // where one file may hold several papers
}

// Formats lists every format in the order they are tried: those that name
// themselves in their first bytes, then those known by what stands in them.
var Formats = []Format{
	{Name: "pdf", Is: isPDF, Read: readPDF},
	{Name: "docx", Is: isDOCX, Read: docx.Read},
	{Name: "odt", Is: isODT, Read: odt.Read},
	{Name: "jats", Is: isXML, Read: jats.Read, Extra: jats.ReadAll},
	{Name: "html", Is: isHTML, Read: html.Read},
	{Name: "text", Is: isText, Read: text.Read},
}

// PDF says how PDFs are read. cmd sets its Witness once, before the first
// paper: a second reader that runs in a process of its own.
var PDF pdf.Options

func readPDF(data []byte, name string) (*extract.Document, error) { return pdf.Read(data, name, PDF) }

// Read reads the paper in data; name is the file it came from. The document's
// ID is the SHA-256 of data as given, compressed or not.
func Read(data []byte, name string) (*extract.Document, error) {
	plain, f, err := pick(data, name)
	if err != nil {
		return nil, err
	}
	d, err := f.Read(plain, name)
	if err != nil {
		return nil, err
	}
	finish(d, f, name, id(data, 0))
	return d, nil
}

// ReadAll reads every paper in data: a collection of articles in one file, or
// one. The first has the ID that Read gives; the others that of the bytes
// followed by their number.
func ReadAll(data []byte, name string) ([]*extract.Document, error) {
	plain, f, err := pick(data, name)
	if err != nil {
		return nil, err
	}
	if f.Extra == nil {
		d, err := Read(data, name)
		if err != nil {
			return nil, err
		}
		return []*extract.Document{d}, nil
	}
	docs, err := f.Extra(plain, name)
	if err != nil {
		return nil, err
	}
	for i, d := range docs {
		finish(d, f, name, id(data, i))
	}
	return docs, nil
}

func finish(d *extract.Document, f *Format, name, id string) {
	d.ID, d.File = id, name
	if d.Format == "" {
		d.Format = f.Name
	}
}

func id(data []byte, nth int) string {
	h := sha256.New()
	h.Write(data)
	if nth > 0 {
		fmt.Fprintf(h, "#%d", nth+1)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// pick undoes compression and finds the format.
func pick(data []byte, name string) ([]byte, *Format, error) {
	if len(bytes.TrimSpace(data)) == 0 {
		return nil, nil, problem(name, "the file is empty", "")
	}
	if bytes.HasPrefix(data, []byte("\x1f\x8b")) {
		inflated, err := inflate(data, name)
		if err != nil {
			return nil, nil, err
		}
		data = inflated
	}
	if what, try := stranger(data); what != "" {
		return nil, nil, problem(name, what, try)
	}
	for i := range Formats {
		if Formats[i].Is(data, name) {
			return data, &Formats[i], nil
		}
	}
	return nil, nil, problem(name, "this kind of file is not known", give)
}

func inflate(data []byte, name string) ([]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, problem(name, "the compressed file cannot be opened: "+err.Error(), "get the file again")
	}
	out, err := io.ReadAll(io.LimitReader(z, MaxInflated+1))
	if err != nil {
		return nil, problem(name, "the compressed file breaks off: "+err.Error(), "get the file again")
	}
	if len(out) > MaxInflated {
		return nil, problem(name, fmt.Sprintf("the compressed file unfolds to more than %d MB", MaxInflated>>20), "")
	}
	return out, nil
}

// give is what a person can do about a file of a kind that is not read.
const give = "give the paper as JATS XML, HTML, text, DOCX, ODT or PDF"

func problem(name, what, try string) error {
	return &extract.Problem{Place: extract.Place{File: name}, What: what, Try: try}
}
