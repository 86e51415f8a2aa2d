package assemble

import (
	"slices"
	"strings"
	"unicode"

	"probity/claims"
)

// armNames finds the names of the groups in running text. A name is its words
// joined by spaces, plurals as singulars.
type armNames struct {
	arm   map[string]*claims.Arm
	index wordIndex // of the names, by their telling words
}

// mostWords is how many words a name in running text may have.
const mostWords = 8

// mentioned is a name found in a text.
type mentioned struct {
	arm        *claims.Arm
	start, end int
}

// namesOfArms lists the names of the groups that have figures. A name that two
// groups share is left out.
func (p *paper) namesOfArms() *armNames {
	out := &armNames{arm: map[string]*claims.Arm{}, index: newWordIndex()}
	var order []string
	add := func(a *claims.Arm, s string) {
		words := nameWords(s)
		if len(words) == 0 || len(words) > mostWords {
			return
		}
		k := strings.Join(words, " ")
		if b, ok := out.arm[k]; !ok {
			out.arm[k] = a
			order = append(order, k)
		} else if b != a {
			out.arm[k] = nil
		}
	}
	for _, a := range p.arms.arms {
		if !p.arms.used[a] || wholeSample(a) {
			continue
		}
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
	for _, k := range order {
		if out.arm[k] != nil {
			out.index.add(k, telltale(strings.Fields(k)))
		}
	}
	return out
}

// telltale leaves out the words that say nothing of a group.
func telltale(words []string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return plainWords[w] })
}

// bareName takes "group" off a name.
func bareName(s string) string {
	s = strings.TrimSpace(s)
	for _, w := range []string{" group", " arm", " Group", " GROUP", " Arm"} {
		s = strings.TrimSuffix(s, w)
	}
	return s
}

// wholeSample reports whether a name stands for all groups together: "Total",
// "All participants", but not "Total dose".
func wholeSample(a *claims.Arm) bool { return namesWhole(a.Name) }

func namesWhole(name string) bool {
	all := false
	for _, w := range strings.Fields(key(name)) {
		switch w = single(w); {
		case allWords[w]:
			all = true
		case !plainWords[w] && !allDigits(w) && !slices.Contains(peopleNouns, w) && !slices.Contains(peopleNouns, w+"s"):
			return false
		}
	}
	return all
}

var allWords = map[string]bool{"all": true, "total": true, "overall": true, "whole": true, "entire": true, "both": true, "pooled": true, "combined": true}

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
		k, a := 0, (*claims.Arm)(nil)
		name := ""
		for j := i; j < len(toks) && j-i < mostWords && (j == i || !broken(text[toks[j-1].end:max(toks[j-1].end, toks[j].start)])); j++ {
			name = strings.TrimPrefix(name+" "+toks[j].w, " ")
			if b := n.arm[name]; b != nil && !(weakName(name) && !afterGroup(text, toks[i].start, toks[j].end)) {
				k, a = j-i+1, b
			}
		}
		if a != nil {
			out = append(out, mentioned{a, toks[i].start, toks[i+k-1].end})
		}
		i += max(k, 1)
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
func weakName(k string) bool {
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

// like finds the one group whose name has all the telling words of a phrase, or
// the phrase all of the name's: "lamp" and "lamp therapy".
func (n *armNames) like(phrase string) *claims.Arm {
	words := telltale(nameWords(phrase))
	if len(words) == 0 || len(words) == 1 && len(words[0]) < 3 {
		return nil
	}
	var best *claims.Arm
	for _, k := range n.index.like(words) {
		theirs := telltale(strings.Fields(k))
		if a := n.arm[k]; a != best && !opposed(words, theirs) && (subset(words, theirs) || subset(theirs, words)) {
			if best != nil {
				return nil
			}
			best = a
		}
	}
	return best
}

// plainWords say nothing of a group.
var plainWords = map[string]bool{"group": true, "arm": true, "patient": true, "subject": true, "participant": true, "treated": true, "only": true, "alone": true,
	"treatment": true, "therapy": true, "other": true, "first": true, "second": true, "study": true, "an": true, "to": true, "in": true, "for": true, "were": true, "was": true,
	"received": true, "receive": true, "receiving": true, "either": true, "who": true, "by": true, "program": true, "programme": true, "women": true, "men": true, "children": true, "rat": true, "animal": true, "sample": true, "cohort": true, "population": true, "n": true}
