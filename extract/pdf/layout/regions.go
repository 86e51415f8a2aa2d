package layout

import (
	"math"
	"sort"

	"probity/extract/pdf/glyph"
)

// A level is a height at which ruled lines run, with the pieces they come in.
type level struct {
	y, x0, x1 float64
	pieces    []glyph.Box
	used      bool
}

// A region is the place of one table on a page.
type region struct {
	sheet   *Sheet
	box     glyph.Box // the cells, between the outer rules
	caption []Word
	full    []float64   // heights of rules as wide as the table
	part    []glyph.Box // other horizontal rules inside
	down    []glyph.Box // vertical rules inside
	notes   []Word
	foreign []Word // a caption that stands on the page before
	label   bool
	more    bool // the caption says that it goes on from before
}

// levels groups the horizontal rules of a page.
func (s *Sheet) levels() []level {
	var out []level
	for _, r := range s.rules.across {
		y := (r.Y0 + r.Y1) / 2
		if n := len(out); n > 0 && y-out[n-1].y <= oneLine && r.X0-out[n-1].x1 < 9 && r.X0 > out[n-1].x1-1 {
			l := &out[n-1]
			l.x1 = math.Max(l.x1, r.X1)
			l.pieces = append(l.pieces, r)
			continue
		}
		out = append(out, level{y: y, x0: r.X0, x1: r.X1, pieces: []glyph.Box{r}})
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].y < out[j].y })
	return out
}

// alike reports that two levels are as wide as each other.
func (l *level) alike(o *level) bool {
	slack := math.Max(6, 0.02*(o.x1-o.x0))
	return math.Abs(l.x0-o.x0) <= slack && math.Abs(l.x1-o.x1) <= slack
}

// findTables takes every table out of the words of its page and puts one word
// in its place that stands for it.
func findTables(sheets []*Sheet) {
	var last *region
	var caption []Word
	for _, s := range sheets {
		last, caption = s.tables(last, caption)
	}
	joinPages(sheets)
}

// tables finds the tables of a page; last is the lowest table of the page
// before and carried a caption at its foot; it gives back its own.
func (s *Sheet) tables(last *region, carried []Word) (*region, []Word) {
	rows := rowsOf(s.words)
	caps := s.captions(rows)
	levels := s.levels()
	var regions []*region
	for i := range caps {
		if r := s.under(rows, caps, i, levels); r != nil {
			regions = append(regions, r)
		}
	}
	for i := range caps {
		if r := s.over(rows, caps, i, levels); r != nil {
			regions = append(regions, r)
		}
	}
	if r := s.underCarried(carried, levels); r != nil {
		regions = append(regions, r)
		last.release(carried)
	} else if r := s.goesOnFrom(last); r != nil {
		regions = append(regions, r)
	}
	open := rowsOf(s.outside(regions))
	for i := range caps {
		if r := s.unruled(rows, open, caps, i); r != nil {
			regions = append(regions, r)
		}
	}
	for _, r := range s.unlabelled(caps, levels) {
		s.fromColumnBefore(rows, caps, r)
		regions = append(regions, r)
	}
	last = nil
	for _, r := range regions {
		if last == nil || r.box.Y1 > last.box.Y1 {
			last = r
		}
	}
	carried = s.carried(rows, caps)
	for _, r := range regions {
		s.take(r)
	}
	if last == nil {
		last = &region{sheet: s, full: []float64{0}} // no table: nothing goes on from here
	}
	return last, carried
}

// outside are the words that stand in none of the regions.
func (s *Sheet) outside(regions []*region) []Word {
	gone := map[key]bool{}
	for _, r := range regions {
		in := inside(s.words, r.box)
		for i := range in {
			gone[keyOf(&in[i])] = true
		}
	}
	var out []Word
	for i := range s.words {
		if !gone[keyOf(&s.words[i])] {
			out = append(out, s.words[i])
		}
	}
	return out
}

// take builds the table of a region and removes its words from the page.
func (s *Sheet) take(r *region) {
	s.notesOf(r)
	t := build(r)
	if t == nil {
		return
	}
	gone := map[key]bool{}
	for _, ws := range [][]Word{r.caption, r.notes, inside(s.words, r.box)} {
		for i := range ws {
			gone[keyOf(&ws[i])] = true
		}
	}
	kept := make([]Word, 0, len(s.words))
	for i := range s.words {
		if !gone[keyOf(&s.words[i])] {
			kept = append(kept, s.words[i])
		}
	}
	t.Box = boxOf(inside(s.words, r.box)).Union(boxOf(r.caption)).Union(boxOf(r.notes))
	t.Page = s.Page.Number
	top := t.Box
	top.Y1 = top.Y0 + 1
	s.words = append(kept, Word{Box: top, Base: top.Y0 + 1, Size: s.body, table: t})
}

type key struct{ x, y, w float64 }

func keyOf(w *Word) key { return key{w.X0, w.Base, w.X1} }

// under looks for the rules below a caption.
func (s *Sheet) under(rows [][]Word, caps []caption, at int, levels []level) *region {
	c := &caps[at]
	for i := range levels {
		top := &levels[i]
		if top.used || top.y < c.base-0.2*c.size || top.x1-top.x0 < 50 {
			continue
		}
		if top.y-c.base > 14*c.size {
			return nil
		}
		if c.x0 > top.x1 || c.x0 < top.x0-20 && !c.alone(rows, top) {
			continue
		}
		capBox := glyph.Box{X0: math.Min(top.x0, c.x0) - 6, X1: math.Max(top.x1, c.end(rows)) + 6, Y0: c.base - c.size, Y1: top.y}
		words := inside(s.words, capBox)
		if !c.sure && !s.tabular(top, levels[i+1:]) || len(rowsOf(words)) > 12 {
			return nil
		}
		if otherCaption(caps, at, capBox) {
			return nil
		}
		r := s.stack(levels, i, caps, at)
		if r == nil {
			return nil
		}
		r.headAbove(c.base + 0.5*c.size)
		capBox.Y1 = r.box.Y0
		r.caption, r.label, r.more = inside(s.words, capBox), true, c.more
		c.used = true
		return r
	}
	return nil
}

// alone reports that nothing but a caption is printed from its first line to
// a rule, over the width of the page, and nothing beside the lines below the
// rule: it opens a table that is narrower than its column and set to the
// middle of it.
func (c *caption) alone(rows [][]Word, top *level) bool {
	for _, row := range rows[c.row:] {
		if row[0].Base > top.y+4*c.size {
			break
		}
		if row[0].Base > top.y {
			if row[0].X0 < top.x0-5 || row[len(row)-1].X1 > top.x1+5 {
				return false
			}
			continue
		}
		if row[0].table != nil || row[0].X0 < c.x0-2 || len(segments(row, 0.9)) > 1 {
			return false
		}
	}
	return c.sure
}

func otherCaption(caps []caption, at int, b glyph.Box) bool {
	for i := range caps {
		if i != at && caps[i].sure && caps[i].base > b.Y0 && caps[i].base < b.Y1 && caps[i].x0 > b.X0-2 && caps[i].x0 < b.X1 && (at < 0 || caps[i].base > caps[at].base+1) {
			return true
		}
	}
	return false
}

// tabular reports that what follows a rule looks like rows of cells.
func (s *Sheet) tabular(top *level, rest []level) bool {
	for i := range rest {
		if rest[i].alike(top) {
			words := inside(s.words, glyph.Box{X0: top.x0 - 4, X1: top.x1 + 4, Y0: top.y, Y1: rest[i].y})
			return len(words) > 0 && !running(words, top.x0, top.x1)
		}
	}
	return false
}

// stack follows rules of one width down from levels[i] to the table's foot.
func (s *Sheet) stack(levels []level, i int, caps []caption, at int) *region {
	top := &levels[i]
	r := &region{sheet: s, full: []float64{top.y}, box: glyph.Box{X0: top.x0 - 5, X1: top.x1 + 5, Y0: top.y, Y1: top.y}}
	last, taken := top.y, []int{i}
	for k := i + 1; k < len(levels); k++ {
		l := &levels[k]
		if l.used || !l.alike(top) {
			continue
		}
		band := glyph.Box{X0: top.x0 - 5, X1: top.x1 + 5, Y0: last, Y1: l.y}
		if otherCaption(caps, at, band) || s.figureIn(band) {
			break
		}
		words := inside(s.words, band)
		if len(words) == 0 && l.y-last > 25 || running(words, top.x0, top.x1) {
			break
		}
		r.full = append(r.full, l.y)
		last, taken = l.y, append(taken, k)
	}
	r.box.Y1 = last
	if len(r.full) == 1 || len(r.full) == 2 && s.headOnly(r) {
		if !s.extend(r, caps) && len(r.full) == 1 {
			return nil
		}
	}
	for _, k := range taken {
		levels[k].used = true
	}
	r.inner(levels)
	return r
}

// inner collects the rules inside the table.
func (r *region) inner(levels []level) {
	for i := range levels {
		l := &levels[i]
		if l.y <= r.box.Y0+1 || l.y >= r.box.Y1-1 || l.x0 < r.box.X0-1 || l.x1 > r.box.X1+1 {
			continue
		}
		known := false
		for _, y := range r.full {
			known = known || math.Abs(y-l.y) < 0.5
		}
		if !known {
			r.part = append(r.part, l.pieces...)
			l.used = true
		}
	}
	for _, v := range r.sheet.rules.down {
		if v.X0 >= r.box.X0-1 && v.X1 <= r.box.X1+1 && v.OverlapY(r.box) > 0.6*v.Height() && v.Height() > 6 {
			r.down = append(r.down, v)
		}
	}
}
