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
	chars  int     // bytes of its text
	script int8    // 1 raised, -1 lowered: a mark beside a word of its own
	at     []pen   // where each glyph of Runs[0] begins, until a mark is added
	table  *Table  // a whole table stands here
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
	out = attach(out)
	for i := range out {
		out[i].chars = len(out[i].Text())
	}
	return out
}

// baselines groups glyphs by baseline.
func baselines(glyphs []glyph.Glyph) [][]glyph.Glyph {
	gs := ordered(glyphs, func(g *glyph.Glyph) float64 { return g.Base })
	var out [][]glyph.Glyph
	for i := 0; i < len(gs); {
		j, sizes := i+1, gs[i].Size
		for j < len(gs) && gs[j].Base-gs[i].Base <= math.Max(0.5, sameBase*math.Min(sizes, gs[j].Size)) {
			j++
		}
		row := gs[i:j:j]
		if left := func(g *glyph.Glyph) float64 { return g.X0 }; !inOrder(row, left) {
			copy(row, ordered(row, left))
		}
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
			out = append(out, Word{Base: g.Base, Size: g.Size, Box: g.Box,
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
