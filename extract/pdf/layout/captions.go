package layout

import (
	"math"
	"regexp"
	"strings"

	"probity/extract/pdf/glyph"
)

// A caption is a place where "Table 2" opens a line and may label a table.
type caption struct {
	row, word int // in the sheet's rows
	x0, base  float64
	size      float64
	sure      bool // it does not read on as a sentence
	more      bool // "continued"
	used      bool
}

var (
	tableWord = regexp.MustCompile(`^(?i:supplementary|supplemental|appendix|web|e)?-?(?:Tables?|TABLES?|Tab\.?|TAB\.?|Tabelle|Tabla|Tableau|Tabela)$`)
	wholeTag  = regexp.MustCompile(`^(?:Table|TABLE|Tab\.)(?:S?\d{1,2}|[IVX]{1,5})[.:]?$`)
	tableNo   = regexp.MustCompile(`^(?:[A-Z]?\.?-?\d{1,3}(?:\.\d{1,2})?[a-zA-Z]?|[IVX]{1,6}|[A-Z])([.:|)–—-]*)$`)
	goesOn    = regexp.MustCompile(`(?i)\bcont(?:inued|inuation|['’]?d|\.)`)
)

// reading are words that follow "Table 2" in a sentence, not in a caption.
// Source: common practice.
var reading = map[string]bool{"shows": true, "show": true, "showed": true, "presents": true, "present": true, "lists": true, "list": true, "summarizes": true,
	"summarises": true, "summarize": true, "gives": true, "give": true, "demonstrates": true, "and": true, "illustrates": true, "reports": true, "displays": true,
	"contains": true, "provides": true, "describes": true, "depicts": true, "compares": true, "reveals": true, "indicates": true, "in": true, "also": true, "is": true,
	"are": true, "was": true, "were": true, "includes": true, "outlines": true, "details": true, "represents": true, "exhibits": true, "or": true, "to": true,
	"we": true, "that": true, "which": true, "for": true, "with": true, "as": true, "has": true, "have": true, "can": true}

// captions finds every line that opens with the label of a table.
func (s *Sheet) captions(rows [][]Word) []caption {
	var out []caption
	for i, row := range rows {
		for k := range row {
			w := &row[k]
			if k > 0 && row[k].X0-row[k-1].X1 < 0.9*w.Size {
				continue
			}
			n := labelWords(row[k:])
			if n == 0 {
				continue
			}
			c := caption{row: i, word: k, x0: w.X0, base: w.Base, size: w.Size}
			c.sure = s.sureCaption(rows, i, k, n)
			c.more = goesOn.MatchString(textOf(row[k:min(len(row), k+6)]))
			out = append(out, c)
		}
	}
	return out
}

// end is where the caption's first line ends: further right than the table,
// when that is narrower than its column.
func (c *caption) end(rows [][]Word) float64 {
	row := rows[c.row][c.word:]
	k := 0
	for k+1 < len(row) && row[k+1].X0-row[k].X1 < 0.9*row[k].Size {
		k++
	}
	return row[k].X1
}

// labelWords counts the words of "Table 2" at the start of a row; 0 if they do
// not stand there.
func labelWords(row []Word) int {
	first := row[0].plain()
	if wholeTag.MatchString(first) {
		return 1
	}
	k := 0
	switch strings.ToLower(first) {
	case "supplementary", "supplemental", "appendix", "supplement", "additional":
		k = 1
	}
	if k+1 >= len(row) || !tableWord.MatchString(row[k].plain()) || row[k+1].X0-row[k].X1 > 1.2*row[k].Size {
		return 0
	}
	if !tableNo.MatchString(row[k+1].plain()) {
		return 0
	}
	return k + 2
}

func (s *Sheet) sureCaption(rows [][]Word, i, k, n int) bool {
	row := rows[i][k:]
	no := row[n-1].plain()
	if n < len(row) && row[n].X0-row[n-1].X1 < 1.5*row[n].Size {
		next := row[n].plain()
		if reading[strings.ToLower(strings.Trim(next, ",.;"))] || strings.HasPrefix(next, ")") || strings.HasPrefix(next, ",") {
			return false
		}
		if lowercase.MatchString(next) && !strings.ContainsAny(no, ".:|–—") && math.Abs(row[0].Size-s.body) < 0.3 && !row[0].Bold {
			return false
		}
	}
	if strings.HasSuffix(no, ")") || strings.HasSuffix(no, ",") {
		return false
	}
	// the end of a sentence that goes on from the line above: "… (see / Table 2)."
	if i > 0 && !row[0].Bold && math.Abs(row[0].Size-s.body) < 0.3 {
		for _, w := range rows[i-1] {
			above := row[0].Base - w.Base
			if above < 1.5*w.Size && math.Abs(w.X0-row[0].X0) < 1 && math.Abs(w.Size-row[0].Size) < 0.2 {
				last := lastBefore(rows[i-1], w.X0)
				return sentence.MatchString(last.plain())
			}
		}
	}
	return true
}

// lastBefore is the last word of the run of words that begins at x.
func lastBefore(row []Word, x float64) *Word {
	k := 0
	for k < len(row)-1 && row[k].X0 < x-1 {
		k++
	}
	for k+1 < len(row) && row[k+1].X0-row[k].X1 < 1.2*row[k].Size {
		k++
	}
	return &row[k]
}

func textOf(words []Word) string {
	var b strings.Builder
	for i := range words {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(words[i].Text())
	}
	return b.String()
}

// inside picks the words whose middle lies in a box.
func inside(words []Word, b glyph.Box) []Word {
	within := func(w *Word) bool {
		x, y := (w.X0+w.X1)/2, w.Base-0.3*w.Size
		return x >= b.X0 && x <= b.X1 && y >= b.Y0 && y <= b.Y1
	}
	n := 0
	for i := range words {
		if within(&words[i]) {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	out := make([]Word, 0, n)
	for i := range words {
		if within(&words[i]) {
			out = append(out, words[i])
		}
	}
	return out
}
