package assemble

import (
	"slices"
	"strings"
	"unicode"

	"probity/extract"
	"probity/extract/numeral"
)

// grid is a table ready to be understood: its readings, which rows are
// headings, sections or data, and which columns hold labels.
type grid struct {
	t        *extract.Table
	head     int // rows of headings
	cols     int
	read     [][]numeral.Reading
	text     [][]string // labels: without footnote marks
	rows     []rowInfo
	stub     []bool // columns of labels
	filled   []int  // figures in the body of each column
	style    numeral.Style
	headings [][]string // per column, the distinct headings from the top
	deepest  int        // section headings in a row, where more than mostLevels are
}

// rowInfo says what a body row is.
type rowInfo struct {
	skip     bool // empty, or a rule
	section  bool // a heading inside the body
	repeated bool // a row of column headings inside the body
	sections []string
}

func newGrid(t *extract.Table, style numeral.Style) *grid {
	g := &grid{t: t, style: style}
	for _, row := range t.Rows {
		g.cols = max(g.cols, len(row))
	}
	for r := range t.Rows {
		readings, texts := make([]numeral.Reading, g.cols), make([]string, g.cols)
		for c := range t.Rows[r] {
			cell := &t.Rows[r][c]
			texts[c] = printed(cell.Runs)
			if !cell.Copy && texts[c] != "" {
				readings[c] = numeral.Cell(*cell, style)
			}
		}
		g.read = append(g.read, readings)
		g.text = append(g.text, texts)
	}
	return g
}

func (g *grid) cell(r, c int) *extract.Cell {
	if r < len(g.t.Rows) && c < len(g.t.Rows[r]) {
		return &g.t.Rows[r][c]
	}
	return &extract.Cell{}
}

// figure reports whether a cell holds figures that may be a measure.
func (g *grid) figure(r, c int) bool {
	switch rd := &g.read[r][c]; rd.Form {
	case numeral.Spread, numeral.Interval, numeral.Limits, numeral.Count:
		return rd.Label == "" || len(rd.Label) < 12
	case numeral.Figure, numeral.P:
		return rd.Label == "" && rd.Rest == ""
	}
	return false
}

// shape finds the heading rows, the label columns and the sections.
func (g *grid) shape(ls *labels) {
	g.headRows(ls)
	g.rows = make([]rowInfo, len(g.t.Rows))
	g.stubs(ls)
	g.ditto()
	g.sections(ls)
	g.headingsOf()
}

// stubs finds the columns of labels: those before the first column of
// figures, and later ones whose cells are words.
func (g *grid) stubs(ls *labels) {
	g.stub, g.filled = make([]bool, g.cols), make([]int, g.cols)
	words, amounts := make([]int, g.cols), make([]int, g.cols)
	letters := make([]int, g.cols)
	spreads := make([]int, g.cols) // figures with ±, which no label is
	for r := g.head; r < len(g.t.Rows); r++ {
		if g.spans(r) {
			continue
		}
		for c := 0; c < g.cols; c++ {
			s := g.text[r][c]
			switch {
			case s == "" || g.cell(r, c).Copy && c > 0:
			case amount(&g.read[r][c]):
				amounts[c]++
			case g.figure(r, c):
				g.filled[c]++
				if g.read[r][c].Sign == "±" {
					spreads[c]++
				}
			case g.read[r][c].Form == numeral.Size:
				words[c]++
			case len(strings.TrimFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })) <= 3 && !strings.Contains(s, " "):
				letters[c]++
			default:
				words[c]++
			}
		}
	}
	g.placeAmounts(amounts, words)
	for c := 0; c < g.cols; c++ {
		if c > 0 && startsWithP(g.lastHeading(c)) {
			continue
		}
		if c > 0 && spreads[c]*4 >= words[c] && spreads[c] > 0 {
			continue
		}
		g.stub[c] = words[c] > g.filled[c] || words[c]+letters[c] > 0 && c == 0 && words[c]+letters[c] >= g.filled[c]
	}
	if g.cols > 1 && !g.stub[0] {
		// figures in the first column are labels where they count up, or
		// where its heading is the heading of a label column
		head := ls.read(g.heading(0))
		switch head.kind {
		case "arm-head", "condition-head", "outcome-head":
			g.stub[0] = true
		default:
			g.stub[0] = g.countsUp(0) || words[0]+letters[0] > 0
		}
	}
	for c := 1; c < g.cols; c++ {
		if g.stub[c] || g.filled[c] == 0 {
			continue
		}
		switch ls.read(g.lastHeading(c)).kind {
		case "condition-head", "trait", "arm-head":
			// 20 and 37 under "Temperature", 1 and 2 under "Group", "5 mg" and
			// "Control" under "Treatment"
			g.stub[c] = g.wholeFigures(c) || words[c] > 0 && !g.spreads(c)
		}
	}
	for c := 1; c < g.cols && g.filled[c] == 0; c++ {
		g.stub[c] = g.stub[c] || g.stub[0] && letters[c] > 1 // "I" and "C", "No" and "Yes" before the figures
	}
	for c := 0; c < g.cols; c++ {
		if !g.stub[c] && g.filled[c] == 0 && words[c] > 0 && !startsWithP(g.lastHeading(c)) {
			g.stub[c] = true
		}
	}
}

// placeAmounts counts figures with a unit as words where their column stands
// before all columns of other figures, and is the first or repeats itself:
// "20 °C", "37 °C" are labels. Elsewhere they are figures.
func (g *grid) placeAmounts(amounts, words []int) {
	before := true
	for c := range amounts {
		before = before && g.filled[c] == 0
		others := false
		for k := c + 1; k < g.cols && before; k++ {
			others = others || g.filled[k] > amounts[k]
		}
		if before && others && (c == 0 || g.repeatsItself(c)) {
			words[c] += amounts[c]
		} else {
			g.filled[c] += amounts[c]
		}
	}
}

// repeatsItself reports whether a column prints a text in more than one row.
func (g *grid) repeatsItself(c int) bool {
	seen := map[string]bool{}
	for r := g.head; r < len(g.text); r++ {
		if s := g.text[r][c]; s != "" && !g.cell(r, c).Copy {
			if seen[s] {
				return true
			}
			seen[s] = true
		}
	}
	return false
}

// spreads reports whether a column has figures with a spread or an interval.
func (g *grid) spreads(c int) bool {
	for r := g.head; r < len(g.read); r++ {
		switch g.read[r][c].Form {
		case numeral.Spread, numeral.Interval, numeral.Limits:
			return true
		}
	}
	return false
}

// wholeFigures reports whether a column has only single whole figures.
func (g *grid) wholeFigures(c int) bool {
	for r := g.head; r < len(g.read); r++ {
		if rd := &g.read[r][c]; rd.Form != numeral.None && (rd.Form != numeral.Figure || rd.Number.Decimals > 1 || rd.Letters != "") {
			return false
		}
	}
	return true
}

// ditto fills label cells that are left empty, or hold a dash, with the label
// above, where another label stands beside them: "Flossing | Baseline", "– |
// Follow-up".
func (g *grid) ditto() {
	for c := 0; c < g.cols; c++ {
		if !g.stub[c] {
			continue
		}
		above := ""
		for r := g.head; r < len(g.t.Rows); r++ {
			s := g.text[r][c]
			if g.spans(r) {
				above = ""
				continue
			}
			if strings.Trim(s, "-–—−\"″ ") != "" {
				above = s
				continue
			}
			if above != "" && g.labelBeside(r, c) {
				g.text[r][c] = above
			}
		}
	}
}

// labelBeside reports whether a further label and figures stand right of c.
func (g *grid) labelBeside(r, c int) bool {
	label, figures := false, false
	for k := c + 1; k < g.cols; k++ {
		if g.stub[k] && strings.Trim(g.text[r][k], "-–—−\"″ ") != "" {
			label = true
		}
		figures = figures || !g.stub[k] && g.figure(r, k)
	}
	return label && figures
}

func (g *grid) countsUp(c int) bool {
	want, n := -1.0, 0
	for r := g.head; r < len(g.t.Rows); r++ {
		rd := &g.read[r][c]
		if rd.Form != numeral.Figure || rd.Number.Decimals != 0 {
			continue
		}
		if want >= 0 && rd.Number.Value != want {
			return false
		}
		want = rd.Number.Value + 1
		n++
	}
	return n >= 2
}

// spans reports whether one cell covers the whole row.
func (g *grid) spans(r int) bool {
	if g.cols < 2 || g.text[r][0] == "" {
		return false
	}
	for c := 1; c < g.cols; c++ {
		if !g.cell(r, c).Copy || g.text[r][c] != g.text[r][0] {
			return false
		}
	}
	return true
}

// sections finds headings inside the body and gives each row those above it.
func (g *grid) sections(ls *labels) {
	var stack []string
	run := 0 // headings in a row just now
	last := 0
	for r := g.head; r < len(g.t.Rows); r++ {
		info := &g.rows[r]
		kind, text := g.rowKind(r)
		switch kind {
		case 'e':
			info.skip = true
		case 's':
			info.section = true
			if run == 0 {
				last = len(stack)
				stack = nil
			}
			run++
			if stack = append(stack, text); len(stack) > mostLevels {
				stack = slices.Clone(stack[1:])
				g.deepest = max(g.deepest, run)
			}
		default:
			if run > 0 && run < last {
				// fewer headings than before: the outer ones still hold
				stack = append(g.outer(r, min(last-run, mostLevels)), stack...)
			}
			run = 0
			if kind == 'h' {
				info.repeated = true
			}
			info.sections = append([]string(nil), stack...)
		}
	}
}

// mostLevels is how many section headings, one in the other, a row stands
// under, and how many rows of headings a column: more are a list of words.
const mostLevels = 40

// outer gives the first k section headings of the data row before row r.
func (g *grid) outer(r, k int) []string {
	for i := r - 1; i >= g.head; i-- {
		if s := g.rows[i].sections; s != nil && !g.rows[i].section {
			return append([]string(nil), s[:min(k, len(s))]...)
		}
	}
	return nil
}

// rowKind tells empty rows (e), section headings (s), repeated column
// headings (h) and data (d) apart.
func (g *grid) rowKind(r int) (kind byte, text string) {
	if g.spans(r) {
		return 's', g.text[r][0]
	}
	filled, figures, amounts, copied := 0, 0, 0, 0
	first := -1
	for c := 0; c < g.cols; c++ {
		s := g.text[r][c]
		if s == "" || strings.Trim(s, "-–—_ ") == "" {
			continue
		}
		if g.cell(r, c).Copy {
			copied++
			continue
		}
		filled++
		if first < 0 {
			first = c
		}
		switch {
		case amount(&g.read[r][c]):
			amounts++
		case g.figure(r, c):
			figures++
		}
	}
	switch {
	case filled == 0:
		return 'e', ""
	case filled == 1 && figures+amounts == 0 && (first == 0 || g.stub[first] && copied == 0) && g.cell(r, first).Rows < 2 && !g.dataUnderMerge(r):
		return 's', g.text[r][first]
	case figures == 0 && filled > 1 && amounts*4 < filled && r+1 < len(g.t.Rows) && g.wordsUnderFigures(r):
		return 'h', ""
	}
	return 'd', ""
}

// dataUnderMerge reports whether figures of a merged cell reach into row r.
func (g *grid) dataUnderMerge(r int) bool {
	for c := 1; c < g.cols; c++ {
		if g.cell(r, c).Copy && g.text[r][c] != "" && g.text[r][c] != g.text[r][0] {
			return true
		}
	}
	return false
}

// wordsUnderFigures reports whether row r has words in columns of figures: a
// second row of column headings inside the body.
func (g *grid) wordsUnderFigures(r int) bool {
	words, columns := 0, 0
	for c := 0; c < g.cols; c++ {
		if g.stub[c] || g.filled[c] == 0 {
			continue
		}
		columns++
		if s := g.text[r][c]; s != "" && strings.ContainsFunc(s, unicode.IsLetter) && len(s) > 1 {
			words++
		}
	}
	return columns > 0 && words*2 > columns && words > 1
}
