package statement

import (
	"strings"

	"probity/claims"
	"probity/extract"
)

// sense is the direction that a word gives a claim.
type sense struct {
	at      int // its token
	dir     claims.Direction
	merit   int8   // better or worse; dir is then open
	inverts string // "time:-1": what the adjective turns round
	diff    bool   // "difference of 20 %": no direction
	over    bool   // "exceeded", "outlasted": the reference is its object
	noun    bool
	abs     bool // "absolute reduction"
	rel     bool // "relative reduction"
	share   bool // "P % of B"
	more    bool // "more", "less": for "k times more"
}

// found is a percent or fold claim as read, before its figures are sought.
type found struct {
	at, end int // tokens of the printed value
	sense   sense
	st      *claims.Statement
	shared  bool // takes its verb from the claim before: "by 31 % … and by 20 %"
}

func (s *sentence) senseAt(i int) (sense, bool) {
	t := s.at(i)
	out := sense{at: i}
	switch {
	case t.inside:
		return out, false
	case t.is.any(setOf(adjUp, verbUp, nounUp)):
		out.dir, out.noun = claims.Higher, t.is.has(nounUp)
		out.more = t.word != nil && t.word.text == "more"
	case t.is.any(setOf(adjDown, verbDown, nounDown)):
		out.dir, out.noun = claims.Lower, t.is.has(nounDown)
		out.more = t.word != nil && (t.word.text == "less" || t.word.text == "fewer")
	case t.is.has(verbOver):
		out.over = true
		out.dir = claims.Direction(t.word.merit)
	case t.is.has(inverting):
		out.inverts = t.note()
		out.more = true
	case t.is.any(setOf(adjMerit, verbMerit, nounMerit)):
		out.merit, out.noun = t.merit(), t.is.has(nounMerit)
	case t.is.any(setOf(nounDiff, verbDiff)):
		out.diff, out.noun = true, t.is.has(nounDiff)
	default:
		return out, false
	}
	return out, true
}

func (t *token) note() string {
	if t.phrase != nil && t.phrase.note != "" {
		return t.phrase.note
	}
	if t.word != nil {
		return t.word.note
	}
	return ""
}

func (t *token) merit() int8 {
	if t.phrase != nil && t.phrase.merit != 0 {
		return t.phrase.merit
	}
	if t.word != nil {
		return t.word.merit
	}
	return 0
}

// stopsRight ends the search for a direction word to the right.
func (s *sentence) stopsRight(i int) bool {
	t := s.at(i)
	switch t.sort {
	case emptyToken, numberToken:
		return true
	case signToken:
		return t.sign != '-' && t.sign != '“' && t.sign != '"' && t.sign != '’' && t.sign != '\''
	}
	if t.is.any(setOf(comparator, versus, clauseWord)) {
		return true
	}
	switch strings.ToLower(s.raw(i, i+1)) {
	case "of", "in", "for", "with", "by", "to", "at", "from", "on", "was", "were", "is", "are", "be", "had", "has", "have", "and", "or", "that", "which",
		"who", "showed", "did", "as", "the", "a", "an", "after", "when", "if", "among", "between", "only", "used", "per", "would", "can", "will":
		return true
	}
	return false
}

// senseRight finds the direction word behind a value: "24 % greater", "37 %
// relative risk reduction", "20 % less covering surface".
func (s *sentence) senseRight(i int) (sense, bool) {
	var out sense
	for j, n := i, 0; n < 5; j++ {
		t := s.at(j)
		if t.sort == markToken || t.inside || t.sort == signToken && (t.sign == '-' || t.sign == '“' || t.sign == '"' || t.sign == '’') {
			continue
		}
		if t.is.has(absolute) {
			out.abs = true
		}
		if t.is.has(relative) {
			out.rel = true
		}
		if v, ok := s.senseAt(j); ok && !(v.diff && !v.noun) {
			v.abs, v.rel = out.abs, out.rel
			// "20 % increased risk", "P % decrease in": the noun or adjective leads
			return v, true
		}
		if t.is.has(notClaim) && n == 0 || t.is.has(counted) || s.stopsRight(j) {
			return out, false
		}
		n++
	}
	return out, false
}

// skipLeft passes what softens or bounds a value: "by about", "nearly", "~".
func (s *sentence) skipLeft(i int) int {
	for {
		t := s.at(i)
		switch {
		case t.inside && s.covered(i, setOf(approx, boundUp, boundDown, filler, meanWord)):
		case t.is.any(setOf(approx, boundUp, boundDown, filler, meanWord)) && !s.clauseAdjective(i):
		case t.sort == signToken && strings.ContainsRune("~∼≈≅<>≤≥+−-–±˜∽⁓", t.sign) && !(t.sign == '-' && !t.gap && s.sortOf(i-1) == wordToken):
		case t.sort == wordToken && t.word == nil && strings.HasSuffix(s.raw(i, i+1), "ly"):
		case t.sort == wordToken && (s.raw(i, i+1) == "a" || s.raw(i, i+1) == "an" || s.raw(i, i+1) == "on"):
		case t.is.any(setOf(significant)):
		default:
			return i
		}
		i--
	}
}

// clauseAdjective: "more" in "50 % more", never a bound there.
func (s *sentence) clauseAdjective(i int) bool {
	t := s.at(i)
	return t.is.any(bounds) && t.span == 1 && t.is.any(adjectives) && !t.is.any(setOf(boundUp, boundDown))
}

// covered reports whether the phrase that covers token i is of these kinds.
func (s *sentence) covered(i int, k kinds) bool {
	for j := i - 1; j >= i-5 && j >= s.from; j-- {
		if !s.toks[j].inside {
			return int(s.toks[j].span) > i-j && s.toks[j].is.any(k)
		}
	}
	return false
}

// senseLeft finds the direction word before a value: "decreased by 14 %", "a
// reduction of 11 %", "the same treatment decreased 34.1 %".
func (s *sentence) senseLeft(i int) (sense, bool) {
	j := s.skipLeft(i - 1)
	switch w := strings.ToLower(s.raw(j, j+1)); {
	case w == "by":
		return s.governing(j-1, 16, true)
	case w == "of":
		if v, ok := s.ofNoun(j - 1); ok {
			return v, true
		}
		for k := j - 1; k > j-5; k-- { // "by an absolute value of"
			if s.raw(k, k+1) == "by" {
				return s.governing(k-1, 16, true)
			}
		}
		return sense{}, false
	case w == "was" || w == "is" || w == "to" && s.is(j-1, verbShare):
		return s.subjectNoun(j, i)
	default:
		if v, ok := s.senseAt(j); ok && v.noun && !v.diff && s.at(j).paren >= 0 {
			return v, true // "(6 % vs 13 %, decrease 7 %)"
		}
		if v, ok := s.senseAt(j); ok && s.any(j, setOf(verbUp, verbDown, verbMerit, verbOver)) {
			return v, true
		}
		// "increased significantly 25 %", "was reduced on average 25 %"
		if s.is(j, verbDiff) {
			return sense{}, false
		}
	}
	return sense{}, false
}

// subjectNoun: "The reduction in load was 24 %", "The difference between P and
// Q amounted to 20 %"; not "the percent decrease was 54 % versus 21 %".
func (s *sentence) subjectNoun(verb, value int) (sense, bool) {
	for k := value; k < value+6; k++ {
		if s.any(k, setOf(versus)) || s.raw(k, k+1) == "and" {
			return sense{}, false
		}
	}
	between := false
	for i, n := verb-1, 0; i >= s.from && n < 14; i, n = i-1, n+1 {
		t := s.at(i)
		if t.sign == ';' || t.sign == ',' || t.is.has(clauseWord) || t.sort == numberToken {
			return sense{}, false
		}
		between = between || s.raw(i, i+1) == "between"
		v, ok := s.senseAt(i)
		if !ok || !v.noun {
			continue
		}
		if s.is(i-1, percentWord) || v.diff && !between || v.merit != 0 || !s.headsClause(i) {
			return sense{}, false
		}
		return v, true
	}
	return sense{}, false
}

// headsClause: the noun is its clause's subject, with at most a few words
// before it: "The mean reduction".
func (s *sentence) headsClause(i int) bool {
	for k, n := i-1, 0; n < 5; k, n = k-1, n+1 {
		if k < s.from || s.sortOf(k) == signToken && s.sign(k) != '-' {
			return true
		}
		if s.raw(k, k+1) == "of" || s.raw(k, k+1) == "with" || s.raw(k, k+1) == "for" {
			return false
		}
	}
	return false
}

// governing looks left for the verb or adjective that "by P %" belongs to.
func (s *sentence) governing(i, reach int, verb bool) (sense, bool) {
	var pending *sense
	abs := false
	for n := 0; n < reach && i >= s.from; n, i = n+1, i-1 {
		t := s.at(i)
		if t.sign == ';' || t.sign == '.' && t.paren < 0 {
			break
		}
		if t.sort == signToken && (t.sign == ')' || t.sign == ']') {
			if o := int(t.paren); o >= s.from {
				n -= min(i-o, 6) // what stands in brackets takes little reach
				i = o
				continue
			}
		}
		if t.is.has(absolute) {
			abs = true
		}
		v, ok := s.senseAt(i)
		if !ok {
			continue
		}
		if v.over || s.any(i, setOf(verbUp, verbDown, verbMerit, adjUp, adjDown, adjMerit, inverting)) || v.noun && !v.diff {
			// "reduced the decrease by": the outermost verb governs, a noun between is its object
			if v.noun && n == 0 && !strings.EqualFold(s.raw(i-1, i), "the") {
				return v, true // "a reduction by 70 %"
			}
			if v.noun && !s.any(i, verbs) && pending == nil && !v.diff {
				c := v
				pending = &c
				continue
			}
			v.abs = abs
			return v, true
		}
		if v.diff && pending == nil && s.any(i, setOf(verbDiff)) {
			v.abs = abs
			return v, true
		}
	}
	if pending != nil {
		pending.abs = abs
		return *pending, true
	}
	return sense{}, false
}

// ofNoun: "a reduction of", "an improvement in bending of", "difference of".
func (s *sentence) ofNoun(i int) (sense, bool) {
	for n := 0; n < 9 && i >= s.from; n, i = n+1, i-1 {
		t := s.at(i)
		if t.sort == signToken && t.sign != '-' && t.sign != ')' || t.sort == numberToken {
			return sense{}, false
		}
		if v, ok := s.senseAt(i); ok && v.noun {
			for k := i - 1; k >= i-3; k-- {
				v.abs = v.abs || s.is(k, absolute)
				v.rel = v.rel || s.is(k, relative)
			}
			return v, true
		}
		if s.is(i, verbShare) || s.any(i, setOf(clauseWord, comparator)) {
			return sense{}, false
		}
		switch strings.ToLower(s.raw(i, i+1)) {
		case "was", "were", "is", "are", "had", "by", "to", "from", "which", "and", "with":
			if n > 0 {
				return sense{}, false
			}
		}
	}
	return sense{}, false
}

// changes reads every percent and fold claim of the sentence.
func (s *sentence) changes() []found {
	var out []found
	for i := range s.quants {
		q := &s.quants[i]
		if q.role != rolePercent || i+1 < len(s.quants) && s.rangeStart(&s.quants[i+1]) == q.at {
			continue
		}
		var before *found
		if len(out) > 0 {
			before = &out[len(out)-1]
		}
		if f, ok := s.percentClaim(q, before); ok {
			out = append(out, f)
		}
	}
	out = append(out, s.folds()...)
	sortFound(out)
	return s.listedBefore(out)
}

// listedBefore makes claims of the percentages listed right before one:
// "44 %, 35 % and 26 % lower".
func (s *sentence) listedBefore(fs []found) []found {
	for i := len(s.quants) - 2; i >= 0; i-- {
		q, next := &s.quants[i], &s.quants[i+1]
		if q.role != rolePercent || claimAt(fs, q.at) >= 0 || q.spread.Known() {
			continue
		}
		k := claimAt(fs, next.at)
		if k < 0 || fs[k].sense.at < next.at || !s.listed(q.end, next.at) || s.versusBetween(i, i+1) {
			continue
		}
		f := found{at: q.at, end: q.end, sense: fs[k].sense, shared: true}
		st := *fs[k].st
		f.st = &st
		f.st.High, f.st.Rests = extract.Number{}, nil
		s.printValue(f.st, q)
		s.senseTo(f.st, f.sense)
		fs = append(fs, f)
		sortFound(fs)
	}
	return fs
}

func claimAt(fs []found, tok int) int {
	for k := range fs {
		if fs[k].at == tok {
			return k
		}
	}
	return -1
}

func sortFound(fs []found) {
	for i := 1; i < len(fs); i++ {
		for j := i; j > 0 && fs[j].at < fs[j-1].at; j-- {
			fs[j], fs[j-1] = fs[j-1], fs[j]
		}
	}
}

// percentClaim decides whether a percentage claims a change or a share.
func (s *sentence) percentClaim(q *quantity, before *found) (found, bool) {
	f := found{at: q.at, end: q.end}
	if s.threshold(q) || s.versusBefore(q.at) {
		return f, false
	}
	sn, ok := s.senseRight(q.end)
	if !ok && q.spread.Known() && q.spread.Kind != claims.SE && q.spread.Kind != claims.CI95 {
		// a level with its spread, not a change: "56 ± 11 %" — unless governed by "by"
		if _, left := s.senseLeft(q.at); !left || !s.byBefore(q.at) {
			return f, false
		}
	}
	start := q.at
	if p := s.rangeStart(q); p >= 0 {
		start = p
	}
	if ok && s.levelBefore(start) {
		return f, false
	}
	if !ok {
		sn, ok = s.senseLeft(start)
	}
	if !ok {
		sn, ok = s.share(q)
	}
	if !ok {
		sn, ok = s.inBrackets(q)
	}
	if !ok && before != nil && s.continues(before, q) {
		sn, ok = before.sense, true
		f.shared = true
	}
	if !ok {
		return f, false
	}
	if sn.diff && !s.differenceClaim(q, sn) {
		return f, false
	}
	f.sense = sn
	f.st = &claims.Statement{Kind: claims.Percent, Form: claims.Change, Unit: "%", Direction: sn.dir}
	switch {
	case q.points:
		f.st.Form = claims.Points
	case sn.share:
		f.st.Form = claims.Share
	case sn.abs && !sn.rel:
		f.st.Form = claims.Points
	}
	s.printValue(f.st, q)
	s.senseTo(f.st, sn)
	return f, true
}

// versusBefore: the second side of "32 vs. 12 %" is a level, not a change.
func (s *sentence) versusBefore(i int) bool {
	j := s.skipLeft(i - 1)
	if s.sign(j) == '.' {
		j--
	}
	return s.is(j, versus) && s.at(j).span == 1
}

func (s *sentence) byBefore(i int) bool {
	j := s.skipLeft(i - 1)
	return strings.EqualFold(s.raw(j, j+1), "by")
}

// levelBefore: "from 20 % lower", "to 15 % higher" are levels only after
// "from"; a percentage with an adjective behind it is a change.
func (s *sentence) levelBefore(i int) bool { return s.is(s.skipLeft(i-1), fromWord) }

// threshold: "> 90 % reduction" said of patients who reach it.
func (s *sentence) threshold(q *quantity) bool {
	switch q.relation {
	case extract.Less, extract.Greater, extract.LessEqual, extract.GreaterEqual:
	default:
		return false
	}
	return !s.comparisonFollows(q.end)
}

// differenceClaim: "a 55 % difference between", "difference of 41 %" behind two
// figures; "differences of 38 % were seen in P" compares nothing.
func (s *sentence) differenceClaim(q *quantity, sn sense) bool {
	if !sn.noun || sn.at > q.at {
		return sn.noun
	}
	for i := s.from; i < s.to; i++ {
		if s.any(i, setOf(versus, comparator, favour)) || s.raw(i, i+1) == "between" {
			return true
		}
	}
	return sn.at > s.from && len(s.quants) > 1 || s.r.typed
}

// continues reports whether a percentage goes on with the claim before it:
// "by 47 and 48 %", "62 % for PT3, 42 % for LXT and 26 % for TMP".
func (s *sentence) continues(f *found, q *quantity) bool {
	joined := false
	words := 0
	for i := f.end; i < q.at; i++ {
		t := s.at(i)
		switch {
		case t.sort == signToken && (t.sign == '(' || t.sign == '['):
			if e := closing(s.toks[:s.to], i); e > 0 && e < q.at {
				i = e
				continue
			}
			return false
		case t.sort == signToken && t.sign == ',':
			joined, words = true, 0
		case t.sort == signToken && t.sign == ';':
			return false
		case t.sort == wordToken && (s.raw(i, i+1) == "and" || s.raw(i, i+1) == "or"):
			joined, words = true, 0
		case t.is.any(setOf(versus, comparator, clauseWord)), t.is.has(fromWord):
			return false
		case s.any(i, setOf(verbUp, verbDown, verbMerit, verbLast, verbShare, verbDiff)) && !t.is.any(nouns):
			return false
		case t.sort == wordToken:
			switch s.raw(i, i+1) {
			case "was", "were", "had", "is", "are", "showed", "to", "received":
				return false
			}
			words++
			if words > 8 {
				return false
			}
		}
	}
	if !joined {
		return false
	}
	// what stands right before it must let it be one more value of the list
	j := s.skipLeft(q.at - 1)
	switch w := strings.ToLower(s.raw(j, j+1)); w {
	case "by", "and", "or", ",":
		return !s.is(q.end, notClaim)
	case "of":
		return s.sense(f.at, "of") && (s.raw(j-1, j) == "and" || s.raw(j-1, j) == ",")
	}
	return false
}

// sense reports whether the value at a token stands behind this word.
func (s *sentence) sense(at int, word string) bool {
	return strings.EqualFold(s.raw(s.skipLeft(at-1), s.skipLeft(at-1)+1), word)
}

// inBrackets: "was decreased (from −17 to −10, −40 %)", "enhancement was seen
// (67 %, from 19.1 to 31.7)": a bare percentage in the brackets of a pair.
func (s *sentence) inBrackets(q *quantity) (sense, bool) {
	p := int(s.at(q.at).paren)
	if p < s.from || q.spread.Known() {
		return sense{}, false
	}
	next := s.sign(q.end)
	if next != ',' && next != ';' && next != ')' && next != ']' {
		return sense{}, false
	}
	signed := s.at(q.at).negative || s.sign(q.at-1) == '+' && s.sortOf(q.at-2) == signToken
	from := false
	for j := p; j < p+30 && j < s.to && s.sign(j) != ')'; j++ {
		from = from || s.is(j, fromWord)
	}
	if !signed && !from {
		return sense{}, false
	}
	if from && !signed && q.at != s.skipBack(p, q.at) {
		return sense{}, false
	}
	v, ok := s.governing(p-1, 14, true)
	if signed {
		v.at = q.at
		if !ok {
			v = sense{at: q.at}
		}
		v.dir = claims.Higher
		if s.at(q.at).negative {
			v.dir = claims.Lower
		}
		return v, ok || from
	}
	return v, ok
}

// skipBack gives the token after an opening bracket or comma when only marks
// of approximation stand between.
func (s *sentence) skipBack(p, i int) int {
	j := s.skipLeft(i-1) + 1
	if s.sign(j-1) == '(' || s.sign(j-1) == '[' || s.sign(j-1) == ',' {
		return i
	}
	return j - 1
}

// share: "reached 92 % of the cycles of B", "46 % of control", "86 % of the
// expected 24 sessions". A share of specimens is none.
func (s *sentence) share(q *quantity) (sense, bool) {
	i := q.end
	if s.raw(i, i+1) != "of" {
		return sense{}, false
	}
	for k := i + 1; k < i+5; k++ {
		if s.is(k, counted) && !s.is(k-1, whole) || k == i+1 && s.is(k, notClaim) {
			return sense{}, false
		}
		if s.stopsShare(k) {
			break
		}
	}
	out := sense{at: i, share: true}
	j := s.skipLeft(q.at - 1)
	if s.is(j, toWord) {
		j--
	}
	w := s.raw(j, j+1)
	verb := s.any(j, setOf(verbShare, verbLast, versus)) || w == "was" || w == "were" || w == "is" || w == "showed" || w == "had" || w == "(" || w == "," || w == "—" || w == "and"
	for k := i + 1; k < i+4; k++ {
		switch w := strings.ToLower(s.raw(k, k+1)); {
		case w == "that" || w == "those":
			next := s.raw(k+1, k+2)
			return out, verb && (next == "of" || next == "for" || w == "that" && (next == "in" || next == "with" || s.any(k+1, setOf(comparator))))
		case s.is(k, control), s.is(k, whole), s.armAt(k) != nil:
			return out, verb
		}
	}
	if !verb || w == "and" || w == "," {
		return sense{}, false
	}
	// "P % of the OUTCOME of B"
	for k := i + 1; k < i+12; k++ {
		if k > i+2 && s.raw(k, k+1) == "of" && !s.is(k+1, counted) || s.raw(k, k+1) == "'" || s.raw(k, k+1) == "’" {
			return out, true
		}
		if s.stopsShare(k) {
			break
		}
	}
	return sense{}, false
}

func (s *sentence) stopsShare(i int) bool {
	t := s.at(i)
	return t.sort == emptyToken || t.sort == signToken && t.sign != '-' && t.sign != '’' && t.sign != '\'' && t.sign != '/' || t.is.any(setOf(clauseWord))
}

// printValue fills the printed value, its range and how it is bound.
func (s *sentence) printValue(st *claims.Statement, q *quantity) {
	st.Value = s.number(q.at)
	if st.Value.Value < 0 {
		st.Value.Value = -st.Value.Value
	}
	st.Printed = s.raw(q.at, q.end)
	if q.spread.Known() {
		st.Printed = st.Value.Text + "%"
	}
	if s.at(q.at).negative {
		st.Printed = strings.TrimLeft(st.Printed, "-−–")
		st.Value.Text = strings.TrimLeft(st.Value.Text, "-−–")
	}
	if q.percent && !strings.Contains(st.Printed, "%") && !strings.Contains(st.Printed, "p") {
		st.Printed += "%"
	}
	st.Value.Relation = s.boundOf(q.at, q.relation)
	if q.highAt >= 0 {
		st.High = s.number(q.highAt)
	} else if p := s.rangeStart(q); p >= 0 {
		st.High = st.Value
		low := s.number(p)
		low.Relation = s.boundOf(p, s.relationBefore(p))
		st.Value, st.Printed = low, s.raw(p, q.end)
	}
}

// rangeStart gives the token of the lower end when q is the upper end of a
// range: "50–92 %", "by 20 to 30 %", -1 otherwise.
func (s *sentence) rangeStart(q *quantity) int {
	j := q.at - 1
	c := s.sign(j)
	dash := s.sortOf(j) == signToken && (c == '-' || c == '–' || c == '—' || c == '−')
	to := s.is(j, toWord) && s.at(j).span == 1
	if !dash && !to {
		return -1
	}
	k := j - 1
	if s.sign(k) == '%' {
		k--
	}
	if s.sortOf(k) != numberToken || s.at(k).value >= s.at(q.at).value {
		return -1
	}
	if to && (s.is(s.skipLeft(k-1), fromWord) || s.sortOf(k-1) == signToken && s.sign(k-1) == '±') {
		return -1
	}
	return k
}

// boundOf reads "about", "more than", "up to", "<" before the value at i.
func (s *sentence) boundOf(i int, printed extract.Relation) extract.Relation {
	for j, n := i-1, 0; n < 4 && j >= s.from; j, n = j-1, n+1 {
		t := s.at(j)
		if t.inside {
			continue
		}
		switch {
		case t.is.has(approx):
			return extract.About
		case t.is.has(boundUp) && (t.span > 1 || !t.is.any(adjectives) || t.phrase == nil && s.overAlone(j)):
			if s.is(j-1, negation) {
				return extract.LessEqual
			}
			if w := s.word(j); w == "at" || w == "not" || w == "no" {
				return extract.GreaterEqual
			}
			return extract.Greater
		case t.is.has(boundDown):
			switch w := s.word(j); {
			case t.span == 1:
			case w == "up" || w == "as" || w == "no" || w == "not" || w == "at" || w == "a":
				return extract.LessEqual
			}
			if s.is(j-1, negation) {
				return extract.GreaterEqual
			}
			return extract.Less
		case t.is.has(filler), t.sort == signToken && strings.ContainsRune("~∼≈<>≤≥˜∽", t.sign):
			continue
		}
		break
	}
	return printed
}

func (s *sentence) overAlone(j int) bool { return s.word(j) == "over" || s.word(j) == "above" }

// senseTo writes the direction and what it rested on.
func (s *sentence) senseTo(st *claims.Statement, sn sense) {
	st.Direction = sn.dir
	if !sn.share && sn.at >= s.from && sn.at < s.to {
		st.Rests = append(st.Rests, s.raw(sn.at, sn.at+int(s.at(sn.at).span)))
	}
}
