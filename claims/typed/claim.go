package typed

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/role"
	"probity/claims/statement"
	"probity/extract"
)

// A Claim is a typed sentence with the figures of its two sides, as a study
// that can be judged.
type Claim struct {
	Text    string
	Study   *claims.Study
	A, B    *claims.Measure     // the typed figures; nil where the sentence prints its own
	Sides   []claims.Understood // what was made of the figures, subject first
	Asks    []string            // open questions: while there are any, nothing is judged
	Assumed []string            // what was taken for granted about both sides
	Unused  []string            // figures of the sentence that are no part of its comparison
}

// NoComparison is said of a sentence that compares nothing.
const NoComparison = "no comparison could be read in the statement; write it as “X lasted 19% longer than Y”"

// Read reads a typed claim. Subject and reference are the figures of the two
// arms, both empty where the sentence prints its own. The error says what
// cannot be used, and what to type instead.
func Read(text, subject, reference string, cat *catalog.Catalog) (*Claim, error) {
	if err := Sensible(text); err != nil {
		return nil, err
	}
	a, err := typedSide("subject", subject, subject+" "+reference, cat)
	if err != nil {
		return nil, err
	}
	b, err := typedSide("reference", reference, subject+" "+reference, cat)
	if err != nil {
		return nil, err
	}
	if (a == nil) != (b == nil) {
		return nil, errors.New("give the figures of both sides: --subject and --reference")
	}
	c := &Claim{Text: text, Study: &claims.Study{File: "statement", Statements: statement.ReadTextOf(text, quantityOf(a, b, cat), cat)}}
	if len(c.Study.Statements) == 0 {
		return nil, errors.New(NoComparison)
	}
	unused := c.unused(cat)
	if a != nil {
		unused = c.asDifference(unused, cat)
		if err := c.tie(a, b); err != nil {
			return nil, err
		}
		c.sameUnit(a.Measure, b.Measure, cat)
	} else {
		c.ownFigures(cat)
	}
	c.judgeUnused(unused)
	return c, nil
}

// quantityOf is what the units of the sides are units of, "" where none is known.
func quantityOf(a, b *Side, cat *catalog.Catalog) string {
	for _, s := range []*Side{a, b} {
		if s != nil && s.Measure.UnitID != "" {
			return cat.Unit(s.Measure.UnitID).Quantity
		}
	}
	return ""
}

func typedSide(which, text, both string, cat *catalog.Catalog) (*Side, error) {
	if text == "" {
		return nil, nil
	}
	s, err := readSide(text, styleOf(both), cat)
	if err != nil {
		return nil, fmt.Errorf("--%s %q: %w", which, text, err)
	}
	s.Measure.ArmText = which
	s.Measure.Place = extract.Place{File: "--" + which}
	return s, nil
}

var (
	glued    = regexp.MustCompile(`(?i)(^|[^\pL\d])(\d[\d.,]*e[+−-]?\d{2,}|0x[0-9a-f.p]+)`)
	nameless = regexp.MustCompile(`(^|[^\pL])(NaN|nan|Infinity|∞|[Ii]nf\s*(?:%|x|×|times))([^\pL]|$)`)
	typedP   = regexp.MustCompile(`(?:^|[^\pL])[pP](?:[ -]?values?)?\s*(?:=|<|>|≤|≥|<=|>=|:|of|was|is)\s*([-−–]?\d*[.,]?\d+)`)
)

// Sensible refuses figures of a sentence that can be none.
func Sensible(text string) error {
	for _, re := range []*regexp.Regexp{nameless, glued} {
		if m := re.FindStringSubmatch(text); m != nil {
			return fmt.Errorf("“%s” is no figure that can be used; type it in full, in plain digits", m[2])
		}
	}
	for _, m := range typedP.FindAllStringSubmatch(text, -1) {
		p, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-", "–", "-").Replace(m[1]), 64)
		if err == nil && (p > 1 || p < 0) {
			return fmt.Errorf("p = %s: a p lies between 0 and 1; type it as the paper prints it, or leave it out", m[1])
		}
	}
	return nil
}

// tie makes the typed figures the pair of every statement that is about these
// two sides.
func (c *Claim) tie(a, b *Side) error {
	first := c.Study.Statements[0]
	c.A, c.B = a.Measure, b.Measure
	subject, reference := partyName(first.Subject), partyName(first.Reference)
	for _, x := range []struct {
		side        *Side
		flag        string
		own, others string
	}{{a, "subject", subject, reference}, {b, "reference", reference, subject}} {
		if x.side.Name != "" && x.others != "" && strings.EqualFold(x.side.Name, x.others) {
			return fmt.Errorf("--%s gives figures of %s, which the sentence compares the other way round; exchange --subject and --reference", x.flag, x.side.Name)
		}
		name := x.own
		if name == "" {
			name = x.side.Name
		}
		if name == "" {
			name = x.flag
		}
		if x.side.Name != "" && !strings.EqualFold(x.side.Name, name) {
			x.side.Left = append([]string{x.side.Name}, x.side.Left...)
		}
		x.side.Measure.ArmText, x.side.Understood.Name = name, name
		c.Sides = append(c.Sides, x.side.Understood)
		for _, ask := range x.side.Asks {
			c.Asks = append(c.Asks, name+": "+ask)
		}
	}
	c.separateP()
	c.Study.Measures = []*claims.Measure{c.A, c.B}
	for i, m := range c.Study.Measures {
		m.ID = "m" + strconv.Itoa(i+1)
		m.Outcome, m.OutcomeID = first.Outcome, first.OutcomeID
	}
	for _, s := range c.Study.Statements {
		if err := c.sameFigures(s); err != nil {
			return err
		}
		s.Own = true
		s.A, s.B = claims.Figure{}, claims.Figure{}
		pair := claims.Pair{A: c.A, B: c.B}
		switch sa, sb := partyName(s.Subject), partyName(s.Reference); {
		case sameName(sa, subject) && sameName(sb, reference):
		case sameName(sa, reference) && sameName(sb, subject):
			pair.A, pair.B = pair.B, pair.A
		default:
			s.Pairs, s.Why = nil, fmt.Sprintf("the figures typed are those of %s and %s; check this one by itself", c.A.ArmText, c.B.ArmText)
			continue
		}
		s.Pairs = []claims.Pair{pair}
	}
	return nil
}

// separateP makes a statement of its own of the p that stands beside a
// percentage, a factor or a difference: the figures are held against both.
func (c *Claim) separateP() {
	var extra []*claims.Statement
	for _, s := range c.Study.Statements {
		if !besideP(s) || slices.ContainsFunc(c.Study.Statements, func(t *claims.Statement) bool { return t != s && t.P == s.P && !besideP(t) }) {
			continue
		}
		significant := s.P.Value <= usualLevel && s.P.Relation != extract.Greater && s.P.Relation != extract.GreaterEqual
		kind := claims.NoDifference
		if significant {
			kind = claims.Significance
		}
		extra = append(extra, &claims.Statement{ID: s.ID + "p", Text: s.Text, Place: s.Place, Kind: kind, Subject: s.Subject, Reference: s.Reference,
			Outcome: s.Outcome, OutcomeID: s.OutcomeID, Condition: s.Condition, Printed: pText(s.P), P: s.P, Significant: &significant})
	}
	c.Study.Statements = append(c.Study.Statements, extra...)
}

func pText(p extract.Number) string { return "p " + relationSigns[p.Relation] + " " + p.Text }

var relationSigns = map[extract.Relation]string{extract.Equal: "=", extract.About: "≈", extract.Less: "<", extract.LessEqual: "≤", extract.Greater: ">", extract.GreaterEqual: "≥"}

// usualLevel is the level of significance where none is named (common
// practice).
const usualLevel = 0.05

// besideP: the p of a statement that is about something else.
func besideP(s *claims.Statement) bool {
	return s.P.Known() && (s.Kind == claims.Percent || s.Kind == claims.Fold || s.Kind == claims.Difference && s.Value.Known())
}

func partyName(p claims.Party) string {
	if p.Text == "" && len(p.Arms) == 1 {
		return p.Arms[0].Name
	}
	return p.Text
}

// sameName: a side that is not named is the one that the figures are of.
func sameName(a, b string) bool { return a == "" || b == "" || strings.EqualFold(a, b) }

// sameFigures refuses a sentence that prints other figures than those typed:
// which of them are meant is not known.
func (c *Claim) sameFigures(s *claims.Statement) error {
	if !s.A.Known() || !s.B.Known() {
		return nil
	}
	if s.A.Number.Value == c.A.Mean.Value && s.B.Number.Value == c.B.Mean.Value {
		return nil
	}
	return fmt.Errorf("the sentence prints %s and %s, --subject and --reference give %s and %s; leave one pair out", s.A.Number.Text, s.B.Number.Text, c.A.Mean.Text, c.B.Mean.Text)
}

// sameUnit brings two figures to one unit, or asks.
func (c *Claim) sameUnit(a, b *claims.Measure, cat *catalog.Catalog) {
	for i, x := range []struct{ without, with *claims.Measure }{{a, b}, {b, a}} {
		if x.without.Unit == "" && x.with.Unit != "" {
			x.without.Unit, x.without.UnitID = x.with.Unit, x.with.UnitID
			assumed := fmt.Sprintf("no unit was typed for %s; it is taken as %s, as that of %s", x.without.ArmText, x.with.Unit, x.with.ArmText)
			c.Assumed = append(c.Assumed, assumed)
			c.Sides[i].Assumed = append(c.Sides[i].Assumed, assumed)
		}
	}
	ua, ub := unitOf(a.Unit, cat), unitOf(b.Unit, cat)
	sa, sb, note, ask := bring(ua, ub, a.Mean.Text, b.Mean.Text)
	a.Scale, b.Scale = sa, sb
	c.note(note, ask)
	unit := a.Unit
	if sa.Unit != "" {
		unit = sa.Unit
	}
	for _, s := range c.Study.Statements {
		if s.Kind != claims.Difference || !s.Value.Known() || s.Unit == "" {
			continue
		}
		if unit == "" {
			c.note("", fmt.Sprintf("the difference is in %s and the figures have no unit; type theirs, as “702.3 (106.8) s n=12”", s.Unit))
			continue
		}
		c.differenceUnit(s, unit, cat)
	}
}

// differenceUnit brings a stated difference to the unit of the figures.
func (c *Claim) differenceUnit(s *claims.Statement, unit string, cat *catalog.Catalog) {
	from, to := unitOf(s.Unit, cat), unitOf(unit, cat)
	switch {
	case same(from, to):
	case from.known == nil || to.known == nil || from.known.Quantity != to.known.Quantity || from.known.Offset != to.known.Offset:
		c.note("", fmt.Sprintf("the difference is in %s and the figures are in %s: type them in one unit", s.Unit, unit))
	default:
		k := ratio(from.known, to.known)
		s.Scale = claims.Scale{Factor: k, Unit: unit}
		c.note(fmt.Sprintf("%s %s is %s %s (× %s)", s.Value.Text, s.Unit, short(s.Value.Value*k), unit, short(k)), "")
	}
}

func (c *Claim) note(note, ask string) {
	if note != "" {
		c.Assumed = append(c.Assumed, note)
	}
	if ask != "" {
		c.Asks = append(c.Asks, ask)
	}
}

// unit is a unit as typed with its row of the catalogue, nil where there is none.
type unit struct {
	text  string
	known *catalog.Unit
}

func unitOf(text string, cat *catalog.Catalog) unit { return unit{text, cat.FindUnit(text)} }

func same(a, b unit) bool {
	if a.known != nil && b.known != nil {
		return a.known.ID == b.known.ID
	}
	return a.known == nil && b.known == nil && strings.EqualFold(a.text, b.text)
}

// bring gives the scales that bring two figures to the smaller of their units,
// and a note with the factor; or what has to be asked.
func bring(a, b unit, figureA, figureB string) (sa, sb claims.Scale, note, ask string) {
	switch {
	case same(a, b):
		return
	case a.known == nil || b.known == nil:
		return sa, sb, "", fmt.Sprintf("%s %s and %s %s: the table of units does not have both, and they cannot be compared; type both figures in one unit", figureA, a.text, figureB, b.text)
	case a.known.Quantity != b.known.Quantity:
		return sa, sb, "", fmt.Sprintf("%s %s is a %s and %s %s a %s: they cannot be compared; type two figures of one quantity", figureA, a.text, a.known.Quantity, figureB, b.text, b.known.Quantity)
	case a.known.Offset != b.known.Offset:
		return sa, sb, "", fmt.Sprintf("%s %s and %s %s have different zero points; type both figures in one unit", figureA, a.text, figureB, b.text)
	}
	if a.known.Factor < b.known.Factor {
		sb, sa, note, ask = bring(b, a, figureB, figureA)
		return sa, sb, note, ask
	}
	k := ratio(a.known, b.known)
	sa = claims.Scale{Factor: k, Unit: b.text}
	return sa, sb, fmt.Sprintf("%s %s is brought to %s: 1 %s = %s %s", figureA, a.text, b.text, a.text, short(k), b.text), ""
}

// ratio is how many of b make one a, without the noise of floating point.
func ratio(a, b *catalog.Unit) float64 {
	k := a.Factor / b.Factor
	if r := math.Round(k); r != 0 && math.Abs(k/r-1) < 1e-12 {
		return r
	}
	return k
}

func short(x float64) string { return strconv.FormatFloat(x, 'g', 7, 64) }

// ownFigures tells what was understood of figures that stand in the sentence,
// and brings them to one unit.
func (c *Claim) ownFigures(cat *catalog.Catalog) {
	for _, s := range c.Study.Statements {
		if besideP(s) {
			c.Unused = append(c.Unused, fmt.Sprintf("“%s” (it needs the SD and n of both sides: --subject and --reference)", pText(s.P)))
		}
		if !s.A.Known() || !s.B.Known() {
			continue
		}
		switch a, b := &s.A, &s.B; {
		case a.Unit == "" || b.Unit == "":
			if unit := a.Unit + b.Unit; unit != "" {
				c.Assumed = append(c.Assumed, fmt.Sprintf("one of %s and %s has no unit of its own; both are taken as %s", a.Number.Text, b.Number.Text, unit))
			}
		default:
			var note, ask string
			a.Scale, b.Scale, note, ask = bring(unitOf(a.Unit, cat), unitOf(b.Unit, cat), a.Number.Text, b.Number.Text)
			c.note(note, ask)
		}
		for _, x := range []struct {
			figure claims.Figure
			party  claims.Party
			name   string
		}{{s.A, s.Subject, "subject"}, {s.B, s.Reference, "reference"}} {
			c.addOwn(x.figure, x.party, x.name)
		}
	}
}

func (c *Claim) addOwn(f claims.Figure, p claims.Party, name string) {
	if text := partyName(p); text != "" {
		name = text
	} else if p.Level != "" {
		name = p.Level
	}
	u := claims.Understood{Name: name}
	words := f.Number.Text
	value := plain(f.Number)
	if f.High.Known() {
		value += " to " + plain(f.High)
		words += "–" + f.High.Text
	}
	u.Parts = append(u.Parts, claims.Part{What: "figure", Value: value, Words: words})
	if f.Spread.Known() {
		v := plain(f.Spread.Value)
		if f.Spread.Low.Known() {
			v = plain(f.Spread.Low) + " to " + plain(f.Spread.High)
		}
		u.Parts = append(u.Parts, claims.Part{What: spreadNames[f.Spread.Kind], Value: v, Words: f.Spread.Text})
	}
	if f.N.Known() {
		u.Parts = append(u.Parts, claims.Part{What: "n", Value: plain(f.N), Words: f.N.Text})
	}
	unit := claims.Part{What: "unit", Value: "not given"}
	if f.Unit != "" {
		unit.Value, unit.Words = f.Unit, f.Unit
	}
	u.Parts = append(u.Parts, unit)
	if !slices.ContainsFunc(c.Sides, func(x claims.Understood) bool { return x.Name == u.Name && slices.Equal(x.Parts, u.Parts) }) {
		c.Sides = append(c.Sides, u)
	}
}

// unused gives the numbers of the sentence that no statement took, with what
// each is.
func (c *Claim) unused(cat *catalog.Catalog) []role.Number {
	text := extract.Fold(c.Text)
	var taken []extract.Number
	var names []string
	for _, s := range c.Study.Statements {
		taken = append(taken, s.Value, s.High, s.P, s.Alpha)
		for _, f := range []claims.Figure{s.A, s.B} {
			taken = append(taken, f.Number, f.High, f.N, f.Spread.Value, f.Spread.Low, f.Spread.High)
		}
		if s.Stat != nil {
			taken = append(append(taken, s.Stat.Value, s.Stat.P), s.Stat.DF...)
		}
		for _, p := range append([]claims.Party{s.Subject, s.Reference}, s.Others...) {
			names = append(names, p.Text, p.Level)
		}
		names = append(names, s.Outcome)
	}
	var out []role.Number
	for _, n := range role.Numbers(text, cat) {
		if !slices.ContainsFunc(taken, func(t extract.Number) bool {
			return t.Known() && t.Place.Start < n.End && n.Start < t.Place.End
		}) && !within(text, names, n) {
			out = append(out, n)
		}
	}
	return out
}

// asDifference makes a stated difference of an order with a figure in a unit:
// "lasted 0.3 s longer than", "longer than Halyard by 3 min". It gives back the
// numbers that are still not used.
func (c *Claim) asDifference(unused []role.Number, cat *catalog.Catalog) []role.Number {
	if len(unused) != 1 || len(c.Study.Statements) != 1 {
		return unused
	}
	n, s := unused[0], c.Study.Statements[0]
	text := extract.Fold(c.Text)
	unit, behind := unitBehind(text[n.End:], cat)
	if s.Kind != claims.Ranking || s.Direction == claims.DirectionNotGiven || s.Value.Known() || n.Word || n.Percent || unit == "" || len(s.Order) > 2 {
		return unused
	}
	if !difference.MatchString(behind) && !strings.HasSuffix(strings.TrimSpace(text[:n.Start]), " by") {
		return unused
	}
	s.Kind = claims.Difference
	s.Value = extract.Number{Text: text[n.Start:n.End], Value: n.Value, Decimals: n.Decimals, Place: extract.Place{Start: n.Start, End: n.End}}
	s.Unit, s.Printed = unit, text[n.Start:n.End]+" "+unit
	return nil
}

// unitBehind gives the longest unit that a text begins with, and the rest.
func unitBehind(text string, cat *catalog.Catalog) (unit, rest string) {
	words := strings.Fields(text)
	for k := min(4, len(words)); k >= 1; k-- {
		unit := strings.TrimRight(strings.Join(words[:k], " "), ".,;")
		if cat.FindUnit(unit) != nil {
			return unit, strings.Join(words[k:], " ")
		}
	}
	return "", text
}

// difference is what follows the figure of a stated difference.
var difference = regexp.MustCompile(`^(?:more|less|fewer|\pL+er)(?:[^\pL]|$)`)

// within: the number stands inside a name, a condition or an outcome that a
// statement took as its own.
func within(text string, names []string, n role.Number) bool {
	for _, name := range names {
		for from := 0; name != ""; {
			i := strings.Index(text[from:], name)
			if i < 0 {
				break
			}
			if from+i <= n.Start && n.End <= from+i+len(name) {
				return true
			}
			from += i + len(name)
		}
	}
	return false
}

// judgeUnused sorts the numbers that no statement took: names, conditions and
// the n that was typed are told, everything else is asked about.
func (c *Claim) judgeUnused(numbers []role.Number) {
	text := extract.Fold(c.Text)
	var open []string
	for _, n := range numbers {
		words := text[n.Start:n.End]
		if n.Percent && strings.HasPrefix(strings.TrimLeft(text[n.End:], " "), "%") {
			words += "%"
		} else if n.Unit != "" {
			words += " " + n.Unit
		}
		switch {
		case n.Word && !n.Role.Best.Value.Pairable():
		case c.harmless(n):
			c.Unused = append(c.Unused, fmt.Sprintf("“%s” (taken as a %s)", words, roleWord(n.Role.Best.Value)))
		default:
			open = append(open, "“"+words+"”")
		}
	}
	if len(open) == 0 {
		return
	}
	stands := "stands in the sentence and was not understood as part of its comparison; leave it out"
	if len(open) > 1 {
		stands = "stand in the sentence and were not understood as part of its comparison; leave them out"
	}
	c.Asks = append(c.Asks, strings.Join(open, ", ")+" "+stands+", or write the claim as “X lasted 19% longer than Y” or “X lasted 0.3 s longer than Y”")
}

// harmless reports a number that changes no sum: a name, a condition, a time,
// and an n that was typed with the figures too.
func (c *Claim) harmless(n role.Number) bool {
	switch n.Role.Best.Value {
	case role.Name, role.Other, role.Year, role.Citation:
		return true
	case role.Dose, role.TimePoint, role.Duration:
		return n.Role.Sure() || !n.Role.Second.Value.Pairable()
	case role.N:
		return c.A == nil || c.A.N.Value == n.Value || c.B.N.Value == n.Value
	}
	return false
}

func roleWord(r role.Role) string {
	switch r {
	case role.Dose:
		return "condition"
	case role.TimePoint, role.Duration:
		return "time"
	case role.Name, role.Other:
		return "name"
	case role.N:
		return "number of specimens"
	}
	return r.String()
}

// Settle applies to judgements what the claim took for granted, and takes
// every verdict back while a question is open.
func (c *Claim) Settle(judgements []claims.Judgement, findings []claims.Finding) ([]claims.Judgement, []claims.Finding) {
	for i := range judgements {
		j := &judgements[i]
		switch {
		case len(c.Asks) > 0:
			*j = claims.Judgement{Statement: j.Statement, Measures: j.Measures, Why: "nothing is judged before it is known what was meant"}
		case len(c.Sides) == 0 && len(j.Measures) == 0 && j.Verdict == claims.NotCheckable:
			j.Why += "; type them with --subject “" + Example + "” and --reference"
		case len(c.Assumed) > 0 && j.Why != "":
			j.Why += "; " + strings.Join(c.Assumed, "; ")
		}
	}
	if len(c.Asks) > 0 {
		findings = nil
	}
	return judgements, findings
}
