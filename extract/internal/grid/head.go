package grid

import (
	"strings"
	"unicode"

	"probity/extract"
)

// headRows counts the leading header rows. The format's own word comes first;
// where it marks none, or marks rows that are plainly data, the figures decide.
func headRows(grid [][]extract.Cell, marked []bool) int {
	n := 0
	for n < len(grid) && marked[n] && !data(grid[n]) {
		n++
	}
	if n == len(grid) {
		n = 0
	}
	for n < len(grid)-1 && allHeader(grid[n]) {
		n++
	}
	if n == 0 {
		return guess(grid)
	}
	for n < len(grid)-1 && subhead(grid, n) {
		n++
	}
	return n
}

// allHeader reports a row of cells that are all marked as header.
func allHeader(row []extract.Cell) bool {
	own := false
	for _, c := range row {
		if !c.Header && !c.Empty() {
			return false
		}
		own = own || c.Header && !c.Copy
	}
	return own
}

// guess finds the header of a table whose format marks none: the leading rows
// of words above rows of figures.
func guess(grid [][]extract.Cell) int {
	if !figuresBelow(grid, 0) {
		// A table of words only: its first row names the columns when it
		// is complete.
		if len(grid) > 1 && len(grid[0]) > 1 && words(grid[0]) == len(grid[0]) {
			return 1
		}
		return 0
	}
	n := 0
	for n < len(grid)-1 && !hasFigure(grid[n]) && printed(grid[n]) > 0 {
		if n > 0 && printed(grid[n]) == 1 && !grid[n][0].Empty() {
			break // a row-group heading, not a header row
		}
		n++
	}
	return n
}

// subhead reports that row n, the first below the marked header, is header
// too: nothing new in its stub, words in the other columns, figures below.
func subhead(grid [][]extract.Cell, n int) bool {
	row := grid[n]
	if len(row) < 2 || !row[0].Empty() && !row[0].Copy {
		return false
	}
	if row[0].Copy && !row[0].Empty() && !same(row[0], grid[n-1][0]) {
		return false
	}
	return words(row[1:]) >= 2 && !hasFigure(row) && figuresBelow(grid, n+1)
}

// words counts the printed cells with letters in them.
func words(row []extract.Cell) int {
	n := 0
	for _, c := range row {
		if !c.Copy && strings.ContainsFunc(c.Text(), unicode.IsLetter) {
			n++
		}
	}
	return n
}

// printed counts the cells of a row that are printed there.
func printed(row []extract.Cell) int {
	n := 0
	for _, c := range row {
		if !c.Copy && !c.Empty() {
			n++
		}
	}
	return n
}

// figuresBelow reports that from row n on at least half of the rows carry
// figures beside their stub.
func figuresBelow(grid [][]extract.Cell, n int) bool {
	with, all := 0, 0
	for _, row := range grid[min(n, len(grid)):] {
		if printed(row) < 2 {
			continue // row-group headings say nothing either way
		}
		all++
		if hasFigure(row) {
			with++
		}
	}
	return all > 0 && 2*with >= all
}

// hasFigure reports a cell beside the stub that opens with a figure: "12.3 ±
// 1.1", "< .001", "(0.5)", "−3". "24 h", "Group 2" and "n = 10" are words.
func hasFigure(row []extract.Cell) bool {
	for i, c := range row {
		if i > 0 && !c.Copy && Figure(c.Text()) {
			return true
		}
	}
	return false
}

// Figure reports whether a cell's text is a figure rather than a name: it
// opens with a digit, perhaps behind a sign, and letters are not most of it. A
// whole number with a word behind it ("24 h", "95% CI") names a column.
func Figure(s string) bool {
	s = strings.TrimLeft(s, "<>=≤≥~≈−–-+±*([. \u00a0")
	s = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(s, "p"), "P"))
	s = strings.TrimLeft(s, "<>=≤≥ .")
	if s == "" || s[0] < '0' || s[0] > '9' {
		return false
	}
	digits, letters := 0, 0
	for _, r := range s {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsLetter(r) && r < 0x1D00:
			letters++
		}
	}
	rest := strings.TrimLeft(s, "0123456789")
	word := strings.TrimLeft(rest, "% °\u00a0")
	named := word != rest && word != "" && unicode.IsLetter([]rune(word)[0])
	return digits >= letters && !named && !year(s)
}

// year reports a bare year or a bare count such as a time: four digits alone.
func year(s string) bool {
	return len(s) == 4 && (strings.HasPrefix(s, "19") || strings.HasPrefix(s, "20")) && strings.Trim(s, "0123456789") == ""
}

// data reports a row that cannot be header whatever the format says: two or
// more cells of the form "12.3 ± 1.1" or "12.3 (1.1)".
func data(row []extract.Cell) bool {
	n := 0
	for i, c := range row {
		if i == 0 || c.Copy {
			continue
		}
		s := c.Text()
		if Figure(s) && strings.ContainsAny(s, ".,") && strings.ContainsAny(s, "±(") {
			n++
		}
	}
	return n >= 2
}
