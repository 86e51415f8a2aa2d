package assemble

import (
	"slices"

	"probity/claims"
	"probity/claims/reading"
	"probity/claims/tabular"
	"probity/extract"
)

// plural names what an axis tells apart.
var plural = map[tabular.Category]string{tabular.Heading: "mere headings", tabular.Arm: "groups", tabular.Outcome: "outcomes", tabular.Condition: "conditions"}

// keepReading keeps how the table was understood, for people to see.
func (t *table) keepReading() {
	out := &claims.TableReading{Place: t.place}
	for _, d := range t.d {
		out.Axes = append(out.Axes, claims.Axis{Name: t.axisName(d), Labels: d.distinct, Is: choiceOf(d), Cells: t.cellsOf(d)})
	}
	if !t.has(roleOutcome) && t.above.name != "" {
		out.Outcome, out.From = t.above.name, t.outcomeOver().Name
	}
	mark := func(l *label, at extract.Place) {
		if len(l.marks) > 0 && at.Row > 0 {
			out.Marks = append(out.Marks, claims.Mark{Is: l.marks[0], Place: at})
		}
	}
	for r := 0; r < len(t.g.rows); r++ {
		for c := 0; c < t.g.cols; c++ {
			if cell := t.g.cell(r, c); !cell.Copy && t.g.text[r][c] != "" && (r < t.g.head || t.g.stub[c]) {
				mark(t.ls.read(t.g.text[r][c]), cell.Place)
			}
		}
	}
	t.reading = out
	t.study.Tables = append(t.study.Tables, out)
}

// choiceOf gives the choice of an axis's category in words.
func choiceOf(d *dim) reading.Choice[string] {
	of := func(c reading.Candidate[tabular.Category]) reading.Candidate[string] {
		return reading.Candidate[string]{Value: plural[c.Value], Score: c.Score, Reasons: c.Reasons}
	}
	return reading.Choice[string]{Best: of(d.choice.Best), Second: of(d.choice.Second)}
}

// cellsOf lists where the labels of a dimension are printed.
func (t *table) cellsOf(d *dim) []extract.Place {
	var out []extract.Place
	add := func(r, c int) {
		if cell := t.g.cell(r, c); !cell.Copy && cell.Place.Row > 0 {
			out = append(out, cell.Place)
		}
	}
	switch {
	case !d.byRow:
		for c, l := range d.labels {
			if l != nil && l.clean != "" {
				add(d.level, c)
			}
		}
	case d.section:
		for r := t.g.head; r < len(t.g.rows); r++ {
			for c := 0; c < t.g.cols; c++ {
				if s := t.g.text[r][c]; s != "" && t.g.rows[r].section && slices.Contains(d.distinct, t.ls.read(s).clean) {
					add(r, c)
				}
			}
		}
	default:
		for r, l := range d.labels {
			if l != nil && l.clean != "" {
				add(r, d.level)
			}
		}
	}
	return out
}

// over lists the name that each axis of the table has over a cell.
func (t *table) over(p part) []string {
	var out []string
	for _, d := range t.d {
		name := ""
		if l := d.at(p.r, p.c); l != nil {
			name = l.clean
		}
		out = append(out, name)
	}
	return out
}
