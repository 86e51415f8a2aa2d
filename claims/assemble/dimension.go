package assemble

import (
	"strings"
	"unicode"

	"probity/extract/numeral"
)

// role is what a dimension of a table tells apart.
type role int

const (
	roleNone role = iota
	roleArm
	roleOutcome
	roleCondition
	roleTrait // what each group is: its size, its alloy
)

// dim is one dimension of a table: a row of column headings, a level of
// section headings, or a column of row labels. Its labels are one per column
// of the table, or one per row.
type dim struct {
	byRow    bool
	level    int // the heading row, the section level or the column
	section  bool
	labels   []*label // by row or by column; nil where there is none
	distinct []string // the different names, in order
	role     role
	joined   bool // one with the arm: each arm has its own
	a, o, k  float64
}

func (d *dim) at(r, c int) *label {
	if d.byRow {
		return d.labels[r]
	}
	return d.labels[c]
}

// dims lists the dimensions of a table.
func (t *table) dims() {
	g := t.g
	for i := 0; i < g.head; i++ {
		d := &dim{level: i, labels: make([]*label, g.cols)}
		for c := 0; c < g.cols; c++ {
			if t.col[c].live && g.headings[c][i] != "" {
				d.labels[c] = t.ls.read(g.headings[c][i])
			}
		}
		t.keep(d)
	}
	depth := 0
	for r := range g.rows {
		depth = max(depth, len(g.rows[r].sections))
	}
	for i := 0; i < depth; i++ {
		d := &dim{byRow: true, section: true, level: i, labels: make([]*label, len(g.rows))}
		for r := range g.rows {
			if s := g.rows[r].sections; r >= g.head && t.row[r].live && i < len(s) {
				d.labels[r] = t.ls.read(s[i])
			}
		}
		t.keep(d)
	}
	for c := 0; c < g.cols; c++ {
		if !g.stub[c] {
			continue
		}
		if t.isUnits(c) {
			t.unitCol = c
			continue
		}
		d := &dim{byRow: true, level: c, labels: make([]*label, len(g.rows))}
		for r := range g.rows {
			if r >= g.head && t.row[r].live && g.text[r][c] != "" {
				d.labels[r] = t.ls.read(g.text[r][c])
			}
		}
		t.keep(d)
	}
}

// isUnits reports whether a label column holds units and nothing else.
func (t *table) isUnits(c int) bool {
	if c == 0 {
		return false
	}
	if t.ls.read(t.g.lastHeading(c)).kind == "unit-head" {
		return true
	}
	units := 0
	for r := t.g.head; r < len(t.g.rows); r++ {
		s := t.g.text[r][c]
		if s == "" || !t.row[r].live {
			continue
		}
		if t.ls.cat.FindUnit(s) == nil {
			return false
		}
		units++
	}
	return units > 1
}

// keep adds a dimension that names something.
func (t *table) keep(d *dim) {
	seen := map[string]bool{}
	for _, l := range d.labels {
		if l != nil && l.clean != "" && !seen[l.clean] {
			seen[l.clean] = true
			d.distinct = append(d.distinct, l.clean)
		}
	}
	if len(d.distinct) > 0 {
		t.d = append(t.d, d)
	}
}

// score says how much of a dimension looks like groups, outcomes and
// conditions.
func (t *table) score(d *dim) {
	n := float64(len(d.distinct))
	seen := map[string]bool{}
	for _, l := range d.labels {
		if l == nil || l.clean == "" || seen[l.clean] {
			continue
		}
		seen[l.clean] = true
		a, o, k := t.looks(l)
		if !d.byRow && (l.has("mean") || l.has("sd")) && k < 0.6 && a < 0.5 && !strings.HasSuffix(l.kind, "-head") {
			o = max(o, 0.6) // "Mean final volume": a mark and what it is of
		}
		d.a, d.o, d.k = d.a+a/n, d.o+o/n, d.k+k/n
	}
	switch t.headKind(d) {
	case "arm-head":
		if d.o < 0.5 && d.k < 0.8 {
			d.a = max(d.a, 0.8)
		}
	case "outcome-head":
		if d.a < 0.5 && d.k < 0.8 {
			d.o = max(d.o, 0.8)
		}
	case "condition-head":
		if d.o < 0.5 && d.a < 0.8 {
			d.k = max(d.k, 0.8)
		}
	}
}

// headKind is what the heading over a dimension says of it: the heading of a
// label column, or the one heading that spans a row of headings.
func (t *table) headKind(d *dim) string {
	head := ""
	if d.byRow && !d.section {
		for _, s := range t.g.headings[d.level] {
			if s != "" {
				head = s
			}
		}
	}
	if !d.byRow && d.level > 0 {
		for _, other := range t.d {
			if !other.byRow && other.level == d.level-1 && len(other.distinct) == 1 {
				head = other.distinct[0]
			}
		}
	}
	if head == "" {
		return ""
	}
	l := t.ls.read(head)
	if l.kind != "" {
		return l.kind
	}
	best := ""
	for _, m := range t.ls.cat.FindLabels(l.clean) {
		if strings.HasSuffix(m.Row.Kind, "-head") && (best == "" || m.Row.Kind == "arm-head") {
			best = m.Row.Kind
		}
	}
	if l.outcome != nil {
		return ""
	}
	return best
}

// looks says how much a label looks like a group, an outcome, a condition.
func (t *table) looks(l *label) (arm, outcome, condition float64) {
	if t.arms.known(l.clean) || groupWord(t.short[l.clean]) {
		arm = 1
	} else if l.kind == "arm" || l.n.Known() || groupWord(l.clean) || hasSize(l.clean) {
		arm = 0.9
	}
	condition = t.conditionShare(l)
	switch {
	case l.outcome != nil && l.unit != "":
		outcome = 1
	case l.outcome != nil:
		outcome = 0.9
	case l.unit != "" && !startsWithDigit(l.clean):
		outcome = 0.8
	}
	if condition == 1 && l.unit == "" {
		outcome = min(outcome, 0.3)
	}
	if arm == 1 {
		outcome = min(outcome, 0.4)
	}
	if strings.HasSuffix(l.kind, "-head") {
		outcome = 0
	}
	return arm, outcome, condition
}

func startsWithDigit(s string) bool {
	return s != "" && (s[0] >= '0' && s[0] <= '9' || s[0] == '<' || s[0] == '>')
}

// groupWord reports whether a label calls itself a group: "Group A", "Gr. 2",
// "G1", "Control group".
func groupWord(s string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		switch w {
		case "group", "groups", "gr", "subgroup", "arm", "control", "controls", "placebo", "sham":
			return true
		}
	}
	return len(s) == 2 && (s[0] == 'G' || s[0] == 'g') && s[1] >= '1' && s[1] <= '9'
}

func hasSize(s string) bool {
	for _, t := range numeral.Scan(s) {
		if t.Form == numeral.Size {
			return true
		}
	}
	return false
}

// conditionShare is the share of a label's words that place it in time or
// space: "3 months", "Day 14", "apical third", "37 °C".
func (t *table) conditionShare(l *label) float64 {
	if l.kind == "condition" {
		return 1
	}
	words := strings.FieldsFunc(onLine(l.clean), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '°' && r != '.' })
	if len(words) == 0 || len(words) > 10 {
		return 0
	}
	named := map[string]bool{}
	for _, m := range t.ls.cat.FindLabels(l.clean) {
		if m.Row.Kind == "condition" || m.Row.Kind == "condition-head" {
			for _, w := range strings.FieldsFunc(l.clean[m.Start:m.End], func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
				named[w] = true
			}
		}
	}
	hits, numbers := 0, 0
	for i, w := range words {
		switch {
		case len(w) == 1 && (w == "T" || w == "D") && i+1 < len(words) && numberWord(words[i+1]):
			hits++
		case named[w] || isTimePoint(w) || smallWord(w):
			hits++
		case numberWord(w):
			hits++
			numbers++
		case i > 0 && numberWord(words[i-1]) && t.conditionUnit(w):
			hits++
		}
	}
	if hits == numbers && numbers == len(words) {
		return 0 // only numbers say nothing
	}
	if hits == len(words) {
		return 1
	}
	return 0.7 * float64(hits) / float64(len(words))
}

// onLine puts lowered digits on the line: T₁ is T1.
func onLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '₀' && r <= '₉' {
			return '0' + r - '₀'
		}
		return r
	}, s)
}

// conditionUnit reports whether a word after a number is a unit of time,
// temperature, length or load: a condition of the test.
func (t *table) conditionUnit(w string) bool {
	u := t.ls.cat.FindUnit(w)
	if u == nil {
		return false
	}
	switch u.Quantity {
	case "time", "temperature", "length", "rotational speed", "angle":
		return true
	}
	return false
}

func isTimePoint(w string) bool {
	if len(w) < 2 || len(w) > 3 || w[0] != 'T' && w[0] != 'D' && w[0] != 'M' && w[0] != 'W' {
		return false
	}
	for _, r := range w[1:] {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

func numberWord(w string) bool {
	switch strings.ToLower(w) {
	case "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "twelve", "first", "second", "third", "fourth",
		"1st", "2nd", "3rd", "4th", "5th", "6th":
		return true
	}
	for _, r := range w {
		if (r < '0' || r > '9') && r != '.' {
			return false
		}
	}
	return true
}

func smallWord(w string) bool {
	switch strings.ToLower(w) {
	case "at", "after", "to", "and", "the", "of", "in", "from", "between", "with", "°", "compared", "use", "uses", "level", "tip", "apex":
		return true
	}
	return false
}

// roles decides what each dimension is.
func (t *table) roles() {
	for _, d := range t.d {
		t.score(d)
	}
	arm := t.armDim()
	if arm != nil {
		arm.role = roleArm
		t.joinArms(arm)
	}
	found := false
	for _, d := range t.d {
		if d.role == roleNone && d.o >= 0.5 && d.o >= d.k && d.o >= d.a && !t.isHead(d) {
			d.role = roleOutcome
			found = true
		}
	}
	t.innerOutcome()
	if !found {
		found = t.outcomeAbove()
	}
	if !found {
		if d := t.leftOver(); d != nil {
			d.role = roleOutcome
		} else {
			t.above = t.lastResort()
		}
	}
	for _, d := range t.d {
		if d.role == roleNone && (len(d.distinct) > 1 || d.k >= 0.5 || d.section) && !t.isHead(d) {
			d.role = roleCondition
		}
	}
}

// innerOutcome gives row labels that nothing else is known of to the outcome
// where only the section headings over them were taken for one: "Material
// handling" over "Consistency".
func (t *table) innerOutcome() {
	var section, stub *dim
	for _, d := range t.d {
		if d.role == roleOutcome && d.section {
			section = d
		}
		if d.role == roleOutcome && !d.section {
			return
		}
		if d.role == roleNone && d.byRow && !d.section && d.k < 0.5 && d.a < 0.5 && len(d.distinct) > 1 {
			stub = d
		}
	}
	if section != nil && stub != nil {
		stub.role = roleOutcome
	}
}

// isHead reports whether a dimension is one heading that only says what is
// below it: "Treatment group", "Time intervals".
func (t *table) isHead(d *dim) bool {
	if d.byRow || len(d.distinct) != 1 {
		return false
	}
	k := t.ls.read(d.distinct[0]).kind
	return strings.HasSuffix(k, "-head")
}

// armDim picks the dimension of groups: the one that looks most like it, row
// labels before headings; where none does, the one that is nothing else.
func (t *table) armDim() *dim {
	var best *dim
	value := func(d *dim) float64 {
		v := d.a
		if d.o > d.a || d.k > d.a {
			v -= 0.5
		}
		if d.byRow {
			v += 0.05
			if t.headKind(d) == "arm-head" {
				v += 0.15
			}
		}
		if t.generic(d) {
			v -= 0.1
		}
		if len(d.distinct) == 1 {
			v -= 0.3
		}
		return v
	}
	for _, d := range t.d {
		if d.a >= 0.5 && !t.isHead(d) && (best == nil || value(d) > value(best)) {
			best = d
		}
	}
	if best != nil {
		return best
	}
	for _, d := range t.d {
		if d.o >= 0.5 || d.k >= 0.5 || len(d.distinct) < 2 {
			continue
		}
		if best == nil || t.rank(d) > t.rank(best) {
			best = d
		}
	}
	if best != nil && t.needsOutcome(best) {
		return nil
	}
	return best
}

// generic reports whether the groups of a dimension are only called by their
// part in the design: control and experimental.
func (t *table) generic(d *dim) bool {
	for _, s := range d.distinct {
		for _, w := range strings.Fields(key(s)) {
			switch w {
			case "control", "experimental", "test", "study", "intervention", "side", "case", "cases":
			default:
				return false
			}
		}
	}
	return true
}

// rank orders the dimensions that nothing is known of: groups stand in the
// row labels more often than in the headings, in sections least.
func (t *table) rank(d *dim) int {
	switch {
	case d.section:
		return 0
	case d.byRow && d.level == 0:
		return 2
	}
	return 1
}

// needsOutcome reports whether the only dimension left must be the outcome,
// since nothing else names one.
func (t *table) needsOutcome(d *dim) bool {
	for _, other := range t.d {
		if other != d && (other.o >= 0.5 || other.a >= 0.5 || other.k < 0.5 && len(other.distinct) > 1) {
			return false
		}
	}
	return t.captionOutcome().name == ""
}

// joinArms joins the row labels that go with the groups one to one, a number
// and its description, and sets those apart that say what each group is.
func (t *table) joinArms(arm *dim) {
	if !arm.byRow || arm.section {
		return
	}
	for _, d := range t.d {
		if d == arm || !d.byRow || d.section || d.o >= 0.5 || d.k >= 0.5 || len(d.distinct) < 1 {
			continue
		}
		trait := t.headKind(d) == "trait"
		if len(d.distinct) > len(arm.distinct) || len(d.distinct) == 1 && !trait {
			continue
		}
		pair, ok := map[string]string{}, true
		for r, l := range arm.labels {
			if l == nil || d.labels[r] == nil {
				continue
			}
			if was, seen := pair[l.clean]; seen && was != d.labels[r].clean {
				ok = false
			}
			pair[l.clean] = d.labels[r].clean
		}
		switch {
		case !ok || len(pair) != len(arm.distinct):
		case trait || len(d.distinct) < len(arm.distinct):
			d.role = roleTrait
		default:
			d.role, d.joined = roleArm, true
		}
	}
}

// outcomeAbove reports whether the caption, the corner of the table or one
// heading over all columns names the outcome.
func (t *table) outcomeAbove() bool {
	for _, d := range t.d {
		if d.role == roleNone && len(d.distinct) == 1 && d.o >= 0.5 {
			d.role = roleOutcome
			return true
		}
	}
	if c := t.corner(); c != nil && (c.outcome != nil || c.unit != "" && c.kind == "") && c.clean != "" {
		t.above = named{name: c.clean, outcome: c.outcome, unit: c.unit, unitID: c.unitID, label: c}
		return true
	}
	if c := t.captionOutcome(); c.name != "" {
		t.above = c
		return true
	}
	for _, d := range t.d {
		if d.role == roleNone && d.k < 0.5 && len(d.distinct) > 1 && !t.isHead(d) {
			return false // this one names it
		}
	}
	if c := t.corner(); c != nil && c.clean != "" && !strings.HasSuffix(c.kind, "-head") && !t.headOnly(c.clean) {
		t.above = named{name: c.clean, unit: c.unit, unitID: c.unitID, label: c}
		return true
	}
	if c := t.textOutcome(); c.name != "" {
		t.above = c
		return true
	}
	return false
}

// textOutcome is the outcome of the sentence that points to the table, or of
// the title: one whose unit goes with the caption's.
func (t *table) textOutcome() named {
	pick := func(text string) named {
		for _, m := range t.ls.cat.FindOutcomes(text) {
			if t.caption.unitID != "" && m.Row.Quantity != "" {
				if u := t.ls.cat.Unit(t.caption.unitID); u != nil && u.Quantity != m.Row.Quantity {
					continue
				}
			}
			return named{name: text[m.Start:m.End], outcome: m.Row, unit: t.caption.unit, unitID: t.caption.unitID, label: t.caption}
		}
		return named{}
	}
	for _, s := range t.mentions() {
		if n := pick(s.text); n.name != "" {
			return n
		}
	}
	return pick(t.doc.Meta.Title)
}

// headOnly reports whether a corner only heads the row labels: "The groups
// according to dose", "Type of material".
func (t *table) headOnly(s string) bool {
	for _, m := range t.ls.cat.FindLabels(s) {
		if m.Row.Kind == "arm-head" || m.Row.Kind == "outcome-head" {
			return true
		}
	}
	return groupWord(s)
}

// lastResort names the outcome by the corner of the table or by the caption's
// own words, where neither is in the catalogue.
func (t *table) lastResort() named {
	if c := t.corner(); c != nil && c.clean != "" && !strings.HasSuffix(c.kind, "-head") {
		return named{name: c.clean, unit: c.unit, unitID: c.unitID, label: c}
	}
	return named{name: captionWords(t.caption.clean), unit: t.caption.unit, unitID: t.caption.unitID, label: t.caption}
}

// captionWords is what a caption says was measured: its words without the
// statistics before and the groups after them.
func captionWords(s string) string {
	low := strings.ToLower(s)
	for _, lead := range []string{"values of ", "value of ", "deviations of ", "deviation of ", "means of ", "mean of ", "(sd) of ", "comparison of ", "results of ", "statistics of ",
		"distribution of ", "analysis of ", "comparisons of ", "descriptive statistics for ", "comparison between ", "the mean ", "mean "} {
		if i := strings.Index(low, lead); i >= 0 && i < 60 {
			s, low = s[i+len(lead):], low[i+len(lead):]
		}
	}
	end := len(s)
	for _, tail := range []string{" in the ", " between ", " among ", " of the tested", " for the ", " for each", " in each", " of the groups", " by group", " of all", " in all", " obtained", " at different",
		" according to", " of different", " after ", " before ", ". ", " (", ";", " in different", " in experimental", " for "} {
		if i := strings.Index(low, tail); i > 3 && i < end {
			end = i
		}
	}
	return tidy(s[:end])
}

// leftOver picks the dimension that must name the outcome, as nothing else
// does.
func (t *table) leftOver() *dim {
	var best *dim
	for _, d := range t.d {
		if d.role != roleNone || d.k >= 0.5 || t.isHead(d) {
			continue
		}
		if best == nil || d.byRow && !best.byRow || d.byRow == best.byRow && !d.section && best.section || len(d.distinct) > len(best.distinct) && d.byRow == best.byRow {
			best = d
		}
	}
	return best
}

// corner is the label in the corner of the table, over the row labels.
func (t *table) corner() *label {
	for c := 0; c < t.g.cols && t.g.stub[c]; c++ {
		for _, s := range t.g.headings[c] {
			if s == "" {
				continue
			}
			if l := t.ls.read(s); l.clean != "" {
				return l
			}
		}
	}
	return nil
}
