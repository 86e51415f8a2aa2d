package layout

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// margin is the part of a page's height at its head and foot where running
// heads and page numbers stand.
const margin = 0.12

type edgeRow struct {
	sheet *Sheet
	row   []Word
}

// dropFurniture takes out running heads, page numbers and what else comes back
// at the same height from page to page, digits aside.
func dropFurniture(sheets []*Sheet) {
	seen := map[string][]edgeRow{}
	for _, s := range sheets {
		if s.Page.Turned != 0 {
			continue
		}
		for _, e := range edgeRows(s) {
			k := furnitureKey(e.row)
			seen[k] = append(seen[k], e)
		}
	}
	drop := map[*Sheet]map[int]bool{}
	mark := func(e edgeRow) {
		if drop[e.sheet] == nil {
			drop[e.sheet] = map[int]bool{}
		}
		drop[e.sheet][int(math.Round(e.row[0].Base*10))] = true
	}
	for _, group := range seen { // any order: each marks its own rows
		pages := map[int]bool{}
		for _, e := range group {
			pages[e.sheet.Page.Number] = true
		}
		for _, e := range group {
			if len(pages) >= 2 || pageNumber(e.row) {
				mark(e)
			}
		}
	}
	for s, rows := range drop { // any order: each sheet has its own
		kept := s.words[:0]
		for _, w := range s.words {
			y := int(math.Round(w.Base * 10))
			if !(rows[y] || rows[y-1] || rows[y+1]) || w.Y0 > s.Page.Height*margin && w.Y1 < s.Page.Height*(1-margin) {
				kept = append(kept, w)
				continue
			}
			s.furniture += w.Text() + " "
		}
		s.words = kept
	}
	dropEdgeRules(sheets)
}

// edgeRows are the first and last rows of a page that stand apart from the
// text in its margins.
func edgeRows(s *Sheet) []edgeRow {
	rows := rowsOf(s.words)
	var out []edgeRow
	for i := 0; i < len(rows) && i < 3; i++ {
		if rows[i][0].Base > s.Page.Height*margin {
			break
		}
		out = append(out, edgeRow{s, rows[i]})
		if i+1 < len(rows) && rows[i+1][0].Base-rows[i][0].Base > 1.7*rows[i][0].Size {
			continue
		}
		// no room below: the text itself starts here, unless the next ends it
		if i+1 < len(rows) && i < 2 && !(i+2 < len(rows) && rows[i+2][0].Base-rows[i+1][0].Base > 1.7*rows[i][0].Size) {
			out = out[:len(out)-1]
			break
		}
	}
	for i := len(rows) - 1; i >= 0 && i >= len(rows)-4; i-- {
		if rows[i][0].Base < s.Page.Height*(1-margin) {
			break
		}
		out = append(out, edgeRow{s, rows[i]})
	}
	return out
}

func furnitureKey(row []Word) string {
	var b strings.Builder
	for i := range row {
		for _, r := range row[i].plain() {
			if unicode.IsDigit(r) {
				if !strings.HasSuffix(b.String(), "#") {
					b.WriteByte('#')
				}
				continue
			}
			b.WriteRune(r)
		}
		b.WriteByte(' ')
	}
	return b.String() + strconv.Itoa(int(math.Round(row[0].Base/3)))
}

// pageNumber reports a row that is nothing but a small number.
func pageNumber(row []Word) bool {
	if len(row) > 3 {
		return false
	}
	s := ""
	for i := range row {
		s += row[i].plain()
	}
	s = strings.Trim(s, "-–— |[]()pageofPAGEOF/")
	n, err := strconv.Atoi(s)
	return err == nil && n > 0 && n < 100_000
}

// dropEdgeRules takes out the lines under running heads: the same line at the
// same place of a margin on three pages or more.
func dropEdgeRules(sheets []*Sheet) {
	key := func(s *Sheet, i int) string {
		r := s.rules.across[i]
		if r.Y0 > s.Page.Height*margin && r.Y0 < s.Page.Height*(1-margin) || s.textBeyond(r.Y0) {
			return ""
		}
		return strconv.Itoa(int(math.Round(r.Y0/2))) + " " + strconv.Itoa(int(math.Round(r.X0/4))) + " " + strconv.Itoa(int(math.Round(r.X1/4)))
	}
	seen := map[string]int{}
	for _, s := range sheets {
		for i := range s.rules.across {
			seen[key(s, i)]++
		}
	}
	for _, s := range sheets {
		kept := s.rules.across[:0:0]
		for i, r := range s.rules.across {
			if k := key(s, i); k == "" || seen[k] < 3 {
				kept = append(kept, r)
			}
		}
		s.rules.across = kept
	}
}

// dropLineNumbers takes out the numbers that manuscripts print beside their
// lines: whole numbers left of all text, rising steadily down the page.
func dropLineNumbers(words []Word) []Word {
	rows := rowsOf(words)
	first := make([]float64, 0, len(rows))
	for _, r := range rows {
		if len(r) > 1 {
			first = append(first, r[1].X0)
		}
	}
	left := median(first)
	var nums []float64
	number := map[int]bool{} // row → its first word counts lines
	last, step := 0, 0
	for i, r := range rows {
		w := &r[0]
		n, err := strconv.Atoi(w.plain())
		if err != nil || w.X1 > left-0.3*w.Size || len(r) > 1 && r[1].X0-w.X1 < 0.6*w.Size {
			continue
		}
		if last > 0 {
			if d := n - last; d < 1 || d > 10 || step > 0 && d != step && d != 1 {
				continue
			} else {
				step = d
			}
		}
		last = n
		nums = append(nums, w.X1)
		number[i] = true
	}
	if len(nums) < 8 || float64(len(nums)*max(step, 1)) < 0.5*float64(len(rows)) {
		return words
	}
	edge := median(nums)
	out := make([]Word, 0, len(words))
	for i, r := range rows {
		if number[i] && math.Abs(r[0].X1-edge) < 2*r[0].Size {
			r = r[1:]
		}
		out = append(out, r...)
	}
	return out
}

// Furniture is the text of the running heads and feet that were taken out.
func (s *Sheet) Furniture() string { return s.furniture }

// textBeyond reports that text stands between a height in a margin and the
// page's edge: what is ruled there is no running head.
func (s *Sheet) textBeyond(y float64) bool {
	for i := range s.words {
		if y < s.Page.Height/2 && s.words[i].Base < y || y > s.Page.Height/2 && s.words[i].Base > y {
			return true
		}
	}
	return false
}
