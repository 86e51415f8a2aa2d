package statement

import (
	"strings"

	"probity/claims/role"
)

// How two figures of a sentence came to stand against each other.
type pairing uint8

const (
	byVersus   pairing = iota // "10.5 vs 8.6"
	byFromTo                  // "from 7.9 to 2.3"
	byList                    // "7.16 and 9.38, respectively"
	byApart                   // "(84.3) as compared to controls (66.8)"
	byNearness                // two figures with no word between them that compares
)

// couple is a candidate pair of figures: indices of quantities, first and
// second as printed.
type couple struct {
	first, second int
	how           pairing
	refFirst      bool // the first is the reference: "from", labels, "compared with B (…), A (…)"
	sure          bool // the sides are said by words, not only by order
	used          bool
}

// figureRole reports whether a quantity can be a side of a comparison.
func (s *sentence) figureRole(i int, taken map[int]bool) bool {
	q := &s.quants[i]
	if taken[q.at] {
		return false
	}
	switch q.role {
	case roleValue, rolePercent:
		return true
	case roleCount:
		return s.versusNear(q.at)
	}
	return false
}

// couples lists the candidate pairs of the sentence.
func (s *sentence) couples(taken map[int]bool) []couple {
	var vals []int
	for i := range s.quants {
		if s.figureRole(i, taken) {
			vals = append(vals, i)
		}
	}
	chained := map[int]bool{}
	out := s.chains(vals, chained)
	for k := 0; k+1 < len(vals); k++ {
		a, b := &s.quants[vals[k]], &s.quants[vals[k+1]]
		if !s.alike(a, b) || chained[vals[k+1]] {
			continue
		}
		if c, ok := s.coupleOf(a, b); ok {
			c.first, c.second = vals[k], vals[k+1]
			out = append(out, c)
		}
	}
	return out
}

// alike: two figures of one kind; a count is no mate of a length. In a claim
// typed by hand two units of one quantity are alike, since whoever reads it
// brings them to one unit.
func (s *sentence) alike(a, b *quantity) bool {
	switch {
	case a.percent != b.percent, (a.is == role.Change) != (b.is == role.Change), a.is == role.Money != (b.is == role.Money):
		return false
	case a.unit == "" || b.unit == "":
		return true
	}
	if s.r.typed {
		if u, v := s.r.cat.FindUnit(a.unit), s.r.cat.FindUnit(b.unit); u != nil && v != nil {
			return u.Quantity == v.Quantity
		}
	}
	return strings.EqualFold(a.unit, b.unit) || a.time == b.time && (a.unit[0]|0x20 == b.unit[0]|0x20)
}

// coupleOf decides how two neighbouring figures stand to each other.
func (s *sentence) coupleOf(a, b *quantity) (couple, bool) {
	from := s.fromBefore(a)
	gap := b.at - a.end
	if gap > 40 {
		return couple{}, false
	}
	var vs, to, and, verb, semi, turn bool
	for i := a.end; i < b.at; i++ {
		t := s.at(i)
		switch {
		case t.is.has(versus) || t.sort == wordToken && s.raw(i, i+1) == "v":
			vs = true
		case t.is.has(toWord) && !t.inside && i+5 >= b.at:
			to = true
		case t.is.has(comparator) && !t.inside:
			vs = true
		case t.sort == wordToken && s.raw(i, i+1) == "and", t.sign == ',':
			and = true
		case t.sign == ';':
			semi = true
		case t.is.has(clauseWord):
			turn = true
		case t.is.any(setOf(verbUp, verbDown, verbMerit)):
			verb = true
		}
	}
	switch {
	case vs && gap <= 40:
		c := couple{how: byVersus}
		if s.at(a.at).paren != s.at(b.at).paren || gap > 6 {
			c.how, c.sure = byApart, true
		}
		s.labels(&c, a, b)
		return c, true
	case to && (from || verb || s.at(a.at).paren >= 0 && gap <= 4) && !semi:
		return couple{how: byFromTo, refFirst: true, sure: from || verb}, true
	case to && gap <= 3 && !semi:
		return couple{how: byFromTo, refFirst: true}, true
	case and && gap <= 14 && !semi:
		c := couple{how: byList}
		s.labels(&c, a, b)
		return c, true
	case !turn && (!semi || s.at(a.at).paren >= 0 && s.at(a.at).paren == s.at(b.at).paren):
		c := couple{how: byNearness}
		s.labels(&c, a, b)
		return c, true
	}
	return couple{}, false
}

// fromBefore: "from [a median of] 255 days", "from the baseline value (7.9)".
func (s *sentence) fromBefore(q *quantity) bool {
	for i, n := q.at-1, 0; n < 7 && i >= s.from; n, i = n+1, i-1 {
		t := s.at(i)
		if t.is.has(fromWord) {
			return true
		}
		if t.sort == numberToken || t.sign == ';' || t.is.any(setOf(toWord)) && !t.inside {
			return false
		}
	}
	return false
}

// labels looks whether the words beside two figures say which is the
// reference: a control or a baseline beside one of them only.
func (s *sentence) labels(c *couple, a, b *quantity) {
	inOne := s.at(a.at).paren >= 0 && s.at(a.at).paren == s.at(b.at).paren
	ra, rb := s.refersToBase(a, nil, inOne), s.refersToBase(b, a, inOne)
	if ra == rb {
		return
	}
	c.refFirst, c.sure = ra, true
}

// refersToBase: a word of control or baseline stands right beside the figure.
func (s *sentence) refersToBase(q, before *quantity, inOne bool) bool {
	lo := q.at - 4
	if before != nil {
		lo = max(lo, before.end)
	}
	for i := q.at - 1; i >= lo && i >= s.from; i-- {
		if c := s.sign(i); c == ';' || c == ',' && before != nil || inOne && (c == '(' || c == '[') || s.is(i, versus) && s.at(i).span == 1 {
			break
		}
		if s.any(i, setOf(baseTime, control)) && !s.negatedLabel(i) {
			return true
		}
	}
	hi := q.end + 4
	for i := q.end; i < hi && i < s.to; i++ {
		t := s.at(i)
		if t.sign == ';' || t.sign == ',' || t.sort == numberToken || t.is.has(versus) || t.is.has(toWord) {
			break
		}
		if s.any(i, setOf(baseTime, control)) {
			return true
		}
	}
	return false
}

// negatedLabel: "non-control", or the second of "P vs. CON: 787 vs. 835".
func (s *sentence) negatedLabel(i int) bool {
	return s.is(i-1, negation) || s.is(i-1, versus) || s.sign(i-1) == '.' && s.is(i-2, versus)
}

// chains adds pairs over a middle figure: "from 7.9 to 2.3 and to 0.5", where
// the last is compared with the first, not with its neighbour.
func (s *sentence) chains(vals []int, chained map[int]bool) []couple {
	var out []couple
	for k := 0; k+2 < len(vals); k++ {
		a, b := &s.quants[vals[k]], &s.quants[vals[k+1]]
		if !s.alike(a, b) {
			continue
		}
		if c, ok := s.coupleOf(a, b); !ok || c.how != byFromTo {
			continue
		}
		for m := k + 2; m < len(vals); m++ {
			d, p := &s.quants[vals[m]], &s.quants[vals[m-1]]
			if !s.toBefore(p, d) || !s.alike(a, d) {
				break
			}
			out = append(out, couple{first: vals[k], second: vals[m], how: byFromTo, refFirst: true, sure: true})
			chained[vals[m]] = true
		}
	}
	return out
}

func (s *sentence) toBefore(p, d *quantity) bool {
	for i := p.end; i < d.at; i++ {
		if s.is(i, fromWord) || s.sign(i) == ';' {
			return false
		}
	}
	return s.is(d.at-1, toWord)
}
