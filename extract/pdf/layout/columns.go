package layout

import (
	"math"

	"probity/extract/pdf/glyph"
)

// A gutter is an upright strip of white with text on both sides.
type gutter struct {
	x0, x1     float64
	start, end int // rows it runs through
	left       int // rows with words on its left
	right      int
}

// Columns are parted by at least this much, in points; the classic style of
// two columns has 10.
const narrowest = 7.0

// strong is how many rows on either side prove a gutter by themselves; with
// fewer, another page must show it at the same place.
const strong = 5

type cutter struct {
	sheet *Sheet
	known []gutter
}

// strongGutters gives the gutters of a page that need no other proof.
func strongGutters(s *Sheet) []gutter {
	rows := rowsOf(s.words)
	var out []gutter
	for depth := 0; depth < 6; depth++ {
		g, ok := best(rows, nil)
		if !ok {
			break
		}
		if min(g.left, g.right) >= 10 {
			out = append(out, g)
		}
		// look again in the larger remaining part
		if g.start > len(rows)-g.end {
			rows = rows[:g.start]
		} else {
			rows = rows[g.end:]
		}
	}
	return out
}

// bandsOf finds the gutters of all bands of a page, one a band; rows are
// counted from the page's first.
func bandsOf(rows [][]Word, first int) []gutter {
	g, ok := best(rows, nil)
	if !ok || min(g.left, g.right) < strong {
		return nil
	}
	g.trim(rows)
	out := append(bandsOf(rows[:g.start], first), g)
	out[len(out)-1].start += first
	out[len(out)-1].end += first
	return append(out, bandsOf(rows[g.end:], first+g.end)...)
}

// cut parts words into columns, and columns into bands, until what is left
// reads straight down; then it makes paragraphs of that.
func (c *cutter) cut(words []Word, depth int) {
	if len(words) == 0 {
		return
	}
	rows := rowsOf(words)
	g, ok := best(rows, c.known)
	if !ok || depth > 12 {
		c.sheet.Items = append(c.sheet.Items, c.sheet.paragraphs(rows)...)
		return
	}
	g.trim(rows)
	c.cut(flat(rows[:g.start]), depth+1)
	var left, right []Word
	mid := (g.x0 + g.x1) / 2
	for _, w := range flat(rows[g.start:g.end]) {
		if (w.X0+w.X1)/2 < mid {
			left = append(left, w)
		} else {
			right = append(right, w)
		}
	}
	c.cut(left, depth+1)
	c.cut(right, depth+1)
	c.cut(flat(rows[g.end:]), depth+1)
}

// trim leaves out one or two short lines that follow the columns after a gap
// and stand before text of full width: the head of what comes below.
func (g *gutter) trim(rows [][]Word) {
	if g.end >= len(rows) {
		return
	}
	last := g.start // the last row with words on the right
	for k := g.start; k < g.end; k++ {
		if w := rows[k]; w[len(w)-1].X0 >= g.x1-0.5 {
			last = k
		}
	}
	for k := max(last+1, g.end-2); k < g.end; k++ {
		if w := &rows[k][0]; w.table == nil && w.Base-rows[k-1][0].Base > 1.6*w.Size && rows[g.end][0].Base-rows[g.end-1][0].Base < 4*w.Size {
			g.end = k
			return
		}
	}
}

func flat(rows [][]Word) []Word {
	var out []Word
	for _, r := range rows {
		out = append(out, r...)
	}
	return out
}

type span struct{ x0, x1 float64 }

// gaps are the white parts of a row, the margins included.
func gaps(row []Word) []span {
	out := []span{{math.Inf(-1), row[0].X0}}
	reach := row[0].X1
	for _, w := range row[1:] {
		if w.X0-reach >= narrowest {
			out = append(out, span{reach, w.X0})
		}
		reach = math.Max(reach, w.X1)
	}
	return append(out, span{reach, math.Inf(1)})
}

// best finds the gutter with most text on both sides.
func best(rows [][]Word, known []gutter) (gutter, bool) {
	white := make([][]span, len(rows))
	for i, r := range rows {
		white[i] = gaps(r)
	}
	var top gutter
	score := 0.0
	for i := range rows {
		for _, s := range seeds(rows, white, i) {
			g := grow(rows, white, i, s)
			if float64(min(g.left, g.right)) <= score {
				continue // worth no more than that
			}
			if v := worth(rows, g, known); v > score {
				top, score = g, v
			}
		}
	}
	return top, score > 0
}

// seeds are the strips a gutter may grow from at row i: white inside the row,
// or between it and a row near it that lies wholly beside it (the lines of two
// columns need not stand level).
func seeds(rows [][]Word, white [][]span, i int) []span {
	out := append([]span(nil), white[i][1:len(white[i])-1]...)
	last := white[i][len(white[i])-1].x0
	first := white[i][0].x1
	for j := max(0, i-2); j <= i+2 && j < len(rows); j++ {
		if j == i {
			continue
		}
		if x := white[j][0].x1; x-last >= narrowest {
			out = append(out, span{last, x})
		}
		if x := white[j][len(white[j])-1].x0; first-x >= narrowest {
			out = append(out, span{x, first})
		}
	}
	return out
}

// grow follows a strip of white up and down from row i.
func grow(rows [][]Word, white [][]span, i int, s span) gutter {
	g := gutter{x0: s.x0, x1: s.x1, start: i, end: i + 1}
	for g.end < len(rows) && g.narrow(white[g.end]) {
		g.end++
	}
	for g.start > 0 && g.narrow(white[g.start-1]) {
		g.start--
	}
	for k := g.start; k < g.end; k++ {
		l, r := false, false
		for _, w := range rows[k] {
			l = l || w.X1 <= g.x0+0.5
			r = r || w.X0 >= g.x1-0.5
		}
		if l {
			g.left++
		}
		if r {
			g.right++
		}
	}
	return g
}

// narrow cuts the strip to what it shares with one white part of a row.
func (g *gutter) narrow(white []span) bool {
	bx0, bx1 := 0.0, 0.0
	for _, s := range white {
		x0, x1 := math.Max(s.x0, g.x0), math.Min(s.x1, g.x1)
		if x1-x0 >= narrowest && (x1-x0 > bx1-bx0) {
			bx0, bx1 = x0, x1
		}
	}
	if bx1 == bx0 {
		return false
	}
	g.x0, g.x1 = bx0, bx1
	return true
}

// worth scores a strip: 0 when it parts no columns of running text.
func worth(rows [][]Word, g gutter, known []gutter) float64 {
	if math.IsInf(g.x0, 0) || math.IsInf(g.x1, 0) {
		return 0
	}
	least := min(g.left, g.right)
	if least < 1 {
		return 0
	}
	seen := false
	for _, k := range known {
		if math.Min(k.x1, g.x1)-math.Max(k.x0, g.x0) >= 0.5*(k.x1-k.x0) {
			seen = true
		}
	}
	if least < strong && !seen && (max(g.left, g.right) < 12 || !flush(rows, g)) {
		return 0
	}
	var left, right glyph.Box
	chars := [2]int{}
	for _, r := range rows[g.start:g.end] {
		for i := range r {
			n := r[i].chars + 1
			if r[i].X1 <= g.x0+0.5 {
				left, chars[0] = left.Union(r[i].Box), chars[0]+n
			} else {
				right, chars[1] = right.Union(r[i].Box), chars[1]+n
			}
		}
	}
	if left.OverlapY(right) < 0.4*math.Min(left.Height(), right.Height()) {
		return 0
	}
	const prose = 14 // characters a line of a text column has at least
	if !seen && least >= strong && (chars[0] < prose*g.left || chars[1] < prose*g.right) {
		return 0
	}
	return float64(least)
}

// flush reports that most rows of the longer side run up to the strip: a full
// column stands beside the few lines of the other.
func flush(rows [][]Word, g gutter) bool {
	n := 0
	for _, r := range rows[g.start:g.end] {
		for i := range r {
			w := &r[i]
			if g.left >= g.right && math.Abs(w.X1-g.x0) < 1.5*w.Size || g.right > g.left && math.Abs(w.X0-g.x1) < 1.5*w.Size {
				n++
				break
			}
		}
	}
	return n*5 >= 3*max(g.left, g.right)
}
