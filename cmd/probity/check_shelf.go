package main

import (
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"

	"probity/claims/compare"
	"probity/claims/report"
	"probity/claims/statement"
	"probity/claims/typed"
)

// heldAgainst are the flags of check that hold a claim against the library.
type heldAgainst struct {
	shelf
	out  outFlags
	f    compareFlags
	here bool
}

// noFolder stands for --library without a folder.
const noFolder = "\x00"

func (h *heldAgainst) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&h.dir, "library", "", "hold the claim against the library (a folder, or the default one)")
	cmd.Flags().Lookup("library").NoOptDefVal = noFolder
	cmd.Flags().StringVar(&h.f.Unstated, "unstated", "", "with --library: take an unlabelled ± as sd or se")
	cmd.Flags().BoolVar(&h.f.Medians, "medians", false, "with --library: estimate means and SDs from medians")
	cmd.Flags().BoolVar(&h.f.Caution, "with-caution", false, "with --library: combine comparisons with caution too")
	cmd.Flags().StringVar(&h.out.format, "format", "", "how to print the result: text, markdown, html, json; with --library csv and xlsx too (default text, or what the ending of --out says)")
	cmd.Flags().StringVarP(&h.out.out, "out", "o", "", "write the result to this file")
}

// asked reports whether --library was given; a folder may stand after it.
func (h *heldAgainst) asked(cmd *cobra.Command, args []string) bool {
	h.wait = 5 * time.Second
	h.here = cmd.Flags().Changed("library")
	if h.dir == noFolder {
		h.dir = ""
		if len(args) == 2 {
			h.dir = args[1]
		}
	}
	return h.here
}

func (c *console) checkOnShelf(text string, h *heldAgainst) error {
	if err := typed.Sensible(text); err != nil {
		return err
	}
	w, err := h.out.writer()
	if err != nil {
		return err
	}
	if h.dir != "" {
		if _, err := os.Stat(h.dir); err != nil {
			return fmt.Errorf("%s: there is no library here (%v)", h.dir, reason(err))
		}
	}
	lib, err := h.open(c)
	if err != nil {
		return err
	}
	statements := statement.ReadText(text, c.catalog)
	if len(statements) == 0 {
		return errors.New(typed.NoComparison)
	}
	papers, err := c.comparable(lib, "", nil)
	if err != nil {
		return err
	}
	r := report.Report{Title: "“" + text + "”, held against " + papersCount(len(papers)) + " of the library"}
	found := false
	for _, s := range statements {
		shelves, err := compare.Weigh(s, papers, compare.Options{Unstated: h.f.Unstated, Medians: h.f.Medians, Caution: h.f.Caution}, c.catalog)
		if err != nil {
			return err
		}
		for i := range shelves {
			found = true
			r.Parts = append(r.Parts, c.shelfParts(&shelves[i], flat(w))...)
		}
	}
	if !found {
		r.Parts = append(r.Parts, report.Para{Text: "Cannot be checked: no paper of the library compares the two arms that the statement names. Name them as the papers do; probity find shows which papers name them."})
	}
	r.Parts = append(r.Parts, report.Notes{Texts: benchCautions})
	return c.show(&h.out, w, r)
}

// mostTold keeps a verdict from drowning in its evidence.
const mostTold = 40

var relationTones = map[compare.Relation]report.Tone{compare.Bears: report.Good, compare.Inside: report.Good, compare.SameWay: report.Careful,
	compare.NotShown: report.Careful, compare.OtherWay: report.Grave}

func (c *console) shelfParts(sh *compare.Shelf, flat bool) []report.Part {
	out := []report.Part{report.Heading{Level: 2, Text: sh.Outcome.Name}, report.Para{Text: sh.Verdict}}
	if flat {
		t := report.Table{Head: []string{"relation", "why", "paper", "year", "doi", "id", "arm", "as printed", "place", "against", "as printed", "place",
			"ratio", "ratio low", "ratio high", "comparability", "conditions", "own claims"}}
		for _, x := range sh.Shown {
			t.Rows = append(t.Rows, c.shownRow(x))
		}
		return append(out, t)
	}
	for i, x := range sh.Shown {
		if i == mostTold {
			out = append(out, report.Para{Text: fmt.Sprintf("%d more: --format csv holds them all.", len(sh.Shown)-i)})
			break
		}
		e := report.Entry{Lead: x.Relation.String(), Tone: relationTones[x.Relation], Head: x.Row.Paper.Name() + ": " + x.Why}
		for _, s := range []compare.Side{x.Row.Subject, x.Row.Reference} {
			text := s.Name + " " + printed(s.Figure)
			if s.N > 0 {
				text += fmt.Sprintf(", n = %d", s.N)
			}
			e.Lines = append(e.Lines, report.Line{Label: "figure", Text: text + " [" + s.Figure.Place + "]"})
		}
		if text := conditionsText(x.Row); text != "" {
			e.Lines = append(e.Lines, report.Line{Label: "conditions", Text: text})
		}
		if len(x.Row.Reasons) > 0 {
			e.Lines = append(e.Lines, report.Line{Label: x.Row.Grade.String(), Text: joined(x.Row.Reasons)})
		}
		if text := claimText(x.Row); text != "" {
			e.Lines = append(e.Lines, report.Line{Label: "the paper's own claim", Text: text})
		}
		out = append(out, e)
	}
	return out
}

// conditionsText lists what the paper states of its tests.
func conditionsText(r *compare.Row) string {
	var parts []string
	if r.Condition != "" {
		parts = append(parts, r.Condition)
	}
	for _, c := range r.Conditions {
		if c.Known {
			parts = append(parts, c.Rule.Name+" "+c.Show())
		}
	}
	return joined(parts)
}

func (c *console) shownRow(x compare.Shown) []report.Cell {
	text := func(s string) report.Cell { return report.Cell{Text: s} }
	r := x.Row
	row := []report.Cell{text(x.Relation.String()), text(x.Why), text(r.Paper.Name()), count(r.Paper.Year), text(r.Paper.DOI), text(r.Paper.ID),
		text(r.Subject.Name), text(printed(r.Subject.Figure)), text(r.Subject.Figure.Place), text(r.Reference.Name), text(printed(r.Reference.Figure)), text(r.Reference.Figure.Place)}
	low, high := r.Interval()
	for _, v := range []float64{r.Ratio, low, high} {
		if v == 0 {
			row = append(row, report.Cell{})
			continue
		}
		row = append(row, report.Cell{Text: significant(v), Value: &v})
	}
	return append(row, text(r.Grade.String()), text(conditionsText(r)), text(claimText(r)))
}
