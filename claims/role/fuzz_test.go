package role_test

import (
	"math"
	"testing"
	"unicode/utf8"

	"probity/claims/catalog"
	"probity/claims/role"
)

// FuzzNumbers holds for any text: numbers stand inside it, in order and apart
// from each other, between whole characters, each with a role and a finite
// value.
func FuzzNumbers(f *testing.F) {
	for _, s := range []string{
		"Brisa 20 lasted 398,4 ± 36,7 s (p < 0,001).", "1 000 000 of 1.068,4 at 7:58", "χ^2(1) = 8.1; F1,42 = 3.2 [12,14–16]", "14–17 % (−0.4 to +1.2)",
		"one third of 1:100,000", "((([[[5]]]))) ± ± 3 ^ 2 ^", "P = 2 × 10^−5", "25/.06 #30 Ø 0.25 mm", "twenty-five-fold", "3, 4, 5 and 6 ² ³ ₂",
	} {
		f.Add(s)
	}
	cat := catalog.Default()
	f.Fuzz(func(t *testing.T, text string) {
		end := 0
		for _, n := range role.Numbers(text, cat) {
			if n.Start < end || n.End <= n.Start || n.End > len(text) {
				t.Fatalf("Numbers(%q): a number at %d to %d of %d bytes, behind one that ends at %d", text, n.Start, n.End, len(text), end)
			}
			end = n.End
			if utf8.ValidString(text) && !utf8.ValidString(text[n.Start:n.End]) {
				t.Errorf("Numbers(%q): %q ends within a character", text, text[n.Start:n.End])
			}
			if math.IsNaN(n.Value) || math.IsInf(n.Value, 0) || n.Role.Best.Value == role.NotKnown {
				t.Errorf("Numbers(%q): %q has the value %v and the role %q", text, text[n.Start:n.End], n.Value, n.Role.Best.Value)
			}
		}
	})
}
