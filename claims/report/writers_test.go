package report

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"html"
	"io"
	"strings"
	"testing"

	"probity/extract"
)

// hostile is an invented report whose text tries what hostile papers try.
func hostile() Report {
	v := -12.5
	return Report{Title: `<b>Kestrine</b> & "others"`, Parts: []Part{
		Heading{2, "First"},
		Para{"A paragraph with `marks` and <script>alert(1)</script>."},
		Entry{Lead: "query", Tone: Careful, Head: "=HYPERLINK(\"x\")", Lines: []Line{{Label: "ask", Text: "@cmd"}, {Text: "words of \x1b[31mthe paper", Quote: true}},
			Place: extract.Place{File: "a b.xml", Table: "1", Row: 2}},
		Table{Caption: "Figures", Head: []string{"arm", "difference"}, Right: []bool{false, true},
			Rows: [][]Cell{{{Text: "=1+1"}, {Text: "−12.5", Value: &v, Place: extract.Place{Page: 3, Table: "2"}}}, {{Text: "a|b"}, {Text: "\" onload=x"}}}},
		Notes{[]string{"A note."}},
	}}
}

func TestWritersSayEverything(t *testing.T) {
	for _, w := range Writers {
		var b bytes.Buffer
		if err := w.Write(&b, hostile(), Layout{}); err != nil {
			t.Fatalf("%s: %v", w.Name, err)
		}
		text := b.String()
		if w.Name == "xlsx" {
			text = unzipped(t, b.Bytes())
		}
		said := html.UnescapeString(text)
		for _, want := range []string{"1+1", "b", "12.5", "onload=x", "difference"} {
			if !strings.Contains(said, want) {
				t.Errorf("%s does not mention %q", w.Name, want)
			}
		}
		if w.Name != "csv" && (!strings.Contains(text, "A note") || !strings.Contains(text, "First")) {
			t.Errorf("%s leaves out notes or headings", w.Name)
		}
		if strings.Contains(text, "\x1b") || strings.Contains(text, "<script>alert") && w.Name != "json" && w.Name != "text" {
			t.Errorf("%s lets text of a paper through as more than text:\n%s", w.Name, text)
		}
		var again bytes.Buffer
		if err := w.Write(&again, hostile(), Layout{}); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			t.Errorf("%s: the same report gave other bytes (%v)", w.Name, err)
		}
	}
}

func unzipped(t *testing.T, data []byte) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		part, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(bytes.NewReader(part))
		for {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s is not XML: %v\n%s", f.Name, err, part)
			}
		}
		if strings.Contains(string(part), "<f>") {
			t.Errorf("%s holds a formula", f.Name)
		}
		all.Write(part)
	}
	return all.String()
}

func TestCSVHoldsNoFormula(t *testing.T) {
	var b bytes.Buffer
	if err := writeCSV(&b, hostile(), Layout{}); err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(&b)
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := rows[1]; got[0] != "'=1+1" || got[1] != "-12.5" {
		t.Errorf("row %q, want the text marked and the figure plain", got)
	}
	for _, row := range rows {
		for _, c := range row {
			if c != "" && strings.ContainsRune("=+@", rune(c[0])) {
				t.Errorf("cell %q begins a formula", c)
			}
		}
	}
}

func TestJSONReads(t *testing.T) {
	var b bytes.Buffer
	if err := writeJSON(&b, hostile(), Layout{}); err != nil {
		t.Fatal(err)
	}
	var got reportJSON
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Parts) != 5 || got.Parts[3].Rows[0][1].Place != "page=3 table=2" || *got.Parts[3].Rows[0][1].Value != -12.5 {
		t.Errorf("JSON tree %+v, want five parts with value and place", got)
	}
}

func TestHTMLEscapes(t *testing.T) {
	var b bytes.Buffer
	if err := writeHTML(&b, hostile(), Layout{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"&lt;script&gt;", "&lt;b&gt;Kestrine", `title="page=3 table=2"`, "&#34; onload=x"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("HTML lacks %q", want)
		}
	}
}
