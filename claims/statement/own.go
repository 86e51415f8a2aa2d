package statement

import (
	"probity/claims"
	"probity/extract"
)

// whose decides whether a statement is about this paper's own results.
func (s *sentence) whose(st *claims.Statement) {
	st.WhyNotOwn = s.whyNotOwn()
	st.Own = st.WhyNotOwn == ""
	for i := s.from; i < s.to; i++ {
		if s.is(i, hedge) && !s.toks[i].inside {
			st.Hedged = true
			break
		}
	}
}

func (s *sentence) whyNotOwn() string {
	if s.r.typed {
		return ""
	}
	var is kinds
	cites := false
	for i := s.from; i < s.to; i++ {
		is = is.or(s.toks[i].is)
		if s.sign(i) == '[' && s.sortOf(i+1) == numberToken && s.isCitation(i+1) {
			cites = true
		}
	}
	switch {
	case is.has(power), is.has(assumption) && is.has(statisticWord) && s.hasWord("power"):
		return "power calculation"
	case is.has(assumption) && is.has(hedge):
		return "assumption"
	case is.has(citedName):
		return "cited work"
	case is.has(citedWork) && !is.has(ownWork):
		return "cited work"
	case cites && !is.has(ownWork) && s.place.Section != extract.Results && s.place.Section != extract.Abstract:
		return "cited work"
	}
	return ""
}

func (s *sentence) hasWord(w string) bool {
	for i := s.from; i < s.to; i++ {
		if s.word(i) == w {
			return true
		}
	}
	return false
}
