package check

import (
	"strconv"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/reading"
	"probity/extract"
)

// num reads a numeral as printed; decimals count.
func num(t testing.TB, s string) extract.Number {
	t.Helper()
	n := extract.Number{Text: s}
	for _, r := range []struct {
		sign string
		rel  extract.Relation
	}{{"~", extract.About}, {"<", extract.Less}, {">", extract.Greater}} {
		if rest, ok := strings.CutPrefix(s, r.sign); ok {
			s, n.Relation = rest, r.rel
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("numeral %q: %v", s, err)
	}
	n.Value = v
	if _, after, ok := strings.Cut(s, "."); ok {
		n.Decimals = len(after)
	}
	return n
}

// arm builds a measure of one arm in table 1: "702.3", "106.8", 12.
func arm(t testing.TB, name, mean, sd string, n int, letters string) *claims.Measure {
	t.Helper()
	m := &claims.Measure{Arm: &claims.Arm{Name: name, Short: name}, ArmText: name, Outcome: "time", OutcomeID: timeID, Unit: "s", UnitID: "s",
		Letters: letters, Place: extract.Place{Table: "1", Section: extract.InTable}, Text: mean + " (" + sd + ")"}
	m.Mean = claims.Quantity{Number: num(t, mean), Origin: claims.Printed}
	if sd != "" {
		m.Spread = claims.Spread{Kind: claims.SD, Value: num(t, sd), Text: sd}
	}
	if n > 0 {
		m.N = claims.Quantity{Number: num(t, strconv.Itoa(n)), Origin: claims.Printed}
	}
	return m
}

func judgeOne(study *claims.Study, s *claims.Statement) claims.Judgement {
	study.Statements = []*claims.Statement{s}
	return Judge(study, catalog.Default())[0]
}

func TestChangeVerdicts(t *testing.T) {
	type claim struct {
		kind      claims.Kind
		form      claims.Form
		value     string
		direction claims.Direction
	}
	tests := []struct {
		source  string // the sum by hand
		claim   claim
		a, b    string
		verdict claims.Verdict
		base    claims.Base
	}{
		{"114.3/588.0 = 19.44 %", claim{claims.Percent, claims.Change, "19", 1}, "702.3", "588.0", claims.Reproduces, claims.OnReference},
		{"114.3/702.3 = 16.28 %, 114.3/588.0 = 19.44 %", claim{claims.Percent, claims.Change, "16", 1}, "702.3", "588.0", claims.OtherBase, claims.OnSubject},
		{"23.1/9.8 = 235.7 %: a ratio told as an increase", claim{claims.Percent, claims.Change, "236", 1}, "23.1", "9.8", claims.OtherBase, claims.OnRatio},
		{"13.3/9.8 = 135.7 %, within rounding 134.0 to 137.4", claim{claims.Percent, claims.Change, "137", 1}, "23.1", "9.8", claims.Reproduces, claims.OnReference},
		{"13.3/9.8 = 135.7 %, at most 137.4", claim{claims.Percent, claims.Change, "139", 1}, "23.1", "9.8", claims.DoesNotReproduce, ""},
		{"13.3/16.45 = 80.9 % of the mean of both", claim{claims.Percent, claims.Change, "80.9", 1}, "23.1", "9.8", claims.OtherBase, claims.OnMidpoint},
		{"702.3/588.0 = 119.4 %", claim{claims.Percent, claims.Share, "119", 0}, "702.3", "588.0", claims.Reproduces, claims.OnRatio},
		{"the figures go up", claim{claims.Percent, claims.Change, "19", -1}, "702.3", "588.0", claims.Reversed, claims.OnReference},
		{"(80-100)/100 = -20 %", claim{claims.Percent, claims.Change, "20", -1}, "80.0", "100.0", claims.Reproduces, claims.OnReference},
		{"about 20: 18 to 22; 19.44 %", claim{claims.Percent, claims.Change, "~21", 1}, "702.3", "588.0", claims.Reproduces, claims.OnReference},
		{"more than 15", claim{claims.Percent, claims.Change, ">15", 1}, "702.3", "588.0", claims.Reproduces, claims.OnReference},
		{"more than 25: 19.44 %", claim{claims.Percent, claims.Change, ">25", 1}, "702.3", "588.0", claims.DoesNotReproduce, ""},
		{"9.8/23.1 = 0.42", claim{claims.Fold, claims.Times, "2.4", 0}, "23.1", "9.8", claims.Reproduces, claims.OnRatio},
		{"23.1/9.8 = 2.36, that is 1.36 more", claim{claims.Fold, claims.TimesMore, "1.4", 1}, "23.1", "9.8", claims.OtherBase, claims.OnReference},
		{"23.1/9.8 = 2.36 times less", claim{claims.Fold, claims.TimesLess, "2.4", -1}, "9.8", "23.1", claims.Reproduces, claims.OnRatio},
		{"both losses: (2.96-1.50)/1.50 = 97.3 %", claim{claims.Percent, claims.Change, "97", 1}, "-2.96", "-1.50", claims.Reproduces, claims.OnReference},
		{"no percentage across zero", claim{claims.Percent, claims.Change, "50", 1}, "1.2", "-0.8", claims.NotCheckable, ""},
		{"140 may stand for 135 to 145 only if its zero is rounding", claim{claims.Percent, claims.Change, "43", 1}, "140", "100", claims.NotCheckable, ""},
	}
	for _, test := range tests {
		a, b := arm(t, "A", test.a, "", 0, ""), arm(t, "B", test.b, "", 0, "")
		s := &claims.Statement{Kind: test.claim.kind, Form: test.claim.form, Own: true, Direction: test.claim.direction, Printed: test.claim.value,
			Value: num(t, test.claim.value), Pairs: []claims.Pair{{A: a, B: b}}}
		got := judgeOne(&claims.Study{Measures: []*claims.Measure{a, b}}, s)
		if got.Verdict != test.verdict || got.Base != test.base {
			t.Errorf("%s: %s %s of %s against %s is %q on base %q, want %q on %q (%s)", test.source, test.claim.value, test.claim.kind, test.a, test.b,
				got.Verdict, got.Base, test.verdict, test.base, got.Why)
		}
	}
}

// A pair that was only guessed must never accuse: whatever the figures, the
// verdict is at worst "not checkable".
func TestDoubtfulPairsNeverAccuse(t *testing.T) {
	for _, value := range []string{"5", "16", "19", "55", "119"} {
		for _, direction := range []claims.Direction{-1, 0, 1} {
			a, b := arm(t, "A", "702.3", "", 0, ""), arm(t, "B", "588.0", "", 0, "")
			s := &claims.Statement{Kind: claims.Percent, Form: claims.Change, Own: true, Direction: direction, Printed: value,
				Value: num(t, value), Pairs: []claims.Pair{{A: a, B: b, Tie: reading.Doubt{{Text: "guessed", Weight: reading.Wide}}}}}
			if got := judgeOne(&claims.Study{}, s); got.Verdict == claims.DoesNotReproduce {
				t.Errorf("%s %% on a guessed pair: %s, want no accusation", value, got.Verdict)
			}
		}
	}
}

// What rests on a doubted reading is a question, however far off the figures.
func TestDoubtIsNeverMoreThanAQuestion(t *testing.T) {
	build := func() *claims.Study {
		a, b := arm(t, "A", "702.3", "", 0, ""), arm(t, "B", "588.0", "", 0, "")
		return &claims.Study{Measures: []*claims.Measure{a, b}, Statements: []*claims.Statement{{Kind: claims.Percent, Form: claims.Change, Own: true, Direction: 1,
			Text: "A lasted 25 % longer", Printed: "25%", Value: num(t, "25"), Pairs: []claims.Pair{{A: a, B: b}}}}}
	}
	grades := func(study *claims.Study) (out []claims.Grade) {
		_, findings := Audit(study, catalog.Default())
		for _, f := range findings {
			out = append(out, f.Grade)
		}
		return out
	}
	if got := grades(build()); len(got) != 1 || got[0] != claims.AtOdds {
		t.Fatalf("25 %% of 702.3 and 588.0 gives %v, want one at odds", got)
	}
	statement := build()
	statement.Statements[0].Doubt.Add("two readers of the page differ", reading.Slight)
	measure := build()
	measure.Measures[1].Doubt.Add("the columns run together", reading.Slight)
	for what, study := range map[string]*claims.Study{"a doubted sentence": statement, "a doubted figure": measure} {
		for _, g := range grades(study) {
			if g == claims.AtOdds {
				t.Errorf("%s: at odds, want at most a query", what)
			}
		}
	}
}

// Wanted p values: R 4.2.2, pt() on the formulas of Welch 1947; the range of
// 0.23 (0.02) against 0.25 (0.02), n = 10, at the corners of the rounding.
func TestSignificanceVerdicts(t *testing.T) {
	named := func(ids ...string) claims.Design {
		var d claims.Design
		for _, id := range ids {
			d.Tests = append(d.Tests, claims.Fact{ID: "test:" + id})
		}
		return d
	}
	yes, no := true, false
	legend := &claims.Legend{SameMeans: claims.SameNotDifferent}
	tests := []struct {
		source  string
		a, b    [3]string // mean, SD, letters
		n       int
		kind    claims.Kind
		says    *bool
		p       string
		design  claims.Design
		verdict claims.Verdict
	}{
		{"Welch t = 2.2456, df 20.54, p = .0359", [3]string{"702.3", "106.8"}, [3]string{"588.0", "140.3"}, 12, claims.Significance, &yes, "", named("student-t"), claims.Reproduces},
		{"p = .0359, not above .05", [3]string{"702.3", "106.8"}, [3]string{"588.0", "140.3"}, 12, claims.NoDifference, &no, "", named("student-t"), claims.DoesNotReproduce},
		{"0.23 (0.02) and 0.25 (0.02): p from .0003 to .38 within rounding", [3]string{"0.23", "0.02"}, [3]string{"0.25", "0.02"}, 10, claims.Significance, &yes, "", named("student-t"), claims.NotCheckable},
		{"its own p says otherwise", [3]string{"702.3", "106.8"}, [3]string{"588.0", "140.3"}, 12, claims.Significance, &yes, "0.36", claims.Design{Alpha: claims.Fact{Value: extract.Number{Text: "0.05", Value: 0.05, Decimals: 2}}}, claims.DoesNotReproduce},
		{"a rank test cannot be brought back", [3]string{"702.3", "106.8"}, [3]string{"588.0", "140.3"}, 12, claims.NoDifference, &no, "", named("mann-whitney"), claims.NotCheckable},
		{"letters b and b beside a stated difference", [3]string{"702.3", "106.8", "b"}, [3]string{"588.0", "140.3", "b"}, 12, claims.Significance, &yes, "", named("student-t"), claims.DoesNotReproduce},
		{"letters a and b agree, the rank test cannot be brought back", [3]string{"702.3", "106.8", "a"}, [3]string{"588.0", "140.3", "b"}, 12, claims.Significance, &yes, "", named("mann-whitney"), claims.Agrees},
		{"letters a and b agree, and so does p = .0359", [3]string{"702.3", "106.8", "a"}, [3]string{"588.0", "140.3", "b"}, 12, claims.Significance, &yes, "", named("student-t"), claims.Reproduces},
	}
	for _, test := range tests {
		a, b := arm(t, "A", test.a[0], test.a[1], test.n, test.a[2]), arm(t, "B", test.b[0], test.b[1], test.n, test.b[2])
		a.Legend, b.Legend = legend, legend
		s := &claims.Statement{Kind: test.kind, Own: true, Significant: test.says, Pairs: []claims.Pair{{A: a, B: b}}}
		if test.p != "" {
			s.P = num(t, test.p)
		}
		study := &claims.Study{Design: test.design, Measures: []*claims.Measure{a, b}}
		if got := judgeOne(study, s); got.Verdict != test.verdict {
			t.Errorf("%s: %v against %v is %q, want %q (%s)", test.source, test.a, test.b, got.Verdict, test.verdict, got.Why)
		}
	}
}
