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

// middled reports that cells of several lines are set to the middle of their
// row: lines of figures stand half-way between lines of the first column.
func (g *grid) middled(lines []vline) bool {
	halves := 0
	for i := 1; i < len(lines); i++ {
		d := lines[i].base - lines[i-1].base
		if d < 0.85*math.Min(lines[i].size, lines[i-1].size) && !g.ruleBetween(lines[i-1].base-0.3*lines[i-1].size, lines[i].base-0.9*lines[i].size) {
			halves++
		}
	}
	return halves >= 2 || halves == 1 && len(lines) <= 6
}

// anchored reads rows whose cells are set to their middle. A column that
// never wraps tells where the rows are; in every other column the lines are
// shared out so that each cell's middle lies as near as can be to its row's.
func (g *grid) anchored(lines []vline) []row {
	at := g.anchors(lines)
	if len(at) < 2 {
		return g.gathered(lines)
	}
	rows := make([]row, len(at))
	for j := range g.cols {
		var ps []piece
		for i := range lines {
			for _, p := range lines[i].pieces {
				if p.c0 == j {
					ps = append(ps, p)
				}
			}
		}
		sort.SliceStable(ps, func(a, b int) bool {
			if math.Abs(ps[a].base-ps[b].base) > 0.3*ps[a].size {
				return ps[a].base < ps[b].base
			}
			return ps[a].X0 < ps[b].X0
		})
		for i, k := range share(ps, at) {
			rows[k].lines = append(rows[k].lines, vline{base: ps[i].base, size: ps[i].size, pieces: []piece{ps[i]}})
		}
	}
	var out []row
	for k, r := range rows {
		if len(r.lines) == 0 {
			continue
		}
		if h := headingOf(&r, at[k]); len(h.lines) > 0 {
			out = append(out, h)
		}
		out = append(out, r)
	}
	return out
}

// headingOf takes the lines above a row's name out of the row when the name
// itself stands level with the row: then they head a group of rows.
func headingOf(r *row, at float64) row {
	n, level := 0, false
	for n < len(r.lines) && r.lines[n].pieces[0].c0 == 0 {
		n++
	}
	k := 0
	for k < n {
		if math.Abs(r.lines[k].base-at) < 0.2*r.lines[k].size {
			level = true
			break
		}
		k++
	}
	if !level || k == 0 || n-k > k {
		return row{}
	}
	h := row{lines: r.lines[:k:k], group: true}
	r.lines = r.lines[k:]
	return h
}

// strayed charges for pieces on the very height of another row than theirs.
func strayed(ps []piece, at []float64, own int) float64 {
	c := 0.0
	for i := range ps {
		if i > 0 && ps[i].base-ps[i-1].base > 1.6*ps[i].size {
			c += 3 // no cell has its lines so far apart
		}
		for k := range at {
			if k != own && math.Abs(ps[i].base-at[k]) < 0.15*ps[i].size {
				c += 2
			}
		}
	}
	return c
}

// anchors are the heights of the cells of the column that has most of them
// without wrapping.
func (g *grid) anchors(lines []vline) []float64 {
	var best []float64
	for k := 1; k <= len(g.cols); k++ {
		j := k % len(g.cols) // the first column last
		var at []float64
		tight := false
		for i := range lines {
			for _, p := range lines[i].pieces {
				if p.c0 != j || p.c1 != j {
					continue
				}
				if n := len(at); n > 0 && p.base-at[n-1] < 1.35*p.size {
					tight = true
				}
				at = append(at, p.base)
			}
		}
		if !tight && len(at) > len(best) {
			best = at
		}
	}
	return best
}

// share gives each piece of a column a row: consecutive pieces, groups in
// order, the middle of each group near the row's height.
func share(ps []piece, at []float64) []int {
	n, m := len(ps), len(at)
	if n == 0 {
		return nil
	}
	cost := make([][]float64, m+1)
	from := make([][]int, m+1)
	for k := range cost {
		cost[k], from[k] = make([]float64, n+1), make([]int, n+1)
		for i := range cost[k] {
			cost[k][i] = math.Inf(1)
		}
	}
	cost[0][0] = 0
	for k := 1; k <= m; k++ {
		for i := 0; i <= n; i++ {
			for h := i; h >= 0 && i-h < 40; h-- {
				c := cost[k-1][h]
				if h < i {
					// half-way between two rows a name belongs to the first
					mid := (ps[h].base+ps[i-1].base)/2 - 0.08*ps[h].size
					d := math.Abs(mid-at[k-1]) / ps[h].size
					c += d*d*math.Sqrt(float64(i-h)) + strayed(ps[h:i], at, k-1)
				} else {
					c += 0.15
				}
				if c < cost[k][i] {
					cost[k][i], from[k][i] = c, h
				}
			}
		}
	}
	out := make([]int, n)
	for k, i := m, n; k > 0; k-- {
		for h := from[k][i]; h < i; h++ {
			out[h] = k - 1
		}
		i = from[k][i]
	}
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
		if len(rows) > 0 && !g.ruleBetween(lines[i-1].base, l.base-0.7*l.size) && g.continues(&rows[len(rows)-1], l, pitch) {
			r := &rows[len(rows)-1]
			r.lines = append(r.lines, *l)
			continue
		}
		rows = append(rows, row{lines: []vline{*l}})
	}
	return rows
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
	if gap > 1.75 || r.group {
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

// cells makes the cells of one row.
func (g *grid) cells(r *row) []Cell {
	out := make([]Cell, len(g.cols))
	for i := range r.lines {
		ps := r.lines[i].pieces
		for k := range ps {
			p := &ps[k]
			sameLine := k > 0 && ps[k-1].c0 <= p.c0 && p.c0 <= ps[k-1].c1
			if sameLine {
				out[ps[k-1].c0].add(p, true)
				continue
			}
			c := &out[p.c0]
			if c.Copy { // inside a wider cell that began further left
				for j := p.c0; j >= 0; j-- {
					if !out[j].Copy {
						c = &out[j]
						break
					}
				}
			}
			c.add(p, false)
			if p.c1 > p.c0 && c.Cols <= 1 && free(out, p.c0+1, p.c1) {
				c.Cols = p.c1 - p.c0 + 1
				for j := p.c0 + 1; j <= p.c1; j++ {
					out[j].Copy = true
				}
			}
		}
	}
	for j := range out { // a spanning cell stands in each place it covers
		for k := j + 1; k < j+out[j].Cols && k < len(out); k++ {
			out[k] = out[j]
			out[k].Copy = true
		}
	}
	return out
}

func free(cells []Cell, from, to int) bool {
	for j := from; j <= to && j < len(cells); j++ {
		if len(cells[j].Lines) > 0 || cells[j].Copy {
			return false
		}
	}
	return true
}

// indents measures how far the entries of the first column stand in.
func (g *grid) indents(rows []row, out [][]Cell) {
	left, size := math.Inf(1), 0.0
	x := make([]float64, len(rows))
	for i := range rows {
		x[i] = -1
		for _, l := range rows[i].lines {
			if g.starts(&l) {
				x[i] = l.pieces[0].X0
				size = math.Max(size, l.pieces[0].size)
				left = math.Min(left, x[i])
				break
			}
		}
	}
	if g.centredStub(rows) {
		return
	}
	for i := range rows {
		if x[i] >= 0 {
			out[i][0].Indent = min(3, int((x[i]-left+0.2*size)/(0.8*size)))
		}
	}
}

// centredStub reports a first column set to its middle: its left edges then
// say nothing.
func (g *grid) centredStub(rows []row) bool {
	edges, mids := map[int]bool{}, map[int]bool{}
	n := 0
	for i := range rows {
		if l := rows[i].lines[0]; g.starts(&l) {
			edges[int(l.pieces[0].X0/2)] = true
			mids[int((l.pieces[0].X0+l.pieces[0].X1)/4)] = true
			n++
		}
	}
	return n > 2 && len(mids) < len(edges)
}

// spanRows fills the places under a name in the first column that stands for
// several rows: the rows below it have none, but have a name in the second.
func (g *grid) spanRows(rows []row, out [][]Cell) {
	if len(g.cols) < 3 || len(out) < 2 {
		return
	}
	named := 0
	empty := 0
	for i := range out {
		if len(out[i][0].Lines) == 0 {
			empty++
			if s := out[i][1].text(); s != "" && !figure(s) {
				named++
			}
		}
	}
	if empty == 0 || named*5 < empty*4 {
		return
	}
	from := g.nearest(rows, out)
	for i := range out {
		if len(out[i][0].Lines) > 0 || from[i] < 0 {
			continue
		}
		c := out[from[i]][0]
		if out[from[i]][0].Cols > 1 {
			continue
		}
		c.Copy = true
		out[i][0] = c
	}
	spanFirst(out)
}

// nearest gives for each row the row whose first cell stands for it: the one
// above, or, where names stand in the middle of their rows, the nearest.
func (g *grid) nearest(rows []row, out [][]Cell) []int {
	from := make([]int, len(out))
	top := len(out[0][0].Lines) > 0
	for i := range out {
		from[i] = -1
		best := math.Inf(1)
		for k := range out {
			if !leads(out[k]) || top && k > i || g.between(rows, i, k) {
				continue
			}
			d := math.Abs(float64(i - k))
			if d < best {
				best, from[i] = d, k
			}
		}
	}
	return from
}

// leads reports a row that has a name in its first cell and more beside it; a
// name alone is a heading, and formats print those once.
func leads(cells []Cell) bool {
	if len(cells[0].Lines) == 0 {
		return false
	}
	for j := 1; j < len(cells); j++ {
		if len(cells[j].Lines) > 0 && !cells[j].Copy {
			return true
		}
	}
	return false
}

// between reports a rule between two rows.
func (g *grid) between(rows []row, i, k int) bool {
	if i > k {
		i, k = k, i
	}
	return g.fullBetween(rows[i].lines[0].base, rows[k].lines[0].base-0.5*rows[k].lines[0].size)
}

// spanFirst moves the original of a copied first cell to its first row and counts
// its rows.
func spanFirst(out [][]Cell) {
	for i := 0; i < len(out); {
		j := i + 1
		text := out[i][0].text()
		for j < len(out) && text != "" && out[j][0].text() == text && (out[j][0].Copy || out[i][0].Copy) {
			j++
		}
		for k := i; k < j && j-i > 1; k++ {
			out[k][0].Copy = k > i
			out[k][0].Rows = j - i
		}
		i = j
	}
}
