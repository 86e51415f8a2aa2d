package layout

import "probity/extract"

// Taken is how many digits of the sheet were taken out as running heads, page
// numbers and line numbers.
func (s *Sheet) Taken() int { return s.taken }

// Digits is how many digits stand in a block.
func (b *Block) Digits() int {
	n := 0
	for i := range b.Lines {
		n += digitsOf(b.Lines[i].Words)
	}
	return n
}

// Digits adds how many digits of a table stand on each page; those of its
// caption and notes count for its first.
func (t *Table) Digits(on map[int]int) {
	on[t.Page] += digitsOf(t.Caption)
	for _, l := range t.Notes {
		on[t.Page] += digitsOf(l)
	}
	for _, row := range t.Rows {
		for j := range row {
			if c := &row[j]; !c.Copy {
				for _, l := range c.Lines {
					on[c.Page] += digitsIn(l)
				}
			}
		}
	}
}

func digitsOf(words []Word) int {
	n := 0
	for i := range words {
		n += digitsIn(words[i].Runs)
	}
	return n
}

func digitsIn(runs []extract.Run) int {
	n := 0
	for i := range runs {
		for _, r := range runs[i].Text {
			if r >= '0' && r <= '9' {
				n++
			}
		}
	}
	return n
}
