package pdf_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"probity/extract"
	"probity/extract/pdf"
)

// What is missing of a file is said, whether or not anything of it is read.
func TestDamageIsSaid(t *testing.T) {
	whole := made(prose, prose, prose)
	change := func(from, to string) []byte {
		if !bytes.Contains(whole, []byte(from)) {
			t.Fatalf("no %q to change", from)
		}
		return bytes.Replace(whole, []byte(from), []byte(to), 1)
	}
	for name, tt := range map[string]struct {
		data []byte
		want string
	}{
		"the end mark is missing":       {change("%%EOF", "     "), "its end mark is missing"},
		"the end is missing":            {whole[:len(whole)-120], "cut short"},
		"the table is elsewhere":        {change("startxref\n", "startxref\n1"), "not where the file says"},
		"bytes were added":              {change("2 0 obj", "%%%%%%%%\n2 0 obj"), "not where the file says"},
		"the tree lists fewer pages":    {change("8 0 R 10 0 R]/Count 3", "8 0 R       ]/Count 2"), "holds 3 pages, but only 2"},
		"the tree says there are fewer": {change("/Count 3", "/Count 1"), "3 pages"},
		"the tree says there are more":  {change("/Count 3", "/Count 9"), "pages 4 to 9 cannot be read"},
		"a page is no page":             {change("8 0 obj", "8 0 bjo"), "page"},
		"a page's content is elsewhere": {change("/Contents 9 0 R", "/Contents 99 0 R"), "page"},
		"a page's content has no head":  {change("9 0 obj", "9 0 bjo"), "page"},
	} {
		doc, err := pdf.Read(tt.data, "a.pdf", pdf.Options{Witness: apart(t)})
		var said []*extract.Problem
		if p := (*extract.Problem)(nil); errors.As(err, &p) {
			said = append(said, p)
		} else {
			said = doc.Problems
		}
		found := false
		for _, p := range said {
			found = found || strings.Contains(p.Error(), tt.want)
		}
		if !found {
			t.Errorf("%s: Problems = %v, want one that says %q", name, said, tt.want)
		}
	}
	doc, err := pdf.Read(whole, "a.pdf", pdf.Options{Witness: apart(t)})
	if err != nil || len(doc.Problems) > 0 {
		t.Errorf("the whole file: %v, %v; want no problem", doc.Problems, err)
	}
}
