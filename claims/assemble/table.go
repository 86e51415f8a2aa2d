package assemble

import (
	"fmt"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
	"probity/extract/numeral"
)

// named is an outcome as something above the figures names it.
type named struct {
	name    string
	outcome *catalog.Outcome
	unit    string
	unitID  string
	label   *label
}

// table is one table on its way to measures.
type table struct {
	*paper
	g         *grid
	place     extract.Place
	caption   *label
	notes     []string
	row       []axis
	col       []axis
	d         []*dim
	above     named // the outcome that stands over all figures
	capOut    *named
	capCond   *string
	sizeTexts *[]sizeText
	spread    string
	legend    *claims.Legend
	marks     []string // of caption and notes
	why       string   // the words that the spread kind rests on
	apart     string   // why the figures of this table are no measures; "" if they are
	measure   map[[2]int]*claims.Measure
	knew      int                    // names of groups known from tables when it was laid out
	unitCol   int                    // a column of units, 0 if there is none
	armBy     map[string]*claims.Arm // the groups of this table by label
	taken     map[*claims.Arm]bool   // those of armBy

	// What is found once for the table, when first asked for.
	tallies   [][]tally // what each "a (b)" is
	columns   []*column
	blockRows map[int][]int
	armNames  map[string]bool // the names of its groups
	cornerOf  **label
	capUnits  *[]capUnit
	scores    map[string]bool // the outcomes that are asked about, and whether they are scores
	pointing  *[]*sentence    // that name the table
	excepted  map[exceptKey]numeral.Token
	capKey    *string
	wholes    map[string]wholeName
}

// learnGroups reads the groups that the labels of a table name, where they
// are plain, so that other tables know them.
func (p *paper) learnGroups(tb *table) {
	for _, d := range tb.d {
		if d.role != roleArm || d.joined || len(d.distinct) < 2 {
			continue
		}
		for _, other := range tb.d {
			if other != d && other.role != roleArm && other.a < 0.5 && other.o < 0.5 && other.k < 0.5 {
				return // another dimension might as well be the groups
			}
		}
		for _, s := range d.distinct {
			if len(key(s)) > 1 && len(s) < 60 && p.ls.cat.Label(s) != "condition" {
				p.arms.learned[key(s)] = true
			}
		}
	}
}

// layOut reads the labels of a table and decides what its dimensions are.
func (p *paper) layOut(t *extract.Table) *table {
	tb := &table{paper: p, g: newGrid(t, p.styleOf(t)), place: t.Place, measure: map[[2]int]*claims.Measure{}, scores: map[string]bool{}, armBy: map[string]*claims.Arm{}, taken: map[*claims.Arm]bool{}, knew: len(p.arms.learned)}
	tb.caption = p.ls.read(t.Caption)
	tb.notes = t.Notes
	tb.g.shape(p.ls)
	tb.levels()
	tb.axes()
	tb.told()
	tb.tally()
	tb.lively()
	tb.dims()
	tb.roles()
	return tb
}

// levels says which headings of a table are left out because there are more
// than any table prints.
func (t *table) levels() {
	say := func(what, try string, n int) {
		t.study.Problems = append(t.study.Problems, &extract.Problem{Place: t.place, What: fmt.Sprintf(what, n, mostLevels), Try: try})
	}
	if n := t.g.t.Head; n > mostLevels {
		say("%d rows are marked as headings; the first %d are read as such", "mark only its rows of headings as such", n)
	}
	if n := t.g.deepest; n > mostLevels {
		say("%d headings follow one another inside the table; the last %d are read as headings of the rows below", "leave out those that head no row", n)
	}
}

// again decides anew what the dimensions are, now that more groups are known.
func (t *table) again() {
	t.d, t.above, t.capOut, t.capCond, t.armNames = nil, named{}, nil, nil, nil
	t.dims()
	t.roles()
}

// readTable reads the measures and results of a table.
func (p *paper) readTable(tb *table) {
	tb.legend = tb.readLegend()
	tb.apart = tb.whyApart()
	tb.measures()
	tb.results()
}

const modelTable = "a coefficient of a model"

// whyApart says why the figures of a table are no measures: a table of
// materials, of an analysis of variance, of counts. "" if they may be.
func (t *table) whyApart() string {
	heads := map[string]int{}
	for c := 0; c < t.g.cols; c++ {
		for _, s := range t.g.headings[c] {
			if l := t.ls.read(s); l.kind != "" {
				heads[l.kind]++
			}
		}
	}
	low := strings.ToLower(t.caption.text)
	switch {
	case heads["apart"] > 0 && !t.caption.centre():
		return "a table of materials or steps"
	case t.roleCount("anova")+t.roleCount("df") > 0 && t.roleCount("statistic")+t.roleCount("p")+t.roleCount("anova") > 1:
		return "a table of an analysis of variance"
	case strings.Contains(low, "correlation") && !t.caption.centre() && t.roleCount("mean") == 0:
		return "a table of correlations"
	case strings.Contains(low, "coefficient") && !strings.Contains(low, "coefficient of variation") && !strings.Contains(low, "friction"),
		strings.Contains(low, "regression"), strings.Contains(low, "mixed model"), strings.Contains(low, "odds ratio"):
		return modelTable
	}
	if !t.caption.centre() && t.roleCount("mean") == 0 && t.caption.spread() == "" {
		for _, m := range t.ls.cat.FindLabels(t.caption.text) {
			if m.Row.Kind == "counts" && !t.inOutcome(m.Start, m.End) {
				return "a table of counts"
			}
		}
	}
	return ""
}

// inOutcome reports whether a stretch of the caption is a part of the name of
// an outcome: the frequency of "resonance frequency".
func (t *table) inOutcome(start, end int) bool {
	for _, m := range t.ls.cat.FindOutcomes(t.caption.text) {
		if m.Start <= start && end <= m.End {
			return true
		}
	}
	return false
}

func (t *table) roleCount(role string) int {
	n := 0
	for c := range t.col {
		if t.col[c].role == role {
			n++
		}
	}
	for r := range t.row {
		if t.row[r].role == role {
			n++
		}
	}
	return n
}

// measureForm reports whether a reading has the form of a measure: a ± b or
// a (b).
func measureForm(r *numeral.Reading) bool {
	return r.Form == numeral.Spread || r.Form == numeral.Interval || r.Form == numeral.Count
}
