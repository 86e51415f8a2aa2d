package effect

import (
	"math"
	"math/rand/v2"
	"testing"

	"probity/claims/interval"
)

func near(a, b, within float64) bool {
	return a == b || math.Abs(a-b) <= within*math.Max(math.Abs(a), math.Abs(b))
}

func TestLawsOfTwoArms(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		a := Arm{Mean: 20 + 80*rng.Float64(), SD: 0.5 + 12*rng.Float64(), N: 2 + rng.IntN(30)}
		b := Arm{Mean: 20 + 80*rng.Float64(), SD: 0.5 + 12*rng.Float64(), N: 2 + rng.IntN(30)}
		for name, fn := range map[string]func(a, b Arm) (Ratio, error){"LogRatio": LogRatio, "LogRatioDelta": LogRatioDelta, "LogRatioSigma": LogRatioSigma} {
			forth, err := fn(a, b)
			if err != nil {
				t.Fatal(err)
			}
			back, err := fn(b, a)
			if err != nil || math.Abs(forth.Log+back.Log) > 1e-12 || !near(forth.Var, back.Var, 1e-12) || !near(forth.DF, back.DF, 1e-12) {
				t.Fatalf("%s(%v, %v): swapped %+v and %+v, %v", name, a, b, forth, back, err)
			}
			ci, err := forth.Interval(0.95)
			if err != nil || !ci.Contains(forth.Log) || !AsRatio(ci).Contains(forth.Ratio()) || !AsPercent(ci).Contains(forth.Percent()) {
				t.Fatalf("%s(%v, %v): %v, %v does not hold %v", name, a, b, ci, err, forth)
			}
			z, err := forth.NormalInterval(0.95)
			if err != nil || !ci.Covers(z) {
				t.Fatalf("%s(%v, %v): normal interval %v reaches beyond that of t, %v", name, a, b, z, ci)
			}
		}
		for _, unit := range []float64{1e-290, 0.01, 1e290} {
			sa, sb := Arm{Mean: a.Mean * unit, SD: a.SD * unit, N: a.N}, Arm{Mean: b.Mean * unit, SD: b.SD * unit, N: b.N}
			plain, _ := LogRatio(a, b)
			scaled, err := LogRatio(sa, sb)
			if err != nil || math.Abs(plain.Log-scaled.Log) > 1e-12 || !near(plain.Var, scaled.Var, 1e-9) {
				t.Fatalf("LogRatio in a unit %v: %+v, %v, want %+v", unit, scaled, err, plain)
			}
			d, err := Standardise(a, b)
			ds, err2 := Standardise(sa, sb)
			if err != nil || err2 != nil || !near(d.D, ds.D, 1e-9) {
				t.Fatalf("Standardise in a unit %v: %+v, %v, want %+v", unit, ds, err2, d)
			}
			f, err := Fieller(a, b, Separate, 0.95)
			fs, err2 := Fieller(sa, sb, Separate, 0.95)
			if err != nil || err2 != nil || !near(f.G, fs.G, 1e-9) || f.Kind != fs.Kind {
				t.Fatalf("Fieller in a unit %v: %+v, %v, want %+v", unit, fs, err2, f)
			}
		}
		for _, spread := range []Spread{Separate, Pooled, Normal} {
			f, err := Fieller(a, b, spread, 0.95)
			if err != nil {
				t.Fatal(err)
			}
			i, err := f.Interval()
			if (err == nil) != (f.Kind == Bounded) || err == nil && !i.Contains(f.Ratio) {
				t.Fatalf("Fieller(%v, %v, %v) = %+v: %v, %v", a, b, spread, f, i, err)
			}
			if f.Kind == TwoRays {
				if gap, err := f.Outside(); err != nil || gap.Contains(f.Ratio) {
					t.Fatalf("Fieller(%v, %v, %v) = %+v: gap %v, %v holds the ratio", a, b, spread, f, gap, err)
				}
			}
		}
		if diff, err := Subtract(a, b); err != nil {
			t.Fatal(err)
		} else if i, err := diff.Interval(0.99); err != nil || !i.Contains(diff.Value) {
			t.Fatalf("Subtract(%v, %v): %v, %v", a, b, i, err)
		}
		forth, _ := Standardise(a, b)
		back, _ := Standardise(b, a)
		if forth.D != -back.D {
			t.Fatalf("Standardise(%v, %v): %v and swapped %v", a, b, forth.D, back.D)
		}
		i, err := forth.NoncentralInterval(0.95)
		j, err2 := back.NoncentralInterval(0.95)
		if err != nil || err2 != nil || !i.Contains(forth.D) || math.Abs(i.Low+j.High) > 1e-9 || math.Abs(i.High+j.Low) > 1e-9 {
			t.Fatalf("NoncentralInterval of %+v: %v, swapped %v, %v, %v", forth, i, j, err, err2)
		}
		p, err := CommonLanguage(a, b)
		q, err2 := CommonLanguage(b, a)
		if err != nil || err2 != nil || math.Abs(p+q-1) > 1e-12 {
			t.Fatalf("CommonLanguage(%v, %v) = %v and swapped %v", a, b, p, q)
		}
	}
}

func TestLawsOfConversion(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		n, sd := 2+rng.IntN(60), 0.01+50*rng.Float64()
		se, err := SEFromSD(sd, n)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := SDFromSE(se, n); err != nil || !near(back, sd, 1e-12) {
			t.Fatalf("SD %v of n = %d to SE and back: %v, %v", sd, n, back, err)
		}
		half, err := HalfWidth(sd, n, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := SDFromInterval(Interval{Low: 7 - half, High: 7 + half}, n, 0.95); err != nil || !near(back, sd, 1e-9) {
			t.Fatalf("SD %v of n = %d to an interval and back: %v, %v", sd, n, back, err)
		}
		// Arms combined in one go or one after another are the same arm.
		arms := []Arm{{Mean: rng.NormFloat64(), SD: rng.Float64(), N: n}, {Mean: 9 * rng.NormFloat64(), SD: sd, N: 3}, {Mean: -2, SD: 1, N: 8}}
		all, err := Combine(arms)
		if err != nil {
			t.Fatal(err)
		}
		two, err := Combine(arms[:2])
		if err != nil {
			t.Fatal(err)
		}
		if steps, err := Combine([]Arm{two, arms[2]}); err != nil || !near(steps.SD, all.SD, 1e-9) || math.Abs(steps.Mean-all.Mean) > 1e-9 || steps.N != all.N {
			t.Fatalf("Combine(%v) = %v in one go and %v, %v in steps", arms, all, steps, err)
		}
		// A Weibull distribution gives back the moments it was made from.
		mean := 1 + 2000*rng.Float64()
		spread := mean * (0.02 + 1.5*rng.Float64())
		w, err := WeibullFromMoments(mean, spread)
		if err != nil || !near(w.Mean(), mean, 1e-9) || !near(w.SD(), spread, 1e-9) {
			t.Fatalf("WeibullFromMoments(%v, %v) = %+v, %v with mean %v, SD %v", mean, spread, w, err, w.Mean(), w.SD())
		}
		b1, err := w.Life(0.01)
		b10, err2 := w.Life(0.10)
		i, err3 := w.LifeInterval(0.10, n, 0.95)
		if err != nil || err2 != nil || err3 != nil || b1 >= b10 || !i.Contains(b10) {
			t.Fatalf("%+v: B1 %v, B10 %v in %v; %v, %v, %v", w, b1, b10, i, err, err2, err3)
		}
	}
}

// Two ways to one probability: points on the scale of ln s, and integration
// over the normal part.
func TestNoncentralTBothWays(t *testing.T) {
	for _, df := range []float64{3, 18, 200} {
		for _, ratio := range []float64{300, 399} {
			x := ratio * math.Sqrt(2*df)
			points := newNoncentralT(x, df)
			other := noncentralT{t: x, df: df}
			for _, share := range []float64{0.6, 0.9, 1, 1.3} {
				p, slope := points.cdf(share * x)
				q, slope2 := other.cdf(share * x)
				if math.Abs(p-q) > 1e-9 || math.Abs(slope-slope2) > 1e-9 {
					t.Errorf("t = %v, df = %v, ncp = %v: %v and %v, slopes %v and %v", x, df, share*x, p, q, slope, slope2)
				}
			}
		}
	}
}

func TestLawsOfPower(t *testing.T) {
	for _, n := range []int{2, 3, 5, 10, 30, 200} {
		last := 0.0
		for _, d := range []float64{0, 0.1, 0.5, 1, 2, 4} {
			p, err := Power(d, n, n, 0.05)
			if err != nil || p < last || d == 0 && math.Abs(p-0.05) > 1e-9 {
				t.Fatalf("Power(%v, %d, %d) = %v, %v after %v", d, n, n, p, err, last)
			}
			last = p
		}
		d, err := Detectable(n, n+1, 0.05, 0.8)
		if err != nil {
			t.Fatal(err)
		}
		if p, err := Power(d, n, n+1, 0.05); err != nil || math.Abs(p-0.8) > 1e-9 {
			t.Fatalf("Power(Detectable = %v) of n = %d is %v, %v", d, n, p, err)
		}
	}
}

func TestExtremes(t *testing.T) {
	still := Arm{Mean: 5, SD: 0, N: 2}
	tests := []struct {
		source string
		got    func() (float64, error)
		want   float64
		within float64
	}{
		{"by hand: equal means, ln 1", func() (float64, error) { r, err := LogRatio(still, still); return r.Log, err }, 0, 0},
		{"by hand: no spread, no variance", func() (float64, error) { r, err := LogRatio(still, Arm{Mean: 4, SD: 0, N: 2}); return r.Var, err }, 0, 0},
		{"by hand: d = 1e300 / 1e299", func() (float64, error) {
			s, err := Standardise(Arm{Mean: 1e300, SD: 1e299, N: 2}, Arm{Mean: 0, SD: 1e299, N: 2})
			return s.D, err
		}, 10, 1e-12},
		{"by hand: J(1e6) = 1 - 3/(4e6) - 7/(32e12) ...", func() (float64, error) { return HedgesJ(1e6) }, 0.99999924999978125, 1e-15},
		{"R 4.2.2, integrate() of pnorm(50*s - 50) over the density of s, 1e6 df", func() (float64, error) { return NoncentralT(50, 1e6, 50) }, 0.499995014262267, 1e-12},
		{"by hand: without df to speak of, Φ(2 - 1)", func() (float64, error) { return NoncentralT(2, 1e12, 1) }, 0.8413447460685429, 1e-9},
		{"by hand: P(T ≤ 0; ncp) = Φ(-ncp)", func() (float64, error) { return NoncentralT(0, 3, 1.5) }, 0.06680720126885807, 1e-12},
		{"by hand: shape 1 has CV 1", func() (float64, error) { return WeibullShape(1) }, 1, 1e-12},
		{"by hand: the SD of 1e300 and -1e300 is 1e300 √2", func() (float64, error) {
			a, err := Combine([]Arm{{Mean: 1e300, SD: 0, N: 1}, {Mean: -7e299, SD: 0, N: 1}})
			return a.SD, err
		}, 1.7e300 / math.Sqrt2, 1e-12},
	}
	for _, test := range tests {
		if got, err := test.got(); err != nil || !near(got, test.want, test.within) {
			t.Errorf("%s: %v, %v, want %v", test.source, got, err, test.want)
		}
	}
	// t far beyond the series of other programs: the interval still holds t.
	for _, x := range []float64{40, 177, 1e4, 1e7} {
		i, err := NoncentralityInterval(x, 18, 0.95)
		if err != nil || !i.Contains(x) {
			t.Errorf("NoncentralityInterval(%v, 18) = %v, %v", x, i, err)
		}
	}
	if r, err := LogRatio(still, still); err != nil {
		t.Error(err)
	} else if i, err := r.Interval(0.95); err == nil {
		t.Errorf("Interval without spread = %v, want an error", i)
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := Arm{Mean: 1, SD: 1, N: 5}
	for _, bad := range []Arm{
		{}, {Mean: nan, SD: 1, N: 5}, {Mean: inf, SD: 1, N: 5}, {Mean: 1, SD: nan, N: 5},
		{Mean: 1, SD: inf, N: 5}, {Mean: 1, SD: -1, N: 5}, {Mean: 1, SD: 1, N: 1},
	} {
		for name, err := range map[string]error{
			"LogRatio":       failed(LogRatio(good, bad)),
			"LogRatioDelta":  failed(LogRatioDelta(bad, good)),
			"LogRatioSigma":  failed(LogRatioSigma(bad, good)),
			"Fieller":        failed(Fieller(good, bad, Separate, 0.95)),
			"Subtract":       failed(Subtract(bad, good)),
			"CommonLanguage": failed(CommonLanguage(bad, good)),
			"Standardise":    failed(Standardise(good, bad)),
			"Glass":          failed(Glass(good, bad)),
			"Combine":        failed(Combine([]Arm{good, bad})),
		} {
			if err == nil {
				t.Errorf("%s with %+v: no error", name, bad)
			}
		}
	}
	still := Arm{Mean: 1, SD: 0, N: 5}
	d, err := Standardise(good, good)
	if err != nil {
		t.Fatal(err)
	}
	two, err := Standardise(Arm{Mean: 1, SD: 1, N: 2}, Arm{Mean: 2, SD: 1, N: 2})
	if err != nil {
		t.Fatal(err)
	}
	glass, err := Glass(good, Arm{Mean: 2, SD: 1, N: 2})
	if err != nil {
		t.Fatal(err)
	}
	w := Weibull{Shape: 2, Scale: 3}
	for name, err := range map[string]error{
		"ratio of a negative mean":    failed(LogRatio(Arm{Mean: -1, SD: 1, N: 5}, good)),
		"ratio of a zero mean":        failed(LogRatio(good, Arm{Mean: 0, SD: 1, N: 5})),
		"zero denominator":            failed(Fieller(good, Arm{Mean: 0, SD: 1, N: 5}, Separate, 0.95)),
		"unknown spread":              failed(Fieller(good, good, 0, 0.95)),
		"level of 95":                 failed(Fieller(good, good, Separate, 95)),
		"d without spread":            failed(Standardise(still, still)),
		"Glass without spread":        failed(Glass(good, still)),
		"overlap without spread":      failed(CommonLanguage(still, still)),
		"unknown variance":            failed(d.VarG(0)),
		"unbiased variance on 2 df":   failed(two.VarG(Unbiased)),
		"g on one df":                 failed(glass.G()),
		"interval of g on one df":     failed(glass.NoncentralIntervalG(0.95)),
		"level of zero":               failed(d.NoncentralInterval(0)),
		"J on one df":                 failed(HedgesJ(1)),
		"J without df":                failed(HedgesJ(nan)),
		"J approximated below one":    failed(HedgesJApprox(0.5)),
		"t of NaN":                    failed(NoncentralT(nan, 5, 1)),
		"df of zero":                  failed(NoncentralT(1, 0, 1)),
		"noncentrality of zero df":    failed(NoncentralityInterval(1, 0, 0.95)),
		"negative SD":                 failed(SEFromSD(-1, 5)),
		"SE of one value":             failed(SDFromSE(1, 1)),
		"interval upside down":        failed(SDFromInterval(Interval{Low: 2, High: 1}, 5, 0.95)),
		"interval of NaN":             failed(SDFromNormalInterval(Interval{Low: nan, High: 1}, 5, 0.95)),
		"half width of one value":     failed(HalfWidth(1, 1, 0.95)),
		"t of zero":                   failed(SDFromT(1, 0, 5, 5)),
		"no difference":               failed(SDFromT(0, 2, 5, 5)),
		"negative F":                  failed(SDFromF(1, -2, 5, 5)),
		"p of one":                    failed(SDFromP(1, 1, 5, 5)),
		"p of zero":                   failed(SDFromP(1, 0, 5, 5)),
		"nothing to combine":          failed(Combine(nil)),
		"a single value":              failed(Combine([]Arm{{Mean: 1, N: 1}})),
		"median alone":                failed(FiveNumbers{Median: 5, N: 9}.MeanWan()),
		"numbers out of order":        failed(FiveNumbers{Min: 6, Median: 5, Max: 9, HasRange: true, N: 9}.SDWan()),
		"numbers of nobody":           failed(FiveNumbers{Min: 1, Median: 5, Max: 9, HasRange: true}.MeanLuo()),
		"two estimates from one":      failed(FiveNumbers{Min: 1, Median: 5, Max: 9, HasRange: true, N: 9}.SDShi()),
		"median of NaN":               failed(FiveNumbers{Min: 1, Median: nan, Max: 9, HasRange: true, N: 9}.Skewed()),
		"range of one value":          failed(Xi(1)),
		"quartiles of one value":      failed(EtaApprox(1)),
		"Weibull of a negative mean":  failed(WeibullFromMoments(-1, 1)),
		"Weibull without spread":      failed(WeibullFromMoments(1, 0)),
		"Weibull of NaN":              failed(WeibullFromMoments(nan, 1)),
		"life of everybody":           failed(w.Life(1)),
		"life of no distribution":     failed(Weibull{}.Life(0.1)),
		"life interval of one value":  failed(w.LifeInterval(0.1, 1, 0.95)),
		"shape interval of one value": failed(w.ShapeInterval(1, 0.95)),
		"power of one specimen":       failed(Power(1, 1, 5, 0.05)),
		"power at no level":           failed(Power(1, 5, 5, 0)),
		"power of NaN":                failed(Power(nan, 5, 5, 0.05)),
		"power below the level":       failed(Detectable(5, 5, 0.05, 0.01)),
		"certain power":               failed(Detectable(5, 5, 0.05, 1)),
		"adjusted without raw":        failed(CheckAdjusted(nil, nil, nil)),
		"adjusted not known":          failed(CheckAdjusted(make([]interval.Printed, 1), make([]interval.Printed, 1), []int{5})),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, _, err := PoolSD([]Arm{{N: 1}, {N: 1}}); err == nil {
		t.Error("PoolSD of single values: no error")
	}
}

func failed[T any](_ T, err error) error { return err }
