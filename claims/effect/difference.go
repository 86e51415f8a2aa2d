package effect

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Difference is the distance of two means in their own unit.
type Difference struct {
	Value float64 // ma - mb
	SE    float64 // standard error of Value
	DF    float64 // Welch's degrees of freedom; zero when both SDs are zero
}

// Subtract compares two independent means by their difference.
//
//	D = ma - mb, SE = sqrt(sa²/na + sb²/nb), df by Welch-Satterthwaite
//
// Source: Welch (1947), Biometrika 34:28-35.
func Subtract(a, b Arm) (Difference, error) {
	if err := checkArms(a, b); err != nil {
		return Difference{}, err
	}
	d := Difference{Value: a.Mean - b.Mean}
	if err := finite(d.Value); err != nil {
		return Difference{}, err
	}
	if scale := math.Max(a.SD, b.SD); scale > 0 {
		va, vb := a.SD/scale*(a.SD/scale)/float64(a.N), b.SD/scale*(b.SD/scale)/float64(b.N)
		share := va / (va + vb)
		d.SE = scale * math.Sqrt(va+vb)
		d.DF = 1 / (share*share/float64(a.N-1) + (1-share)*(1-share)/float64(b.N-1))
	}
	return d, nil
}

// Interval returns the confidence interval D ± t SE with Welch's df. Without
// any spread there is none.
func (d Difference) Interval(level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if !(d.SE > 0) {
		return Interval{}, errNoSpread
	}
	half := tCritical(level, d.DF) * d.SE
	return Interval{Low: d.Value - half, High: d.Value + half}, nil
}

// CommonLanguage returns the probability that a value drawn from arm a is
// larger than one drawn from arm b, both normal with their own SD.
//
//	Φ((ma - mb) / sqrt(sa² + sb²))
//
// Source: McGraw & Wong (1992), Psychol Bull 111:361-365.
func CommonLanguage(a, b Arm) (float64, error) {
	if err := checkArms(a, b); err != nil {
		return 0, err
	}
	spread := math.Hypot(a.SD, b.SD)
	if spread == 0 {
		return 0, errNoSpread
	}
	return distuv.UnitNormal.CDF((a.Mean - b.Mean) / spread), nil
}
