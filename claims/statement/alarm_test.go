package statement

import (
	"testing"

	"probity/claims/catalog"
	"probity/extract"
)

// Invented sentences; the wanted kinds are typed by hand.
func TestAlarms(t *testing.T) {
	tests := []struct {
		text string
		kind string // "" for none
	}{
		{"Clinicians using Halyard will have fewer instrument fractures in their patients.", "clinical"},
		{"Halyard is safer than Kestrine.", "clinical"},
		{"The new alloy eliminates fracture.", "absolute"},
		{"Halyard is the best choice for curved canals.", "superlative"},
		{"Halyard is clinically proven.", "clinical"},
		{"Whether fewer fractures occur in patients cannot be said from a bench test.", ""},
		{"Alder et al. [7] found that Halyard is safer than Kestrine.", ""},
		{"Halyard lasted longer than Kestrine at 35 °C.", ""},
		{"The patients of a clinic were not studied.", ""},
	}
	for _, test := range tests {
		doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Place: extract.Place{Section: extract.Conclusion, Par: 1}, Runs: []extract.Run{{Text: test.text}}}}}
		got := Alarms(doc, catalog.Default())
		kind := ""
		if len(got) > 0 {
			kind = got[0].Kind
		}
		if kind != test.kind {
			t.Errorf("Alarms(%q) = %q, want %q", test.text, kind, test.kind)
		}
		if len(got) > 0 && got[0].Text != test.text {
			t.Errorf("the alarm quotes %q, want the sentence %q", got[0].Text, test.text)
		}
	}
}
