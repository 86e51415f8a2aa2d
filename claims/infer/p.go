package infer

import (
	"errors"
	"fmt"
	"math"
)

// A P is a probability with its logarithm, for tails below the smallest
// floating-point number.
type P struct {
	Value float64 // 0 to 1; 0 when smaller than about 1e-308
	Log10 float64 // its decimal logarithm, at most 0; -Inf when p is zero exactly
}

// pOf returns the P whose natural logarithm is ln.
func pOf(ln float64) P {
	ln = math.Min(ln, 0)
	return P{Value: math.Exp(ln), Log10: ln / math.Ln10}
}

// ln returns the natural logarithm of p.
func (p P) ln() float64 { return p.Log10 * math.Ln10 }

// Half returns p/2: the one-sided p in the direction the data point to, of a
// symmetric two-sided test.
func (p P) Half() P { return pOf(p.ln() - math.Ln2) }

// String prints p with three digits, also where it underflows: "1.23e-400".
func (p P) String() string {
	if p.Value >= 1e-300 || math.IsInf(p.Log10, -1) {
		return fmt.Sprintf("%.3g", p.Value)
	}
	whole := math.Floor(p.Log10)
	return fmt.Sprintf("%.3ge%d", math.Pow(10, p.Log10-whole), int(whole))
}

// UpperT returns P(T > t), Student's t with df > 0 degrees of freedom, which
// need not be whole and may be +Inf. The lower tail is UpperT(-t, df).
func UpperT(t, df float64) (P, error) {
	if err := checkStatistic("t", t, df); err != nil {
		return P{}, err
	}
	return pOf(logTUpper(t, df)), nil
}

// TwoSidedT returns P(|T| > |t|), Student's t with df > 0 degrees of freedom.
func TwoSidedT(t, df float64) (P, error) {
	if err := checkStatistic("t", t, df); err != nil {
		return P{}, err
	}
	return twoSidedT(t, df), nil
}

func twoSidedT(t, df float64) P { return pOf(logTUpper(math.Abs(t), df) + math.Ln2) }

// UpperZ returns P(Z > z) of the standard normal distribution.
func UpperZ(z float64) (P, error) {
	if math.IsNaN(z) || math.IsInf(z, 0) {
		return P{}, fmt.Errorf("z = %v is not a finite number", z)
	}
	return pOf(logNormalUpper(z)), nil
}

// TwoSidedZ returns P(|Z| > |z|) of the standard normal distribution.
func TwoSidedZ(z float64) (P, error) {
	if math.IsNaN(z) || math.IsInf(z, 0) {
		return P{}, fmt.Errorf("z = %v is not a finite number", z)
	}
	return pOf(logNormalUpper(math.Abs(z)) + math.Ln2), nil
}

// UpperF returns P(F > f), the p-value of an F test with df1 and df2 > 0
// degrees of freedom; df2 may be +Inf.
func UpperF(f, df1, df2 float64) (P, error) {
	if err := checkStatistic("F", f, df2); err != nil {
		return P{}, err
	}
	if !(df1 > 0) || math.IsInf(df1, 1) {
		return P{}, fmt.Errorf("df1 = %v must be a finite number above zero", df1)
	}
	if f < 0 {
		return P{}, fmt.Errorf("F = %v is negative", f)
	}
	return pOf(logFUpper(f, df1, df2)), nil
}

// UpperChiSquared returns P(X > x), chi-squared with df > 0 degrees of freedom.
func UpperChiSquared(x, df float64) (P, error) {
	if err := checkStatistic("chi-squared", x, df); err != nil {
		return P{}, err
	}
	switch {
	case math.IsInf(df, 1):
		return P{}, errors.New("df of chi-squared must be finite")
	case x < 0:
		return P{}, fmt.Errorf("chi-squared = %v is negative", x)
	}
	return pOf(logGammaUpper(df/2, x/2)), nil
}

// MannWhitneyZ returns the normal deviate of a Mann-Whitney U without ties,
// with its two-sided p.
//
//	z = (|U - n1 n2/2| - c) / sqrt(n1 n2 (n1 + n2 + 1) / 12)
//
// with continuity c = ½ when asked for and room for it. Ties make the true
// denominator smaller and p with it. Either U of the pair gives the same p.
//
// Source: Mann & Whitney (1947), Ann Math Stat 18:50-60.
func MannWhitneyZ(u float64, n1, n2 int, continuity bool) (z float64, p P, err error) {
	most := float64(n1) * float64(n2)
	switch {
	case n1 < 1 || n2 < 1:
		return 0, P{}, fmt.Errorf("group sizes %d and %d must be at least 1", n1, n2)
	case math.IsNaN(u) || u < 0 || u > most:
		return 0, P{}, fmt.Errorf("U = %v must lie between 0 and n1 n2 = %v", u, most)
	}
	distance := math.Abs(u - most/2)
	if continuity {
		distance = math.Max(0, distance-0.5)
	}
	z = distance / math.Sqrt(most*float64(n1+n2+1)/12)
	return z, pOf(logNormalUpper(z) + math.Ln2), nil
}

// SmallestMannWhitneyP returns the least two-sided p that an exact
// Mann-Whitney test of two groups can give, 2 / C(n1 + n2, n1), reached when
// the groups do not overlap. A smaller printed exact p is impossible.
func SmallestMannWhitneyP(n1, n2 int) (P, error) {
	if n1 < 1 || n2 < 1 {
		return P{}, fmt.Errorf("group sizes %d and %d must be at least 1", n1, n2)
	}
	a, b := float64(n1), float64(n2)
	// ln C(n1+n2, n1) = -ln(n1+n2+1) - ln B(n1+1, n2+1)
	return pOf(math.Ln2 + math.Log(a+b+1) + logBeta(a+1, b+1)), nil
}

// TCritical returns the t that a two-sided test at level alpha must pass: the
// t > 0 with P(|T| > t) = alpha. For a confidence interval of level 95 %,
// alpha is 0.05. df may be +Inf.
func TCritical(alpha, df float64) (float64, error) {
	if !(alpha > 0 && alpha < 1) {
		return 0, fmt.Errorf("alpha = %v must lie between 0 and 1", alpha)
	}
	if !(df > 0) {
		return 0, fmt.Errorf("df = %v must be above zero", df)
	}
	return tUpperQuantile(math.Log(alpha)-math.Ln2, df), nil
}

// tUpperQuantile returns the t ≥ 0 whose upper tail has the natural logarithm
// lq ≤ ln ½, by Newton's method on the logarithms of t and of its tail.
func tUpperQuantile(lq, df float64) float64 {
	z := normalUpperQuantile(lq)
	if math.IsInf(df, 1) {
		return z
	}
	// First guess: Wallace (1959), Ann Math Stat 30:1121-1130.
	c := z * (8*df + 3) / (8*df + 1)
	t := math.Sqrt(df * math.Expm1(math.Min(c*c/df, 600)))
	if t == 0 {
		return 0
	}
	density := -0.5*math.Log(df) - logBeta(df/2, 0.5)
	lo, hi := 0.0, math.Inf(1)
	for range 200 {
		tail := logTUpper(t, df)
		miss := tail - lq
		pdf := density - 0.5*(df+1)*math.Log1p(t/df*t)
		step := clamp(miss/(math.Exp(pdf-tail)*t), -3, 3) // -miss / (d tail / d ln t)
		next := t * math.Exp(step)
		if math.Abs(step) <= 4e-15 || math.Abs(miss) <= 2e-16*math.Max(1, -lq) {
			return next
		}
		if miss > 0 {
			lo = t
		} else {
			hi = t
		}
		switch {
		case next > lo && next < hi:
			t = next
		case math.IsInf(hi, 1):
			t = 2 * lo
		default:
			t = 0.5 * (lo + hi)
		}
	}
	return t
}

// normalUpperQuantile returns the z ≥ 0 whose upper tail has the natural
// logarithm lq ≤ ln ½.
func normalUpperQuantile(lq float64) float64 {
	// Abramowitz & Stegun 26.2.23, then Newton's method on ln tail.
	r := math.Sqrt(-2 * lq)
	z := math.Max(0, r-(2.515517+r*(0.802853+r*0.010328))/(1+r*(1.432788+r*(0.189269+r*0.001308))))
	for range 8 {
		tail := logNormalUpper(z)
		step := (tail - lq) / math.Exp(-0.5*z*z-0.5*math.Log(2*math.Pi)-tail)
		z += step
		if math.Abs(step) <= 1e-16*math.Abs(z) {
			break
		}
	}
	return math.Max(0, z)
}

func clamp(x, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, x)) }

func checkStatistic(name string, x, df float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("%s = %v is not a finite number", name, x)
	}
	if !(df > 0) {
		return fmt.Errorf("df = %v must be above zero", df)
	}
	return nil
}
