package assemble_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims/assemble"
	"probity/claims/catalog"
)

// Headings beyond those that are read are named as a problem of their table;
// as many as are read are none.
func TestTooManyHeadings(t *testing.T) {
	sections := func(n int) string {
		var b strings.Builder
		b.WriteString("Torque, mean ± SD\n# Wire | Torque (N·cm)\n")
		for i := range n {
			fmt.Fprintf(&b, "Batch %d | <\n", i+1)
		}
		return b.String() + "Orlin | 1.21 ± 0.10\nBrex | 0.98 ± 0.12\n"
	}
	heads := func(n int) string {
		return "Torque, mean ± SD\n" + strings.Repeat("# Wire | Torque (N·cm)\n", n) + "Orlin | 1.21 ± 0.10\nBrex | 0.98 ± 0.12\n"
	}
	for _, tt := range []struct{ table, what string }{
		{sections(40), ""},
		{sections(45), "45 headings follow one another inside the table; the last 40 are read as headings of the rows below"},
		{heads(40), ""},
		{heads(45), "45 rows are marked as headings; the first 40 are read as such"},
	} {
		study := assemble.Study(paperOf(t, "", tt.table), nil, catalog.Default())
		var got string
		for _, p := range study.Problems {
			got += p.What
			if p.Place.Table != "1" || p.Try == "" {
				t.Errorf("%s: place %v, try %q", p.What, p.Place, p.Try)
			}
		}
		if got != tt.what {
			t.Errorf("problems %q, want %q", got, tt.what)
		}
	}
}
