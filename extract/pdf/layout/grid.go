package layout

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"sort"
	"strings"

	"probity/extract/pdf/glyph"
)

// A piece is words of one line that stand close together: what one cell holds
// of that line, or more cells where columns are tight.
type piece struct {
	glyph.Box
	words  []Word
	base   float64
	size   float64
	c0, c1 int // columns it covers
}

func newPiece(words []Word) piece {
	p := piece{Box: boxOf(words), words: words, base: words[0].Base}
	for i := range words {
		p.size = math.Max(p.size, words[i].Size)
	}
	return p
}

func (p *piece) text() string { return textOf(p.words) }

// plain is the text without marks.
func (p *piece) plain() string {
	var s []string
	for i := range p.words {
		s = append(s, p.words[i].plain())
	}
	return strings.Join(s, " ")
}

func (p *piece) bold() bool {
	for i := range p.words {
		if !p.words[i].Bold {
			return false
		}
	}
	return true
}

// A vline is one line of a table as the eye sees it.
type vline struct {
	base   float64
	size   float64
	pieces []piece
}

// closeGap, in ems, is what parts words of one cell at most: the spaces around
// ± are wider than others.
const closeGap = 0.52

// visual makes lines of pieces of the words of a table. Cells of one row whose
// baselines differ a little (a raised mark pushes its line down) share a line.
func visual(words []Word) []vline {
	var out []vline
	for _, row := range rowsOf(words) {
		var l vline
		for _, seg := range segments(row, closeGap) {
			p := newPiece(seg)
			l.pieces = append(l.pieces, p)
			l.size = math.Max(l.size, p.size)
		}
		l.base = row[0].Base
		if n := len(out); n > 0 && l.base-out[n-1].base < 0.42*math.Min(l.size, out[n-1].size) && !clash(&out[n-1], &l) {
			out[n-1].pieces = append(out[n-1].pieces, l.pieces...)
			out[n-1].base = (out[n-1].base + l.base) / 2
			sort.SliceStable(out[n-1].pieces, func(a, b int) bool { return out[n-1].pieces[a].X0 < out[n-1].pieces[b].X0 })
			continue
		}
		out = append(out, l)
	}
	return out
}

func clash(a, b *vline) bool {
	for i := range a.pieces {
		for j := range b.pieces {
			if a.pieces[i].OverlapX(b.pieces[j].Box) > 0.5 {
				return true
			}
		}
	}
	return false
}

func (l *vline) figures() int {
	n := 0
	for i := range l.pieces {
		if figure(l.pieces[i].plain()) {
			n++
		}
	}
	return n
}

// A grid is a table being built.
type grid struct {
	*region
	lines  []vline
	head   int // lines of header
	cols   []span
	rowGap float64 // the least distance of two full rows, in ems; 0: not known
	doubts []string
}

// split finds where the header ends: at the last inner rule as wide as the
// table before the first row of figures, or without such a rule before that
// row itself.
func (g *grid) split() {
	first := g.firstFigures()
	for _, y := range g.full {
		n := 0
		for n < len(g.lines) && g.lines[n].base < y {
			n++
		}
		if n == 0 || n >= len(g.lines) || n > first && (g.head > 0 || n > 4 || g.mostlyFigures(n)) {
			continue
		}
		if g.head == 0 || g.headerLines(g.head, n) {
			g.head = n
			continue
		}
		break
	}
	if g.head == 0 {
		g.head = min(first, len(g.lines)-1)
		if g.head > 6 {
			g.head = 1
		}
		g.headingsOut()
	}
}

// headingsOut leaves a heading of the first rows ("20 °C" alone at the left
// edge) out of a header that no rule ends.
func (g *grid) headingsOut() {
	for g.head > 1 {
		l, above := &g.lines[g.head-1], &g.lines[g.head-2]
		if len(l.pieces) != 1 || len(above.pieces) < 2 {
			return
		}
		p, q := &l.pieces[0], &above.pieces[0]
		if p.X0 > q.X0+2*l.size || lowercase.MatchString(p.words[0].plain()) || unfinish.MatchString(q.plain()) || l.base-above.base < 1.15*l.size {
			return
		}
		g.head--
	}
}

// mostlyFigures reports that the first n lines hold more figures than names.
func (g *grid) mostlyFigures(n int) bool {
	figures, all := 0, 0
	for i := range g.lines[:n] {
		figures += g.lines[i].figures()
		all += len(g.lines[i].pieces)
	}
	return figures*5 >= all*2
}

// headerLines reports that lines n to m, between two rules, are header still:
// they name several columns each; a heading of the body's rows is one piece.
func (g *grid) headerLines(n, m int) bool {
	if m-n > 3 {
		return false
	}
	for i := n; i < m; i++ {
		if len(g.lines[i].pieces) >= 3 {
			return true
		}
	}
	return false
}

// firstFigures is the first line that is a row of figures: a name at the left
// edge and figures after it.
func (g *grid) firstFigures() int {
	left := math.Inf(1)
	for i := range g.lines {
		left = math.Min(left, g.lines[i].pieces[0].X0)
	}
	fallback := -1
	for i := range g.lines {
		l := &g.lines[i]
		n := 0
		for k := range l.pieces {
			if t := l.pieces[k].plain(); figure(t) && !headerFigure.MatchString(t) && balanced(t) {
				n++
			}
		}
		if len(l.pieces) < 2 || n == 0 || n*2 < len(l.pieces)-1 {
			continue
		}
		if l.pieces[0].X0 < left+1.5*l.size && (!figure(l.pieces[0].plain()) || n > 1) {
			return i
		}
		if fallback < 0 && n >= 2 {
			fallback = i
		}
	}
	if fallback >= 0 {
		return fallback
	}
	return 1
}

// balanced reports that a text closes no bracket that it does not open, as the
// second line of a wrapped header "(n = / 96)" does.
func balanced(s string) bool {
	return strings.Count(s, ")") <= strings.Count(s, "(")
}

// headerFigure are texts that begin with a figure and still head columns:
// "24 h", "95% CI", "1st month", "0.5 mm", "2 weeks".
var headerFigure = regexp.MustCompile(`^(?:\d+(?:st|nd|rd|th)\b|9[059](?:\.\d)?\s*%\s*(?i:CI|confidence|LoA)|\d+(?:[.,]\d+)?[ -]?(?i:h|hr|hrs|hours?|min|minutes?|s|sec|days?|d|weeks?|wk|months?|mo|years?|y|yr|mm|ppm|nm|°C|cycles|group|mL|rpm)\b)`)

// columns finds the white strips between columns.
func (g *grid) columns() {
	if g.cols = g.framed(); len(g.cols) >= 2 {
		return
	}
	g.cols = columnsOf(g.lines[g.head:], g.lines[:g.head], g.uprights())
	if len(g.cols) < 2 {
		g.cols = columnsOf(g.lines, nil, g.uprights())
	}
	g.merge()
}

// framed gives the columns of a table whose columns are all parted by vertical
// rules; nil for any other.
func (g *grid) framed() []span {
	cuts := g.uprights()
	if len(cuts) < 3 && !(len(cuts) >= 1 && len(cuts) <= 2 && cuts[0] > g.box.X0+20 && cuts[len(cuts)-1] < g.box.X1-20) {
		return nil
	}
	edges := append(append([]float64{g.box.X0 - 1}, cuts...), g.box.X1+1)
	var out []span
	for k := 1; k < len(edges); k++ {
		s := span{math.Inf(1), math.Inf(-1)}
		for _, l := range g.lines[g.head:] {
			for i := range l.pieces {
				for _, w := range l.pieces[i].words {
					if mid := (w.X0 + w.X1) / 2; mid > edges[k-1] && mid < edges[k] {
						s.x0, s.x1 = math.Min(s.x0, w.X0), math.Max(s.x1, w.X1)
					}
				}
			}
		}
		if s.x1 > s.x0 {
			out = append(out, s)
		}
	}
	// every wide strip of white must be ruled, or the rules part groups only
	for _, s := range out {
		inner := 0
		for _, c := range columnsOf(g.lines[g.head:], nil, cuts) {
			if c.x0 >= s.x0-1 && c.x1 <= s.x1+1 {
				inner++
			}
		}
		if inner > 1 && !g.loneCells(s) {
			return nil
		}
	}
	return out
}

// loneCells reports that no line has two pieces far apart inside a strip: what
// looks like two columns is one whose cells are set left, middle and right.
func (g *grid) loneCells(s span) bool {
	for _, l := range g.lines[g.head:] {
		n := 0
		for i := range l.pieces {
			if l.pieces[i].X0 >= s.x0-1 && l.pieces[i].X1 <= s.x1+1 {
				n++
			}
		}
		if n > 1 {
			return false
		}
	}
	return true
}

// uprights are the places of vertical rules that run through much of the table.
func (g *grid) uprights() []float64 {
	vs := slices.Clone(g.down)
	slices.SortFunc(vs, func(a, b glyph.Box) int { return cmp.Compare(a.X0, b.X0) })
	var out []float64
	for i := 0; i < len(vs); {
		j, h := i, 0.0
		for j < len(vs) && vs[j].X0-vs[i].X0 < 2.5 {
			h += vs[j].Height()
			j++
		}
		if h > 0.5*g.box.Height() {
			out = append(out, (vs[i].X0+vs[i].X1)/2)
		}
		i = j
	}
	return out
}

// gutterEm is the narrowest white strip between two columns, in ems.
const gutterEm = 0.5

// columnsOf gives the columns of lines: what is left between white strips. A
// line that alone bridges a strip holds a cell that spans columns.
func columnsOf(body, head []vline, cuts []float64) []span {
	var use []int
	for i := range body {
		if len(body[i].pieces) >= 2 || halfway(body, i) {
			use = append(use, i)
		}
	}
	if len(use) == 0 {
		return nil
	}
	cols := strips(body, use, cuts)
	for round := 0; round < 4 && len(use) > 3; round++ {
		best, at := cols, -1
		for k := range use {
			rest := append(append([]int(nil), use[:k]...), use[k+1:]...)
			if c := strips(body, rest, cuts); len(c) > len(best) {
				best, at = c, k
			}
		}
		if at < 0 || float64(len(use)-1) < 0.8*float64(len(body)) && len(use) <= 4 {
			break
		}
		cols, use = best, append(use[:at], use[at+1:]...)
	}
	return addHeads(cols, head)
}

// halfway reports a line that stands half-way between others: a cell set to
// the middle of a row whose other cells have two lines.
func halfway(lines []vline, i int) bool {
	near := func(j int) bool {
		return j >= 0 && j < len(lines) && math.Abs(lines[i].base-lines[j].base) < 0.85*math.Min(lines[i].size, lines[j].size) && len(lines[j].pieces) >= 2
	}
	return near(i-1) || near(i+1)
}

// strips projects the pieces of the chosen lines on the x axis.
func strips(lines []vline, use []int, cuts []float64) []span {
	var all []span
	em := 0.0
	for _, i := range use {
		em = math.Max(em, lines[i].size)
		for k := range lines[i].pieces {
			p := &lines[i].pieces[k]
			all = append(all, cutSpan(span{p.X0, p.X1}, p, cuts)...)
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].x0 < all[j].x0 })
	var out []span
	for _, s := range all {
		n := len(out)
		if n > 0 && s.x0-out[n-1].x1 < gutterEm*em && !ruled(out[n-1].x1, s.x0, cuts) {
			out[n-1].x1 = math.Max(out[n-1].x1, s.x1)
			continue
		}
		out = append(out, s)
	}
	return out
}

// ruled reports a vertical rule between two places.
func ruled(x0, x1 float64, cuts []float64) bool {
	for _, c := range cuts {
		if c > x0-2.5 && c < x1+2.5 {
			return true
		}
	}
	return false
}

// cutSpan parts a piece at the vertical rules that pass between its words.
func cutSpan(s span, p *piece, cuts []float64) []span {
	out := []span{s}
	for _, c := range cuts {
		for k := 1; k < len(p.words); k++ {
			if p.words[k-1].X1 <= c+1 && p.words[k].X0 >= c-1 {
				n := len(out) - 1
				out[n].x1 = p.words[k-1].X1
				out = append(out, span{p.words[k].X0, s.x1})
			}
		}
	}
	return out
}

// addHeads adds columns that only the header shows: a piece of it in white.
func addHeads(cols []span, head []vline) []span {
	if len(head) == 0 || len(cols) == 0 {
		return cols
	}
	for h := len(head) - 1; h >= 0; h-- {
		if len(head[h].pieces) <= len(cols) && head[h].pieces[0].X0 > cols[0].x0-2*head[h].size {
			continue // as many names as columns: they are set apart, no more
		}
		for i := range head[h].pieces {
			p := &head[h].pieces[i]
			free := true
			for _, c := range cols {
				if math.Min(c.x1, p.X1)-math.Max(c.x0, p.X0) > -0.5*p.size {
					free = false
				}
			}
			// above the last line a free piece may stand over two columns; only
			// at the edges it must have one of its own
			if free && (h == len(head)-1 || p.X1 < cols[0].x0 || p.X0 > cols[len(cols)-1].x1) {
				cols = append(cols, span{p.X0, p.X1})
				sort.Slice(cols, func(i, j int) bool { return cols[i].x0 < cols[j].x0 })
			}
		}
	}
	return cols
}

var (
	attached = regexp.MustCompile(`^(?:±.*|[(\[].*[)\]]|[a-zA-Z]{1,3}(?:,\s?[a-zA-Z]{1,3})*|[*†‡§¶#]+|%|[ᵃᵇᶜᵈᵉᶠᵍʰ⁎, ]+)$`)
	openEnd  = regexp.MustCompile(`±$`)
)

// merge joins columns that are parts of one: a column of ±, of spreads in
// brackets or of letters without a header of its own.
func (g *grid) merge() {
	for j := 1; j < len(g.cols); {
		texts, before := g.textsIn(j), g.textsIn(j-1)
		own := g.headed(j)
		all := func(ts []string, ok func(string) bool) bool {
			for _, t := range ts {
				if !ok(t) {
					return false
				}
			}
			return len(ts) > 0
		}
		figures := 0
		for _, t := range before {
			if figure(t) {
				figures++
			}
		}
		plus := all(texts, func(s string) bool { return strings.HasPrefix(s, "±") })
		open := all(before, openEnd.MatchString)
		tail := !own && j > 1 && figures*3 >= 2*len(before) && all(texts, attached.MatchString)
		if plus || open || tail {
			g.cols[j-1].x1 = g.cols[j].x1
			g.cols = append(g.cols[:j], g.cols[j+1:]...)
			continue
		}
		j++
	}
}

// textsIn are the texts of the body's pieces that lie in a column.
func (g *grid) textsIn(j int) []string {
	var out []string
	for _, l := range g.lines[g.head:] {
		if len(l.pieces) < 2 {
			continue
		}
		for i := range l.pieces {
			p := &l.pieces[i]
			if p.X0 >= g.cols[j].x0-1 && p.X1 <= g.cols[j].x1+1 {
				out = append(out, p.text())
			}
		}
	}
	return out
}

// headed reports a piece of header that stands over this column and no other.
func (g *grid) headed(j int) bool {
	for _, l := range g.lines[:g.head] {
		for i := range l.pieces {
			p := &l.pieces[i]
			mid := (p.X0 + p.X1) / 2
			if mid > g.cols[j].x0-0.6*p.size && mid < g.cols[j].x1+0.6*p.size && !(j > 0 && p.X0 < g.cols[j-1].x1-0.3*p.size) {
				return true
			}
		}
	}
	return false
}

// place says which columns each piece covers, and parts pieces that run over a
// strip because two cells stand close together.
func (g *grid) place() {
	for i := range g.lines {
		l := &g.lines[i]
		if i < g.head {
			l.pieces = g.fit(l)
			continue
		}
		var out []piece
		for k := range l.pieces {
			out = append(out, g.part(l.pieces[k])...)
		}
		l.pieces = out
	}
}

// bound is the middle of the strip after column j.
func (g *grid) bound(j int) float64 { return (g.cols[j].x1 + g.cols[j+1].x0) / 2 }

func (g *grid) part(p piece) []piece {
	p.c0, p.c1 = g.covers(&p)
	if p.c0 == p.c1 || len(p.words) < 2 {
		return []piece{p}
	}
	// look for a space near a strip
	for j := p.c0; j < p.c1; j++ {
		lo, hi := g.cols[j].x1-0.6*p.size, g.cols[j+1].x0+0.6*p.size
		for k := 1; k < len(p.words); k++ {
			a, b := p.words[k-1].X1, p.words[k].X0
			if a >= lo-0.1*p.size && b <= hi+0.1*p.size && (b-a > 0.33*p.size || ruled(a, b, g.uprights())) {
				left, right := newPiece(p.words[:k]), newPiece(p.words[k:])
				return append(g.part(left), g.part(right)...)
			}
		}
	}
	return []piece{p}
}

// covers gives the columns in which the ends of a piece of the body lie.
func (g *grid) covers(p *piece) (int, int) {
	n := len(g.cols)
	at := func(x float64) int {
		for j := 0; j < n-1; j++ {
			if x < g.bound(j) {
				return j
			}
		}
		return n - 1
	}
	c0, c1 := at(p.X0+0.3*p.size), at(p.X1-0.3*p.size)
	return c0, max(c0, c1)
}
