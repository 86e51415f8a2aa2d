package infer

import (
	"fmt"
	"math"

	"probity/claims/interval"
)

// An Equivalence is the result of two one-sided tests against a margin.
type Equivalence struct {
	AboveLow  P // that the true value lies above the low end of the margin
	BelowHigh P // that it lies below the high end
	P         P // the larger of the two: small when the value lies within the margin
}

// EquivalentMeans tests whether the difference of two means, a minus b, lies
// within a margin such as {-20, 20} in their unit, by two one-sided Welch tests.
//
//	t = (D - low)/SE upper tail,  t = (D - high)/SE lower tail
//
// At level alpha it agrees with the 1 - 2 alpha interval of Welch lying inside
// the margin. A difference that is not significant is no equivalence; the
// margin has to come from outside the data.
//
// Source: Schuirmann (1987), J Pharmacokinet Biopharm 15:657-680.
func EquivalentMeans(a, b Arm, margin interval.Interval) (Equivalence, error) {
	if !(margin.Low < margin.High) || math.IsInf(margin.Width(), 0) {
		return Equivalence{}, fmt.Errorf("margin %v must be a finite range", margin)
	}
	t, err := Welch(a, b)
	if err != nil {
		return Equivalence{}, err
	}
	return twoOneSided(logTUpper((t.Diff-margin.Low)/t.SE, t.DF), logTUpper((margin.High-t.Diff)/t.SE, t.DF)), nil
}

// EquivalentRatio tests whether the ratio of two means, a to b, lies within a
// margin such as {0.8, 1.25}, by two one-sided tests of a linear combination of
// the means with an SD each.
//
//	t = (ma - θ mb) / sqrt(va + θ² vb),  df of Satterthwaite, θ an end of the margin
//
// At level alpha it agrees with the 1 - 2 alpha Fieller set, taken with the df
// of each end, lying inside the margin. Both means must be above zero.
//
// Source: Sasabuchi (1980), Biometrika 67:429-439; Hauschke et al. (1999), J
// Pharmacokinet Biopharm 27:637-650 (from memory).
func EquivalentRatio(a, b Arm, margin interval.Interval) (Equivalence, error) {
	if !(margin.Low > 0 && margin.Low < margin.High) || math.IsInf(margin.High, 1) {
		return Equivalence{}, fmt.Errorf("margin %v must be a finite range above zero", margin)
	}
	if err := checkPair(a, b); err != nil {
		return Equivalence{}, err
	}
	if a.Mean <= 0 || b.Mean <= 0 {
		return Equivalence{}, fmt.Errorf("means %v and %v: a ratio needs both above zero", a.Mean, b.Mean)
	}
	against := func(theta float64) (TTest, error) {
		return Welch(a, Arm{Mean: theta * b.Mean, SD: theta * b.SD, N: b.N})
	}
	low, err := against(margin.Low)
	if err != nil {
		return Equivalence{}, err
	}
	high, err := against(margin.High)
	if err != nil {
		return Equivalence{}, err
	}
	return twoOneSided(logTUpper(low.T, low.DF), logTUpper(-high.T, high.DF)), nil
}

func twoOneSided(above, below float64) Equivalence {
	return Equivalence{AboveLow: pOf(above), BelowHigh: pOf(below), P: pOf(math.Max(above, below))}
}
