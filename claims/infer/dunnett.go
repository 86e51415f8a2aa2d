package infer

import (
	"errors"
	"fmt"
	"math"
)

// Dunnett compares each of k - 1 ≥ 1 groups with one control (its place in the
// list) with one pooled SD, in the order of the list. Each Pair has the control
// as J and the group as I, Diff is group minus control, and P is adjusted for
// the k - 1 comparisons, two-sided. Q is √2 |t|; Interval does not apply.
//
//	t_i = (m_i - m_0) / (s sqrt(1/n_i + 1/n_0)),  λ_i = sqrt(n_i/(n_i + n_0))
//	p_i = P(max |T| > |t_i|), corr(T_i, T_j) = λ_i λ_j
//	    = ∫ f(s) ∫ φ(z) (1 - Π (Φ((|t|s + λz)/c) - Φ((-|t|s + λz)/c))) dz ds
//
// with c = sqrt(1 - λ²), exact for any sizes. The tail is summed itself, never
// taken as 1 - CDF.
//
// Source: Dunnett (1955), J Am Stat Assoc 50:1096-1121.
func Dunnett(groups []Arm, control int) ([]Pair, error) {
	if err := checkGroups(groups, 2); err != nil {
		return nil, err
	}
	if control < 0 || control >= len(groups) {
		return nil, fmt.Errorf("control %d is not among %d groups", control, len(groups))
	}
	_, ssw, n, scale := sumsOfSquares(groups)
	if ssw == 0 {
		return nil, errors.New("all SDs are zero: t has no value")
	}
	df := n - float64(len(groups))
	sd := scale * math.Sqrt(ssw/df)
	c := groups[control]
	var lambda []float64
	for i, g := range groups {
		if i != control {
			lambda = append(lambda, math.Sqrt(float64(g.N)/float64(g.N+c.N)))
		}
	}
	list := make([]Pair, 0, len(groups)-1)
	for i, g := range groups {
		if i == control {
			continue
		}
		p := Pair{I: i, J: control, Diff: g.Mean - c.Mean, DF: df}
		p.SE = sd * math.Sqrt(1/float64(g.N)+1/float64(c.N))
		t := math.Abs(p.Diff) / p.SE
		p.Q = math.Sqrt2 * t
		p.P = pOf(logDunnettUpper(t, lambda, df))
		list = append(list, p)
	}
	return list, nil
}

// logDunnettUpper returns ln P(max |T_i| > t).
func logDunnettUpper(t float64, lambda []float64, df float64) float64 {
	if t == 0 {
		return 0
	}
	if len(lambda) == 1 {
		return math.Min(0, logTUpper(t, df)+math.Ln2)
	}
	tail := func(s float64) float64 { return logDunnettNormal(t*s, lambda) }
	return math.Min(0, overLogChi(df, math.Sqrt2*t, len(lambda)+1, tail))
}

// logDunnettNormal is logDunnettUpper with a known SD.
func logDunnettNormal(w float64, lambda []float64) float64 {
	if w > 30 { // two beyond w at once no longer count
		return math.Log(2*float64(len(lambda))) + logNormalUpper(w)
	}
	narrow, most := 1.0, 0.0
	for _, l := range lambda {
		narrow = math.Min(narrow, math.Sqrt(1-l*l))
		most = math.Max(most, l)
	}
	step := 0.35 * math.Min(1, 1.4*narrow) * narrowing(len(lambda)+1)
	last := int((most*w + 8.5) / step)
	sum := 0.0
	for i := 0; i <= last; i++ {
		z := float64(i) * step
		inside := 0.0 // ln Π (1 - r)
		for _, l := range lambda {
			c := math.Sqrt(2 * (1 - l*l))
			r := 0.5 * (math.Erfc((w-l*z)/c) + math.Erfc((w+l*z)/c))
			inside += math.Log1p(-math.Min(r, 1))
		}
		term := math.Exp(-0.5*z*z) * -math.Expm1(inside)
		if i == 0 { // the integrand is even in z
			term /= 2
		}
		sum += term
	}
	return math.Min(0, math.Log(2*sum*step/math.Sqrt(2*math.Pi)))
}
