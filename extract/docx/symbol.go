package docx

import (
	"strconv"

	"probity/extract/internal/xmltree"
)

func itoa(n int) string { return strconv.Itoa(n) }

// symbol reads a sym element: a character by its code in a font.
func symbol(n *xmltree.Node) string {
	code, err := strconv.ParseUint(n.Attr("char"), 16, 32)
	if err != nil {
		return ""
	}
	switch n.Attr("font") {
	case "Symbol":
		return string(fromSymbol(rune(code)))
	case "Wingdings", "Wingdings 2", "Wingdings 3", "Webdings":
		return " " // pictures
	}
	return string(fromSymbol(rune(code)))
}

// fromSymbol gives the Unicode character for a code of the Symbol font, which
// word processors store in the private area from U+F000 on.
// Source: Unicode Consortium, mapping table SYMBOL.TXT (Adobe Symbol encoding).
func fromSymbol(c rune) rune {
	low := c
	if c >= 0xF000 && c <= 0xF0FF {
		low = c - 0xF000
	}
	if u, ok := symbols[low]; ok {
		return u
	}
	return low
}

var symbols = map[rune]rune{
	0x22: '∀', 0x24: '∃', 0x27: '∋', 0x2A: '∗', 0x2D: '−', 0x40: '≅', 0x5C: '∴', 0x5E: '⊥', 0x7E: '∼',
	'A': 'Α', 'B': 'Β', 'C': 'Χ', 'D': 'Δ', 'E': 'Ε', 'F': 'Φ', 'G': 'Γ', 'H': 'Η', 'I': 'Ι', 'J': 'ϑ', 'K': 'Κ',
	'L': 'Λ', 'M': 'Μ', 'N': 'Ν', 'O': 'Ο', 'P': 'Π', 'Q': 'Θ', 'R': 'Ρ', 'S': 'Σ', 'T': 'Τ', 'U': 'Υ', 'V': 'ς',
	'W': 'Ω', 'X': 'Ξ', 'Y': 'Ψ', 'Z': 'Ζ',
	'a': 'α', 'b': 'β', 'c': 'χ', 'd': 'δ', 'e': 'ε', 'f': 'φ', 'g': 'γ', 'h': 'η', 'i': 'ι', 'j': 'ϕ', 'k': 'κ',
	'l': 'λ', 'm': 'μ', 'n': 'ν', 'o': 'ο', 'p': 'π', 'q': 'θ', 'r': 'ρ', 's': 'σ', 't': 'τ', 'u': 'υ', 'v': 'ϖ',
	'w': 'ω', 'x': 'ξ', 'y': 'ψ', 'z': 'ζ',
	0xA2: '′', 0xA3: '≤', 0xA4: '⁄', 0xA5: '∞', 0xAB: '↔', 0xAC: '←', 0xAD: '↑', 0xAE: '→', 0xAF: '↓',
	0xB0: '°', 0xB1: '±', 0xB2: '″', 0xB3: '≥', 0xB4: '×', 0xB5: '∝', 0xB6: '∂', 0xB7: '•', 0xB8: '÷', 0xB9: '≠',
	0xBA: '≡', 0xBB: '≈', 0xBC: '…', 0xC5: '⊕', 0xC6: '∅', 0xCE: '∈', 0xD2: '®', 0xD3: '©', 0xD4: '™', 0xD5: '∏',
	0xD6: '√', 0xD7: '⋅', 0xD8: '¬', 0xE5: '∑', 0xF2: '∫',
}
