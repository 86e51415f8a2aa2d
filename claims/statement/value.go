package statement

import (
	"strings"

	"probity/claims"
	"probity/extract"
)

// printValue fills the printed value, its range and how it is bound.
func (s *sentence) printValue(st *claims.Statement, q *quantity) {
	st.Value = s.number(q.at)
	if st.Value.Value < 0 {
		st.Value.Value = -st.Value.Value
	}
	st.Printed = s.raw(q.at, q.end)
	if q.spread.Known() {
		st.Printed = st.Value.Text + "%"
	}
	if s.at(q.at).negative {
		st.Printed = strings.TrimLeft(st.Printed, "-−–")
		st.Value.Text = strings.TrimLeft(st.Value.Text, "-−–")
	}
	if q.percent && !strings.Contains(st.Printed, "%") && !strings.Contains(st.Printed, "p") {
		st.Printed += "%"
	}
	st.Value.Relation = s.boundOf(q.at, q.relation)
	st.Most = s.mostOf(q.at)
	if q.highAt >= 0 {
		st.High = s.number(q.highAt)
	} else if p := s.rangeStart(q); p >= 0 {
		st.High = st.Value
		low := s.number(p)
		low.Relation = s.boundOf(p, s.relationBefore(p))
		st.Value, st.Printed = low, s.raw(p, q.end)
	}
}

// rangeStart gives the token of the lower end when q is the upper end of a
// range: "50–92 %", "by 20 to 30 %", -1 otherwise.
func (s *sentence) rangeStart(q *quantity) int {
	j := q.at - 1
	c := s.sign(j)
	dash := s.sortOf(j) == signToken && (c == '-' || c == '–' || c == '—' || c == '−')
	to := s.is(j, toWord) && s.at(j).span == 1
	if !dash && !to {
		return -1
	}
	k := j - 1
	if s.sign(k) == '%' {
		k--
	}
	if s.sortOf(k) != numberToken || s.at(k).value >= s.at(q.at).value {
		return -1
	}
	if to && (s.is(s.skipLeft(k-1), fromWord) || s.sortOf(k-1) == signToken && s.sign(k-1) == '±') {
		return -1
	}
	return k
}

// boundOf reads "about", "more than", "up to", "<" before the value at i.
func (s *sentence) boundOf(i int, printed extract.Relation) extract.Relation {
	for j, n := i-1, 0; n < 4 && j >= s.from; j, n = j-1, n+1 {
		t := s.at(j)
		if t.inside {
			continue
		}
		switch {
		case t.is.has(approx):
			return extract.About
		case t.is.has(boundUp) && (t.span > 1 || !t.is.any(adjectives) || t.phrase == nil && s.overAlone(j)):
			if s.is(j-1, negation) {
				return extract.LessEqual
			}
			if w := s.word(j); w == "at" || w == "not" || w == "no" {
				return extract.GreaterEqual
			}
			return extract.Greater
		case t.is.has(boundDown):
			switch w := s.word(j); {
			case t.span == 1:
			case w == "up" || w == "as" || w == "no" || w == "not" || w == "at" || w == "a":
				return extract.LessEqual
			}
			if s.is(j-1, negation) {
				return extract.GreaterEqual
			}
			return extract.Less
		case t.is.has(filler), t.sort == signToken && strings.ContainsRune("~∼≈<>≤≥˜∽", t.sign):
			continue
		}
		break
	}
	return printed
}

// mostOf reads "up to", "as much as", "a maximum of" before the value at i: a
// value that is reached, not only a bound.
func (s *sentence) mostOf(i int) bool {
	for j := i - 1; j >= max(s.from, i-4); j-- {
		switch t := s.at(j); {
		case t.inside, t.is.has(filler):
		case t.is.has(boundDown):
			w := s.word(j)
			return w == "up" || w == "as" || w == "a"
		default:
			return false
		}
	}
	return false
}

func (s *sentence) overAlone(j int) bool { return s.word(j) == "over" || s.word(j) == "above" }

// senseTo writes the direction and what it rested on.
func (s *sentence) senseTo(st *claims.Statement, sn sense) {
	st.Direction = sn.dir
	if !sn.share && sn.at >= s.from && sn.at < s.to {
		st.Rests = append(st.Rests, s.raw(sn.at, sn.at+int(s.at(sn.at).span)))
	}
}
