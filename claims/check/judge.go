// Package check judges statements and finds what does not agree.
//
//	Study → Judge → []Judgement   one verdict a statement
//	Study, []Judgement → Run → []Finding
//
// Judge recomputes each statement inside the rounding of everything printed.
// Each Check of All then looks for one kind of matter. Both are pure: they
// read no file and know no layout. A misfit that may be a misreading of ours
// is never more than a question.
package check

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/reading"
	"probity/extract"
)

// Judge gives each statement of the study its verdict, in the order of the
// statements.
func Judge(study *claims.Study, cat *catalog.Catalog) []claims.Judgement {
	return newJudge(study, cat).all()
}

// Audit judges every statement and runs every check, as Judge and Run do, and
// computes each comparison once for both.
func Audit(study *claims.Study, cat *catalog.Catalog) ([]claims.Judgement, []claims.Finding) {
	j := newJudge(study, cat)
	judgements := j.all()
	return judgements, run(&Case{Study: study, Judgements: judgements, Catalog: cat, judge: j})
}

func newJudge(study *claims.Study, cat *catalog.Catalog) *judge {
	return &judge{study: study, cat: cat, design: readDesign(study, cat), merit: meritWords(cat), compared: map[[2]*claims.Measure]compared{}, memo: memo{families: map[familyKey][]*claims.Measure{}}}
}

func (j *judge) all() []claims.Judgement {
	study := j.study
	out := make([]claims.Judgement, 0, len(study.Statements))
	for _, s := range study.Statements {
		out = append(out, j.one(s))
	}
	return out
}

// judge holds what all statements of a study are judged against.
type judge struct {
	study  *claims.Study
	cat    *catalog.Catalog
	design design
	merit  map[string][][]string // words of better and worse

	// compared keeps what was recomputed: one pair stands behind several
	// statements and checks.
	compared map[[2]*claims.Measure]compared
	memo
}

type compared struct {
	comparison *comparison
	missing    string
}

func (j *judge) one(statement *claims.Statement) claims.Judgement {
	var out claims.Judgement
	s := j.withoutMerit(statement)
	switch {
	case !s.Own && !s.A.Known():
		out = claims.Judgement{Why: notOwn(s)}
	case s.Kind == claims.Percent || s.Kind == claims.Fold:
		out = j.change(s)
	case s.Kind == claims.Difference:
		out = j.difference(s)
	case s.Kind == claims.Significance || s.Kind == claims.NoDifference:
		out = j.significance(s)
	case s.Kind == claims.TestStatistic:
		out = j.statistic(s)
	case s.Kind == claims.Ranking:
		out = j.ranking(s)
	}
	out.Statement = statement
	j.withoutCertainty(statement, &out)
	if out.Why == "" {
		out.Why = "the figures needed are not printed where this reading could find them"
	}
	return out
}

// withoutMerit leaves the direction of a statement open where the words around
// its figure speak of better or worse: a "greater improvement" is a lower index
// in one paper and a higher one in the next.
func (j *judge) withoutMerit(s *claims.Statement) *claims.Statement {
	if s.Direction == 0 || !j.speaksOfMerit(near(s.Text, s.Printed)) {
		return s
	}
	open := *s
	open.Direction = 0
	return &open
}

// near gives the words around a figure of a sentence, the whole sentence where
// the figure is not found.
func near(text, figure string) string {
	const around = 60
	i := strings.Index(text, figure)
	if i < 0 || figure == "" {
		return text
	}
	return text[max(0, i-around):min(len(text), i+len(figure)+around)]
}

// speaksOfMerit looks for the catalogue's words of better and worse.
func (j *judge) speaksOfMerit(text string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	for i, first := range words {
		for _, phrase := range j.merit[first] {
			if len(phrase) <= len(words)-i && slices.Equal(phrase, words[i:i+len(phrase)]) {
				return true
			}
		}
	}
	return false
}

// meritWords lists the catalogue's words of better and worse by their first.
func meritWords(cat *catalog.Catalog) map[string][][]string {
	out := map[string][][]string{}
	for _, p := range cat.Phrases {
		if !strings.HasSuffix(p.Kind, "-merit") {
			continue
		}
		for _, word := range strings.Split(p.Text, "|") {
			if phrase := strings.Fields(word); len(phrase) > 0 {
				out[phrase[0]] = append(out[phrase[0]], phrase)
			}
		}
	}
	return out
}

// farFetched is how many times one figure may be the other before a pair that
// only its order in the sentence suggests is not believed.
const farFetched = 50

// unlikely says why two figures of a sentence, tied to its parties by nothing
// but their order, cannot be what it compares.
func unlikely(s *claims.Statement, a, b side, sure bool) string {
	if !s.A.Known() || sure {
		return ""
	}
	if a.value == b.value && s.Value.Value != 0 {
		return fmt.Sprintf("the only figures read beside it are %s and %s; which figures it compares is not known", a.text, b.text)
	}
	if ratio := a.value / b.value; b.value != 0 && (ratio > farFetched || ratio < 1.0/farFetched) && s.Kind == claims.Percent && s.Value.Value < 100 {
		return fmt.Sprintf("the figures read beside it, %s and %s, are too far apart to be what it compares", a.text, b.text)
	}
	return ""
}

func notOwn(s *claims.Statement) string {
	why := s.WhyNotOwn
	if why == "" {
		why = "not a result of this paper"
	}
	return why + ": its figures are not printed here"
}

// pairOfSides is one comparison that a statement makes, ready to recompute.
type pairOfSides struct {
	a, b side
	sure bool // which is whose, and which are meant, is beyond doubt
}

// comparisons gives the pairs a statement is judged on: the figures in its
// own words first, else the measures it is tied to.
func comparisons(s *claims.Statement) []pairOfSides {
	if s.A.Known() && s.B.Known() {
		a, okA := sideOfFigure(s.A, s.Subject)
		b, okB := sideOfFigure(s.B, s.Reference)
		if okA && okB {
			return []pairOfSides{{a, b, rolesSure(s)}}
		}
	}
	var out []pairOfSides
	for _, p := range s.Pairs {
		a, okA := sideOfMeasure(p.A)
		b, okB := sideOfMeasure(p.B)
		if okA && okB {
			out = append(out, pairOfSides{a, b, p.Sure()})
		}
	}
	return out
}

// rolesSure reports whether the figures of a sentence are tied to its two
// parties by more than their order.
func rolesSure(s *claims.Statement) bool {
	if s.BeforeTo {
		return true
	}
	for _, f := range []struct {
		figure claims.Figure
		party  claims.Party
	}{{s.A, s.Subject}, {s.B, s.Reference}} {
		if f.figure.Measure == nil || f.figure.Measure.Arm == nil {
			return false
		}
		found := false
		for _, arm := range f.party.Arms {
			found = found || arm == f.figure.Measure.Arm
		}
		if !found {
			return false
		}
	}
	return true
}

// change judges a percent or fold claim.
func (j *judge) change(s *claims.Statement) claims.Judgement {
	c, ok := claimOf(s)
	if !ok {
		return claims.Judgement{Why: "no printed percentage or factor could be read"}
	}
	pairs := comparisons(s)
	if len(pairs) == 0 {
		return claims.Judgement{Why: missing(s)}
	}
	if len(pairs) == 1 {
		return j.changeOf(s, c, pairs[0])
	}
	return j.changeOfMany(s, c, pairs)
}

func missing(s *claims.Statement) string {
	if s.Why != "" {
		return s.Why
	}
	return "the two figures that this compares are not printed, or could not be told apart"
}

// changeOf judges a claim on one pair of figures.
func (j *judge) changeOf(s *claims.Statement, c claimed, p pairOfSides) claims.Judgement {
	out := claims.Judgement{Measures: measuresOf(p)}
	a, b, err := sameSign(p.a, p.b)
	if err != nil {
		out.Why = fmt.Sprintf("%s and %s lie on both sides of zero: there is no percentage between them", p.a.text, p.b.text)
		return out
	}
	if why := unlikely(s, a, b, p.sure); why != "" {
		out.Why = why
		return out
	}
	if s.A.Known() && !p.sure && (disagreesWithDirection(s, a, b) && swappedFits(s, c, a, b) || s.Direction == 0 && !naturalFits(s, c, a, b) && naturalFits(s, c, b, a)) {
		// The figures stand in the other order: "reduced … (30 versus 24 s)".
		a, b = b, a
	}
	found := tries(s, c, a, b)
	if len(found) == 0 {
		out.Why = fmt.Sprintf("no percentage can be taken of %s and %s (the base may be zero within its rounding)", a.text, b.text)
		return out
	}
	for _, t := range found {
		out.Recomputed = append(out.Recomputed, claims.Recalculation{Base: t.base, Method: "percent change", Value: t.value,
			Low: t.box.Low, High: t.box.High, Fits: t.fits})
	}
	j.decideChange(s, c, a, b, p.sure, found, &out)
	return out
}

// decideChange picks the verdict from the bases tried, the natural one first.
func (j *judge) decideChange(s *claims.Statement, c claimed, a, b side, sure bool, found []trial, out *claims.Judgement) {
	natural := found[0]
	opposite := disagreesWithDirection(s, a, b)
	switch {
	case natural.fits && !opposite:
		out.Verdict, out.Base = claims.Reproduces, natural.base
		out.Why = natural.sum + alsoFits(found[1:])
		return
	case opposite && magnitudeFits(s, c, a, b):
		if !sure && s.A.Known() {
			leaveOpen(out, natural.sum, fmt.Sprintf("the words say %s, but which figure belongs to which side could not be made out with certainty", s.Direction))
			return
		}
		out.Verdict, out.Base = claims.Reversed, natural.base
		out.Why = fmt.Sprintf("%s: the size agrees, the direction does not (the words say %s)", natural.sum, s.Direction)
		return
	}
	for _, t := range found[1:] {
		if bounded(c) {
			break // "more than 25 %" fits some base too easily to mean it
		}
		if t.fits && (!opposite || t.base == claims.OnRatio) {
			out.Verdict, out.Base = claims.OtherBase, t.base
			out.Why = fmt.Sprintf("%s on the base that the words imply; %s fits the printed %s", natural.sum, t.sum, s.Printed)
			if s.Inverts {
				out.Why += " (the outcome measured is the inverse of the quality named)"
			}
			return
		}
	}
	if wideFits(s, c, a, b) {
		leaveOpen(out, natural.sum, "a printed figure ends in zeros and may be rounded to tens, then the claim can hold")
		return
	}
	why := fmt.Sprintf("%s%s, not %s", natural.sum, rangeNote(natural), s.Printed)
	if s.Median || s.BeforeTo || isMedian(a) || isMedian(b) {
		leaveOpen(out, why, "percentages of single specimens may have been averaged, which the printed figures cannot show")
		return
	}
	if !sure && !s.A.Known() {
		leaveOpen(out, why, whichMeant)
		return
	}
	if s.Most && inTable(a, b) {
		leaveOpen(out, why, "the greatest of several is named, and another pair may give it")
		return
	}
	if (s.Word || s.Most || s.Value.Relation == extract.About) && withinWords(natural, c) {
		leaveOpen(out, why, "how far the words stretch is not said")
		return
	}
	if slip := pointMoved(s, c, a, b); slip != "" {
		out.Verdict, out.Why = claims.DoesNotReproduce, why+"; "+slip
		return
	}
	if inTable(a, b) && !opposite && !bounded(c) && farOff(natural, c) {
		leaveOpen(out, why, "they are too far apart to be what the sentence compares")
		return
	}
	if opposite && inTable(a, b) {
		out.Why = fmt.Sprintf("%s: neither size nor direction is that of the words (%s); another outcome may be meant", natural.sum, s.Direction)
		return
	}
	if opposite {
		out.Verdict = claims.Reversed
		out.Why = fmt.Sprintf("%s: the figures go the other way (the words say %s)", natural.sum, s.Direction)
		return
	}
	out.Verdict = claims.DoesNotReproduce
	out.Why = why
}

const whichMeant = "which figures the sentence means is not certain"

// leaveOpen gives no verdict on a sum that does not fit: why may be the reason.
func leaveOpen(out *claims.Judgement, sum, why string) {
	out.Why = sum + "; " + why
	out.Doubt.Add(why, reading.Slight)
}

// withoutCertainty takes back a verdict against a statement where what its
// figures are, or whose p is whose, is in doubt: nothing follows from an unsure
// tie. A fit stays: that the figures meet what is printed speaks for the tie.
func (j *judge) withoutCertainty(s *claims.Statement, out *claims.Judgement) {
	against := out.Verdict == claims.DoesNotReproduce || out.Verdict == claims.Reversed || out.Verdict == claims.OtherBase && out.Base != claims.OnPoints
	if !against && out.Doubt.Sure() {
		return
	}
	doubt := slices.Clone(s.Doubt)
	if !s.A.Known() && len(s.Pairs) > 0 && !pairsSure(s) {
		doubt.Add("which of the paper's figures the sentence speaks of is not certain", reading.Wide)
	}
	switch {
	case doubt.Outweighs():
		out.Verdict, out.Base, out.Doubt = claims.NotCheckable, "", nil
		out.Why += "; but " + doubt.String()
	case !doubt.Sure() && out.Verdict != claims.NotCheckable:
		out.Why += "; " + doubt.String()
		out.Doubt.Join(doubt)
	}
}

// pointMoved says that a claim fits once the decimal point of one figure of a
// table is moved: that it meets the claim to the digit shows which figures are
// meant, and where the slip may be.
func pointMoved(s *claims.Statement, c claimed, a, b side) string {
	if !inTable(a, b) || bounded(c) || c.box.High-c.box.Low > 0.02*math.Abs(c.box.Mid()) {
		return ""
	}
	for _, k := range []int{-1, 1, -2, 2, -3, 3} {
		for _, moveA := range []bool{true, false} {
			x, y := a, b
			moved := &x
			if !moveA {
				moved = &y
			}
			moved.printed = moved.printed.Shift(k)
			moved.value, moved.box = moved.printed.Value(), moved.printed.Interval()
			if naturalFits(s, c, x, y) && !disagreesWithDirection(s, x, y) {
				return fmt.Sprintf("with %s for %s it would reproduce", digits(moved.value), moved.text)
			}
		}
	}
	return ""
}

// inTable reports sides that names alone led to.
func inTable(a, b side) bool {
	return a.measure != nil && b.measure != nil && a.measure.Place.Table != "" && b.measure.Place.Table != ""
}

// stretch is how far, as a share of the figure said, "twice", "half" and
// "about" may be from what was measured before the words are held against the
// figures (common practice).
const stretch = 0.25

func withinWords(t trial, c claimed) bool {
	said := math.Abs(c.box.Mid())
	return math.Abs(math.Abs(t.value)-said) <= stretch*said
}

// farOff reports a claim of more than twice or less than half of what the
// figures of a table give: another row or another outcome is likelier meant
// than so large a slip.
func farOff(t trial, c claimed) bool {
	got, said := math.Abs(t.value), math.Abs(c.box.Mid())
	return got*2 < said || got > said*2
}

// bounded reports a one-sided claim.
func bounded(c claimed) bool { return math.IsInf(c.box.Low, -1) || math.IsInf(c.box.High, 1) }

func isMedian(s side) bool { return s.measure != nil && s.measure.Centre == claims.Median }

func rangeNote(t trial) string {
	unit := " %"
	if t.base == claims.OnRatio {
		unit = ""
	}
	if r := rangeText(t.box.Low, t.box.High, unit); r != "" {
		return " (" + r + " within rounding)"
	}
	return ""
}

func alsoFits(rest []trial) string {
	out := ""
	for _, t := range rest {
		if t.fits {
			out += "; the base " + string(t.base) + " fits too"
		}
	}
	return out
}

// disagreesWithDirection reports whether the figures, with all their
// rounding, go the other way than the words.
func disagreesWithDirection(s *claims.Statement, a, b side) bool {
	if s.Form == claims.Share || s.Form == claims.Times && s.Kind == claims.Fold {
		return false // "67 % of", "1.6 times as": the size carries the direction
	}
	switch {
	case s.Direction > 0:
		return a.box.High < b.box.Low
	case s.Direction < 0:
		return a.box.Low > b.box.High
	}
	return false
}

// magnitudeFits reports whether the claim holds on its natural base when its
// direction is left aside.
func magnitudeFits(s *claims.Statement, c claimed, a, b side) bool {
	free := *s
	free.Direction = -s.Direction
	found := tries(&free, c, a, b)
	return len(found) > 0 && found[0].fits
}

func naturalFits(s *claims.Statement, c claimed, a, b side) bool {
	found := tries(s, c, a, b)
	return len(found) > 0 && found[0].fits
}

func swappedFits(s *claims.Statement, c claimed, a, b side) bool {
	for _, t := range tries(s, c, b, a) {
		if t.fits {
			return true
		}
	}
	return false
}

// wideFits tries the reading in which trailing zeros of figures from 100 on
// are rounding.
func wideFits(s *claims.Statement, c claimed, a, b side) bool {
	if !a.printed.HasWide() && !b.printed.HasWide() {
		return false
	}
	a.printed, b.printed = a.printed.Wide(), b.printed.Wide()
	a.box, b.box = a.printed.Interval(), b.printed.Interval()
	found := tries(s, c, a, b)
	return len(found) > 0 && found[0].fits
}

func measuresOf(p pairOfSides) []*claims.Measure {
	var out []*claims.Measure
	for _, m := range []*claims.Measure{p.a.measure, p.b.measure} {
		if m != nil {
			out = append(out, m)
		}
	}
	return out
}

// changeOfMany judges a claim that its sentence makes of several pairs at
// once: several outcomes, several times, or classes of instruments.
func (j *judge) changeOfMany(s *claims.Statement, c claimed, pairs []pairOfSides) claims.Judgement {
	var all []claims.Judgement
	var fit, other []int
	allSure := true
	for i, p := range pairs {
		one := j.changeOf(s, c, p)
		all = append(all, one)
		allSure = allSure && p.sure
		switch one.Verdict {
		case claims.Reproduces:
			fit = append(fit, i)
		case claims.OtherBase:
			other = append(other, i)
		}
	}
	switch {
	case len(fit) > 0:
		out := all[fit[0]]
		if len(fit) < len(pairs) {
			p := pairs[fit[0]]
			out.Why += fmt.Sprintf(" (the pair %s and %s, one of %d the words cover)", p.a.name, p.b.name, len(pairs))
		}
		return out
	case len(other) == len(pairs):
		return all[other[0]]
	}
	var out claims.Judgement
	for i, one := range all {
		if i < 4 {
			out.Measures = append(out.Measures, one.Measures...)
		}
	}
	if range_, ok := spanOf(all); ok && allSure && s.High.Known() && c.box.Covers(range_) {
		out = all[0]
		out.Verdict, out.Doubt = claims.Reproduces, nil
		out.Why = fmt.Sprintf("over the %d pairs that the words cover it runs from %s to %s", len(all), percentText(range_.Low), percentText(range_.High))
		return out
	}
	out.Doubt.Add(whichMeant, reading.Slight)
	out.Why = fmt.Sprintf("the words cover %d pairs of figures and %s fits none of them; which are meant is not certain (first: %s)", len(pairs), s.Printed, all[0].Why)
	return out
}
