package layout

import (
	"math"
	"regexp"
	"slices"
	"sort"
	"strings"
)

// A row of the body while it is gathered: the pieces of each column.
type row struct {
	lines []vline
	group bool // a heading for the rows below
}

// body makes the rows of the body.
func (g *grid) body() [][]Cell {
	lines := g.lines[g.head:]
	if len(lines) == 0 {
		return nil
	}
	if cells := g.lattice(lines); cells != nil {
		return cells
	}
	var rows []row
	if g.boxed(lines) {
		rows = g.boxes(lines)
	} else if g.middled(lines) {
		rows = g.anchored(lines)
	} else {
		rows = g.gathered(lines)
	}
	var out [][]Cell
	for i := range rows {
		out = append(out, g.cells(&rows[i]))
	}
	g.indents(rows, out)
	g.spanRows(rows, out)
	return out
}

func (g *grid) fullBetween(y0, y1 float64) bool {
	if y0 > y1 {
		y0, y1 = y1, y0
	}
	for _, y := range g.full {
		if y > y0 && y < y1 {
			return true
		}
	}
	return false
}

// gathered goes down the lines and decides for each whether it opens a row.
func (g *grid) gathered(lines []vline) []row {
	var rows []row
	pitch := g.pitches(lines)
	for i := range lines {
		l := &lines[i]
		if len(rows) > 0 && !g.ruleBetween(lines[i-1].base, l.base-0.7*l.size) && (halfLine(&lines[i-1], l) || g.continues(&rows[len(rows)-1], l, pitch)) {
			r := &rows[len(rows)-1]
			r.lines = append(r.lines, *l)
			continue
		}
		rows = append(rows, row{lines: []vline{*l}})
	}
	return rows
}

// halfLine reports two lines closer than any rows are, in columns of their
// own: cells of one row, set to its middle.
func halfLine(a, b *vline) bool {
	if b.base-a.base >= 0.85*math.Min(a.size, b.size) {
		return false
	}
	for i := range a.pieces {
		for j := range b.pieces {
			if p, q := &a.pieces[i], &b.pieces[j]; p.c0 <= q.c1 && q.c0 <= p.c1 {
				return false
			}
		}
	}
	return true
}

// boxed reports that rules part all rows from one another.
func (g *grid) boxed(lines []vline) bool {
	all := g.rulesIn(lines)
	return len(all) >= 1 && (len(all)+1)*4 >= len(lines) && g.single(lines, all)
}

// rulesIn are the heights of the rules as wide as the table between lines.
func (g *grid) rulesIn(lines []vline) []float64 {
	var out []float64
	for _, y := range g.full {
		if y > lines[0].base && y < lines[len(lines)-1].base {
			out = append(out, y)
		}
	}
	return heights(out)
}

// boxes makes a row of what stands between two rules.
func (g *grid) boxes(lines []vline) []row {
	all := g.rulesIn(lines)
	rows := make([]row, len(all)+1)
	for i := range lines {
		r := &rows[band(all, lines[i].base-0.25*lines[i].size)]
		r.lines = append(r.lines, lines[i])
	}
	return slices.DeleteFunc(rows, func(r row) bool { return len(r.lines) == 0 })
}

// starts reports a piece in the first column.
func (g *grid) starts(l *vline) bool { return len(l.pieces) > 0 && l.pieces[0].c0 == 0 }

// pitches finds the distance between lines from which on they belong to
// different rows; 0 when wrapped lines stand as far apart as rows.
func (g *grid) pitches(lines []vline) float64 {
	var all []float64
	rowGap := math.Inf(1)
	full := func(l *vline) bool { return g.starts(l) && l.figures() > 0 && len(l.pieces) > 1 }
	for i := 1; i < len(lines); i++ {
		d := (lines[i].base - lines[i-1].base) / lines[i].size
		if g.starts(&lines[i]) && g.starts(&lines[i-1]) { // names stand level where figures with raised marks do not
			d = (lines[i].pieces[0].base - lines[i-1].pieces[0].base) / lines[i].size
		}
		if d < 0.85 {
			continue
		}
		all = append(all, d)
		if full(&lines[i]) && full(&lines[i-1]) {
			rowGap = math.Min(rowGap, d)
		}
	}
	sort.Float64s(all)
	if len(all) < 3 {
		return 0
	}
	if !math.IsInf(rowGap, 0) {
		g.rowGap = rowGap
		if all[0] < 0.94*rowGap {
			return 0.96 * rowGap
		}
		return 0
	}
	at, jump := 0, 1.13
	for i := 1; i < len(all); i++ {
		if all[i-1] < 1.45 && all[i]/all[i-1] > jump {
			at, jump = i, all[i]/all[i-1]
		}
	}
	if at == 0 {
		return 0
	}
	return (all[at-1] + all[at]) / 2
}

var (
	bracketed = regexp.MustCompile(`^(?:[(\[±].*|[–-]\s?\d.*[)\]])$`)
	unfinish  = regexp.MustCompile(`(?:[±,;/(–\x{ad}-]|\b(?:and|or|of|with|to|in|for|the|by))$`)
)

// continues decides whether line l goes on with the cells of row r.
func (g *grid) continues(r *row, l *vline, pitch float64) bool {
	last := &r.lines[len(r.lines)-1]
	gap := (l.base - last.base) / l.size
	if gap > 1.75 && !(gap < 2.8 && g.spreads(r, l)) || r.group {
		return false
	}
	stub := g.starts(l)
	if stub && g.starts(last) {
		gap = (l.pieces[0].base - last.pieces[0].base) / l.size
	}
	if above := g.above(r, 0, 0); stub && above != nil && g.rowGap > 1.35 && gap > 0.97*g.rowGap && !unfinish.MatchString(above.plain()) {
		return false // as far below as rows are from one another, and those stand apart
	}
	figures := l.figures()
	// figures under figures: a second row unless they finish the first
	finishes := true
	touches := false
	for i := range l.pieces {
		p := &l.pieces[i]
		above := g.above(r, p.c0, p.c1)
		if above == nil {
			if figure(p.plain()) {
				finishes = false
			}
			continue
		}
		if p.c0 < above.c0 {
			return false // it begins further left: a heading over several columns
		}
		touches = true
		if figure(above.plain()) && figure(p.plain()) && !(bracketed.MatchString(p.plain()) && !bracketed.MatchString(above.plain())) && !unfinish.MatchString(above.plain()) {
			finishes = false
		}
	}
	if !finishes {
		return false
	}
	if figures > 0 && !stub {
		return touches
	}
	if figures > 0 && stub {
		above := g.above(r, 0, 0)
		return touches && above != nil && g.finishing(r, l) && (g.wraps(above, &l.pieces[0]) || pitch > 0 && gap < pitch)
	}
	// only words: they wrap if they would not have fitted above
	if pitch > 0 && len(l.pieces) > 0 {
		if gap >= pitch || gap > 1.35 || !touches {
			return false
		}
		above := g.above(r, 0, 0)
		return !stub || len(l.pieces) > 1 || above == nil || g.wraps(above, &l.pieces[0]) || above.Width() > 0.5*(g.cols[0].x1-g.cols[0].x0)
	}
	if !touches {
		return false
	}
	for i := range l.pieces {
		p := &l.pieces[i]
		above := g.above(r, p.c0, p.c1)
		if above != nil && !g.wraps(above, p) {
			return false
		}
	}
	if above := g.above(r, 0, 0); stub && len(l.pieces) == 1 && above != nil && !unfinish.MatchString(above.plain()) {
		return !g.heads(l)
	}
	return true
}

// finishing reports that every figure of a line finishes one above it: a
// spread in brackets, or what follows a ± at the line's end.
func (g *grid) finishing(r *row, l *vline) bool {
	for i := range l.pieces {
		p := &l.pieces[i]
		if !figure(p.plain()) || p.c0 == 0 {
			continue
		}
		above := g.above(r, p.c0, p.c1)
		if above == nil || !unfinish.MatchString(above.plain()) && !(bracketed.MatchString(p.plain()) && !bracketed.MatchString(above.plain())) {
			return false
		}
	}
	return true
}

// spreads reports a line of nothing but figures in brackets, each under a
// figure without: cells printed as two paragraphs, however far apart.
func (g *grid) spreads(r *row, l *vline) bool {
	for i := range l.pieces {
		p := &l.pieces[i]
		above := g.above(r, p.c0, p.c1)
		if p.c0 == 0 || above == nil || !figure(p.plain()) || !bracketed.MatchString(p.plain()) || !figure(above.plain()) || bracketed.MatchString(above.plain()) {
			return false
		}
	}
	return len(l.pieces) > 1
}

// above is the lowest piece of a row in these columns.
func (g *grid) above(r *row, c0, c1 int) *piece {
	for i := len(r.lines) - 1; i >= 0; i-- {
		ps := r.lines[i].pieces
		for k := range ps {
			if ps[k].c0 <= c1 && c0 <= ps[k].c1 {
				return &ps[k]
			}
		}
	}
	return nil
}

// wraps reports that p may go on with the text above it: its first word had no
// room there, or it opens as the middle of a phrase.
func (g *grid) wraps(above, p *piece) bool {
	first := p.words[0].plain()
	if unfinish.MatchString(above.plain()) || strings.HasPrefix(first, "(") && len(above.plain()) > 3 || strings.HasSuffix(above.plain(), "\u00ad") {
		return true
	}
	if above.bold() != p.bold() {
		return false
	}
	edge := g.cols[p.c1].x1
	for i := range g.lines {
		for k := range g.lines[i].pieces {
			if q := &g.lines[i].pieces[k]; q.c0 == p.c0 && q.c1 == p.c1 {
				edge = math.Max(edge, q.X1)
			}
		}
	}
	room := edge - above.X1
	if p.X0 > above.X0+1.5*p.size { // centred or right-aligned text has room on both sides
		room *= 2
	}
	if lowercase.MatchString(first) && room < 4*p.size {
		return true
	}
	return room < p.words[0].Width()+0.2*p.size
}

// heads reports a line of one piece in the first column that is set as a
// heading for the rows below: bold or italic where they are not, or further
// left than they.
func (g *grid) heads(l *vline) bool {
	p := &l.pieces[0]
	for i := range g.lines {
		if g.lines[i].base <= l.base || !g.starts(&g.lines[i]) || i < g.head {
			continue
		}
		q := &g.lines[i].pieces[0]
		if len(g.lines[i].pieces) == 1 {
			return false
		}
		return q.X0 > p.X0+0.5*p.size || p.bold() && !q.bold() || p.words[0].Italic && !q.words[0].Italic
	}
	return false
}
