package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/report"
	"probity/claims/statement"
	"probity/extract"
)

func readCommand(c *console) *cobra.Command {
	var sheet, recognise, numbers bool
	var sentence, cell string
	cmd := &cobra.Command{
		Use:   "read PATH | --sentence TEXT",
		Short: "Show what was read of a paper: arms, figures with their places, problems",
		Long: `read shows what was read of a paper before anything is judged: each table as
printed with what its labels were taken for, the arms and their names, every
summary figure with its place, the figures left aside and why, and what could
not be read.

With --why it tells of one cell, named by table, row and column as the tables
are printed here, such as 2.3.4: what it was taken for, why, and what else it
could be.

With --sheet it prints the sheet to correct the reading in: one line a figure,
"now" and "why" left blank. Keep the lines that need a change, fill both, and
save them beside the paper as PAPER` + correctionsEnding + `.

With --numbers the file is plain text with one sentence a line; for each line
a line of JSON tells what each of its numbers was taken for, and the closest
other reading where it is not certain.

With --sentence it takes a sentence in place of a paper and shows what each of
its numbers was taken for and why, what it compares, and what is in doubt.

PATH is a file, or - for a paper on standard input.`,
		Args: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("sentence") {
				return cobra.NoArgs(cmd, args)
			}
			return cobra.ExactArgs(1)(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("sentence") {
				if numbers || sheet || recognise || cell != "" {
					return errors.New("--sentence reads no paper: leave out --numbers, --sheet, --why and --ocr")
				}
				return c.readSentence(sentence)
			}
			if numbers {
				return c.readNumbers(args[0])
			}
			if err := useOCR(recognise); err != nil {
				return err
			}
			return spared(args[0], func() error { return c.read(args[0], sheet, cell) })
		},
	}
	ocrFlag(cmd, &recognise)
	cmd.Flags().BoolVar(&numbers, "numbers", false, "tell what each number of a file of sentences is, one JSON line a sentence")
	cmd.Flags().StringVar(&sentence, "sentence", "", "show how this sentence is read, in place of a paper")
	cmd.Flags().StringVar(&cell, "why", "", "tell what one cell was taken for, `TABLE.ROW.COLUMN`")
	cmd.Flags().BoolVar(&sheet, "sheet", false, "print the sheet to fill in with corrections (CSV)")
	return cmd
}

func (c *console) read(path string, sheet bool, cell string) error {
	var at extract.Place
	if cell != "" {
		var err error
		if at, err = cellNamed(cell); err != nil {
			return err
		}
		if sheet {
			return errors.New("--why tells of one cell: leave out --sheet")
		}
	}
	data, err := c.readFile(path)
	if err != nil {
		return err
	}
	docs, err := c.papersOf(data, path)
	if err != nil {
		return err
	}
	fix, err := correctionsBeside(path)
	if err != nil {
		return err
	}
	fixes, problems := readCorrections(path+correctionsEnding, fix)
	for i, doc := range docs {
		if sheet {
			if err := c.sheet(doc); err != nil {
				return err
			}
			continue
		}
		study := assemble.Study(doc, fixes, c.catalog)
		study.Problems = append(study.Problems, problems...)
		_, measures := statement.Read(doc, study, c.catalog)
		study.Measures = append(study.Measures, measures...)
		assemble.Doubts(doc, study)
		number(study)
		if i > 0 {
			fmt.Fprintln(c.stdout)
		}
		shown := readReport(doc, study)
		if cell != "" {
			if shown, err = why(doc, study, at); err != nil {
				return err
			}
		}
		if err := report.WriteText(c.stdout, shown, c.layout()); err != nil {
			return err
		}
	}
	return nil
}

func (c *console) sheet(doc *extract.Document) error {
	w := csv.NewWriter(c.stdout)
	for _, row := range assemble.Sheet(doc, c.catalog) {
		for i := range row {
			row[i] = report.Sheet(row[i])
		}
		if err := w.Write(row); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

// readReport lays out what was read.
func readReport(doc *extract.Document, study *claims.Study) report.Report {
	r := report.Report{Title: fmt.Sprintf("%s: what was read", doc.File)}
	if m := doc.Meta; m.Title != "" {
		line := m.Title
		if m.Journal != "" {
			line += ", " + m.Journal
		}
		if m.Year > 0 {
			line += fmt.Sprintf(" (%d)", m.Year)
		}
		if m.DOI != "" {
			line += ", doi " + m.DOI
		}
		r.Parts = append(r.Parts, report.Para{Text: line})
	}
	if forms, explained := assemble.FigureForms(doc, study); forms > 0 {
		r.Parts = append(r.Parts, report.Para{Text: fmt.Sprintf("Of %d table cells of the form “a ± b” or “a (b)”, %d were read as figures or set apart with a reason.", forms, explained)})
	}
	r.Parts = append(r.Parts, tableParts(doc, study)...)
	if len(study.Arms) > 0 {
		t := report.Table{Caption: "Arms", Head: []string{"short", "name", "n", "names, and where each was met first"}, Right: []bool{false, false, true}}
		for _, a := range study.Arms {
			n := a.N.Text
			t.Rows = append(t.Rows, []report.Cell{{Text: a.Short}, {Text: a.Name}, {Text: n}, {Text: namesOf(a)}})
		}
		r.Parts = append(r.Parts, t)
	}
	if len(study.Measures) > 0 {
		r.Parts = append(r.Parts, measureTable(study.Measures))
		r.Parts = append(r.Parts, spreadReasons(study.Measures)...)
		r.Parts = append(r.Parts, doubtedFigures(study.Measures)...)
	}
	r.Parts = append(r.Parts, factEntries(study.Design)...)
	r.Parts = append(r.Parts, asideTable(study.Apart)...)
	if len(study.Problems) > 0 {
		r.Parts = append(r.Parts, report.Heading{Level: 2, Text: "Could not be read"})
		for _, p := range study.Problems {
			e := report.Entry{Lead: "problem", Tone: report.Careful, Head: p.What, Place: p.Place}
			if p.Try != "" {
				e.Lines = []report.Line{{Label: "try", Text: p.Try}}
			}
			r.Parts = append(r.Parts, e)
		}
	}
	return r
}

// namesOf lists the names of an arm with where each was met first.
func namesOf(a *claims.Arm) string {
	var out []string
	for _, n := range a.Named {
		if n.Text != a.Name && n.Text != a.Short && !slices.Contains(a.Aliases, n.Text) {
			continue // several arms would go by it
		}
		where := "abbreviated"
		switch {
		case n.Place.Table != "":
			where = "table " + n.Place.Table
		case n.Place.Section != "":
			where = string(n.Place.Section)
		}
		out = append(out, fmt.Sprintf("%s (%s)", cut(n.Text, 40), where))
	}
	return strings.Join(out, "; ")
}

func measureTable(measures []*claims.Measure) report.Table {
	t := report.Table{Caption: "Figures", Head: []string{"id", "arm", "outcome", "condition", "centre", "spread", "unit", "n", "marks", "place"},
		Right: []bool{false, false, false, false, true, true, false, true}}
	for _, m := range measures {
		spread := m.Spread.Value.Text
		if m.Spread.Low.Known() {
			spread = m.Spread.Low.Text + " to " + m.Spread.High.Text
		}
		if m.Spread.Known() {
			spread = m.Spread.Kind.String() + " " + spread
		}
		name := m.ArmText
		if m.Arm != nil && m.Arm.Name != "" {
			name = m.Arm.Name
		}
		place := m.Place
		place.File = ""
		value := m.Mean.Value
		t.Rows = append(t.Rows, []report.Cell{{Text: m.ID}, {Text: shortened(name)}, {Text: shortened(m.Outcome)}, {Text: shortened(m.Condition)},
			{Text: m.Mean.Text, Value: &value, Place: m.Place}, {Text: spread}, {Text: m.Unit}, {Text: m.N.Text}, {Text: m.Letters}, {Text: place.String()}})
	}
	return t
}

// spreadReasons says once for all figures of a table why their spread was
// taken for what it is.
func spreadReasons(measures []*claims.Measure) []report.Part {
	type key struct{ kind, why, table string }
	var order []key
	ids := map[key][]string{}
	for _, m := range measures {
		if !m.Spread.Known() {
			continue
		}
		k := key{m.Spread.Kind.String(), m.Spread.Why, m.Place.Table}
		if k.why == "" {
			k.why = "the paper does not say what it is"
			if k.table == "" {
				k.why = "the words of the sentence"
			}
		}
		if ids[k] == nil {
			order = append(order, k)
		}
		ids[k] = append(ids[k], m.ID)
	}
	if len(order) == 0 {
		return nil
	}
	t := report.Table{Caption: "Why a spread was taken for what it is", Head: []string{"taken for", "because", "table", "figures"}}
	for _, k := range order {
		first, last, n := ids[k][0], ids[k][len(ids[k])-1], len(ids[k])
		which := first
		if n > 1 {
			which = fmt.Sprintf("%d, from %s to %s", n, first, last)
		}
		t.Rows = append(t.Rows, []report.Cell{{Text: k.kind}, {Text: k.why}, {Text: k.table}, {Text: which}})
	}
	return []report.Part{t}
}

// doubtedFigures lists the figures that may be others than read: nothing that
// rests on them is called at odds.
func doubtedFigures(measures []*claims.Measure) []report.Part {
	var out []report.Part
	for _, m := range measures {
		if m.Doubt.Sure() {
			continue
		}
		if out == nil {
			out = append(out, report.Heading{Level: 2, Text: "Figures in doubt"})
		}
		out = append(out, report.Entry{Lead: m.ID, Tone: report.Careful, Head: m.Mean.Text + ": " + m.Doubt.String(), Place: m.Place})
	}
	return out
}

// shortened keeps a table cell from pushing its row off the screen.
func shortened(s string) string {
	return cut(s, 28)
}

func factEntries(d claims.Design) []report.Part {
	var facts []claims.Fact
	if d.Alpha.Value.Known() {
		facts = append(facts, d.Alpha)
	}
	for _, list := range [][]claims.Fact{d.Total, d.Groups, d.PerGroup, d.Tests, d.Facts} {
		facts = append(facts, list...)
	}
	if len(facts) == 0 {
		return nil
	}
	t := report.Table{Caption: "What the paper says of its design", Head: []string{"fact", "value", "arms", "words", "place"}}
	for _, f := range facts {
		var arms []string
		for _, a := range f.Arms {
			arms = append(arms, a.Short)
		}
		place := f.Place
		place.File = ""
		t.Rows = append(t.Rows, []report.Cell{{Text: f.ID}, {Text: strings.TrimSpace(f.Value.Text + " " + f.Unit)}, {Text: shortened(strings.Join(arms, ", "))},
			{Text: shortened(f.Text)}, {Text: place.String()}})
	}
	return []report.Part{t}
}
