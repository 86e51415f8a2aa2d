package layout

import (
	"math"
	"strings"

	"probity/extract/pdf/glyph"
)

// goesOnFrom reads rows of cells at the top of a page that go on with an
// unruled table at the foot of the page before.
func (s *Sheet) goesOnFrom(prev *region) *region {
	if prev == nil || len(prev.full) > 0 || !prev.atFoot() {
		return nil
	}
	var lines [][]Word
	for _, row := range rowsOf(s.words) {
		if line := inside(row, glyph.Box{X0: prev.box.X0 - 40, X1: prev.box.X1 + 40, Y0: 0, Y1: s.Page.Height}); len(line) > 0 {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 || len(segments(lines[0], 0.95)) < 2 {
		return nil
	}
	return s.cellRows(lines, 0, prev.box.X0-40, prev.box.X1+40)
}

// atFoot reports that nothing stands below a region on its page.
func (r *region) atFoot() bool {
	for i := range r.sheet.words {
		w := &r.sheet.words[i]
		if w.Base > r.box.Y1+1 && w.table == nil && w.OverlapX(r.box) > 0 {
			return false
		}
	}
	return true
}

// carried is a caption at the foot of a page whose table opens the next.
func (s *Sheet) carried(rows [][]Word, caps []caption) []Word {
	for i := range caps {
		c := &caps[i]
		if c.used || !c.sure {
			continue
		}
		words := s.paragraphAt(rows, c, 0, s.Page.Width)
		foot := words[len(words)-1].Base
		below := false
		for k := range s.words {
			below = below || s.words[k].Base > foot+1 && s.words[k].table == nil
		}
		if below {
			continue
		}
		return words
	}
	return nil
}

// fromColumnBefore gives a table at the head of a column the caption that ends
// the column before.
func (s *Sheet) fromColumnBefore(rows [][]Word, caps []caption, r *region) {
	if !s.atTop(r) {
		return
	}
	for i := range caps {
		c := &caps[i]
		if c.used || !c.sure || c.end(rows) > r.box.X0+5 || c.base < r.box.Y1 {
			continue
		}
		words := s.paragraphAt(rows, c, c.x0-3, r.box.X0)
		b := boxOf(words)
		b.Y0, b.Y1 = b.Y1+1, s.Page.Height
		if len(inside(s.words, b)) == 0 {
			r.caption, r.label, c.used = words, true, true
			return
		}
	}
}

// underCarried finds the table at the top of a page for a caption that the
// page before ends with.
func (s *Sheet) underCarried(words []Word, levels []level) *region {
	if len(words) == 0 || len(s.words) == 0 {
		return nil
	}
	top := math.Inf(1)
	for i := range s.words {
		top = math.Min(top, s.words[i].Y0)
	}
	for i := range levels {
		if levels[i].y < top+40 && levels[i].x1-levels[i].x0 > 50 && !levels[i].used {
			if r := s.stack(levels, i, nil, -1); r != nil {
				r.headAbove(0)
				r.foreign, r.label = words, true
				return r
			}
			break
		}
	}
	if r := s.cellRows(rowsOf(s.words), 0, 0, s.Page.Width); r != nil && r.box.Y0 < top+8*words[0].Size {
		r.box.Y0 = math.Min(r.box.Y0, top)
		b := boxOf(inside(s.words, glyph.Box{X0: 0, X1: s.Page.Width, Y0: r.box.Y0, Y1: r.box.Y1}))
		r.box.X0, r.box.X1 = b.X0-3, b.X1+3
		r.foreign, r.label = words, true
		return r
	}
	return nil
}

// unlabelled finds ruled tables that no caption names: three rules of one
// width with rows of cells between, or a table that goes on from the page
// before.
func (s *Sheet) unlabelled(caps []caption, levels []level) []*region {
	var out []*region
	for i := range levels {
		if levels[i].used || levels[i].x1-levels[i].x0 < 100 {
			continue
		}
		r := s.stack(levels, i, caps, -1)
		if r == nil {
			continue
		}
		r.headAbove(0)
		words := inside(s.words, r.box)
		letters, cells := 0, 0
		for k := range words {
			if strings.IndexFunc(words[k].plain(), isLetter) >= 0 {
				letters++
			}
		}
		for _, row := range rowsOf(words) {
			if len(segments(row, 0.9)) >= 2 {
				cells++
			}
		}
		if len(r.full) < 2 || len(r.full) == 2 && !s.atTop(r) || cells < 2 || letters < 3 || s.figureIn(r.box) || !s.aligned(words) {
			continue
		}
		out = append(out, r)
	}
	return out
}

// atTop reports that nothing stands above a region on its page.
func (s *Sheet) atTop(r *region) bool {
	for i := range s.words {
		if s.words[i].Base < r.box.Y0 && s.words[i].OverlapX(r.box) > 0 {
			return false
		}
	}
	return true
}
