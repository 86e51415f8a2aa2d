package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/index"
)

func listCommand(c *console) *cobra.Command {
	var s *shelf
	var out *outFlags
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List the papers of the library",
		Long: `list shows every paper of the library: when, who, what, what it measured, and what
its audit found. It reads the folders alone and may run beside an add: then it
shows the papers that are safe by now.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return c.list(s, out) },
	}
	s, out = libraryFlags(cmd), formatFlags(cmd)
	return cmd
}

func (c *console) list(s *shelf, out *outFlags) error {
	w, err := out.writer()
	if err != nil {
		return err
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	c.beside(lib)
	records, bad := lib.List()
	for _, err := range bad {
		fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(err.Error()))
		c.note(exitUnusable)
	}
	return c.show(out, w, listReport(records, flat(w)))
}

func listReport(records []*index.Record, flat bool) report.Report {
	r := report.Report{Title: fmt.Sprintf("The library holds %d papers", len(records))}
	if len(records) == 1 {
		r.Title = "The library holds 1 paper"
	}
	t := report.Table{Head: []string{"id", "year", "paper", "file", "figures", "statements", "at odds", "to ask", "cautions"},
		Right: []bool{false, true, false, false, true, true, true, true, true}}
	if flat {
		t.Head = []string{"id", "year", "authors", "title", "journal", "doi", "file", "format", "outcomes", "figures", "statements", "at odds", "queries", "cautions", "read by", "added"}
		t.Right = nil
	}
	for _, x := range records {
		card := x.Card
		if flat {
			t.Rows = append(t.Rows, []report.Cell{{Text: x.ID}, count(card.Year), {Text: strings.Join(card.Authors, "; ")}, {Text: card.Title},
				{Text: card.Journal}, {Text: card.DOI}, {Text: x.Name}, {Text: card.Format}, {Text: strings.Join(card.Outcomes, "; ")},
				count(card.Measures), count(card.Statements), count(card.AtOdds), count(card.Queries), count(card.Cautions),
				{Text: x.Tool}, {Text: x.Added.Format("2006-01-02")}})
			continue
		}
		t.Rows = append(t.Rows, []report.Cell{{Text: short(x.ID)}, {Text: known(card.Year)}, {Text: shortTo(whoAndWhat(x), 44)}, {Text: shortTo(x.Name, 24)},
			count(card.Measures), count(card.Statements), count(card.AtOdds), count(card.Queries), count(card.Cautions)})
	}
	r.Parts = append(r.Parts, t)
	return r
}

// whoAndWhat is the first author and the title.
func whoAndWhat(r *index.Record) string {
	year := r.Card.Year
	r.Card.Year = 0
	defer func() { r.Card.Year = year }()
	return paperLine(r)
}

func count(n int) report.Cell {
	v := float64(n)
	return report.Cell{Text: strconv.Itoa(n), Value: &v}
}

// known writes a number of which zero means not known.
func known(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func shortTo(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-1]) + "…"
}
