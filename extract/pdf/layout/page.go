package layout

import (
	"math"
	"sort"

	"probity/extract/pdf/glyph"
)

// A Sheet is one page, or the sideways part of one, in reading order.
type Sheet struct {
	Page      *glyph.Page
	Items     []Item
	words     []Word
	rules     rules
	body      float64 // the document's size of running text
	furniture string
}

// An Item is a paragraph or a table.
type Item struct {
	Block *Block
	Table *Table
}

// A Line is one line of a column.
type Line struct {
	glyph.Box
	Words  []Word
	Base   float64
	Size   float64
	Bold   bool // every word is
	Italic bool
}

// A Block is lines that belong together: a paragraph, a heading, a caption.
type Block struct {
	glyph.Box
	Page   int
	Lines  []Line
	Column glyph.Box // the column it stands in
	Size   float64
	Bold   bool
	Italic bool
	Open   bool // its last line runs to the column's edge: it may go on elsewhere
	Indent bool // its first line is indented
}

// Analyse finds the structure of all pages. Pages are read together because
// running heads, the size of running text and the columns show only so.
func Analyse(pages []*glyph.Page) []*Sheet {
	sheets := make([]*Sheet, len(pages))
	for i, p := range pages {
		sheets[i] = &Sheet{Page: p, words: Words(p), rules: newRules(p)}
	}
	dropFurniture(sheets)
	for _, s := range sheets {
		s.words = dropLineNumbers(s.words)
	}
	body := bodySize(sheets)
	for _, s := range sheets {
		s.body = body
	}
	findTables(sheets)
	var known []gutter
	for _, s := range sheets {
		known = append(known, strongGutters(s)...)
	}
	for _, s := range sheets {
		c := &cutter{sheet: s, known: known}
		c.cut(s.words, 0)
	}
	return sheets
}

// bodySize is the size most characters are set in.
func bodySize(sheets []*Sheet) float64 {
	count := map[int]int{}
	for _, s := range sheets {
		for i := range s.words {
			w := &s.words[i]
			count[int(math.Round(w.Size*4))] += len(w.Text())
		}
	}
	best, most := 40, 0
	for k, n := range count {
		if n > most || n == most && k < best {
			best, most = k, n
		}
	}
	return float64(best) / 4
}

// rowsOf groups words by baseline, top to bottom, each row left to right.
func rowsOf(words []Word) [][]Word {
	ws := append([]Word(nil), words...)
	sort.SliceStable(ws, func(i, j int) bool { return ws[i].Base < ws[j].Base })
	var out [][]Word
	for i := 0; i < len(ws); {
		j := i + 1
		for j < len(ws) && ws[j].Base-ws[i].Base <= math.Max(0.6, 0.2*math.Min(ws[i].Size, ws[j].Size)) {
			j++
		}
		row := ws[i:j:j]
		sort.SliceStable(row, func(a, b int) bool { return row[a].X0 < row[b].X0 })
		out = append(out, row)
		i = j
	}
	return out
}

func boxOf(words []Word) glyph.Box {
	var b glyph.Box
	for i := range words {
		b = b.Union(words[i].Box)
	}
	return b
}

// median of the values; 0 for none. It sorts v.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	sort.Float64s(v)
	return v[len(v)/2]
}
