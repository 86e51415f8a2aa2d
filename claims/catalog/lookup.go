package catalog

import "strings"

// build makes the indexes of all names; Load calls it once.
func (c *Catalog) build() {
	for i := range c.Outcomes {
		o := &c.Outcomes[i]
		c.outcomeNames.add(o.Name, o)
		for _, a := range o.Aliases {
			c.outcomeNames.add(a, o)
		}
	}
	for i := range c.Tests {
		t := &c.Tests[i]
		for _, a := range t.Aliases {
			c.testNames.add(a, t)
		}
	}
	for i := range c.Spreads {
		c.markNames.add(c.Spreads[i].Mark, &c.Spreads[i])
	}
	for i := range c.Labels {
		c.labelNames.add(c.Labels[i].Words, &c.Labels[i])
	}
	c.figureNames = map[string]*index[Figure]{"label": {}, "caption": {}}
	for i := range c.Figures {
		if x := c.figureNames[c.Figures[i].Where]; x != nil {
			x.add(c.Figures[i].Words, &c.Figures[i])
		}
	}
	c.buildParts()
	c.unitNames, c.unitLoose = map[string]*Unit{}, map[string]*Unit{}
	for i := range c.Units {
		u := &c.Units[i]
		for _, a := range append([]string{u.ID}, u.Aliases...) {
			key := foldUnit(a)
			if c.unitNames[key] == nil {
				c.unitNames[key] = u
			}
			if loose := strings.ToLower(key); len(loose) >= 3 && c.unitLoose[loose] == nil {
				c.unitLoose[loose] = u
			}
		}
	}
}

// FindOutcomes gives the outcomes named in a text, in order.
func (c *Catalog) FindOutcomes(text string) []Match[Outcome] { return c.outcomeNames.find(text) }

// FindOutcome gives the outcome that a text names with the longest name, nil
// if it names none: "Torque at fracture (N·cm)" is torque-at-fracture, not
// torque.
func (c *Catalog) FindOutcome(text string) *Outcome {
	m := Longest(c.FindOutcomes(text))
	return m.Row
}

// Longest gives the match with the longest name, the first of several; its
// Row is nil where there is no match.
func Longest[T any](found []Match[T]) Match[T] {
	var best Match[T]
	for _, m := range found {
		if m.End-m.Start > best.End-best.Start {
			best = m
		}
	}
	return best
}

// FindTests gives the tests named in a text, in order.
func (c *Catalog) FindTests(text string) []Match[Test] { return c.testNames.find(text) }

// Test gives the test with that id, nil if there is none.
func (c *Catalog) Test(id string) *Test {
	for i := range c.Tests {
		if c.Tests[i].ID == id {
			return &c.Tests[i]
		}
	}
	return nil
}

// Marks gives the marks of statistics in a header or caption, in order:
// "Mean (SD), MPa" has "mean" and "sd".
func (c *Catalog) Marks(text string) []Match[Spread] { return c.markNames.find(text) }

// Mark gives the kind that a whole header stands for, "" if it is not a mark
// and nothing else: "SD", "95% CI", "Std. Deviation".
func (c *Catalog) Mark(text string) string {
	m := c.Marks(text)
	words := cut(text)
	if len(m) != 1 || len(words) == 0 || m[0].Start != words[0].start || m[0].End != words[len(words)-1].end {
		return ""
	}
	return m[0].Row.Kind
}

// FindLabels gives the words of table headings in a text, in order.
func (c *Catalog) FindLabels(text string) []Match[Label] { return c.labelNames.find(text) }

// Label gives the kind that a whole heading stands for, "" if it is not in
// the table.
func (c *Catalog) Label(text string) string {
	m := c.FindLabels(text)
	words := cut(text)
	if len(m) != 1 || len(words) == 0 || m[0].Start != words[0].start || m[0].End != words[len(words)-1].end {
		return ""
	}
	return m[0].Row.Kind
}

// FindFigures gives the words in a text that tell what figures are, in order;
// where is "label" or "caption".
func (c *Catalog) FindFigures(where, text string) []Match[Figure] {
	if x := c.figureNames[where]; x != nil {
		return x.find(text)
	}
	return nil
}
