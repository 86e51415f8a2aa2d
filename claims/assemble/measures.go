package assemble

import (
	"math"
	"strings"

	"probity/claims"
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
	for _, k := range order {
		t.emit(groups[k])
	}
}

// leave sets the figures of a row of other statistics apart.
func (t *table) leave(r int) {
	for c := 0; c < t.g.cols; c++ {
		if !t.g.stub[c] {
			t.setApart(r, c, "", t.row[r].role)
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

// roleWords say what a mark stands for, in reasons.
var roleWords = map[string]string{
	"p": "a p value", "statistic": "a test statistic", "df": "degrees of freedom", "anova": "a term of an analysis of variance",
	"effect": "an effect or a coefficient", "difference": "a difference with its spread", "n": "a number of specimens",
	"count": "a count with its percentage", "percent": "a percentage", "letters": "grouping letters", "other": "another statistic",
}

// setApart keeps a figure that has the form of a measure and is none.
func (t *table) setApart(r, c int, why, role string) {
	rd := &t.g.read[r][c]
	if !measureForm(rd) {
		return
	}
	if why == "" {
		why = roleWords[role]
	}
	t.study.Apart = append(t.study.Apart, claims.Apart{Place: t.g.cell(r, c).Place, Text: rd.Text, Why: why})
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
	t.sizeOf(m, p)
	if p.read.Note != "" {
		m.Note = p.read.Note
	}
	t.study.Measures = append(t.study.Measures, m)
	t.measure[[2]int{p.r, p.c}] = m
	for _, q := range parts {
		t.measure[[2]int{q.r, q.c}] = m
	}
}

// between reports whether the group of a cell is a pair of groups: "A vs B".
func (t *table) between(p part) bool {
	for _, d := range t.d {
		if d.role != roleArm {
			continue
		}
		if l := d.at(p.r, p.c); l != nil {
			low := " " + strings.ToLower(l.clean) + " "
			if strings.Contains(low, " vs ") || strings.Contains(low, " vs. ") || strings.Contains(low, " versus ") {
				return true
			}
		}
	}
	return false
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

// noMeasure says why a cell is no measure, "" if it is one.
func (t *table) noMeasure(p part, parts map[string]part) string {
	rd := p.read
	near := t.marksAt(p)
	marked := contains(near, "mean") || contains(near, "median") || contains(near, "sd") || contains(near, "se") || contains(near, "iqr")
	if rd.Form == numeral.Count || rd.Form == numeral.Spread && rd.Sign != "±" && (t.isCount(p) || !marked && contains(t.marks, "count") && rd.Number.Decimals == 0) {
		return roleWords["count"]
	}
	if t.apart != "" && !(rd.Sign == "±" && marked && t.apart != modelTable) {
		return t.apart
	}
	switch rd.Form {
	case numeral.Spread:
		switch {
		case rd.Label != "" && rd.Sign != "±" && t.ls.cat.Mark(rd.Label) == "":
			return "words stand with the figures"
		case rd.Sign == "±", rd.Sign == "?":
			return ""
		case rd.Sign == "," && !contains(near, "median") && !contains(near, "iqr") && !contains(t.marks, "median") && !contains(t.marks, "iqr"):
			return "two figures whose meaning is not stated"
		case rd.Sign == "/" && !(contains(near, "sd") || contains(t.marks, "sd")):
			return "two figures whose meaning is not stated"
		case rd.Rest != "" && len(rd.Rest) > 12:
			return "words stand with the figures"
		}
		return ""
	case numeral.Interval:
		if !marked && len(t.marks) == 0 && !contains(near, "ci95") && !contains(near, "range") {
			return "a figure with a range or an interval whose meaning is not stated"
		}
		return ""
	case numeral.Figure:
		return t.bareFigure(p, parts, near)
	}
	return "no centre is printed"
}

// bareFigure says why a single figure is no measure.
func (t *table) bareFigure(p part, parts map[string]part, near []string) string {
	rd := p.read
	for _, role := range []string{"sd", "se", "ci95", "iqr", "spread"} {
		if _, ok := parts[role]; ok {
			return ""
		}
	}
	if rd.Sign != "" || rd.Rest != "" && len(rd.Rest) > 6 || rd.Label != "" && t.ls.cat.Mark(rd.Label) == "" {
		return "a figure alone"
	}
	_, mean := parts["mean"]
	_, median := parts["median"]
	if mean || median || contains(near, "mean") || contains(near, "median") {
		if contains(near, "count") || t.row[p.r].role == "n" {
			return roleWords["count"]
		}
		return ""
	}
	if t.siblings(p) {
		return ""
	}
	if t.caption.centre() && rd.Number.Decimals > 0 && !contains(near, "count") && !contains(near, "percent") {
		return ""
	}
	return "a figure alone"
}

// siblings reports whether most figures of the column are printed with a
// spread: one without is then a mean whose spread is nought or left out.
func (t *table) siblings(p part) bool {
	with, without := 0, 0
	for r := t.g.head; r < len(t.g.rows); r++ {
		switch rd := &t.g.read[r][p.c]; {
		case rd.Form == numeral.Spread && rd.Sign != "/":
			with++
		case rd.Form == numeral.Figure:
			without++
		}
	}
	return with > without && with > 1 && t.row[p.r].role == ""
}

// isCount tells "12 (40)", a count with its percentage, from "12 (4)", a mean
// with its SD: the percentages of a column go with its counts.
func (t *table) isCount(p part) bool {
	rd := p.read
	if contains(t.row[p.r].marks, "count") || contains(t.col[p.c].marks, "count") {
		return true
	}
	if rd.Number.Decimals > 0 || rd.Sign != "(" && rd.Sign != "[" {
		return false
	}
	if n := t.rowColN(p); n > 0 && percentFits(rd.Number.Value, rd.Spread, n) {
		return true
	}
	fits, tried := 0, 0
	for r := t.g.head; r < len(t.g.rows); r++ {
		q := &t.g.read[r][p.c]
		if q.Form != numeral.Spread || q.Number.Decimals > 0 || q.Number.Value == 0 || q.Spread.Value == 0 || r == p.r || rd.Spread.Value == 0 {
			continue
		}
		tried++
		total := rd.Number.Value / rd.Spread.Value * 100
		if percentFits(q.Number.Value, q.Spread, total) && math.Abs(q.Number.Value-rd.Number.Value) > 0 {
			fits++
		}
	}
	return tried > 0 && fits > 0 && rd.Spread.Value <= 100 && total100(rd)
}

// total100 reports whether a count and its percentage lead to a whole total.
func total100(rd *numeral.Reading) bool {
	if rd.Spread.Value == 0 || rd.Number.Value > rd.Spread.Value*100 {
		return false
	}
	return rd.Number.Value/rd.Spread.Value*100 >= rd.Number.Value
}

func percentFits(count float64, percent extract.Number, total float64) bool {
	if total <= 0 || count > total {
		return false
	}
	return math.Abs(100*count/total-percent.Value) <= percent.Half()+0.5*math.Pow10(-percent.Decimals)+1e-9
}

func (t *table) rowColN(p part) float64 {
	if n := t.col[p.c].n; n.Known() {
		return n.Value
	}
	if n := t.row[p.r].n; n.Known() {
		return n.Value
	}
	return 0
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
	n := 0
	for r := t.g.head; r < len(t.g.rows); r++ {
		if rd := &t.g.read[r][p.c]; rd.Form != numeral.None {
			if rd.Letters != letters {
				return false
			}
			n++
		}
	}
	return n > 1
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
	if len(arm) > 0 {
		m.ArmText = joinClean(arm, " ")
		m.Arm = t.armOf(arm[0].clean, m.ArmText, t.g.cell(p.r, p.c).Place)
		t.traits(m.Arm, p)
	} else {
		t.armAround(m)
	}
	t.outcomeOf(m, outcome)
	m.Condition = joinClean(condition, "; ")
	if !t.placed() {
		m.Condition = strings.TrimPrefix(m.Condition+"; "+t.captionCondition(), "; ")
		m.Condition = strings.TrimSuffix(m.Condition, "; ")
	}
	t.unitOf(m, p, outcome)
}

// placed reports whether a dimension of the table tells times or places apart;
// the caption's then says nothing more.
func (t *table) placed() bool {
	for _, d := range t.d {
		if d.role == roleCondition && d.k >= 0.5 {
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

// outcomeOf names the outcome: by the innermost label, with the one above it
// where that one alone is known.
func (t *table) outcomeOf(m *claims.Measure, labels []*label) {
	if len(labels) == 0 {
		m.Outcome = t.above.name
		if t.above.outcome != nil {
			m.OutcomeID = t.above.outcome.ID
		}
		return
	}
	inner := labels[len(labels)-1]
	m.Outcome = inner.clean
	for i := len(labels) - 1; i >= 0 && m.OutcomeID == ""; i-- {
		if o := labels[i].outcome; o != nil {
			m.OutcomeID = o.ID
			if i < len(labels)-1 {
				m.Outcome = labels[i].clean + ", " + inner.clean
			}
		}
	}
	if m.OutcomeID == "" && len(labels) > 1 {
		m.Outcome = labels[0].clean + ", " + inner.clean
	}
	if m.OutcomeID == "" && t.captionOutcome().outcome != nil && sharedWords(inner.clean, t.captionOutcome().name) > 0 {
		m.OutcomeID = t.captionOutcome().outcome.ID
	}
}
