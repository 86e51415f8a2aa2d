package layout

import (
	"math"
	"slices"
	"sort"
	"strings"

	"probity/extract"
	"probity/extract/pdf/glyph"
)

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
