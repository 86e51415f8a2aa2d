package typed

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims/catalog"
	"probity/extract"
)

// show writes what was made of a side on one line: centre, spread, n, unit.
func show(s *Side) string {
	m := s.Measure
	out := fmt.Sprintf("%s %s", m.Centre, plain(m.Mean.Number))
	switch {
	case m.Spread.Low.Known():
		out += fmt.Sprintf(", %s %s to %s", m.Spread.Kind, plain(m.Spread.Low), plain(m.Spread.High))
	case m.Spread.Known():
		out += fmt.Sprintf(", %s %s", m.Spread.Kind, plain(m.Spread.Value))
	}
	if m.Min.Known() || m.Max.Known() {
		out += fmt.Sprintf(", from %s to %s", plain(m.Min), plain(m.Max))
	}
	if m.N.Known() {
		out += ", n " + plain(m.N.Number)
	}
	if m.Unit != "" {
		out += ", " + m.Unit
		if m.UnitID == "" {
			out += "?"
		}
	}
	if s.Name != "" {
		out += ", called " + s.Name
	}
	if len(s.Left) > 0 {
		out += ", left " + strings.Join(s.Left, " | ")
	}
	if len(s.Asks) > 0 {
		out += ", asks"
	}
	return out
}

// What a person types, and what a careful reader takes it for, written down by
// hand.
func TestReadSide(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		// mean (SD) n
		{"702.3 (106.8) n=12", "mean 702.3, sd 106.8, n 12"},
		{"650.5 (80.2)", "mean 650.5, sd 80.2"},
		{"650,5 (80,2)", "mean 650.5, sd 80.2"},
		{"650,5 (80,2) n=12", "mean 650.5, sd 80.2, n 12"},
		{"650 SD 80 n 12", "mean 650, sd 80, n 12"},
		{"650 sd=80, n=12", "mean 650, sd 80, n 12"},
		{"650 s.d. 80; N 12", "mean 650, sd 80, n 12"},
		{"mean 650, SD 80, n = 12", "mean 650, sd 80, n 12"},
		{"n = 12, mean 650, SD 80", "mean 650, sd 80, n 12"},
		{"SD 80, mean 650", "mean 650, sd 80"},
		{"M = 650; SD = 80", "mean 650, sd 80"},
		{"mean of 650, standard deviation of 80", "mean 650, sd 80"},
		{"650 (SD 80)", "mean 650, sd 80"},
		{"650 (SD = 80; n = 12)", "mean 650, sd 80, n 12"},
		{"650 (80 SD)", "mean 650, sd 80"},
		{"650 SD (80) n=12", "mean 650, sd 80, n 12"},
		{"mean (SD): 650 (80)", "mean 650, sd 80"},
		{"mean ± SE 650 ± 80", "mean 650, se 80"},
		{"median [IQR]: 650 [600-720]", "median 650, iqr 600 to 720"},
		{"650.5, 80.2, 12", "mean 650.5, sd 80.2, n 12"},
		// other spreads
		{"650 SE 80 n=12", "mean 650, se 80, n 12"},
		{"650 (SEM 80)", "mean 650, se 80"},
		{"650 ± 80", "mean 650, unstated 80"},
		{"650 +/- 80 (n=12)", "mean 650, unstated 80, n 12"},
		{"650±80 (n = 12)", "mean 650, unstated 80, n 12"},
		{"650 ± SD 80", "mean 650, sd 80"},
		{"650 ± 80 SD, n=12", "mean 650, sd 80, n 12"},
		{"mean 650 ± 80 (SD)", "mean 650, sd 80"},
		{"650 ± 80 (SE) n=12", "mean 650, se 80, n 12"},
		{"650+-80", "mean 650, unstated 80"},
		{"(650 ± 80) s", "mean 650, unstated 80, s"},
		{"650.5(80.2)n=12", "mean 650.5, sd 80.2, n 12"},
		{"mean=650 sd=80 n=12", "mean 650, sd 80, n 12"},
		{"650 [SD 80]", "mean 650, sd 80"},
		{"650 (SE: 80)", "mean 650, se 80"},
		{"650 (80 SE; n = 12)", "mean 650, se 80, n 12"},
		{"650 s, SD 80 s, n=12", "mean 650, sd 80, n 12, s"},
		{"650.5 (80.2; n=12)", "mean 650.5, sd 80.2, n 12"},
		{"Mdn = 650 (IQR, 600–720)", "median 650, iqr 600 to 720"},
		{"650, 95 % CI = [600; 700]", "mean 650, ci95 600 to 700"},
		{"650, 95 % CI [600, 700], n = 12", "mean 650, ci95 600 to 700, n 12"},
		{"0.0052 (1e-4)", "mean 0.0052, sd 0.0001"},
		{"median 650 (IQR 600-720) n=12", "median 650, iqr 600 to 720, n 12"},
		{"650 (IQR 600 to 720)", "median 650, iqr 600 to 720"},
		{"median 650, IQR 120", "median 650, iqr 120"},
		{"650 (95 % CI 600 to 700), n=12", "mean 650, ci95 600 to 700, n 12"},
		{"650 (95% CI: 600, 700) n 12", "mean 650, ci95 600 to 700, n 12"},
		{"650, 95% confidence interval 600–700", "mean 650, ci95 600 to 700"},
		{"650 (range 500-800)", "mean 650, range 500 to 800"},
		{"650 (SD 80; range 500–800)", "mean 650, sd 80, from 500 to 800"},
		{"650 (80), min 500, max 800", "mean 650, sd 80, from 500 to 800"},
		{"650 (80) 95 % CI 600 to 700", "mean 650, ci95 600 to 700, left 80, asks"},
		{"650 SD 80, 95 % CI 600 to 700", "mean 650, sd 80, left 95 % CI 600 to 700"},
		{"650 [600-700]", "mean 650, left 600-700, asks"},
		{"650 (600 to 700) n=12", "mean 650, n 12, left 600 to 700, asks"},
		// numerals and units
		{"10 min", "mean 10, min"},
		{"650s", "mean 650, s"},
		{"1 245 ± 210 s", "mean 1245, unstated 210, s"},
		{"1 245 s", "mean 1245, s"},
		{"1,083.82 (120.1) s", "mean 1083.82, sd 120.1, s"},
		{"1.083,8 (120,1)", "mean 1083.8, sd 120.1"},
		{"-3.2 (1.1) mm", "mean −3.2, sd 1.1, mm"},
		{"0.86 N (0.06) N = 12", "mean 0.86, sd 0.06, n 12, N"},
		{"0.86 N (0.06 N), n=12", "mean 0.86, sd 0.06, n 12, N"},
		{"2.5 N cm (0.4) n=10", "mean 2.5, sd 0.4, n 10, N cm"},
		{"2.5 (0.4) N·cm", "mean 2.5, sd 0.4, N·cm"},
		{"65 % (12 %) n=20", "mean 65, sd 12, n 20, %"},
		{"500 foos (60)", "mean 500, sd 60, foos?"},
		{"500 bars", "mean 500, bars?"},
		{"650 (80) 12 specimens", "mean 650, sd 80, n 12"},
		{"650 (80) n=12 instruments each", "mean 650, sd 80, n 12"},
		{"650 n=1", "mean 650, n 1"},
		// what is left over is named; figures left over are asked about
		{"Kestrine 650 (80) n=12", "mean 650, sd 80, n 12, called Kestrine"},
		{"650 (80) n=12 in water", "mean 650, sd 80, n 12, left in water"},
		{"650 (80) n=12 at 37 °C", "mean 650, sd 80, n 12, left at 37 °C, asks"},
		{"650 (80) n=12 p = 0.03", "mean 650, sd 80, n 12, left p = 0.03, asks"},
	} {
		s, err := ReadSide(c.text, catalog.Default())
		if err != nil {
			t.Errorf("%q: %v, want %s", c.text, err, c.want)
			continue
		}
		if got := show(s); got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// What cannot be used is refused, and the message says what to type.
func TestReadSideRefuses(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "no mean could be read"},
		{"NaN", "“NaN” is no figure"},
		{"650 (inf)", "“inf” is no figure"},
		{"∞", "no figure"},
		{"1e400", "“1e400” is no figure"},
		{"1e5 (1)", "“1e5” is no figure"},
		{"0x1p3", "“0x1p3” is no figure"},
		{"1.2.3 (1)", "“1.2.3” cannot be read as one figure"},
		{"99999999999999999999", "cannot be read as one figure"},
		{"650 n=0", "at least one specimen"},
		{"650 n=-3", "at least one specimen"},
		{"650 n=1.5", "whole number"},
		{"650 n=12.0", "whole number"},
		{"650 n=10-12", "one n is wanted"},
		{"650 (-80)", "never below zero"},
		{"650 SD -80", "never below zero"},
		{"650 SD 60-80", "one figure, not a pair"},
		{"650 (95 % CI 50)", "both limits"},
		{"650 (95 % CI 700 to 600)", "lower limit is above"},
		{"650 (95 % CI 660 to 700)", "does not hold the mean"},
		{"median 650 (IQR 500 to 600)", "does not hold the median"},
		{"650 (90 % CI 600 to 700)", "only a 95 % interval"},
		{"600-700", "a pair of limits"},
		{"(80) n=12", "no mean could be read"},
		{"about ten (1.2) n=12", "“about ten” is a number in words, and no mean could be read"},
		{"ten (1.2) n=12", "“ten” is a number in words"},
		{"10 (1.2) n = twelve", "“twelve” is a number in words; type"},
		{"about 10 (1.2) n=12", "not a figure as printed"},
		{"~10 (1.2)", "not a figure as printed"},
		{"> 10 (1.2)", "not a figure as printed"},
		{"650, 80, 12", "which of these figures is the mean"},
		{"650 80 12", "which of these figures is the mean"},
		{"650, 80", "what these figures are is not said"},
		{"650, 80 n=12", "what these figures are is not said"},
		{"650,80,12", "cannot be read as one figure"},
		{"650 120 n=12", "may be one figure or two"},
		{"10 min (30 s)", "type its figures in one unit"},
	} {
		_, err := ReadSide(c.text, catalog.Default())
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: error %v, want one that says %q", c.text, err, c.says)
		}
	}
}

// Every number that was typed is either used, left over by name, or the side
// is refused.
func FuzzReadSide(f *testing.F) {
	for _, s := range []string{"702.3 (106.8) n=12", "650,5 (80,2)", "median 650 [IQR 600-720]", "650 SE 80 12 x", "((((", "±", "n=", "1 245 ± 210 s", "mean ± SD 1 ± 2", "%%%", "a1b2", "95 % CI", "−"} {
		f.Add(s)
	}
	cat := catalog.Default()
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ReadSide(text, cat)
		if err != nil {
			return
		}
		told := strings.Join(s.Left, " ") + " " + s.Name
		for _, p := range s.Parts {
			told += " " + p.Words
		}
		toks, err := lex(extract.Fold(text), styleOf(text))
		if err != nil {
			t.Fatalf("%q was read and cannot be cut: %v", text, err)
		}
		for _, k := range toks {
			if k.sort == numberToken && !strings.Contains(told, k.text) {
				t.Fatalf("%q: %q is told nowhere in %q", text, k.text, told)
			}
		}
		if m := s.Measure; !m.Mean.Known() || m.N.Known() && m.N.Value < 1 || m.Spread.Value.Known() && m.Spread.Value.Value < 0 {
			t.Fatalf("%q: %+v", text, m)
		}
	})
}
