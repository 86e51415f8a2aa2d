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
	{Name: "jats", Is: isXML, Read: readJATS, Extra: readAllJATS},
	{Name: "html", Is: isHTML, Read: html.Read},
	{Name: "text", Is: isText, Read: text.Read},
}

// PDF says how PDFs are read. cmd sets its Witness once, before the first
// paper: a second reader that runs in a process of its own.
var PDF pdf.Options

// Beside gives a picture of a paper: the bytes of the first file that lies
// beside the paper under one of the names that it gives. cmd sets it where
// pictures of tables are to be read, with PDF.Recognise. Nil: they are not.
var Beside func(paper string, names []string) (data []byte, file string, err error)

func readJATS(data []byte, name string) (*extract.Document, error) {
	return pictured(name).Read(data, name)
}

func readAllJATS(data []byte, name string) ([]*extract.Document, error) {
	return pictured(name).ReadAll(data, name)
}

// pictured says how the pictures of a paper's tables are read.
func pictured(paper string) (opt jats.Options) {
	beside, recognise := Beside, PDF.Recognise
	if beside == nil || recognise == nil {
		return opt
	}
	opt.Picture = func(names []string) ([]*extract.Table, string, error) {
		data, file, err := beside(paper, names)
		if err != nil {
			return nil, "", err
		}
		tables, err := pdf.Picture(data, recognise)
		if err != nil {
			return nil, "", fmt.Errorf("%s: %w", file, err)
		}
		return tables, file, nil
	}
	return opt
}

// readPDF reads from the mark on: places in a PDF are counted from there, and
// the second reader takes nothing else.
func readPDF(data []byte, name string) (*extract.Document, error) {
	before := pdfStart(data)
	d, err := pdf.Read(data[before:], name, PDF)
	if err == nil && before > pdfHead {
		d.Problems = append(d.Problems, problem(name, fmt.Sprintf("the PDF begins after %d other bytes, which were passed over", before), "get the file again if pages are missing"))
	}
	return d, err
}

// Read reads the paper in data; name is the file it came from. The document's
// ID is the SHA-256 of data as given, compressed or not.
func Read(data []byte, name string) (*extract.Document, error) {
	plain, f, said, err := pick(data, name)
	if err != nil {
		return nil, err
	}
	d, err := f.Read(plain, name)
	if err != nil {
		return nil, err
	}
	finish(d, f, name, id(data, 0), said)
	return d, nil
}

// ReadAll reads every paper in data: a collection of articles in one file, or
// one. The first has the ID that Read gives; the others that of the bytes
// followed by their number.
func ReadAll(data []byte, name string) ([]*extract.Document, error) {
	plain, f, said, err := pick(data, name)
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
		finish(d, f, name, id(data, i), said)
	}
	return docs, nil
}

func finish(d *extract.Document, f *Format, name, id string, said []*extract.Problem) {
	d.ID, d.File = id, name
	d.Problems = append(d.Problems, said...)
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

// pick undoes compression and finds the format; said is what is to be known of
// the compression.
func pick(data []byte, name string) (plain []byte, f *Format, said []*extract.Problem, err error) {
	if len(bytes.TrimSpace(data)) == 0 {
		return nil, nil, nil, problem(name, "the file is empty", "")
	}
	if bytes.HasPrefix(data, []byte(gzipMark)) {
		if data, said, err = inflate(data, name); err != nil {
			return nil, nil, nil, err
		}
	}
	if what, try := stranger(data); what != "" {
		return nil, nil, nil, problem(name, what, try)
	}
	for i := range Formats {
		if Formats[i].Is(data, name) {
			return data, &Formats[i], said, nil
		}
	}
	return nil, nil, nil, problem(name, "this kind of file is not known", give)
}

const gzipMark = "\x1f\x8b"

// inflate unfolds all members of a gzip file (RFC 1952, section 2.2). What
// stands after the last one is not part of the file and said, but for zero
// bytes that fill up a block.
func inflate(data []byte, name string) ([]byte, []*extract.Problem, error) {
	rest := bytes.NewReader(data)
	z, err := gzip.NewReader(rest)
	if err != nil {
		return nil, nil, problem(name, "the compressed file cannot be opened: "+err.Error(), "get the file again")
	}
	var out bytes.Buffer
	end := 0 // of the members so far
	for ; err == nil; err = z.Reset(rest) {
		z.Multistream(false)
		if _, err := out.ReadFrom(io.LimitReader(z, int64(MaxInflated+1-out.Len()))); err != nil {
			return nil, nil, problem(name, "the compressed file breaks off: "+err.Error(), "get the file again")
		}
		if out.Len() > MaxInflated {
			return nil, nil, problem(name, fmt.Sprintf("the compressed file unfolds to more than %d MB", MaxInflated>>20), "")
		}
		end = len(data) - rest.Len()
	}
	return out.Bytes(), afterEnd(data[end:], name), nil
}

func afterEnd(rest []byte, name string) []*extract.Problem {
	if len(bytes.Trim(rest, "\x00")) == 0 {
		return nil
	}
	return []*extract.Problem{problem(name, fmt.Sprintf("%d bytes stand after the end of the compressed file, which were passed over", len(rest)), "get the file again if something is missing")}
}

// give is what a person can do about a file of a kind that is not read.
const give = "give the paper as JATS XML, HTML, text, DOCX, ODT or PDF"

func problem(name, what, try string) *extract.Problem {
	return &extract.Problem{Place: extract.Place{File: name}, What: what, Try: try}
}
