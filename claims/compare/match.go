package compare

import (
	"slices"
	"strings"
	"unicode"
)

// fold brings a name to the form it is compared in: lower case words of
// letters and digits.
func fold(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ")
}

// A matcher tells whether an arm is the one a person means.
type matcher struct {
	text  string
	words []string
}

func newMatcher(text string) matcher {
	f := fold(text)
	return matcher{f, strings.Fields(f)}
}

func (m matcher) empty() bool { return m.text == "" }

// fits: the text is a name or class of the arm, or all its words stand in one
// of its names.
func (m matcher) fits(p *Paper, f *Figure) bool {
	names := []string{f.ArmText}
	if f.Arm >= 0 && f.Arm < len(p.Arms) {
		a := &p.Arms[f.Arm]
		names = append(append(append(names, a.Name), a.Also...), a.Class...)
		if a.Control && (m.text == "control" || m.text == "controls") {
			return true
		}
	}
	for _, n := range names {
		w := strings.Fields(fold(n))
		if len(w) == 0 {
			continue
		}
		if strings.Join(w, " ") == m.text || holds(w, m.words) {
			return true
		}
	}
	return false
}

// holds reports whether all the words stand among those of a name. A word
// meets its own plural.
func holds(name, words []string) bool {
	for _, w := range words {
		if !slices.ContainsFunc(name, func(n string) bool { return n == w || n == w+"s" || n+"s" == w }) {
			return false
		}
	}
	return len(words) > 0
}
