package typed

import (
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
)

func TestSensible(t *testing.T) {
	for _, c := range []struct {
		text string
		ok   bool
	}{
		{"Kestrine lasted 19% longer than Halyard (p = 0.03)", true},
		{"Kestrine lasted 19% longer (P < .001)", true},
		{"The inf. third was 5% longer", true},
		{"Kestrine lasted inf times longer than Halyard", false},
		{"Kestrine lasted NaN% longer than Halyard", false},
		{"Kestrine lasted 1e400% longer than Halyard", false},
		{"Kestrine lasted 0x1p3% longer than Halyard", false},
		{"Kestrine lasted longer (p = 1.2)", false},
		{"Kestrine lasted longer, p value of 3", false},
		{"Kestrine lasted longer (P = −0.2)", false},
		{"Kestrine e12 lasted 5% longer", true},
		{"The 2e15 alloy lasted 5% longer", false},
	} {
		if err := Sensible(c.text); (err == nil) != c.ok {
			t.Errorf("%q: %v", c.text, err)
		}
	}
}

// Units of one quantity are brought to the smaller one; others are asked about.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		a, b   string
		fa, fb float64 // wanted factors, 0: as typed
		asks   bool
		says   string // in what is assumed or asked
	}{
		{"10 min", "500 s", 60, 0, false, "1 min = 60 s"},
		{"500 s", "10 min", 0, 60, false, "1 min = 60 s"},
		{"0.5 N.cm", "3 N.mm", 10, 0, false, "1 N.cm = 10 N.mm"},
		{"10 s", "12 sec", 0, 0, false, ""},
		{"10 s", "500", 0, 0, false, "taken as s"},
		{"10", "500 s", 0, 0, false, "taken as s"},
		{"10 min", "500 N", 0, 0, true, "is a time and"},
		{"10 foos", "500 s", 0, 0, true, "does not have both"},
		{"10 foos", "500 foos", 0, 0, false, ""},
		{"37 °C", "310 K", 0, 0, true, "different zero points"},
	} {
		claim, err := Read("Kestrine lasted longer than Halyard", c.a, c.b, catalog.Default())
		if err != nil {
			t.Errorf("%s against %s: %v", c.a, c.b, err)
			continue
		}
		told := strings.Join(append(claim.Assumed, claim.Asks...), "; ")
		if claim.A.Scale.Factor != c.fa || claim.B.Scale.Factor != c.fb || (len(claim.Asks) > 0) != c.asks || !strings.Contains(told, c.says) || c.says == "" && told != "" {
			t.Errorf("%s against %s: factors %v and %v, %q; want %v and %v, %q", c.a, c.b, claim.A.Scale.Factor, claim.B.Scale.Factor, told, c.fa, c.fb, c.says)
		}
	}
}

// A number of the sentence that its comparison does not use is asked about,
// unless it is a name or a condition.
func TestUnusedNumbers(t *testing.T) {
	for _, c := range []struct {
		text string
		asks bool
	}{
		{"Kestrine lasted 19% longer than Halyard", false},
		{"Kestrine lasted 0.3 s longer than Halyard", true},
		{"Kestrine lasted 3 min longer than Halyard", true},
		{"Kestrine 25/.06 lasted 19% longer than Halyard 25/.06", false},
		{"Kestrine lasted 19% longer than Halyard at 37 °C", false},
		{"Kestrine (n = 12) lasted 19% longer than Halyard (n = 12)", false},
		{"Kestrine (n = 20) lasted 19% longer than Halyard (n = 20)", true},
		{"Kestrine lasted 19% (95% CI 1 to 42%) longer than Halyard", true},
		{"Kestrine lasted 19% longer than Halyard (t = 2.25, df = 20.5, p = 0.036)", false},
	} {
		claim, err := Read(c.text, "702.3 (106.8) n=12", "588.0 (140.3) n=12", catalog.Default())
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if (len(claim.Asks) > 0) != c.asks {
			t.Errorf("%q: asks %q", c.text, claim.Asks)
		}
	}
}

// The figures typed are held against the statements about their two sides, and
// a p beside a percentage is a statement of its own.
func TestTie(t *testing.T) {
	const subject, reference = "702.3 (106.8) n=12", "588.0 (140.3) n=12"
	claim, err := Read("Kestrine lasted 19% longer than Halyard (p = 0.036)", subject, reference, catalog.Default())
	if err != nil || len(claim.Study.Statements) != 2 || claim.Study.Statements[1].Kind != claims.Significance || len(claim.Study.Statements[1].Pairs) != 1 {
		t.Errorf("p beside a percentage: %d statements, %v", len(claim.Study.Statements), err)
	}
	claim, err = Read("Kestrine lasted 19% longer than Halyard and 40% longer than Dantor", subject, reference, catalog.Default())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range claim.Study.Statements {
		if named := s.Reference.Text == "Dantor"; named == (len(s.Pairs) > 0) {
			t.Errorf("against %s: %d pairs", s.Reference.Text, len(s.Pairs))
		}
	}
	for _, c := range []struct{ text, subject, reference, says string }{
		{"Kestrine lasted 19% longer than Halyard", "Halyard 588", "Kestrine 702", "exchange"},
		{"The load fell by 40% from 0.86 N to 0.52 N", "0.52", "0.9", "leave one pair out"},
		{"Kestrine lasted 19% longer than Halyard", "702", "", "both sides"},
		{"Kestrine was great", "702", "588", NoComparison},
	} {
		if _, err := Read(c.text, c.subject, c.reference, catalog.Default()); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q, %q, %q: %v, want %q", c.text, c.subject, c.reference, err, c.says)
		}
	}
}

// While a question is open nothing is judged.
func TestSettle(t *testing.T) {
	judged := []claims.Judgement{{Statement: &claims.Statement{}, Verdict: claims.Reproduces, Base: claims.OnReference, Why: "a sum", Recomputed: []claims.Recalculation{{}}}}
	findings := []claims.Finding{{Grade: claims.Query}}
	open := &Claim{Asks: []string{"what is it?"}}
	if j, f := open.Settle(append([]claims.Judgement(nil), judged...), findings); j[0].Verdict != claims.NotCheckable || j[0].Base != "" || len(j[0].Recomputed) > 0 || len(f) > 0 {
		t.Errorf("with a question open: %+v, %d findings", j[0], len(f))
	}
	closed := &Claim{Assumed: []string{"10 is in s"}}
	if j, f := closed.Settle(append([]claims.Judgement(nil), judged...), findings); j[0].Verdict != claims.Reproduces || j[0].Why != "a sum; 10 is in s" || len(f) != 1 {
		t.Errorf("with an assumption: %+v, %d findings", j[0], len(f))
	}
}
