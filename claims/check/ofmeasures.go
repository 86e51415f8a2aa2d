package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/infer"
	"probity/claims/interval"
	"probity/extract"
)

var abstractTable = Check{
	Name:   "text-table",
	Asks:   "Is a figure in the abstract or the text the one that the table prints?",
	Source: "comparison of the two printed figures",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		for _, m := range c.Study.Measures {
			if m.Place.Table != "" || m.Arm == nil || !m.Doubt.Sure() || m.Adjusted || m.Centre == claims.Median {
				continue
			}
			if f, ok := c.againstTable(m); ok {
				out = append(out, f)
			}
		}
		return onePerUnit(out)
	},
}

// onePerUnit joins the findings of one sentence in which every figure carries
// the same other unit: that is one matter.
func onePerUnit(findings []claims.Finding) []claims.Finding {
	var out []claims.Finding
	for _, f := range findings {
		if n := len(out); f.Source != "" && n > 0 && out[n-1].Source == f.Source && out[n-1].Place.Par == f.Place.Par {
			out[n-1].Message += "; likewise " + f.Printed + " for " + armName(f.Measures[0])
			out[n-1].Measures = append(out[n-1].Measures, f.Measures...)
			continue
		}
		out = append(out, f)
	}
	return out
}

// againstTable holds a figure of running text against the cells that print
// the same outcome of the same arm.
func (c *Case) againstTable(m *claims.Measure) (claims.Finding, bool) {
	var twins []*claims.Measure
	comparable := func(t *claims.Measure) bool {
		return t.Place.Table != "" && t.Centre == m.Centre && !t.Adjusted && t.Change == m.Change && sameOutcome(m, t)
	}
	for _, t := range c.judge.tableMeasures(m.Arm) {
		if !comparable(t) {
			continue
		}
		if c.sameFigure(m, t) {
			return claims.Finding{}, false
		}
		twins = append(twins, t)
	}
	if len(twins) == 0 {
		return claims.Finding{}, false
	}
	var named []*claims.Measure
	for _, t := range twins {
		if sameCondition(m.Condition, t.Condition) {
			named = append(named, t)
		}
	}
	if len(named) == 1 && len(twins) > 1 {
		twins = named
	}
	if len(twins) > 1 {
		return claims.Finding{}, false // several times or places: not known which is meant
	}
	t := twins[0]
	if t.Condition != "" && !sameCondition(m.Condition, t.Condition) || (m.Mean.Value < 0) != (t.Mean.Value < 0) {
		return claims.Finding{}, false // another time, another part, a change beside a level
	}
	other := func(t *claims.Measure) bool { return t.Arm != m.Arm && comparable(t) && c.sameFigure(m, t) }
	if isPercent(m.Unit) != isPercent(t.Unit) || !c.witnessed(m, t) || slices.ContainsFunc(c.Study.Measures, other) {
		return claims.Finding{}, false
	}
	if f, ok := c.unitSlipBetween(m, t); ok {
		return f, true
	}
	if !sameUnit(m, t) || anotherSize(m, t) {
		return claims.Finding{}, false
	}
	f := claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{m, t}, Place: m.Place,
		Printed: plainNumber(m.Mean.Number), Recomputed: plainNumber(t.Mean.Number),
		Message: fmt.Sprintf("the %s prints %s for %s, table %s prints %s", sectionWord(m), plainNumber(m.Mean.Number), armName(t), t.Place.Table, plainNumber(t.Mean.Number)),
		Ask:     "Which of the two figures is right?",
		Caution: "Quote neither figure before this is cleared up, or quote both with their places."}
	if m.Outcome != "" {
		f.Message += fmt.Sprintf(" (%s)", m.Outcome)
	}
	if !t.Doubt.Sure() || m.Condition != "" && !sameCondition(m.Condition, t.Condition) {
		f.Grade = claims.Query
	}
	return f, true
}

// witnessed reports whether something besides names shows that a figure of
// running text is that of a cell: they share the spread, or another arm of the
// same passage prints the figure of its own cell beside it.
func (c *Case) witnessed(m, t *claims.Measure) bool {
	if m.Spread.Value.Known() && t.Spread.Value.Known() && m.Spread.Value.Value == t.Spread.Value.Value && m.Spread.Value.Value != 0 {
		return true
	}
	for _, s := range c.Study.Measures {
		if s.Place.Table != "" || s.Arm == nil || s.Arm == m.Arm || s.Place.Section != m.Place.Section || s.Place.Par != m.Place.Par || !sameOutcome(s, m) || s.Condition != m.Condition {
			continue
		}
		for _, cell := range c.judge.family(t) {
			if cell.Arm == s.Arm && c.sameFigure(s, cell) {
				return true
			}
		}
	}
	return false
}

// anotherSize reports figures of which one is so many times the other that
// another outcome is likely meant.
func anotherSize(m, t *claims.Measure) bool {
	a, b := math.Abs(m.Mean.Value), math.Abs(t.Mean.Value)
	return a == 0 || b == 0 || a/b > 3 || b/a > 3
}

func sectionWord(m *claims.Measure) string {
	switch m.Place.Section {
	case "", "body":
		return "text"
	}
	return string(m.Place.Section)
}

func sameOutcome(a, b *claims.Measure) bool {
	if a.OutcomeID != "" && b.OutcomeID != "" {
		return a.OutcomeID == b.OutcomeID
	}
	return a.Outcome != "" && strings.EqualFold(a.Outcome, b.Outcome)
}

func sameCondition(a, b string) bool { return strings.EqualFold(a, b) }

func sameUnit(a, b *claims.Measure) bool {
	return a.UnitID == b.UnitID || a.UnitID == "" || b.UnitID == ""
}

// sameFigure reports whether two figures can be one value printed twice.
func (c *Case) sameFigure(a, b *claims.Measure) bool {
	pa, okA := printed(a.Mean.Number)
	pb, okB := printed(b.Mean.Number)
	if !okA || !okB {
		return false
	}
	ia, ib := pa.Interval(), pb.Interval()
	if !sameUnit(a, b) {
		factor, ok := c.factor(a.UnitID, b.UnitID)
		if !ok {
			return false
		}
		ia = interval.Interval{Low: ia.Low * factor, High: ia.High * factor}
	}
	// Figures cut to fewer digits, not rounded, are one value too.
	step := math.Pow10(-min(a.Mean.Decimals, b.Mean.Decimals))
	if math.Abs(math.Trunc(a.Mean.Value/step)-math.Trunc(b.Mean.Value/step)) < 0.5 && a.Mean.Decimals != b.Mean.Decimals && sameUnit(a, b) {
		return true
	}
	return ia.Meets(ib)
}

// factor converts a value between units of one quantity.
func (c *Case) factor(from, to string) (float64, bool) {
	a, b := c.Catalog.Unit(from), c.Catalog.Unit(to)
	if a == nil || b == nil || a.Quantity != b.Quantity || a.Offset != 0 || b.Offset != 0 || b.Factor == 0 {
		return 0, false
	}
	return a.Factor / b.Factor, true
}

// unitSlipBetween finds one numeral printed with two units of one quantity.
func (c *Case) unitSlipBetween(m, t *claims.Measure) (claims.Finding, bool) {
	if sameUnit(m, t) {
		return claims.Finding{}, false
	}
	k, ok := c.factor(t.UnitID, m.UnitID)
	if !ok || math.Abs(k-1) < 1e-9 {
		return claims.Finding{}, false
	}
	pa, okA := printed(m.Mean.Number)
	pb, okB := printed(t.Mean.Number)
	if !okA || !okB || !pa.Interval().Meets(pb.Interval()) {
		return claims.Finding{}, false
	}
	converted := t.Mean.Value * k
	return claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{m, t}, Place: m.Place,
		Printed:    plainNumber(m.Mean.Number) + " " + m.Unit,
		Recomputed: digits(converted) + " " + m.Unit,
		Message: fmt.Sprintf("the %s prints %s %s for %s, table %s prints %s %s, which is %s %s", sectionWord(m), plainNumber(m.Mean.Number), m.Unit,
			armName(t), t.Place.Table, plainNumber(t.Mean.Number), t.Unit, digits(converted), m.Unit),
		Ask: "Which unit was measured in?", Caution: "Quote the figure only with the unit that the authors confirm.",
		Source: "SI Brochure, 9th ed.; standard acceleration of gravity: NIST SP 811"}, true
}

var unitSlip = Check{
	Name:   "unit-slip",
	Asks:   "Is a unit printed that cannot be the unit of this outcome?",
	Source: "SI Brochure, 9th ed.: torque is force times length",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		seen := map[string]bool{}
		for _, m := range c.Study.Measures {
			o, u := c.Catalog.Outcome(m.OutcomeID), c.Catalog.Unit(m.UnitID)
			if o == nil || u == nil || o.Quantity != "torque" || u.Quantity == "torque" || u.Quantity == "force" {
				continue
			}
			if seen[m.Unit] || u.Quantity == "toughness" || u.Quantity == "energy" {
				continue
			}
			seen[m.Unit] = true
			out = append(out, claims.Finding{Grade: claims.Query, Measures: []*claims.Measure{m}, Place: m.Place, Printed: m.Unit,
				Message: fmt.Sprintf("%s is printed in %s, which is not a unit of %s", m.Outcome, m.Unit, o.Quantity),
				Ask:     "In which unit was this measured?", Caution: "Do not compare these figures with those of other papers before the unit is clear."})
		}
		return out
	},
}

var granularity = Check{
	Name:   "mean-granularity",
	Asks:   "Can the mean of n whole numbers be what is printed?",
	Source: "Brown & Heathers 2017 Soc Psychol Personal Sci 8:363-369",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		for _, m := range c.Study.Measures {
			if !m.Stepped || !m.N.Known() || m.Place.Table == "" || m.Centre == claims.Median || !m.Doubt.Sure() || m.Adjusted {
				continue
			}
			p, ok := printed(m.Mean.Number)
			n := int(math.Round(m.N.Value))
			if !ok || n < 1 || n > 5000 {
				continue
			}
			g, err := infer.GranularityOfMean(p, infer.Grain{N: n})
			if err != nil || !g.Decidable || g.Possible {
				continue
			}
			f := claims.Finding{Grade: claims.Query, Measures: []*claims.Measure{m}, Place: m.Place, Printed: plainNumber(m.Mean.Number)}
			d := m.Mean.Decimals
			f.Recomputed = fmt.Sprintf("%.*f or %.*f", d, g.Below, d, g.Above)
			f.Message = fmt.Sprintf("%s: the mean %s of %d whole numbers cannot be reached; the nearest are %.*f and %.*f", armName(m), plainNumber(m.Mean.Number), n, d, g.Below, d, g.Above)
			f.Ask = "Were specimens left out, or values averaged before?"
			f.Caution = "n may be other than printed; the mean itself may stand."
			out = append(out, f)
		}
		if len(out) > mostGranular {
			return []claims.Finding{{Grade: claims.Query, Place: out[0].Place, Measures: out[0].Measures, Printed: out[0].Printed, Recomputed: out[0].Recomputed,
				Message: out[0].Message + fmt.Sprintf("; %d more means of this kind", len(out)-1), Ask: out[0].Ask, Caution: out[0].Caution}}
		}
		return out
	},
}

// mostGranular is how many impossible means are listed one by one: more of
// them mean that the values were no whole numbers, or n is another.
const mostGranular = 2

var spreadRange = Check{
	Name:   "spread-range",
	Asks:   "Do mean, spread, least and greatest value agree with one another?",
	Source: "Bhatia & Davis 2000 Am Math Mon 107:353-357; an SD is not negative",
	Run:    runSpreadRange,
}

// runSpreadRange holds each SD against the range printed beside it. The other
// rows of a table are the witness: one row that cannot be among rows that can
// is at odds; where the rows misfit together, the columns may be something
// else than they are called, which is one question, led by the row that
// misfits most.
func runSpreadRange(c *Case) []claims.Finding {
	type table struct {
		worst claims.Finding
		by    float64 // how many times too large or too small that spread is
		off   int
	}
	tables := map[string]*table{}
	var order []string
	for _, m := range c.Study.Measures {
		f, status, by := spreadAgainstRange(m)
		if status == rangeSilent {
			continue
		}
		key := m.Place.Table
		if tables[key] == nil {
			tables[key] = &table{}
			order = append(order, key)
		}
		if status == rangeOff {
			t := tables[key]
			if t.off++; t.off == 1 || by > t.by {
				t.worst, t.by = f, by
			}
		}
	}
	var out []claims.Finding
	for _, key := range order {
		t := tables[key]
		switch f := t.worst; t.off {
		case 0:
		case 1:
			out = append(out, f)
		default:
			f.Grade = claims.Query
			f.Message += fmt.Sprintf("; %d more of the table likewise", t.off-1)
			f.Ask = "Are the two figures the range, or the bounds of an interval; and is the figure beside the mean the standard deviation?"
			out = append(out, f)
		}
	}
	return out
}

// rangeStatus says how a spread stands to the range beside it.
type rangeStatus int

const (
	rangeSilent rangeStatus = iota // nothing to hold it against
	rangeFits
	rangeOff
)

// spreadAgainstRange also says by how many times a spread misses what the
// range allows; what cannot be at all misses by any number.
func spreadAgainstRange(m *claims.Measure) (f claims.Finding, status rangeStatus, by float64) {
	f = claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{m}, Place: m.Place, Printed: m.Text,
		Ask: "Which of these figures is as measured?", Caution: "Do not use the spread of this arm before it is cleared up."}
	if m.Spread.Value.Known() && m.Spread.Value.Value < 0 {
		f.Grade = claims.Query
		f.Message = fmt.Sprintf("%s: a spread of %s is printed; a standard deviation is not negative", armName(m), plainNumber(m.Spread.Value))
		return f, rangeOff, math.Inf(1)
	}
	if m.RangeWhy == "" || m.Place.Table == "" && m.Place.Section != "" {
		return f, rangeSilent, 0
	}
	low, high := m.Min, m.Max
	pl, ok1 := printed(low)
	ph, ok2 := printed(high)
	pm, ok3 := printed(m.Mean.Number)
	if !ok1 || !ok2 || !ok3 || ph.Value() < pl.Value() {
		return f, rangeSilent, 0
	}
	if pm.Interval().High < pl.Interval().Low || pm.Interval().Low > ph.Interval().High {
		if farOutside(m.Mean.Value, low.Value, high.Value) {
			return f, rangeSilent, 0 // the figures are not of one outcome
		}
		f.Message = fmt.Sprintf("%s: the %s %s lies outside the printed range %s to %s", armName(m), m.Centre, plainNumber(m.Mean.Number), plainNumber(low), plainNumber(high))
		return f, rangeOff, math.Inf(1)
	}
	if m.Centre == claims.Median || m.Spread.Kind != claims.SD || !m.N.Known() || m.N.Value < 2 {
		return f, rangeSilent, 0
	}
	ps, ok := printed(m.Spread.Value)
	if !ok {
		return f, rangeSilent, 0
	}
	r, err := infer.SDRange(pm, pl, ph, int(math.Round(m.N.Value)))
	if err != nil {
		return f, rangeSilent, 0
	}
	if r.Meets(ps.Interval()) {
		return f, rangeFits, 0
	}
	f.Recomputed = fmt.Sprintf("%s to %s", digits(r.Low), digits(r.High))
	n := math.Round(m.N.Value)
	width := high.Value - low.Value
	f.Message = fmt.Sprintf("%s: an SD of %s is printed for n = %d between %s and %s; ", armName(m), plainNumber(m.Spread.Value), int(n), plainNumber(low), plainNumber(high))
	if ps.Interval().High < r.Low {
		if need := 1 + width*width/(2*ps.Value()*ps.Value()); need < 2*n {
			f.Grade = claims.Query // with twice the n it would be possible: n may be another
		}
		f.Message += fmt.Sprintf("the least SD of a range of %s is %s/√(2(n−1)) = %s", digits(width), digits(width), fixed(width/math.Sqrt(2*(n-1)), m.Spread.Value.Decimals+1))
	} else {
		f.Message += fmt.Sprintf("the greatest SD of a range of %s is %s", digits(width), fixed(r.High, m.Spread.Value.Decimals+1))
	}
	return f, rangeOff, max(r.Low/ps.Value(), ps.Value()/r.High)
}

// farOutside reports a centre so far from the range that it is of something
// else: its distance is more than the range is wide.
func farOutside(centre, low, high float64) bool {
	width := high - low
	return centre < low-width || centre > high+width
}

var swappedSpread = Check{
	Name:   "mean-sd-swapped",
	Asks:   "Are mean and spread exchanged in one arm?",
	Source: "comparison with the other arms of the table (common practice)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		done := map[*claims.Measure]bool{}
		for _, m := range c.Study.Measures {
			if done[m] || m.Place.Table == "" || !m.Spread.Value.Known() || m.Change {
				continue
			}
			family := c.judge.family(m)
			for _, o := range family {
				done[o] = true
			}
			out = append(out, swappedIn(family)...)
		}
		return out
	},
}

// swappedIn asks about an arm whose spread exceeds its mean where every other
// arm has it the other way round by far, and where exchanging the two brings
// it among the others.
func swappedIn(family []*claims.Measure) []claims.Finding {
	if len(family) < 3 {
		return nil
	}
	var odd *claims.Measure
	low, high := math.Inf(1), 0.0
	for _, m := range family {
		if !m.Spread.Value.Known() || m.Mean.Value <= 0 {
			return nil
		}
		if m.Spread.Value.Value > m.Mean.Value {
			if odd != nil {
				return nil
			}
			odd = m
			continue
		}
		if m.Spread.Value.Value > m.Mean.Value/2 {
			return nil
		}
		low, high = math.Min(low, m.Mean.Value), math.Max(high, m.Mean.Value)
	}
	if odd == nil || odd.Mean.Value > odd.Spread.Value.Value/2 || odd.Spread.Value.Value < low/3 || odd.Spread.Value.Value > high*3 || odd.Mean.Value > low/2 {
		return nil
	}
	return []claims.Finding{{Grade: claims.Query, Measures: []*claims.Measure{odd}, Place: odd.Place, Printed: odd.Text,
		Message: fmt.Sprintf("%s: mean %s with spread %s; in the other arms the mean is by far the larger, from %s to %s. Mean and spread may be exchanged",
			armName(odd), plainNumber(odd.Mean.Number), plainNumber(odd.Spread.Value), digits(low), digits(high)),
		Ask: "Are mean and standard deviation of this arm exchanged?", Caution: "Do not use this arm's figures before it is cleared up."}}
}

var repeatedFigures = Check{
	Name:   "repeated-figures",
	Asks:   "Do two arms share mean and spread to the last digit?",
	Source: "comparison of the printed figures; with continuous data such a pair is rare (common practice)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		type print struct {
			family       familyKey
			mean, spread string
		}
		printed := map[print][]*claims.Measure{}
		for _, b := range c.Study.Measures {
			if !telling(b) {
				continue
			}
			key := print{familyOf(b), b.Mean.Text, b.Spread.Value.Text}
			for _, a := range printed[key] {
				if a.Arm == b.Arm {
					continue
				}
				if len(out) > mostQueries {
					return nil // whole columns repeat: a table read twice, or one group in two places
				}
				out = append(out, claims.Finding{Grade: claims.Query, Measures: []*claims.Measure{a, b}, Place: b.Place, Printed: b.Text,
					Message: fmt.Sprintf("%s and %s both print %s (%s)", armName(a), armName(b), plainNumber(a.Mean.Number), plainNumber(a.Spread.Value)),
					Ask:     "Was one of the two rows filled in twice?", Caution: "Do not use either arm before this is cleared up."})
			}
			if len(printed[key]) <= mostQueries { // of one arm so far: more of it would not change the answer
				printed[key] = append(printed[key], b)
			}
		}
		if len(out) > mostQueries {
			return nil // whole columns repeat: a table read twice, or one group in two places
		}
		return out
	},
}

// telling reports a measure with digits enough that chance hardly repeats them:
// three or more in the mean and two or more in the spread.
func telling(m *claims.Measure) bool {
	return m.Place.Table != "" && m.Doubt.Sure() && m.Spread.Value.Known() && significant(m.Mean.Number) >= 3 && significant(m.Spread.Value) >= 2 && !m.Stepped
}

// significant counts the digits of a number after its leading zeros.
func significant(n extract.Number) int {
	count := 0
	for _, r := range n.Text {
		if r >= '1' && r <= '9' || r == '0' && count > 0 {
			count++
		}
	}
	return count
}
