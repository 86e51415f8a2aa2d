package effect

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Weibull is a two-parameter Weibull distribution of lives: by Scale, 63.2 %
// have failed. Shape is also called the Weibull modulus.
type Weibull struct {
	Shape, Scale float64
}

// WeibullFromMoments returns the Weibull distribution with a given mean and SD.
//
//	SD²/mean² + 1 = Γ(1 + 2/k) / Γ(1 + 1/k)²,  scale = mean / Γ(1 + 1/k)
//
// It is a moment estimate. The maximum-likelihood or regression estimate that a
// paper prints differs from it in small samples, so a disagreement is no
// finding by itself (see ShapeInterval). There is no threshold parameter. A
// mean or SD of zero or below is refused.
//
// Source: Johnson, Kotz & Balakrishnan (1994), Continuous Univariate
// Distributions 1, ch. 21 (from memory).
func WeibullFromMoments(mean, sd float64) (Weibull, error) {
	if err := finite(mean, sd); err != nil {
		return Weibull{}, err
	}
	if mean <= 0 || sd <= 0 {
		return Weibull{}, fmt.Errorf("mean %v and SD %v must both be above zero", mean, sd)
	}
	k, err := WeibullShape(sd / mean)
	if err != nil {
		return Weibull{}, err
	}
	return Weibull{Shape: k, Scale: mean / gammaOf(1/k)}, nil
}

// WeibullShape returns the shape with a given coefficient of variation, which
// falls as the shape rises; SD/mean may be 1e-9 to 1e9.
func WeibullShape(cv float64) (float64, error) {
	if !(cv >= 1e-9 && cv <= 1e9) {
		return 0, fmt.Errorf("SD/mean = %v must lie between 1e-9 and 1e9", cv)
	}
	want := 2 * math.Log(cv)
	lo, hi := math.Log(1e-2), math.Log(1e10) // of the shape
	for range 200 {
		mid := lo + (hi-lo)/2
		if logSquaredCV(math.Exp(-mid)) > want {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo < 1e-15*math.Max(1, math.Abs(mid)) {
			break
		}
	}
	return math.Exp(lo + (hi-lo)/2), nil
}

// logSquaredCV returns ln(SD²/mean²) of a Weibull distribution of shape 1/x.
func logSquaredCV(x float64) float64 {
	excess := weibullExcess(x) // ln(1 + SD²/mean²)
	if excess > 30 {
		return excess
	}
	return math.Log(math.Expm1(excess))
}

// weibullExcess returns ln Γ(1+2x) - 2 ln Γ(1+x). Below 0.02 the log gammas
// cancel and their series takes over: Σ (-1)^j ζ(j) (2^j - 2) x^j / j from j = 2.
func weibullExcess(x float64) float64 {
	if x > 0.02 {
		a, _ := math.Lgamma(1 + 2*x)
		b, _ := math.Lgamma(1 + x)
		return a - 2*b
	}
	zeta := [...]float64{
		2: math.Pi * math.Pi / 6, 1.2020569031595943, 1.0823232337111382, 1.0369277551433699,
		1.0173430619844491, 1.0083492773819228, 1.0040773561979443, 1.0020083928260822, 1.0009945751278181,
	}
	var sum float64
	for j := len(zeta) - 1; j >= 2; j-- {
		term := zeta[j] * (math.Pow(2, float64(j)) - 2) / float64(j) * math.Pow(x, float64(j))
		if j%2 == 1 {
			term = -term
		}
		sum += term
	}
	return sum
}

// gammaOf returns Γ(1 + x).
func gammaOf(x float64) float64 {
	lg, _ := math.Lgamma(1 + x)
	return math.Exp(lg)
}

// Mean returns the mean life, Scale Γ(1 + 1/Shape).
func (w Weibull) Mean() float64 { return w.Scale * gammaOf(1/w.Shape) }

// CV returns SD/mean, which the shape alone decides.
func (w Weibull) CV() float64 { return math.Exp(0.5 * logSquaredCV(1/w.Shape)) }

// SD returns the standard deviation of life.
func (w Weibull) SD() float64 { return w.Mean() * w.CV() }

// Life returns the life by which a share failed of all has failed:
// Scale (-ln(1 - failed))^(1/Shape). B10 is Life(0.10) and B1 is Life(0.01).
func (w Weibull) Life(failed float64) (float64, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	if !(failed > 0 && failed < 1) {
		return 0, fmt.Errorf("share failed %v must lie between 0 and 1", failed)
	}
	return w.Scale * math.Pow(-math.Log1p(-failed), 1/w.Shape), nil
}

// LifeInterval returns a confidence interval of Life for a distribution that
// was fitted to the mean and SD of n values.
//
//	ln B ± t se(ln B), n - 1 degrees of freedom
//
// with the standard error by the delta method from the large-sample variances
// of mean and SD under the fitted distribution:
//
//	var m = σ²/n, cov(m, s) = μ3/(2σn), var s = (μ4 - σ⁴)/(4σ²n)
//
// It assumes that lives are Weibull; for n near ten it is a rough guide.
//
// Source: variances: Cramér (1946), Mathematical Methods of Statistics, 27.7-8
// (from memory).
func (w Weibull) LifeInterval(failed float64, n int, level float64) (Interval, error) {
	life, err := w.Life(failed)
	if err != nil {
		return Interval{}, err
	}
	q := math.Log(-math.Log1p(-failed))
	// ln B = ln m - ln Γ(1+x) + q x with x = 1/k: by ln m it changes as 1, by
	// ln CV through x.
	return w.deltaInterval(math.Log(life), n, level, func(dx float64) (byMean, bySD float64) {
		slope := (q - digamma(1+1/w.Shape)) * dx
		return 1 - slope, slope
	})
}

// ShapeInterval returns a confidence interval of the shape of a distribution
// that was fitted to the mean and SD of n values, on the terms of LifeInterval.
// A printed modulus outside it does not go with the printed mean and SD.
func (w Weibull) ShapeInterval(n int, level float64) (Interval, error) {
	if err := w.check(); err != nil {
		return Interval{}, err
	}
	return w.deltaInterval(math.Log(w.Shape), n, level, func(dx float64) (byMean, bySD float64) {
		slope := -dx * w.Shape // of ln k by ln CV
		return -slope, slope
	})
}

// deltaInterval returns exp(log ± t se), where change gives the derivatives of
// log by ln mean and by ln SD from that of 1/shape by ln CV.
func (w Weibull) deltaInterval(log float64, n int, level float64, change func(dx float64) (byMean, bySD float64)) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if n < 2 {
		return Interval{}, fmt.Errorf("n = %d: an SD needs at least two values", n)
	}
	x := 1 / w.Shape
	// Moments about the mean in units of the mean.
	g := func(j float64) float64 { return gammaOf(j*x) / math.Pow(gammaOf(x), j) }
	cv := w.CV()
	v := cv * cv
	mu3 := g(3) - 3*g(2) + 2
	mu4 := g(4) - 4*g(3) + 6*g(2) - 3
	varM, cov, varS := v, mu3/(2*v), (mu4/(v*v)-1)/4 // of ln m and ln s, times n
	// d ln CV² / dx = 2 (ψ(1+2x) - ψ(1+x)) (1 + CV²)/CV²
	dx := v / ((1 + v) * (digamma(1+2*x) - digamma(1+x)))
	a, b := change(dx)
	se := math.Sqrt((a*a*varM + 2*a*b*cov + b*b*varS) / float64(n))
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - 1)}.Quantile(0.5 + level/2)
	return Interval{Low: math.Exp(log - t*se), High: math.Exp(log + t*se)}, nil
}

func (w Weibull) check() error {
	if err := finite(w.Shape, w.Scale); err != nil {
		return err
	}
	if w.Shape <= 0 || w.Scale <= 0 {
		return fmt.Errorf("shape %v and scale %v must both be above zero", w.Shape, w.Scale)
	}
	return nil
}

// digamma returns ψ(x), x > 0: recurrence up to 10, then DLMF 5.11.2.
func digamma(x float64) float64 {
	var sum float64
	for ; x < 10; x++ {
		sum -= 1 / x
	}
	r := 1 / (x * x)
	return sum + math.Log(x) - 0.5/x - r*(1.0/12-r*(1.0/120-r*(1.0/252-r*(1.0/240-r/132))))
}
