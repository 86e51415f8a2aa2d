package interval

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

func TestParseRefuses(t *testing.T) {
	for _, text := range []string{
		"", "-", ".", "%", "1,083.82", "12,8", "1 083", "12.3.4", "12a", "1e", "1e999999", "NaN", "Inf",
		"123456789012345678", "0x1F", "1_000", "± 3",
	} {
		if p, err := Parse(text); err == nil {
			t.Errorf("Parse(%q) = %v, want an error", text, p)
		}
	}
}

func TestParseEdges(t *testing.T) {
	tests := []struct {
		source     string
		text       string
		low, high  float64
		wide       bool
		wideL, wiH float64
	}{
		{"by hand: half a hundredth", "2.20", 2.195, 2.205, false, 0, 0},
		{"by hand: a leading point", ".05", 0.045, 0.055, false, 0, 0},
		{"by hand: a minus of print", "−3.2", -3.25, -3.15, false, 0, 0},
		{"by hand: an en dash for a minus", "–3.2", -3.25, -3.15, false, 0, 0},
		{"by hand: percent of 50 has no wide reading", "50 %", 49.5, 50.5, false, 0, 0},
		{"by hand: 130 is 125 to 135 in the wide reading", "130", 129.5, 130.5, true, 125, 135},
		{"by hand: 100 is 50 to 150 in the wide reading", "100", 99.5, 100.5, true, 50, 150},
		{"by hand: 1.2e-5", "1.2e-5", 1.15e-5, 1.25e-5, false, 0, 0},
		{"by hand: 1e300 has one digit", "1e300", 5e299, 1.5e300, false, 0, 0},
		{"by hand: decimals end the wide reading", "120.0", 119.95, 120.05, false, 0, 0},
	}
	for _, test := range tests {
		p, err := Parse(test.text)
		if err != nil {
			t.Errorf("Parse(%q): %v", test.text, err)
			continue
		}
		if got := p.Interval(); got != (Interval{test.low, test.high}) || p.HasWide() != test.wide {
			t.Errorf("%s: Parse(%q) = %v, wide %v", test.source, test.text, got, p.HasWide())
		}
		if got := p.Wide().Interval(); test.wide && got != (Interval{test.wideL, test.wiH}) {
			t.Errorf("%s: Parse(%q).Wide() = %v", test.source, test.text, got)
		}
	}
}

func TestOfAndExact(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if _, err := Of(bad, 2); err == nil {
			t.Errorf("Of(%v, 2): no error", bad)
		}
		if _, err := Exact(bad); err == nil {
			t.Errorf("Exact(%v): no error", bad)
		}
	}
	if p, err := Of(12.34, 1); err == nil {
		t.Errorf("Of(12.34, 1) = %v, want an error: it has two decimals", p.Value())
	}
	if _, err := Of(1, -1); err == nil {
		t.Error("Of(1, -1): no error")
	}
	p, err := Of(12.3, 2)
	if err != nil || p.Interval() != (Interval{12.295, 12.305}) || p.Decimals() != 2 {
		t.Errorf("Of(12.3, 2) = %v, %v", p, err)
	}
	e, err := Exact(0.1)
	if err != nil || e.Interval() != Point(0.1) || e.Half() != 0 {
		t.Errorf("Exact(0.1) = %v, %v", e, err)
	}
	if (Printed{}).Known() {
		t.Error("the zero figure is known")
	}
}

// A tie that floating point would decide by chance is decided by the decimals.
func TestFitsTies(t *testing.T) {
	tests := []struct {
		source             string
		claim              string
		base               Base
		subject, reference string
		fits               bool
	}{
		{"by hand: 100 (12.5 - 7.5)/7.5 = 66.67 at most", "67", Reference, "12", "8", true},
		{"by hand: highest 100 (0.35/0.25 - 1) = 40, claim 40.5 to 41.5", "41", Reference, "0.3", "0.3", false},
		{"by hand: highest 40 exactly, claim 40.45 to 40.55", "40.5", Reference, "0.3", "0.3", false},
		{"by hand: highest 40, claim 39.5 to 40.5", "40", Reference, "0.3", "0.3", true},
		{"by hand: highest (1.15 - 1.05)/1.05 = 9.52, claim 9.5 to 10.5", "10", Reference, "1.1", "1.1", true},
		{"by hand: 0.75/0.65 = 115.38, 0.65/0.75 = 86.67; claim 115.4 ± 0.05 meets 115.35", "115.4", Ratio, "0.7", "0.7", true},
		{"by hand: points 0.7 - 0.1: 0.5 to 0.7, claim 0.7 to 0.8 touches", "0.75", Points, "0.7", "0.1", false},
		{"by hand: points touch at 0.7 within 0.65 to 0.75", "0.7", Points, "0.7", "0.1", true},
		{"by hand: points 0.5 to 0.7 and 0.75 to 0.85", "0.8", Points, "0.7", "0.1", false},
		{"by hand: equal figures, ln from -100 ln(1.1) to it, claim 9.5 to 10.5", "10", Log, "1.05", "1.00", false},
		{"by hand: 100 ln(1.055/0.995) = 5.86, 100 ln(1.045/1.005) = 3.90", "5", Log, "1.05", "1.00", true},
		{"by hand: midpoint 200 × 1/3 = 66.67 at most 200 (2.5-0.5)/3 = 133.3", "133", Midpoint, "2", "1", true},
	}
	for _, test := range tests {
		got, err := Fits(mustParse(t, test.claim), test.base, mustParse(t, test.subject), mustParse(t, test.reference))
		if err != nil || got != test.fits {
			t.Errorf("%s: Fits(%s, %v, %s, %s) = %v, %v", test.source, test.claim, test.base, test.subject, test.reference, got, err)
		}
	}
}

// R 4.2.2: 100*log(c(a-h, a, a+h) / c(b+h, b, b-h)) with h half the last digit.
func TestLogChange(t *testing.T) {
	tests := []struct {
		subject, reference string
		low, value, high   float64
	}{
		{"1242.5", "913.2", 30.783085003699107, 30.792584331514323, 30.802083797175978},
		{"1.4", "1.1", 16.034265007517909, 24.116205681688786, 32.277339226305102},
		{"12", "10", 9.0971778205726785, 18.232155679395458, 27.443684570176035},
		{"25.00", "25.00", -0.040000000533329028, 0, 0.040000000533324545},
		{"62.4", "96", -43.677933621889473, -43.078291609245426, -42.476001091509794},
		{"0.226", "0.163", 32.150716860542488, 32.678479846552356, 33.206694315329642},
		{"98000", "3.5", 1022.5770052111553, 1023.9959789157340, 1025.4353628637241},
		{"3", "3", -33.647223662121291, 0, 33.647223662121291},
	}
	for _, test := range tests {
		c, err := Percent(Log, mustParse(t, test.subject), mustParse(t, test.reference))
		for _, pair := range [][2]float64{{c.Range.Low, test.low}, {c.Value, test.value}, {c.Range.High, test.high}} {
			if err != nil || !(math.Abs(pair[0]-pair[1]) <= 1e-9*(1+math.Abs(pair[1]))) {
				t.Errorf("Percent(Log, %s, %s) = %+v, %v, want %v", test.subject, test.reference, c, err, test)
			}
		}
	}
}

func TestMagnitudes(t *testing.T) {
	a, b, err := Magnitudes(mustParse(t, "-3.2"), mustParse(t, "-1.6"))
	if err != nil || a.Interval() != (Interval{3.15, 3.25}) || b.Value() != 1.6 {
		t.Errorf("Magnitudes(-3.2, -1.6) = %v, %v, %v", a, b, err)
	}
	for _, pair := range [][2]string{{"-3.2", "1.6"}, {"0.0", "1.6"}, {"0", "0"}} {
		if _, _, err := Magnitudes(mustParse(t, pair[0]), mustParse(t, pair[1])); err == nil {
			t.Errorf("Magnitudes(%v): no error across zero", pair)
		}
	}
}

func TestPercentRefuses(t *testing.T) {
	one, zero := mustParse(t, "1.0"), mustParse(t, "0.0")
	for name, err := range map[string]error{
		"unknown figure":      refused(Percent(Reference, Printed{}, one)),
		"unknown base":        refused(Percent(0, one, one)),
		"zero reference":      refused(Percent(Reference, one, zero)),
		"zero subject as log": refused(Percent(Log, zero, one)),
		"negative figure":     refused(Percent(Ratio, one.Neg(), one)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	c, err := Percent(Reference, zero, one) // all of it gone
	if err != nil || c.Value != -100 || c.Range.Low != -100 || !(c.Range.High < -94) {
		t.Errorf("Percent(Reference, 0.0, 1.0) = %+v, %v", c, err)
	}
	if _, err := Fits(Printed{}, Reference, one, one); err == nil {
		t.Error("Fits of an unknown claim: no error")
	}
	if got, err := PointFits(Printed{}, Reference, one, one); err == nil {
		t.Errorf("PointFits of an unknown claim = %v, no error", got)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		if _, err := PercentOf(Reference, bad, 1); err == nil {
			t.Errorf("PercentOf(Reference, %v, 1): no error", bad)
		}
	}
}

func refused(_ Change, err error) error { return err }

// Laws that hold for all figures.
func TestLawsOfChange(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		places := rng.IntN(4)
		s := rounded(1+rng.Int64N(99999), -places)
		r := rounded(1+rng.Int64N(99999), -places)
		claim := rounded(rng.Int64N(4000), -rng.IntN(2))
		for _, base := range Bases {
			forth, err := Percent(base, s, r)
			if err != nil {
				t.Fatal(err)
			}
			if !forth.Range.Contains(forth.Value) {
				t.Fatalf("%v %v to %v: %v lies outside %v", base, r.value, s.value, forth.Value, forth.Range)
			}
			// Figures with one decimal less say less: what fits goes on fitting.
			fits, err := FitsSigned(claim, base, s, r)
			if err != nil {
				t.Fatal(err)
			}
			wide := s
			wide.low.coef, wide.high.coef = s.low.coef-3, s.high.coef+3
			if wide.low.coef > 0 {
				if still, err := FitsSigned(claim, base, wide, r); fits && (err != nil || !still) {
					t.Fatalf("%v: a wider subject ended the fit of %v: %v", base, claim.value, err)
				}
			}
			// A unit cancels: ten times both figures changes no percentage.
			if base != Points {
				same, err := FitsSigned(claim, base, s.Shift(1), r.Shift(1))
				if err != nil || same != fits {
					t.Fatalf("%v: %v against %v, %v fits %v, times ten %v", base, claim.value, s.value, r.value, fits, same)
				}
			}
			// The exact decision is that of rational arithmetic throughout.
			if base != Log {
				if exact := fitsExact(claim, base, s, r); exact != fits {
					t.Fatalf("%v: FitsSigned(%v, %v, %v) = %v, rational arithmetic says %v", base, claim.value, s.value, r.value, fits, exact)
				}
			}
		}
		// Swapping the arms turns base reference into minus base subject.
		there, err := Percent(Reference, s, r)
		back, err2 := Percent(Subject, r, s)
		if err := errors.Join(err, err2); err != nil {
			t.Fatal(err)
		}
		if math.Abs(there.Value+back.Value) > 1e-9*(1+math.Abs(there.Value)) {
			t.Fatalf("reference %v and swapped subject %v", there.Value, back.Value)
		}
	}
}

func fitsExact(claim Printed, base Base, s, r Printed) bool {
	low := s.low.rat()
	if base != Points && low.Sign() < 0 {
		low = new(big.Rat)
	}
	return changeExact(base, low, r.high.rat()).Cmp(claim.high.rat()) <= 0 &&
		changeExact(base, s.high.rat(), r.low.rat()).Cmp(claim.low.rat()) >= 0
}

func TestTimes(t *testing.T) {
	for _, test := range []struct {
		source    string
		text      string
		k         float64
		value     float64
		low, high float64
	}{
		{"by hand: 10 min of 60 s, 9.5 to 10.5", "10", 60, 600, 570, 630},
		{"by hand: 0.5 N cm of 10 N mm", "0.5", 10, 5, 4.5, 5.5},
		{"by hand: 12.5 gf of 9.80665 mN", "12.5", 9.80665, 122.583125, 122.0927925, 123.0734575},
		{"by hand: a factor of one changes nothing", "−3.20", 1, -3.2, -3.205, -3.195},
	} {
		p, err := Parse(test.text)
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Times(test.k)
		if err != nil || got.Value() != test.value || got.Interval() != (Interval{test.low, test.high}) {
			t.Errorf("%s: %s × %v = %v, %v, error %v", test.source, test.text, test.k, got.Value(), got.Interval(), err)
		}
	}
	p, _ := Parse("10")
	for _, k := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := p.Times(k); err == nil {
			t.Errorf("10 × %v: no error", k)
		}
	}
}

// Times is undone by the inverse factor, edges and all.
func TestTimesThereAndBack(t *testing.T) {
	for _, text := range []string{"10", "0.52", "1083.82", "−7", "250"} {
		for _, k := range []float64{60, 10, 1000, 0.001, 2.5} {
			p, _ := Parse(text)
			there, err1 := p.Times(k)
			back, err2 := there.Times(1 / k)
			a, b := p.Interval(), back.Interval()
			if err1 != nil || err2 != nil || math.Abs(a.Low-b.Low) > 1e-9*math.Abs(a.Low) || math.Abs(a.High-b.High) > 1e-9*math.Abs(a.High) {
				t.Errorf("%s × %v and back is %v, want %v (%v, %v)", text, k, b, a, err1, err2)
			}
		}
	}
}
