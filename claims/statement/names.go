package statement

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/claims"
)

// armIndex finds the arms of the study by any of their names.
type armIndex struct {
	names map[string]nameList // by the first word, lower case
	all   []*claims.Arm
	class []armClass
}

// armClass is a word that the paper groups arms by: "heat-treated".
type armClass struct {
	name  string
	words []string
	arms  []*claims.Arm
}

func (x *armIndex) addClass(name string, a *claims.Arm) {
	name = strings.ToLower(strings.TrimSpace(name))
	for i := range x.class {
		if x.class[i].name == name {
			x.class[i].arms = append(x.class[i].arms, a)
			return
		}
	}
	if words := cutName(name); len(words) > 0 {
		x.class = append(x.class, armClass{name, words, []*claims.Arm{a}})
	}
}

type armName struct {
	words []string // lower case, as cut
	exact string   // for short names: as printed, case and all
	arm   *claims.Arm
}

// A nameList holds the names that begin with one word, and where those are
// that go on with another: of 500 groups all are called "group".
type nameList struct {
	names []armName
	alone []int            // names of one word
	next  map[string][]int // by the second word as nameAt compares it
}

func (l *nameList) add(n armName) {
	at := len(l.names)
	l.names = append(l.names, n)
	if len(n.words) == 1 {
		l.alone = append(l.alone, at)
		return
	}
	if l.next == nil {
		l.next = map[string][]int{}
	}
	for _, w := range secondWords(n.words[1]) {
		l.next[w] = append(l.next[w], at)
	}
}

// secondWords are the forms in which a word may be that of a name: as it is in
// lower case, and as a number without the nought before its point.
func secondWords(w string) []string {
	return []string{strings.ToLower(w), "." + strings.TrimLeft(w, "0.")}
}

// from lists the names that a text may hold which goes on with a word: those
// of one word, and those whose second word is like it.
func (l *nameList) from(next string) []armName {
	if len(l.names) < 8 {
		return l.names
	}
	at := slices.Clone(l.alone)
	at = append(at, l.next[strings.ToLower(next)]...)
	at = append(at, l.next["."+strings.TrimLeft(next, ".")]...)
	slices.Sort(at)
	var out []armName
	for _, i := range slices.Compact(at) {
		out = append(out, l.names[i])
	}
	return out
}

func newArmIndex(study *claims.Study) armIndex {
	x := armIndex{names: map[string]nameList{}}
	starts := startsOf(study.Arms)
	for _, a := range study.Arms {
		if a == nil {
			continue
		}
		x.all = append(x.all, a)
		seen := map[string]bool{}
		for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
			x.add(name, a, seen)
		}
		for _, name := range shortened(a, starts) {
			x.add(name, a, seen)
		}
		for _, c := range a.Class {
			x.addClass(c, a)
		}
	}
	return x
}

func (x *armIndex) add(name string, a *claims.Arm, seen map[string]bool) {
	name = strings.TrimSpace(name)
	words := cutName(name)
	if len(words) == 0 || len(words) > 12 || seen[name] {
		return
	}
	seen[name] = true
	n := armName{words: words, arm: a}
	if len(words) == 1 && utf8.RuneCountInString(name) <= 3 {
		n.exact = name
	}
	l := x.names[words[0]]
	l.add(n)
	x.names[words[0]] = l
	// "Group B" is also "B" in a list of groups; the list is read elsewhere
	if len(words) == 2 && (words[0] == "group" || words[0] == "gr" || words[0] == "gp" || words[0] == "grp") {
		x.add(words2(name), a, seen)
	}
}

// shortened gives the beginnings of an arm's name that no other arm shares:
// "250 ppm" of "250 ppm F", the proper name of "Velto 25/.06".
func shortened(a *claims.Arm, starts map[string]nameStart) []string {
	var out []string
	for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
		fields := strings.Fields(name)
		if len(fields) < 2 {
			continue
		}
		var tries []string
		if r, _ := utf8.DecodeRuneInString(fields[0]); unicode.IsDigit(r) {
			tries = append(tries, fields[0]+" "+fields[1])
		} else if unicode.IsUpper(r) && utf8.RuneCountInString(fields[0]) >= 4 && !groupWord(fields[0]) && properName(fields[0]) {
			tries = append(tries, fields[0])
		}
		if last := fields[len(fields)-1]; groupWord(last) {
			tries = append(tries, strings.Join(fields[:len(fields)-1], " "))
		}
		for _, t := range tries {
			if starts[strings.ToLower(t)].only(a) {
				out = append(out, t)
			}
		}
	}
	return out
}

// properName: a word that is not an ordinary adjective of a group.
func properName(w string) bool {
	switch strings.ToLower(w) {
	case "positive", "negative", "control", "high", "low", "full", "partial", "first", "second", "third", "mean", "total", "test", "experimental", "with", "without", "after", "before", "baseline", "conventional", "standard", "normal", "heat", "sham", "untreated", "apical", "coronal", "middle":
		return false
	}
	return true
}

// nameStart tells whose names begin with certain words.
type nameStart struct {
	arm     *claims.Arm
	several bool
}

// only reports whether no other arm has such a name.
func (s nameStart) only(a *claims.Arm) bool { return !s.several && (s.arm == nil || s.arm == a) }

// longestStart is how far, in bytes, the beginning of a name goes.
const longestStart = 500

// startsOf lists the names of all arms in lower case, and their beginnings up
// to a space or a slash.
func startsOf(all []*claims.Arm) map[string]nameStart {
	out := map[string]nameStart{}
	for _, a := range all {
		if a == nil {
			continue
		}
		for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
			low := strings.ToLower(name)
			for i := 0; i <= len(low); i++ {
				if i == len(low) || i < longestStart && (low[i] == ' ' || low[i] == '/') {
					s := out[low[:i]]
					s.several = s.several || s.arm != nil && s.arm != a
					s.arm = a
					out[low[:i]] = s
				}
			}
		}
	}
	return out
}

func words2(name string) string {
	f := strings.Fields(name)
	return f[len(f)-1]
}

// cutName cuts a name into words and numbers; signs fall away.
func cutName(s string) []string {
	var out []string
	start := -1
	for i, r := range s + " " {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' && start >= 0 && i+1 < len(s) && digit(s[i+1]) {
			if start < 0 {
				start = i
			}
			continue
		}
		if start >= 0 {
			out = append(out, strings.ToLower(s[start:i]))
			start = -1
		}
	}
	return out
}

func uniqueArms(arms []*claims.Arm) []*claims.Arm {
	if len(arms) < 2 {
		return arms
	}
	out := arms[:0:0]
	seen := make(map[*claims.Arm]bool, len(arms))
	for _, a := range arms {
		if !seen[a] {
			seen[a] = true
			out = append(out, a)
		}
	}
	return out
}
