package statement

import (
	"strings"

	"probity/claims"
)

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
