package assemble

import "math"

// leaveSections finds the rows that have left the section above them without a
// new heading: means after the classes of a whole, "Age" after "Men" and
// "Women" under "Sex".
func (t *table) leaveSections() {
	var open *whole
	left := false
	for r := t.g.head; r < len(t.g.rows); r++ {
		if t.g.rows[r].section {
			open, left = &whole{sums: map[int]float64{}}, false
			continue
		}
		sections := len(t.g.rows[r].sections)
		if sections == 0 || open == nil || t.row[r].role == "other" {
			continue
		}
		means, counts := 0, 0
		for c := range t.g.read[r] {
			switch {
			case t.g.stub[c]:
			case t.counted(r, c):
				counts++
				open.sums[c] += t.g.read[r][c].Spread.Value
			case t.spreadAt(r, c):
				means++
			}
		}
		left = left || means > counts && open.complete()
		if left && len(t.row[r].labels) > sections {
			t.row[r].labels = t.row[r].labels[sections:]
			t.g.rows[r].sections = nil
		}
	}
}

// whole sums up the percentages of a section, by column.
type whole struct{ sums map[int]float64 }

// complete reports whether they come to a hundred, with some lost to rounding.
func (w *whole) complete() bool {
	for _, sum := range w.sums { // any order: one is enough
		if math.Abs(sum-100) < 2 {
			return true
		}
	}
	return false
}
