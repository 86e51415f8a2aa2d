package assemble

import (
	"strings"
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
