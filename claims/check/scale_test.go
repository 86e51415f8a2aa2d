package check

import (
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
)

// Figures in two units are judged in one, with the rounding of both.
func TestScale(t *testing.T) {
	minutes := claims.Scale{Factor: 60, Unit: "s"}
	for _, test := range []struct {
		source  string // the sum by hand
		printed string
		verdict claims.Verdict
	}{
		{"600/500 is 20 %", "20", claims.Reproduces},
		{"10 min is 570 to 630 s: 13.9 to 26.1 %", "14", claims.Reproduces},
		{"and with 500 as 450 to 550: 3.6 to 40 %", "50", claims.DoesNotReproduce},
	} {
		a, b := arm(t, "A", "10", "1", 12, ""), arm(t, "B", "500", "60", 12, "")
		a.Scale = minutes
		a.Place.Table, b.Place.Table = "", "" // typed by hand: no other row can be meant
		s := &claims.Statement{Kind: claims.Percent, Form: claims.Change, Own: true, Value: num(t, test.printed), Unit: "%", Printed: test.printed + "%",
			Direction: claims.Higher, Pairs: []claims.Pair{{A: a, B: b}}}
		got := judgeOne(&claims.Study{Measures: []*claims.Measure{a, b}}, s)
		if got.Verdict != test.verdict {
			t.Errorf("%s: 10 min against 500 s, %s %%: %v (%s), want %v", test.source, test.printed, got.Verdict, got.Why, test.verdict)
		}
	}
}

// One factor on both sides changes no test: t has no unit.
func TestScaleLeavesTestsAlone(t *testing.T) {
	plain := Two(arm(t, "A", "702.3", "106.8", 12, ""), arm(t, "B", "588.0", "140.3", 12, ""))
	a, b := arm(t, "A", "702.3", "106.8", 12, ""), arm(t, "B", "588.0", "140.3", 12, "")
	a.Scale, b.Scale = claims.Scale{Factor: 1000, Unit: "ms"}, claims.Scale{Factor: 1000, Unit: "ms"}
	scaled := Two(a, b)
	for _, name := range []string{"Welch t test", "Student t test", "ratio of means"} {
		if x, y := sumNamed(plain, name), sumNamed(scaled, name); x != y || x == "" {
			t.Errorf("%s: %q in s and %q in ms", name, x, y)
		}
	}
}

func sumNamed(sums []claims.Sum, name string) string {
	for _, s := range sums {
		if s.Name == name {
			return s.Text
		}
	}
	return ""
}

// An SE and a 95 % interval are brought to an SD with n, and the sum is shown.
func TestSpreadSums(t *testing.T) {
	a, b := arm(t, "A", "650", "80", 12, ""), arm(t, "B", "546", "", 12, "")
	a.Spread.Kind = claims.SE
	b.Spread = claims.Spread{Kind: claims.CI95, Low: num(t, "500"), High: num(t, "592")}
	sums := Two(a, b)
	// by hand: 80 × √12 = 277.13; 92 × 3.4641 / (2 × 2.2010) = 72.40
	for name, want := range map[string]string{"SD of A": "= 277.1", "SD of B": "= 72.4"} {
		if got := sumNamed(sums, name); !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q in it", name, got, want)
		}
	}
}

// One specimen has no spread; that is not the same as an n nobody printed.
func TestOneSpecimen(t *testing.T) {
	sums := Two(arm(t, "A", "650", "80", 1, ""), arm(t, "B", "546", "90", 12, ""))
	if got := sumNamed(sums, "intervals and tests"); !strings.Contains(got, "n = 1 for A") || !strings.Contains(got, "no test") {
		t.Errorf("n = 1: %q", got)
	}
}

// A factor told of the inverse of what was measured is explained as such.
func TestInverseFactor(t *testing.T) {
	a, b := arm(t, "A", "0.5", "0.05", 12, ""), arm(t, "B", "1.18", "0.06", 12, "")
	s := &claims.Statement{Kind: claims.Fold, Form: claims.Times, Own: true, Inverts: true, Value: num(t, "2.36"), Unit: "x", Printed: "2.36 times",
		Direction: claims.Lower, Pairs: []claims.Pair{{A: a, B: b}}}
	study := &claims.Study{Measures: []*claims.Measure{a, b}, Statements: []*claims.Statement{s}}
	judgements, findings := Audit(study, catalog.Default())
	// by hand: 1.18 / 0.5 = 2.36
	if got := judgements[0]; got.Verdict != claims.OtherBase || got.Base != claims.OnSubject || !strings.Contains(got.Why, "1.18 / 0.5 = 2.36") {
		t.Errorf("2.36 times as flexible: %v on %s, %s", got.Verdict, got.Base, got.Why)
	}
	for _, f := range findings {
		if f.Grade != claims.Caution {
			t.Errorf("2.36 times as flexible: a %s, want no more than a caution: %s", f.Grade, f.Message)
		}
	}
}

// Twice as fast is half the time: nothing has to be explained.
func TestFactorOfRate(t *testing.T) {
	a, b := arm(t, "A", "30.0", "5", 12, ""), arm(t, "B", "60.0", "6", 12, "")
	s := &claims.Statement{Kind: claims.Fold, Form: claims.Times, Own: true, Inverts: true, Rate: true, Value: num(t, "2"), Unit: "x", Printed: "twice", Word: true,
		Direction: claims.Lower, Pairs: []claims.Pair{{A: a, B: b}}}
	if got := judgeOne(&claims.Study{Measures: []*claims.Measure{a, b}}, s); got.Verdict != claims.Reproduces {
		t.Errorf("twice as fast, 30 s against 60 s: %v, %s", got.Verdict, got.Why)
	}
}
