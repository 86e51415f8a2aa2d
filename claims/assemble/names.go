package assemble

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/claims"
	"probity/extract"
)

// key brings the names of a group together: "Group B", "Gr. B", "group b" and
// "B" are one.
func key(s string) string {
	var words []string
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '%' && r != '.' && r != '+'
	}) {
		w = strings.Trim(w, ".")
		switch w {
		case "", "group", "groups", "gr", "the", "subgroup", "a", "of", "and", "with":
			if w != "a" || len(s) > 8 {
				continue
			}
		}
		if len(w) > 1 && len(w) < 5 && w[0] == 'g' && allDigits(strings.TrimPrefix(w[1:], "r")) {
			w = strings.TrimPrefix(w[1:], "r")
		}
		words = append(words, w)
	}
	return strings.Join(words, " ")
}

func allDigits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}

// splitBracket parts "Group 1 (Orlin)".
func splitBracket(s string) (outer, inner string) {
	i := strings.IndexByte(s, '(')
	if i <= 0 {
		return s, ""
	}
	j := closing(s, i)
	if j < 0 {
		return s, ""
	}
	return strings.TrimSpace(s[:i] + s[j+1:]), strings.TrimSpace(s[i+1 : j])
}

// near finds the one group whose name holds all the words of k, or whose
// words k holds: "Orlin 25/.06" and "Orlin". Numbers must agree.
func (g *registry) near(k string) *claims.Arm {
	words := strings.Fields(k)
	if len(words) == 0 || len(words) == 1 && len(k) < 4 || !telling(words) {
		return nil
	}
	var best *claims.Arm
	for _, other := range g.index.like(words) {
		a := g.keys[other]
		if len(other) < 4 || a == best {
			continue
		}
		w := strings.Fields(other)
		if !(subset(words, w) || subset(w, words)) || !telling(w) || opposed(words, w) {
			continue
		}
		if best != nil {
			return nil // two would fit
		}
		best = a
	}
	return best
}

func subset(a, b []string) bool {
	for _, w := range a {
		if !slices.Contains(b, w) {
			return false
		}
	}
	return true
}

// opposed reports whether one of two names has a word that makes it the
// other's counterpart.
func opposed(a, b []string) bool {
	for _, w := range []string{"control", "negative", "positive", "no", "non", "without", "not", "pre", "post", "plus", "new", "used", "+"} {
		if slices.Contains(a, w) != slices.Contains(b, w) {
			return true
		}
	}
	return false
}

// telling reports whether words name something by themselves.
func telling(words []string) bool {
	for _, w := range words {
		if utf8.RuneCountInString(w) > 3 && !strings.ContainsAny(w, "0123456789") {
			switch w {
			case "control", "treatment", "test", "experimental", "positive", "negative", "conventional", "material", "cement", "system":
				continue
			}
			return true
		}
	}
	return false
}

// unshared takes away the names that several groups would go by.
func unshared(arms []*claims.Arm) {
	count := map[string]int{}
	for _, a := range arms {
		mine := map[string]bool{}
		for _, s := range a.Aliases {
			mine[key(s)] = true
		}
		for k := range mine { // any order: counting
			count[k]++
		}
	}
	for _, a := range arms {
		a.Aliases = slices.DeleteFunc(a.Aliases, func(s string) bool { return count[key(s)] > 1 })
		slices.Sort(a.Aliases)
	}
}

// isControl reads from its names whether a group is a control.
func isControl(a *claims.Arm) bool {
	for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
		low := strings.ToLower(name)
		if hasAny(low, "control", "placebo", "untreated", "no treatment", "sham") && !hasAny(low, "controlled") {
			return true
		}
	}
	return false
}

// impliedNames adds the abbreviations that the text uses for groups without
// defining them: a word of capitals that is a word of one group's name alone,
// or that its letters spell in order from the first.
func (p *paper) impliedNames() {
	var arms []*claims.Arm
	for _, a := range p.arms.arms {
		if p.arms.used[a] {
			arms = append(arms, a)
		}
	}
	tried := map[string]bool{}
	for i := range p.sentences {
		s := &p.sentences[i]
		if s.place.Section != extract.Results && s.place.Section != extract.Abstract {
			continue
		}
		for _, w := range strings.FieldsFunc(s.text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
			if len(w) < 2 || len(w) > 6 || tried[w] || strings.ToUpper(w) != w || !unicode.IsLetter(rune(w[0])) {
				continue
			}
			tried[w] = true
			if p.short[w] == "" && p.arms.exact(w) == nil && p.free(w) {
				p.arms.at = s.place
				p.imply(w, arms)
			}
		}
	}
}

// free reports whether an abbreviation is none of the trade's own.
func (p *paper) free(w string) bool {
	return p.ls.cat.Mark(w) == "" && p.ls.cat.FindUnit(w) == nil && p.ls.cat.FindOutcome(w) == nil && len(p.ls.cat.FindTests(w)) == 0
}

func (p *paper) imply(w string, arms []*claims.Arm) {
	var found *claims.Arm
	for _, a := range arms {
		if slices.Contains(strings.Fields(a.Name), w) || longForm(w, a.Name) == a.Name {
			if found != nil {
				return
			}
			found = a
		}
	}
	if found != nil {
		p.arms.alias(found, w)
	}
}
