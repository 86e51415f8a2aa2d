package check

import (
	"fmt"
	"math"

	"probity/claims"
	"probity/claims/interval"
)

// A trial is one base tried on one pair of figures.
type trial struct {
	base  claims.Base
	value float64
	box   interval.Interval // signed as the words imply: positive agrees with the direction
	fits  bool
	sum   string // "(702.3 − 588.0) / 588.0 = 19.4 %"
}

// tries recomputes a claim on every base that may decide it, the base that
// the words imply first. The pair must have one sign.
func tries(s *claims.Statement, c claimed, a, b side) []trial {
	if s.Kind == claims.Fold {
		return foldTries(s, c, a, b)
	}
	order := []interval.Base{interval.Reference, interval.Subject, interval.Ratio, interval.Points, interval.Midpoint, interval.Log}
	switch s.Form {
	case claims.Share:
		order = []interval.Base{interval.Ratio, interval.Reference, interval.Subject, interval.Points, interval.Midpoint, interval.Log}
	case claims.Points:
		order = []interval.Base{interval.Points, interval.Reference, interval.Subject, interval.Ratio, interval.Midpoint, interval.Log}
	}
	var out []trial
	for i, base := range order {
		if base == interval.Points && s.Form != claims.Points && !pointsPossible(a, b) {
			continue
		}
		if t, ok := tryBase(s, c, a, b, base); ok {
			out = append(out, t)
		} else if i == 0 {
			return nil // the natural base has no value: nothing to judge
		}
	}
	return out
}

// pointsPossible reports figures that are percentages, or whose unit is not
// printed and may be per cent.
func pointsPossible(a, b side) bool {
	if a.percent && b.percent {
		return true
	}
	return a.unit == "" && b.unit == "" && math.Max(a.value, b.value) <= 100
}

func tryBase(s *claims.Statement, c claimed, a, b side, base interval.Base) (trial, bool) {
	change, err := interval.Percent(base, a.printed, b.printed)
	if err != nil && !(a.ranged || b.ranged) {
		return trial{}, false
	}
	t := trial{base: claims.Base(base.String()), value: change.Value, box: change.Range}
	if a.ranged || b.ranged {
		low, err1 := interval.PercentOf(base, a.box.Low, b.box.High)
		high, err2 := interval.PercentOf(base, a.box.High, b.box.Low)
		if err1 != nil || err2 != nil {
			return trial{}, false
		}
		t.box = interval.Interval{Low: low, High: high}
	}
	t.sum = sumText(base, a, b, t.value)
	signed := t.box
	if base != interval.Ratio {
		switch {
		case s.Direction < 0:
			signed = signed.Neg()
		case s.Direction == 0 && t.value < 0:
			signed = signed.Neg()
		}
	}
	if c.plain && !a.ranged && !b.ranged {
		claim := c.printed
		if base != interval.Ratio && signed != t.box {
			claim = claim.Neg()
		}
		ok, err := interval.FitsSigned(claim, base, a.printed, b.printed)
		t.fits = ok && err == nil
	} else {
		t.fits = signed.Meets(c.box)
	}
	return t, true
}

func sumText(base interval.Base, a, b side, v float64) string {
	switch base {
	case interval.Reference:
		return fmt.Sprintf("(%s − %s) / %s = %s", a.text, b.text, b.text, percentText(v))
	case interval.Subject:
		return fmt.Sprintf("(%s − %s) / %s = %s", a.text, b.text, a.text, percentText(v))
	case interval.Ratio:
		return fmt.Sprintf("%s / %s = %s", a.text, b.text, percentText(v))
	case interval.Points:
		return fmt.Sprintf("%s − %s = %s points", a.text, b.text, digits(v))
	case interval.Midpoint:
		return fmt.Sprintf("(%s − %s) over their mean = %s", a.text, b.text, percentText(v))
	}
	return fmt.Sprintf("100 · ln(%s / %s) = %s", a.text, b.text, percentText(v))
}

// foldTries recomputes "k times": the ratio is the natural base, the increase
// (ratio − 1) the only other one. Where the words name the inverse of what was
// measured ("2.36 times as flexible" of a bending load), the ratio taken the
// other way round is tried too, with the subject as its base. A rate is the
// inverse of a time by definition, and its ratio is the natural one.
func foldTries(s *claims.Statement, c claimed, a, b side) []trial {
	up := ratioTrial(c, a, b)
	down := ratioTrial(c, b, a)
	natural := up
	switch {
	case s.Inverts && !s.Rate: // the ratio of what was measured; its inverse is told apart below
	case s.Form == claims.TimesLess, s.Form != claims.Times && s.Direction < 0 && c.box.Low >= 1,
		s.Form == claims.Times && s.Direction < 0 && c.box.Low > 1,
		s.Rate && s.Direction > 0 && c.box.High < 1: // half as fast
		natural = down
	case s.Direction == 0 && !up.fits && down.fits && (s.Form != claims.Times || s.Orderless):
		natural = down // "a threefold difference" has no order
	}
	if math.IsNaN(natural.value) {
		return nil
	}
	out := []trial{natural}
	more := natural
	more.base, more.value = claims.OnReference, natural.value-1
	more.box = interval.Interval{Low: natural.box.Low - 1, High: natural.box.High - 1}
	more.fits = more.box.Meets(c.box)
	more.sum = fmt.Sprintf("%s, that is %s times more", natural.sum, digits(more.value))
	if s.Form == claims.TimesMore || s.Form == claims.FormNotKnown || s.Form == claims.Times {
		out = append(out, more)
	}
	if s.Inverts && !s.Rate && !math.IsNaN(down.value) {
		down.base = claims.OnSubject
		out = append(out, down)
	}
	return out
}

func ratioTrial(c claimed, a, b side) trial {
	t := trial{base: claims.OnRatio, value: math.NaN()}
	if b.box.Low <= 0 || a.box.Low < 0 {
		return t
	}
	t.value = a.value / b.value
	t.box = interval.Interval{Low: a.box.Low / b.box.High, High: a.box.High / b.box.Low}
	t.fits = t.box.Meets(c.box)
	t.sum = fmt.Sprintf("%s / %s = %s", a.text, b.text, digits(t.value))
	return t
}

// spanOf gives the range of the natural base over several judgements.
func spanOf(all []claims.Judgement) (interval.Interval, bool) {
	out := interval.Interval{Low: math.Inf(1), High: math.Inf(-1)}
	for _, one := range all {
		if len(one.Recomputed) == 0 {
			return out, false
		}
		v := math.Abs(one.Recomputed[0].Value)
		out = out.Hull(interval.Point(v))
	}
	return out, len(all) > 0
}
