package statement

import (
	"strings"

	"probity/claims"
)

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
