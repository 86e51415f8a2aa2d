package statement

import (
	"strings"

	"probity/claims"
	"probity/claims/reading"
)

// overTime: the comparison is of times in the same specimens.
func (s *sentence) overTime(c clause, sd sides) bool {
	if sd.at >= 0 && len(sd.reference) == 0 {
		for i := sd.at; i < sd.at+4; i++ {
			if s.is(i, baseTime) {
				return true
			}
		}
	}
	for i := c.from; i < c.to; i++ {
		if s.any(i, setOf(comparator)) && !s.at(i).inside && (s.is(i+int(s.at(i).span), baseTime) || s.is(i+int(s.at(i).span)+1, baseTime)) {
			return true // "compared with baseline", "than the initial"
		}
	}
	if len(sd.subject) > 0 && sd.at < 0 && len(sd.pairs) == 0 && s.changesAlone(c) {
		return true // "in the P group the load decreased significantly"
	}
	if len(sd.subject) > 0 && len(sd.reference) > 0 {
		return false
	}
	for i := c.from; i < c.to; i++ {
		if s.is(i, baseTime) && (s.any(i-1, setOf(comparator, fromWord, versus)) || s.any(i-2, setOf(comparator, fromWord))) {
			return true
		}
		if s.is(i, beforeAfter) {
			return true
		}
	}
	return false
}

// changesAlone: a verb or noun of change, and nobody to compare with.
func (s *sentence) changesAlone(c clause) bool {
	change := false
	for i := c.from; i < c.to; i++ {
		if w := s.raw(i, i+1); s.is(i, comparator) && !s.at(i).inside || w == "between" || w == "among" {
			return false
		}
		change = change || s.any(i, setOf(verbUp, verbDown, nounUp, nounDown)) && !s.at(i).inside
	}
	return change
}

// cutPairs pairs the times of each arm, not the arms, when the words compare
// times: the later figures against the baseline's.
func (s *sentence) cutPairs(st *claims.Statement, c clause) {
	st.Pairs, st.Why = nil, "the figures at two times could not be told apart"
	arms := st.Subject.Arms
	if len(arms) == 0 {
		arms = s.r.arms.all
	}
	outs, _ := s.outcomesFor(c.from, c.to)
	for _, a := range arms {
		st.Pairs = append(st.Pairs, s.timePairs(a, outs)...)
		if len(st.Pairs) > mostPairs {
			st.Pairs = st.Pairs[:mostPairs]
			break
		}
	}
}

var ofTimes = reading.Doubt{{Text: "which times are meant is not said", Weight: reading.Wide}}

// timePairs: each later measure of an arm against its baseline, of those whose
// times the sentence names best; which of several is meant stays a guess.
func (s *sentence) timePairs(a *claims.Arm, outs []spoken) []claims.Pair {
	times, conds := s.r.timesOf(a), s.condsNamed()
	var bases []*claims.Measure
	best, later := 0, map[timeKey][]*claims.Measure{}
	for _, base := range times.bases {
		if !speaksOf(outs, base) {
			continue
		}
		bases = append(bases, base)
		if key := timeKeyOf(base); later[key] == nil {
			later[key] = times.later[key]
			for c, n := range conds { // any order: the greatest is sought
				if len(times.at[key][c]) > 0 {
					best = max(best, n)
				}
			}
		}
	}
	for key := range later { // any order: each has its own
		later[key] = times.named(key, conds, best)
	}
	var out []claims.Pair
	for _, base := range bases {
		for _, m := range later[timeKeyOf(base)] {
			if out = append(out, claims.Pair{A: m, B: base, Tie: ofTimes}); len(out) == mostPairs {
				return out
			}
		}
	}
	return out
}

// speaksOfChange: "greater improvement than", "more effective in reducing": the
// sides are changes, while tables print levels too.
func (s *sentence) speaksOfChange(v sense) bool {
	if w := s.raw(v.at-1, v.at); s.any(v.at, verbs) && (w == "in" || w == "at" || w == "for") && strings.HasSuffix(strings.ToLower(s.raw(v.at, v.at+1)), "ing") {
		return true // "effective in reducing"
	}
	if v.noun || !s.any(v.at, adjectives) {
		return false
	}
	for k, n := v.at+int(s.at(v.at).span), 0; n < 8 && k < s.to; k, n = k+1, n+1 {
		t := s.at(k)
		if t.sort == signToken && t.sign != '-' || s.is(k, comparator) && !t.inside {
			return false
		}
		if t.is.any(setOf(nounUp, nounDown, nounMerit)) || s.is(k-1, fromWord) || t.is.any(verbs) && strings.HasSuffix(strings.ToLower(s.raw(k, k+1)), "ing") {
			return true
		}
	}
	return false
}

// changesOnly keeps the measures that are changes themselves; levels stay as
// guesses without a direction, since less may be the greater improvement.
func (s *sentence) changesOnly(st *claims.Statement) {
	var change []claims.Pair
	for _, p := range st.Pairs {
		if p.A.Change && p.B.Change {
			change = append(change, p)
		}
	}
	if len(change) > 0 {
		st.Pairs = change
		return
	}
	st.Direction = claims.DirectionNotGiven
	unsure(st, "the sentence speaks of changes and the figures are levels")
}
