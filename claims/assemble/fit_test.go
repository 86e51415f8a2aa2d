package assemble_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode"

	"probity/claims/assemble"
	"probity/claims/catalog"
	"probity/claims/tabular"
	"probity/extract/open"
)

// The weights of catalog/evidence.csv are fitted to labelled tables:
//
//	go test ./claims/assemble -run TestFit -v -fit-axes AXES.tsv -fit-points FIGURES.tsv -fit-out evidence.csv
//
// Both files have a header line and tabs. One names labels and their roles:
// file, table, axis ("col1", "row", "rowgroup"), label, role ("arm",
// "outcome", "condition", "class", joined by +). The other names figures:
// file, table, mean, arm, outcome, condition, where "/" parts other names of
// the same. The invented tables of these tests join in, and some that are drawn
// as those of TestBattery are, but others. One half of the
// tables is fitted and the other half read by it, both ways, before all are
// fitted together.
var (
	fitAxes   = flag.String("fit-axes", "", "labels of tables with their roles")
	fitPoints = flag.String("fit-points", "", "figures of tables with their names")
	fitOut    = flag.String("fit-out", "", "where the weights are written")
	fitDrawn  = flag.Float64("fit-drawn", 0.05, "what a drawn table weighs beside a printed one")
	fitPull   = flag.Float64("fit-pull", 0.1, "how strongly a weight is drawn to nought")
)

// labelled is a table with what each of its axes is said to be, counted by
// labels or figures.
type labelled struct {
	name  string
	t     *tabular.Table
	gold  []map[tabular.Category]float64
	drawn bool // invented by chance: weighs less than a printed one
}

func (e *labelled) allows(axis int, c tabular.Category) bool {
	most := 0.0
	for _, x := range e.gold[axis] { // any order: the greatest
		most = max(most, x)
	}
	return most == 0 || e.gold[axis][c] > 0.7*most
}

func (e *labelled) right(axes []tabular.Category) bool {
	for i, c := range axes {
		if !e.allows(i, c) {
			return false
		}
	}
	return true
}

func newLabelled(name string, a *assemble.Axes) *labelled {
	e := &labelled{name: name, t: &a.Table}
	for range a.Axes {
		e.gold = append(e.gold, map[tabular.Category]float64{})
	}
	return e
}

func readTSV(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = '\t', true, -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			if i < len(row) {
				m[h] = row[i]
			}
		}
		out = append(out, m)
	}
	return out
}

// bareName is a name without case, spaces and signs.
func bareName(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// papersRead reads each paper once.
type papersRead map[string][]*assemble.Axes

func (p papersRead) table(t *testing.T, file, label string) *assemble.Axes {
	if _, ok := p[file]; !ok {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		docs, err := open.ReadAll(data, file)
		if err != nil {
			t.Fatal(err)
		}
		p[file] = assemble.AxesOf(docs[0])
	}
	for _, a := range p[file] {
		if strings.Trim(strings.TrimPrefix(a.Label, "table"), " .:-") == label {
			return a
		}
	}
	return nil
}

// byLabels reads tables whose labels are labelled.
func byLabels(t *testing.T, rows []map[string]string, papers papersRead) []*labelled {
	categories := map[string]tabular.Category{"arm": tabular.Arm, "outcome": tabular.Outcome, "condition": tabular.Condition, "class": tabular.Heading, "none": tabular.Heading}
	roles := map[string]map[string]string{} // of a table, by side and label
	var order []string
	for _, r := range rows {
		k := r["file"] + "\t" + r["table"]
		if roles[k] == nil {
			roles[k] = map[string]string{}
			order = append(order, k)
		}
		if r["axis"] == "table" {
			roles[k]["kind"] = r["role"]
		} else {
			roles[k][r["axis"][:3]+bareName(r["label"])] = r["role"]
		}
	}
	var out []*labelled
	for _, k := range order {
		file, label, _ := strings.Cut(k, "\t")
		a := papers.table(t, file, label)
		if a == nil || roles[k]["kind"] == "nomeasures" {
			continue
		}
		e := newLabelled(k, a)
		for i, axis := range a.Axes {
			side := "col"
			if axis.ByRow {
				side = "row"
			}
			for _, text := range a.Printed(i) {
				for _, part := range strings.Split(roles[k][side+bareName(text)], "+") {
					if c, ok := categories[part]; ok {
						e.gold[i][c]++
					}
				}
			}
		}
		out = append(out, e)
	}
	return out
}

// byFigures adds what labelled figures say of the axes over them.
func byFigures(e *labelled, a *assemble.Axes, r map[string]string) {
	for _, names := range a.Over(r["mean"]) {
		for i, name := range names {
			for c, field := range map[tabular.Category]string{tabular.Arm: "arm", tabular.Outcome: "outcome", tabular.Condition: "condition"} { // any order: each its own count
				for _, other := range strings.FieldsFunc(r[field], func(x rune) bool { return x == '/' || x == ';' }) {
					if alike(bareName(other), bareName(name)) {
						e.gold[i][c]++
						break
					}
				}
			}
		}
	}
}

func alike(a, b string) bool {
	return a != "" && (a == b || len(b) > 3 && strings.Contains(a, b) || len(a) > 3 && strings.Contains(b, a))
}

func labelledTables(t *testing.T) []*labelled {
	papers := papersRead{}
	var out []*labelled
	if *fitAxes != "" {
		out = byLabels(t, readTSV(t, *fitAxes), papers)
	}
	if *fitPoints != "" {
		seen := map[*assemble.Axes]*labelled{}
		for _, r := range readTSV(t, *fitPoints) {
			a := papers.table(t, r["file"], r["table"])
			if a == nil {
				continue
			}
			if seen[a] == nil {
				seen[a] = newLabelled(r["file"]+" "+r["table"], a)
				out = append(out, seen[a])
			}
			byFigures(seen[a], a, r)
		}
	}
	for _, c := range slices.Concat(layouts, moreLayouts, pairLayouts) {
		a := assemble.AxesOf(paperOf(t, c.methods, c.table))[0]
		e := newLabelled(c.name, a)
		for _, line := range strings.Split(strings.TrimSpace(c.want), "\n") {
			f := strings.Split(strings.TrimSpace(line), ";")
			if len(f) < 7 {
				continue
			}
			at := len(f) - 4 // figures, n, unit, letters
			figures := strings.Fields(strings.TrimPrefix(strings.TrimSpace(f[at]), "median "))
			byFigures(e, a, map[string]string{"arm": f[0], "outcome": f[1], "condition": strings.Join(f[2:at], ";"), "mean": figures[0]})
		}
		out = append(out, e)
	}
	out = append(out, drawnTables(t)...)
	return slices.DeleteFunc(out, func(e *labelled) bool {
		return !slices.ContainsFunc(e.gold, func(g map[tabular.Category]float64) bool { return len(g) > 0 })
	})
}

// drawnTables draws tables with other choices of traits than those of the
// battery.
func drawnTables(t *testing.T) []*labelled {
	held := map[choice]bool{}
	for _, c := range choices(batteryTables) {
		held[c] = true
	}
	var out []*labelled
	all := printableChoices()
	const step = 211 // a prime: no trait keeps one value
	for i := 0; i < len(all) && len(out) < 300; i++ {
		c := all[i*step%len(all)]
		if held[c] {
			continue
		}
		in := invent(c, uint64(10000+i))
		text, records := in.set()
		a := assemble.AxesOf(paperOf(t, in.methods, text))[0]
		e := newLabelled(fmt.Sprint("drawn ", i), a)
		e.drawn = true
		for _, r := range records {
			byFigures(e, a, map[string]string{"mean": r.mean, "arm": r.arm, "outcome": r.outcome, "condition": r.time})
		}
		for k, g := range e.gold {
			if len(g) == 0 {
				e.gold[k][tabular.Heading] = 1 // it names nothing
			}
		}
		out = append(out, e)
	}
	return out
}

func TestFit(t *testing.T) {
	if *fitAxes == "" && *fitPoints == "" {
		t.Skip("no labelled tables are given")
	}
	all := labelledTables(t)
	var half [2][]*labelled
	for i, e := range all {
		half[i%2] = append(half[i%2], e)
	}
	sumUp(t, "by the catalogue", tabular.WeightsOf(catalog.Default().Evidence), all, false)
	printed := func(es []*labelled, drawn bool) []*labelled {
		return slices.DeleteFunc(slices.Clone(es), func(e *labelled) bool { return e.drawn != drawn })
	}
	for i, by := range []tabular.Weights{fit(half[1]), fit(half[0])} {
		sumUp(t, fmt.Sprintf("half %d by the other, printed", i), by, printed(half[i], false), false)
		sumUp(t, fmt.Sprintf("half %d by the other, drawn", i), by, printed(half[i], true), false)
	}
	w := fit(all)
	sumUp(t, "fitted to all, printed", w, printed(all, false), true)
	sumUp(t, "fitted to all, drawn", w, printed(all, true), false)
	if *fitOut == "" {
		return
	}
	rows := [][]string{}
	for k, x := range w { // any order: sorted below
		if math.Abs(x) >= 0.05 {
			rows = append(rows, []string{k.Sign, k.Category, fmt.Sprintf("%.2f", x), "fitted to labelled tables"})
		}
	}
	slices.SortFunc(rows, slices.Compare[[]string])
	f, err := os.Create(*fitOut)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := csv.NewWriter(f).WriteAll(slices.Insert(rows, 0, []string{"sign", "category", "weight", "source"})); err != nil {
		t.Fatal(err)
	}
}

// sumUp prints how many tables and axes are read as they are labelled, and how
// many of those that are not have a gap that leaves no doubt.
func sumUp(t *testing.T, name string, w tabular.Weights, es []*labelled, show bool) {
	tables, axes, right, sure, surelyWrong := 0, 0, 0, 0, 0
	var bands [8]*[2]int // right and all, by gap
	for i := range bands {
		bands[i] = &[2]int{}
	}
	for _, e := range es {
		read, choices := e.t.Choose(w)
		if e.right(read) {
			tables++
		} else if show {
			line := e.name
			for i := range read {
				line += fmt.Sprintf("; %s %s by %.1f, labelled %v", e.t.Axes[i].Name, read[i], choices[i].Gap(), e.gold[i])
			}
			t.Log(line)
		}
		for i, g := range e.gold {
			if len(g) == 0 {
				continue
			}
			axes++
			band := bands[min(int(choices[i].Gap()*2), len(bands)-1)]
			band[1]++
			ok := e.allows(i, read[i])
			if ok {
				right++
				band[0]++
			}
			if choices[i].Sure() {
				sure++
				if !ok {
					surelyWrong++
				}
			}
		}
	}
	t.Logf("%s: %d of %d tables right, %d of %d axes; of %d without doubt %d are not as labelled", name, tables, len(es), right, axes, sure, surelyWrong)
	t.Logf("right by gap, in halves: %s", listed(bands[:]))
}

func listed(bands []*[2]int) string {
	out := ""
	for i, b := range bands {
		out += fmt.Sprintf(" from %.1f: %d of %d;", float64(i)/2, b[0], b[1])
	}
	return out
}

// prepared is a table with all its readings, as signs counted by number.
type prepared struct {
	signs  []map[int]float64
	right  []bool
	weight float64
}

// fit raises the likelihood of the readings that are labelled right, in steps
// by Kingma and Ba (2015), "Adam: a method for stochastic optimization".
func fit(es []*labelled) tabular.Weights {
	var keys []tabular.Key
	index := map[tabular.Key]int{}
	var all []prepared
	tables := 0.0 // each by its weight
	for _, e := range es {
		p := prepared{weight: 1}
		if e.drawn {
			p.weight = *fitDrawn
		}
		for _, axes := range e.t.Readings() {
			signs := map[int]float64{}
			for k, x := range e.t.Evidence(axes) { // any order: numbered below
				if _, ok := index[k]; !ok {
					index[k] = len(keys)
					keys = append(keys, k)
				}
				signs[index[k]] = x
			}
			p.signs, p.right = append(p.signs, signs), append(p.right, e.right(axes))
		}
		if slices.Contains(p.right, true) {
			tables += p.weight
			all = append(all, p)
		}
	}
	w, mean, square := make([]float64, len(keys)), make([]float64, len(keys)), make([]float64, len(keys))
	for step := 1.0; step <= 300; step++ {
		slope := make([]float64, len(keys))
		for i := range slope {
			slope[i] = -*fitPull * tables / 10 * w[i]
		}
		for _, p := range all {
			p.addSlope(w, slope)
		}
		for i := range w {
			mean[i] = 0.9*mean[i] + 0.1*slope[i]
			square[i] = 0.99*square[i] + 0.01*slope[i]*slope[i]
			w[i] += 0.1 * mean[i] / (1 - math.Pow(0.9, step)) / (math.Sqrt(square[i]/(1-math.Pow(0.99, step))) + 1e-8)
		}
	}
	out := tabular.Weights{}
	for i, k := range keys {
		out[k] = w[i]
	}
	return out
}

// addSlope adds the slope of the logarithm of the share of the right readings.
func (p *prepared) addSlope(w, slope []float64) {
	scores, top := make([]float64, len(p.signs)), math.Inf(-1)
	for k, signs := range p.signs {
		for i, x := range signs { // any order: a sum
			scores[k] += x * w[i]
		}
		top = max(top, scores[k])
	}
	all, right := 0.0, 0.0
	for k := range scores {
		scores[k] = math.Exp(scores[k] - top)
		all += scores[k]
		if p.right[k] {
			right += scores[k]
		}
	}
	for k, signs := range p.signs {
		d := -scores[k] / all
		if p.right[k] {
			d += scores[k] / right
		}
		if d *= p.weight; math.Abs(d) < 1e-6 {
			continue
		}
		for i, x := range signs { // any order: a sum
			slope[i] += d * x
		}
	}
}
