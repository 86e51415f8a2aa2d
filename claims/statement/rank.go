package statement

import (
	"strings"

	"probity/claims"
)

// ranking reads orders of arms: "A > B > C", "A had the highest …, followed by
// B and C", "the lowest was recorded for A and the highest for B", "ranked as
// follows: A, B, C, from highest to lowest", "A had the highest".
func (s *sentence) ranking(c clause) bool {
	if s.methodical(c) || s.claimsIn(c) {
		return false
	}
	if s.signOrder(c) || s.listOrder(c) {
		return true
	}
	return s.superlative(c)
}

// signOrder: "A > B > C", "A = B < C".
func (s *sentence) signOrder(c clause) bool {
	hits := s.armHits(c.from, c.to)
	for i := 0; i+1 < len(hits); i++ {
		var order []armHit
		var than []int
		order = append(order, hits[i])
		for k := i + 1; k < len(hits); k++ {
			rel, ok := s.relationSign(hits[k-1].end, hits[k].at)
			if !ok {
				break
			}
			order, than = append(order, hits[k]), append(than, rel)
		}
		if len(than) == 0 {
			continue
		}
		s.emitOrder(c, order, than, "order by signs")
		return true
	}
	return false
}

func (s *sentence) relationSign(i, j int) (int, bool) {
	if j-i < 1 || j-i > 3 {
		return 0, false
	}
	for k := i; k < j; k++ {
		switch s.sign(k) {
		case '>', '≥', '›':
			return 1, true
		case '<', '≤', '‹':
			return -1, true
		case '=', '≈':
			return 0, true
		}
	}
	return 0, false
}

// listOrder: "followed by", "ranked as follows", "in descending order".
func (s *sentence) listOrder(c clause) bool {
	next, head, dir := -1, -1, 0
	super, superAt := 0, -1
	for i := c.from; i < c.to; i++ {
		t := s.at(i)
		if t.inside {
			continue
		}
		switch {
		case t.is.has(rankNext) && next < 0:
			next = i
		case t.is.has(rankHead) && head < 0:
			head = i
		case t.is.has(rankDown):
			dir = 1
		case t.is.has(rankUp):
			dir = -1
		case t.is.any(supers) && superAt < 0:
			superAt, super = i, s.superDir(i)
		}
		if t.is.has(rankHead) && t.is.any(setOf(rankDown, rankUp)) {
			head = i
		}
	}
	hits := s.named(s.armHits(c.from, c.to))
	switch {
	case next >= 0 && superAt >= 0 && superAt < next && super != 0:
		first := s.nearestArm(hits, superAt, next)
		var rest []armHit
		for _, h := range hits {
			if h.at > next {
				rest = append(rest, h)
			}
		}
		if first < 0 || len(rest) == 0 {
			return false
		}
		order := append([]armHit{hits[first]}, rest...)
		s.emitOrder(c, order, repeat(super, len(order)-1), s.raw(next, next+int(s.at(next).span)))
		return true
	case dir != 0 && len(hits) >= 2 && (head >= 0 || s.joinedRun(hits)):
		s.emitOrder(c, hits, repeat(dir, len(hits)-1), "an order from one end to the other")
		return true
	}
	return false
}

func (s *sentence) joinedRun(hits []armHit) bool {
	for i := 1; i < len(hits); i++ {
		if !s.joined(hits[i-1].end, hits[i].at) {
			return false
		}
	}
	return true
}

func repeat(x, n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = x
	}
	return out
}

// named keeps the hits of single arms.
func (s *sentence) named(hits []armHit) []armHit {
	var out []armHit
	for _, h := range hits {
		if len(h.arms) == 1 && !h.all && !h.others {
			out = append(out, h)
		}
	}
	return out
}

// nearestArm finds the arm of a superlative: the name before it in the clause
// ("A had the highest"), else the one behind it ("the highest was seen in A").
func (s *sentence) nearestArm(hits []armHit, at, to int) int {
	best := -1
	for i, h := range hits {
		if h.end <= at {
			best = i
		}
	}
	if best >= 0 {
		return best
	}
	for i, h := range hits {
		if h.at > at && h.at < to {
			return i
		}
	}
	return -1
}

// superDir is the direction of a superlative: of merit, from the outcome.
func (s *sentence) superDir(i int) int {
	t := s.at(i)
	switch {
	case t.is.has(superUp):
		return 1
	case t.is.has(superDown):
		return -1
	}
	return 0
}

func (s *sentence) emitOrder(c clause, order []armHit, than []int, rests string) {
	st := &claims.Statement{Kind: claims.Ranking, Than: than, Rests: []string{rests}}
	for _, h := range order {
		st.Order = append(st.Order, s.party([]armHit{h}))
	}
	sd := sides{subject: order[:1], reference: order[1:], sure: true, each: true, at: -1}
	s.tie(st, c.from, c.to, c.from, sd)
	if len(than) > 0 {
		st.Direction = claims.Direction(than[0])
	}
	st.P = s.pIn(c)
	s.emit(st)
}

// superlative: "A showed the highest bond strength"; "the lowest was recorded
// for A and the highest for B".
func (s *sentence) superlative(c clause) bool {
	var at []int
	for i := c.from; i < c.to; i++ {
		t := s.at(i)
		if !t.is.any(supers) || t.inside || !s.isSuper(i) {
			continue
		}
		at = append(at, i)
	}
	if len(at) == 0 {
		return false
	}
	hits := s.armHits(c.from, c.to)
	named := s.named(hits)
	if len(at) == 2 && len(named) >= 2 && s.superDir(at[0])*s.superDir(at[1]) < 0 {
		a, b := s.superPair(named, at)
		if a >= 0 && b >= 0 && a != b {
			s.emitOrder(c, []armHit{named[a], named[b]}, []int{s.superDir(at[0])}, s.raw(at[0], at[0]+1)+" … "+s.raw(at[1], at[1]+1))
			return true
		}
	}
	if len(hits) == 0 && !s.measures(c) && s.place.Section == "" {
		return false
	}
	st := &claims.Statement{Kind: claims.Ranking, Rests: []string{s.raw(at[0], at[0]+int(s.at(at[0]).span))}}
	sd := sides{at: -1, sure: true}
	if k := s.nearestArm(hits, at[0], c.to); k >= 0 {
		sd.subject = hits[k : k+1]
		for m := k + 1; m < len(hits) && s.joined(hits[m-1].end, hits[m].at); m++ {
			sd.subject = hits[k : m+1]
		}
	}
	s.tie(st, c.from, c.to, at[0], sd)
	if n := len(st.Subject.Arms); n > 0 && n < len(s.r.arms.all) && !st.Subject.All {
		st.Reference = claims.Party{All: true, Arms: s.others(st.Subject.Arms)}
		st.Pairs, st.Why = nil, ""
		s.superPairs(st, c, sd)
	}
	v := sense{dir: claims.Direction(s.superDir(at[0])), merit: s.at(at[0]).merit()}
	s.direct(st, v)
	st.P = s.pIn(c)
	if st.Significant = s.significantIn(c); st.Significant != nil {
		st.Kind = claims.Significance
	}
	s.emit(st)
	return true
}

// superPairs ties the first arm to all others.
func (s *sentence) superPairs(st *claims.Statement, c clause, sd sides) {
	if len(s.r.byArm) == 0 {
		return
	}
	outs, where := s.outcomesFor(c.from, c.to)
	for _, a := range st.Subject.Arms {
		for _, b := range st.Reference.Arms {
			st.Pairs = append(st.Pairs, s.measuresFor(st, outs, where, a, b)...)
		}
	}
	if len(st.Pairs) > 200 {
		st.Pairs = st.Pairs[:200]
	}
}

func (s *sentence) significantIn(c clause) *bool {
	for i := c.from; i < c.to; i++ {
		if s.is(i, significant) && !s.at(i).inside && s.negatedBefore(i, c.from) < 0 {
			yes := true
			return &yes
		}
	}
	return nil
}

// isSuper leaves out "at least", "most of", "most important", "at most".
func (s *sentence) isSuper(i int) bool {
	w := s.word(i)
	switch w {
	case "most", "least":
		next := strings.ToLower(s.raw(i+1, i+2))
		if s.raw(i-1, i) == "at" || next == "of" || s.is(i+1, counted) || s.at(i).span == 1 && s.sortOf(i+1) == wordToken && s.raw(i-1, i) != "the" {
			return false
		}
		return next != "likely" && next != "important" && next != "recent" && next != "popular" && next != "widely" && next != "used"
	case "maximum", "maximal", "minimum", "minimal":
		// "maximum torque" is an outcome; only "the maximum … and minimum" ranks
		if s.sign(i+1) == '(' {
			return true // "the maximum (1517) and minimum (683)"
		}
		return strings.EqualFold(s.raw(i-1, i), "the") && (s.is(i+1, superDown) || s.raw(i+1, i+2) == "and" && s.any(i+2, supers))
	}
	return true
}

func (s *sentence) measures(c clause) bool { return len(s.outcomesIn(c.from, c.to)) > 0 }

// superPair gives to each of two superlatives its arm: both names behind, or
// "A had the highest and B the lowest", or "A and B had the highest and the
// lowest, respectively".
func (s *sentence) superPair(hits []armHit, at []int) (int, int) {
	var before, mid, after []int
	for i, h := range hits {
		switch {
		case h.end <= at[0]:
			before = append(before, i)
		case h.end <= at[1]:
			mid = append(mid, i)
		default:
			after = append(after, i)
		}
	}
	switch {
	case len(before) >= 2 && len(mid) == 0 && len(after) == 0:
		return before[len(before)-2], before[len(before)-1]
	case len(before) > 0 && len(mid) > 0 && len(after) == 0:
		return before[len(before)-1], mid[len(mid)-1]
	case len(mid) > 0 && len(after) > 0:
		return mid[0], after[0]
	case len(after) >= 2:
		return after[0], after[1]
	}
	return -1, -1
}
