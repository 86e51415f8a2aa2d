package layout

import (
	"regexp"
	"strings"

	"probity/extract"
	"probity/extract/pdf/glyph"
)

// A Table is one printed table, or the part of it on one page.
type Table struct {
	glyph.Box
	Page    int
	Page2   int    // last page of a table that goes on over pages
	Caption []Word // as printed, label first
	Rows    [][]Cell
	Head    int
	Notes   [][]Word // lines of the legend
	Doubts  []string
	more    bool
	first   bool // nothing stands above it on its page
}

// A Cell is one place of the rectangle.
type Cell struct {
	Lines  [][]extract.Run // the cell's lines, not yet joined
	Rows   int
	Cols   int
	Copy   bool
	Indent int
	Page   int
	Bad    bool // holds a character nobody can name
}

func (c *Cell) text() string {
	var parts []string
	for _, l := range c.Lines {
		parts = append(parts, extract.Flatten(l))
	}
	return strings.Join(parts, " ")
}

func rowText(row []Cell) string {
	var parts []string
	for i := range row {
		parts = append(parts, row[i].text())
	}
	return strings.Join(parts, "|")
}

func trimLabel(s string) string { return strings.ToLower(strings.TrimRight(s, ".:|–— ")) }

var figureText = regexp.MustCompile(`^[<>≤≥~≈∼±+−–(\[-]*\s*\.?\d`)

// figure reports whether a word opens as a figure does.
func figure(s string) bool { return figureText.MatchString(s) }

// build reads the cells of a region. Nil when they make no table.
func build(r *region) *Table {
	words := inside(r.sheet.words, r.box)
	if len(words) < 3 {
		return nil
	}
	lines := visual(words)
	g := &grid{region: r, lines: lines}
	g.split()
	g.columns()
	if len(g.cols) < 2 {
		if r.label && len(g.cols) == 1 && len(lines) >= 2 {
			return nil
		}
		return nil
	}
	g.place()
	caption := r.caption
	if len(r.foreign) > 0 {
		caption = r.foreign
	}
	t := &Table{Caption: caption, more: r.more, first: r.sheet.atTop(r)}
	t.Rows, t.Head = g.header()
	t.Rows = append(t.Rows, g.body()...)
	for i := range t.Rows {
		for j := range t.Rows[i] {
			t.Rows[i][j].Page = r.sheet.Page.Number
		}
	}
	t.Notes = rowsOf(r.notes)
	t.Doubts = g.doubts
	t.check(words)
	return t
}

// check holds the digits of the region against the digits of the cells: a
// table that loses or doubles one cannot be trusted.
func (t *Table) check(words []Word) {
	var want, got [10]int
	for i := range words {
		count(&want, words[i].Text())
	}
	for _, row := range t.Rows {
		for j := range row {
			if !row[j].Copy {
				count(&got, row[j].text())
			}
		}
	}
	if want != got {
		t.Doubts = append(t.Doubts, "the digits of its cells are not the digits printed there")
	}
	t.crowded()
	t.nameless()
	t.torn()
}

var (
	meanSpread = regexp.MustCompile(`\d\s*±\s*\.?\d`)
	decimals   = regexp.MustCompile(`\d\.\d`)
	cutOff     = regexp.MustCompile(`±\s*$`)
)

// torn doubts a table whose header holds means with spreads or more figures
// than a name has, or whose cells end in the middle of one: its rows were
// parted in the wrong places.
func (t *Table) torn() {
	for i, row := range t.Rows {
		if i < t.Head && swallowed(row) {
			t.Doubts = append(t.Doubts, amongNames)
			return
		}
		for j := range row {
			if row[j].Copy {
				continue
			}
			switch text := row[j].text(); {
			case i < t.Head && meanSpread.MatchString(text):
				t.Doubts = append(t.Doubts, amongNames)
				return
			case i >= t.Head && cutOff.MatchString(text):
				t.Doubts = append(t.Doubts, "some figures are cut in two")
				return
			}
		}
	}
}

const amongNames = "figures stand among the names of its columns"

// swallowed reports that two cells of a header row or more hold two figures
// with decimals each, as the first rows of figures do.
func swallowed(row []Cell) bool {
	n := 0
	for j := range row {
		if !row[j].Copy && len(decimals.FindAllString(row[j].text(), 2)) == 2 {
			n++
		}
	}
	return n >= 2
}

// crowded doubts a table in which single cells hold two means with spreads
// where the others hold one: two cells may have run together.
func (t *Table) crowded() {
	one, two := 0, 0
	for _, row := range t.Rows[t.Head:] {
		for j := range row {
			if row[j].Copy {
				continue
			}
			switch strings.Count(row[j].text(), "±") {
			case 0:
			case 1:
				one++
			default:
				two++
			}
		}
	}
	if two > 0 && one > two {
		t.Doubts = append(t.Doubts, "some cells hold two means where others hold one")
	}
}

// nameless doubts a table with a column of figures that has no name while the
// others have.
func (t *Table) nameless() {
	if t.Head == 0 || len(t.Rows) <= t.Head {
		return
	}
	named, lost := 0, 0
	for j := 1; j < len(t.Rows[0]); j++ {
		name := ""
		for i := range t.Head {
			name += t.Rows[i][j].text()
		}
		figures := 0
		for _, row := range t.Rows[t.Head:] {
			if figure(row[j].text()) {
				figures++
			}
		}
		if name != "" {
			named++
		} else if figures*2 > len(t.Rows)-t.Head {
			lost++
		}
	}
	if lost > 0 && named > 0 {
		t.Doubts = append(t.Doubts, "a column of figures has no name")
	}
}

func count(n *[10]int, s string) {
	for _, r := range s {
		if r >= '0' && r <= '9' {
			n[r-'0']++
		}
	}
}
