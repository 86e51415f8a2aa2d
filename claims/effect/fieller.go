package effect

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Spread says how the variances of two means enter an interval. The zero
// Spread is not known and is refused.
type Spread int

// The conventions of spread.
const (
	Separate Spread = iota + 1 // an SD for each arm, Satterthwaite df: shown to people
	Pooled                     // one SD from both arms, df na + nb - 2
	Normal                     // an SD for each arm, normal quantile
)

// A SetKind is the shape of a Fieller set.
type SetKind int

// The shapes: only a bounded set is an interval.
const (
	Bounded SetKind = iota + 1
	TwoRays         // everything outside the limits: the denominator may be zero
	WholeLine
)

// String names the shape.
func (k SetKind) String() string {
	if k < Bounded || k > WholeLine {
		return "not known"
	}
	return [...]string{"bounded", "two-rays", "whole-line"}[k-1]
}

// A FiellerSet is every ratio of the true means that the data do not reject.
type FiellerSet struct {
	Ratio float64 // ma / mb
	DF    float64 // +Inf for Normal; zero when Separate has no spread at all
	G     float64 // t² var(mb) / mb²: at 1 and above the set is unbounded
	Kind  SetKind

	limits Interval
}

// Fieller returns the confidence set of the ratio of two means at a level such
// as 0.95.
//
//	{ρ : (ma - ρ mb)² ≤ t² (Va + ρ² Vb)}
//	g = t² Vb/mb²; for g < 1 the limits are
//	(R ± t/mb sqrt(Va + R² Vb - g Va)) / (1 - g)
//
// Separate: V = s²/n each, df = (Va + R²Vb)² / (Va²/(na-1) + R⁴Vb²/(nb-1)).
// Pooled: V = sp²/n, df = na+nb-2. It assumes normal means, not positive ones;
// only a denominator of exactly zero has no ratio. When the set is not bounded
// the denominator cannot be told from zero and Interval refuses.
//
// Source: Fieller (1954), J R Stat Soc B 16:175-185 (from memory); df: Tamhane
// & Logan (2004), Biometrical J 46:703-718, as in the R package mratios.
func Fieller(a, b Arm, spread Spread, level float64) (FiellerSet, error) {
	if err := checkArms(a, b); err != nil {
		return FiellerSet{}, err
	}
	if err := checkLevel(level); err != nil {
		return FiellerSet{}, err
	}
	if b.Mean == 0 {
		return FiellerSet{}, errors.New("the mean in the denominator is zero")
	}
	// Everything in units of mb.
	r, sa, sb := a.Mean/b.Mean, a.SD/b.Mean, b.SD/b.Mean
	na, nb := float64(a.N), float64(b.N)
	va, vb := sa*sa/na, sb*sb/nb
	if err := finite(r, va, vb); err != nil {
		return FiellerSet{}, fmt.Errorf("the means are too far apart: %w", err)
	}
	f := FiellerSet{Ratio: r}
	var t float64
	switch spread {
	case Separate:
		if va+r*r*vb > 0 {
			share := va / (va + r*r*vb)
			f.DF = 1 / (share*share/(na-1) + (1-share)*(1-share)/(nb-1))
			t = tCritical(level, f.DF)
		}
	case Pooled:
		f.DF = na + nb - 2
		pooled := ((na-1)*sa*sa + (nb-1)*sb*sb) / f.DF
		va, vb = pooled/na, pooled/nb
		t = tCritical(level, f.DF)
	case Normal:
		f.DF = math.Inf(1)
		t = distuv.UnitNormal.Quantile(0.5 + level/2)
	default:
		return FiellerSet{}, errors.New("the convention of spread is not known")
	}
	f.G = t * t * vb
	disc := va + r*r*vb - f.G*va
	switch {
	case f.G < 1:
		f.Kind = Bounded
	case disc >= 0 && f.G > 1:
		f.Kind = TwoRays
	default:
		f.Kind = WholeLine
		return f, nil
	}
	root := t * math.Sqrt(math.Max(0, disc))
	x, y := (r-root)/(1-f.G), (r+root)/(1-f.G)
	f.limits = Interval{Low: math.Min(x, y), High: math.Max(x, y)}
	return f, nil
}

// Interval returns the limits of a bounded set, as a ratio.
func (f FiellerSet) Interval() (Interval, error) {
	if f.Kind != Bounded {
		return Interval{}, fmt.Errorf("the denominator is not distinguishable from zero (g = %.3g, %s): no interval", f.G, f.Kind)
	}
	return f.limits, nil
}

// Outside returns the gap between the two rays of a TwoRays set: the ratios
// that the data do reject.
func (f FiellerSet) Outside() (Interval, error) {
	if f.Kind != TwoRays {
		return Interval{}, fmt.Errorf("a set that is %s has no gap", f.Kind)
	}
	return f.limits, nil
}
