package assemble

import (
	"probity/claims/reading"
	"probity/claims/tabular"
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
	all      []*label // the same, also where no measures stand
	distinct []string // the different names, in order
	role     role
	joined   bool    // one with the arm: each arm has its own
	placed   float64 // the share of its words that name times or places
	choice   reading.Choice[tabular.Category]
}

func (d *dim) at(r, c int) *label {
	if d.byRow {
		return d.labels[r]
	}
	return d.labels[c]
}

// set gives the dimension a label; live: measures stand there.
func (d *dim) set(i int, l *label, live bool) {
	d.all[i] = l
	if live {
		d.labels[i] = l
	}
}

// over is the label over a cell, also where no measures stand.
func (d *dim) over(r, c int) *label {
	if d.byRow {
		return d.all[r]
	}
	return d.all[c]
}

// dims lists the dimensions of a table.
func (t *table) dims() {
	g := t.g
	for i := 0; i < g.head; i++ {
		d := &dim{level: i, labels: make([]*label, g.cols), all: make([]*label, g.cols)}
		for c := 0; c < g.cols; c++ {
			if !g.stub[c] && g.headings[c][i] != "" {
				d.set(c, t.col[c].own(t.labelAt(g.headings[c][i], headingPlace(i))), t.col[c].live)
			}
		}
		t.keep(d)
	}
	depth := 0
	for r := range g.rows {
		depth = max(depth, len(g.rows[r].sections))
	}
	for i := 0; i < depth; i++ {
		d := &dim{byRow: true, section: true, level: i, labels: make([]*label, len(g.rows)), all: make([]*label, len(g.rows))}
		for r := range g.rows {
			if s := g.rows[r].sections; r >= g.head && i < len(s) {
				d.set(r, t.row[r].own(t.labelAt(s[i], sectionPlace)), t.row[r].live)
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
		d := &dim{byRow: true, level: c, labels: make([]*label, len(g.rows)), all: make([]*label, len(g.rows))}
		for r := range g.rows {
			if r >= g.head && g.text[r][c] != "" {
				d.set(r, t.row[r].own(t.labelAt(g.text[r][c], stubPlace(c))), t.row[r].live)
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
	d.tell()
	if two := t.twoNames(d); two != nil {
		t.d = append(t.d, two...)
	} else if len(d.distinct) > 0 {
		t.d = append(t.d, d)
	}
}

// tell lists the different names of a dimension.
func (d *dim) tell() {
	seen := map[string]bool{}
	for _, l := range d.labels {
		if l != nil && l.clean != "" && !seen[l.clean] {
			seen[l.clean] = true
			d.distinct = append(d.distinct, l.clean)
		}
	}
}

// roles decides what each dimension is: of all readings of the table the one
// that its signs speak for most.
func (t *table) roles() {
	axes, choices := t.tabular().Choose(t.weights())
	for i, d := range t.d {
		d.role, d.choice = categoryRoles[axes[i]], choices[i]
	}
	if !t.has(roleOutcome) {
		t.above = t.outcomeAbove()
	}
	for _, d := range t.d {
		if d.role == roleArm {
			t.joinArms(d)
			break
		}
	}
}

var categoryRoles = map[tabular.Category]role{tabular.Heading: roleNone, tabular.Arm: roleArm, tabular.Outcome: roleOutcome, tabular.Condition: roleCondition}

func (t *table) has(is role) bool {
	for _, d := range t.d {
		if d.role == is {
			return true
		}
	}
	return false
}

// joinArms joins the row labels that go with the groups one to one, a number
// and its description, and sets those apart that say what each group is.
func (t *table) joinArms(arm *dim) {
	if !arm.byRow || arm.section {
		return
	}
	for _, d := range t.d {
		if d == arm || !d.byRow || d.section || d.role == roleOutcome || d.placed >= 0.5 || len(d.distinct) < 1 {
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
