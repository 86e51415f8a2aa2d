// Package layout finds the structure of a page in its glyphs: words with their
// raised and lowered parts, lines, columns, paragraphs and tables.
//
//	glyph.Page → words → tables taken out → columns → lines → paragraphs
//
// It knows typography and a handful of words that label a caption; what a
// table says is for others.
package layout

import (
	"math"
	"slices"
	"sort"
	"strings"
	"unicode"

	"probity/extract"
	"probity/extract/pdf/glyph"
)

// A Word is glyphs that stand together, with the marks raised or lowered
// beside them. Its Box covers them too; Base and Size are those of the glyphs
// on the line.
type Word struct {
	glyph.Box
	Base   float64
	Size   float64
	Runs   []extract.Run
	Bold   bool
	Italic bool
	Bad    bool    // holds a glyph nobody can name
	Gap    float64 // to the word before on its baseline; big for the first
	tail   bool    // ends in a raised or lowered part
	soft   bool    // no white space was printed before it
	script int8    // 1 raised, -1 lowered: a mark beside a word of its own
	font   *glyph.Font
	at     []pen  // where each glyph of Runs[0] begins, until a mark is added
	table  *Table // a whole table stands here
}

// A pen is where a glyph begins: on the page and in the text.
type pen struct {
	x   float64
	off int
}

// Text is the word with its marks as Flatten writes them.
func (w *Word) Text() string { return extract.Flatten(w.Runs) }

// plain is the word's text on the line, without marks.
func (w *Word) plain() string {
	var b strings.Builder
	for _, r := range w.Runs {
		if !r.Raised && !r.Lowered {
			b.WriteString(r.Text)
		}
	}
	return strings.TrimSpace(b.String())
}

// sameBase is how far two baselines may be apart, in ems, and be one.
const sameBase = 0.12

// Words builds the words of a page, each row of equal baselines from left to
// right, from the top of the page to its foot.
func Words(p *glyph.Page) []Word {
	var out []Word
	for _, row := range baselines(p.Glyphs) {
		out = append(out, rowWords(row)...)
	}
	return attach(out)
}

// baselines groups glyphs by baseline.
func baselines(glyphs []glyph.Glyph) [][]glyph.Glyph {
	gs := slices.Clone(glyphs)
	sort.SliceStable(gs, func(i, j int) bool { return gs[i].Base < gs[j].Base })
	var out [][]glyph.Glyph
	for i := 0; i < len(gs); {
		j, sizes := i+1, gs[i].Size
		for j < len(gs) && gs[j].Base-gs[i].Base <= math.Max(0.5, sameBase*math.Min(sizes, gs[j].Size)) {
			j++
		}
		row := gs[i:j:j]
		sort.SliceStable(row, func(a, b int) bool { return row[a].X0 < row[b].X0 })
		out = append(out, row)
		i = j
	}
	return out
}

// A gap this wide, in ems, parts two words where no space is printed. The
// spaces of tightly set text go down to 0.2; kerning stays below 0.1.
// Where the engine guesses a space too, less will do.
const (
	wordGap = 0.17
	hintGap = 0.045
)

func rowWords(row []glyph.Glyph) []Word {
	gap := wordGap
	if m := spacing(row); m > 0.09 { // letters spread apart: "T A B L E"
		gap = math.Max(gap, 1.9*m)
	}
	var out []Word
	var cur *Word
	var last glyph.Glyph
	space := false
	for _, g := range row {
		if g.Space {
			space = true
			continue
		}
		if cur != nil {
			em := math.Max(g.Size, last.Size)
			d := g.X0 - last.X1
			if (space && d > -0.2*em) || d > gap*em || g.Hint && d > hintGap*em || d < -1.5*em {
				cur = nil
			}
		}
		if cur == nil {
			out = append(out, Word{Base: g.Base, Size: g.Size, Box: g.Box, font: g.Font,
				Bold: g.Font.Bold, Italic: g.Font.Italic, soft: !space})
			cur = &out[len(out)-1]
		}
		cur.add(g)
		last, space = g, false
	}
	return out
}

// spacing is the middle gap between neighbouring glyphs of a row, in ems.
func spacing(row []glyph.Glyph) float64 {
	var d []float64
	for i := 1; i < len(row); i++ {
		if row[i].Space || row[i-1].Space {
			continue
		}
		if x := (row[i].X0 - row[i-1].X1) / row[i].Size; x > -0.2 && x < 1 {
			d = append(d, x)
		}
	}
	if len(d) < 4 {
		return 0
	}
	sort.Float64s(d)
	return d[len(d)/2]
}

func (w *Word) add(g glyph.Glyph) {
	s := string(g.Rune)
	if l, ok := ligatures[g.Rune]; ok {
		s = l
	}
	w.Bad = w.Bad || g.Bad
	w.Box = w.Box.Union(g.Box)
	w.Size = math.Max(w.Size, g.Size)
	n := len(w.Runs)
	if n == 0 {
		w.at = append(w.at, pen{g.X0, 0})
	} else if n == 1 {
		w.at = append(w.at, pen{g.X0, len(w.Runs[0].Text)})
	}
	if n > 0 && !w.Runs[n-1].Raised && !w.Runs[n-1].Lowered && w.Runs[n-1].Bold == g.Font.Bold {
		w.Runs[n-1].Text = accent(w.Runs[n-1].Text, s)
		return
	}
	w.Runs = append(w.Runs, extract.Run{Text: s, Bold: g.Font.Bold})
}

var ligatures = map[rune]string{'ﬀ': "ff", 'ﬁ': "fi", 'ﬂ': "fl", 'ﬃ': "ffi", 'ﬄ': "ffl", 'ﬅ': "st", 'ﬆ': "st"}

// accents that old typesetting systems print as a glyph of their own over or
// before the letter, as the combining character for each.
var accents = map[rune]rune{'´': '\u0301', '`': '\u0300', '¨': '\u0308', 'ˆ': '\u0302', '˜': '\u0303', 'ˇ': '\u030c', '¸': '\u0327', '˚': '\u030a'}

func accent(text, next string) string {
	r := []rune(text)
	if len(r) == 0 {
		return next
	}
	n := []rune(next)
	if m, ok := accents[r[len(r)-1]]; ok && len(n) == 1 && unicode.IsLetter(n[0]) {
		return string(r[:len(r)-1]) + compose(n[0], m)
	}
	return text + next
}

// attach makes small words beside a bigger one, above or below its baseline,
// parts of that word, and joins what they had parted (H₂O).
func attach(words []Word) []Word {
	ix := newIndex(words)
	host := make([]int, len(words))
	for i := range words {
		host[i] = -1
		if h, kind := ix.host(i); h >= 0 {
			host[i], words[i].script = h, kind
		}
	}
	// marks in reading order, so that "a,b" stays "a,b"
	order := make([]int, 0)
	for i := range words {
		if host[i] >= 0 {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return words[order[a]].X0 < words[order[b]].X0 })
	for _, i := range order {
		h := host[i]
		for k := 0; k < 8 && host[h] >= 0; k++ {
			h = host[h]
		}
		if host[h] >= 0 || h == i {
			host[i] = -1
			continue
		}
		words[h].mark(&words[i])
	}
	out := words[:0]
	for i := range words {
		if host[i] < 0 {
			out = append(out, words[i])
		}
	}
	return join(out)
}

func (w *Word) mark(m *Word) {
	runs := slices.Clone(m.Runs)
	for i := range runs {
		runs[i].Raised, runs[i].Lowered = m.script > 0, m.script < 0
		if t := strings.TrimSpace(runs[i].Text); runs[i].Raised && (t == "◦" || t == "∘" || t == "○") {
			runs[i] = extract.Run{Text: "°", Bold: runs[i].Bold} // a degree sign put together
		}
	}
	if w.insert(m, runs) {
		return
	}
	if m.X0+m.X1 < w.X0+w.X1 && m.X1 <= w.X0+0.4*w.Size {
		w.Runs = append(runs, w.Runs...)
	} else {
		if m.X0-w.X1 > 0.12*w.Size {
			w.Runs = append(w.Runs, extract.Run{Text: " "})
		}
		w.Runs = append(w.Runs, runs...)
		w.tail = true
	}
	base, size := w.Base, w.Size
	w.Box = w.Box.Union(glyph.Box{X0: m.X0, X1: m.X1, Y0: w.Y0, Y1: w.Y1})
	w.Base, w.Size = base, size
	w.Bad = w.Bad || m.Bad
}

// insert puts marks in the middle of a word: 20°C set as 20, a raised ring, C.
func (w *Word) insert(m *Word, runs []extract.Run) bool {
	if len(w.Runs) != 1 || m.X1 > w.X1-0.2*w.Size || m.X0 < w.X0+0.2*w.Size {
		return false
	}
	for _, p := range w.at {
		if p.x >= (m.X0+m.X1)/2 && p.off > 0 && p.off < len(w.Runs[0].Text) {
			whole := w.Runs[0]
			left, right := whole, whole
			left.Text, right.Text = whole.Text[:p.off], whole.Text[p.off:]
			w.Runs = append(append([]extract.Run{left}, runs...), right)
			return true
		}
	}
	return false
}

// join puts together what a mark in the middle had parted, and measures gaps.
func join(words []Word) []Word {
	out := words[:0]
	for i := range words {
		w := words[i]
		if n := len(out); n > 0 && sameRow(&out[n-1], &w) {
			p := &out[n-1]
			d := w.X0 - p.X1
			if p.tail && w.soft && d < 0.12*w.Size && d > -0.6*w.Size {
				p.Runs = append(p.Runs, w.Runs...)
				p.Box, p.tail, p.Bad = p.Box.Union(w.Box), w.tail, p.Bad || w.Bad
				continue
			}
			w.Gap = d
		} else {
			w.Gap = 1e9
		}
		out = append(out, w)
	}
	return out
}

func sameRow(a, b *Word) bool {
	return math.Abs(a.Base-b.Base) <= math.Max(0.5, sameBase*math.Min(a.Size, b.Size)) && b.X0 >= a.X0
}

// index finds words near a place.
type index struct {
	words []Word
	rows  map[int][]int
}

const cellHeight = 8.0

func newIndex(words []Word) *index {
	ix := &index{words: words, rows: map[int][]int{}}
	for i := range words {
		k := int(words[i].Base / cellHeight)
		ix.rows[k] = append(ix.rows[k], i)
	}
	return ix
}

// host finds the word that word i is a mark of: bigger, beside it, its
// baseline a part of a line away.
func (ix *index) host(i int) (int, int8) {
	w := &ix.words[i]
	if w.X1-w.X0 > 6*w.Size {
		return -1, 0
	}
	best, kind, near := -1, int8(0), math.Inf(1)
	k := int(w.Base / cellHeight)
	for row := k - 2; row <= k+2; row++ {
		for _, j := range ix.rows[row] {
			h := &ix.words[j]
			if j == i || w.Size > 0.87*h.Size {
				continue
			}
			shift := (h.Base - w.Base) / h.Size // > 0: above
			var s int8
			switch {
			case shift > 0.15 && shift < 0.8:
				s = 1
			case shift < -0.06 && shift > -0.42:
				s = -1
			default:
				continue
			}
			after, before := (w.X0-h.X1)/h.Size, (h.X0-w.X1)/h.Size
			reach := 0.45
			if s < 0 {
				reach = 0.2
			}
			d := math.Inf(1)
			if after > -0.5 && after < reach {
				d = math.Abs(after)
			} else if before > -0.25 && before < 0.6 {
				d = math.Abs(before) + 0.2
			} else if after <= -0.5 && w.X0 > h.X0 && w.X1 < h.X1+0.3*h.Size {
				d = 0.6 // over the middle of a word set as one piece
			}
			if d < near {
				best, kind, near = j, s, d
			}
		}
	}
	// a chain: the second mark of "a, b" stands beside the first
	if best < 0 {
		for row := k - 1; row <= k+1; row++ {
			for _, j := range ix.rows[row] {
				h := &ix.words[j]
				if j < i && h.script != 0 && math.Abs(h.Base-w.Base) < 0.15*w.Size && math.Abs(h.Size-w.Size) < 0.1*w.Size &&
					w.X0-h.X1 > -0.2*w.Size && w.X0-h.X1 < 0.5*w.Size {
					return j, h.script
				}
			}
		}
	}
	return best, kind
}
