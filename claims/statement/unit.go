package statement

import (
	"strings"
)

// valueRange joins "100-150 cm" and "50–92 %" to one quantity; a range of
// times in brackets names a period.
func (s *sentence) valueRange(q *quantity) {
	end := q.end
	s.extendRange(q)
	if q.highAt < 0 {
		return
	}
	if s.at(q.highAt).value <= s.at(q.at).value || q.unit != "" && !q.percent {
		q.highAt, q.end = -1, end
		return
	}
	u := quantity{at: q.highAt, end: q.highAt + 1, highAt: -1}
	s.readUnit(&u)
	q.unit, q.percent, q.points, q.time, q.end = u.unit, u.percent, u.points, u.time, u.end
	switch {
	case q.percent:
		q.role = rolePercent
	case q.time && s.sign(q.at-1) == '(':
		q.role = roleCondition
	}
}

// readUnit takes the per cent sign or the unit behind a number.
func (s *sentence) readUnit(q *quantity) {
	j := q.at + 1
	n := s.at(j)
	// 12-week, 0- to 2-h, 30-day: a time in a name
	if n.sort == signToken && n.sign == '-' && !n.gap && s.sortOf(j+1) == wordToken {
		if s.is(j+1, timeUnit) || s.at(j+1).gap && s.is(j+1, toWord) {
			q.glued, q.end = true, j+1
			return
		}
	}
	if n.sort == markToken {
		j++
		n = s.at(j)
	}
	switch {
	case n.sort == signToken && (n.sign == '%' || n.sign == '％' || n.sign == '٪'):
		q.percent, q.unit, q.end = true, "%", j+1
		k := j + 1
		if s.sign(k) == '-' && !s.at(k).gap {
			k++
		}
		if w := strings.ToLower(s.raw(k, k+1)); s.is(k, pointsWord) || w == "points" || w == "point" {
			q.points, q.end = true, k+int(s.at(k).span)
		}
	case n.is.has(pointsWord):
		q.points, q.percent, q.unit, q.end = true, true, "percentage points", j+int(n.span)
	case n.is.has(percentWord) && !n.inside:
		q.percent, q.unit, q.end = true, "%", j+int(n.span)
	case n.sort == signToken && (n.sign == '°' || n.sign == 'º' || n.sign == '˚'):
		q.unit, q.end = "°", j+1
		if c := s.raw(j+1, j+2); c == "C" || c == "F" {
			q.unit, q.end = "°"+c, j+2
		}
	case n.sort == signToken && n.sign == '℃':
		q.unit, q.end = "°C", j+1
	case n.sort == wordToken && (n.is.has(timeUnit) || n.is.has(unitWord) || s.sign(j+1) == '/' && !s.at(j+1).gap && s.sortOf(j+2) == wordToken):
		s.readUnitWords(q, j)
	case n.sort == signToken && (n.sign == 'µ' || n.sign == 'μ'):
		s.readUnitWords(q, j)
	}
}

// readUnitWords takes "N cm", "mg/kg/min", "mm²", "nmol/min per 100 ml".
func (s *sentence) readUnitWords(q *quantity, j int) {
	k := j + 1
	for k < s.to && k < j+6 {
		t := s.at(k)
		switch {
		case t.sort == markToken && !t.gap:
		case t.sort == signToken && (t.sign == '/' || t.sign == '·' || t.sign == '⋅') && s.sortOf(k+1) == wordToken:
			k++
		case t.sort == wordToken && t.is.has(unitWord) && t.end-t.start <= 3 && !t.is.has(toWord) && !t.is.has(timeBefore) && wordLower(s.raw(k, k+1)) != "in" && wordLower(s.raw(k, k+1)) != "a":
		default:
			q.unit, q.end = s.raw(j, k), k
			q.time = s.is(j, timeUnit) && k == j+1
			return
		}
		k++
	}
	q.unit, q.end = s.raw(j, k), k
	q.time = s.is(j, timeUnit) && k == j+1
}

func wordLower(s string) string { return strings.ToLower(s) }

// extendRange joins "50–92" to one quantity.
func (s *sentence) extendRange(q *quantity) {
	j := q.end
	c := s.sign(j)
	if (c == '-' || c == '–' || c == '—' || c == '−') && s.sortOf(j+1) == numberToken && s.at(j).gap == s.at(j+1).gap {
		q.highAt, q.end = j+1, j+2
	}
}
