package assemble_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims/assemble"
	"probity/claims/catalog"
	"probity/extract"
)

// largePaper is an invented paper of about 100 kB of text with six tables.
func largePaper(tb testing.TB) *extract.Document {
	t := new(testing.T)
	var methods strings.Builder
	methods.WriteString("A total of 48 new instruments were allocated to four groups (n = 12 per group): Orlin (25/.06; heat-treated), Brex (25/.06; conventional), Tovan (25/.06; conventional) and Kelm (25/.06; conventional).\n")
	for methods.Len() < 90_000 {
		fmt.Fprintf(&methods, "The canals were shaped to size 25 and rinsed with 5 mL of a solution at 37 °C for 30 s; the time to fracture of Orlin was %d.%d s (SD 12.1) and did not differ from that of Brex (p = 0.21), as in earlier work [3–5].\n", methods.Len()%900+100, methods.Len()%10)
	}
	var tables []string
	for range 6 {
		var s strings.Builder
		s.WriteString("Torsional properties, mean ± SD\n# Instrument | Torque (N·cm) | Angle (°) | TTF (s) | NCF\n")
		for r := range 40 {
			fmt.Fprintf(&s, "Orlin %d | 1.%02d ± 0.10{a} | 4%02d ± 33 | 702.%d ± 106.8{ab} | 3511 ± 534\n", r, r, r, r%10)
		}
		tables = append(tables, s.String())
	}
	return paperOf(t, methods.String(), tables...)
}

// Five milliseconds are what a paper of 100 kB may take.
func BenchmarkStudy(b *testing.B) {
	doc := largePaper(b)
	cat := catalog.Default()
	size := 0
	for _, p := range doc.Proses() {
		size += len(p.Text())
	}
	b.SetBytes(int64(size))
	b.ReportAllocs()
	for b.Loop() {
		if s := assemble.Study(doc, nil, cat); len(s.Measures) != 960 {
			b.Fatalf("%d measures, want 960", len(s.Measures))
		}
	}
}

// Whatever a table holds, there is a study.
func FuzzStudy(f *testing.F) {
	for _, c := range append(layouts, moreLayouts...) {
		f.Add(c.methods, c.table)
	}
	f.Add("ȺȺ \u212a\u212b group (n = 12) of İ groups: Ⱥ (A), \u212a (B).", "Of Ⱥ percentage\n# \u212a | Percentage\nİ group | 1.2 ± 0.1\n")
	cat := catalog.Default()
	f.Fuzz(func(t *testing.T, methods, table string) {
		if len(methods) > 2000 || len(table) > 2000 || strings.Count(table, "\n") > 40 {
			return
		}
		if !drawable(table) {
			return
		}
		doc := paperOf(t, methods, table)
		study := assemble.Study(doc, nil, cat)
		for _, m := range study.Measures {
			if m.Mean.Text == "" {
				t.Fatalf("a measure without a figure at %s", m.Place)
			}
		}
		assemble.Sheet(doc, cat)
		if forms, explained := assemble.FigureForms(doc, study); explained > forms {
			t.Fatalf("%d of %d figures explained", explained, forms)
		}
	})
}

// drawable keeps drawings apart that tableOf itself cannot read: a merge to
// the left of the first column, or above the first row.
func drawable(s string) bool {
	first := -1
	for _, line := range strings.Split(strings.Trim(s, "\n"), "\n") {
		line = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(line), "#"))
		if !strings.Contains(line, "|") {
			continue
		}
		cells := strings.Split(line, "|")
		if strings.TrimSpace(cells[0]) == "<" {
			return false
		}
		if first >= 0 && len(cells) > first {
			return false
		}
		if first < 0 || len(cells) < first {
			first = len(cells)
		}
	}
	return true
}
