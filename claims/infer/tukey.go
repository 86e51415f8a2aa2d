package infer

import (
	"errors"
	"math"

	"probity/claims/interval"
)

// A Pair is the comparison of two of k means.
type Pair struct {
	I, J int     // places in the list of groups, I < J
	Diff float64 // mean of I minus mean of J
	SE   float64 // standard error of Diff
	Q    float64 // studentized range, √2 |Diff| / SE
	DF   float64
	P    P // adjusted for the k(k-1)/2 comparisons

	k int
}

// Interval returns the simultaneous confidence interval of the difference at a
// level such as 0.95: Diff ± q SE/√2.
func (p Pair) Interval(level float64) (interval.Interval, error) {
	crit, err := RangeCritical(1-level, p.k, p.DF)
	if err != nil {
		return interval.Interval{}, err
	}
	half := crit * p.SE / math.Sqrt2
	return interval.Interval{Low: p.Diff - half, High: p.Diff + half}, nil
}

// Unadjusted returns the two-sided p of the pair alone, with its SE and df and
// no correction for the number of pairs.
func (p Pair) Unadjusted() P { return twoSidedT(p.Diff/p.SE, p.DF) }

// TukeyKramer compares every two of k ≥ 2 means with one pooled SD, in the
// order 1-2, 1-3, ..., (k-1)-k.
//
//	q = |mi - mj| / sqrt(MSW/2 (1/ni + 1/nj)),  p = P(Q_{k, N-k} > q)
//
// The p is exact for equal n and errs to the safe side for unequal n. It
// assumes normal data with equal spread.
//
// Source: Tukey (1953), The Problem of Multiple Comparisons; Kramer (1956),
// Biometrics 12:307-310.
func TukeyKramer(groups []Arm) ([]Pair, error) {
	if err := checkGroups(groups, 2); err != nil {
		return nil, err
	}
	_, ssw, n, scale := sumsOfSquares(groups)
	if ssw == 0 {
		return nil, errors.New("all SDs are zero: q has no value")
	}
	df := n - float64(len(groups))
	sd := scale * math.Sqrt(ssw/df)
	return pairs(groups, func(a, b Arm) (se, d float64) {
		return sd * math.Sqrt(1/float64(a.N)+1/float64(b.N)), df
	}), nil
}

// GamesHowell compares every two of k ≥ 2 means without pooling the SDs: Welch's
// standard error and df for each pair, and the studentized range of k.
//
//	q = |mi - mj| / sqrt((si²/ni + sj²/nj)/2),  p = P(Q_{k, df_ij} > q)
//
// Source: Games & Howell (1976), J Educ Stat 1:113-125.
func GamesHowell(groups []Arm) ([]Pair, error) {
	if err := checkGroups(groups, 2); err != nil {
		return nil, err
	}
	zeros := 0
	for _, g := range groups {
		if g.SD == 0 {
			zeros++
		}
	}
	if zeros > 1 {
		return nil, errors.New("two SDs are zero: their q has no value")
	}
	return pairs(groups, func(a, b Arm) (se, d float64) {
		scale := math.Max(a.SD, b.SD)
		va, vb := a.SD/scale*(a.SD/scale)/float64(a.N), b.SD/scale*(b.SD/scale)/float64(b.N)
		return scale * math.Sqrt(va+vb), welchDF(va, vb, a.N, b.N)
	}), nil
}

func pairs(groups []Arm, spread func(a, b Arm) (se, df float64)) []Pair {
	k := len(groups)
	list := make([]Pair, 0, k*(k-1)/2)
	for i, a := range groups {
		for j := i + 1; j < k; j++ {
			p := Pair{I: i, J: j, Diff: a.Mean - groups[j].Mean, k: k}
			p.SE, p.DF = spread(a, groups[j])
			p.Q = math.Abs(p.Diff) / p.SE * math.Sqrt2
			p.P = pOf(logRangeUpper(p.Q, k, p.DF))
			list = append(list, p)
		}
	}
	return list
}
