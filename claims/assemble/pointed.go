package assemble

import (
	"regexp"
	"strconv"
	"strings"
)

// tableWord is the word for a table before its labels, in lower case.
var tableWord = regexp.MustCompile(`\btab(?:les?|s?\.)[\s\x{a0}\x{2009}]*(?:no\.?[\s\x{a0}]*)?[-‐‑–—]?[\s\x{a0}]*`)

// tableLabels is one label of a list of them, and what parts it from the next.
var tableLabels = regexp.MustCompile(`^([a-z]?\d{1,3}[a-z]?|[ivx]{1,6}|[a-z])(?:\b|$)(\s*(?:,\s*and|,|&|and|or|to|[-–—])\s*)?`)

// pointsTo reports whether a sentence, in lower case, names the table with
// that label: "Table 2", "Tables I and II", "Tables 1-3".
func pointsTo(low, label string) bool {
	if !strings.Contains(low, "table") && !strings.Contains(low, "tab.") && !strings.Contains(low, "tabs.") {
		return false
	}
	want := plainLabel(label)
	for _, m := range tableWord.FindAllStringIndex(low, -1) {
		rest, last, through := low[m[1]:], "", false
		for {
			k := tableLabels.FindStringSubmatchIndex(rest)
			if k == nil {
				break
			}
			name := plainLabel(rest[k[2]:k[3]])
			if name == want || through && between(last, want, name) {
				return true
			}
			if k[4] < 0 {
				break
			}
			joint := strings.TrimSpace(rest[k[4]:k[5]])
			last, through, rest = name, joint == "to" || strings.ContainsAny(joint, "-–—"), rest[k[5]:]
		}
	}
	return false
}

// plainLabel is a label in lower case, a Roman numeral as a number.
func plainLabel(s string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	if n := roman(s); n > 0 {
		return itoa(n)
	}
	return s
}

// roman reads a Roman numeral up to 39, 0 where it is none.
func roman(s string) int {
	value := map[byte]int{'i': 1, 'v': 5, 'x': 10}
	n := 0
	for i := 0; i < len(s); i++ {
		v := value[s[i]]
		if v == 0 {
			return 0
		}
		if i+1 < len(s) && value[s[i+1]] > v {
			v = -v
		}
		n += v
	}
	return n
}

// between reports whether a label lies between two others that are numbers.
func between(low, s, high string) bool {
	a, errA := strconv.Atoi(low)
	n, errN := strconv.Atoi(s)
	b, errB := strconv.Atoi(high)
	return errA == nil && errN == nil && errB == nil && a < n && n < b
}
