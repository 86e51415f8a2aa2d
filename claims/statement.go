package claims

import (
	"slices"

	"probity/claims/reading"
	"probity/extract"
)

// Kind is the kind of a statement, in the words of the audit format.
type Kind string

// The kinds of statement.
const (
	Percent       Kind = "percent"
	Fold          Kind = "fold"
	Difference    Kind = "difference"
	Significance  Kind = "significance"
	NoDifference  Kind = "no-difference"
	Ranking       Kind = "ranking"
	TestStatistic Kind = "test-statistic"
)

// Direction says which way a statement points. Zero: not stated.
type Direction int

// The directions of a statement: of the printed figures, not of merit.
const (
	Lower             Direction = -1
	DirectionNotGiven Direction = 0
	Higher            Direction = 1
)

// String gives the word of the audit format, "" when no direction was stated.
func (d Direction) String() string {
	switch {
	case d < 0:
		return "lower"
	case d > 0:
		return "higher"
	}
	return ""
}

// Form is the arithmetic that the words of a percent or fold claim imply.
type Form int

// The forms of percent and fold claims.
const (
	FormNotKnown Form = iota
	Change            // P % more or less than, from … to (a P % rise)
	Share             // P % of
	Points            // percentage points, "an absolute reduction of P %"
	Times             // k times as … as, k-fold, twice, half
	TimesMore         // "k times more than": k for most readers, 1+k for some
	TimesLess         // "k times less than": 1/k for most, undefined for others
)

// A Statement is one comparative statement of one sentence. A sentence that
// makes several statements gives several, each with its own Value.
type Statement struct {
	ID        string // "s1", in reading order
	Text      string // the sentence, untouched
	Place     extract.Place
	Kind      Kind
	Own       bool
	WhyNotOwn string // "cited work", "power calculation", "method" …
	Hedged    bool   // "may", "seems", "suggests", "tended to"

	Subject   Party // A in "A lasted longer than B"; the last value of "from … to"
	Reference Party // B; the first value of "from … to"; empty Text when only implied
	Others    []Party
	Outcome   string   // as printed in the sentence
	OutcomeID string   // catalogue id
	Outcomes  []string // every outcome id the sentence covers, when several
	Condition string   // "at 3 months", "in the apical third", as printed

	Direction Direction
	Rate      bool // the adjective inverts a time: twice as fast is half the time, by definition
	Inverts   bool // the adjective inverts the measured outcome (more flexible: lower bending load)

	Form      Form
	Orderless bool           // "a threefold difference between A and B": neither side leads
	Printed   string         // "19%", "2.5-fold", "P < 0.001", "F(5,102) = 68.31"
	Value     extract.Number // 19; its Relation holds "about", "more than", "up to"
	High      extract.Number // the upper figure of a range, "50–92%"
	Unit      string         // "%", "x", or the unit of a difference
	Scale     Scale          // of a difference: to the unit of the figures it is held against
	Word      bool           // a number word: "twice", "half", "a third"
	Most      bool           // "up to", "as much as": the greatest of several
	Adjusted  bool           // said of adjusted means
	Median    bool           // said of medians
	BeforeTo  bool           // before–after within the same specimens
	Pooled    bool           // several arms on one side: "all heat-treated instruments"

	A, B Figure // the figures in the sentence (or the one before) that it compares: A of the subject, B of the reference

	P           extract.Number // the p printed for it
	Stat        *Statistic     // for test statistics
	Significant *bool          // nil: not stated
	Equal       bool           // "equivalent", "the same", "as good as"
	Alpha       extract.Number // a level named in the sentence

	Order []Party // ranking: from the first named, with Relations between neighbours
	Than  []int   // len(Order)-1: +1 the left is higher, 0 equal, -1 lower

	Pairs []Pair   // the comparisons it makes between measures of the study
	Rests []string // the words the reading rests on, in order
	Why   string   // when it could not be tied: what is missing

	Doubt reading.Doubt // what may make its figures others than those it compares
}

// A Party is one side of a comparison as the sentence names it.
type Party struct {
	Text  string // as printed; may be empty
	Arms  []*Arm // the arms it resolves to
	All   bool   // "the other groups", "all groups"
	Level string // a time point or condition on this side: "baseline", "37 °C"
	Class string // "heat-treated instruments"
}

// A Figure is a value in running text on one side of a comparison.
type Figure struct {
	Number  extract.Number
	High    extract.Number // upper end where a range stands for the value
	Spread  Spread
	N       extract.Number
	Unit    string
	Scale   Scale    // to the unit of the figure it is compared with
	Measure *Measure // the measure made from it, if any
}

// A Scale brings figures as printed to the unit of those they are compared
// with: 10 min under {60, "s"} is 600 s, 570 to 630 within its rounding. The
// zero Scale leaves them as they are.
type Scale struct {
	Factor float64
	Unit   string
}

// Known reports whether the figure was printed.
func (f Figure) Known() bool { return f.Number.Known() }

// A Statistic is a printed test statistic with its degrees of freedom and p.
type Statistic struct {
	Name  string // "F", "t", "chi2", "U", "H", "z", "r", "q"
	Value extract.Number
	DF    []extract.Number
	P     extract.Number
}

// A Pair is one comparison of two measures that a statement makes: A of the
// subject, B of the reference.
type Pair struct {
	A, B *Measure
	Tie  reading.Doubt // what may make another pair the one that is meant
}

// Doubt is what may make the pair another than the one that is meant, or its
// figures others than those that are printed.
func (p Pair) Doubt() reading.Doubt {
	out := slices.Clone(p.Tie)
	for _, m := range [...]*Measure{p.A, p.B} {
		if m != nil {
			out.Join(m.Doubt)
		}
	}
	return out
}

// Sure reports a pair that nothing speaks against.
func (p Pair) Sure() bool {
	return p.Tie.Sure() && (p.A == nil || p.A.Doubt.Sure()) && (p.B == nil || p.B.Doubt.Sure())
}
