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
