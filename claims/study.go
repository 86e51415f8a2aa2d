// Package claims holds the nouns of assertion: which arms a paper has, what
// was measured in them, what its authors say about it, and what was found
// when their figures were recomputed.
//
//	extract.Document → Study{Arms, Measures, Results, Statements} → Judgements, Findings
//
// A zero value always means "not known": an unlabelled ± is NotStated, a
// verdict starts as NotCheckable and then says what is missing.
package claims

import (
	"probity/claims/reading"
	"probity/extract"
)

// A Study is one paper as understood.
type Study struct {
	Document   string // extract.Document.ID
	File       string
	Format     string
	Pages      int
	Meta       extract.Meta
	Arms       []*Arm
	Measures   []*Measure
	Results    []*Result // printed test results outside statements: p columns, ANOVA tables
	Statements []*Statement
	Design     Design
	Problems   []*extract.Problem
	Alarms     []Alarm  // wording that goes further than a bench test can carry
	Apart      []Apart  // figures read but not taken for measures, and why
	Counts     []*Count // how many of a group have something
	Tables     []*TableReading
}

// Apart is a figure of the form of a measure that is none, with the reason: a
// count with its percentage, a composition, a size.
type Apart struct {
	What  string // "p", "statistic", "df", "anova", "effect", "difference", "count", "percent", "unclear" …
	Place extract.Place
	Text  string
	Why   string
}

// A Count is how many of a group have something, as a table prints it: K of Of,
// which are Share percent.
type Count struct {
	ID        string // "k1", in reading order
	Arm       *Arm   // nil: of no group that is known
	ArmText   string
	Outcome   string // what they have
	Condition string
	K         extract.Number
	Of        Quantity       // how many there are
	Share     extract.Number // in percent
	Text      string
	Doubt     reading.Doubt
	Place     extract.Place
}

// An Alarm is a sentence whose words go further than the evidence of the paper
// can: a bench result told as safety in patients, as superiority for all.
type Alarm struct {
	Kind  string // "clinical", "superlative", "equivalence", as the catalogue sorts the phrase
	Word  string // the words it rests on
	Text  string // the sentence
	Place extract.Place
}

// An Arm is a group of the study: an instrument, a material, a treatment, or
// one of these under one condition when the paper names that as a group.
type Arm struct {
	Name    string   // the full name this paper resolves it to
	Short   string   // as printed in tables: "B", "Gr 2"; may equal Name
	Aliases []string // every other way the paper names it
	Named   []Name   // its names with where each was met first
	Control bool
	N       Quantity // specimens in this arm, where one number holds for all outcomes
	Class   []string // words the paper groups it by: "heat-treated", "reciprocating"
	Size    Geometry
	Place   extract.Place
}

// A Name is a name of an arm and where it was met first; the zero Place is that
// of an abbreviation that the paper defines, or one its letters imply.
type Name struct {
	Text  string
	Place extract.Place
}

// Geometry is the nominal size of an instrument. Zero: not printed.
type Geometry struct {
	Tip   int     // ISO size: hundredths of a millimetre at the tip
	Taper float64 // mm per mm: .06
	Text  string  // as printed: "25/.06"
}

// Origin says how a value came to be known.
type Origin int

// The origins of a value.
const (
	NotKnown  Origin = iota
	Printed          // it stands where Place says
	Corrected        // a person wrote it in the corrections file
	Derived          // a formula gave it from printed values
)

// A Quantity is a printed number with where it came from and why it is
// believed to mean this.
type Quantity struct {
	extract.Number
	Origin Origin
	Why    string
}

// Centre says which measure of centre a figure is. Zero: mean, the field's
// default when nothing else is said.
type Centre int

// The measures of centre.
const (
	Mean Centre = iota
	Median
)

// String gives the word of the audit format.
func (c Centre) String() string {
	if c == Median {
		return "median"
	}
	return "mean"
}

// SpreadKind says what the number beside a mean is. Zero is "not stated": an
// unlabelled ± is never quietly taken for an SD.
type SpreadKind int

// The kinds of spread.
const (
	NotStated SpreadKind = iota
	SD
	SE
	CI95
	Range
	IQR
)

var spreadNames = [...]string{"unstated", "sd", "se", "ci95", "range", "iqr"}

// String gives the word of the audit format: "sd", "se", "ci95", "range",
// "iqr", "unstated".
func (k SpreadKind) String() string { return spreadNames[k] }

// SpreadKindOf is the inverse of String; an unknown word is NotStated.
func SpreadKindOf(s string) SpreadKind {
	for i, name := range spreadNames {
		if name == s {
			return SpreadKind(i)
		}
	}
	return NotStated
}

// A Spread is the figure or pair printed beside a centre.
type Spread struct {
	Kind      SpreadKind
	Value     extract.Number // the single figure, for sd, se and unstated
	Low, High extract.Number // the pair, for ci95, range, iqr
	Text      string         // as printed
	Why       string         // where its kind is said: "header: Mean (SD)"
}

// Known reports whether any spread was printed.
func (s Spread) Known() bool { return s.Value.Known() || s.Low.Known() }

// A Measure is one outcome in one arm under one condition, as printed.
type Measure struct {
	ID        string // "m1", in reading order
	Arm       *Arm   // nil: could not be tied to an arm
	ArmText   string // the arm as printed where the figure stands
	Outcome   string // as printed
	OutcomeID string // catalogue id; "" when the catalogue does not know it
	Condition string // the other header levels: time, third, temperature; "; " between
	Unit      string // as printed
	UnitID    string // catalogue id
	Scale     Scale  // to the unit of the figure it is compared with
	Centre    Centre
	Mean      Quantity
	Spread    Spread
	Min, Max  extract.Number // where the paper prints them beside mean and SD, and says so
	RangeWhy  string         // where Min and Max are said to be least and greatest value
	N         Quantity
	Letters   string        // grouping letters and marks as printed: "ab", "A,b"
	Legend    *Legend       // what the letters mean; nil: the paper does not say
	Adjusted  bool          // an adjusted (covariance-corrected) or transformed mean
	Change    bool          // a change from baseline, not a level
	Stepped   bool          // counts, scores or whole seconds: single values are integers
	Text      string        // the whole cell or phrase as printed
	Doubt     reading.Doubt // what may make its figures others than read
	Place     extract.Place
	Table     *TableReading // the reading of its table; nil in running text
	Over      []string      // the name that each axis of its table has over it
}

// A Legend says what grouping letters mean.
type Legend struct {
	SameMeans Sameness
	Within    Scope
	Lower     Scope  // where lower-case letters have a scope of their own
	Upper     Scope  // likewise upper case
	Text      string // the legend as printed
	Test      string // catalogue id of the post-hoc test it names
	Alpha     extract.Number
	Place     extract.Place
}

// Sameness says what two arms with the same letter are said to be.
type Sameness int

// The two conventions of letters.
const (
	SamenessNotStated Sameness = iota
	SameNotDifferent           // the same letter: no significant difference
	SameDifferent              // the same letter (or mark): a significant difference
)

// Scope says among which cells letters are to be compared.
type Scope int

// The scopes of letters.
const (
	ScopeNotStated Scope = iota
	WithinColumn
	WithinRow
	WithinTable
)

// A Result is a printed test result that stands in a table or caption.
type Result struct {
	ID      string
	Name    string // "p", "F", "t", "chi2", "U", "H", "z", "r"
	Value   extract.Number
	DF      []extract.Number
	P       extract.Number
	Between []*Measure // the measures it compares, where that is clear
	Outcome string
	Test    string // catalogue id of the test, where the table or methods name it
	Text    string
	Place   extract.Place
}

// Design is what title, methods and captions say about the experiment as a
// whole. Every fact keeps the words and the place it was read from.
type Design struct {
	Alpha      Fact   // the level of significance, as a share: .05
	Total      []Fact // totals stated: "A total of 50 instruments"
	Groups     []Fact // numbers of groups stated
	PerGroup   []Fact // n per group stated
	Tests      []Fact // tests named; ID is the catalogue's
	Facts      []Fact // conditions: ID "temperature", "speed", "grip" ...
	SpreadKind SpreadKind
	SpreadWhy  string
	WholeUnits bool // times recorded in whole seconds, counts, scores
	Bench      bool // laboratory work without patients
}

// A Fact is one thing the paper says about its own design.
type Fact struct {
	ID    string // "temperature", "speed", "n", "alpha", "test:anova" ...
	Value extract.Number
	Unit  string
	Arms  []*Arm // the arms it is said of; empty: all
	Text  string // the words it rests on
	Place extract.Place
}
