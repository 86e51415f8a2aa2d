package pdf_test

import (
	"errors"
	"image"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/pdf"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/ocr"
)

const scan = "../formats-invented/scan.pdf"

// typed is a page as text recognition gives it: one letter a cell.
func typed(lines ...string) *glyph.Page {
	p := &glyph.Page{Recognised: true, Width: 595, Height: 842}
	font := &glyph.Font{Name: "recognised"}
	for i, l := range lines {
		base := 100 + 14*float64(i)
		for k, r := range []rune(l) {
			if r != ' ' {
				x := 72 + 4.5*float64(k)
				p.Glyphs = append(p.Glyphs, glyph.Glyph{Rune: r, Base: base, Size: 10, Font: font, Box: glyph.Box{X0: x, X1: x + 4.5, Y0: base - 7.5, Y1: base + 2.5}})
			}
		}
	}
	return p
}

// Everything that was recognised is doubted and says why.
func TestRecognised(t *testing.T) {
	dark := 0
	pages := []*glyph.Page{
		typed("The time to fracture of Alvo was 412.6 s.", "", "Table 1. Time to fracture (s), mean (SD)", "",
			"Instrument      New            Used", "Alvo            412.6 (38.1)   371.0 (40.2)", "Brell           355.2 (41.9)   322.4 (37.5)"),
		typed("Brell needed less torque than Alvo did.", "", "", "Table 2. Torque (N cm), mean (SD)", "",
			"Kind      Size 20       Size 25", "Alvo      1.21 (0.14)   1.84 (0.20)", "Brell     1.02 (0.11)   1.57 (0.18)"),
	}
	doc, err := pdf.Read(sample(t, scan), "scan.pdf", pdf.Options{Recognise: func(picture *image.Gray) (*glyph.Page, error) {
		// A4 at 300 dots an inch, with ink on it
		if size := picture.Rect.Size(); size.X < 2470 || size.X > 2490 || size.Y < 3500 || size.Y > 3515 {
			t.Errorf("the picture has %v dots, want A4 at 300 an inch", size)
		}
		for _, v := range picture.Pix {
			if v < 128 {
				dark++
			}
		}
		next := pages[0]
		pages = pages[1:]
		return next, nil
	}})
	if err != nil {
		t.Fatal(err)
	}
	if dark < 50_000 || dark > 2_000_000 {
		t.Errorf("%d dark dots on two pages, want those of text", dark)
	}
	want := [][][]string{
		{{"Instrument", "New", "Used"}, {"Alvo", "412.6 (38.1)", "371.0 (40.2)"}, {"Brell", "355.2 (41.9)", "322.4 (37.5)"}},
		{{"Kind", "Size 20", "Size 25"}, {"Alvo", "1.21 (0.14)", "1.84 (0.20)"}, {"Brell", "1.02 (0.11)", "1.57 (0.18)"}},
	}
	if len(doc.Tables()) != 2 {
		t.Fatalf("%d tables, want one a page", len(doc.Tables()))
	}
	for i, tb := range doc.Tables() {
		if diff := cmp.Diff(want[i], rows(tb)); diff != "" {
			t.Errorf("the table of page %d (-typed +read):\n%s", tb.Place.Page, diff)
		}
		if !strings.Contains(tb.Doubt, "text recognition") {
			t.Errorf("the table of page %d: Doubt = %q, want it to name text recognition", tb.Place.Page, tb.Doubt)
		}
	}
	for _, p := range doc.Proses() {
		if !strings.Contains(p.Doubt, "text recognition") {
			t.Errorf("%q: Doubt = %q, want it to name text recognition", p.Text(), p.Doubt)
		}
	}
	if len(doc.Problems) != 2 || !strings.Contains(doc.Problems[1].What, "recognised") || doc.Problems[1].Place.Page != 2 {
		t.Errorf("Problems = %v, want one a page", doc.Problems)
	}
}

// Without it, or when it fails, pages that are pictures are said to be so; a
// page with text is never drawn.
func TestNotRecognised(t *testing.T) {
	fails := func(*image.Gray) (*glyph.Page, error) { return nil, errors.New("gone") }
	for name, opt := range map[string]pdf.Options{"nobody": {}, "a failure": {Recognise: fails}, "nothing": {Recognise: func(*image.Gray) (*glyph.Page, error) { return typed(), nil }}} {
		_, err := pdf.Read(sample(t, scan), "scan.pdf", opt)
		var p *extract.Problem
		if !errors.As(err, &p) || !strings.Contains(p.What, "no text layer") || !strings.Contains(p.Try, "--ocr") {
			t.Errorf("with %s to recognise it, Read = %v; want that there is no text layer, and --ocr", name, err)
		}
	}
	doc, err := pdf.Read(sample(t, "latex.pdf"), "latex.pdf", pdf.Options{Recognise: func(*image.Gray) (*glyph.Page, error) {
		t.Error("a page with text was drawn")
		return nil, nil
	}})
	if err != nil || doc.Tables()[0].Doubt != "" {
		t.Errorf("latex.pdf: %v, want its tables without doubt", err)
	}
}

// The program itself, where it is installed. Only the table without ± and
// without raised marks is held against the source: those two it misreads.
func TestTesseract(t *testing.T) {
	program, err := ocr.Find()
	if err != nil {
		t.Skip(err)
	}
	doc, err := pdf.Read(sample(t, scan), "scan.pdf", pdf.Options{Recognise: ocr.By(program)})
	if err != nil {
		t.Fatal(err)
	}
	for _, tb := range doc.Tables() {
		if tb.Label != "1" {
			continue
		}
		read := rows(tb)
		for i := range bending[1:] {
			for j, want := range bending[i+1] {
				want = strings.TrimRight(want, "ᵃᵇᶜ")
				if len(read) != len(bending) || len(read[i+1]) != len(bending[i+1]) || !strings.HasPrefix(read[i+1][j], want) {
					t.Fatalf("table 1 reads %q, want the rows of %q", read, bending)
				}
			}
		}
		return
	}
	t.Error("no table 1 was recognised")
}
