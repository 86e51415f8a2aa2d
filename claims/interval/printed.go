package interval

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// A Printed is one numeral as it stands in print, with the exact edges of the
// numbers that round to it. The zero Printed is a figure that is not known,
// and functions refuse it.
type Printed struct {
	value     float64
	decimals  int     // digits printed after the point
	mid       decimal // the figure itself
	low, high decimal // closed: half-up and half-even writers both fit
	known     bool
}

// A decimal is coef × 10^exp, exactly.
type decimal struct {
	coef int64
	exp  int
}

// maxDigits keeps coef × 10 ± 5 inside an int64.
const maxDigits = 17

// Parse reads a numeral as printed: an optional sign (-, − or –), digits with
// at most one point, an optional exponent ("1.2e-5") and an optional "%".
// Trailing zeros count: "0.50" stands for 0.495 to 0.505. Thousands marks and
// decimal commas are refused, since they cannot be told apart here.
func Parse(text string) (Printed, error) {
	s := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	neg := false
	for _, sign := range []string{"-", "−", "–"} {
		if rest, ok := strings.CutPrefix(s, sign); ok {
			neg, s = true, strings.TrimSpace(rest)
			break
		}
	}
	s = strings.TrimPrefix(s, "+")
	mantissa, exponent, hasExp := strings.Cut(strings.ToLower(s), "e")
	exp := 0
	if hasExp {
		var err error
		if exp, err = strconv.Atoi(exponent); err != nil || exp < -400 || exp > 400 {
			return Printed{}, fmt.Errorf("%q: exponent not readable", text)
		}
	}
	whole, fraction, _ := strings.Cut(mantissa, ".")
	digits := whole + fraction
	if digits == "" || strings.Trim(digits, "0123456789") != "" {
		return Printed{}, fmt.Errorf("%q is not a plain decimal numeral", text)
	}
	if trimmed := strings.TrimLeft(digits, "0"); len(trimmed) > maxDigits {
		return Printed{}, fmt.Errorf("%q has more than %d digits", text, maxDigits)
	}
	coef, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		return Printed{}, fmt.Errorf("%q: %w", text, err)
	}
	if neg {
		coef = -coef
	}
	return rounded(coef, exp-len(fraction)), nil
}

// Of returns the figure value as printed with the given number of decimals:
// Of(12.30, 2) is the numeral "12.30". It refuses a value that has more
// decimals than said, beyond what floating point explains.
func Of(value float64, decimals int) (Printed, error) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return Printed{}, fmt.Errorf("value %v is not a finite number", value)
	}
	if decimals < 0 || decimals > maxDigits {
		return Printed{}, fmt.Errorf("%d decimals: must be 0 to %d", decimals, maxDigits)
	}
	text := strconv.FormatFloat(value, 'f', decimals, 64)
	p, err := Parse(text)
	if err != nil {
		return Printed{}, err
	}
	if step := math.Pow10(-decimals); math.Abs(p.value-value) > 1e-6*step+4e-16*math.Abs(value) {
		return Printed{}, fmt.Errorf("value %v has more than %d decimals", value, decimals)
	}
	return p, nil
}

// Exact returns a figure that carries no rounding, such as a count or a
// constant of a definition.
func Exact(value float64) (Printed, error) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return Printed{}, fmt.Errorf("value %v is not a finite number", value)
	}
	p, err := Parse(strconv.FormatFloat(value, 'e', -1, 64))
	if err != nil {
		return Printed{}, err
	}
	p.low, p.high = p.mid, p.mid
	return p, nil
}

// rounded returns the figure coef × 10^exp with closed edges half a unit of
// its last digit away.
func rounded(coef int64, exp int) Printed {
	return Printed{
		value:    decimal{coef, exp}.float(),
		decimals: max(0, -exp),
		mid:      decimal{coef, exp},
		low:      decimal{coef*10 - 5, exp - 1},
		high:     decimal{coef*10 + 5, exp - 1},
		known:    true,
	}
}

// Value returns the figure as printed.
func (p Printed) Value() float64 { return p.value }

// Decimals returns how many digits are printed after the point.
func (p Printed) Decimals() int { return p.decimals }

// Known reports whether p holds a figure at all.
func (p Printed) Known() bool { return p.known }

// Interval returns the closed range of numbers that round to p.
func (p Printed) Interval() Interval { return Interval{p.low.float(), p.high.float()} }

// Half returns half a unit of the last digit that counts, zero for an exact
// figure.
func (p Printed) Half() float64 {
	half := new(big.Rat).Sub(p.high.rat(), p.low.rat())
	f, _ := half.Quo(half, big.NewRat(2, 1)).Float64()
	return f
}

// Rat returns the figure itself and the edges of its interval as exact
// rational numbers.
func (p Printed) Rat() (value, low, high *big.Rat) { return p.mid.rat(), p.low.rat(), p.high.rat() }

// Wide returns the reading in which the trailing zeros of a whole number of
// 100 or more are rounding, not digits: "120" is 115 to 125 and "3000" is
// 2500 to 3500. Any other figure comes back as it is. It is for counts and
// means; a percentage or a figure below 100 has no wide reading ("50 %" is
// 49.5 to 50.5).
func (p Printed) Wide() Printed {
	if !p.HasWide() {
		return p
	}
	coef, exp := p.mid.coef, p.mid.exp
	for coef%10 == 0 {
		coef, exp = coef/10, exp+1
	}
	w := rounded(coef, exp)
	w.decimals = p.decimals
	return w
}

// HasWide reports whether Wide has another reading of p.
func (p Printed) HasWide() bool {
	return p.known && p.low != p.high && p.mid.exp == 0 && math.Abs(p.value) >= 100 && p.mid.coef%10 == 0
}

// Shift returns p × 10^k, exactly: a factor printed as "2.4" becomes 240 %
// under Shift(2).
func (p Printed) Shift(k int) Printed {
	p.mid.exp, p.low.exp, p.high.exp = p.mid.exp+k, p.low.exp+k, p.high.exp+k
	p.value, p.decimals = p.mid.float(), max(0, -p.mid.exp)
	return p
}

// Times returns p × k for k above zero, edges and all: "10 min" becomes 600 s,
// 570 to 630, under Times(60). A factor whose digits do not all fit beside those
// of p is rounded, at most by a part in 10⁹.
func (p Printed) Times(k float64) (Printed, error) {
	if !(k > 0) || math.IsInf(k, 0) {
		return Printed{}, fmt.Errorf("factor %v: must be above zero", k)
	}
	if !p.known {
		return Printed{}, errNotKnown
	}
	room := maxDigits - max(len(strconv.FormatInt(p.low.coef, 10)), len(strconv.FormatInt(p.high.coef, 10)))
	f := factorOf(k, max(room, 1))
	if room < 1 || math.Abs(f.float()/k-1) > 1e-9 {
		return Printed{}, fmt.Errorf("%v has too many digits to be multiplied with %v", p.value, k)
	}
	for _, d := range []*decimal{&p.mid, &p.low, &p.high} {
		*d = decimal{d.coef * f.coef, d.exp + f.exp}
	}
	p.value, p.decimals = p.mid.float(), max(0, -p.mid.exp)
	return p, nil
}

// factorOf gives k with at most so many digits.
func factorOf(k float64, digits int) decimal {
	text := strconv.FormatFloat(k, 'e', digits-1, 64)
	mantissa, exponent, _ := strings.Cut(text, "e")
	whole, fraction, _ := strings.Cut(mantissa, ".")
	fraction = strings.TrimRight(fraction, "0")
	coef, _ := strconv.ParseInt(whole+fraction, 10, 64)
	exp, _ := strconv.Atoi(exponent)
	return decimal{coef, exp - len(fraction)}
}

// Neg returns the figure with the other sign.
func (p Printed) Neg() Printed {
	p.value = -p.value
	p.mid.coef = -p.mid.coef
	p.low, p.high = decimal{-p.high.coef, p.high.exp}, decimal{-p.low.coef, p.low.exp}
	return p
}

// Magnitudes returns a pair of figures of one sign as positive figures, and
// refuses a pair that lies across zero or touches it with its rounding.
func Magnitudes(a, b Printed) (Printed, Printed, error) {
	switch {
	case !a.known || !b.known:
		return a, b, errNotKnown
	case a.low.coef > 0 && b.low.coef > 0:
		return a, b, nil
	case a.high.coef < 0 && b.high.coef < 0:
		return a.Neg(), b.Neg(), nil
	}
	return a, b, fmt.Errorf("%v and %v do not have one sign within rounding: there is no percentage across zero", a.value, b.value)
}

func (d decimal) rat() *big.Rat {
	r := new(big.Rat).SetInt64(d.coef)
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(d.exp, -d.exp))), nil)
	if d.exp < 0 {
		return r.Quo(r, new(big.Rat).SetInt(power))
	}
	return r.Mul(r, new(big.Rat).SetInt(power))
}

// float returns the double nearest to d.
func (d decimal) float() float64 {
	// A coefficient below 2^53 and a power of ten up to 10^22 are exact, and
	// one rounding of one operation is the nearest double.
	if c := float64(d.coef); math.Abs(c) < 1<<53 && d.exp >= -22 && d.exp <= 22 {
		if d.exp < 0 {
			return c / math.Pow10(-d.exp)
		}
		return c * math.Pow10(d.exp)
	}
	f, _ := d.rat().Float64()
	return f
}
