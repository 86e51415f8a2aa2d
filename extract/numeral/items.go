package numeral

import (
	"strings"
	"unicode"

	"probity/extract"
)

// class is what an item of a line is.
type class byte

const (
	aNumber   class = 'n'
	aWord     class = 'w' // letters, and digits glued to them: "MPa", "T1", "cm²"
	aRaised   class = 'r' // raised letters and marks
	aMark     class = 'm' // *, †, ‡ on the line
	aSign     class = '±'
	aDash     class = '-'
	aRelation class = '<'
	aPercent  class = '%'
	aOther    class = '?' // every other character is its own class
)

// item is a number, a word or a sign of a line.
type item struct {
	class    class
	number   extract.Number
	text     string
	from, to int  // characters of the line
	glued    bool // no white space before it
}

// items cuts a line. A minus is a sign where no number stands before it, and
// a dash where one does.
func (l *line) items(style Style) []item {
	out := make([]item, 0, len(l.r)/4+4)
	for i := 0; i < len(l.r); {
		if isSpace(l.r[i]) {
			i++
			continue
		}
		it := l.item(i, style, out)
		it.from, it.glued = i, i > 0 && !isSpace(l.r[i-1])
		if it.to <= i {
			it.to = i + 1
		}
		if it.text == "" {
			it.text = l.slice(i, it.to)
		}
		out = append(out, it)
		i = it.to
	}
	return out
}

func (l *line) item(i int, style Style, before []item) item {
	r := l.r[i]
	afterNumber := len(before) > 0 && (before[len(before)-1].class == aNumber || before[len(before)-1].class == aPercent)
	switch {
	case l.up[i]:
		return item{class: aRaised, to: l.raisedEnd(i)}
	case l.digit(i), isPoint(r) && l.digit(i+1) && !l.digit(i-1) && !l.letter(i-1):
		if n, end, ok := l.number(i, style); ok {
			return item{class: aNumber, number: n, to: end}
		}
		return item{class: aOther, to: l.nameEnd(i)}
	case isMinus(r):
		if !afterNumber && l.signFits(i) {
			if n, end, ok := l.number(i, style); ok {
				return item{class: aNumber, number: n, to: end}
			}
		}
		return item{class: aDash, to: i + 1}
	case r == '—':
		return item{class: aDash, to: i + 1}
	case r == '%' || r == '％' || r == '‰':
		return item{class: aPercent, to: i + 1}
	case r == '±' || r == '∓':
		return item{class: aSign, to: i + 1}
	case strings.ContainsRune("<>=≤≥≈~⩽⩾＜＞", r):
		return item{class: aRelation, to: l.relationEnd(i)}
	case strings.ContainsRune("*†‡§¶#∗＊", r):
		return item{class: aMark, to: i + 1}
	case unicode.IsLetter(r), strings.ContainsRune("°º℃µΔ$", r):
		return item{class: aWord, to: l.wordEnd(i)}
	case r == '+' && l.is(i+1, '/') && i+2 < len(l.r) && isMinus(l.r[i+2]):
		return item{class: aSign, to: i + 3}
	case r == '+' && !afterNumber && (l.digit(i+1) || i+1 < len(l.r) && isPoint(l.r[i+1])):
		if n, end, ok := l.number(i, style); ok {
			return item{class: aNumber, number: n, to: end}
		}
	}
	return item{class: class(min(r, 127)), to: i + 1}
}

// signFits reports whether the minus at i is the sign of a number: directly
// before it, or after a space where the print has a true minus.
func (l *line) signFits(i int) bool {
	if i > 0 && (unicode.IsLetter(l.r[i-1]) || l.r[i-1] == ')') {
		return false // Group-1, T-2
	}
	j := i + 1
	if l.is(j, ' ') && (l.r[i] == '−' || l.r[i] == '–' || i == 0 || l.r[i-1] == '(' || l.r[i-1] == '±') {
		j++
	}
	return l.digit(j) || j+1 < len(l.r) && isPoint(l.r[j]) && l.digit(j+1)
}

func (l *line) raisedEnd(i int) int {
	for i < len(l.r) && (l.up[i] || isSpace(l.r[i]) && i+1 < len(l.r) && l.up[i+1]) {
		i++
	}
	return i
}

// nameEnd ends a run of digits and points that is no numeral, such as 2.3.1.
func (l *line) nameEnd(i int) int {
	for i < len(l.r) && (l.digit(i) || isMark(l.r[i]) && l.digit(i+1)) {
		i++
	}
	return max(i, 1)
}

func (l *line) relationEnd(i int) int {
	if (l.r[i] == '<' || l.r[i] == '>') && l.is(i+1, '=') {
		return i + 2
	}
	return i + 1
}

// wordEnd ends a word: letters, digits glued to them, an inner point, slash
// or hyphen between letters, and raised digits such as the 2 of cm².
func (l *line) wordEnd(i int) int {
	for i < len(l.r) {
		r := l.r[i]
		switch {
		case l.up[i]:
			if !(r >= '0' && r <= '9') && !isMinus(r) {
				return i
			}
		case unicode.IsLetter(r), r >= '0' && r <= '9', strings.ContainsRune("°º℃µ$_", r), unicode.Is(unicode.M, r):
		case strings.ContainsRune("·∙⋅/.'’-‐\u2011", r):
			if !l.letter(i+1) || l.up[i+1] {
				return i
			}
		default:
			return i
		}
		i++
	}
	return i
}

// relation reads a relation sign.
func relation(s string) extract.Relation {
	switch s {
	case "<", "＜":
		return extract.Less
	case ">", "＞":
		return extract.Greater
	case "≤", "<=", "⩽":
		return extract.LessEqual
	case "≥", ">=", "⩾":
		return extract.GreaterEqual
	case "~", "≈":
		return extract.About
	}
	return extract.Equal
}

// letters gives the grouping letters that a word or a raised mark prints, and
// whether it may be one. A plain word must look like one: letters of the
// beginning of the alphabet, in order, each once; raised ones need not.
func letters(s string, raised bool) (string, bool) {
	var kept []rune
	for _, r := range s {
		if p, ok := extract.Unraise(r); ok {
			r = p
		}
		switch {
		case r == 'ª':
			kept = append(kept, 'a')
		case unicode.IsLetter(r):
			kept = append(kept, r)
		case r == ',' || r == ' ' || r == ';' || r == '-' || r == '.':
		case raised && (r == ')' || r == '(' || r == '*' || r == '†' || r == '‡' || r == '#' || r == '/'):
		default:
			return "", false
		}
	}
	if len(kept) == 0 || len(kept) > 8 {
		return "", false
	}
	if raised {
		return keepLetters(s), !strings.EqualFold(string(kept), "tm")
	}
	last := map[bool]rune{}
	for _, r := range kept {
		up := unicode.IsUpper(r)
		if low := unicode.ToLower(r); low < 'a' || low > 'k' || r <= last[up] {
			return "", false
		}
		last[up] = r
	}
	if s[len(s)-1] == '.' || len(kept) > 5 {
		return "", false
	}
	return s, true
}

// keepLetters leaves the letters and commas of a raised mark, on the line.
func keepLetters(s string) string {
	var b strings.Builder
	for _, r := range s {
		if p, ok := extract.Unraise(r); ok {
			r = p
		}
		if unicode.IsLetter(r) || r == ',' {
			b.WriteRune(r)
		}
	}
	return strings.Trim(b.String(), ",")
}
