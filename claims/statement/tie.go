package statement

import (
	"probity/claims"
	"probity/claims/reading"
)

// tied is what a statement's words were resolved to.
type tied struct {
	outcomes  []spoken
	fromWhere string // "": the statement's own clause; else where the outcome was found
	sides     sides
}

// tie resolves outcome, condition and parties of a statement whose words stand
// between two tokens, and lists the measures it compares.
func (s *sentence) tie(st *claims.Statement, from, to, at int, sd sides) {
	outs, where := s.outcomesFor(from, to)
	s.nameOutcome(st, outs)
	st.Condition = s.conditionText(from, to)
	s.nameSides(st, sd)
	if len(s.r.byArm) == 0 {
		return
	}
	if len(s.r.byArm) == 2 && len(st.Subject.Arms) == 1 && s.r.byArm[st.Subject.Arms[0]] != nil && len(st.Reference.Arms) == 0 && !st.BeforeTo && len(sd.pairs) == 0 {
		for a := range s.r.byArm { // any order: of two arms, the other is meant
			if a != st.Subject.Arms[0] {
				st.Reference.Arms = []*claims.Arm{a}
			}
		}
		st.Reference.All = false
	}
	s.pairUp(st, outs, where, sd)
}

func (s *sentence) nameOutcome(st *claims.Statement, outs []spoken) {
	if len(outs) == 0 {
		return
	}
	st.Outcome, st.OutcomeID = outs[0].text, outs[0].id
	if len(outs) > 1 {
		for _, o := range outs {
			if o.id != "" {
				st.Outcomes = append(st.Outcomes, o.id)
			}
		}
	}
}

// outcomesFor looks for the outcome in the statement's clause, in its
// sentence, in the sentences before it in the paragraph, in the heading, and
// takes the study's only outcome last.
func (s *sentence) outcomesFor(from, to int) ([]spoken, string) {
	if out := s.measured(s.outcomesIn(from, to)); len(out) > 0 {
		return out, ""
	}
	if out := s.lasting(from, to); len(out) > 0 {
		return out, ""
	}
	if out := s.measured(s.outcomesIn(s.from, s.to)); len(out) > 0 {
		return out, "sentence"
	}
	if o := s.r.outcomes.single; o != nil {
		return []spoken{{text: o.name, id: o.id, of: []*studyOutcome{o}}}, "only"
	}
	if len(s.r.context) > 0 {
		return s.r.context, "before"
	}
	return nil, "none"
}

// lasting: "lasted", "outlasted" speak of the time or the cycles to fracture.
func (s *sentence) lasting(from, to int) []spoken {
	for i := from; i < to; i++ {
		if w := s.word(i); w != "lasted" && w != "last" && w != "lasts" && w != "outlasted" && w != "outlast" && w != "survived" {
			continue
		}
		for _, quantity := range [2]string{"time", "count"} {
			var out []spoken
			for _, o := range s.r.outcomes.list {
				if c := s.r.cat.Outcome(o.id); c != nil && c.Quantity == quantity && c.Better == "higher" {
					out = append(out, spoken{text: o.name, id: o.id, of: []*studyOutcome{o}})
				}
			}
			if len(out) > 0 {
				return out
			}
		}
	}
	return nil
}

// measured keeps the outcomes that the study measured, if there are any.
func (s *sentence) measured(in []spoken) []spoken {
	var out []spoken
	for _, o := range in {
		if len(o.of) > 0 {
			out = append(out, o)
		}
	}
	if len(out) == 0 {
		return in
	}
	return out
}

func (s *sentence) nameSides(st *claims.Statement, sd sides) {
	st.Subject, st.Reference = s.party(sd.subject), s.party(sd.reference)
	if len(st.Reference.Arms) == 0 && st.Reference.All {
		st.Reference.Arms = s.others(st.Subject.Arms)
	}
	if st.Subject.All && len(st.Subject.Arms) == 0 {
		st.Subject.Arms = append([]*claims.Arm(nil), s.r.arms.all...)
	}
	st.Pooled = st.Subject.Class != "" && len(st.Subject.Arms) > 1 || st.Reference.Class != "" && len(st.Reference.Arms) > 1
}

func (s *sentence) others(than []*claims.Arm) []*claims.Arm {
	var out []*claims.Arm
	in := make(map[*claims.Arm]bool, len(than))
	for _, b := range than {
		in[b] = true
	}
	for _, a := range s.r.arms.all {
		if !in[a] && len(out) < mostOthers {
			out = append(out, a)
		}
	}
	return out
}

// mostPairs bounds the measures that one statement compares, mostArmPairs the
// arms: more are no comparison that a sentence makes.
const (
	mostPairs    = 200
	mostArmPairs = 120
	mostOthers   = 300
)

// pairUp lists the pairs of measures the statement compares.
func (s *sentence) pairUp(st *claims.Statement, outs []spoken, where string, sd sides) {
	var pairs [][2]*claims.Arm
	switch {
	case len(sd.pairs) > 0:
		for _, p := range sd.pairs {
			for _, a := range p[0].arms {
				for _, b := range p[1].arms {
					if a != b {
						pairs = append(pairs, [2]*claims.Arm{a, b})
					}
				}
			}
		}
	case sd.each && len(st.Reference.Arms) > 0:
		all := append(append([]*claims.Arm(nil), st.Subject.Arms...), st.Reference.Arms...)
		pairs = allPairs(uniqueArms(all))
	case sd.each:
		pairs = allPairs(st.Subject.Arms)
	default:
		for _, a := range st.Subject.Arms {
			for _, b := range st.Reference.Arms {
				if a != b {
					pairs = append(pairs, [2]*claims.Arm{a, b})
				}
			}
		}
	}
	if len(pairs) == 0 || len(pairs) > mostArmPairs {
		st.Why = whyUntied(st, s.r.arms.all)
		return
	}
	for _, p := range pairs {
		if st.Pairs = append(st.Pairs, s.measuresFor(st, outs, where, p[0], p[1])...); len(st.Pairs) > mostPairs {
			break
		}
	}
	if len(st.Pairs) == 0 {
		st.Why = "no printed figures of " + armLabel(pairs[0][0]) + " and " + armLabel(pairs[0][1]) + " could be found for this outcome"
		return
	}
	if len(st.Pairs) > mostPairs {
		st.Pairs = st.Pairs[:mostPairs]
	}
	if sd.sure {
		return
	}
	unsure(st, "which groups the sentence sets against each other is not certain")
}

// unsure says of every pair why another may be meant.
func unsure(st *claims.Statement, why string) {
	for i := range st.Pairs {
		st.Pairs[i].Tie.Add(why, reading.Wide)
	}
}

func armLabel(a *claims.Arm) string {
	if a.Short != "" {
		return a.Short
	}
	return a.Name
}

func whyUntied(st *claims.Statement, all []*claims.Arm) string {
	switch {
	case len(all) == 0:
		return "no arms of the study are known"
	case len(st.Subject.Arms) == 0 && len(st.Reference.Arms) == 0:
		return "the sentence does not name the arms it compares"
	case len(st.Reference.Arms) == 0:
		return "the sentence does not say what it compares with"
	}
	return "the arm of one side could not be found"
}

func allPairs(arms []*claims.Arm) [][2]*claims.Arm {
	var out [][2]*claims.Arm
	for i := range arms {
		if len(out) > mostArmPairs {
			break // too many to be meant
		}
		for k := i + 1; k < len(arms); k++ {
			out = append(out, [2]*claims.Arm{arms[i], arms[k]})
		}
	}
	return out
}
