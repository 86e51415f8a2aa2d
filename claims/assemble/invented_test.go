package assemble_test

import (
	"fmt"
	"strings"
)

// armSet is a list of arms as the table prints them, and what the text says
// they are, where that is another name.
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

// levels gives the levels of arms, outcomes and times.
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

// word is a level of one label that tells nothing apart.
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
	corner, inStub := c.is(traitCorner, "outcome"), t.stub[len(t.stub)-1].of == byOutcome
	need := c.one() && c[traitCaption] > 1 && !corner && !inStub
	may := func(use string) bool { return c.one() && !corner && pick(t.seed, use, []bool{true, false}) }
	if t.form == columns {
		t.split(outcome, need)
		return
	}
	if len(t.head) == 0 {
		t.head = []level{word(t.mark())}
		if need || may("head") {
			t.head = []level{word(outcome)}
		}
	}
	switch first := t.head[0]; {
	case c.is(traitDepth, "1") || len(t.head) > 1:
	case first.of == byWord && first.labels[0] == outcome:
		t.head = append(t.head, word(t.mark()))
	case need || !inStub && may("over"):
		t.head = []level{word(outcome), first}
	default:
		t.head = []level{word(t.over(first.of)), first}
	}
}

// split puts mean and SD in columns of their own.
func (t *invented) split(outcome string, need bool) {
	switch bare := len(t.head) == 0 && t.choice.is(traitDepth, "2"); {
	case need || bare && t.choice.one():
		t.head = append([]level{word(outcome)}, t.head...)
	case bare:
		t.head = []level{word("Measurement")}
	}
	t.head = append(t.head, level{of: byStat, labels: pick(t.seed, "stats", [][]string{{"Mean", "SD"}, {"Mean", "Standard deviation"}})})
}

// over is what stands over a row of headings without saying more than they do.
func (t *invented) over(k kind) string {
	if k == byTime && t.choice.is(traitCorner, "Time") || k == byArm && t.choice.is(traitCorner, "Group") {
		return "Results" // the corner says it
	}
	return map[kind]string{byArm: "Groups", byTime: t.when, byOutcome: "Outcomes", byWord: "Results"}[k]
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
	mark := strings.ToLower(t.mark()[:1]) + t.mark()[1:]
	t.caption = pick(t.seed, "caption", t.captions())
	if strings.Contains(mark, "(") {
		t.caption = strings.Replace(t.caption, " (%s)", ", %s", 1) // no bracket in a bracket
	}
	if strings.Contains(t.caption, "%s") {
		t.caption = strings.Replace(t.caption, "%s", mark, 1)
		return
	}
	t.notes = append(t.notes, map[form]string{plusMinus: "Values are mean ± SD.", bracket: "Values are mean (SD).", columns: "SD, standard deviation.", quartiles: "Values are median [IQR]."}[t.form])
}

// captions lists what the caption may be; %s is what the figures are.
func (t *invented) captions() []string {
	switch traits[traitCaption].values[t.choice[traitCaption]] {
	case "nothing":
		return []string{"Results of the tests, %s", "Descriptive statistics (%s)", "Comparison of the groups", "Summary of the measurements, %s"}
	case "the arms":
		return []string{"Comparison of " + join(t.arms, "and") + " (%s)", strings.Join(t.arms, " versus "), "Results for " + join(t.arms, "and") + ", %s"}
	}
	what := t.captionOutcome()
	lower, upper := strings.ToLower(what[:1])+what[1:], strings.ToUpper(what[:1])+what[1:]
	return []string{upper + ", %s", upper + " in the groups (%s)", "Comparison of " + lower + " between the groups", "Results of " + lower + ", %s", upper + " of the specimens"}
}

// captionOutcome is what the caption says was measured: the outcome with its
// unit, two of several, or a name over all of them.
func (t *invented) captionOutcome() string {
	c := t.choice
	switch {
	case c.one() && t.outcomes[0].unit != "":
		return t.outcomes[0].name + " (" + t.outcomes[0].unit + ")"
	case c.one():
		return t.outcomes[0].name
	case c.is(traitCaption, "known outcome") && c.is(traitOutcomes, "several unknown"):
		return "cyclic fatigue test"
	case c.is(traitCaption, "unknown outcome") && c.is(traitOutcomes, "several known"):
		return "Lorvik trial"
	}
	return t.outcomes[0].name + " and " + strings.ToLower(t.outcomes[1].name)
}

// join lists names: "A, B and C".
func join(names []string, last string) string {
	n := len(names) - 1
	return strings.Join(names[:n], ", ") + " " + last + " " + names[n]
}

// prose is the paragraph that goes with the table.
func (t *invented) prose(set armSet) string {
	outcome := strings.ToLower(t.outcomes[0].name)
	measured := strings.Replace(pick(t.seed, "record", []string{"The %s was recorded by one examiner.", "One examiner measured the %s of all specimens.", "All measurements were made by one examiner."}), "%s", outcome, 1)
	switch traits[traitProse].values[t.choice[traitProse]] {
	case "list":
		return fmt.Sprintf("Specimens were divided into %s groups: %s. %s", []string{2: "two", 3: "three"}[len(t.arms)], set.list(), measured)
	case "assigned":
		return fmt.Sprintf("The %d specimens were randomly assigned to receive %s. %s", 12*len(t.arms), join(set.described(""), "or"), measured)
	case "sized":
		s := join(set.described("n = 12"), "and")
		return fmt.Sprintf("%s were compared. %s", strings.ToUpper(s[:1])+s[1:], measured)
	case "compared":
		return measured + "\nRESULTS: " + fmt.Sprintf("The %s was higher with %s than with %s (p = 0.012).", outcome, set.short[0], set.short[1])
	}
	return measured + " The specimens were kept in water for one day."
}

// coded reports whether the text says in other words what an arm is.
func (s *armSet) coded(i int) bool { return s.full != nil && !strings.EqualFold(s.full[i], s.short[i]) }

// name is an arm as the text names it.
func (s *armSet) name(i int) string {
	if s.full != nil {
		return s.full[i]
	}
	return s.short[i]
}

// list gives the arms one after the other: "Orlin, Brex and Tovan", "H, heated
// files; P, polished files".
func (s *armSet) list() string {
	var out []string
	for i := range s.short {
		if s.coded(i) {
			out = append(out, s.short[i]+", "+s.full[i])
		} else {
			out = append(out, s.name(i))
		}
	}
	if s.coded(0) {
		return strings.Join(out, "; ")
	}
	return join(out, "and")
}

// described gives the arms with what stands in brackets behind them: "heated
// files (H, n = 12)", "Orlin (n = 12)".
func (s *armSet) described(with string) []string {
	var out []string
	for i := range s.short {
		var inner []string
		if s.coded(i) {
			inner = append(inner, s.short[i])
		}
		if with != "" {
			inner = append(inner, with)
		}
		name := s.name(i)
		if len(inner) > 0 {
			name += " (" + strings.Join(inner, ", ") + ")"
		}
		out = append(out, name)
	}
	return out
}
