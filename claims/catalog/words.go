package catalog

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Match is where a row of the catalogue is named in a text; Start and End
// count bytes.
type Match[T any] struct {
	Row        *T
	Start, End int
}

// word is one word of a text, folded for comparison.
type word struct {
	fold       string
	start, end int
}

// cut splits a text into words: runs of letters and digits, and the percent
// sign. A genitive 's is left off and plurals lose their s, so that a name
// and its inflected form meet.
func cut(text string) []word {
	out := make([]word, 0, len(text)/6+2)
	start := -1
	flush := func(end int) {
		if start >= 0 {
			if f := fold(text[start:end]); f != "" {
				out = append(out, word{f, start, end})
			}
			start = -1
		}
	}
	for i, r := range text {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.No, r):
			if start < 0 {
				start = i
			}
		case (r == '\'' || r == '’') && start >= 0 && genitive(text[i:]):
			flush(i)
			start = -2 // the s that follows belongs to nothing
		case r == '%' || r == '％' || r == '°' || r == '∆' || r == '±':
			flush(i)
			out = append(out, word{string(r), i, i + utf8.RuneLen(r)})
		default:
			flush(i)
			if start == -2 {
				start = -1
			}
		}
		if start == -2 && r == 's' {
			start = -1
		}
	}
	flush(len(text))
	return out
}

// genitive reports whether s begins with an apostrophe and a final s.
func genitive(s string) bool {
	_, size := utf8.DecodeRuneInString(s)
	s = s[size:]
	if !strings.HasPrefix(s, "s") {
		return false
	}
	next, _ := utf8.DecodeRuneInString(s[1:])
	return !unicode.IsLetter(next) && !unicode.IsDigit(next)
}

// fold brings a word to the form it is compared in.
func fold(w string) string {
	lower := w
	for i := 0; i < len(w); i++ {
		if c := w[i]; c >= 'A' && c <= 'Z' || c >= utf8.RuneSelf {
			lower = strings.Map(foldRune, w)
			break
		}
	}
	if n := len(lower); n > 3 && lower[n-1] == 's' && !strings.HasSuffix(lower, "ss") &&
		!strings.HasSuffix(lower, "us") && !strings.HasSuffix(lower, "is") {
		return lower[:n-1]
	}
	return lower
}

// foldRune puts micro signs, raised digits and the two deltas together.
func foldRune(r rune) rune {
	switch r {
	case 'μ':
		return 'µ'
	case '∆':
		return 'Δ'
	case '²':
		return '2'
	case '³':
		return '3'
	case '¹':
		return '1'
	}
	return unicode.ToLower(r)
}

// index finds names in texts: the longest name that begins at a word wins.
type index[T any] struct {
	first map[string][]name[T] // by first word, longest first
}

type name[T any] struct {
	words []string
	exact string // a short abbreviation, matched as it is written
	row   *T
}

func (x *index[T]) add(alias string, row *T) {
	cutted := cut(alias)
	if len(cutted) == 0 {
		return
	}
	if x.first == nil {
		x.first = map[string][]name[T]{}
	}
	n := name[T]{row: row}
	for _, w := range cutted {
		n.words = append(n.words, w.fold)
	}
	if len(n.words) == 1 && abbreviation(alias) {
		n.exact = alias
	}
	key := n.words[0]
	x.first[key] = append(x.first[key], n)
	slices.SortStableFunc(x.first[key], func(a, b name[T]) int { return len(b.words) - len(a.words) })
}

// abbreviation reports whether a name is a short one with capitals, such as
// FL or Ra, which as a word of lower-case letters would be something else.
func abbreviation(s string) bool {
	return utf8.RuneCountInString(s) <= 5 && strings.ContainsFunc(s, unicode.IsUpper)
}

// find gives the names in text in order, without overlap.
func (x *index[T]) find(text string) []Match[T] {
	words := cut(text)
	var out []Match[T]
	for i := 0; i < len(words); i++ {
		if n := x.at(text, words, i); n != nil {
			last := words[i+len(n.words)-1]
			out = append(out, Match[T]{n.row, words[i].start, last.end})
			i += len(n.words) - 1
		}
	}
	return out
}

func (x *index[T]) at(text string, words []word, i int) *name[T] {
	names := x.first[words[i].fold]
	for k := range names {
		n := &names[k]
		if len(words)-i < len(n.words) {
			continue
		}
		if n.exact != "" {
			if text[words[i].start:words[i].end] != n.exact {
				continue
			}
		} else if !same(words[i:], n.words) {
			continue
		}
		return n
	}
	return nil
}

func same(words []word, want []string) bool {
	for i, w := range want {
		if words[i].fold != w {
			return false
		}
	}
	return true
}
