package infer

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"probity/claims/interval"
)

// A PrintedP is the set of p-values that a printed one stands for: "p = .03"
// is .025 to .035, "p < .001" is 0 to .001 without its upper end.
type PrintedP struct {
	Low, High         float64
	LowOpen, HighOpen bool // the end itself is not in the set
}

// PEqual returns the set of "p = x": everything between 0 and 1 that rounds to
// x, ends included, so "p = .000" is 0 to .0005.
func PEqual(x interval.Printed) (PrintedP, error) {
	if err := checkPrintedP(x); err != nil {
		return PrintedP{}, err
	}
	i := x.Interval()
	return PrintedP{Low: math.Max(0, i.Low), High: math.Min(1, i.High)}, nil
}

// PBelow returns the set of "p < x" or, when with is true, of "p ≤ x".
func PBelow(x interval.Printed, with bool) (PrintedP, error) {
	if err := checkPrintedP(x); err != nil {
		return PrintedP{}, err
	}
	return PrintedP{High: x.Value(), HighOpen: !with}, nil
}

// PAbove returns the set of "p > x" or, when with is true, of "p ≥ x".
func PAbove(x interval.Printed, with bool) (PrintedP, error) {
	if err := checkPrintedP(x); err != nil {
		return PrintedP{}, err
	}
	return PrintedP{Low: x.Value(), High: 1, LowOpen: !with}, nil
}

// ParseP reads a printed p-value: "p = .03", "P<0.001", "p ≥ .05".
func ParseP(text string) (PrintedP, error) {
	s := strings.TrimSpace(text)
	if rest, ok := strings.CutPrefix(strings.ToLower(s), "p"); ok {
		s = strings.TrimSpace(strings.TrimPrefix(rest, "-value"))
	}
	for _, r := range relations {
		if rest, ok := strings.CutPrefix(s, r.sign); ok {
			x, err := interval.Parse(rest)
			if err != nil {
				return PrintedP{}, fmt.Errorf("p-value %q: %w", text, err)
			}
			return r.set(x)
		}
	}
	return PrintedP{}, fmt.Errorf("p-value %q has no =, < or >", text)
}

var relations = []struct {
	sign string
	set  func(interval.Printed) (PrintedP, error)
}{
	{"<=", func(x interval.Printed) (PrintedP, error) { return PBelow(x, true) }},
	{"≤", func(x interval.Printed) (PrintedP, error) { return PBelow(x, true) }},
	{"<", func(x interval.Printed) (PrintedP, error) { return PBelow(x, false) }},
	{">=", func(x interval.Printed) (PrintedP, error) { return PAbove(x, true) }},
	{"≥", func(x interval.Printed) (PrintedP, error) { return PAbove(x, true) }},
	{">", func(x interval.Printed) (PrintedP, error) { return PAbove(x, false) }},
	{"=", PEqual},
}

func checkPrintedP(x interval.Printed) error {
	switch {
	case !x.Known():
		return errors.New("the printed p-value is not known")
	case x.Value() < 0 || x.Value() > 1:
		return fmt.Errorf("a p-value of %v is impossible", x.Value())
	}
	return nil
}

// Meets reports whether some p of the range is in the set.
func (s PrintedP) Meets(r interval.Interval) bool {
	below := s.Low < r.High || s.Low == r.High && !s.LowOpen
	above := r.Low < s.High || r.Low == s.High && !s.HighOpen
	return below && above
}

// Side says on which side of a level a set of p-values lies. Zero is both.
type Side int

// The sides: significant means p < alpha throughout.
const (
	BothSides Side = iota
	Significant
	NotSignificant
)

// String names the side.
func (s Side) String() string {
	return [...]string{"both sides", "significant", "not significant"}[s]
}

// Side returns the side of alpha on which every p of the set lies.
func (s PrintedP) Side(alpha float64) Side {
	switch {
	case s.High < alpha || s.High == alpha && s.HighOpen:
		return Significant
	case s.Low >= alpha:
		return NotSignificant
	}
	return BothSides
}

// Side returns the side of alpha on which every p that rounding allows lies.
func (r Range) Side(alpha float64) Side {
	return PrintedP{Low: r.Low.Value, High: r.High.Value}.Side(alpha)
}

// An Agreement says how a printed p stands to the range of recomputed ones.
type Agreement struct {
	Consistent         bool // some rounding of the inputs gives the printed p
	ConsistentOneSided bool // some rounding does if the test was one-sided
	DecisionFlip       bool // the two lie wholly on different sides of alpha
}

// Against holds the range against a printed p at a level of significance.
func (r Range) Against(printed PrintedP, alpha float64) (Agreement, error) {
	if !(alpha > 0 && alpha < 1) {
		return Agreement{}, fmt.Errorf("alpha = %v must lie between 0 and 1", alpha)
	}
	a, b := r.Side(alpha), printed.Side(alpha)
	return Agreement{
		Consistent:         printed.Meets(r.P()),
		ConsistentOneSided: printed.Meets(interval.Interval{Low: r.Low.Value / 2, High: r.High.Value / 2}),
		DecisionFlip:       a != BothSides && b != BothSides && a != b,
	}, nil
}
