package check

import (
	"strings"
	"unicode"

	"probity/claims"
)

// letterVerdict is what grouping letters say of two arms.
type letterVerdict int

const (
	lettersSilent letterVerdict = iota // no letters, or no legend that says what they mean
	lettersSame                        // not shown to differ
	lettersDiffer                      // shown to differ
)

// byLetters reads what the printed letters say of a pair. Without a legend
// the field's usual convention (a shared letter: not shown to differ) is not
// enough to accuse anyone: stated is false then.
func byLetters(a, b *claims.Measure) (v letterVerdict, stated bool) {
	if a == nil || b == nil || a.Letters == "" || b.Letters == "" || !sameFamily(a, b) {
		return lettersSilent, false
	}
	legend := a.Legend
	if legend == nil {
		legend = b.Legend
	}
	la, lb := letterSet(a.Letters), letterSet(b.Letters)
	if !inScope(legend, a, b, la, lb) {
		return lettersSilent, false
	}
	if len(la) == 0 || len(lb) == 0 {
		return lettersSilent, false
	}
	shared := share(la, lb)
	if legend != nil && legend.SameMeans == claims.SameDifferent {
		if shared {
			return lettersDiffer, true
		}
		return lettersSame, true
	}
	stated = legend != nil && legend.SameMeans == claims.SameNotDifferent
	if shared {
		return lettersSame, stated
	}
	if !sameCase(la, lb) {
		return lettersSilent, false // upper and lower case mark different comparisons
	}
	return lettersDiffer, stated
}

// inScope keeps the letters that compare two cells of a table: where the legend
// gives upper and lower case, or letters at all, along rows or columns, only
// those of the pair's own line say anything of it.
func inScope(legend *claims.Legend, a, b *claims.Measure, la, lb map[rune]bool) bool {
	if legend == nil {
		return !(mixedCase(la) && mixedCase(lb))
	}
	line := claims.ScopeNotStated
	switch {
	case a.Place.Row == b.Place.Row && a.Place.Row > 0:
		line = claims.WithinRow
	case a.Place.Col == b.Place.Col && a.Place.Col > 0:
		line = claims.WithinColumn
	}
	if legend.Lower != claims.ScopeNotStated || legend.Upper != claims.ScopeNotStated {
		for _, set := range []map[rune]bool{la, lb} {
			for r := range set { // any order: each letter for itself
				if scope := legend.Lower; unicode.IsUpper(r) {
					scope = legend.Upper
					if scope != line {
						delete(set, r)
					}
				} else if scope != line {
					delete(set, r)
				}
			}
		}
		return true
	}
	if mixedCase(la) && mixedCase(lb) {
		return false // which case is for which comparison is not said
	}
	return legend.Within == claims.ScopeNotStated || legend.Within == claims.WithinTable || legend.Within == line
}

func mixedCase(set map[rune]bool) bool {
	up, low := false, false
	for r := range set { // any order: each letter for itself
		up, low = up || unicode.IsUpper(r), low || unicode.IsLower(r)
	}
	return up && low
}

// letterSet splits "ab" or "A,b" into its letters; marks such as * and † are
// no grouping letters.
func letterSet(s string) map[rune]bool {
	out := map[rune]bool{}
	for _, r := range s {
		if unicode.IsLetter(r) {
			out[r] = true
		}
	}
	return out
}

func share(a, b map[rune]bool) bool {
	for r := range a { // any order: one is enough
		if b[r] {
			return true
		}
	}
	return false
}

func sameCase(a, b map[rune]bool) bool {
	upper := func(m map[rune]bool) (up, low bool) {
		for r := range m { // any order: one is enough
			up = up || unicode.IsUpper(r)
			low = low || unicode.IsLower(r)
		}
		return up, low
	}
	ua, la := upper(a)
	ub, lb := upper(b)
	return ua == ub && la == lb
}

func lettersText(a, b *claims.Measure) string {
	return strings.Join([]string{armName(a), "(" + a.Letters + ")", "and", armName(b), "(" + b.Letters + ")"}, " ")
}
