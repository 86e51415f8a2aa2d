package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/interval"
	"probity/extract"
)

// A side is one figure of a comparison with everything its sentence is
// written from.
type side struct {
	text    string // as printed
	name    string // the arm, for messages; may be ""
	value   float64
	printed interval.Printed
	box     interval.Interval
	unit    string
	percent bool // the figure is a percentage itself
	ranged  bool // a range stands for the value
	measure *claims.Measure
}

func printed(n extract.Number) (interval.Printed, bool) {
	p, err := interval.Of(n.Value, n.Decimals)
	return p, err == nil && n.Known()
}

func sideOf(n extract.Number) (side, bool) {
	p, ok := printed(n)
	return side{text: plainNumber(n), value: n.Value, printed: p, box: p.Interval()}, ok
}

// plainNumber writes a number as it was printed, without marks around it.
func plainNumber(n extract.Number) string {
	return strings.ReplaceAll(strconv.FormatFloat(n.Value, 'f', n.Decimals, 64), "-", "−")
}

func sideOfMeasure(m *claims.Measure) (side, bool) {
	if m == nil || !m.Mean.Known() {
		return side{}, false
	}
	s, ok := sideOf(m.Mean.Number)
	ok = ok && s.bring(m.Scale)
	s.measure, s.unit, s.percent, s.name = m, m.Unit, isPercent(m.Unit), armName(m)
	return s, ok
}

func sideOfFigure(f claims.Figure, p claims.Party) (side, bool) {
	s, ok := sideOf(f.Number)
	if !ok {
		return s, false
	}
	if !s.bring(f.Scale) {
		return s, false
	}
	s.measure, s.unit, s.percent, s.name = f.Measure, f.Unit, isPercent(f.Unit), p.Text
	if s.name == "" {
		s.name = p.Level
	}
	if f.High.Known() {
		if h, ok := sideOf(f.High); ok && h.bring(f.Scale) {
			s.box.High, s.ranged = h.box.High, true
			s.text += "–" + h.text
		}
	}
	return s, true
}

// bring multiplies a side with its scale, rounding and all.
func (s *side) bring(scale claims.Scale) bool {
	if scale.Factor == 0 || scale.Factor == 1 {
		return true
	}
	p, err := s.printed.Times(scale.Factor)
	if err != nil {
		return false
	}
	s.printed, s.value, s.box = p, p.Value(), p.Interval()
	s.text = fixed(s.value, min(p.Decimals(), 6))
	return true
}

func isPercent(unit string) bool {
	u := strings.ToLower(strings.TrimSpace(unit))
	return u == "%" || strings.HasPrefix(u, "% ") || strings.HasPrefix(u, "percent") || strings.HasPrefix(u, "per cent")
}

func armName(m *claims.Measure) string {
	switch {
	case m == nil:
		return ""
	case m.Arm != nil && m.Arm.Name != "":
		return m.Arm.Name
	}
	return m.ArmText
}

// sameSign brings two figures of one sign to magnitudes; a pair across zero
// has no percentage.
func sameSign(a, b side) (side, side, error) {
	pa, pb, err := interval.Magnitudes(a.printed, b.printed)
	if err != nil {
		if a.value == 0 || b.value == 0 || a.value > 0 && b.value > 0 {
			return a, b, nil // a zero on one side is not a change of sign
		}
		return a, b, err
	}
	if a.value < 0 {
		a.box, b.box = a.box.Neg(), b.box.Neg()
		a.value, b.value = -a.value, -b.value
	}
	a.printed, b.printed = pa, pb
	return a, b, nil
}

// digits writes x with about four significant digits, never with an exponent
// where a plain number is as short.
func digits(x float64) string {
	switch ax := math.Abs(x); {
	case x == 0:
		return "0"
	case ax >= 1e7 || ax < 1e-4:
		return strconv.FormatFloat(x, 'e', 2, 64)
	case ax >= 1000:
		return minus(strconv.FormatFloat(x, 'f', 0, 64))
	case ax >= 100:
		return minus(strconv.FormatFloat(x, 'f', 1, 64))
	}
	places := 3 - int(math.Floor(math.Log10(math.Abs(x))))
	s := strconv.FormatFloat(x, 'f', min(places, 6), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return minus(s)
}

// fixed writes x with a number of decimals.
func fixed(x float64, decimals int) string {
	return minus(strconv.FormatFloat(x, 'f', decimals, 64))
}

// percentText writes a percentage the way people read one: one decimal.
func percentText(x float64) string {
	if math.Abs(x) >= 1000 {
		return minus(strconv.FormatFloat(x, 'f', 0, 64)) + " %"
	}
	return minus(strconv.FormatFloat(x, 'f', 1, 64)) + " %"
}

func minus(s string) string { return strings.ReplaceAll(s, "-", "−") }

// rangeText writes the range of a recomputed percentage, when rounding makes
// one worth telling.
func rangeText(low, high float64, unit string) string {
	if math.IsInf(low, 0) || math.IsInf(high, 0) {
		return ""
	}
	f := func(x float64) string { return minus(strconv.FormatFloat(x, 'f', 1, 64)) }
	if unit == "" {
		f = digits
	}
	if f(low) == f(high) {
		return ""
	}
	return fmt.Sprintf("%s to %s%s", f(low), f(high), unit)
}

// pText writes a p value with two significant digits.
func pText(p float64) string {
	switch {
	case math.IsNaN(p):
		return "p not known"
	case p < 1e-99:
		return "p < 1e-99"
	case p < 0.001:
		return "p = " + strconv.FormatFloat(p, 'e', 1, 64)
	case p < 0.00995:
		return "p = " + strconv.FormatFloat(p, 'f', 4, 64)
	case p < 0.095:
		return "p = " + strconv.FormatFloat(p, 'f', 3, 64)
	}
	return "p = " + strconv.FormatFloat(p, 'f', 2, 64)
}
