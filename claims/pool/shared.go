package pool

import (
	"errors"
	"fmt"
	"math"

	"probity/claims/interval"
)

// SharedLogRatio returns the covariance of two log ratios of means that share
// the comparator c, s²/(n m²): the comparator's own part of their variances.
//
// Source: Lajeunesse (2011), Ecology 92:2049-2055 (from memory).
func SharedLogRatio(c interval.Arm) (float64, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	if c.Mean <= 0 {
		return 0, fmt.Errorf("mean %v: a ratio needs it above zero", c.Mean)
	}
	cv := c.SD / c.Mean
	return cv * cv / float64(c.N), nil
}

// SharedStandardised returns the covariance of two standardised differences
// ga, gb that share a comparator of nc specimens, with n specimens in all arms
// of the paper together.
//
//	1/nc + ga gb / (2n)
//
// Source: Gleser & Olkin (2009), in Cooper et al., Handbook of Research
// Synthesis, 2nd ed., ch. 19, with the SD pooled over all arms.
func SharedStandardised(ga, gb float64, nc, n int) (float64, error) {
	if math.IsNaN(ga) || math.IsInf(ga, 0) || math.IsNaN(gb) || math.IsInf(gb, 0) {
		return 0, fmt.Errorf("differences %v and %v must be finite numbers", ga, gb)
	}
	if nc < 1 || n <= nc {
		return 0, fmt.Errorf("comparator of %d among %d specimens: sizes do not fit", nc, n)
	}
	return 1/float64(nc) + ga*gb/(2*float64(n)), nil
}

// Merge combines the effects of one paper that are correlated through a shared
// comparator into one effect of that paper, by generalised least squares.
//
//	V = variances and covariances, value = 1'V⁻¹y / 1'V⁻¹1, var = 1 / 1'V⁻¹1
//
// cov(i, j) gives the covariance of effects i < j. Effects that differ in truth
// should not be merged: the result answers for their average.
//
// Source: Gleser & Olkin (2009), as above.
func Merge(effects []Effect, cov func(i, j int) float64) (Effect, error) {
	if err := check(effects, CommonEffect); err != nil {
		return Effect{}, err
	}
	k := len(effects)
	for _, e := range effects {
		if e.Paper != effects[0].Paper {
			return Effect{}, fmt.Errorf("papers %q and %q are two papers", effects[0].Paper, e.Paper)
		}
	}
	// Cholesky: V = L L', then solve L z = 1 and L u = y.
	l := make([][]float64, k)
	ones, ys := make([]float64, k), make([]float64, k)
	var information, sum float64
	for i, e := range effects {
		l[i] = make([]float64, i+1)
		for j := range i + 1 {
			a := e.Var
			if j < i {
				a = cov(j, i)
			}
			for p := range j {
				a -= l[i][p] * l[j][p]
			}
			if j < i {
				l[i][j] = a / l[j][j]
				continue
			}
			if !(a > 1e-14*e.Var) {
				return Effect{}, errors.New("the covariances are too large for the variances")
			}
			l[i][i] = math.Sqrt(a)
		}
		ones[i], ys[i] = 1, e.Value
		for p := range i {
			ones[i] -= l[i][p] * ones[p]
			ys[i] -= l[i][p] * ys[p]
		}
		ones[i] /= l[i][i]
		ys[i] /= l[i][i]
		information += ones[i] * ones[i]
		sum += ones[i] * ys[i]
	}
	return Effect{Value: sum / information, Var: 1 / information, Paper: effects[0].Paper}, nil
}
