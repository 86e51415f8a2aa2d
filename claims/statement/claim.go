package statement

import (
	"strings"

	"probity/claims"
	"probity/extract"
)

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
