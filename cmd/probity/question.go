package main

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"probity/claims/compare"
	"probity/claims/report"
)

func questionCommand(c *console) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "question",
		Short: "Keep a question with its searches, decisions and table",
		Long: `question keeps what a table across papers rests on, so that a colleague gets the
same table from the same folder: the comparison asked for, the searches that were
made, which papers are in or out and why, the assumptions, and the table as it
was last seen. Each question is a plain file of the library,
questions/NAME.jsonl, to which lines are only added.`,
	}
	cmd.AddCommand(c.questionNew(), c.questionList(), c.questionSearch(), c.questionDecide("include"), c.questionDecide("exclude"),
		c.questionAssume(), c.questionTable(), c.questionLog())
	return cmd
}

var questionName = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,60}$`)

func (c *console) questionNew() *cobra.Command {
	var s *shelf
	var f compareFlags
	cmd := &cobra.Command{
		Use:     `new NAME "QUESTION" --outcome OUTCOME`,
		Short:   "Begin a question: what is to be compared",
		Example: `  probity question new body-heat "Does Kestrine outlast Halyard at body temperature?" --outcome NCF --arms Kestrine,Halyard --where temperature=body`,
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			if !questionName.MatchString(args[0]) {
				return fmt.Errorf("%q: a name has small letters, digits and hyphens, such as body-heat", args[0])
			}
			if _, err := f.query(c); err != nil {
				return err
			}
			lib, err := s.open(c)
			if err != nil {
				return err
			}
			return beginQuestion(lib, args[0], event{At: now(), Do: "asked", Text: args[1], Compare: &f})
		},
	}
	s = libraryFlags(cmd)
	f.add(cmd)
	return cmd
}

func now() string { return time.Now().UTC().Format(time.RFC3339) }

func (c *console) questionList() *cobra.Command {
	var s *shelf
	cmd := &cobra.Command{Use: "list", Short: "List the questions", Args: cobra.NoArgs, RunE: func(*cobra.Command, []string) error {
		lib, err := s.open(c)
		if err != nil {
			return err
		}
		names, err := questionNames(lib)
		if err != nil {
			return err
		}
		r := report.Report{Title: fmt.Sprintf("%d questions", len(names))}
		for _, n := range names {
			q, err := readQuestion(lib, n)
			if err != nil {
				return err
			}
			r.Parts = append(r.Parts, report.Entry{Lead: n, Head: q.Text, Lines: []report.Line{{Label: "decided", Text: fmt.Sprintf("%d in, %d out, %d searches", q.count("include"), q.count("exclude"), len(q.Searches))}}})
		}
		return report.WriteText(c.stdout, r, c.layout())
	}}
	s = libraryFlags(cmd)
	return cmd
}

func (c *console) questionSearch() *cobra.Command {
	var s *shelf
	var e event
	cmd := &cobra.Command{
		Use:     `search NAME --where DATABASE --query STRING --found N`,
		Short:   "Note a search that was made",
		Example: `  probity question search body-heat --where PubMed --query '"cyclic fatigue" AND temperature' --found 212 --note "to May"`,
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if e.Where == "" || e.Query == "" {
				return errors.New("a search has --where (the database) and --query (the words)")
			}
			e.At, e.Do = now(), "searched"
			return c.noteQuestion(s, args[0], e)
		},
	}
	s = libraryFlags(cmd)
	cmd.Flags().StringVar(&e.Where, "where", "", "the database or journal that was searched")
	cmd.Flags().StringVar(&e.Query, "query", "", "the search string")
	cmd.Flags().IntVar(&e.Found, "found", 0, "how many it found")
	cmd.Flags().StringVar(&e.Why, "note", "", "what else is to be known")
	return cmd
}

func (c *console) questionDecide(do string) *cobra.Command {
	var s *shelf
	var why string
	cmd := &cobra.Command{
		Use:   do + ` NAME PAPER... --why REASON`,
		Short: map[string]string{"include": "Take papers into the table, with a reason", "exclude": "Leave papers out of the table, with a reason"}[do],
		Args:  cobra.MinimumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			if why == "" {
				return errors.New("a decision has a reason: --why \"no temperature stated\"")
			}
			lib, err := s.open(c)
			if err != nil {
				return err
			}
			if _, err := readQuestion(lib, args[0]); err != nil {
				return err
			}
			var events []event
			for _, p := range args[1:] {
				r, err := lib.Resolve(p)
				if err != nil {
					return err
				}
				events = append(events, event{At: now(), Do: do, Paper: r.ID, Name: paperLine(r), Why: why})
			}
			return appendQuestion(lib, args[0], events...)
		},
	}
	s = libraryFlags(cmd)
	cmd.Flags().StringVar(&why, "why", "", "the reason")
	return cmd
}

func (c *console) questionAssume() *cobra.Command {
	var s *shelf
	cmd := &cobra.Command{Use: `assume NAME "ASSUMPTION"`, Short: "Note an assumption that the table rests on", Args: cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			return c.noteQuestion(s, args[0], event{At: now(), Do: "assume", Text: args[1]})
		}}
	s = libraryFlags(cmd)
	return cmd
}

// noteQuestion adds a line to a question that is there.
func (c *console) noteQuestion(s *shelf, name string, e event) error {
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	if _, err := readQuestion(lib, name); err != nil {
		return err
	}
	return appendQuestion(lib, name, e)
}

func (c *console) questionTable() *cobra.Command {
	var s *shelf
	var out *outFlags
	var keep bool
	cmd := &cobra.Command{
		Use:   "table NAME",
		Short: "Show the table of a question, and what changed since it was last kept",
		Long: `table makes the comparison of a question from the papers of the library: those
excluded are left out, those not decided on are in it and named. With --keep the
table is remembered; the next one says what changed since.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return c.tableOfQuestion(s, out, args[0], keep) },
	}
	s, out = libraryFlags(cmd), formatFlags(cmd)
	cmd.Flags().BoolVar(&keep, "keep", false, "remember this table, to say next time what changed")
	return cmd
}

func (c *console) tableOfQuestion(s *shelf, out *outFlags, name string, keep bool) error {
	w, err := out.writer()
	if err != nil {
		return err
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	q, err := readQuestion(lib, name)
	if err != nil {
		return err
	}
	query, err := q.Compare.query(c)
	if err != nil {
		return fmt.Errorf("questions/%s.jsonl: %w", name, err)
	}
	papers, err := c.comparable(lib, query.Outcome, func(id string) bool { return q.Decided[id].Do == "exclude" })
	if err != nil {
		return err
	}
	res, err := compare.Table(papers, query, c.catalog)
	if err != nil {
		return err
	}
	seen := seenOf(res)
	r := c.tableReport(res, flat(w))
	r.Title = q.Text + " · " + r.Title
	if !flat(w) {
		r.Parts = slices.Concat(q.parts(res), changedParts(q.Seen, seen, q.SeenAt), r.Parts)
	}
	if err := c.show(out, w, r); err != nil {
		return err
	}
	if keep {
		return appendQuestion(lib, name, event{At: now(), Do: "seen", Seen: seen})
	}
	return nil
}

// parts says what the table rests on.
func (q *question) parts(res *compare.Result) []report.Part {
	e := report.Entry{Lead: "rests on", Head: fmt.Sprintf("%d papers taken in, %d left out, %d searches", q.count("include"), q.count("exclude"), len(q.Searches))}
	line := func(label, text string) { e.Lines = append(e.Lines, report.Line{Label: label, Text: text}) }
	for _, s := range q.Searches {
		text := fmt.Sprintf("%s, %s: %s (%d found)", s.At[:10], s.Where, s.Query, s.Found)
		if s.Why != "" {
			text += "; " + s.Why
		}
		line("search", text)
	}
	for _, id := range q.Order {
		d := q.Decided[id]
		line(map[string]string{"include": "in", "exclude": "out"}[d.Do], d.Name+": "+d.Why)
	}
	for _, a := range q.Assumed {
		line("assumed", a)
	}
	var open []string
	for _, p := range papersIn(res) {
		if _, decided := q.Decided[p.ID]; !decided {
			open = append(open, p.Name())
		}
	}
	if len(open) > 0 {
		text := joined(open[:min(len(open), 12)])
		if len(open) > 12 {
			text += fmt.Sprintf(" and %d more", len(open)-12)
		}
		line("in it and not decided on", text)
	}
	return []report.Part{e}
}

func papersIn(res *compare.Result) []*compare.Paper {
	var out []*compare.Paper
	add := func(rows []*compare.Row) {
		for _, r := range rows {
			if !slices.Contains(out, r.Paper) {
				out = append(out, r.Paper)
			}
		}
	}
	for _, s := range res.Strata {
		add(s.Rows)
	}
	add(res.Apart)
	return out
}

func (c *console) questionLog() *cobra.Command {
	var s *shelf
	cmd := &cobra.Command{Use: "log NAME", Short: "Show everything that was noted on a question", Args: cobra.ExactArgs(1), RunE: func(_ *cobra.Command, args []string) error {
		lib, err := s.open(c)
		if err != nil {
			return err
		}
		q, err := readQuestion(lib, args[0])
		if err != nil {
			return err
		}
		r := report.Report{Title: q.Text}
		t := report.Table{Head: []string{"when", "what", "which", "why"}}
		for _, e := range q.Events {
			what := e.Name + e.Text
			if e.Do == "searched" {
				what = fmt.Sprintf("%s: %s (%d found)", e.Where, e.Query, e.Found)
			}
			if e.Do == "seen" {
				what = fmt.Sprintf("a table of %d lines", len(e.Seen))
			}
			t.Rows = append(t.Rows, []report.Cell{{Text: e.At[:min(len(e.At), 16)]}, {Text: e.Do}, {Text: shortTo(what, 48)}, {Text: shortTo(e.Why, 40)}})
		}
		r.Parts = append(r.Parts, t)
		return report.WriteText(c.stdout, r, c.layout())
	}}
	s = libraryFlags(cmd)
	return cmd
}
