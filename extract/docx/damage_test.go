package docx_test

import (
	"flag"
	"os"
	"strings"
	"testing"

	"probity/extract/docx"
	"probity/extract/internal/harm"
)

var (
	damaged    = flag.Int("damaged", 200, "how many damaged copies to read; the full run is 2000")
	damagedDir = flag.String("damaged-dir", "", "damage the files of this folder instead of the invented paper")
)

// TestDamaged reads damaged copies: each gives a document or a problem that
// says what is wrong, and where many figures are gone a problem says so.
//
//	go test ./extract/docx -run Damaged -damaged 2000
//	go test ./extract/docx -run Damaged -damaged 600 -damaged-dir DIR -v
func TestDamaged(t *testing.T) {
	data, err := os.ReadFile("../../testdata/papers/formats-invented/paper.docx")
	if err != nil {
		t.Fatal(err)
	}
	files := []harm.File{{Name: "paper.docx", Data: data}}
	if *damagedDir != "" {
		if files, err = harm.Folder(*damagedDir, ".docx"); err != nil {
			t.Fatal(err)
		}
	}
	harm.Run(t, files, harm.Parts("word/document.xml"), *damaged, docx.Read)
}

// A damaged part is named; where the text itself is damaged every figure is
// doubted, and where a part beside it is, none.
func TestDamageIsSaid(t *testing.T) {
	body := p("Results") + p("Vexil lasted 702.3 s and Alvo 398.5 s in the invented canal.") +
		`<w:p><w:pPr><w:pStyle w:val="Own"/></w:pPr><w:r><w:t>As noted</w:t></w:r><w:r><w:footnoteReference w:id="2"/></w:r></w:p>`
	notes := map[string]string{"word/footnotes.xml": `<w:footnotes xmlns:w="w"><w:footnote w:id="2">` + p("In water.") + `</w:footnote></w:footnotes>`}
	stored := func(from, to string) []byte { return harm.Stored(pack(body, notes), from, to) }
	tests := []struct {
		name, want string
		data       []byte
		doubted    bool
	}{
		{"nothing", "", pack(body, notes), false},
		{"a digit of the text", "figures may have changed", stored("702.3", "702.8"), true},
		{"a digit of a note", "notes", stored("water", "wader"), false},
		{"the text is cut", "what stands after that is not read", pack(body+`<!-- It was`, notes), false},
		{"an element does not close", "text around there may be missing", pack(strings.Replace(body, "</w:t>", "</w:q>", 1), notes), false},
		{"zeroes", "zeroes", pack(body+p("\x00\x00\x00\x00"), notes), false},
		{"the notes are missing", "notes that the text refers to are missing from the file (1)", pack(body, nil), false},
		{"the styles are missing", "the styles are missing", stored("word/styles.xml", "word/stiles.xml"), false},
	}
	for _, tt := range tests {
		d, err := docx.Read(tt.data, "a.docx")
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		said := ""
		for _, p := range d.Problems {
			said += p.What + "\n"
			if p.Try == "" {
				t.Errorf("%s: %v says not what to do", tt.name, p)
			}
		}
		if (tt.want == "") != (said == "") || !strings.Contains(said, tt.want) {
			t.Errorf("%s: Problems = %q, want %q", tt.name, said, tt.want)
		}
		for _, p := range d.Proses() {
			if (p.Doubt != "") != tt.doubted {
				t.Errorf("%s: %q: Doubt = %q, want one: %v", tt.name, p.Text(), p.Doubt, tt.doubted)
			}
		}
	}
}
