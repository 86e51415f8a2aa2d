package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/infer"
	"probity/extract"
)

var printedPCheck = Check{
	Name:   "printed-p",
	Asks:   "Can a p that is printed with all its digits come from the printed means, spreads and n?",
	Source: "Student 1908 Biometrika 6:1; Welch 1947 Biometrika 34:28; one-way analysis of variance: Fisher 1925; Tukey 1953",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		if c.judge.design.certain() {
			c.own(func(j claims.Judgement) {
				if f, ok := c.exactP(j); ok {
					out = append(out, f)
				}
			})
		}
		return samePOnce(append(out, c.tablePs()...))
	},
}

// samePOnce asks once about one p that stands in several places: abstract,
// results and table.
func samePOnce(findings []claims.Finding) []claims.Finding {
	seen := map[string]bool{}
	var out []claims.Finding
	for _, f := range findings {
		if seen[f.Printed] {
			continue
		}
		seen[f.Printed] = true
		out = append(out, f)
		if len(out) == mostQueries {
			break
		}
	}
	return out
}

// mostQueries keeps the questions of one kind to what authors will answer.
const mostQueries = 3

// exactP asks about a p printed with "=" or "<" that no test of the two arms
// gives.
func (c *Case) exactP(j claims.Judgement) (claims.Finding, bool) {
	s := j.Statement
	n := statedP(s)
	if n.Relation != extract.Equal && n.Relation != extract.Less || !n.Known() || n.Value <= 0 || s.BeforeTo || s.Kind == claims.Percent || s.Kind == claims.Fold {
		return claims.Finding{}, false
	}
	if j.Verdict == claims.DoesNotReproduce || j.Verdict == claims.Reversed || s.Stat != nil && s.Stat.Value.Known() {
		return claims.Finding{}, false // said already
	}
	p, ok := printedP(n)
	if !ok {
		return claims.Finding{}, false
	}
	var sum string
	var measures []*claims.Measure
	for _, pair := range s.Pairs {
		cmp, missing := c.judge.compare(pair)
		if missing != "" || !pair.Tie.Sure() || cmp.assumed {
			return claims.Finding{}, false
		}
		if metBy(cmp, p) {
			return claims.Finding{}, false
		}
		if sum == "" {
			sum = fmt.Sprintf("%s for %s", cmp.primary, cmp.pair())
			measures = []*claims.Measure{pair.A, pair.B}
		}
	}
	if sum == "" {
		return claims.Finding{}, false
	}
	f := about(j, claims.Query)
	f.Measures, f.Printed = measures, pPrinted(n)
	f.Recomputed = sum
	f.Message = fmt.Sprintf("%s is printed; %s", pPrinted(n), sum)
	f.Ask = "Which test gave this p, and how many specimens entered it?"
	f.Caution = "The difference may stand; do not quote this p."
	return f, true
}

// metBy reports whether any test that may stand behind a pair meets the
// printed p, one-sided readings included.
func metBy(c *comparison, p infer.PrintedP) bool {
	for _, t := range c.tests() {
		r := t.r.P()
		if p.Meets(r) {
			return true
		}
		r.Low, r.High = r.Low/2, r.High/2
		if p.Meets(r) {
			return true
		}
	}
	// Corrections other than those tried lie between no correction and the
	// strictest one.
	low, high := math.Inf(1), 0.0
	for _, t := range c.tests() {
		low, high = math.Min(low, t.r.Low.Value), math.Max(high, t.r.High.Value)
	}
	return c.k > 2 && p.Low <= high && low <= p.High
}

// tablePs asks about each p of a table column that the figures beside it do
// not give: where the paper names tests of means only, or where most others of
// the column are given by them.
func (c *Case) tablePs() []claims.Finding {
	type column struct {
		table string
		col   int
	}
	can, _ := c.judge.design.recomputable()
	met := map[column]int{}
	means := map[column]bool{} // the table names a test of means for it
	off := map[column][]claims.Finding{}
	var order []column
	for _, r := range c.Study.Results {
		at := column{r.Place.Table, r.Place.Col}
		if named := c.Catalog.Test(r.Test); named != nil {
			means[at] = !named.Rank && !named.Paired && !named.Adjusted && named.Family != "factorial"
			if !means[at] {
				continue
			}
		} else if !can {
			continue
		}
		f, status := c.tableP(r)
		switch status {
		case pMet:
			met[at]++
		case pNotMet:
			if len(off[at]) == 0 {
				order = append(order, at)
			}
			off[at] = append(off[at], f)
		}
	}
	var out []claims.Finding
	for _, at := range order {
		if c.judge.design.rank && !means[at] {
			continue // which p of the table is of the rank test is not said
		}
		switch certain := c.judge.design.certain() || means[at]; {
		case certain && met[at] >= len(off[at]):
			out = append(out, off[at]...) // most others of the column are met: these stand out
		case certain || met[at] >= 2 && met[at] > len(off[at]):
			out = append(out, off[at][0])
		}
	}
	return out
}

// pStatus says how a printed p stands to the figures beside it.
type pStatus int

const (
	pNotChecked pStatus = iota
	pMet
	pNotMet
)

// tableP recomputes the p of a table row or column.
func (c *Case) tableP(r *claims.Result) (claims.Finding, pStatus) {
	n := r.P
	if !n.Known() && r.Name == "p" {
		n = r.Value
	}
	if !n.Known() || n.Relation != extract.Equal || n.Value <= 0 || len(r.Between) < 2 || len(r.Between) > mostOmnibus {
		return claims.Finding{}, pNotChecked
	}
	p, ok := printedP(n)
	between := slices.DeleteFunc(slices.Clone(r.Between), isTotal)
	groups, missing := groupsOf(between)
	if !ok || missing != "" || len(groups) < 2 || !independent(between) {
		return claims.Finding{}, pNotChecked
	}
	for _, g := range groups {
		if g.assumed || !g.measure.Doubt.Sure() {
			return claims.Finding{}, pNotChecked
		}
	}
	if len(groups) == 2 {
		if r, err := infer.StudentRange(groups[0].box, groups[1].box); err == nil && p.Meets(r.P()) {
			return claims.Finding{}, pMet // the cheapest test first
		}
		cmp, missing := c.judge.compareGroups(groups[0], groups[1])
		switch {
		case missing != "":
			return claims.Finding{}, pNotChecked
		case metBy(cmp, p):
			return claims.Finding{}, pMet
		}
		return tableQuery(r, n, fmt.Sprintf("%s for %s", cmp.primary, cmp.pair())), pNotMet
	}
	f, err := infer.AnovaRange(boxesOf(groups))
	switch {
	case err != nil:
		return claims.Finding{}, pNotChecked
	case p.Meets(f.P()):
		return claims.Finding{}, pMet
	}
	var texts []string
	for _, g := range groups[:min(len(groups), 4)] {
		texts = append(texts, g.text())
	}
	return tableQuery(r, n, fmt.Sprintf("one-way analysis of variance gives F = %s, %s for %s", digits(midF(groups)), pText(f.Point.Value), strings.Join(texts, "; "))), pNotMet
}

func tableQuery(r *claims.Result, n extract.Number, sum string) claims.Finding {
	return claims.Finding{Grade: claims.Query, Measures: r.Between, Place: r.Place, Printed: pPrinted(n), Recomputed: sum,
		Message: fmt.Sprintf("%s is printed beside %s; %s", pPrinted(n), orWord(r.Outcome, "these figures"), sum),
		Ask:     "Which test gave this p, and how many specimens entered it?",
		Caution: "The difference may stand; do not quote this p."}
}

// independent reports measures of different arms of one outcome: not one arm
// at several times.
func independent(measures []*claims.Measure) bool {
	seen := map[string]bool{}
	for _, m := range measures {
		name := armName(m)
		if name == "" || seen[name] || m.Outcome != measures[0].Outcome || m.Condition != measures[0].Condition {
			return false
		}
		seen[name] = true
	}
	return true
}

var repeatedP = Check{
	Name:   "p-in-two-places",
	Asks:   "Is the p of one comparison the same wherever it is printed?",
	Source: "comparison of the printed figures",
	Run: func(c *Case) []claims.Finding {
		first := map[string]claims.Judgement{}
		several := map[string]bool{} // a key that one section uses twice tells no comparison apart
		var order []claims.Judgement
		c.own(func(j claims.Judgement) {
			key, ok := comparisonKey(j.Statement)
			if !ok {
				return
			}
			section := string(j.Statement.Place.Section)
			if old, found := first[key+section]; found && old.Statement.Text != j.Statement.Text {
				several[key] = true
			} else if !found {
				first[key+section] = j
				order = append(order, j)
			}
		})
		var out []claims.Finding
		for _, j := range order {
			key, _ := comparisonKey(j.Statement)
			before, ok := first[key+"abstract"]
			if !ok || several[key] || j.Statement.Place.Section == "abstract" {
				continue
			}
			if f, ok := otherP(before, j); ok {
				out = append(out, f)
			}
		}
		return out
	},
}

// statedP is the p of a statement, wherever it was read to.
func statedP(s *claims.Statement) extract.Number {
	if !s.P.Known() && s.Stat != nil {
		return s.Stat.P
	}
	return s.P
}

// comparisonKey names the comparison that an exact p is printed for: its two
// measures, or where they could not be tied the outcome and the words.
func comparisonKey(s *claims.Statement) (string, bool) {
	n := statedP(s)
	if !n.Known() || n.Relation != extract.Equal {
		return "", false
	}
	if len(s.Pairs) == 1 && s.Pairs[0].Tie.Sure() {
		pair := []string{s.Pairs[0].A.ID, s.Pairs[0].B.ID}
		slices.Sort(pair)
		return strings.Join(pair, " ") + " ", true
	}
	outcome := orWord(s.OutcomeID, foldWord(s.Outcome))
	if len(s.Pairs) > 0 || outcome == "" || s.Subject.Text == "" {
		return "", false
	}
	return strings.Join([]string{string(s.Kind), outcome, foldWord(s.Subject.Text), foldWord(s.Reference.Text), foldWord(s.Condition)}, "|") + " ", true
}

func otherP(before, j claims.Judgement) (claims.Finding, bool) {
	n, m := statedP(before.Statement), statedP(j.Statement)
	a, ok1 := printedP(n)
	b, ok2 := printedP(m)
	if !ok1 || !ok2 || a.Low <= b.High && b.Low <= a.High {
		return claims.Finding{}, false
	}
	f := about(j, claims.Query)
	f.Printed = pPrinted(m)
	f.Message = fmt.Sprintf("%s is printed in the abstract and %s in the %s for what reads as the same comparison", pPrinted(n), pPrinted(m), j.Statement.Place.Section)
	f.Ask = "Which of the two p values is right?"
	f.Caution = "Quote neither p before this is cleared up."
	return f, true
}
