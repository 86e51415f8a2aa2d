package main

import (
	"fmt"
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/reading"
	"probity/claims/report"
	"probity/extract"
)

// singular names what one label of an axis is, by what the axis tells apart.
var singular = map[string]string{"groups": "group", "outcomes": "outcome", "conditions": "condition", "mere headings": "heading"}

// tableParts shows each table as printed, with what its labels and figures
// were taken for, and what its axes tell apart.
func tableParts(doc *extract.Document, study *claims.Study) []report.Part {
	var out []report.Part
	for _, t := range doc.Tables() {
		readings := readingsOf(study, t.Place.Table)
		if len(readings) == 0 || len(t.Rows) == 0 {
			continue
		}
		out = append(out, report.Heading{Level: 2, Text: strings.TrimSpace("Table " + t.Place.Table + ": " + t.Caption)}, printedTable(t, study, readings))
		for i, r := range readings {
			if len(readings) > 1 {
				out = append(out, report.Para{Text: fmt.Sprintf("Block %d:", i+1)})
			}
			for k := range r.Axes {
				out = append(out, axisEntry(&r.Axes[k]))
			}
			if r.Outcome != "" {
				out = append(out, report.Entry{Lead: "outcome", Head: r.Outcome, Lines: []report.Line{{Label: "from", Text: "the " + strings.TrimPrefix(r.From, "known ")}}})
			}
		}
	}
	return out
}

func readingsOf(study *claims.Study, table string) []*claims.TableReading {
	var out []*claims.TableReading
	for _, r := range study.Tables {
		if r.Place.Table == table && len(r.Axes) > 0 {
			out = append(out, r)
		}
	}
	return out
}

// widestColumn is how many letters of a cell the printed table shows.
const widestColumn = 26

// printedTable prints a table with its row and column numbers. Labels are
// followed by what they were taken for, figures by their id or, where they are
// set apart, by "aside".
func printedTable(t *extract.Table, study *claims.Study, readings []*claims.TableReading) report.Table {
	ids := figureIDs(study, t.Place.Table)
	cols := 0
	for _, row := range t.Rows {
		cols = max(cols, len(row))
	}
	out := report.Table{Head: []string{"row"}}
	for c := range cols {
		out.Head = append(out.Head, strconv.Itoa(c+1))
	}
	for _, row := range t.Rows {
		line := []report.Cell{{}}
		for c := range row {
			cell := &row[c]
			text := ""
			if !cell.Copy {
				text = cut(cell.Text(), widestColumn)
				if is := takenFor(cell.Place, readings, ids); is != "" && text != "" {
					text += " [" + is + "]"
				}
				if line[0].Text == "" && cell.Place.Row > 0 {
					line[0].Text = strconv.Itoa(cell.Place.Row)
				}
			}
			line = append(line, report.Cell{Text: text})
		}
		out.Rows = append(out.Rows, line)
	}
	return out
}

// figureIDs gives what the figures of a table became, by place.
func figureIDs(study *claims.Study, table string) map[[2]int]string {
	out := map[[2]int]string{}
	for _, a := range study.Apart {
		if a.Place.Table == table || a.Place.Table == "" {
			out[[2]int{a.Place.Row, a.Place.Col}] = "aside"
		}
	}
	for _, m := range study.Measures {
		if m.Place.Table == table && m.Place.Row > 0 {
			out[[2]int{m.Place.Row, m.Place.Col}] = m.ID
		}
	}
	return out
}

func takenFor(p extract.Place, readings []*claims.TableReading, ids map[[2]int]string) string {
	if id := ids[[2]int{p.Row, p.Col}]; id != "" {
		return id
	}
	for _, r := range readings {
		if axis, mark := r.Of(p); axis != nil {
			return singular[axis.Is.Best.Value]
		} else if mark != "" {
			return mark
		}
	}
	return ""
}

func axisEntry(a *claims.Axis) report.Entry {
	e := report.Entry{Lead: a.Is.Best.Value, Head: a.Name + ": " + listed(a.Labels, 6)}
	if because := reasonsOf(a.Is.Best.Reasons); because != "" {
		e.Lines = append(e.Lines, report.Line{Label: "because", Text: because})
	}
	if !a.Is.Sure() {
		e.Tone = report.Careful
		e.Lines = append(e.Lines, report.Line{Label: "or", Text: fmt.Sprintf("%s; the gap is %.1f, below %.0f it is in doubt", a.Is.Second.Value, a.Is.Gap(), reading.Wide)})
	}
	return e
}

// reasonsOf lists the reasons that speak for a reading, heaviest first.
func reasonsOf(reasons []reading.Reason) string {
	var out []string
	for _, r := range reasons {
		if r.Weight > 0.3 && len(out) < 4 {
			out = append(out, fmt.Sprintf("%s (%+.1f)", r.Text, r.Weight))
		}
	}
	return strings.Join(out, "; ")
}

func listed(names []string, most int) string {
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(", … (%d)", len(names))
	}
	return strings.Join(names, ", ")
}

func cut(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-1]) + "…"
}

// cellNamed reads the name of a cell: "2.3.4" for table 2, row 3, column 4, or
// a place as probity prints it.
func cellNamed(s string) (extract.Place, error) {
	if strings.Contains(s, "=") {
		return extract.ParsePlace(s)
	}
	parts := strings.Split(s, ".")
	if n := len(parts); n > 2 {
		row, err := strconv.Atoi(parts[n-2])
		col, err2 := strconv.Atoi(parts[n-1])
		if err == nil && err2 == nil && row > 0 && col > 0 {
			return extract.Place{Table: strings.Join(parts[:n-2], "."), Row: row, Col: col}, nil
		}
	}
	return extract.Place{}, fmt.Errorf("%q names no cell: write TABLE.ROW.COLUMN, such as 2.3.4, as the tables of probity read are numbered", s)
}

// why tells all that is known of one cell.
func why(doc *extract.Document, study *claims.Study, at extract.Place) (report.Report, error) {
	r := report.Report{Title: fmt.Sprintf("%s: table %s, row %d, column %d", doc.File, at.Table, at.Row, at.Col)}
	for _, m := range study.Measures {
		if m.Place.Table == at.Table && m.Place.Row == at.Row && m.Place.Col == at.Col {
			r.Parts = whyMeasure(m)
			return r, nil
		}
	}
	for _, a := range study.Apart {
		if a.Place.Table == at.Table && a.Place.Row == at.Row && a.Place.Col == at.Col {
			r.Parts = append(r.Parts, report.Entry{Lead: "aside", Head: a.Text + ": " + a.Why, Place: a.Place})
			return r, nil
		}
	}
	for _, t := range study.Tables {
		if t.Place.Table != at.Table {
			continue
		}
		if axis, mark := t.Of(at); axis != nil {
			r.Parts = append(r.Parts, axisEntry(axis))
			return r, nil
		} else if mark != "" {
			r.Parts = append(r.Parts, report.Entry{Lead: mark, Head: "the label says what the figures beside or below it are"})
			return r, nil
		}
	}
	text, err := printedAt(doc, at)
	if err != nil {
		return r, err
	}
	r.Parts = append(r.Parts, report.Entry{Lead: "nothing", Head: fmt.Sprintf("“%s” was taken neither for a figure nor for a label", text), Place: at})
	return r, nil
}

// printedAt gives what a cell prints, and an error that says what there is
// where no cell stands.
func printedAt(doc *extract.Document, at extract.Place) (string, error) {
	var labels []string
	for _, t := range doc.Tables() {
		labels = append(labels, t.Place.Table)
		if t.Place.Table != at.Table {
			continue
		}
		for r := range t.Rows {
			for c := range t.Rows[r] {
				if p := t.Rows[r][c].Place; p.Row == at.Row && p.Col == at.Col && !t.Rows[r][c].Copy {
					return t.Rows[r][c].Text(), nil
				}
			}
		}
		return "", fmt.Errorf("%s: table %s has no cell at row %d, column %d; probity read prints it with the numbers of its rows and columns", doc.File, at.Table, at.Row, at.Col)
	}
	if len(labels) == 0 {
		return "", fmt.Errorf("%s: no table was read", doc.File)
	}
	return "", fmt.Errorf("%s: there is no table %s; there are %s", doc.File, at.Table, strings.Join(labels, ", "))
}

func whyMeasure(m *claims.Measure) []report.Part {
	e := report.Entry{Lead: m.Centre.String(), Head: m.Text, Place: m.Place}
	add := func(label, text string) {
		if text != "" {
			e.Lines = append(e.Lines, report.Line{Label: label, Text: text})
		}
	}
	name := m.ArmText
	if m.Arm != nil && m.Arm.Name != "" && m.Arm.Name != name {
		name += " (" + m.Arm.Name + ")"
	}
	add("group", name)
	add("outcome", m.Outcome)
	add("condition", m.Condition)
	add("unit", m.Unit)
	if m.Spread.Known() {
		add("spread", fmt.Sprintf("%s, taken for %s%s", m.Spread.Text, m.Spread.Kind, because(m.Spread.Why)))
	}
	if m.N.Known() {
		add("n", m.N.Text+because(m.N.Why))
	} else {
		add("n", "not found")
	}
	add("marks", m.Letters)
	add("doubt", m.Doubt.String())
	parts := []report.Part{e}
	if m.Table == nil {
		return parts
	}
	for i := range m.Table.Axes {
		a := m.Table.Axes[i]
		if i < len(m.Over) && m.Over[i] != "" {
			entry := axisEntry(&a)
			entry.Head = "“" + m.Over[i] + "” of " + entry.Head
			entry.Lead = singular[a.Is.Best.Value]
			parts = append(parts, entry)
		}
	}
	if m.Table.Outcome != "" {
		parts = append(parts, report.Entry{Lead: "outcome", Head: m.Table.Outcome, Lines: []report.Line{{Label: "from", Text: "the " + strings.TrimPrefix(m.Table.From, "known ")}}})
	}
	return parts
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return ", from: " + why
}

// asideTable says of each table why figures of it were set apart, and how many.
func asideTable(apart []claims.Apart) []report.Part {
	type key struct{ table, why string }
	var order []key
	of := map[key][]claims.Apart{}
	for _, a := range apart {
		k := key{a.Place.Table, a.Why}
		if of[k] == nil {
			order = append(order, k)
		}
		of[k] = append(of[k], a)
	}
	if len(order) == 0 {
		return nil
	}
	t := report.Table{Caption: "Figures left aside", Head: []string{"table", "because", "figures", "such as", "place"}, Right: []bool{false, false, true}}
	for _, k := range order {
		first := of[k][0]
		place := first.Place
		place.File, place.Section = "", ""
		t.Rows = append(t.Rows, []report.Cell{{Text: k.table}, {Text: k.why}, {Text: strconv.Itoa(len(of[k]))}, {Text: cut(first.Text, 28)}, {Text: place.String()}})
	}
	return []report.Part{t}
}
