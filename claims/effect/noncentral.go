package effect

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// A noncentralT computes P(T ≤ t) of the noncentral t distribution at one t ≥ 0
// and df for any noncentrality.
//
//	P(T ≤ t; df, δ) = ∫ f(s) Φ(t s - δ) ds, f the density of sqrt(chi-squared_df / df)
//
// by the trapezoidal rule over ln s, which converges exponentially for this
// integrand. The points and weights do not depend on δ, so a root search over δ
// costs little; no δ is too large, unlike the series of AS 243 (Lenth 1989),
// which stop near 37.6.
type noncentralT struct {
	t      float64
	df     float64
	points []nctPoint // empty: s is as good as continuous beside Z, see wide
}

type nctPoint struct {
	x      float64 // t s
	weight float64
	above  float64 // sum of the weights of this and all higher points
}

// widest is the ratio of the spread of t s to that of the normal part from
// which the roles of the two are exchanged.
const widest = 400

func newNoncentralT(t, df float64) noncentralT {
	d := noncentralT{t: t, df: df}
	if t > widest*math.Sqrt(2*df) {
		return d
	}
	step := math.Min(0.14, 0.8/math.Sqrt(2*df+t*t))
	log := func(u float64) float64 { return df * (u - 0.5*math.Expm1(2*u)) }
	first, last := -edge(log, -1, step), edge(log, 1, step)
	d.points = make([]nctPoint, last-first+1)
	var sum float64
	for i := len(d.points) - 1; i >= 0; i-- {
		u := float64(first+i) * step
		w := math.Exp(log(u))
		sum += w
		d.points[i] = nctPoint{x: t * math.Exp(u), weight: w, above: sum}
	}
	for i := range d.points {
		d.points[i].weight /= sum
		d.points[i].above /= sum
	}
	return d
}

// edge returns how many steps lead from the peak of a log density at zero to
// where it is below 1e-17 of the peak.
func edge(log func(float64) float64, way, step float64) int {
	const drop = -39.2
	far := step
	for log(way*far) > drop {
		far *= 2
	}
	near := far / 2
	for far-near > step {
		if mid := 0.5 * (near + far); log(way*mid) > drop {
			near = mid
		} else {
			far = mid
		}
	}
	return int(math.Ceil(far / step))
}

// cdf returns P(T ≤ t) at noncentrality ncp, and minus its derivative by ncp.
func (d noncentralT) cdf(ncp float64) (p, slope float64) {
	if d.points == nil {
		return d.wide(ncp)
	}
	const reach = 8.6 // Φ(-reach) is below 1e-17
	lo, hi := 0, len(d.points)
	for lo < hi {
		if mid := (lo + hi) / 2; d.points[mid].x < ncp-reach {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	for _, pt := range d.points[lo:] {
		z := pt.x - ncp
		if z > reach {
			p += pt.above
			break
		}
		p += pt.weight * 0.5 * math.Erfc(-z/math.Sqrt2)
		slope += pt.weight * math.Exp(-0.5*z*z)
	}
	return p, slope / math.Sqrt(2*math.Pi)
}

// wide integrates over the normal part instead:
//
//	P(T ≤ t) = ∫ φ(z) P(s ≥ (z + δ)/t) dz
func (d noncentralT) wide(ncp float64) (p, slope float64) {
	const step = 0.7
	upper := func(z float64) float64 {
		s := (z + ncp) / d.t
		if s <= 0 {
			return 1
		}
		return mathext.GammaIncRegComp(d.df/2, d.df/2*s*s)
	}
	for i := -13; i <= 13; i++ {
		z := float64(i) * step
		w := step * math.Exp(-0.5*z*z) / math.Sqrt(2*math.Pi)
		u := upper(z)
		p += w * u
		slope -= w * z * u // by parts: ∫ φ U' = ∫ z φ U
	}
	return p, slope
}

// NoncentralT returns P(T ≤ t) of the noncentral t distribution with df > 0
// degrees of freedom and noncentrality ncp, to about 1e-13.
//
// Source: definition; see the comment at noncentralT for the method.
func NoncentralT(t, df, ncp float64) (float64, error) {
	if err := finite(t, df, ncp); err != nil {
		return 0, err
	}
	if !(df > 0) {
		return 0, fmt.Errorf("df = %v must be above zero", df)
	}
	if t < 0 {
		p, _ := newNoncentralT(-t, df).cdf(-ncp)
		return 1 - p, nil
	}
	p, _ := newNoncentralT(t, df).cdf(ncp)
	return p, nil
}

// NoncentralityInterval returns the noncentralities that a t observed on df
// degrees of freedom does not reject at a level such as 0.95: L with
// P(T ≤ t; L) = (1 + level)/2 and U with P(T ≤ t; U) = (1 - level)/2.
//
// Source: Steiger & Fouladi (1997), in Harlow et al., What If There Were No
// Significance Tests?
func NoncentralityInterval(t, df, level float64) (Interval, error) {
	if err := finite(t, df); err != nil {
		return Interval{}, err
	}
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if !(df > 0) {
		return Interval{}, fmt.Errorf("df = %v must be above zero", df)
	}
	d := newNoncentralT(math.Abs(t), df)
	tail := 0.5 * (1 - level)
	lo, errLo := d.ncp(1 - tail)
	hi, errHi := d.ncp(tail)
	if err := errors.Join(errLo, errHi); err != nil {
		return Interval{}, err
	}
	if t < 0 {
		return Interval{Low: -hi, High: -lo}, nil
	}
	return Interval{Low: lo, High: hi}, nil
}

// ncp returns the noncentrality at which P(T ≤ t) is p: Newton's method on the
// normal deviate of p, which is nearly straight in the noncentrality.
func (d noncentralT) ncp(p float64) (float64, error) {
	want := distuv.UnitNormal.Quantile(p)
	x := d.t - want*math.Sqrt(1+d.t*d.t/(2*d.df))
	lo, hi := math.Inf(-1), math.Inf(1)
	for range 200 {
		got, slope := d.cdf(x)
		if got > p {
			lo = x
		} else {
			hi = x
		}
		next := math.NaN()
		if got > 1e-15 && got < 1-1e-15 && slope > 0 {
			z := distuv.UnitNormal.Quantile(got)
			density := math.Exp(-0.5*z*z) / math.Sqrt(2*math.Pi)
			next = x + (z-want)*density/slope
		}
		if math.Abs(next-x) <= 1e-13*(1+math.Abs(x)) {
			return next, nil
		}
		switch {
		case next > lo && next < hi:
			x = next
		case math.IsInf(lo, -1):
			x = hi - 2*(1+math.Abs(hi-d.t))
		case math.IsInf(hi, 1):
			x = lo + 2*(1+math.Abs(lo-d.t))
		default:
			x = 0.5 * (lo + hi)
			if hi-lo <= 1e-13*(1+math.Abs(x)) {
				return x, nil
			}
		}
	}
	return 0, fmt.Errorf("no noncentrality found for t = %v, df = %v", d.t, d.df)
}
