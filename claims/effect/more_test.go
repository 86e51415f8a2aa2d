package effect

import (
	"errors"
	"math"
	"testing"

	"probity/claims/internal/published"
	"probity/claims/interval"
)

// TestPublishedMore runs the rows of effect_more.csv; wanted.R beside it says
// how they were made.
func TestPublishedMore(t *testing.T) {
	rows := published.Read(t, "effect_more.csv")
	for _, r := range rows {
		got, err := moreFigure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func moreFigure(t *testing.T, r published.Row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "nct":
		return NoncentralT(r.Float(t, "x"), r.Float(t, "df"), r.Float(t, "ncp"))
	case "power":
		return Power(r.Float(t, "x"), r.Int(t, "n1"), r.Int(t, "n2"), r.Float(t, "alpha"))
	case "detectable":
		return Detectable(r.Int(t, "n1"), r.Int(t, "n2"), r.Float(t, "alpha"), r.Float(t, "power"))
	case "life", "shape":
		w, err := WeibullFromMoments(r.Float(t, "m1"), r.Float(t, "sd1"))
		if err != nil {
			return 0, err
		}
		if r["fn"] == "shape" {
			i, err := w.ShapeInterval(r.Int(t, "n1"), 0.95)
			return end(q, i), err
		}
		if q == "life" {
			return w.Life(r.Float(t, "x"))
		}
		i, err := w.LifeInterval(r.Float(t, "x"), r.Int(t, "n1"), 0.95)
		return end(q, i), err
	}
	a, b := arms(t, r)
	switch r["fn"] {
	case "difference":
		d, err := Subtract(a, b)
		if err != nil {
			return 0, err
		}
		i, err := d.Interval(0.95)
		return end(q, i), err
	case "ratio_t":
		l, err := LogRatio(a, b)
		if q == "df" {
			return l.DF, err
		}
		i, err := l.Interval(0.95)
		return end(q, AsRatio(i)), err
	case "common_language":
		return CommonLanguage(a, b)
	case "sd_from_t":
		w, err := SDFromT(a.Mean-b.Mean, r.Float(t, "x"), a.N, b.N)
		return w.SD, err
	case "sd_from_f":
		w, err := SDFromF(a.Mean-b.Mean, r.Float(t, "x"), a.N, b.N)
		return w.SD, err
	}
	t.Errorf("%s: no test for %q", r["id"], r["fn"])
	return 0, errors.New("no test")
}

// Figures that stand in print.
func TestPublishedExamples(t *testing.T) {
	borenstein, err := Standardise(Arm{Mean: 103, SD: 5.5, N: 50}, Arm{Mean: 100, SD: 4.5, N: 50})
	if err != nil {
		t.Fatal(err)
	}
	g, err := borenstein.G()
	if err != nil {
		t.Fatal(err)
	}
	v, err := borenstein.VarG(Borenstein)
	if err != nil {
		t.Fatal(err)
	}
	j, err := HedgesJ(10)
	if err != nil {
		t.Fatal(err)
	}
	sd, err := SDFromInterval(Interval{Low: 30.0, High: 34.2}, 25, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	wan, err := FiveNumbers{Q1: 410, Median: 480, Q3: 590, HasQuartiles: true, N: 12}.MeanLuo()
	if err != nil {
		t.Fatal(err)
	}
	xi, err := Xi(50)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		source            string
		got, want, within float64
	}{
		{"Borenstein et al. (2009), ch. 4, p. 27: d", borenstein.D, 0.5970, 5e-5},
		{"Borenstein et al. (2009), ch. 4, p. 27: var d", borenstein.VarD(), 0.0418, 5e-5},
		{"Borenstein et al. (2009), ch. 4, p. 28: g", g, 0.5924, 5.1e-5},
		{"Borenstein et al. (2009), ch. 4, p. 28: var g", v, 0.0411, 5.1e-5},
		{"Hedges & Olkin (1985), table of J: df 10", j, 0.9228, 1e-4},
		{"Cochrane Handbook, ch. 6.5.2.2: √25 × (34.2 - 30.0)/4.128", sd, 5.09, 5e-3},
		{"Wan et al. (2014), table 1: ξ of n = 50", xi, 4.498, 5.1e-4},
		{"by hand, Luo et al. (2018): 0.7325 × 500 + 0.2675 × 480", wan, 494.65, 5e-3},
	}
	for _, test := range tests {
		if !(math.Abs(test.got-test.want) <= test.within) {
			t.Errorf("%s = %v, want %v", test.source, test.got, test.want)
		}
	}
	t.Logf("%d rows", len(tests))
}

func TestCheckAdjusted(t *testing.T) {
	tests := []struct {
		source        string
		raw, adjusted []string
		n             []int
		agree         bool
	}{
		{"by hand: 54.0/3 both", []string{"25.0", "18.0", "11.0"}, []string{"23.1", "18.4", "12.5"}, []int{10, 10, 10}, true},
		{"by hand: 18.0 and 18.2, ± 0.05 each", []string{"25.0", "18.0", "11.0"}, []string{"23.1", "18.4", "13.1"}, []int{10, 10, 10}, false},
		{"by hand: 18.0 and 18.1 touch within ± 0.05 each", []string{"25.0", "18.0", "11.0"}, []string{"23.1", "18.4", "12.8"}, []int{10, 10, 10}, true},
		{"by hand: (10×5 + 20×8)/30 = 7 and (10×6 + 20×7.5)/30 = 7", []string{"5.0", "8.0"}, []string{"6.0", "7.5"}, []int{10, 20}, true},
		{"by hand: the same means at equal n: 6.5 and 6.75", []string{"5.0", "8.0"}, []string{"6.0", "7.5"}, []int{10, 10}, false},
		{"by hand: whole figures, 6.5 and 7 touch within ± 0.5 each", []string{"5", "8"}, []string{"6", "8"}, []int{10, 10}, true},
		{"by hand: 1.5 and 2.75", []string{"1.00", "2.00"}, []string{"2.50", "3.00"}, []int{4, 4}, false},
		{"by hand: one arm, no adjustment", []string{"3.20"}, []string{"3.20"}, []int{12}, true},
	}
	printed := func(texts []string) []interval.Printed {
		list := make([]interval.Printed, len(texts))
		for i, s := range texts {
			p, err := interval.Parse(s)
			if err != nil {
				t.Fatal(err)
			}
			list[i] = p
		}
		return list
	}
	for _, test := range tests {
		g, err := CheckAdjusted(printed(test.raw), printed(test.adjusted), test.n)
		if err != nil || g.Agree != test.agree {
			t.Errorf("%s: CheckAdjusted(%v, %v, %v) = %+v, %v, want %v", test.source, test.raw, test.adjusted, test.n, g, err, test.agree)
		}
	}
}
