package assemble

import (
	"strings"

	"probity/extract"
	"probity/extract/numeral"
)

// column is what the cells of one column say together. It is found once: a
// measure that looked through its whole column would make the time grow with
// the square of the rows.
type column struct {
	spreads, figures int                       // cells with a spread, single figures
	letters          string                    // the letters that every figure carries
	alike            int                       // how many do; 0 where they differ
	counts           []*numeral.Reading        // cells that may be counts with their percentages
	n                map[string]extract.Number // the first n below each row of labels, as labelPaths gives them
	shared           *float64                  // the n that its counts lead to, once asked for
	sexes            *bothCounted              // the sexes that one of its cells counts, once asked for
}

// line is what the cells of one row say together.
type line struct {
	spreads, counts int // cells with a spread, counts with their percentages
	figures, whole  int // single figures, and whole ones among them
	sexes           *bothCounted
	named           []sizeText // its labels with more than one n
	namesRead       bool
}

// lineOf gives the sums of row r.
func (t *table) lineOf(r int) *line {
	if t.lines == nil {
		t.lines = make([]*line, len(t.g.rows))
	}
	if t.lines[r] == nil {
		out := &line{}
		for c := range t.g.read[r] {
			if rd := &t.g.read[r][c]; !t.g.stub[c] && t.col[c].data() {
				out.add(rd, t.counted(r, c), t.spreadAt(r, c))
			}
		}
		t.lines[r] = out
	}
	return t.lines[r]
}

func (l *line) add(rd *numeral.Reading, counted, spread bool) {
	switch {
	case counted:
		l.counts++
	case spread || rd.Form == numeral.Interval:
		l.spreads++
	case rd.Form == numeral.Figure:
		l.figures++
		if rd.Number.Decimals == 0 {
			l.whole++
		}
	}
}

// column gives the sums of column c.
func (t *table) column(c int) *column {
	if t.columns == nil {
		t.columns = make([]*column, t.g.cols)
	}
	if t.columns[c] == nil {
		t.columns[c] = t.sumColumn(c)
	}
	return t.columns[c]
}

func (t *table) sumColumn(c int) *column {
	out := &column{n: map[string]extract.Number{}}
	first := true
	for r := t.g.head; r < len(t.g.rows); r++ {
		rd := &t.g.read[r][c]
		if t.row[r].role == "n" {
			out.addN(&t.row[r], rd)
		}
		if rd.Form == numeral.None {
			continue
		}
		switch {
		case first:
			out.letters, out.alike, first = rd.Letters, 1, false
		case out.alike > 0 && rd.Letters == out.letters:
			out.alike++
		default:
			out.alike = 0
		}
		switch {
		case rd.Form == numeral.Figure:
			out.figures++
		case rd.Form == numeral.Spread && rd.Sign != "/":
			out.spreads++
		}
	}
	return out
}

// addN keeps the n of a row of n for the rows that stand under the same
// labels, where none was met before.
func (k *column) addN(a *axis, rd *numeral.Reading) {
	if !printsN(rd) {
		return
	}
	own := distinctAbove(a)
	for depth, path := range labelPaths(a) {
		if _, ok := k.n[path]; !ok && depth >= own {
			k.n[path] = rd.Number
		}
	}
}

// printsN reports whether a cell in a row or column of n holds one.
func printsN(rd *numeral.Reading) bool {
	return (rd.Form == numeral.Figure || rd.Form == numeral.N || rd.Form == numeral.Count) && rd.Number.Decimals == 0
}

// labelPaths joins the names of an axis from the outside in: after none of
// them, after the first, after the second and so on. Two axes have as many
// names in common as their paths are alike.
func labelPaths(a *axis) []string {
	out := []string{""}
	var b strings.Builder
	for _, l := range a.labels {
		if l.clean == "" {
			break
		}
		b.WriteString(l.clean + "\x00")
		out = append(out, b.String())
	}
	return out
}

// inBlock lists the rows that make one measure together.
func (t *table) inBlock(block int) []int {
	if t.blockRows == nil {
		t.blockRows = map[int][]int{}
		for r := range t.row {
			t.blockRows[t.row[r].block] = append(t.blockRows[t.row[r].block], r)
		}
	}
	return t.blockRows[block]
}
