package pdf_test

import (
	"fmt"
	"os"
	"path/filepath"
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

func apart(t *testing.T) func([]byte) ([]witness.Page, error) {
	t.Helper()
	t.Setenv("PDF_WITNESS", "1")
	return witness.By(os.Args[0])
}

func TestWitnessLook(t *testing.T) {
	if *twins == "" {
		t.Skip()
	}
	w := apart(t)
	files, _ := filepath.Glob(filepath.Join(*twins, "*.pdf"))
	for _, f := range files {
		data, _ := os.ReadFile(f)
		ps, err := w(data)
		fmt.Println(f, len(ps), err)
		doc, err := pdf.Read(data, f, pdf.Options{Witness: w})
		if err != nil {
			t.Error(err)
			continue
		}
		for _, p := range doc.Problems {
			if strings.Contains(p.What, "two PDF") {
				fmt.Println("   ", p)
			}
		}
		for _, p := range ps {
			fmt.Print(" ", p.Total())
		}
		fmt.Println()
	}
}
