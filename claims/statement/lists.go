package statement

// group gives the claims that share one verb with claim i.
func group(fs []found, i int) (lo, hi int) {
	lo, hi = i, i
	for lo > 0 && (fs[lo].shared || fs[lo].sense.at == fs[lo-1].sense.at) {
		lo--
	}
	for hi+1 < len(fs) && (fs[hi+1].shared || fs[hi+1].sense.at == fs[hi].sense.at) {
		hi++
	}
	return lo, hi
}

// byRespective ties lists: "24 %, 35 % and 26 % … (1.88, 3.67 and 4.80 …) …
// (3.34, 5.61 and 6.44 …)" has two lists as long as the list of claims; "5.1,
// 8.8 and 12.3, respectively" has one more, the reference.
func (s *sentence) byRespective(fs []found, i int, taken map[int]bool) bool {
	lo, hi := group(fs, i)
	if lo == hi {
		lo, hi = 0, len(fs)-1
	}
	n := hi - lo + 1
	if n < 2 {
		return false
	}
	var same []list
	for _, l := range s.lists(taken) {
		if len(l.of) == n+1 && s.respectivelyNear(s.quants[l.of[n]].end) && n == len(fs) {
			a, b := l.of[i-lo], l.of[n]
			fs[i].st.A, fs[i].st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
			return true
		}
		if len(l.of) == n {
			same = append(same, l)
		}
	}
	if len(same) < 2 || !fs[hi].shared && fs[hi].sense.at != fs[lo].sense.at {
		return false
	}
	a, b := same[0].of[i-lo], same[1].of[i-lo]
	if s.is(s.skipLeft(s.quants[same[0].of[0]].at-1), fromWord) {
		a, b = b, a
	}
	fs[i].st.A, fs[i].st.B = s.figure(&s.quants[a]), s.figure(&s.quants[b])
	return true
}

// byChain ties "from 7.9 to 2.3 and to 0.5 … by 70.9 % and by 93.7 %" in
// order, all on the first value.
func (s *sentence) byChain(fs []found, i int, cs []couple) bool {
	lo, hi := group(fs, i)
	n := hi - lo + 1
	if n < 2 {
		return false
	}
	var chain []*couple
	for k := range cs {
		c := &cs[k]
		if c.how == byFromTo && c.refFirst && (len(chain) == 0 || chain[0].first == c.first) {
			chain = append(chain, c)
		}
	}
	if len(chain) != n {
		return false
	}
	for a := range chain {
		for b := a + 1; b < n; b++ {
			if chain[b].second < chain[a].second {
				chain[a], chain[b] = chain[b], chain[a]
			}
		}
	}
	s.give(&fs[i], chain[i-lo])
	chain[i-lo].used = true
	return true
}

// list is a run of figures joined by commas, "and", "or".
type list struct{ of []int }

func (s *sentence) lists(taken map[int]bool) []list {
	var out []list
	var cur list
	last := -1
	for i := range s.quants {
		if !s.figureRole(i, taken) {
			continue
		}
		if last >= 0 && s.listed(s.quants[last].end, s.quants[i].at) && !s.versusBetween(last, i) {
			cur.of = append(cur.of, i)
		} else {
			if len(cur.of) > 1 {
				out = append(out, cur)
			}
			cur = list{of: []int{i}}
		}
		last = i
	}
	if len(cur.of) > 1 {
		out = append(out, cur)
	}
	return out
}

func (s *sentence) againstBetween(from, to int) bool {
	for k := from; k < to; k++ {
		if s.is(k, versus) {
			return true
		}
	}
	return false
}

func (s *sentence) versusBetween(i, j int) bool {
	for k := s.quants[i].end; k < s.quants[j].at; k++ {
		if s.any(k, setOf(versus, toWord)) {
			return true
		}
	}
	return false
}

// morePairs: one claim before a list of pairs is a claim of each: "about 10 %
// lower in P (2.28 vs 2.51), Q (2.40 vs 2.73) and R (6.85 vs 7.37)".
func (s *sentence) morePairs(fs []found, cs []couple) []found {
	out := fs
	for i := range fs {
		f := &fs[i]
		if !f.st.A.Known() || f.st.A.Number.Place.Start < s.at(f.end-1).end {
			continue
		}
		next := s.to
		if i+1 < len(fs) {
			next = fs[i+1].at
		}
		for k := range cs {
			c := &cs[k]
			a, b := &s.quants[c.first], &s.quants[c.second]
			if c.used || c.how != byVersus && (c.how != byList || !s.respectivelyNear(b.end+3) && !s.respectivelyNear(b.end)) || a.at < f.end || b.end > next || !s.pairListed(f, a) {
				continue
			}
			st := *f.st
			g := found{at: f.at, end: f.end, sense: f.sense, st: &st, shared: f.shared}
			s.give(&g, c)
			c.used = true
			out = append(out, g)
		}
	}
	return out
}

// pairListed reports whether the bracketed pair goes on with the list of
// pairs that the claim's own pair began.
func (s *sentence) pairListed(f *found, a *quantity) bool {
	first := f.st.A.Number.Place.Start
	commas, brackets := 0, 0
	for i := f.end; i < a.at; i++ {
		t := s.at(i)
		if t.start <= first && a.at > f.end && s.at(a.at).start > first || t.paren >= 0 && t.sign != '(' {
			continue
		}
		switch {
		case t.sign == ';', t.is.any(setOf(clauseWord, equalWord)), t.is.any(verbs) && t.paren < 0:
			return false
		case t.sign == ',' || s.raw(i, i+1) == "and":
			commas++
		case t.sign == '(':
			brackets++
		}
	}
	return commas > 0 && brackets > 0 || s.at(a.at).start < first && brackets > 0
}

// twoLists: "10 % higher in P (48 % and 17 g) than in Q (43.5 % and 15.5 g)":
// one claim of two outcomes, printed as a list on each side.
func (s *sentence) twoLists(out []found, i, next int) []found {
	f := &out[i]
	if lo, hi := group(out, i); lo != hi {
		return out
	}
	var left, right []int
	cmp := false
	for k := range s.quants {
		q := &s.quants[k]
		if q.at < f.end || q.at >= next || q.role != roleValue && q.role != rolePercent || s.at(q.at).paren < 0 {
			continue
		}
		if len(left) == 0 || s.at(q.at).paren == s.at(s.quants[left[0]].at).paren {
			left = append(left, k)
			continue
		}
		for j := s.quants[left[len(left)-1]].end; j < q.at && len(right) == 0; j++ {
			cmp = cmp || s.is(j, comparator)
		}
		if len(right) > 0 && s.versusBetween(right[len(right)-1], k) {
			return out
		}
		if len(right) == 0 || s.at(q.at).paren == s.at(s.quants[right[0]].at).paren {
			right = append(right, k)
		}
	}
	if !cmp || len(left) < 2 || len(left) != len(right) {
		return out
	}
	for k := range left {
		if !s.alike(&s.quants[left[k]], &s.quants[right[k]]) || k > 0 && (!s.listed(s.quants[left[k-1]].end, s.quants[left[k]].at) || s.versusBetween(left[k-1], left[k])) {
			return out
		}
	}
	f.st.A, f.st.B = s.figure(&s.quants[left[0]]), s.figure(&s.quants[right[0]])
	for k := 1; k < len(left); k++ {
		st := *f.st
		st.A, st.B = s.figure(&s.quants[left[k]]), s.figure(&s.quants[right[k]])
		out = append(out, found{at: f.at, end: f.end, sense: f.sense, st: &st})
	}
	return out
}
