package layout

import (
	"slices"
	"strings"
)

// joinPages puts a table that goes on over a page break together again: the
// next page begins with a table that says so, or that has no caption and the
// same columns.
func joinPages(sheets []*Sheet) {
	var last *Table
	for _, s := range sheets {
		for i := 0; i < len(s.words); i++ {
			t := s.words[i].table
			if t == nil {
				continue
			}
			if last != nil && last.Page < t.Page && last.accepts(t) {
				last.join(t)
				s.words = append(s.words[:i], s.words[i+1:]...)
				i--
				continue
			}
			last = t
		}
	}
}

func (t *Table) accepts(o *Table) bool {
	if len(t.Rows) == 0 || len(o.Rows) == 0 || len(t.Rows[0]) != len(o.Rows[0]) {
		return false
	}
	if o.more && sameLabel(t.Caption, o.Caption) {
		return true
	}
	if o.Page != t.Page+1 || !o.first || t.Page2 == o.Page {
		return false
	}
	if len(o.Caption) == 0 {
		return true
	}
	// a caption below the end of a table that began on the page before
	return len(t.Caption) == 0 && o.Head > 0 && t.Head > 0 && rowText(t.Rows[0]) == rowText(o.Rows[0])
}

func sameLabel(a, b []Word) bool {
	n := labelLen(a)
	return n > 0 && n == labelLen(b) && trimLabel(textOf(a[:n])) == trimLabel(textOf(b[:n]))
}

func labelLen(words []Word) int {
	if len(words) == 0 {
		return 0
	}
	return labelWords(words)
}

// join appends the rows of the next page, its repeated header left out.
func (t *Table) join(o *Table) {
	if o.Head > 0 && sameWords(t.Rows, o.Rows[:o.Head]) { // the header alone stood at the foot of the page
		t.Rows, t.Head = nil, o.Head
	}
	skip := 0
	for t.Rows != nil && skip < len(o.Rows) && skip < t.Head && rowText(o.Rows[skip]) == rowText(t.Rows[skip]) {
		skip++
	}
	if t.Rows != nil && skip == 0 && o.Head > 0 && len(o.Caption) > 0 {
		skip = o.Head
	}
	t.Rows = append(t.Rows, o.Rows[skip:]...)
	t.Notes = append(t.Notes, o.Notes...)
	if len(t.Caption) == 0 {
		t.Caption = o.Caption
	}
	t.Doubts = append(t.Doubts, o.Doubts...)
	t.Page2 = o.Page
}

// sameWords reports that two pieces of tables hold the same words, whatever
// the rows they were put in.
func sameWords(a, b [][]Cell) bool {
	words := func(rows [][]Cell) []string {
		var out []string
		for _, row := range rows {
			for j := range row {
				if !row[j].Copy {
					out = append(out, strings.Fields(row[j].text())...)
				}
			}
		}
		slices.Sort(out)
		return out
	}
	return slices.Equal(words(a), words(b))
}
