package statement

import (
	"strings"

	"probity/claims"
	"probity/extract"
)

// testedPair: two figures and a p without a word of comparison: "The mean was
// 12.96 for P and 24.26 for Q (P = 0.0056)".
func (s *sentence) testedPair(c clause) bool {
	p := s.pIn(c)
	if !p.Known() || s.methodical(c) || s.claimsIn(c) {
		return false
	}
	st := &claims.Statement{Kind: claims.Significance, P: p, Printed: s.printedP(c)}
	s.clauseFigures(st, c, -1)
	if !st.A.Known() {
		return false
	}
	significant := p.Value <= 0.05 && p.Relation != extract.Greater
	st.Significant = &significant
	if !significant {
		st.Kind = claims.NoDifference
	}
	st.Rests = []string{st.Printed}
	sd := s.sidesOf(c.from, c.to, c.from)
	if st.A.Measure != nil && st.B.Measure != nil && st.A.Measure.Arm != st.B.Measure.Arm {
		sd = sides{at: -1, sure: true, subject: s.hitsOf(st.A.Measure.Arm), reference: s.hitsOf(st.B.Measure.Arm)}
	}
	s.tie(st, c.from, c.to, c.from, sd)
	s.settle(st, c.from, c.to)
	s.emit(st)
	return true
}

// plainChange: "the treatment increased the resistance", "all groups showed
// improvement": a change is stated, its other side is not.
func (s *sentence) plainChange(c clause) {
	if s.methodical(c) || s.claimsIn(c) || s.place.Section == extract.Methods || s.place.Section == extract.Introduction || s.r.typed {
		return
	}
	for i := c.from; i < c.to; i++ {
		v, ok := s.senseAt(i)
		if !ok || v.diff || s.at(i).paren >= 0 || !s.any(i, verbs.or(nouns).or(adjectives)) {
			continue
		}
		if s.at(i).is.any(bounds) && s.sortOf(i+int(s.at(i).span)) == numberToken || s.at(i).is.any(setOf(adjUp)) && s.at(i).is.has(boundUp) {
			continue
		}
		hits := s.armHits(c.from, c.to)
		if len(hits) == 0 && len(s.measured(s.outcomesIn(c.from, c.to))) == 0 {
			return
		}
		st := &claims.Statement{Kind: claims.Ranking, Rests: []string{s.raw(i, i+int(s.at(i).span))}}
		st.P = s.pIn(c)
		sd := sides{at: -1}
		if len(hits) > 0 {
			sd.subject = hits[:1]
		}
		s.againstControl(&sd)
		s.tie(st, c.from, c.to, i, sd)
		s.direct(st, v)
		s.emit(st)
		return
	}
}

// plainComparison: "A was higher than B" without significance or figures.
func (s *sentence) plainComparison(c clause) bool {
	if s.methodical(c) || s.claimsIn(c) {
		return false
	}
	for i := c.from; i < c.to; i++ {
		v, ok := s.senseAt(i)
		if !ok || v.diff || !s.any(i, adjectives.or(setOf(verbOver, nounUp, nounDown, nounMerit))) && !(s.any(i, verbs) && s.againstArms(i, c)) {
			continue
		}
		if s.at(i).is.any(bounds) && s.sortOf(i+int(s.at(i).span)) == numberToken {
			continue
		}
		if !v.over && !s.comparatorSoon(i, c.to) {
			continue
		}
		sd := s.sidesOf(c.from, c.to, i)
		st := &claims.Statement{Kind: claims.Ranking}
		st.Rests = append(st.Rests, s.raw(i, i+int(s.at(i).span)))
		st.P = s.pAfter(c, i)
		if st.P.Known() && st.P.Value <= 0.05 && st.P.Relation != extract.Greater {
			yes := true
			st.Kind, st.Significant, st.Printed = claims.Significance, &yes, s.printedP(c)
		}
		st.BeforeTo = s.overTime(c, sd)
		s.tie(st, c.from, c.to, i, sd)
		s.direct(st, v)
		if st.BeforeTo {
			s.cutPairs(st, c)
		} else if s.speaksOfChange(v) {
			s.changesOnly(st)
		}
		s.clauseFigures(st, c, i)
		s.settle(st, c.from, c.to)
		s.emit(st)
		return true
	}
	return false
}

// againstControl: a treatment that "reduced the loss" did so against the one
// control of the study; the tie stays a guess.
func (s *sentence) againstControl(sd *sides) {
	if len(sd.subject) != 1 || len(sd.subject[0].arms) != 1 {
		return
	}
	var only *claims.Arm
	for _, a := range s.r.arms.all {
		if a.Control {
			if only != nil {
				return
			}
			only = a
		}
	}
	if only == nil || only == sd.subject[0].arms[0] {
		return
	}
	sd.reference = []armHit{{at: sd.subject[0].at, end: sd.subject[0].at, arms: []*claims.Arm{only}}}
}

// againstArms: a verb of change compares when a comparator follows it.
func (s *sentence) againstArms(i int, c clause) bool { return s.comparatorSoon(i, c.to) }

// claimsIn reports whether a percent or fold claim was read in the clause.
func (s *sentence) claimsIn(c clause) bool {
	for _, at := range s.claimed {
		if at >= c.from && at < c.to {
			return true
		}
	}
	return false
}

// differenceValue: "The difference between A and B was 294.11 s".
func (s *sentence) differenceValue(c clause) bool {
	for i := c.from; i < c.to; i++ {
		if !s.is(i, nounDiff) || s.at(i).inside || s.claimsIn(c) {
			continue
		}
		for k := range s.quants {
			q := &s.quants[k]
			if q.at <= i || q.at >= c.to || q.role != roleValue || !s.beBefore(q.at) {
				continue
			}
			st := &claims.Statement{Kind: claims.Difference, Value: s.number(q.at), Unit: q.unit, Printed: s.raw(q.at, q.end)}
			st.Value.Relation = s.boundOf(q.at, q.relation)
			st.Rests = []string{s.raw(i, i+1)}
			sd := s.sidesOf(c.from, c.to, i)
			s.tie(st, c.from, c.to, i, sd)
			st.P = s.pIn(c)
			s.emit(st)
			return true
		}
	}
	return false
}

// beBefore: "was 294", "of 294", "amounted to 294", "(294".
func (s *sentence) beBefore(i int) bool {
	j := s.skipLeft(i - 1)
	switch strings.ToLower(s.raw(j, j+1)) {
	case "was", "is", "of", "were":
		return true
	}
	return s.is(j, verbShare) || s.is(j, toWord) && s.is(j-1, verbShare)
}
