package compare

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"probity/claims/catalog"
)

// figureWithUnit finds figures in the words beside a figure: "35 °C", "500 rpm".
var figureWithUnit = regexp.MustCompile(`(\d+(?:[.,]\d+)?)\s*(°\s*C|℃|º\s*C|rpm|°)`)

// ownUnits says which unit in the words beside a figure belongs to a field.
// Lengths are left out: "5 mm" may be anything.
var ownUnits = map[string]string{"temperature": "C", "speed": "rpm", "angle": "°", "bending-angle": "°"}

// conditionOf finds what a paper says on a field for one of its figures: the
// words that stand beside the figure first, then what is said of its arm, then
// what is said of all.
func conditionOf(p *Paper, f *Figure, r *catalog.Rule) Condition {
	c := Condition{Rule: r}
	switch r.Kind {
	case "bands", "within", "words":
		c.fromText(f.Condition+" "+f.ArmText, f.Place)
		if !c.Known {
			c.fromFacts(p, f)
		}
	case "size":
		if f.Arm >= 0 && f.Arm < len(p.Arms) {
			a := &p.Arms[f.Arm]
			if d := diameter5(a); d > 0 {
				c.Known, c.Value, c.Text, c.Place = true, d, fmt.Sprintf("%.2f mm (%s)", d, a.Size), f.Place
			}
		}
		if !c.Known {
			c.fromFacts(p, f)
		}
	}
	if !c.Known && !c.Several && r.Assume != "" {
		c.Assumed, c.Class = true, r.Assume
	}
	return c
}

func (c *Condition) fromText(text, place string) {
	r := c.Rule
	if r.Kind != "words" {
		unit := ownUnits[r.Field]
		if unit == "" {
			return
		}
		for _, m := range figuresIn(text) {
			u := strings.NewReplacer("°", "", "º", "", " ", "", "\u00a0", "", "℃", "C").Replace(m[2])
			if u == "" {
				u = "°"
			}
			if u != unit {
				continue
			}
			if x, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64); err == nil {
				c.setValue(x, m[0], place)
				return
			}
		}
	}
	low := strings.ToLower(text)
	for _, class := range r.Classes {
		words := class.Words
		if r.Kind == "bands" {
			words = []string{class.Name + " temperature"}
		}
		if w, ok := wordsIn(low, words); ok {
			c.Known, c.Class, c.Text, c.Place = true, class.Name, w, place
			return
		}
	}
}

// figuresIn finds the figures with units in a text; most have none.
func figuresIn(text string) [][]string {
	if !strings.ContainsAny(text, "0123456789") {
		return nil
	}
	return figureWithUnit.FindAllStringSubmatch(text, -1)
}

func (c *Condition) setValue(x float64, text, place string) {
	c.Known, c.Value, c.Text, c.Place = true, x, text, place
	for _, class := range c.Rule.Classes {
		if x >= class.Low && x <= class.High {
			c.Class = class.Name
		}
	}
	if c.Rule.Kind == "bands" && c.Class == "" {
		c.Class = text // between the bands: a class of its own
	}
}

func (c *Condition) fromFacts(p *Paper, f *Figure) {
	for _, ofArm := range []bool{true, false} {
		first := true
		for i := range p.Facts {
			fact := &p.Facts[i]
			if fact.Field != c.Rule.Field || ofArm != slices.Contains(fact.Arms, f.Arm) || !ofArm && len(fact.Arms) > 0 {
				continue
			}
			n := Condition{Rule: c.Rule}
			if c.Rule.Kind == "words" {
				n.Known, n.Class, n.Text, n.Place = true, fact.Class, fact.Text, fact.Place
			} else {
				n.setValue(fact.Value, fact.Text, fact.Place)
			}
			switch {
			case first:
				*c, first = n, false
			case n.Class != c.Class || c.Rule.Kind != "words" && c.Rule.Kind != "bands" && n.Value != c.Value:
				*c = Condition{Rule: c.Rule, Several: true}
				return
			}
		}
		if c.Known {
			return
		}
	}
}

// conditionsOf finds all that the rules ask of a figure's test.
func conditionsOf(p *Paper, f *Figure, rules []catalog.Rule) []Condition {
	var out []Condition
	for i := range rules {
		switch rules[i].Kind {
		case "bands", "within", "words", "size":
			out = append(out, conditionOf(p, f, &rules[i]))
		}
	}
	return out
}

// apart says what keeps a row from standing beside any other, whatever the
// others are.
func (r *Row) apart(rules []catalog.Rule, o Options) {
	a, b := r.Subject.Figure, r.Reference.Figure
	for i := range rules {
		rule := &rules[i]
		grade := gradeOf(rule)
		switch rule.Kind {
		case "centre":
			if a.Median && o.Medians {
				r.addReason(WithCaution, "means estimated from medians")
			} else if a.Median {
				r.addReason(grade, "%s: %s", rule.Name, rule.Reason)
			}
		case "adjusted":
			if a.Adjusted {
				r.addReason(grade, "%s: %s", rule.Name, rule.Reason)
			}
		case "change":
			if a.Change {
				r.addReason(grade, "%s: %s", rule.Name, rule.Reason)
			}
		case "spread":
			if a.Kind == "unstated" || b.Kind == "unstated" {
				r.addReason(grade, "%s not stated: %s", rule.Name, rule.Reason)
			}
		case "least":
			n := min(a.N, b.N)
			switch {
			case n == 0:
				r.addReason(gradeOfWord(rule.Missing), "%s not reported", rule.Name)
			case float64(n) < rule.Most:
				r.addReason(grade, "%s: %d, fewer than %g", rule.Name, n, rule.Most)
			}
		case "fact":
			if fact := saidOf(r.Paper, rule.Field, a.Arm, b.Arm); fact != nil {
				r.addReason(grade, "%s: %s", rule.Name, rule.Reason)
			}
		}
	}
	for _, doubt := range []string{a.Doubt, b.Doubt} {
		if doubt != "" {
			r.addReason(WithCaution, "the reading of a figure is doubtful: %s", doubt)
			break
		}
	}
}

func saidOf(p *Paper, field string, arms ...int) *Fact {
	for i := range p.Facts {
		f := &p.Facts[i]
		if f.Field != field {
			continue
		}
		if len(f.Arms) == 0 || slices.ContainsFunc(arms, func(a int) bool { return slices.Contains(f.Arms, a) }) {
			return f
		}
	}
	return nil
}

func gradeOf(r *catalog.Rule) Grade { return gradeOfWord(r.Grade) }

func gradeOfWord(word string) Grade {
	switch word {
	case "no":
		return NotComparable
	case "caution":
		return WithCaution
	}
	return Comparable
}

// conditions fills in what holds for both sides; two arms under different
// conditions are no comparison of arms.
func (r *Row) conditions(of func(*Figure) []Condition) {
	subject, reference := of(r.Subject.Figure), of(r.Reference.Figure)
	r.Conditions = make([]Condition, 0, len(subject))
	for i, a := range subject {
		b, rule := reference[i], a.Rule
		switch {
		case a.Known && b.Known && a.unlike(b):
			text := fmt.Sprintf("%s differs between the two arms (%s, %s): %s", rule.Name, a.Show(), b.Show(), rule.Reason)
			if rule.Grade == "note" {
				r.Notes = append(r.Notes, text)
			} else {
				r.addReason(gradeOf(rule), "%s", text)
			}
		case !a.Known && b.Known:
			a = b
			if rule.Kind == "size" {
				a = Condition{Rule: rule} // the size of one arm says nothing of the other's
			}
		}
		if a.Known && !b.Known && rule.Kind == "size" {
			a = Condition{Rule: rule}
		}
		if !a.Known {
			r.silent(a)
		}
		r.Conditions = append(r.Conditions, a)
	}
}

func (c Condition) unlike(o Condition) bool {
	if c.Rule.Kind == "within" || c.Rule.Kind == "size" {
		return differs(c.Value, o.Value, c.Rule.Most, c.Rule.Percent)
	}
	return c.Class != o.Class
}

// silent notes what the paper does not say.
func (r *Row) silent(c Condition) {
	what := "not reported"
	switch {
	case c.Several:
		what = "several are stated, not which holds here"
	case c.Assumed && c.Rule.Grade == "no" && c.Rule.Field == "temperature":
		what = "not reported, taken as " + c.Class + ", unverified"
	case c.Assumed:
		r.Notes = append(r.Notes, fmt.Sprintf("%s: nothing said, taken as %s", c.Rule.Name, c.Class))
		return
	}
	if g := gradeOfWord(c.Rule.Missing); g != Comparable {
		r.addReason(g, "%s: %s", c.Rule.Name, what)
	} else if c.Rule.Missing != "" {
		r.Notes = append(r.Notes, c.Rule.Name+": "+what)
	}
}
