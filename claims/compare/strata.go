package compare

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Stratum is the comparisons that were made under the same conditions.
type Stratum struct {
	Name     string   // all conditions: "temperature: body; static or dynamic test: static …"
	Short    string   // those that tell the strata apart; "" where there is one
	Apart    []string // what sets it apart from the first
	Rows     []*Row
	Papers   int
	Combined []Combined
}

// stratify sorts rows into strata by all that the rules of grade "no" look at.
func (res *Result) stratify(rows []*Row) {
	var fit []*Row
	for _, r := range rows {
		if r.Grade == NotComparable || r.Ratio == 0 {
			if r.Ratio == 0 {
				r.addReason(NotComparable, "%s", r.NoInterval)
			}
			res.Apart = append(res.Apart, r)
			continue
		}
		fit = append(fit, r)
	}
	cluster(fit)
	byKey := map[string]*Stratum{}
	var keys []string
	for _, r := range fit {
		r.key = keyOf(r)
		s := byKey[r.key]
		if s == nil {
			s = &Stratum{Name: nameOf(r)}
			byKey[r.key] = s
			keys = append(keys, r.key)
		}
		s.Rows = append(s.Rows, r)
	}
	slices.Sort(keys)
	for _, k := range keys {
		s := byKey[k]
		s.Papers = papersOf(s.Rows)
		s.minority()
		slices.SortStableFunc(s.Rows, byContrast)
		res.Strata = append(res.Strata, *s)
	}
	slices.SortStableFunc(res.Strata, func(a, b Stratum) int { return b.Papers - a.Papers })
	slices.SortStableFunc(res.Apart, byContrast)
	for i := range res.Strata {
		s := &res.Strata[i]
		if i > 0 {
			s.Apart = differences(res.Strata[0].Rows[0], s.Rows[0])
		}
		s.Combined = res.combine(s)
	}
	res.shortNames()
}

// shortNames names strata by the conditions in which they differ.
func (res *Result) shortNames() {
	for i := range res.Strata {
		var parts []string
		for k, c := range res.Strata[i].Rows[0].Conditions {
			differs := func(o Stratum) bool { return o.Rows[0].Conditions[k].classOrSilence() != c.classOrSilence() }
			if c.Rule.Grade == "no" && slices.ContainsFunc(res.Strata, differs) {
				parts = append(parts, c.Rule.Name+": "+c.classOrSilence())
			}
		}
		res.Strata[i].Short = strings.Join(parts, "; ")
	}
}

// byContrast keeps the order of papers, and of lines within a paper, which
// rows come in.
func byContrast(a, b *Row) int {
	return cmp.Or(strings.Compare(a.contrast, b.contrast), int(a.Grade-b.Grade))
}

func contrastOf(r *Row) string { return fold(r.Subject.Name) + " | " + fold(r.Reference.Name) }

func papersOf(rows []*Row) int {
	seen := map[*Paper]bool{}
	for _, r := range rows {
		seen[r.Paper] = true
	}
	return len(seen)
}

// cluster gives figures their class: from the smallest up, a class goes on
// while the figure lies within the rule's width of the class's first.
func cluster(rows []*Row) {
	if len(rows) == 0 {
		return
	}
	for i := range rows[0].Conditions {
		kind := rows[0].Conditions[i].Rule.Kind
		if kind != "within" && kind != "size" {
			continue
		}
		sorted := slices.Clone(rows)
		slices.SortStableFunc(sorted, func(a, b *Row) int { return cmp.Compare(a.Conditions[i].Value, b.Conditions[i].Value) })
		var first float64
		class := ""
		for _, r := range sorted {
			c := &r.Conditions[i]
			if !c.Known {
				continue
			}
			if class == "" || differs(first, c.Value, c.Rule.Most, c.Rule.Percent) {
				first, class = c.Value, c.Text
			}
			c.Class = class
		}
	}
}

// keyOf is what all rows of a stratum have in common.
func keyOf(r *Row) string {
	var b strings.Builder
	for _, c := range r.Conditions {
		if c.Rule.Grade == "no" {
			fmt.Fprintf(&b, "%s=%s;", c.Rule.Field, c.classOrSilence())
		}
	}
	return b.String()
}

func (c Condition) classOrSilence() string {
	switch {
	case c.Several:
		return "several stated"
	case !c.Known && !c.Assumed:
		return "not reported"
	}
	return c.Class
}

// nameOf writes the conditions of a stratum; what no paper reports is put at
// the end together.
func nameOf(r *Row) string {
	var parts, silent []string
	for _, c := range r.Conditions {
		if c.Rule.Grade != "no" {
			continue
		}
		switch {
		case !c.Known && !c.Assumed && !c.Several:
			silent = append(silent, c.Rule.Name)
		default:
			parts = append(parts, c.Rule.Name+": "+c.classOrSilence())
		}
	}
	if len(silent) > 0 {
		parts = append(parts, "not reported: "+strings.Join(silent, ", "))
	}
	if len(parts) == 0 {
		return "no conditions set these apart"
	}
	return strings.Join(parts, "; ")
}

// differences says what sets a stratum apart from the first.
func differences(first, other *Row) []string {
	var out []string
	for i, c := range other.Conditions {
		if c.Rule.Grade != "no" || i >= len(first.Conditions) {
			continue
		}
		if a, b := first.Conditions[i].classOrSilence(), c.classOrSilence(); a != b {
			out = append(out, fmt.Sprintf("%s (%s there, %s here): %s", c.Rule.Name, a, b, c.Rule.Reason))
		}
	}
	return out
}

// minority marks rows that differ from most others of their stratum in what
// calls for caution.
func (s *Stratum) minority() {
	if len(s.Rows) == 0 {
		return
	}
	for i := range s.Rows[0].Conditions {
		rule := s.Rows[0].Conditions[i].Rule
		if rule.Grade == "no" {
			continue
		}
		count := map[string]int{}
		for _, r := range s.Rows {
			if c := r.Conditions[i]; c.Known {
				count[c.Class]++
			}
		}
		most, rows := "", 0
		for class, n := range count { // any order: of equals the first by name
			if n > rows || n == rows && class < most {
				most, rows = class, n
			}
		}
		for _, r := range s.Rows {
			c := r.Conditions[i]
			if !c.Known || c.Class == most {
				continue
			}
			text := fmt.Sprintf("%s %s, others %s: %s", rule.Name, c.Class, most, rule.Reason)
			if rule.Grade == "note" {
				r.Notes = append(r.Notes, text)
			} else {
				r.addReason(gradeOf(rule), "%s", text)
			}
		}
	}
}
