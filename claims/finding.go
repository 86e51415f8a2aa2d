package claims

import (
	"probity/claims/reading"
	"probity/extract"
)

// Verdict is what recomputing a statement showed, in the words of the audit
// format. The zero value is "not checkable".
type Verdict int

// The verdicts.
const (
	NotCheckable Verdict = iota
	Reproduces           // a sum was done, and it meets what is printed
	Agrees               // nothing could be recomputed; the paper's own p, letters or marks agree
	OtherBase
	Reversed
	DoesNotReproduce
)

var verdictNames = [...]string{"not-checkable", "reproduces", "agrees", "other-base", "reversed", "does-not-reproduce"}

// String gives the word of the audit format.
func (v Verdict) String() string { return verdictNames[v] }

// Base is the base on which a printed percentage or fold is recomputed, in
// the words of the audit format.
type Base string

// The bases.
const (
	OnReference Base = "reference"
	OnSubject   Base = "subject"
	OnRatio     Base = "ratio"
	OnPoints    Base = "points"
	OnMidpoint  Base = "midpoint"
	OnLog       Base = "log"
	OnAdjusted  Base = "adjusted"
)

// A Recalculation is one value recomputed from printed figures, with the
// whole range that their rounding allows.
type Recalculation struct {
	Base      Base
	Method    string  // "Welch t test", "percent change"
	Value     float64 // from the figures as they stand
	Low, High float64 // from all they may have been rounded from
	Fits      bool    // the printed value lies in the range
}

// A Judgement is the verdict on one statement with all it rests on.
type Judgement struct {
	Statement  *Statement
	Verdict    Verdict
	Base       Base
	Measures   []*Measure
	Recomputed []Recalculation
	Why        string        // one plain sentence with the figures used
	May        string        // a sentence that may be said to an audience, "" if none
	Doubt      reading.Doubt // what may make a misfit our reading: it is asked about at most
}

// Grade says how firmly a finding stands.
type Grade string

// The grades, firmest first.
const (
	AtOdds  Grade = "at-odds" // follows from printed figures with certainty
	Query   Grade = "query"   // two readings, or a likely slip: to ask
	Caution Grade = "caution" // the figures may be right; the wording goes further than they carry
)

// A Finding is one matter to know, to ask or to be careful about.
type Finding struct {
	ID         string
	Check      string // the name of the check
	Grade      Grade
	Statement  *Statement // nil: about figures, not about a sentence
	Measures   []*Measure
	Place      extract.Place
	Printed    string
	Recomputed string
	Message    string
	Caution    string // what a clinician should (not) say
	Ask        string // what to ask the authors
	Source     string // the method's citation
}

// MayBeSaid is the name of the sum that is a sentence for an audience.
const MayBeSaid = "may be said"

// A Sum is one line of a recalculation as a person reads it.
type Sum struct {
	Name   string // "ratio of means"
	Text   string // "1.194, 95 % CI 1.007 to 1.417 (log, separate variances, t with 18.67 df)"
	Source string
}
