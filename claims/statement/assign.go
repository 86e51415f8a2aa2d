package statement

import (
	"math"

	"probity/claims"
)

// assign gives each claim the pair of figures it speaks of.
func (s *sentence) assign(fs []found) []found {
	taken := map[int]bool{}
	for i := range fs {
		for t := fs[i].at; t < fs[i].end; t++ {
			taken[t] = true
		}
	}
	cs := s.couples(taken)
	n := len(fs)
	for i := range n {
		next := s.to
		if i+1 < n {
			next = fs[i+1].at
		}
		fs = s.twoLists(fs, i, next)
	}
	for i := range fs {
		f := &fs[i]
		if f.st.A.Known() {
			continue
		}
		if s.sharePair(f, taken) || s.toPair(fs, i, taken) || s.byRespective(fs, i, taken) || s.byChain(fs, i, cs) || s.apart(fs, i, taken) {
			continue
		}
		best, bestCost := -1, math.Inf(1)
		for k := range cs {
			if cost := s.cost(fs, i, &cs[k]); cost < bestCost {
				best, bestCost = k, cost
			}
		}
		if (bestCost > 8 || best >= 0 && cs[best].used) && s.ratioPair(fs, i) {
			continue
		}
		if (best < 0 || bestCost > 10) && s.appositive(fs, i) {
			continue
		}
		if best < 0 || bestCost >= 22 {
			s.differencePair(fs, i)
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
	cost := [...]float64{0, 0, 5, 5, 14}[c.how]
	if c.used {
		cost += 6
	}
	if in := s.at(f.at).paren; in >= 0 && in == s.at(a.at).paren && in == s.at(b.at).paren {
		cost -= 10
	} else if in := s.at(a.at).paren; in >= 0 && in == s.at(b.at).paren {
		cost -= 3
	}
	if f.st.Form == claims.Share && c.how != byVersus && c.how != byList {
		cost += 40
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
		if s.saysOther(f, lo) {
			cost += 25
		}
	default: // the claim stands between the two figures
		from, to = f.at, f.at
		cost += 1
	}
	for t := from; t < to; t++ {
		tok := s.at(t)
		if tok.sign == '(' || tok.sign == '[' {
			if e := closing(s.toks[:s.to], t); e > 0 && e < to { // brackets between count once
				cost++
				t = e
				continue
			}
		}
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
			cost += 20
			if fs[k].shared || f.shared {
				cost -= 14
			}
		}
	}
	if s.isLow(a) || s.isLow(b) {
		cost += 20
	}
	if s.rivals(f, a, b) {
		cost += 40
	}
	return cost
}

// saysOther: the pair before a claim belongs to another word of the opposite
// direction: "the shorter stay (11.8 vs 17.8 days) led to a 37 % higher …".
func (s *sentence) saysOther(f *found, first int) bool {
	if p := int(s.at(first).paren); p >= s.from {
		first = p
	}
	for i, n := first-1, 0; i >= s.from && n < 14; i, n = i-1, n+1 {
		if v, ok := s.senseAt(i); ok && s.any(i, adjectives) && s.at(i).paren < 0 && v.at != f.sense.at {
			return v.dir*f.sense.dir < 0
		}
	}
	return false
}

// appositive: "an absolute reduction of 4.3 % (a 14 % relative reduction)"
// says one thing twice; the second stands on the figures of the first.
func (s *sentence) appositive(fs []found, i int) bool {
	if i == 0 || !fs[i-1].st.A.Known() || fs[i].at-fs[i-1].end > 5 {
		return false
	}
	open := false
	for k := fs[i-1].end; k < fs[i].at; k++ {
		open = open || s.sign(k) == '('
		if s.sign(k) == ';' || s.is(k, clauseWord) || s.raw(k, k+1) == "and" {
			return false
		}
	}
	if !open {
		return false
	}
	fs[i].st.A, fs[i].st.B, fs[i].st.BeforeTo = fs[i-1].st.A, fs[i-1].st.B, fs[i-1].st.BeforeTo
	return true
}

// rivals: "reduced by 47 % compared with 25 and 26 %": percentages behind the
// comparator are the others' changes, not levels to recompute from.
func (s *sentence) rivals(f *found, a, b *quantity) bool {
	if f.st.Kind != claims.Percent || !a.percent || a.at < f.end || s.at(a.at).paren >= 0 {
		return false
	}
	for i := f.end; i < a.at; i++ {
		if s.any(i, setOf(versus, comparator)) && s.at(i).paren < 0 && !s.at(i).inside && i+4 >= a.at {
			return true
		}
	}
	return false
}

func (s *sentence) isLow(q *quantity) bool { return q.role == roleCount && !s.versusNear(q.at) }

// give writes a pair into a claim, the subject first.
func (s *sentence) give(f *found, c *couple) {
	a, b := &s.quants[c.first], &s.quants[c.second]
	if c.refFirst || s.referenceLeads(c) || !c.sure && s.againstFold(f, a, b) {
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
	if !s.is(i, leadComparator) {
		return false
	}
	return c.how != byVersus || s.respectivelyNear(s.quants[c.second].end)
}

func (s *sentence) respectivelyNear(i int) bool {
	for j := i; j < i+12; j++ {
		if s.is(j, respectively) {
			return true
		}
		if t := s.at(j); t.sort == numberToken || t.sign == ';' || t.sort == emptyToken {
			return false
		}
	}
	return false
}

// againstFold: two figures without labels stand in the other order when
// "twice as" would otherwise join the smaller to the larger.
func (s *sentence) againstFold(f *found, a, b *quantity) bool {
	x, y := s.at(a.at).value, s.at(b.at).value
	if x < 0 && y < 0 {
		x, y = -x, -y
	}
	if f.st.Form == claims.Share {
		return x > y && f.st.Value.Value < 100 || x < y && f.st.Value.Value > 100
	}
	return f.st.Kind == claims.Fold && (f.st.Direction == claims.Higher && x < y || f.st.Direction == claims.Lower && x > y && f.sense.inverts == "")
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
