package catalog

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A Rule says which comparisons of different papers may stand together: what
// is looked at, how far it may differ, and what follows.
type Rule struct {
	Field    string // the id of a fact ("temperature"), or what kind looks at
	Name     string // for people
	Kind     string // "bands", "within", "size", "words", "least", "fact", "centre", "adjusted", "change", "spread"
	Classes  []Class
	Most     float64 // "within", "size": how far apart; "least": the least
	Percent  bool    // Most is a share
	Outcomes []string
	Grade    string // "no", "caution", "note"
	Missing  string // "caution", "note"; "": silence says nothing
	Assume   string // the class that silence is taken for
	Reason   string
	Source   string
}

// A Class is one of the values a rule tells apart: a band of figures or a set
// of words.
type Class struct {
	Name      string
	Low, High float64
	Words     []string // lower case; the beginning of a word is enough
}

// RulesFor lists the rules that apply to an outcome, in the order of the table.
func (c *Catalog) RulesFor(outcome string) []Rule {
	var out []Rule
	for _, r := range c.Rules {
		if slices.Contains(r.Outcomes, "*") || slices.Contains(r.Outcomes, outcome) {
			out = append(out, r)
		}
	}
	return out
}

func (c *Catalog) addRule(r row) error {
	if r["kind"] == "group" {
		if c.groups == nil {
			c.groups = map[string][]string{}
		}
		c.groups[r["field"]] = r.list("values")
		return nil
	}
	rule := Rule{Field: r["field"], Name: r["name"], Kind: r["kind"], Grade: r["grade"], Missing: r["missing"], Reason: r["reason"], Source: r["source"]}
	if class, ok := strings.CutPrefix(rule.Missing, "assume="); ok {
		rule.Missing, rule.Assume = "caution", class
	}
	for _, o := range r.list("outcomes") {
		if !strings.HasPrefix(o, "@") {
			rule.Outcomes = append(rule.Outcomes, o)
			continue
		}
		if c.groups[o] == nil {
			return fmt.Errorf("column outcomes: the group %s stands in no line above", o)
		}
		rule.Outcomes = append(rule.Outcomes, c.groups[o]...)
	}
	if err := rule.values(r["values"]); err != nil {
		return fmt.Errorf("column values: %w", err)
	}
	c.Rules = append(c.Rules, rule)
	return nil
}

func (r *Rule) values(text string) (err error) {
	switch r.Kind {
	case "within", "size", "least":
		number, percent := strings.CutSuffix(text, "%")
		r.Percent = percent
		r.Most, err = strconv.ParseFloat(number, 64)
		return err
	case "bands", "words":
		for _, part := range strings.Split(text, "|") {
			name, what, ok := strings.Cut(part, "=")
			if !ok {
				return fmt.Errorf("%q has no name; write NAME=…", part)
			}
			class := Class{Name: strings.TrimSpace(name)}
			if r.Kind == "words" {
				for _, w := range strings.Split(what, "/") {
					class.Words = append(class.Words, strings.ToLower(strings.TrimSpace(w)))
				}
			} else if _, err := fmt.Sscanf(strings.Replace(what, "..", " ", 1), "%g %g", &class.Low, &class.High); err != nil {
				return fmt.Errorf("%q is not a band such as room=18..28", part)
			}
			r.Classes = append(r.Classes, class)
		}
	case "fact", "centre", "adjusted", "change", "spread":
	default:
		return fmt.Errorf("kind %q is not known", r.Kind)
	}
	return nil
}
