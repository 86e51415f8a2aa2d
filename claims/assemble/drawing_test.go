package assemble_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"probity/claims"
)

// Tables of known meaning. A drawing says what its figures tell apart (arms,
// outcomes, times or places) and where each of these stands: over the columns,
// beside the rows, in headings inside the body. Set as a table it comes with
// the records that a right reading gives.

// kind is what a level of labels tells apart.
type kind int

const (
	byArm kind = iota
	byOutcome
	byTime
	byStat // mean and SD in columns of their own
	byWord // one label over all: "Groups", the name of the only outcome
	kinds
)

// level is one level of labels of a drawing: a row of headings, a column of
// row labels, a level of section headings.
type level struct {
	of     kind
	labels []string // as printed, in the order of the entries of the drawing
	order  []int    // in which the entries are printed; nil: as they are
}

func (l *level) entries() []int {
	if l.order != nil {
		return l.order
	}
	out := make([]int, len(l.labels))
	for i := range out {
		out[i] = i
	}
	return out
}

// reversed prints the entries of a level from the last to the first.
func (l level) reversed() level {
	l.order = slices.Clone(l.entries())
	slices.Reverse(l.order)
	return l
}

// form is how a figure and its spread are printed.
type form string

const (
	plusMinus form = "a ± b"
	bracket   form = "a (b)"
	columns   form = "mean | SD"
	quartiles form = "median [IQR]"
)

// measured is an outcome of a drawing: its name, its unit as printed, the
// label that gives both, its size and its decimals.
type measured struct {
	name, unit, label string
	base              float64
	decimals          int
}

// drawing is a table before it is set.
type drawing struct {
	arms     []string
	outcomes []measured
	times    []string // nil: the figures are of no time or place
	caption  string
	notes    []string
	corner   []string // over the columns of row labels; "": empty
	head     []level
	stub     []level
	section  bool // the first level of stub is set as headings inside the body
	form     form
	seed     uint64
	p        bool // a last column of p
}

// record is what one figure of a drawing means, with the place of its cell.
type record struct {
	row, col           int
	arm, outcome, time string
	mean               string
	armIndex           int
}

// spot is a choice of one entry of each level.
type spot [kinds]int

// product lists all choices of entries of the levels, the first slowest.
func product(levels []level) []spot {
	out := []spot{{}}
	for i := range levels {
		var next []spot
		for _, s := range out {
			for _, e := range levels[i].entries() {
				s[levels[i].of] = e
				next = append(next, s)
			}
		}
		out = next
	}
	return out
}

// setting is a drawing on its way to text.
type setting struct {
	*drawing
	lines   []string
	row     int
	records []record
}

// set gives the table in the notation of paperOf, and its records.
func (d *drawing) set() (string, []record) {
	s := &setting{drawing: d, lines: []string{d.caption}}
	stub := d.stub
	if d.section {
		stub = d.stub[1:]
	}
	columns := product(d.head)
	for i := range d.head {
		s.heading(i, len(stub), columns)
	}
	s.body(stub, columns)
	for _, n := range d.notes {
		s.lines = append(s.lines, "NOTE: "+n)
	}
	return strings.Join(s.lines, "\n"), s.records
}

// heading sets one row of column headings.
func (s *setting) heading(i, stubs int, columns []spot) {
	var cells []string
	for c := range stubs {
		switch corner := s.cornerOf(c); {
		case i == 0:
			cells = append(cells, corner)
		case corner != "":
			cells = append(cells, "^")
		default:
			cells = append(cells, "")
		}
	}
	for k, at := range columns {
		if k > 0 && i < len(s.head)-1 && same(s.head[:i+1], columns[k-1], at) {
			cells = append(cells, "<")
			continue
		}
		cells = append(cells, s.head[i].labels[at[s.head[i].of]])
	}
	if s.p {
		cells = append(cells, []string{"p", "^"}[min(i, 1)])
	}
	s.lines = append(s.lines, "# "+strings.Join(cells, " | "))
	s.row++
}

func (s *setting) cornerOf(c int) string {
	if c < len(s.corner) {
		return s.corner[c]
	}
	return ""
}

// same reports whether two choices agree in all levels.
func same(levels []level, a, b spot) bool {
	for _, l := range levels {
		if a[l.of] != b[l.of] {
			return false
		}
	}
	return true
}

// body sets the rows under the headings.
func (s *setting) body(stub []level, columns []spot) {
	last := -1
	var before spot
	for k, at := range product(s.stub) {
		if s.section && at[s.stub[0].of] != last {
			last = at[s.stub[0].of]
			width := len(stub) + len(columns)
			if s.p {
				width++
			}
			s.lines = append(s.lines, s.stub[0].labels[last]+strings.Repeat(" | <", width-1))
			s.row++
			before, k = spot{}, 0
		}
		var cells []string
		for i, l := range stub {
			if k > 0 && i < len(stub)-1 && same(s.stub[:i+1], before, at) {
				cells = append(cells, "^")
				continue
			}
			cells = append(cells, l.labels[at[l.of]])
		}
		for c, col := range columns {
			cells = append(cells, s.cell(at, col, len(stub)+c+1))
		}
		if s.p {
			cells = append(cells, fmt.Sprintf("0.%03d", 20+7*k))
		}
		s.lines = append(s.lines, strings.Join(cells, " | "))
		s.row++
		before = at
	}
}

// cell sets one cell of figures, and keeps its record where it prints the
// centre.
func (s *setting) cell(row, col spot, c int) string {
	var at spot
	for k := range at {
		at[k] = row[k] + col[k] // a level stands on one side only
	}
	mean, sd, low, high := s.figures(at)
	r := record{row: s.row + 1, col: c, mean: mean, arm: s.arms[at[byArm]], outcome: s.outcomes[at[byOutcome]].name, armIndex: at[byArm]}
	if s.times != nil {
		r.time = s.times[at[byTime]]
	}
	if s.form == columns && at[byStat] == 1 {
		return sd
	}
	s.records = append(s.records, r)
	switch s.form {
	case plusMinus:
		return mean + " ± " + sd
	case bracket:
		return mean + " (" + sd + ")"
	case quartiles:
		return mean + " [" + low + "–" + high + "]"
	}
	return mean
}

// figures gives the mean, the SD and the quartiles of a spot. Outcomes differ
// by their size; arms by up to a quarter, times by up to a half; an SD is 5 to
// 25 % of its mean.
func (d *drawing) figures(at spot) (mean, sd, low, high string) {
	o := d.outcomes[at[byOutcome]]
	h := mix(d.seed, uint64(at[byArm]), uint64(at[byOutcome]), uint64(at[byTime]))
	share := func(from, to float64) float64 {
		h = mix(h, 1)
		return from + (to-from)*float64(h%1000)/1000
	}
	m := o.base * share(0.88, 1.12) * (1 + 0.15*float64(at[byTime]))
	v := math.Max(m*share(0.05, 0.25), 2*math.Pow10(-o.decimals))
	text := func(x float64) string { return strconv.FormatFloat(x, 'f', o.decimals, 64) }
	return text(m), text(v), text(m - 0.7*v), text(m + 0.8*v)
}

// mix makes one number of several, the same at every run.
func mix(xs ...uint64) uint64 {
	h := uint64(14695981039346656037)
	for _, x := range xs {
		h = (h ^ x) * 1099511628211
		h ^= h >> 29
		h *= 0xbf58476d1ce4e5b9
		h ^= h >> 32
	}
	return h
}

// plain is a name in lower case, its words apart by one space.
func plain(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" ,;:()[]±–-·.*", r) })
	return strings.Join(words, " ")
}

// holds reports whether a text has the words of a name, one after the other.
func holds(text, name string) bool {
	return strings.Contains(" "+plain(text)+" ", " "+plain(name)+" ")
}

// miss lists the parts of a measure that are not those of its record.
func (d *drawing) miss(r *record, m *claims.Measure) []string {
	var out []string
	if !holds(m.ArmText, r.arm) || d.otherIn(m.ArmText, r.arm, d.arms) || m.Arm == nil {
		out = append(out, "arm")
	}
	if !holds(m.Outcome, r.outcome) || d.otherIn(m.Outcome, r.outcome, d.outcomeNames()) {
		out = append(out, "outcome")
	}
	if plain(m.Condition) != plain(r.time) {
		out = append(out, "condition")
	}
	return out
}

func (d *drawing) outcomeNames() []string {
	var out []string
	for _, o := range d.outcomes {
		out = append(out, o.name)
	}
	return out
}

// otherIn reports whether a text names another one of the list too.
func (d *drawing) otherIn(text, name string, list []string) bool {
	for _, other := range list {
		if other != name && !holds(name, other) && holds(text, other) {
			return true
		}
	}
	return false
}
