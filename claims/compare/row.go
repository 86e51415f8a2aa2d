package compare

import (
	"fmt"
	"math"
	"strings"

	"probity/claims/catalog"
	"probity/claims/effect"
)

// Grade says how a row may be read beside the others.
type Grade int

// The grades.
const (
	Comparable Grade = iota
	WithCaution
	NotComparable
)

// String gives the words people read.
func (g Grade) String() string { return [...]string{"comparable", "with caution", "not comparable"}[g] }

// A Side is one arm of a row, in the common unit.
type Side struct {
	Figure *Figure
	Name   string
	Mean   float64
	SD     float64 // zero: not known
	N      int
	Size   string // of the instrument, as printed
}

// A Row is one comparison of two arms in one paper.
type Row struct {
	Paper              *Paper
	Subject, Reference Side
	Condition          string // what the paper prints beside these figures
	Conditions         []Condition
	Unit               string // the common unit the sides are in; "": as printed

	Ratio       float64 // of means; 0: there is none
	Difference  float64
	HasInterval bool
	log         effect.Ratio
	NoInterval  string // why there is none
	Claims      []Claim
	Findings    []Finding
	Grade       Grade
	Reasons     []string // why it is not comparable, or with caution
	Notes       []string
	atOdds      bool
	key         string // of the stratum
	contrast    string // of the two arms, whatever their capitals
}

// A Condition is what a paper says on a field of the rules.
type Condition struct {
	Rule    *catalog.Rule
	Known   bool
	Assumed bool
	Several bool    // the paper states several and does not say which holds here
	Class   string  // "body"; for figures set when all rows are known
	Value   float64 // for figures
	Text    string
	Place   string
}

// Show writes a condition for people.
func (c Condition) Show() string {
	switch {
	case c.Several:
		return "several stated"
	case c.Assumed:
		return c.Class + " (not reported)"
	case !c.Known:
		return "not reported"
	case c.Rule.Kind == "bands" && c.Class != "" && c.Text != "":
		return c.Class + " (" + c.Text + ")"
	case c.Text != "" && c.Rule.Kind != "words":
		return c.Text
	}
	return c.Class
}

// side takes a figure to the common unit and finds its SD.
func side(p *Paper, f *Figure, unit string, o Options, cat *catalog.Catalog) (s Side, notes []string, why string) {
	s = Side{Figure: f, Name: p.ArmName(f), Mean: f.Value, N: f.N}
	if f.Arm >= 0 && f.Arm < len(p.Arms) {
		s.Size = p.Arms[f.Arm].Size
	}
	scale := 1.0
	if unit != "" && f.UnitID != "" && f.UnitID != unit {
		value, k, err := cat.Convert(f.Value, f.UnitID, unit)
		if err == nil {
			s.Mean, scale = value, k
		}
	}
	sd, note, why := spreadOf(f, o)
	if note != "" {
		notes = append(notes, note)
	}
	if f.Median && o.Medians && why == "" {
		mean, err := fiveOf(f).mean()
		if err == nil {
			s.Mean = s.Mean / f.Value * mean
		} else {
			why = err.Error()
		}
	}
	s.SD = sd * scale
	return s, notes, why
}

type five effect.FiveNumbers

func (f five) mean() (float64, error) { return effect.FiveNumbers(f).MeanLuo() }

func fiveOf(f *Figure) five {
	n := effect.FiveNumbers{Median: f.Value, N: f.N}
	switch f.Kind {
	case "range":
		n.Min, n.Max, n.HasRange = f.Low, f.High, true
	case "iqr":
		n.Q1, n.Q3, n.HasQuartiles = f.Low, f.High, true
	}
	return five(n)
}

// spreadOf gives the SD of a figure, what was done to get it, and why there is
// none.
func spreadOf(f *Figure, o Options) (sd float64, note, why string) {
	if f.N < 2 {
		return 0, "", "n is not known"
	}
	kind := f.Kind
	if kind == "unstated" && o.Unstated != "" {
		kind, note = o.Unstated, "± taken as "+strings.ToUpper(o.Unstated)+", as asked; the paper does not say"
	}
	if f.Median {
		if !o.Medians {
			return 0, "", "a median"
		}
		sd, err := effect.FiveNumbers(fiveOf(f)).SDWan()
		if err != nil {
			return 0, "", err.Error()
		}
		return sd, "mean and SD estimated from the median", ""
	}
	var err error
	switch kind {
	case "sd":
		sd = f.Spread
	case "se":
		sd, err = effect.SDFromSE(f.Spread, f.N)
	case "ci95":
		sd, err = effect.SDFromInterval(effect.Interval{Low: f.Low, High: f.High}, f.N, 0.95)
		note = "SD from the 95 % CI"
	case "unstated":
		return 0, "", "the paper does not say what its ± is"
	case "":
		return 0, "", "no spread is printed"
	default:
		return 0, "", "the spread is a " + kind
	}
	if err != nil {
		return 0, "", err.Error()
	}
	return sd, note, ""
}

// sums fills in the ratio and the difference.
func (r *Row) sums() {
	a, b := r.Subject, r.Reference
	r.Difference = a.Mean - b.Mean
	if !(a.Mean > 0 && b.Mean > 0) {
		r.NoInterval = "a ratio needs both means above zero"
		return
	}
	r.Ratio = a.Mean / b.Mean
	if r.NoInterval != "" {
		return
	}
	ratio, err := effect.LogRatio(effect.Arm{Mean: a.Mean, SD: a.SD, N: a.N}, effect.Arm{Mean: b.Mean, SD: b.SD, N: b.N})
	switch {
	case err != nil:
		r.NoInterval = err.Error()
		return
	case !(ratio.Var > 0):
		r.NoInterval = "both spreads are zero"
		return
	}
	r.HasInterval, r.log = true, ratio
	if !ratio.Reliable() {
		r.Notes = append(r.Notes, "the spread is wide for a log ratio (Geary's statistic below 3)")
	}
}

// Interval is the 95 % interval of the ratio. It is computed when it is asked
// for: over thousands of papers most lines are never looked at.
func (r *Row) Interval() (low, high float64) {
	if !r.HasInterval {
		return 0, 0
	}
	log, err := r.log.Interval(0.95)
	if err != nil {
		return 0, 0
	}
	ci := effect.AsRatio(log)
	return ci.Low, ci.High
}

// DifferenceInterval is the 95 % interval of the difference (Welch).
func (r *Row) DifferenceInterval() (low, high float64, ok bool) {
	if !r.HasInterval {
		return 0, 0, false
	}
	a, b := r.Subject, r.Reference
	d, err := effect.Subtract(effect.Arm{Mean: a.Mean, SD: a.SD, N: a.N}, effect.Arm{Mean: b.Mean, SD: b.SD, N: b.N})
	if err != nil {
		return 0, 0, false
	}
	ci, err := d.Interval(0.95)
	return ci.Low, ci.High, err == nil
}

func (r *Row) addReason(g Grade, format string, args ...any) {
	r.Grade = max(r.Grade, g)
	text := fmt.Sprintf(format, args...)
	for _, have := range r.Reasons {
		if have == text {
			return
		}
	}
	r.Reasons = append(r.Reasons, text)
}

// diameter5 is the diameter 5 mm from the tip: tip size in hundredths of a
// millimetre, taper in mm per mm (ISO 3630-1). Zero: not known.
func diameter5(a *Arm) float64 {
	if a.Tip <= 0 || a.Taper <= 0 {
		return 0
	}
	return float64(a.Tip)/100 + 5*a.Taper
}

func differs(a, b, most float64, percent bool) bool {
	d := math.Abs(a - b)
	if percent {
		return d > most/100*math.Max(math.Abs(a), math.Abs(b))*(1+1e-9)
	}
	return d > most+1e-9
}
