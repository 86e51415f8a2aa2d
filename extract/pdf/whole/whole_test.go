package whole_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"probity/extract/pdf/whole"
)

// Whole files have no fault, also with bytes before and after them.
func TestWhole(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/papers/*/*.pdf")
	if err != nil || len(files) == 0 {
		t.Fatalf("no invented papers: %v", err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for what, data := range map[string][]byte{
			"itself":           data,
			"after a preamble": slices.Concat([]byte("HTTP/1.1 200 OK\r\n\r\n"), data),
			"before a rest":    slices.Concat(data, []byte(strings.Repeat("\x00", 2000))),
		} {
			if got := whole.Faults(data, 0); len(got) > 0 {
				t.Errorf("%s %s: Faults = %q, want none", f, what, got)
			}
		}
	}
}

// A page that a later version of the file took out is no fault.
func TestRevised(t *testing.T) {
	page := "%d 0 obj<</Type /Page>>endobj\n"
	file := "%PDF-1.4\n" + fmt.Sprintf(page+page, 1, 2) + "xref\nstartxref\n71\n%%EOF\n"
	at := fmt.Sprint(strings.Index(file, "xref\n"))
	file = strings.Replace(file, "71", at, 1)
	if got := whole.Faults([]byte(file), 1); len(got) != 1 || !strings.Contains(got[0], "holds 2 pages") {
		t.Errorf("Faults = %q, want that a page is not listed", got)
	}
	if got := whole.Faults([]byte(file+"startxref\n"+at+"\n%%EOF\n"), 1); len(got) > 0 {
		t.Errorf("Faults of a revised file = %q, want none", got)
	}
}

func ExampleFaults() {
	fmt.Println(whole.Faults([]byte("%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj\n"), 0))
	// Output: [the file is cut short: its end mark is missing]
}
