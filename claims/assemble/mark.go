package assemble

import (
	"strings"
	"unicode"

	"probity/claims/catalog"
)

// bracketed reports whether a bracket of the text holds a mark of spread.
func bracketed(text string, cat *catalog.Catalog) bool {
	i := strings.IndexAny(text, "([")
	if i < 0 {
		return false
	}
	j := closing(text, i)
	return j > 0 && cat.Mark(text[i+1:j]) != ""
}

// brackets takes marks, units and n that stand in brackets out of the text.
func (l *label) brackets(cat *catalog.Catalog, text string) string {
	var b strings.Builder
	for {
		i := strings.IndexAny(text, "([")
		if i < 0 {
			break
		}
		j := closing(text, i)
		if j < 0 && l.marksIn(cat, strings.Trim(text[i:], "()[]")) {
			text = text[:i] // a bracket that is not closed, with nothing but marks
			continue
		}
		if j < 0 {
			break
		}
		b.WriteString(text[:i])
		inner := strings.TrimSpace(text[i+1 : j])
		switch {
		case l.nIn(inner), inner != "" && inner == l.unit, l.marksIn(cat, inner), unitPart(inner, l.unit), onlySpread(inner):
			b.WriteByte(' ')
		default:
			b.WriteString(text[i : j+1])
		}
		text = text[j+1:]
	}
	b.WriteString(text)
	return b.String()
}

// onlySpread reports whether a bracket names a spread by letters that are no
// mark we know: "(x̄ ± DP)".
func onlySpread(inner string) bool {
	return strings.Contains(inner, "±") && !strings.ContainsAny(inner, "0123456789")
}

// closing finds the bracket that closes the one at i.
func closing(s string, i int) int {
	depth := 0
	for j := i; j < len(s); j++ {
		switch s[j] {
		case '(', '[':
			depth++
		case ')', ']':
			if depth--; depth == 0 {
				return j
			}
		}
	}
	return -1
}

// unitPart reports whether a bracket holds the unit beside other words that
// do not name anything: "(in mm)", "(years; mean)".
func unitPart(inner, unit string) bool {
	if unit == "" || !strings.Contains(inner, unit) {
		return false
	}
	rest := strings.ToLower(strings.Replace(inner, unit, "", 1))
	for _, w := range []string{"in", "units", "unit", "mean", "median", ":", ",", ";", "=", " "} {
		rest = strings.ReplaceAll(rest, w, "")
	}
	return rest == ""
}

// weak marks are words that are marks only where they stand alone.
func weak(kind, words string) bool {
	switch kind {
	case "mean", "sd", "se", "median", "ci95", "iqr":
		return len(words) == 1
	}
	return true
}

// marksIn reads a stretch that holds marks and nothing that names a thing.
func (l *label) marksIn(cat *catalog.Catalog, s string) bool {
	if kind := cat.Mark(s); kind != "" {
		l.marks = append(l.marks, kind)
		return true
	}
	found := cat.Marks(s)
	if len(found) == 0 {
		return false
	}
	rest, at := "", 0
	for _, m := range found {
		rest += s[at:m.Start]
		at = m.End
	}
	rest += s[at:]
	if l.unit != "" {
		rest = strings.Replace(rest, l.unit, "", 1)
	}
	for _, w := range strings.FieldsFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		switch strings.ToLower(w) {
		case "and", "or", "value", "values", "in", "with", "of", "the", "standard", "for":
		default:
			return false
		}
	}
	for _, m := range found {
		l.marks = append(l.marks, m.Row.Kind)
	}
	return true
}

// strong takes the marks that are marks also beside other words out: "Mean
// volume", "TTF ± SD".
func (l *label) strong(cat *catalog.Catalog, s string) string {
	var b strings.Builder
	at := 0
	for _, m := range cat.Marks(s) {
		word := s[m.Start:m.End]
		if inBracket(s, m.Start) {
			continue // "(mean of 5 trials)" is a part of the name
		}
		if weak(m.Row.Kind, word) && !(strings.TrimSpace(s) == word) && !symbolOfMean(word, s[m.End:]) {
			continue
		}
		if m.Row.Kind == "mean" && strings.HasSuffix(s[:m.Start], "-") {
			continue
		}
		if abbreviated(word) && strings.TrimSpace(s) != word && !joined(s[:m.Start], s[m.End:]) {
			continue // the SE of a name is no standard error
		}
		l.marks = append(l.marks, m.Row.Kind)
		b.WriteString(s[at:m.Start])
		b.WriteByte(' ')
		at = m.End
	}
	b.WriteString(s[at:])
	out := b.String()
	if len(l.marks) > 0 {
		out = strings.NewReplacer("±", " ", "+/-", " ").Replace(out)
	} else if strings.Contains(out, "±") {
		out = strings.ReplaceAll(out, "±", " ")
	}
	return out
}

// symbolOfMean reports whether a letter stands for the mean: m or x̄ before ±.
func symbolOfMean(word, after string) bool {
	switch word {
	case "m", "M", "x", "X":
		after = strings.TrimLeftFunc(after, func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Mn, r) })
		return strings.HasPrefix(after, "±")
	}
	return false
}

// inBracket reports whether a bracket is open at i.
func inBracket(s string, i int) bool {
	return strings.Count(s[:i], "(") > strings.Count(s[:i], ")") || strings.Count(s[:i], "[") > strings.Count(s[:i], "]")
}

// abbreviated reports whether a mark is one of few letters.
func abbreviated(word string) bool { return len(word) <= 4 && strings.ToUpper(word) == word }

// joined reports whether an abbreviation stands as a mark among other words:
// after a sign of spread, after "and" or a comma, or first and before "of".
func joined(before, after string) bool {
	b := strings.TrimSpace(before)
	if b == "" {
		return strings.HasPrefix(strings.TrimSpace(after), "of ") || strings.HasPrefix(strings.TrimSpace(after), "(")
	}
	for _, end := range []string{"±", "+/-", "and", "or", ",", "/", "with", "&", "−", "–", "-"} {
		if strings.HasSuffix(b, end) {
			return true
		}
	}
	return false
}
