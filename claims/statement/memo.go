package statement

import (
	"strings"

	"probity/claims"
)

// memo keeps what is found once for a study: looked for anew for each
// statement, it would make the time grow with statements times measures.
type memo struct {
	twins map[twinKey][]*claims.Measure
	conds map[string]condition
	times map[*claims.Arm]*armTimes
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

// A condition is a measure's, cut into the words of its parts.
type condition struct {
	parts    [][]string
	baseline bool
}

func (r *reader) condition(s string) condition {
	if c, ok := r.conds[s]; ok {
		return c
	}
	var c condition
	for _, part := range strings.Split(s, ";") {
		if words := contentWords(part); len(words) > 0 {
			c.parts = append(c.parts, words)
		}
	}
	for _, w := range cutName(s) {
		x := r.lex.lex.words[w]
		c.baseline = c.baseline || x != nil && x.is.has(baseTime) || w == "t0" || w == "0"
	}
	if r.conds == nil {
		r.conds = map[string]condition{}
	}
	r.conds[s] = c
	return c
}

// armTimes are the measures of an arm at its baselines, and those at other
// times of the same outcome, unit and table.
type armTimes struct {
	bases []*claims.Measure
	later map[timeKey][]*claims.Measure
}

type timeKey struct{ outcome, id, unit, table string }

func timeKeyOf(m *claims.Measure) timeKey {
	return timeKey{m.Outcome, m.OutcomeID, m.Unit, m.Place.Table}
}

func (r *reader) timesOf(a *claims.Arm) *armTimes {
	if t := r.times[a]; t != nil {
		return t
	}
	t := &armTimes{later: map[timeKey][]*claims.Measure{}}
	for _, m := range r.byArm[a] {
		switch {
		case r.condition(m.Condition).baseline:
			t.bases = append(t.bases, m)
		case !m.Change:
			t.later[timeKeyOf(m)] = append(t.later[timeKeyOf(m)], m)
		}
	}
	if r.times == nil {
		r.times = map[*claims.Arm]*armTimes{}
	}
	r.times[a] = t
	return t
}
