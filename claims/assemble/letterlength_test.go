package assemble_test

import (
	"strings"
	"testing"

	"probity/claims/assemble"
	"probity/claims/catalog"
)

// Letters whose lower case has more or fewer bytes: an index found in lower
// case must not be used in the text as printed. The papers are invented.
func TestLettersWhoseLowerCaseIsOfAnotherLength(t *testing.T) {
	cat := catalog.Default()
	for _, letter := range []string{"Ⱥ", "\u212a", "\u212b", "İ"} { // Kelvin sign, Ångström sign
		many := strings.Repeat(letter, 40)
		for _, methods := range []string{
			many + " each group (n = 12) of subgroups.",
			many + " Group A (n = 10): Orlin; Group B (n = 11): Brex.",
			"The files " + many + " were Orlin (" + many + " group) and Brex (B group).",
			many + " did not fracture within 600 s at 37 °C; the torque was recorded in N.",
			many + " twelve instruments per group were tested in three groups.",
		} {
			for _, caption := range []string{
				many + " percentage",
				many + " percentage of dentine removed in the groups",
				"Mean of " + many + " in the groups",
				"of " + many + " of " + many + " in",
			} {
				table := caption + "\n# Group | Percentage | " + many + " of\nOrlin | 12.1 ± 1.1 | 3.2 ± 0.4\n" + many + " group | 11.0 ± 1.3 | 3.1 ± 0.2\n"
				study := assemble.Study(paperOf(t, methods, table), nil, cat)
				if len(study.Measures) != 4 {
					t.Errorf("%q over %q: %d measures, want 4", methods, caption, len(study.Measures))
				}
			}
		}
	}
}

// A name is completed by the words that stand after it in the caption, not by
// those so many bytes before or after them.
func TestNameWholeAfterAKelvinSign(t *testing.T) {
	table := "At 300 \u212a and 310 \u212a the percentage of dentine lost in the groups\n# Group | Percentage\nOrlin | 12.1 ± 1.1\nBrex | 11.0 ± 1.3\n"
	study := assemble.Study(paperOf(t, "", table), nil, catalog.Default())
	for _, m := range study.Measures {
		if m.Outcome != "Percentage of dentine lost" {
			t.Errorf("outcome %q, want %q", m.Outcome, "Percentage of dentine lost")
		}
	}
}
