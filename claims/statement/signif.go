package statement

import (
	"strings"

	"probity/claims"
	"probity/extract"
)

// clause is a stretch of a sentence that says one thing of its own.
type clause struct{ from, to int }

// clauses cuts a sentence at semicolons and turns ("whereas", "but"), where
// both sides have something to say of difference.
func (s *sentence) clauses() []clause {
	var out []clause
	from := s.from
	for i := s.from + 1; i < s.to-1; i++ {
		t := s.at(i)
		cut := t.sign == ';' && t.paren < 0 || t.is.has(clauseWord) && t.paren < 0 && !t.inside
		if !cut || !s.says(from, i) || !s.says(i, s.to) {
			continue
		}
		out = append(out, clause{from, i})
		from = i
	}
	return append(out, clause{from, s.to})
}

var saying = setOf(significant, notSignificant, equalWord, nounDiff, verbDiff).or(adjectives).or(supers)

// says reports whether a stretch speaks of difference or likeness.
func (s *sentence) says(from, to int) bool {
	sig := false
	for i := from; i < to; i++ {
		if !s.at(i).inside && s.any(i, saying) {
			return true
		}
		sig = sig || s.any(i, setOf(negation))
	}
	return sig && to-from < 14 && s.betweenIn(from, to)
}

func (s *sentence) betweenIn(from, to int) bool {
	for i := from; i < to; i++ {
		if w := strings.ToLower(s.raw(i, i+1)); w == "between" || w == "among" {
			return true
		}
	}
	return false
}

// plainStatements reads the statements without a percentage or a multiple.
func (s *sentence) plainStatements() {
	for _, c := range s.clauses() {
		s.clauseStatement(c)
	}
	s.statistics()
}

func (s *sentence) clauseStatement(c clause) {
	if s.ranking(c) {
		return
	}
	if st, ok := s.stated(c); ok {
		s.emitStated(c, st)
		return
	}
	if s.differenceValue(c) || s.plainComparison(c) || s.testedPair(c) {
		return
	}
	s.plainChange(c)
}

func (s *sentence) emitStated(c clause, v stating) {
	own, wide := c, false
	st := &claims.Statement{Kind: v.kind, Significant: v.significant, Equal: v.equal}
	for _, i := range v.rests {
		if i >= 0 {
			st.Rests = append(st.Rests, s.raw(i, i+int(s.at(i).span)))
		}
	}
	if v.hasDir && v.kind == claims.Significance {
		s.direct(st, v.dir)
		st.Rests = append(st.Rests, s.raw(v.dir.at, v.dir.at+int(s.at(v.dir.at).span)))
	}
	st.P = s.pAfter(c, v.at)
	st.Printed = s.printedP(c)
	sd := s.sidesOf(c.from, c.to, v.at)
	if len(sd.subject) == 0 && len(sd.reference) == 0 && sd.at < 0 && c.from > s.from {
		c.from = s.from // "2.7 in P and 2.9 in Q, but these changes were not significant"
		sd = s.sidesOf(c.from, c.to, v.at)
		wide = true
	}
	if sd.symmetric {
		st.Direction = claims.DirectionNotGiven
	}
	st.BeforeTo = s.overTime(c, sd)
	s.tie(st, own.from, own.to, v.at, sd)
	if wide && !s.pointsBack(own) {
		unsure(st, "the groups are named in the clause before")
	}
	if len(st.Subject.Arms) == 0 && len(st.Reference.Arms) == 0 && s.omnibus(c) {
		st.Subject.All = true // "the analysis of variance was significant"
	}
	if st.BeforeTo {
		s.cutPairs(st, c)
	} else if v.hasDir && s.speaksOfChange(v.dir) {
		s.changesOnly(st)
	}
	s.clauseFigures(st, c, v.at)
	s.settle(st, c.from, c.to)
	s.emit(st)
}

// pointsBack: "but this difference", "although these changes", in a sentence
// that speaks of one outcome.
func (s *sentence) pointsBack(c clause) bool {
	if len(s.measured(s.outcomesIn(s.from, s.to))) != 1 {
		return false
	}
	for i := c.from; i < c.to; i++ {
		switch strings.ToLower(s.raw(i, i+1)) {
		case "this", "these", "the", "not", "such":
			if s.any(i+1, nouns) || s.any(i+2, nouns) {
				return true
			}
		}
	}
	return false
}

func (s *sentence) omnibus(c clause) bool {
	for i := c.from; i < c.to; i++ {
		if s.is(i, omnibusTest) {
			return true
		}
	}
	return false
}

// direct writes the direction of the figures that a word implies, from the
// outcome where the word speaks of merit or inverts.
func (s *sentence) direct(st *claims.Statement, v sense) {
	st.Direction = v.dir
	out := s.r.cat.Outcome(st.OutcomeID)
	switch {
	case v.inverts != "":
		what, sign, _ := strings.Cut(v.inverts, ":")
		if what == "time" && out != nil && out.Quantity != "time" && out.Quantity != "" {
			return
		}
		if what == "time" && s.r.quantity != "" && s.r.quantity != "time" {
			return
		}
		if what == "time" && s.r.quantity == "" && s.r.arms.all != nil && out == nil && st.OutcomeID == "" && !st.A.Known() {
			return
		}
		st.Inverts, st.Rate = true, what == "time"
		st.Direction = claims.Higher
		if sign == "-1" {
			st.Direction = claims.Lower
		}
	case v.merit != 0 && out != nil:
		switch out.Better {
		case "higher":
			st.Direction = claims.Direction(v.merit)
		case "lower":
			st.Direction = claims.Direction(-v.merit)
		}
	}
}

// clauseFigures gives the pair of figures a clause prints for its comparison.
func (s *sentence) clauseFigures(st *claims.Statement, c clause, at int) {
	if st.BeforeTo || st.Kind == claims.NoDifference && st.Equal {
		return
	}
	f := found{at: c.from, end: c.from + 1, st: &claims.Statement{Kind: st.Kind, Direction: st.Direction}}
	var inside []couple
	taken := map[int]bool{}
	for _, at := range s.claimed {
		taken[at] = true
	}
	for _, k := range s.couples(taken) {
		if s.quants[k.first].at >= c.from && s.quants[k.second].end <= c.to && k.how != byNearness {
			inside = append(inside, k)
		}
	}
	if len(inside) == 0 || len(inside) > 1 && at < 0 || len(st.Subject.Arms) > 1 || len(st.Reference.Arms) > 1 {
		return
	}
	best := 0
	for i := range inside { // of several pairs, the first behind the word
		if start := s.quants[inside[best].first].at; start < at && s.quants[inside[i].first].at > at {
			best = i
		}
	}
	s.give(&f, &inside[best])
	if f.st.A.Number.Relation != extract.Equal {
		return
	}
	st.A, st.B = f.st.A, f.st.B
}
