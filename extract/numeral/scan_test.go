package numeral_test

import (
	"strings"
	"testing"

	"probity/extract/numeral"
)

// tokens writes the tokens of a text on one line: form, figure, what stands
// beside it.
func tokens(text string) string {
	var out []string
	for _, t := range numeral.Scan(text) {
		s := t.Form.String() + " " + t.Number.Text
		if t.Spread.Known() {
			s += " " + t.Sign + t.Spread.Text
		}
		if t.Low.Known() {
			s += " " + t.Low.Text + ".." + t.High.Text
		}
		if t.Unit != "" {
			s += " " + t.Unit
		}
		if t.Hyphen {
			s += " hyphen"
		}
		for _, d := range t.DF {
			s += " df" + d.Text
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

func TestScan(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"It lasted 702.3 ± 106.8 s.", "spread 702.3 ±106.8 s"},
		{"It lasted 702.3 s (SD = 106.8 s).", "spread 702.3 (106.8 s"},
		{"It lasted 702.3 s (106.8).", "spread 702.3 (106.8 s"},
		{"a mean of 12.3 (95% CI 11.2 to 13.4) MPa", "interval 12.3 11.2..13.4 MPa"},
		{"a median of 3.1 [2.0–4.5]", "interval 3.1 2.0..4.5"},
		{"10 (50%) of the teeth", "count 10 (50 of"},
		{"(p < .001)", "p .001"},
		{"P value was less than 0.05", "p 0.05"},
		{"F(2, 27) = 26.99, P < 0.001", "stat"},
		{"n = 12 per group", "n 12"},
		{"alpha of 0.05 and α = 5%", "level 0.05; level 5"},
		{"Orlin 25/.06 and Brex 25.06 broke", "size 25; size 25.06"},
		{"a mean of 25.06 MPa", "figure 25.06 MPa"},
		{"size 25, taper .06", "size 25; figure .06"},
		{"Groups 1, 2 and 3 in Table 4", "label 1; label 2; label 3; label 4"},
		{"as shown before [3–5, 9] and elsewhere [12]", "citation 3; citation 12"},
		{"8-OHdG at 30-day recall", "figure 8 OHdG hyphen; figure 30 day hyphen"},
		{"ISO 3630-1 was followed", "label 3630"},
		{"between 5–10 mm", "limits 5 5..10 mm"},
		{"1,083.82 s and 1 083.82 s", "figure 1,083.82 s; figure 1 083.82 s"},
		{"a loss of −1.2 mm", "figure −1.2 mm"},
		{"(Lee 2010) and Lee et al., 2011", "citation 2010; citation 2011"},
		{"12·3 ± 1·1 N", "spread 12·3 ±1·1 N"},
		{"about 1.2 × 10⁵ CFU", "figure 1.2 × 10⁵ CFU"},
		{"χ2(3) = 9.1 and t = 2.20", "stat"},
		{"no figures at all", ""},
	} {
		got := tokens(c.in)
		if c.want == "stat" {
			if !strings.HasPrefix(got, "statistic ") {
				t.Errorf("Scan(%q) = %q, want a statistic first", c.in, got)
			}
			continue
		}
		if got != c.want {
			t.Errorf("Scan(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

// Tokens lie in order inside the text and hold the figure they name.
func TestScanOffsets(t *testing.T) {
	text := "Orlin 25/.06 (n = 12) lasted 702.3 ± 106.8 s, 19 % longer than Group 2 (p < 0.05) [4]; χ² = 3.2, µ 1.1ᵃ."
	last := 0
	for _, k := range numeral.Scan(text) {
		if k.Start < last || k.End > len(text) || k.End <= k.Start {
			t.Errorf("token %v at %d..%d, after %d, in %d bytes", k.Form, k.Start, k.End, last, len(text))
		}
		if !strings.Contains(text[k.Start:k.End], k.Number.Text) {
			t.Errorf("%q is not in %q", k.Number.Text, text[k.Start:k.End])
		}
		last = k.End
	}
}

func TestStyleOf(t *testing.T) {
	for _, c := range []struct {
		texts []string
		comma bool
	}{
		{[]string{"12,3 ± 1,1", "11,8 ± 0,9", "0,05"}, true},
		{[]string{"12.3 ± 1.1", "1,083 ± 99", "0.05"}, false},
		{[]string{"1,083", "2,120", "3,500"}, false},
		{[]string{"12.3", "11.9", "12,3"}, false},
		{nil, false},
	} {
		if got := numeral.StyleOf(c.texts...).DecimalComma; got != c.comma {
			t.Errorf("StyleOf(%q) decimal comma %v, want %v", c.texts, got, c.comma)
		}
	}
	if n, ok := numeral.Number("1.083,5", numeral.Style{DecimalComma: true}); !ok || n.Value != 1083.5 || n.Decimals != 1 {
		t.Errorf("Number(1.083,5) with a decimal comma = %+v, want 1083.5 to one decimal", n)
	}
}

func FuzzScan(f *testing.F) {
	for _, s := range []string{"702.3 ± 106.8 s (n = 12)", "25/.06", "F(2, 27) = 6.1", "[3–5]", "12,3±1,1ᵃᵇ", "((((", "1e-5 × 10⁻³", "p < .001", "12 y 9 m", "(0.10; 1.02–1.40)"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		last := 0
		for _, k := range numeral.Scan(s) {
			if k.Start < last || k.End < k.Start || k.End > len(s) {
				t.Fatalf("token at %d..%d after %d in %d bytes", k.Start, k.End, last, len(s))
			}
			last = k.End
		}
		r := numeral.Text(s, numeral.Style{})
		if r.Form == numeral.Spread && (r.Number.Text == "" || r.Spread.Text == "") {
			t.Fatalf("a spread without figures in %q", s)
		}
		numeral.Text(s, numeral.Style{DecimalComma: true})
	})
}

func BenchmarkScan(b *testing.B) {
	text := strings.Repeat("Orlin 25/.06 (n = 12) lasted 702.3 ± 106.8 s, 19% longer than Group 2 (p < 0.05) [4]. ", 20)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		numeral.Scan(text)
	}
}
