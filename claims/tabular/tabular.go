// Package tabular tells what the axes of a table are: groups, outcomes,
// conditions, or words that only head what is beside them.
//
// An axis is one level of column headings, one level of section headings or
// one column of row labels. A reading gives every axis a category; all
// readings of a table compete at once, by the signs that each axis carries and
// by how its axes stand to one another. Every figure has at most one group and
// one outcome, so two crossing axes of groups are a worse reading than one.
// What a sign weighs is a row of catalog/evidence.csv.
//
// The gap between the best reading and the best one that reads an axis
// otherwise is what its reader may rest on.
package tabular

import (
	"probity/claims/catalog"
	"probity/claims/reading"
)

// Category is what the labels of an axis tell apart.
type Category uint8

// The categories of an axis. Heading is an axis that names nothing: "Treatment
// group" over all columns.
const (
	Heading Category = iota
	Arm
	Outcome
	Condition
)

// kinds is how many categories there are.
const kinds = len(categoryNames)

var categoryNames = [...]string{"heading", "arm", "outcome", "condition"}

// String gives the word of the catalogue: "arm", "outcome", "condition",
// "heading".
func (c Category) String() string { return categoryNames[c] }

// A Sign is a circumstance that speaks for or against a category of an axis,
// or of a whole reading; Strength runs from 0 to 1.
type Sign struct {
	Name     string
	Strength float64
}

// An Axis is one axis of a table.
type Axis struct {
	Name   string // for reasons: "the headings", "the row labels"
	Labels int    // how many different ones
	ByRow  bool
	Signs  []Sign
	In     []int // axes of which each label has labels of its own here
}

// A Table is what is known of a table before its axes are told apart.
type Table struct {
	Axes  []Axis
	Above Sign // what names the outcome where no axis does
}

// Weights say what each sign is worth for each category; those of whole
// readings stand under Whole.
type Weights map[Key]float64

// Key names a weight.
type Key struct {
	Sign     string
	Category string // "arm" …, or Whole
}

// Whole is the category of signs of a whole reading.
const Whole = "reading"

// most is how many axes are read together; those beyond are conditions.
const most = 6

// Readings lists every way to give the axes a category, in a fixed order.
func (t *Table) Readings() [][]Category {
	n, total := min(len(t.Axes), most), 1
	for range n {
		total *= kinds
	}
	out := make([][]Category, total)
	all := make([]Category, total*len(t.Axes))
	for k := range out {
		axes := all[k*len(t.Axes) : (k+1)*len(t.Axes)]
		for i, rest := 0, k; i < len(axes); i, rest = i+1, rest/kinds {
			axes[i] = Category(rest % kinds)
			if i >= n {
				axes[i] = Condition
			}
		}
		out[k] = axes
	}
	return out
}

// Evidence sums up the signs of a reading under the keys of their weights.
func (t *Table) Evidence(axes []Category) map[Key]float64 {
	out := map[Key]float64{}
	for i := range t.Axes {
		c := axes[i].String()
		out[Key{"axis", c}]++
		for _, s := range t.Axes[i].Signs {
			out[Key{s.Name, c}] += s.Strength
		}
	}
	for _, s := range t.whole(axes) {
		out[Key{s.Name, Whole}] += s.Strength
	}
	return out
}

func (a *Axis) score(c Category, w Weights) float64 {
	sum := w[Key{"axis", c.String()}]
	for _, s := range a.Signs {
		sum += s.Strength * w[Key{s.Name, c.String()}]
	}
	return sum
}

// whole gives the signs of a reading as a whole: how its axes stand to one
// another, and what none of them names.
func (t *Table) whole(axes []Category) []Sign {
	var out []Sign
	occur := 0
	for i, a := range axes {
		occur |= 1 << a
		for j, b := range axes {
			for _, name := range t.pair(i, j, a, b) {
				out = append(out, Sign{name, 1})
			}
		}
	}
	return append(out, t.occurring(occur)...)
}

// pair names how two axes of given categories stand to one another.
func (t *Table) pair(i, j int, a, b Category) []string {
	var out []string
	if how := t.stands(i, j); how != "" {
		out = append(out, a.String()+" "+how+" "+b.String())
	}
	if j < i && a == b && (a == Arm || a == Outcome) {
		how := "s-crossing"
		if t.nested(i, j) {
			how = "s-nested"
		}
		out = append(out, a.String()+how)
	}
	return out
}

// occurring gives the signs of which categories a reading has.
func (t *Table) occurring(occur int) []Sign {
	var out []Sign
	arms, outcomes := occur&(1<<Arm) != 0, occur&(1<<Outcome) != 0
	if !arms {
		out = append(out, Sign{"no-arms", 1})
	}
	switch {
	case outcomes:
		out = append(out, Sign{"outcome-beside " + t.Above.Name, t.Above.Strength})
	default:
		out = append(out, Sign{"outcome-above " + t.Above.Name, t.Above.Strength})
		if !arms {
			out = append(out, Sign{"no-arms-nor-outcomes", 1})
		}
	}
	return out
}

// stands says how two axes stand to one another, where the order tells.
func (t *Table) stands(i, j int) string {
	a, b := &t.Axes[i], &t.Axes[j]
	switch {
	case i == j:
	case a.ByRow && !b.ByRow:
		return "beside"
	case a.ByRow == b.ByRow && i+1 == j:
		return "over"
	}
	return ""
}

func (t *Table) nested(i, j int) bool {
	for _, k := range t.Axes[i].In {
		if k == j {
			return true
		}
	}
	for _, k := range t.Axes[j].In {
		if k == i {
			return true
		}
	}
	return false
}

// Choose gives the best reading of a table and, for each axis, the choice of
// its category against the best reading that gives it another.
func (t *Table) Choose(w Weights) ([]Category, []reading.Choice[Category]) {
	all := t.Readings()
	sums := t.sums(w)
	scores := make([]float64, len(all))
	best := 0
	for k, axes := range all {
		if scores[k] = sums.score(axes); scores[k] > scores[best] {
			best = k
		}
	}
	choices := make([]reading.Choice[Category], len(t.Axes))
	for i, c := range all[best] {
		second := -1
		for k, axes := range all {
			if axes[i] != c && (second < 0 || scores[k] > scores[second]) {
				second = k
			}
		}
		choices[i].Best = t.candidate(i, c, w)
		if second >= 0 {
			choices[i].Second = t.candidate(i, all[second][i], w)
			choices[i].Second.Score = scores[second]
		}
		choices[i].Best.Score = scores[best]
	}
	return all[best], choices
}

// sums holds what each part of a reading weighs, so that thousands of readings
// are scored without looking for names.
type sums struct {
	axes  [][kinds]float64          // by axis and category
	pairs [][][kinds][kinds]float64 // by two axes and their categories
	parts [1 << kinds]float64       // by which categories occur
}

func (t *Table) sums(w Weights) *sums {
	n := len(t.Axes)
	out := &sums{axes: make([][kinds]float64, n), pairs: make([][][kinds][kinds]float64, n)}
	for i := range n {
		for c := range kinds {
			out.axes[i][c] = t.Axes[i].score(Category(c), w)
		}
		out.pairs[i] = make([][kinds][kinds]float64, n)
		for j := range n {
			for a := range kinds {
				for b := range kinds {
					for _, s := range t.pair(i, j, Category(a), Category(b)) {
						out.pairs[i][j][a][b] += w[Key{s, Whole}]
					}
				}
			}
		}
	}
	for occur := range out.parts {
		for _, s := range t.occurring(occur) {
			out.parts[occur] += s.Strength * w[Key{s.Name, Whole}]
		}
	}
	return out
}

func (s *sums) score(axes []Category) float64 {
	sum, occur := 0.0, 0
	for i, a := range axes {
		sum += s.axes[i][a]
		occur |= 1 << a
		for j, b := range axes {
			sum += s.pairs[i][j][a][b]
		}
	}
	return sum + s.parts[occur]
}

// candidate explains one category of an axis by the signs that weigh most.
func (t *Table) candidate(i int, c Category, w Weights) reading.Candidate[Category] {
	out := reading.Candidate[Category]{Value: c, Score: t.Axes[i].score(c, w)}
	for _, s := range t.Axes[i].Signs {
		if x := s.Strength * w[Key{s.Name, c.String()}]; x != 0 {
			out.Reasons = append(out.Reasons, reading.Reason{Text: s.Name, Weight: x})
		}
	}
	return out
}

// WeightsOf takes the weights from the catalogue.
func WeightsOf(rows []catalog.Evidence) Weights {
	out := Weights{}
	for _, r := range rows {
		out[Key{r.Sign, r.Category}] = r.Weight
	}
	return out
}
