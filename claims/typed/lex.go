package typed

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
	"probity/extract/numeral"
)

// sort is what a token is made of.
type sort byte

const (
	numberToken sort = iota + 1
	wordToken
	signToken
)

// token is one number, word or sign of what was typed.
type token struct {
	sort       sort
	text       string
	start, end int
	number     extract.Number
	spaced     bool // digits grouped by spaces: "1 245"
}

// lex cuts what was typed. Text that is written as a number and cannot be one
// here is refused, with what to type instead.
func lex(text string, style numeral.Style) ([]token, error) {
	var out []token
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		var t token
		switch {
		case unicode.IsSpace(r):
			i += n
			continue
		case digitAt(text, i), r == '.' && digitAt(text, i+1), minus(r) && signed(text, i, n, out):
			var err error
			if t, err = number(text, i, style); err != nil {
				return nil, err
			}
		case letter(r):
			t = word(text, i)
			if noFigure(t.text) {
				return nil, fmt.Errorf("“%s” is no figure; type the figure as it is printed", t.text)
			}
		case strings.HasPrefix(text[i:], "+/-") || strings.HasPrefix(text[i:], "+/−") || strings.HasPrefix(text[i:], "+/–"):
			_, last := utf8.DecodeRuneInString(text[i+2:])
			t = token{sort: signToken, text: "±", start: i, end: i + 2 + last}
		case strings.HasPrefix(text[i:], "+-"):
			t = token{sort: signToken, text: "±", start: i, end: i + 2}
		case r == '∞':
			return nil, fmt.Errorf("“∞” is no figure; type the figure as it is printed")
		default:
			t = token{sort: signToken, text: string(r), start: i, end: i + n}
			if minus(r) || r == '—' {
				t.text = "-"
			}
		}
		out = append(out, t)
		i = t.end
	}
	return out, nil
}

func digitAt(s string, i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }

func minus(r rune) bool { return r == '-' || r == '−' || r == '–' || r == '‒' }

func letter(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("°º℃µμ_√", r) }

// signed: a minus before a digit belongs to it unless a number stands before,
// as in "600-700".
func signed(text string, i, n int, before []token) bool {
	if !digitAt(text, i+n) && !(i+n < len(text) && text[i+n] == '.' && digitAt(text, i+n+1)) {
		return false
	}
	return len(before) == 0 || before[len(before)-1].sort == signToken && before[len(before)-1].text != ")" && before[len(before)-1].text != "%" ||
		before[len(before)-1].sort == wordToken && before[len(before)-1].end < i
}

// word reads letters with what may stand inside a unit or an abbreviation:
// "N·cm", "N/mm2", "s.d.", "mm²", "inter-quartile".
func word(text string, i int) token {
	j := i
	for j < len(text) {
		r, n := utf8.DecodeRuneInString(text[j:])
		_, raised := extract.Unraise(r)
		inner := strings.ContainsRune(".·∙⋅•/-^'’", r)
		if !letter(r) && !raised && !digitAt(text, j) && !inner {
			break
		}
		if inner && r != '.' {
			if next, _ := utf8.DecodeRuneInString(text[j+n:]); !letter(next) {
				break
			}
		}
		j += n
	}
	return token{sort: wordToken, text: text[i:j], start: i, end: j}
}

// noFigure: words that programs print where there is no number.
func noFigure(w string) bool {
	switch strings.ToLower(w) {
	case "nan", "inf", "infinity", "infinite":
		return true
	}
	return false
}

// number reads one numeral with its grouping and decimals.
func number(text string, i int, style numeral.Style) (token, error) {
	j := i
	if r, n := utf8.DecodeRuneInString(text[i:]); minus(r) {
		j += n
	}
	first := j
	point, spaced := false, false
	for j < len(text) {
		r, n := utf8.DecodeRuneInString(text[j:])
		switch {
		case digitAt(text, j):
			j++
			continue
		case strings.ContainsRune(".,·٫'’", r) && digitAt(text, j+n):
			point = true
			j += n
			continue
		case (r == ' ' || r == '\u2009' || r == '\u202f' || r == '\u00a0') && !point && j-first <= 3+4*strings.Count(text[first:j], " ") && threeDigits(text, j+n):
			spaced = spaced || r == ' ' || r == '\u00a0'
			j += n
			continue
		}
		break
	}
	end := j
	if glued := gluedTo(text, j); glued != "" {
		end = j + len(glued)
		if _, ok := numeral.Number(text[i:end], style); !ok {
			if strings.IndexFunc(glued, func(r rune) bool { return r >= '0' && r <= '9' }) < 0 {
				end = j // a unit: 650s
			} else {
				return token{}, fmt.Errorf("“%s” is no figure that can be used; type it in full, in plain digits", text[i:end])
			}
		}
	}
	n, ok := numeral.Number(strings.NewReplacer("\u00a0", " ").Replace(text[i:end]), style)
	if !ok {
		return token{}, fmt.Errorf("“%s” cannot be read as one figure; type it in plain digits, as 1245 or 650.5, and put spaces between figures", text[i:end])
	}
	if n.Decimals < 0 || n.Decimals > 12 || n.Value > 1e15 || n.Value < -1e15 {
		return token{}, fmt.Errorf("“%s” is no figure that can be used; type it in full, in plain digits", text[i:end])
	}
	n.Text, n.Place = text[i:end], extract.Place{}
	return token{sort: numberToken, text: text[i:end], start: i, end: end, number: n, spaced: spaced}, nil
}

// threeDigits: a group of exactly three digits stands at i.
func threeDigits(s string, i int) bool {
	return digitAt(s, i) && digitAt(s, i+1) && digitAt(s, i+2) && !digitAt(s, i+3)
}

// gluedTo gives the letters, with their digits and exponents, that follow a
// number without a space: "e400", "x1p3", "s".
func gluedTo(text string, i int) string {
	if r, _ := utf8.DecodeRuneInString(text[i:]); !unicode.IsLetter(r) {
		return ""
	}
	j := i
	for j < len(text) {
		r, n := utf8.DecodeRuneInString(text[j:])
		exponent := (r == '+' || minus(r)) && j > i && (text[j-1] == 'e' || text[j-1] == 'E') && digitAt(text, j+n)
		if !unicode.IsLetter(r) && !digitAt(text, j) && !exponent {
			break
		}
		j += n
	}
	return text[i:j]
}

// styleOf: a comma that cannot group thousands is a decimal comma, and then
// all commas are.
func styleOf(texts ...string) numeral.Style {
	for _, s := range texts {
		for i := 1; i < len(s); i++ {
			if s[i] != ',' || !digitAt(s, i-1) || !digitAt(s, i+1) {
				continue
			}
			from, to := i, i+1
			for from > 0 && digitAt(s, from-1) {
				from--
			}
			for digitAt(s, to) {
				to++
			}
			if to-i-1 != 3 || i-from > 3 || s[from] == '0' {
				return numeral.Style{DecimalComma: true}
			}
		}
	}
	return numeral.Style{}
}
