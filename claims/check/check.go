package check

import (
	"fmt"
	"sort"

	"probity/claims"
	"probity/claims/catalog"
)

// A Check looks for one kind of matter. It explains itself: the manual, the
// command that lists checks and the method notes print from it.
type Check struct {
	Name   string // "percent-base"
	Asks   string // "Does the percentage hold on the base that its words imply?"
	Source string // of the method
	Run    func(*Case) []claims.Finding
}

// A Case is a study with its judgements, as every check sees it.
type Case struct {
	Study      *claims.Study
	Judgements []claims.Judgement
	Catalog    *catalog.Catalog
	judge      *judge
}

// All lists every check, in the order a reader meets them.
var All = []Check{
	percentBase, overHundred, directionCheck, notReproduced, significanceLevel, significanceCheck, printedPCheck, repeatedP, statisticCheck, degreesOfFreedom,
	abstractTable, lettersFigures, pImpossible, nArithmetic,
	cyclesTime, toughnessBound, unitSlip, granularity, spreadRange, swappedSpread, repeatedFigures, changeSum,
	classPair, bestOfMany, adjustedMeans, mixedConditions, runOuts, standardTest, sizeAlone,
	equivalence, clinicalWording, wideInterval, spreadUnstated,
}

// Run runs every check and numbers the findings: firmest grade first, then in
// the order of the checks.
func Run(study *claims.Study, judgements []claims.Judgement, cat *catalog.Catalog) []claims.Finding {
	return run(&Case{Study: study, Judgements: judgements, Catalog: cat, judge: newJudge(study, cat)})
}

func run(c *Case) []claims.Finding {
	var out []claims.Finding
	for _, k := range All {
		for _, f := range k.Run(c) {
			f.Check = k.Name
			if f.Grade == claims.AtOdds && doubted(f) {
				f.Grade = claims.Query
			}
			if f.Source == "" {
				f.Source = k.Source
			}
			out = append(out, f)
		}
	}
	out = oneEach(out)
	rank := map[claims.Grade]int{claims.AtOdds: 0, claims.Query: 1, claims.Caution: 2}
	sort.SliceStable(out, func(i, j int) bool { return rank[out[i].Grade] < rank[out[j].Grade] })
	for i := range out {
		out[i].ID = fmt.Sprintf("f%d", i+1)
	}
	return out
}

// doubted reports a finding that rests on something whose reading is in doubt:
// it may be asked about, never called at odds.
func doubted(f claims.Finding) bool {
	if f.Statement != nil && !f.Statement.Doubt.Sure() {
		return true
	}
	for _, m := range f.Measures {
		if m != nil && !m.Doubt.Sure() {
			return true
		}
	}
	return false
}

// oneEach keeps one finding of a check for a matter that is printed in
// several places with the same words.
func oneEach(findings []claims.Finding) []claims.Finding {
	seen := map[string]bool{}
	var out []claims.Finding
	for _, f := range findings {
		key := f.Check + "\x00" + f.Message
		if seen[key] {
			continue
		}
		seen[key] = true
		out = append(out, f)
	}
	return out
}

// own ranges over the judgements on the paper's own results.
func (c *Case) own(each func(claims.Judgement)) {
	for _, j := range c.Judgements {
		if j.Statement.Own {
			each(j)
		}
	}
}

// about starts a finding on a judgement.
func about(j claims.Judgement, grade claims.Grade) claims.Finding {
	return claims.Finding{Grade: grade, Statement: j.Statement, Measures: j.Measures, Place: j.Statement.Place, Printed: j.Statement.Printed}
}
