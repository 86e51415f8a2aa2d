package role

import (
	"testing"

	"probity/claims/catalog"
)

// TestClasses: every class of signs.csv is one of this package, every class of
// this package has signs, and every row names its source.
func TestClasses(t *testing.T) {
	used := map[class]bool{cUnit: true, cLength: true, cForce: true} // from units.csv too
	for _, s := range catalog.Default().Signs {
		if classNames[s.Class] == 0 {
			t.Errorf("signs.csv: the class %q of %q is not one of package role", s.Class, s.Words[0])
		}
		if s.Source == "" {
			t.Errorf("signs.csv: the row of %q names no source", s.Words[0])
		}
		used[classNames[s.Class]] = true
	}
	for name, k := range classNames {
		if !used[k] {
			t.Errorf("no row of signs.csv has the class %q", name)
		}
	}
}

// TestParse: printed numerals and their values.
func TestParse(t *testing.T) {
	tests := []struct {
		text     string
		value    float64
		decimals int
		colon    bool
	}{
		{"12", 12, 0, false}, {"12.30", 12.3, 2, false}, {".05", .05, 2, false}, {"0·72", .72, 2, false}, {"1,85", 1.85, 2, false},
		{"0,125", .125, 3, false}, {"1,204", 1204, 0, false}, {"1 245", 1245, 0, false}, {"10 450 000", 10450000, 0, false}, {"1.068,4", 1068.4, 1, false},
		{"1,068.4", 1068.4, 1, false}, {"7:58", 478, 0, true}, // 7 · 60 + 58
	}
	for _, tt := range tests {
		if v, d, c := parse(tt.text); v != tt.value || d != tt.decimals || c != tt.colon {
			t.Errorf("parse(%q) = %v, %d, %v, want %v, %d, %v", tt.text, v, d, c, tt.value, tt.decimals, tt.colon)
		}
	}
}
