package layout

import (
	"math"
	"regexp"
	"slices"
	"sort"

	"probity/extract/pdf/glyph"
)

var figureWord = regexp.MustCompile(`^(?:Fig|FIG|Figure|FIGURE|Figs)\.?$`)

// over looks for a table whose caption stands below it.
func (s *Sheet) over(rows [][]Word, caps []caption, at int, levels []level) *region {
	c := &caps[at]
	if c.used || !c.sure {
		return nil
	}
	for i := len(levels) - 1; i >= 0; i-- {
		foot := &levels[i]
		if foot.used || foot.y > c.base-0.5*c.size || c.base-foot.y > 3.5*c.size || c.x0 < foot.x0-20 || c.x0 > foot.x1 {
			continue
		}
		// the topmost rule of that width with nothing but cells between
		top := i
		for k := i - 1; k >= 0; k-- {
			if levels[k].used || !levels[k].alike(foot) {
				continue
			}
			band := glyph.Box{X0: foot.x0 - 5, X1: foot.x1 + 5, Y0: levels[k].y, Y1: levels[top].y}
			words := inside(s.words, band)
			if otherCaption(caps, at, band) || s.figureIn(band) || running(words, foot.x0, foot.x1) || len(words) == 0 && band.Height() > 25 {
				break
			}
			top = k
		}
		if top == i {
			return nil
		}
		r := s.stack(levels, top, caps, at)
		if r == nil {
			return nil
		}
		r.headAbove(math.Max(0, r.box.Y0-8*c.size))
		r.caption, r.label, c.used = s.paragraphAt(rows, c, foot.x0-6, foot.x1+6), true, true
		return r
	}
	return nil
}

// paragraphAt takes the lines of a caption from its first downwards.
func (s *Sheet) paragraphAt(rows [][]Word, c *caption, x0, x1 float64) []Word {
	var out []Word
	last := c.base
	for i := c.row; i < len(rows) && i < c.row+8; i++ {
		line := inside(rows[i], glyph.Box{X0: x0, X1: x1, Y0: 0, Y1: s.Page.Height})
		if len(line) == 0 {
			continue
		}
		if line[0].Base-last > 1.45*c.size || math.Abs(line[0].Size-c.size) > 0.6 {
			break
		}
		out, last = append(out, line...), line[0].Base
	}
	return out
}

// unruled looks for rows of cells below a caption without any rule.
func (s *Sheet) unruled(rows, open [][]Word, caps []caption, at int) *region {
	c := &caps[at]
	if c.used || !c.sure {
		return nil
	}
	x0, x1 := s.columnAt(open, c)
	var lines [][]Word
	for i := c.row; i < len(rows); i++ {
		if line := inside(rows[i], glyph.Box{X0: x0, X1: x1, Y0: 0, Y1: s.Page.Height}); len(line) > 0 {
			lines = append(lines, line)
		}
	}
	lines = levelled(lines)
	r := s.cellRows(lines, 1, x0, x1)
	if r == nil {
		return nil
	}
	r.label, r.more, c.used = true, c.more, true
	// what follows the caption's own lines is header, in columns too close to
	// show as such
	end, top := c.base, r.box.Y0
	for i, l := range lines {
		switch {
		case l[0].Base > r.box.Y0:
		case i == 0 || top == r.box.Y0 && (s.captionGoesOn(lines[i-1], l) || i == 1 && bareLabel(lines[0]) && len(segments(l, 0.8)) == 1):
			r.caption = append(r.caption, l...)
			end = l[0].Base
		case top == r.box.Y0 && l[0].Base > end:
			top = l[0].Base - l[0].Size
		}
	}
	r.box.Y0 = top
	for _, l := range lines {
		if l[0].Base > r.box.Y0 && l[0].Base < r.box.Y1 {
			b := boxOf(l)
			r.box.X0, r.box.X1 = math.Min(r.box.X0, b.X0-3), math.Max(r.box.X1, b.X1+3)
		}
	}
	return r
}

// bareLabel reports a line that is nothing but "Table 3": the title stands on
// the next.
func bareLabel(line []Word) bool { return labelWords(line) == len(line) }

// captionGoesOn reports that a line goes on with the caption above it.
func (s *Sheet) captionGoesOn(above, l []Word) bool {
	a, b := &above[0], &l[0]
	if !b.Italic && !slices.ContainsFunc(above, func(w Word) bool { return !w.Italic }) {
		return false // the caption is set in italics, the header is not
	}
	return b.Base-a.Base < 1.85*a.Size && math.Abs(a.Size-b.Size) < 0.5 && len(segments(l, 0.8)) == 1 &&
		(above[len(above)-1].Bold == b.Bold || !a.Bold && !b.Bold)
}

// cellRows finds rows of cells in lines, from the line with number skip on: a
// caption of a few lines may come first.
func (s *Sheet) cellRows(lines [][]Word, skip int, x0, x1 float64) *region {
	lines = levelled(lines)
	var first, last float64
	n, misses := 0, 0
	for i := skip; i < len(lines); i++ {
		line := lines[i]
		em := line[0].Size
		gap := 0.0
		if i > 0 {
			gap = line[0].Base - lines[i-1][0].Base
		}
		cells := len(segments(line, 0.95)) >= 2 && !running(line, x0, x1)
		if labelWords(line) > 0 || figureWord.MatchString(line[0].plain()) || gap > 6*em || gap > 3*em && !cells && n > 0 &&
			(gap > 4.6*em || line[len(line)-1].X1 > x0+0.5*(x1-x0)) {
			break
		}
		if cells {
			if n == 0 {
				first = line[0].Base - em
			}
			n, misses = n+1, 0
			last = line[0].Base + 0.35*em
			continue
		}
		wide := line[len(line)-1].X1-line[0].X0 > 0.6*(x1-x0)
		if n == 0 {
			if i-skip > 6 {
				return nil
			}
			continue
		}
		if misses++; misses > 4 || len(line) >= 7 && wide || len(line) >= 4 && line[0].Bold && wide {
			break
		}
		if i > 0 && gap < 1.35*em && !wide && line[len(line)-1].X1 < x0+0.45*(x1-x0) {
			last = line[0].Base + 0.35*em // the end of a name that wraps
		}
	}
	if n < 2 {
		return nil
	}
	body := inside(s.words, glyph.Box{X0: x0, X1: x1, Y0: first, Y1: last})
	b := boxOf(body)
	if !s.aligned(body) {
		return nil
	}
	return &region{sheet: s, box: glyph.Box{X0: b.X0 - 3, X1: b.X1 + 3, Y0: first, Y1: last}}
}

// levelled joins lines that make one row: a raised mark in one cell pushes its
// baseline a little below those of the others.
func levelled(lines [][]Word) [][]Word {
	var out [][]Word
	for _, l := range lines {
		if n := len(out); n > 0 {
			p := out[n-1]
			if l[0].Base-p[0].Base < 0.42*math.Min(l[0].Size, p[0].Size) && boxOf(l).OverlapX(boxOf(p)) < 0 {
				row := append(append([]Word(nil), p...), l...)
				sort.SliceStable(row, func(a, b int) bool { return row[a].X0 < row[b].X0 })
				out[n-1] = row
				continue
			}
		}
		out = append(out, l)
	}
	return out
}

// aligned reports that rows share white strips: cells, not stretched text.
func (s *Sheet) aligned(words []Word) bool {
	figures := 0
	for i := range words {
		if figure(words[i].plain()) {
			figures++
		}
	}
	lines := visual(words)
	cols := columnsOf(lines, nil, nil)
	return len(cols) >= 2 && (figures*6 >= len(words) || len(cols) >= 3)
}

// columnAt is the stretch of the page that a caption's column takes.
func (s *Sheet) columnAt(rows [][]Word, c *caption) (float64, float64) {
	var g gutter
	ok := false
	for _, b := range bandsOf(rows, 0) {
		if y0, y1 := rows[b.start][0].Base, rows[b.end-1][0].Base; c.base > y0-60 && c.base < y1+1 && textual(rows, b) {
			g, ok = b, true
			break
		}
	}
	if !ok {
		return 0, s.Page.Width
	}
	crossed := false
	for i := c.row; i < len(rows) && i < c.row+5; i++ {
		for _, w := range rows[i] {
			if w.X0 < g.x0 && w.X1 > g.x1 {
				crossed = true
			}
		}
	}
	switch {
	case crossed:
		return 0, s.Page.Width
	case c.x0 < g.x0:
		return 0, g.x1
	}
	return g.x0, s.Page.Width
}

// textual reports that long lines stand on both sides of a gutter, as in
// columns of text and not of a table.
func textual(rows [][]Word, g gutter) bool {
	const line = 22 // characters
	left, right := 0, 0
	for _, r := range rows[g.start:g.end] {
		for i := range r {
			if r[i].X1 <= g.x0+0.5 {
				left += r[i].chars + 1
			} else {
				right += r[i].chars + 1
			}
		}
	}
	return left >= line*g.left && right >= line*g.right
}

func isLetter(r rune) bool { return r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r > 0xbf }
