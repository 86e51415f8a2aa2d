package pdf

import (
	"regexp"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/pdf/layout"
)

// table writes a table as the other formats have it.
func (p *paper) table(t *layout.Table) {
	caption := p.joined(rowsOfWords(t.Caption))
	label, rest := flow.Label(extract.Flatten(caption))
	out := &extract.Table{Label: label, Caption: rest, Head: t.Head}
	bad := 0
	for _, row := range t.Rows {
		cells := make([]extract.Cell, len(row))
		for j := range row {
			cells[j] = p.cell(&row[j])
			if row[j].Bad && !row[j].Copy {
				bad++
			}
		}
		out.Rows = append(out.Rows, cells)
	}
	for _, n := range p.notes(t.Notes) {
		out.Notes = append(out.Notes, extract.Flatten(n))
	}
	doubts := t.Doubts
	if bad > 0 {
		doubts = append(doubts, "some of its characters have no name in their font and stand as \ufffd")
	}
	out.Doubt = strings.Join(doubts, "; ")
	n := len(p.Doc.Blocks)
	p.Table(out)
	if len(p.Doc.Blocks) == n {
		return
	}
	out.Place.Page = t.Page
	for i := range out.Rows {
		for j := range out.Rows[i] {
			out.Rows[i][j].Place.Page = t.Rows[i][j].Page
		}
	}
}

func (p *paper) cell(c *layout.Cell) extract.Cell {
	var runs []extract.Run
	for _, l := range c.Lines {
		runs = glue(runs, append([]extract.Run(nil), l...), p.words)
	}
	return extract.Cell{Runs: merge(runs), Rows: c.Rows, Cols: c.Cols, Copy: c.Copy, Indent: c.Indent}
}

func rowsOfWords(words []layout.Word) [][]layout.Word {
	var out [][]layout.Word
	for i := range words {
		if n := len(out); n > 0 && diff(out[n-1][0].Base, words[i].Base) < 0.3*words[i].Size {
			out[n-1] = append(out[n-1], words[i])
			continue
		}
		out = append(out, []layout.Word{words[i]})
	}
	return out
}

func (p *paper) joined(lines [][]layout.Word) []extract.Run {
	var out []extract.Run
	for _, l := range lines {
		out = glue(out, lineRuns(l), p.words)
	}
	return merge(out)
}

func lineRuns(words []layout.Word) []extract.Run {
	var runs []extract.Run
	for k := range words {
		if k > 0 {
			runs = append(runs, extract.Run{Text: " "})
		}
		runs = append(runs, words[k].Runs...)
	}
	return runs
}

// notes joins the lines of a legend; a line that opens with a mark opens a
// note.
func (p *paper) notes(lines [][]layout.Word) [][]extract.Run {
	var out [][]extract.Run
	for _, l := range lines {
		runs := lineRuns(l)
		if len(out) == 0 || opensNote(runs) && !hangs(out[len(out)-1]) {
			out = append(out, runs)
			continue
		}
		out[len(out)-1] = glue(out[len(out)-1], runs, p.words)
	}
	return out
}

var noteMarks = regexp.MustCompile(`^(?:[*†‡§¶#]|(?i:notes?[.:]|abbreviations?[.:]))`)

func opensNote(runs []extract.Run) bool {
	return len(runs) > 0 && (runs[0].Raised || noteMarks.MatchString(runs[0].Text))
}

// hangs reports a note whose last line cannot be its end: the mark that opens
// the next line is then a part of its sentence ("… superscript (a, / b) …").
func hangs(runs []extract.Run) bool {
	text := extract.Flatten(runs)
	return strings.HasSuffix(text, ",") || strings.HasSuffix(text, "(") || strings.Count(text, "(") > strings.Count(text, ")")
}
