package assemble

import (
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
	"probity/extract/numeral"
)

// conditions reads the conditions of the tests: temperature, speed, grip,
// angle and radius of the canal, the cap of the test, the standard named.
func (p *paper) conditions(s *sentence, tokens []numeral.Token) {
	for _, t := range tokens {
		if t.Form == numeral.Citation || t.Form == numeral.Label && !strings.EqualFold(t.Name, "iso") {
			continue
		}
		near := s.low[max(0, min(t.Start, len(s.low))-60):min(len(s.low), t.End+50)]
		id, unit := p.condition(s, t, near)
		if id == "" {
			continue
		}
		f := p.fact(s, id, t.Number, unit, t.Start, t.End)
		f.Arms = p.armsIn(s, t)
		if id == "standard" {
			f.Text = "ISO " + strings.TrimSpace(s.text[t.Start+len(t.Name):t.End])
		}
		p.addFact(f)
	}
}

// factKey is what makes two facts one.
type factKey struct {
	id, unit string
	value    float64
	arms     int
	first    *claims.Arm
}

func (p *paper) addFact(f claims.Fact) {
	key := factKey{id: f.ID, unit: f.Unit, value: f.Value.Value, arms: len(f.Arms)}
	if len(f.Arms) > 0 {
		key.first = f.Arms[0]
	}
	if !p.facts[key] {
		p.facts[key] = true
		p.study.Design.Facts = append(p.study.Design.Facts, f)
	}
}

// condition says which condition of the test a figure is.
func (p *paper) condition(s *sentence, t numeral.Token, near string) (id, unit string) {
	if t.Form == numeral.Label {
		return "standard", ""
	}
	if t.Form != numeral.Figure && t.Form != numeral.Spread {
		return "", ""
	}
	u, _ := p.unitAt(s.text, t)
	if u == nil {
		return "", ""
	}
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(near, w) {
				return true
			}
		}
		return false
	}
	switch u.ID {
	case "degC":
		if t.Number.Value > 100 || has("furnace", "oven", "plugger", "gutta", "sinter", "fired", "firing", "heated to", "muffle") {
			return "process-temperature", "degC"
		}
		if has("stored", "storage", "autoclav", "incubat", "dried", "thermocycl", "oven") && !has("test", "water bath", "chamber") {
			return "storage-temperature", "degC"
		}
		return "temperature", "degC"
	case "rpm":
		if has("clockwise", "clamp", "shank", "torsion", "torque meter") && t.Number.Value <= 60 {
			return "torsion-speed", "rpm"
		}
		return "speed", "rpm"
	case "mm":
		switch {
		case has("radius"):
			return "radius", "mm"
		case has("clamp", "gripp", "grip ", "held at", "was held", "fixed at", "secured"):
			return "grip", "mm"
		case has("amplitude", "pecking"):
			return "amplitude", "mm"
		}
	case "deg":
		switch {
		case has("curvature"):
			return "angle", "deg"
		case has("bent", "bending"):
			return "bending-angle", "deg"
		}
	case "s", "min", "h":
		if has("stopped after", "terminated after", "cap of", "time limit", "limit of", "maximum of", "stopped at", "for up to", "until a maximum", "ended after") {
			return "cap", u.ID
		}
	case "N.cm", "gf.cm":
		if has("torque set", "torque was set", "torque limit", "torque of") {
			return "torque-limit", u.ID
		}
	case "mm/min":
		return "crosshead-speed", "mm/min"
	}
	return "", ""
}

// unitAt gives the unit that stands right after a figure in running text.
func (p *paper) unitAt(text string, t numeral.Token) (*catalog.Unit, string) {
	if t.Percent {
		return p.ls.cat.Unit("%"), "%"
	}
	words := firstFields(strings.TrimLeft(text[min(t.End, len(text)):], " \u00a0\u2009-"), 2)
	for n := len(words); n >= 1; n-- {
		w := strings.TrimRight(strings.Join(words[:n], " "), ".,;:)")
		if u := p.ls.cat.FindUnit(w); u != nil {
			return u, w
		}
	}
	return p.ls.cat.FindUnit(t.Unit), t.Unit
}

// armsIn lists the groups that a sentence says a condition of: those named in
// the same clause, where other groups stand beside other values.
func (p *paper) armsIn(s *sentence, t numeral.Token) []*claims.Arm {
	start, end := clause(s.text, t.Start)
	start = p.listBefore(s.text, start)
	var out []*claims.Arm
	for _, a := range p.arms.arms {
		for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
			if len(name) > 2 && containsName(s.text[start:end], name) {
				out = append(out, a)
				break
			}
		}
	}
	if len(out) == len(p.arms.arms) {
		return nil // said of all
	}
	return out
}

// listBefore moves the start of a clause back over a list of groups that runs
// into it: "A, B and C were tested at 22 °C" says it of three.
func (p *paper) listBefore(text string, start int) int {
	for {
		before := strings.TrimSuffix(strings.TrimSuffix(strings.TrimRight(text[:start], " "), "and"), ",")
		before = strings.TrimRight(strings.TrimSuffix(strings.TrimRight(before, " "), ","), " ")
		if len(before) == start {
			return start
		}
		length := 0
		for _, a := range p.arms.arms {
			for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
				if len(name) > max(2, length) && strings.HasSuffix(before, name) {
					length = len(name)
				}
			}
		}
		if length == 0 {
			return start
		}
		start = len(before) - length
	}
}

// clause gives the stretch of a sentence around at between commas,
// semicolons and "and".
func clause(text string, at int) (start, end int) {
	start, end = 0, len(text)
	for _, sep := range []string{";", ", ", " and ", " whereas ", " while "} {
		if i := strings.LastIndex(text[:at], sep); i >= 0 {
			start = max(start, i+len(sep))
		}
		if i := strings.Index(text[at:], sep); i >= 0 {
			end = min(end, at+i)
		}
	}
	return start, end
}

// containsName reports whether a name stands in text as whole words.
func containsName(text, name string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], name)
		if i < 0 {
			return false
		}
		i += from
		end := i + len(name)
		if (i == 0 || !isWordByte(text[i-1])) && (end == len(text) || !isWordByte(text[end])) {
			return true
		}
		from = i + 1
	}
}

// runOuts reads that specimens survived the test.
func (p *paper) runOuts(s *sentence) {
	for _, w := range []string{"did not fracture", "did not break", "did not fail", "had not fractured", "survived the test", "reached the time limit",
		"without fracture", "no fracture occurred", "run-out", "runout", "remained intact", "not fractured"} {
		i := strings.Index(s.low, w)
		if i < 0 {
			continue
		}
		if strings.Contains(s.low, "extracted") {
			return // teeth that were chosen without fracture
		}
		f := p.fact(s, "run-outs", extract.Number{}, "", i, i+len(w))
		for _, t := range numeral.Scan(s.text) {
			if t.Form == numeral.Figure && t.Number.Decimals == 0 && !t.Percent && t.End <= i {
				f.Value = t.Number
			}
		}
		for _, a := range p.arms.arms {
			if containsName(s.text, a.Name) {
				f.Arms = append(f.Arms, a)
			}
		}
		p.addFact(f)
		return
	}
}

// textUnit finds the unit of an outcome in the text: in brackets after its
// name, or after figures of a sentence about it.
func (t *table) textUnit(m *claims.Measure) (id, printed string) {
	if m.OutcomeID == "" {
		return "", ""
	}
	if u, ok := t.unitOfOut[m.OutcomeID]; ok {
		return u.id, u.printed
	}
	u := t.searchUnit(m.OutcomeID)
	t.unitOfOut[m.OutcomeID] = u
	return u.id, u.printed
}

func (p *paper) searchUnit(outcome string) namedUnit {
	want := p.ls.cat.Outcome(outcome)
	var asFigure namedUnit
	for i := range p.sentences {
		s := &p.sentences[i]
		for _, m := range p.ls.cat.FindOutcomes(s.text) {
			if m.Row.ID != outcome {
				continue
			}
			rest := s.text[m.End:]
			if len(rest) > 1 && rest[0] == ' ' && (rest[1] == '(' || rest[1] == '[') {
				if j := closing(rest, 1); j > 0 {
					if u := p.ls.cat.FindUnit(rest[2:j]); u != nil {
						return namedUnit{u.ID, rest[2:j]}
					}
				}
			}
			for _, mark := range []string{"in ", "expressed in ", "recorded in ", "measured in ", "calculated in "} {
				if k := strings.Index(rest, mark); k >= 0 && k < 60 {
					if u, s := p.ls.cat.UnitIn("x in " + strings.TrimSpace(rest[k+len(mark):min(len(rest), k+len(mark)+24)])); u != nil && want.Quantity != "" && u.Quantity == want.Quantity {
						return namedUnit{u.ID, s}
					}
				}
			}
			if asFigure.id == "" && s.place.Section != "title" {
				asFigure = p.figureUnit(s, want.Quantity)
			}
		}
	}
	if asFigure.printed == "" {
		return p.recordedIn(want.Quantity)
	}
	return asFigure
}

// recordedIn finds the one unit in which the methods say that loads were
// recorded or expressed.
func (p *paper) recordedIn(quantity string) namedUnit {
	if quantity != "stress" && quantity != "force" && quantity != "torque" {
		return namedUnit{}
	}
	var found namedUnit
	for i := range p.sentences {
		s := &p.sentences[i]
		for _, verb := range []string{"recorded in ", "expressed in ", "measured in ", "calculated in ", "reported in ", "registered in "} {
			k := strings.Index(s.low, verb)
			if k < 0 {
				continue
			}
			words := firstFields(s.text[k+len(verb):], 1)
			if len(words) == 0 {
				continue
			}
			w := strings.Trim(words[0], ".,;:()")
			u := p.ls.cat.FindUnit(w)
			if u == nil || u.Quantity != quantity && !(quantity == "stress" && u.Quantity == "force") {
				continue
			}
			if found.id != "" && found.id != u.ID {
				return namedUnit{} // two units: which is the table's is not said
			}
			found = namedUnit{u.ID, w}
		}
	}
	return found
}

// figureUnit takes the unit of a figure of a sentence where it measures the
// quantity of the outcome; the paper may print force where stress is usual.
func (p *paper) figureUnit(s *sentence, quantity string) namedUnit {
	if quantity == "" || s.place.Section == extract.Methods {
		return namedUnit{}
	}
	for _, t := range numeral.Scan(s.text) {
		if t.Form != numeral.Figure && t.Form != numeral.Spread && t.Form != numeral.Interval {
			continue
		}
		if u, w := p.unitAt(s.text, t); u != nil && (u.Quantity == quantity || quantity == "stress" && u.Quantity == "force") {
			return namedUnit{u.ID, w}
		}
	}
	return namedUnit{}
}
