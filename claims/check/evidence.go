package check

import (
	"fmt"
	"math"

	"probity/claims"
	"probity/claims/infer"
	"probity/claims/interval"
)

// A test is what one test of means gives for a pair or a family, with the
// whole range that rounding allows.
type test struct {
	name  string
	r     infer.Range
	stat  string // "t", "F", "q"
	value float64
	df    string
	bonf  int // comparisons that p was multiplied for; 0 and 1: none
}

func (t test) side(alpha float64) infer.Side { return t.r.Side(alpha) }

func (t test) String() string {
	s := fmt.Sprintf("%s %s", t.name, pText(t.r.Point.Value))
	low, high := t.r.Low.Value, t.r.High.Value
	if high-low > 0.02 || high > 10*low && high > 1e-4 {
		s += fmt.Sprintf(" (%s to %s within rounding)", pNumber(low), pNumber(high))
	}
	return s
}

func pNumber(p float64) string { return pText(p)[len("p = "):] }

// A comparison is every test of means that could stand behind a statement on
// one pair, with what the figures allow.
type comparison struct {
	a, b    group
	k       int    // arms in the family
	primary test   // the test the paper names, or Welch
	all     []test // the primary first
	assumed bool   // an unlabelled spread was taken as an SD
}

// compare recomputes a pair with every test that may stand behind it. The
// second result says what is missing.
func (j *judge) compare(p claims.Pair) (comparison, string) {
	a, why := groupOf(p.A)
	if why != "" {
		return comparison{}, why
	}
	b, why := groupOf(p.B)
	if why != "" {
		return comparison{}, why
	}
	if p.A.UnitID != "" && p.B.UnitID != "" && p.A.UnitID != p.B.UnitID {
		return comparison{}, "the two figures have different units"
	}
	return j.compareGroups(a, b)
}

func (j *judge) compareGroups(a, b group) (comparison, string) {
	out := comparison{a: a, b: b, k: 2, assumed: a.assumed || b.assumed}
	welch, err := infer.WelchRange(a.box, b.box)
	if err != nil {
		return out, err.Error()
	}
	out.all = append(out.all, test{name: "Welch t test", r: welch, stat: "t"})
	if student, err := infer.StudentRange(a.box, b.box); err == nil {
		out.all = append(out.all, test{name: "Student t test", r: student, stat: "t"})
	}
	if sameFamily(a.measure, b.measure) {
		out.withFamily(j.family(a.measure))
	}
	out.primary = out.all[0]
	for _, id := range []struct{ id, name string }{{"tukey", "Tukey test"}, {"bonferroni", "Bonferroni"}, {"lsd", "pooled t test"}, {"student-t", "Student t test"}} {
		if !j.design.named[id.id] {
			continue
		}
		for _, t := range out.all {
			if t.name == id.name {
				out.primary = t
				return out, ""
			}
		}
	}
	return out, ""
}

// withFamily adds the tests that use all arms of the outcome: Tukey, the
// pooled t test (least significant difference) and Bonferroni.
func (c *comparison) withFamily(measures []*claims.Measure) {
	groups, missing := groupsOf(measures)
	if missing != "" || len(groups) < 3 || len(groups) > 40 {
		return
	}
	boxes := make([]interval.ArmBox, len(groups))
	at := map[*claims.Measure]int{}
	for i, g := range groups {
		boxes[i] = g.box
		at[g.measure] = i
	}
	i, okA := at[c.a.measure]
	k, okB := at[c.b.measure]
	if !okA || !okB || i == k {
		return
	}
	c.k = len(groups)
	if r, err := infer.TukeyRange(boxes, i, k); err == nil {
		c.all = append(c.all, test{name: "Tukey test", r: r, stat: "q"})
	}
	if r, ok := pooled(boxes, i, k); ok {
		c.all = append(c.all, test{name: "pooled t test", r: r, stat: "t"})
	}
	welch := c.all[0].r
	m := len(groups) * (len(groups) - 1) / 2
	c.all = append(c.all, test{name: "Bonferroni", r: times(welch, m), stat: "t", bonf: m})
}

// pooled is the t test of one pair with the SD pooled over all arms (Fisher's
// least significant difference): t = q/√2 of the same pair.
func pooled(boxes []interval.ArmBox, i, k int) (infer.Range, bool) {
	q, df, err := infer.TukeyQ(boxes, i, k)
	if err != nil {
		return infer.Range{}, false
	}
	t := interval.Interval{Low: q.Low / math.Sqrt2, High: q.High / math.Sqrt2}
	high, err1 := infer.TwoSidedT(t.Low, df)
	low, err2 := infer.TwoSidedT(t.High, df)
	point, err3 := infer.TwoSidedT(t.Mid(), df)
	if err1 != nil || err2 != nil || err3 != nil {
		return infer.Range{}, false
	}
	return infer.Range{Statistic: t, Point: point, Low: low, High: high}, true
}

// times multiplies every p of a range by m, at most to 1.
func times(r infer.Range, m int) infer.Range {
	r.Low, r.Point, r.High = timesP(r.Low, m), timesP(r.Point, m), timesP(r.High, m)
	return r
}

func timesP(p infer.P, m int) infer.P {
	p.Value = math.Min(1, p.Value*float64(m))
	p.Log10 = math.Min(0, p.Log10+math.Log10(float64(m)))
	return p
}

// every reports whether all tests lie wholly on the side.
func (c comparison) every(alpha float64, side infer.Side) bool {
	for _, t := range c.all {
		if t.side(alpha) != side {
			return false
		}
	}
	return true
}

// some returns the first test that lies wholly on the side.
func (c comparison) some(alpha float64, side infer.Side) (test, bool) {
	for _, t := range append([]test{c.primary}, c.all...) {
		if t.side(alpha) == side {
			return t, true
		}
	}
	return test{}, false
}

// pair writes both arms as they go into a test: "702.3 (106.8), n = 12 and …".
func (c comparison) pair() string { return c.a.text() + " and " + c.b.text() }

func (g group) text() string {
	m := g.measure
	return fmt.Sprintf("%s %s (%s), n = %d", armName(m), plainNumber(m.Mean.Number), spreadText(m), g.box.Arm.N)
}

func spreadText(m *claims.Measure) string {
	if m.Spread.Low.Known() {
		return plainNumber(m.Spread.Low) + " to " + plainNumber(m.Spread.High)
	}
	s := plainNumber(m.Spread.Value)
	switch m.Spread.Kind {
	case claims.SE:
		return "SE " + s
	case claims.NotStated:
		return "± " + s
	}
	return s
}
