package assemble

import (
	"strings"
	"testing"

	"probity/claims/catalog"
	"probity/extract"
)

// The first three pairs follow the examples of Schwartz and Hearst (2003);
// the others are of this trade.
func TestLongForm(t *testing.T) {
	for _, c := range []struct{ short, before, want string }{
		{"HSF", "the heat shock response factor", "heat shock response factor"},
		{"GGA", "we used Gcn5-related N-acetyltransferase and", ""},
		{"TTF", "The mean time to fracture", "time to fracture"},
		{"NCF", "the number of cycles to fracture", "number of cycles to fracture"},
		{"PPD", "the probing pocket depth", "probing pocket depth"},
		{"HS", "of a hand scaler", "hand scaler"},
		{"XYZ", "time to fracture", ""},
	} {
		if got := longForm(c.short, c.before); got != c.want {
			t.Errorf("longForm(%q, %q) = %q, want %q", c.short, c.before, got, c.want)
		}
	}
}

func TestNoteForms(t *testing.T) {
	for _, note := range []string{
		"PD: probing depth, CAL: clinical attachment level",
		"PD, probing depth; CAL, clinical attachment level.",
		"PD = probing depth; CAL = clinical attachment level",
		"PD probing depth, CAL clinical attachment level",
	} {
		p := newPaper(&extract.Document{}, catalog.Default())
		p.noteForms(note)
		if p.short["PD"] != "probing depth" || p.short["CAL"] != "clinical attachment level" {
			t.Errorf("noteForms(%q) = %v", note, p.short)
		}
	}
}

func TestCutSentences(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
	}{
		{"It broke at 1.2 N. The next held.", 2},
		{"Lee et al. Found it in Fig. 2. It held.", 2},
		{"Group A. Rinsed with saline", 2},
		{"no point", 1},
		{"", 0},
	} {
		if got := len(cutSentences(c.text)); got != c.n {
			t.Errorf("cutSentences(%q) gives %d, want %d", c.text, got, c.n)
		}
	}
}

func TestWordedNumbers(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
	}{
		{"Forty-five teeth", 45},
		{"One-hundred and forty-four roots", 144},
		{"two hundred and twenty-five patients", 225},
		{"60 premolars", 60},
		{"twelve", 12},
	} {
		got := wordedNumbers(c.text, strings.ToLower(c.text))
		if len(got) != 1 || got[0].n.Value != c.want {
			t.Errorf("wordedNumbers(%q) = %v, want %v", c.text, got, c.want)
		}
	}
	for _, text := range []string{"size 25/.06", "3.5 mm", "T12", "3630-1"} {
		if got := wordedNumbers(text, strings.ToLower(text)); len(got) != 0 {
			t.Errorf("wordedNumbers(%q) = %v, want none", text, got)
		}
	}
}

func TestLabels(t *testing.T) {
	ls := &labels{cat: catalog.Default(), seen: map[string]*label{}}
	for _, c := range []struct{ text, clean, unit string }{
		{"Torque at fracture (N·cm)", "Torque at fracture", "N·cm"},
		{"Mean TTF ± SD (s)", "TTF", "s"},
		{"Group A (n = 12)", "Group A", ""},
		{"Right hand (mean of 5 trials)", "Right hand (mean of 5 trials)", ""},
		{"Age (years) [mean ± SD (range)]", "Age", "years"},
		{"Vitel SE", "Vitel SE", ""},
		{"20 °C", "20 °C", ""},
	} {
		if l := ls.read(c.text); l.clean != c.clean || l.unit != c.unit {
			t.Errorf("label %q is %q with unit %q, want %q, %q", c.text, l.clean, l.unit, c.clean, c.unit)
		}
	}
}
