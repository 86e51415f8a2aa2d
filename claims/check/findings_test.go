package check

import (
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// find runs all checks over a study of measures and statements and returns
// what the named check found.
func find(study *claims.Study, name string) []claims.Finding {
	for i, m := range study.Measures {
		if m.ID == "" {
			m.ID = "m" + string(rune('1'+i))
		}
	}
	cat := catalog.Default()
	judgements := Judge(study, cat)
	var out []claims.Finding
	for _, f := range Run(study, judgements, cat) {
		if f.Check == name {
			out = append(out, f)
		}
	}
	return out
}

// want fails unless exactly one finding came, of that grade, that names all
// the figures.
func want(t *testing.T, what string, got []claims.Finding, grade claims.Grade, figures ...string) {
	t.Helper()
	if len(got) != 1 {
		t.Errorf("%s: %d findings, want 1: %v", what, len(got), messages(got))
		return
	}
	if got[0].Grade != grade {
		t.Errorf("%s: grade %s, want %s (%s)", what, got[0].Grade, grade, got[0].Message)
	}
	for _, f := range figures {
		if !strings.Contains(got[0].Message+" "+got[0].Printed+" "+got[0].Recomputed, f) {
			t.Errorf("%s: %q does not name %s", what, got[0].Message, f)
		}
	}
}

func none(t *testing.T, what string, got []claims.Finding) {
	t.Helper()
	if len(got) != 0 {
		t.Errorf("%s: want no finding, got %v", what, messages(got))
	}
}

func messages(findings []claims.Finding) []string {
	var out []string
	for _, f := range findings {
		out = append(out, string(f.Grade)+": "+f.Message)
	}
	return out
}

// as turns a measure into another outcome, in the same arm.
func as(t testing.TB, m *claims.Measure, id, unit, unitID, mean, sd string) *claims.Measure {
	o := *m
	o.ID = ""
	o.OutcomeID, o.Outcome, o.Unit, o.UnitID = id, id, unit, unitID
	o.Mean = claims.Quantity{Number: num(t, mean), Origin: claims.Printed}
	o.Spread = claims.Spread{Kind: claims.SD, Value: num(t, sd), Text: sd}
	return &o
}

func named(ids ...string) []claims.Fact {
	var out []claims.Fact
	for _, id := range ids {
		out = append(out, claims.Fact{ID: "test:" + id})
	}
	return out
}

func fact(t testing.TB, id, value string) claims.Fact {
	return claims.Fact{ID: id, Value: num(t, value), Text: value}
}

func TestCyclesAgainstTime(t *testing.T) {
	// 247.6 s × 250 rpm / 60 = 1031.7; 300.0 × 250 / 60 = 1250.
	build := func(cycles string) *claims.Study {
		a, b := arm(t, "A", "247.6", "30.1", 10, ""), arm(t, "B", "300.0", "31.0", 10, "")
		return &claims.Study{
			Measures: []*claims.Measure{a, as(t, a, cyclesID, "", "", cycles, "125"), b, as(t, b, cyclesID, "", "", "1250", "129")},
			Design:   claims.Design{Facts: []claims.Fact{fact(t, "speed", "250")}},
		}
	}
	want(t, "871 cycles in 247.6 s at 250 rpm", find(build("871"), "cycles-time"), claims.AtOdds, "871", "1032", "247.6", "250")
	none(t, "1032 cycles in 247.6 s at 250 rpm", find(build("1032"), "cycles-time"))

	slow := build("871")
	slow.Measures[0].Arm.Class = []string{"reciprocating"}
	none(t, "a reciprocating arm counts cycles in three ways", find(slow, "cycles-time"))
}

func TestOddSpeed(t *testing.T) {
	// 100 s and 500 cycles: 300 rpm; 120 s at 300 rpm: 600 cycles.
	build := func(cycles string) *claims.Study {
		study := &claims.Study{}
		for i, f := range [][2]string{{"100.0", "500"}, {"120.0", cycles}, {"140.0", "700"}} {
			a := arm(t, string(rune('A'+i)), f[0], "9.0", 10, "")
			study.Measures = append(study.Measures, a, as(t, a, cyclesID, "", "", f[1], "45"))
		}
		return study
	}
	want(t, "one arm of three at another speed", find(build("700"), "cycles-time"), claims.Query, "700", "350", "300", "600")
	none(t, "all at 300 rpm", find(build("600"), "cycles-time"))
}

func TestRepeatedFigures(t *testing.T) {
	build := func(mean, sd string) *claims.Study {
		return &claims.Study{Measures: []*claims.Measure{arm(t, "A", "702.3", "106.8", 12, ""), arm(t, "B", mean, sd, 12, ""), arm(t, "C", "588.0", "140.3", 12, "")}}
	}
	want(t, "one row twice", find(build("702.3", "106.8"), "repeated-figures"), claims.Query, "702.3", "106.8")
	none(t, "another spread", find(build("702.3", "99.1"), "repeated-figures"))
}

func TestSwappedMeanAndSpread(t *testing.T) {
	build := func(mean, sd string) *claims.Study {
		return &claims.Study{Measures: []*claims.Measure{arm(t, "A", "702.3", "106.8", 12, ""), arm(t, "B", mean, sd, 12, ""), arm(t, "C", "588.0", "140.3", 12, "")}}
	}
	want(t, "83.1 (394.9) among means of 588 and 702", find(build("83.1", "394.9"), "mean-sd-swapped"), claims.Query, "83.1", "394.9")
	none(t, "394.9 (83.1)", find(build("394.9", "83.1"), "mean-sd-swapped"))
	none(t, "a skewed arm", find(build("60.7", "76.4"), "mean-sd-swapped"))
}

func TestToughnessBound(t *testing.T) {
	// 1.88 N·cm × 340° × π/180 = 11.16 N·cm·rad.
	build := func(w string) *claims.Study {
		a := arm(t, "A", "1.88", "0.12", 10, "")
		a.OutcomeID, a.Outcome, a.Unit, a.UnitID = torqueID, "torque", "N·cm", "N.cm"
		b := arm(t, "B", "1.50", "0.12", 10, "")
		b.OutcomeID, b.Outcome, b.Unit, b.UnitID = torqueID, "torque", "N·cm", "N.cm"
		return &claims.Study{Measures: []*claims.Measure{
			a, as(t, a, angleID, "°", "deg", "340", "30"), as(t, a, toughnessID, "N·cm·rad", "N.cm.rad", w, "1.1"),
			b, as(t, b, angleID, "°", "deg", "400", "30"), as(t, b, toughnessID, "N·cm·rad", "N.cm.rad", "6.90", "1.1"),
		}}
	}
	want(t, "toughness above torque times angle", find(build("15.46"), "toughness-bound"), claims.AtOdds, "15.46", "11.16")
	none(t, "toughness within torque times angle", find(build("7.40"), "toughness-bound"))
}

func TestGranularity(t *testing.T) {
	// n = 12: 8443/12 = 703.583, so 703.58 can be, 703.55 cannot (Brown & Heathers 2017, arithmetic by hand).
	build := func(mean string) *claims.Study {
		a := arm(t, "A", mean, "99.1", 12, "")
		a.Stepped = true
		return &claims.Study{Measures: []*claims.Measure{a}}
	}
	want(t, "703.55 of 12 whole seconds", find(build("703.55"), "mean-granularity"), claims.Query, "703.55", "703.50", "703.58")
	none(t, "703.58 of 12 whole seconds", find(build("703.58"), "mean-granularity"))
	free := build("703.55")
	free.Measures[0].Stepped = false
	none(t, "a measured mean", find(free, "mean-granularity"))
}

func TestSpreadAgainstRange(t *testing.T) {
	// n = 10, range 100: SD from 100/√18 = 23.6 to 52.7.
	build := func(mean, sd string) *claims.Study {
		a := arm(t, "A", mean, sd, 10, "")
		a.Min, a.Max, a.RangeWhy = num(t, "400"), num(t, "500"), "heading"
		return &claims.Study{Measures: []*claims.Measure{a}}
	}
	want(t, "SD 12 over a range of 100", find(build("450.0", "12.0"), "spread-range"), claims.AtOdds, "12.0", "23.57")
	none(t, "SD 30 over a range of 100", find(build("450.0", "30.0"), "spread-range"))
	want(t, "a mean outside its range", find(build("520.0", "30.0"), "spread-range"), claims.AtOdds, "520.0", "500")
}

func TestTextAgainstTable(t *testing.T) {
	build := func(text string) *claims.Study {
		a := arm(t, "A", "682.3", "84.4", 12, "")
		p := as(t, a, timeID, "s", "s", text, "84.4")
		p.Place = extract.Place{Section: extract.Abstract, Par: 2}
		return &claims.Study{Measures: []*claims.Measure{a, p}}
	}
	want(t, "627.7 in the abstract, 682.3 in the table", find(build("627.7"), "text-table"), claims.AtOdds, "627.7", "682.3")
	none(t, "the same figure", find(build("682.3"), "text-table"))
	none(t, "the same figure with fewer digits", find(build("682"), "text-table"))

	slip := build("682.3")
	slip.Measures[0].Unit, slip.Measures[0].UnitID = "N·cm", "N.cm"
	slip.Measures[1].Unit, slip.Measures[1].UnitID = "gf·cm", "gf.cm"
	want(t, "one numeral with two units of torque: 682.3 N·cm = 69576 gf·cm", find(slip, "text-table"), claims.AtOdds, "682.3", "69575")
}

func TestNArithmetic(t *testing.T) {
	build := func(total string) *claims.Study {
		return &claims.Study{Design: claims.Design{Total: []claims.Fact{fact(t, "total", total)}, Groups: []claims.Fact{fact(t, "groups", "4")}, PerGroup: []claims.Fact{fact(t, "n", "10")}}}
	}
	want(t, "50 in total, 4 groups of 10", find(build("50"), "n-arithmetic"), claims.AtOdds, "50", "40", "10")
	none(t, "40 in total", find(build("40"), "n-arithmetic"))
	none(t, "80 in total: two tests a group", find(build("80"), "n-arithmetic"))
}

func TestChangesAdd(t *testing.T) {
	row := func(name, ab, bc, ac string) []*claims.Measure {
		a := arm(t, name, ab, "0.5", 11, "")
		a.Condition = "T1–T2"
		b := as(t, a, a.OutcomeID, "mm", "mm", bc, "0.5")
		b.Condition, b.Outcome, b.OutcomeID, b.Unit, b.UnitID = "T2–T3", a.Outcome, a.OutcomeID, a.Unit, a.UnitID
		c := as(t, a, a.OutcomeID, "mm", "mm", ac, "0.5")
		c.Condition, c.Outcome, c.OutcomeID, c.Unit, c.UnitID = "T1–T3", a.Outcome, a.OutcomeID, a.Unit, a.UnitID
		return []*claims.Measure{a, b, c}
	}
	good := [][]*claims.Measure{row("A", "1.20", "0.90", "2.10"), row("B", "0.40", "-0.10", "0.30"), row("C", "2.00", "1.00", "3.00")}
	study := &claims.Study{}
	for _, r := range good {
		study.Measures = append(study.Measures, r...)
	}
	none(t, "three rows that add up", find(study, "change-sum"))
	study.Measures = append(study.Measures, row("D", "1.20", "0.90", "2.60")...)
	want(t, "1.20 and 0.90 beside 2.60", find(study, "change-sum"), claims.AtOdds, "1.20", "0.90", "2.10", "2.60")
}

func TestLettersAgainstFigures(t *testing.T) {
	legend := &claims.Legend{SameMeans: claims.SameNotDifferent}
	build := func(letters ...string) *claims.Study {
		study := &claims.Study{Design: claims.Design{Tests: named("anova", "tukey")}}
		for i, f := range [][2]string{{"693", "56"}, {"456", "35"}, {"700", "50"}} {
			m := arm(t, string(rune('A'+i)), f[0], f[1], 10, letters[i])
			m.Legend = legend
			study.Measures = append(study.Measures, m)
		}
		return study
	}
	// Welch t = 237/√(56²/10 + 35²/10) = 11.35, p below 1e-8.
	want(t, "693 (56) and 456 (35) share a letter", find(build("a", "a", "b"), "letters-figures")[:1], claims.AtOdds, "693", "456")
	none(t, "letters that follow the figures", find(build("a", "b", "a"), "letters-figures"))
}

func TestDegreesOfFreedom(t *testing.T) {
	build := func(df2 string) *claims.Study {
		study := &claims.Study{Design: claims.Design{Tests: named("anova", "tukey")}}
		for i, f := range [][2]string{{"1.20", "0.15"}, {"1.45", "0.18"}, {"1.10", "0.12"}} {
			study.Measures = append(study.Measures, arm(t, string(rune('A'+i)), f[0], f[1], 10, ""))
		}
		yes := true
		study.Statements = []*claims.Statement{{Kind: claims.TestStatistic, Own: true, Outcome: "time", OutcomeID: timeID, Printed: "F(2, " + df2 + ") = 14.1",
			Text: "F", Significant: &yes, Stat: &claims.Statistic{Name: "F", Value: num(t, "14.1"), DF: []extract.Number{num(t, "2"), num(t, df2)}}}}
		return study
	}
	// Three groups of ten: 2 and 27 degrees of freedom.
	want(t, "F(2, 21)", find(build("21"), "degrees-of-freedom"), claims.AtOdds, "21", "27")
	none(t, "F(2, 27)", find(build("27"), "degrees-of-freedom"))
}

func TestStandardErrorTakenForSD(t *testing.T) {
	// F from 1.20 (0.15), 1.45 (0.18), 1.10 (0.12), n = 10 as SDs is 14.07; as
	// standard errors it is 1.407 (SSW grows tenfold).
	study := &claims.Study{Design: claims.Design{Tests: named("anova")}}
	for i, f := range [][2]string{{"1.20", "0.15"}, {"1.45", "0.18"}, {"1.10", "0.12"}} {
		study.Measures = append(study.Measures, arm(t, string(rune('A'+i)), f[0], f[1], 10, ""))
	}
	study.Statements = []*claims.Statement{{Kind: claims.TestStatistic, Own: true, OutcomeID: timeID, Printed: "F(2, 27) = 1.41",
		Text: "F", Stat: &claims.Statistic{Name: "F", Value: num(t, "1.41"), DF: []extract.Number{num(t, "2"), num(t, "27")}}}}
	want(t, "F = 1.41 printed, 14.07 recomputed", find(study, "test-statistic"), claims.AtOdds, "1.41", "14.07", "standard errors")
}

func TestPNeverZero(t *testing.T) {
	build := func(p string) *claims.Study {
		yes := true
		return &claims.Study{Statements: []*claims.Statement{{Kind: claims.Significance, Own: true, Text: "differed", Significant: &yes, P: num(t, p)}}}
	}
	want(t, "p = 0.000", find(build("0.000"), "p-impossible"), claims.Query, "0.000", "0.0005")
	none(t, "p = 0.001", find(build("0.001"), "p-impossible"))
	none(t, "p < 0.001", find(build("<0.001"), "p-impossible"))
	want(t, "p = 1.2", find(build("1.2"), "p-impossible"), claims.Query, "1.2")
}

func TestDecreaseOverHundred(t *testing.T) {
	a, b := arm(t, "A", "250.4", "", 0, ""), arm(t, "B", "604.0", "", 0, "")
	study := &claims.Study{Measures: []*claims.Measure{a, b}, Statements: []*claims.Statement{{Kind: claims.Percent, Form: claims.Change, Own: true, Direction: -1,
		Text: "fell by 141 %", Printed: "141%", Value: num(t, "141"), Pairs: []claims.Pair{{A: a, B: b}}}}}
	// (250.4 - 604.0)/604.0 = -58.5 %.
	want(t, "a fall by 141 %", find(study, "decrease-over-100"), claims.AtOdds, "141", "58.5", "250.4", "604.0")
	none(t, "told once only", find(study, "percent-base"))
}

// Every check explains itself and names its source.
func TestChecksExplainThemselves(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range All {
		if k.Name == "" || k.Asks == "" || !strings.HasSuffix(k.Asks, "?") || k.Source == "" || k.Run == nil {
			t.Errorf("check %q lacks a name, a question, a source or its work", k.Name)
		}
		if seen[k.Name] {
			t.Errorf("two checks are called %s", k.Name)
		}
		seen[k.Name] = true
	}
}
