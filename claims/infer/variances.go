package infer

import (
	"errors"
	"fmt"
	"math"
)

// A VarianceTest says whether the SDs of k groups may be one.
type VarianceTest struct {
	Statistic float64
	DF        float64
	P         P
}

// Bartlett compares the SDs of k ≥ 2 groups of normal data.
//
//	X = ((N-k) ln sp² - Σ (n-1) ln s²) / (1 + (Σ 1/(n-1) - 1/(N-k)) / (3(k-1)))
//
// which is about chi-squared with k - 1 degrees of freedom. It mistakes
// non-normal data for unequal SDs. An SD of zero has no logarithm and is
// refused. (Levene's and Brown and Forsythe's tests need the raw data.)
//
// Source: Bartlett (1937), Proc R Soc A 160:268-282.
func Bartlett(groups []Arm) (VarianceTest, error) {
	scale, err := checkSDs(groups)
	if err != nil {
		return VarianceTest{}, err
	}
	var df, pooled, logs, inverse float64
	for _, g := range groups {
		f, r := float64(g.N-1), g.SD/scale
		df += f
		pooled += f * r * r
		logs += 2 * f * math.Log(r)
		inverse += 1 / f
	}
	k := float64(len(groups))
	v := VarianceTest{DF: k - 1}
	v.Statistic = (df*math.Log(pooled/df) - logs) / (1 + (inverse-1/df)/(3*(k-1)))
	v.Statistic = math.Max(0, v.Statistic) // equal SDs leave a rounding error of either sign
	v.P = pOf(logGammaUpper(v.DF/2, v.Statistic/2))
	return v, nil
}

// FMax compares the largest and the smallest SD of k ≥ 2 groups of normal data:
// (largest/smallest)², with the p of the largest such ratio among k groups of
// DF + 1 values each. For unequal n the least is taken, which errs to the safe
// side.
//
//	P(Fmax > x) = k ∫ f(u) ((1-F(u))^(k-1) - (F(xu)-F(u))^(k-1)) du,
//	f, F of chi-squared/df
//
// Source: Hartley (1950), Biometrika 37:308-312.
func FMax(groups []Arm) (VarianceTest, error) {
	if _, err := checkSDs(groups); err != nil {
		return VarianceTest{}, err
	}
	least, most, n := math.Inf(1), 0.0, groups[0].N
	for _, g := range groups {
		least, most, n = math.Min(least, g.SD), math.Max(most, g.SD), min(n, g.N)
	}
	ratio := most / least
	v := VarianceTest{Statistic: ratio * ratio, DF: float64(n - 1)}
	if math.IsInf(v.Statistic, 1) {
		return VarianceTest{}, errors.New("the ratio of the SDs is too large for a number")
	}
	v.P = pOf(logFMaxUpper(v.Statistic, len(groups), v.DF))
	return v, nil
}

// FMaxUpper returns P(Fmax > x) for k groups with df degrees of freedom each.
func FMaxUpper(x float64, k int, df float64) (P, error) {
	if err := checkRange(k, df); err != nil {
		return P{}, err
	}
	if math.IsInf(df, 1) || math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
		return P{}, fmt.Errorf("Fmax = %v with df = %v must be finite numbers, not negative", x, df)
	}
	return pOf(logFMaxUpper(x, k, df)), nil
}

func logFMaxUpper(x float64, k int, df float64) float64 {
	switch {
	case x <= 1:
		return 0
	case k == 2:
		return math.Min(0, logFUpper(x, df, df)+math.Ln2)
	}
	a := df / 2
	// The least of k values spreads less than one of them.
	step := math.Min(0.12, 0.45/math.Sqrt(a*(1+math.Log(float64(k)))))
	// Logarithm of the integrand over y = ln u, up to its constant.
	at := func(y float64) float64 {
		u := math.Exp(y)
		tail, far := logGammaUpper(a, a*u), logGammaUpper(a, a*u*x)
		share := math.Log(float64(k-1)) + far - tail // ln(1 - (1-r)^(k-1)) for tiny r
		if r := math.Exp(math.Min(0, far-tail)); r > 1e-17 {
			share = math.Log(oneMinusPower(r, k-1))
		}
		return a*(y-math.Expm1(y)) + float64(k-1)*tail + share
	}
	start := math.Min(0, math.Log(2/x)) // far out the peak lies where x u = 2
	sum := sumOut(start, step, at)
	// ∫ u^a e^(-a(u-1)) du/u = Γ(a) e^a / a^a
	logZ := 0.5*math.Log(2*math.Pi/a) + stirling(a)
	return math.Min(0, math.Log(float64(k))+sum+math.Log(step)-logZ)
}

// sumOut returns ln Σ exp(f(start + i step)) over all integers i, for an f with
// one peak, going out from start both ways until the terms no longer count.
func sumOut(start, step float64, f func(float64) float64) float64 {
	ref := f(start)
	sum := 1.0
	for _, way := range []int{1, -1} {
		last := math.Inf(-1)
		for i := way; i*way < 4000; i += way {
			l := f(start + float64(i)*step)
			if l-ref > 300 {
				sum *= math.Exp(ref - l)
				ref = l
			}
			term := math.Exp(l - ref)
			sum += term
			if l < last && term < 1e-15*sum {
				break
			}
			last = l
		}
	}
	return ref + math.Log(sum)
}

func checkSDs(groups []Arm) (scale float64, err error) {
	if err := checkGroups(groups, 2); err != nil {
		return 0, err
	}
	for i, g := range groups {
		if g.SD == 0 {
			return 0, fmt.Errorf("group %d: SD is zero and has no logarithm", i+1)
		}
		scale = math.Max(scale, g.SD)
	}
	return scale, nil
}
