package assemble

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"probity/claims"
	"probity/extract"
	"probity/extract/numeral"
)

// A Correction is one line that a person wrote beside a paper.
type Correction struct {
	Line  int // of the corrections file
	File  string
	Place extract.Place
	Field string // "text", or one of Fields
	Was   string // what is printed there: the line applies only where it is found
	Now   string
	Why   string
}

// Fields lists what a correction can put right: the print of a cell, the
// meanings of figures, and which figures a sentence is about (see Tie).
var Fields = []string{"text", "role", "arm", "outcome", "condition", "unit", "spread", "centre", "n", "letters", about}

// ReadCorrections reads a corrections file: a header line place,field,was,
// now,why and a correction a line. Lines that cannot be used become problems;
// lines whose now is empty are a sheet that was not filled in and are passed
// over. The error says that the file as a whole cannot be read.
func ReadCorrections(r io.Reader, name string) ([]Correction, []*extract.Problem, error) {
	in := csv.NewReader(r)
	in.FieldsPerRecord = -1
	in.TrimLeadingSpace = true
	head, err := in.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(head) < 5 || strings.Join(trimAll(head[:5]), ",") != strings.Join(sheetHead, ",") {
		return nil, nil, fmt.Errorf("%s: the first line is %q; it must be %s", name, strings.Join(head, ","), strings.Join(sheetHead, ","))
	}
	var out []Correction
	var problems []*extract.Problem
	for {
		fields, err := in.Read()
		if errors.Is(err, io.EOF) {
			return out, problems, nil
		}
		if err != nil {
			return out, problems, fmt.Errorf("%s: %w", name, err)
		}
		line, _ := in.FieldPos(0)
		c, problem := correction(fields, name, line)
		switch {
		case problem != "":
			problems = append(problems, &extract.Problem{Place: extract.Place{File: name}, What: fmt.Sprintf("line %d: %s", line, problem)})
		case c.Now != "":
			out = append(out, c)
		}
	}
}

func trimAll(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = strings.TrimSpace(strings.TrimPrefix(s, "\ufeff"))
	}
	return out
}

// correction checks one line.
func correction(fields []string, name string, line int) (Correction, string) {
	for len(fields) < 5 {
		fields = append(fields, "")
	}
	f := trimAll(fields)
	for i := range f {
		f[i] = strings.TrimPrefix(f[i], "'") // as spreadsheets guard text
	}
	c := Correction{Line: line, File: name, Field: strings.ToLower(f[1]), Was: f[2], Now: f[3], Why: f[4]}
	if c.Now == "" {
		return c, ""
	}
	var err error
	if c.Place, err = extract.ParsePlace(f[0]); err != nil {
		return c, err.Error()
	}
	switch {
	case c.Place.Table == "" && c.Field != about:
		return c, "the place names no table; corrections are for tables, such as table=2 row=4 col=3"
	case !slices.Contains(Fields, c.Field):
		return c, fmt.Sprintf("field %q is not known; the fields are %s", c.Field, strings.Join(Fields, ", "))
	case c.Was == "":
		return c, "was is empty; write what is printed there, so that the line applies to nothing else"
	case c.Why == "":
		return c, "why is empty; the report prints the reason of every correction"
	}
	return c, ""
}

// applyText puts right the cells that a person corrected, on a copy of the
// tables. Marked tells which cells were touched, and why.
func applyText(doc *extract.Document, corrections []Correction) (*extract.Document, map[extract.Place]string, []*extract.Problem) {
	marked := map[extract.Place]string{}
	var problems []*extract.Problem
	out := doc
	for _, c := range corrections {
		if c.Field != "text" {
			continue
		}
		cell := findCell(out, c.Place)
		if cell == nil {
			problems = append(problems, c.problem("there is no such cell"))
			continue
		}
		if now := cell.Text(); !sameText(now, c.Was) {
			problems = append(problems, c.problem(fmt.Sprintf("was %q, now reads %q: this line may no longer be needed", c.Was, now)))
			continue
		}
		if out == doc {
			out = copyTables(doc)
			cell = findCell(out, c.Place)
		}
		cell.Runs = []extract.Run{{Text: c.Now}}
		marked[extract.Place{Table: c.Place.Table, Row: c.Place.Row, Col: c.Place.Col}] = c.Why
	}
	return out, marked, problems
}

func (c Correction) problem(what string) *extract.Problem {
	return &extract.Problem{Place: c.Place, What: fmt.Sprintf("%s line %d: %s", c.File, c.Line, what), Try: "compare the line with the paper, or take it out"}
}

// sameText compares what a person copied with what is printed: white space
// and raised characters aside, the first forty characters.
func sameText(printed, was string) bool {
	a, b := []rune(flatten(printed)), []rune(flatten(was))
	if len(a) > 40 && len(b) >= 40 {
		return string(a[:40]) == string(b[:40])
	}
	return string(a) == string(b)
}

func flatten(s string) string {
	return strings.Map(func(r rune) rune {
		if p, ok := extract.Unraise(r); ok {
			return p
		}
		if r == ' ' {
			return -1
		}
		return r
	}, extract.Fold(s))
}

// copyTables copies a document as deep as its cells.
func copyTables(doc *extract.Document) *extract.Document {
	d := *doc
	d.Blocks = slices.Clone(doc.Blocks)
	for i, b := range d.Blocks {
		t, ok := b.(*extract.Table)
		if !ok {
			continue
		}
		c := *t
		c.Rows = make([][]extract.Cell, len(t.Rows))
		for r := range t.Rows {
			c.Rows[r] = slices.Clone(t.Rows[r])
		}
		d.Blocks[i] = &c
	}
	return &d
}

func findCell(doc *extract.Document, at extract.Place) *extract.Cell {
	for _, t := range doc.Tables() {
		if t.Place.Table != at.Table || at.Page != 0 && t.Place.Page != 0 && t.Place.Page != at.Page {
			continue
		}
		for r := range t.Rows {
			for c := range t.Rows[r] {
				p := t.Rows[r][c].Place
				if p.Row == at.Row && p.Col == at.Col {
					return &t.Rows[r][c]
				}
			}
		}
	}
	return nil
}

// applyMeaning lets the person's word on meaning win over what was inferred.
func (p *paper) applyMeaning(doc *extract.Document, corrections []Correction) {
	for _, c := range corrections {
		if c.Field == "text" || c.Field == about {
			continue
		}
		if !wasThere(doc, c) {
			p.study.Problems = append(p.study.Problems, c.problem(fmt.Sprintf("%q is not printed there: this line may no longer be needed", c.Was)))
			continue
		}
		applied := false
		for _, m := range p.study.Measures {
			if covers(c.Place, m.Place) {
				applied = p.correct(m, c) || applied
			}
		}
		if c.Field == "role" {
			applied = p.correctRole(doc, c) || applied
		}
		if !applied {
			p.study.Problems = append(p.study.Problems, c.problem("no figure was read there, or "+c.Field+" cannot be "+c.Now))
		}
	}
}

// covers reports whether a place with a row, a column, both or neither holds
// the place of a cell.
func covers(c, cell extract.Place) bool {
	return c.Table == cell.Table && (c.Row == 0 || c.Row == cell.Row) && (c.Col == 0 || c.Col == cell.Col)
}

// wasThere reports whether the words a correction rests on are printed at its
// place: in the cell, or anywhere in the table where it names none.
func wasThere(doc *extract.Document, c Correction) bool {
	if c.Place.Row > 0 && c.Place.Col > 0 {
		cell := findCell(doc, c.Place)
		return cell != nil && sameText(cell.Text(), c.Was)
	}
	was := flatten(c.Was)
	for _, t := range doc.Tables() {
		if t.Place.Table != c.Place.Table {
			continue
		}
		for _, s := range append([]string{t.Caption}, t.Notes...) {
			if strings.Contains(flatten(s), was) {
				return true
			}
		}
		for r := range t.Rows {
			for k := range t.Rows[r] {
				cell := &t.Rows[r][k]
				if (c.Place.Row == 0 || cell.Place.Row == c.Place.Row) && (c.Place.Col == 0 || cell.Place.Col == c.Place.Col) && strings.Contains(flatten(cell.Text()), was) {
					return true
				}
			}
		}
	}
	return false
}

// correct sets one field of one measure, and reports whether it could.
func (p *paper) correct(m *claims.Measure, c Correction) bool {
	switch c.Field {
	case "arm":
		m.Arm, m.ArmText = p.arms.of(c.Now, c.Now, m.Place), c.Now
		p.study.Arms = p.arms.finish()
	case "outcome":
		m.Outcome, m.OutcomeID = c.Now, ""
		if o := p.ls.cat.FindOutcome(c.Now); o != nil {
			m.OutcomeID = o.ID
		}
	case "condition":
		m.Condition = c.Now
	case "unit":
		m.Unit, m.UnitID = c.Now, ""
		if u := p.ls.cat.FindUnit(c.Now); u != nil {
			m.UnitID = u.ID
		}
	case "spread":
		kind := p.ls.cat.Mark(c.Now)
		if claims.SpreadKindOf(kind) == claims.NotStated {
			return false
		}
		m.Spread.Kind, m.Spread.Why = claims.SpreadKindOf(kind), c.Why
	case "centre":
		switch p.ls.cat.Mark(c.Now) {
		case "mean":
			m.Centre = claims.Mean
		case "median":
			m.Centre = claims.Median
		default:
			return false
		}
	case "n":
		n, ok := numeral.Number(c.Now, numeral.Style{})
		if !ok || n.Decimals > 0 || n.Value < 1 {
			return false
		}
		n.Place = m.Place
		m.N = claims.Quantity{Number: n, Origin: claims.Corrected, Why: c.Why}
	case "letters":
		m.Letters = c.Now
	case "role":
		return false // of the group, not of the figure
	}
	return true
}

// correctRole sets which group is the control, by the cell that names it.
func (p *paper) correctRole(doc *extract.Document, c Correction) bool {
	cell := findCell(doc, c.Place)
	if cell == nil {
		return false
	}
	a := p.arms.find(p.ls.cell(cell).clean)
	if a == nil {
		return false
	}
	switch strings.ToLower(c.Now) {
	case "control", "reference":
		a.Control = true
	case "test", "experimental":
		a.Control = false
	default:
		return false
	}
	return true
}
