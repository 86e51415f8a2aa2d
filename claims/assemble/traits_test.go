package assemble_test

import "strings"

// trait is one thing in which the tables of the battery differ.
type trait struct {
	name   string
	values []string
}

// traits are the things in which the tables of the battery differ, in the
// order of the constants below.
var traits = []trait{
	{"names of arms", []string{"instruments", "treatments", "letters", "numbered", "control and other", "acronyms", "doses", "unheard"}},
	{"orientation", []string{"arms in columns", "arms in rows", "arms in sections", "arms in outer labels", "arms over times", "times over arms"}},
	{"caption", []string{"known outcome", "unknown outcome", "nothing", "the arms"}},
	{"corner", []string{"empty", "Group", "Parameter", "Time", "outcome"}},
	{"head depth", []string{"1", "2"}},
	{"form", []string{string(plusMinus), string(bracket), string(columns), string(quartiles)}},
	{"order of arms", []string{"as told", "other"}},
	{"outcomes", []string{"one known", "one unknown", "several known", "several unknown"}},
	{"conditions", []string{"none", "times", "places"}},
	{"prose", []string{"list", "assigned", "sized", "compared", "silent"}},
}

const (
	traitNames = iota
	traitOrientation
	traitCaption
	traitCorner
	traitDepth
	traitForm
	traitOrder
	traitOutcomes
	traitConditions
	traitProse
	traitCount
)

// choice is one value of each trait.
type choice [traitCount]int

func (c choice) is(trait int, value string) bool { return traits[trait].values[c[trait]] == value }

func (c choice) one() bool { return c[traitOutcomes] < 2 }

// timed reports whether times or places vary in the table.
func (c choice) timed() bool { return c[traitConditions] > 0 }

func (c choice) String() string {
	var parts []string
	for i, v := range c {
		parts = append(parts, traits[i].name+": "+traits[i].values[v])
	}
	return strings.Join(parts, "; ")
}

// printable reports whether a paper could print such a table: its corner
// heads something, its only outcome is named, no heading has a level too few.
func (c choice) printable() bool {
	over := c.is(traitOrientation, "arms over times") || c.is(traitOrientation, "times over arms")
	byLabel := c.is(traitOrientation, "arms in sections") || c.is(traitOrientation, "arms in outer labels")
	depth1, stats := c.is(traitDepth, "1"), c.is(traitForm, string(columns))
	switch {
	case c.is(traitNames, "unheard") != c.is(traitProse, "silent") && c.is(traitNames, "unheard"):
		return false // no text names them
	case c.is(traitCaption, "known outcome") && c.is(traitOutcomes, "one unknown"), c.is(traitCaption, "unknown outcome") && c.is(traitOutcomes, "one known"):
		return false
	case c.is(traitCorner, "Parameter") && c.one() && !over && !c.is(traitOrientation, "arms in columns"):
		return false
	case c.is(traitCorner, "Time") && !c.is(traitConditions, "times"):
		return false
	case c.is(traitCorner, "outcome") && (!c.one() || over || c.is(traitOrientation, "arms in columns") && !c.timed()):
		return false
	case over && (!c.timed() || depth1):
		return false
	case byLabel && c.one() && !c.timed():
		return false
	case depth1 && stats && !(c.one() && !c.timed() && c.is(traitOrientation, "arms in rows") || byLabel && (c.one() || !c.timed())):
		return false
	case depth1 && c.is(traitOrientation, "arms in rows") && !c.one() && c.timed():
		return false
	}
	return c.named()
}

// named reports whether a table prints the name of its only outcome: in the
// caption, the corner, a heading or a row label.
func (c choice) named() bool {
	if !c.one() || c[traitCaption] < 2 || c.is(traitCorner, "outcome") || !c.is(traitDepth, "1") {
		return true
	}
	switch traits[traitOrientation].values[c[traitOrientation]] {
	case "arms in columns":
		return !c.timed() // a row label
	case "arms in rows":
		return !c.timed() && !c.is(traitForm, string(columns)) // a heading
	}
	return !c.is(traitForm, string(columns))
}

// choices picks n printable choices that together hold all pairs of values
// that one table can hold, each value about as often as the others.
func choices(n int) []choice {
	all := printableChoices()
	left := map[[4]int]bool{}
	for _, c := range all {
		c.pairs(func(p [4]int) { left[p] = true })
	}
	count := map[[4]int]int{}
	var out []choice
	taken := map[int]bool{}
	for i := uint64(0); len(out) < n || len(left) > 0; i++ {
		best, value := -1, -1.0
		for k := range uint64(40) {
			j := int(mix(7, i, k) % uint64(len(all)))
			v := 0.0
			all[j].pairs(func(p [4]int) {
				v += 1 / float64(1+count[p])
				if left[p] {
					v += 10
				}
			})
			if !taken[j] && v > value {
				best, value = j, v
			}
		}
		taken[best] = true
		all[best].pairs(func(p [4]int) {
			count[p]++
			delete(left, p)
		})
		out = append(out, all[best])
	}
	return out
}

// pairs gives the pairs of values of a choice, as trait, value, trait, value.
func (c choice) pairs(give func([4]int)) {
	for i := range c {
		for j := i + 1; j < len(c); j++ {
			give([4]int{i, c[i], j, c[j]})
		}
	}
}

func printableChoices() []choice {
	var out []choice
	var walk func(c choice, i int)
	walk = func(c choice, i int) {
		if i == traitCount {
			if c.printable() {
				out = append(out, c)
			}
			return
		}
		for v := range traits[i].values {
			c[i] = v
			walk(c, i+1)
		}
	}
	walk(choice{}, 0)
	return out
}
