package statement

import (
	"strings"

	"probity/claims"
	"probity/claims/reading"
)

// settle holds the pairs against the figures that the sentence prints itself,
// and drops ties that are guesses where a printed p speaks.
func (s *sentence) settle(st *claims.Statement, from, to int) {
	if st.BeforeTo {
		return
	}
	if st.A.Known() && st.B.Known() {
		byOwners(st)
		s.byFigures(st)
	}
	if !st.P.Known() || len(st.Pairs) == 0 || len(st.Order) > 0 {
		return
	}
	for _, p := range st.Pairs {
		if p.Tie.Sure() {
			return
		}
	}
	st.Pairs, st.Why = nil, "which of the printed figures the sentence means is not certain"
}

// byFigures keeps the pairs whose means are the figures of the sentence; when
// the outcome's own pairs do not print them, any pair of the two arms may.
func (s *sentence) byFigures(st *claims.Statement) {
	var both []claims.Pair
	for _, p := range st.Pairs {
		if samePrint(p.A, st.A) && samePrint(p.B, st.B) {
			both = append(both, p)
		}
	}
	if len(both) == 0 && len(st.Subject.Arms) == 1 && len(st.Reference.Arms) == 1 {
		for _, x := range s.r.byArm[st.Subject.Arms[0]] {
			for _, y := range s.r.twinsOf(x, st.Reference.Arms[0]) {
				if samePrint(x, st.A) && samePrint(y, st.B) {
					both = append(both, claims.Pair{A: x, B: y})
				}
			}
		}
	}
	if len(both) == 0 {
		return
	}
	for i := range both {
		both[i].Tie = nil
		if len(both) > 1 {
			both[i].Tie.Add("the paper prints these figures more than once", reading.Wide)
		}
		if both[i].A.Mean.Value < 0 && both[i].B.Mean.Value < 0 {
			st.Direction = claims.DirectionNotGiven // "greater" may be said of the size
		}
	}
	st.Pairs = both
}

// samePrint: a figure of the sentence is the mean of a measure, as printed;
// the sign may be said in words ("decreased by").
func samePrint(m *claims.Measure, f claims.Figure) bool {
	a, b := m.Mean.Value, f.Number.Value
	if a < 0 {
		a = -a
	}
	if b < 0 {
		b = -b
	}
	tolerance := 1e-9 * (1 + a)
	if m.Mean.Decimals > f.Number.Decimals {
		tolerance += f.Number.Half()
	}
	d := a - b
	return d <= tolerance && -d <= tolerance
}

// measuresFor pairs the measures of two arms: same outcome, same condition.
func (s *sentence) measuresFor(st *claims.Statement, outs []spoken, where string, a, b *claims.Arm) []claims.Pair {
	type cand struct {
		p     claims.Pair
		named int // parts of its condition that the sentence names
	}
	var cands []cand
	conds, tables := map[string]bool{}, map[string]bool{}
	outcomes := map[string]bool{}
	best := -1
	for _, p := range s.r.pairsOf(a, b) {
		if !speaksOf(outs, p.A) || p.A.Adjusted != st.Adjusted && s.r.hasAdjusted {
			continue
		}
		named := s.condsNamed()[p.A.Condition]
		cands = append(cands, cand{claims.Pair{A: p.A, B: p.B}, named})
		best = max(best, named)
	}
	var out []claims.Pair
	several := max(1, len(outs)) // more outcomes or tables than this leave it open which is meant
	for _, c := range cands {
		if c.named < best {
			continue
		}
		if len(out) <= mostPairs {
			out = append(out, c.p)
		}
		if len(conds) < 2 {
			conds[c.p.A.Condition] = true
		}
		if len(tables) <= several {
			tables[c.p.A.Place.Table] = true
		}
		if len(outcomes) <= several {
			outcomes[c.p.A.OutcomeID+"|"+c.p.A.Outcome] = true
		}
	}
	var tie reading.Doubt
	if where != "" && where != "only" && (where != "sentence" || len(outs) != 1) || len(outs) == 0 && len(outcomes) > 1 {
		tie.Add("which outcome is meant is taken from the words around", reading.Wide)
	}
	if len(conds) > 1 && !s.saysAllConditions() {
		tie.Add("several times or conditions are printed, and which is meant is not said", reading.Wide)
	}
	if len(outcomes) > several || len(tables) > several {
		tie.Add("several tables or outcomes print such figures", reading.Wide)
	}
	if st.Pooled {
		tie.Add("one figure is claimed of several groups", reading.Wide)
	}
	for i := range out {
		out[i].Tie = tie
	}
	return out
}

// speaksOf reports whether a measure is of one of the outcomes spoken of; with
// none spoken of, any may be meant.
func speaksOf(outs []spoken, m *claims.Measure) bool {
	if len(outs) == 0 {
		return true
	}
	for _, sp := range outs {
		if sp.id != "" && sp.id == m.OutcomeID && !sp.exact {
			return true
		}
		for _, o := range sp.of {
			if o.name == m.Outcome && o.id == m.OutcomeID {
				return true
			}
		}
	}
	return false
}

// conditionNamed counts the parts of a condition that the sentence names.
func (s *sentence) conditionNamed(cond string) (named, parts int) {
	if cond == "" {
		return 0, 0
	}
	return s.condsNamed()[cond], len(s.r.condition(cond).parts)
}

// holdsWords: the words stand close together in the sentence, in order.
func (s *sentence) holdsWords(words []string) bool {
	for i := s.from; i < s.to; i++ {
		if !s.sameWord(i, words[0]) {
			continue
		}
		at, ok := i, true
		for _, w := range words[1:] {
			next := -1
			for k := at + 1; k < at+5; k++ {
				if s.sameWord(k, w) {
					next = k
					break
				}
			}
			if next < 0 {
				ok = false
				break
			}
			at = next
		}
		if ok {
			return true
		}
	}
	return false
}

// sameWord compares a token with a word without regard to case and plural.
func (s *sentence) sameWord(i int, w string) bool {
	t := s.at(i)
	if t.sort != wordToken && t.sort != numberToken {
		return false
	}
	n := t.end - t.start
	if n < len(w) || n > len(w)+1 {
		return false
	}
	text := s.text[t.start:t.end]
	return strings.EqualFold(text[:len(w)], w) && (n == len(w) || text[n-1]|0x20 == 's')
}

func (s *sentence) saysAllConditions() bool {
	for i := s.from; i+1 < s.to; i++ {
		switch strings.ToLower(s.raw(i, i+1)) {
		case "all", "both", "each", "every", "any", "either":
			switch strings.ToLower(s.raw(i+1, i+2)) {
			case "time", "times", "temperatures", "temperature", "levels", "level", "thirds", "third", "conditions", "periods", "sections", "points", "evaluation":
				return true
			}
		}
	}
	return false
}

// conditionText gives the words of time, place or temperature that the
// statement is limited by, as printed.
func (s *sentence) conditionText(from, to int) string {
	for i := from; i < to; i++ {
		if !s.is(i, timeBefore) && s.raw(i, i+1) != "in" {
			continue
		}
		if s.raw(i, i+1) == "in" || s.raw(i, i+1) == "at" {
			if j := i + 1; s.raw(j, j+1) == "the" && s.is(j+1, thirdOther) && s.is(j+2, fraction) {
				return s.raw(i, j+3)
			}
		}
		for j := i + 1; j < i+4 && j < to; j++ {
			if s.toks[j].sort == signToken && s.toks[j].sign == ',' {
				break // "for Halyard, 583.4 (77.2) s": the next figure, not a time
			}
			if k := s.quantAt(j); k >= 0 && !s.quants[k].spread.Known() && (s.quants[k].role == roleCondition || s.quants[k].time) {
				return s.raw(i, s.quants[k].end)
			}
		}
	}
	return ""
}
