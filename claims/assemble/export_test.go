package assemble

import (
	"strings"

	"probity/claims/catalog"
	"probity/claims/tabular"
	"probity/extract"
)

// Axes is a table as far as its axes, for tests of how they are told apart.
type Axes struct {
	Label string // of the table, "2"
	tabular.Table
	t *table
}

// AxesOf reads the tables of a document as far as their axes.
func AxesOf(doc *extract.Document) []*Axes {
	p := newPaper(doc, catalog.Default())
	p.readGroups()
	p.readDesign()
	var out []*Axes
	for _, t := range p.layOutAll() {
		t.again()
		out = append(out, &Axes{Label: strings.ToLower(t.place.Table), Table: *t.tabular(), t: t})
	}
	return out
}

// Printed lists the labels of an axis as printed, one for each row or column.
func (a *Axes) Printed(axis int) []string {
	var out []string
	for _, l := range a.t.d[axis].labels {
		if l != nil && l.clean != "" {
			out = append(out, l.text)
		}
	}
	return out
}

// Over gives, for each figure printed so, the name that each axis has over it.
func (a *Axes) Over(figure string) [][]string {
	var out [][]string
	g := a.t.g
	for r := g.head; r < len(g.rows); r++ {
		for c := 0; c < g.cols; c++ {
			if g.stub[c] || g.read[r][c].Number.Text != figure {
				continue
			}
			var names []string
			for _, d := range a.t.d {
				name := ""
				if l := d.at(r, c); l != nil {
					name = l.clean
				}
				names = append(names, name)
			}
			out = append(out, names)
		}
	}
	return out
}
