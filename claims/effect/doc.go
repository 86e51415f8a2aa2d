// Package effect computes how large a difference is, from summary figures.
//
//	two Arms → ratio, difference or standardised difference, with interval
//
// It also holds the conversions that lead to an Arm (standard errors,
// confidence intervals, medians, groups put together), the life of a Weibull
// distribution with a given mean and SD, and the power of a comparison. Each
// convention has a name, and no result mixes two. The functions are pure; what
// a paper meant by its figures is left to the checks.
package effect

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"probity/claims/interval"
)

// An Arm is one group in summary: mean, sample SD and size.
type Arm = interval.Arm

// An Interval is a closed range of results.
type Interval = interval.Interval

// tCritical returns the t with P(|T| > t) = 1 - level.
func tCritical(level, df float64) float64 {
	if df > 1e7 { // where the quantile below loses digits; the two agree to 1e-7
		return distuv.UnitNormal.Quantile(0.5 + level/2)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile(0.5 + level/2)
}

func checkLevel(level float64) error {
	if !(level > 0 && level < 1) {
		return fmt.Errorf("level %v of confidence must lie between 0 and 1", level)
	}
	return nil
}

func checkArms(a, b Arm) error {
	if err := a.Check(); err != nil {
		return fmt.Errorf("first arm: %w", err)
	}
	if err := b.Check(); err != nil {
		return fmt.Errorf("second arm: %w", err)
	}
	return nil
}

func finite(xs ...float64) error {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("%v is not a finite number", x)
		}
	}
	return nil
}

var errNoSpread = errors.New("both SDs are zero: there is no interval")
