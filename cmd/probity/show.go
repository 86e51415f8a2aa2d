package main

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/extract"
	"probity/index"
)

func showCommand(c *console) *cobra.Command {
	var s *shelf
	var out *outFlags
	var what string
	cmd := &cobra.Command{
		Use:   "show PAPER",
		Short: "Show a paper of the library: what it measured, stated, and what was found",
		Long: `show prints what the library keeps of a paper. PAPER is the beginning of its id
(six digits or more), its DOI, its file name, or words of its title.

With --keep audit, text or original it prints that file of the library as it is:
the audit as JSON, the text with the place of each passage, or the paper itself.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return c.showPaper(s, out, args[0], what) },
	}
	s, out = libraryFlags(cmd), formatFlags(cmd)
	cmd.Flags().StringVar(&what, "keep", "", "print a kept file as it is: audit, text, original")
	return cmd
}

func (c *console) showPaper(s *shelf, out *outFlags, paper, what string) error {
	w, err := out.writer()
	if err != nil {
		return err
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	r, err := lib.Resolve(paper)
	if err != nil {
		return err
	}
	if r.Schema == 0 { // found by its id, but it cannot be read
		_, err := lib.Record(r.ID)
		return err
	}
	var data []byte
	switch what {
	case "":
		data, err = lib.Audit(r.ID)
		if err != nil {
			return err
		}
		rep, err := storedReport(r, data)
		if err != nil {
			return err
		}
		return c.show(out, w, rep)
	case "audit":
		data, err = lib.Audit(r.ID)
		data = append(data, '\n')
	case "text":
		var text []index.Passage
		text, err = lib.Text(r.ID)
		data = textOf(text)
	case "original":
		data, err = lib.Original(r)
	default:
		return fmt.Errorf("--keep %s is not known; use audit, text or original", what)
	}
	if err != nil {
		return err
	}
	_, err = c.stdout.Write(data)
	return err
}

// textOf writes the text of a paper, a line a passage.
func textOf(text []index.Passage) []byte {
	var b strings.Builder
	for _, p := range text {
		fmt.Fprintf(&b, "%s\t%s\n", report.Clean(p.Place.String()), report.Clean(p.Text))
	}
	return []byte(b.String())
}

// storedAudit is what show and find need of a kept audit.
type storedAudit struct {
	Measures []struct {
		ID, Arm   string
		ArmName   string `json:"arm_name"`
		Outcome   string
		Condition string
		Unit      string
		Mean      struct{ Text string }
		Spread    *struct{ Text, Kind string }
		N         int
		Place     storedPlace
	}
	Statements []struct {
		ID, Text, Verdict, Why, Printed string
		Own                             bool
		Place                           storedPlace
	}
	Findings []struct {
		Check, Grade, Message, Printed, Recomputed, Caution, Ask string
		Place                                                    storedPlace
	}
	Problems []struct {
		What, Try string
		Place     storedPlace
	}
}

type storedPlace struct {
	Section, Table      string
	Page, Row, Col, Par int
}

func (p storedPlace) place() extract.Place {
	return extract.Place{Section: extract.Section(p.Section), Table: p.Table, Page: p.Page, Row: p.Row, Col: p.Col, Par: p.Par}
}

var storedTones = map[string]report.Tone{"at-odds": report.Grave, "query": report.Careful, "reproduces": report.Good, "other-base": report.Careful,
	"reversed": report.Grave, "does-not-reproduce": report.Grave}

func storedReport(r *index.Record, data []byte) (report.Report, error) {
	var a storedAudit
	if err := json.Unmarshal(data, &a); err != nil {
		return report.Report{}, fmt.Errorf("papers/%s/kept.txt cannot be read (%v); run probity refresh %s", short(r.ID), err, short(r.ID))
	}
	out := report.Report{Title: paperLine(r)}
	about := report.Entry{Lead: "paper", Head: r.Name}
	line := func(label, text string) {
		if text != "" {
			about.Lines = append(about.Lines, report.Line{Label: label, Text: text})
		}
	}
	line("id", r.ID)
	line("authors", strings.Join(r.Card.Authors, "; "))
	line("journal", r.Card.Journal)
	line("doi", r.Card.DOI)
	line("title page completed from", r.Card.Completed)
	line("format", r.Card.Format)
	line("added", r.Added.Format("2006-01-02"))
	line("read by", r.Tool)
	if r.Corrections != "" {
		line("corrections", "applied, sum "+short(r.Corrections))
	}
	out.Parts = append(out.Parts, about)
	for _, f := range a.Findings {
		e := report.Entry{Lead: strings.ReplaceAll(f.Grade, "-", " "), Tone: storedTones[f.Grade], Head: f.Message, Place: f.Place.place()}
		for _, l := range []report.Line{{Label: "printed", Text: f.Printed}, {Label: "recomputed", Text: f.Recomputed}, {Label: "caution", Text: f.Caution}, {Label: "ask", Text: f.Ask}} {
			if l.Text != "" {
				e.Lines = append(e.Lines, l)
			}
		}
		out.Parts = append(out.Parts, e)
	}
	for _, s := range a.Statements {
		if s.Own {
			out.Parts = append(out.Parts, report.Entry{Lead: strings.ReplaceAll(s.Verdict, "-", " "), Tone: storedTones[s.Verdict], Head: s.Printed,
				Lines: []report.Line{{Text: s.Text, Quote: true}, {Label: "sum", Text: s.Why}}, Place: s.Place.place()})
		}
	}
	t := report.Table{Caption: "Figures", Head: []string{"id", "arm", "outcome", "condition", "mean", "spread", "unit", "n", "place"},
		Right: []bool{false, false, false, false, true, true, false, true}}
	for _, m := range a.Measures {
		name, spread := m.ArmName, ""
		if name == "" {
			name = m.Arm
		}
		if m.Spread != nil {
			spread = m.Spread.Kind + " " + m.Spread.Text
		}
		t.Rows = append(t.Rows, []report.Cell{{Text: m.ID}, {Text: shortened(name)}, {Text: shortened(m.Outcome)}, {Text: shortened(m.Condition)},
			{Text: m.Mean.Text}, {Text: spread}, {Text: m.Unit}, {Text: known(m.N)}, {Text: m.Place.place().String()}})
	}
	if len(t.Rows) > 0 {
		out.Parts = append(out.Parts, t)
	}
	for _, p := range a.Problems {
		e := report.Entry{Lead: "problem", Tone: report.Careful, Head: p.What, Place: p.Place.place()}
		if p.Try != "" {
			e.Lines = []report.Line{{Label: "try", Text: p.Try}}
		}
		out.Parts = append(out.Parts, e)
	}
	return out, nil
}
