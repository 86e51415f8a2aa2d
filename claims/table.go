package claims

import (
	"probity/claims/reading"
	"probity/extract"
)

// A TableReading says how a table, or a block of it under headings of its own,
// was understood.
type TableReading struct {
	Place   extract.Place // of the table
	Axes    []Axis
	Marks   []Mark
	Outcome string // what names the outcome where no axis does
	From    string // where it stands: "caption", "corner", "text"
}

// An Axis is one level of headings or one column of row labels, with what it
// tells apart: "groups", "outcomes", "conditions", or "mere headings".
type Axis struct {
	Name   string // "the row labels"
	Labels []string
	Is     reading.Choice[string]
	Cells  []extract.Place // where its labels stand
}

// A Mark is a label that says what the figures beside or below it are: means,
// SDs, n, p.
type Mark struct {
	Is    string
	Place extract.Place
}

// Of gives what the axis over a cell says there, "" if the cell is no label of
// an axis.
func (t *TableReading) Of(p extract.Place) (axis *Axis, mark string) {
	for i := range t.Axes {
		for _, c := range t.Axes[i].Cells {
			if c.Row == p.Row && c.Col == p.Col {
				return &t.Axes[i], ""
			}
		}
	}
	for _, m := range t.Marks {
		if m.Place.Row == p.Row && m.Place.Col == p.Col {
			return nil, m.Is
		}
	}
	return nil, ""
}
