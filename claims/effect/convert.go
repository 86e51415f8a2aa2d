package effect

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"probity/claims/interval"
)

// SEFromSD returns the standard error of a mean of n values, SD/√n.
func SEFromSD(sd float64, n int) (float64, error) {
	if err := checkSpread("SD", sd, n, 1); err != nil {
		return 0, err
	}
	return sd / math.Sqrt(float64(n)), nil
}

// SDFromSE returns the SD behind a printed standard error, SE × √n.
//
// Source: Cochrane Handbook for Systematic Reviews of Interventions, ch. 6.5.2.2.
func SDFromSE(se float64, n int) (float64, error) {
	if err := checkSpread("SE", se, n, 2); err != nil {
		return 0, err
	}
	return se * math.Sqrt(float64(n)), nil
}

// HalfWidth returns half the width of the confidence interval of a mean,
// t SD/√n with n - 1 degrees of freedom.
func HalfWidth(sd float64, n int, level float64) (float64, error) {
	t, err := meanT(n, level)
	if err != nil {
		return 0, err
	}
	se, err := SEFromSD(sd, n)
	return t * se, err
}

// HalfWidthNormal is HalfWidth with the normal quantile, which some authors use
// at any n.
func HalfWidthNormal(sd float64, n int, level float64) (float64, error) {
	if err := checkLevel(level); err != nil {
		return 0, err
	}
	se, err := SEFromSD(sd, n)
	return distuv.UnitNormal.Quantile(0.5+level/2) * se, err
}

// SDFromInterval returns the SD behind a printed confidence interval of one
// mean.
//
//	SD = √n (hi - lo) / (2 t), n - 1 degrees of freedom
//
// Source: Cochrane Handbook, ch. 6.5.2.2.
func SDFromInterval(ci Interval, n int, level float64) (float64, error) {
	t, err := meanT(n, level)
	if err != nil {
		return 0, err
	}
	return sdFromWidth(ci, n, 2*t)
}

// SDFromNormalInterval is SDFromInterval with the normal quantile. For small n
// the two differ much; report which of them fits.
func SDFromNormalInterval(ci Interval, n int, level float64) (float64, error) {
	if err := checkLevel(level); err != nil {
		return 0, err
	}
	return sdFromWidth(ci, n, 2*distuv.UnitNormal.Quantile(0.5+level/2))
}

func sdFromWidth(ci Interval, n int, divisor float64) (float64, error) {
	if err := finite(ci.Low, ci.High); err != nil {
		return 0, err
	}
	if ci.Low > ci.High {
		return 0, fmt.Errorf("interval %v: the low end is above the high end", ci)
	}
	if n < 1 {
		return 0, fmt.Errorf("n = %d: no values", n)
	}
	return math.Sqrt(float64(n)) * ci.Width() / divisor, nil
}

// meanT returns the t quantile of the confidence interval of one mean.
func meanT(n int, level float64) (float64, error) {
	if err := checkLevel(level); err != nil {
		return 0, err
	}
	if n < 2 {
		return 0, fmt.Errorf("n = %d: a confidence interval of a mean needs at least two values", n)
	}
	return tCritical(level, float64(n-1)), nil
}

func checkSpread(name string, x float64, n, least int) error {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return fmt.Errorf("%s %v is not a finite number", name, x)
	case x < 0:
		return fmt.Errorf("%s %v is negative", name, x)
	case n < least:
		return fmt.Errorf("n = %d: must be at least %d", n, least)
	}
	return nil
}

// A Within is what a two-group test result says about the spread behind it.
type Within struct {
	T  float64 // |t| of the difference
	SE float64 // its standard error, |difference| / T
	SD float64 // the common SD of both groups, SE / sqrt(1/na + 1/nb)
}

// SDFromT returns the common SD behind a difference of two means and its t.
//
// Source: Cochrane Handbook, ch. 6.5.2.3.
func SDFromT(diff, t float64, na, nb int) (Within, error) {
	if err := finite(diff, t); err != nil {
		return Within{}, err
	}
	if na < 1 || nb < 1 || na+nb < 3 {
		return Within{}, fmt.Errorf("n = %d and %d: too few values for an SD", na, nb)
	}
	if t == 0 || diff == 0 {
		return Within{}, errors.New("a difference or t of zero says nothing about the SD")
	}
	w := Within{T: math.Abs(t)}
	w.SE = math.Abs(diff) / w.T
	w.SD = w.SE / math.Sqrt(1/float64(na)+1/float64(nb))
	return w, nil
}

// SDFromF is SDFromT for the F of two groups, t = sqrt(F).
func SDFromF(diff, f float64, na, nb int) (Within, error) {
	if f < 0 {
		return Within{}, fmt.Errorf("F = %v is negative", f)
	}
	return SDFromT(diff, math.Sqrt(f), na, nb)
}

// SDFromP is SDFromT for an exact two-sided p of Student's t with na + nb - 2
// degrees of freedom. A bound ("p < .05") gives a bound on the SD only; "not
// significant" gives nothing.
func SDFromP(diff, p float64, na, nb int) (Within, error) {
	if !(p > 0 && p < 1) {
		return Within{}, fmt.Errorf("p = %v must lie between 0 and 1", p)
	}
	if na+nb < 3 {
		return Within{}, fmt.Errorf("n = %d and %d: too few values for an SD", na, nb)
	}
	t := -distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(na + nb - 2)}.Quantile(p / 2)
	return SDFromT(diff, t, na, nb)
}

// PoolSD returns the SD within k ≥ 1 arms and its degrees of freedom.
//
//	sqrt(Σ (n-1) s² / Σ (n-1))
func PoolSD(arms []Arm) (sd, df float64, err error) {
	scale, err := checkMany(arms)
	if err != nil {
		return 0, 0, err
	}
	var sum float64
	for _, a := range arms {
		r := a.SD / scale
		sum += float64(a.N-1) * r * r
		df += float64(a.N - 1)
	}
	if df == 0 {
		return 0, 0, errors.New("single values only: there is no SD within them")
	}
	return scale * math.Sqrt(sum/df), df, nil
}

// Combine returns the arm that k ≥ 1 arms make when their specimens are put
// together; its SD holds the distances of their means as well.
//
//	N = Σ n, M = Σ n m / N, SD² = (Σ (n-1) s² + Σ n (m - M)²) / (N - 1)
//
// Means keep their signs. It is not the pooled SD.
//
// Source: Cochrane Handbook, ch. 6.5.2.10.
func Combine(arms []Arm) (Arm, error) {
	scale, err := checkMany(arms)
	if err != nil {
		return Arm{}, err
	}
	first := arms[0].Mean
	var n, centre, sum float64
	for _, a := range arms {
		n += float64(a.N)
		scale = math.Max(scale, math.Abs(a.Mean-first))
	}
	for _, a := range arms {
		centre += float64(a.N) / n * ((a.Mean - first) / scale)
	}
	for _, a := range arms {
		r, d := a.SD/scale, (a.Mean-first)/scale-centre
		sum += float64(a.N-1)*r*r + float64(a.N)*d*d
	}
	return Arm{Mean: first + scale*centre, SD: scale * math.Sqrt(sum/(n-1)), N: int(n)}, nil
}

// checkMany checks a list of arms and returns their largest SD, or 1 when all
// are zero: a unit in which their squares stay in range. An arm of one value
// may stand among them with an SD of zero.
func checkMany(arms []Arm) (scale float64, err error) {
	if len(arms) == 0 {
		return 0, errors.New("no arms")
	}
	total := 0
	for i, a := range arms {
		if a.N == 1 && a.SD == 0 {
			a.N = 2 // a single value stands in a list of arms, with no spread to give
		}
		if err := a.Check(); err != nil {
			return 0, fmt.Errorf("arm %d: %w", i+1, err)
		}
		total += arms[i].N - 1
		scale = math.Max(scale, a.SD)
	}
	if total == 0 && len(arms) == 1 {
		return 0, errors.New("a single value has no SD")
	}
	if scale == 0 {
		scale = 1
	}
	return scale, nil
}

// A GrandMeans holds raw and adjusted means against each other.
type GrandMeans struct {
	Raw, Adjusted Interval // the n-weighted mean of each, rounding allowed for
	Agree         bool     // the two intervals meet
}

// CheckAdjusted compares the n-weighted mean of adjusted means with that of the
// raw means. They are equal when the covariates were held at their grand means
// and the slopes are common to all arms, whatever their number:
//
//	Σ n adjusted = Σ n raw
//
// A disagreement means adjustment at another value, other sizes, separate
// slopes, or an error.
//
// Source: follows from adjusted = raw - b (x̄_i - x̄), summed with weights n.
func CheckAdjusted(raw, adjusted []interval.Printed, n []int) (GrandMeans, error) {
	if len(raw) == 0 || len(raw) != len(adjusted) || len(raw) != len(n) {
		return GrandMeans{}, fmt.Errorf("%d raw means, %d adjusted means, %d sizes: one of each for every arm", len(raw), len(adjusted), len(n))
	}
	var g GrandMeans
	total := 0.0
	for i := range raw {
		if !raw[i].Known() || !adjusted[i].Known() || n[i] < 1 {
			return GrandMeans{}, fmt.Errorf("arm %d: a mean or its size is not known", i+1)
		}
		total += float64(n[i])
	}
	for i := range raw {
		w := float64(n[i]) / total
		g.Raw.Low += w * raw[i].Interval().Low
		g.Raw.High += w * raw[i].Interval().High
		g.Adjusted.Low += w * adjusted[i].Interval().Low
		g.Adjusted.High += w * adjusted[i].Interval().High
	}
	// One part in 1e12 for the sums of floating point: a tie agrees.
	slack := 1e-12 * (math.Abs(g.Raw.High) + math.Abs(g.Adjusted.High))
	g.Agree = g.Raw.Low <= g.Adjusted.High+slack && g.Adjusted.Low <= g.Raw.High+slack
	return g, nil
}
