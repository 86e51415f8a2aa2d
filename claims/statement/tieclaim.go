package statement

import (
	"strings"

	"probity/claims"
)

// finishClaim resolves parties, outcome and measures of a percent or fold
// claim.
func (s *sentence) finishClaim(fs []found, i int) {
	f := &fs[i]
	from, to := s.claimScope(fs, i)
	s.hint = s.comparatorHint(f)
	defer func() { s.hint = -1 }()
	sd := s.sidesOf(from, to, f.at)
	if len(sd.subject) == 0 && len(sd.reference) == 0 {
		sd = s.sidesOf(s.from, s.to, f.at)
	}
	sd = s.shareOut(fs, i, sd)
	if w, ok := s.ownArm(fs, i); ok {
		sd.subject = w
	}
	sd.symmetric, sd.each = false, false
	s.claimText(f, sd)
	f.st.Adjusted = s.saysAdjusted()
	s.tie(f.st, from, to, f.at, sd)
	if f.st.Subject.Text == "" && f.st.Reference.Text == "" {
		s.plainParties(f)
	}
	byOwners(f.st)
	s.direct(f.st, f.sense)
	if s.speaksOfChange(f.sense) && !f.st.A.Known() {
		s.changesOnly(f.st)
	}
	if s.any(f.sense.at, verbs.or(setOf(nounUp, nounDown))) && len(sd.reference) == 0 && !f.st.A.Known() {
		unsure(f.st, "against what it rose or fell is not said")
	}
	if !f.st.A.Known() {
		lo, hi := group(fs, i)
		s.doubtPairs(f.st, lo != hi)
	}
	if f.st.P = s.pIn(clause{from, to}); !f.st.P.Known() {
		f.st.P = s.pIn(clause{s.from, s.to})
	}
}

// comparatorHint gives the word that leads to the reference where the form of
// the claim says so: "P % of", "k times that of", "as long as", "half the X of".
func (s *sentence) comparatorHint(f *found) int {
	if f.st.Form == claims.Share {
		return f.sense.at
	}
	if f.st.Kind != claims.Fold {
		return -1
	}
	switch {
	case s.asAs(f.end):
		for k := f.end + 1; k < f.end+7; k++ {
			if s.raw(k, k+1) == "as" {
				return k
			}
		}
	case s.ofThat(f.end):
		return f.end
	case s.nounOf(f.end):
		for k := f.end + 1; k < f.end+10; k++ {
			if s.is(k, comparator) {
				return k
			}
			if s.raw(k, k+1) == "of" && s.armAt(k+1) != nil {
				return k
			}
		}
	}
	return -1
}

func (s *sentence) claimText(f *found, sd sides) {
	if sd.at >= 0 {
		f.st.Rests = append(f.st.Rests, s.raw(sd.at, sd.at+int(s.at(sd.at).span)))
	}
}

func (s *sentence) saysAdjusted() bool {
	for i := s.from; i < s.to; i++ {
		if s.is(i, adjusted) && !s.at(i).inside {
			return true
		}
	}
	return false
}

// claimScope is the clause of a claim: between semicolons and turns.
func (s *sentence) claimScope(fs []found, i int) (from, to int) {
	from, to = s.from, s.to
	for k := fs[i].at - 1; k >= s.from; k-- {
		if t := s.at(k); t.sign == ';' && t.paren < 0 || t.is.has(clauseWord) && t.paren < 0 && !t.inside && k > s.from+1 && s.hasClaim(fs, s.from, k) {
			from = k
			break
		}
	}
	for k := fs[i].end; k < s.to; k++ {
		if t := s.at(k); t.sign == ';' && t.paren < 0 || t.is.has(clauseWord) && t.paren < 0 && !t.inside {
			to = k
			break
		}
	}
	return from, to
}

func (s *sentence) hasClaim(fs []found, from, to int) bool {
	for k := range fs {
		if fs[k].at >= from && fs[k].at < to {
			return true
		}
	}
	return false
}

// shareOut gives each claim of a list its own arm: "A and B exceeded C by 13 %
// and 42 %, respectively".
func (s *sentence) shareOut(fs []found, i int, sd sides) sides {
	lo, hi := group(fs, i)
	n := hi - lo + 1
	if n < 2 {
		return sd
	}
	switch {
	case len(sd.subject) == n:
		sd.subject = sd.subject[i-lo : i-lo+1]
	case len(sd.reference) == n && len(sd.subject) == 1:
		sd.reference = sd.reference[i-lo : i-lo+1]
	}
	return sd
}

// ownArm: "62 % for P, 42 % for L and 26 % for T": the name behind a claim,
// when several claims share a verb.
func (s *sentence) ownArm(fs []found, i int) ([]armHit, bool) {
	lo, hi := group(fs, i)
	if lo == hi {
		return nil, false
	}
	f := &fs[i]
	switch strings.ToLower(s.raw(f.end, f.end+1)) {
	case "for", "with", "in", "by", "of":
	default:
		return nil, false
	}
	for k := f.end + 1; k < f.end+4; k++ {
		if h := s.armAt(k); h != nil {
			return []armHit{*h}, true
		}
	}
	return nil, false
}

// plainParties names the two sides in the sentence's own words when no arm of
// a study is known: what stands behind the comparator, and what opens the
// clause.
func (s *sentence) plainParties(f *found) {
	cmp := -1
	for k := s.from; k < s.to; k++ {
		if t := s.at(k); (t.is.has(comparator) || t.is.has(verbOver) || f.st.Form == claims.Share && k == f.sense.at) && !t.inside && t.paren < 0 {
			if cmp < 0 || k > f.at && cmp < f.at {
				cmp = k
			}
		}
	}
	if cmp >= 0 {
		from := cmp + int(s.at(cmp).span)
		f.st.Reference.Text = s.words(from)
		f.st.Rests = append(f.st.Rests, s.raw(cmp, from))
		if cmp == s.from {
			return
		}
	}
	start := s.from
	if cmp == s.from {
		start = cmp
	}
	end := start
	for end < s.to && end < start+9 && end < f.at && s.sortOf(end) != signToken && !s.verbLike(end) {
		end++
	}
	if end < s.to && (s.verbLike(end)) && end > start {
		f.st.Subject.Text = s.raw(start, end)
	}
}

// words takes the noun phrase that begins at a token.
func (s *sentence) words(from int) string {
	end := from
	for end < s.to && end < from+8 {
		t := s.at(end)
		if t.sort == signToken && t.sign != '-' && t.sign != '/' && t.sign != '.' || t.is.any(setOf(clauseWord, comparator)) || s.verbLike(end) && end > from {
			break
		}
		if t.sort == signToken && t.sign == '.' && (end+1 >= s.to || s.at(end+1).gap) {
			break
		}
		switch s.raw(end, end+1) {
		case "in", "at", "with", "by", "after", "for", "when":
			if end > from {
				return s.raw(from, end)
			}
		}
		end++
	}
	return s.raw(from, end)
}

func (s *sentence) verbLike(i int) bool {
	t := s.at(i)
	if t.is.any(setOf(verbOver, verbLast, verbShare, findingCue)) || t.is.any(verbs) && !t.is.any(nouns) {
		return true
	}
	switch s.raw(i, i+1) {
	case "was", "were", "is", "are", "had", "has", "have", "did", "does", "took", "needs", "needed", "required", "requires", "gave", "gives", "produced", "caused", "cut", "cuts", "removed", "lasts", "bends":
		return true
	}
	return false
}
