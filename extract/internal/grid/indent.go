package grid

import (
	"slices"

	"probity/extract"
)

// indent makes levels of the indentation of stub entries, which formats give
// in their own units or as leading white space: 0 for the outermost, 1 for the
// next, and so on.
func indent(rows [][]extract.Cell) {
	var widths []int
	for _, row := range rows {
		if w := width(row); w >= 0 && !slices.Contains(widths, w) {
			widths = append(widths, w)
		}
	}
	slices.Sort(widths)
	for _, row := range rows {
		if w := width(row); w >= 0 {
			row[0].Indent = slices.Index(widths, w)
		} else if len(row) > 0 {
			row[0].Indent = 0
		}
	}
}

// width is the indentation of a row's stub; -1 where it has no entry of its
// own.
func width(row []extract.Cell) int {
	if len(row) == 0 || row[0].Copy || row[0].Empty() {
		return -1
	}
	if row[0].Indent > 0 {
		return row[0].Indent
	}
	n := 0
	for _, r := range row[0].Runs {
		for _, c := range r.Text {
			switch c {
			case '\u00a0', '\u2002', '\u2007', '\u2009', '\u202f':
				n++
			case '\u2003', '\u3000':
				n += 2
			default:
				return n
			}
		}
	}
	return n
}
