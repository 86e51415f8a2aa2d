package check

import (
	"fmt"

	"probity/claims"
	"probity/claims/interval"
	"probity/claims/reading"
)

// difference judges "the difference was 294.11 s": the printed value against
// the difference of the two figures, within the rounding of all three.
func (j *judge) difference(s *claims.Statement) claims.Judgement {
	c, ok := claimOf(s)
	if !ok {
		return j.significanceOrDirection(s)
	}
	pairs := comparisons(s)
	if len(pairs) == 0 {
		return claims.Judgement{Why: missing(s)}
	}
	var out claims.Judgement
	for i, p := range pairs {
		one := differenceOf(s, c, p)
		if i == 0 || one.Verdict == claims.Reproduces && out.Verdict != claims.Reproduces {
			out = one
		}
	}
	if len(pairs) > 1 && out.Verdict != claims.Reproduces {
		out.Verdict = claims.NotCheckable
		out.Doubt.Add(whichMeant, reading.Slight)
	}
	return out
}

func differenceOf(s *claims.Statement, c claimed, p pairOfSides) claims.Judgement {
	out := claims.Judgement{Measures: measuresOf(p)}
	box := interval.Interval{Low: p.a.box.Low - p.b.box.High, High: p.a.box.High - p.b.box.Low}
	value := p.a.value - p.b.value
	sum := fmt.Sprintf("%s − %s = %s", p.a.text, p.b.text, digits(value))
	signed := box
	if s.Direction < 0 || s.Direction == 0 && value < 0 {
		signed = box.Neg()
	}
	claim := c.box
	if s.Value.Value < 0 {
		claim = claim.Neg()
	}
	// A touching edge counts; 1e-9 of the last digit is floating point, not print.
	slack := 1e-9 * p.a.printed.Half()
	fits := signed.Low-slack <= claim.High && claim.Low-slack <= signed.High
	out.Recomputed = []claims.Recalculation{{Method: "difference", Value: value, Low: box.Low, High: box.High, Fits: fits}}
	if s.Unit != "" && p.a.measure != nil && p.a.measure.Unit != "" && isPercent(s.Unit) != isPercent(p.a.measure.Unit) {
		out.Why = fmt.Sprintf("%s; the claim is in %s and the figures are in %s", sum, s.Unit, p.a.measure.Unit)
		return out
	}
	switch {
	case fits:
		out.Verdict, out.Why = claims.Reproduces, sum
	case disagreesWithDirection(s, p.a, p.b) && box.Neg().Meets(signed) && signed.Neg().Meets(claim) && p.sure:
		out.Verdict = claims.Reversed
		out.Why = fmt.Sprintf("%s: the size agrees, the direction does not (the words say %s)", sum, s.Direction)
	case !p.sure && !s.A.Known():
		leaveOpen(&out, sum, whichMeant)
	case s.Median || isMedian(p.a) || isMedian(p.b) || s.BeforeTo:
		leaveOpen(&out, sum, "differences of single specimens may have been summarised, which the printed figures cannot show")
	default:
		out.Verdict = claims.DoesNotReproduce
		out.Why = fmt.Sprintf("%s, not %s", sum, s.Printed)
	}
	return out
}

// significanceOrDirection judges a difference that is stated without a figure.
func (j *judge) significanceOrDirection(s *claims.Statement) claims.Judgement {
	if s.Significant != nil {
		return j.significance(s)
	}
	return j.direction(s)
}

// direction judges "A was higher than B" without a figure or a test.
func (j *judge) direction(s *claims.Statement) claims.Judgement {
	pairs := comparisons(s)
	if len(pairs) == 0 || s.Direction == 0 {
		return claims.Judgement{Why: missing(s)}
	}
	out := claims.Judgement{Verdict: claims.Reproduces}
	against, sure := 0, true
	for i, p := range pairs {
		if i < 6 {
			out.Measures = append(out.Measures, measuresOf(p)...)
		}
		sure = sure && p.sure
		if disagreesWithDirection(s, p.a, p.b) {
			against++
			out.Why = fmt.Sprintf("%s %s and %s %s: the figures go the other way (the words say %s)", p.a.name, p.a.text, p.b.name, p.b.text, s.Direction)
		}
	}
	switch {
	case against == 0:
		p := pairs[0]
		out.Why = fmt.Sprintf("%s %s, %s %s", p.a.name, p.a.text, p.b.name, p.b.text)
		if len(pairs) > 1 {
			out.Why += fmt.Sprintf(", and %d more pairs in the same direction", len(pairs)-1)
		}
	case against == len(pairs) && sure:
		out.Verdict = claims.Reversed
	default:
		out.Verdict = claims.NotCheckable
		out.Doubt.Add(whichMeant, reading.Slight)
		out.Why = fmt.Sprintf("in %d of %d pairs that the words may cover, %s", against, len(pairs), out.Why)
	}
	return out
}
