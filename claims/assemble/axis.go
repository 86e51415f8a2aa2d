package assemble

import (
	"slices"
	"strings"

	"probity/claims/reading"
	"probity/extract"
	"probity/extract/numeral"
)

// line is what a row or a column of figures is.
type axis struct {
	labels []*label // from the outside in
	role   string   // "mean", "sd", "n", "p" …; "" where it holds whole measures
	marks  []string // kinds of marks that hold for its figures, nearest first
	sample string   // the name of the whole sample, where its figures are of no group
	live   bool     // its figures may be measures
	block  int      // rows or columns that make one measure together
	n      extract.Number
	words  reading.Ballot[string] // what the words of its labels say of its figures
}

// data reports whether figures in it can be measures or parts of them.
func (a *axis) data() bool {
	switch a.role {
	case "p", "statistic", "df", "anova", "effect", "difference", "n", "letters", "count", "percent", "other":
		return false
	}
	return true
}

// axes reads the labels of rows and columns and finds which make a measure
// together.
func (t *table) axes() {
	g := t.g
	t.codes()
	t.col = make([]axis, g.cols)
	for c := range t.col {
		if g.stub[c] {
			continue
		}
		for level, s := range g.headings[c] {
			if s != "" {
				t.col[c].labels = append(t.col[c].labels, t.labelAt(s, headingPlace(level)))
			}
		}
		t.col[c].fill()
	}
	t.row = make([]axis, len(g.rows))
	for r := g.head; r < len(g.rows); r++ {
		if g.rows[r].skip || g.rows[r].section || g.rows[r].repeated {
			t.row[r].role = "other"
			continue
		}
		a := &t.row[r]
		if t.outOfSection(r) {
			g.rows[r].sections = nil
		}
		for _, s := range g.rows[r].sections {
			a.labels = append(a.labels, t.labelAt(s, sectionPlace))
		}
		for c := 0; c < g.cols; c++ {
			if g.stub[c] && g.text[r][c] != "" {
				a.labels = append(a.labels, t.labelAt(g.text[r][c], stubPlace(c)))
			}
		}
		a.fill()
	}
	t.estimates()
	t.samples()
	t.contradicted()
	t.otherLines()
	t.spreadsBelow()
	t.lettersColumns()
	blocks(t.col, func(c int) bool { return g.stub[c] })
	blocks(t.row, func(r int) bool { return r < g.head || t.row[r].role == "other" })
}

// estimates makes "Estimate" the mean that it is under a caption of adjusted
// means.
func (t *table) estimates() {
	if !t.says(t.caption, adjusted) {
		return
	}
	of := func(a *axis) {
		for _, l := range a.labels {
			if a.role == "effect" && l.whole && strings.HasPrefix(extract.Lower(l.text), "estimate") {
				a.role = "mean"
				a.marks = append([]string{"mean"}, a.marks...)
			}
		}
	}
	for c := range t.col {
		of(&t.col[c])
	}
	for r := range t.row {
		of(&t.row[r])
	}
}

// samples finds the columns of the whole sample, "Total", which stand beside
// those of the groups; beside outcomes a total is an outcome, and so is a row of
// totals under the heading of what is added up.
func (t *table) samples() {
	for c := range t.col {
		a := &t.col[c]
		name := t.wholeIn(a)
		if name == "" {
			continue
		}
		if a.role == "other" {
			a.named(name)
		}
		if !t.amongOutcomes(c) {
			a.sample = name
		}
	}
	for r := t.g.head; r < len(t.row); r++ {
		if a := &t.row[r]; a.role == "other" && len(a.labels) > 1 && t.wholeIn(a) != "" {
			a.named(t.wholeIn(a))
		}
	}
}

// named makes an axis with the mark of a total one of that name.
func (a *axis) named(name string) {
	a.role = ""
	a.marks = slices.DeleteFunc(a.marks, func(m string) bool { return m == "other" })
	for i, l := range a.labels {
		if l.has("other") && l.clean == "" {
			own := *l
			own.clean, own.whole = name, false
			own.marks = slices.DeleteFunc(slices.Clone(l.marks), func(m string) bool { return m == "other" })
			a.labels[i] = &own
		}
	}
}

// own gives the label as this axis has it, where it was renamed here.
func (a *axis) own(l *label) *label {
	for _, mine := range a.labels {
		if mine.text == l.text {
			return mine
		}
	}
	return l
}

// wholeIn gives the name of the whole sample that a label of an axis is, ""
// if none is.
func (t *table) wholeIn(a *axis) string {
	for _, l := range a.labels {
		m := t.ls.cat.FindLabels(l.text)
		if len(m) > 0 && m[0].Row.Kind == "whole" && m[0].Start == 0 && (l.clean == "" || t.ls.cat.Label(l.clean) == "whole") {
			return l.text[:m[0].End]
		}
	}
	return ""
}

// amongOutcomes reports whether most of the other headings in the row of column
// c's name outcomes.
func (t *table) amongOutcomes(c int) bool {
	outcomes, others := 0, 0
	for k := range t.col {
		n := len(t.col[k].labels)
		if k == c || n == 0 || t.g.stub[k] {
			continue
		}
		if l := t.col[k].labels[n-1]; l.outcome != nil || l.unit != "" {
			outcomes++
		} else if !l.whole {
			others++
		}
	}
	return outcomes > others
}

// spreadsBelow finds rows that have no label and only figures in brackets or
// after ±: the spreads of the row above.
func (t *table) spreadsBelow() {
	g := t.g
	for r := g.head + 1; r < len(g.rows); r++ {
		if !t.row[r].data() || g.rows[r-1].section {
			continue
		}
		spreads, others := 0, 0
		for c := 0; c < g.cols; c++ {
			if g.stub[c] {
				if s := g.text[r][c]; s != "" && !(g.cell(r, c).Copy && s == g.text[r-1][c]) {
					others++
				}
				continue
			}
			rd := &g.read[r][c]
			switch {
			case rd.Form == numeral.Figure && (rd.Sign == "(" || rd.Sign == "±"):
				spreads++
			case rd.Form != numeral.None && t.col[c].data():
				others++
			}
		}
		if spreads > 0 && others == 0 {
			t.row[r].labels, t.row[r].role = t.row[r-1].labels, "spread"
		}
	}
}

// outOfSection reports whether a row has left the section above it without a
// new heading: a row of means after a section of counts.
func (t *table) outOfSection(r int) bool {
	counts := false
	for _, s := range t.g.rows[r].sections {
		counts = counts || t.ls.read(s).has("count")
	}
	if !counts {
		return false
	}
	for c := 0; c < t.g.cols; c++ {
		if t.g.stub[c] && t.g.text[r][c] != "" && t.ls.read(t.g.text[r][c]).centre() {
			return true
		}
	}
	return false
}

// contradicted takes back the role of rows and columns whose name is by
// chance that of a statistic, F or T, or of a spread, CI or IQ: their cells
// hold means with spreads.
func (t *table) contradicted() {
	for r := range t.row {
		if r < t.g.head || t.g.rows[r].skip || t.g.rows[r].section || t.g.rows[r].repeated {
			continue
		}
		if t.plusMinus(r, -1) {
			t.row[r].takeBack(ofTests)
		}
		t.row[r].wholeMeasures(t.formsIn(r, -1))
	}
	for c := range t.col {
		if t.plusMinus(-1, c) {
			t.col[c].takeBack(ofTests)
		}
		t.col[c].wholeMeasures(t.formsIn(-1, c))
		if t.col[c].role == "count" && t.meansIn(c) {
			t.col[c].role = "" // its rows tell which are counts
		}
	}
}

// ofTests are roles that no cell with ± has, ofFigures those that none has
// with limits on both sides of a centre, ofSpreads those that none has with
// another figure in brackets.
var (
	ofTests   = []string{"p", "statistic", "df", "n", "percent", "letters", "anova", "other", "count", "difference"}
	ofSpreads = []string{"sd", "se", "ci95", "iqr", "range", "low", "high", "min", "max"}
	ofFigures = append([]string{"p", "statistic", "df"}, ofSpreads...)
)

// takeBack makes an axis with one of these roles one of whole measures, and
// what was read as a mark of it a name.
func (a *axis) takeBack(roles []string) {
	if !slices.Contains(roles, a.role) {
		return
	}
	role := a.role
	a.role = ""
	a.marks = slices.DeleteFunc(a.marks, func(m string) bool { return m == role })
	for _, l := range a.labels {
		if l.whole && l.clean == "" && len(l.marks) == 1 && l.marks[0] == role {
			l.clean, l.marks, l.whole = l.text, nil, false
		}
	}
}

// wholeMeasures takes back the role of an axis whose cells mostly hold a centre
// with its own limits or spread.
func (a *axis) wholeMeasures(f forms) {
	switch {
	case (f.plusMinus+f.centred)*2 > f.all:
		a.takeBack(ofFigures)
	case (f.plusMinus+f.centred+f.bracketed)*2 > f.all:
		a.takeBack(ofSpreads)
	}
}

// meansIn reports whether a row says that its figures are means with their
// spread, in column c too: "Age, mean (SD)" under "Group A, n (%)".
func (t *table) meansIn(c int) bool {
	for r := t.g.head; r < len(t.row); r++ {
		if n := len(t.row[r].labels); n > 0 && t.row[r].data() && t.g.read[r][c].Form == numeral.Spread {
			if l := t.row[r].labels[n-1]; l.speaks() < 0 && l.spread() != "" {
				return true
			}
		}
	}
	return false
}

// plusMinus reports whether most cells of a row or column are printed with ±.
func (t *table) plusMinus(r, c int) bool {
	with, other := 0, 0
	count := func(rd *numeral.Reading) {
		switch {
		case rd.Form == numeral.Spread && rd.Sign == "±":
			with++
		case rd.Form != numeral.None:
			other++
		}
	}
	if r >= 0 {
		for k := range t.g.read[r] {
			if !t.g.stub[k] {
				count(&t.g.read[r][k])
			}
		}
	} else {
		for k := t.g.head; k < len(t.g.read); k++ {
			count(&t.g.read[k][c])
		}
	}
	return with > 0 && (r >= 0 || with*4 >= other)
}

// fill finds the role and the marks of an axis from its labels.
func (a *axis) fill() {
	for i := len(a.labels) - 1; i >= 0; i-- {
		l := a.labels[i]
		a.marks = append(a.marks, l.marks...)
		if l.n.Known() && !a.n.Known() {
			a.n = l.n
		}
		if l.whole && len(l.marks) == 1 && (a.role == "" || l.marks[0] == "p") {
			if a.role == "" || a.role == "mean" || a.role == "sd" {
				a.role = l.marks[0]
			}
		}
		if startsWithP(l.text) {
			a.role = "p"
		}
		if l.leads != "" && a.role != "p" {
			a.role = l.leads
		}
		if l.has("count") || l.has("difference") && l.whole {
			a.role = l.marks[0]
			if l.has("count") {
				a.role = "count"
			}
		}
	}
	if a.role == "" && len(a.labels) > 0 {
		last := a.labels[len(a.labels)-1]
		if len(last.marks) == 1 && last.clean != "" {
			switch last.marks[0] {
			case "mean", "median", "sd", "se":
				a.role = last.marks[0]
			}
		}
	}
}

// startsWithP reads "P (paired t-test)", "p-value for the difference".
func startsWithP(s string) bool {
	low := strings.ToLower(strings.TrimSpace(s))
	for _, p := range []string{"p-value", "p value", "p- value", "p -value", "p (", "p‐value", "p–value", "anova (p", "anova p", "p=", "p <"} {
		if strings.HasPrefix(low, p) {
			return true
		}
	}
	return strings.HasSuffix(low, "p value") || strings.HasSuffix(low, "p-value")
}

// lettersColumns finds columns whose cells are grouping letters.
func (t *table) lettersColumns() {
	g := t.g
	for c := 1; c < g.cols; c++ {
		letters, others := 0, 0
		for r := g.head; r < len(g.rows); r++ {
			s := g.text[r][c]
			if s == "" || t.row[r].role == "other" {
				continue
			}
			if isLetters(s) {
				letters++
			} else {
				others++
			}
		}
		if letters >= 2 && others == 0 && (t.headIsLetters(c) || g.filled[max(c-1, 0)] > 0) {
			g.stub[c] = false
			t.col[c].role = "letters"
		}
	}
}

func (t *table) headIsLetters(c int) bool {
	for _, s := range t.g.headings[c] {
		if t.ls.read(s).has("letters") {
			return true
		}
	}
	return false
}

func isLetters(s string) bool {
	n := 0
	for _, r := range s {
		switch {
		case r >= 'a' && r <= 'k' || r >= 'A' && r <= 'K':
			n++
		case r == ',' || r == ' ' || r == '*':
		default:
			return false
		}
	}
	return n > 0 && n <= 4
}

// blocks numbers the rows or columns that make one measure together: a mean
// and its SD, with minimum and maximum on either side.
func blocks(axes []axis, skip func(int) bool) {
	block, open := 0, -1
	var have map[string]bool
	first := map[string]*opened{} // by the names above
	for i := range axes {
		a := &axes[i]
		if skip(i) || !a.data() && a.role != "n" && a.role != "letters" {
			a.block = -1
			switch a.role {
			case "effect", "difference", "statistic", "anova":
				open = -1 // an interval after it is its own
			}
			continue
		}
		role := a.role
		if role == "" || a.whole() {
			role = "value"
		}
		joins := open >= 0 && !have[role] && sameAbove(&axes[open], a)
		switch role {
		case "letters", "cv":
			joins = open >= 0
		case "n":
			joins = joins && above(a) != ""
		case "value", "mean":
			joins = joins && !have["value"] && !have["mean"] && (a.role == "mean" || a.whole() || len(have) > 0 && !have["n"])
		case "sd", "se", "ci95", "iqr", "range", "spread":
			if !joins && open >= 0 && !have[role] && a.besideOf(&axes[open]) {
				joins = true
			}
		}
		if far := first[above(a)]; !joins && far != nil && far.takes(role, a) {
			a.block, far.have[role] = far.block, true
			continue
		}
		if !joins {
			block++
			have = map[string]bool{}
			if key := above(a); first[key] == nil || role == "value" || role == "mean" || role == "median" {
				first[key] = &opened{block, have}
			}
		}
		a.block, open = block, i
		have[role] = true
	}
}

// besideOf reports whether an axis that has nothing but a mark stands beside
// another under the same headings: "Mean (gf) | SD", "Raw mean | Adjusted mean |
// SE".
func (a *axis) besideOf(o *axis) bool {
	n := len(a.labels)
	return n > 0 && a.labels[n-1].whole && (n == 1 || len(o.labels) > 0 && outside(a) == outside(o))
}

// opened is a block of rows or columns that others may join from afar.
type opened struct {
	block int
	have  map[string]bool
}

// takes reports whether an axis of spreads belongs to a block that stands apart
// from it under the same names: "Mean: before, after | SD: before, after".
func (o *opened) takes(role string, a *axis) bool {
	switch role {
	case "sd":
	case "se", "ci95", "iqr", "range":
		if above(a) == "" {
			return false
		}
	default:
		return false
	}
	return (o.have["mean"] || o.have["median"]) && !o.have[role]
}

// lively marks the rows whose figures can be measures; the labels of the
// others say nothing of what the measures are.
func (t *table) lively() {
	any := false
	for r := t.g.head; r < len(t.g.rows); r++ {
		a := &t.row[r]
		if !a.data() {
			continue
		}
		for c := 0; c < t.g.cols; c++ {
			rd := &t.g.read[r][c]
			if t.g.stub[c] || !t.col[c].data() {
				continue
			}
			marked := t.caption.centre() && rd.Number.Decimals > 0 || contains(a.marks, "mean") || contains(a.marks, "median") || contains(a.marks, "sd") || contains(t.col[c].marks, "mean") || contains(t.col[c].marks, "median")
			if t.spreadAt(r, c) || rd.Form == numeral.Interval || rd.Form == numeral.Figure && marked {
				a.live, any = true, true
			}
		}
	}
	for r := range t.row {
		t.row[r].live = t.row[r].data() && (t.row[r].live || !any)
	}
	t.livelyColumns()
}

// livelyColumns does the same for columns: the heading of a column of other
// figures, a modulus or a change in percent, says nothing of the means.
func (t *table) livelyColumns() {
	any := false
	for c := range t.col {
		a := &t.col[c]
		if t.g.stub[c] || !a.data() {
			continue
		}
		a.live = contains(a.marks, "mean") || contains(a.marks, "median") || contains(a.marks, "sd") || contains(a.marks, "se")
		for r := t.g.head; r < len(t.g.rows) && !a.live; r++ {
			rd := &t.g.read[r][c]
			rowMark := contains(t.row[r].marks, "mean") || contains(t.row[r].marks, "median")
			a.live = t.row[r].live && (t.spreadAt(r, c) || rd.Form == numeral.Interval || rd.Form == numeral.Figure && (rowMark || t.caption.centre() && rd.Number.Decimals > 0))
		}
		any = any || a.live
	}
	for c := range t.col {
		if t.col[c].sample != "" {
			t.col[c].live = false
			continue
		}
		t.col[c].live = !t.g.stub[c] && t.col[c].data() && (t.col[c].live || !any) && t.g.filled[c] > 0
	}
}

// whole reports whether one cell of the axis holds a whole measure: "Mean ±
// SD" stands over it.
func (a *axis) whole() bool {
	if a.role == "" {
		return true
	}
	return a.role == "mean" && contains(a.marks, "sd") && len(a.labels) > 0 && a.labels[len(a.labels)-1].has("sd")
}

// above joins the names over the mark of an axis.
func above(a *axis) string {
	var parts []string
	for _, l := range a.labels {
		if l.clean != "" {
			parts = append(parts, l.clean)
		}
	}
	return strings.Join(parts, "\x00")
}

func sameAbove(a, b *axis) bool { return above(a) == above(b) }

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
