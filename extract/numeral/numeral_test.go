package numeral_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/extract"
	"probity/extract/numeral"
)

// show writes a reading on one line, so that wanted values can be typed.
func show(r numeral.Reading) string {
	s := r.Form.String() + " " + r.Number.Text
	if r.Spread.Known() {
		s += " " + r.Sign + " " + r.Spread.Text
	}
	if r.Low.Known() {
		s += " " + r.Sign + r.Low.Text + ".." + r.High.Text
	}
	for _, p := range [][2]string{{"letters", r.Letters}, {"unit", r.Unit}, {"marks", r.Marks}, {"mark", r.Mark}, {"n", r.N.Text},
		{"min", r.Min.Text}, {"max", r.Max.Text}, {"rest", r.Rest}, {"note", r.Note}, {"label", r.Label}} {
		if p[1] != "" {
			s += " " + p[0] + "=" + p[1]
		}
	}
	if r.Percent {
		s += " %"
	}
	return s
}

func TestText(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"12.3", "figure 12.3"},
		{"12.3 ± 1.1", "spread 12.3 ± 1.1"},
		{"195 (168,215)", "interval 195 (168..215"},
		{"94 (12,694)", "spread 94 ( 12,694"},
		{"353 (1,186)", "spread 353 ( 1,186"},
		{"95% CI", "none  mark=95% CI rest=95% CI"},
		{"95% CI: 1.2 to 3.4", "limits  1.2..3.4 mark=95% CI"},
		{"12.3±1.1ᵃᵇ", "spread 12.3 ± 1.1 letters=ab"},
		{"12.3ᵃ ± 1.1", "spread 12.3 ± 1.1 letters=a"},
		{"12.3a (1.1)", "spread 12.3 ( 1.1 letters=a"},
		{"250.4 b (51.9)", "spread 250.4 ( 51.9 letters=b"},
		{"2.13(1.18)", "spread 2.13 ( 1.18"},
		{"12.3 +/- 1.1", "spread 12.3 ± 1.1"},
		{"12.3 6 1.1", "spread 12.3 ? 1.1 note=the sign between the two figures is damaged; read as ±"},
		{"12.3 + 1.1", "spread 12.3 ? 1.1 note=the sign between the two figures is damaged; read as ±"},
		{"12.3 ? 1.1", "spread 12.3 ? 1.1 note=the sign between the two figures is damaged; read as ±"},
		{"4.3 ± 1,4†", "spread 4.3 ± 1,4 marks=†"},
		{"1,043 (216)", "spread 1,043 ( 216"},
		{"1 083.82", "figure 1 083.82"},
		{"<0.001", "figure 0.001"},
		{"0,0619", "figure 0,0619"},
		{"10 (50%)", "count 10 ( 50"},
		{"-79.00–483.90", "limits  -79.00..483.90"},
		{"-29.30–20.10", "limits  -29.30..20.10"},
		{"1.40 to 2.44", "limits  1.40..2.44"},
		{"(52 to 58)", "limits  (52..58"},
		{"(−6 to 11)", "limits  (−6..11"},
		{"0.54 (±0.92); 0, 3", "spread 0.54 ± 0.92 min=0 max=3"},
		{"9.8 ± 6.9 (2–39)", "spread 9.8 ± 6.9 min=2 max=39"},
		{"2.2 ± 0.6 (219)", "spread 2.2 ± 0.6 n=219"},
		{"0.08 (− 0.19, 0.35)", "interval 0.08 (− 0.19..0.35"},
		{"0.0 (–0.7 to 0.0)", "interval 0.0 (–0.7..0.0"},
		{"3.1 [2.0–4.5]", "interval 3.1 [2.0..4.5"},
		{"7.6, 31.8", "spread 7.6 , 31.8"},
		{"12 y 9 m", "figure 12 y 9 m unit=months"},
		{"83.4°", "figure 83.4 unit=°"},
		{"27.20%", "figure 27.20 %"},
		{"25/.06", "size 25"},
		{"702.3 N (SD = 106.8 N)", "spread 702.3 ( 106.8 unit=N mark=SD N"},
		{"(3.5 ± 1.2) × 10⁵", "spread 3.5 ± 1.2"},
		{"100 ± .00", "spread 100 ± .00"},
		{"−1.20 ± 0.30", "spread −1.20 ± 0.30"},
		{"12·3 ± 1·1", "spread 12·3 ± 1·1"},
		{"NS", "none  rest=NS"},
		{"n = 12", "n 12 n=12 label=n"},
		{"12/30", "count 12 / 30"},
		{"10.60 A,b", "figure 10.60 letters=A,b"},
	} {
		if got := show(numeral.Text(c.in, numeral.Style{})); got != c.want {
			t.Errorf("Text(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func ExampleCell() {
	c := extract.Cell{Runs: []extract.Run{{Text: "702.3 ± 106.8"}, {Text: "a,b", Raised: true}}}
	r := numeral.Cell(c, numeral.Style{})
	fmt.Println(r.Form, r.Number.Value, r.Spread.Value, r.Letters)
	// Output: spread 702.3 106.8 a,b
}

func ExampleScan() {
	for _, t := range numeral.Scan("Orlin 25/.06 (n = 12) lasted 702.3 ± 106.8 s, 19% longer than Group 2 (p < 0.05) [4].") {
		fmt.Println(strings.TrimSpace(fmt.Sprint(t.Form, " ", t.Number.Text, " ", t.Spread.Text)))
	}
	// Output:
	// size 25
	// n 12
	// spread 702.3 106.8
	// figure 19
	// label 2
	// p 0.05
	// citation 4
}
