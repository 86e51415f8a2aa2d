package role

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
)

// sort is what a token is made of.
type sort uint8

const (
	none sort = iota
	word
	digits
	sign
	raised // raised letters and digits, as Unicode has them
)

// tok is a word, a number or a sign.
type tok struct {
	start, end int
	sort       sort
	gap        bool // white space before it
	upper      bool // begins with a capital
	glued      bool // words: no lower-case letter, or a capital within: an acronym, a code
	low        string
	sign       rune
	is         class
	span       int // tokens of the phrase that begins here
	inside     bool
	open       int // the bracket it stands in, -1
	shut       int // of an opening bracket: its closing one, or -1
}

var noTok = tok{open: -1, shut: -1}

// lex cuts a text into tokens.
func lex(text string, l *lexicon) []tok {
	toks := make([]tok, 0, len(text)/4+4)
	gap := true
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case unicode.IsSpace(r):
			gap = true
			i += size
			continue
		case isDigit(r) || pointRune(r) && i+size < len(text) && isDigit(rune(text[i+size])) && startsNumber(toks, gap):
			i = numeral(&toks, text, i, gap)
		case isRaised(r):
			j := i
			for j < len(text) {
				q, n := utf8.DecodeRuneInString(text[j:])
				if !isRaised(q) {
					break
				}
				j += n
			}
			toks = append(toks, tok{start: i, end: j, sort: raised, gap: gap})
			i = j
		case unicode.IsLetter(r):
			i = letters(&toks, text, i, gap, l)
		default:
			toks = append(toks, tok{start: i, end: i + size, sort: sign, gap: gap, sign: r})
			i += size
		}
		gap = false
	}
	brackets(toks)
	l.mark(toks)
	return toks
}

func isDigit(r rune) bool   { return r >= '0' && r <= '9' }
func pointRune(r rune) bool { return r == '.' || r == '·' || r == '∙' }

func isRaised(r rune) bool {
	if r < 0xaa {
		return false
	}
	if _, ok := extract.Unraise(r); ok {
		return true
	}
	return r >= 0x2080 && r <= 0x209c
}

// startsNumber: ".94" begins a number, the point of "al.35" and "3.4" does not.
func startsNumber(toks []tok, gap bool) bool {
	if gap || len(toks) == 0 {
		return true
	}
	t := &toks[len(toks)-1]
	return t.sort == sign && !strings.ContainsRune(")]%”\"’'", t.sign)
}

// letters reads a word, with an apostrophe before a further letter and with
// combining accents.
func letters(toks *[]tok, text string, i int, gap bool, l *lexicon) int {
	j, lower, upperWithin := i, false, false
	for j < len(text) {
		r, size := utf8.DecodeRuneInString(text[j:])
		if !inWord(r, text[j+size:]) {
			break
		}
		lower = lower || unicode.IsLower(r)
		upperWithin = upperWithin || j > i && unicode.IsUpper(r)
		j += size
	}
	raw := text[i:j]
	first, _ := utf8.DecodeRuneInString(raw)
	t := tok{start: i, end: j, sort: word, gap: gap, upper: unicode.IsUpper(first), glued: !lower || upperWithin, low: strings.ToLower(raw)}
	t.is = l.words[t.low] | l.exact[raw]
	*toks = append(*toks, t)
	return j
}

// inWord: a letter, an accent, an apostrophe before a letter.
func inWord(r rune, rest string) bool {
	switch {
	case r == '\'' || r == '’':
		n, _ := utf8.DecodeRuneInString(rest)
		return unicode.IsLetter(n)
	case r == 0x301 || r == 0x307:
		return true
	}
	return unicode.IsLetter(r) && !isRaised(r)
}

// digitsAt counts the digits at a place.
func digitsAt(text string, k int) int {
	n := 0
	for k+n < len(text) && isDigit(rune(text[k+n])) {
		n++
	}
	return n
}

// numeral reads 12, 12.3, .05, 1,204, 1 245, 1.068,4, 0·72, 412,6 and 1:42.
func numeral(toks *[]tok, text string, i int, gap bool) int {
	whole := digitsAt(text, i)
	codes := inList(*toks, text, i, gap)
	j, grouped := i+whole, false
	if whole >= 1 && whole <= 3 && text[i] != '0' && !codes {
		j = groupsEnd(text, j)
		grouped = j > i+whole
	}
	r, n := utf8.DecodeRuneInString(text[j:])
	switch d := digitsAt(text, j+n); {
	case pointRune(r) && d > 0 && !(grouped && strings.ContainsRune(text[i:j], '.')):
		j += n + d
	case r == ',' && d > 0 && !codes && whole > 0 && (d != 3 || text[i] == '0' && whole == 1 || grouped) && !listComma(text, i, j, d):
		j += n + d
	case r == ':' && d == 2 && whole <= 2 && !codes:
		j += n + d
	}
	*toks = append(*toks, tok{start: i, end: j, sort: digits, gap: gap})
	return j
}

// groupsEnd steps over groups of three digits: "1,204", "1 245", "10 450 000".
func groupsEnd(text string, j int) int {
	for groups := 0; j < len(text) && groups < 4; groups++ {
		n := thousandsMark(text[j:])
		after := j + n + 3
		switch {
		case n == 0 || digitsAt(text, j+n) != 3,
			text[j] == '.' && !(after < len(text) && text[after] == ','),
			text[j] == ' ' && !afterThousands(text, after, 3):
			return j
		}
		j = after
	}
	return j
}

// inList: a number whose comma is that of a list and no decimal or thousands
// mark: behind letters ("F1,410"), raised, in brackets of citations, behind a
// full stop or comma that is glued to a word.
func inList(toks []tok, text string, i int, gap bool) bool {
	if gap || len(toks) == 0 {
		return false
	}
	prev, before := &toks[len(toks)-1], &noTok
	if len(toks) > 1 {
		before = &toks[len(toks)-2]
	}
	switch {
	case prev.sort == word:
		return prev.end-prev.start <= 2
	case prev.sort == raised, prev.sign == '[', prev.sign == '^':
		return true
	case prev.sign == '(':
		return !prev.gap && shortWord(before) || citationList(text[i:])
	case prev.sign == '.' || prev.sign == ',':
		return !prev.gap && before.sort == word || inCitations(text, i)
	}
	return prev.sort == sign && inCitations(text, i)
}

// citationList: "(21,22)": two or more whole numbers of one to three digits and
// commas without spaces fill a bracket. A decimal comma would stand alone.
func citationList(s string) bool {
	part, commas := 0, 0
	first := ""
	for k := 0; k < len(s); k++ {
		switch c := s[k]; {
		case isDigit(rune(c)):
			part++
		case c == ',' && part > 0 && part <= 3:
			if commas == 0 {
				first = s[:k]
			}
			commas, part = commas+1, 0
		case c == ')':
			return commas > 1 || commas == 1 && len(first) == part && part > 1 && s[0] != '0'
		default:
			return false
		}
	}
	return false
}

// inCitations: the number goes on with a list of whole numbers in square
// brackets, raised or behind a full stop: "[14,15-16,18]", "^7-10,19", "done.5–7,16".
func inCitations(text string, i int) bool {
	blank := false
	for k := i - 1; k >= 0 && i-k < 60; k-- {
		switch b := text[k]; {
		case b == '[':
			return text[k+1] != '0' && text[k+1] != '-' && text[k+1] != '+'
		case b == '^':
			return !blank
		case b == '.' || b == ')':
			r, _ := utf8.DecodeLastRuneInString(text[:k])
			return !blank && k < i-1 && unicode.IsLetter(r)
		case b == ' ':
			blank = true
		case isDigit(rune(b)), b == ',', b == '-', b >= 0x80: // a dash
		default:
			return false
		}
	}
	return false
}

func shortWord(t *tok) bool { return t.sort == word && t.end-t.start <= 2 }

func thousandsMark(s string) int {
	r, n := utf8.DecodeRuneInString(s)
	switch r {
	case ',', ' ', '.', '\u00a0', '\u2009', '\u202f':
		return n
	}
	return 0
}

// afterThousands: what follows "1 245" is no further digit group of a list,
// unless it is one of the same number: "1 000 000".
func afterThousands(text string, k, groups int) bool {
	rest := strings.TrimLeft(text[k:], " ")
	r, _ := utf8.DecodeRuneInString(rest)
	if len(text)-k-len(rest) == 1 && isDigit(r) {
		n := 0
		for n < len(rest) && isDigit(rune(rest[n])) {
			n++
		}
		return n == 3 && groups > 0 && afterThousands(rest, 3, groups-1)
	}
	decimal := (r == ',' || r == '.') && digitsAt(rest, 1) > 0
	return !isDigit(r) && !decimal
}

// listComma: "2,4,5" is a list.
func listComma(text string, i, j, d int) bool {
	k := j + 1 + d
	return k+1 < len(text) && text[k] == ',' && isDigit(rune(text[k+1])) || i > 1 && text[i-1] == ',' && isDigit(rune(text[i-2]))
}

// brackets notes for each token the bracket it stands in.
func brackets(toks []tok) {
	var open []int
	for i := range toks {
		t := &toks[i]
		t.open, t.shut = -1, -1
		if len(open) > 0 {
			t.open = open[len(open)-1]
		}
		switch {
		case t.sort != sign:
		case t.sign == '(' || t.sign == '[':
			open = append(open, i)
		case (t.sign == ')' || t.sign == ']') && len(open) > 0:
			toks[open[len(open)-1]].shut = i
			open = open[:len(open)-1]
		}
	}
}

// mark finds the phrases of the lexicon. A hyphen, a full stop or an opening
// bracket without space may stand between their words.
func (l *lexicon) mark(toks []tok) {
	for i := range toks {
		toks[i].span = 1
		if toks[i].sort != word {
			continue
		}
		for _, p := range l.phrases[toks[i].low] {
			j, ok := i+1, true
			for _, w := range p.rest {
				if j < len(toks) && toks[j].sort == sign && (toks[j].sign == '-' || toks[j].sign == '‐' || toks[j].sign == '.' || toks[j].sign == '–') {
					j++
				}
				if j >= len(toks) || toks[j].sort != word || toks[j].low != w && toks[j].low != w+"s" {
					ok = false
					break
				}
				j++
			}
			if !ok || j-i <= toks[i].span {
				if ok {
					toks[i].is |= p.is
				}
				continue
			}
			toks[i].span = j - i
			toks[i].is |= p.is
			for k := i + 1; k < j; k++ {
				toks[k].inside = true
				toks[k].is |= p.is
			}
		}
	}
}
