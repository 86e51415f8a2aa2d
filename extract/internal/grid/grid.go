// Package grid turns the rows of a marked-up table, where one printed cell may
// cover several rows and columns, into the full rectangle that extract.Table
// promises.
//
//	[]Row{Cells as written} → extract.Table, every place filled
//
// It also says how many leading rows are header, because that question is the
// same for every format. What a table is about it does not know.
package grid

import (
	"fmt"
	"slices"
	"strings"

	"probity/extract"
)

// Limits against tables made to exhaust memory. The widest table we know of in
// print has some sixty columns.
const (
	maxCols  = 1000
	maxCells = 400_000
	maxEmpty = 40 // places that one printed cell may fill, on the average
)

// A Row is one row as the format writes it: a cell that covers more than one
// place (Rows, Cols) is written once.
type Row struct {
	Cells []extract.Cell
	Head  bool // inside the format's header group
	Group int  // row group it is in; a cell reaches into another group only where that lacks its columns
}

// Fill makes the full rectangle of t. Rows with nothing printed in them
// (spacers, rules) are dropped, and cells that reached over them cover one row
// less. Head is the number of leading header rows. Doubt says what is cut or
// contradictory, Cut what is left out; both are empty for a sound table.
func Fill(t *extract.Table, rows []Row) {
	b := &builder{most: 2000, end: len(rows)}
	for _, r := range rows {
		b.most = min(b.most+maxEmpty*(1+len(r.Cells)), maxCells)
	}
	rows = reaching(rows)
	b.below = below(rows)
	for i := 0; i < b.end; i++ {
		b.place(rows, i)
	}
	b.square()
	t.Cut = b.cut(len(rows))
	b.drop()
	t.Rows, t.Head, t.Doubt = b.grid, headRows(b.grid, b.marked), b.doubt
	indent(t.Rows[min(t.Head, len(t.Rows)):])
	if t.Cut != "" {
		t.Doubt = "it is larger than any table that is printed: " + t.Cut
	}
}

// cut says what of the rows as written was left out.
func (b *builder) cut(rows int) string {
	var said []string
	if b.wide {
		said = append(said, fmt.Sprintf("its columns after the %dth are not read", maxCols))
	}
	if b.end < rows {
		said = append(said, fmt.Sprintf("of its %d rows the last %d are not read", rows, rows-b.end))
	}
	return strings.Join(said, "; ")
}

// builder lays rows one after another, remembering which columns are still
// covered from above.
type builder struct {
	grid   [][]extract.Cell
	marked []bool // the row stood in the header group
	open   []reach
	group  int
	count  int
	most   int // places that may be filled
	below  []int
	doubt  string
	wide   bool // cells stood beyond the last column that is read
	end    int  // rows that are read
}

// reach is what is left of a merged cell in one column below its first row.
type reach struct {
	rows int
	cell extract.Cell
}

func (b *builder) place(rows []Row, i int) {
	row := rows[i]
	if row.Group != b.group {
		b.open, b.group = nil, row.Group
	}
	var line []extract.Cell
	col := 0
	for _, c := range row.Cells {
		line, col = b.carry(line, col)
		if col >= maxCols {
			b.wide = b.wide || !c.Empty()
			continue
		}
		c.Rows, c.Cols = clip(c.Rows, b.below[i]), clip(c.Cols, maxCols-col)
		if b.count+len(line)+c.Cols > b.most {
			b.end = i
			return
		}
		line, col = b.write(line, col, c)
	}
	line, _ = b.carry(line, col)
	for col = len(line); col < len(b.open); col++ {
		c := extract.Cell{}
		if b.open[col].rows > 0 {
			b.open[col].rows--
			c = b.open[col].cell
		}
		line = append(line, c)
	}
	b.count += len(line)
	b.grid = append(b.grid, line)
	b.marked = append(b.marked, row.Head)
}

// reaching takes the first rows of a group into the one above it where cells
// of that one were meant to reach into them: the rows lack as many columns as
// these cells cover.
func reaching(rows []Row) []Row {
	out := slices.Clone(rows)
	first := 0 // of the group above
	for i := 1; i < len(out); i++ {
		if rows[i].Group == rows[i-1].Group {
			continue
		}
		lacking, last := 0, len(out) // columns that are covered from above, and how far down
		for r := first; r < i; r++ {
			for _, c := range rows[r].Cells {
				if r+c.Rows > i {
					lacking += max(c.Cols, 1)
					last = min(last, r+c.Rows)
				}
			}
		}
		for r := i; lacking > 0 && r < last && rows[r].Group == rows[i].Group && columns(rows[r])+lacking == columns(rows[first]); r++ {
			out[r].Group = rows[i-1].Group
		}
		first = i
	}
	return out
}

// columns counts the columns that the cells of a row cover.
func columns(r Row) int {
	n := 0
	for _, c := range r.Cells {
		n += max(c.Cols, 1)
	}
	return n
}

// below counts for each row how many there are to the end of its group, itself
// included.
func below(rows []Row) []int {
	out := make([]int, len(rows))
	for i := len(rows) - 1; i >= 0; i-- {
		out[i] = 1
		if i+1 < len(rows) && rows[i+1].Group == rows[i].Group {
			out[i] += out[i+1]
		}
	}
	return out
}

// carry fills the columns that are covered from above.
func (b *builder) carry(line []extract.Cell, col int) ([]extract.Cell, int) {
	for col < len(b.open) && b.open[col].rows > 0 {
		b.open[col].rows--
		line = append(line, b.open[col].cell)
		col++
	}
	return line, col
}

// write puts one printed cell into the row and marks what it covers.
func (b *builder) write(line []extract.Cell, col int, c extract.Cell) ([]extract.Cell, int) {
	copied := c
	copied.Copy, copied.Rows, copied.Cols = true, 0, 0
	for k := 0; k < c.Cols; k++ {
		for len(b.open) <= col+k {
			b.open = append(b.open, reach{})
		}
		if b.open[col+k].rows > 0 && b.doubt == "" {
			b.doubt = "two merged cells claim the same place"
		}
		b.open[col+k] = reach{c.Rows - 1, copied}
		if k == 0 {
			line = append(line, c)
		} else {
			line = append(line, copied)
		}
	}
	return line, col + c.Cols
}

// clip keeps a span between one and what is left. Zero and less mean one: a
// format that gives zero the meaning "to the end" says so before.
func clip(span, most int) int {
	if span < 1 {
		span = 1
	}
	if span > most {
		span = max(most, 0)
	}
	return span
}

// square makes all rows equally long.
func (b *builder) square() {
	width := 0
	for _, r := range b.grid {
		width = max(width, len(r))
	}
	if width*len(b.grid) > b.most {
		b.end = b.most / width
		b.grid, b.marked = b.grid[:b.end], b.marked[:b.end]
	}
	for i, r := range b.grid {
		for len(r) < width {
			r = append(r, extract.Cell{})
		}
		b.grid[i] = r
	}
}

// drop takes out the rows in which nothing is printed. A row that only repeats
// merged cells from above is such a row.
func (b *builder) drop() {
	keep := b.grid[:0:0]
	var marked []bool
	for i, row := range b.grid {
		if blank(b.grid, i) {
			b.shorten(i)
			continue
		}
		keep = append(keep, row)
		marked = append(marked, b.marked[i])
	}
	b.grid, b.marked = keep, marked
}

func blank(grid [][]extract.Cell, i int) bool {
	for _, c := range grid[i] {
		if !c.Copy && !c.Empty() {
			return false
		}
	}
	return true
}

// same reports whether two places show the same printed cell.
func same(a, b extract.Cell) bool {
	if len(a.Runs) != len(b.Runs) {
		return false
	}
	return len(a.Runs) == 0 || &a.Runs[0] == &b.Runs[0]
}

// shorten takes one row off every cell that reaches over row i.
func (b *builder) shorten(i int) {
	for j, c := range b.grid[i] {
		if !c.Copy || len(c.Runs) == 0 {
			continue
		}
		for k := i - 1; k >= 0 && same(b.grid[k][j], c); k-- {
			if o := &b.grid[k][j]; !o.Copy && o.Rows > 1 {
				o.Rows--
				break
			}
		}
	}
}

// Most is the largest span that is taken as written.
const Most = 10_000

// Span reads a colspan or rowspan attribute. What is no number means one; so
// does "0" except as a rowspan in HTML, which its reader sees to.
func Span(s string) int {
	n := 0
	for _, c := range []byte(s) {
		if c < '0' || c > '9' {
			break
		}
		if n = n*10 + int(c-'0'); n > Most {
			return Most
		}
	}
	return max(n, 1)
}
