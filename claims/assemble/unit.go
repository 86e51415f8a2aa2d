package assemble

import (
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/reading"
)

// unitOf finds the unit: in the cell, in the labels from the inside out, in
// the caption, in the notes, in the text.
func (t *table) unitOf(m *claims.Measure, p part, outcome []*label) {
	set := func(id, printed string) bool {
		if printed == "" {
			return false
		}
		m.Unit, m.UnitID = symbol(t.ls.cat.Unit(id), printed), id
		return true
	}
	if p.read.Percent {
		set("%", "%")
		return
	}
	if t.unitCol > 0 {
		if u := t.ls.cat.FindUnit(t.g.text[p.r][t.unitCol]); u != nil && set(u.ID, t.g.text[p.r][t.unitCol]) {
			return
		}
	}
	if p.read.Unit == "min:s" {
		set("s", "min:s")
		return
	}
	if u := t.ls.cat.FindUnit(p.read.Unit); u != nil && set(u.ID, p.read.Unit) {
		return
	}
	if t.relative(p) && set("%", "%") {
		t.lent[m] = true
		return
	}
	for i := len(outcome) - 1; i >= 0; i-- {
		if set(outcome[i].unitID, outcome[i].unit) {
			return
		}
	}
	if t.shareNamed(m.Outcome) && set("%", "%") {
		return
	}
	for _, axis := range []*axis{&t.col[p.c], &t.row[p.r]} {
		for i := len(axis.labels) - 1; i >= 0; i-- {
			l := axis.labels[i]
			if !(l.unitID == "%" && t.isArm(l)) && set(l.unitID, l.unit) {
				t.lent[m] = true
				if t.isArm(l) {
					m.Doubt.Add("the label that is read as a group prints a unit, as the names of outcomes do", reading.Slight)
				}
				return
			}
		}
	}
	if c := t.corner(); c != nil && set(c.unitID, c.unit) {
		return
	}
	if len(outcome) == 0 && set(t.above.unitID, t.above.unit) {
		return
	}
	if id, printed := t.captionUnit(m); t.fits(m, id) && set(id, printed) {
		return
	}
	if id, printed := t.textUnit(m); set(id, printed) {
		return
	}
	if t.scored(m.Outcome) {
		set("score", "score")
	}
}

// relative reports whether a row or a column holds changes in percent,
// whatever the outcome is measured in.
func (t *table) relative(p part) bool {
	for _, axis := range []*axis{&t.col[p.c], &t.row[p.r]} {
		for _, l := range axis.labels {
			low := strings.ToLower(l.text)
			if !containsName(low, "percent") && !containsName(low, "percentage") && !strings.HasPrefix(low, "%") && !strings.Contains(low, "(%") {
				continue
			}
			if hasAny(low, "change", "reduction", "difference", "decrease", "increase", "improvement") {
				return true
			}
		}
	}
	return false
}

// shareNamed reports whether an outcome is called a percentage, in its name or
// in what its abbreviation stands for.
func (t *table) shareNamed(outcome string) bool {
	long := outcome
	for _, w := range strings.Fields(outcome) {
		if full := t.short[w]; full != "" {
			long += " " + full
		}
	}
	low := strings.ToLower(long)
	for _, w := range []string{"percentage", "percent", "per cent"} {
		if containsName(low, w) {
			return true
		}
	}
	at := strings.IndexByte(long, '%')
	return at == 0 || at > 0 && !endsInDigit(strings.TrimRight(long[:at], " ±+-–(["))
}

func endsInDigit(s string) bool { return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9' }

// scored reports whether an outcome is called a score: by its name, in the
// caption or a sentence that points to the table and names it, or anywhere in
// the text by its name with the word.
func (t *table) scored(outcome string) bool {
	was, ok := t.scores[outcome]
	if !ok {
		was = t.calledScore(outcome)
		t.scores[outcome] = was
	}
	return was
}

func (t *table) calledScore(outcome string) bool {
	low := strings.ToLower(outcome)
	if low == "" || strings.Contains(low, "score") {
		return low != ""
	}
	names := func(text string) bool { return sharedWords(outcome, text) > 0 || containsName(text, outcome) }
	if strings.Contains(strings.ToLower(t.caption.text), " score") && names(t.caption.text) {
		return true
	}
	for _, s := range t.mentions() {
		if strings.Contains(s.low, " score") && names(s.text) {
			return true
		}
	}
	for i := range t.sentences {
		if strings.Contains(t.sentences[i].low, low+" score") {
			return true
		}
	}
	return false
}

// mentions lists the sentences that point to the table.
func (t *table) mentions() []*sentence {
	if t.place.Table == "" {
		return nil
	}
	if t.pointing == nil {
		out := []*sentence{}
		for i := range t.sentences {
			if s := &t.sentences[i]; pointsTo(s.low, t.place.Table) {
				out = append(out, s)
			}
		}
		t.pointing = &out
	}
	return *t.pointing
}

// isArm reports whether a label is one of the groups.
func (t *table) isArm(l *label) bool {
	if t.armNames == nil {
		t.armNames = map[string]bool{}
		for _, d := range t.d {
			if d.role == roleArm {
				for _, s := range d.distinct {
					t.armNames[s] = true
				}
			}
		}
	}
	return t.armNames[l.clean]
}

// captionUnit takes the unit of a caption that has one, or the one that
// stands after words of the outcome.
func (t *table) captionUnit(m *claims.Measure) (id, printed string) {
	all := t.captionUnits()
	switch len(all) {
	case 0:
		if t.caption.unit != "" {
			return t.caption.unitID, t.caption.unit
		}
		return "", ""
	case 1:
		if of := lastItem(all[0].before); t.namesOutcome(of) && key(of) != key(m.Outcome) {
			return "", ""
		}
		return all[0].id, all[0].printed
	}
	best, score := 0, 0
	for i, f := range all {
		if s := sharedWords(m.Outcome, f.before); s > score {
			best, score = i, s
		}
	}
	if score == 0 {
		return "", ""
	}
	return all[best].id, all[best].printed
}

// lastItem is the last part of a list in running words.
func lastItem(s string) string {
	for _, mark := range []string{",", ";", ":", " and "} {
		if i := strings.LastIndex(s, mark); i >= 0 {
			s = s[i+len(mark):]
		}
	}
	return s
}

// namesOutcome reports whether words are one of several outcomes of the table:
// a unit behind them in the caption is not that of the others.
func (t *table) namesOutcome(words string) bool {
	for _, d := range t.d {
		if d.role != roleOutcome || len(d.distinct) < 2 {
			continue
		}
		for _, s := range d.distinct {
			if key(s) == key(words) {
				return true
			}
		}
	}
	return false
}

// fits reports whether an outcome can be measured in a unit: the mm of a
// caption are not those of the age in the same table. What the catalogue does
// not know fits.
func (t *table) fits(m *claims.Measure, id string) bool {
	o, u := t.ls.cat.Outcome(m.OutcomeID), t.ls.cat.Unit(id)
	if o == nil || u == nil || o.Quantity == "" || o.Quantity == u.Quantity || o.Quantity == "score" {
		return true // a score may be read off a scale in mm
	}
	// "hardness" and "hardness Knoop" are kin; a bending load is in newtons or
	// in newton metres, and no unit has its quantity.
	kin, _, _ := strings.Cut(u.Quantity, " ")
	common := t.ls.cat.Unit(o.Unit)
	return common == nil || common.Quantity != o.Quantity || strings.HasPrefix(o.Quantity, kin)
}

// capUnit is a unit in brackets of a caption, with the words before it.
type capUnit struct{ id, printed, before string }

// mostCapUnits is how many of them are read: a caption has two or three.
const mostCapUnits = 20

// captionUnits finds the units of the caption, once for the table.
func (t *table) captionUnits() []capUnit {
	if t.capUnits != nil {
		return *t.capUnits
	}
	text := t.caption.text
	var all []capUnit
	at := 0
	for i := 0; i < len(text) && len(all) < mostCapUnits; i++ {
		if text[i] != '(' && text[i] != '[' {
			continue
		}
		j := closing(text, i)
		if j < 0 {
			break
		}
		if u, s := t.ls.cat.UnitIn(text[i : j+1]); s != "" {
			f := capUnit{printed: s, before: text[at:i]}
			if u != nil {
				f.id = u.ID
			}
			all = append(all, f)
			at = j + 1
		}
		i = j
	}
	t.capUnits = &all
	return all
}

// sharedWords counts the words of a that stand in b, by their first letters.
func sharedWords(a, b string) int {
	n, low := 0, strings.ToLower(b)
	for _, w := range strings.Fields(strings.ToLower(a)) {
		if len(w) > 3 && strings.Contains(low, w[:min(len(w), 6)]) {
			n++
		}
	}
	return n
}

// symbol gives the symbol of a unit whose name is spelled out, "Newton"; the
// names of units of time stay words.
func symbol(u *catalog.Unit, printed string) string {
	if u == nil {
		return printed
	}
	switch u.Quantity {
	case "force", "stress", "torque":
		if low := strings.ToLower(printed); strings.Contains(low, "newton") || strings.Contains(low, "pascal") {
			return u.ID
		}
	}
	return printed
}

// fillUnits gives measures without a unit the one that another table prints
// for the same outcome; one that only a condition lends is not its own.
func (p *paper) fillUnits() {
	type unit struct{ id, printed string }
	seen := map[string]unit{}
	name := func(m *claims.Measure) string {
		return strings.Join(strings.Fields(strings.ToLower(m.Outcome)), " ")
	}
	for _, m := range p.study.Measures {
		if k := name(m); m.Unit != "" && k != "" && !p.lent[m] {
			if was, ok := seen[k]; ok && was.id != m.UnitID {
				seen[k] = unit{} // two units: neither is certain
				continue
			}
			seen[k] = unit{m.UnitID, m.Unit}
		}
	}
	for _, m := range p.study.Measures {
		if u := seen[name(m)]; m.Unit == "" && u.printed != "" {
			m.Unit, m.UnitID = u.printed, u.id
		}
	}
}
