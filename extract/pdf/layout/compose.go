package layout

import "golang.org/x/text/unicode/norm"

// compose puts an accent on a letter.
func compose(letter, mark rune) string {
	switch letter {
	case 'ı':
		letter = 'i'
	case 'ȷ':
		letter = 'j'
	}
	return norm.NFC.String(string([]rune{letter, mark}))
}
