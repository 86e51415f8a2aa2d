package pdf_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
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

// A witness that fails says nothing.
func TestWitnessFails(t *testing.T) {
	for name, w := range map[string]func([]byte) ([]witness.Page, error){
		"an error":         func([]byte) ([]witness.Page, error) { return nil, errors.New("gone") },
		"a panic":          func([]byte) ([]witness.Page, error) { panic("gone") },
		"no such program":  witness.By("/nonexistent/program"),
		"another program":  witness.By(os.Args[0], "-test.run=^$"),
		"a page too many":  func([]byte) ([]witness.Page, error) { return []witness.Page{{Number: 99, Digits: [10]int{5}}}, nil },
		"a page it missed": func([]byte) ([]witness.Page, error) { return []witness.Page{{Number: 1, Failed: true}}, nil },
	} {
		doc, err := pdf.Read(sample(t, "latex.pdf"), "latex.pdf", pdf.Options{Witness: w})
		if err != nil {
			t.Errorf("with %s: %v", name, err)
			continue
		}
		for _, tb := range doc.Tables() {
			if tb.Doubt != "" {
				t.Errorf("with %s: table %s is doubted: %q", name, tb.Label, tb.Doubt)
			}
		}
	}
}

// Damaged files end the witness's process, never this one.
func TestWitnessDamaged(t *testing.T) {
	w := apart(t)
	r := rand.New(rand.NewPCG(7, 7))
	files := [][]byte{sample(t, "latex.pdf"), sample(t, "libreoffice.pdf")}
	read := 0
	for range 12 {
		if pages, err := w(harm(r, files)); err == nil && len(pages) > 0 {
			read++
		}
	}
	t.Logf("12 damaged copies: the witness read %d", read)
	// an object stream that refers to itself: endless recursion in that reader
	loop := "%PDF-1.5\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[2 0 R]/Count 5>>endobj\ntrailer<</Root 1 0 R/Size 3>>\n%%EOF\n"
	if pages, _ := w([]byte(loop)); len(pages) > 5 {
		t.Errorf("a page tree that holds itself gave %d pages, want few or none", len(pages))
	}
}
