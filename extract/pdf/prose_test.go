package pdf

import (
	"testing"

	"probity/extract"
)

func TestHyphens(t *testing.T) {
	words := vocabulary{"differentiation": 2, "re-use": 1, "reuse": 0}
	tests := []struct{ end, start, want string }{
		{"differen-", "tiation of", "differentiation of"},
		{"differen\u00ad", "tiation", "differentiation"},
		{"re-", "use of", "re-use of"},
		{"self-", "etching", "self-etching"},
		{"24-", "h storage", "24-h storage"},
		{"Ni-", "Ti", "Ni-Ti"},
		{"p-", "value", "p-value"},
		{"micro-", "hardness", "microhardness"},
		{"plain", "words", "plain words"},
	}
	for _, tt := range tests {
		got := extract.Flatten(glue([]extract.Run{{Text: tt.end}}, []extract.Run{{Text: tt.start}}, words))
		if got != tt.want {
			t.Errorf("glue(%q, %q) = %q, want %q", tt.end, tt.start, got, tt.want)
		}
	}
}

func TestNameList(t *testing.T) {
	tests := []struct {
		runs []extract.Run
		want int
	}{
		{[]extract.Run{{Text: "Ada B. Example"}, {Text: "1", Raised: true}, {Text: " and Cy van Specimen"}}, 2},
		{[]extract.Run{{Text: "Department of Invented Studies, University of Nowhere"}}, 0},
		{[]extract.Run{{Text: "The aim of this study was to compare, and to judge."}}, 0},
	}
	for _, tt := range tests {
		if got := nameList(tt.runs); len(got) != tt.want {
			t.Errorf("nameList(%q) = %q, want %d names", extract.Flatten(tt.runs), got, tt.want)
		}
	}
}
