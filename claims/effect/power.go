package effect

import (
	"fmt"
	"math"
)

// Power returns the chance that a two-sided Student test at level alpha finds a
// true standardised difference d between two arms of na and nb specimens.
//
//	P(|T| > t), T noncentral t with df = na + nb - 2, ncp = d sqrt(na nb/(na+nb))
//
// It counts rejections in either direction. It assumes normal data with equal
// spread.
//
// Source: Cohen (1988), Statistical Power Analysis for the Behavioral Sciences.
func Power(d float64, na, nb int, alpha float64) (float64, error) {
	if err := finite(d); err != nil {
		return 0, err
	}
	p, err := newPower(na, nb, alpha)
	if err != nil {
		return 0, err
	}
	return p.at(math.Abs(d)), nil
}

// Detectable returns the least standardised difference that a two-sided Student
// test at level alpha finds with a given power: Power(Detectable) = power. A
// smaller true difference is likely to be missed by such a study.
func Detectable(na, nb int, alpha, power float64) (float64, error) {
	p, err := newPower(na, nb, alpha)
	if err != nil {
		return 0, err
	}
	if !(power > alpha && power < 1) {
		return 0, fmt.Errorf("power %v must lie between alpha = %v and 1", power, alpha)
	}
	lo, hi := 0.0, 1.0
	for p.at(hi) < power {
		lo, hi = hi, 2*hi
		if hi > 1e6 {
			return 0, fmt.Errorf("no difference is found with power %v", power)
		}
	}
	for range 100 {
		mid := 0.5 * (lo + hi)
		if p.at(mid) < power {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo < 1e-13*hi {
			break
		}
	}
	return 0.5 * (lo + hi), nil
}

// A powerOf computes the power of one design at any difference.
type powerOf struct {
	root float64 // sqrt(na nb/(na+nb))
	crit noncentralT
}

func newPower(na, nb int, alpha float64) (powerOf, error) {
	if na < 2 || nb < 2 {
		return powerOf{}, fmt.Errorf("n = %d and %d: at least two specimens in each arm", na, nb)
	}
	if !(alpha > 0 && alpha < 1) {
		return powerOf{}, fmt.Errorf("alpha = %v must lie between 0 and 1", alpha)
	}
	a, b := float64(na), float64(nb)
	df := a + b - 2
	return powerOf{math.Sqrt(a * b / (a + b)), newNoncentralT(tCritical(1-alpha, df), df)}, nil
}

func (p powerOf) at(d float64) float64 {
	ncp := d * p.root
	below, _ := p.crit.cdf(ncp)
	far, _ := p.crit.cdf(-ncp) // P(T > -t; ncp) by symmetry
	return 1 - below + (1 - far)
}
