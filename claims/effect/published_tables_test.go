package effect

import (
	"math"
	"strings"
	"testing"

	"probity/claims/internal/published"
)

// end returns the end of an interval that a quantity "..._lo..." names.
func end(quantity string, i Interval) float64 {
	if strings.Contains(quantity, "lo") && !strings.Contains(quantity, "_hi") {
		return i.Low
	}
	return i.High
}

func TestPublishedRatio(t *testing.T) {
	rows := published.Read(t, "ratio.csv")
	for _, r := range rows {
		a, b := arms(t, r)
		q := r["quantity"]
		if r["fn"] == "fieller" {
			fiellerRow(t, r, a, b)
			continue
		}
		fn := LogRatio
		if strings.HasSuffix(q, "_delta") || strings.HasPrefix(q, "pct_delta") {
			fn = LogRatioDelta
		} else if strings.HasSuffix(q, "_sigma") {
			fn = LogRatioSigma
		}
		got, err := fn(a, b)
		switch q {
		case "lrr", "lrr_delta", "lrr_sigma":
			r.Want(t, got.Log, err)
		case "var", "var_delta", "var_sigma":
			r.Want(t, got.Var, err)
		case "se":
			r.Want(t, got.SE(), err)
		case "pct", "pct_delta":
			r.Want(t, got.Percent(), err)
		case "cvsqrtn1":
			r.Want(t, got.CVa, err)
		case "cvsqrtn2":
			r.Want(t, got.CVb, err)
		case "geary1", "geary2":
			g := got.GearyA
			if q == "geary2" {
				g = got.GearyB
			}
			if err == nil && r["expected"] == "undefined" {
				if !math.IsInf(g, 1) { // no spread: the mean is fixed without limit
					t.Errorf("%s = %v, want no number", r["id"], g)
				}
				continue
			}
			r.Want(t, g, err)
		default:
			ci, ciErr := got.NormalInterval(0.95)
			if err == nil {
				err = ciErr
			}
			if strings.HasPrefix(q, "pct") {
				ci = AsPercent(ci)
			}
			if strings.HasSuffix(q, "_lo") {
				r.Want(t, ci.Low, err)
			} else {
				r.Want(t, ci.High, err)
			}
		}
	}
	t.Logf("%d rows", len(rows))
}

func fiellerRow(t *testing.T, r published.Row, a, b Arm) {
	t.Helper()
	kind := map[string]Spread{"pooled": Pooled, "separate": Separate, "normal": Normal}[r["kind"]]
	f, err := Fieller(a, b, kind, r.Float(t, "level"))
	switch q := r["quantity"]; q {
	case "ratio":
		r.Want(t, f.Ratio, err)
	case "df":
		r.Want(t, f.DF, err)
	case "g":
		r.Want(t, f.G, err)
	case "set_kind":
		if f.Kind.String() != r["expected"] || err != nil {
			t.Errorf("%s = %v, %v, want %s", r["id"], f.Kind, err, r["expected"])
		}
	default:
		i, err := f.Interval()
		got := i.High
		if strings.HasSuffix(q, "lo") {
			got = i.Low
		}
		if strings.HasPrefix(q, "pct") {
			got = 100 * (got - 1)
		}
		r.Want(t, got, err)
	}
}

func TestPublishedStandardised(t *testing.T) {
	rows := published.Read(t, "smd.csv")
	for _, r := range rows {
		got, err := standardisedFigure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func standardisedFigure(t *testing.T, r published.Row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "hedges_j":
		if q == "J_exact" {
			return HedgesJ(r.Float(t, "df"))
		}
		return HedgesJApprox(r.Float(t, "df"))
	case "nct_ci":
		i, err := NoncentralityInterval(r.Float(t, "t"), r.Float(t, "df"), r.Float(t, "level"))
		return end(q, i), err
	}
	a, b := arms(t, r)
	s, err := Standardise(a, b)
	if strings.HasPrefix(q, "glass") {
		s, err = Glass(a, b)
	}
	if q == "df" { // also without spread
		return float64(a.N + b.N - 2), nil
	}
	if q == "sd_pooled" && err != nil && r["expected"] == "0" {
		return s.SD, nil
	}
	if err != nil {
		switch q { // neither needs a spread
		case "J_exact":
			return HedgesJ(float64(a.N + b.N - 2))
		case "J_approx":
			return HedgesJApprox(float64(a.N + b.N - 2))
		}
		return 0, err
	}
	switch q {
	case "sd_pooled":
		return s.SD, nil
	case "J_exact":
		return s.J, nil
	case "J_approx":
		return HedgesJApprox(s.DF)
	case "d", "glass_delta":
		return s.D, nil
	case "var_d":
		return s.VarD(), nil
	case "g_exact", "glass_g":
		return s.G()
	case "g_approx":
		j, err := HedgesJApprox(s.DF)
		return j * s.D, err
	case "var_g_LS", "glass_var_LS":
		return s.VarG(LargeSample)
	case "var_g_borenstein":
		return s.VarG(Borenstein)
	case "var_g_UB":
		return s.VarG(Unbiased)
	case "g_lo_LS", "g_hi_LS":
		i, err := s.NormalInterval(LargeSample, 0.95)
		return end(q, i), err
	case "g_lo_borenstein", "g_hi_borenstein":
		i, err := s.NormalInterval(Borenstein, 0.95)
		return end(q, i), err
	case "d_lo_nct", "d_hi_nct", "glass_lo_nct", "glass_hi_nct":
		i, err := s.NoncentralInterval(0.95)
		return end(q, i), err
	case "g_lo_nct", "g_hi_nct":
		i, err := s.NoncentralIntervalG(0.95)
		return end(q, i), err
	}
	t.Errorf("%s: no test for %q", r["id"], q)
	return 0, nil
}

func TestPublishedConversions(t *testing.T) {
	rows := published.Read(t, "convert.csv")
	for _, r := range rows {
		got, err := convertedFigure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func convertedFigure(t *testing.T, r published.Row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "sd_from_ci":
		ci := Interval{Low: r.Float(t, "lo"), High: r.Float(t, "hi")}
		n, level := r.Int(t, "n"), r.Float(t, "level")
		switch q {
		case "mean":
			return ci.Mid(), nil
		case "sd_z":
			return SDFromNormalInterval(ci, n, level)
		case "divisor_t": // of the width, before × √n
			crit, err := meanT(n, level)
			return 2 * crit, err
		}
		return SDFromInterval(ci, n, level)
	case "from_sd":
		sd, n, level := r.Float(t, "sd"), r.Int(t, "n"), r.Float(t, "level")
		switch q {
		case "se":
			return SEFromSD(sd, n)
		case "t_quantile":
			return meanT(n, level)
		case "half_z":
			return HalfWidthNormal(sd, n, level)
		}
		return HalfWidth(sd, n, level)
	case "sd_from_se":
		return SDFromSE(r.Float(t, "se"), r.Int(t, "n"))
	case "sd_from_p":
		w, err := SDFromP(r.Float(t, "md"), r.Float(t, "p"), r.Int(t, "n1"), r.Int(t, "n2"))
		return map[string]float64{"t": w.T, "se_diff": w.SE, "sd_within": w.SD}[q], err
	case "pooled_sd":
		sd, n := r.List(t, "sd"), r.List(t, "n")
		arms := make([]Arm, len(sd))
		for i := range sd {
			arms[i] = Arm{SD: sd[i], N: int(n[i])}
		}
		pooled, df, err := PoolSD(arms)
		return map[string]float64{"sd_pooled": pooled, "df": df}[q], err
	case "combine":
		a, err := Combine(groups(t, r))
		return map[string]float64{"mean": a.Mean, "sd": a.SD, "n": float64(a.N)}[q], err
	case "xi_exact":
		return map[string]func(int) (float64, error){"xi": Xi, "xi_approx": XiApprox, "eta_approx": EtaApprox}[q](r.Int(t, "n"))
	case "five":
		f := FiveNumbers{Median: r.Float(t, "med"), N: r.Int(t, "n")}
		if r["min"] != "" {
			f.Min, f.Max, f.HasRange = r.Float(t, "min"), r.Float(t, "max"), true
		}
		if r["q1"] != "" {
			f.Q1, f.Q3, f.HasQuartiles = r.Float(t, "q1"), r.Float(t, "q3"), true
		}
		skewed, err := f.Skewed()
		if err == nil && skewed != strings.Contains(r["note"], "skewed") {
			t.Errorf("%s: skewed %v, want as in %q", r["id"], skewed, r["note"])
		}
		return map[string]func() (float64, error){
			"wan_mean": f.MeanWan, "wan_sd": f.SDWan, "luo_mean": f.MeanLuo, "shi_sd": f.SDShi,
		}[q]()
	}
	t.Errorf("%s: no test for %q", r["id"], r["fn"])
	return 0, nil
}

func TestPublishedWeibull(t *testing.T) {
	rows := published.Read(t, "weibull.csv")
	for _, r := range rows {
		got, err := weibullFigure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func weibullFigure(t *testing.T, r published.Row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "weibull_cv":
		return WeibullShape(r.Float(t, "cv"))
	case "weibull_moments":
		w := Weibull{Shape: r.Float(t, "shape"), Scale: r.Float(t, "scale")}
		return map[string]func() float64{"mean": w.Mean, "sd": w.SD, "cv": w.CV}[q](), nil
	}
	w, err := WeibullFromMoments(r.Float(t, "mean"), r.Float(t, "sd"))
	if err != nil {
		return 0, err
	}
	switch q {
	case "shape":
		return w.Shape, nil
	case "scale":
		return w.Scale, nil
	case "median":
		return w.Life(0.5)
	}
	return w.Life(0.1)
}
