package layout

import (
	"math"
	"regexp"
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
	for i := range g.lines {
		if i < 8 {
		}
	}
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
	stub := g.stub()
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
		if stub.holds(&l.pieces[0]) && (!figure(l.pieces[0].plain()) || n > 1) {
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

// A stub is where the names of rows stand: before the first of the upright
// rules, at the left edge, or around one middle where most of them do.
type stub struct{ right, left, mid float64 }

func (s stub) holds(p *piece) bool {
	return p.X1 < s.right || p.X0 < s.left+1.5*p.size || math.Abs((p.X0+p.X1)/2-s.mid) < 0.3*p.size
}

func (g *grid) stub() stub {
	s := stub{math.Inf(-1), math.Inf(1), math.Inf(1)}
	mid := 0.0
	for i := range g.lines {
		if p := &g.lines[i].pieces[0]; p.X0 < s.left {
			s.left, mid = p.X0, (p.X0+p.X1)/2
		}
	}
	for _, cut := range g.uprights() {
		if cut > s.left {
			s.right = cut + 1
			break
		}
	}
	centred := stub{math.Inf(-1), math.Inf(-1), mid}
	n, left, middle := 0, 0, 0
	for i := range g.lines {
		if p := &g.lines[i].pieces[0]; len(g.lines[i].pieces) > 1 {
			n++
			if s.holds(p) {
				left++
			}
			if centred.holds(p) {
				middle++
			}
		}
	}
	if middle > left && middle*2 > n {
		s.mid = mid
	}
	return s
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
