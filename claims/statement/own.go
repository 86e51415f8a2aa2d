package statement

import (
	"strings"

	"probity/claims"
	"probity/claims/role"
	"probity/extract"
)

// whose decides whether a statement is about this paper's own results.
func (s *sentence) whose(st *claims.Statement) {
	st.WhyNotOwn = s.whyNotOwn()
	if st.WhyNotOwn == "" && st.Kind != claims.NoDifference && !s.r.typed {
		switch s.place.Section {
		case extract.Methods:
			st.WhyNotOwn = "method"
		case extract.Introduction:
			st.WhyNotOwn = "introduction"
		}
	}
	st.Own = st.WhyNotOwn == ""
	for i := s.from; i < s.to; i++ {
		if s.is(i, hedge) && !s.toks[i].inside {
			st.Hedged = true
			break
		}
	}
}

// whyNotOwn reads the sentence's own words for whose result it tells: the
// first cue that is not the other side of "in agreement with" decides.
func (s *sentence) whyNotOwn() string {
	if s.r.typed {
		return ""
	}
	var is kinds
	cites, own, cited := -1, -1, -1
	for i := s.from; i < s.to; i++ {
		t := &s.toks[i]
		is = is.or(t.is)
		switch {
		case t.sign == '[' && s.sortOf(i+1) == numberToken && s.isCitation(i+1):
			if cites < 0 && !s.agreedWith(i) {
				cites = i
			}
		case t.inside:
		case t.is.has(ownWork) && own < 0 && !s.likened(i):
			own = i
		case t.is.any(setOf(citedName, citedWork)) && cited < 0 && !s.likened(i):
			cited = i
		}
	}
	switch {
	case is.has(power), is.has(assumption) && is.has(statisticWord) && s.hasWord("power"):
		return "power calculation"
	case is.has(assumption) && (is.has(hedge) || s.ofTheFuture()):
		return "assumption"
	case cited >= 0 && (own < 0 || cited < own):
		return "cited work"
	case own >= 0 && (cites < 0 || own < cites):
		return ""
	case cited < 0 && own < 0 && is.any(setOf(citedName, citedWork)) && !is.has(agreement):
		return "cited work"
	case cites >= 0 && s.place.Section != extract.Results && s.place.Section != extract.Abstract:
		return "cited work"
	case own < 0 && s.endsInCitation() && s.place.Section != extract.Results && s.place.Section != extract.Abstract:
		return "cited work"
	case s.r.citedBefore && s.goesOn():
		return "cited work"
	case s.place.Section == extract.Discussion && own < 0 && is.has(expectation):
		return "expectation"
	case s.place.Section == extract.Discussion && own < 0 && is.has(designWord) && !s.r.measuresDesign():
		return "dimensions of the instruments, not measured here"
	}
	return ""
}

// ofTheFuture: "we believe that it will lead to".
func (s *sentence) ofTheFuture() bool {
	for i := s.from; i < s.to; i++ {
		switch s.raw(i, i+1) {
		case "will", "would", "should":
			return true
		}
	}
	return false
}

// endsInCitation: "… by 57 % [9].", "….9", "… (12).": the sentence leans on
// another work.
func (s *sentence) endsInCitation() bool {
	if s.quants == nil {
		s.quantities()
	}
	n := len(s.quants)
	if n == 0 {
		return false
	}
	q := &s.quants[n-1]
	if q.is != role.Citation {
		return false
	}
	for i := q.end; i < s.to; i++ {
		if s.sortOf(i) == wordToken {
			return false
		}
	}
	return true
}

// measuresDesign reports whether the study measured dimensions itself.
func (r *reader) measuresDesign() bool {
	for _, o := range r.outcomes.list {
		for _, w := range o.words {
			if w == "taper" || w == "diameter" || w == "pitch" || w == "angle" {
				return true
			}
		}
	}
	return false
}

// agreedWith: "In agreement with Alder et al. [5], …": the citation belongs to
// what the sentence agrees with.
func (s *sentence) agreedWith(i int) bool {
	for k, n := i-1, 0; k >= s.from && n < 8; k, n = k-1, n+1 {
		if s.is(k, agreement) {
			return s.likened(i)
		}
	}
	return false
}

// likened: the words stand behind "similar to", "in agreement with": what the
// sentence compares with, not what it tells of.
func (s *sentence) likened(i int) bool {
	for k := i; k < i+9; k++ { // "agrees with Alder et al. [7], who found that"
		switch strings.ToLower(s.raw(k, k+1)) {
		case "who", "whose", "where", "which":
			return false
		}
	}
	for k, n := i-1, 0; k >= s.from && n < 8; k, n = k-1, n+1 {
		t := s.at(k)
		if t.sort == signToken && (t.sign == ',' || t.sign == ';') {
			return false
		}
		if t.is.any(setOf(agreement)) || t.is.any(setOf(equalWord)) && n < 5 || s.is(k, comparator) && !t.inside && n < 5 {
			return true
		}
	}
	return false
}

// goesOn: "They concluded", "According to their results" after a cited study.
func (s *sentence) goesOn() bool {
	switch strings.ToLower(s.raw(s.from, s.from+1)) {
	case "they", "their":
		return true
	case "according":
		return true
	}
	return false
}

func (s *sentence) hasWord(w string) bool {
	for i := s.from; i < s.to; i++ {
		if s.word(i) == w {
			return true
		}
	}
	return false
}

// remember keeps, through a paragraph of discussion, that others' work is
// being told, until the paper speaks of itself again.
func (s *sentence) remember() {
	if s.place.Section != extract.Discussion {
		return
	}
	if s.whyNotOwn() == "cited work" {
		s.r.citedBefore = true
		return
	}
	for i := s.from; i < s.to; i++ {
		if s.is(i, ownWork) {
			s.r.citedBefore = false
			return
		}
	}
}
