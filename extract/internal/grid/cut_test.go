package grid_test

import (
	"strings"
	"testing"

	"probity/extract"
	"probity/extract/internal/grid"
)

func line(n int) grid.Row {
	r := grid.Row{Cells: make([]extract.Cell, n)}
	for i := range r.Cells {
		r.Cells[i] = cell("1")
	}
	return r
}

func times(r grid.Row, n int) []grid.Row {
	out := make([]grid.Row, n)
	for i := range out {
		out[i] = r
	}
	return out
}

// What of a table is too large is counted: a wide table keeps its rows, a long
// one those that there is room for.
func TestCut(t *testing.T) {
	spare := grid.Row{Cells: append(line(1000).Cells, make([]extract.Cell, 40)...)}
	for _, tt := range []struct {
		name       string
		rows       []grid.Row
		wide, long int // what is read
		cut        string
	}{
		{"as wide as is read", times(line(1000), 3), 1000, 3, ""},
		{"empty columns beyond", times(spare, 3), 1000, 3, ""},
		{"too wide", times(line(1001), 3), 1000, 3, "its columns after the 1000th are not read"},
		{"as long as is read", times(line(500), 800), 500, 800, ""},
		// 400,000 places are 800 rows of 500.
		{"too long", times(line(500), 900), 500, 800, "of its 900 rows the last 100 are not read"},
		// The one wide row makes all others as wide: 400 rows of 1,000.
		{"too long when made square", append(times(line(1), 9999), line(1000)), 1000, 400, "of its 10000 rows the last 9600 are not read"},
		{"both", times(line(1200), 500), 1000, 400, "its columns after the 1000th are not read; of its 500 rows the last 100 are not read"},
	} {
		var got extract.Table
		grid.Fill(&got, tt.rows)
		if len(got.Rows) != tt.long || len(got.Rows[0]) != tt.wide || got.Cut != tt.cut {
			t.Errorf("%s: %d rows of %d, Cut = %q, want %d of %d, %q", tt.name, len(got.Rows), len(got.Rows[0]), got.Cut, tt.long, tt.wide, tt.cut)
		}
		if !strings.Contains(got.Doubt, tt.cut) || (got.Doubt == "") != (tt.cut == "") {
			t.Errorf("%s: Doubt = %q", tt.name, got.Doubt)
		}
	}
}
