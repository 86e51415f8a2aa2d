package pool

import (
	"math"
	"math/rand/v2"
	"testing"

	"probity/claims/interval"
)

var methods = []Method{CommonEffect, DerSimonianLaird, REML, PauleMandel}

func near(a, b, within float64) bool {
	return math.Abs(a-b) <= within*math.Max(1e-300, math.Max(math.Abs(a), math.Abs(b)))
}

func TestLawsOfPooling(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		effects := make([]Effect, 3+rng.IntN(12))
		low, high := math.Inf(1), math.Inf(-1)
		for i := range effects {
			effects[i] = Effect{Value: rng.NormFloat64(), Var: 0.01 + rng.Float64()}
			low, high = math.Min(low, effects[i].Value), math.Max(high, effects[i].Value)
		}
		for _, m := range methods {
			r, err := Pool(effects, m)
			if err != nil {
				t.Fatal(err)
			}
			if r.Estimate < low || r.Estimate > high {
				t.Fatalf("%v of %v = %v outside its effects", m, effects, r.Estimate)
			}
			// The order is of no account, signs turn together, a unit cancels.
			turned, moved, scaled := make([]Effect, len(effects)), make([]Effect, len(effects)), make([]Effect, len(effects))
			const unit = 1e120
			for i, e := range effects {
				turned[len(effects)-1-i] = Effect{Value: -e.Value, Var: e.Var}
				moved[i] = Effect{Value: e.Value + 100, Var: e.Var}
				scaled[i] = Effect{Value: e.Value * unit, Var: e.Var * unit * unit}
			}
			back, err := Fit(turned, m)
			if err != nil || !near(back.Estimate, -r.Estimate, 1e-7) || !near(back.SE, r.SE, 1e-7) || !near(back.Tau2+1, r.Tau2+1, 1e-7) {
				t.Fatalf("%v of %v: %+v, turned %+v, %v", m, effects, r, back, err)
			}
			far, err := Fit(moved, m)
			if err != nil || !near(far.Estimate-100, r.Estimate, 1e-6) && math.Abs(far.Estimate-100-r.Estimate) > 1e-9 || !near(far.Tau2+1, r.Tau2+1, 1e-7) {
				t.Fatalf("%v of %v: %+v, moved %+v, %v", m, effects, r, far, err)
			}
			large, err := Fit(scaled, m)
			if err != nil || !near(large.Estimate/unit, r.Estimate, 1e-9) || !near(large.SE/unit, r.SE, 1e-9) {
				t.Fatalf("%v of %v: %+v, scaled %+v, %v", m, effects, r, large, err)
			}
			ci, err := r.Interval(0.95)
			if err != nil || !ci.Contains(r.Estimate) || ci.Contains(0) != (r.P() > 0.05) {
				t.Fatalf("%v of %v: %v, %v beside p = %v", m, effects, ci, err, r.P())
			}
			pi, err := r.Predict(PredictNormal, 0.95)
			if err != nil || !pi.Covers(ci) {
				t.Fatalf("%v of %v: prediction %v, %v within %v", m, effects, pi, err, ci)
			}
			hk, err := r.IntervalHK(0.95)
			wide, err2 := r.IntervalTruncatedHK(0.95)
			if err != nil || err2 != nil || !wide.Covers(hk) {
				t.Fatalf("%v of %v: %v within %v, %v, %v", m, effects, wide, hk, err, err2)
			}
		}
		// The REML τ² is a peak: no other value is more likely.
		s := scaled(effects)
		best := s.likelihood(s.reml())
		for i := range 60 {
			if l := s.likelihood(math.Pow(10, -6+0.12*float64(i))); l > best+1e-9 {
				t.Fatalf("REML of %v: likelihood %v, and %v elsewhere", effects, best, l)
			}
		}
	}
}

func TestMerge(t *testing.T) {
	c := interval.Arm{Mean: 588, SD: 140.3, N: 12}
	shared, err := SharedLogRatio(c)
	if err != nil {
		t.Fatal(err)
	}
	two := []Effect{{Value: 0.2, Var: 0.01, Paper: "a"}, {Value: 0.4, Var: 0.012, Paper: "a"}}
	free, err := Merge(two, func(i, j int) float64 { return 0 })
	if err != nil {
		t.Fatal(err)
	}
	tied, err := Merge(two, func(i, j int) float64 { return shared })
	if err != nil || tied.Var <= free.Var || tied.Paper != "a" {
		t.Errorf("Merge with covariance %v = %+v, %v: it must know less than %+v", shared, tied, err, free)
	}
	plain, err := Fit(two, CommonEffect)
	if err != nil || !near(plain.Estimate, free.Value, 1e-12) || !near(plain.SE*plain.SE, free.Var, 1e-12) {
		t.Errorf("Merge without covariance = %+v, want the common effect %+v", free, plain)
	}
}

func TestExtremes(t *testing.T) {
	same := []Effect{{Value: 2, Var: 1}, {Value: 2, Var: 1}, {Value: 2, Var: 1}}
	for _, m := range methods {
		r, err := Pool(same, m)
		if err != nil || r.Estimate != 2 || r.Tau2 != 0 || r.Q != 0 || r.SEHK != 0 {
			t.Errorf("%v of equal effects = %+v, %v", m, r, err)
		}
		if p, err := r.PHK(); err == nil {
			t.Errorf("%v of equal effects: p = %v by Hartung and Knapp, want an error", m, p)
		}
		if i2, err := r.I2(); err != nil || i2 != 0 {
			t.Errorf("%v of equal effects: I² = %v, %v", m, i2, err)
		}
		for _, unit := range []float64{1e-150, 1e150} {
			far := []Effect{{Value: unit, Var: unit * unit}, {Value: 3 * unit, Var: unit * unit}, {Value: 5 * unit, Var: unit * unit}}
			r, err := Pool(far, m)
			if err != nil || !near(r.Estimate, 3*unit, 1e-12) {
				t.Errorf("%v in a unit of %v = %+v, %v", m, unit, r, err)
			}
		}
	}
	sixty := make([]Effect, 60)
	for i := range sixty {
		sixty[i] = Effect{Value: float64(i % 5), Var: 1e-8}
	}
	if r, err := Pool(sixty, REML); err != nil || !near(r.Tau2, 120./59, 1e-6) {
		t.Errorf("REML of 60 precise effects: τ² = %v, %v, want their variance 120/59 (by hand)", r.Tau2, err)
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := []Effect{{Value: 1, Var: 1}, {Value: 2, Var: 1}, {Value: 3, Var: 1}}
	one, err := Fit(good[:1], CommonEffect)
	if err != nil {
		t.Fatal(err)
	}
	two, err := Fit(good[:2], REML)
	if err != nil {
		t.Fatal(err)
	}
	for name, err := range map[string]error{
		"two papers":              failed(Pool(good[:2], REML)),
		"one paper twice":         failed(Pool([]Effect{{1, 1, "a"}, {2, 1, "b"}, {3, 1, "a"}}, REML)),
		"unknown method":          failed(Pool(good, 0)),
		"no effects":              failed(Fit(nil, CommonEffect)),
		"variance of one":         failed(Fit(good[:1], REML)),
		"variance of zero":        failed(Fit([]Effect{{Value: 1}}, CommonEffect)),
		"variance of NaN":         failed(Fit([]Effect{{Value: 1, Var: nan}}, CommonEffect)),
		"effect of Inf":           failed(Fit([]Effect{{Value: inf, Var: 1}}, CommonEffect)),
		"effects too far apart":   failed(Fit([]Effect{{Value: -1.5e308, Var: 1}, {Value: 1.5e308, Var: 1}}, CommonEffect)),
		"homogeneity of one":      failed(one.PQ()),
		"I² of one":               failed(one.I2()),
		"I² from τ² of one":       failed(one.I2Tau()),
		"HK interval of one":      failed(one.IntervalHK(0.95)),
		"HK p of one":             failed(one.PHK()),
		"prediction of two, HTS":  failed(two.Predict(PredictHTS, 0.95)),
		"unknown prediction":      failed(two.Predict(0, 0.95)),
		"level of one":            failed(two.Interval(1)),
		"comparator without mean": failed(SharedLogRatio(interval.Arm{Mean: 0, SD: 1, N: 5})),
		"comparator of one":       failed(SharedLogRatio(interval.Arm{Mean: 1, SD: 1, N: 1})),
		"difference of NaN":       failed(SharedStandardised(nan, 1, 5, 15)),
		"comparator beyond all":   failed(SharedStandardised(1, 1, 15, 15)),
		"covariance too large":    failed(Merge([]Effect{{1, 1, "a"}, {2, 1, "a"}}, func(i, j int) float64 { return 1 })),
		"merging two papers":      failed(Merge([]Effect{{1, 1, "a"}, {2, 1, "b"}}, func(i, j int) float64 { return 0 })),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func failed[T any](_ T, err error) error { return err }
