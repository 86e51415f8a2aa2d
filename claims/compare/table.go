package compare

import (
	"fmt"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"

	"probity/claims/catalog"
)

// A Result is a comparison across papers.
type Result struct {
	Query    Query
	Outcome  *catalog.Outcome
	Unit     string // the common unit, as printed in the catalogue's id
	Papers   int    // papers that measured the outcome
	Strata   []Stratum
	Apart    []*Row   // not comparable, with reasons
	Left     []Left   // papers that gave no row
	Assumed  []string // what was taken for what, in words
	Rules    []catalog.Rule
	Contrast bool // both sides were named
}

// A Left is a paper that measured the outcome and gives no comparison.
type Left struct {
	Paper *Paper
	Why   string
}

// Rows counts the comparisons shown.
func (r *Result) Rows() int {
	n := len(r.Apart)
	for _, s := range r.Strata {
		n += len(s.Rows)
	}
	return n
}

// Table compares papers on one outcome. The order of papers does not matter.
func Table(papers []Paper, q Query, cat *catalog.Catalog) (*Result, error) {
	res := &Result{Query: q, Outcome: cat.Outcome(q.Outcome), Rules: cat.RulesFor(q.Outcome), Contrast: q.Subject != "" && q.Against != ""}
	if res.Outcome == nil {
		return nil, fmt.Errorf("the outcome %q is not in the catalogue", q.Outcome)
	}
	var with []*Paper
	for i := range papers {
		if slices.ContainsFunc(papers[i].Figures, func(f Figure) bool { return f.OutcomeID == q.Outcome }) {
			with = append(with, &papers[i])
		}
	}
	res.Papers = len(with)
	if res.Unit = q.Unit; res.Unit == "" {
		res.Unit = commonUnit(with, q.Outcome, cat)
	} else if cat.Unit(q.Unit) == nil {
		return nil, fmt.Errorf("the unit %q is not in the catalogue", q.Unit)
	}
	slices.SortFunc(with, byName)
	rows := make([][]*Row, len(with))
	left := make([]string, len(with))
	spread(len(with), func(i int) { rows[i], left[i] = rowsOf(with[i], res, cat) })
	var all []*Row
	for i, p := range with {
		all = append(all, rows[i]...)
		if len(rows[i]) == 0 {
			res.Left = append(res.Left, Left{p, left[i]})
		}
	}
	res.stratify(all)
	res.assumptions()
	return res, nil
}

// spread runs f for 0 … n-1 on all cores; f writes to its own place only. A
// panic of f is the caller's, who can recover it.
func spread(n int, f func(i int)) {
	var wg sync.WaitGroup
	workers := min(runtime.GOMAXPROCS(0), n)
	tripped := make([]any, workers)
	for w := range workers {
		wg.Go(func() {
			defer func() { tripped[w] = recover() }()
			for i := w; i < n; i += workers {
				f(i)
			}
		})
	}
	wg.Wait()
	for _, p := range tripped {
		if p != nil {
			panic(p)
		}
	}
}

func byName(a, b *Paper) int {
	if a.Year != b.Year {
		return a.Year - b.Year
	}
	if c := strings.Compare(a.Name(), b.Name()); c != 0 {
		return c
	}
	return strings.Compare(a.ID, b.ID)
}

// rowsOf makes the comparisons of one paper, or says why there are none.
func rowsOf(p *Paper, res *Result, cat *catalog.Catalog) ([]*Row, string) {
	q := res.Query
	atOdds := slices.ContainsFunc(p.Findings, func(f Finding) bool { return f.Grade == "at-odds" })
	if q.Unopposed && atOdds {
		return nil, "left out as asked: something in it is at odds"
	}
	subject, against := newMatcher(q.Subject), newMatcher(q.Against)
	var out []*Row
	wrongUnit, unmet := "", ""
	known := map[*Figure][]Condition{} // each figure stands in several lines
	conditions := func(f *Figure) []Condition {
		if known[f] == nil {
			known[f] = conditionsOf(p, f, res.Rules)
		}
		return known[f]
	}
	for _, g := range groupsOf(p, q.Outcome) {
		for _, x := range pairsOf(p, g, subject, against) {
			r := &Row{Paper: p, Condition: x.a.Condition, atOdds: atOdds}
			if why := r.fill(x, res.Unit, q.Options, cat); why != "" {
				wrongUnit = why
				continue
			}
			r.conditions(conditions)
			r.apart(res.Rules, q.Options)
			if why := r.misses(q.Where); why != "" {
				unmet = why
				continue
			}
			if !slices.ContainsFunc(out, r.repeats) {
				r.said()
				out = append(out, r)
			}
		}
	}
	switch {
	case len(out) > 0:
		return out, ""
	case unmet != "":
		return nil, unmet
	case wrongUnit != "":
		return nil, wrongUnit
	case q.Subject != "" || q.Against != "":
		return nil, "the arms asked for are not compared in it"
	}
	return nil, "it gives this outcome for one arm only, or not in one table"
}

// fill puts the figures in; it says why the two cannot stand in one row.
func (r *Row) fill(x pair, unit string, o Options, cat *catalog.Catalog) string {
	for _, f := range []*Figure{x.a, x.b} {
		if unit == "" || f.UnitID == "" || f.UnitID == unit {
			continue
		}
		if _, _, err := cat.Convert(f.Value, f.UnitID, unit); err != nil {
			return fmt.Sprintf("its unit %s does not convert to %s", f.Unit, unit)
		}
	}
	var notes []string
	var why string
	if r.Subject, notes, why = side(r.Paper, x.a, unit, o, cat); why != "" {
		r.NoInterval = why
	}
	r.Notes = append(r.Notes, notes...)
	if r.Reference, notes, why = side(r.Paper, x.b, unit, o, cat); why != "" {
		r.NoInterval = why
	}
	for _, n := range notes {
		if !slices.Contains(r.Notes, n) {
			r.Notes = append(r.Notes, n)
		}
	}
	if x.a.UnitID == x.b.UnitID && x.a.UnitID == "" && unit != "" {
		r.Notes = append(r.Notes, "unit not known: shown as printed")
	} else if (x.a.UnitID == "") != (x.b.UnitID == "") {
		return "the unit of one figure is not known"
	} else {
		r.Unit = unit
	}
	r.contrast = contrastOf(r)
	r.sums()
	return ""
}

// repeats reports whether another row shows the same two printed figures.
func (r *Row) repeats(o *Row) bool {
	same := func(a, b *Figure) bool {
		return a.Text == b.Text && a.Printed == b.Printed || a.Value == b.Value && b.Kind == ""
	}
	return strings.EqualFold(r.Subject.Name, o.Subject.Name) && strings.EqualFold(r.Reference.Name, o.Reference.Name) &&
		(same(r.Subject.Figure, o.Subject.Figure) || same(o.Subject.Figure, r.Subject.Figure)) &&
		(same(r.Reference.Figure, o.Reference.Figure) || same(o.Reference.Figure, r.Reference.Figure))
}

// said collects the paper's own claims on the two figures, and the findings on
// them.
func (r *Row) said() {
	a, b := r.Subject.Figure.ID, r.Reference.Figure.ID
	for _, c := range r.Paper.Claims {
		if slices.Contains(c.Figures, a) && slices.Contains(c.Figures, b) && len(c.Figures) == 2 {
			r.Claims = append(r.Claims, c)
		}
	}
	for _, f := range r.Paper.Findings {
		if slices.Contains(f.Figures, a) || slices.Contains(f.Figures, b) {
			r.Findings = append(r.Findings, f)
		}
	}
}

// misses says which of the conditions asked for the row does not meet.
func (r *Row) misses(where []Where) string {
	for _, w := range where {
		ok := false
		switch w.Field {
		case "condition":
			ok = strings.Contains(fold(r.Condition), fold(w.Value))
		case "paper":
			ok = strings.HasPrefix(r.Paper.ID, w.Value) || strings.Contains(fold(r.Paper.Name()), fold(w.Value))
		case "year":
			ok = inYears(r.Paper.Year, w.Value)
		case "geometry":
			ok = strings.Contains(r.Subject.Size, w.Value) && strings.Contains(r.Reference.Size, w.Value)
		case "n":
			least, _ := strconv.Atoi(w.Value)
			ok = min(r.Subject.N, r.Reference.N) >= least
		default:
			for _, c := range r.Conditions {
				if c.Rule.Field == w.Field {
					ok = c.meets(w.Value)
				}
			}
		}
		if !ok {
			return "left out as asked: not " + w.String()
		}
	}
	return ""
}

func inYears(year int, text string) bool {
	low, high, isRange := strings.Cut(text, "..")
	if !isRange {
		high = low
	}
	from, _ := strconv.Atoi(low)
	to, err := strconv.Atoi(high)
	return year >= from && (err != nil || year <= to)
}

func (c Condition) meets(value string) bool {
	if x, err := strconv.ParseFloat(value, 64); err == nil && c.Rule.Kind != "words" {
		return c.Known && !differs(c.Value, x, c.Rule.Most, c.Rule.Percent)
	}
	return (c.Known || c.Assumed) && c.Class == value
}

// assumptions lists what was taken for what.
func (res *Result) assumptions() {
	o := res.Query.Options
	say := func(format string, args ...any) { res.Assumed = append(res.Assumed, fmt.Sprintf(format, args...)) }
	switch o.Unstated {
	case "":
		say("an unlabelled ± is taken for neither SD nor SE: such comparisons have no interval (switch: --unstated sd, --unstated se)")
	default:
		say("an unlabelled ± is taken as %s", strings.ToUpper(o.Unstated))
	}
	if o.Medians {
		say("means and SDs are estimated from medians (Luo et al. 2018; Wan et al. 2014)")
	} else {
		say("medians are set apart (switch: --medians)")
	}
	if o.Unopposed {
		say("papers with something at odds are left out")
	} else {
		say("papers with something at odds are included (switch: --unopposed)")
	}
	if o.Caution {
		say("comparisons with caution are combined with the others")
	}
	if !res.Contrast && res.Query.Subject == "" && res.Query.Against == "" {
		say("each arm stands against the control where a paper has one, else arms stand against each other in the order of their names (name them with --arms)")
	}
}
