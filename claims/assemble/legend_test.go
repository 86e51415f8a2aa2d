package assemble

import (
	"testing"

	"probity/claims"
)

// What notes say of grouping letters; the sentences are invented.
func TestLegends(t *testing.T) {
	const (
		none   = claims.ScopeNotStated
		column = claims.WithinColumn
		row    = claims.WithinRow
	)
	for _, c := range []struct {
		text                 string
		same                 claims.Sameness
		within, upper, lower claims.Scope
	}{
		{"Different letters in a column indicate significant differences (p < .05).", claims.SameNotDifferent, column, none, none},
		{"Means followed by the same letter in rows do not differ significantly.", claims.SameNotDifferent, row, none, none},
		{"Different lowercase letters indicate significant differences in columns and different uppercase letters in rows.", claims.SameNotDifferent, none, row, column},
		{"Distinct superscript letters, capital in the rows and small letters in the columns, show significant differences.", claims.SameNotDifferent, none, row, column},
		{"Same uppercase letters within lines and same lowercase letters within columns: no significant difference.", claims.SameNotDifferent, none, row, column},
		{"Different letters (uppercase in columns, lowercase in rows) indicate a statistically significant difference.", claims.SameNotDifferent, none, column, row},
		{"Upper-case letters compare columns; lower-case letters compare rows; different letters differ significantly.", claims.SameNotDifferent, none, column, row},
		{"Different letters indicate significant differences in growth.", claims.SameNotDifferent, none, none, none},
		{"Different superscript letters differ significantly within the horizontal line.", claims.SameNotDifferent, row, none, none},
		{"Groups that share a letter were not significantly different.", claims.SameNotDifferent, none, none, none},
		{"The same letter marks groups that differ significantly from each other.", claims.SameDifferent, none, none, none},
		{"Different capital letters in the same column and different small letters in the same row are significantly different.", claims.SameNotDifferent, none, column, row},
	} {
		l := parseLegend(c.text)
		if l == nil {
			t.Errorf("parseLegend(%q) = nil", c.text)
			continue
		}
		within := l.Within
		if c.upper != none {
			within = none // each case has its own
		}
		if l.SameMeans != c.same || within != c.within || l.Upper != c.upper || l.Lower != c.lower {
			t.Errorf("parseLegend(%q) = %v, within %v, upper %v, lower %v; want %v, %v, %v, %v", c.text, l.SameMeans, l.Within, l.Upper, l.Lower, c.same, c.within, c.upper, c.lower)
		}
	}
}
