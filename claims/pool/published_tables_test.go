package pool

import (
	"math"
	"strings"
	"testing"

	"probity/claims/internal/published"
	"probity/claims/interval"
)

// datasets returns the effects of the pooling tables by the name of their set.
func datasets(t *testing.T) map[string][]Effect {
	t.Helper()
	sets := map[string][]Effect{}
	for _, r := range published.Read(t, "pool_data.csv") {
		sets[r["dataset"]] = append(sets[r["dataset"]], Effect{Value: r.Float(t, "yi"), Var: r.Float(t, "vi"), Paper: r["row"]})
	}
	return sets
}

func TestPublishedPool(t *testing.T) {
	sets := datasets(t)
	rows := published.Read(t, "pool.csv")
	for _, r := range rows {
		got, err := pooledFigure(t, sets[r["dataset"]], r["quantity"])
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

// TestPublishedMore runs the rows of pool_more.csv; wanted.R beside it says how
// they were made.
func TestPublishedMore(t *testing.T) {
	sets := datasets(t)
	rows := published.Read(t, "pool_more.csv")
	for _, r := range rows {
		got, err := moreFigure(t, r, sets)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func moreFigure(t *testing.T, r published.Row, sets map[string][]Effect) (float64, error) {
	switch r["fn"] {
	case "pool":
		return pooledFigure(t, sets[r["dataset"]], r["quantity"])
	case "merge":
		y, v := r.List(t, "y"), r.List(t, "v")
		effects := make([]Effect, len(y))
		for i := range y {
			effects[i] = Effect{Value: y[i], Var: v[i], Paper: "one"}
		}
		e, err := Merge(effects, func(i, j int) float64 { return r.Float(t, "cov") })
		return map[string]float64{"value": e.Value, "var": e.Var}[r["quantity"]], err
	case "shared_ratio":
		return SharedLogRatio(interval.Arm{Mean: r.Float(t, "m"), SD: r.Float(t, "sd"), N: int(r.Float(t, "n"))})
	case "shared_smd":
		y, n := r.List(t, "y"), r.List(t, "n")
		return SharedStandardised(y[0], y[1], int(n[0]), int(n[1]))
	}
	t.Errorf("%s: no test for %q", r["id"], r["fn"])
	return 0, nil
}

func pooledFigure(t *testing.T, effects []Effect, quantity string) (float64, error) {
	method, q, _ := strings.Cut(quantity, "_")
	m, ok := map[string]Method{"fe": CommonEffect, "dl": DerSimonianLaird, "reml": REML, "pm": PauleMandel}[method]
	if !ok {
		m, q = CommonEffect, quantity
	}
	r, err := Fit(effects, m)
	if err != nil {
		return 0, err
	}
	end := func(i interval.Interval, err error) (float64, error) {
		if strings.Contains(q, "lo") {
			return i.Low, err
		}
		return i.High, err
	}
	switch q {
	case "k":
		return float64(r.K), nil
	case "est":
		return r.Estimate, nil
	case "se":
		return r.SE, nil
	case "tau2":
		return r.Tau2, nil
	case "Q":
		return r.Q, nil
	case "Q_df":
		return r.DF, nil
	case "Q_p":
		return r.PQ()
	case "I2_Q":
		return r.I2()
	case "I2_tau2":
		return r.I2Tau()
	case "z_p":
		return r.P(), nil
	case "lo", "hi":
		return end(r.Interval(0.95))
	case "hk_se":
		return r.SEHK, nil
	case "hk_trunc_se":
		return r.TruncatedSEHK(), nil
	case "hk_p":
		return r.PHK()
	case "hk_lo", "hk_hi":
		return end(r.IntervalHK(0.95))
	case "pi_lo_z", "pi_hi_z":
		return end(r.Predict(PredictNormal, 0.95))
	case "pi_lo_hts", "pi_hi_hts":
		return end(r.Predict(PredictHTS, 0.95))
	case "pi_lo_hk", "pi_hi_hk":
		return end(r.Predict(PredictHK, 0.95))
	}
	t.Errorf("no test for %q", quantity)
	return 0, nil
}

// Worked examples that stand in print.
func TestPublishedExamples(t *testing.T) {
	six := make([]Effect, 6)
	for i, e := range [][2]float64{{.095, .033}, {.277, .031}, {.367, .050}, {.664, .011}, {.462, .043}, {.185, .023}} {
		six[i] = Effect{Value: e[0], Var: e[1]}
	}
	common, err := Pool(six, CommonEffect)
	if err != nil {
		t.Fatal(err)
	}
	random, err := Pool(six, DerSimonianLaird)
	if err != nil {
		t.Fatal(err)
	}
	i2, err := random.I2()
	if err != nil {
		t.Fatal(err)
	}
	three := []Effect{{Value: 0.17763, Var: 0.0817 * 0.0817}, {Value: 0.85745, Var: 0.04745 * 0.04745}, {Value: 0.35, Var: 0.01}}
	far, err := Pool(three, DerSimonianLaird)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		source            string
		got, want, within float64
	}{
		{`metafor 3.8-1, rma(yi, vi, method="FE") on the six effects of Borenstein et al. (2009), ch. 14, as printed (from memory)`, common.Estimate, 0.409258238, 5e-10},
		{"likewise: variance", common.SE * common.SE, 0.004163123, 5e-10},
		{"likewise: Q", common.Q, 11.743340509, 5e-10},
		{`metafor 3.8-1, rma(yi, vi, method="DL") on the same: T²`, random.Tau2, 0.036282468, 5e-10},
		{"likewise: estimate", random.Estimate, 0.357668384, 5e-10},
		{"likewise: variance", random.SE * random.SE, 0.010926904, 5e-10},
		{"likewise: I²", i2, 57.422677165, 5e-10},
		{"by hand: 100 (Q - 2)/Q of Q = 61.4", must(far.I2()), 96.7, 5e-2},
	}
	for _, test := range tests {
		if math.Abs(test.got-test.want) > test.within {
			t.Errorf("%s = %v, want %v", test.source, test.got, test.want)
		}
	}
	t.Logf("%d rows", len(tests))
}

func must(x float64, err error) float64 {
	if err != nil {
		panic(err)
	}
	return x
}

func BenchmarkREML20(b *testing.B) {
	effects := make([]Effect, 20)
	for i := range effects {
		x := float64(i)
		effects[i] = Effect{Value: 0.3 + 0.02*x*float64(i%3-1), Var: 0.01 + 0.002*x}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Fit(effects, REML); err != nil {
			b.Fatal(err)
		}
	}
}
