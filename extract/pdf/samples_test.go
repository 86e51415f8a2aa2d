package pdf_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/pdf"
)

const samples = "../../testdata/papers/pdf-invented"

func sample(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(samples, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func mustRead(t testing.TB, name string) *extract.Document {
	t.Helper()
	doc, err := pdf.Read(sample(t, name), name, pdf.Options{})
	if err != nil {
		t.Fatalf("Read(%s): %v", name, err)
	}
	return doc
}

// rows gives a table's cells as text, what is repeated by merging in brackets.
func rows(t *extract.Table) [][]string {
	var out [][]string
	for _, r := range t.Rows {
		var line []string
		for _, c := range r {
			s := c.Text()
			if c.Copy {
				s = "[" + s + "]"
			}
			line = append(line, s)
		}
		out = append(out, line)
	}
	return out
}

// The tables as typed in paper.tex, paper.html and paper.fodt. A blank before
// the degree sign is a thin space in TeX, which prints 20°C.
func fatigue(degrees string) [][]string {
	a, b := "20"+degrees, "35"+degrees
	return [][]string{
		{"Instrument", "n", a, "[" + a + "]", b, "[" + b + "]"},
		{"[Instrument]", "[n]", "As received", "Used once", "As received", "Used once"},
		{"Alvo", "20", "412.6 ± 38.1ᵃ", "371.0 ± 40.2ᵃ", "301.5 ± 29.4ᵃ", "288.8 ± 31.7ᵃ"},
		{"Brell", "20", "355.2 ± 41.9ᵇ", "322.4 ± 37.5ᵇ", "262.7 ± 30.3ᵇ", "240.1 ± 28.6ᵇ"},
		{"Cordine", "20", "301.7 ± 35.6ᶜ", "281.9 ± 33.3ᶜ", "228.4 ± 27.0ᶜ", "214.6 ± 25.2ᶜ"},
	}
}

var (
	torque = [][]string{
		{"Instrument", "Size 20", "Size 25"},
		{"Alvo", "1.21 (0.14)", "1.84 (0.20)"},
		{"Brell", "1.02 (0.11)", "1.57 (0.18)"},
		{"Cordine", "0.93 (0.10)", "1.39 (0.15)"},
	}
	roughness = [][]string{
		{"Instrument", "Before", "After", "p"},
		{"Alvo", "41.3", "58.9", "0.012"},
		{"Brell", "47.0", "66.2", "0.004"},
		{"Cordine", "52.8", "71.5", "<0.001"},
		{"Steel, no coating of any kind at all", "60.1", "88.0", "0.310"},
	}
	sideways = [][]string{
		{"Instrument", "Canal A", "Canal B", "Canal C", "Canal D"},
		{"Alvo", "512 ± 61", "498 ± 57", "455 ± 49", "430 ± 52"},
		{"Brell", "467 ± 55", "441 ± 50", "420 ± 47", "399 ± 41"},
		{"Cordine", "402 ± 48", "388 ± 46", "371 ± 40", "352 ± 38"},
	}
	spanned = [][]string{
		{"Instrument", "Canal", "New", "Used"},
		{"Alvo", "A", "512 ± 61", "498 ± 57"},
		{"[Alvo]", "B", "455 ± 49", "430 ± 52"},
		{"Brell", "A", "467 ± 55", "441 ± 50"},
		{"[Brell]", "B", "420 ± 47", "399 ± 41"},
	}
)

var typeset = []struct {
	file   string
	tables map[string][][]string
}{
	{"latex.pdf", map[string][][]string{"1": fatigue("°C"), "2": torque, "3": roughness, "4": sideways}},
	{"chromium.pdf", map[string][][]string{"1": fatigue(" °C"), "2": torque, "3": roughness, "4": spanned}},
	{"libreoffice.pdf", map[string][][]string{"1": fatigue(" °C"), "2": torque, "3": roughness, "4": spanned}},
	{"rotated.pdf", map[string][][]string{"1": fatigue(" °C"), "2": torque, "3": roughness, "4": spanned}},
	{"empty-password.pdf", map[string][][]string{"1": fatigue(" °C"), "2": torque, "3": roughness, "4": spanned}},
}

func TestTables(t *testing.T) {
	for _, tt := range typeset {
		doc := mustRead(t, tt.file)
		got := map[string][][]string{}
		for _, tb := range doc.Tables() {
			got[tb.Label] = rows(tb)
			if tb.Doubt != "" {
				t.Errorf("%s table %s: Doubt = %q, want none", tt.file, tb.Label, tb.Doubt)
			}
			if head := map[string]int{"1": 2, "2": 1, "3": 1, "4": 1}[tb.Label]; tb.Head != head {
				t.Errorf("%s table %s: Head = %d, want %d", tt.file, tb.Label, tb.Head, head)
			}
		}
		if diff := cmp.Diff(tt.tables, got); diff != "" {
			t.Errorf("%s: tables differ (-source +read):\n%s", tt.file, diff)
		}
	}
}

func TestCaptionsAndNotes(t *testing.T) {
	for _, tt := range typeset {
		tb := mustRead(t, tt.file).Tables()[0]
		if want := "Time to fracture (s) of three invented instruments at two temperatures, mean ± SD."; tb.Caption != want {
			t.Errorf("%s: Caption = %q, want %q", tt.file, tb.Caption, want)
		}
		if len(tb.Notes) != 1 || !strings.HasSuffix(tb.Notes[0], "Different letters in a column: significantly different (p < 0.05).") {
			t.Errorf("%s: Notes = %q, want the one below the table", tt.file, tb.Notes)
		}
		c := tb.Rows[3][2]
		if c.Place.Page == 0 || c.Place.Row != 4 || c.Place.Col != 3 || c.Place.Table != "1" {
			t.Errorf("%s: place of a cell = %v, want its page, table=1 row=4 col=3", tt.file, c.Place)
		}
	}
}

// sentences of the source and the section each stands in.
var sentences = []struct {
	section extract.Section
	heading string
	text    string
}{
	{extract.Abstract, "Abstract", "Alvo lasted 412.6 s at 20 °C and was 36.8% more resistant than Cordine."},
	{extract.Introduction, "Introduction", "the figures that papers print are seldom held against one another."},
	{extract.Introduction, "Introduction", "means, standard deviations and the number of specimens suffice for most comparisons between instruments."},
	{extract.Methods, "Specimens", "a canal with a radius of 5 mm at 300 rpm until they broke. The time was taken with a stop-watch."},
	{extract.Methods, "Specimens", "in a bath of 10² mL of"},
	{extract.Methods, "Specimens", "All calculations were done with simple methods that a reader can follow with a pocket calculator, because the differentiation of effects needs no more than that."},
	{extract.Methods, "Statistics", "Means were compared by analysis of variance with α = 0.05."},
	{extract.Results, "Results", "The torque is given in Table 2 and the surface in Table 3. All groups differed."},
	{extract.Discussion, "Discussion", "Further work should look at re-use, at cleaning and at sterilisation, each of which may change what is printed here."},
	{extract.Discussion, "Discussion", "where many things change at once."},
	{extract.Conclusion, "Conclusions", "Of the three, Alvo lasted longest."},
}

func TestProse(t *testing.T) {
	for _, tt := range typeset {
		doc := mustRead(t, tt.file)
		at := 0
		for _, want := range sentences {
			text := strings.TrimPrefix(want.text, "a ")
			found := false
			for i, p := range doc.Proses() {
				if i < at || p.Role != extract.Paragraph || !strings.Contains(p.Text(), text) {
					continue
				}
				found, at = true, i
				if p.Place.Section != want.section || !strings.Contains(p.Heading, want.heading) {
					t.Errorf("%s: %q stands in %s under %q, want %s under %q", tt.file, text, p.Place.Section, p.Heading, want.section, want.heading)
				}
				break
			}
			if !found {
				t.Errorf("%s: no paragraph after number %d holds %q", tt.file, at, text)
			}
		}
		if want := "Cyclic fatigue and torque of three invented rotary instruments"; doc.Meta.Title != want {
			t.Errorf("%s: title %q, want %q", tt.file, doc.Meta.Title, want)
		}
		if diff := cmp.Diff([]string{"Ada Example", "Bo Sample", "Cy Specimen"}, doc.Meta.Authors); diff != "" {
			t.Errorf("%s: authors (-want +got):\n%s", tt.file, diff)
		}
	}
}

func TestFootnoteIsNoText(t *testing.T) {
	for _, p := range mustRead(t, "latex.pdf").Proses() {
		if strings.Contains(p.Text(), "This footnote stands") && p.Role != extract.Footnote {
			t.Errorf("the footnote has role %d, want %d: %q", p.Role, extract.Footnote, p.Text())
		}
		if strings.Contains(p.Text(), "CONCLUSIONS") {
			t.Errorf("a running head stands in the text: %q", p.Text())
		}
	}
}

func TestReferences(t *testing.T) {
	for _, file := range []string{"chromium.pdf", "libreoffice.pdf"} {
		var got []string
		for _, p := range mustRead(t, file).Proses() {
			if p.Role == extract.Reference {
				got = append(got, p.Text())
			}
		}
		want := []string{"1. Example A. An invented reference. J Invented Res 2001;1:1-9.", "2. Sample B. Another invented reference. J Invented Res 2002;2:10-19."}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: references (-source +read):\n%s", file, diff)
		}
	}
}

// picture is a page that holds an image and no text, as a scanner makes it.
const picture = "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n" +
	"3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 200]/Contents 4 0 R/Resources<</XObject<</I 5 0 R>>>>>>endobj\n" +
	"4 0 obj<</Length 30>>stream\nq 200 0 0 200 0 0 cm /I Do Q  \nendstream endobj\n" +
	"5 0 obj<</Type/XObject/Subtype/Image/Width 1/Height 1/BitsPerComponent 8/ColorSpace/DeviceGray/Length 1>>stream\n\x80\nendstream endobj\n" +
	"trailer<</Root 1 0 R>>\n%%EOF\n"

func TestUnreadable(t *testing.T) {
	tests := []struct {
		what string
		data []byte
		want string
	}{
		{"a password", sample(t, "locked.pdf"), "locked with a password"},
		{"a scan", []byte(picture), "no text layer"},
		{"nothing", nil, "not a PDF"},
		{"another format", []byte("<html><p>12.3 ± 4.5</p></html>"), "not a PDF"},
		{"half a file", sample(t, "latex.pdf")[:2000], "cut short"},
	}
	for _, tt := range tests {
		doc, err := pdf.Read(tt.data, "x.pdf", pdf.Options{})
		var p *extract.Problem
		if doc != nil || !errors.As(err, &p) || !strings.Contains(err.Error(), tt.want) || p.Try == "" || p.Place.File != "x.pdf" {
			t.Errorf("Read(%s) = %v, %v; want a problem of x.pdf that says %q and what to do", tt.what, doc, err, tt.want)
		}
	}
}
