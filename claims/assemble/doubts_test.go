package assemble_test

import (
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
	"probity/claims/reading"
	"probity/extract"
)

// A table whose reading is doubted gives doubtful measures that say why; the
// table beside it is not touched.
func TestDoubtedTable(t *testing.T) {
	table := `
		Time to fracture (s), mean ± SD
		# Instrument | Time to fracture (s)
		Orlin | 702.3 ± 106.8
		Brex | 588.0 ± 140.3`
	doc := paperOf(t, "", table, table)
	doc.Tables()[1].Doubt = "its columns run together"
	study := assemble.Study(doc, nil, catalog.Default())
	if len(study.Measures) != 4 {
		t.Fatalf("%d measures, want 4", len(study.Measures))
	}
	for _, m := range study.Measures {
		want := m.Place.Table == "2"
		if strings.Contains(m.Doubt.String(), "its columns run together") != want {
			t.Errorf("%v: Doubt = %q; want a doubt in table 2 only", m.Place, m.Doubt)
		}
	}
}

// What is read in a doubted paragraph is doubtful, and so is a measure of a
// table whose n is printed there.
func TestDoubtedParagraph(t *testing.T) {
	doc := &extract.Document{File: "invented.pdf", Blocks: []extract.Block{
		&extract.Prose{Place: extract.Place{Par: 1, Page: 1}},
		&extract.Prose{Place: extract.Place{Par: 2, Page: 2}, Doubt: "two readers differ"},
	}}
	in := func(par int) extract.Place { return extract.Place{Par: par} }
	n := claims.Quantity{Number: extract.Number{Text: "12", Value: 12, Place: in(2)}}
	sound := &claims.Measure{Place: in(1)}
	prose := &claims.Measure{Place: in(2), Doubt: reading.Doubt{{Text: "named from afar", Weight: reading.Slight}}}
	cell := &claims.Measure{Place: extract.Place{Table: "1", Row: 2, Col: 2}, N: n}
	other := &claims.Measure{Place: extract.Place{Table: "1", Row: 3, Col: 2}}
	said, kept := &claims.Statement{Place: in(2)}, &claims.Statement{Place: in(1)}
	assemble.Doubts(doc, &claims.Study{Measures: []*claims.Measure{sound, prose, cell, other}, Statements: []*claims.Statement{said, kept}})
	for _, tt := range []struct {
		what string
		m    *claims.Measure
		note string
	}{
		{"a figure of a sound paragraph", sound, ""},
		{"a figure of the doubted one", prose, "named from afar; two readers differ"},
		{"a cell whose n stands there", cell, "its n: two readers differ"},
		{"a cell that knows no n", other, ""},
	} {
		if tt.m.Doubt.String() != tt.note {
			t.Errorf("%s: Doubt = %q, want %q", tt.what, tt.m.Doubt, tt.note)
		}
	}
	if said.Doubt.String() != "two readers differ" || !kept.Doubt.Sure() {
		t.Errorf("the statements of the doubted and the sound paragraph: Doubt = %q and %q, want it on the first only", said.Doubt, kept.Doubt)
	}
}
