package compare

import (
	"slices"
	"strings"

	"probity/claims/catalog"
)

// A figureGroup is the figures of one table (or of running text) under one
// condition: what may be compared within a paper.
type figureGroup struct {
	where, condition string
	figures          []*Figure
}

// groupsOf sorts a paper's figures of an outcome into groups, tables first.
func groupsOf(p *Paper, outcome string) []figureGroup {
	var groups []figureGroup
	for i := range p.Figures {
		f := &p.Figures[i]
		if f.OutcomeID != outcome || f.Arm < 0 && f.ArmText == "" {
			continue
		}
		where, condition := tableOf(f.Place), fold(f.Condition)
		k := slices.IndexFunc(groups, func(g figureGroup) bool { return g.where == where && g.condition == condition })
		if k < 0 {
			groups = append(groups, figureGroup{where: where, condition: condition})
			k = len(groups) - 1
		}
		same := func(o *Figure) bool {
			return strings.EqualFold(p.ArmName(o), p.ArmName(f)) && o.UnitID == f.UnitID
		}
		if !slices.ContainsFunc(groups[k].figures, same) {
			groups[k].figures = append(groups[k].figures, f)
		}
	}
	slices.SortStableFunc(groups, func(a, b figureGroup) int { // running text last: it repeats the tables
		return isEmpty(a.where) - isEmpty(b.where)
	})
	return groups
}

func isEmpty(s string) int {
	if s == "" {
		return 1
	}
	return 0
}

// tableOf gives the label of the table in a printed place, "" for text.
func tableOf(place string) string {
	_, rest, ok := strings.Cut(place, "table=")
	if !ok {
		return ""
	}
	if strings.HasPrefix(rest, `"`) {
		label, _, _ := strings.Cut(rest[1:], `"`)
		return label
	}
	label, _, _ := strings.Cut(rest, " ")
	return label
}

// pair is two figures that are compared: a against b.
type pair struct{ a, b *Figure }

// pairsOf lists what is compared within a group: as asked; else each arm
// against the control; else all arms in the order of their names, so that the
// same two arms stand the same way round in every paper.
func pairsOf(p *Paper, g figureGroup, subject, against matcher) []pair {
	var out []pair
	add := func(a, b *Figure) {
		if a != b && !strings.EqualFold(p.ArmName(a), p.ArmName(b)) && sameKind(a, b) {
			out = append(out, pair{a, b})
		}
	}
	isControl := func(f *Figure) bool { return f.Arm >= 0 && f.Arm < len(p.Arms) && p.Arms[f.Arm].Control }
	switch {
	case !subject.empty() && !against.empty():
		for _, a := range g.figures {
			for _, b := range g.figures {
				if subject.fits(p, a) && against.fits(p, b) && !(against.fits(p, a) && subject.fits(p, b)) {
					add(a, b)
				}
			}
		}
	case !subject.empty() || !against.empty():
		for _, a := range g.figures {
			for _, b := range g.figures {
				if !subject.empty() && subject.fits(p, a) && !subject.fits(p, b) ||
					subject.empty() && against.fits(p, b) && !against.fits(p, a) {
					add(a, b)
				}
			}
		}
	case slices.ContainsFunc(g.figures, isControl):
		for _, a := range g.figures {
			for _, b := range g.figures {
				if isControl(b) && !isControl(a) {
					add(a, b)
				}
			}
		}
	default:
		for _, a := range g.figures {
			for _, b := range g.figures {
				if fold(p.ArmName(a)) < fold(p.ArmName(b)) {
					add(a, b)
				}
			}
		}
	}
	return out
}

// sameKind: both means or both medians, both levels or both changes.
func sameKind(a, b *Figure) bool {
	return a.Median == b.Median && a.Change == b.Change && a.Adjusted == b.Adjusted
}

// commonUnit is the unit that most figures of the outcome are printed in; of
// equals the catalogue's, then the first by name.
func commonUnit(papers []*Paper, outcome string, cat *catalog.Catalog) string {
	count := map[string]int{}
	for _, p := range papers {
		for i := range p.Figures {
			if f := &p.Figures[i]; f.OutcomeID == outcome && f.UnitID != "" {
				count[f.UnitID]++
			}
		}
	}
	best := ""
	usual := ""
	if o := cat.Outcome(outcome); o != nil {
		usual = o.Unit
	}
	for id, n := range count { // any order: of equals the usual, then the first by name
		switch {
		case best == "" || n > count[best]:
			best = id
		case n == count[best] && best != usual && (id == usual || id < best):
			best = id
		}
	}
	return best
}
