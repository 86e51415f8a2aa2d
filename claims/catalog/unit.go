package catalog

import (
	"fmt"
	"strings"
	"unicode"
)

// foldUnit brings a printed unit to the form it is compared in: no spaces,
// one sign for a product, digits on the line, one micro sign.
func foldUnit(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case unicode.IsSpace(r) || r == '^':
		case strings.ContainsRune("·⋅∙•×*", r):
			b.WriteByte('.')
		case r == 'μ':
			b.WriteRune('µ')
		case r == '−' || r == '–' || r == '⁻' || r == '‐':
			b.WriteByte('-')
		case r == 'º':
			b.WriteRune('°')
		case r == '¹' || r == '₁':
			b.WriteByte('1')
		case r == '²' || r == '₂':
			b.WriteByte('2')
		case r == '³' || r == '₃':
			b.WriteByte('3')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// FindUnit gives the unit that a text prints and nothing else, nil if it is
// none. Capitals count where units are told apart by them (mN, MN), and are
// overlooked in longer ones (Mpa).
func (c *Catalog) FindUnit(text string) *Unit {
	key := foldUnit(strings.TrimSpace(text))
	if key == "" {
		return nil
	}
	if u := c.unitNames[key]; u != nil {
		return u
	}
	return c.unitLoose[strings.ToLower(key)]
}

// UnitIn finds the unit printed in a header, a row label or a caption: in
// brackets, after a comma, or after "in". A product or quotient of known
// units that is in no row is given as printed, with a nil Unit.
func (c *Catalog) UnitIn(text string) (unit *Unit, printed string) {
	for _, part := range unitPlaces(text) {
		if u := c.FindUnit(part); u != nil {
			return u, part
		}
		if c.composite(part) {
			return nil, part
		}
	}
	return nil, ""
}

// unitPlaces gives the stretches of a header where a unit may stand, the
// likeliest first.
func unitPlaces(text string) []string {
	var out []string
	rest := text
	groups := brackets(text)
	groups = groups[max(0, len(groups)-mostBrackets):]
	for i := len(groups) - 1; i >= 0; i-- {
		g := groups[i]
		out = append(out, g)
		rest = strings.ReplaceAll(rest, g, " ")
		for _, p := range strings.FieldsFunc(g, func(r rune) bool { return strings.ContainsRune(",;:±=", r) }) {
			p = strings.TrimSpace(p)
			out = append(out, p, strings.TrimPrefix(p, "in "), strings.TrimSpace(strings.TrimPrefix(p, "unit")), strings.TrimPrefix(p, "units "))
		}
	}
	if i := strings.LastIndexAny(rest, ","); i >= 0 {
		out = append(out, strings.TrimSpace(rest[i+1:]))
	}
	words := strings.Fields(rest)
	for i, w := range words {
		if w != "in" && w != "In" || i+1 >= len(words) {
			continue
		}
		for n := min(4, len(words)-i-1); n >= 1; n-- {
			out = append(out, strings.TrimRight(strings.Join(words[i+1:i+1+n], " "), ".,;:)"))
		}
	}
	if strings.HasPrefix(strings.TrimSpace(text), "%") {
		out = append(out, "%")
	}
	if n := len(words); n > 1 {
		out = append(out, plainUnit(words[n-1]))
	}
	return out
}

// mostBrackets is how many brackets of a header or a caption may hold its unit.
const mostBrackets = 50

// plainUnit gives the last word of a header where it can hardly be anything
// but a unit: "Torque N·cm", not "Group N" or "Type m".
func plainUnit(w string) string {
	if strings.ContainsAny(w, "°%µμ²³·/") || w == "MPa" || w == "mm" {
		return w
	}
	return ""
}

// brackets gives what stands in round or square brackets, innermost text
// only, in order.
func brackets(s string) []string {
	var out []string
	start := -1
	for i, r := range s {
		switch r {
		case '(', '[':
			start = i + 1
		case ')', ']':
			if start >= 0 && start < i {
				out = append(out, strings.TrimSpace(s[start:i]))
			}
			start = -1
		}
	}
	return out
}

// composite reports whether a text is a product or quotient of known units.
func (c *Catalog) composite(s string) bool {
	if len(s) > 30 || !strings.ContainsAny(s, "/·⋅∙×") {
		return false
	}
	known := 0
	for _, p := range strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune("/·⋅∙× ", r) }) {
		if c.FindUnit(strings.TrimRight(p, "0123456789²³¹⁻")) != nil || c.FindUnit(p) != nil {
			known++
			continue
		}
		if p != "H2O" && p != "H₂O" {
			return false
		}
	}
	return known >= 2
}

// Convert gives value, printed in unit from, in unit to. Scale is the factor
// for spreads and differences, to which no offset applies.
func (c *Catalog) Convert(value float64, from, to string) (result, scale float64, err error) {
	a, b := c.Unit(from), c.Unit(to)
	switch {
	case a == nil:
		return 0, 0, fmt.Errorf("catalog: unit %q is not known", from)
	case b == nil:
		return 0, 0, fmt.Errorf("catalog: unit %q is not known", to)
	case a.Quantity != b.Quantity:
		return 0, 0, fmt.Errorf("catalog: %s is a unit of %s and %s of %s; they do not convert", from, a.Quantity, to, b.Quantity)
	}
	return (value*a.Factor + a.Offset - b.Offset) / b.Factor, a.Factor / b.Factor, nil
}
