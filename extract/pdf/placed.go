package pdf

import (
	"fmt"

	"probity/extract/pdf/glyph"
)

// A page may leave so many digits without a place, or so large a share of
// them, before it is asked about: the labels of axes set sideways and stamps
// in the margin are left out by design.
const (
	fewDigits = 40
	fewShare  = 0.3
)

const unplaced = "many digits of this page found no place in what was read"

// markUnplaced doubts the pages that print far more digits than ended in
// paragraphs, tables, captions, notes and running heads.
func (p *paper) markUnplaced(pages []*glyph.Page) {
	printed := map[int]int{}
	var order []int
	for _, g := range pages {
		if _, ok := printed[g.Number]; !ok {
			order = append(order, g.Number)
		}
		printed[g.Number] += digits(g)
	}
	lost := map[int]string{}
	for _, n := range order {
		if gone := printed[n] - p.placed[n]; gone > fewDigits && float64(gone) > fewShare*float64(printed[n]) {
			p.fault(n, fmt.Sprintf("%d of the %d digits printed on the page found no place in a paragraph or a table", gone, printed[n]), "look at the page for tables set sideways or askew, and hold its figures against it")
			lost[n] = unplaced
		}
	}
	p.doubt(lost, unplaced)
}

// digits is how many digits are printed on a page or a part of it.
func digits(p *glyph.Page) int {
	n := p.Aside
	for i := range p.Glyphs {
		if r := p.Glyphs[i].Rune; r >= '0' && r <= '9' {
			n++
		}
	}
	return n
}
