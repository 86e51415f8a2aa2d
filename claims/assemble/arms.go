package assemble

import (
	"slices"
	"strings"

	"probity/claims"
	"probity/extract"
	"probity/extract/numeral"
)

// registry holds the groups of a paper under all the names it gives them.
type registry struct {
	p     *paper
	arms  []*claims.Arm
	keys  map[string]*claims.Arm
	index wordIndex                        // of the keys
	n     map[*claims.Arm][]extract.Number // every n printed for it
	used  map[*claims.Arm]bool
	at    extract.Place // of the names that are met now
}

func newRegistry(p *paper) *registry {
	return &registry{p: p, keys: map[string]*claims.Arm{}, index: newWordIndex(), n: map[*claims.Arm][]extract.Number{}, used: map[*claims.Arm]bool{}}
}

// known reports whether the paper has named such a group elsewhere. Single
// letters and digits say too little.
func (g *registry) known(s string) bool {
	k := key(s)
	if len(k) < 2 {
		return false
	}
	if g.keys[k] != nil {
		return true
	}
	outer, inner := splitBracket(s)
	return inner != "" && (len(key(outer)) > 1 && g.keys[key(outer)] != nil || len(key(inner)) > 1 && g.keys[key(inner)] != nil)
}

// find gives the group that a name belongs to, nil if none.
func (g *registry) find(s string) *claims.Arm {
	k := key(s)
	if k == "" {
		return nil
	}
	if a := g.keys[k]; a != nil {
		return a
	}
	if long, ok := g.p.short[strings.TrimSpace(s)]; ok {
		if a := g.keys[key(long)]; a != nil {
			return a
		}
	}
	if outer, inner := splitBracket(s); inner != "" {
		for _, part := range []string{inner, outer} {
			if a := g.keys[key(part)]; a != nil && (len(key(part)) > 1 || part == outer) && !allDigits(key(part)) {
				return a
			}
		}
	}
	return g.near(k)
}

// define adds a group under its name and other names.
func (g *registry) define(name, short string, place extract.Place, aliases ...string) *claims.Arm {
	if printsResult(name) {
		name = short
	}
	a := &claims.Arm{Name: name, Short: short, Place: place}
	g.at = place
	g.arms = append(g.arms, a)
	g.alias(a, name)
	g.alias(a, short)
	for _, s := range aliases {
		g.alias(a, s)
	}
	return a
}

// alias adds a name of a group.
func (g *registry) alias(a *claims.Arm, s string) {
	s = strings.TrimSpace(s)
	k := key(s)
	if s == "" || k == "" || printsResult(s) {
		return
	}
	if !slices.ContainsFunc(a.Named, func(n claims.Name) bool { return n.Text == s }) {
		a.Named = append(a.Named, claims.Name{Text: s, Place: g.at})
	}
	if s != a.Name && s != a.Short && !slices.Contains(a.Aliases, s) {
		a.Aliases = append(a.Aliases, s)
	}
	if g.keys[k] == nil {
		g.keys[k] = a
		g.index.add(k, strings.Fields(k))
	}
}

// printsResult reports words that print a p or a bound: no group is called so.
func printsResult(s string) bool {
	for _, t := range numeral.Scan(s) {
		if t.Form == numeral.P {
			return true
		}
	}
	return false
}

// armOf gives the group that a table prints as clean (with full where more
// labels name it). Labels that differ are different groups of one table, so a
// likeness of names counts only for the first label that claims it.
func (t *table) armOf(clean, full string, place extract.Place) *claims.Arm {
	if a := t.armBy[full]; a != nil {
		return a
	}
	t.arms.at = place
	t.arms.at.Section, t.arms.at.Table = extract.InTable, t.place.Table
	a := t.arms.exact(clean)
	if a == nil && full != clean {
		a = t.arms.exact(strings.TrimSpace(strings.TrimPrefix(full, clean)))
	}
	if a == nil || t.taken[a] {
		a = t.arms.find(clean)
	}
	if a == nil || t.taken[a] {
		a = t.arms.make(clean, full, place)
	}
	t.armBy[full], t.taken[a] = a, true
	t.arms.use(a, clean, full)
	return a
}

// of gives the group of a name, and adds it if it is new.
func (g *registry) of(clean, full string, place extract.Place) *claims.Arm {
	a := g.find(clean)
	if a == nil {
		a = g.make(clean, full, place)
	}
	g.use(a, clean, full)
	return a
}

// use marks a group as one with figures and keeps the names it has here.
func (g *registry) use(a *claims.Arm, clean, full string) {
	g.used[a] = true
	if a.Short == "" {
		a.Short = clean
	}
	g.alias(a, clean)
	if full != clean {
		g.alias(a, full)
	}
}

// exact gives the group that goes by just this name or abbreviation.
func (g *registry) exact(s string) *claims.Arm {
	if a := g.keys[key(s)]; a != nil && key(s) != "" {
		return a
	}
	if long, ok := g.p.short[strings.TrimSpace(s)]; ok {
		return g.keys[key(long)]
	}
	return nil
}

// make adds a group that only the table names, under its long form where the
// paper defines one.
func (g *registry) make(clean, full string, place extract.Place) *claims.Arm {
	name := full
	var aliases []string
	if long, ok := g.p.short[clean]; ok {
		name = long
	}
	outer, inner := splitBracket(clean)
	if inner != "" {
		if !startsWithDigit(inner) {
			aliases = append(aliases, outer)
		}
		if len(inner) > 2 && !hasSize(inner) && !startsWithDigit(inner) {
			aliases = append(aliases, inner)
		}
		if long, ok := g.p.short[outer]; ok {
			aliases = append(aliases, long)
		}
	}
	if full != clean {
		aliases = append(aliases, strings.TrimSpace(strings.TrimPrefix(full, clean)))
	}
	a := g.define(name, clean, place, aliases...)
	g.geometry(a, full)
	return a
}

// geometry reads the size of an instrument from its name or description.
func (g *registry) geometry(a *claims.Arm, s string) {
	if a.Size.Text != "" {
		return
	}
	for _, t := range numeral.Scan(s) {
		if t.Form != numeral.Size {
			continue
		}
		text := s[t.Start:t.End]
		tip, taper, ok := strings.Cut(strings.TrimPrefix(text, "#"), "/")
		if !ok {
			if i := strings.IndexByte(text, '.'); i > 0 {
				tip, taper, ok = text[:i], text[i:], true
			}
		}
		a.Size.Text = text
		if n, good := numeral.Number(tip, numeral.Style{}); good {
			a.Size.Tip = int(n.Value)
		}
		if n, good := numeral.Number(taper, numeral.Style{}); ok && good {
			a.Size.Taper = n.Value
			if n.Decimals == 0 {
				a.Size.Taper = n.Value / 100 // "25/06"
			}
		}
		return
	}
}

// finish gives the groups of the study, in the order they were met: those
// with figures, and those whose n the methods print. Names that only look
// like groups are left out.
func (g *registry) finish() []*claims.Arm {
	var out []*claims.Arm
	for _, a := range g.arms {
		if !g.used[a] && len(g.n[a]) == 0 && !(len(g.used) < 2 && len(a.Class) > 0) {
			continue
		}
		a.Control = a.Control || isControl(a)
		out = append(out, a)
	}
	unshared(out)
	return out
}
