package assemble_test

import (
	"fmt"
	"slices"
	"strings"
)

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

// named arms: as the table prints them, and what the prose says they are.
type armSet struct{ short, full []string }

var armSets = map[string][]armSet{
	"instruments": {
		{short: []string{"Orlin", "Brex", "Tovan"}},
		{short: []string{"Orlin 25/.06", "Kelm 25/.06"}},
		{short: []string{"Veltis Gold", "Veltis Blue", "Sarno"}},
	},
	"treatments": {
		{short: []string{"Saline", "Heat"}},
		{short: []string{"Cold water", "Warm water", "Air"}},
		{short: []string{"Polishing", "Glazing"}},
	},
	"letters": {
		{[]string{"H", "P", "O"}, []string{"heated files", "polished files", "oxidized files"}},
		{[]string{"A", "B"}, []string{"bulk filling", "layered filling"}},
		{[]string{"K", "M", "S"}, []string{"knitted sutures", "monofilament sutures", "silk sutures"}},
	},
	"numbered": {
		{[]string{"Group 1", "Group 2", "Group 3"}, []string{"heated files", "polished files", "oxidized files"}},
		{[]string{"Group A", "Group B"}, []string{"bulk filling", "layered filling"}},
		{[]string{"Group I", "Group II", "Group III"}, []string{"cotton rolls", "foam rolls", "paper rolls"}},
	},
	"control and other": {
		{[]string{"Control", "Laser"}, []string{"control", "laser"}},
		{[]string{"Control group", "Test group"}, []string{"control group", "test group"}},
		{[]string{"Placebo", "Rinse", "Gel"}, []string{"placebo", "rinse", "gel"}},
	},
	"acronyms": {
		{[]string{"GI", "CI"}, []string{"glass inlays", "composite inlays"}},
		{[]string{"No", "T"}, []string{"no coating", "titanium coating"}},
		{[]string{"CI", "GI", "PI"}, []string{"composite inlays", "glass inlays", "polymer inlays"}},
		{[]string{"SE", "TE"}, []string{"self-etching", "total etching"}},
	},
	"doses": {
		{short: []string{"5 mg", "10 mg"}},
		{short: []string{"1%", "3%", "5%"}},
		{short: []string{"250 ppm", "500 ppm"}},
	},
	"unheard": {
		{short: []string{"Dravo", "Sennit", "Pelk"}},
		{short: []string{"Warm press", "Cold press"}},
		{short: []string{"Mira 2", "Mira 7"}},
	},
}

var outcomeSets = map[string][][]measured{
	"one known": {
		{{"Torque at fracture", "N·cm", "Torque at fracture (N·cm)", 1.2, 2}},
		{{"Time to fracture", "s", "Time to fracture (s)", 86, 1}},
		{{"Shear bond strength", "MPa", "Shear bond strength, MPa", 18.2, 1}},
		{{"Plaque index", "", "Plaque index", 1.42, 2}},
	},
	"one unknown": {
		{{"Sorrel rating", "", "Sorrel rating", 7.1, 1}},
		{{"Lumen drift", "µm", "Lumen drift (µm)", 245, 0}},
		{{"Tarn uptake", "U/L", "Tarn uptake (U/L)", 38.2, 1}},
		{{"Quiver", "gf", "Quiver, gf", 62.5, 1}},
	},
	"several known": {
		{{"Torque at fracture", "N·cm", "Torque at fracture (N·cm)", 1.2, 2}, {"Angle of rotation", "°", "Angle of rotation (°)", 412, 0}, {"Time to fracture", "s", "Time to fracture (s)", 86, 1}},
		{{"Body weight", "kg", "Body weight, kg", 71.2, 1}, {"Body height", "cm", "Body height, cm", 168.4, 1}, {"Age", "years", "Age, years", 41.3, 1}},
		{{"Probing depth", "mm", "Probing depth (mm)", 3.42, 2}, {"Plaque index", "", "Plaque index", 0.91, 2}},
	},
	"several unknown": {
		{{"Sorrel rating", "", "Sorrel rating", 7.1, 1}, {"Lumen drift", "µm", "Lumen drift (µm)", 245, 0}, {"Tarn uptake", "U/L", "Tarn uptake (U/L)", 38.2, 1}},
		{{"Quiver", "gf", "Quiver, gf", 62.5, 1}, {"Lactin", "g", "Lactin, g", 5.12, 2}},
		{{"Glint", "", "Glint", 62.1, 1}, {"Sway", "", "Sway", 4.31, 2}, {"Brindle", "", "Brindle", 812, 0}},
	},
}

// timeSet is a list of times or places with the word that heads it.
type timeSet struct {
	head  string
	names []string
}

var timeSets = map[string][]timeSet{
	"times": {{"Time", []string{"Baseline", "1 week", "4 weeks"}}, {"Time", []string{"Before", "After"}}, {"Time point", []string{"24 h", "7 days", "30 days"}},
		{"Visit", []string{"Day 1", "Day 14"}}},
	"places": {{"Root third", []string{"Coronal", "Middle", "Apical"}}, {"Tissue", []string{"Enamel", "Dentine"}}, {"Temperature", []string{"20 °C", "37 °C"}}},
}

// invented is a table of the battery with the paragraph that goes with it.
type invented struct {
	choice  choice
	methods string
	when    string // what heads its times or places
	drawing
}

// pick takes one of a list by the seed of a table and what it is for.
func pick[T any](seed uint64, use string, list []T) T {
	h := seed
	for _, b := range []byte(use) {
		h = mix(h, uint64(b))
	}
	return list[h%uint64(len(list))]
}

// invent draws the table of a choice.
func invent(c choice, seed uint64) *invented {
	set := pick(seed, "arms", armSets[traits[traitNames].values[c[traitNames]]])
	t := &invented{choice: c, drawing: drawing{arms: set.short, seed: seed, form: form(traits[traitForm].values[c[traitForm]])}}
	t.outcomes = pick(seed, "outcomes", outcomeSets[traits[traitOutcomes].values[c[traitOutcomes]]])
	if c.timed() {
		set := pick(seed, "times", timeSets[traits[traitConditions].values[c[traitConditions]]])
		t.when, t.times = set.head, set.names
	}
	t.layOut()
	t.say()
	t.methods = t.prose(set)
	return t
}

// labels gives the levels of arms, outcomes and times.
func (t *invented) levels() (arms, outcomes, times level) {
	arms = level{of: byArm, labels: t.arms}
	if t.choice.is(traitOrder, "other") {
		arms = arms.reversed()
	}
	outcomes, times = level{of: byOutcome}, level{of: byTime, labels: t.times}
	for _, o := range t.outcomes {
		outcomes.labels = append(outcomes.labels, o.label)
	}
	return arms, outcomes, times
}

func word(s string) level { return level{of: byWord, labels: []string{s}} }

// layOut puts arms, outcomes and times where the choice wants them.
func (t *invented) layOut() {
	c := t.choice
	arms, outcomes, times := t.levels()
	var rest []level // what varies beside the arms
	if !c.one() {
		rest = append(rest, outcomes)
	}
	if c.timed() {
		rest = append(rest, times)
	}
	switch traits[traitOrientation].values[c[traitOrientation]] {
	case "arms in columns":
		t.head, t.stub = []level{arms}, rest
		if len(rest) == 0 {
			t.stub = []level{outcomes}
		}
	case "arms in rows":
		t.head, t.stub = rest, []level{arms}
	case "arms in sections":
		t.section = true
		t.stub, t.head = append([]level{arms}, rest[:1]...), rest[1:]
	case "arms in outer labels":
		t.stub, t.head = append([]level{arms}, rest[:1]...), rest[1:]
	case "arms over times":
		t.head, t.stub = []level{arms, times}, []level{outcomes}
	case "times over arms":
		t.head, t.stub = []level{times, arms}, []level{outcomes}
	}
	t.deepen(outcomes.labels[0])
	t.corners()
}

// deepen adds what the headings still lack: a name of the outcome, mean and SD
// in columns of their own, a second level.
func (t *invented) deepen(outcome string) {
	c := t.choice
	stats := level{of: byStat, labels: pick(t.seed, "stats", [][]string{{"Mean", "SD"}, {"Mean", "Standard deviation"}})}
	inCaption := c[traitCaption] < 2 || c.is(traitCorner, "outcome")
	inStub := len(t.stub) > 0 && t.stub[len(t.stub)-1].of == byOutcome
	need := c.one() && !inCaption && !inStub
	if t.form == columns {
		if need || len(t.head) == 0 && c.is(traitDepth, "2") && c.one() {
			t.head = append([]level{word(outcome)}, t.head...)
		} else if len(t.head) == 0 && c.is(traitDepth, "2") {
			t.head = []level{word("Measurement")}
		}
		t.head = append(t.head, stats)
		return
	}
	if len(t.head) == 0 {
		switch {
		case c.one() && (need || !c.is(traitCorner, "outcome") && pick(t.seed, "head", []bool{true, false})):
			t.head = []level{word(outcome)}
		default:
			t.head = []level{word(t.mark())}
		}
	}
	if c.is(traitDepth, "1") || len(t.head) > 1 {
		return
	}
	switch {
	case t.head[0].of == byWord && t.head[0].labels[0] == outcome:
		t.head = []level{t.head[0], word(t.mark())}
	case c.one() && (need || !inStub && !c.is(traitCorner, "outcome") && pick(t.seed, "over", []bool{true, false})):
		t.head = append([]level{word(outcome)}, t.head...)
	default:
		over := map[kind]string{byArm: "Groups", byTime: t.when, byOutcome: "Outcomes", byWord: "Results"}[t.head[0].of]
		if t.head[0].of == byTime && c.is(traitCorner, "Time") || t.head[0].of == byArm && c.is(traitCorner, "Group") {
			over = "Results"
		}
		t.head = append([]level{word(over)}, t.head...)
	}
}

// mark is what stands over whole measures.
func (t *invented) mark() string {
	return map[form]string{plusMinus: "Mean ± SD", bracket: "Mean (SD)", columns: "Mean and SD", quartiles: "Median [IQR]"}[t.form]
}

// corners sets what stands over the row labels: over arms "Group" or nothing,
// unless there is but one column of labels.
func (t *invented) corners() {
	c := t.choice
	value := traits[traitCorner].values[c[traitCorner]]
	text := map[string]string{
		"empty": "", "Group": pick(t.seed, "group", []string{"Group", "Groups"}), "Parameter": pick(t.seed, "parameter", []string{"Parameter", "Variable"}),
		"Time": pick(t.seed, "time", []string{"Time", "Time point"}), "outcome": t.outcomes[0].label,
	}[value]
	stub := t.stub
	if t.section {
		stub = stub[1:]
	}
	t.corner = make([]string, len(stub))
	last := len(stub) - 1
	switch {
	case value == "Group" && last > 0:
		t.corner[0] = text
		t.corner[last] = map[kind]string{byTime: t.when, byOutcome: "Parameter"}[stub[last].of]
	case value == "outcome" && last > 0:
		t.corner[0], t.corner[last] = text, "<" // over both
	default:
		t.corner[last] = text
	}
}

// say writes the caption, and a note where the caption does not say what the
// spread is.
func (t *invented) say() {
	c := t.choice
	mark := strings.ToLower(t.mark()[:1]) + t.mark()[1:]
	outcome := t.outcomes[0].name
	if u := t.outcomes[0].unit; u != "" {
		outcome += " (" + u + ")"
	}
	lower := strings.ToLower(outcome[:1]) + outcome[1:]
	if !c.one() {
		lower = strings.ToLower(t.outcomes[0].name) + " and " + strings.ToLower(t.outcomes[1].name)
		outcome = strings.ToUpper(lower[:1]) + lower[1:]
		switch {
		case c.is(traitCaption, "known outcome") && c.is(traitOutcomes, "several unknown"):
			lower, outcome = "the cyclic fatigue test", "Cyclic fatigue test"
		case c.is(traitCaption, "unknown outcome") && c.is(traitOutcomes, "several known"):
			lower, outcome = "the Lorvik trial", "Lorvik trial"
		}
	}
	var list []string
	switch traits[traitCaption].values[c[traitCaption]] {
	case "nothing":
		list = []string{"Results of the tests, %s", "Descriptive statistics (%s)", "Comparison of the groups", "Summary of the measurements, %s"}
	case "the arms":
		list = []string{"Comparison of " + join(t.arms, "and") + " (%s)", join(t.arms, "versus"), "Results for " + join(t.arms, "and") + ", %s"}
	default:
		list = []string{outcome + ", %s", outcome + " in the groups (%s)", "Comparison of " + lower + " between the groups", "Results of " + lower + ", %s", outcome + " of the specimens"}
	}
	t.caption = pick(t.seed, "caption", list)
	if strings.Contains(mark, "(") {
		t.caption = strings.Replace(t.caption, " (%s)", ", %s", 1) // no bracket in a bracket
	}
	if strings.Contains(t.caption, "%s") {
		t.caption = strings.Replace(t.caption, "%s", mark, 1)
		return
	}
	t.notes = append(t.notes, map[form]string{plusMinus: "Values are mean ± SD.", bracket: "Values are mean (SD).", columns: "SD, standard deviation.", quartiles: "Values are median [IQR]."}[t.form])
}

// join lists names: "A, B and C".
func join(names []string, last string) string {
	if last == "versus" {
		return strings.Join(names, " versus ")
	}
	n := len(names) - 1
	return strings.Join(names[:n], ", ") + " " + last + " " + names[n]
}

// prose is the paragraph that goes with the table.
func (t *invented) prose(set armSet) string {
	number := []string{"", "", "two", "three"}[len(t.arms)]
	what := pick(t.seed, "record", []string{"The %s was recorded by one examiner.", "One examiner measured the %s of all specimens.", "All measurements were made by one examiner."})
	if strings.Contains(what, "%s") {
		what = fmt.Sprintf(what, strings.ToLower(t.outcomes[0].name))
	}
	described := func(with string) []string { // "heated files (H)", "Orlin (n = 12)"
		var out []string
		for i, s := range set.short {
			inner := []string{}
			if set.full != nil && !strings.EqualFold(set.full[i], s) {
				inner, s = append(inner, s), set.full[i]
			} else if set.full != nil {
				s = set.full[i]
			}
			if with != "" {
				inner = append(inner, with)
			}
			if len(inner) > 0 {
				s += " (" + strings.Join(inner, ", ") + ")"
			}
			out = append(out, s)
		}
		return out
	}
	switch traits[traitProse].values[t.choice[traitProse]] {
	case "list":
		var list []string
		for i, s := range set.short {
			if set.full != nil && !strings.EqualFold(set.full[i], s) {
				s += ", " + set.full[i]
			} else if set.full != nil {
				s = set.full[i]
			}
			list = append(list, s)
		}
		if slices.ContainsFunc(list, func(s string) bool { return strings.Contains(s, ",") }) {
			return fmt.Sprintf("Specimens were divided into %s groups: %s. %s", number, strings.Join(list, "; "), what)
		}
		return fmt.Sprintf("Specimens were divided into %s groups: %s. %s", number, join(list, "and"), what)
	case "assigned":
		return fmt.Sprintf("The %d specimens were randomly assigned to receive %s. %s", 12*len(t.arms), join(described(""), "or"), what)
	case "sized":
		s := join(described("n = 12"), "and")
		return fmt.Sprintf("%s were compared. %s", strings.ToUpper(s[:1])+s[1:], what)
	case "compared":
		return what + "\nRESULTS: " + fmt.Sprintf("The %s was higher with %s than with %s (p = 0.012).", strings.ToLower(t.outcomes[0].name), set.short[0], set.short[1])
	}
	return what + " The specimens were kept in water for one day."
}
