package layout

import (
	"probity/extract"
	"probity/extract/pdf/glyph"
)

// A Table is one printed table, or the part of it on one page.
type Table struct {
	glyph.Box
	Page    int
	Caption []Word // as printed, label first
	Rows    [][]Cell
	Head    int
	Notes   [][]extract.Run
	Doubts  []string
}

// A Cell is one place of the rectangle.
type Cell struct {
	Runs   []extract.Run
	Rows   int
	Cols   int
	Copy   bool
	Indent int
	Box    glyph.Box
}

func findTables(sheets []*Sheet) {}
