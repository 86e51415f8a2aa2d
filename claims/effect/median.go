package effect

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A FiveNumbers is a sample described by its median with its range, its
// quartiles, or both. Which of them are known is said, since zero is a value.
type FiveNumbers struct {
	Min, Q1, Median, Q3, Max float64
	HasRange                 bool // Min and Max are known
	HasQuartiles             bool // Q1 and Q3 are known
	N                        int
}

// Check returns an error unless the figures known stand in order and there is
// a range or a pair of quartiles among them.
func (f FiveNumbers) Check() error {
	if f.N < 1 {
		return fmt.Errorf("n = %d: no values", f.N)
	}
	list := []float64{f.Median}
	if f.HasQuartiles {
		list = []float64{f.Q1, f.Median, f.Q3}
	}
	if f.HasRange {
		list = append(append([]float64{f.Min}, list...), f.Max)
	}
	if len(list) == 1 {
		return errors.New("a median alone says nothing about the SD: range or quartiles are needed")
	}
	for i, x := range list {
		if err := finite(x); err != nil {
			return err
		}
		if i > 0 && x < list[i-1] {
			return fmt.Errorf("%v are not in order", list)
		}
	}
	return nil
}

// MeanWan returns the mean of a symmetric sample as estimated by
//
//	(a + 2m + b)/4,  (q1 + m + q3)/3,  (a + 2q1 + 2m + 2q3 + b)/8
//
// from the range, the quartiles, or both.
//
// Source: Wan et al. (2014), BMC Med Res Methodol 14:135.
func (f FiveNumbers) MeanWan() (float64, error) {
	if err := f.Check(); err != nil {
		return 0, err
	}
	switch {
	case f.HasRange && f.HasQuartiles:
		return (f.Min + 2*f.Q1 + 2*f.Median + 2*f.Q3 + f.Max) / 8, nil
	case f.HasRange:
		return (f.Min + 2*f.Median + f.Max) / 4, nil
	}
	return (f.Q1 + f.Median + f.Q3) / 3, nil
}

// MeanLuo returns the mean of a normal sample with weights that depend on n:
//
//	range:     w (a+b)/2 + (1-w) m,   w = 4/(4 + n^0.75)
//	quartiles: w (q1+q3)/2 + (1-w) m, w = 0.7 + 0.39/n
//	both:      w1 (a+b)/2 + w2 (q1+q3)/2 + (1-w1-w2) m,
//	           w1 = 2.2/(2.2 + n^0.75), w2 = 0.7 - 0.72/n^0.55
//
// Source: Luo et al. (2018), Stat Methods Med Res 27:1785-1805.
func (f FiveNumbers) MeanLuo() (float64, error) {
	if err := f.Check(); err != nil {
		return 0, err
	}
	n := float64(f.N)
	ends, quartiles := f.Min/2+f.Max/2, f.Q1/2+f.Q3/2
	switch {
	case f.HasRange && f.HasQuartiles:
		w1, w2 := 2.2/(2.2+math.Pow(n, 0.75)), 0.7-0.72/math.Pow(n, 0.55)
		return w1*ends + w2*quartiles + (1-w1-w2)*f.Median, nil
	case f.HasRange:
		w := 4 / (4 + math.Pow(n, 0.75))
		return w*ends + (1-w)*f.Median, nil
	}
	w := 0.7 + 0.39/n
	return w*quartiles + (1-w)*f.Median, nil
}

// SDWan returns the SD of a normal sample:
//
//	range: (b-a)/ξ,  quartiles: (q3-q1)/η,  both: the mean of the two
//
// with ξ and η by XiApprox and EtaApprox. It needs n of at least 2.
//
// Source: Wan et al. (2014), BMC Med Res Methodol 14:135.
func (f FiveNumbers) SDWan() (float64, error) {
	ends, quartiles, err := f.spreads()
	switch {
	case err != nil:
		return 0, err
	case f.HasRange && f.HasQuartiles:
		return (ends + quartiles) / 2, nil
	case f.HasRange:
		return ends, nil
	}
	return quartiles, nil
}

// SDShi returns the SD of a normal sample from all five numbers with a weight
// that depends on n.
//
//	w (b-a)/ξ + (1-w) (q3-q1)/η,  w = 1/(1 + 0.07 n^0.6)
//
// Source: Shi et al. (2020), Res Synth Methods 11:641-654.
func (f FiveNumbers) SDShi() (float64, error) {
	if !f.HasRange || !f.HasQuartiles {
		return 0, errors.New("this estimate needs range and quartiles")
	}
	ends, quartiles, err := f.spreads()
	w := 1 / (1 + 0.07*math.Pow(float64(f.N), 0.6))
	return w*ends + (1-w)*quartiles, err
}

// spreads returns (b-a)/ξ and (q3-q1)/η.
func (f FiveNumbers) spreads() (ends, quartiles float64, err error) {
	if err := f.Check(); err != nil {
		return 0, 0, err
	}
	xi, err := XiApprox(f.N)
	if err != nil {
		return 0, 0, err
	}
	eta, err := EtaApprox(f.N)
	return (f.Max - f.Min) / xi, (f.Q3 - f.Q1) / eta, err
}

// Skewed reports whether the sample is too lopsided for the estimates above,
// which hold for normal data only: keep the median then.
//
//	range:     |a + b - 2m| / (b - a)     > 2.5/(n+1) + 1/ln(n+9)
//	quartiles: |q1 + q3 - 2m| / (q3 - q1) > 2.65/√n - 6/n²
//
// With both, either is enough.
//
// Source: Shi et al. (2023), Stat Methods Med Res 32:1338-1360 (from memory;
// the rule as rounded in public code).
func (f FiveNumbers) Skewed() (bool, error) {
	if err := f.Check(); err != nil {
		return false, err
	}
	n := float64(f.N)
	lopsided := func(lo, hi, limit float64) bool {
		return hi > lo && math.Abs((lo-f.Median)+(hi-f.Median))/(hi-lo) > limit
	}
	return f.HasRange && lopsided(f.Min, f.Max, 2.5/(n+1)+1/math.Log(n+9)) ||
		f.HasQuartiles && lopsided(f.Q1, f.Q3, 2.65/math.Sqrt(n)-6/(n*n)), nil
}

// XiApprox returns the expected range of n ≥ 2 standard normal values by Blom's
// approximation, 2 Φ⁻¹((n - 0.375)/(n + 0.25)).
//
// Source: Wan et al. (2014), eq. 9.
func XiApprox(n int) (float64, error) {
	if n < 2 {
		return 0, fmt.Errorf("n = %d: a range needs at least two values", n)
	}
	return 2 * distuv.UnitNormal.Quantile((float64(n)-0.375)/(float64(n)+0.25)), nil
}

// EtaApprox returns the expected interquartile range of n ≥ 2 standard normal
// values, 2 Φ⁻¹((0.75n - 0.125)/(n + 0.25)).
//
// Source: Wan et al. (2014), eq. 16.
func EtaApprox(n int) (float64, error) {
	if n < 2 {
		return 0, fmt.Errorf("n = %d: a range needs at least two values", n)
	}
	return 2 * distuv.UnitNormal.Quantile((0.75*float64(n)-0.125)/(float64(n)+0.25)), nil
}

// Xi returns the expected range of n ≥ 2 standard normal values,
//
//	∫ (1 - Φ(x)ⁿ - (1 - Φ(x))ⁿ) dx
//
// to about 1e-12. Table 1 of Wan et al. (2014) prints it to three decimals.
//
// Source: Tippett (1925), Biometrika 17:364-387.
func Xi(n int) (float64, error) {
	if n < 2 {
		return 0, fmt.Errorf("n = %d: a range needs at least two values", n)
	}
	const step = 0.05
	var sum float64
	for i := -250; i <= 250; i++ {
		x := float64(i) * step
		q := 0.5 * math.Erfc(x/math.Sqrt2)
		sum += -math.Expm1(float64(n)*math.Log1p(-q)) - math.Pow(q, float64(n))
	}
	return sum * step, nil
}
