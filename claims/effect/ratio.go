package effect

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Ratio is the ratio of two means on the natural-log scale, where it is
// symmetric: ln(ma/mb) > 0 when a has the larger mean.
type Ratio struct {
	Log float64 // ln of the ratio
	Var float64 // variance of Log; zero when both SDs are zero
	DF  float64 // Satterthwaite's degrees of freedom of Var; zero when Var is zero

	// How well each mean is fixed: s/(m sqrt n), and Geary's statistic, +Inf
	// without spread. Below 3 in either arm the log scale is unreliable.
	CVa, CVb       float64
	GearyA, GearyB float64
}

// LogRatio compares two positive means by the logarithm of their ratio.
//
//	L   = ln(ma / mb)
//	var = ca + cb,  c = s²/(n m²)
//	df  = (ca + cb)² / (ca²/(na-1) + cb²/(nb-1))
//
// The arms are independent; the quantity has a true zero. A mean of zero or
// below has no logarithm and is refused. This is the ratio shown to people,
// with Interval.
//
// Source: Hedges, Gurevitch & Curtis (1999), Ecology 80:1150-1156 (from
// memory; equals the measure "ROM" of R metafor); df: Satterthwaite (1946),
// Biometrics Bull 2:110-114.
func LogRatio(a, b Arm) (Ratio, error) {
	ca, cb, err := squaredErrors(a, b)
	if err != nil {
		return Ratio{}, err
	}
	r := Ratio{
		Log: math.Log(a.Mean) - math.Log(b.Mean), Var: ca + cb,
		CVa: math.Sqrt(ca), CVb: math.Sqrt(cb),
		GearyA: geary(a), GearyB: geary(b),
	}
	if q := a.Mean / b.Mean; q > 0.5 && q < 2 { // keep the digits of a small difference
		r.Log = math.Log1p((a.Mean - b.Mean) / b.Mean)
	}
	if r.Var > 0 {
		share := ca / r.Var
		r.DF = 1 / (share*share/float64(a.N-1) + (1-share)*(1-share)/float64(b.N-1))
	}
	return r, nil
}

// LogRatioDelta is LogRatio corrected for small samples by a second-order
// expansion; its DF is that of LogRatio.
//
//	L   = ln(ma/mb) + (ca - cb)/2
//	var = ca + cb + (ca² + cb²)/2
//
// Some public code divides the last term by 4; the expansion gives 2.
//
// Source: Lajeunesse (2015), Ecology 96:2056-2063, "delta" (from memory).
func LogRatioDelta(a, b Arm) (Ratio, error) {
	r, err := LogRatio(a, b)
	if err != nil {
		return Ratio{}, err
	}
	ca, cb := r.CVa*r.CVa, r.CVb*r.CVb
	r.Log += (ca - cb) / 2
	r.Var += (ca*ca + cb*cb) / 2
	return r, nil
}

// LogRatioSigma is LogRatio corrected for small samples by the moments of a
// lognormal distribution; its DF is that of LogRatio.
//
//	L   = ½ ln((ma² + sa²/na) / (mb² + sb²/nb))
//	var = 2 (ca + cb) - ln(1 + ca + cb + ca cb)
//
// Source: Lajeunesse (2015), Ecology 96:2056-2063, "sigma" (from memory).
func LogRatioSigma(a, b Arm) (Ratio, error) {
	r, err := LogRatio(a, b)
	if err != nil {
		return Ratio{}, err
	}
	ca, cb := r.CVa*r.CVa, r.CVb*r.CVb
	r.Log += 0.5 * (math.Log1p(ca) - math.Log1p(cb))
	r.Var = 2*(ca+cb) - math.Log1p(ca) - math.Log1p(cb)
	return r, nil
}

// squaredErrors returns s²/(n m²) of both arms.
func squaredErrors(a, b Arm) (ca, cb float64, err error) {
	if err := checkArms(a, b); err != nil {
		return 0, 0, err
	}
	if a.Mean <= 0 || b.Mean <= 0 {
		return 0, 0, fmt.Errorf("means %v and %v: a ratio needs both above zero", a.Mean, b.Mean)
	}
	square := func(x Arm) float64 { cv := x.SD / x.Mean; return cv * cv / float64(x.N) }
	ca, cb = square(a), square(b)
	return ca, cb, finite(ca, cb)
}

// geary returns (m/s) 4 n^1.5 / (1 + 4n).
//
// Source: Geary (1930), J R Stat Soc 93:442-446, in the form of Lajeunesse
// (2015), eq. 13 (from memory).
func geary(a Arm) float64 {
	n := float64(a.N)
	return a.Mean / a.SD * 4 * n * math.Sqrt(n) / (1 + 4*n)
}

// Reliable reports whether both means are fixed well enough for the log scale:
// Geary's statistic at least 3 in each arm.
func (r Ratio) Reliable() bool { return r.GearyA >= 3 && r.GearyB >= 3 }

// Ratio returns the ratio itself, exp(Log).
func (r Ratio) Ratio() float64 { return math.Exp(r.Log) }

// Percent returns the change in percent of b, 100 (exp(Log) - 1).
func (r Ratio) Percent() float64 { return 100 * math.Expm1(r.Log) }

// SE returns the standard error of Log.
func (r Ratio) SE() float64 { return math.Sqrt(r.Var) }

// Interval returns the confidence interval of Log with Student's t at the
// Satterthwaite df, the convention shown to people. Without any spread there
// is none.
func (r Ratio) Interval(level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if !(r.Var > 0) {
		return Interval{}, errNoSpread
	}
	half := tCritical(level, r.DF) * r.SE()
	return Interval{Low: r.Log - half, High: r.Log + half}, nil
}

// NormalInterval returns the confidence interval of Log with the normal
// quantile, the convention of most meta-analyses: Log ± z SE. Without any
// spread it collapses to Log.
func (r Ratio) NormalInterval(level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	half := distuv.UnitNormal.Quantile(0.5+level/2) * r.SE()
	return Interval{Low: r.Log - half, High: r.Log + half}, nil
}

// AsRatio takes an interval from the log scale to the ratio.
func AsRatio(log Interval) Interval {
	return Interval{Low: math.Exp(log.Low), High: math.Exp(log.High)}
}

// AsPercent takes an interval from the log scale to the change in percent.
func AsPercent(log Interval) Interval {
	return Interval{Low: 100 * math.Expm1(log.Low), High: 100 * math.Expm1(log.High)}
}
