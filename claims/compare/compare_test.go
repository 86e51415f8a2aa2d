package compare

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/statement"
)

// invented makes an invented paper of two arms with time to fracture, and the
// conditions that the rules ask for.
func invented(name string, year int, temperature, a, sa, b, sb float64, n int) Paper {
	p := Paper{Schema: Schema, ID: name, File: name + ".xml", Authors: []string{name + ", P"}, Year: year,
		Arms: []Arm{{Name: "Kestrine", Class: []string{"heat-treated"}}, {Name: "Halyard"}},
		Facts: []Fact{{Field: "temperature", Value: temperature, Unit: "degC", Text: fmt.Sprintf("%g degC", temperature)}, {Field: "motion", Class: "static"},
			{Field: "angle", Value: 60, Text: "60 deg"}, {Field: "radius", Value: 5, Text: "5 mm"}, {Field: "kinematics", Class: "rotation"},
			{Field: "size", Value: 0.55, Text: "0.55 mm"}, {Field: "speed", Value: 300, Text: "300 rpm"}, {Field: "canal", Class: "steel"}}}
	for i, x := range [][2]float64{{a, sa}, {b, sb}} {
		p.Figures = append(p.Figures, Figure{ID: fmt.Sprintf("m%d", i+1), Arm: i, OutcomeID: "time-to-fracture", Outcome: "Time to fracture", Unit: "s", UnitID: "s",
			Text: fmt.Sprintf("%.1f", x[0]), Value: x[0], Decimals: 1, Kind: "sd", Spread: x[1], Printed: fmt.Sprint(x[1]), N: n, Place: fmt.Sprintf("table=1 row=%d col=2", i+2)})
	}
	return p
}

func four() []Paper {
	return []Paper{
		invented("Oakhollow", 2031, 35, 655.8, 84.9, 412.6, 61.3, 12),
		invented("Tamsin", 2032, 37, 570.4, 80.2, 388.0, 52.1, 12),
		invented("Corbett", 2033, 36, 811.5, 99.3, 455.9, 66.0, 12),
		invented("Brindley", 2034, 22, 1450.8, 140.2, 700.2, 80.4, 12),
	}
}

var pairOf = Query{Outcome: "time-to-fracture", Subject: "Kestrine", Against: "Halyard"}

func table(t *testing.T, papers []Paper, q Query) *Result {
	t.Helper()
	res, err := Table(papers, q, catalog.Default())
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestTable(t *testing.T) {
	res := table(t, four(), pairOf)
	if len(res.Strata) != 2 || len(res.Strata[0].Rows) != 3 || len(res.Strata[1].Rows) != 1 || len(res.Apart) != 0 {
		t.Fatalf("strata %+v, apart %d; want three papers at body temperature and one at room temperature", res.Strata, len(res.Apart))
	}
	// By hand: 655.8/412.6 and so on.
	for i, want := range []float64{1.5894, 1.4701, 1.7800} {
		r := res.Strata[0].Rows[i]
		if math.Abs(r.Ratio-want) > 5e-5 || r.Grade != Comparable {
			t.Errorf("line %d: ratio %.4f, %v (%v); want %.4f, comparable", i, r.Ratio, r.Grade, r.Reasons, want)
		}
	}
	// R 4.2: m <- log(655.8/412.6); va <- (84.9/655.8)^2/12; vb <- (61.3/412.6)^2/12;
	// df by Satterthwaite; exp(m + c(-1,1)*qt(.975,df)*sqrt(va+vb)) (arithmetic by hand).
	low, high := res.Strata[0].Rows[0].Interval()
	va, vb := 84.9*84.9/(655.8*655.8*12), 61.3*61.3/(412.6*412.6*12)
	half := 2.0760 * math.Sqrt(va+vb) // qt(.975, 21.6) = 2.0760
	if math.Abs(math.Log(low)-(math.Log(655.8/412.6)-half)) > 2e-4 || math.Abs(math.Log(high)-(math.Log(655.8/412.6)+half)) > 2e-4 {
		t.Errorf("interval %.4f to %.4f, want ln ratio ± %.4f", low, high, half)
	}
	if got := strings.Join(res.Strata[1].Apart, " "); !strings.Contains(got, "temperature (body there, room here)") {
		t.Errorf("the second stratum is apart for %q, want the temperature", got)
	}
	c := res.Strata[0].Combined
	if len(c) != 1 || c[0].Refused != "" || c[0].Papers != 3 {
		t.Fatalf("combined %+v, want three papers", c)
	}
	if c[0].Ratio < 1.47 || c[0].Ratio > 1.78 || c[0].Low >= c[0].Ratio || c[0].PredLow >= c[0].Low || c[0].PredHigh <= c[0].High {
		t.Errorf("combined %+v: want a ratio between those of the papers, wider interval for another paper", c[0])
	}
	if one := res.Strata[1].Combined; len(one) != 1 || !strings.Contains(one[0].Refused, "at least 3") {
		t.Errorf("one paper alone: %+v, want a refusal with the reason", one)
	}
}

// TestOrderOfPapers: the same papers in another order give the same result.
func TestOrderOfPapers(t *testing.T) {
	want, err := json.Marshal(view(table(t, four(), pairOf)))
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 1))
	for range 10 {
		papers := four()
		r.Shuffle(len(papers), func(i, j int) { papers[i], papers[j] = papers[j], papers[i] })
		got, err := json.Marshal(view(table(t, papers, pairOf)))
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != string(want) {
			t.Fatalf("another order of papers gave\n%s\nwant\n%s", got, want)
		}
	}
}

// view is what a reader sees of a result.
func view(res *Result) (out []string) {
	for _, s := range res.Strata {
		out = append(out, s.Name)
		for _, r := range s.Rows {
			out = append(out, fmt.Sprint(r.Paper.ID, r.Subject.Name, r.Reference.Name, r.Ratio, r.Grade, r.Reasons, r.Notes))
		}
		for _, c := range s.Combined {
			out = append(out, fmt.Sprint(c.Contrast, c.Refused, c.Ratio, c.Low, c.High))
		}
	}
	for _, r := range res.Apart {
		out = append(out, fmt.Sprint("apart", r.Paper.ID, r.Reasons))
	}
	return out
}

// TestTurnedRound: arms the other way round give the inverse ratio and the
// same strata.
func TestTurnedRound(t *testing.T) {
	a, b := table(t, four(), pairOf), table(t, four(), Query{Outcome: pairOf.Outcome, Subject: "Halyard", Against: "Kestrine"})
	for i := range a.Strata {
		for k, r := range a.Strata[i].Rows {
			if o := b.Strata[i].Rows[k]; math.Abs(r.Ratio*o.Ratio-1) > 1e-12 {
				t.Errorf("%s: ratios %v and %v are not inverse", r.Paper.ID, r.Ratio, o.Ratio)
			}
		}
	}
	if x, y := a.Strata[0].Combined[0], b.Strata[0].Combined[0]; math.Abs(x.Ratio*y.Ratio-1) > 1e-9 || math.Abs(x.Low*y.High-1) > 1e-9 {
		t.Errorf("combined %v and %v are not inverse", x, y)
	}
}

// TestRules changes one thing of one paper at a time.
func TestRules(t *testing.T) {
	drop := func(field string) func(*Paper) {
		return func(p *Paper) {
			p.Facts = slices.DeleteFunc(p.Facts, func(f Fact) bool { return f.Field == field })
		}
	}
	set := func(f Fact) func(*Paper) {
		return func(p *Paper) { drop(f.Field)(p); p.Facts = append(p.Facts, f) }
	}
	tests := []struct {
		name   string
		change func(*Paper)
		with   bool // stays in the stratum of the others
		grade  Grade
		reason string
	}{
		{"nothing", func(*Paper) {}, true, Comparable, ""},
		{"angle within the cut-off", set(Fact{Field: "angle", Value: 56, Text: "56 deg"}), true, Comparable, ""},
		{"another angle", set(Fact{Field: "angle", Value: 45, Text: "45 deg"}), false, Comparable, ""},
		{"dynamic", set(Fact{Field: "motion", Class: "dynamic"}), false, Comparable, ""},
		{"larger instrument", set(Fact{Field: "size", Value: 0.60, Text: "0.60 mm"}), false, Comparable, ""},
		{"silent on temperature", drop("temperature"), false, WithCaution, "taken as room, unverified"},
		{"silent on the angle", drop("angle"), false, WithCaution, "angle of curvature: not reported"},
		{"another speed", set(Fact{Field: "speed", Value: 500, Text: "500 rpm"}), true, WithCaution, "speed of rotation 500 rpm, others 300 rpm"},
		{"few specimens", func(p *Paper) { p.Figures[0].N = 8 }, true, WithCaution, "8, fewer than 10"},
		{"spread not stated", func(p *Paper) { p.Figures[0].Kind = "unstated" }, true, WithCaution, "kind of spread not stated"},
		{"doubtful reading", func(p *Paper) { p.Figures[1].Doubt = "two rows merged" }, true, WithCaution, "two rows merged"},
		{"run-outs", func(p *Paper) { p.Facts = append(p.Facts, Fact{Field: "run-outs"}) }, false, NotComparable, "lower bound"},
		{"medians", func(p *Paper) {
			p.Figures[0].Median, p.Figures[1].Median, p.Figures[0].Kind, p.Figures[1].Kind = true, true, "iqr", "iqr"
		}, false, NotComparable, "median"},
		{"adjusted means", func(p *Paper) { p.Figures[0].Adjusted, p.Figures[1].Adjusted = true, true }, false, NotComparable, "adjusted"},
		{"arms at two temperatures", func(p *Paper) { p.Figures[0].ArmText = "Kestrine at 20 °C" }, false, NotComparable, "temperature differs between the two arms"},
	}
	for _, tt := range tests {
		papers := four()[:3]
		tt.change(&papers[1])
		res := table(t, papers, pairOf)
		var row *Row
		with := false
		for _, s := range res.Strata {
			for _, r := range s.Rows {
				if r.Paper.ID == "Tamsin" {
					row, with = r, len(s.Rows) == 3
				}
			}
		}
		for _, r := range res.Apart {
			if r.Paper.ID == "Tamsin" {
				row = r
			}
		}
		if row == nil {
			t.Errorf("%s: the paper has no line (%+v)", tt.name, res.Left)
			continue
		}
		if with != tt.with || row.Grade != tt.grade || !strings.Contains(strings.Join(row.Reasons, "; "), tt.reason) {
			t.Errorf("%s: with the others %v, %v, reasons %q; want %v, %v, %q", tt.name, with, row.Grade, row.Reasons, tt.with, tt.grade, tt.reason)
		}
		if tt.grade != Comparable && len(res.Strata) > 0 && res.Strata[0].Combined[0].Refused == "" {
			t.Errorf("%s: combined all the same", tt.name)
		}
	}
}

func TestOptions(t *testing.T) {
	papers := four()[:3]
	papers[0].Figures[0].Kind, papers[0].Figures[1].Kind = "unstated", "unstated"
	q := pairOf
	q.Caution = true
	if c := table(t, papers, q).Strata[0].Combined[0]; c.Refused == "" {
		t.Error("an unlabelled ± entered without being asked for")
	}
	q.Unstated = "sd"
	sd := table(t, papers, q).Strata[0].Combined[0]
	q.Unstated = "se"
	se := table(t, papers, q).Strata[0].Combined[0]
	if sd.Refused != "" || se.Refused != "" || sd.Papers != 3 || !(se.Tau2 < sd.Tau2 || se.High-se.Low != sd.High-sd.Low) {
		t.Errorf("± as SD %+v, as SE %+v: want two different results of three papers", sd, se)
	}
	papers = four()[:3]
	papers[0].Findings = []Finding{{Check: "percent-base", Grade: "at-odds"}}
	res := table(t, papers, Query{Outcome: pairOf.Outcome, Subject: "Kestrine", Against: "Halyard", Options: Options{Unopposed: true}})
	if len(res.Left) != 1 || !strings.Contains(res.Left[0].Why, "at odds") {
		t.Errorf("left %+v, want the paper with something at odds", res.Left)
	}
}

// TestUnits: a paper in minutes has the same ratio and is shown in seconds.
func TestUnits(t *testing.T) {
	papers := four()[:3]
	for i := range papers[2].Figures {
		f := &papers[2].Figures[i]
		f.Value, f.Spread, f.Unit, f.UnitID = f.Value/60, f.Spread/60, "min", "min"
	}
	res := table(t, papers, pairOf)
	r := res.Strata[0].Rows[2]
	if res.Unit != "s" || math.Abs(r.Subject.Mean-811.5) > 1e-9 || math.Abs(r.Subject.SD-99.3) > 1e-9 || math.Abs(r.Ratio-811.5/455.9) > 1e-12 {
		t.Errorf("in %s: %v (%v), ratio %v; want 811.5 (99.3) s", res.Unit, r.Subject.Mean, r.Subject.SD, r.Ratio)
	}
	papers[1].Figures[0].UnitID, papers[1].Figures[1].UnitID = "N", "N"
	if res := table(t, papers, pairOf); len(res.Left) != 1 || !strings.Contains(res.Left[0].Why, "does not convert") {
		t.Errorf("left %+v, want the paper in newtons", res.Left)
	}
}

// TestSharedComparator: two arms of one paper against its one comparator enter
// as one effect of that paper.
func TestSharedComparator(t *testing.T) {
	papers := four()[:3]
	p := &papers[0]
	p.Arms = append(p.Arms, Arm{Name: "Kestrine Plus", Class: []string{"heat-treated"}})
	f := p.Figures[0]
	f.ID, f.Arm, f.Text, f.Value = "m3", 2, "700.0", 700
	p.Figures = append(p.Figures, f)
	res := table(t, papers, Query{Outcome: pairOf.Outcome, Subject: "heat-treated", Against: "Halyard"})
	c := res.Strata[0].Combined[0]
	if len(res.Strata[0].Rows) != 4 || c.Papers != 3 || c.Refused != "" {
		t.Errorf("%d lines, combined %+v; want four lines of three papers", len(res.Strata[0].Rows), c)
	}
}

func TestParseWhere(t *testing.T) {
	cat := catalog.Default()
	for _, ok := range []string{"temperature=body", "temperature=35", "angle=60", "motion=static", "year=2015..", "condition=3 months", "state=new"} {
		if _, err := ParseWhere(ok, cat); err != nil {
			t.Errorf("ParseWhere(%q): %v", ok, err)
		}
	}
	for bad, want := range map[string]string{"temperature": "write it as", "temperature=warm": "one of room, body", "angle=wide": "is not a number", "moon=full": "the fields are"} {
		if _, err := ParseWhere(bad, cat); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("ParseWhere(%q) = %v, want %q", bad, err, want)
		}
	}
	q := pairOf
	q.Where = []Where{{"temperature", "room"}}
	if res := table(t, four(), q); res.Rows() != 1 || len(res.Left) != 3 {
		t.Errorf("at room temperature: %d lines, want 1", res.Rows())
	}
}

func TestWeigh(t *testing.T) {
	tests := []struct {
		says string
		want []Relation // of the papers 2031, 2032, 2033, 2034
	}{
		{"Kestrine lasted 58.9% longer than Halyard", []Relation{Bears, Inside, Inside, SameWay}}, // 58.94 %; 47.0; 78.0; 107.2
		{"Halyard lasted 58.9% longer than Kestrine", []Relation{OtherWay, OtherWay, OtherWay, OtherWay}},
		{"Kestrine lasted longer than Halyard", []Relation{SameWay, SameWay, SameWay, SameWay}},
		{"Compared with Halyard, Kestrine had a time to fracture 47% longer", []Relation{Inside, Bears, SameWay, SameWay}},
		{"There was no significant difference in time to fracture between Kestrine and Halyard", []Relation{OtherWay, OtherWay, OtherWay, OtherWay}},
	}
	for _, tt := range tests {
		s := statement.ReadText(tt.says, catalog.Default())
		if len(s) == 0 {
			t.Errorf("%q is not read", tt.says)
			continue
		}
		shelves, err := Weigh(s[0], four(), Options{}, catalog.Default())
		if err != nil || len(shelves) != 1 {
			t.Errorf("%q: %d outcomes, %v; want one", tt.says, len(shelves), err)
			continue
		}
		var got []Relation
		for _, x := range shelves[0].Shown {
			got = append(got, x.Relation)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%q: %v, want %v\n%s", tt.says, got, tt.want, shelves[0].Verdict)
		}
		if !strings.HasPrefix(shelves[0].Verdict, "4 papers of the library measured time to fracture on") {
			t.Errorf("%q: verdict %q", tt.says, shelves[0].Verdict)
		}
	}
	if got, err := Weigh(&claims.Statement{Text: "Osprane beats Brindle"}, four(), Options{}, catalog.Default()); err != nil || got != nil {
		t.Errorf("arms that no paper has: %v, %v", got, err)
	}
}

func TestSizes(t *testing.T) {
	for text, want := range map[string]float64{ // tip/100 + 5 × taper, by hand
		"instruments of size 25 and taper .06": 0.55, "size 25/.06": 0.55, "#30, 4% taper": 0.50, "size 25, 0.06 taper": 0.55, "size 25, taper of .08": 0.65,
		"size 25 specimens": 0, "a size of 600": 0, "version no. 25": 0,
	} {
		got := 0.0
		for _, m := range sizeAndTaper.FindAllStringSubmatch(strings.ToLower(text), -1) {
			if f, ok := sizeFact(m, ""); ok {
				got = f.Value
			}
		}
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: diameter %.2f, want %.2f", text, got, want)
		}
	}
}

// TestSpreadTrips: a panic beside the caller reaches the caller, who can
// recover it; in a goroutine of its own it would end the program.
func TestSpreadTrips(t *testing.T) {
	defer func() {
		if p := recover(); p != "a made-up fault" {
			t.Errorf("recovered %v, want the panic of f", p)
		}
	}()
	spread(100, func(i int) {
		if i == 42 {
			panic("a made-up fault")
		}
	})
	t.Error("spread returned")
}
