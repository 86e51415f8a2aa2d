package layout

import (
	"math"

	"probity/extract/pdf/glyph"
)

// release takes a caption out of its page when its table is found on the next.
func (r *region) release(caption []Word) {
	s := r.sheet
	gone := map[key]bool{}
	for i := range caption {
		gone[keyOf(&caption[i])] = true
	}
	kept := make([]Word, 0, len(s.words))
	for i := range s.words {
		if !gone[keyOf(&s.words[i])] {
			kept = append(kept, s.words[i])
		}
	}
	s.words = kept
}

// headAbove takes rows of cells above the topmost rule into the table: where
// only the rows are ruled, the header has no rule over it.
func (r *region) headAbove(limit float64) {
	s := r.sheet
	rows := rowsOf(inside(s.words, glyph.Box{X0: r.box.X0, X1: r.box.X1, Y0: limit, Y1: r.box.Y0}))
	last := r.box.Y0
	for i := len(rows) - 1; i >= 0 && i >= len(rows)-4; i-- {
		w := &rows[i][0]
		if last-w.Base > 1.9*w.Size || labelWords(rows[i]) > 0 {
			break
		}
		named := i == len(rows)-1 && r.named(rows[i]) && (i == 0 || w.Base-rows[i-1][0].Base > 1.4*w.Size)
		if !named && (len(segments(rows[i], 0.8)) < 2 || running(rows[i], r.box.X0, r.box.X1) || i == len(rows)-1 && !r.fits(rows[i])) {
			break
		}
		last = w.Base - 0.8*w.Size
		r.box.Y0 = last
	}
}

// named reports that words of a row stand over nearly every column of the
// table below: its header, set too tight to show columns of its own.
func (r *region) named(row []Word) bool {
	cols := columnsOf(visual(inside(r.sheet.words, r.box)), nil, nil)
	if len(cols) < 2 || len(row) < len(cols)-1 || len(row) > 8*len(cols) || sentence.MatchString(row[len(row)-1].plain()) {
		return false
	}
	over := 0
	for _, c := range cols {
		for i := range row {
			if math.Min(c.x1, row[i].X1)-math.Max(c.x0, row[i].X0) > 0 {
				over++
				break
			}
		}
	}
	return over >= len(cols)-1 && over*5 >= len(cols)*4
}

// fits reports that the pieces of a row stand over white strips' columns of
// the table below, not across them.
func (r *region) fits(row []Word) bool {
	cols := columnsOf(visual(inside(r.sheet.words, r.box)), nil, nil)
	if len(cols) < 2 {
		return false
	}
	over := 0
	for _, seg := range segments(row, 0.8) {
		p := newPiece(seg)
		hit := 0
		for _, c := range cols {
			if math.Min(c.x1, p.X1)-math.Max(c.x0, p.X0) > 0.3*p.size {
				hit++
			}
		}
		if hit > 1 {
			over++
		}
	}
	return over*3 <= len(segments(row, 0.8))
}

// headOnly reports that the two rules of a table frame no row of figures but
// rows go on below: the second rule closes the header.
func (s *Sheet) headOnly(r *region) bool {
	words := inside(s.words, r.box)
	figures := 0
	for i := range words {
		if figure(words[i].plain()) {
			figures++
		}
	}
	return len(rowsOf(words)) <= 10 && figures*5 < len(words)
}

// extend takes rows below the last rule into the table as long as they look
// like rows of cells.
func (s *Sheet) extend(r *region, caps []caption) bool {
	b := r.box
	b.Y0, b.Y1 = r.box.Y1, s.Page.Height
	y, last, cells, lone := r.box.Y1, r.box.Y1, 0, 0
	for _, row := range rowsOf(inside(s.words, b)) {
		em := row[0].Size
		if row[0].Base-last > 3.2*em || running(row, r.box.X0, r.box.X1) || labelWords(row) > 0 || lone > 6 {
			break
		}
		pitch := row[0].Base - last
		last = row[0].Base
		if len(segments(row, 0.9)) >= 2 {
			cells, lone = cells+1, 0
			y = row[0].Base + 0.35*em
			continue
		}
		if row[len(row)-1].X1 > r.box.X0+0.5*r.box.Width() {
			lone += 3
		}
		lone++
		// the end of a name that wraps in the first column, or of a figure
		if cells > 0 && (pitch < 1.3*em && row[len(row)-1].X1 < r.box.X0+0.35*r.box.Width() || pitch < 1.5*em && bracketed.MatchString(textOf(row)) && len(row) <= 3) {
			y = row[0].Base + 0.35*em
		}
	}
	if cells < 2 {
		return false
	}
	r.box.Y1 = y
	return true
}

// segments are the stretches of a row parted by more than gap ems.
func segments(row []Word, gap float64) [][]Word {
	var out [][]Word
	start := 0
	for i := 1; i <= len(row); i++ {
		if i == len(row) || row[i].X0-row[i-1].X1 > gap*row[i].Size {
			out = append(out, row[start:i])
			start = i
		}
	}
	return out
}

// running reports that words between x0 and x1 are running text: rows that
// fill the width, or two columns of such rows.
func running(words []Word, x0, x1 float64) bool {
	rows := rowsOf(words)
	full := 0
	for _, row := range rows {
		segs := segments(row, 1.1)
		wide := 0
		for _, s := range segs {
			w := s[len(s)-1].X1 - s[0].X0
			if len(s) >= 6 && w > 0.7*(x1-x0) || len(s) >= 4 && w > 0.4*(x1-x0) && len(segs) == 2 {
				wide++
			}
		}
		if wide == len(segs) {
			full++
		}
	}
	if len(rows) == 1 {
		return full == 1 && len(words) >= 10
	}
	return full >= 3 && float64(full) > 0.55*float64(len(rows))
}

// figureIn reports a figure's caption or a picture inside a box.
func (s *Sheet) figureIn(b glyph.Box) bool {
	for _, p := range s.Page.Pictures {
		if p.OverlapX(b) > 0.3*b.Width() && p.OverlapY(b) > 0.5*b.Height() && p.Height() < 0.7*s.Page.Height {
			return true
		}
	}
	for _, row := range rowsOf(inside(s.words, b)) {
		if len(row) > 1 && figureWord.MatchString(row[0].plain()) && tableNo.MatchString(row[1].plain()) {
			return true
		}
	}
	return false
}
