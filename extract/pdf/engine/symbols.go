package engine

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// plain gives the character to keep for what PDFium reports, and whether it is
// white space or stands for a glyph nobody can name.
func plain(r rune, pi bool) (out rune, space, bad bool) {
	switch {
	case r == 2: // PDFium's mark for a hyphen at the end of a line
		return '\u00ad', false, false
	case r == '\t' || r == '\n' || r == '\r':
		return ' ', true, false
	case unicode.IsSpace(r) || r == 0x200b || r == 0xfeff:
		return ' ', true, false
	case r < 0x20 || r == 0xfffd || r == 0xfffe || r == 0xffff || r == 0x7f || r >= 0x80 && r < 0xa0:
		return '\ufffd', false, true
	case r >= 0xf020 && r <= 0xf0ff:
		if s, ok := symbolFont[r-0xf000]; ok {
			return s, s == ' ', false
		}
		if r < 0xf07f {
			return r - 0xf000, r == 0xf020, true
		}
		return '\ufffd', false, true
	case r >= 0xe000 && r <= 0xf8ff:
		return '\ufffd', false, true
	}
	if r >= 0x1d400 && r <= 0x1d7ff { // mathematical letters and digits: 𝑝 is p
		for _, r = range norm.NFKC.String(string(r)) {
			return r, false, false
		}
	}
	if s, ok := mathPi[r]; ok && pi {
		return s, false, false
	}
	return r, false, false
}

// symbolFont holds the places of Adobe's Symbol encoding (ISO 32000-1, annex
// D.5) that figures need: files by word processors print them as U+F000 + code.
var symbolFont = map[rune]rune{
	' ': ' ', 0x61: 'α', 0x62: 'β', 0x63: 'χ', 0x64: 'δ', 0x65: 'ε', 0x66: 'φ', 0x67: 'γ', 0x68: 'η', 0x6b: 'κ', 0x6c: 'λ', 0x6d: 'μ',
	0x6e: 'ν', 0x70: 'π', 0x71: 'θ', 0x72: 'ρ', 0x73: 'σ', 0x74: 'τ', 0x77: 'ω', 0x44: 'Δ', 0x53: 'Σ', 0x57: 'Ω',
	0x2d: '−', 0x40: '≅', 0xa3: '≤', 0xb3: '≥', 0xb1: '±', 0xb4: '×', 0xb8: '÷', 0xb0: '°', 0xb7: '•', 0xb9: '≠', 0xbb: '≈', 0xa5: '∞',
	0xae: '→', 0xac: '←', 0xad: '↑', 0xaf: '↓', 0x7e: '∼', 0xd7: '⋅', 0xb2: '″', 0xa2: '′',
}

// mathPi holds the characters that typesetters' "Mathematical Pi" fonts draw
// in the place of letters and digits: ± comes out as 6, = as 5, < as a comma.
// Source: the glyph chart of that font family; common practice of publishers'
// PDFs of the years 1995 to 2010.
var mathPi = map[rune]rune{
	'6': '±', '5': '=', ',': '<', '.': '>', '3': '×', '2': '−', '1': '+', '4': '÷', '#': '≤', '$': '≥', '!': '±', '\\': '<',
	'm': 'μ', 'a': 'α', 'b': 'β', 'x': 'χ', 'd': 'δ', 'D': 'Δ', ';': '∼', '8': '°',
}

func isMathPi(font string) bool {
	low := strings.ToLower(joiner.Replace(font))
	return strings.Contains(low, "mathematicalpi") || strings.Contains(low, "mathpi")
}

var joiner = strings.NewReplacer(" ", "", "-", "", "_", "")
