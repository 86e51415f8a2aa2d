package check

import (
	"fmt"
	"strings"

	"probity/claims"
)

// ranking judges an order of arms ("A, followed by B and C", "the highest")
// against their printed figures.
func (j *judge) ranking(s *claims.Statement) claims.Judgement {
	if len(s.Order) < 2 || len(s.Than) != len(s.Order)-1 {
		return j.direction(s)
	}
	figures, ok := j.orderFigures(s)
	if !ok {
		if len(s.Pairs) > 0 {
			return j.direction(s)
		}
		return claims.Judgement{Why: missing(s)}
	}
	out := claims.Judgement{Verdict: claims.Reproduces}
	var sum strings.Builder
	against := ""
	for i, f := range figures {
		out.Measures = append(out.Measures, f.measure)
		if i > 0 {
			sum.WriteString(", ")
			before := figures[i-1]
			if s.Than[i-1] > 0 && before.box.High < f.box.Low || s.Than[i-1] < 0 && before.box.Low > f.box.High {
				against = fmt.Sprintf("%s %s and %s %s stand the other way round", before.name, before.text, f.name, f.text)
			}
		}
		fmt.Fprintf(&sum, "%s %s", f.name, f.text)
	}
	out.Why = sum.String()
	if against == "" {
		return out
	}
	if !pairsSure(s) {
		out.Verdict = claims.NotCheckable
		leaveOpen(&out, against, "which figures the order is about is not certain")
		return out
	}
	out.Verdict = claims.Reversed
	out.Why = fmt.Sprintf("%s: %s", out.Why, against)
	return out
}

// orderFigures finds one figure for each party of an order, all of one
// outcome and one condition.
func (j *judge) orderFigures(s *claims.Statement) ([]side, bool) {
	byArm := map[*claims.Arm]*claims.Measure{}
	for _, p := range s.Pairs {
		for _, m := range []*claims.Measure{p.A, p.B} {
			if m == nil || m.Arm == nil {
				continue
			}
			if old := byArm[m.Arm]; old != nil && old != m && (old.Condition != m.Condition || old.Outcome != m.Outcome) {
				return nil, false // several outcomes or times: no one order to hold against
			}
			byArm[m.Arm] = m
		}
	}
	var out []side
	for _, p := range s.Order {
		if len(p.Arms) != 1 {
			return nil, false
		}
		f, ok := sideOfMeasure(byArm[p.Arms[0]])
		if !ok {
			return nil, false
		}
		out = append(out, f)
	}
	return out, true
}

func pairsSure(s *claims.Statement) bool {
	for _, p := range s.Pairs {
		if !p.Sure() {
			return false
		}
	}
	return len(s.Pairs) > 0
}
