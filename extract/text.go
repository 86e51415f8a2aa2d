package extract

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// raised and lowered give the Unicode character for a superscript or
// subscript one, where there is one (The Unicode Standard, blocks
// "Superscripts and Subscripts", "Phonetic Extensions", "Modifier Letters").
var (
	raised = pairs("0123456789+-−=()nabcdefghijklmoprstuvwxyzABDEGHIJKLMNOPRTUVW",
		"⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁻⁼⁽⁾ⁿᵃᵇᶜᵈᵉᶠᵍʰⁱʲᵏˡᵐᵒᵖʳˢᵗᵘᵛʷˣʸᶻᴬᴮᴰᴱᴳᴴᴵᴶᴷᴸᴹᴺᴼᴾᴿᵀᵁⱽᵂ")
	lowered = pairs("0123456789+-−=()aehijklmnoprstuvx",
		"₀₁₂₃₄₅₆₇₈₉₊₋₋₌₍₎ₐₑₕᵢⱼₖₗₘₙₒₚᵣₛₜᵤᵥₓ")
	plain = invert(raised)
)

func pairs(from, to string) map[rune]rune {
	a, b := []rune(from), []rune(to)
	if len(a) != len(b) {
		panic("extract: the raised and lowered tables do not match")
	}
	m := make(map[rune]rune, len(a))
	for i := range a {
		m[a[i]] = b[i]
	}
	return m
}

func invert(m map[rune]rune) map[rune]rune {
	out := make(map[rune]rune, len(m))
	for k, v := range m { // any order: one to one
		if k != '−' {
			out[v] = k
		}
	}
	return out
}

// Unraise gives the character that a Unicode superscript character stands
// for, and whether it is one.
func Unraise(r rune) (rune, bool) { p, ok := plain[r]; return p, ok }

// isSpace counts no-break, thin and zero-width spaces as white space too:
// publishers use them all between a figure and its sign.
func isSpace(r rune) bool {
	switch r {
	case '\u200b', '\u2060', '\ufeff':
		return true
	}
	return unicode.IsSpace(r)
}

// Flatten joins runs to one line: white space folded to single spaces, raised
// and lowered characters as their Unicode forms where they exist.
func Flatten(runs []Run) string {
	var b strings.Builder
	space := false
	for _, run := range runs {
		for _, r := range run.Text {
			if isSpace(r) {
				space = true
				continue
			}
			if space && b.Len() > 0 {
				b.WriteByte(' ')
			}
			space = false
			if run.Raised {
				if up, ok := raised[r]; ok {
					r = up
				}
			} else if run.Lowered {
				if down, ok := lowered[r]; ok {
					r = down
				}
			}
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Lower writes s in lower case byte for byte: a letter whose lower case takes
// more or fewer bytes (Ⱥ, the Kelvin and the Ångström sign, İ) stays as it is,
// so that an index into the result is one into s.
func Lower(s string) string {
	out := []byte(s)
	for i := 0; i < len(s); {
		if c := s[i]; c < utf8.RuneSelf {
			if 'A' <= c && c <= 'Z' {
				out[i] = c | 0x20
			}
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if low := unicode.ToLower(r); low != r && utf8.RuneLen(low) == n {
			utf8.EncodeRune(out[i:], low)
		}
		i += n
	}
	return string(out)
}

// Fold makes one line of s as Flatten does, for text without runs.
func Fold(s string) string { return Flatten([]Run{{Text: s}}) }
