package index

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"probity/extract"
)

// An Entry is one paper to keep: its bytes, what was read of it, and what the
// caller made of it. Audit and Compare are the caller's; they are kept and
// handed back as they are.
type Entry struct {
	ID          string // extract.Document.ID
	Name        string // as the paper was given: "lee2020.pdf", "shelf.zip/a.xml"
	Original    []byte
	Corrections []byte // a person's, nil: none
	Collection  string // SHA-256 of a file that holds several papers; "": the paper alone
	Nth, Total  int    // which of them it is, from 0, and how many there are
	Card        Card
	Text        []Passage
	Audit       []byte
	Compare     []byte
	Tool        string // the version of reading and judging
	Added       time.Time

	sketch   sketch
	sketched bool
}

// A Card is what a list and the search fields know of a paper.
type Card struct {
	Title       string    `json:"title,omitempty"`
	Authors     []string  `json:"authors,omitempty"`
	Journal     string    `json:"journal,omitempty"`
	Year        int       `json:"year,omitempty"`
	DOI         string    `json:"doi,omitempty"`
	Format      string    `json:"format,omitempty"`
	Pages       int       `json:"pages,omitempty"`
	Completed   string    `json:"completed,omitempty"` // the file that title, DOI ... were completed from
	Instruments []string  `json:"instruments,omitempty"`
	Outcomes    []string  `json:"outcomes,omitempty"`   // ids of the catalogue
	Printed     []string  `json:"printed,omitempty"`    // outcomes as the paper names them
	Conditions  []string  `json:"conditions,omitempty"` // as printed
	Verdicts    []string  `json:"verdicts,omitempty"`
	Findings    []string  `json:"findings,omitempty"` // names of checks and grades
	N           []float64 `json:"n,omitempty"`
	Ratios      []float64 `json:"ratios,omitempty"` // of the pairs of means that statements compare
	Measures    int       `json:"measures"`
	Statements  int       `json:"statements"`
	Problems    int       `json:"problems,omitempty"`

	AtOdds   int `json:"at_odds,omitempty"`
	Queries  int `json:"queries,omitempty"`
	Cautions int `json:"cautions,omitempty"`
}

// A Passage is a stretch of the paper's text with its place.
type Passage struct {
	Place extract.Place
	Text  string
}

// TextOf cuts a document into passages: paragraphs, headings, captions, rows
// of tables, notes. The reference list is left out, or every paper would be
// found by the titles it cites.
func TextOf(doc *extract.Document) []Passage {
	var out []Passage
	add := func(at extract.Place, text string) {
		if text = oneLine(text); text != "" {
			at.File, at.Start, at.End = "", 0, 0
			out = append(out, Passage{Place: at, Text: text})
		}
	}
	for _, b := range doc.Blocks {
		switch b := b.(type) {
		case *extract.Prose:
			if b.Role != extract.Reference {
				add(b.Place, b.Text())
			}
		case *extract.Table:
			at := b.Place
			at.Row, at.Col = 0, 0
			add(at, strings.TrimSpace("Table "+b.Label+". "+b.Caption))
			for i, row := range b.Rows {
				at.Row = i + 1
				add(at, rowText(row))
			}
			at.Row = 0
			for _, n := range b.Notes {
				add(at, n)
			}
		}
	}
	return out
}

func rowText(row []extract.Cell) string {
	var parts []string
	for _, c := range row {
		if t := c.Text(); t != "" && !c.Copy {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, " | ")
}

// oneLine folds white space, so that a passage is one line.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// inLines makes each passage one line, as it is kept and indexed: places in the
// index must lead to the same words in what is kept.
func inLines(text []Passage) []Passage {
	out := make([]Passage, len(text))
	for i, p := range text {
		out[i] = Passage{p.Place, oneLine(p.Text)}
	}
	return out
}

// writeText gives the lines of a text.
func writeText(text []Passage) []byte {
	var b strings.Builder
	for _, p := range text {
		b.WriteString(p.Place.String())
		b.WriteByte('\t')
		b.WriteString(p.Text)
		b.WriteByte('\n')
	}
	return []byte(b.String())
}

// readText is the inverse of writeText. A line that is not of this form ends
// it with an error that names the line.
func readText(data []byte) ([]Passage, error) {
	lines := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	out := make([]Passage, 0, len(lines))
	for i, line := range lines {
		if line == "" && len(lines) == 1 {
			return nil, nil
		}
		at, text, ok := strings.Cut(line, "\t")
		if !ok {
			return nil, fmt.Errorf("line %d of the text has no place", i+1)
		}
		place, err := extract.ParsePlace(at)
		if err != nil {
			return nil, fmt.Errorf("line %d of the text: %w", i+1, err)
		}
		out = append(out, Passage{Place: place, Text: text})
	}
	return out, nil
}

// body joins the passages to the text that is searched. Offsets in it lead
// back to the passage.
func body(text []Passage) string {
	n := 0
	for i := range text {
		n += len(text[i].Text) + 1
	}
	var b strings.Builder
	b.Grow(n)
	for _, p := range text {
		b.WriteString(p.Text)
		b.WriteByte('\n')
	}
	return b.String()
}

func sum(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}
