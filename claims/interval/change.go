package interval

import (
	"errors"
	"fmt"
	"math"
	"math/big"
)

// A Base says what a printed change between two figures is a share of. The
// zero Base is not known.
type Base int

// The bases, with subject A and reference B ("A is x % higher than B"). All
// are given on the scale of percent; Points has the unit of the figures.
const (
	Reference Base = iota + 1 // 100 (A - B) / B
	Subject                   // 100 (A - B) / A
	Ratio                     // 100 A / B: "A is x % of B", or x/100-fold
	Points                    // A - B, of figures that are percentages already
	Midpoint                  // 100 (A - B) / ((A + B) / 2)
	Log                       // 100 ln(A / B)
)

// Bases lists the bases in the order in which a reader meets them.
var Bases = []Base{Reference, Subject, Ratio, Points, Midpoint, Log}

// String returns the base's word: "reference", "subject", and so on.
func (b Base) String() string {
	if b < Reference || b > Log {
		return "not known"
	}
	return [...]string{"reference", "subject", "ratio", "points", "midpoint", "log"}[b-1]
}

// A Change is the change from reference to subject on one base.
type Change struct {
	Base  Base
	Value float64  // from the figures as printed, in percent (Points: their unit)
	Range Interval // from every pair of numbers that rounds to the figures
}

var errNotKnown = errors.New("a figure is not known")

// Percent returns the change from reference to subject on a base, positive
// when the subject is the larger, with the range that rounding allows. All
// bases rise with the subject and fall with the reference, so the ends of the
// range are
//
//	low  = change(subject low,  reference high)
//	high = change(subject high, reference low)
//
// Every base but Points needs a scale with a true zero: it is refused when a
// figure is negative (see Magnitudes), when the reference's rounding reaches
// zero, or when a subject that is divided by or put under the logarithm has
// rounding that reaches zero. The rounding of a printed zero is cut off at zero.
func Percent(base Base, subject, reference Printed) (Change, error) {
	if err := defined(base, subject, reference); err != nil {
		return Change{}, err
	}
	s, r := subject.Interval(), reference.Interval()
	if base != Points {
		s.Low = math.Max(0, s.Low)
	}
	return Change{
		Base:  base,
		Value: change(base, subject.value, reference.value),
		Range: Interval{change(base, s.Low, r.High), change(base, s.High, r.Low)},
	}, nil
}

// PercentOf returns the change between two numbers without rounding, on the
// terms of Percent: a base that is zero and a negative figure are refused.
func PercentOf(base Base, subject, reference float64) (float64, error) {
	switch {
	case math.IsNaN(subject) || math.IsInf(subject, 0) || math.IsNaN(reference) || math.IsInf(reference, 0):
		return 0, fmt.Errorf("%v and %v must both be finite numbers", subject, reference)
	case base < Reference || base > Log:
		return 0, errors.New("the base is not known")
	case base == Points:
		return subject - reference, nil
	case subject < 0 || reference < 0:
		return 0, fmt.Errorf("%v and %v: a percentage of a negative figure is not defined", subject, reference)
	case subject == 0 && reference == 0,
		reference == 0 && base != Subject && base != Midpoint,
		subject == 0 && (base == Subject || base == Log):
		return 0, fmt.Errorf("%v and %v: the base %s is zero", subject, reference, base)
	}
	return change(base, subject, reference), nil
}

func defined(base Base, subject, reference Printed) error {
	switch {
	case !subject.known || !reference.known:
		return errNotKnown
	case base < Reference || base > Log:
		return errors.New("the base is not known")
	case base == Points:
		return nil
	case subject.value < 0 || reference.value < 0:
		return fmt.Errorf("%v and %v: a percentage of a negative figure is not defined", subject.value, reference.value)
	case reference.low.coef <= 0:
		return fmt.Errorf("the reference %v may be zero within its rounding", reference.value)
	case subject.low.coef <= 0 && (base == Subject || base == Log):
		return fmt.Errorf("the subject %v may be zero within its rounding", subject.value)
	}
	return nil
}

// change computes one base in floating point.
func change(base Base, subject, reference float64) float64 {
	switch base {
	case Reference:
		return 100 * ((subject - reference) / reference)
	case Subject:
		return 100 * ((subject - reference) / subject)
	case Ratio:
		return 100 * (subject / reference)
	case Points:
		return subject - reference
	case Midpoint:
		return 200 * ((subject - reference) / (subject + reference))
	}
	// Near a ratio of one the difference keeps the digits that the
	// quotient would lose.
	if d := (subject - reference) / reference; math.Abs(d) < 0.5 {
		return 100 * math.Log1p(d)
	}
	return 100 * math.Log(subject/reference)
}

// changeExact computes one base in rational arithmetic; Log has no such form.
func changeExact(base Base, subject, reference *big.Rat) *big.Rat {
	diff := new(big.Rat).Sub(subject, reference)
	hundred := big.NewRat(100, 1)
	switch base {
	case Reference:
		return diff.Mul(diff.Quo(diff, reference), hundred)
	case Subject:
		return diff.Mul(diff.Quo(diff, subject), hundred)
	case Ratio:
		return diff.Mul(diff.Quo(subject, reference), hundred)
	case Midpoint:
		sum := new(big.Rat).Add(subject, reference)
		return diff.Mul(diff.Quo(diff, sum), big.NewRat(200, 1))
	}
	return diff
}

// Fits reports whether a claim's closed interval meets the range that the two
// figures allow on the base, in either direction: the words, not the sign of
// the figure, say which way a claim goes. Touching ends meet, and whether they
// touch is decided exactly.
func Fits(claim Printed, base Base, subject, reference Printed) (bool, error) {
	up, err := FitsSigned(claim, base, subject, reference)
	if up || err != nil {
		return up, err
	}
	return FitsSigned(claim.Neg(), base, subject, reference)
}

// FitsSigned is Fits for a claim whose sign counts: positive when the subject
// is said to be the larger.
func FitsSigned(claim Printed, base Base, subject, reference Printed) (bool, error) {
	if !claim.known {
		return false, errNotKnown
	}
	if err := defined(base, subject, reference); err != nil {
		return false, err
	}
	low := subject.low
	if base != Points && low.coef < 0 {
		low = decimal{}
	}
	return compare(base, low, reference.high, claim.high) <= 0 &&
		compare(base, subject.high, reference.low, claim.low) >= 0, nil
}

// PointFits reports whether the change between the two figures as they stand,
// in either direction, rounds to the claim (ties in either way).
func PointFits(claim Printed, base Base, subject, reference Printed) (bool, error) {
	if !claim.known {
		return false, errNotKnown
	}
	if err := defined(base, subject, reference); err != nil {
		return false, err
	}
	for _, c := range []Printed{claim, claim.Neg()} {
		if compare(base, subject.mid, reference.mid, c.low) >= 0 && compare(base, subject.mid, reference.mid, c.high) <= 0 {
			return true, nil
		}
	}
	return false, nil
}

// compare returns -1, 0 or 1 as the change from r to s on the base lies below,
// at or above c. Floating point decides where it is sure; a near tie goes to
// rational arithmetic. The logarithm of a rational number other than one is
// irrational, so there only equal figures can tie.
func compare(base Base, s, r, c decimal) int {
	sf, rf, cf := s.float(), r.float(), c.float()
	got := change(base, sf, rf)
	scale := 100 + math.Abs(got) + math.Abs(cf)
	if base == Points {
		scale = math.Abs(sf) + math.Abs(rf) + math.Abs(cf)
	}
	switch diff := got - cf; {
	case diff > 1e-12*scale:
		return 1
	case diff < -1e-12*scale:
		return -1
	case base == Log:
		if s.rat().Cmp(r.rat()) == 0 {
			return -c.rat().Sign()
		}
		return sign(diff)
	}
	return changeExact(base, s.rat(), r.rat()).Cmp(c.rat())
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
