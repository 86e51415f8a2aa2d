package layout

import (
	"math"
	"regexp"

	"probity/extract/pdf/glyph"
)

// notesOf takes the legend below a table: small type that follows at once, or
// lines that open with a mark or explain one.
func (s *Sheet) notesOf(r *region) {
	cells := inside(s.words, r.box)
	var sizes []float64
	for i := range cells {
		sizes = append(sizes, cells[i].Size)
	}
	size := median(sizes)
	below := inside(s.words, glyph.Box{X0: r.box.X0 - 2, X1: r.box.X1 + 2, Y0: r.box.Y1, Y1: s.Page.Height})
	taken := map[key]bool{}
	for i := range r.caption {
		taken[keyOf(&r.caption[i])] = true
	}
	last := r.box.Y1
	pitch, wide := 0.0, false
	var firstSize float64
	for _, row := range rowsOf(below) {
		if taken[keyOf(&row[0])] {
			break
		}
		w := &row[0]
		gap := w.Base - last
		if full := s.wholeRow(row); explains(full) {
			row = full
			w = &row[0]
		}
		if len(r.notes) == 0 {
			firstSize = w.Size
			small := w.Size < s.body-0.4
			if gap > 2.6*w.Size && !(gap < 3.8*w.Size && explains(row)) {
				break
			}
			if !small && !explains(row) || w.Size > size+1.2 && !explains(row) || labelWords(row) > 0 || figureWord.MatchString(w.plain()) {
				break
			}
		} else if gap > 1.5*firstSize && !(gap < 3*firstSize && explains(row)) || pitch > 0 && gap > 1.35*pitch && !explains(row) ||
			math.Abs(w.Size-firstSize) > 0.7 || labelWords(row) > 0 || figureWord.MatchString(w.plain()) || len(r.notes) > 400 {
			break
		} else if pitch == 0 {
			pitch = gap
		}
		// a row that reaches over the table's edges belongs to something else,
		// unless it is the legend, set as wide as the text
		whole := s.wholeRow(row)
		out := len(whole) > len(row) || whole[0].X0 < r.box.X0-3 || whole[len(whole)-1].X1 > r.box.X1+3
		if out && !explains(whole) && !wide {
			break
		}
		wide = out
		r.notes, last = append(r.notes, whole...), w.Base
	}
}

// wholeRow widens a row to all the words that stand close to it on its line.
func (s *Sheet) wholeRow(row []Word) []Word {
	var line []Word
	for i := range s.words {
		if w := &s.words[i]; w.table == nil && math.Abs(w.Base-row[0].Base) <= 1 {
			line = append(line, *w)
		}
	}
	for _, l := range rowsOf(line) {
		for _, seg := range segments(l, 1.2) {
			if seg[0].X0 <= row[0].X0+0.1 && seg[len(seg)-1].X1 >= row[0].X1-0.1 {
				return seg
			}
		}
	}
	return row
}

// noteStart are the openings of table legends. Source: common practice.
var noteStart = regexp.MustCompile(`^(?:[*∗†‡§¶#]|(?i:notes?|abbreviations?|legend|key|abbr)\b[.:]?|(?:SD|S\.D\.|SE|SEM|CI|NS|IQR|[nN]|[pP])\s?[,:=<]|[A-Z][A-Za-z]{0,5}\s?[:=]\s|` +

	`(?i:(?:values?|means?|letters?|groups?|data|different|the same|same|similar|identical|dissimilar|distinct|equal|unlike|superscripts?|lower-?case|upper-?case|capital|within)\b.*(?:letters?|superscripts?|differ|significan|indicat|denot|expressed|presented|shown as|standard)))`)

// explains reports a row that opens as the legend of a table does.
func explains(row []Word) bool {
	if w := &row[0]; len(w.Runs) > 0 && w.Runs[0].Raised {
		return true
	}
	return noteStart.MatchString(textOf(row))
}
