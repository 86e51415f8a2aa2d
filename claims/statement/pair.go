package statement

import (
	"math"
	"strings"

	"probity/claims"
	"probity/extract"
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
		if !alike(a, b) || chained[vals[k+1]] {
			continue
		}
		if c, ok := s.coupleOf(a, b); ok {
			c.first, c.second = vals[k], vals[k+1]
			out = append(out, c)
		}
	}
	return out
}

// alike: two figures of one kind; a count is no mate of a length.
func alike(a, b *quantity) bool {
	switch {
	case a.percent != b.percent:
		return false
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

// ratioPair: "a 58 % reduction in the risk (HR 0.42 …)": the base is 1.
func (s *sentence) ratioPair(fs []found, i int) bool {
	f := &fs[i]
	if f.st.Kind != claims.Percent || f.st.Form != claims.Change || !s.speaksOfRisk(f) {
		return false
	}
	next := s.to
	if i+1 < len(fs) {
		next = fs[i+1].at
	}
	for k := range s.quants {
		q := &s.quants[k]
		if q.role != roleRatio || q.at < f.end {
			continue
		}
		if q.at > next && i+1 < len(fs) && fs[i+1].st.Kind == claims.Percent && s.speaksOfRisk(&fs[i+1]) {
			return false
		}
		f.st.A = s.figure(q)
		f.st.B = claims.Figure{Number: extract.Number{Text: "1", Value: 1, Decimals: 9, Place: f.st.A.Number.Place}}
		f.st.Rests = append(f.st.Rests, "a ratio against 1")
		return true
	}
	return false
}

func (s *sentence) speaksOfRisk(f *found) bool {
	for k := f.at - 8; k < f.end+8; k++ {
		switch strings.ToLower(s.raw(k, k+1)) {
		case "risk", "hazard", "odds", "rate", "rates", "likelihood":
			return true
		}
	}
	return false
}

// sharePair: in "20.6 sessions (86 % of the expected 24)" the whole stands
// behind "of" and the part before the percentage.
func (s *sentence) sharePair(f *found, taken map[int]bool) bool {
	if f.st.Form != claims.Share {
		return false
	}
	part, all := -1, -1
	for k := range s.quants {
		if !s.figureRole(k, taken) && s.quants[k].role != roleCount {
			continue
		}
		switch q := &s.quants[k]; {
		case q.end <= f.at:
			part = k
		case q.at >= f.end && q.at < f.end+8 && all < 0 && s.sign(q.at-1) != '(':
			all = k
		}
	}
	if part < 0 || all < 0 || s.is(f.end+1, control) {
		return false
	}
	f.st.A, f.st.B = s.figure(&s.quants[part]), s.figure(&s.quants[all])
	return true
}

// toPair: "improved by 49.4 % to 0.69": the figure behind "to" is the last
// value, the first stands earlier: after "from", or in a list of baselines as
// long as the list of such claims.
func (s *sentence) toPair(fs []found, i int, taken map[int]bool) bool {
	f := &fs[i]
	if !s.is(f.end, toWord) || s.at(f.end).span > 1 {
		return false
	}
	last := s.quantAt(f.end + 1)
	if last < 0 || !s.figureRole(last, taken) {
		return false
	}
	var rank, n int
	for k := range fs {
		if s.is(fs[k].end, toWord) {
			if k < i {
				rank++
			}
			n++
		}
	}
	first := -1
	var before []int
	for k := 0; k < len(s.quants) && s.quants[k].at < fs[0].at; k++ {
		if s.figureRole(k, taken) {
			before = append(before, k)
		}
	}
	if len(before) == n {
		first = before[rank]
	}
	if first < 0 || !alike(&s.quants[first], &s.quants[last]) {
		return false
	}
	f.st.A, f.st.B, f.st.BeforeTo = s.figure(&s.quants[last]), s.figure(&s.quants[first]), true
	return true
}

func (s *sentence) quantAt(tok int) int {
	for k := range s.quants {
		if s.quants[k].at == tok {
			return k
		}
	}
	return -1
}

// group gives the claims that share one verb with claim i.
func group(fs []found, i int) (lo, hi int) {
	lo, hi = i, i
	for lo > 0 && (fs[lo].shared || fs[lo].sense.at == fs[lo-1].sense.at) {
		lo--
	}
	for hi+1 < len(fs) && (fs[hi+1].shared || fs[hi+1].sense.at == fs[hi].sense.at) {
		hi++
	}
	return lo, hi
}

// byRespective ties lists: "24 %, 35 % and 26 % … (1.88, 3.67 and 4.80 …) …
// (3.34, 5.61 and 6.44 …)" has two lists as long as the list of claims; "5.1,
// 8.8 and 12.3, respectively" has one more, the reference.
func (s *sentence) byRespective(fs []found, i int, taken map[int]bool) bool {
	lo, hi := group(fs, i)
	if lo == hi {
		lo, hi = 0, len(fs)-1
	}
	n := hi - lo + 1
	if n < 2 {
		return false
	}
	var same []list
	for _, l := range s.lists(taken) {
		if len(l.of) == n+1 && s.respectivelyNear(s.quants[l.of[n]].end) && n == len(fs) {
			a, b := l.of[i-lo], l.of[n]
			fs[i].st.A, fs[i].st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
			return true
		}
		if len(l.of) == n {
			same = append(same, l)
		}
	}
	if len(same) < 2 || !fs[hi].shared && fs[hi].sense.at != fs[lo].sense.at {
		return false
	}
	a, b := same[0].of[i-lo], same[1].of[i-lo]
	if s.is(s.skipLeft(s.quants[same[0].of[0]].at-1), fromWord) {
		a, b = b, a
	}
	fs[i].st.A, fs[i].st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
	return true
}

// byChain ties "from 7.9 to 2.3 and to 0.5 … by 70.9 % and by 93.7 %" in
// order, all on the first value.
func (s *sentence) byChain(fs []found, i int, cs []couple) bool {
	lo, hi := group(fs, i)
	n := hi - lo + 1
	if n < 2 {
		return false
	}
	var chain []*couple
	for k := range cs {
		c := &cs[k]
		if c.how == byFromTo && c.refFirst && (len(chain) == 0 || chain[0].first == c.first) {
			chain = append(chain, c)
		}
	}
	if len(chain) != n {
		return false
	}
	for a := range chain {
		for b := a + 1; b < n; b++ {
			if chain[b].second < chain[a].second {
				chain[a], chain[b] = chain[b], chain[a]
			}
		}
	}
	s.give(&fs[i], chain[i-lo])
	chain[i-lo].used = true
	return true
}

// apart ties figures in brackets behind each side: "36 % less time (74 min)
// … than the third (116 min)"; a later claim of the same subject keeps it.
func (s *sentence) apart(fs []found, i int, taken map[int]bool) bool {
	f := &fs[i]
	next := s.to
	if i+1 < len(fs) {
		next = fs[i+1].at
	}
	cmp := -1
	for k := f.end; k < s.to && cmp < 0; k++ {
		if s.at(k).sign == ';' {
			return false
		}
		if s.is(k, comparator) && !s.at(k).inside && s.at(k).paren < 0 {
			cmp = k
		}
	}
	if cmp < 0 {
		return false
	}
	a, b := -1, -1
	for k := range s.quants {
		q := &s.quants[k]
		if !s.figureRole(k, taken) {
			continue
		}
		switch {
		case q.at >= f.end && q.at < cmp && q.at < next && a < 0:
			a = k
		case q.at > cmp && b < 0:
			b = k
		}
	}
	if b < 0 || s.at(s.quants[b].at).paren < 0 && a < 0 || s.crossed(cmp, s.quants[b].at) {
		return false
	}
	if a < 0 && i > 0 && fs[i-1].st.A.Known() {
		a = s.quantStarting(fs[i-1].st.A.Number.Place.Start)
	}
	if a < 0 || a == b || !alike(&s.quants[a], &s.quants[b]) || s.inPair(b, taken) || s.inPair(a, taken) {
		return false
	}
	f.st.A, f.st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
	f.st.Median = s.medianNear(&s.quants[a], &s.quants[b])
	return true
}

func (s *sentence) quantStarting(start int) int {
	for k := range s.quants {
		if s.at(s.quants[k].at).start == start {
			return k
		}
	}
	return -1
}

// crossed: a semicolon, another comparator or a turn stands between.
func (s *sentence) crossed(i, j int) bool {
	for k := i + int(s.at(i).span); k < j; k++ {
		if s.sign(k) == ';' || s.is(k, comparator) && !s.at(k).inside || s.is(k, clauseWord) {
			return true
		}
	}
	return false
}

// inPair: the figure shares its bracket with another figure of its kind.
func (s *sentence) inPair(i int, taken map[int]bool) bool {
	q := &s.quants[i]
	p := s.at(q.at).paren
	if p < 0 {
		return false
	}
	for k := range s.quants {
		if k != i && s.figureRole(k, taken) && s.at(s.quants[k].at).paren == p {
			return true
		}
	}
	return false
}

// differencePair: "8.4 % in P versus 6.7 % in Q, a difference of 1.7 %": the
// two figures are percentages that claim changes themselves.
func (s *sentence) differencePair(fs []found, i int) {
	f := &fs[i]
	if !f.sense.diff && f.st.Form != claims.Points {
		return
	}
	for k := 0; k+1 < len(s.quants); k++ {
		a, b := &s.quants[k], &s.quants[k+1]
		if b.end > f.at || !a.percent || !b.percent {
			continue
		}
		if c, ok := s.coupleOf(a, b); ok && c.how != byFromTo {
			c.first, c.second = k, k+1
			s.give(f, &c)
			return
		}
	}
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

func (s *sentence) againstBetween(from, to int) bool {
	for k := from; k < to; k++ {
		if s.is(k, versus) {
			return true
		}
	}
	return false
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
			if c.used || c.how != byVersus && (c.how != byList || !s.respectivelyNear(b.end+3) && !s.respectivelyNear(b.end)) || a.at < f.end || b.end > next || !s.pairListed(f, a) {
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
		if t.start <= first && a.at > f.end && s.at(a.at).start > first || t.paren >= 0 && t.sign != '(' {
			continue
		}
		switch {
		case t.sign == ';', t.is.any(setOf(clauseWord, equalWord)), t.is.any(verbs) && t.paren < 0:
			return false
		case t.sign == ',' || s.raw(i, i+1) == "and":
			commas++
		case t.sign == '(':
			brackets++
		}
	}
	return commas > 0 && brackets > 0 || s.at(a.at).start < first && brackets > 0
}

// twoLists: "10 % higher in P (48 % and 17 g) than in Q (43.5 % and 15.5 g)":
// one claim of two outcomes, printed as a list on each side.
func (s *sentence) twoLists(out []found, i, next int) []found {
	f := &out[i]
	if lo, hi := group(out, i); lo != hi {
		return out
	}
	var left, right []int
	cmp := false
	for k := range s.quants {
		q := &s.quants[k]
		if q.at < f.end || q.at >= next || q.role != roleValue && q.role != rolePercent || s.at(q.at).paren < 0 {
			continue
		}
		if len(left) == 0 || s.at(q.at).paren == s.at(s.quants[left[0]].at).paren {
			left = append(left, k)
			continue
		}
		for j := s.quants[left[len(left)-1]].end; j < q.at && len(right) == 0; j++ {
			cmp = cmp || s.is(j, comparator)
		}
		if len(right) > 0 && s.versusBetween(right[len(right)-1], k) {
			return out
		}
		if len(right) == 0 || s.at(q.at).paren == s.at(s.quants[right[0]].at).paren {
			right = append(right, k)
		}
	}
	if !cmp || len(left) < 2 || len(left) != len(right) {
		return out
	}
	for k := range left {
		if !alike(&s.quants[left[k]], &s.quants[right[k]]) || k > 0 && (!s.listed(s.quants[left[k-1]].end, s.quants[left[k]].at) || s.versusBetween(left[k-1], left[k])) {
			return out
		}
	}
	f.st.A, f.st.B = s.figure(&s.quants[left[0]]), s.figure(&s.quants[right[0]])
	for k := 1; k < len(left); k++ {
		st := *f.st
		st.A, st.B = s.figure(&s.quants[left[k]]), s.figure(&s.quants[right[k]])
		out = append(out, found{at: f.at, end: f.end, sense: f.sense, st: &st})
	}
	return out
}
