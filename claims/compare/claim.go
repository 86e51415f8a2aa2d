package compare

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/interval"
)

// Relation says what one comparison of a paper shows of a claim.
type Relation int

// The relations, best first.
const (
	Bears      Relation = iota // the printed figures give the claimed figure, within rounding
	Inside                     // another figure, but the interval holds the claimed one
	SameWay                    // the same direction, another size, or no size claimed
	NotShown                   // the interval holds no difference
	OtherWay                   // the interval lies on the other side
	NotDecided                 // no interval, or nothing to hold against
)

var relationWords = [...]string{"bears it out", "another figure, but the interval holds it", "the same direction", "no difference shown",
	"the other direction", "cannot say"}

// String gives the words people read.
func (r Relation) String() string { return relationWords[r] }

// A Shown is one comparison held against a claim.
type Shown struct {
	Row      *Row
	Relation Relation
	Why      string
}

// A Shelf is all that the papers of a library show of one claim on one outcome.
type Shelf struct {
	Statement *claims.Statement
	Outcome   *catalog.Outcome
	Result    *Result
	Shown     []Shown
	Verdict   string // one paragraph
}

// Weigh holds a statement against every paper that measured its outcome on its
// arms. A statement that names no outcome is held against each outcome that
// the papers measured on the arms.
func Weigh(s *claims.Statement, papers []Paper, o Options, cat *catalog.Catalog) ([]Shelf, error) {
	outcomes := slices.Clone(s.Outcomes)
	if s.OutcomeID != "" && !slices.Contains(outcomes, s.OutcomeID) {
		outcomes = append([]string{s.OutcomeID}, outcomes...)
	}
	subject, against, found := partiesOf(s, papers)
	if !found {
		return nil, nil
	}
	if len(outcomes) == 0 {
		outcomes = measuredOn(papers, newMatcher(subject), newMatcher(against))
	}
	var out []Shelf
	for _, id := range outcomes {
		res, err := Table(papers, Query{Outcome: id, Subject: subject, Against: against, Options: o}, cat)
		if err != nil {
			return nil, err
		}
		if res.Rows() == 0 {
			continue
		}
		sh := Shelf{Statement: s, Outcome: res.Outcome, Result: res}
		for _, st := range res.Strata {
			for _, r := range st.Rows {
				sh.Shown = append(sh.Shown, shown(s, r))
			}
		}
		for _, r := range res.Apart {
			x := shown(s, r)
			if x.Relation != Bears {
				x = Shown{Row: r, Relation: NotDecided, Why: strings.Join(r.Reasons, "; ")}
			}
			sh.Shown = append(sh.Shown, x)
		}
		sh.Verdict = sh.paragraph()
		out = append(out, sh)
	}
	return out, nil
}

// partiesOf finds the two sides of a statement among the arms of the papers,
// by their names in the sentence.
func partiesOf(s *claims.Statement, papers []Paper) (subject, against string, ok bool) {
	first, second := map[string]int{}, map[string]int{}
	text := " " + fold(s.Text) + " "
	for i := range papers {
		a, b := twoArms(&papers[i], text)
		if a == "" || b == "" {
			continue
		}
		first[a]++
		second[b]++
	}
	subject, against = mostOf(first), mostOf(second)
	if subject == "" || against == "" {
		return "", "", false
	}
	// "Compared with Y, X lasted longer": the reading of the sentence says who
	// is the subject.
	sub, ref := " "+fold(s.Subject.Text)+" ", " "+fold(s.Reference.Text)+" "
	names := func(party, arm string) bool { return strings.Contains(party, " "+arm+" ") }
	if names(sub, against) && !names(sub, subject) || names(ref, subject) && !names(ref, against) {
		subject, against = against, subject
	}
	return subject, against, true
}

func mostOf(count map[string]int) string {
	best := ""
	for name, n := range count { // any order: of equals the longer, then the first by name
		if best == "" || n > count[best] || n == count[best] && (len(name) > len(best) || len(name) == len(best) && name < best) {
			best = name
		}
	}
	return best
}

// twoArms gives the first two different arms of a paper that a text names, in
// the words of the text.
func twoArms(p *Paper, text string) (string, string) {
	type spot struct {
		at, arm int
		name    string
	}
	var spots []spot
	for i := range p.Arms {
		a := &p.Arms[i]
		best := spot{at: -1}
		for _, n := range slices.Concat([]string{a.Name}, a.Also, a.Class) {
			f := fold(n)
			if len(f) < 2 {
				continue // a single letter may be anything
			}
			at := strings.Index(text, " "+f+" ")
			if at >= 0 && (best.at < 0 || len(f) > len(best.name)) {
				best = spot{at, i, f}
			}
		}
		if best.at >= 0 {
			spots = append(spots, best)
		}
	}
	slices.SortStableFunc(spots, func(a, b spot) int {
		if a.at != b.at {
			return a.at - b.at
		}
		return len(b.name) - len(a.name)
	})
	for _, s := range spots[min(1, len(spots)):] {
		if s.at >= spots[0].at+len(spots[0].name) {
			return spots[0].name, s.name
		}
	}
	return "", ""
}

// measuredOn lists the outcomes that papers measured on both arms, the most
// frequent first.
func measuredOn(papers []Paper, subject, against matcher) []string {
	count := map[string]int{}
	for i := range papers {
		p := &papers[i]
		a, b := map[string]bool{}, map[string]bool{}
		for k := range p.Figures {
			f := &p.Figures[k]
			if f.OutcomeID == "" {
				continue
			}
			if subject.fits(p, f) {
				a[f.OutcomeID] = true
			}
			if against.fits(p, f) {
				b[f.OutcomeID] = true
			}
		}
		for id := range a { // any order: counting
			if b[id] {
				count[id]++
			}
		}
	}
	return slices.SortedFunc(maps.Keys(count), func(a, b string) int {
		if count[a] != count[b] {
			return count[b] - count[a]
		}
		return strings.Compare(a, b)
	})
}

// claimed is the ratio that a statement claims; zero: it claims no size.
func claimed(s *claims.Statement) float64 {
	v := s.Value.Value
	if !s.Value.Known() || v <= 0 {
		return 0
	}
	switch {
	case s.Kind == claims.Percent && s.Form == claims.Change && s.Direction > 0:
		return 1 + v/100
	case s.Kind == claims.Percent && s.Form == claims.Change && s.Direction < 0:
		return math.Max(0, 1-v/100)
	case s.Kind == claims.Percent && s.Form == claims.Share:
		return v / 100
	case s.Kind == claims.Fold && s.Direction < 0 && v > 1:
		return 1 / v
	case s.Kind == claims.Fold:
		return v
	}
	return 0
}

// shown holds one comparison against a statement.
func shown(s *claims.Statement, r *Row) Shown {
	x := Shown{Row: r}
	want := claimed(s)
	low, high := r.Interval()
	way := int(s.Direction)
	if want > 0 && way == 0 {
		way = sign(want - 1)
	}
	equal := s.Kind == claims.NoDifference || s.Equal
	switch {
	case want > 0 && printedFits(s, r):
		x.Relation, x.Why = Bears, fmt.Sprintf("the printed figures give %s", sizeOf(s, r))
	case want > 0 && r.HasInterval && want >= low && want <= high && sign(r.Ratio-1) == way:
		x.Relation, x.Why = Inside, fmt.Sprintf("here %s, 95 %% CI of the ratio %s to %s", sizeOf(s, r), digits(low), digits(high))
	case !r.HasInterval:
		x.Relation, x.Why = NotDecided, fmt.Sprintf("ratio %s without an interval (%s)", digits(r.Ratio), r.NoInterval)
	case low <= 1 && high >= 1:
		x.Relation, x.Why = NotShown, fmt.Sprintf("ratio %s, 95 %% CI %s to %s", digits(r.Ratio), digits(low), digits(high))
	case equal || way != 0 && sign(r.Ratio-1) != way:
		x.Relation, x.Why = OtherWay, fmt.Sprintf("ratio %s, 95 %% CI %s to %s", digits(r.Ratio), digits(low), digits(high))
		if equal {
			x.Why = "a difference: " + x.Why
		}
	case way == 0:
		x.Relation, x.Why = NotDecided, fmt.Sprintf("ratio %s; the statement gives no direction", digits(r.Ratio))
	default:
		x.Relation, x.Why = SameWay, fmt.Sprintf("here %s, 95 %% CI of the ratio %s to %s", sizeOf(s, r), digits(low), digits(high))
	}
	return x
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// sizeOf writes the size of a row on the scale of the statement.
func sizeOf(s *claims.Statement, r *Row) string {
	if s.Kind == claims.Fold || s.Form == claims.Share || s.Kind == claims.Ranking || s.Kind == claims.Significance {
		return "a ratio of " + digits(r.Ratio)
	}
	return fmt.Sprintf("%+.1f %%", 100*(r.Ratio-1))
}

// printedFits asks within the rounding of all that is printed.
func printedFits(s *claims.Statement, r *Row) bool {
	claim, err := interval.Parse(strings.TrimSpace(s.Value.Text))
	if err != nil {
		return false
	}
	a, errA := interval.Parse(r.Subject.Figure.Text)
	b, errB := interval.Parse(r.Reference.Figure.Text)
	if errA != nil || errB != nil || r.Subject.Figure.UnitID != r.Reference.Figure.UnitID || r.Subject.Figure.Median {
		return false
	}
	base := interval.Reference
	switch {
	case s.Kind == claims.Fold:
		// The ratio is on the scale of percent: shift the claim by two digits.
		claim, base = claim.Shift(2), interval.Ratio
		if s.Direction < 0 && s.Value.Value > 1 {
			a, b = b, a
		}
	case s.Form == claims.Share:
		base = interval.Ratio
	case s.Direction < 0:
		claim = claim.Neg()
	}
	fits, err := interval.FitsSigned(claim, base, a, b)
	return err == nil && fits
}

// digits writes a ratio with three significant digits.
func digits(x float64) string {
	switch a := math.Abs(x); {
	case a >= 100:
		return fmt.Sprintf("%.0f", x)
	case a >= 10:
		return fmt.Sprintf("%.1f", x)
	case a >= 0.1 || a == 0:
		return fmt.Sprintf("%.2f", x)
	}
	return fmt.Sprintf("%.3g", x)
}

// paragraph is the verdict in plain sentences.
func (sh *Shelf) paragraph() string {
	count := map[Relation]int{}
	papers := map[*Paper]bool{}
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range sh.Shown {
		count[x.Relation]++
		papers[x.Row.Paper] = true
		if x.Row.Ratio > 0 && x.Row.Grade != NotComparable {
			low, high = math.Min(low, x.Row.Ratio), math.Max(high, x.Row.Ratio)
		}
	}
	var b strings.Builder
	first := sh.Shown[0].Row
	fmt.Fprintf(&b, "%s of the library measured %s on %s and %s", capital(papersWord(len(papers))), strings.ToLower(sh.Outcome.Name[:1])+sh.Outcome.Name[1:],
		asNamed(sh.Result.Query.Subject, first.Subject.Name), asNamed(sh.Result.Query.Against, first.Reference.Name))
	if n := len(sh.Shown); n != len(papers) {
		fmt.Fprintf(&b, ", in %d comparisons", n)
	}
	b.WriteString(": ")
	var parts []string
	for r := Bears; r <= NotDecided; r++ {
		if count[r] > 0 {
			parts = append(parts, fmt.Sprintf("%s %d", [...]string{"the claimed figure comes out of the printed figures in", "another figure whose interval holds the claimed one in",
				"the same direction but not the figure in", "no difference shown in", "the other direction in", "nothing to be said in"}[r], count[r]))
		}
	}
	if sh.Statement.Kind == claims.NoDifference || sh.Statement.Equal {
		parts = nil
		if n := count[NotShown]; n > 0 {
			parts = append(parts, fmt.Sprintf("no difference shown in %d, which is not the same as being alike", n))
		}
		if n := count[OtherWay]; n > 0 {
			parts = append(parts, fmt.Sprintf("a difference in %d", n))
		}
		if n := count[NotDecided]; n > 0 {
			parts = append(parts, fmt.Sprintf("nothing to be said in %d", n))
		}
	}
	b.WriteString(strings.Join(parts, ", ") + ".")
	if !math.IsInf(low, 0) && high > low {
		fmt.Fprintf(&b, " The ratios run from %s to %s.", digits(low), digits(high))
	}
	if n := len(sh.Result.Strata); n > 1 {
		fmt.Fprintf(&b, " They stem from %d kinds of test conditions that are not to be mixed.", n)
	}
	for _, st := range sh.Result.Strata {
		for _, c := range st.Combined {
			if c.Refused == "" {
				short := ""
				if st.Short != "" {
					short = " (" + st.Short + ")"
				}
				fmt.Fprintf(&b, " Combined over %s under like conditions%s: ratio %s, 95 %% CI %s to %s.", papersWord(c.Papers), short, digits(c.Ratio), digits(c.Low), digits(c.High))
			}
		}
	}
	return b.String()
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// asNamed writes an arm as the papers do, where that is only a matter of
// capitals.
func asNamed(asked, printed string) string {
	if fold(printed) == asked {
		return printed
	}
	return asked
}
