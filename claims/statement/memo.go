package statement

import (
	"slices"
	"strings"

	"probity/claims"
)

// memo keeps what is found once for a study: looked for anew for each
// statement, it would make the time grow with statements times measures.
type memo struct {
	twins  map[twinKey][]*claims.Measure
	pairs  map[[2]*claims.Arm][]claims.Pair
	conds  map[string]*condition
	condBy map[string][]*condition // by one word that a part of it holds
	times  map[*claims.Arm]*armTimes
}

// twinKey is what sameMeasure compares, and an arm.
type twinKey struct {
	arm *claims.Arm
	measureKey
}

type measureKey struct {
	outcome, id, condition, unit, table string
	centre                              claims.Centre
	adjusted, change                    bool
}

func keyOf(m *claims.Measure) measureKey {
	return measureKey{m.Outcome, m.OutcomeID, m.Condition, m.Unit, m.Place.Table, m.Centre, m.Adjusted, m.Change}
}

// twinsOf lists the measures of an arm that are of the outcome and condition of
// another arm's measure.
func (r *reader) twinsOf(x *claims.Measure, b *claims.Arm) []*claims.Measure {
	if r.twins == nil {
		r.twins = map[twinKey][]*claims.Measure{}
		for _, m := range r.study.Measures {
			if m.Arm != nil && m.Mean.Known() {
				k := twinKey{m.Arm, keyOf(m)}
				r.twins[k] = append(r.twins[k], m)
			}
		}
	}
	return r.twins[twinKey{b, keyOf(x)}]
}

// pairsOf lists the measures of two arms that are of one outcome and condition.
func (r *reader) pairsOf(a, b *claims.Arm) []claims.Pair {
	key := [2]*claims.Arm{a, b}
	if done, ok := r.pairs[key]; ok {
		return done
	}
	var out []claims.Pair
	for _, x := range r.byArm[a] {
		for _, y := range r.twinsOf(x, b) {
			out = append(out, claims.Pair{A: x, B: y})
		}
	}
	if r.pairs == nil {
		r.pairs = map[[2]*claims.Arm][]claims.Pair{}
	}
	r.pairs[key] = out
	return out
}

// A condition is a measure's, cut into the words of its parts.
type condition struct {
	text     string
	parts    [][]string
	baseline bool
}

func (r *reader) condition(s string) *condition {
	if r.conds == nil {
		r.conds, r.condBy = map[string]*condition{}, map[string][]*condition{}
		for _, m := range r.study.Measures {
			r.condition(m.Condition)
		}
	}
	if c := r.conds[s]; c != nil {
		return c
	}
	c := &condition{text: s}
	r.conds[s] = c
	for _, part := range strings.Split(s, ";") {
		if words := contentWords(part); len(words) > 0 {
			c.parts = append(c.parts, words)
			rarest := words[0]
			for _, w := range words {
				if len(r.condBy[w]) < len(r.condBy[rarest]) {
					rarest = w
				}
			}
			r.condBy[rarest] = append(r.condBy[rarest], c)
		}
	}
	for _, w := range cutName(s) {
		x := r.lex.lex.words[w]
		c.baseline = c.baseline || x != nil && x.is.has(baseTime) || w == "t0" || w == "0"
	}
	return c
}

// condsNamed counts the parts of each condition that the sentence names; those
// of which it names none are left out.
func (s *sentence) condsNamed() map[string]int {
	if s.conds != nil {
		return s.conds
	}
	s.conds = map[string]int{}
	s.r.condition("")
	seen := map[*condition]bool{}
	for i := s.from; i < s.to; i++ {
		t := &s.toks[i]
		if t.sort != wordToken && t.sort != numberToken {
			continue
		}
		low := strings.ToLower(s.text[t.start:t.end])
		for _, w := range [2]string{low, strings.TrimSuffix(low, "s")} {
			for _, c := range s.r.condBy[w] {
				if seen[c] {
					continue
				}
				seen[c] = true
				for _, words := range c.parts {
					if s.holdsWords(words) {
						s.conds[c.text]++
					}
				}
			}
		}
	}
	return s.conds
}

// armTimes are the measures of an arm at its baselines, and those at other
// times of the same outcome, unit and table.
type armTimes struct {
	bases []*claims.Measure
	later map[timeKey][]*claims.Measure
	at    map[timeKey]map[string][]int // places in later by condition
}

type timeKey struct{ outcome, id, unit, table string }

func timeKeyOf(m *claims.Measure) timeKey {
	return timeKey{m.Outcome, m.OutcomeID, m.Unit, m.Place.Table}
}

// named lists the later measures whose conditions the sentence names in n
// parts; for 0 all of them, as then none is named better.
func (t *armTimes) named(key timeKey, conds map[string]int, n int) []*claims.Measure {
	if n == 0 {
		return t.later[key]
	}
	var at []int
	for c, k := range conds { // any order: places are sorted
		if k == n {
			at = append(at, t.at[key][c]...)
		}
	}
	slices.Sort(at)
	out := make([]*claims.Measure, len(at))
	for i, k := range at {
		out[i] = t.later[key][k]
	}
	return out
}

func (r *reader) timesOf(a *claims.Arm) *armTimes {
	if t := r.times[a]; t != nil {
		return t
	}
	t := &armTimes{later: map[timeKey][]*claims.Measure{}, at: map[timeKey]map[string][]int{}}
	for _, m := range r.byArm[a] {
		switch {
		case r.condition(m.Condition).baseline:
			t.bases = append(t.bases, m)
		case !m.Change:
			key := timeKeyOf(m)
			if t.at[key] == nil {
				t.at[key] = map[string][]int{}
			}
			t.at[key][m.Condition] = append(t.at[key][m.Condition], len(t.later[key]))
			t.later[key] = append(t.later[key], m)
		}
	}
	if r.times == nil {
		r.times = map[*claims.Arm]*armTimes{}
	}
	r.times[a] = t
	return t
}
