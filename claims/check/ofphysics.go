package check

import (
	"fmt"
	"math"
	"strings"

	"probity/claims"
	"probity/claims/interval"
	"probity/claims/physics"
)

// Outcome ids of the catalogue that the checks of physics speak of.
const (
	cyclesID    = "cycles-to-fracture"
	timeID      = "time-to-fracture"
	torqueID    = "torque-at-fracture"
	angleID     = "angle-at-fracture"
	toughnessID = "torsional-toughness"
)

// together lists the measures of one arm under one condition by outcome, for
// the outcomes asked, arm by arm in reading order.
func (c *Case) together(ids ...string) []map[string]*claims.Measure {
	type key struct {
		arm       *claims.Arm
		condition string
	}
	byKey := map[key]map[string]*claims.Measure{}
	var order []key
	for _, m := range c.Study.Measures {
		if m.Arm == nil || m.Place.Table == "" || m.Centre == claims.Median || m.Adjusted || m.Change {
			continue
		}
		for _, id := range ids {
			if m.OutcomeID != id {
				continue
			}
			k := key{m.Arm, m.Condition}
			if byKey[k] == nil {
				byKey[k] = map[string]*claims.Measure{}
				order = append(order, k)
			}
			if byKey[k][id] == nil {
				byKey[k][id] = m
			}
		}
	}
	var out []map[string]*claims.Measure
	for _, k := range order {
		if len(byKey[k]) == len(ids) {
			out = append(out, byKey[k])
		}
	}
	return out
}

var cyclesTime = Check{
	Name:   "cycles-time",
	Asks:   "Is the number of cycles the time to fracture times the speed of rotation?",
	Source: "cycles = seconds × rpm / 60, continuous rotation only (arithmetic)",
	Run:    runCyclesTime,
}

// A cycleRow is one arm's time and cycles.
type cycleRow struct {
	time, cycles *claims.Measure
	seconds      interval.Interval
	count        interval.Interval
	speeds       []float64 // rpm stated for this arm, or for all
}

func runCyclesTime(c *Case) []claims.Finding {
	var rows []cycleRow
	for _, m := range c.together(timeID, cyclesID) {
		row := cycleRow{time: m[timeID], cycles: m[cyclesID]}
		t, okT := printed(row.time.Mean.Number)
		n, okN := printed(row.cycles.Mean.Number)
		if !okT || !okN || row.time.Mean.Value <= 0 || row.cycles.Mean.Value <= 0 || reciprocates(row.time.Arm) {
			continue
		}
		k := 1.0
		if row.time.UnitID != "" && row.time.UnitID != "s" {
			var ok bool
			if k, ok = c.factor(row.time.UnitID, "s"); !ok {
				continue
			}
		}
		row.seconds = interval.Interval{Low: t.Interval().Low * k, High: t.Interval().High * k}
		row.count = n.Interval()
		if n.HasWide() {
			row.count = n.Wide().Interval()
		}
		for _, f := range c.facts("speed", row.time.Arm) {
			if f.Value.Value > 0 {
				row.speeds = append(row.speeds, f.Value.Value)
			}
		}
		rows = append(rows, row)
	}
	return append(c.cycleFindings(rows), oddSpeed(rows)...)
}

// oddSpeed asks about the one arm whose time and cycles imply another speed
// than all others do, where the paper states none.
func oddSpeed(rows []cycleRow) []claims.Finding {
	if len(rows) < 3 {
		return nil
	}
	for _, r := range rows {
		if len(r.speeds) > 0 {
			return nil
		}
	}
	// What all rows before each and all after it share.
	both := func(a, b interval.Interval) interval.Interval {
		return interval.Interval{Low: math.Max(a.Low, b.Low), High: math.Min(a.High, b.High)}
	}
	before, after := make([]interval.Interval, len(rows)+1), make([]interval.Interval, len(rows)+1)
	before[0], after[len(rows)] = interval.Interval{Low: 0, High: math.Inf(1)}, interval.Interval{Low: 0, High: math.Inf(1)}
	for i := range rows {
		k := len(rows) - 1 - i
		before[i+1], after[k] = both(before[i], rows[i].speedRange()), both(after[k+1], rows[k].speedRange())
	}
	for i, odd := range rows {
		shared := both(before[i], after[i+1])
		if shared.Low > shared.High || odd.speedRange().Meets(shared) {
			continue
		}
		return []claims.Finding{{Grade: claims.Query, Measures: []*claims.Measure{odd.time, odd.cycles}, Place: odd.cycles.Place,
			Printed: plainNumber(odd.cycles.Mean.Number), Recomputed: digits(odd.seconds.Mid() * shared.Mid() / 60),
			Message: fmt.Sprintf("%s: %s cycles in %s %s imply %s rpm; every other arm implies %s rpm, which gives %s", armName(odd.cycles), plainNumber(odd.cycles.Mean.Number),
				plainNumber(odd.time.Mean.Number), unitOr(odd.time.Unit, "s"), digits(odd.implied()), digits(shared.Mid()), digits(odd.seconds.Mid()*shared.Mid()/60)),
			Ask: "At which speed did each arm rotate?", Caution: "Quote the time, not the cycles, until this is cleared up."}}
	}
	return nil
}

// speedRange is every speed that leads from the time to the cycles within
// their rounding, half a cycle of counting allowed.
func (r cycleRow) speedRange() interval.Interval {
	low, err1 := physics.ImpliedSpeed(math.Max(0, r.count.Low-0.5), r.seconds.High)
	high, err2 := physics.ImpliedSpeed(r.count.High+0.5, math.Max(r.seconds.Low, 1e-9))
	if err1 != nil || err2 != nil {
		return interval.Interval{Low: 0, High: math.Inf(1)}
	}
	return interval.Interval{Low: low, High: high}
}

// fits gives a stated speed that leads from the time to the cycles.
func (r cycleRow) fits() (float64, bool) {
	for _, rpm := range r.speeds {
		// The cycles were computed from single times and then averaged and
		// rounded; half a cycle of slack covers counting in whole cycles.
		low, err1 := physics.Cycles(r.seconds.Low, rpm)
		high, err2 := physics.Cycles(r.seconds.High, rpm)
		if err1 == nil && err2 == nil && low-0.5 <= r.count.High && r.count.Low <= high+0.5 {
			return rpm, true
		}
	}
	return 0, false
}

func (c *Case) cycleFindings(rows []cycleRow) []claims.Finding {
	fit := 0
	var off []cycleRow
	for _, r := range rows {
		if len(r.speeds) == 0 {
			continue
		}
		if _, ok := r.fits(); ok {
			fit++
		} else {
			off = append(off, r)
		}
	}
	var out []claims.Finding
	for _, r := range off {
		rpm := r.nearest()
		expected, err := physics.Cycles(r.seconds.Mid(), rpm)
		if err != nil {
			continue
		}
		f := claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{r.time, r.cycles}, Place: r.cycles.Place,
			Printed: plainNumber(r.cycles.Mean.Number), Recomputed: digits(expected)}
		f.Message = fmt.Sprintf("%s: %s cycles printed, %s %s at %s rpm gives %s", armName(r.cycles), plainNumber(r.cycles.Mean.Number),
			plainNumber(r.time.Mean.Number), unitOr(r.time.Unit, "s"), digits(rpm), digits(expected))
		f.Ask = "At which speed did this arm rotate, and how were its cycles counted?"
		f.Caution = "Quote the time, not the cycles, until this is cleared up."
		if fit == 0 || len(r.speeds) > 1 {
			f.Grade = claims.Query
			f.Message += fmt.Sprintf("; the printed figures imply %s rpm", digits(r.implied()))
		}
		out = append(out, f)
		if fit == 0 {
			break // one question for the whole table
		}
	}
	return out
}

// nearest is the stated speed that comes closest.
func (r cycleRow) nearest() float64 {
	best, implied := r.speeds[0], r.implied()
	for _, s := range r.speeds {
		if math.Abs(s-implied) < math.Abs(best-implied) {
			best = s
		}
	}
	return best
}

// implied is the speed that leads from the time to the cycles, 0 if none.
func (r cycleRow) implied() float64 {
	rpm, err := physics.ImpliedSpeed(r.cycles.Mean.Value, r.seconds.Mid())
	if err != nil {
		return 0
	}
	return rpm
}

func unitOr(unit, usual string) string {
	if unit == "" {
		return usual
	}
	return unit
}

func reciprocates(a *claims.Arm) bool {
	for _, w := range a.Class {
		if strings.Contains(foldWord(w), "reciproc") {
			return true
		}
	}
	return false
}

// facts lists what the paper says of a condition for one arm: what is said of
// that arm, else what is said of all.
func (c *Case) facts(id string, arm *claims.Arm) []claims.Fact {
	mine, all := c.judge.said(id, arm)
	if len(mine) > 0 {
		return mine
	}
	return all
}

var toughnessBound = Check{
	Name:   "toughness-bound",
	Asks:   "Is the energy to fracture within maximum torque times angle?",
	Source: "area under the torque–angle curve: at most T·θ with θ in radians (arithmetic)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		checked := 0
		for _, m := range c.together(torqueID, angleID, toughnessID) {
			f, known := c.toughness(m[torqueID], m[angleID], m[toughnessID])
			if known {
				checked++
			}
			if f != nil {
				out = append(out, *f)
			}
		}
		if len(out) == checked && checked > 1 {
			// All arms alike: degrees in place of radians, or another definition.
			first := out[0]
			first.Grade = claims.Query
			first.Message += "; all arms of the table are alike, so the angle may have been taken in degrees"
			return []claims.Finding{first}
		}
		return out
	},
}

func (c *Case) toughness(torque, angle, energy *claims.Measure) (*claims.Finding, bool) {
	t, ok1 := c.base(torque, "torque", "N.cm")
	a, ok2 := c.base(angle, "angle", "deg")
	w, ok3 := c.base(energy, "", "")
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	const degree = math.Pi / 180
	most, err1 := physics.EnergyBound(t.High, a.High/degree)
	bound, err2 := physics.EnergyBound(t.Mid(), a.Mid()/degree)
	if err1 != nil || err2 != nil || w.Low <= most {
		return nil, err1 == nil && err2 == nil
	}
	bound /= c.Catalog.Unit(energy.UnitID).Factor
	return &claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{energy, torque, angle}, Place: energy.Place,
		Printed: plainNumber(energy.Mean.Number), Recomputed: "at most " + digits(bound),
		Message: fmt.Sprintf("%s: %s %s of toughness printed, %s %s through %s %s gives at most %s", armName(energy), plainNumber(energy.Mean.Number), energy.Unit,
			plainNumber(torque.Mean.Number), torque.Unit, plainNumber(angle.Mean.Number), unitOr(angle.Unit, "°"), digits(bound)),
		Ask: "In which units were torque and angle when the area was taken?", Caution: "Do not quote the toughness of this arm before it is cleared up."}, true
}

// base brings a measure to the base unit of its quantity, with its rounding;
// usual is the unit taken where none is printed.
func (c *Case) base(m *claims.Measure, quantity, usual string) (interval.Interval, bool) {
	id := m.UnitID
	if id == "" && m.Unit == "" {
		id = usual
	}
	u := c.Catalog.Unit(id)
	p, ok := printed(m.Mean.Number)
	if u == nil || !ok || u.Offset != 0 || quantity != "" && u.Quantity != quantity {
		return interval.Interval{}, false
	}
	return interval.Interval{Low: p.Interval().Low * u.Factor, High: p.Interval().High * u.Factor}, true
}
