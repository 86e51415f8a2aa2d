package infer

import (
	"errors"
	"fmt"
	"math"

	"probity/claims/interval"
)

// A TTest is the comparison of two means by a t statistic.
type TTest struct {
	Diff float64 // mean of a minus mean of b, in the unit of the means
	SE   float64 // standard error of Diff
	T    float64 // Diff / SE
	DF   float64 // degrees of freedom; whole for Student, not for Welch
	P    P       // two-sided
}

var errNoSpread = errors.New("both SDs are zero: t has no value")

// Student compares two independent means with one pooled SD.
//
//	sp² = ((na-1) sa² + (nb-1) sb²) / (na+nb-2)
//	t   = (ma - mb) / (sp sqrt(1/na + 1/nb)),  df = na + nb - 2
//
// It assumes normal data with equal spread. When both SDs are zero there is no
// t; the error then comes with Diff, SE and DF filled in.
//
// Source: Student (1908), Biometrika 6:1-25.
func Student(a, b Arm) (TTest, error) {
	if err := checkPair(a, b); err != nil {
		return TTest{}, err
	}
	na, nb := float64(a.N), float64(b.N)
	scale := math.Max(a.SD, b.SD)
	t := TTest{Diff: a.Mean - b.Mean, DF: na + nb - 2}
	if scale == 0 {
		return t, errNoSpread
	}
	ra, rb := a.SD/scale, b.SD/scale
	t.SE = scale * math.Sqrt(((na-1)*ra*ra+(nb-1)*rb*rb)/t.DF*(1/na+1/nb))
	return t.finish(), nil
}

// Welch compares two independent means with an SD each.
//
//	va = sa²/na, vb = sb²/nb
//	t  = (ma - mb) / sqrt(va + vb)
//	df = (va + vb)² / (va²/(na-1) + vb²/(nb-1)), not rounded
//
// It assumes normal data. When both SDs are zero there is no t and no df; the
// error then comes with Diff and SE filled in.
//
// Source: Welch (1947), Biometrika 34:28-35.
func Welch(a, b Arm) (TTest, error) {
	if err := checkPair(a, b); err != nil {
		return TTest{}, err
	}
	t := TTest{Diff: a.Mean - b.Mean}
	scale := math.Max(a.SD, b.SD)
	if scale == 0 {
		return t, errNoSpread
	}
	va, vb := a.SD/scale*(a.SD/scale)/float64(a.N), b.SD/scale*(b.SD/scale)/float64(b.N)
	t.SE = scale * math.Sqrt(va+vb)
	t.DF = welchDF(va, vb, a.N, b.N)
	return t.finish(), nil
}

// welchDF returns Satterthwaite's degrees of freedom of va + vb.
func welchDF(va, vb float64, na, nb int) float64 {
	r := va / (va + vb)
	return 1 / (r*r/float64(na-1) + (1-r)*(1-r)/float64(nb-1))
}

// Paired compares two means of the same n specimens measured twice, given the
// correlation r of the two measurements.
//
//	sd² = sa² + sb² - 2 r sa sb,  t = (ma - mb) / (sd/sqrt n),  df = n - 1
//
// r is seldom printed: without it a paired test cannot be recomputed, only
// bounded by r = -1 and r = 1.
func Paired(a, b Arm, r float64) (TTest, error) {
	if err := checkPair(a, b); err != nil {
		return TTest{}, err
	}
	if a.N != b.N {
		return TTest{}, fmt.Errorf("n = %d and %d: paired arms have one n", a.N, b.N)
	}
	if !(r >= -1 && r <= 1) {
		return TTest{}, fmt.Errorf("correlation %v must lie between -1 and 1", r)
	}
	t := TTest{Diff: a.Mean - b.Mean, DF: float64(a.N - 1)}
	scale := math.Max(a.SD, b.SD)
	if scale == 0 {
		return t, errNoSpread
	}
	ra, rb := a.SD/scale, b.SD/scale
	// (ra - rb)² + 2 (1 - r) ra rb does not cancel when r is near 1.
	variance := (ra-rb)*(ra-rb) + 2*(1-r)*ra*rb
	if variance == 0 {
		return t, errors.New("the differences have no spread: t has no value")
	}
	t.SE = scale * math.Sqrt(variance/float64(a.N))
	return t.finish(), nil
}

// finish fills in what follows from Diff, SE and DF.
func (t TTest) finish() TTest {
	t.T = t.Diff / t.SE
	t.P = twoSidedT(t.T, t.DF)
	return t
}

// Interval returns the confidence interval of the difference at a level such
// as 0.95: Diff ± t SE with the test's own df.
func (t TTest) Interval(level float64) (interval.Interval, error) {
	if !(t.SE > 0) {
		return interval.Interval{}, errNoSpread
	}
	crit, err := TCritical(1-level, t.DF)
	if err != nil {
		return interval.Interval{}, err
	}
	return interval.Interval{Low: t.Diff - crit*t.SE, High: t.Diff + crit*t.SE}, nil
}

// Greater returns the one-sided p for the alternative that a's mean is the
// larger; for the other direction take it with the arms swapped.
func (t TTest) Greater() P { return pOf(logTUpper(t.T, t.DF)) }

func checkPair(a, b Arm) error {
	if err := a.Check(); err != nil {
		return fmt.Errorf("first arm: %w", err)
	}
	if err := b.Check(); err != nil {
		return fmt.Errorf("second arm: %w", err)
	}
	if math.IsInf(a.Mean-b.Mean, 0) {
		return errors.New("the difference of the means is too large for a number")
	}
	return nil
}
