package assemble

import (
	"strings"
	"unicode"

	"probity/extract/numeral"
)

// headKind is what the heading over a dimension says of it: the heading of a
// label column, or the one heading that spans a row of headings.
func (t *table) headKind(d *dim) string {
	head := ""
	if d.byRow && !d.section {
		for _, s := range t.g.headings[d.level] {
			if s != "" {
				head = s
			}
		}
	}
	if !d.byRow && d.level > 0 {
		for _, other := range t.d {
			if !other.byRow && other.level == d.level-1 && len(other.distinct) == 1 {
				head = other.distinct[0]
			}
		}
	}
	if head == "" {
		return ""
	}
	l := t.ls.read(head)
	if l.kind != "" {
		return l.kind
	}
	best := ""
	for _, m := range t.ls.cat.FindLabels(l.clean) {
		if strings.HasSuffix(m.Row.Kind, "-head") && (best == "" || m.Row.Kind == "arm-head") {
			best = m.Row.Kind
		}
	}
	if l.outcome != nil {
		return ""
	}
	return best
}

func startsWithDigit(s string) bool {
	return s != "" && (s[0] >= '0' && s[0] <= '9' || s[0] == '<' || s[0] == '>')
}

// groupWord reports whether a label calls itself a group: "Group A", "Gr. 2",
// "G1", "Control group".
func groupWord(s string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		switch w {
		case "group", "groups", "gr", "subgroup", "arm", "control", "controls", "placebo", "sham":
			return true
		}
	}
	return len(s) == 2 && (s[0] == 'G' || s[0] == 'g') && s[1] >= '1' && s[1] <= '9'
}

func hasSize(s string) bool {
	for _, t := range numeral.Scan(s) {
		if t.Form == numeral.Size {
			return true
		}
	}
	return false
}

// conditionShare is the share of a label's words that place it in time or
// space: "3 months", "Day 14", "apical third", "37 °C".
func (t *table) conditionShare(l *label) float64 {
	switch l.kind {
	case "condition", "time":
		return 1
	case "condition-head":
		return 0 // "Time" alone heads times and is none
	}
	words := strings.FieldsFunc(onLine(l.clean), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '°' && r != '.' })
	if len(words) == 0 || len(words) > 10 {
		return 0
	}
	named := map[string]bool{}
	for _, m := range t.ls.cat.FindLabels(l.clean) {
		switch m.Row.Kind {
		case "condition", "time", "condition-head":
			for _, w := range strings.FieldsFunc(l.clean[m.Start:m.End], func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
				named[w] = true
			}
		}
	}
	hits, numbers := 0, 0
	for i, w := range words {
		switch {
		case len(w) == 1 && (w == "T" || w == "D") && i+1 < len(words) && numberWord(words[i+1]):
			hits++
		case named[w] || isTimePoint(w) || smallWord(w):
			hits++
		case numberWord(w):
			hits++
			numbers++
		case i > 0 && numberWord(words[i-1]) && t.conditionUnit(w):
			hits++
		}
	}
	if hits == numbers && numbers == len(words) {
		return 0 // only numbers say nothing
	}
	if hits == len(words) {
		return 1
	}
	return 0.7 * float64(hits) / float64(len(words))
}

// onLine puts lowered digits on the line: T₁ is T1.
func onLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '₀' && r <= '₉' {
			return '0' + r - '₀'
		}
		return r
	}, s)
}

// conditionUnit reports whether a word after a number is a unit of time,
// temperature, length or load: a condition of the test.
func (t *table) conditionUnit(w string) bool {
	u := t.ls.cat.FindUnit(w)
	if u == nil {
		return false
	}
	switch u.Quantity {
	case "time", "temperature", "length", "rotational speed", "angle":
		return true
	}
	return false
}

func isTimePoint(w string) bool {
	if len(w) < 2 || len(w) > 3 || w[0] != 'T' && w[0] != 'D' && w[0] != 'M' && w[0] != 'W' {
		return false
	}
	for _, r := range w[1:] {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

func numberWord(w string) bool {
	switch strings.ToLower(w) {
	case "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "twelve", "first", "second", "third", "fourth",
		"1st", "2nd", "3rd", "4th", "5th", "6th":
		return true
	}
	for _, r := range w {
		if (r < '0' || r > '9') && r != '.' {
			return false
		}
	}
	return true
}

func smallWord(w string) bool {
	switch strings.ToLower(w) {
	case "at", "after", "on", "during", "later", "to", "and", "the", "of", "in", "from", "between", "with", "°", "compared", "use", "uses", "level", "tip", "apex":
		return true
	}
	return false
}
