// Package pool combines the effects of several papers into one, and says how
// far the papers agree.
//
//	[]Effect → Result: estimate, intervals, heterogeneity, prediction
//
// Effects come on a scale where they add up and are about normal: the log ratio
// of means, or a standardised difference. The functions are pure and know no
// paper; whether effects may be combined at all (the same test, the same
// condition) is for the comparison to decide. Only the number of papers is
// guarded here: Pool refuses fewer than three.
package pool

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"probity/claims/interval"
)

// An Effect is one paper's estimate with its sampling variance.
type Effect struct {
	Value float64 // such as a log ratio
	Var   float64 // above zero
	Paper string  // which paper it comes from; empty: not known
}

// A Method says how the variance between papers, τ², is estimated. The zero
// Method is not known and is refused.
type Method int

// The methods. REML is shown to people.
const (
	CommonEffect     Method = iota + 1 // τ² taken to be zero
	DerSimonianLaird                   // moments: DerSimonian & Laird (1986), Control Clin Trials 7:177-188
	REML                               // restricted likelihood: Viechtbauer (2005), J Educ Behav Stat 30:261-293
	PauleMandel                        // generalised Q equal to its df: Paule & Mandel (1982), J Res NBS 87:377-385
)

// String names the method.
func (m Method) String() string {
	if m < CommonEffect || m > PauleMandel {
		return "not known"
	}
	return [...]string{"common effect", "DerSimonian-Laird", "REML", "Paule-Mandel"}[m-1]
}

// A Result is a combined effect on the scale of the effects.
type Result struct {
	Method   Method
	K        int     // how many effects
	Estimate float64 // Σ W y / Σ W, W = 1/(v + τ²)
	SE       float64 // 1 / sqrt(Σ W)
	Tau2     float64 // variance between papers

	// SEHK is the standard error of Hartung & Knapp (2001), Stat Med
	// 20:3875-3889, also known by Sidik & Jonkman (2002):
	// sqrt(Σ W (y-m)² / ((K-1) Σ W)). It can be narrower than SE; zero for K = 1.
	SEHK float64

	Q     float64 // Σ (y-m)²/v about the common effect
	DF    float64 // K - 1
	i2Tau float64
}

// Pool combines one effect from each of at least three papers. Fewer papers
// are refused (show them one by one), and so are two effects from one paper,
// which are not independent: see Merge. An effect without a paper counts as a
// paper of its own.
func Pool(effects []Effect, m Method) (Result, error) {
	seen := map[string]bool{}
	for _, e := range effects {
		if e.Paper != "" && seen[e.Paper] {
			return Result{}, fmt.Errorf("paper %q gives two effects, which are not independent: merge them first", e.Paper)
		}
		seen[e.Paper] = true
	}
	if len(effects) < 3 {
		return Result{}, fmt.Errorf("%d papers: at least three are needed to combine them", len(effects))
	}
	return Fit(effects, m)
}

// Fit is the arithmetic of Pool without its refusals. A single effect can be
// fitted by CommonEffect only.
//
//	w = 1/v, Q = Σ w (y - m)², C = Σ w - Σ w²/Σ w
//	DerSimonianLaird: τ² = max(0, (Q - df)/C)
//	REML: the τ² ≥ 0 of greatest restricted likelihood, all its peaks compared
//	PauleMandel: the τ² ≥ 0 with Σ W (y - m)² = df, zero if there is none
//
// Source: see the methods; Borenstein et al. (2009), Introduction to
// Meta-Analysis, chs. 11-16.
func Fit(effects []Effect, m Method) (Result, error) {
	if err := check(effects, m); err != nil {
		return Result{}, err
	}
	s := scaled(effects)
	w, estimate, q := s.at(0)
	r := Result{Method: m, K: len(effects), Q: q, DF: float64(len(effects) - 1)}
	var tau2 float64
	switch m {
	case DerSimonianLaird:
		if c := s.sumW - s.sumW2/s.sumW; c > 0 {
			tau2 = math.Max(0, (q-r.DF)/c)
		}
	case REML:
		tau2 = s.reml()
	case PauleMandel:
		tau2 = s.pauleMandel(r.DF)
	}
	typical := r.DF * s.sumW / (s.sumW*s.sumW - s.sumW2) // Higgins & Thompson's s²
	if r.DF > 0 {
		r.i2Tau = 100 * tau2 / (tau2 + typical)
	}
	var about float64
	w, estimate, about = s.at(tau2)
	r.Estimate = s.centre + s.unit*estimate
	r.SE = s.unit / math.Sqrt(w)
	r.Tau2 = s.unit * s.unit * tau2
	if r.DF > 0 {
		r.SEHK = s.unit * math.Sqrt(about/(r.DF*w))
	}
	return r, nil
}

func check(effects []Effect, m Method) error {
	switch {
	case m < CommonEffect || m > PauleMandel:
		return errors.New("the method is not known")
	case len(effects) == 0:
		return errors.New("no effects to combine")
	case len(effects) == 1 && m != CommonEffect:
		return errors.New("one effect says nothing about the variance between papers")
	}
	for i, e := range effects {
		if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) || math.IsNaN(e.Var) || math.IsInf(e.Var, 0) {
			return fmt.Errorf("effect %d: %v with variance %v must be finite numbers", i+1, e.Value, e.Var)
		}
		if e.Var <= 0 {
			return fmt.Errorf("effect %d: variance %v must be above zero", i+1, e.Var)
		}
		if math.IsInf(e.Value-effects[0].Value, 0) {
			return fmt.Errorf("effect %d: %v is too far from the first for a number", i+1, e.Value)
		}
	}
	return nil
}

// A sample holds effects about a centre and in a unit that keep their squares
// in range.
type sample struct {
	y, v         []float64
	centre, unit float64
	sumW, sumW2  float64 // of w = 1/v
}

func scaled(effects []Effect) sample {
	k := len(effects)
	buf := make([]float64, 2*k)
	s := sample{y: buf[:k], v: buf[k:], centre: effects[0].Value}
	for _, e := range effects {
		s.unit = math.Max(s.unit, math.Max(math.Sqrt(e.Var), math.Abs(e.Value-s.centre)))
	}
	for i, e := range effects {
		s.y[i] = (e.Value - s.centre) / s.unit
		s.v[i] = math.Max(e.Var/s.unit/s.unit, 1e-150)
		s.sumW += 1 / s.v[i]
		s.sumW2 += 1 / s.v[i] / s.v[i]
	}
	return s
}

// at returns Σ W, the weighted mean and Σ W (y - mean)² at a τ².
func (s sample) at(tau2 float64) (sum, mean, about float64) {
	for i, v := range s.v {
		w := 1 / (v + tau2)
		sum += w
		mean += w * s.y[i]
	}
	mean /= sum
	for i, v := range s.v {
		d := s.y[i] - mean
		about += d * d / (v + tau2)
	}
	return sum, mean, about
}

// score returns the derivative of twice the restricted log likelihood,
// -Σ W + Σ W²/Σ W + Σ W² (y - m)².
func (s sample) score(tau2 float64) float64 {
	sum, mean, _ := s.at(tau2)
	var squares, about float64
	for i, v := range s.v {
		w := 1 / (v + tau2)
		d := s.y[i] - mean
		squares += w * w
		about += w * w * d * d
	}
	return squares/sum - sum + about
}

// likelihood returns twice the restricted log likelihood, up to a constant.
func (s sample) likelihood(tau2 float64) float64 {
	sum, _, about := s.at(tau2)
	l := -math.Log(sum) - about
	for _, v := range s.v {
		l -= math.Log(v + tau2)
	}
	return l
}

// reml returns the τ² of greatest restricted likelihood. The likelihood may
// have more than one peak, so its slope is looked at on a grid first.
func (s sample) reml() float64 {
	// In these units no effect is further than 1 from the first, so τ² cannot
	// exceed 4; below 1e-12 of that it is zero to every printed digit.
	const top, points = 8.0, 24
	best, most := 0.0, s.likelihood(0)
	lo, before := 0.0, s.score(0)
	smallest := math.Inf(1)
	for _, v := range s.v {
		smallest = math.Min(smallest, v)
	}
	grid := math.Max(1e-3*smallest, 1e-12)
	factor := math.Pow(top/grid, 1.0/(points-1))
	for hi := grid; hi <= top*1.0001; hi *= factor {
		after := s.score(hi)
		if before > 0 && after <= 0 {
			peak := root(s.score, lo, hi, before, after)
			if l := s.likelihood(peak); l > most {
				best, most = peak, l
			}
		}
		lo, before = hi, after
	}
	return best
}

// pauleMandel returns the τ² at which Σ W (y - m)² falls to df.
func (s sample) pauleMandel(df float64) float64 {
	miss := func(tau2 float64) float64 {
		_, _, about := s.at(tau2)
		return about - df
	}
	at0 := miss(0)
	if at0 <= 0 {
		return 0
	}
	const top = 8.0 // at τ² = 4 every term is below 1/4 of its share already
	return root(miss, 0, top, at0, miss(top))
}

// root returns where f, positive at lo and not positive at hi, crosses zero, by
// the Illinois variant of regula falsi with bisection when that stalls.
func root(f func(float64) float64, lo, hi, flo, fhi float64) float64 {
	side := 0
	for i := range 200 {
		if fhi == 0 || hi-lo <= 1e-14*hi {
			return hi
		}
		x := (lo*fhi - hi*flo) / (fhi - flo)
		if i%8 == 7 || !(x > lo && x < hi) {
			x = 0.5 * (lo + hi)
		}
		fx := f(x)
		if fx > 0 {
			lo, flo = x, fx
			if side == 1 {
				fhi /= 2
			}
			side = 1
		} else {
			hi, fhi = x, fx
			if side == -1 {
				flo /= 2
			}
			side = -1
		}
	}
	return 0.5 * (lo + hi)
}

// Interval returns Estimate ± z SE at a level such as 0.95.
func (r Result) Interval(level float64) (interval.Interval, error) {
	return r.around(r.SE, math.Inf(1), level)
}

// IntervalHK returns Estimate ± t SEHK with K - 1 degrees of freedom, the
// convention shown to people for few papers.
func (r Result) IntervalHK(level float64) (interval.Interval, error) {
	return r.around(r.SEHK, r.DF, level)
}

// TruncatedSEHK returns the larger of SE and SEHK: use it where few papers
// agree by chance so well that Hartung and Knapp's interval is the narrower.
func (r Result) TruncatedSEHK() float64 { return math.Max(r.SE, r.SEHK) }

// IntervalTruncatedHK is IntervalHK with TruncatedSEHK.
func (r Result) IntervalTruncatedHK(level float64) (interval.Interval, error) {
	return r.around(r.TruncatedSEHK(), r.DF, level)
}

func (r Result) around(se, df, level float64) (interval.Interval, error) {
	if !(level > 0 && level < 1) {
		return interval.Interval{}, fmt.Errorf("level %v must lie between 0 and 1", level)
	}
	if !(df > 0) {
		return interval.Interval{}, fmt.Errorf("%d effects leave no degrees of freedom", r.K)
	}
	half := quantile(0.5+level/2, df) * se
	return interval.Interval{Low: r.Estimate - half, High: r.Estimate + half}, nil
}

func quantile(p, df float64) float64 {
	if math.IsInf(df, 1) {
		return distuv.UnitNormal.Quantile(p)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile(p)
}

// P returns the two-sided p of Estimate against zero, by the normal
// distribution.
func (r Result) P() float64 { return math.Erfc(math.Abs(r.Estimate/r.SE) / math.Sqrt2) }

// PHK returns the two-sided p of Estimate against zero, by t with K - 1 degrees
// of freedom and SEHK.
func (r Result) PHK() (float64, error) {
	if r.K < 2 || r.SEHK == 0 {
		return 0, fmt.Errorf("%d effects without spread leave no test", r.K)
	}
	return 2 * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: r.DF}.Survival(math.Abs(r.Estimate/r.SEHK)), nil
}

// PQ returns the p of homogeneity: the tail of chi-squared with K - 1 degrees
// of freedom beyond Q. With few papers it misses much.
func (r Result) PQ() (float64, error) {
	if r.K < 2 {
		return 0, errors.New("one effect cannot disagree")
	}
	return distuv.ChiSquared{K: r.DF}.Survival(r.Q), nil
}

// I2 returns the share of the spread that is not sampling error, in percent:
// max(0, (Q - df)/Q).
//
// Source: Higgins & Thompson (2002), Stat Med 21:1539-1558.
func (r Result) I2() (float64, error) {
	if r.K < 2 {
		return 0, errors.New("one effect cannot disagree")
	}
	if r.Q == 0 {
		return 0, nil
	}
	return 100 * math.Max(0, (r.Q-r.DF)/r.Q), nil
}

// I2Tau returns the same share from τ², 100 τ²/(τ² + s²), as R metafor prints
// it; for DerSimonianLaird the two are equal.
func (r Result) I2Tau() (float64, error) {
	if r.K < 2 {
		return 0, errors.New("one effect cannot disagree")
	}
	return r.i2Tau, nil
}

// A Prediction names a convention for the interval in which the true effect of
// another paper is expected.
type Prediction int

// The conventions. They differ much for few papers: name the one used.
const (
	PredictNormal Prediction = iota + 1 // z, sqrt(τ² + SE²)
	PredictHTS                          // t with K - 2 df: Higgins, Thompson & Spiegelhalter (2009), J R Stat Soc A 172:137-159
	PredictHK                           // t with K - 1 df, sqrt(τ² + SEHK²)
)

// Predict returns the prediction interval by a named convention. PredictHTS
// needs three effects; it is the one shown to people.
func (r Result) Predict(p Prediction, level float64) (interval.Interval, error) {
	spread := math.Sqrt(r.Tau2 + r.SE*r.SE)
	switch p {
	case PredictNormal:
		return r.around(spread, math.Inf(1), level)
	case PredictHTS:
		return r.around(spread, r.DF-1, level)
	case PredictHK:
		return r.around(math.Sqrt(r.Tau2+r.SEHK*r.SEHK), r.DF, level)
	}
	return interval.Interval{}, errors.New("the convention of prediction is not known")
}
