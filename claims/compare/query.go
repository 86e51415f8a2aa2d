package compare

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"probity/claims/catalog"
)

// A Query says what is to be compared, and what to do where papers are silent.
type Query struct {
	Outcome string  // an id of the catalogue
	Subject string  // the arm a ratio is about; "": every arm
	Against string  // the arm it is compared with; "": the control, or every other arm
	Where   []Where // conditions that must hold
	Unit    string  // id of the unit to show; "": the one most papers print
	Options         // what is taken for what
}

// Options are the assumptions that a reader may switch to see what rests on
// them.
type Options struct {
	Unstated  string // what an unlabelled ± is taken for: "", "sd", "se"
	Medians   bool   // means and SDs are estimated from medians with quartiles or range
	Unopposed bool   // papers with something at odds are left out
	Caution   bool   // comparisons with caution are combined too
}

// A Where is one condition: a field of the rules and the class or value it
// must have.
type Where struct{ Field, Value string }

// String writes a condition as it is typed.
func (w Where) String() string { return w.Field + "=" + w.Value }

// ParseWhere reads "temperature=body" against the rules of the catalogue.
// Beside their fields there are condition, year, paper and geometry.
func ParseWhere(text string, cat *catalog.Catalog) (Where, error) {
	field, value, ok := strings.Cut(text, "=")
	w := Where{strings.ToLower(strings.TrimSpace(field)), strings.TrimSpace(value)}
	if !ok || w.Value == "" {
		return w, fmt.Errorf("%q is not a condition; write it as temperature=body", text)
	}
	known := []string{"condition", "year", "paper", "geometry"}
	for _, r := range cat.Rules {
		if r.Field != w.Field {
			known = append(known, r.Field)
			continue
		}
		switch r.Kind {
		case "within", "size", "least":
			if _, err := strconv.ParseFloat(w.Value, 64); err != nil {
				return w, fmt.Errorf("%s: %q is not a number", w.Field, w.Value)
			}
		case "bands", "words":
			if _, err := strconv.ParseFloat(w.Value, 64); err == nil && r.Kind == "bands" {
				return w, nil
			}
			var names []string
			for _, c := range r.Classes {
				if c.Name == w.Value {
					return w, nil
				}
				names = append(names, c.Name)
			}
			if w.Value == r.Assume {
				return w, nil
			}
			return w, fmt.Errorf("%s is one of %s, not %q", w.Field, strings.Join(names, ", "), w.Value)
		}
		return w, nil
	}
	for _, k := range known[:4] {
		if w.Field == k {
			return w, nil
		}
	}
	return w, fmt.Errorf("the field %q is not known; the fields are %s", w.Field, strings.Join(known, ", "))
}

// OutcomeID finds the outcome a person means: an id or any name of it.
func OutcomeID(text string, cat *catalog.Catalog) (string, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return "", errors.New("no outcome is named; give --outcome, such as --outcome NCF")
	}
	if o := cat.Outcome(text); o != nil {
		return o.ID, nil
	}
	if o := cat.FindOutcome(text); o != nil {
		return o.ID, nil
	}
	return "", fmt.Errorf("the outcome %q is not in the catalogue; give one of its names, such as “time to fracture”", text)
}
