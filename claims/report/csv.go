package report

import (
	"encoding/csv"
	"io"
	"strconv"
)

// writeCSV writes the tables of a report as CSV (RFC 4180), an empty line
// between two. A report without a table gives its entries as one. Figures are
// written in full; text that a spreadsheet would take for a formula is marked.
func writeCSV(w io.Writer, r Report, _ Layout) error {
	out := csv.NewWriter(w)
	tables := tablesOf(r)
	for i, t := range tables {
		if i > 0 {
			out.Flush()
			if err := out.Error(); err != nil {
				return err
			}
			if _, err := io.WriteString(w, "\n"); err != nil {
				return err
			}
		}
		head := make([]string, len(t.Head))
		for k, h := range t.Head {
			head[k] = Sheet(h)
		}
		if err := out.Write(head); err != nil {
			return err
		}
		for _, row := range t.Rows {
			cells := make([]string, len(row))
			for k, c := range row {
				cells[k] = sheetCell(c)
			}
			if err := out.Write(cells); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}

func sheetCell(c Cell) string {
	if c.Value != nil && finite(*c.Value) != nil {
		return strconv.FormatFloat(*c.Value, 'g', -1, 64)
	}
	return Sheet(c.Text)
}

// tablesOf gives the tables of a report; entries become a table of their own
// where there are no others.
func tablesOf(r Report) []Table {
	var out []Table
	entries := Table{Head: []string{"matter", "text", "label", "line", "place"}}
	for _, p := range r.Parts {
		switch p := p.(type) {
		case Table:
			out = append(out, p)
		case Entry:
			entries.Rows = append(entries.Rows, []Cell{{Text: p.Lead}, {Text: p.Head}, {}, {}, {Text: at(p.Place)}})
			for _, l := range p.Lines {
				label := l.Label
				if l.Quote {
					label = "sentence"
				}
				entries.Rows = append(entries.Rows, []Cell{{Text: p.Lead}, {}, {Text: label}, {Text: l.Text}, {Text: at(p.Place)}})
			}
		}
	}
	if len(entries.Rows) > 0 {
		out = append(out, entries)
	}
	return out
}
