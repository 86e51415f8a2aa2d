package layout

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"probity/extract/pdf/glyph"
)

// paragraphs makes blocks of the rows of one column.
func (s *Sheet) paragraphs(rows [][]Word) []Item {
	var lines []Line
	var tables []*Table
	for _, r := range rows {
		var rest []Word
		for _, w := range r {
			if w.table != nil {
				lines = append(lines, Line{Box: w.Box, Base: w.Base, Words: []Word{w}})
				tables = append(tables, w.table)
				continue
			}
			rest = append(rest, w)
		}
		if len(rest) > 0 {
			lines = append(lines, newLine(rest))
		}
	}
	col := columnBox(lines)
	pitch := leading(lines)
	var out []Item
	var cur *Block
	for i := range lines {
		l := &lines[i]
		if t := l.Words[0].table; t != nil {
			out, cur = append(out, Item{Table: t}), nil
			continue
		}
		var prev, next *Line
		if cur != nil {
			prev = &cur.Lines[len(cur.Lines)-1]
		}
		if i+1 < len(lines) && lines[i+1].Words[0].table == nil {
			next = &lines[i+1]
		}
		if prev == nil || starts(cur, prev, l, next, col, pitch) {
			cur = &Block{Page: s.Page.Number, Column: col, Indent: l.X0 > col.X0+0.7*l.Size}
			out = append(out, Item{Block: cur})
		}
		cur.Lines = append(cur.Lines, *l)
		cur.Box = cur.Box.Union(l.Box)
	}
	for _, it := range out {
		if it.Block != nil {
			it.Block.finish()
		}
	}
	return out
}

func newLine(words []Word) Line {
	l := Line{Words: words, Box: boxOf(words), Bold: true, Italic: true}
	var sizes, bases []float64
	for i := range words {
		w := &words[i]
		n := max(len(w.Text()), 1)
		for range min(n, 12) {
			sizes, bases = append(sizes, w.Size), append(bases, w.Base)
		}
		if strings.IndexFunc(w.plain(), isWordRune) >= 0 {
			l.Bold = l.Bold && w.Bold
			l.Italic = l.Italic && w.Italic
		}
	}
	l.Size, l.Base = median(sizes), median(bases)
	return l
}

func isWordRune(r rune) bool {
	return r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r > 0xbf
}

// columnBox is the column the lines fill: its left edge is where most begin.
func columnBox(lines []Line) glyph.Box {
	var b glyph.Box
	for i := range lines {
		b = b.Union(lines[i].Box)
	}
	return b
}

// leading is the usual distance from one baseline to the next.
func leading(lines []Line) float64 {
	var d []float64
	for i := 1; i < len(lines); i++ {
		if lines[i].Size == 0 || lines[i-1].Size == 0 {
			continue
		}
		if x := lines[i].Base - lines[i-1].Base; x > 0.5*lines[i].Size && x < 2.5*lines[i].Size {
			d = append(d, x)
		}
	}
	return median(d)
}

var (
	numbered  = regexp.MustCompile(`^(\[\d{1,3}\]|\(\d{1,3}\)|\d{1,3}[.)])$`)
	sentence  = regexp.MustCompile(`[.:?!;][)\]”"’'*†‡§¶\d,–-]*$`)
	lowercase = regexp.MustCompile(`^\p{Ll}`)
)

// starts reports whether line l opens a new block after prev.
func starts(cur *Block, prev, l, next *Line, col glyph.Box, pitch float64) bool {
	em := math.Max(l.Size, prev.Size)
	gap := l.Base - prev.Base
	usual := pitch
	if usual == 0 || usual > 1.9*em {
		usual = 1.2 * em
	}
	if n := len(cur.Lines); n >= 2 {
		usual = math.Min(usual, cur.Lines[n-1].Base-cur.Lines[n-2].Base)
	}
	switch {
	case gap > 1.3*usual && gap > 1.25*em, gap < 0:
		return true
	case math.Abs(l.Size-prev.Size) > 0.08*em && math.Abs(l.Size-prev.Size) > 0.6:
		return true
	case l.Bold != prev.Bold && (l.Bold || len(cur.Lines) <= 3 && cur.allBold()):
		return true
	}
	// a line in italics alone: a heading
	if prev.Italic && !l.Italic && len(cur.Lines) == 1 && prev.X1 < col.X1-3*em && !sentence.MatchString(lastWord(prev)) {
		return true
	}
	if l.Italic && !prev.Italic && next != nil && !next.Italic && l.X1 < col.X1-3*em && prev.X1 < col.X1-em {
		return true
	}
	// a list of references: each entry opens with its number at the edge
	if next := entryNumber(l); next > 0 && next == entryNumber(&cur.Lines[0])+1 && math.Abs(l.X0-cur.Lines[0].X0) < 1.2*em {
		return true
	}
	full := prev.X1 + wordWidth(l) + 0.3*em
	fits := full < col.X1-0.4*em // the word would have had room: prev ended by will
	indented := l.X0 > col.X0+0.7*em && l.X0 < col.X0+5*em && prev.X0 < col.X0+0.5*em
	if indented && (next == nil || next.X0 < l.X0-0.5*em) && !hanging(cur, col) {
		return true
	}
	return fits && sentence.MatchString(lastWord(prev)) && !lowercase.MatchString(firstWord(l))
}

// entryNumber is the number that a line of a numbered list opens with; 0 if
// none.
func entryNumber(l *Line) int {
	w := firstWord(l)
	if !numbered.MatchString(w) {
		return 0
	}
	n, _ := strconv.Atoi(strings.Trim(w, "[]()."))
	return n
}

// hanging reports a block whose first line stands out to the left of its rest.
func hanging(b *Block, col glyph.Box) bool {
	if len(b.Lines) < 2 {
		return numbered.MatchString(firstWord(&b.Lines[0]))
	}
	return b.Lines[1].X0 > b.Lines[0].X0+0.5*b.Lines[0].Size
}

func (b *Block) allBold() bool {
	for i := range b.Lines {
		if !b.Lines[i].Bold {
			return false
		}
	}
	return true
}

func firstWord(l *Line) string { return l.Words[0].plain() }
func lastWord(l *Line) string  { return l.Words[len(l.Words)-1].plain() }
func wordWidth(l *Line) float64 {
	return l.Words[0].Width()
}

func (b *Block) finish() {
	var sizes []float64
	b.Bold, b.Italic = true, true
	for i := range b.Lines {
		l := &b.Lines[i]
		sizes = append(sizes, l.Size)
		b.Bold, b.Italic = b.Bold && l.Bold, b.Italic && l.Italic
	}
	b.Size = median(sizes)
	last := &b.Lines[len(b.Lines)-1]
	b.Open = last.X1 > b.Column.X1-1.5*last.Size
}
