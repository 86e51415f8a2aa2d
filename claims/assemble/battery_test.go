package assemble_test

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
)

// batteryTables is how many tables the battery has.
const batteryTables = 640

// The law: how much of the battery is read right, and right or with a doubt.
const (
	leastRight  = 0.92
	leastHonest = 0.99
)

var showTables = flag.String("battery", "", "print the tables of the battery that are not read right and whose lines hold all of these, split at \";\"")

// verdict is how a table was read.
type verdict int

const (
	readRight verdict = iota
	readDoubted
	readWrong
)

// judged is one table of the battery with how it was read.
type judged struct {
	*invented
	text    string
	verdict verdict
	wrong   []string // the parts that are wrong, each once: "arm", "outcome", "condition", "missing", "extra"
	classes []string // what is wrong, a figure each
	lines   []string // what was wanted and read of the figures that are not right
}

// judge reads a table and holds it against its records. A figure that is not
// read is excused where the study says why.
func judge(t *testing.T, in *invented) *judged {
	text, records := in.set()
	study := assemble.Study(paperOf(t, in.methods, text), nil, catalog.Default())
	j := &judged{invented: in, text: text}
	at := map[[2]int]*claims.Measure{}
	for _, m := range study.Measures {
		if m.Place.Table != "" {
			at[[2]int{m.Place.Row, m.Place.Col}] = m
		}
	}
	excused := map[[2]int]bool{}
	for _, a := range study.Apart {
		excused[[2]int{a.Place.Row, a.Place.Col}] = true
	}
	none := len(at) == 0 && (len(study.Problems) > 0 || len(study.Apart) > 0)
	arms := map[*claims.Arm]int{}
	for i := range records {
		place := [2]int{records[i].row, records[i].col}
		if m := at[place]; m != nil {
			j.hold(&records[i], m, arms)
			delete(at, place)
			continue
		}
		j.note("missing", none || excused[place], &records[i], nil)
		j.classes = append(j.classes, "no measure")
	}
	for _, m := range study.Measures { // those that are left
		if m.Place.Table != "" && at[[2]int{m.Place.Row, m.Place.Col}] == m {
			j.note("extra", !m.Doubt.Sure(), nil, m)
		}
	}
	return j
}

// hold holds a measure against its record; arms are those met so far.
func (j *judged) hold(r *record, m *claims.Measure, arms map[*claims.Arm]int) {
	wrong := j.miss(r, m)
	if what := j.class(r, m); what != "" {
		j.classes = append(j.classes, what)
	}
	if k, seen := arms[m.Arm]; seen && k != r.armIndex {
		wrong = append(wrong, "arm")
		j.classes = append(j.classes, "two arms are one")
	} else if m.Arm != nil {
		arms[m.Arm] = r.armIndex
	}
	if m.Mean.Text != r.mean {
		wrong = append(wrong, "figure")
	}
	for _, part := range wrong {
		j.note(part, !m.Doubt.Sure(), r, m)
	}
}

// note keeps what is not right of one figure.
func (j *judged) note(part string, doubted bool, r *record, m *claims.Measure) {
	if !doubted {
		j.verdict = readWrong
	}
	j.verdict = max(j.verdict, readDoubted)
	if !slices.Contains(j.wrong, part) {
		j.wrong = append(j.wrong, part)
	}
	line := part + ": "
	if r != nil {
		line += fmt.Sprintf("wanted %q; %q; %q; %s", r.arm, r.outcome, r.time, r.mean)
	}
	if m != nil {
		line += fmt.Sprintf(" read %q; %q; %q; %s; doubt %q", m.ArmText, m.Outcome, m.Condition, m.Mean.Text, m.Doubt)
	}
	j.lines = append(j.lines, line)
}

// TestBattery holds the law of tables: of the tables of a battery that covers
// all pairs of their traits, almost all are read right, and next to none of
// the others without a doubt.
func TestBattery(t *testing.T) {
	var all []*judged
	for i, c := range choices(batteryTables) {
		all = append(all, judge(t, invent(c, uint64(i))))
	}
	var count [3]int
	for _, j := range all {
		count[j.verdict]++
	}
	n := float64(len(all))
	right, honest := float64(count[readRight])/n, float64(count[readRight]+count[readDoubted])/n
	t.Logf("%d tables: right %.3f, doubted %.3f, wrong %.3f", len(all), right, float64(count[readDoubted])/n, 1-honest)
	for i, tr := range traits {
		t.Log(tr.name)
		for v, name := range tr.values {
			t.Log(shares(name, all, func(j *judged) bool { return j.choice[i] == v }))
		}
	}
	t.Log("what is wrong where tables are wrong")
	for _, line := range classes(all) {
		t.Log(line)
	}
	showed(t, all)
	if right < leastRight || honest < leastHonest {
		t.Errorf("right %.3f, right or doubted %.3f; want at least %.3f and %.3f", right, honest, leastRight, leastHonest)
	}
}

// shares is a line of the breakdown.
func shares(name string, all []*judged, of func(*judged) bool) string {
	var count [3]int
	n := 0
	for _, j := range all {
		if of(j) {
			count[j.verdict]++
			n++
		}
	}
	share := func(v verdict) float64 { return 100 * float64(count[v]) / float64(max(n, 1)) }
	return fmt.Sprintf("  %-22s %4d tables: right %3.0f %%, doubted %3.0f %%, wrong %3.0f %%", name, n, share(readRight), share(readDoubted), share(readWrong))
}

// class says in few words what is wrong with a figure: what was read in the
// place of arm, outcome and condition.
func (d *drawing) class(r *record, m *claims.Measure) string {
	what := func(s string) string {
		for _, name := range d.arms {
			if holds(s, name) {
				return "an arm"
			}
		}
		for _, name := range d.times {
			if holds(s, name) {
				return "a condition"
			}
		}
		for _, name := range d.outcomeNames() {
			if holds(s, name) {
				return "an outcome"
			}
		}
		if s == "" {
			return "nothing"
		}
		return "other words"
	}
	var parts []string
	for _, part := range d.miss(r, m) {
		read := map[string]string{"arm": m.ArmText, "outcome": m.Outcome, "condition": m.Condition}[part]
		parts = append(parts, part+" is "+what(read))
	}
	return strings.Join(parts, ", ")
}

// classes counts the tables by what is wrong with most of their figures.
func classes(all []*judged) []string {
	count := map[string]int{}
	for _, j := range all {
		if j.verdict == readWrong {
			count[j.most()]++
		}
	}
	var lines []string
	for what, n := range count { // any order: the lines are sorted below
		lines = append(lines, fmt.Sprintf("  %4d %s", n, what))
	}
	slices.Sort(lines)
	slices.Reverse(lines)
	return lines
}

// most is the class that most of the figures share that are not right.
func (j *judged) most() string {
	best, n := "", map[string]int{}
	for _, c := range j.classes {
		if n[c]++; n[c] > n[best] {
			best = c
		}
	}
	return best
}

// showed prints the tables asked for by -battery.
func showed(t *testing.T, all []*judged) {
	if *showTables == "" {
		return
	}
	for i, j := range all {
		traits := j.choice.String() + "; wrong: " + strings.Join(j.wrong, " ") + "; class: " + j.most()
		if j.verdict == readRight || slices.ContainsFunc(strings.Split(*showTables, ";"), func(s string) bool { return !strings.Contains(traits, strings.TrimSpace(s)) }) {
			continue
		}
		t.Logf("%d %s\n%s\n%s\n%s", i, traits, j.methods, j.text, strings.Join(j.lines[:min(len(j.lines), 8)], "\n"))
	}
}

// The battery covers what it says: all pairs, outcomes that the catalogue
// knows and others that it does not.
func TestBatteryCovers(t *testing.T) {
	wanted, got := map[[4]int]bool{}, map[[4]int]bool{}
	for _, c := range printableChoices() {
		c.pairs(func(p [4]int) { wanted[p] = true })
	}
	list := choices(batteryTables)
	for _, c := range list {
		c.pairs(func(p [4]int) { got[p] = true })
	}
	if len(got) != len(wanted) || len(list) < 500 || len(list) > 800 {
		t.Errorf("%d tables hold %d of %d pairs, want 500 to 800 tables and all pairs", len(list), len(got), len(wanted))
	}
	for name, sets := range outcomeSets { // any order: each is looked at alone
		for _, set := range sets {
			for _, o := range set {
				if known := catalog.Default().FindOutcome(o.name) != nil; known == strings.Contains(name, "unknown") {
					t.Errorf("%s: the catalogue knows %q: %v", name, o.name, known)
				}
			}
		}
	}
}
