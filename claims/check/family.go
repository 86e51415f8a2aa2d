package check

import (
	"fmt"
	"math"

	"probity/claims"
	"probity/claims/infer"
	"probity/claims/interval"
	"probity/extract"
)

// A group is one arm's figures ready for a test: the box that rounding allows.
type group struct {
	measure *claims.Measure
	box     interval.ArmBox
	assumed bool // the spread is not labelled and was taken as an SD
}

// groupOf prepares a measure for a test of means. The second result says what
// is missing.
func groupOf(m *claims.Measure) (group, string) {
	switch {
	case m == nil:
		return group{}, "a figure is not printed"
	case m.Centre == claims.Median:
		return group{}, "medians cannot bring a test of means back"
	case !m.N.Known():
		return group{}, "n is not printed for " + armName(m)
	case m.N.Value < 2:
		return group{}, fmt.Sprintf("n = %s for %s: one specimen has no spread, and allows no test", plainNumber(m.N.Number), armName(m))
	}
	mean, ok := printed(m.Mean.Number)
	if !ok {
		return group{}, "the mean of " + armName(m) + " is not readable"
	}
	sd, point, ok := sdBox(m)
	if !ok {
		return group{}, "no SD is printed for " + armName(m)
	}
	g := group{measure: m, assumed: m.Spread.Kind == claims.NotStated}
	g.box = interval.ArmBox{
		Arm:  interval.Arm{Mean: m.Mean.Value, SD: point, N: int(math.Round(m.N.Value))},
		Mean: mean.Interval(), SD: sd,
	}
	g.bring(m.Scale)
	if err := g.box.Check(); err != nil {
		return group{}, err.Error()
	}
	return g, ""
}

// bring multiplies a group with its scale, rounding and all.
func (g *group) bring(scale claims.Scale) {
	k := scale.Factor
	if k == 0 {
		return
	}
	g.box.Arm.Mean, g.box.Arm.SD = g.box.Arm.Mean*k, g.box.Arm.SD*k
	for _, b := range []*interval.Interval{&g.box.Mean, &g.box.SD} {
		*b = interval.Interval{Low: b.Low * k, High: b.High * k}
	}
}

// sdBox is the SD of a measure within the rounding of what is printed, and as
// printed: an SE or a 95 % interval is brought to an SD with n. An unlabelled
// spread is taken as an SD here; whoever uses it says so.
func sdBox(m *claims.Measure) (box interval.Interval, point float64, ok bool) {
	n := m.N.Value
	switch m.Spread.Kind {
	case claims.SD, claims.NotStated:
		return scaled(m.Spread.Value, 1)
	case claims.SE:
		return scaled(m.Spread.Value, math.Sqrt(n))
	case claims.CI95:
		low, ok1 := printed(m.Spread.Low)
		high, ok2 := printed(m.Spread.High)
		t, err := infer.TCritical(0.05, n-1)
		if !ok1 || !ok2 || err != nil {
			return box, 0, false
		}
		k := math.Sqrt(n) / (2 * t)
		box.Low = math.Max(0, (high.Interval().Low-low.Interval().High)*k)
		box.High = (high.Interval().High - low.Interval().Low) * k
		return box, (high.Value() - low.Value()) * k, high.Value() > low.Value()
	}
	return box, 0, false
}

func scaled(n extract.Number, k float64) (box interval.Interval, point float64, ok bool) {
	p, ok := printed(n)
	if !ok || n.Value < 0 {
		return box, 0, false
	}
	box = p.Interval()
	return interval.Interval{Low: math.Max(0, box.Low) * k, High: box.High * k}, n.Value * k, true
}

// asSE gives the group that results if the unlabelled spread were a standard
// error.
func (g group) asSE() group {
	k := math.Sqrt(float64(g.box.Arm.N))
	g.box.SD = interval.Interval{Low: g.box.SD.Low * k, High: g.box.SD.High * k}
	g.box.Arm.SD *= k
	return g
}

// sameFamily reports whether two measures are the same outcome under the same
// condition in one table (or both in prose): arms that one test would compare.
func sameFamily(a, b *claims.Measure) bool {
	return familyOf(a) == familyOf(b)
}

// family lists the measures that one test of m's outcome would compare, one
// an arm, m's arm among them. Prose measures have no family of their own.
func (j *judge) family(m *claims.Measure) []*claims.Measure {
	if m.Place.Table == "" {
		return []*claims.Measure{m}
	}
	of := familyOf(m)
	if done, ok := j.families[of]; ok {
		return done
	}
	if j.members == nil {
		j.members = map[familyKey][]*claims.Measure{}
		for _, o := range j.study.Measures {
			if o.Place.Table != "" && !isTotal(o) {
				j.members[familyOf(o)] = append(j.members[familyOf(o)], o)
			}
		}
	}
	var out []*claims.Measure
	seen := map[string]bool{}
	for _, o := range j.members[of] {
		key := armName(o)
		if seen[key] {
			continue
		}
		seen[key] = true
		out = append(out, o)
	}
	j.families[of] = out
	return out
}

// isTotal reports whether a row is a total over the arms, not an arm.
func isTotal(m *claims.Measure) bool {
	switch foldWord(m.ArmText) {
	case "total", "all", "overall", "mean", "sum":
		return true
	}
	return false
}

// groupsOf prepares a whole family; the second result says what is missing.
func groupsOf(measures []*claims.Measure) ([]group, string) {
	var out []group
	for _, m := range measures {
		g, missing := groupOf(m)
		if missing != "" {
			return nil, missing
		}
		out = append(out, g)
	}
	return out, ""
}
