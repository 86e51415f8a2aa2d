package infer

import (
	"fmt"
	"math"
)

// StudentizedRange returns P(Q > q): the upper tail of the range of k
// independent standard normal values divided by an independent estimate of
// their SD with df degrees of freedom, which may be +Inf.
//
//	P(Q > q)  = ∫ f(s) U(q s) ds, f the density of sqrt(chi-squared_df / df)
//	U(w)      = k ∫ φ(z) (Φ(z)^(k-1) - (Φ(z) - Φ(z-w))^(k-1)) dz
//
// Both integrals are sums over evenly spaced points (the trapezoidal rule,
// which converges exponentially for such integrands), the outer one over ln s.
// The tail is summed itself, never taken as 1 - CDF, so its relative error
// stays near 1e-11 however small it is.
//
// Source: the integral of Copenhaver & Holland (1988), J Stat Comput Simul
// 30:1-15; trapezoidal rule: Trefethen & Weideman (2014), SIAM Rev 56:385-458.
func StudentizedRange(q float64, k int, df float64) (P, error) {
	if err := checkRange(k, df); err != nil {
		return P{}, err
	}
	if math.IsNaN(q) || math.IsInf(q, 0) || q < 0 {
		return P{}, fmt.Errorf("q = %v must be a finite number, not negative", q)
	}
	return pOf(logRangeUpper(q, k, df)), nil
}

// RangeCritical returns the q that a studentized range of k means must pass at
// level alpha: P(Q > q) = alpha. With it a whole set of pairs, or of rounding
// boxes, is decided without computing a p for each.
func RangeCritical(alpha float64, k int, df float64) (float64, error) {
	if err := checkRange(k, df); err != nil {
		return 0, err
	}
	if !(alpha > 0 && alpha < 1) {
		return 0, fmt.Errorf("alpha = %v must lie between 0 and 1", alpha)
	}
	want := math.Log(alpha)
	if k == 2 {
		return math.Sqrt2 * tUpperQuantile(want-math.Ln2, df), nil
	}
	// The largest of all pairs cannot need more than Bonferroni's t, nor less
	// than the t of one pair: two guesses for the secant.
	pairs := float64(k) * float64(k-1) / 2
	lo := math.Sqrt2 * tUpperQuantile(want-math.Ln2, df)
	hi := math.Sqrt2 * tUpperQuantile(math.Min(want-math.Ln2-math.Log(pairs), -math.Ln2), df)
	x0, y0 := hi, logRangeUpper(hi, k, df)-want
	x1 := lo + 0.85*(hi-lo)
	for range 60 {
		y1 := logRangeUpper(x1, k, df) - want
		if y1 > 0 {
			lo = math.Max(lo, x1)
		} else {
			hi = math.Min(hi, x1)
		}
		next := x1 - y1*(x1-x0)/(y1-y0)
		if !(next > lo && next < hi) {
			next = 0.5 * (lo + hi)
		}
		if math.Abs(next-x1) < 1e-12*x1 || y1 == 0 {
			return next, nil
		}
		x0, y0, x1 = x1, y1, next
	}
	return x1, nil
}

func checkRange(k int, df float64) error {
	if k < 2 {
		return fmt.Errorf("k = %d: a range needs at least two groups", k)
	}
	if k > rangeMost {
		return fmt.Errorf("k = %d: at most %d groups", k, rangeMost)
	}
	if !(df > 0) {
		return fmt.Errorf("df = %v must be above zero", df)
	}
	return nil
}

// logRangeUpper returns ln P(Q > q).
func logRangeUpper(q float64, k int, df float64) float64 {
	switch {
	case q == 0:
		return 0
	case k == 2: // |X1 - X2| / S is √2 |T|
		return math.Min(0, logTUpper(q/math.Sqrt2, df)+math.Ln2)
	}
	var table rangeTable
	table.fill(k)
	if math.IsInf(df, 1) {
		return table.logUpper(q)
	}
	return overLogChi(df, q, k, func(s float64) float64 { return table.logUpper(q * s) })
}

// overLogChi returns ln ∫ f(s) exp(g(s)) ds, with f the density of
// sqrt(chi-squared_df / df). g is the logarithm of a tail that falls with s
// about as exp(-(q s)²/4), which says where to begin; k is the number of groups
// behind it.
func overLogChi(df, q float64, k int, g func(s float64) float64) float64 {
	// Over u = ln s the density is exp(df (u - (e^2u - 1)/2)) / Z, analytic
	// in a strip of half-width π/4 and, at the peak of the product, of
	// curvature 2 df.
	step := math.Min(0.125*narrowing(k), 0.66/math.Sqrt(2*df))
	start := -0.5 * math.Log1p(q*q/(2*df))
	if q < 4 {
		start = 0
	}
	sum := sumOut(start, step, func(u float64) float64 {
		return df*(u-0.5*math.Expm1(2*u)) + g(math.Exp(u))
	})
	x := df / 2
	logZ := 0.5*math.Log(2*math.Pi/x) + stirling(x) - math.Ln2
	return sum + math.Log(step) - logZ
}

// A rangeTable holds, on an even grid of z, what the inner integral needs at
// every w.
type rangeTable struct {
	k, n  int
	step  float64
	front [rangePoints]float64 // k φ(z) Φ(z)^(k-1) × step
	inv   [rangePoints]float64 // 1 / Φ(z)
}

const (
	rangeLow    = -8.05 // below, φ(z)² is under 1e-28 of anything kept
	rangeTop    = 18.2
	rangePoints = 220
	rangeFar    = 18.0 // from here on only single pairs count
	rangeMost   = 200  // groups: the grid has room for no finer step
)

func (t *rangeTable) fill(k int) {
	t.k = k
	t.step = 0.32 * narrowing(k)
	t.n = int((rangeTop-rangeLow)/t.step) + 1
	for i := range t.n {
		z := rangeLow + float64(i)*t.step
		cdf := 0.5 * math.Erfc(-z/math.Sqrt2)
		t.inv[i] = 1 / cdf
		t.front[i] = float64(k) * t.step * math.Exp(-0.5*z*z) / math.Sqrt(2*math.Pi) * math.Pow(cdf, float64(k-1))
	}
}

// narrowing returns how much finer than for a few groups the points must lie
// for k: the greatest of k values spreads ever less.
func narrowing(k int) float64 { return math.Min(1, math.Log(8)/math.Log(float64(k))) }

// logUpper returns ln U(w).
func (t *rangeTable) logUpper(w float64) float64 {
	k := float64(t.k)
	if w > rangeFar {
		// Two pairs beyond w at once are exp(-w²/12) times rarer than one.
		return math.Log(k*(k-1)) + logNormalUpper(w/math.Sqrt2)
	}
	// The integrand lives where z is not small (Φ(z)^(k-1)) and z - w is not
	// far below zero: about w/2 ± 6.5, and up to 8.5 for large k and small w.
	first := max(0, int((w/2-6.5-rangeLow)/t.step))
	last := min(t.n-1, int((math.Max(8.5, w/2+6.5)-rangeLow)/t.step))
	var sum float64
	for i := first; i <= last; i++ {
		z := rangeLow + float64(i)*t.step
		r := min(1, 0.5*math.Erfc((w-z)/math.Sqrt2)*t.inv[i])
		sum += t.front[i] * oneMinusPower(r, t.k-1)
	}
	return math.Min(0, math.Log(sum))
}

// oneMinusPower returns 1 - (1-r)^m without cancellation, by squaring: with
// d_i = 1 - (1-r)^i, d_(i+j) = d_i + d_j - d_i d_j.
func oneMinusPower(r float64, m int) float64 {
	d := 0.0
	for ; m > 0; m >>= 1 {
		if m&1 == 1 {
			d += r * (1 - d)
		}
		r += r * (1 - r)
	}
	return d
}
