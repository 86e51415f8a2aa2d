package assemble

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/reading"
	"probity/extract"
	"probity/extract/numeral"
)

// sizeOf sets n of a measure from the table: the cell, the headings and row
// labels, a column or row of n, what its figures show, the caption, the notes.
func (t *table) sizeOf(m *claims.Measure, p part) {
	set := func(n extract.Number, why string) bool {
		if !n.Known() || n.Decimals > 0 || n.Value < 1 || n.Value != float64(int(n.Value)) {
			return false
		}
		m.N = claims.Quantity{Number: n, Origin: claims.Printed, Why: why}
		return true
	}
	if !t.shares(p) && set(p.read.N, "cell") || set(t.rowN(p), "row label") || set(t.col[p.c].n, "heading") || set(t.nBeside(p), "column or row of n") {
		return
	}
	n, why := t.nAround(m)
	if t.nShown(m, p) && !alike(n.Value, m.N.Value) {
		return
	}
	set(n, why)
}

// rowN is the n of the labels of a row. Where they give one to each of the
// groups of the columns, "pain (lamp n = 12; sham n = 11)", it is that of the
// group of the cell.
func (t *table) rowN(p part) extract.Number {
	for _, s := range t.namedInRow(p.r) {
		var names []string
		for _, head := range t.col[p.c].labels {
			names = append(names, head.clean)
		}
		k, _ := s.of(names)
		return k.Number
	}
	return t.row[p.r].n
}

// namedInRow finds the labels of a row that give more than one n, once.
func (t *table) namedInRow(r int) []sizeText {
	k := t.lineOf(r)
	if !k.namesRead {
		k.namesRead = true
		for _, l := range t.row[r].labels {
			if found := namedNs(l.text); len(found) > 1 {
				k.named = append(k.named, sizeText{text: l.text, found: found})
			}
		}
	}
	return k.named
}

// namedNs lists the "n = 12" of a text.
func namedNs(text string) []numeral.Token {
	var out []numeral.Token
	for _, k := range numeral.Scan(text) {
		if k.Form == numeral.N && k.Number.Relation == extract.Equal && len(out) < mostSizes {
			out = append(out, k)
		}
	}
	return out
}

// alike reports whether two sizes may be of one group of which a few figures
// are missing, or whose percentages are cut off instead of rounded.
func alike(a, b float64) bool { return math.Abs(a-b) <= 0.05*b }

// shares reports whether the labels of a cell speak of percentages or a second
// centre: the whole number in brackets behind a mean and its spread is then no
// n.
func (t *table) shares(p part) bool {
	for _, a := range []*axis{&t.row[p.r], &t.col[p.c]} {
		for _, l := range a.labels {
			if (strings.Contains(l.text, "%") || secondCentre.MatchString(l.text)) && !strings.Contains(p.read.Text, "=") {
				return true
			}
		}
	}
	return false
}

// secondCentre: "mean ± SD (median)".
var secondCentre = regexp.MustCompile(`(?i)\bmean\b.*[(\[](?:median|mode|max\w*|range)\b`)

// nBeside finds n in a column or row of its own: one under the same heading,
// or in the same section, before one that stands for all.
func (t *table) nBeside(p part) extract.Number {
	best, score := extract.Number{}, -1
	columns, leads := t.columnsOfN()
	try := func(r, c int) {
		rd, a, b := &t.g.read[r][c], &t.col[c], &t.col[p.c]
		if !printsN(rd) {
			return
		}
		shared := common(a, b) * 2
		if leads == (c < p.c) {
			shared++
		}
		if own := distinctAbove(a); own > 0 && common(a, b) < own {
			return // n of another group or time
		}
		if shared > score || shared == score && leads && c < p.c {
			best, score = rd.Number, shared
		}
	}
	for _, c := range columns {
		if len(columns) == 1 && t.ofAllArms(c) {
			continue
		}
		try(p.r, c)
		if t.g.read[p.r][c].Form == numeral.None && t.row[p.r].block > 0 {
			for _, r := range t.inBlock(t.row[p.r].block) {
				try(r, c)
			}
		}
	}
	paths := labelPaths(&t.row[p.r])
	for depth := len(paths) - 1; depth >= 0; depth-- {
		if n, ok := t.column(p.c).n[paths[depth]]; ok {
			if depth*2 > score {
				best = n
			}
			break
		}
	}
	return best
}

// columnsOfN lists the columns that hold n, and whether each stands before its
// group, not behind it.
func (t *table) columnsOfN() (columns []int, leads bool) {
	if t.nColumns == nil {
		out := []int{}
		for c := range t.col {
			if t.col[c].role == "n" && !t.g.stub[c] {
				out = append(out, c)
			}
		}
		t.nColumns = &out
		first := slices.IndexFunc(t.col, func(a axis) bool { return a.live && a.data() })
		t.nLeads = len(out) > 0 && out[0] < first
	}
	return *t.nColumns, t.nLeads
}

// ofAllArms reports whether a column of n stands outside the groups that other
// columns are of: it counts all of them together, where nobody took more than
// one treatment.
func (t *table) ofAllArms(c int) bool {
	if t.crossedOver() {
		return false
	}
	for _, d := range t.d {
		if d.role == roleArm && !d.byRow && len(d.distinct) > 1 && distinctAbove(&t.col[c]) == 0 {
			return true
		}
	}
	return false
}

// common counts the names that two axes share from the outside in.
func common(a, b *axis) int {
	n := 0
	for i := 0; i < len(a.labels) && i < len(b.labels); i++ {
		if a.labels[i].clean == "" || a.labels[i].clean != b.labels[i].clean {
			break
		}
		n++
	}
	return n
}

// distinctAbove counts the names over a row or column of n.
func distinctAbove(a *axis) int {
	n := 0
	for _, l := range a.labels {
		if l.clean != "" && !l.whole && !l.has("n") {
			n++
		}
	}
	return n
}

// nAround reads n from the caption or the notes: "(n = 10 per group)", "n =
// 18 in every group except Brex (n = 17)".
func (t *table) nAround(m *claims.Measure) (extract.Number, string) {
	for _, s := range t.sizes() {
		k := s.found[0]
		if len(s.found) > 1 {
			var ok bool
			if k, ok = t.exceptionOnce(&s, m); !ok {
				continue
			}
		}
		k.Number.Place = t.place
		return k.Number, s.why
	}
	return extract.Number{}, ""
}

// sizeText is a caption or a note with the n that stand in it.
type sizeText struct {
	text, why string
	found     []numeral.Token
	excepts   bool // its words set some groups apart from the others
}

// mostSizes is how many n of one note are told apart by the groups they name.
const mostSizes = 100

// sizes finds the n of caption and notes, once for the table.
func (t *table) sizes() []sizeText {
	if t.sizeTexts != nil {
		return *t.sizeTexts
	}
	var out []sizeText
	for i, text := range append([]string{t.caption.text}, t.notes...) {
		low := strings.ToLower(text)
		s := sizeText{text: text, why: "note", excepts: hasAny(low, "except", "apart from", "other than", "but ")}
		if i == 0 {
			s.why = "caption"
		}
		s.found = namedNs(text)
		if len(s.found) > 0 && !strings.Contains(low, "total") {
			out = append(out, s)
		}
	}
	t.sizeTexts = &out
	return out
}

// exceptKey is a group as a table names it, beside the text that tells of it.
type exceptKey struct {
	arm        *claims.Arm
	name, text string
}

// exceptionOnce is exception, found once for each group of the table.
func (t *table) exceptionOnce(s *sizeText, m *claims.Measure) (numeral.Token, bool) {
	key := exceptKey{m.Arm, m.ArmText, s.text}
	if k, ok := t.excepted[key]; ok {
		return k, k.Number.Known()
	}
	k, ok := exception(s, m)
	if !ok {
		k = numeral.Token{}
	}
	if t.excepted == nil {
		t.excepted = map[exceptKey]numeral.Token{}
	}
	t.excepted[key] = k
	return k, ok
}

// exception picks the n of a group from a note that gives one for all and
// others for the groups it names: the first holds where no name fits.
func exception(s *sizeText, m *claims.Measure) (numeral.Token, bool) {
	if m.Arm == nil {
		return numeral.Token{}, false
	}
	if k, ok := s.of(append([]string{m.Arm.Name, m.Arm.Short, m.ArmText}, m.Arm.Aliases...)); ok {
		return k, true
	}
	return s.found[0], s.excepts
}

// of picks the n that stands behind one of the names of a group: right behind
// it, or else behind words that contain it.
func (s *sizeText) of(names []string) (numeral.Token, bool) {
	for _, fits := range []func(before, name string) bool{
		func(before, name string) bool { return key(lastPiece(before)) == key(name) },
		containsName,
	} {
		for i := len(s.found) - 1; i >= 0; i-- {
			start := 0
			if i > 0 {
				start = s.found[i-1].End
			}
			for _, name := range names {
				if len(name) > 0 && fits(s.text[start:s.found[i].Start], name) {
					return s.found[i], true
				}
			}
		}
	}
	return numeral.Token{}, false
}

// lastPiece is what stands behind the last mark of a text: of "; lamp: " it is
// "lamp".
func lastPiece(s string) string {
	s = strings.TrimRight(s, " ,:;([")
	return s[strings.LastIndexAny(s, ",:;([")+1:]
}

// fillN gives n from captions and text to measures whose table prints none,
// and each group the n that holds for it.
func (p *paper) fillN() {
	rows := p.notEachRow()
	p.namedN()
	if p.lackN() {
		p.captionN()
		p.textN(rows)
	}
	for a, list := range p.arms.n { // any order: each group has its own n
		if len(list) > 0 && same(list) {
			a.N = claims.Quantity{Number: list[0], Origin: claims.Printed, Why: "methods"}
		}
	}
	p.armN()
}

// A sharedRow is what the label of a row gives as n for several groups.
type sharedRow struct {
	n    float64
	arms []*claims.Arm
}

// notEachRow takes back the n of a row label that several groups of the row
// would share: where nobody took more than one treatment, "Pain (n = 43)" counts
// all of them together. It gives the rows of the measures it leaves without n.
func (p *paper) notEachRow() map[*claims.Measure]*sharedRow {
	rows := map[extract.Place]*sharedRow{}
	of := func(m *claims.Measure) extract.Place { return extract.Place{Table: m.Place.Table, Row: m.Place.Row} }
	for _, m := range p.study.Measures {
		if m.N.Why != "row label" || m.Arm == nil || wholeSample(m.Arm) {
			continue
		}
		switch r := rows[of(m)]; {
		case r == nil:
			rows[of(m)] = &sharedRow{m.N.Value, []*claims.Arm{m.Arm}}
		case r.n != m.N.Value:
			r.n = 0 // each has its own
		case !slices.Contains(r.arms, m.Arm):
			r.arms = append(r.arms, m.Arm)
		}
	}
	left := map[*claims.Measure]*sharedRow{}
	if len(rows) == 0 {
		return left
	}
	if w := p.wholeSampleOf(); w.crossed || w.single {
		return left
	}
	for _, m := range p.study.Measures {
		if r := rows[of(m)]; m.N.Why == "row label" && m.Arm != nil && r != nil && r.n > 0 && len(r.arms) > 1 {
			m.N, left[m] = claims.Quantity{}, r
		}
	}
	return left
}

// mostOf reports whether the row counts most of those in its groups.
func (r *sharedRow) mostOf(known map[*claims.Arm]*claims.Quantity) bool {
	sum := 0.0
	for _, a := range r.arms {
		if q := known[a]; q != nil {
			sum += q.Value
		}
	}
	return r.n >= 0.8*sum && r.n <= sum
}

// textN gives n from the text to measures without one: that of the whole
// sample where all took part in everything, that of the group, that of every
// group, or a total that the groups divide exactly.
func (p *paper) textN(rows map[*claims.Measure]*sharedRow) {
	each, why := p.eachN()
	said := p.saidN(p.headcounts())
	whole := p.wholeSampleOf()
	p.notAll(said, &whole)
	unsettled := p.notOfAll(said, &whole)
	elsewhere := p.tableN()
	for _, m := range p.study.Measures {
		if m.N.Known() || unsettled[m] || rows[m] != nil && !rows[m].mostOf(elsewhere) || ofOneSex(m) {
			continue
		}
		if why := whole.why(m); why != "" {
			if whole.n.Known() {
				m.N = claims.Quantity{Number: whole.n, Origin: claims.Printed, Why: why}
				if whole.others {
					m.Doubt.Add("n is taken for that of the whole sample; tables print other n", reading.Slight)
				}
			}
			continue
		}
		if m.Arm != nil && p.groupN(m, elsewhere, said) {
			continue
		}
		if c := p.design.controlN; c.Known() && m.Arm != nil && isControl(m.Arm) {
			m.N = claims.Quantity{Number: c, Origin: claims.Printed, Why: "methods, of each control group"}
			continue
		}
		if _, other := elsewhere[m.Arm]; each.Known() && !(other && strings.HasPrefix(why, "total")) {
			m.N = claims.Quantity{Number: each, Origin: claims.Printed, Why: why}
			if strings.HasPrefix(why, "total") {
				m.N.Origin = claims.Derived
			}
			if strings.Contains(why, unequal) {
				m.Doubt.Add("n is the total divided by the number of groups, which are not said to be equal", reading.Slight)
			}
		}
	}
}

// ofOneSex reports whether a measure is of the men or the women alone: what the
// text tells of groups and of the whole sample is not their number.
func ofOneSex(m *claims.Measure) bool {
	return oneSex.MatchString(extract.Lower(m.ArmText)) || oneSex.MatchString(extract.Lower(m.Condition))
}

var oneSex = regexp.MustCompile(`\b(?:men|women|males?|females?|boys?|girls?)\b`)

// notAll forgets what is said of groups where it is as many as all together,
// who were not all in one group.
func (p *paper) notAll(said map[*claims.Arm]*told, whole *sample) {
	if whole.crossed || whole.single || !whole.n.Known() {
		return
	}
	for a, t := range said { // any order: each group has its own
		if n, _, _ := t.settle(); n.Known() && (n.Value == whole.n.Value || n.Value == whole.in.Value) {
			delete(said, a)
		}
	}
}

// groupN gives a measure the n of its group: from another table, from the
// text. It reports whether either tells of the group, be it that they disagree.
func (p *paper) groupN(m *claims.Measure, elsewhere map[*claims.Arm]*claims.Quantity, said map[*claims.Arm]*told) bool {
	if q := elsewhere[m.Arm]; q != nil {
		m.N = *q
		m.N.Why = "another table, of this group"
		return true
	}
	if t := said[m.Arm]; t != nil {
		if n, why, note := t.settle(); n.Known() {
			m.N = claims.Quantity{Number: p.ofSubgroup(n), Origin: claims.Printed, Why: why}
			m.Doubt.Add(note, reading.Slight)
		}
		return true
	}
	n, ok := p.ownN(m.Arm)
	if ok {
		m.N = claims.Quantity{Number: n, Origin: claims.Printed, Why: "methods, of this group"}
	}
	return ok
}

// lackN reports whether the tables leave n open, or print one for all groups.
func (p *paper) lackN() bool {
	for _, m := range p.study.Measures {
		if !m.N.Known() || m.N.Why == "caption" || m.N.Why == "note" {
			return true
		}
	}
	return false
}

// namedN gives the n in brackets to the group whose name stands before them:
// "saline (n = 16), chlorhexidine (n = 15)".
func (p *paper) namedN() {
	for _, m := range p.mentions {
		words := lastFields(m.before, 5)
		for k := len(words); k >= 1; k-- {
			name := strings.Trim(strings.Join(words[len(words)-k:], " "), ",;:")
			if a := p.arms.exact(name); a != nil && len(key(name)) > 0 {
				p.arms.n[a] = append(p.arms.n[a], m.n)
				break
			}
		}
	}
}

// ownN is the n that the methods print for a group. Where subgroups are said
// to be smaller, it is theirs.
func (p *paper) ownN(a *claims.Arm) (extract.Number, bool) {
	list := p.arms.n[a]
	if len(list) == 0 || !same(list) {
		return extract.Number{}, false
	}
	return p.ofSubgroup(list[0]), true
}

// ofSubgroup gives the n of a subgroup for that of its group, where the group
// is said to be divided.
func (p *paper) ofSubgroup(n extract.Number) extract.Number {
	if sub := p.design.subN; sub.Known() && sub.Value < n.Value && math.Mod(n.Value, sub.Value) == 0 {
		return sub
	}
	return n
}

func same(list []extract.Number) bool {
	for _, n := range list {
		if n.Value != list[0].Value {
			return false
		}
	}
	return true
}

// armN takes n of a group from its measures where they all agree.
func (p *paper) armN() {
	for a, q := range p.tableN() { // any order: each group has its own n
		if q != nil && !a.N.Known() {
			a.N = *q
		}
	}
}

// tableN is the one n that the measures of each group have; nil where they
// differ.
func (p *paper) tableN() map[*claims.Arm]*claims.Quantity {
	n := map[*claims.Arm]*claims.Quantity{}
	for _, m := range p.study.Measures {
		if m.Arm == nil || !m.N.Known() {
			continue
		}
		if q, ok := n[m.Arm]; !ok {
			c := m.N
			n[m.Arm] = &c
		} else if q != nil && q.Value != m.N.Value {
			n[m.Arm] = nil
		}
	}
	return n
}

// unequal is what is said of groups that are only taken to be equal.
const unequal = ", not said to be equal"

// eachN is the n that holds for every group.
func (p *paper) eachN() (extract.Number, string) {
	d := &p.design
	switch {
	case d.subN.Known():
		return d.subN, "methods, of each subgroup"
	case d.groupN.Known():
		return d.groupN, "methods, of each group"
	}
	groups := d.groups.Value
	if groups < 2 || !d.total.Known() || p.subdivided() {
		return extract.Number{}, ""
	}
	low, guess := strings.ToLower(d.totalText), ""
	if !(specimens.MatchString(low) && !people.MatchString(low)) && !p.equally() {
		if !p.inOneSentence() {
			return extract.Number{}, ""
		}
		guess = unequal
	}
	n := d.total.Value / groups
	if n != float64(int(n)) || n < 3 {
		return extract.Number{}, ""
	}
	out := d.total
	out.Value, out.Text = n, itoa(int(n))
	return out, "total divided by the number of groups" + guess + ": " + d.total.Text + " / " + d.groups.Text
}

// specimens are dealt out in equal numbers where nothing else is said.
var specimens = regexp.MustCompile(`\b(?:instruments?|files?|specimens?|samples?|tooth|teeth|roots?|canals?|premolars?|molars?|incisors?|canines?|blocks?|dis[ck]s?|bars?|beams?|implants?|crowns?|brackets?|wires?)\b`)

var people = regexp.MustCompile(`\b(?:patients?|subjects?|participants?|volunteers?|women|men|children|adults|individuals|students|people|persons)\b`)

// inOneSentence reports whether one sentence divides the total into the groups:
// "40 patients were randomly divided into two groups".
func (p *paper) inOneSentence() bool {
	d := &p.design
	if d.total.Place.Par != d.groups.Place.Par || !strings.Contains(d.totalText, d.groups.Text) {
		return false
	}
	at := dealt.FindStringIndex(strings.ToLower(d.totalText))
	total := d.total.Place.Start - d.groups.Place.Start + strings.Index(d.totalText, d.groups.Text)
	return at != nil && total < len(d.totalText) && !(total > at[1] && strings.Contains(d.totalText[at[1]:total], ";"))
}

var dealt = regexp.MustCompile(`\b(?:divided|assigned|allocated|randomi[sz]ed|distributed|split)\b[^.;]*\bgroups\b`)

// equally reports whether the groups are said to be of one size.
func (p *paper) equally() bool {
	for i := range p.sentences {
		s := &p.sentences[i]
		if (s.place.Section == extract.Methods || s.place.Section == extract.Abstract || s.place.Section == extract.Results) && equalGroups.MatchString(s.low) && !planned(s.low) {
			return true
		}
	}
	return false
}

var equalGroups = regexp.MustCompile(`\b(?:equally|evenly)\s+(?:\w+\s+)?(?:divided|allocated|distributed|assigned|randomi[sz]ed|split)|\b(?:divided|allocated|distributed|assigned|randomi[sz]ed|split)\s+(?:\w+\s+)?(?:equally|evenly)|\b(?:equal|equal-sized|equally sized)\s+(?:\w+\s+)?(?:groups|numbers?|parts)|\bof equal size`)

// subdivided reports whether the things counted were cut into the specimens
// that were tested: their total is then no number of specimens.
func (p *paper) subdivided() bool {
	for i := range p.sentences {
		if s := &p.sentences[i]; s.place.Section == extract.Methods || s.place.Section == extract.Abstract {
			if hasAny(s.low, " beams", " slices", " sticks", " discs were cut", "were sliced", " slabs", "-shaped specimens") {
				return true
			}
		}
	}
	return false
}
