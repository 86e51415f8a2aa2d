package numeral

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
)

// line is a text as characters, each with whether it is raised and the byte
// it starts at in the flat text.
type line struct {
	r    []rune
	up   []bool
	at   []int // len(r)+1 entries
	text string
}

// flat makes a line of text in which raised characters are Unicode ones.
func flat(s string) *line {
	l := &line{text: s}
	n := utf8.RuneCountInString(s)
	l.r, l.up, l.at = make([]rune, 0, n), make([]bool, 0, n), make([]int, 0, n+1)
	for i, r := range s {
		up := false
		if r >= 'ª' { // no raised character stands before it in Unicode
			if plain, ok := extract.Unraise(r); ok {
				r, up = plain, true
			}
		}
		l.r, l.up, l.at = append(l.r, r), append(l.up, up), append(l.at, i)
	}
	l.at = append(l.at, len(s))
	return l
}

// fromRuns makes a line of runs: here raised characters are known even where
// Unicode has no form of its own for them.
func fromRuns(runs []extract.Run) *line {
	text := extract.Flatten(runs)
	l := flat(text)
	i, space := 0, false
	for _, run := range runs {
		for _, r := range run.Text {
			if isSpace(r) {
				space = true
				continue
			}
			if space && i > 0 {
				i++
			}
			space = false
			if i < len(l.up) && run.Raised {
				l.up[i] = true
			}
			i++
		}
	}
	return l
}

func isSpace(r rune) bool {
	return r == '\u200b' || r == '\u2060' || r == '\ufeff' || unicode.IsSpace(r)
}

// digit reports whether a digit of the main line stands at i.
func (l *line) digit(i int) bool {
	return i >= 0 && i < len(l.r) && l.r[i] >= '0' && l.r[i] <= '9' && !l.up[i]
}

// digits gives the end of the digits that start at i.
func (l *line) digits(i int) int {
	for l.digit(i) {
		i++
	}
	return i
}

func (l *line) letter(i int) bool { return i >= 0 && i < len(l.r) && unicode.IsLetter(l.r[i]) }

func (l *line) is(i int, r rune) bool { return i >= 0 && i < len(l.r) && l.r[i] == r }

// skip gives the first place from i on that is no white space.
func (l *line) skip(i int) int {
	for i < len(l.r) && isSpace(l.r[i]) {
		i++
	}
	return i
}

func (l *line) slice(i, j int) string {
	if i >= j {
		return ""
	}
	return l.text[l.at[i]:l.at[j]]
}

func isMinus(r rune) bool {
	return r == '-' || r == '−' || r == '–' || r == '‒' || r == '﹣' || r == '－'
}

func isPoint(r rune) bool { return r == '.' || r == '·' || r == '∙' || r == '٫' }

// number reads one numeral at i: sign, digits with their thousands marks, the
// decimal sign, a power of ten. It does not look at what stands before i.
func (l *line) number(i int, style Style) (extract.Number, int, bool) {
	start, j, neg := i, i, false
	if j < len(l.r) && isMinus(l.r[j]) {
		neg = true
		j++
		if l.is(j, ' ') {
			j++
		}
	} else if l.is(j, '+') {
		j++
	}
	var whole, part string
	if j+1 < len(l.r) && isPoint(l.r[j]) && l.digit(j+1) {
		end := l.digits(j + 1)
		whole, part, j = "0", string(l.r[j+1:end]), end
	} else if l.digit(j) {
		whole, part, j = l.mantissa(j, style)
	} else {
		return extract.Number{}, i, false
	}
	if len(whole)+len(part) > 18 || whole == "" {
		return extract.Number{}, i, false
	}
	value, err := strconv.ParseFloat(whole+"."+part+"0", 64)
	if err != nil {
		return extract.Number{}, i, false
	}
	decimals := len(part)
	if power, end, ok := l.power(j); ok {
		value *= math.Pow10(power)
		decimals, j = decimals-power, end
	}
	if neg {
		value = -value
	}
	n := extract.Number{Text: l.slice(start, j), Value: value, Decimals: decimals,
		Place: extract.Place{Start: l.at[start], End: l.at[j]}}
	return n, j, true
}

// mantissa reads digits in groups and the decimals.
func (l *line) mantissa(i int, style Style) (whole, part string, end int) {
	j := l.digits(i)
	whole = string(l.r[i:j])
	first := len(whole)
	group := rune(0)
	for j+1 < len(l.r) && l.digit(j+1) {
		sep, next := l.r[j], l.digits(j+1)
		three := next-j-1 == 3 && first <= 3 && whole[0] != '0'
		switch {
		case three && (group == 0 || group == sep) && l.thousands(sep, i, j, next, style):
			group = sep
			whole += string(l.r[j+1 : next])
			j = next
			continue
		case isPoint(sep) && !style.DecimalComma, isPoint(sep) && group == 0 && !three,
			sep == ',' && style.DecimalComma,
			sep == ',' && group == 0 && !three && l.commaMayBeDecimal(i, j, next):
			if l.is(next, '.') && l.digit(next+1) {
				return "", "", i // 2.3.1 is a section number
			}
			return whole, string(l.r[j+1 : next]), next
		}
		break
	}
	return whole, "", j
}

// thousands reports whether sep at j groups the three digits up to next in the
// numeral that starts at i.
func (l *line) thousands(sep rune, i, j, next int, style Style) bool {
	switch sep {
	case ',':
		return !style.DecimalComma
	case '.':
		return style.DecimalComma && !l.letter(next)
	case '\'', '’', '\u2009', '\u202f':
		return true
	case ' ':
		// "1 083.82" and "12 500": the folded space of a thin one. Two
		// figures side by side are seldom so shaped; a word that is glued
		// to the digits says that they are a name.
		return !l.letter(next) && !l.letter(i-1) && !l.up[j]
	}
	return false
}

// commaMayBeDecimal tells "1,4" from the list "2,3": a comma is decimal in a
// document of points only where the figure cannot be a list of whole numbers:
// after a leading zero, or beside a sign of spread.
func (l *line) commaMayBeDecimal(i, j, next int) bool {
	if l.is(i, '0') && j == i+1 {
		return true
	}
	k := i - 1
	for k >= 0 && isSpace(l.r[k]) {
		k--
	}
	if k >= 0 && l.r[k] == '±' {
		return true
	}
	k = l.skip(next)
	return k < len(l.r) && (l.r[k] == '±' || l.r[k] == '%' && next-j-1 <= 2)
}

// power reads "×10⁵", "x 10^-3" and "e-5" after a mantissa.
func (l *line) power(i int) (power, end int, ok bool) {
	j := i
	if j+2 < len(l.r) && (l.r[j] == 'e' || l.r[j] == 'E') && !l.up[j] {
		k, sign := j+1, 1
		if isMinus(l.r[k]) {
			sign = -1
			k++
		} else if l.r[k] == '+' {
			k++
		} else {
			return 0, i, false // "2e5" is rather a name
		}
		if e := l.digits(k); e > k && e-k <= 2 && !l.letter(e) {
			p, _ := strconv.Atoi(string(l.r[k:e]))
			return sign * p, e, true
		}
		return 0, i, false
	}
	j = l.skip(j)
	if j >= len(l.r) || !strings.ContainsRune("×xX*·∙", l.r[j]) {
		return 0, i, false
	}
	j = l.skip(j + 1)
	if !l.is(j, '1') || !l.is(j+1, '0') || l.digit(j+2) {
		return 0, i, false
	}
	j, sign := j+2, 1
	if l.is(j, '^') {
		j++
	} else if j >= len(l.up) || !l.up[j] {
		return 0, i, false
	}
	if j < len(l.r) && isMinus(l.r[j]) {
		sign = -1
		j++
	}
	k := j
	for k < len(l.r) && l.r[k] >= '0' && l.r[k] <= '9' {
		k++
	}
	if k == j || k-j > 2 {
		return 0, i, false
	}
	p, _ := strconv.Atoi(string(l.r[j:k]))
	return sign * p, k, true
}
