package assemble

import (
	"slices"
	"strings"
	"unicode"

	"probity/claims"
)

// armNames finds the names of the groups in running text.
type armNames struct {
	by   map[string][]armName // by first word, the longest first
	all  []armName
	arms []*claims.Arm
}

type armName struct {
	words []string
	arm   *claims.Arm
}

// mentioned is a name found in a text.
type mentioned struct {
	arm        *claims.Arm
	start, end int
}

// namesOfArms lists the names of the groups that have figures. A name that two
// groups share is left out.
func (p *paper) namesOfArms() *armNames {
	out := &armNames{by: map[string][]armName{}}
	owner := map[string]*claims.Arm{}
	add := func(a *claims.Arm, s string) {
		words := nameWords(s)
		if len(words) == 0 || len(words) > 8 {
			return
		}
		k := strings.Join(words, " ")
		if b, ok := owner[k]; ok {
			if b != a {
				owner[k] = nil
			}
			return
		}
		owner[k] = a
		out.all = append(out.all, armName{words, a})
	}
	for _, a := range p.arms.arms {
		if !p.arms.used[a] || wholeSample(a) {
			continue
		}
		out.arms = append(out.arms, a)
		for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
			add(a, name)
			if long, ok := p.short[bareName(name)]; ok {
				add(a, long)
			}
			if before, after, ok := strings.Cut(name, ":"); ok {
				add(a, before)
				add(a, after)
			}
			if outer, inner := splitBracket(name); inner != "" {
				add(a, outer)
				if !startsWithDigit(inner) {
					add(a, inner)
				}
			}
		}
	}
	out.all = slices.DeleteFunc(out.all, func(n armName) bool { return owner[strings.Join(n.words, " ")] == nil })
	for _, n := range out.all {
		out.by[n.words[0]] = append(out.by[n.words[0]], n)
	}
	for _, list := range out.by { // any order: each list for itself
		slices.SortStableFunc(list, func(a, b armName) int { return len(b.words) - len(a.words) })
	}
	return out
}

// bareName takes "group" off a name.
func bareName(s string) string {
	s = strings.TrimSpace(s)
	for _, w := range []string{" group", " arm", " Group", " GROUP", " Arm"} {
		s = strings.TrimSuffix(s, w)
	}
	return s
}

// wholeSample reports whether a name stands for all groups together.
func wholeSample(a *claims.Arm) bool {
	for _, w := range strings.Fields(key(a.Name)) {
		switch w {
		case "all", "total", "overall", "whole", "entire", "both", "pooled", "combined":
			return true
		}
	}
	return false
}

// nameWords are the words of a name, plurals as singulars.
func nameWords(s string) []string {
	words := strings.Fields(key(s))
	for i, w := range words {
		words[i] = single(w)
	}
	return words
}

func single(w string) string {
	if len(w) > 4 && w[len(w)-1] == 's' && w[len(w)-2] != 's' {
		return w[:len(w)-1]
	}
	return w
}

// in finds the names of groups in a text, in order, the longest at each word.
func (n *armNames) in(text string) []mentioned {
	type token struct {
		w          string
		start, end int
	}
	var toks []token
	for i := 0; i < len(text); {
		j := i
		for j < len(text) && nameByte(text, j) {
			j++
		}
		if j == i {
			i++
			continue
		}
		for _, w := range nameWords(text[i:j]) {
			toks = append(toks, token{w, i, j})
		}
		i = j
	}
	var out []mentioned
	for i := 0; i < len(toks); {
		step := 1
		for _, name := range n.by[toks[i].w] {
			k := len(name.words)
			if i+k > len(toks) || !slices.EqualFunc(toks[i:i+k], name.words, func(t token, w string) bool { return t.w == w }) || broken(text[toks[i].end:max(toks[i].end, toks[i+k-1].start)]) {
				continue
			}
			if weakName(name.words) && !afterGroup(text, toks[i].start, toks[i+k-1].end) {
				continue
			}
			out = append(out, mentioned{name.arm, toks[i].start, toks[i+k-1].end})
			step = k
			break
		}
		i += step
	}
	return out
}

func nameByte(s string, i int) bool {
	b := s[i]
	return isWordByte(b) || b == '%' || b == '+' || b == '.' && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9'
}

// broken reports whether a stop parts the words of a name.
func broken(s string) bool { return strings.ContainsAny(s, ",;:()") || strings.Contains(s, ". ") }

// weakName is a name of one letter, number or everyday word.
func weakName(words []string) bool {
	k := strings.Join(words, " ")
	switch k {
	case "study", "treatment", "test", "patient", "subject", "case", "experimental", "active", "first", "second", "other", "men", "women":
		return true
	}
	return len(k) < 2 || allDigits(k) || k == "ii" || k == "iii" || k == "iv" || k == "no"
}

// afterGroup reports whether "group" or "arm" stands beside a name.
func afterGroup(text string, start, end int) bool {
	before := strings.ToLower(strings.TrimRightFunc(text[:start], func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '.' || r == '#' }))
	after := strings.ToLower(strings.TrimLeft(text[end:], " -"))
	for _, w := range []string{"group", "groups", "arm", "gr", "g", "cohort", "subgroup"} {
		if strings.HasSuffix(before, w) && (len(before) == len(w) || !isWordByte(before[len(before)-len(w)-1])) {
			return true
		}
	}
	return strings.HasPrefix(after, "group") || strings.HasPrefix(after, "arm")
}

func armsAmong(list []mentioned) []*claims.Arm {
	var out []*claims.Arm
	for _, m := range list {
		if !slices.Contains(out, m.arm) {
			out = append(out, m.arm)
		}
	}
	return out
}

// only gives the group that a text names, if it names just one.
func (n *armNames) only(text string) *claims.Arm {
	if arms := armsAmong(n.in(text)); len(arms) == 1 {
		return arms[0]
	}
	return nil
}

// like finds the one group that has all the words of a phrase in its name:
// "lamp" and "lamp therapy".
func (n *armNames) like(phrase string) *claims.Arm {
	words := slices.DeleteFunc(nameWords(phrase), func(w string) bool { return plainWords[w] })
	if len(words) == 0 || len(words) == 1 && len(words[0]) < 3 {
		return nil
	}
	var best *claims.Arm
	for _, name := range n.all {
		theirs := slices.DeleteFunc(slices.Clone(name.words), func(w string) bool { return plainWords[w] })
		if len(theirs) == 0 || name.arm == best || opposed(words, theirs) || !subset(words, theirs) && !subset(theirs, words) {
			continue
		}
		if best != nil {
			return nil
		}
		best = name.arm
	}
	return best
}

// plainWords say nothing of a group.
var plainWords = map[string]bool{"group": true, "arm": true, "patient": true, "subject": true, "participant": true, "treated": true, "only": true, "alone": true,
	"treatment": true, "therapy": true, "other": true, "first": true, "second": true, "study": true, "an": true, "to": true, "in": true, "for": true, "were": true, "was": true,
	"received": true, "receive": true, "receiving": true, "either": true, "who": true, "by": true, "program": true, "programme": true, "women": true, "men": true, "children": true, "rat": true, "animal": true}
