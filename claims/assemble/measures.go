package assemble

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/reading"
	"probity/claims/tabular"
	"probity/extract"
	"probity/extract/numeral"
)

// part is one cell of a measure.
type part struct {
	r, c int
	read *numeral.Reading
}

// measures joins the cells that make one measure and reads them, in the order
// of print.
func (t *table) measures() {
	g := t.g
	from := len(t.study.Apart)
	type key [2]int
	groups := map[key]map[string]part{}
	var order []key
	for r := g.head; r < len(g.rows); r++ {
		if t.row[r].role == "other" || !t.row[r].data() {
			t.leave(r)
			continue
		}
		for c := 0; c < g.cols; c++ {
			rd := &g.read[r][c]
			if g.stub[c] || rd.Form == numeral.None {
				continue
			}
			if !t.col[c].data() {
				t.setApart(r, c, "", t.col[c].role)
				continue
			}
			k := key{t.row[r].block, t.col[c].block}
			if groups[k] == nil {
				groups[k] = map[string]part{}
				order = append(order, k)
			}
			role := t.cellRole(r, c)
			if _, taken := groups[k][role]; !taken {
				groups[k][role] = part{r, c, rd}
			}
		}
	}
	first := len(t.study.Measures)
	for _, k := range order {
		t.emit(groups[k])
	}
	alikeDoubt(t.study.Measures[first:])
	slices.SortStableFunc(t.study.Apart[from:], func(a, b claims.Apart) int {
		return cmp.Or(cmp.Compare(a.Place.Row, b.Place.Row), cmp.Compare(a.Place.Col, b.Place.Col))
	})
}

// alikeDoubt doubts the figures of a table where two of them stand for the same
// group, outcome and condition: a label that parts them was not understood.
func alikeDoubt(measures []*claims.Measure) {
	type record struct {
		arm, outcome, condition, unit string
		centre                        claims.Centre
		change, adjusted              bool
	}
	of := func(m *claims.Measure) record {
		return record{m.ArmText, m.Outcome, m.Condition, m.Unit, m.Centre, m.Change, m.Adjusted}
	}
	count := map[record]int{}
	lost := false
	for _, m := range measures {
		count[of(m)]++
		lost = lost || count[of(m)] > 1
	}
	for _, m := range measures {
		switch {
		case count[of(m)] > 1:
			m.Doubt.Add("other figures of the table are read as of the same group, outcome and condition", reading.Wide)
		case lost:
			m.Doubt.Add("some labels of the table are not understood", reading.Slight)
		}
	}
}

// cellRole is what a cell is of its measure: the mark of its row, or else of
// its column.
func (t *table) cellRole(r, c int) string {
	if a := &t.row[r]; a.role != "" && !a.whole() {
		return a.role
	}
	if a := &t.col[c]; a.role != "" && !a.whole() {
		return a.role
	}
	return "value"
}

// centreOf picks the cell of the centre.
func centreOf(parts map[string]part) (part, claims.Centre, bool) {
	for _, role := range []string{"mean", "value", "median"} {
		if p, ok := parts[role]; ok {
			centre := claims.Mean
			if role == "median" {
				centre = claims.Median
			}
			return p, centre, true
		}
	}
	return part{}, claims.Mean, false
}

// emit makes the measure of a group of cells, or sets them apart.
func (t *table) emit(parts map[string]part) {
	p, centre, ok := centreOf(parts)
	if !ok {
		for _, role := range []string{"sd", "se", "spread", "range", "iqr", "ci95", "min", "max"} {
			if q, found := parts[role]; found {
				t.setApart(q.r, q.c, "a spread without its centre", "")
			}
		}
		return
	}
	if t.between(p) {
		t.setApart(p.r, p.c, "a difference between groups", "")
		return
	}
	if why := t.noMeasure(p, parts); why != "" {
		t.setApart(p.r, p.c, why, "")
		return
	}
	m := &claims.Measure{Place: t.g.cell(p.r, p.c).Place, Text: p.read.Text, Centre: centre}
	m.Place.Section, m.Place.Table = extract.InTable, t.place.Table
	m.Mean = claims.Quantity{Number: p.read.Number, Origin: claims.Printed}
	t.markCentre(m, p)
	t.spreadOf(m, p, parts)
	t.lettersOf(m, p, parts)
	t.meaning(m, p)
	m.Adjusted = m.Adjusted || t.adjustedAt(p.r, p.c)
	t.sizeOf(m, p)
	m.Doubt.Add(p.read.Note, reading.Slight)
	t.nameWhole(m)
	t.study.Measures = append(t.study.Measures, m)
	m.Table, m.Over = t.reading, t.over(p)
	t.measure[[2]int{p.r, p.c}] = m
	for _, q := range parts { // any order: each part has its own cell
		t.measure[[2]int{q.r, q.c}] = m
	}
}

// marksAt lists the marks that hold for a cell, nearest first: its own, its
// row's and its column's, the caption's.
func (t *table) marksAt(p part) []string {
	var out []string
	if p.read.Mark != "" {
		for _, m := range t.ls.cat.Marks(p.read.Mark) {
			out = append(out, m.Row.Kind)
		}
	}
	if len(p.read.Label) > 0 {
		for _, m := range t.ls.cat.Marks(p.read.Label) {
			out = append(out, m.Row.Kind)
		}
	}
	out = append(out, t.row[p.r].marks...)
	out = append(out, t.col[p.c].marks...)
	if c := t.corner(); c != nil {
		out = append(out, c.marks...)
	}
	return out
}

// markCentre sets a median where the nearest mark of a centre says so.
func (t *table) markCentre(m *claims.Measure, p part) {
	near := t.marksAt(p)
	if !contains(near, "mean") && !contains(near, "median") {
		near = t.marks
	}
	hasMean, hasMedian := contains(near, "mean"), contains(near, "median")
	switch {
	case hasMedian && !hasMean:
		m.Centre = claims.Median
	case hasMedian && hasMean && p.read.Sign != "±" && (p.read.Form == numeral.Interval || p.read.Sign == ","):
		m.Centre = claims.Median // "mean ± SD or median (IQR)"
	}
}

// lettersOf sets the grouping letters of a measure.
func (t *table) lettersOf(m *claims.Measure, p part, parts map[string]part) {
	letters := p.read.Letters
	for _, role := range []string{"sd", "se"} {
		if q, ok := parts[role]; ok && letters == "" {
			letters = q.read.Letters
		}
	}
	if letters == "" {
		for c := range t.col {
			if t.col[c].role == "letters" && t.col[c].block == t.col[p.c].block {
				letters = strings.TrimSpace(t.g.text[p.r][c])
			}
		}
	}
	if letters == "" || t.footnoteLetters(letters) || !p.read.Raised && t.unitLetters(p, letters) {
		return
	}
	m.Letters, m.Legend = letters, t.legend
}

// unitLetters tells a unit from a letter: "g" after every figure of a column
// is a unit.
func (t *table) unitLetters(p part, letters string) bool {
	if t.ls.cat.FindUnit(letters) == nil {
		return false
	}
	k := t.column(p.c)
	return k.alike > 1 && k.letters == letters
}

// meaning sets arm, outcome, condition and unit from the dimensions.
func (t *table) meaning(m *claims.Measure, p part) {
	var arm, outcome, condition []*label
	for _, d := range t.d {
		l := d.at(p.r, p.c)
		if l == nil || l.clean == "" {
			continue
		}
		switch d.role {
		case roleArm:
			arm = append(arm, l)
		case roleOutcome:
			outcome = append(outcome, l)
		case roleCondition:
			condition = append(condition, l)
		}
		m.Adjusted = m.Adjusted || l.adjust
		low := strings.ToLower(l.clean)
		m.Change = m.Change || d.role != roleArm && (strings.HasPrefix(low, "change") || strings.HasPrefix(low, "delta") || strings.HasPrefix(low, "dif") || strings.HasPrefix(l.clean, "Δ") && l.outcome == nil)
	}
	if sample := t.col[p.c].sample; sample != "" {
		m.ArmText = sample
	} else if len(arm) > 0 {
		m.ArmText = joinClean(arm, " ")
		m.Arm = t.armOf(arm[0].clean, m.ArmText, t.g.cell(p.r, p.c).Place)
		t.traits(m.Arm, p)
	} else {
		t.armAround(m)
	}
	m.Doubt.Add(t.axesDoubt(), reading.Slight)
	condition = append(condition, t.outcomeOf(m, outcome)...)
	m.Condition = joinClean(condition, "; ")
	if !t.placed() {
		m.Condition = strings.TrimPrefix(m.Condition+"; "+t.captionCondition(), "; ")
		m.Condition = strings.TrimSuffix(m.Condition, "; ")
	}
	t.unitOf(m, p, outcome)
}

// axesDoubt says which axes of the table could also be read otherwise, "" if
// none: what stands for a group or an outcome may be none. Between an outcome
// and a condition less is at stake, as its figures are set beside each other
// in the same way.
func (t *table) axesDoubt() string {
	if t.axesDoubted == nil {
		var parts []string
		for _, d := range t.d {
			best, second := d.choice.Best.Value, d.choice.Second.Value
			enough := reading.Wide
			switch {
			case best == tabular.Arm || second == tabular.Arm:
			case d.section || best != tabular.Outcome && second != tabular.Outcome:
				continue
			default:
				enough = closeOutcome
			}
			name := fmt.Sprintf("%s (%s)", t.axisName(d), clip(strings.Join(d.distinct[:min(3, len(d.distinct))], ", "), 60))
			switch {
			case d.choice.Gap() < enough:
				parts = append(parts, fmt.Sprintf("%s may be %s instead of %s", name, plural[second], plural[best]))
			case best == tabular.Arm && byPlaceAlone(d.choice.Best.Reasons):
				parts = append(parts, name+" are taken for groups by their place in the table alone")
			}
		}
		said := strings.Join(parts, "; ")
		t.axesDoubted = &said
	}
	return *t.axesDoubted
}

// closeOutcome is the gap below which outcomes may be conditions.
const closeOutcome = 1.0

// byPlaceAlone reports whether no reason but where an axis stands speaks for it.
func byPlaceAlone(reasons []reading.Reason) bool {
	for _, r := range reasons {
		if r.Weight > 0.05 && !slices.Contains(placeSigns, r.Text) {
			return false
		}
	}
	return true
}

// placed reports whether a dimension of the table tells times or places apart;
// the caption's then says nothing more.
func (t *table) placed() bool {
	for _, d := range t.d {
		if d.role == roleCondition && d.placed >= 0.5 {
			return true
		}
	}
	return false
}

// traits keeps what the table says of a group: its size, and the words that
// class it.
func (t *table) traits(a *claims.Arm, p part) {
	for _, d := range t.d {
		if d.role != roleTrait {
			continue
		}
		if l := d.at(p.r, p.c); l != nil {
			t.arms.geometry(a, l.text)
			if !strings.ContainsAny(l.clean, "0123456789") && len(l.clean) > 2 && len(strings.Fields(l.clean)) <= 4 {
				a.Class = appendNew(a.Class, l.clean)
			}
		}
	}
}

func joinClean(ls []*label, sep string) string {
	var parts []string
	for _, l := range ls {
		if len(parts) == 0 || parts[len(parts)-1] != l.clean {
			parts = append(parts, l.clean)
		}
	}
	return strings.Join(parts, sep)
}

// outcomeOf names the outcome by its labels and gives those that only tell
// more of it. The innermost that is known names it, or else the innermost with
// a unit, or the outermost; the innermost of all completes it.
func (t *table) outcomeOf(m *claims.Measure, labels []*label) (more []*label) {
	if len(labels) == 0 {
		m.Outcome = t.above.name
		if t.above.outcome != nil {
			m.OutcomeID = t.above.outcome.ID
		}
		return nil
	}
	inner, at := len(labels)-1, 0
	for i, l := range labels {
		if l.outcome != nil || labels[at].outcome == nil && l.unit != "" {
			at = i
		}
	}
	if labels[inner].unit != "" && labels[at].unit != "" && labels[inner].unit != labels[at].unit {
		at = inner // a row of its own, that has left the section
	}
	m.Outcome = labels[at].clean
	if at < inner {
		m.Outcome += ", " + labels[inner].clean
	}
	if o := labels[at].outcome; o != nil {
		m.OutcomeID = o.ID
	}
	if c := t.captionOutcome(); m.OutcomeID == "" && c.outcome != nil && sharedWords(labels[inner].clean, c.name) > 0 {
		m.OutcomeID = c.outcome.ID
		if subset(strings.Fields(key(m.Outcome)), strings.Fields(key(c.name))) {
			m.Outcome = c.name
		}
	}
	return append(slices.Clone(labels[:at]), labels[min(at+1, inner):inner]...)
}
