package assemble

import (
	"strings"

	"probity/extract"
)

// outcomeAbove is the outcome that caption, corner or text name where no
// dimension of the table tells outcomes apart, as outcomeOver ranks them.
func (t *table) outcomeAbove() named {
	corner := func() named {
		c := t.corner()
		return named{name: c.clean, outcome: c.outcome, unit: c.unit, unitID: c.unitID, label: c}
	}
	switch t.outcomeOver().Name {
	case "known corner", "corner":
		return corner()
	case "known caption":
		return t.captionOutcome()
	case "text":
		return t.textOutcome()
	}
	words := captionWords(t.caption.clean)
	if before, _, ok := strings.Cut(words, " in "+t.caption.unit); ok && t.caption.unit != "" {
		words = before
	}
	return named{name: words, unit: t.caption.unit, unitID: t.caption.unitID, label: t.caption}
}

// textOutcome is the outcome of the sentence that points to the table, or of
// the title: one whose unit goes with the caption's.
func (t *table) textOutcome() named {
	pick := func(text string) named {
		for _, m := range t.ls.cat.FindOutcomes(text) {
			if t.caption.unitID != "" && m.Row.Quantity != "" {
				if u := t.ls.cat.Unit(t.caption.unitID); u != nil && u.Quantity != m.Row.Quantity {
					continue
				}
			}
			return named{name: text[m.Start:m.End], outcome: m.Row, unit: t.caption.unit, unitID: t.caption.unitID, label: t.caption}
		}
		return named{}
	}
	for _, s := range t.mentions() {
		if n := pick(s.text); n.name != "" {
			return n
		}
	}
	return pick(t.doc.Meta.Title)
}

// headOnly reports whether a corner only heads the row labels: "The groups
// according to dose", "Type of material".
func (t *table) headOnly(s string) bool {
	for _, m := range t.ls.cat.FindLabels(s) {
		if m.Row.Kind == "arm-head" || m.Row.Kind == "outcome-head" {
			return true
		}
	}
	return groupWord(s)
}

// captionWords is what a caption says was measured: its words without the
// statistics before and the groups after them.
func captionWords(s string) string {
	low := extract.Lower(s)
	for _, lead := range []string{"values of ", "value of ", "deviations of ", "deviation of ", "means of ", "mean of ", "(sd) of ", "comparison of ", "results of ", "statistics of ",
		"distribution of ", "analysis of ", "comparisons of ", "descriptive statistics for ", "comparison between ", "the mean ", "mean "} {
		if i := strings.Index(low, lead); i >= 0 && i < 60 {
			s, low = s[i+len(lead):], low[i+len(lead):]
		}
	}
	end := len(s)
	for _, tail := range []string{" in the ", " between ", " among ", " of the tested", " for the ", " for each", " in each", " of the groups", " by group", " of all", " in all", " obtained", " at different",
		" according to", ", n =", ", ,", " of different", " after ", " before ", ". ", " (", ";", " in different", " in experimental", " for "} {
		if i := strings.Index(low, tail); i > 3 && i < end {
			end = i
		}
	}
	return tidy(s[:end])
}

// corner is the label in the corner of the table, over the row labels.
func (t *table) corner() *label {
	if t.cornerOf == nil {
		l := t.findCorner()
		t.cornerOf = &l
	}
	return *t.cornerOf
}

func (t *table) findCorner() *label {
	for c := 0; c < t.g.cols && t.g.stub[c]; c++ {
		for _, s := range t.g.headings[c] {
			if s == "" {
				continue
			}
			if l := t.ls.read(s); l.clean != "" {
				return l
			}
		}
	}
	return nil
}
