package index

import (
	"unicode"
	"unicode/utf8"

	"github.com/blevesearch/bleve/v2/analysis"
	"golang.org/x/text/unicode/norm"
)

// words cuts text into the terms that are searched. It keeps what general
// analyzers drop and this trade needs: ± % < > ≤ ≥ = ≈ °, Greek letters, and
// decimals in one piece. Function words are passed over but keep their place,
// so that a phrase stays a phrase. Plurals are reduced (Harman 1991, J Am Soc
// Inf Sci 42:7-15: the "S" stemmer). Where a known name of an outcome stands,
// the outcome is a term too, so that one name finds the others.
type words struct{ names *names }

// Symbols that are terms of their own.
func isSymbol(r rune) bool {
	switch r {
	case '±', '%', '<', '>', '≤', '≥', '=', '≈', '°':
		return true
	}
	return false
}

// stopWords are English function words; "no" and "not" carry meaning here and
// are kept.
var stopWords = func() map[string]bool {
	m := map[string]bool{}
	for _, w := range []string{"a", "an", "and", "are", "as", "at", "be", "been", "between", "by", "for", "from", "had", "has", "have", "in", "into", "is",
		"it", "its", "of", "on", "or", "that", "the", "their", "there", "these", "they", "this", "to", "was", "we", "were", "which", "with"} {
		m[w] = true
	}
	return m
}()

// passageGap keeps phrases from running over the end of a passage.
const passageGap = 16

// plain maps the letters of Latin scripts with marks to those without, and
// raised digits to digits.
var plain = func() [0x370]rune {
	var t [0x370]rune
	for r := range t {
		t[r] = unicode.ToLower(rune(r))
		if r < utf8.RuneSelf {
			continue
		}
		for _, d := range norm.NFKD.String(string(t[r])) {
			if unicode.IsLetter(d) || unicode.IsDigit(d) {
				t[r] = d
				break
			}
		}
	}
	t['µ'] = 'μ'
	return t
}()

func lower(r rune) rune {
	if int(r) < len(plain) {
		return plain[r]
	}
	switch r {
	case '⁰':
		return '0'
	case '⁴', '⁵', '⁶', '⁷', '⁸', '⁹':
		return '4' + r - '⁴'
	case '₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉':
		return '0' + r - '₀'
	}
	return unicode.ToLower(r)
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func isRaised(r rune) bool {
	return r == '²' || r == '³' || r == '¹' || r == '⁰' || r >= '⁴' && r <= '⁹' || r >= '₀' && r <= '₉'
}

// Analyze implements the search engine's analyzer.
func (w words) Analyze(input []byte) analysis.TokenStream {
	c := cutter{in: input, buf: make([]byte, 0, len(input)+64), tokens: make([]analysis.Token, 0, len(input)/6+4)}
	c.run()
	if w.names != nil {
		c.tokens = append(c.tokens, w.names.in(c.tokens)...)
	}
	out := make(analysis.TokenStream, len(c.tokens))
	for i := range c.tokens {
		out[i] = &c.tokens[i]
	}
	return out
}

type cutter struct {
	in     []byte
	at     int
	pos    int
	buf    []byte // all terms, one behind the other
	tokens []analysis.Token
}

func (c *cutter) run() {
	for c.at < len(c.in) {
		r, n := rune(c.in[c.at]), 1
		if r >= utf8.RuneSelf {
			r, n = utf8.DecodeRune(c.in[c.at:])
		}
		switch {
		case isDigit(r):
			c.number()
		case isSymbol(r):
			c.emit(c.at, c.at+n, c.in[c.at:c.at+n], analysis.Single)
			c.at += n
		case r == '+' && c.ahead("+/-"), r == '+' && c.ahead("+/−"):
			n = 3
			if c.in[c.at+2] != '-' {
				n = 5
			}
			c.emit(c.at, c.at+n, []byte("±"), analysis.Single)
			c.at += n
		case unicode.IsLetter(r):
			c.word()
		case r == '\n':
			c.pos += passageGap
			c.at++
		default:
			c.at += n
		}
	}
}

func (c *cutter) ahead(s string) bool {
	return len(c.in)-c.at >= len(s) && string(c.in[c.at:c.at+len(s)]) == s
}

func (c *cutter) emit(start, end int, term []byte, kind analysis.TokenType) {
	c.pos++
	c.tokens = append(c.tokens, analysis.Token{Start: start, End: end, Term: term, Position: c.pos, Type: kind})
}

// number reads digits with their point; commas that part thousands are
// dropped, a decimal comma becomes a point.
func (c *cutter) number() {
	start, from := c.at, len(c.buf)
	for c.at < len(c.in) {
		b := c.in[c.at]
		if isDigit(rune(b)) {
			c.buf = append(c.buf, b)
			c.at++
			continue
		}
		if (b != '.' && b != ',') || c.at+1 >= len(c.in) || !isDigit(rune(c.in[c.at+1])) {
			break
		}
		if b == '.' || !c.thousands() {
			c.buf = append(c.buf, '.')
		}
		c.at++
	}
	c.emit(start, c.at, c.buf[from:len(c.buf):len(c.buf)], analysis.Numeric)
}

// thousands reports whether exactly three digits follow the comma here.
func (c *cutter) thousands() bool {
	n := 0
	for i := c.at + 1; i < len(c.in) && isDigit(rune(c.in[i])); i++ {
		n++
	}
	return n == 3
}

func (c *cutter) word() {
	start, from := c.at, len(c.buf)
	runes, ascii, last := 0, true, rune(0)
	for c.at < len(c.in) {
		r, n := rune(c.in[c.at]), 1
		if r < utf8.RuneSelf {
			switch {
			case r >= 'a' && r <= 'z' || isDigit(r):
			case r >= 'A' && r <= 'Z':
				r += 'a' - 'A'
			default:
				n = 0
			}
			if n == 0 {
				break
			}
			c.buf = append(c.buf, byte(r))
		} else {
			r, n = utf8.DecodeRune(c.in[c.at:])
			if unicode.Is(unicode.Mn, r) {
				c.at += n
				continue
			}
			if !unicode.IsLetter(r) && !isRaised(r) {
				break
			}
			r = lower(r)
			ascii = ascii && r < utf8.RuneSelf
			c.buf = utf8.AppendRune(c.buf, r)
		}
		c.at += n
		runes++
		last = r
	}
	end := c.at
	term := c.buf[from:len(c.buf):len(c.buf)]
	c.possessive()
	if stopWords[string(term)] {
		c.pos++
		return
	}
	if ascii {
		term = singular(term)
	}
	c.emit(start, end, term, analysis.AlphaNumeric)
	if runes == 1 && last >= 'α' && last <= 'ω' {
		if name := greek[last]; name != "" {
			c.tokens = append(c.tokens, analysis.Token{Start: start, End: end, Term: []byte(name), Position: c.pos, KeyWord: true})
		}
	}
}

// possessive passes over the 's of "Tukey's".
func (c *cutter) possessive() {
	for _, s := range []string{"'s", "’s"} {
		if c.ahead(s) {
			r, _ := utf8.DecodeRune(c.in[c.at+len(s):])
			if c.at+len(s) == len(c.in) || !unicode.IsLetter(r) {
				c.at += len(s)
			}
		}
	}
}

// singular is the "S" stemmer of Harman (1991).
func singular(w []byte) []byte {
	n := len(w)
	if n < 4 || w[n-1] != 's' {
		return w
	}
	switch {
	case w[n-2] == 'e' && w[n-3] == 'i':
		if w[n-4] == 'e' || w[n-4] == 'a' {
			return w
		}
		w[n-3] = 'y'
		return w[:n-2]
	case w[n-2] == 'e':
		if w[n-3] == 'a' || w[n-3] == 'e' || w[n-3] == 'o' {
			return w
		}
		return w[:n-1]
	case w[n-2] == 'u' || w[n-2] == 's':
		return w
	}
	return w[:n-1]
}

// greek gives single Greek letters their English names, so that "alpha" finds
// "α" (ISO 843 order; U+03C2 is final sigma).
var greek = map[rune]string{'α': "alpha", 'β': "beta", 'γ': "gamma", 'δ': "delta", 'ε': "epsilon", 'ζ': "zeta", 'η': "eta", 'θ': "theta",
	'ι': "iota", 'κ': "kappa", 'λ': "lambda", 'μ': "mu", 'ν': "nu", 'ξ': "xi", 'ο': "omicron", 'π': "pi", 'ρ': "rho", 'σ': "sigma", 'ς': "sigma",
	'τ': "tau", 'υ': "upsilon", 'φ': "phi", 'χ': "chi", 'ψ': "psi", 'ω': "omega"}
