package check

import (
	"probity/claims"
	"probity/claims/infer"
)

// memo keeps what is found once for a study: looked for anew for each
// statement or measure, it would make the time grow with the square of a paper.
type memo struct {
	members  map[familyKey][]*claims.Measure // of tables, in their order
	families map[familyKey][]*claims.Measure
	spoken   map[[2]string][][]*claims.Measure // the families of an outcome, by its id and its name
	analysed map[*claims.Measure]analysed      // by the first measure of a family
	inTables map[*claims.Arm][]*claims.Measure // the measures of an arm that tables print
	facts    map[string][]claims.Fact          // what is said of all arms
	factsOf  map[factOf][]claims.Fact          // what is said of one
	denied   map[string]bool                   // sentences that say of something that it did not differ
}

// factOf is a condition of the test, and the arm it is said of.
type factOf struct {
	id  string
	arm *claims.Arm
}

type analysed struct {
	judgement claims.Judgement
	side      infer.Side
	ok        bool
}

// familyKey is what measures of one family share.
type familyKey struct {
	outcome, id, condition, table, unit string
	adjusted, change                    bool
	centre                              claims.Centre
}

func familyOf(m *claims.Measure) familyKey {
	return familyKey{m.Outcome, m.OutcomeID, m.Condition, m.Place.Table, m.Unit, m.Adjusted, m.Change, m.Centre}
}

// tableMeasures lists the measures of an arm that tables print.
func (j *judge) tableMeasures(a *claims.Arm) []*claims.Measure {
	if j.inTables == nil {
		j.inTables = map[*claims.Arm][]*claims.Measure{}
		for _, m := range j.study.Measures {
			if m.Place.Table != "" {
				j.inTables[m.Arm] = append(j.inTables[m.Arm], m)
			}
		}
	}
	return j.inTables[a]
}

// said lists what the paper says of a condition: of one arm, and of all.
func (j *judge) said(id string, arm *claims.Arm) (mine, all []claims.Fact) {
	if j.facts == nil {
		j.facts, j.factsOf = map[string][]claims.Fact{}, map[factOf][]claims.Fact{}
		for _, f := range j.study.Design.Facts {
			if len(f.Arms) == 0 {
				j.facts[f.ID] = append(j.facts[f.ID], f)
			}
			for _, a := range f.Arms {
				j.factsOf[factOf{f.ID, a}] = append(j.factsOf[factOf{f.ID, a}], f)
			}
		}
	}
	return j.factsOf[factOf{id, arm}], j.facts[id]
}
