package layout

import (
	"cmp"
	"math"
	"slices"
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
	taken     int // digits of what was taken out as furniture or line numbers
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
		sheets[i].taken = digitsOf(sheets[i].words)
	}
	dropFurniture(sheets)
	for _, s := range sheets {
		s.words = dropLineNumbers(s.words)
		s.taken -= digitsOf(s.words)
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
	for k, n := range count { // any order: of equals the smallest
		if n > most || n == most && k < best {
			best, most = k, n
		}
	}
	return float64(best) / 4
}

// rowsOf groups words by baseline, top to bottom, each row left to right.
func rowsOf(words []Word) [][]Word {
	ws := ordered(words, func(w *Word) float64 { return w.Base })
	var out [][]Word
	for i := 0; i < len(ws); {
		j := i + 1
		for j < len(ws) && ws[j].Base-ws[i].Base <= math.Max(0.6, 0.2*math.Min(ws[i].Size, ws[j].Size)) {
			j++
		}
		row := ws[i:j:j]
		if left := func(w *Word) float64 { return w.X0 }; !inOrder(row, left) {
			copy(row, ordered(row, left))
		}
		out = append(out, row)
		i = j
	}
	return out
}

// ordered gives the elements by a value, equal ones as they stood. They are
// large: their places are sorted, and each is moved once.
func ordered[T any](in []T, by func(*T) float64) []T {
	type place struct {
		v  float64
		at int32
	}
	order := make([]place, len(in))
	for i := range in {
		order[i] = place{by(&in[i]), int32(i)}
	}
	slices.SortFunc(order, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.v, b.v), cmp.Compare(a.at, b.at))
	})
	out := make([]T, len(in))
	for i, p := range order {
		out[i] = in[p.at]
	}
	return out
}

// inOrder reports that elements stand in order already, as those of a row
// mostly do.
func inOrder[T any](in []T, by func(*T) float64) bool {
	for i := 1; i < len(in); i++ {
		if by(&in[i]) < by(&in[i-1]) {
			return false
		}
	}
	return true
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
