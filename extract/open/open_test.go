package open_test

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"testing"

	"probity/extract"
	"probity/extract/open"
	"probity/extract/pdf/witness"
)

func packed(files ...string) string {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i := 0; i < len(files); i += 2 {
		w, _ := z.CreateHeader(&zip.FileHeader{Name: files[i]})
		w.Write([]byte(files[i+1]))
	}
	z.Close()
	return b.String()
}

func gzipped(s string) string {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	z.Write([]byte(s))
	z.Close()
	return b.String()
}

// The kind of file is found from its bytes; all these have the same name.
func TestFormatsFromBytes(t *testing.T) {
	const jats = `<article xmlns:xlink="x" article-type="research-article"><body><p>Vexil lasted longer.</p></body></article>`
	word := packed("[Content_Types].xml", "<Types/>", "word/document.xml", `<w:document><w:body><w:p><w:r><w:t>Vexil lasted longer.</w:t></w:r></w:p></w:body></w:document>`)
	tests := []struct{ name, data, format string }{
		{"JATS with declaration", `<?xml version="1.0"?><!DOCTYPE article PUBLIC "-//NLM//DTD JATS (Z39.96) Journal Archiving DTD v1.2//EN" "x.dtd">` + jats, "jats"},
		{"JATS bare", jats, "jats"},
		{"JATS in a wrapper, prefixed", `<oai:record xmlns:oai="o">` + jats + `</oai:record>`, "jats"},
		{"JATS after a comment", "\n<!-- <html> -->" + jats, "jats"},
		{"HTML", `<!DOCTYPE html><html><body><p>Vexil lasted longer.</p></body></html>`, "html"},
		{"XHTML", `<?xml version="1.0"?><html xmlns="http://www.w3.org/1999/xhtml"><body><p>Vexil lasted longer.</p></body></html>`, "html"},
		{"a piece of HTML", `<p>Vexil lasted longer.</p>`, "html"},
		{"an HTML article", `<article class="main"><h1>Time</h1><p>Vexil lasted longer.</p></article>`, "html"},
		{"text", "Vexil lasted longer.", "text"},
		{"text with a sign", "<0.05 was taken as significant. Vexil lasted longer.", "text"},
		{"Markdown", "# Results\n\n**Vexil** lasted longer.", "text"},
		{"DOCX", word, "docx"},
		{"ODT", packed("mimetype", "application/vnd.oasis.opendocument.text", "content.xml", `<o><office:body><office:text><text:p>Vexil lasted longer.</text:p></office:text></office:body></o>`), "odt"},
		{"gzip of JATS", gzipped(jats), "jats"},
		{"gzip of DOCX", gzipped(word), "docx"},
	}
	for _, tt := range tests {
		d, err := open.Read([]byte(tt.data), "paper")
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		sum := sha256.Sum256([]byte(tt.data))
		if d.Format != tt.format || d.File != "paper" || d.ID != hex.EncodeToString(sum[:]) {
			t.Errorf("%s: format %q file %q id %q, want %q, paper and the SHA-256 of the bytes as given", tt.name, d.Format, d.File, d.ID, tt.format)
		}
		if p := d.Proses(); !strings.Contains(p[len(p)-1].Text(), "Vexil lasted longer.") {
			t.Errorf("%s: last paragraph %q", tt.name, p[len(p)-1].Text())
		}
	}
}

func TestRefusals(t *testing.T) {
	tests := []struct{ name, data, want string }{
		{"empty", "", "is empty"},
		{"blank", " \n", "is empty"},
		{"old word processor", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1....", "older word processors"},
		{"RTF", `{\rtf1 x}`, "RTF"},
		{"picture", "\x89PNG\r\n", "text recognition"},
		{"other bytes", "\x00\x01\x02\x03", "not known"},
		{"other XML", `<?xml version="1.0"?><svg/>`, "no journal article"},
		{"other archive", packed("a.txt", "x"), "no text document"},
		{"cut gzip", gzipped(strings.Repeat("Vexil lasted longer. ", 99))[:30], "breaks off"},
	}
	for _, tt := range tests {
		_, err := open.Read([]byte(tt.data), "paper")
		var p *extract.Problem
		if !errors.As(err, &p) || !strings.Contains(p.What, tt.want) || p.Place.File != "paper" {
			t.Errorf("%s: error %v, want a problem of paper that says %q", tt.name, err, tt.want)
		}
	}
}

// What stands around a paper is passed over, and said. Several members one
// after the other are one file (RFC 1952, section 2.2), and zero bytes fill up
// a block.
func TestAfterTheEndOfGzip(t *testing.T) {
	const one, two = "Vexil lasted longer.\n\n", "Brell lasted less."
	tests := []struct {
		name, data, last string
		said             string // in the document's only problem; "": none
	}{
		{"two members", gzipped(one) + gzipped(two), two, ""},
		{"zeros", gzipped(one+two) + strings.Repeat("\x00", 512), two, ""},
		{"bytes", gzipped(one+two) + "</html>", two, "7 bytes stand after the end"},
		{"bytes after two members", gzipped(one) + gzipped(two) + "abc", two, "3 bytes stand after the end"},
		{"bytes like a member", gzipped(one+two) + "\x1f\x8babc", two, "5 bytes stand after the end"},
	}
	for _, tt := range tests {
		docs, err := open.ReadAll([]byte(tt.data), "a.txt.gz")
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		d := docs[0]
		if p := d.Proses(); p[len(p)-1].Text() != tt.last {
			t.Errorf("%s: last paragraph %q, want %q", tt.name, p[len(p)-1].Text(), tt.last)
		}
		var said []string
		for _, p := range d.Problems {
			said = append(said, p.Error())
		}
		if tt.said == "" && len(said) > 0 || tt.said != "" && (len(said) != 1 || !strings.Contains(said[0], tt.said) || !strings.Contains(said[0], "a.txt.gz")) {
			t.Errorf("%s: problems %q, want one that says %q", tt.name, said, tt.said)
		}
	}
	if _, err := open.Read([]byte(gzipped(one)+gzipped(strings.Repeat(two, 99))[:40]), "a.gz"); err == nil || !strings.Contains(err.Error(), "breaks off") {
		t.Errorf("a second member that is cut: %v, want that it breaks off", err)
	}
}

// A PDF may stand after other bytes: those a mail or a download left before
// it. Readers of PDF pass over a kilobyte (ISO 32000-2, annex I).
func TestLatePDF(t *testing.T) {
	pdf := invented(t)
	tests := []struct {
		name, before string
		said         string
	}{
		{"none", "", ""},
		{"a line", "\r\n", ""},
		{"900 bytes", strings.Repeat("X-Header: made up\n", 50), ""},
		{"2 kB", strings.Repeat("X-Header: made up\r\n\r\n", 100), "begins after 2100 other bytes"},
		{"2 kB of blanks", strings.Repeat(" ", 2048), "begins after 2048 other bytes"},
		{"2 kB that are no text", strings.Repeat("\x00\x01\x02\xff", 500), "begins after 2000 other bytes"},
	}
	for _, tt := range tests {
		data := tt.before + pdf
		d, err := open.Read([]byte(data), "a.pdf")
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		sum := sha256.Sum256([]byte(data))
		if d.Format != "pdf" || d.ID != hex.EncodeToString(sum[:]) {
			t.Errorf("%s: format %q id %q, want pdf and the sum of all bytes", tt.name, d.Format, d.ID)
		}
		if p := d.Proses(); len(p) == 0 || !strings.Contains(p[0].Text(), "Vexil lasted longer than Brell") {
			t.Errorf("%s: %v", tt.name, p)
		}
		var said []string
		for _, p := range d.Problems {
			if strings.Contains(p.What, "other bytes") {
				said = append(said, p.Error())
			}
		}
		if tt.said == "" && len(said) > 0 || tt.said != "" && (len(said) != 1 || !strings.Contains(said[0], tt.said)) {
			t.Errorf("%s: problems %q, want one that says %q", tt.name, said, tt.said)
		}
	}
	for name, text := range map[string]string{
		"a paper on PDFs":           strings.Repeat("Vexil lasted longer. ", 100) + "\nA file begins with %PDF-1.7 and ends with %%EOF.",
		"the mark on a line":        strings.Repeat("Vexil lasted longer. ", 100) + "\n%PDF-1.7\nis how a file begins.",
		"the mark beyond all reach": strings.Repeat("Vexil lasted longer.\n", 10_000) + pdf,
	} {
		if d, err := open.Read([]byte(text), "a.txt"); err != nil || d.Format != "text" {
			t.Errorf("%s: %v, want it read as text", name, err)
		}
	}
}

// The second reader of PDFs wants the mark first of all: it is handed what the
// first one sees.
func TestWitnessSeesThePDFAlone(t *testing.T) {
	defer func() { open.PDF.Witness = nil }()
	var seen []byte
	open.PDF.Witness = func(data []byte) ([]witness.Page, error) {
		seen = data
		return nil, nil
	}
	if _, err := open.Read([]byte("\r\n"+invented(t)), "a.pdf"); err != nil || !bytes.HasPrefix(seen, []byte("%PDF-")) {
		t.Errorf("the witness got %.20q, %v; want the PDF from its mark on", seen, err)
	}
}

// invented is a PDF of one page with one sentence, made here.
func invented(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	var at []int
	b.WriteString("%PDF-1.4\n")
	stream := "BT /F 12 Tf 60 700 Td (Vexil lasted longer than Brell in this invented test.) Tj ET"
	for i, o := range []string{"<</Type/Catalog/Pages 2 0 R>>", "<</Type/Pages/Kids[3 0 R]/Count 1>>",
		"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>",
		fmt.Sprintf("<</Length %d>>stream\n%s\nendstream", len(stream), stream), "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>"} {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj%s\nendobj\n", i+1, o)
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, a := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", a)
	}
	fmt.Fprintf(&b, "trailer<</Root 1 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, xref)
	return b.String()
}

func TestReadAll(t *testing.T) {
	const two = `<pmc-articleset><article><body><p>One.</p></body></article><article><body><p>Two.</p></body></article></pmc-articleset>`
	docs, err := open.ReadAll([]byte(two), "all.xml")
	if err != nil || len(docs) != 2 || docs[0].ID == docs[1].ID || docs[1].Proses()[0].Text() != "Two." {
		t.Fatalf("ReadAll: %d documents, %v", len(docs), err)
	}
	first, err := open.Read([]byte(two), "all.xml")
	if err != nil || first.ID != docs[0].ID {
		t.Errorf("Read gives ID %v, ReadAll %v for the first", first.ID, docs[0].ID)
	}
	docs, err = open.ReadAll([]byte("Vexil lasted longer."), "a.txt")
	if err != nil || len(docs) != 1 {
		t.Errorf("ReadAll of text: %d documents, %v", len(docs), err)
	}
}

func TestFormatsAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range open.Formats {
		if f.Name == "" || f.Is == nil || f.Read == nil || seen[f.Name] {
			t.Errorf("format %q is incomplete or listed twice", f.Name)
		}
		seen[f.Name] = true
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x "y">]><article>`))
	f.Add([]byte(gzipped("x")))
	f.Fuzz(func(t *testing.T, data []byte) {
		if bytes.Contains(data, []byte("%PDF-")) {
			return // package pdf fuzzes its own
		}
		d, err := open.Read(data, "f")
		if (d == nil) == (err == nil) {
			t.Fatalf("Read gives document %v and error %v", d, err)
		}
	})
}

func ExampleRead() {
	d, err := open.Read([]byte("Results\n\nVexil lasted 702.3 s.\n"), "vexil.txt")
	if err != nil {
		fmt.Println(err)
		return
	}
	last := d.Proses()[1]
	fmt.Println(d.Format, last.Place)
	// Output: text vexil.txt section=results par=2
}
