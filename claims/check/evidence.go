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
	two     []test // of the two arms alone, Welch's first
	assumed bool   // an unlabelled spread was taken as an SD

	boxes  []interval.ArmBox // the family, where it has three arms or more
	ia, ib int               // the two arms in it
	all    []test            // all tests, once someone asked for them
}

// tests gives every test of the pair: of the two arms alone, and those that
// use all arms of the outcome. The latter are computed when first asked for:
// most pairs are decided without.
func (c *comparison) tests() []test {
	if c.all == nil {
		c.all = append(c.all, c.two...)
		for _, name := range []string{tukeyTest, pooledTest, bonferroniTest} {
			if t, ok := c.ofFamily(name); ok {
				c.all = append(c.all, t)
			}
		}
	}
	return c.all
}

// The tests that use all arms of an outcome.
const (
	tukeyTest      = "Tukey test"
	pooledTest     = "pooled t test"
	bonferroniTest = "Bonferroni"
)

func (c *comparison) ofFamily(name string) (test, bool) {
	if c.boxes == nil {
		return test{}, false
	}
	switch name {
	case tukeyTest:
		r, err := infer.TukeyRange(c.boxes, c.ia, c.ib)
		return test{name: name, r: r, stat: "q"}, err == nil
	case pooledTest:
		r, ok := pooled(c.boxes, c.ia, c.ib)
		return test{name: name, r: r, stat: "t"}, ok
	case bonferroniTest:
		m := c.k * (c.k - 1) / 2
		return test{name: name, r: times(c.two[0].r, m), stat: "t", bonf: m}, true
	}
	return test{}, false
}

// compare recomputes a pair with every test that may stand behind it. The
// second result says what is missing.
func (j *judge) compare(p claims.Pair) (*comparison, string) {
	key := [2]*claims.Measure{p.A, p.B}
	if done, ok := j.compared[key]; ok {
		return done.comparison, done.missing
	}
	c, missing := j.compareAnew(p)
	j.compared[key] = compared{c, missing}
	return c, missing
}

func (j *judge) compareAnew(p claims.Pair) (*comparison, string) {
	a, why := groupOf(p.A)
	if why != "" {
		return nil, why
	}
	b, why := groupOf(p.B)
	if why != "" {
		return nil, why
	}
	if p.A.UnitID != "" && p.B.UnitID != "" && p.A.UnitID != p.B.UnitID && p.A.Scale == p.B.Scale {
		return nil, "the two figures have different units"
	}
	return j.compareGroups(a, b)
}

func (j *judge) compareGroups(a, b group) (*comparison, string) {
	out := &comparison{a: a, b: b, k: 2, assumed: a.assumed || b.assumed}
	welch, err := infer.WelchRange(a.box, b.box)
	if err != nil {
		return nil, err.Error()
	}
	out.two = append(out.two, test{name: "Welch t test", r: welch, stat: "t"})
	if student, err := infer.StudentRange(a.box, b.box); err == nil {
		out.two = append(out.two, test{name: "Student t test", r: student, stat: "t"})
	}
	if sameFamily(a.measure, b.measure) {
		out.withFamily(j.family(a.measure))
	}
	out.primary = j.primary(out)
	return out, ""
}

// primary is the test that the paper names, Welch's where it names none that
// can be recomputed.
func (j *judge) primary(c *comparison) test {
	for _, named := range []struct{ id, name string }{{"tukey", tukeyTest}, {"bonferroni", bonferroniTest}, {"lsd", pooledTest}} {
		if !j.design.named[named.id] {
			continue
		}
		if t, ok := c.ofFamily(named.name); ok {
			return t
		}
	}
	if j.design.named["student-t"] && len(c.two) > 1 {
		return c.two[1]
	}
	return c.two[0]
}

// withFamily keeps the arms of the outcome for the tests that use them all.
func (c *comparison) withFamily(measures []*claims.Measure) {
	if len(measures) < 3 || len(measures) > mostArms {
		return
	}
	groups, missing := groupsOf(measures)
	if missing != "" {
		return
	}
	ia, ib := -1, -1
	for i, g := range groups {
		switch g.measure {
		case c.a.measure:
			ia = i
		case c.b.measure:
			ib = i
		}
	}
	if ia < 0 || ib < 0 || ia == ib {
		return
	}
	c.boxes, c.ia, c.ib, c.k = boxesOf(groups), ia, ib, len(groups)
}

// mostArms is the most arms that one test of a table is tried over.
const mostArms = 40

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
func (c *comparison) every(alpha float64, side infer.Side) bool {
	for _, t := range c.two { // the cheap ones first
		if t.side(alpha) != side {
			return false
		}
	}
	for _, t := range c.tests() {
		if t.side(alpha) != side {
			return false
		}
	}
	return true
}

// strictest is the greatest p that the strictest correction allows.
func (c *comparison) strictest() float64 {
	all := c.tests()
	return all[len(all)-1].r.High.Value
}

// some returns the first test that lies wholly on the side.
func (c *comparison) some(alpha float64, side infer.Side) (test, bool) {
	for _, t := range append([]test{c.primary}, c.tests()...) {
		if t.side(alpha) == side {
			return t, true
		}
	}
	return test{}, false
}

// pair writes both arms as they go into a test: "702.3 (106.8), n = 12 and …".
func (c *comparison) pair() string { return c.a.text() + " and " + c.b.text() }

func (g group) text() string {
	m := g.measure
	if m.Scale.Factor > 0 {
		return fmt.Sprintf("%s %s %s (SD %s), n = %d", armName(m), digits(g.box.Arm.Mean), m.Scale.Unit, digits(g.box.Arm.SD), g.box.Arm.N)
	}
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
