package pdf_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"probity/extract/pdf"
	"probity/extract/pdf/witness"
)

// TestMain lets the test binary be the witness's process.
func TestMain(m *testing.M) {
	if os.Getenv("PDF_WITNESS") == "1" {
		if err := witness.Main(os.Stdin, os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// apart is a witness in a process of its own.
func apart(t testing.TB) func([]byte) ([]witness.Page, error) {
	t.Helper()
	t.Setenv("PDF_WITNESS", "1")
	return witness.By(os.Args[0])
}

func TestWitnessAgrees(t *testing.T) {
	w := apart(t)
	for _, file := range []string{"latex.pdf", "chromium.pdf", "libreoffice.pdf"} {
		pages, err := w(sample(t, file))
		if err != nil || len(pages) == 0 {
			t.Errorf("the witness on %s: %d pages, %v; want all pages", file, len(pages), err)
			continue
		}
		doc, err := pdf.Read(sample(t, file), file, pdf.Options{Witness: w})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range doc.Problems {
			if strings.Contains(p.What, "two PDF readers") {
				t.Errorf("%s: %v, want no disagreement", file, p)
			}
		}
	}
}

// A file that is encrypted and opens without a password is read by both.
func TestWitnessReadsEncrypted(t *testing.T) {
	doc, err := pdf.Read(sample(t, "empty-password.pdf"), "a.pdf", pdf.Options{Witness: apart(t)})
	if err != nil || len(doc.Problems) > 0 || doc.Tables()[0].Doubt != "" {
		t.Errorf("Problems = %v, %v; want none", doc.Problems, err)
	}
}

// A witness that sees a 9 where the engine sees a 4 makes what stands on that
// page doubtful, and only that.
func TestWitnessDisagrees(t *testing.T) {
	honest := apart(t)
	doc, err := pdf.Read(sample(t, "latex.pdf"), "latex.pdf", pdf.Options{Witness: func(data []byte) ([]witness.Page, error) {
		pages, err := honest(data)
		for i := range pages {
			if pages[i].Number == 2 {
				pages[i].Digits[4]--
				pages[i].Digits[9]++
			}
		}
		return pages, err
	}})
	if err != nil {
		t.Fatal(err)
	}
	for _, tb := range doc.Tables() {
		if doubted := strings.Contains(tb.Doubt, "two PDF readers"); doubted != (tb.Place.Page == 2) {
			t.Errorf("table %s on page %d: Doubt = %q, want one on page 2 only", tb.Label, tb.Place.Page, tb.Doubt)
		}
	}
	for _, p := range doc.Proses() {
		if doubted := strings.Contains(p.Doubt, "two PDF readers"); doubted != (p.Place.Page == 2) {
			t.Errorf("a paragraph of page %d: Doubt = %q, want one on page 2 only", p.Place.Page, p.Doubt)
		}
	}
	found := false
	for _, p := range doc.Problems {
		found = found || p.Place.Page == 2 && strings.Contains(p.What, `1 "9" more`)
	}
	if !found {
		t.Errorf("Problems = %v, want one of page 2 that names the digit", doc.Problems)
	}
}

// Where the witness fails no figure is read twice: that is said, and what
// rests on the pages it did not read is doubted.
func TestWitnessFails(t *testing.T) {
	honest := apart(t)
	pages, err := honest(sample(t, "latex.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("PDF_WITNESS", "")
	second := func(p witness.Page) func([]byte) ([]witness.Page, error) {
		return func([]byte) ([]witness.Page, error) {
			out := slices.Clone(pages)
			out[1] = p
			return out, nil
		}
	}
	for name, tt := range map[string]struct {
		witness func([]byte) ([]witness.Page, error)
		page    int // that is doubted; 0: all
	}{
		"an error":         {func([]byte) ([]witness.Page, error) { return nil, errors.New("gone") }, 0},
		"a panic":          {func([]byte) ([]witness.Page, error) { panic("gone") }, 0},
		"no such program":  {witness.By("/nonexistent/program"), 0},
		"another program":  {witness.By(os.Args[0], "-test.run=^$"), 0},
		"a page it failed": {second(witness.Page{Number: 2, Failed: "gone"}), 2},
		"a page it missed": {second(pages[0]), 2},
	} {
		doc, err := pdf.Read(sample(t, "latex.pdf"), "latex.pdf", pdf.Options{Witness: tt.witness})
		if err != nil {
			t.Errorf("with %s: %v", name, err)
			continue
		}
		if len(doc.Problems) != 1 || doc.Problems[0].Place.Page != tt.page || !strings.Contains(doc.Problems[0].What, "the second PDF reader") || doc.Problems[0].Try == "" {
			t.Errorf("with %s: Problems = %v, want one of page %d (0: of the paper)", name, doc.Problems, tt.page)
		}
		for _, tb := range doc.Tables() {
			if doubted := tb.Doubt != ""; doubted != (tt.page == 0 || tb.Place.Page == tt.page) {
				t.Errorf("with %s: table %s on page %d: Doubt = %q, want one on page %d only (0: on all)", name, tb.Label, tb.Place.Page, tb.Doubt, tt.page)
			}
		}
	}
}

// A page more than the engine finds means that a page is lost.
func TestWitnessFindsMore(t *testing.T) {
	honest := apart(t)
	doc, err := pdf.Read(sample(t, "latex.pdf"), "latex.pdf", pdf.Options{Witness: func(data []byte) ([]witness.Page, error) {
		pages, err := honest(data)
		return append(pages, witness.Page{Number: len(pages) + 1}), err
	}})
	if err != nil || len(doc.Problems) != 1 || !strings.Contains(doc.Problems[0].What, "the second PDF reader finds") {
		t.Errorf("Problems = %v, %v; want one that names the number of pages", doc.Problems, err)
	}
}

// Damaged files end the witness's process, never this one.
func TestWitnessDamaged(t *testing.T) {
	w := apart(t)
	r := rand.New(rand.NewPCG(7, 7))
	read := 0
	for i, way := range pdfWays {
		file := []string{"latex.pdf", "libreoffice.pdf"}[i%2]
		if pages, err := w(way.Do(r, sample(t, file))); err == nil && len(pages) > 0 {
			read++
		}
	}
	t.Logf("%d damaged copies: the witness read %d", len(pdfWays), read)
	// an object stream that refers to itself: endless recursion in that reader
	loop := "%PDF-1.5\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[2 0 R]/Count 5>>endobj\ntrailer<</Root 1 0 R/Size 3>>\n%%EOF\n"
	if pages, _ := w([]byte(loop)); len(pages) > 5 {
		t.Errorf("a page tree that holds itself gave %d pages, want few or none", len(pages))
	}
}
