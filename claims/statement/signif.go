package statement

import (
	"math"
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

// outcome words of what a clause states
type stating struct {
	kind        claims.Kind
	significant *bool
	equal       bool
	at          int // the word it rests on
	dir         sense
	hasDir      bool
	rests       []int
}

// stated classifies a clause: significance, no difference, a bare difference.
func (s *sentence) stated(c clause) (stating, bool) {
	if s.methodical(c) {
		return stating{}, false
	}
	sigAt, notAt, equalAt := -1, -1, -1
	for i := c.from; i < c.to; i++ {
		t := s.at(i)
		if t.inside {
			continue
		}
		switch {
		case t.is.has(notSignificant) && notAt < 0:
			notAt = i
		case t.is.has(significant) && sigAt < 0 && !s.levelWord(i):
			sigAt = i
		case t.is.has(equalWord) && equalAt < 0:
			equalAt = i
		}
	}
	yes, no := true, false
	dir, hasDir := s.directionOf(c)
	switch {
	case notAt >= 0 && (sigAt < 0 || notAt < sigAt):
		return stating{kind: claims.NoDifference, significant: &no, at: notAt, dir: dir, hasDir: hasDir, rests: []int{notAt}}, true
	case sigAt >= 0:
		if neg := s.negatedBefore(sigAt, c.from); neg >= 0 {
			return stating{kind: claims.NoDifference, significant: &no, at: sigAt, dir: dir, hasDir: hasDir, rests: []int{neg, sigAt}}, true
		}
		if !s.comparesAt(c, sigAt) {
			return stating{}, false
		}
		return stating{kind: claims.Significance, significant: &yes, at: sigAt, dir: dir, hasDir: hasDir, rests: []int{sigAt}}, true
	}
	if i, neg := s.noDifference(c); i >= 0 {
		return stating{kind: claims.NoDifference, at: i, rests: []int{neg, i}}, true
	}
	if i := s.butNot(c); i >= 0 {
		return stating{kind: claims.NoDifference, significant: &no, at: i, rests: []int{i}}, true
	}
	if equalAt >= 0 && s.alikeArms(c, equalAt) {
		return stating{kind: claims.NoDifference, equal: true, at: equalAt, rests: []int{equalAt}}, true
	}
	return stating{}, false
}

// butNot: "…, but not between P and Q" denies what the clause before said.
func (s *sentence) butNot(c clause) int {
	if c.from == s.from {
		return -1
	}
	for i := c.from; i < c.from+4 && i < c.to; i++ {
		if s.is(i, negation) {
			switch strings.ToLower(s.raw(i+1, i+2)) {
			case "between", "among", "for", "with", "from":
				return i
			}
		}
	}
	return -1
}

// levelWord: "significance level", "level of significance", "was considered
// significant": a rule of method, no finding.
func (s *sentence) levelWord(i int) bool {
	if s.word(i) == "significance" && (strings.EqualFold(s.raw(i+1, i+2), "level") || strings.EqualFold(s.raw(i+1, i+2), "was") || strings.EqualFold(s.raw(i-1, i), "of")) {
		for k := i - 3; k < i+5; k++ {
			switch strings.ToLower(s.raw(k, k+1)) {
			case "level", "set":
				return true
			}
		}
	}
	for k := i - 4; k < i; k++ {
		switch strings.ToLower(s.raw(k, k+1)) {
		case "considered", "regarded", "deemed", "accepted":
			return true
		}
	}
	return false
}

// negatedBefore finds the negation that governs the word at i.
func (s *sentence) negatedBefore(i, from int) int {
	for k, n := i-1, 0; k >= from && n < 9; k, n = k-1, n+1 {
		t := s.at(k)
		if t.is.has(negation) && !t.inside {
			if s.word(k) == "not" && strings.EqualFold(s.raw(k+1, k+2), "only") {
				return -1
			}
			if s.setOff(k, i) {
				continue
			}
			return k
		}
		if t.sort == signToken && t.sign != '-' && t.sign != ')' && t.sign != '(' && t.sign != ',' {
			return -1
		}
		if s.any(k, setOf(comparator)) && !t.inside && n > 2 {
			return -1
		}
	}
	return -1
}

// setOff: "only P, but not Q, was significantly different".
func (s *sentence) setOff(k, i int) bool {
	for j := k + 1; j < i && j < k+5; j++ {
		if s.sign(j) == ',' {
			return s.is(k-1, clauseWord) || s.raw(k-1, k) == "and" || s.sign(k-1) == ','
		}
	}
	return false
}

// comparesAt: significance must be of a difference, a change or an effect.
func (s *sentence) comparesAt(c clause, at int) bool {
	want := saying.minus(setOf(significant, notSignificant, equalWord)).or(verbs).or(nouns).or(setOf(effect, comparator))
	for i := c.from; i < c.to; i++ {
		if i != at && !s.at(i).inside && (s.any(i, want) || s.is(i, omnibusTest)) {
			return true
		}
		if i == at && s.any(i, adjectives) || s.at(i).span > 1 && i == at {
			return true
		}
		if strings.EqualFold(s.raw(i, i+1), "different") {
			return true
		}
	}
	return false
}

// noDifference: "no difference was found", "did not differ", "had no effect".
func (s *sentence) noDifference(c clause) (at, neg int) {
	for i := c.from; i < c.to; i++ {
		t := s.at(i)
		diff := t.is.any(setOf(nounDiff, verbDiff, effect)) || strings.EqualFold(s.raw(i, i+1), "different")
		if t.inside || !diff || t.is.any(setOf(nounUp, nounDown)) {
			continue
		}
		for k, n := i-1, 0; k >= c.from && n < 5; k, n = k-1, n+1 {
			if s.is(k, negation) {
				return i, k
			}
			if s.sortOf(k) == signToken && s.sign(k) != '-' {
				break
			}
		}
	}
	return -1, -1
}

// alikeArms: "similar" is of this paper's groups, not of its methods.
func (s *sentence) alikeArms(c clause, at int) bool {
	for k := at - 3; k < at; k++ {
		if s.is(k, negation) {
			return false
		}
	}
	w := s.word(at)
	if w == "same" || w == "equal" || w == "constant" || w == "unchanged" || w == "identical" || w == "similarly" {
		return len(s.armHits(c.from, c.to)) > 1 && (w != "same" && w != "equal") || w == "equal" && s.is(at+1, equalWord)
	}
	if w == "equally" || w == "comparable" || w == "comparably" || w == "equivalent" || w == "indistinguishable" {
		return true
	}
	if len(s.armHits(c.from, c.to)) > 0 || s.any(at+1, nouns) {
		return true
	}
	if len(s.outcomesIn(c.from, c.to)) > 0 {
		return true
	}
	for i := c.from; i < c.to; i++ {
		if s.any(i, setOf(comparator, allGroups, allOthers)) || strings.EqualFold(s.raw(i, i+1), "both") || strings.EqualFold(s.raw(i, i+1), "groups") {
			return true
		}
	}
	return false
}

// methodical: the clause tells how it was done or asked, not what was found.
func (s *sentence) methodical(c clause) bool {
	method, found := false, false
	for i := c.from; i < c.to; i++ {
		t := s.at(i)
		if t.inside {
			continue
		}
		method = method || t.is.has(methodCue)
		found = found || t.is.has(findingCue) || t.is.any(adjectives) && s.comparatorSoon(i, c.to)
	}
	return method && !found
}

// directionOf finds the direction word of a clause.
func (s *sentence) directionOf(c clause) (sense, bool) {
	var late sense
	ok := false
	for i := c.from; i < c.to; i++ {
		v, is := s.senseAt(i)
		if !is || v.diff {
			continue
		}
		if s.at(i).is.any(bounds) && s.sortOf(i+int(s.at(i).span)) == numberToken {
			continue
		}
		if s.any(i, adjectives) && s.comparatorSoon(i, c.to) {
			return v, true
		}
		if !ok {
			late, ok = v, true
		}
	}
	return late, ok
}

func (s *sentence) comparatorSoon(i, to int) bool {
	for k, n := i+1, 0; k < to && n < 18; k, n = k+1, n+1 {
		if s.sign(k) == '(' {
			if e := closing(s.toks[:s.to], k); e > 0 {
				k = e
				continue
			}
		}
		if s.is(k, comparator) && !s.at(k).inside {
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
		unsure(st)
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
	}
	if len(st.Pairs) > 200 {
		st.Pairs = st.Pairs[:200]
	}
}

// timePairs: each later measure of an arm against its baseline.
func (s *sentence) timePairs(a *claims.Arm, outs []spoken) []claims.Pair {
	var out []claims.Pair
	named := 0
	for _, base := range s.r.byArm[a] {
		if !s.isBaseline(base.Condition) || !speaksOf(outs, base) {
			continue
		}
		for _, m := range s.r.byArm[a] {
			if m == base || s.isBaseline(m.Condition) || m.Outcome != base.Outcome || m.OutcomeID != base.OutcomeID || m.Unit != base.Unit || m.Change || m.Place.Table != base.Place.Table {
				continue
			}
			n, _ := s.conditionNamed(m.Condition)
			if n < named {
				continue
			}
			if n > named {
				named, out = n, nil
			}
			out = append(out, claims.Pair{A: m, B: base}) // which of several times is meant stays a guess
		}
	}
	return out
}

func (s *sentence) isBaseline(cond string) bool {
	for _, w := range cutName(cond) {
		if x := s.r.lex.lex.words[w]; x != nil && x.is.has(baseTime) {
			return true
		}
		if w == "t0" || w == "0" {
			return true
		}
	}
	return false
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
	unsure(st)
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
		if what == "time" && s.r.arms.all != nil && out == nil && st.OutcomeID == "" && !st.A.Known() {
			return
		}
		st.Inverts = true
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

// pIn gives the p value of a clause, or of the sentence when it has one only.
func (s *sentence) pIn(c clause) extract.Number {
	var all, in []int
	for k := range s.quants {
		if s.quants[k].role != roleP {
			continue
		}
		all = append(all, k)
		if at := s.quants[k].at; at >= c.from && at < c.to {
			in = append(in, k)
		}
	}
	switch {
	case len(in) == 1 || len(in) > 1 && s.sameP(in):
		return s.pNumber(in[0])
	case len(in) == 0 && len(all) == 1 && s.quants[all[0]].at > c.to:
		return s.pNumber(all[0])
	}
	return extract.Number{}
}

// pAfter: of several p values of a clause, the first behind the word.
func (s *sentence) pAfter(c clause, at int) extract.Number {
	if p := s.pIn(c); p.Known() {
		return p
	}
	first := extract.Number{}
	for k := range s.quants {
		q := &s.quants[k]
		if q.role != roleP || q.at < c.from || q.at >= c.to {
			continue
		}
		p := s.pNumber(k)
		if first.Known() && belowLevel(p) != belowLevel(first) {
			return extract.Number{} // one is, one is not: which is meant is not said
		}
		if !first.Known() && q.at > at {
			first = p
		}
	}
	return first
}

// belowLevel: at the usual level; which level holds is judged elsewhere.
func belowLevel(p extract.Number) bool {
	return p.Value <= 0.05 && p.Relation != extract.Greater && p.Relation != extract.GreaterEqual
}

func (s *sentence) sameP(in []int) bool {
	for _, k := range in {
		a, b := s.pNumber(in[0]), s.pNumber(k)
		if a.Value != b.Value || a.Relation != b.Relation {
			return false
		}
	}
	return true
}

// pNumber is the p value with its relation, read through damaged signs: in
// "P , .05" the lost sign was "<", in "P [ 0.05" it was ">".
func (s *sentence) pNumber(k int) extract.Number {
	q := &s.quants[k]
	n := s.number(q.at)
	n.Value = math.Abs(n.Value)
	n.Relation = extract.Equal
	for j := q.at - 1; j >= q.at-4; j-- {
		switch s.sign(j) {
		case '<', '‹', '˂', ',', '\\':
			n.Relation = extract.Less
			if s.sign(j+1) == '=' {
				n.Relation = extract.LessEqual
			}
		case '>', '›', '˃', '[':
			n.Relation = extract.Greater
			if s.sign(j+1) == '=' {
				n.Relation = extract.GreaterEqual
			}
		case '≤', '⩽':
			n.Relation = extract.LessEqual
		case '≥', '⩾':
			n.Relation = extract.GreaterEqual
		default:
			if s.sortOf(j) == wordToken {
				return n
			}
			continue
		}
		return n
	}
	return n
}

func (s *sentence) printedP(c clause) string {
	for k := range s.quants {
		if q := &s.quants[k]; q.role == roleP && q.at >= c.from && q.at < c.to {
			from := q.at
			for from > c.from && from > q.at-4 && s.sortOf(from) != wordToken {
				from--
			}
			return s.raw(from, q.end)
		}
	}
	return ""
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
