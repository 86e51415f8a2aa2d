package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/index"
)

func findCommand(c *console) *cobra.Command {
	var s *shelf
	var out *outFlags
	var size, from int
	var counts bool
	var fields strings.Builder
	for _, f := range index.Fields {
		fmt.Fprintf(&fields, "  %-12s %s\n", f.Name, f.Says)
	}
	cmd := &cobra.Command{
		Use:   "find QUERY",
		Short: "Search the text and the facts of the library's papers",
		Long: `find searches the text of the papers and what is known of them, and leads to the
page, paragraph or table where it stands. Any name of an outcome finds the
others: NCF finds “number of cycles to fracture”. Signs such as ± % < and Greek
letters are searched too. Reference lists are not. Beside a running add the
answer is that of the last state that can be searched, and says so.

` + index.QueryHelp + `

Fields:
` + fields.String(),
		Example: `  probity find 'NCF "body temperature" year:2018..'
  probity find 'verdict:other-base instrument:kestrine n>=10'`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return c.find(s, out, index.Search{Query: strings.Join(args, " "), Size: size, From: from, Facets: counts})
		},
	}
	s, out = libraryFlags(cmd), formatFlags(cmd)
	cmd.Flags().IntVar(&size, "size", 10, "how many papers to show")
	cmd.Flags().IntVar(&from, "from", 0, "how many papers to pass over")
	cmd.Flags().BoolVar(&counts, "facets", true, "count years, outcomes, verdicts … over all papers found")
	return cmd
}

func (c *console) find(s *shelf, out *outFlags, q index.Search) error {
	w, err := out.writer()
	if err != nil {
		return err
	}
	if q.Size < 1 || q.Size > 10_000 || q.From < 0 {
		return fmt.Errorf("--size %d --from %d: the size goes from 1 to 10000, from begins with 0", q.Size, q.From)
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	r, err := lib.Reader()
	if err != nil {
		return err
	}
	defer r.Close()
	found, err := r.Find(q)
	if err != nil {
		return err
	}
	return c.show(out, w, c.foundReport(lib, q, found, flat(w)))
}

func (c *console) foundReport(lib *index.Library, q index.Search, found *index.Found, flat bool) report.Report {
	r := report.Report{Title: fmt.Sprintf("%d papers: %s", found.Total, q.Query)}
	if found.Total == 1 {
		r.Title = "1 paper: " + q.Query
	}
	if flat {
		r.Parts = append(r.Parts, c.flatHits(lib, found))
		return r
	}
	for i, h := range found.Hits {
		e := report.Entry{Lead: fmt.Sprintf("%d", q.From+i+1), Head: paperLine(h.Record)}
		line := func(label, text string) {
			if text != "" {
				e.Lines = append(e.Lines, report.Line{Label: label, Text: text})
			}
		}
		line("journal", h.Record.Card.Journal)
		line("doi", h.Record.Card.DOI)
		line("file", h.Record.Name)
		line("id", short(h.Record.ID))
		for _, s := range c.spotsOf(lib, found, h) {
			line(s.label, s.text)
		}
		r.Parts = append(r.Parts, e)
	}
	if found.Total > q.From+len(found.Hits) {
		r.Parts = append(r.Parts, report.Para{Text: fmt.Sprintf("%d more: --from %d", found.Total-q.From-len(found.Hits), q.From+len(found.Hits))})
	}
	if len(found.Facets) > 0 && found.Total > 1 {
		e := report.Entry{Lead: "counts", Head: "over all papers found"}
		for _, f := range found.Facets {
			var parts []string
			for _, v := range f.Values {
				parts = append(parts, fmt.Sprintf("%s (%d)", v.Value, v.Papers))
			}
			if f.Others > 0 {
				parts = append(parts, fmt.Sprintf("others (%d)", f.Others))
			}
			e.Lines = append(e.Lines, report.Line{Label: f.Field, Text: strings.Join(parts, ", ")})
		}
		r.Parts = append(r.Parts, e)
	}
	return r
}

// A spotShown is one place of a paper that answers the query.
type spotShown struct{ label, text, place string }

// spotsOf gives the stretches of text, and for verdicts and findings that were
// asked for, the sentences they are about.
func (c *console) spotsOf(lib *index.Library, found *index.Found, h index.Hit) []spotShown {
	var out []spotShown
	for _, s := range h.Snippets {
		place := s.Place.String()
		out = append(out, spotShown{place, c.marked(s), place})
	}
	verdicts, checks := found.Whole["verdict"], found.Whole["finding"]
	if len(verdicts)+len(checks) == 0 {
		return out
	}
	data, err := lib.Audit(h.Record.ID)
	var a storedAudit
	if err != nil || json.Unmarshal(data, &a) != nil {
		return out
	}
	for _, s := range a.Statements {
		if s.Own && slices.Contains(verdicts, s.Verdict) {
			place := s.Place.place().String()
			out = append(out, spotShown{s.Verdict + ", " + place, s.Text, place})
		}
	}
	for _, f := range a.Findings {
		if slices.Contains(checks, f.Check) || slices.Contains(checks, f.Grade) {
			place := f.Place.place().String()
			out = append(out, spotShown{f.Check + ", " + place, f.Message, place})
		}
	}
	return out
}

// marked shows what met the query: in square brackets, which every format and
// every reader can tell.
func (c *console) marked(s index.Snippet) string {
	var b strings.Builder
	at := 0
	for _, m := range s.Marks {
		b.WriteString(s.Text[at:m[0]] + "[" + s.Text[m[0]:m[1]] + "]")
		at = m[1]
	}
	return b.String() + s.Text[at:]
}

func (c *console) flatHits(lib *index.Library, found *index.Found) report.Table {
	t := report.Table{Head: []string{"id", "year", "authors", "title", "journal", "doi", "file", "score", "place", "text"}}
	for _, h := range found.Hits {
		card := h.Record.Card
		score := h.Score
		row := []report.Cell{{Text: h.Record.ID}, count(card.Year), {Text: strings.Join(card.Authors, "; ")}, {Text: card.Title}, {Text: card.Journal},
			{Text: card.DOI}, {Text: h.Record.Name}, {Text: fmt.Sprintf("%.3f", score), Value: &score}}
		spots := c.spotsOf(lib, found, h)
		if len(spots) == 0 {
			spots = []spotShown{{}}
		}
		for _, s := range spots {
			t.Rows = append(t.Rows, append(slices.Clone(row), report.Cell{Text: s.place}, report.Cell{Text: s.text}))
		}
	}
	return t
}
