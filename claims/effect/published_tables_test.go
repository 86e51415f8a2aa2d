package effect

import (
	"math"
	"strings"
	"testing"
)

// end returns the end of an interval that a quantity "..._lo..." names.
func end(quantity string, i Interval) float64 {
	if strings.Contains(quantity, "lo") && !strings.Contains(quantity, "_hi") {
		return i.Low
	}
	return i.High
}

func TestPublishedRatio(t *testing.T) {
	rows := published(t, "ratio.csv")
	for _, r := range rows {
		a, b := r.arms(t)
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
			r.want(t, got.Log, err)
		case "var", "var_delta", "var_sigma":
			r.want(t, got.Var, err)
		case "se":
			r.want(t, got.SE(), err)
		case "pct", "pct_delta":
			r.want(t, got.Percent(), err)
		case "cvsqrtn1":
			r.want(t, got.CVa, err)
		case "cvsqrtn2":
			r.want(t, got.CVb, err)
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
			r.want(t, g, err)
		default:
			ci, ciErr := got.NormalInterval(0.95)
			if err == nil {
				err = ciErr
			}
			if strings.HasPrefix(q, "pct") {
				ci = AsPercent(ci)
			}
			if strings.HasSuffix(q, "_lo") {
				r.want(t, ci.Low, err)
			} else {
				r.want(t, ci.High, err)
			}
		}
	}
	t.Logf("%d rows", len(rows))
}

func fiellerRow(t *testing.T, r row, a, b Arm) {
	t.Helper()
	kind := map[string]Spread{"pooled": Pooled, "separate": Separate, "normal": Normal}[r["kind"]]
	f, err := Fieller(a, b, kind, r.float(t, "level"))
	switch q := r["quantity"]; q {
	case "ratio":
		r.want(t, f.Ratio, err)
	case "df":
		r.want(t, f.DF, err)
	case "g":
		r.want(t, f.G, err)
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
		r.want(t, got, err)
	}
}

func TestPublishedStandardised(t *testing.T) {
	rows := published(t, "smd.csv")
	for _, r := range rows {
		got, err := standardisedFigure(t, r)
		r.want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func standardisedFigure(t *testing.T, r row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "hedges_j":
		if q == "J_exact" {
			return HedgesJ(r.float(t, "df"))
		}
		return HedgesJApprox(r.float(t, "df"))
	case "nct_ci":
		i, err := NoncentralityInterval(r.float(t, "t"), r.float(t, "df"), r.float(t, "level"))
		return end(q, i), err
	}
	a, b := r.arms(t)
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
