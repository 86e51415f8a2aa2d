package infer

import (
	"math"
	"math/rand/v2"
	"testing"

	"probity/claims/interval"
)

// near reports whether two figures agree to one part in 1e9.
func near(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

func randomArms(rng *rand.Rand, k int) []Arm {
	arms := make([]Arm, k)
	for i := range arms {
		arms[i] = Arm{Mean: 50 + 30*rng.NormFloat64(), SD: 1 + 20*rng.Float64(), N: 2 + rng.IntN(30)}
	}
	return arms
}

func TestLawsOfTests(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 400 {
		arms := randomArms(rng, 2)
		a, b := arms[0], arms[1]
		for name, test := range map[string]func(a, b Arm) (TTest, error){"Student": Student, "Welch": Welch} {
			forth, err := test(a, b)
			if err != nil {
				t.Fatal(err)
			}
			back, err := test(b, a)
			if err != nil || forth.T != -back.T || !near(forth.P.Log10, back.P.Log10) {
				t.Fatalf("%s(%v, %v): swapping the arms gives %v and %v, %v", name, a, b, forth, back, err)
			}
			for _, unit := range []float64{1e-290, 1e-3, 7, 1e290} {
				scaled, err := test(Arm{Mean: a.Mean * unit, SD: a.SD * unit, N: a.N}, Arm{Mean: b.Mean * unit, SD: b.SD * unit, N: b.N})
				if err != nil || !near(scaled.T, forth.T) || !near(scaled.P.Log10, forth.P.Log10) {
					t.Fatalf("%s(%v, %v) in a unit %v: %v, %v, want %v", name, a, b, unit, scaled, err, forth)
				}
			}
			ci, err := forth.Interval(0.95)
			if err != nil || !ci.Contains(forth.Diff) || ci.Contains(0) != (forth.P.Value > 0.05) {
				t.Fatalf("%s(%v, %v): interval %v, %v beside %v", name, a, b, ci, err, forth)
			}
			if sum := forth.Greater().Value + back.Greater().Value; !near(sum, 1) {
				t.Fatalf("%s(%v, %v): one-sided p of both directions add up to %v", name, a, b, sum)
			}
		}
		student, _ := Student(a, b)
		welch, _ := Welch(a, b)
		anova, err := OneWay(arms)
		if err != nil || !near(anova.F, student.T*student.T) || !near(anova.P.Log10, student.P.Log10) {
			t.Fatalf("OneWay(%v) = %v, %v beside t = %v", arms, anova, err, student)
		}
		unequal, err := WelchAnova(arms)
		if err != nil || !near(unequal.F, welch.T*welch.T) || !near(unequal.DF2, welch.DF) {
			t.Fatalf("WelchAnova(%v) = %v, %v beside %v", arms, unequal, err, welch)
		}
		tukey, err := TukeyKramer(arms)
		if err != nil || !near(tukey[0].P.Log10, student.P.Log10) {
			t.Fatalf("TukeyKramer(%v) = %v, %v beside %v", arms, tukey, err, student)
		}
		howell, err := GamesHowell(arms)
		if err != nil || !near(howell[0].P.Log10, welch.P.Log10) {
			t.Fatalf("GamesHowell(%v) = %v, %v beside %v", arms, howell, err, welch)
		}
		dunnett, err := Dunnett(arms, 1)
		if err != nil || !near(dunnett[0].P.Log10, student.P.Log10) {
			t.Fatalf("Dunnett(%v) = %v, %v beside %v", arms, dunnett, err, student)
		}
	}
}

// More comparisons never make a p smaller; a control saves some of them.
func TestLawsOfManyGroups(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 60 {
		arms := randomArms(rng, 3+rng.IntN(5))
		tukey, err := TukeyKramer(arms)
		if err != nil {
			t.Fatal(err)
		}
		dunnett, err := Dunnett(arms, 0)
		if err != nil {
			t.Fatal(err)
		}
		raw := make([]float64, len(tukey))
		for i, p := range tukey {
			raw[i] = p.Unadjusted().Value
			ci, err := p.Interval(0.95)
			if err != nil || !ci.Contains(p.Diff) || ci.Contains(0) != (p.P.Value > 0.05) {
				t.Fatalf("pair %v of %v: interval %v, %v", p, arms, ci, err)
			}
		}
		bonferroni, err := Bonferroni(raw)
		if err != nil {
			t.Fatal(err)
		}
		holm, err := Holm(raw)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range tukey {
			if p.P.Value < raw[i]*(1-1e-9) || p.P.Value > bonferroni[i]*(1+1e-9) || holm[i] < raw[i] || holm[i] > bonferroni[i] {
				t.Fatalf("pair %v of %v: unadjusted %v, Tukey %v, Holm %v, Bonferroni %v", p, arms, raw[i], p.P.Value, holm[i], bonferroni[i])
			}
			if p.I != 0 {
				continue
			}
			for _, d := range dunnett {
				if d.I == p.J && (d.P.Value < raw[i]*(1-1e-9) || d.P.Value > p.P.Value*(1+1e-9)) {
					t.Fatalf("pair %v of %v: unadjusted %v, Dunnett %v, Tukey %v", p, arms, raw[i], d.P.Value, p.P.Value)
				}
			}
		}
	}
}

func box(a Arm, half float64) ArmBox {
	return ArmBox{
		Arm:  a,
		Mean: interval.Interval{Low: a.Mean - half, High: a.Mean + half},
		SD:   interval.Interval{Low: math.Max(0, a.SD-half), High: a.SD + half},
	}
}

// No point of the box gives a p outside the range, and a wider box never a
// narrower range: what fits goes on fitting.
func TestLawsOfRounding(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	inside := func(i interval.Interval) float64 { return i.Low + rng.Float64()*i.Width() }
	holds := func(outer, inner Range) bool {
		const slack = 1e-9
		return outer.Low.Log10 <= inner.Low.Log10+slack && outer.High.Log10 >= inner.High.Log10-slack &&
			outer.Statistic.Low <= inner.Statistic.Low*(1+slack) && outer.Statistic.High >= inner.Statistic.High*(1-slack)
	}
	for range 150 {
		arms := randomArms(rng, 2+rng.IntN(4))
		half := 4 * rng.Float64()
		boxes, wider := make([]ArmBox, len(arms)), make([]ArmBox, len(arms))
		for i, a := range arms {
			boxes[i], wider[i] = box(a, half), box(a, 1.5*half)
		}
		ranges := map[string]func([]ArmBox) (Range, error){
			"Student": func(b []ArmBox) (Range, error) { return StudentRange(b[0], b[1]) },
			"Welch":   func(b []ArmBox) (Range, error) { return WelchRange(b[0], b[1]) },
			"Anova":   AnovaRange,
			"Tukey":   func(b []ArmBox) (Range, error) { return TukeyRange(b, 0, 1) },
		}
		for name, over := range ranges {
			narrow, err := over(boxes)
			if err != nil {
				t.Fatal(err)
			}
			wide, err := over(wider)
			if err != nil || !holds(wide, narrow) {
				t.Fatalf("%s of %v ± %v: %+v, widened by half %+v, %v", name, arms, half, narrow, wide, err)
			}
			if p := narrow.Point.Log10; p < narrow.Low.Log10-1e-9 || p > narrow.High.Log10+1e-9 {
				t.Fatalf("%s of %v ± %v: printed figures give %v outside %+v", name, arms, half, p, narrow)
			}
			for range 20 {
				points := make([]ArmBox, len(boxes))
				for i, b := range boxes {
					points[i] = interval.ExactBox(Arm{Mean: inside(b.Mean), SD: inside(b.SD), N: b.Arm.N})
				}
				one, err := over(points)
				if err != nil || !holds(narrow, one) {
					t.Fatalf("%s of %v ± %v: %v gives %+v, %v, outside %+v", name, arms, half, points, one, err, narrow)
				}
			}
		}
	}
}

// Letters built from pairs say those pairs again, and neither convention is
// taken for the other.
func TestLawsOfLetters(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 400 {
		k := 2 + rng.IntN(9)
		var pairs []Couple
		for i := range k {
			for j := i + 1; j < k; j++ {
				if rng.Float64() < 0.4 {
					pairs = append(pairs, Couple{i, j})
				}
			}
		}
		letters, err := Letters(k, pairs)
		if err != nil {
			t.Fatal(err)
		}
		d, err := CheckLetters(letters, pairs, SameIsNotDifferent)
		if err != nil || !d.Consistent {
			t.Fatalf("Letters(%d, %v) = %q: %+v, %v", k, pairs, letters, d, err)
		}
		claimed, err := Claimed(letters, SameIsNotDifferent)
		if err != nil || len(claimed) != len(pairs) {
			t.Fatalf("Claimed(%q) = %v, %v, want %v", letters, claimed, err, pairs)
		}
		other, err := CheckLetters(letters, pairs, SameIsDifferent)
		if err != nil || other.Consistent != (len(other.Shared)+len(other.Unshared) == 0) || other.Consistent {
			t.Fatalf("CheckLetters(%q, %v, SameIsDifferent) = %+v, %v: every pair is turned round", letters, pairs, other, err)
		}
	}
	// From means with one n and one SD, letters run without a break.
	for range 40 {
		k := 3 + rng.IntN(6)
		arms := make([]Arm, k)
		means := make([]interval.Interval, k)
		for i := range arms {
			arms[i] = Arm{Mean: 20 * rng.Float64(), SD: 4, N: 10}
			means[i] = interval.Point(arms[i].Mean)
		}
		list, err := TukeyKramer(arms)
		if err != nil {
			t.Fatal(err)
		}
		letters, err := Letters(k, SignificantPairs(list, 0.05))
		if err != nil {
			t.Fatal(err)
		}
		runs, err := Runs(letters, means)
		if err != nil || broken(runs) != 0 {
			t.Fatalf("Runs(%q, %v) = %v, %v", letters, means, runs, err)
		}
		missing, err := MissingSeparation(letters, means, SameIsNotDifferent)
		if err != nil || missing != nil {
			t.Fatalf("MissingSeparation(%q, %v) = %v, %v", letters, means, missing, err)
		}
	}
}

// Data on a scale never fail the tests of granularity and bounds.
func TestLawsOfGranularity(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 300 {
		n := 2 + rng.IntN(20)
		lo, hi, sum, squares := 5.0, 1.0, 0.0, 0.0
		for range n {
			x := float64(1 + rng.IntN(5))
			lo, hi, sum, squares = math.Min(lo, x), math.Max(hi, x), sum+x, squares+x*x
		}
		size := float64(n)
		m := sum / size
		sd := math.Sqrt(math.Max(0, squares-sum*m) / (size - 1))
		mean, err := interval.Of(math.Round(m*100)/100, 2)
		if err != nil {
			t.Fatal(err)
		}
		spread, err := interval.Of(math.Round(sd*100)/100, 2)
		if err != nil {
			t.Fatal(err)
		}
		if g, err := GranularityOfMean(mean, Grain{N: n}); err != nil || !g.Possible {
			t.Fatalf("GranularityOfMean(%v, n = %d) = %+v, %v", mean.Value(), n, g, err)
		}
		if g, err := GranularityOfSD(mean, spread, n, Scale{1, 5}); err != nil || !g.Possible || !g.OnScale {
			t.Fatalf("GranularityOfSD(%v, %v, n = %d) = %+v, %v", mean.Value(), spread.Value(), n, g, err)
		}
		b, err := BoundSD(m, lo, hi, n)
		if err != nil || sd > b.Max+1e-9 || b.Max > b.BhatiaDavis+1e-9 || sd > b.RangeMax+1e-9 || sd < b.RangeMin-1e-9 {
			t.Fatalf("BoundSD(%v, %v, %v, %d) = %+v, %v beside SD %v", m, lo, hi, n, b, err, sd)
		}
	}
}

func TestExtremes(t *testing.T) {
	two := Arm{Mean: 5, SD: 1, N: 2}
	tests := []struct {
		source string
		got    func() (float64, error)
		want   float64
	}{
		{"by hand: equal means", func() (float64, error) { x, err := Welch(two, two); return x.P.Value, err }, 1},
		{"by hand: equal means", func() (float64, error) { x, err := OneWay([]Arm{two, two, two}); return x.P.Value, err }, 1},
		{"by hand: one SD of zero leaves the df of the other", func() (float64, error) {
			x, err := Welch(Arm{Mean: 1, SD: 0, N: 9}, Arm{Mean: 2, SD: 1, N: 5})
			return x.DF, err
		}, 4},
		{"R 4.2.2, (log(2) + pt(50, 1e6, lower.tail = FALSE, log.p = TRUE))/log(10)", func() (float64, error) { p, err := TwoSidedT(50, 1e6); return p.Log10, err }, -543.987307514807},
		{"by hand: q = 0", func() (float64, error) { p, err := StudentizedRange(0, 60, 100); return p.Value, err }, 1},
		{"by hand: 1/sqrt(6) of C(4, 2) pairs: 2/6", func() (float64, error) { p, err := SmallestMannWhitneyP(2, 2); return p.Value, err }, 1. / 3},
		{"by hand: Cauchy, 1/π atan(1/t) = 1/(π t) for t = 1e200", func() (float64, error) { p, err := UpperT(1e200, 1); return p.Log10, err }, -200 - math.Log10(math.Pi)},
		{"by hand: F with 2 and 2 df is 1/(1 + F)", func() (float64, error) { p, err := UpperF(1e300, 2, 2); return p.Log10, err }, -300},
		{"by hand: chi-squared with 2 df is exp(-x/2)", func() (float64, error) { p, err := UpperChiSquared(1e5, 2); return p.Log10, err }, -5e4 / math.Ln10},
		{"by hand: means at 1e300 and SDs at 1e299: t = 10/sqrt(2/10) × 0.5", func() (float64, error) {
			x, err := Student(Arm{Mean: 1e300, SD: 1e299, N: 10}, Arm{Mean: 0.5e300, SD: 1e299, N: 10})
			return x.T, err
		}, 5 / math.Sqrt(0.2)},
		{"by hand: the same at 1e-300", func() (float64, error) {
			x, err := Welch(Arm{Mean: 1e-300, SD: 1e-301, N: 10}, Arm{Mean: 0.5e-300, SD: 1e-301, N: 10})
			return x.T, err
		}, 5 / math.Sqrt(0.2)},
	}
	for _, test := range tests {
		if got, err := test.got(); err != nil || !near(got, test.want) {
			t.Errorf("%s: %v, %v, want %v", test.source, got, err, test.want)
		}
	}
	sixty := make([]Arm, 60)
	boxes := make([]ArmBox, 60)
	for i := range sixty {
		sixty[i] = Arm{Mean: float64(i % 7), SD: 1 + float64(i%5), N: 10}
		boxes[i] = box(sixty[i], 0.05)
	}
	list, err := TukeyKramer(sixty)
	if err != nil || len(list) != 1770 {
		t.Errorf("TukeyKramer of 60 groups: %d pairs, %v", len(list), err)
	}
	exact, err := OneWay(sixty)
	over, err2 := AnovaRange(boxes)
	if err != nil || err2 != nil || !over.Statistic.Contains(exact.F) {
		t.Errorf("AnovaRange of 60 groups = %+v, %v, want F = %v inside", over, err2, exact.F)
	}
	if r, err := StudentRange(box(Arm{Mean: 5, SD: 0, N: 5}, 0), box(Arm{Mean: 4, SD: 0, N: 5}, 0)); err != nil || r.High.Value != 0 || !math.IsInf(r.Low.Log10, -1) {
		t.Errorf("StudentRange without any spread = %+v, %v, want p = 0", r, err)
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := Arm{Mean: 1, SD: 1, N: 5}
	for _, bad := range []Arm{
		{}, {Mean: nan, SD: 1, N: 5}, {Mean: inf, SD: 1, N: 5}, {Mean: 1, SD: nan, N: 5},
		{Mean: 1, SD: inf, N: 5}, {Mean: 1, SD: -1, N: 5}, {Mean: 1, SD: 1, N: 1}, {Mean: 1, SD: 1, N: -3},
	} {
		three := []Arm{good, good, bad}
		boxes := []ArmBox{interval.ExactBox(good), interval.ExactBox(bad)}
		for name, err := range map[string]error{
			"Student":         failed(Student(good, bad)),
			"Welch":           failed(Welch(bad, good)),
			"Paired":          failed(Paired(good, bad, 0.5)),
			"OneWay":          failed(OneWay(three)),
			"WelchAnova":      failed(WelchAnova(three)),
			"TukeyKramer":     failed(TukeyKramer(three)),
			"GamesHowell":     failed(GamesHowell(three)),
			"Dunnett":         failed(Dunnett(three, 0)),
			"Bartlett":        failed(Bartlett(three)),
			"FMax":            failed(FMax(three)),
			"EquivalentMeans": failed(EquivalentMeans(good, bad, interval.Interval{Low: -1, High: 1})),
			"EquivalentRatio": failed(EquivalentRatio(good, bad, interval.Interval{Low: 0.8, High: 1.25})),
			"StudentRange":    failed(StudentRange(boxes[0], boxes[1])),
			"WelchRange":      failed(WelchRange(boxes[0], boxes[1])),
			"AnovaRange":      failed(AnovaRange(boxes)),
			"TukeyRange":      failed(TukeyRange(boxes, 0, 1)),
		} {
			if err == nil {
				t.Errorf("%s with %+v: no error", name, bad)
			}
		}
	}
	still := Arm{Mean: 1, SD: 0, N: 5}
	for name, err := range map[string]error{
		"t without spread":             failed(Welch(still, Arm{Mean: 2, SD: 0, N: 5})),
		"F without spread":             failed(OneWay([]Arm{still, still})),
		"q without spread":             failed(TukeyKramer([]Arm{still, still})),
		"Games-Howell without spread":  failed(GamesHowell([]Arm{still, still, good})),
		"Dunnett without spread":       failed(Dunnett([]Arm{still, still}, 0)),
		"weight without spread":        failed(WelchAnova([]Arm{still, good})),
		"log of no SD":                 failed(Bartlett([]Arm{still, good})),
		"one group":                    failed(OneWay([]Arm{good})),
		"paired with two n":            failed(Paired(good, Arm{Mean: 1, SD: 1, N: 6}, 0)),
		"r above 1":                    failed(Paired(good, good, 1.1)),
		"r of 1 and equal SDs":         failed(Paired(good, good, 1)),
		"no such control":              failed(Dunnett([]Arm{good, good}, 2)),
		"means too far apart":          failed(Welch(Arm{Mean: 1.7e308, SD: 1, N: 5}, Arm{Mean: -1.7e308, SD: 1, N: 5})),
		"t of NaN":                     failed(TwoSidedT(nan, 5)),
		"df of zero":                   failed(UpperT(1, 0)),
		"df of NaN":                    failed(UpperT(1, nan)),
		"negative F":                   failed(UpperF(-1, 2, 3)),
		"infinite df1":                 failed(UpperF(1, inf, 3)),
		"negative chi-squared":         failed(UpperChiSquared(-1, 3)),
		"infinite z":                   failed(TwoSidedZ(inf)),
		"z of NaN":                     failed(UpperZ(nan)),
		"U beyond n1 n2":               failedZ(MannWhitneyZ(101, 10, 10, true)),
		"no group":                     failed(SmallestMannWhitneyP(0, 3)),
		"alpha of zero":                failed(TCritical(0, 5)),
		"alpha of one":                 failed(RangeCritical(1, 3, 5)),
		"range of one group":           failed(StudentizedRange(3, 1, 5)),
		"range of 201 groups":          failed(StudentizedRange(3, 201, 5)),
		"negative q":                   failed(StudentizedRange(-1, 3, 5)),
		"Fmax of NaN":                  failed(FMaxUpper(nan, 3, 5)),
		"no p to adjust":               failed(Holm(nil)),
		"p of 2":                       failed(Bonferroni([]float64{2})),
		"empty margin":                 failed(EquivalentMeans(good, good, interval.Interval{Low: 1, High: 1})),
		"negative margin of a ratio":   failed(EquivalentRatio(good, good, interval.Interval{Low: -1, High: 1})),
		"pair beyond the groups":       failed(TukeyRange([]ArmBox{interval.ExactBox(good), interval.ExactBox(good)}, 0, 2)),
		"mean outside its range":       failed(BoundSD(6, 1, 5, 5)),
		"range upside down":            failed(BoundSD(3, 5, 1, 5)),
		"n of one between bounds":      failed(BoundSD(3, 1, 5, 1)),
		"mean not known":               failed(GranularityOfMean(interval.Printed{}, Grain{N: 5})),
		"no values to average":         failed(GranularityOfMean(mustParse(t, "1.0"), Grain{})),
		"SD of one value":              failed(GranularityOfSD(mustParse(t, "1.0"), mustParse(t, "1.0"), 1, Scale{})),
		"scale upside down":            failed(GranularityOfSD(mustParse(t, "1.0"), mustParse(t, "1.0"), 5, Scale{5, 1})),
		"letters without a convention": failed(CheckLetters([]string{"a", "b"}, nil, 0)),
		"letters of one group":         failed(CheckLetters([]string{"a"}, nil, SameIsDifferent)),
		"pair beyond the letters":      failed(CheckLetters([]string{"a", "b"}, []Couple{{0, 5}}, SameIsDifferent)),
		"65 groups of letters":         failed(Letters(65, nil)),
		"letters without means":        failed(Runs([]string{"a", "b"}, nil)),
		"impossible p":                 failed(ParseP("p = 1.2")),
		"p without a sign":             failed(ParseP("p .05")),
		"p that is no number":          failed(ParseP("p = ns")),
		"unknown p":                    failed(PEqual(interval.Printed{})),
		"alpha of a verdict":           failed(Range{}.Against(PrintedP{}, 0)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func failed[T any](_ T, err error) error      { return err }
func failedZ(_ float64, _ P, err error) error { return err }
