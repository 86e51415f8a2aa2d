package statement

import (
	"strings"

	"probity/claims"
	"probity/extract"
)

// ratioPair: "a 58 % reduction in the risk (HR 0.42 …)": the base is 1.
func (s *sentence) ratioPair(fs []found, i int) bool {
	f := &fs[i]
	if f.st.Kind != claims.Percent || f.st.Form != claims.Change || !s.speaksOfRisk(f) {
		return false
	}
	next := s.to
	if i+1 < len(fs) {
		next = fs[i+1].at
	}
	for k := range s.quants {
		q := &s.quants[k]
		if q.role != roleRatio || q.at < f.end {
			continue
		}
		if q.at > next && i+1 < len(fs) && fs[i+1].st.Kind == claims.Percent && s.speaksOfRisk(&fs[i+1]) {
			return false
		}
		f.st.A = s.figure(q)
		f.st.B = claims.Figure{Number: extract.Number{Text: "1", Value: 1, Decimals: 9, Place: f.st.A.Number.Place}}
		f.st.Rests = append(f.st.Rests, "a ratio against 1")
		return true
	}
	return false
}

func (s *sentence) speaksOfRisk(f *found) bool {
	for k := f.at - 8; k < f.end+8; k++ {
		switch strings.ToLower(s.raw(k, k+1)) {
		case "risk", "hazard", "odds", "rate", "rates", "likelihood":
			return true
		}
	}
	return false
}

// sharePair: in "20.6 sessions (86 % of the expected 24)" the whole stands
// behind "of" and the part before the percentage.
func (s *sentence) sharePair(f *found, taken map[int]bool) bool {
	if f.st.Form != claims.Share {
		return false
	}
	part, all := -1, -1
	for k := range s.quants {
		if !s.figureRole(k, taken) && s.quants[k].role != roleCount {
			continue
		}
		switch q := &s.quants[k]; {
		case q.end <= f.at:
			part = k
		case q.at >= f.end && q.at < f.end+8 && all < 0 && s.sign(q.at-1) != '(':
			all = k
		}
	}
	if part < 0 || all < 0 || s.is(f.end+1, control) {
		return false
	}
	f.st.A, f.st.B = s.figure(&s.quants[part]), s.figure(&s.quants[all])
	return true
}

// toPair: "improved by 49.4 % to 0.69": the figure behind "to" is the last
// value, the first stands earlier: after "from", or in a list of baselines as
// long as the list of such claims.
func (s *sentence) toPair(fs []found, i int, taken map[int]bool) bool {
	f := &fs[i]
	if !s.is(f.end, toWord) || s.at(f.end).span > 1 {
		return false
	}
	last := s.quantAt(f.end + 1)
	if last < 0 || !s.figureRole(last, taken) {
		return false
	}
	var rank, n int
	for k := range fs {
		if s.is(fs[k].end, toWord) {
			if k < i {
				rank++
			}
			n++
		}
	}
	first := -1
	var before []int
	for k := 0; k < len(s.quants) && s.quants[k].at < fs[0].at; k++ {
		if s.figureRole(k, taken) {
			before = append(before, k)
		}
	}
	if len(before) == n {
		first = before[rank]
	}
	if first < 0 || !s.alike(&s.quants[first], &s.quants[last]) {
		return false
	}
	f.st.A, f.st.B, f.st.BeforeTo = s.figure(&s.quants[last]), s.figure(&s.quants[first]), true
	return true
}

func (s *sentence) quantAt(tok int) int {
	for k := range s.quants {
		if s.quants[k].at == tok {
			return k
		}
	}
	return -1
}

// apart ties figures in brackets behind each side: "36 % less time (74 min)
// … than the third (116 min)"; a later claim of the same subject keeps it.
func (s *sentence) apart(fs []found, i int, taken map[int]bool) bool {
	f := &fs[i]
	next := s.to
	if i+1 < len(fs) {
		next = fs[i+1].at
	}
	cmp := -1
	for k := f.end; k < s.to && cmp < 0; k++ {
		if s.at(k).sign == ';' {
			return false
		}
		if s.is(k, comparator) && !s.at(k).inside && s.at(k).paren < 0 {
			cmp = k
		}
	}
	if cmp < 0 {
		return false
	}
	a, b := -1, -1
	for k := range s.quants {
		q := &s.quants[k]
		if !s.figureRole(k, taken) {
			continue
		}
		switch {
		case q.at >= f.end && q.at < cmp && q.at < next && a < 0:
			a = k
		case q.at > cmp && b < 0:
			b = k
		}
	}
	if b < 0 || s.at(s.quants[b].at).paren < 0 && a < 0 || s.crossed(cmp, s.quants[b].at) {
		return false
	}
	if a < 0 && i > 0 && fs[i-1].st.A.Known() {
		a = s.quantStarting(fs[i-1].st.A.Number.Place.Start)
	}
	if a < 0 || a == b || !s.alike(&s.quants[a], &s.quants[b]) || s.inPair(b, taken) || s.inPair(a, taken) {
		return false
	}
	f.st.A, f.st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
	f.st.Median = s.medianNear(&s.quants[a], &s.quants[b])
	return true
}

func (s *sentence) quantStarting(start int) int {
	for k := range s.quants {
		if s.at(s.quants[k].at).start == start {
			return k
		}
	}
	return -1
}

// crossed: a semicolon, another comparator or a turn stands between.
func (s *sentence) crossed(i, j int) bool {
	for k := i + int(s.at(i).span); k < j; k++ {
		if s.sign(k) == ';' || s.is(k, comparator) && !s.at(k).inside || s.is(k, clauseWord) {
			return true
		}
	}
	return false
}

// inPair: the figure shares its bracket with another figure of its kind.
func (s *sentence) inPair(i int, taken map[int]bool) bool {
	q := &s.quants[i]
	p := s.at(q.at).paren
	if p < 0 {
		return false
	}
	for k := range s.quants {
		if k != i && s.figureRole(k, taken) && s.at(s.quants[k].at).paren == p {
			return true
		}
	}
	return false
}

// differencePair: "8.4 % in P versus 6.7 % in Q, a difference of 1.7 %": the
// two figures are percentages that claim changes themselves.
func (s *sentence) differencePair(fs []found, i int) {
	f := &fs[i]
	if !f.sense.diff && f.st.Form != claims.Points {
		return
	}
	for k := 0; k+1 < len(s.quants); k++ {
		a, b := &s.quants[k], &s.quants[k+1]
		if b.end > f.at || !a.percent || !b.percent {
			continue
		}
		if c, ok := s.coupleOf(a, b); ok && c.how != byFromTo {
			c.first, c.second = k, k+1
			s.give(f, &c)
			return
		}
	}
}
