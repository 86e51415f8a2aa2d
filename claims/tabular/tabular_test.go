package tabular

import (
	"fmt"
	"math"
	"testing"

	"probity/claims/catalog"
)

// Files in rows, one outcome in the caption, times over the columns.
func ExampleTable_Choose() {
	t := Table{
		Above: Sign{"known caption", 1},
		Axes: []Axis{
			{Name: "the column headings", Signs: []Sign{{"time or place", 1}, {"over the columns", 1}, {"two to four", 1}}},
			{Name: "the row labels", ByRow: true, Signs: []Sign{{"known group", 1}, {"under a word for groups", 1}, {"beside the rows", 1}}},
		},
	}
	axes, choices := t.Choose(WeightsOf(catalog.Default().Evidence))
	for i, a := range axes {
		fmt.Printf("%s: %ss, sure: %v\n", t.Axes[i].Name, a, choices[i].Sure())
	}
	// Output:
	// the column headings: conditions, sure: true
	// the row labels: arms, sure: true
}

// The score of a reading is the sum of its evidence, by its definition.
func TestSumsAreEvidence(t *testing.T) {
	w := WeightsOf(catalog.Default().Evidence)
	table := Table{
		Above: Sign{"text", 1},
		Axes: []Axis{
			{Signs: []Sign{{"known outcome", 0.5}, {"many", 0.7}}},
			{Signs: []Sign{{"calls itself a group", 1}}, In: []int{0}},
			{ByRow: true, Signs: []Sign{{"between the rows", 1}}},
			{ByRow: true, Signs: []Sign{{"figures differ in size", 0.8}}},
		},
	}
	sums := table.sums(w)
	seen := map[string]bool{}
	for _, axes := range table.Readings() {
		want := 0.0
		for k, x := range table.Evidence(axes) { // any order: a sum
			want += x * w[k]
		}
		if got := sums.score(axes); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v: score %g, evidence %g", axes, got, want)
		}
		seen[fmt.Sprint(axes)] = true
	}
	if len(seen) != 256 {
		t.Errorf("%d different readings of four axes, want 4^4 = 256", len(seen))
	}
}

// Two crossing axes of groups are a worse reading than two nested ones, and a
// table without axes has one reading.
func TestCrossing(t *testing.T) {
	w := WeightsOf(catalog.Default().Evidence)
	axes := []Axis{{Signs: []Sign{{"known group", 1}}}, {Signs: []Sign{{"known group", 1}}}}
	crossing := Table{Above: Sign{"known caption", 1}, Axes: axes}
	nested := Table{Above: Sign{"known caption", 1}, Axes: []Axis{axes[0], {Signs: axes[1].Signs, In: []int{0}}}}
	both := []Category{Arm, Arm}
	if c, n := crossing.sums(w).score(both), nested.sums(w).score(both); c >= n {
		t.Errorf("crossing groups score %g, nested ones %g; want less", c, n)
	}
	if read, choices := (&Table{}).Choose(w); len(read) != 0 || len(choices) != 0 {
		t.Errorf("a table without axes reads %v", read)
	}
}

// Every weight of the catalogue is of a category that there is.
func TestWeights(t *testing.T) {
	for _, r := range catalog.Default().Evidence {
		known := r.Category == Whole
		for c := range kinds {
			known = known || Category(c).String() == r.Category
		}
		if !known || r.Sign == "" || r.Weight == 0 || r.Source == "" {
			t.Errorf("%+v is no weight of a category", r)
		}
	}
}
