package check

import (
	"fmt"
	"regexp"

	"probity/claims"
	"probity/claims/infer"
	"probity/claims/interval"
	"probity/claims/reading"
	"probity/extract"
)

// significance judges "differed significantly" and "no significant
// difference": first against the paper's own print (the p beside it, the
// letters), then, where the test can be recomputed, against the figures.
func (j *judge) significance(s *claims.Statement) claims.Judgement {
	claim := infer.Significant
	if s.Kind == claims.NoDifference || s.Significant != nil && !*s.Significant {
		claim = infer.NotSignificant
	}
	alpha := j.alphaOf(s)
	out := claims.Judgement{}
	ownP := infer.BothSides
	if p, ok := printedP(s.P); ok {
		ownP = p.Side(alpha)
		if ownP != infer.BothSides && ownP != claim {
			return j.againstOwnP(s, claim, alpha)
		}
	}
	if len(s.Pairs) == 0 {
		if o, ok := j.omnibus(s, claim, alpha); ok {
			return o
		}
		if ownP == claim {
			out.Verdict = claims.Agrees
			out.Why = fmt.Sprintf("agrees with the %s that it prints; the figures behind it are not printed or could not be tied to it", pPrinted(s.P))
			if can, why := j.design.recomputable(); !can {
				out.Why = fmt.Sprintf("agrees with the %s that it prints; %s", pPrinted(s.P), why)
			}
			return out
		}
		out.Why = missing(s)
		return out
	}
	if s.Subject.All && len(s.Pairs) > 1 && claim == infer.Significant {
		// "There were significant differences among the groups": one test over all.
		if o, ok := j.omnibus(s, claim, alpha); ok {
			return o
		}
	}
	return j.overPairs(s, claim, ownP, alpha)
}

// alphaOf is the level a statement is judged at: its own, the paper's, or the
// usual one.
func (j *judge) alphaOf(s *claims.Statement) float64 {
	if s.Alpha.Known() && s.Alpha.Value > 0 && s.Alpha.Value < 0.5 {
		return s.Alpha.Value
	}
	return j.design.alpha
}

// printedP is the set of p values that a printed one stands for.
func printedP(n extract.Number) (infer.PrintedP, bool) {
	x, ok := printed(n)
	if !ok || n.Value < 0 || n.Value > 1 {
		return infer.PrintedP{}, false
	}
	var p infer.PrintedP
	var err error
	switch n.Relation {
	case extract.Less, extract.LessEqual:
		p, err = infer.PBelow(x, n.Relation == extract.LessEqual)
	case extract.Greater, extract.GreaterEqual:
		p, err = infer.PAbove(x, n.Relation == extract.GreaterEqual)
	default:
		p, err = infer.PEqual(x)
	}
	return p, err == nil
}

// pPrinted writes a printed p with its relation: "p < 0.001".
func pPrinted(n extract.Number) string {
	sign := map[extract.Relation]string{extract.Less: "<", extract.LessEqual: "≤", extract.Greater: ">", extract.GreaterEqual: "≥"}[n.Relation]
	if sign == "" {
		sign = "="
	}
	return fmt.Sprintf("p %s %s", sign, plainNumber(n))
}

// againstOwnP is a statement that its own printed p does not bear out.
func (j *judge) againstOwnP(s *claims.Statement, claim infer.Side, alpha float64) claims.Judgement {
	out := claims.Judgement{Why: fmt.Sprintf("%s is printed beside it, which at the level of %s is %s", pPrinted(s.P), digits(alpha), opposite(claim))}
	for _, p := range comparisons(s) {
		out.Measures = append(out.Measures, measuresOf(p)...)
	}
	bound := s.P.Relation != extract.Equal
	if bound || !j.design.alphaStated && !s.Alpha.Known() {
		// "(P < .05)" beside "no significant difference" usually names the level.
		out.Doubt.Add("it may name the level of significance only", reading.Slight)
		if bound && claim == infer.NotSignificant {
			out.Why += "; it may name the level of significance only"
		}
		return out
	}
	out.Verdict = claims.DoesNotReproduce
	return out
}

func opposite(side infer.Side) string {
	if side == infer.Significant {
		return infer.NotSignificant.String()
	}
	return infer.Significant.String()
}

// pairVerdict is what one pair says of a claim of significance.
type pairVerdict struct {
	verdict  claims.Verdict
	doubt    reading.Doubt // why what goes against the words may be our reading
	why      string
	measures []*claims.Measure
	// lettersOnly: the figures agree with the words, the letters do not.
	lettersOnly bool
}

func (j *judge) overPairs(s *claims.Statement, claim, ownP infer.Side, alpha float64) claims.Judgement {
	out := claims.Judgement{}
	var best, against *pairVerdict
	agree, silent := 0, 0
	for _, p := range s.Pairs {
		v := j.onPair(s, p, claim, alpha)
		if len(out.Measures) < 12 {
			out.Measures = append(out.Measures, v.measures...)
		}
		switch {
		case v.verdict == claims.Reproduces || v.verdict == claims.Agrees:
			agree++
			if best == nil || best.verdict == claims.Agrees && v.verdict == claims.Reproduces {
				best = &v
			}
		case v.verdict == claims.DoesNotReproduce || v.verdict == claims.Reversed || !v.doubt.Sure():
			if against == nil || !against.doubt.Sure() && v.doubt.Sure() {
				against = &v
			}
		default:
			silent++
			if out.Why == "" {
				out.Why = v.why
			}
		}
	}
	switch {
	case against != nil:
		out.Verdict, out.Why, out.Doubt = against.verdict, against.why, against.doubt
		if len(against.measures) > 0 {
			out.Measures = against.measures
		}
		if agree > 0 && !against.lettersOnly {
			// Of a list of pairs one that alone goes against the words is more
			// likely read wrongly by us than written wrongly.
			out.Verdict = claims.NotCheckable
			out.Doubt.Add("of the pairs that may be meant, others agree", reading.Slight)
		}
	case agree > 0 && silent == 0:
		out.Verdict, out.Why = best.verdict, best.why
		if agree > 1 {
			out.Why += fmt.Sprintf(", and %d more pairs likewise", agree-1)
		}
	case agree > 0:
		out.Verdict, out.Why = best.verdict, fmt.Sprintf("%s (so much of %d of %d pairs)", best.why, agree, len(s.Pairs))
	case ownP == claim:
		out.Verdict = claims.Agrees
		out.Why = fmt.Sprintf("agrees with the %s that it prints (%s)", pPrinted(s.P), out.Why)
	}
	return out
}

// onPair judges one pair: direction, letters, then the tests.
func (j *judge) onPair(s *claims.Statement, p claims.Pair, claim infer.Side, alpha float64) pairVerdict {
	v := pairVerdict{measures: []*claims.Measure{p.A, p.B}}
	sure := p.Sure()
	if claim == infer.Significant {
		if why := j.goesOtherWay(s, p); why != "" {
			v.why = why
			if sure {
				v.verdict = claims.Reversed
			} else {
				v.doubt.Add(whichMeant, reading.Slight)
			}
			return v
		}
	}
	letters, stated := byLetters(p.A, p.B)
	lettersSay := infer.BothSides
	switch letters {
	case lettersDiffer:
		lettersSay = infer.Significant
	case lettersSame:
		lettersSay = infer.NotSignificant
	}
	can, whyNot := j.design.recomputable()
	if s.BeforeTo || p.A.Change != p.B.Change || p.A.Arm != nil && p.A.Arm == p.B.Arm {
		can, whyNot = false, "the same specimens were measured twice, which means and SDs cannot bring back"
	}
	if !can && lettersSay == infer.BothSides {
		return j.withoutTest(p, claim, sure, whyNot, v)
	}
	c, missing := j.compare(p)
	if lettersSay != infer.BothSides && lettersSay != claim {
		v.why = fmt.Sprintf("the letters of %s say %s", lettersText(p.A, p.B), map[infer.Side]string{infer.Significant: "a significant difference", infer.NotSignificant: "no significant difference"}[lettersSay])
		if missing == "" {
			v.why += "; " + c.primary.String() + " for " + c.pair()
		}
		v.lettersOnly = missing == "" && c.primary.side(alpha) == claim
		if !sure || !stated {
			v.doubt.Add("whose letters they are, or what they mean, is not certain", reading.Slight)
			return v
		}
		v.verdict = claims.DoesNotReproduce
		return v
	}
	if missing != "" {
		can, whyNot = false, missing
	}
	if can {
		v = j.onFigures(c, claim, alpha, sure, v)
		if p, ok := printedP(s.P); ok && v.verdict == claims.Reproduces && len(s.Pairs) == 1 && !metBy(c, p) {
			v.why += fmt.Sprintf("; the side of the level agrees, the printed %s itself is not met", pPrinted(s.P))
		}
		return v
	}
	if lettersSay == claim {
		v.verdict = claims.Agrees
		v.why = fmt.Sprintf("agrees with the letters of %s; %s", lettersText(p.A, p.B), whyNot)
		return v
	}
	v.why = whyNot
	return v
}

// withoutTest judges a pair whose test cannot be brought back and that carries
// no letters: only a difference far beyond chance beside "no difference" is
// asked about.
func (j *judge) withoutTest(p claims.Pair, claim infer.Side, sure bool, whyNot string, v pairVerdict) pairVerdict {
	v.why = whyNot
	if claim != infer.NotSignificant || !sure {
		return v
	}
	a, missingA := groupOf(p.A)
	b, missingB := groupOf(p.B)
	if missingA != "" || missingB != "" || a.assumed || b.assumed || p.A.Arm == p.B.Arm {
		return v
	}
	if r, err := infer.WelchRange(a.box, b.box); err == nil && r.High.Value < 0.001 {
		v.doubt.Add(whyNot, reading.Slight)
		t := test{name: "Welch t test", r: r, stat: "t"}
		v.why = fmt.Sprintf("%s and %s: %s, yet no difference is stated; %s", a.text(), b.text(), t, whyNot)
	}
	return v
}

// goesOtherWay says that the figures run against the direction of the words.
func (j *judge) goesOtherWay(s *claims.Statement, p claims.Pair) string {
	a, okA := sideOfMeasure(p.A)
	b, okB := sideOfMeasure(p.B)
	if !okA || !okB || !disagreesWithDirection(s, a, b) {
		return ""
	}
	return fmt.Sprintf("%s %s and %s %s: the figures go the other way (the words say %s)", a.name, a.text, b.name, b.text, s.Direction)
}

// onFigures holds a claim against every test that may stand behind it: it is
// borne out where the named test (or Welch) agrees through all the rounding,
// contradicted only where every test disagrees through all the rounding.
func (j *judge) onFigures(c *comparison, claim infer.Side, alpha float64, sure bool, v pairVerdict) pairVerdict {
	against := infer.Significant
	if claim == infer.Significant {
		against = infer.NotSignificant
	}
	note := ""
	if c.assumed {
		note = " (the unlabelled ± taken as SD)"
	}
	switch {
	case c.primary.side(alpha) == claim:
		v.verdict = claims.Reproduces
		v.why = fmt.Sprintf("%s for %s%s", c.primary, c.pair(), note)
	case c.every(alpha, against):
		v.why = fmt.Sprintf("%s for %s%s: %s at the level of %s", c.primary, c.pair(), note, against, digits(alpha))
		if !sure || c.assumed && !j.seAgrees(c, alpha, against) || !j.certainly(c, claim) {
			v.doubt.Add(anotherTest, reading.Slight)
			return v
		}
		v.verdict = claims.DoesNotReproduce
	default:
		if t, ok := c.some(alpha, claim); ok {
			v.verdict = claims.Reproduces
			v.why = fmt.Sprintf("%s for %s%s", t, c.pair(), note)
			if c.primary.side(alpha) == against && j.design.certain() {
				v.verdict = claims.NotCheckable
				v.doubt.Add(anotherTest, reading.Slight)
				v.why = fmt.Sprintf("%s, but %s, for %s%s", c.primary, t, c.pair(), note)
			}
			return v
		}
		v.why = fmt.Sprintf("%s for %s%s: the printed digits allow both sides of %s", c.primary, c.pair(), note, digits(alpha))
	}
	return v
}

// certainly reports whether a misfit of every recomputed test may be called
// one: the paper names tests of means for independent groups, or names none
// and the misfit is too large for another test of the same figures to undo.
func (j *judge) certainly(c *comparison, claim infer.Side) bool {
	if j.design.certain() {
		return true
	}
	if claim == infer.NotSignificant {
		return !j.design.rank && !j.design.paired && !j.design.adjusted && c.strictest() < 0.001
	}
	return !j.design.any
}

// seAgrees reports whether a contradiction also stands if the unlabelled
// spread is a standard error.
func (j *judge) seAgrees(c *comparison, alpha float64, side infer.Side) bool {
	other, missing := j.compareGroups(c.a.asSE(), c.b.asSE())
	return missing == "" && other.two[0].side(alpha) == side
}

// oneFactor finds statements on one factor of several, or on their interaction:
// the analysis over all arms says nothing of these.
var oneFactor = regexp.MustCompile(`(?i)\binteractions?\b|\bmain effects?\b|\bfactors?\b|\b(?:two|three)-way\b`)

// omnibus judges "there were differences among the groups" by one-way analysis
// of variance over the arms of the outcome.
func (j *judge) omnibus(s *claims.Statement, claim infer.Side, alpha float64) (claims.Judgement, bool) {
	can, _ := j.design.recomputable()
	if !can || s.BeforeTo || !ofAllGroups(s) || oneFactor.MatchString(s.Text) {
		return claims.Judgement{}, false
	}
	families := j.familiesOf(s)
	agree, tried := 0, 0
	var shown, against *claims.Judgement
	for _, family := range families {
		one, side, ok := j.analysis(family, alpha)
		if !ok {
			continue
		}
		tried++
		switch {
		case side == claim:
			agree++
		case side != infer.BothSides && against == nil:
			against = &one
		}
		if shown == nil {
			shown = &one
		}
	}
	if shown == nil {
		return claims.Judgement{}, false
	}
	out := *shown
	switch {
	case agree == len(families):
		out.Verdict = claims.Reproduces
		if tried > 1 {
			out.Why += fmt.Sprintf("; %d more outcomes or conditions agree too", tried-1)
		}
	case against != nil && agree == 0:
		out = *against
		if len(families) == 1 && j.design.certain() && j.design.named["anova"] {
			out.Verdict = claims.DoesNotReproduce
		} else {
			out.Doubt.Add(anotherTest, reading.Slight)
		}
	default:
		out.Why += fmt.Sprintf("; of %d outcomes or conditions that may be meant %d agree within rounding", len(families), agree)
	}
	return out, true
}

// analysis is analysis of a family, made once where the level is the study's.
func (j *judge) analysis(family []*claims.Measure, alpha float64) (claims.Judgement, infer.Side, bool) {
	if alpha != j.design.alpha {
		return analysis(family, alpha)
	}
	a, done := j.analysed[family[0]]
	if !done {
		a.judgement, a.side, a.ok = analysis(family, alpha)
		if j.analysed == nil {
			j.analysed = map[*claims.Measure]analysed{}
		}
		j.analysed[family[0]] = a
	}
	return a.judgement, a.side, a.ok
}

// analysis is the one-way analysis of variance of a family, and its side.
func analysis(family []*claims.Measure, alpha float64) (claims.Judgement, infer.Side, bool) {
	if len(family) < 2 || len(family) > mostOmnibus {
		return claims.Judgement{}, infer.BothSides, false
	}
	groups, missing := groupsOf(family)
	if missing != "" {
		return claims.Judgement{}, infer.BothSides, false
	}
	r, err := infer.AnovaRange(boxesOf(groups))
	if err != nil {
		return claims.Judgement{}, infer.BothSides, false
	}
	why := fmt.Sprintf("one-way analysis of variance over %d arms: F = %s, %s", len(groups), digits(midF(groups)), pText(r.Point.Value))
	return claims.Judgement{Measures: family, Why: why}, r.Side(alpha), true
}

// mostOmnibus is the most arms over which the range of F is searched exactly.
const mostOmnibus = 14

// ofAllGroups reports a statement on all groups at once: it says so, or names
// no side at all. Sides that are named but not known ("the test and the control
// side") are some other comparison.
func ofAllGroups(s *claims.Statement) bool {
	if s.Direction != 0 || len(s.Subject.Arms) == 1 || len(s.Reference.Arms) == 1 {
		return false // "higher than" compares two sides
	}
	if s.Subject.All || s.Reference.All {
		return s.Subject.Text == "" || s.Reference.Text == "" || s.Subject.All && s.Reference.All
	}
	return false // names that are not known never stand for all
}

func boxesOf(groups []group) []interval.ArmBox {
	out := make([]interval.ArmBox, len(groups))
	for i, g := range groups {
		out[i] = g.box
	}
	return out
}

func midF(groups []group) float64 {
	arms := make([]infer.Arm, len(groups))
	for i, g := range groups {
		arms[i] = g.box.Arm
	}
	a, err := infer.OneWay(arms)
	if err != nil {
		return 0
	}
	return a.F
}

// familiesOf lists the families of measures that a statement about all groups
// speaks of: those of its pairs, else those of its outcome.
func (j *judge) familiesOf(s *claims.Statement) [][]*claims.Measure {
	if len(s.Pairs) > 0 {
		return j.familiesSpoken(s)
	}
	key := [2]string{s.OutcomeID, s.Outcome}
	if done, ok := j.spoken[key]; ok {
		return done
	}
	if j.spoken == nil {
		j.spoken = map[[2]string][][]*claims.Measure{}
	}
	j.spoken[key] = j.familiesSpoken(s)
	return j.spoken[key]
}

func (j *judge) familiesSpoken(s *claims.Statement) [][]*claims.Measure {
	var out [][]*claims.Measure
	seen := map[*claims.Measure]bool{}
	add := func(m *claims.Measure) {
		if m == nil || seen[m] {
			return
		}
		family := j.family(m)
		for _, o := range family {
			seen[o] = true
		}
		if len(family) >= 2 {
			out = append(out, family)
		}
	}
	for _, p := range s.Pairs {
		add(p.A)
	}
	if len(s.Pairs) == 0 && (s.OutcomeID != "" || s.Outcome != "") {
		for _, m := range j.study.Measures {
			if s.OutcomeID != "" && m.OutcomeID == s.OutcomeID || s.OutcomeID == "" && foldWord(m.Outcome) == foldWord(s.Outcome) {
				add(m)
			}
		}
	}
	return out
}
