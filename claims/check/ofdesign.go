package check

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"probity/claims"
	"probity/claims/interval"
)

var nArithmetic = Check{
	Name:   "n-arithmetic",
	Asks:   "Do total, number of groups and n per group agree?",
	Source: "arithmetic",
	Run: func(c *Case) []claims.Finding {
		d := c.Study.Design
		if len(d.Total) != 1 || len(d.PerGroup) == 0 || len(d.Groups) == 0 {
			return nil
		}
		total := d.Total[0]
		closest := 0.0
		var groups, per claims.Fact
		for _, g := range d.Groups {
			for _, p := range d.PerGroup {
				if !together(total, g) || !together(total, p) {
					continue // said far apart: of other groups, for all that is known
				}
				made := g.Value.Value * p.Value.Value
				if made <= 0 {
					return nil
				}
				// Every group may have been used for several tests.
				if m := total.Value.Value / made; m >= 1 && m <= 6 && m == math.Trunc(m) {
					return nil
				}
				if closest == 0 || math.Abs(made-total.Value.Value) < math.Abs(closest-total.Value.Value) {
					closest, groups, per = made, g, p
				}
			}
		}
		if closest == 0 {
			return nil
		}
		f := claims.Finding{Grade: claims.AtOdds, Place: total.Place, Printed: plainNumber(total.Value), Recomputed: digits(closest)}
		if len(d.Groups) > 1 || len(d.PerGroup) > 1 || !sameNs(c.Study) {
			f.Grade = claims.Query
		}
		f.Message = fmt.Sprintf("%s specimens in total are printed; %s groups of %s make %s", plainNumber(total.Value), plainNumber(groups.Value), plainNumber(per.Value), digits(closest))
		f.Ask = "How many specimens were there in each group, and were any left out?"
		f.Caution = "n may be other than printed; say so where the figures are used."
		return []claims.Finding{f}
	},
}

// together reports two facts of one paragraph, or given without a place.
func together(a, b claims.Fact) bool {
	return a.Place.Section == b.Place.Section && a.Place.Par == b.Place.Par
}

// sameNs reports whether every arm of the study has one n.
func sameNs(s *claims.Study) bool {
	n := 0.0
	for _, m := range s.Measures {
		if !m.N.Known() {
			continue
		}
		if n != 0 && m.N.Value != n {
			return false
		}
		n = m.N.Value
	}
	return true
}

var changeSum = Check{
	Name:   "change-sum",
	Asks:   "Do the changes of two periods add up to the change of both?",
	Source: "arithmetic: mean changes of the same specimens add",
	Run:    runChangeSum,
}

// period reads "T1–T2", "T1 to T2" as its two ends.
var period = regexp.MustCompile(`^\s*(\S{1,12}?)\s*(?:-|–|—|−|/|to|vs\.?|→)\s*(\S{1,12})\s*$`)

func periodsOf(condition string) [][2]string {
	var out [][2]string
	for _, part := range strings.Split(condition, ";") {
		if ends := period.FindStringSubmatch(part); ends != nil {
			out = append(out, [2]string{ends[1], ends[2]})
		}
	}
	return out
}

type changeRow struct {
	arm, outcome string
	periods      [][2]string // in the order of the table
	byPeriod     map[[2]string]*claims.Measure
}

func runChangeSum(c *Case) []claims.Finding {
	rows := map[string]*changeRow{}
	periods := map[string][][2]string{} // by condition
	var order []string
	for _, m := range c.Study.Measures {
		if m.Place.Table == "" || m.Centre == claims.Median || !m.Doubt.Sure() {
			continue
		}
		if _, ok := periods[m.Condition]; !ok {
			periods[m.Condition] = periodsOf(m.Condition)
		}
		for _, ends := range periods[m.Condition] {
			key := m.Place.Table + "\x00" + armName(m) + "\x00" + m.Outcome
			if rows[key] == nil {
				rows[key] = &changeRow{arm: armName(m), outcome: m.Outcome, byPeriod: map[[2]string]*claims.Measure{}}
				order = append(order, key)
			}
			rows[key].add(ends, m)
		}
	}
	var out []claims.Finding
	good := 0
	for _, key := range order {
		f, ok := rows[key].check()
		if ok && f == nil {
			good++
		}
		if f != nil {
			out = append(out, *f)
		}
	}
	if good < 3*len(out) {
		return nil // the columns are something else than changes that add
	}
	return out
}

func (r *changeRow) add(ends [2]string, m *claims.Measure) {
	if r.byPeriod[ends] == nil {
		r.periods = append(r.periods, ends)
	}
	r.byPeriod[ends] = m
}

// check adds the first two periods of a row; the second result says whether
// the row has three periods that should add up.
func (r *changeRow) check() (*claims.Finding, bool) {
	for _, ab := range r.periods {
		for _, bc := range r.periods {
			x, y := r.byPeriod[ab], r.byPeriod[bc]
			z := r.byPeriod[[2]string{ab[0], bc[1]}]
			if ab[1] != bc[0] || z == nil || ab[0] == bc[1] || x == y {
				continue
			}
			px, ok1 := printed(x.Mean.Number)
			py, ok2 := printed(y.Mean.Number)
			pz, ok3 := printed(z.Mean.Number)
			if !ok1 || !ok2 || !ok3 || x.N.Value != y.N.Value || y.N.Value != z.N.Value {
				continue
			}
			a, b := px.Interval(), py.Interval()
			sum := interval.Interval{Low: a.Low + b.Low - 1e-9, High: a.High + b.High + 1e-9}
			if sum.Meets(pz.Interval()) {
				return nil, true
			}
			value := x.Mean.Value + y.Mean.Value
			decimals := max(x.Mean.Decimals, y.Mean.Decimals)
			return &claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{x, y, z}, Place: z.Place,
				Printed: plainNumber(z.Mean.Number), Recomputed: minus(fmt.Sprintf("%.*f", decimals, value)),
				Message: fmt.Sprintf("%s, %s: %s (%s–%s) and %s (%s–%s) make %s, printed is %s (%s–%s)", r.arm, r.outcome,
					plainNumber(x.Mean.Number), ab[0], ab[1], plainNumber(y.Mean.Number), bc[0], bc[1], minus(fmt.Sprintf("%.*f", decimals, value)),
					plainNumber(z.Mean.Number), ab[0], bc[1]),
				Ask: "Which of the three changes is as measured?", Caution: "Quote the change of one period only after it is cleared up."}, true
		}
	}
	return nil, false
}
