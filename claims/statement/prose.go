package statement

import (
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/reading"
	"probity/extract"
)

// proseMeasures takes the means that a sentence prints for arms: "The mean
// time was 960.3 (154.9) s for P and 441.4 (100.9) s for Q", "P (12.1 ± 0.8
// mm) and Q (8.7 ± 0.7 mm)", "was 12.1, 8.7 and 6.9 mm in P, Q and R,
// respectively". A figure without an arm is no measure.
func (s *sentence) proseMeasures(fs []found) {
	s.printed = nil
	if s.r.typed || len(s.r.arms.all) == 0 || !s.reports() {
		return
	}
	var vals []int
	for k := range s.quants {
		q := &s.quants[k]
		if (q.role == roleValue || q.role == rolePercent) && claimAt(fs, q.at) < 0 && q.highAt < 0 && !s.ofDifference(q) {
			vals = append(vals, k)
		}
	}
	if len(vals) == 0 {
		return
	}
	hits := s.armHits(s.from, s.to)
	owner := s.owners(vals, hits)
	for i, k := range vals {
		if owner[i] == nil {
			continue
		}
		s.addMeasure(k, owner[i])
	}
}

// reports: own results in words, not methods and not others' work.
func (s *sentence) reports() bool {
	switch s.place.Section {
	case extract.Methods, extract.Introduction, extract.Back:
		return false
	}
	return s.whyNotOwn() == "" && !s.methodical(clause{s.from, s.to})
}

// ofDifference: "a difference of 1.2 ± 0.3", "increased by 3.2 ± 1.1".
func (s *sentence) ofDifference(q *quantity) bool {
	j := s.skipLeft(q.at - 1)
	switch strings.ToLower(s.raw(j, j+1)) {
	case "by":
		return true
	case "of":
		for k := j - 1; k >= s.from && k > j-4; k-- {
			if strings.EqualFold(s.raw(k, k+1), "by") {
				return true // "by a mean of 6.8 units"
			}
		}
		v, ok := s.ofNoun(j - 1)
		return ok && v.noun
	}
	for k := j; k >= s.from && s.at(q.at).paren < 0; k-- {
		if s.sign(k) == ';' || s.is(k, clauseWord) {
			return false
		}
		if s.is(k, nounDiff) {
			return true // "the difference between P and Q was 1.2"
		}
	}
	return false
}

// owners finds the arm of each figure.
func (s *sentence) owners(vals []int, hits []armHit) []*claims.Arm {
	out := make([]*claims.Arm, len(vals))
	if s.shareList(vals, hits, out) {
		return out
	}
	for i, k := range vals {
		q := &s.quants[k]
		lo, hi := s.from, s.to
		if i > 0 {
			lo = s.quants[vals[i-1]].end
		}
		if i+1 < len(vals) {
			hi = s.quants[vals[i+1]].at
		}
		var before, after *armHit
		for h := range hits {
			if len(hits[h].arms) != 1 || hits[h].all || hits[h].others {
				continue
			}
			switch {
			case hits[h].end <= q.at && hits[h].at >= lo:
				before = &hits[h]
			case hits[h].at >= q.end && hits[h].end <= hi && after == nil:
				after = &hits[h]
			}
		}
		switch {
		case before != nil && s.at(q.at).paren >= 0 && before.end == q.at-1:
			out[i] = before.arms[0] // "for P (1.62 N), intermediate for Q": its own brackets
		case after != nil && s.belongs(q.end, after.at):
			out[i] = after.arms[0]
		case before != nil && s.opens(before.end, q.at):
			out[i] = before.arms[0]
		}
	}
	return out
}

// belongs: "960 s for P", "12 mm in the P group".
func (s *sentence) belongs(from, to int) bool {
	if to-from > 4 {
		return false
	}
	for k := from; k < to; k++ {
		switch strings.ToLower(s.raw(k, k+1)) {
		case "for", "in", "with", "of", "by", "among":
			return true
		}
	}
	return false
}

// opens: "P (12.1 ± 0.8)", "P: 12.1", "P was 12.1", "P = 12.1".
func (s *sentence) opens(from, to int) bool {
	if to-from > 5 {
		return false
	}
	for k := from; k < to; k++ {
		switch strings.ToLower(s.raw(k, k+1)) {
		case "(", "[", ":", "=", "was", "were", "showed", "had", "with", "mean", "group", "groups", "file", "files", "instruments", "a", "of", "samples", "specimens", "system":
		default:
			return false
		}
	}
	return true
}

// shareList: as many figures as names, each in one list, "respectively".
func (s *sentence) shareList(vals []int, hits []armHit, out []*claims.Arm) bool {
	says := false
	for i := s.from; i < s.to; i++ {
		says = says || s.is(i, respectively)
	}
	if !says || len(vals) < 2 {
		return false
	}
	var names []armHit
	for _, h := range hits {
		if len(h.arms) == 1 && !h.group {
			names = append(names, h)
		}
	}
	if len(names) != len(vals) || !s.joinedRun(names) {
		return false
	}
	for i := 1; i < len(vals); i++ {
		if !s.listed(s.quants[vals[i-1]].end, s.quants[vals[i]].at) {
			return false
		}
	}
	for i := range vals {
		out[i] = names[i].arms[0]
	}
	return true
}

// addMeasure makes the measure of a figure, with the outcome named last before
// it in the sentence.
func (s *sentence) addMeasure(k int, arm *claims.Arm) {
	q := &s.quants[k]
	outs, where := s.outcomesFor(s.from, s.to)
	if len(outs) == 0 {
		return
	}
	best := outs[0]
	if where != "before" && where != "only" {
		for _, o := range outs {
			if o.end <= s.at(q.at).start {
				best = o
			}
		}
	}
	m := &claims.Measure{ID: "p" + strconv.Itoa(len(s.r.measures)+1), Arm: arm, ArmText: armLabel(arm), Outcome: best.text, OutcomeID: best.id,
		Condition: s.conditionText(s.from, s.to), Unit: q.unit, Spread: q.spread, Text: s.raw(q.at, q.end), Adjusted: s.saysAdjusted()}
	m.Mean.Number, m.Mean.Origin = s.number(q.at), claims.Printed
	m.Place = m.Mean.Place
	m.N.Number = q.n
	if m.Spread.Known() && m.Spread.Kind == claims.NotStated {
		m.Spread.Kind, m.Spread.Why = s.spreadSaid()
	}
	if cond := s.studyCondition(arm, best); cond != "" {
		m.Condition = cond
	}
	if u := s.r.cat.FindUnit(q.unit); u != nil {
		m.UnitID = u.ID
	}
	if s.medianNear(q, q) {
		m.Centre = claims.Median
	}
	if where == "before" || len(outs) > 1 {
		m.Doubt.Add("the outcome is taken from the words around", reading.Slight)
	}
	if s.printed == nil {
		s.printed = map[int]*claims.Measure{}
	}
	s.printed[q.at] = m
	s.r.measures = append(s.r.measures, m)
}

// spreadSaid: "Mean (SD) bending load amounted to 627.7 ± 84.4".
func (s *sentence) spreadSaid() (claims.SpreadKind, string) {
	for i := s.from; i < s.to; i++ {
		switch {
		case s.is(i, spreadSD):
			return claims.SD, s.raw(i, i+int(s.at(i).span))
		case s.is(i, spreadSE):
			return claims.SE, s.raw(i, i+int(s.at(i).span))
		}
	}
	return claims.NotStated, ""
}

// studyCondition gives the condition, in the words of the study's tables, that
// the sentence names for an arm and outcome.
func (s *sentence) studyCondition(arm *claims.Arm, o spoken) string {
	best, cond := 0, ""
	for _, m := range s.r.byArm[arm] {
		if !speaksOf([]spoken{o}, m) {
			continue
		}
		if named, parts := s.conditionNamed(m.Condition); named > best && named == parts {
			best, cond = named, m.Condition
		}
	}
	return cond
}
