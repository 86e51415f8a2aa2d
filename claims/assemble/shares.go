package assemble

import (
	"cmp"
	"math"
	"slices"

	"probity/extract/numeral"
)

// Counts have a base in common: each with its percentage leads to a range of
// totals, k/(p ± rounding), and those of one column have a whole number in
// common, the n of its heading or another; where some are missing it is a
// little less. The percentages of classes come to 100. That one cell fits says
// little: it does by chance as often as its range is wide.

// mostTelling is the most that one cell may say: a slip of the pen is always
// possible.
const mostTelling = 4

// weigh says of all cells "a (b)" what their figures speak for.
func (t *table) weigh() [][]float32 {
	w := make([][]float32, len(t.g.rows))
	for r := range w {
		w[r] = make([]float32, t.g.cols)
	}
	for c := 0; c < t.g.cols; c++ {
		if !t.g.stub[c] && t.col[c].data() {
			t.weighColumn(c, w)
		}
	}
	t.weighClasses(w)
	return w
}

// weighColumn weighs the figures of column c, by the base of the column or of
// their section.
func (t *table) weighColumn(c int, w [][]float32) {
	var rows []int
	starts := []int{0}
	for r := t.g.head; r < len(t.g.rows); r++ {
		if t.g.rows[r].section {
			starts = append(starts, len(rows))
		}
		if isPair(&t.g.read[r][c]) && t.row[r].role != "other" {
			rows = append(rows, r)
		}
	}
	whole := t.commonBase(rows, c)
	for i, start := range starts {
		end := len(rows)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		section := t.commonBase(rows[start:end], c)
		for _, r := range rows[start:end] {
			x := t.weightOf(r, c, whole)
			if section.n > 0 {
				if s := t.weightOf(r, c, section); whole.n == 0 || s > x {
					x = s
				}
			}
			w[r][c] = float32(x)
		}
	}
}

// totals gives the least and the greatest whole number that a count and its
// percentage may be a share of; least > greatest if there is none. Rounding
// may have hidden half a unit of the last digit, cutting a whole one.
func totals(rd *numeral.Reading, units float64) (least, greatest float64) {
	k, p, u := rd.Number.Value, rd.Spread.Value, units*math.Pow10(-rd.Spread.Decimals)
	greatest = math.Inf(1)
	if p > u {
		greatest = math.Floor(100*k/(p-u) + 1e-9)
	}
	return max(math.Ceil(100*k/(p+u)-1e-9), k), greatest
}

// weightFit says how much it tells that a cell leads to a given total: the
// logarithm of how seldom it does by chance. 0 where the cell leads to none.
func weightFit(rd *numeral.Reading) float64 {
	if rd.Number.Value <= 0 || rd.Spread.Value <= 0 || rd.Spread.Value > 100 || rd.Number.Decimals > 0 {
		return 0
	}
	least, greatest := totals(rd, 0.5)
	if greatest < least || math.IsInf(greatest, 1) {
		return 0
	}
	return min(max(-math.Log(2*rd.Spread.Half()/rd.Spread.Value), 0), mostTelling)
}

// A base is a total that counts may be shares of. Zero is "none known".
type base struct {
	n     float64
	trust float64 // what of a cell's own weight counts, 0 to 1
}

// commonBase finds the base that the cells of some rows of a column have in
// common. The best of many bases fits some cells by chance: the one that says
// most is left out, and for each of m that fit among M, ln(M/m) is taken off.
func (t *table) commonBase(rows []int, c int) base {
	type figures struct{ k, p float64 }
	type edge struct{ at, weight float64 } // where a range of totals begins and ends
	seen := map[figures]bool{}
	var cells []*numeral.Reading
	var edges []edge
	for _, r := range rows {
		rd := &t.g.read[r][c]
		f := figures{rd.Number.Value, rd.Spread.Value}
		w := weightFit(rd)
		if w == 0 || seen[f] {
			continue // the same figures again tell nothing new
		}
		seen[f] = true
		cells = append(cells, rd)
		least, greatest := totals(rd, 0.5)
		edges = append(edges, edge{least, w}, edge{greatest + 0.5, -w})
	}
	slices.SortFunc(edges, func(a, b edge) int { return cmp.Compare(a.at, b.at) })
	sum, best, n := 0.0, 0.0, 0.0
	for _, e := range edges {
		if sum += e.weight; sum > best+1e-9 {
			best, n = sum, e.at
		}
	}
	fit, most := 0.0, 0.0
	for _, rd := range cells {
		if least, greatest := totals(rd, 0.5); least <= n && n <= greatest {
			fit, most = fit+1, max(most, weightFit(rd))
		}
	}
	if fit < 2 {
		return base{}
	}
	if left := best - most - fit*math.Log(float64(len(cells))/fit); left > 0 {
		return base{n, left / best}
	}
	return base{}
}

// weightOf says what the figures of one cell speak for, given the base that
// its column has in common and the n of its heading.
func (t *table) weightOf(r, c int, common base) float64 {
	rd := &t.g.read[r][c]
	k, p := rd.Number.Value, rd.Spread.Value
	switch {
	case rd.Form == numeral.Count:
		return mostTelling
	case rd.Number.Decimals > 0, rd.Percent, rd.Mark != "", k < 0, p > 100, k == 0 && p > 0:
		return -mostTelling
	case k == 0:
		return 1 // nothing, 0 %; a mean of nought without a spread is rare
	case p == 0:
		return 0
	}
	n := t.rowColN(part{r, c, rd})
	switch {
	case n > 0 && common.n > 0:
		return max(weightAt(rd, base{n, 1}), weightAt(rd, common))
	case n > 0:
		return weightAt(rd, base{n, 1})
	case common.n > 0:
		return weightAt(rd, common)
	}
	return 0
}

// weightAt says what a cell speaks for where the base is known.
func weightAt(rd *numeral.Reading, b base) float64 {
	least, greatest := totals(rd, 0.5)
	cutLeast, cutGreatest := totals(rd, 1)
	out := -0.5
	switch {
	case least <= b.n && b.n <= greatest:
		out = weightFit(rd)
	case cutLeast <= b.n && b.n <= cutGreatest:
		out = weightFit(rd) / 2
	case rd.Number.Value > b.n:
		out = -mostTelling
	case least > b.n:
		out = -2 // a share of more than there are
	case greatest < least: // of no whole number
	case greatest >= 0.9*b.n:
		out = 1 // some are missing
	case greatest >= 0.7*b.n:
		out = 0
	}
	return b.trust * out
}

// mostClasses is how many classes are looked for that make a whole together.
const mostClasses = 12

// weighClasses gives full weight to cells that follow one another down a
// column, or along a row, and are the classes of one whole.
func (t *table) weighClasses(w [][]float32) {
	g := t.g
	for r := g.head; r < len(g.rows); r++ {
		var line []*numeral.Reading
		var at []int
		for c := range g.read[r] {
			if !g.stub[c] && g.read[r][c].Form != numeral.None {
				line, at = append(line, &g.read[r][c]), append(at, c)
			}
		}
		classes(line, func(i int) { w[r][at[i]] = mostTelling })
	}
	for c := 0; c < g.cols; c++ {
		var line []*numeral.Reading
		var at []int
		for r := g.head; r < len(g.rows) && !g.stub[c]; r++ {
			if g.read[r][c].Form != numeral.None {
				line, at = append(line, &g.read[r][c]), append(at, r)
			}
		}
		classes(line, func(i int) { w[at[i]][c] = mostTelling })
	}
}

// classes marks cells whose percentages come to 100, each its count's share of
// the sum of the counts.
func classes(line []*numeral.Reading, mark func(i int)) {
	for i := range line {
		percent, slack, count := 0.0, 1e-9, 0.0
		for j := i; j < min(len(line), i+mostClasses); j++ {
			rd := line[j]
			if !isPair(rd) || rd.Number.Decimals > 0 || rd.Number.Value < 0 || percent > 100+slack {
				break
			}
			percent, slack, count = percent+rd.Spread.Value, slack+rd.Spread.Half(), count+rd.Number.Value
			if j > i && math.Abs(percent-100) <= slack && areShares(line[i:j+1], count) {
				for k := i; k <= j; k++ {
					mark(k)
				}
				break
			}
		}
	}
}

// areShares reports whether the percentages of some cells are the shares of
// their counts in n, and tell something.
func areShares(line []*numeral.Reading, n float64) bool {
	sum := 0.0
	for _, rd := range line {
		if least, greatest := totals(rd, 1); n < least || n > greatest {
			return false
		}
		sum += weightFit(rd)
	}
	return sum > mostTelling
}
