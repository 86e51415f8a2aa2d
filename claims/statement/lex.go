package statement

import (
	"math"
	"unicode"
	"unicode/utf8"

	"probity/extract"
)

// sort is what a token is made of.
type sort uint8

const (
	wordToken sort = iota
	numberToken
	markToken  // raised letters and digits: grouping letters, citations, exponents
	signToken  // one punctuation mark or symbol
	emptyToken // no token: what at gives outside a sentence
)

// token is a word, a number or a sign, with its stretch of the text.
type token struct {
	start, end int
	sort       sort
	gap        bool  // white space before it
	upper      bool  // begins with a capital
	negative   bool  // a minus belongs to the number
	inside     bool  // covered by a phrase that began before
	decimals   int8  // of numbers
	span       int16 // tokens that the phrase beginning here covers, at least 1
	sign       rune  // of signs
	paren      int32 // index of the bracket it stands in, -1 for none
	value      float64
	word       *word // nil for words the lexicon does not know
	is         kinds // senses of the word and of the phrase beginning here
	phrase     *phrase
}

// lexer turns text into tokens; its buffer is used again for each paragraph.
type lexer struct {
	lex  *lexicon
	text string
	toks []token
	open []int32
}

// run tokenises text. The tokens are valid until the next run.
func (x *lexer) run(text string) []token {
	x.text, x.toks = text, x.toks[:0]
	gap := true
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case c == ' ' || c == '\t' || c == '\n' || c == '\r':
			gap = true
			i++
			continue
		case c >= '0' && c <= '9':
			i = x.number(i, gap)
		case c|0x20 >= 'a' && c|0x20 <= 'z':
			i = x.wordAt(i, gap)
		case c == '.' && i+1 < len(text) && digit(text[i+1]) && !x.afterWordOrDigit(gap):
			i = x.number(i, gap)
		case c < utf8.RuneSelf:
			i = x.signAt(i, gap, rune(c), 1)
		default:
			r, n := utf8.DecodeRuneInString(text[i:])
			switch {
			case raisedRune(r):
				i = x.markAt(i, gap)
			case unicode.IsLetter(r):
				i = x.wordAt(i, gap)
			case unicode.IsSpace(r):
				gap = true
				i += n
				continue
			default:
				i = x.signAt(i, gap, r, n)
			}
		}
		gap = false
	}
	x.brackets()
	x.phrases()
	return x.toks
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

func raisedRune(r rune) bool {
	if r < 0xaa {
		return false
	}
	if _, ok := extract.Unraise(r); ok {
		return true
	}
	return r >= 0x2080 && r <= 0x209c
}

func (x *lexer) afterWordOrDigit(gap bool) bool {
	if gap || len(x.toks) == 0 {
		return false
	}
	s := x.toks[len(x.toks)-1]
	return s.sort == wordToken || s.sort == numberToken || s.sort == signToken && (s.sign == ')' || s.sign == ']' || s.sign == '%' || s.sign == '”' || s.sign == '"')
}

func (x *lexer) add(t token) { t.span, t.paren = 1, -1; x.toks = append(x.toks, t) }

func (x *lexer) signAt(i int, gap bool, r rune, n int) int {
	x.add(token{start: i, end: i + n, sort: signToken, gap: gap, sign: r})
	return i + n
}

func (x *lexer) markAt(i int, gap bool) int {
	j := i
	for j < len(x.text) {
		r, n := utf8.DecodeRuneInString(x.text[j:])
		if !raisedRune(r) && !(j > i && (r == ',' || r == '–' || r == '-') && j+n < len(x.text) && startsRaised(x.text[j+n:])) {
			break
		}
		j += n
	}
	x.add(token{start: i, end: j, sort: markToken, gap: gap})
	return j
}

func startsRaised(s string) bool { r, _ := utf8.DecodeRuneInString(s); return raisedRune(r) }

// wordAt reads letters, with the digits glued behind them ("T1", "CO2").
func (x *lexer) wordAt(i int, gap bool) int {
	var buf [40]byte
	n, j := 0, i
	for j < len(x.text) {
		c := x.text[j]
		switch {
		case c|0x20 >= 'a' && c|0x20 <= 'z' && c >= 'A':
			if n < len(buf) {
				buf[n] = c | 0x20
				n++
			}
			j++
			continue
		case digit(c):
			if n == 2 && buf[0] == 'a' && buf[1] == 'l' {
				break // "et al34": the number is a citation
			}
			if n < len(buf) {
				buf[n] = c
				n++
			}
			j++
			continue
		case c >= utf8.RuneSelf:
			r, size := utf8.DecodeRuneInString(x.text[j:])
			if unicode.IsLetter(r) && !raisedRune(r) {
				if r = unicode.ToLower(r); n+utf8.RuneLen(r) <= len(buf) {
					n += utf8.EncodeRune(buf[n:], r)
				}
				j += size
				continue
			}
		}
		break
	}
	c := x.text[i]
	t := token{start: i, end: j, sort: wordToken, gap: gap, upper: c >= 'A' && c <= 'Z'}
	if c >= utf8.RuneSelf {
		r, _ := utf8.DecodeRuneInString(x.text[i:])
		t.upper = unicode.IsUpper(r)
	}
	t.word = x.lex.words[string(buf[:n])]
	if t.word != nil {
		t.is, t.value = t.word.is, t.word.value
	}
	x.add(t)
	return j
}

// number reads 12, 12.3, .05, 1,083.82, 0·72, 23,5 and 1 083.82, with the
// minus before it where that is a sign and not a dash.
func (x *lexer) number(i int, gap bool) int {
	text, j := x.text, i
	var mantissa uint64
	digits := 0
	take := func() {
		for j < len(text) && digit(text[j]) {
			if digits < 18 {
				mantissa = mantissa*10 + uint64(text[j]-'0')
				digits++
			}
			j++
		}
	}
	take()
	whole := j - i
	for j+3 < len(text) && whole > 0 && whole <= 3 && text[j] == ',' && digit(text[j+1]) && digit(text[j+2]) && digit(text[j+3]) &&
		(j+4 >= len(text) || !digit(text[j+4])) && text[i] != '0' {
		j++
		take()
	}
	decimals := 0
	if n := pointLen(text, j); n > 0 && j+n < len(text) && digit(text[j+n]) {
		at := j + n
		j = at
		take()
		decimals = j - at
		// 1.2.3 is a numbering, not a number: the rest stays its own token
	} else if j > i && j+1 < len(text) && text[j] == ',' && digit(text[j+1]) && decimalComma(text, i, j) {
		at := j + 1
		j = at
		take()
		decimals = j - at
	}
	t := token{start: i, end: j, sort: numberToken, gap: gap, decimals: int8(min(decimals, 100))}
	t.value = float64(mantissa) / math.Pow10(min(decimals, 18))
	x.minus(&t)
	x.add(t)
	return j
}

func pointLen(text string, j int) int {
	switch {
	case j < len(text) && text[j] == '.':
		return 1
	case j+1 < len(text) && text[j] == 0xc2 && text[j+1] == 0xb7: // ·
		return 2
	}
	return 0
}

// decimalComma tells "0,05" and "23,5 s" from "1,2" in a list of groups: the
// comma is decimal after a zero, or when two or more digits stand before it.
func decimalComma(text string, i, j int) bool {
	k := j + 1
	for k < len(text) && digit(text[k]) {
		k++
	}
	if k < len(text) && (text[k] == ',' && k+1 < len(text) && digit(text[k+1]) || text[k] == '.' && k+1 < len(text) && digit(text[k+1])) {
		return false
	}
	after := k - j - 1
	if text[i] == '0' {
		return j == i+1
	}
	return j-i >= 2 && after <= 2 || after <= 2 && k < len(text) && (text[k] == '%' || text[k] == ' ' && k+1 < len(text) && (text[k+1] == '%' || text[k+1] == 0xc2))
}

// minus joins a minus sign to the number it stands before.
func (x *lexer) minus(t *token) {
	n := len(x.toks)
	if n == 0 || t.gap && !(x.toks[n-1].sign == '−') {
		return
	}
	m := x.toks[n-1]
	if m.sort != signToken || m.sign != '-' && m.sign != '−' && m.sign != '–' {
		return
	}
	if n > 1 {
		p := x.toks[n-2]
		if !m.gap && (p.sort == wordToken || p.sort == numberToken || p.sort == markToken || p.sign == '%' || p.sign == ')' || p.sign == '°') {
			return
		}
		if m.gap && p.sort == numberToken && m.sign != '−' {
			return
		}
		if m.gap && t.gap && p.sort != signToken {
			return
		}
	}
	t.negative, t.value, t.start, t.gap = true, -t.value, m.start, m.gap
	x.toks = x.toks[:n-1]
}

// brackets notes for each token the bracket it stands in.
func (x *lexer) brackets() {
	x.open = x.open[:0]
	for i := range x.toks {
		t := &x.toks[i]
		if len(x.open) > 0 {
			t.paren = x.open[len(x.open)-1]
		}
		if t.sort != signToken {
			continue
		}
		switch t.sign {
		case '(', '[':
			if len(x.open) < 8 {
				x.open = append(x.open, int32(i))
			}
		case ')', ']':
			if len(x.open) > 0 {
				x.open = x.open[:len(x.open)-1]
			}
		}
	}
}

// phrases finds the longest phrase of the lexicon at each word.
func (x *lexer) phrases() {
	for i := 0; i < len(x.toks); {
		t := &x.toks[i]
		if t.word == nil || len(t.word.phrases) == 0 {
			i++
			continue
		}
		best, span := (*phrase)(nil), 1
		for p := range t.word.phrases {
			if n := x.match(i, &t.word.phrases[p]); n > span {
				best, span = &t.word.phrases[p], n
			}
		}
		if best == nil || best.is.any(bounds) && !x.boundsNumber(i, span) {
			i++
			continue
		}
		x.mark(i, span, best)
		i += span
	}
}

// boundsNumber: "more than 20", "less than half"; before anything else "higher
// than" is a comparison.
func (x *lexer) boundsNumber(i, span int) bool {
	if last := x.toks[i+span-1].word; last == nil || last.text != "than" {
		return true
	}
	for j := i + span; j < i+span+3 && j < len(x.toks); j++ {
		t := &x.toks[j]
		switch {
		case t.sort == numberToken, t.is.any(setOf(numberWord, kWord, halfWord, fraction)):
			return true
		case t.is.any(setOf(approx, filler)), t.sort == wordToken && t.end-t.start == 1 && x.text[t.start] == 'a', t.sort == signToken && t.sign == '~':
		default:
			return false
		}
	}
	return false
}

// match gives the number of tokens the phrase covers at i, 0 if it does not
// stand there. A hyphen without spaces may stand between its words.
func (x *lexer) match(i int, p *phrase) int {
	j := i + 1
	for _, w := range p.rest {
		if j < len(x.toks) && x.toks[j].sort == signToken && x.toks[j].sign == '-' && !x.toks[j].gap {
			j++
		}
		if j >= len(x.toks) || x.toks[j].word != w {
			return 0
		}
		j++
	}
	return j - i
}

func (x *lexer) mark(i, span int, p *phrase) {
	drop := kinds{}
	if p.is.any(swallow) {
		drop = kinds{^uint64(0), ^uint64(0)}
	} else if p.is.any(bounds) {
		drop = supers
	}
	for j := i; j < i+span; j++ {
		x.toks[j].is = x.toks[j].is.minus(drop)
		x.toks[j].inside = j > i && !(p.is.has(significant) && x.toks[j].is.any(adjectives))
	}
	t := &x.toks[i]
	t.is, t.span, t.phrase = t.is.or(p.is), int16(span), p
	if p.value != 0 {
		t.value = p.value
	}
}
