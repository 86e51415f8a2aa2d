// Package role says what each number of running text is: a level of an
// outcome, a change, a p value, a dose, a citation, part of a name.
//
//	text → []Number, each with a choice of roles and the reasons for it
//
// It comes before anything is paired: only like may be compared with like, and
// a dose beside a citation is no pair of means. Every number is read; those
// that cannot be told from their words and form keep two roles and a narrow
// gap between them.
package role

import (
	"probity/claims/catalog"
	"probity/claims/reading"
)

// A Role is what a number of running text is. Zero: nothing was read.
type Role uint8

// The roles. Those up to Ratio may be paired, like with like.
const (
	NotKnown   Role = iota
	Level           // a mean, median or value of an outcome
	Share           // a percentage or part of people or specimens
	Change          // a difference or change in the outcome's unit
	Percent         // a relative or point difference in %
	Ratio           // "2.3-fold", "twice", "a quarter of"
	P               // a p value
	Alpha           // a level of significance
	Statistic       // t, F, χ², z, r, U, H, κ
	DF              // degrees of freedom
	Effect          // OR, RR, HR, d, β, η²
	Bound           // a bound of a confidence interval
	Confidence      // the 95 of "95 % CI"
	RangeEnd        // a minimum, maximum, quartile, an end of a scale
	Spread          // an SD, SE, CV
	N               // the size of a group, of a sample
	Count           // k of N, events
	Total           // the N of a count
	Dose            // a dose, size, speed, temperature, concentration: what was set
	TimePoint       // "at 6 months"
	Duration        // "for 8 weeks"
	Threshold       // a criterion, a cut-off, a margin
	Year
	Citation
	Clock // a time of day, mm:ss
	Money
	Name  // part of a name: "Group 2", "Table 3", "HbA1c"
	Other // a list number, an exponent, "two groups"
	roles
)

var names = [roles]string{"", "level", "share", "change", "percent-claim", "ratio-claim", "p", "alpha", "statistic", "df", "effect", "ci-bound",
	"level-of-confidence", "range-bound", "spread", "n", "count", "total", "dose", "time-point", "duration", "threshold", "year", "citation",
	"clock", "money", "name", "other"}

// String gives the word of the audit format.
func (r Role) String() string { return names[r] }

// Pairable reports whether a number of that role may be one side of a
// comparison.
func (r Role) Pairable() bool { return r >= Level && r <= Ratio }

// A Number is one number of a text, a digit string or a number word.
type Number struct {
	Start, End int     // bytes of the text, without sign, unit and %
	Value      float64 // the sign included
	Decimals   int
	Word       bool // "two", "half"
	Percent    bool // a % stands behind it, or behind the list it is in
	Unit       string
	Role       reading.Choice[Role]
	Lead       float64 // by how much Level or Share is more likely than every other role
}

// Numbers reads every number of a text, in order.
func Numbers(text string, cat *catalog.Catalog) []Number {
	c := newContext(text, lexiconOf(cat))
	if len(c.nums) == 0 {
		return nil
	}
	for i := range c.nums {
		for _, r := range rules {
			r(c, i)
		}
	}
	c.agree()
	out := make([]Number, len(c.nums))
	for i := range c.nums {
		n := &c.nums[i]
		t := &c.toks[n.tok]
		out[i] = Number{Start: t.start, End: t.end, Value: n.value, Decimals: n.decimals, Word: n.word, Percent: n.pct, Unit: n.unitText, Role: n.ballot.Choose(), Lead: lead(&n.ballot)}
	}
	return out
}

// lead tells figures of an outcome from all else: whether one is a level or a
// share of specimens is another question than whether it is a figure at all.
func lead(b *reading.Ballot[Role]) float64 {
	figure, other := 0.0, 0.0
	for _, c := range b.Candidates {
		if c.Value == Level || c.Value == Share {
			figure = max(figure, c.Score)
		} else {
			other = max(other, c.Score)
		}
	}
	return figure - other
}
