package statement

import (
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/reading"
	"probity/claims/role"
	"probity/extract"
)

// The weights of what may make two figures of a sentence others than those
// that its claim compares.
const (
	elsewhere  = 4.0 // they stand in another sentence
	notAlike   = 3.5 // they may be numbers of another kind
	notJoined  = 3.0 // no word sets one against the other
	hasRivals  = 2.5 // the clause prints others
	ofModel    = 2.5 // the claim may come from a model, not from the two
	alsoClaims = 2.0 // another claim stands on them
)

// doubtTies says of each claim of the sentence what may make the figures tied
// to it others than those it compares. What rests on such a tie is never held
// against a paper.
func (s *sentence) doubtTies(fs []found) {
	for i := range fs {
		st := fs[i].st
		if !st.A.Known() || !st.B.Known() {
			continue
		}
		st.Doubt = s.tieDoubt(fs, i)
	}
}

func (s *sentence) tieDoubt(fs []found, i int) reading.Doubt {
	var d reading.Doubt
	f := &fs[i]
	a, b := s.quantStarting(f.st.A.Number.Place.Start), s.quantStarting(f.st.B.Number.Place.Start)
	if a < 0 || b < 0 {
		d.Add("its figures stand in another sentence, or are no figures of an outcome", elsewhere)
		return d
	}
	if a > b {
		a, b = b, a
	}
	first, second := &s.quants[a], &s.quants[b]
	if !f.st.Word && f.st.Kind == claims.Percent {
		if k := s.quantAt(f.at); k >= 0 && s.quants[k].is != role.Percent && !s.r.typed {
			d.Add("it is not certain that "+s.raw(f.at, f.end)+" is a change", notAlike)
		}
	}
	f.st.Median = f.st.Median || s.medianNear(&quantity{at: f.at}, &quantity{at: f.at})
	if !s.r.typed && (s.beforeAfter(first, second) || s.fromBefore(first) && s.toBefore(first, second)) {
		f.st.BeforeTo = true
	}
	for _, q := range []*quantity{first, second} {
		if !q.sure || q.is != role.Level && q.is != role.Share {
			d.Add("it is not certain that "+s.raw(q.at, q.at+1)+" is a figure of the outcome", notAlike)
		}
	}
	if first.is != second.is && first.percent != second.percent {
		d.Add(s.raw(first.at, first.at+1)+" and "+s.raw(second.at, second.at+1)+" may be figures of two kinds", notAlike)
	}
	if !s.setAgainst(first, second) {
		d.Add("no word sets "+s.raw(first.at, first.at+1)+" against "+s.raw(second.at, second.at+1), notJoined)
	}
	beside := s.beside(f, first, second)
	if rival := s.rivalFigure(fs, f, a, b); rival >= 0 && (!beside || s.alsoGiven(f, second, rival)) {
		d.Add("the clause prints "+s.raw(s.quants[rival].at, s.quants[rival].at+1)+" too, which may be meant", hasRivals)
	}
	if w := s.modelWord(f); w != "" {
		d.Add("it may come from a model or a rate and not from the two figures (“"+w+"”)", ofModel)
	}
	for k := range fs {
		if o := fs[k].st; k != i && o.A.Known() && o.A.Number.Place == f.st.A.Number.Place && o.B.Number.Place == f.st.B.Number.Place && !beside {
			d.Add("another claim of the sentence stands on the same figures", alsoClaims)
		}
	}
	return d
}

// setAgainst: "versus", "than", "compared with", or "from … to" stands between
// the two figures, and no other figure does. The claim itself may: "A (54.3)
// was 20 % lower than B (68.1)".
func (s *sentence) setAgainst(a, b *quantity) bool {
	joined := false
	for i := a.end; i < b.at; i++ {
		t := s.at(i)
		switch {
		case t.sign == ';', t.is.has(clauseWord) && t.paren < 0 && !t.inside:
			return false
		case t.is.has(versus), t.is.has(comparator) && !t.inside:
			joined = true
		case t.is.has(toWord) && !t.inside && (s.fromBefore(a) || b.at-a.end <= 3 || s.at(a.at).paren >= 0):
			joined = true
		case t.sort == numberToken:
			if k := s.quantAt(i); k >= 0 && s.figureRole(k, nil) && s.quants[k].is != role.Percent {
				return false
			}
		}
	}
	if in := s.at(a.at).paren; joined || in >= 0 && in == s.at(b.at).paren || b.at-a.end >= 20 {
		return joined
	}
	return s.refersToBase(a, nil, false) != s.refersToBase(b, a, false)
}

// beside: claim and figures say one thing: in one bracket, the figures in the
// bracket or behind the "from" right after the claim, or the claim in
// apposition right behind them.
func (s *sentence) beside(f *found, a, b *quantity) bool {
	claim := s.at(f.at).paren
	in := s.at(a.at).paren
	if claim >= 0 && claim == in && in == s.at(b.at).paren {
		return true
	}
	stop := func(from, to int) bool {
		for i := from; i < to; i++ {
			t := s.at(i)
			if t.sign == ';' || t.is.has(clauseWord) && !t.inside || t.sort == numberToken && s.figureAt(i) {
				return true
			}
		}
		return false
	}
	switch {
	case a.at >= f.end:
		return a.at-f.end <= 14 && !stop(f.end, a.at) && (in >= 0 && in == s.at(b.at).paren || s.fromBefore(a))
	case f.at >= b.end:
		return f.at-b.end <= 5 && !stop(b.end, f.at) && s.apposed(b.end, f.at)
	}
	return false
}

// apposed: a comma, a dash or a bracket, and no verb, stands between.
func (s *sentence) apposed(from, to int) bool {
	mark := false
	for i := from; i < to; i++ {
		if s.verbLike(i) {
			return false
		}
		mark = mark || s.sortOf(i) == signToken
	}
	return mark || to-from <= 2
}

func (s *sentence) figureAt(tok int) bool {
	k := s.quantAt(tok)
	return k >= 0 && s.figureRole(k, nil)
}

// rivalFigure finds a further figure of the kind of the two in the clause of
// the claim, -1 if there is none.
func (s *sentence) rivalFigure(fs []found, f *found, a, b int) int {
	from, to := s.from, s.to
	for i := min(f.at, s.quants[a].at) - 1; i > s.from; i-- {
		if t := s.at(i); t.sign == ';' {
			from = i
			break
		}
	}
	for i := max(f.end, s.quants[b].end); i < s.to; i++ {
		if t := s.at(i); t.sign == ';' {
			to = i
			break
		}
	}
	x := &s.quants[a]
	for k := range s.quants {
		q := &s.quants[k]
		if k == a || k == b || q.at < from || q.at >= to || !s.figureRole(k, nil) || claimAt(fs, q.at) >= 0 || !s.alike(x, q) || q.is != role.Level && q.is != role.Share && q.is != role.Change {
			continue
		}
		return k
	}
	return -1
}

// alsoGiven: the rival goes on with the figures of the claim: "20 % longer than
// Dorsal (36 vs 30 s) and than Estrel (36 vs 31 s)".
func (s *sentence) alsoGiven(f *found, second *quantity, rival int) bool {
	q := &s.quants[rival]
	if q.at < second.end || f.at > second.at {
		return false
	}
	for i := second.end; i < q.at; i++ {
		if t := s.at(i); t.sign == ';' && t.paren < 0 || t.is.has(clauseWord) {
			return false
		}
	}
	return true
}

// modelWord finds words near a claim that say it is no plain change between
// two printed figures.
func (s *sentence) modelWord(f *found) string {
	for i := max(s.from, f.at-10); i < min(s.to, f.end+8); i++ {
		switch w := strings.ToLower(s.raw(i, i+1)); w {
		case "risk", "hazard", "odds", "likelihood", "likely", "probability", "adjusted", "adjusting", "predicted", "modelled", "modeled", "annualized", "annualised":
			return w
		}
	}
	return ""
}

// doubtSaid notes what may make a statement without a percentage another than
// it seems: a turn or a hedge that changes whose p is whose, several p values,
// a test of another kind than of means.
func (s *sentence) doubtSaid(st *claims.Statement) {
	switch st.Kind {
	case claims.Significance, claims.NoDifference, claims.Difference, claims.Ranking:
	default:
		return
	}
	for i := s.from; i < s.to; i++ {
		t := s.at(i)
		switch {
		case t.inside:
		case t.is.has(turning) && i > s.from, t.is.has(clauseWord) && i > s.from+1:
			st.Doubt.Add("the sentence turns (“"+s.raw(i, i+int(t.span))+"”)", notJoined)
		case t.is.has(tentative):
			st.Doubt.Add("the sentence says it with reserve (“"+s.raw(i, i+int(t.span))+"”)", notJoined)
		case t.is.has(otherModel):
			st.Doubt.Add("the test may be of another kind (“"+s.raw(i, i+int(t.span))+"”)", ofModel)
		}
	}
	if st.Kind == claims.Difference && st.A.Known() && st.B.Known() && st.Value.Known() {
		s.doubtDifference(st)
	}
	first := extract.Number{}
	for k := range s.quants {
		if s.quants[k].role != roleP {
			continue
		}
		p := s.pNumber(k)
		if first.Known() && (p.Value != first.Value || p.Relation != first.Relation) {
			st.Doubt.Add("the sentence prints several p values", hasRivals)
		}
		first = p
	}
	if st.Kind == claims.Significance || st.Kind == claims.NoDifference {
		if n := s.statings(); n > 1 {
			st.Doubt.Add("the sentence makes several statements of significance", hasRivals)
		}
		if st.P.Known() && !s.pBeside(st) {
			st.Doubt.Add("the p stands apart from what is said", hasRivals)
		}
		if st.Significant == nil && st.P.Known() {
			st.Doubt.Add("significance is not spoken of", hasRivals)
		}
	}
	s.doubtPairs(st, false)
}

// doubtDifference does for a printed difference what tieDoubt does for a
// percentage; a change over time is none between two groups.
func (s *sentence) doubtDifference(st *claims.Statement) {
	k := s.quantStarting(st.Value.Place.Start)
	if k < 0 || s.r.typed {
		return
	}
	fs := []found{{at: s.quants[k].at, end: s.quants[k].end, st: st}}
	st.Doubt.Join(s.tieDoubt(fs, 0))
	for i := s.from; i < s.to; i++ {
		if w := strings.ToLower(s.raw(i, i+1)); strings.HasPrefix(w, "chang") && st.Subject.Text != "" && st.Reference.Text == "" {
			st.Doubt.Add("a change over time may be meant", notAlike)
		}
	}
}

// statings counts the words of significance and of their denial.
func (s *sentence) statings() int {
	n := 0
	for i := s.from; i < s.to; i++ {
		if t := s.at(i); !t.inside && t.is.any(setOf(significant, notSignificant)) && !s.levelWord(i) || s.raw(i, i+1) == "NS" || s.raw(i, i+1) == "ns" {
			n++
		}
	}
	return n
}

// farFromP is how many tokens may stand between "significant" and its p.
const farFromP = 30

// pBeside: no comma, semicolon or "and" with a verb of its own stands between
// the words of significance and their p.
func (s *sentence) pBeside(st *claims.Statement) bool {
	at := -1
	for i := s.from; i < s.to; i++ {
		if t := s.at(i); !t.inside && t.is.any(setOf(significant, notSignificant)) {
			at = i
		}
	}
	if at < 0 {
		return false
	}
	for k := range s.quants {
		q := &s.quants[k]
		if q.role != roleP {
			continue
		}
		if max(at, q.at)-min(at, q.at) > farFromP {
			return false
		}
		for i := min(at, q.at); i < max(at, q.at); i++ {
			if t := s.at(i); t.sign == ';' || t.is.has(clauseWord) || t.is.has(versus) || t.paren < 0 && s.opensClause(i, max(at, q.at)) {
				return false
			}
		}
		return true
	}
	return true
}

// opensClause: ", and the majority", "and showed", "which".
func (s *sentence) opensClause(i, to int) bool {
	switch s.raw(i, i+1) {
	case "which":
		return true
	case "and":
		if s.sign(i-1) == ',' {
			return true
		}
		for k := i + 1; k < to && k < i+12; k++ {
			if s.verbLike(k) {
				return true
			}
		}
	}
	return false
}

// doubtPairs takes the certainty of pairs whose measures are of another time
// than the sentence names, or levels where it speaks of changes; and, for a
// claim that is not one of a list, where the sentence names further groups.
func (s *sentence) doubtPairs(st *claims.Statement, listed bool) {
	var times []string
	base := false
	var changes []string
	for k := range s.quants {
		if q := &s.quants[k]; q.is == role.TimePoint || q.is == role.Duration && q.sure {
			times = append(times, s.raw(q.at, q.at+1))
		}
	}
	for i := s.from; i < s.to; i++ {
		base = base || s.is(i, baseTime)
		if w := strings.ToLower(s.raw(i, i+1)); strings.HasPrefix(w, "chang") || s.any(i, setOf(verbUp, verbDown, verbMerit, nounUp, nounDown, nounMerit)) && !s.any(i, adjectives) && !s.at(i).inside {
			changes = append(changes, w)
		}
	}
	printed := s.levelsPrinted()
	others := (st.Kind == claims.Percent || st.Kind == claims.Fold) && !listed && s.namesOthers(st)
	for i := range st.Pairs {
		p := &st.Pairs[i]
		switch at := p.A.Condition + " " + p.A.Outcome; {
		case !p.Tie.Sure():
		case len(printed) > 1 && !slices.Contains(printed, p.A.Mean.Value) && !slices.Contains(printed, p.B.Mean.Value):
			p.Tie.Add("the sentence prints other figures than these", reading.Wide)
		case others, !namesTime(at, times), !base && s.r.condition(p.A.Condition).baseline, base && !s.r.condition(p.A.Condition).baseline && !st.BeforeTo, !p.A.Change && speaksOfOther(p.A.Outcome, changes):
			p.Tie.Add("the sentence may speak of other groups, times or changes than these figures", reading.Wide)
		}
	}
}

// levelsPrinted lists the figures of an outcome that the sentence prints.
func (s *sentence) levelsPrinted() []float64 {
	var out []float64
	for k := range s.quants {
		if q := &s.quants[k]; q.is == role.Level {
			out = append(out, s.at(q.at).value)
		}
	}
	return out
}

// speaksOfOther: a word of change that is not in the outcome's own name, as it
// is in "mineral loss".
func speaksOfOther(outcome string, changes []string) bool {
	outcome = strings.ToLower(outcome)
	for _, w := range changes {
		if !strings.Contains(outcome, w) {
			return true
		}
	}
	return false
}

// namesOthers reports a sentence that names more groups than its claim has
// sides for.
func (s *sentence) namesOthers(st *claims.Statement) bool {
	sides := append(append([]*claims.Arm(nil), st.Subject.Arms...), st.Reference.Arms...)
	for _, h := range s.armHits(s.from, s.to) {
		if len(h.arms) == 1 && !h.all && !h.others && !slices.Contains(sides, h.arms[0]) {
			return true
		}
	}
	return false
}

// namesTime reports whether words hold one of the times, or there is none.
func namesTime(words string, times []string) bool {
	if len(times) == 0 {
		return true
	}
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return !(r >= '0' && r <= '9') && r != '.' }) {
		for _, t := range times {
			if w == t {
				return true
			}
		}
	}
	return false
}
