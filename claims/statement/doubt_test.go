package statement

import (
	"strings"
	"testing"

	"probity/claims/catalog"
)

// What makes a tie doubtful, said of invented sentences; "" is a tie that
// nothing speaks against. That a sentence is read so is common practice: who
// reads "A was 25 s and B 31 s, 19 % less" asks what was set against what.
func TestDoubtOfTies(t *testing.T) {
	for _, tt := range []struct{ text, printed, doubt string }{
		{"Corva lasted 20.0% longer than Dorsal (36.0 s versus 30.0 s).", "20.0%", ""},
		{"Time to fracture rose by 20.0% from 30.0 s to 36.0 s.", "20.0%", ""},
		{"Corva took less time than Dorsal (25.3 vs 31.2 s, a reduction of 19%).", "19%", ""},
		{"Time to fracture of Corva (36.0 ± 4.1 s) was 20.0% longer than that of Dorsal (30.0 ± 3.9 s).", "20.0%", ""},
		{"Corva (36.0 s) lasted 20.0% longer than Dorsal (30.0 s).", "20.0%", ""},
		{"Corva lasted longer (36.0 s) than Dorsal (30.0 s), an increase of 20.0%.", "20.0%", ""},
		{"Compared with Dorsal (30.0 s), Corva lasted 20.0% longer (36.0 s).", "20.0%", "sets"}, // so read, it calls sound claims wrong
		{"Mean time to fracture was 36.0 ± 4.1 s for Corva compared with 30.0 ± 3.9 s for Dorsal, a difference of 20.0%.", "20.0%", ""},
		{"Mean time to fracture increased by 20.0% (from 30.0 s to 36.0 s, p = 0.01).", "20.0%", ""},
		{"Corva lasted 36.0 s versus 30.0 s for Dorsal, i.e. 20.0% longer.", "20.0%", ""},
		{"Corva lasted 36.0 s, which is 20.0% longer than the 30.0 s of Dorsal.", "20.0%", ""},
		{"With Corva, time to fracture was 20.0% longer than with Dorsal: 36.0 s vs. 30.0 s.", "20.0%", ""},
		{"Corva needed 25.3 s, Dorsal 31.2 s and Estrel 40.0 s, a reduction of 19%.", "19%", "sets"},
		{"Corva lasted 20.0% longer than Dorsal (36.0 s versus 30.0 s; Estrel 33.0 s versus 31.0 s).", "20.0%", ""},
		{"Corva lasted 20.0% longer than Dorsal, 36.0 s versus 30.0 s, and 40.0 s in the second canal.", "20.0%", "may be meant"},
		{"The risk of fracture was 20.0% lower for Corva than for Dorsal (36.0% versus 45.0%).", "20.0%", "model"},
		{"Corva took twice as long as Dorsal in the apical (2.62 s vs 1.31 s), middle (2.90 s vs 1.45 s) and coronal third (1.36 s vs 1.01 s), but not in the chamber (1.50 s vs 1.49 s).", "twice", "may be meant"},
	} {
		found := false
		for _, s := range ReadSentence(tt.text, catalog.Default()) {
			if s.Printed != tt.printed {
				continue
			}
			found = true
			switch got := s.Doubt.String(); {
			case tt.doubt == "" && got != "", !strings.Contains(got, tt.doubt):
				t.Errorf("%s\n%s of %s and %s is doubted for %q, want %q", tt.text, s.Printed, s.A.Number.Text, s.B.Number.Text, got, tt.doubt)
			}
		}
		if !found {
			t.Errorf("%s: %s was not found", tt.text, tt.printed)
		}
	}
}

// A sentence that turns, denies or speaks with reserve gives no certain
// statement of significance: whose p it prints is not known.
func TestDoubtOfSignificance(t *testing.T) {
	for _, tt := range []struct{ text, doubt string }{
		{"Corva lasted significantly longer than Dorsal (p = 0.004).", ""},
		{"For none of the files a significant difference could be observed (p = 0.301).", "turns"},
		{"Corva lasted significantly longer than Dorsal, although the torque was alike (p = 0.301).", "turns"},
		{"Only Corva lasted significantly longer than Dorsal (p = 0.301).", ""},
		{"The files differed significantly except Estrel (p = 0.301).", "turns"},
		{"Corva tended to last significantly longer than Dorsal (p = 0.07).", "reserve"},
		{"Corva lasted significantly longer than Dorsal (p = 0.004) and Estrel (p = 0.301).", "several p"},
	} {
		found := false
		for _, s := range ReadSentence(tt.text, catalog.Default()) {
			found = true
			switch got := s.Doubt.String(); {
			case tt.doubt == "" && got != "", !strings.Contains(got, tt.doubt):
				t.Errorf("%s\nis doubted for %q, want %q", tt.text, got, tt.doubt)
			}
		}
		if !found {
			t.Errorf("%s: no statement was found", tt.text)
		}
	}
}
