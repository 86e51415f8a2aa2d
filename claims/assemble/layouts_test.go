package assemble_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
	"probity/extract"
)

// paperOf makes a document of invented prose and tables. A table is written
// a row a line, cells between bars: "#" before a row makes it a heading, "<"
// repeats the cell on the left (a merged cell), "^" the one above, and
// {letters} are raised. Lines before the first row are the caption; lines
// that begin with "NOTE:" are notes.
func paperOf(t *testing.T, methods string, tables ...string) *extract.Document {
	t.Helper()
	doc := &extract.Document{ID: "0", File: "invented.xml", Format: "jats"}
	for i, s := range strings.Split(methods, "\n") {
		if s = strings.TrimSpace(s); s != "" {
			at := extract.Place{File: doc.File, Section: extract.Methods, Par: i + 1}
			if rest, ok := strings.CutPrefix(s, "RESULTS: "); ok {
				s, at.Section = rest, extract.Results
			}
			if rest, ok := strings.CutPrefix(s, "TITLE: "); ok {
				doc.Meta.Title = rest
				continue
			}
			doc.Blocks = append(doc.Blocks, &extract.Prose{Place: at, Runs: []extract.Run{{Text: s}}})
		}
	}
	for i, s := range tables {
		doc.Blocks = append(doc.Blocks, tableOf(s, fmt.Sprint(i+1)))
	}
	return doc
}

func tableOf(s, label string) *extract.Table {
	t := &extract.Table{Label: label, Place: extract.Place{File: "invented.xml", Section: extract.InTable, Table: label}}
	for _, line := range strings.Split(strings.Trim(s, "\n"), "\n") {
		line = strings.TrimSpace(line)
		switch {
		case strings.HasPrefix(line, "NOTE:"):
			t.Notes = append(t.Notes, strings.TrimSpace(line[5:]))
		case !strings.Contains(line, "|"):
			t.Caption = strings.TrimSpace(t.Caption + " " + line)
		default:
			if rest, ok := strings.CutPrefix(line, "#"); ok {
				line = rest
				t.Head++
			}
			t.Rows = append(t.Rows, rowOf(line, t))
		}
	}
	return t
}

func rowOf(line string, t *extract.Table) []extract.Cell {
	var row []extract.Cell
	r := len(t.Rows)
	for c, s := range strings.Split(line, "|") {
		cell := extract.Cell{Place: extract.Place{File: "invented.xml", Section: extract.InTable, Table: t.Label, Row: r + 1, Col: c + 1}}
		switch s = strings.TrimSpace(s); {
		case s == "<":
			cell.Runs, cell.Copy = row[c-1].Runs, true
		case s == "^" && r > 0:
			cell.Runs, cell.Copy = t.Rows[r-1][c].Runs, true
			origin := r - 1
			for origin > 0 && t.Rows[origin][c].Copy {
				origin--
			}
			t.Rows[origin][c].Rows = r - origin + 1
		default:
			for i, part := range strings.FieldsFunc(s, func(r rune) bool { return r == '{' || r == '}' }) {
				raised := strings.HasPrefix(s, "{") == (i%2 == 0)
				cell.Runs = append(cell.Runs, extract.Run{Text: part, Raised: raised})
			}
		}
		row = append(row, cell)
	}
	return row
}

// lineOf writes a measure on one line: arm; outcome; condition; figures; n;
// unit; letters. What is not known is left empty.
func lineOf(m *claims.Measure) string {
	figures := m.Mean.Text
	if m.Centre == claims.Median {
		figures = "median " + figures
	}
	if m.Spread.Known() {
		figures += " " + m.Spread.Kind.String() + " " + m.Spread.Text
	}
	if m.Min.Known() && m.Spread.Kind != claims.Range {
		figures += " min " + m.Min.Text + " max " + m.Max.Text
	}
	return strings.Join([]string{m.ArmText, m.Outcome, m.Condition, figures, m.N.Text, m.Unit, m.Letters}, "; ")
}

func TestLayouts(t *testing.T) {
	for _, c := range slices.Concat(layouts, moreLayouts, pairLayouts) {
		t.Run(c.name, func(t *testing.T) {
			doc := paperOf(t, c.methods, c.table)
			study := assemble.Study(doc, nil, catalog.Default())
			var got []string
			for _, m := range study.Measures {
				got = append(got, strings.TrimSpace(lineOf(m)))
			}
			want := strings.Split(strings.Trim(c.want, "\n"), "\n")
			for i := range want {
				want[i] = strings.TrimSpace(want[i])
			}
			if c.want == "" {
				want = nil
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("measures (-want +got):\n%s", diff)
			}
		})
	}
}
