package flow

import (
	"regexp"
	"strings"
)

// tableLabel is how papers name a table at the head of a caption: "Table 2.",
// "TABLE II:", "Table-5", "Supplementary Table S1", "Tab. 3 –", "Table A1
// (continued)", "Additional file 3: Table S2".
var tableLabel = regexp.MustCompile(`^(?i:(?:additional[\s\x{a0}]+file[\s\x{a0}]+\d+[.:]?[\s\x{a0}]*)?(?:supplement(?:ary|al)|additional|appendix|web|online|extended\s+data|e)?[\s-]*(?:tables?|tab\.|tabelle|tabla|tableau|tabela))[\s\x{a0}]*(?:(?i:no\.?|nr\.?|number)[\s\x{a0}]*)?(?:[-‐‑–—][\s\x{a0}]*)?([A-Z]?\.?-?\d{1,3}(?:\.\d{1,2})?[a-zA-Z]?|[IVX]{1,6}|[A-Z])(?:[\s\x{a0}]*\((?i:continued|cont\.?|contd\.?)\)|,?[\s\x{a0}]+(?i:continued\b|cont\.))?(?:[\s\x{a0}]*[.:)|–—-]+[\s\x{a0}]*|[\s\x{a0}]+|$)`)

// turnedLabel is a label before the word: "S1 Table".
var turnedLabel = regexp.MustCompile(`^(S\d{1,3})[\s\x{a0}]+(?i:table)(?:[\s\x{a0}]*[.:)|–—-]+[\s\x{a0}]*|[\s\x{a0}]+|$)`)

// Label parts the head of a caption into the label, without the word for a
// table, and what follows. The label is empty when the text does not open with
// one.
func Label(s string) (label, rest string) {
	m := tableLabel.FindStringSubmatchIndex(s)
	if m == nil {
		m = turnedLabel.FindStringSubmatchIndex(s)
	}
	if m == nil {
		return "", s
	}
	return s[m[2]:m[3]], strings.TrimSpace(s[m[1]:])
}
