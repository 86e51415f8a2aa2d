package statement

import (
	"probity/claims"
	"probity/claims/role"
)

// readSpread takes what stands behind a value as its spread: "± 12", "(12)",
// "(SD 12)", "[10–15]", "(10 to 15)", and a unit that follows only then.
func (s *sentence) readSpread(q *quantity) {
	j := q.end
	switch {
	case s.sign(j) == '±':
		if n := s.number(j + 1); n.Known() {
			q.spread = claims.Spread{Value: n, Text: n.Text}
			q.end = j + 2
			s.unitAfterSpread(q)
		}
	case s.sign(j) == '+' && s.sign(j+1) == '/':
		k := j + 2
		if s.sign(k) == '-' || s.sign(k) == '−' || s.sign(k) == '–' {
			k++
		}
		if n := s.number(k); n.Known() {
			if n.Value < 0 {
				n.Value, n.Text = -n.Value, n.Text[1:]
			}
			q.spread = claims.Spread{Value: n, Text: n.Text}
			q.end = k + 1
			s.unitAfterSpread(q)
		}
	}
	if c := s.sign(q.end); c == '(' || c == '[' {
		s.bracketSpread(q)
	}
	// an unknown unit: "14.3 foos (11.0 to 17.5)"
	if c := s.sign(q.end + 1); (c == '(' || c == '[') && q.unit == "" && !q.spread.Known() && s.sortOf(q.end) == wordToken && s.at(q.end).word == nil {
		end := q.end
		q.end++
		if s.bracketSpread(q); !q.spread.Known() {
			q.end = end
		}
	}
}

// unitAfterSpread: "12.3 ± 1.1 mm", "56 ± 11%".
func (s *sentence) unitAfterSpread(q *quantity) {
	if q.unit != "" {
		if s.sign(q.end) == '°' {
			q.end++
		}
		return
	}
	u := quantity{at: q.end - 1, end: q.end, highAt: -1}
	s.readUnit(&u)
	if u.unit != "" && !u.glued {
		q.unit, q.percent, q.time, q.end = u.unit, u.percent, u.time, u.end
	}
}

// bracketSpread reads a bracket that holds nothing but a spread.
func (s *sentence) bracketSpread(q *quantity) {
	open := q.end
	end := closing(s.toks[:s.to], open)
	if end < 0 || end-open > 14 {
		return
	}
	kind, why := claims.NotStated, ""
	var nums []int
	for j := open + 1; j < end; j++ {
		t := s.at(j)
		switch {
		case t.sort == numberToken:
			nums = append(nums, j)
		case t.is.has(spreadSD):
			kind, why = claims.SD, s.raw(j, j+int(t.span))
		case t.is.has(spreadSE):
			kind, why = claims.SE, s.raw(j, j+int(t.span))
		case t.is.has(spreadIQR):
			kind, why = claims.IQR, s.raw(j, j+int(t.span))
		case t.is.has(confidence):
			kind, why = claims.CI95, s.raw(j, j+int(t.span))
		case t.is.has(spreadRange):
			kind, why = claims.Range, s.raw(j, j+1)
		case len(nums) == 2 && t.sort == wordToken && (s.raw(j, j+1) == "p" || s.raw(j, j+1) == "P"):
			j = end
		case t.inside, t.sort == markToken, t.is.has(toWord), t.is.has(unitWord), t.is.has(timeUnit):
		case t.sort == signToken && spreadSign(t.sign):
		default:
			return
		}
	}
	if s.any(open+1, setOf(versus)) || len(nums) == 0 || len(nums) > 3 {
		return
	}
	if s.at(nums[0]).value == 95 && kind == claims.CI95 {
		nums = nums[1:]
	}
	// a bracket with one per cent figure behind a count is its share
	if len(nums) == 1 && s.sign(nums[0]+1) == '%' && !q.percent && kind == claims.NotStated {
		q.counted = true
		q.end = end + 1
		return
	}
	switch len(nums) {
	case 1:
		n := s.number(nums[0])
		if kind == claims.NotStated && (s.at(nums[0]).negative || s.sign(nums[0]-1) == '=' || s.sign(nums[0]-1) == '<') {
			return
		}
		if q.spread.Known() {
			return
		}
		q.spread = claims.Spread{Kind: kind, Value: n, Text: n.Text, Why: why}
	case 2:
		low, high := s.number(nums[0]), s.number(nums[1])
		if s.at(nums[1]).negative && low.Value > 0 {
			high.Value, high.Text = -high.Value, high.Text[1:]
		}
		if kind == claims.NotStated {
			kind = claims.Range
			why = "a pair in brackets"
		}
		q.spread = claims.Spread{Kind: kind, Low: low, High: high, Text: s.raw(open+1, end), Why: why}
	default:
		return
	}
	q.end = end + 1
	if q.unit == "" {
		s.unitAfterSpread(q)
	}
}

func spreadSign(r rune) bool {
	switch r {
	case ',', ';', ':', '=', '-', '–', '—', '−', '%', '±', '°', '/', '·', '+':
		return true
	}
	return false
}

// finish passes over the quantities once more: a unit printed once for a list
// or a pair belongs to all of it, "47 and 48%" are two percentages.
func (s *sentence) finish() {
	for i := len(s.quants) - 2; i >= 0; i-- {
		a, b := &s.quants[i], &s.quants[i+1]
		if a.unit != "" || a.role != roleValue || a.is == role.Money || b.unit == "" || b.role != roleValue && b.role != rolePercent {
			continue
		}
		if !s.listed(a.end, b.at) || s.at(b.at).negative && !s.at(a.at).negative {
			continue
		}
		a.unit, a.percent, a.time, a.points = b.unit, b.percent, b.time, b.points
		if a.percent {
			a.role = rolePercent
		}
	}
	// "29.7% vs. 55.5": the sign may stand on the first alone
	for i := 1; i < len(s.quants); i++ {
		a, b := &s.quants[i-1], &s.quants[i]
		if b.unit == "" && b.role == roleValue && a.role == rolePercent && s.listed(a.end, b.at) && s.againstBetween(a.end, b.at) {
			b.unit, b.percent, b.role = a.unit, true, rolePercent
		}
	}
	for i := range s.quants {
		if q := &s.quants[i]; q.role == roleN && i > 0 {
			s.quants[i-1].n = s.number(q.at)
		}
	}
}

// listed reports whether only commas, "and", "or", "vs", "to", dashes and
// approximations stand between two numbers.
func (s *sentence) listed(i, j int) bool {
	if j-i > 5 {
		return false
	}
	for k := i; k < j; k++ {
		t := s.at(k)
		switch {
		case t.sort == signToken && (t.sign == ',' || t.sign == '-' || t.sign == '–' || t.sign == '~' || t.sign == '∼' || t.sign == '≈' || t.sign == '.'):
		case t.is.any(setOf(approx, toWord, versus)):
		case t.inside:
		case t.sort == wordToken:
			switch s.raw(k, k+1) {
			case "and", "or", "v", "by":
			default:
				return false
			}
		default:
			return false
		}
	}
	return true
}

// figure makes the claims.Figure of a quantity.
func (s *sentence) figure(q *quantity) claims.Figure {
	f := claims.Figure{Number: s.number(q.at), Spread: q.spread, N: q.n, Unit: q.unit}
	f.Number.Relation = q.relation
	f.Measure = s.printed[q.at]
	if q.highAt >= 0 {
		f.High = s.number(q.highAt)
	}
	return f
}
