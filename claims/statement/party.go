package statement

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/claims"
)

// armIndex finds the arms of the study by any of their names.
type armIndex struct {
	names map[string][]armName // by the first word, lower case
	all   []*claims.Arm
	class []armClass
}

// armClass is a word that the paper groups arms by: "heat-treated".
type armClass struct {
	name  string
	words []string
	arms  []*claims.Arm
}

func (x *armIndex) addClass(name string, a *claims.Arm) {
	name = strings.ToLower(strings.TrimSpace(name))
	for i := range x.class {
		if x.class[i].name == name {
			x.class[i].arms = append(x.class[i].arms, a)
			return
		}
	}
	if words := cutName(name); len(words) > 0 {
		x.class = append(x.class, armClass{name, words, []*claims.Arm{a}})
	}
}

type armName struct {
	words []string // lower case, as cut
	exact string   // for short names: as printed, case and all
	arm   *claims.Arm
}

// armHit is a place of the sentence that names arms.
type armHit struct {
	at, end int
	arms    []*claims.Arm
	group   bool // "the other groups", a class
	others  bool
	all     bool
	class   string
	// opposite: a word such as "conventional" where the study names no control
	opposite bool
}

func newArmIndex(study *claims.Study) armIndex {
	x := armIndex{names: map[string][]armName{}}
	for _, a := range study.Arms {
		if a == nil {
			continue
		}
		x.all = append(x.all, a)
		seen := map[string]bool{}
		for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
			x.add(name, a, seen)
		}
		for _, name := range shortened(a, study.Arms) {
			x.add(name, a, seen)
		}
		for _, c := range a.Class {
			x.addClass(c, a)
		}
	}
	return x
}

func (x *armIndex) add(name string, a *claims.Arm, seen map[string]bool) {
	name = strings.TrimSpace(name)
	words := cutName(name)
	if len(words) == 0 || len(words) > 12 || seen[name] {
		return
	}
	seen[name] = true
	n := armName{words: words, arm: a}
	if len(words) == 1 && utf8.RuneCountInString(name) <= 3 {
		n.exact = name
	}
	x.names[words[0]] = append(x.names[words[0]], n)
	// "Group B" is also "B" in a list of groups; the list is read elsewhere
	if len(words) == 2 && (words[0] == "group" || words[0] == "gr" || words[0] == "gp" || words[0] == "grp") {
		x.add(words2(name), a, seen)
	}
}

// shortened gives the beginnings of an arm's name that no other arm shares:
// "250 ppm" of "250 ppm F", the proper name of "Velto 25/.06".
func shortened(a *claims.Arm, all []*claims.Arm) []string {
	var out []string
	for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
		fields := strings.Fields(name)
		if len(fields) < 2 {
			continue
		}
		var tries []string
		if r, _ := utf8.DecodeRuneInString(fields[0]); unicode.IsDigit(r) {
			tries = append(tries, fields[0]+" "+fields[1])
		} else if unicode.IsUpper(r) && utf8.RuneCountInString(fields[0]) >= 4 && !groupWord(fields[0]) && properName(fields[0]) {
			tries = append(tries, fields[0])
		}
		if last := fields[len(fields)-1]; groupWord(last) {
			tries = append(tries, strings.Join(fields[:len(fields)-1], " "))
		}
		for _, t := range tries {
			if uniqueStart(t, a, all) {
				out = append(out, t)
			}
		}
	}
	return out
}

// properName: a word that is not an ordinary adjective of a group.
func properName(w string) bool {
	switch strings.ToLower(w) {
	case "positive", "negative", "control", "high", "low", "full", "partial", "first", "second", "third", "mean", "total", "test", "experimental", "with", "without", "after", "before", "baseline", "conventional", "standard", "normal", "heat", "sham", "untreated", "apical", "coronal", "middle":
		return false
	}
	return true
}

func uniqueStart(start string, a *claims.Arm, all []*claims.Arm) bool {
	low := strings.ToLower(start)
	for _, b := range all {
		if b == a || b == nil {
			continue
		}
		for _, name := range append([]string{b.Name, b.Short}, b.Aliases...) {
			if n := strings.ToLower(name); n == low || strings.HasPrefix(n, low+" ") || strings.HasPrefix(n, low+"/") {
				return false
			}
		}
	}
	return true
}

func words2(name string) string {
	f := strings.Fields(name)
	return f[len(f)-1]
}

// cutName cuts a name into words and numbers; signs fall away.
func cutName(s string) []string {
	var out []string
	start := -1
	for i, r := range s + " " {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' && start >= 0 && i+1 < len(s) && digit(s[i+1]) {
			if start < 0 {
				start = i
			}
			continue
		}
		if start >= 0 {
			out = append(out, strings.ToLower(s[start:i]))
			start = -1
		}
	}
	return out
}

// armAt gives the arms named at token i with the longest of their names, nil
// if none is.
func (s *sentence) armAt(i int) *armHit {
	if len(s.r.arms.all) == 0 || i < s.from || i >= s.to {
		return nil
	}
	t := &s.toks[i]
	if t.sort != wordToken && t.sort != numberToken {
		return nil
	}
	first := strings.ToLower(s.text[t.start:t.end])
	best := armHit{at: i, end: i}
	for _, n := range s.r.arms.names[first] {
		end, ok := s.nameAt(i, n)
		if !ok || end < best.end {
			continue
		}
		if end > best.end {
			best.arms, best.end = nil, end
		}
		best.arms = append(best.arms, n.arm)
	}
	if len(best.arms) == 0 {
		return nil
	}
	best.arms = uniqueArms(best.arms)
	return &best
}

// nameAt matches a name at token i; small signs may stand between its words.
func (s *sentence) nameAt(i int, n armName) (int, bool) {
	if n.exact != "" && !s.exactAt(i, n) {
		return 0, false
	}
	j := i + 1
	for _, w := range n.words[1:] {
		for k := 0; k < 3 && s.sortOf(j) == signToken && nameSign(s.sign(j)); k++ {
			j++
		}
		t := s.at(j)
		if t.sort != wordToken && t.sort != numberToken || !strings.EqualFold(s.text[t.start:t.end], w) && strings.TrimLeft(s.text[t.start:t.end], ".") != strings.TrimLeft(w, "0.") {
			return 0, false
		}
		j++
	}
	return j, true
}

// exactAt: a short name must be printed as it is, and one letter or number
// only stands for an arm beside the word "group" or in a list of such.
func (s *sentence) exactAt(i int, n armName) bool {
	t := s.at(i)
	if s.text[t.start:t.end] != n.exact {
		return false
	}
	if t.sort == wordToken && utf8.RuneCountInString(n.exact) > 1 {
		return true
	}
	if t.sort == wordToken && n.exact != "A" && n.exact != "I" && !s.isInitial(i) {
		return true
	}
	return s.afterGroupWord(i)
}

func (s *sentence) isInitial(i int) bool {
	return s.sign(i+1) == '.' && s.sortOf(i+2) == wordToken && !s.at(i+2).upper
}

// afterGroupWord: "group 1", "groups A, B and C", "A and B groups".
func (s *sentence) afterGroupWord(i int) bool {
	for j, n := i-1, 0; n < 14; j, n = j-1, n+1 {
		t := s.at(j)
		switch {
		case t.sort == wordToken && groupWord(s.raw(j, j+1)):
			return true
		case t.sort == signToken && (t.sign == ',' || t.sign == '(' || t.sign == ')' || t.sign == '&' || t.sign == '/' || t.sign == '-' || t.sign == '.'):
		case t.sort == numberToken && t.decimals == 0:
		case t.sort == wordToken && (t.end-t.start == 1 || s.raw(j, j+1) == "and" || s.raw(j, j+1) == "or" || s.raw(j, j+1) == "vs" || s.raw(j, j+1) == "versus"):
		default:
			n = 99
		}
	}
	return s.at(i).sort == wordToken && (groupWord(s.raw(i+1, i+2)) || s.raw(i+1, i+2) == "and" && groupWord(s.raw(i+3, i+4)))
}

func groupWord(w string) bool {
	switch strings.ToLower(w) {
	case "group", "groups", "gr", "grp", "grps", "gp", "subgroup", "subgroups", "instrument", "instruments", "file", "files", "material", "materials", "system", "systems":
		return true
	}
	return false
}

func nameSign(r rune) bool {
	switch r {
	case '-', '‐', '‑', '–', '/', '#', '®', '™', '.', '+', '(', ')', ',', '“', '”', '"', '\'', '’', '&':
		return true
	}
	return false
}

func uniqueArms(arms []*claims.Arm) []*claims.Arm {
	out := arms[:0:0]
	for _, a := range arms {
		dup := false
		for _, b := range out {
			dup = dup || a == b
		}
		if !dup {
			out = append(out, a)
		}
	}
	return out
}

// armHits lists every naming of arms between two tokens, in order.
func (s *sentence) armHits(from, to int) []armHit {
	if len(s.r.arms.all) == 0 {
		return nil
	}
	if !s.hitsRead {
		s.hits, s.hitsRead = s.readHits(), true
	}
	var out []armHit
	for _, h := range s.hits {
		if h.at >= from && h.end <= to {
			out = append(out, h)
		}
	}
	return out
}

// readHits finds the names once for the whole sentence.
func (s *sentence) readHits() []armHit {
	var out []armHit
	for i := s.from; i < s.to; i++ {
		if h := s.armAt(i); h != nil {
			out = append(out, *h)
			i = h.end - 1
			continue
		}
		if h, ok := s.backHit(i); ok {
			out = append(out, h)
			i = max(h.end-1, i)
			continue
		}
		if h, ok := s.groupHit(i); ok {
			out = append(out, h)
			i = max(h.end-1, i)
		}
	}
	return out
}

// backHit: "the former" and "the latter" of the two arms named last, in this
// sentence or the one before.
func (s *sentence) backHit(i int) (armHit, bool) {
	t := s.at(i)
	if !t.is.any(setOf(former, latter)) {
		return armHit{}, false
	}
	var last []*claims.Arm
	for k := s.from; k < i; k++ {
		if h := s.armAt(k); h != nil && len(h.arms) == 1 {
			last = append(last, h.arms[0])
		}
	}
	if len(last) < 2 {
		last = append(append([]*claims.Arm(nil), s.r.lastArms...), last...)
	}
	if len(last) < 2 {
		return armHit{}, false
	}
	a := last[len(last)-1]
	if t.is.has(former) {
		a = last[len(last)-2]
	}
	return armHit{at: i, end: i + int(t.span), arms: []*claims.Arm{a}}, true
}

// groupHit: "the other groups", "both groups", "the control group", a class.
func (s *sentence) groupHit(i int) (armHit, bool) {
	t := s.at(i)
	h := armHit{at: i, end: i + int(t.span), group: true}
	if len(s.r.arms.class) > 0 && t.sort == wordToken {
		for _, c := range s.r.arms.class {
			if !s.sameWord(i, c.words[0]) {
				continue
			}
			if end, ok := s.nameAt(i, armName{words: c.words}); ok {
				h.end, h.class, h.arms = end, c.name, c.arms
				return h, true
			}
		}
	}
	switch {
	case t.is.has(allOthers):
		h.others = true
		return h, true
	case t.is.has(allGroups):
		h.all = true
		return h, true
	case t.is.has(control) && t.sort == wordToken:
		for _, a := range s.r.arms.all {
			if a.Control {
				h.arms = append(h.arms, a)
			}
		}
		h.group = len(h.arms) != 1
		h.opposite = len(h.arms) == 0
		return h, len(h.arms) > 0 || len(s.r.arms.class) > 0
	}
	return h, false
}

// sides is who is compared with whom in a stretch of the sentence.
type sides struct {
	subject, reference []armHit
	symmetric          bool // "between A and B": neither leads
	each               bool // all against each other
	at                 int  // the comparator's token, -1
	sure               bool
	pairs              [][2]armHit // where the sentence lists pairs
}

// sidesOf resolves the parties between two tokens, near a claim at token at.
func (s *sentence) sidesOf(from, to, at int) sides {
	hits := s.armHits(from, to)
	if len(hits) == 0 {
		return sides{at: -1}
	}
	s.complement(hits)
	if out, ok := s.betweenSides(from, to, hits); ok {
		return out
	}
	if s.hint >= 0 {
		return s.comparedSides(s.hint, from, hits)
	}
	if cmp := s.comparatorFor(from, to, at, hits); cmp >= 0 {
		return s.comparedSides(cmp, from, hits)
	}
	return s.plainSides(from, to, hits)
}

// complement: against a class, "conventional instruments" are all the others.
func (s *sentence) complement(hits []armHit) {
	for i := range hits {
		if hits[i].class == "" || len(hits[i].arms) == 0 {
			continue
		}
		for k := range hits {
			if k != i && hits[k].opposite {
				hits[k].arms = s.others(hits[i].arms)
			}
		}
	}
}

// betweenSides: "between A and B", "among A, B and C".
func (s *sentence) betweenSides(from, to int, hits []armHit) (sides, bool) {
	for i := from; i < to; i++ {
		w := strings.ToLower(s.raw(i, i+1))
		if w != "between" && w != "among" && w != "amongst" {
			continue
		}
		var in []armHit
		for _, h := range hits {
			if h.at > i && (len(in) == 0 || s.joined(in[len(in)-1].end, h.at)) {
				in = append(in, h)
			}
		}
		if len(in) == 0 {
			continue
		}
		if len(in) == 1 && in[0].others {
			return sides{at: i}, true // "between other groups": which, the sentence before says
		}
		if len(in) == 1 && in[0].all {
			return sides{subject: in, symmetric: true, each: true, at: i, sure: true}, true
		}
		if pairs := s.versusPairs(in); pairs != nil {
			return sides{subject: in, symmetric: true, each: true, at: i, sure: true, pairs: pairs}, true
		}
		if len(in) >= 4 {
			if pairs := s.pairList(in); pairs != nil {
				return sides{subject: in, symmetric: true, each: true, at: i, sure: true, pairs: pairs}, true
			}
		}
		if len(in) >= 2 {
			return sides{subject: in[:1], reference: in[1:], symmetric: true, each: true, at: i, sure: true}, true
		}
	}
	return sides{}, false
}

// versusPairs: "P versus Q and R versus S": the names beside each "versus".
func (s *sentence) versusPairs(in []armHit) [][2]armHit {
	var out [][2]armHit
	if len(in) < 3 {
		return nil
	}
	for i := 0; i+1 < len(in); i++ {
		if s.againstBetween(in[i].end, in[i+1].at) {
			out = append(out, [2]armHit{in[i], in[i+1]})
		}
	}
	return out
}

// pairList: "C and PA, PA and CP, F and PAF" is a list of pairs, not of groups.
func (s *sentence) pairList(in []armHit) [][2]armHit {
	if len(in)%2 != 0 {
		return nil
	}
	var out [][2]armHit
	for i := 0; i < len(in); i += 2 {
		if !s.andOnly(in[i].end, in[i+1].at) || i+2 < len(in) && s.andOnly(in[i+1].end, in[i+2].at) {
			return nil
		}
		out = append(out, [2]armHit{in[i], in[i+1]})
	}
	return out
}

func (s *sentence) andOnly(i, j int) bool {
	and := false
	for k := i; k < j; k++ {
		if s.sign(k) == ',' {
			return false
		}
		and = and || s.raw(k, k+1) == "and" || s.is(k, versus)
	}
	return and
}

// joined reports whether only words of joining stand between two names, and
// at most two that belong to a name: "the 250 ppm fluoride and control groups".
func (s *sentence) joined(i, j int) bool {
	if j-i > 9 {
		return false
	}
	foreign, joins := 0, false
	for k := i; k < j; k++ {
		t := s.at(k)
		switch {
		case t.sort == signToken && strings.ContainsRune(",/&()-+‐–’'", t.sign):
			joins = joins || t.sign == ',' || t.sign == '/' || t.sign == '&'
		case t.is.any(setOf(versus, bothWord)):
			joins = true
		case t.sort == wordToken:
			switch w := strings.ToLower(s.raw(k, k+1)); {
			case w == "and" || w == "or" || w == "nor" || w == "with" || w == "also":
				joins = true
			case s.is(k, joinWord) || groupWord(w):
			case s.verbLike(k) || t.is.any(setOf(comparator, clauseWord)) || t.is.any(saying):
				return false
			default:
				foreign++
			}
		case t.sort == markToken:
		default:
			return false
		}
	}
	return foreign == 0 || foreign <= 2 && joins && j-i <= 7
}

// comparatorFor finds "than", "compared with", "versus" nearest to the claim.
func (s *sentence) comparatorFor(from, to, at int, hits []armHit) int {
	best, dist := -1, 1<<30
	for i := from; i < to; i++ {
		t := s.at(i)
		if t.inside || !t.is.has(comparator) && !s.comparesBy(i) {
			continue
		}
		if t.paren >= 0 && t.paren != s.at(at).paren {
			continue
		}
		d := i - at
		if d < 0 {
			d = -d + 3
		}
		if d < dist {
			best, dist = i, d
		}
	}
	return best
}

// comparesBy: "differed from", "different from", "similar to", "that of" after
// a multiple, and the object of "exceeded".
func (s *sentence) comparesBy(i int) bool {
	switch s.raw(i, i+1) {
	case "from":
		for k := i - 1; k >= i-4; k-- {
			if s.any(k, setOf(verbDiff, nounDiff)) || s.word(k) == "different" || strings.EqualFold(s.raw(k, k+1), "different") {
				return true
			}
		}
	case "to", "with":
		return s.any(i-1, setOf(equalWord)) || s.raw(i-1, i) == "superior" || s.raw(i-1, i) == "inferior"
	}
	return s.is(i, verbOver)
}

func (s *sentence) comparedSides(cmp, from int, hits []armHit) sides {
	out := sides{at: cmp, sure: true}
	leads := true
	for k := from; k < cmp; k++ {
		if s.sortOf(k) == wordToken && s.at(k).sort == wordToken && !s.any(k, setOf(clauseWord, approx)) && s.raw(k, k+1) != "when" && s.raw(k, k+1) != "and" {
			leads = false
		}
	}
	var before, after []armHit
	end := cmp + int(s.at(cmp).span)
	for _, h := range hits {
		switch {
		case h.end <= cmp:
			before = append(before, h)
		case h.at >= end && (len(after) == 0 || s.joined(after[len(after)-1].end, h.at) && !(leads && s.sign(after[len(after)-1].end) == ',')):
			after = append(after, h)
		case h.at >= end && leads:
			before = append(before, h)
		}
	}
	out.subject, out.reference = s.subjectOf(before), after
	return out
}

// subjectOf keeps the run of names that ends nearest to the comparison: the
// others before it belong to something else.
func (s *sentence) subjectOf(hits []armHit) []armHit {
	if len(hits) < 2 {
		return hits
	}
	run := hits[:1]
	for i := 1; i < len(hits); i++ {
		if s.joined(hits[i-1].end, hits[i].at) {
			run = append(run, hits[i])
			continue
		}
		if hits[i].group && hits[i].all {
			continue
		}
		run = hits[i : i+1]
	}
	return run
}

// plainSides: no comparator: "A and B differed", "A had the highest".
func (s *sentence) plainSides(from, to int, hits []armHit) sides {
	out := sides{at: -1, sure: true}
	run := hits[:1]
	for i := 1; i < len(hits) && s.joined(hits[i-1].end, hits[i].at); i++ {
		run = hits[:i+1]
	}
	if len(run) > 1 {
		out.subject, out.reference, out.symmetric, out.each = run[:1], run[1:], true, true
		return out
	}
	out.subject = run
	if hits[0].all {
		out.symmetric, out.each = true, true
	}
	return out
}

// party makes the claims.Party of some names.
func (s *sentence) party(hits []armHit) claims.Party {
	var p claims.Party
	if len(hits) == 0 {
		return p
	}
	p.Text = s.raw(hits[0].at, hits[len(hits)-1].end)
	for _, h := range hits {
		p.Arms = append(p.Arms, h.arms...)
		p.All = p.All || h.all || h.others
		if h.class != "" {
			p.Class = h.class
		}
	}
	p.Arms = uniqueArms(p.Arms)
	return p
}

// hitsOf gives the first naming of an arm in the sentence.
func (s *sentence) hitsOf(a *claims.Arm) []armHit {
	for _, h := range s.armHits(s.from, s.to) {
		if len(h.arms) == 1 && h.arms[0] == a {
			return []armHit{h}
		}
	}
	return nil
}

// byOwners puts the figures on the sides of the arms that own them.
func byOwners(st *claims.Statement) {
	a, b := st.A.Measure, st.B.Measure
	if a == nil || b == nil || !hasArm(st.Reference, a.Arm) || !hasArm(st.Subject, b.Arm) || hasArm(st.Subject, a.Arm) || hasArm(st.Reference, b.Arm) {
		return
	}
	st.A, st.B = st.B, st.A
}

func hasArm(p claims.Party, a *claims.Arm) bool {
	for _, x := range p.Arms {
		if x == a {
			return true
		}
	}
	return false
}
