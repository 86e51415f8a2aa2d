package statement

import (
	"math"
	"strings"

	"probity/claims"
)

// How two figures of a sentence came to stand against each other.
type pairing uint8

const (
	byVersus pairing = iota // "10.5 vs 8.6"
	byFromTo                // "from 7.9 to 2.3"
	byList                  // "7.16 and 9.38, respectively"
	byApart                 // "(84.3) as compared to controls (66.8)"
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
	var out []couple
	for k := 0; k+1 < len(vals); k++ {
		a, b := &s.quants[vals[k]], &s.quants[vals[k+1]]
		if !alike(a, b) {
			continue
		}
		if c, ok := s.coupleOf(a, b); ok {
			c.first, c.second = vals[k], vals[k+1]
			out = append(out, c)
		}
	}
	return append(out, s.chains(vals)...)
}

// alike: two figures of one kind; a count is no mate of a length.
func alike(a, b *quantity) bool {
	switch {
	case a.percent != b.percent:
		return a.unit == "" || b.unit == ""
	case a.unit == "" || b.unit == "":
		return true
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
	var vs, to, and, verb, semi bool
	for i := a.end; i < b.at; i++ {
		t := s.at(i)
		switch {
		case t.is.has(versus) || t.sort == wordToken && s.raw(i, i+1) == "v":
			vs = true
		case t.is.has(toWord) && !t.inside:
			to = true
		case t.is.has(comparator) && !t.inside:
			vs = true
		case t.sort == wordToken && s.raw(i, i+1) == "and", t.sign == ',':
			and = true
		case t.sign == ';':
			semi = true
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
	case semi || gap <= 40:
		c := couple{how: byApart}
		s.labels(&c, a, b)
		return c, gap <= 40
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
	ra, rb := s.refersToBase(a, nil), s.refersToBase(b, a)
	if ra == rb {
		return
	}
	c.refFirst, c.sure = ra, true
}

// refersToBase: a word of control or baseline stands right beside the figure.
func (s *sentence) refersToBase(q, before *quantity) bool {
	lo := q.at - 4
	if before != nil {
		lo = max(lo, before.end)
	}
	for i := q.at - 1; i >= lo && i >= s.from; i-- {
		if s.sign(i) == ';' || s.sign(i) == ',' && before != nil {
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

func (s *sentence) negatedLabel(i int) bool { return s.is(i-1, negation) }

// chains adds pairs over a middle figure: "from 7.9 to 2.3 and to 0.5", where
// the last is compared with the first, not with its neighbour.
func (s *sentence) chains(vals []int) []couple {
	var out []couple
	for k := 0; k+2 < len(vals); k++ {
		a, b := &s.quants[vals[k]], &s.quants[vals[k+1]]
		if !alike(a, b) {
			continue
		}
		if c, ok := s.coupleOf(a, b); !ok || c.how != byFromTo {
			continue
		}
		for m := k + 2; m < len(vals); m++ {
			d, p := &s.quants[vals[m]], &s.quants[vals[m-1]]
			if !s.toBefore(p, d) || !alike(a, d) {
				break
			}
			out = append(out, couple{first: vals[k], second: vals[m], how: byFromTo, refFirst: true, sure: true})
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

// assign gives each claim the pair of figures it speaks of.
func (s *sentence) assign(fs []found) []found {
	taken := map[int]bool{}
	for i := range fs {
		for t := fs[i].at; t < fs[i].end; t++ {
			taken[t] = true
		}
	}
	cs := s.couples(taken)
	for i := range fs {
		f := &fs[i]
		if f.st.A.Known() {
			continue
		}
		if s.ratioPair(f) {
			continue
		}
		if s.byRespective(fs, i, taken) {
			continue
		}
		best, bestCost := -1, math.Inf(1)
		for k := range cs {
			if cost := s.cost(fs, i, &cs[k]); cost < bestCost {
				best, bestCost = k, cost
			}
		}
		if best < 0 || bestCost > 40 {
			continue
		}
		s.give(f, &cs[best])
		cs[best].used = true
	}
	return s.morePairs(fs, cs)
}

// cost says how far a pair stands from a claim; 40 and more is no tie.
func (s *sentence) cost(fs []found, i int, c *couple) float64 {
	f := &fs[i]
	a, b := &s.quants[c.first], &s.quants[c.second]
	cost := [...]float64{0, 0, 5, 5}[c.how]
	if c.used {
		cost += 14
	}
	if f.st.Form == claims.Points && !a.percent && !b.percent && a.unit != "" {
		cost += 40
	}
	lo, hi := a.at, b.end
	var from, to int
	switch {
	case lo >= f.end:
		from, to = f.end, lo
	case hi <= f.at:
		from, to = hi, f.at
		cost += 2
	default: // the claim stands between the two figures
		from, to = f.at, f.at
		cost += 1
	}
	for t := from; t < to; t++ {
		tok := s.at(t)
		switch {
		case tok.sign == ';':
			cost += 12
		case tok.is.has(clauseWord):
			cost += 8
		case tok.sign == ')' || tok.sign == ']':
			cost += 0.5
		default:
			cost += 0.25
		}
	}
	for k := range fs {
		if k != i && fs[k].at >= from && fs[k].at < to {
			cost += 8
			if fs[k].shared || f.shared {
				cost -= 4
			}
		}
	}
	if s.isLow(a) || s.isLow(b) {
		cost += 20
	}
	return cost
}

func (s *sentence) isLow(q *quantity) bool { return q.role == roleCount && !s.versusNear(q.at) }

// give writes a pair into a claim, the subject first.
func (s *sentence) give(f *found, c *couple) {
	a, b := &s.quants[c.first], &s.quants[c.second]
	if c.refFirst || s.referenceLeads(c) {
		a, b = b, a
	}
	f.st.A, f.st.B = s.figure(a), s.figure(b)
	if f.st.A.Unit == "" {
		f.st.A.Unit = f.st.B.Unit
	}
	if f.st.B.Unit == "" {
		f.st.B.Unit = f.st.A.Unit
	}
	if c.how == byFromTo {
		f.st.BeforeTo = s.beforeAfter(a, b)
	}
	f.st.Median = f.st.Median || s.medianNear(a, b)
}

// referenceLeads: "Compared with X (66), Y had (84)": the first is the
// reference when a comparator opens the clause before it.
func (s *sentence) referenceLeads(c *couple) bool {
	if c.how == byFromTo || c.sure {
		return false
	}
	i := s.from
	for s.sortOf(i) == signToken {
		i++
	}
	return s.is(i, leadComparator) && c.how != byVersus
}

// beforeAfter: the two figures are of the same specimens at two times.
func (s *sentence) beforeAfter(a, b *quantity) bool {
	for _, q := range []*quantity{a, b} {
		for i := q.at - 5; i < q.end+5; i++ {
			if s.any(i, setOf(baseTime)) || s.is(i, label) && s.is(i, timeUnit) {
				return true
			}
		}
	}
	return false
}

func (s *sentence) medianNear(a, b *quantity) bool {
	lo := min(a.at, b.at)
	for i := lo - 1; i >= s.from && i > lo-12; i-- {
		if s.is(i, median) {
			return true
		}
		if s.is(i, meanWord) {
			return false
		}
	}
	return false
}

// ratioPair: "a 58 % reduction in the risk (HR 0.42 …)": the base is 1.
func (s *sentence) ratioPair(f *found) bool { return false }

// byRespective ties lists: "A and B exceeded C by 13 % and 42 %" has no
// figures; "24 %, 35 % and 26 % … (1.88, 3.67 and 4.80 …) … (3.34, 5.61 and
// 6.44 …)" has two lists as long as the list of claims.
func (s *sentence) byRespective(fs []found, i int, taken map[int]bool) bool {
	lo, hi := i, i
	for lo > 0 && (fs[lo].shared) {
		lo--
	}
	for hi+1 < len(fs) && fs[hi+1].shared {
		hi++
	}
	n := hi - lo + 1
	if n < 2 {
		return false
	}
	lists := s.lists(taken)
	var same []list
	for _, l := range lists {
		if len(l.of) == n {
			same = append(same, l)
		}
	}
	if len(same) < 2 {
		return false
	}
	a, b := same[0].of[i-lo], same[1].of[i-lo]
	if s.is(s.skipLeft(s.quants[same[0].of[0]].at-1), fromWord) {
		a, b = b, a
	}
	fs[i].st.A, fs[i].st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
	return true
}

// list is a run of figures joined by commas, "and", "or".
type list struct{ of []int }

func (s *sentence) lists(taken map[int]bool) []list {
	var out []list
	var cur list
	last := -1
	for i := range s.quants {
		if !s.figureRole(i, taken) {
			continue
		}
		if last >= 0 && s.listed(s.quants[last].end, s.quants[i].at) && !s.versusBetween(last, i) {
			cur.of = append(cur.of, i)
		} else {
			if len(cur.of) > 1 {
				out = append(out, cur)
			}
			cur = list{of: []int{i}}
		}
		last = i
	}
	if len(cur.of) > 1 {
		out = append(out, cur)
	}
	return out
}

func (s *sentence) versusBetween(i, j int) bool {
	for k := s.quants[i].end; k < s.quants[j].at; k++ {
		if s.any(k, setOf(versus, toWord)) {
			return true
		}
	}
	return false
}

// morePairs: one claim before a list of pairs is a claim of each: "about 10 %
// lower in P (2.28 vs 2.51), Q (2.40 vs 2.73) and R (6.85 vs 7.37)".
func (s *sentence) morePairs(fs []found, cs []couple) []found {
	out := fs
	for i := range fs {
		f := &fs[i]
		if !f.st.A.Known() || f.st.A.Number.Place.Start < s.at(f.end-1).end {
			continue
		}
		next := s.to
		if i+1 < len(fs) {
			next = fs[i+1].at
		}
		for k := range cs {
			c := &cs[k]
			a, b := &s.quants[c.first], &s.quants[c.second]
			if c.used || c.how != byVersus || a.at < f.end || b.end > next || !s.pairListed(f, a) {
				continue
			}
			st := *f.st
			g := found{at: f.at, end: f.end, sense: f.sense, st: &st, shared: f.shared}
			s.give(&g, c)
			c.used = true
			out = append(out, g)
		}
	}
	return out
}

// pairListed reports whether the bracketed pair goes on with the list of
// pairs that the claim's own pair began.
func (s *sentence) pairListed(f *found, a *quantity) bool {
	first := f.st.A.Number.Place.Start
	commas, brackets := 0, 0
	for i := f.end; i < a.at; i++ {
		t := s.at(i)
		if t.start <= first || t.paren >= 0 && t.sign != '(' {
			continue
		}
		switch {
		case t.sign == ';', t.is.any(setOf(clauseWord, equalWord)), t.is.any(verbs):
			return false
		case t.sign == ',' || s.raw(i, i+1) == "and":
			commas++
		case t.sign == '(':
			brackets++
		}
	}
	return commas > 0 && brackets > 0
}
