package assemble

import (
	"fmt"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/reading"
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
	adjusted  bool // its caption speaks of adjusted means
	spread    string
	legend    *claims.Legend
	marks     []string // of caption and notes
	why       string   // the words that the spread kind rests on
	apart     string   // why the figures of this table are no measures; "" if they are
	measure   map[[2]int]*claims.Measure
	unitCol   int                    // a column of units, 0 if there is none
	armBy     map[string]*claims.Arm // the groups of this table by label
	taken     map[*claims.Arm]bool   // those of armBy

	// What is found once for the table, when first asked for.
	tallies   [][]tally // what each "a (b)" is
	columns   []*column
	lines     []*line
	nColumns  *[]int
	nLeads    bool
	blockRows map[int][]int
	armNames  map[string]bool // the names of its groups
	cornerOf  **label
	capUnits  *[]capUnit
	scores    map[string]bool // the outcomes that are asked about, and whether they are scores
	pointing  *[]*sentence    // that name the table
	excepted  map[exceptKey]numeral.Token
	capKey    *string
	wholes    map[string]wholeName

	axesDoubted *string
	reading     *claims.TableReading
	code        map[codeAt]bool // labels that name groups, though they are marks elsewhere
}

// learn keeps what the labels of a table are for certain, so that other tables
// know them.
func (p *paper) learn(tb *table) {
	for _, d := range tb.d {
		if d.joined || len(d.distinct) < 2 || !d.choice.Sure() {
			continue
		}
		for _, s := range d.distinct {
			k := key(s)
			if len(k) > 1 && len(s) < 60 {
				p.learned[k] = append(p.learned[k], learned{tb, d.choice.Best.Value})
			}
		}
	}
}

// layOutAll lays out the tables of the paper, a table whose headings begin anew
// in its middle block by block.
func (p *paper) layOutAll() []*table {
	var out []*table
	for _, t := range p.doc.Tables() {
		for _, block := range p.blocksOf(t) {
			tb := p.layOut(block)
			p.learn(tb)
			out = append(out, tb)
		}
	}
	return out
}

// layOut reads the labels of a table and decides what its dimensions are.
func (p *paper) layOut(g *grid) *table {
	t := g.t
	tb := &table{paper: p, g: g, place: t.Place, measure: map[[2]int]*claims.Measure{}, scores: map[string]bool{}, armBy: map[string]*claims.Arm{}, taken: map[*claims.Arm]bool{}}
	tb.caption = p.ls.read(t.Caption)
	tb.notes = t.Notes
	tb.levels()
	tb.axes()
	tb.told()
	tb.tally()
	tb.leaveSections()
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
	t.d, t.above, t.capOut, t.capCond, t.armNames, t.axesDoubted = nil, named{}, nil, nil, nil, nil
	t.dims()
	t.roles()
}

// readTable reads the measures and results of a table.
func (p *paper) readTable(tb *table) {
	tb.legend = tb.readLegend()
	tb.apart = tb.whyApart()
	tb.keepReading()
	tb.measures()
	tb.results()
}

// tableKinds say what the figures of a whole table are where they are no
// measures.
var tableKinds = map[string]string{
	"model": "a coefficient of a model", "correlation": "a table of correlations", "counts": "a table of counts",
	"anova": "a table of an analysis of variance", "steps": "a table of materials or steps",
}

// whyApart says why the figures of a table are no measures: a table of
// materials, of an analysis of variance, of counts. "" if they may be.
func (t *table) whyApart() string {
	b := t.weighTable()
	best := b.Choose().Best
	if best.Value == measured || best.Score < enough || best.Score < b.Score(measured)+ahead {
		return ""
	}
	return tableKinds[best.Value]
}

// weighTable weighs what the figures of the table are, by its caption, its
// headings and their forms.
func (t *table) weighTable() *reading.Ballot[string] {
	var b reading.Ballot[string]
	outcomes := t.ls.cat.FindOutcomes(t.caption.text)
	for _, m := range t.ls.cat.FindFigures("caption", t.caption.text) {
		if !within(outcomes, m.Start, m.End) {
			b.For(m.Row.Kind, m.Row.Weight, "the caption says “"+t.caption.text[m.Start:m.End]+"”")
		}
	}
	for _, m := range t.ls.cat.FindLabels(t.caption.text) {
		if m.Row.Kind == "counts" && b.Score("counts") == 0 && !within(outcomes, m.Start, m.End) {
			b.For("counts", 3, "the caption says “"+t.caption.text[m.Start:m.End]+"”")
		}
	}
	if t.roleCount("anova")+t.roleCount("df") > 0 && t.roleCount("statistic")+t.roleCount("p")+t.roleCount("anova") > 1 {
		b.For("anova", 4, "headings of an analysis of variance")
	}
	if t.listsMaterials() {
		b.For("steps", 3, "headings of a table of materials")
	}
	t.weighMeasures(&b)
	return &b
}

// weighMeasures adds what speaks for measures in the table.
func (t *table) weighMeasures(b *reading.Ballot[string]) {
	switch {
	case t.caption.centre():
		b.For(measured, 3.5, "the caption names the mean or the median")
	case t.caption.spread() != "" && t.caption.spread() != "ci95":
		b.For(measured, 2, "the caption names a spread")
	}
	if t.roleCount("mean")+t.roleCount("median") > 0 || t.namesMeans() {
		b.For(measured, 3.5, "headings name means with their spread")
	}
	var all forms
	for r := t.g.head; r < len(t.g.rows); r++ {
		if f := t.formsIn(r, -1); t.row[r].role != "other" {
			all.all, all.plusMinus = all.all+f.all, all.plusMinus+f.plusMinus
		}
	}
	if all.plusMinus*2 > all.all {
		b.For(measured, 3, "figures printed with ±")
	}
}

// namesMeans reports whether a heading over figures, or one repeated in the
// body, names means with their spread.
func (t *table) namesMeans() bool {
	for c := range t.col {
		if t.col[c].data() && !t.g.stub[c] && t.col[c].words.Score(measured) >= marksMeans {
			return true
		}
	}
	for r := range t.g.rows {
		if !t.g.rows[r].repeated {
			continue
		}
		for c, s := range t.g.text[r] {
			if l := t.ls.read(s); s != "" && !t.g.stub[c] && l.centre() && l.spread() != "" {
				return true
			}
		}
	}
	return false
}

// listsMaterials reports whether a heading is one of a table of materials or
// steps.
func (t *table) listsMaterials() bool {
	for c := range t.g.headings {
		for _, s := range t.g.headings[c] {
			if t.ls.read(s).kind == "apart" {
				return true
			}
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
