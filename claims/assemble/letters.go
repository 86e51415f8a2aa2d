package assemble

import (
	"strings"
	"unicode/utf8"

	"probity/claims"
	"probity/extract"
	"probity/extract/numeral"
)

// readLegend finds the note that says what grouping letters mean: in the
// notes, the caption, or the results.
func (t *table) readLegend() *claims.Legend {
	for _, n := range append(append([]string(nil), t.notes...), t.caption.text) {
		if l := parseLegend(n); l != nil {
			l.Place = t.place
			t.test(l, n)
			return l
		}
	}
	return nil
}

// test sets the test and the level that a legend names.
func (t *table) test(l *claims.Legend, text string) {
	for _, m := range t.ls.cat.FindTests(text) {
		if m.Row.Family == "post-hoc" || l.Test == "" {
			l.Test = m.Row.ID
		}
	}
	for _, k := range numeral.Scan(text) {
		n := k.Number
		if (k.Form == numeral.P || k.Form == numeral.Level) && n.Value > 0 && n.Value <= 0.1 && !l.Alpha.Known() {
			n.Relation = extract.Equal
			n.Place = l.Place
			l.Alpha = n
		}
	}
}

// parseLegend reads a sentence such as "groups with the same letter within a
// column do not differ significantly". It says nothing where the words leave
// it open.
func parseLegend(text string) *claims.Legend {
	low := strings.ToLower(text)
	if !strings.Contains(low, "letter") && !strings.Contains(low, "superscript") && !strings.Contains(low, "subscript") && !strings.Contains(low, "symbol") {
		return nil
	}
	l := &claims.Legend{Text: text}
	l.SameMeans = sameness(low)
	if l.SameMeans == claims.SamenessNotStated && !strings.Contains(low, "differ") && !strings.Contains(low, "similar") {
		return nil
	}
	l.Within = scopeOf(low)
	l.Upper = scopeOfCase(low, "uppercase", "upper case", "upper-case", "capital")
	l.Lower = scopeOfCase(low, "lowercase", "lower case", "lower-case", "small letter")
	if l.Upper != l.Lower && l.Upper != claims.ScopeNotStated && l.Lower != claims.ScopeNotStated {
		l.Within = claims.ScopeNotStated
	}
	return l
}

// sameness reads whether the same letter stands for a difference or for none.
func sameness(low string) claims.Sameness {
	differ := strings.Contains(low, "differ") && strings.Contains(low, "signific") || strings.Contains(low, "statistical differ") ||
		strings.Contains(low, "statistically differ") || strings.Contains(low, "differ from") || strings.Contains(low, "do not differ") || strings.Contains(low, "did not differ")
	none := denies(low)
	same := hasAny(low, "same letter", "same superscript", "same lowercase", "same uppercase", "same small", "same capital", "same lower", "same upper",
		"similar letter", "similar superscript", "similar lowercase", "similar uppercase", "identical letter", "identical superscript", "common letter",
		"sharing the same", "share the same", "share a letter", "sharing a letter", "shared letter", "equal letter", "same symbol", "same subscript", "letters in common",
		"letter in common", "common superscript", "same alphabet", "same roman", "followed by the same", "sharing a common", "identical lower", "identical upper", "same small")
	other := hasAny(low, "different letter", "different superscript", "different lowercase", "different uppercase", "different small", "different capital",
		"different lower", "different upper", "distinct letter", "dissimilar letter", "dissimilar superscript", "unlike letter", "different symbol", "different subscript",
		"no letter in common", "no common letter", "not sharing", "do not share", "not share", "distinct superscript", "different alphabet", "various letters")
	switch {
	case same && !other && (none || strings.Contains(low, "similar group") || strings.Contains(low, "statistically similar")):
		return claims.SameNotDifferent
	case same && !other && differ && !none:
		return claims.SameDifferent
	case other && !same && (differ || strings.Contains(low, "difference")) && !none:
		return claims.SameNotDifferent
	case same && other && (differ || none):
		return claims.SameNotDifferent
	}
	return claims.SamenessNotStated
}

// denies reports whether a legend says that something does not differ.
func denies(low string) bool {
	return hasAny(low, "not differ", "no significant", "not significant", "no statistic", "not statistic", "no differ", "not different", "without significant",
		"insignificant", "non-significant", "nonsignificant", "statistically similar", "statistically equal", "were similar", "are similar", "not significantly", "statistical similar", "no statistically", "equivalent")
}

func hasAny(s string, list ...string) bool {
	for _, w := range list {
		if strings.Contains(s, w) {
			return true
		}
	}
	return false
}

func scopeOf(low string) claims.Scope {
	column := hasAny(low, "column", "vertical")
	row := strings.Contains(low, "horizontal")
	for _, w := range []string{"row", "rows", "line", "lines"} {
		row = row || containsName(low, w)
	}
	switch {
	case column && !row:
		return claims.WithinColumn
	case row && !column:
		return claims.WithinRow
	case strings.Contains(low, "in the table") || strings.Contains(low, "within the table"):
		return claims.WithinTable
	}
	return claims.ScopeNotStated
}

// scopeOfCase reads the scope that stands in the same clause as the words for
// one case of letters.
func scopeOfCase(low string, words ...string) claims.Scope {
	for _, w := range words {
		i := strings.Index(low, w)
		if i < 0 {
			continue
		}
		start, end := 0, len(low)
		for _, sep := range []string{";", ".", " and ", ", ", " while ", " whereas "} {
			if k := strings.Index(low[i:], sep); k >= 0 {
				end = min(end, i+k)
			}
			if k := strings.LastIndex(low[:i], sep); k >= 0 {
				start = max(start, k)
			}
		}
		if s := scopeOf(low[start:end]); s != claims.ScopeNotStated {
			return s
		}
		// the scope may follow after a comma: "lowercase letters, in columns"
		if s := scopeOf(low[i:min(len(low), i+60)]); s != claims.ScopeNotStated {
			return s
		}
	}
	return claims.ScopeNotStated
}

// footnoteLetters reports whether a raised letter points to a note that is
// about something else than differences.
func (t *table) footnoteLetters(letters string) bool {
	if utf8.RuneCountInString(letters) > 1 {
		return false
	}
	for _, n := range t.notes {
		first, size := utf8.DecodeRuneInString(n)
		if p, ok := extract.Unraise(first); ok {
			first = p
		} else if next, _ := utf8.DecodeRuneInString(n[size:]); next != ' ' && next != ')' && next != '.' && !(next >= 'A' && next <= 'Z') {
			continue
		}
		if string(first) != letters {
			continue
		}
		low := strings.ToLower(n)
		return !hasAny(low, "letter", "superscript", "differ", "signific", "similar")
	}
	return false
}
