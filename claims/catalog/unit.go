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

// A Printed is a unit as a text prints it. Unit is nil where it is in no row;
// Start and End are the bytes of the text that are the unit, equal where its
// sign is a part of the name: "percentage of debris" is in %.
type Printed struct {
	Unit       *Unit
	Text       string
	Start, End int
}

// ID is the unit's id, "" where it is in no row.
func (p Printed) ID() string {
	if p.Unit == nil {
		return ""
	}
	return p.Unit.ID
}

// IsUnit reports whether a text is a unit and nothing else, one of a row or
// one put together from known symbols.
func (c *Catalog) IsUnit(text string) bool {
	if c.FindUnit(text) != nil {
		return true
	}
	_, ok := c.expression(text, false)
	return ok
}

// UnitIn finds the unit printed in a header, a row label or a caption: in
// brackets, after a comma or a stroke, after "in", or at its end. A product or
// quotient of known units that is in no row is given as printed, with a nil
// Unit.
func (c *Catalog) UnitIn(text string) (unit *Unit, printed string) {
	p := c.UnitAt(text)
	return p.Unit, p.Text
}

// UnitAt finds the unit as UnitIn does, and where it stands. The places where
// a unit may stand are asked in turn, the likeliest first.
func (c *Catalog) UnitAt(text string) Printed {
	for _, place := range []func(string) Printed{c.bracketUnit, c.commaUnit, c.unitAfterIn, c.lastUnit, c.strokeUnit} {
		if p := place(text); p.Text != "" {
			return p
		}
	}
	if s := strings.TrimSpace(text); strings.HasPrefix(s, "%") || strings.HasSuffix(s, "%") && !bareNumber(lastWord(strings.TrimSpace(strings.TrimSuffix(s, "%")))) {
		return c.percentAt(text)
	}
	return Printed{}
}

// percentAt takes a % at the end of a name off it, "CD25 %"; at its beginning
// it stays.
func (c *Catalog) percentAt(text string) Printed {
	p := Printed{Unit: c.Unit("%"), Text: "%"}
	if s := strings.TrimRight(text, " "); strings.HasSuffix(s, "%") && len(s) > 1 {
		p.Start, p.End = len(s)-1, len(s)
	}
	return p
}

// given is a stretch of the text where it is a unit.
func (c *Catalog) given(text string, start, end int, words bool) Printed {
	for start < end && text[start] == ' ' {
		start++
	}
	for start < end && text[end-1] == ' ' {
		end--
	}
	s := text[start:end]
	for _, lead := range []string{"in ", "units ", "unit ", "measured in ", "expressed in ", "as "} {
		if strings.HasPrefix(s, lead) {
			start += len(lead)
			s = s[len(lead):]
		}
	}
	if u := c.FindUnit(s); u != nil {
		return Printed{u, s, start, end}
	}
	if _, ok := c.expression(s, words); ok {
		return Printed{nil, s, start, end}
	}
	return Printed{}
}

// mostBrackets is how many brackets of a header or a caption may hold its unit.
const mostBrackets = 50

// bracketUnit looks into brackets, the last first: whole, then what stands
// between commas in them.
func (c *Catalog) bracketUnit(text string) Printed {
	groups := brackets(text)
	for i := len(groups) - 1; i >= max(0, len(groups)-mostBrackets); i-- {
		start, end := groups[i][0], groups[i][1]
		if start > 1 && text[start:end] == "s" && text[start-2] != ' ' {
			continue // the plural of "tooth(s)"
		}
		if p := c.given(text, start, end, true); p.Text != "" {
			return p
		}
		at := start
		for k, r := range text[start:end] {
			if strings.ContainsRune(",;:±=", r) {
				if p := c.part(text, at, start+k, end); p.Text != "" {
					return p
				}
				at = start + k + len(string(r))
			}
		}
		if p := c.part(text, at, end, end); p.Text != "" && at > start {
			return p
		}
		if strings.HasPrefix(text[start:end], "%") && end-start > 1 && !strings.ContainsAny(text[start+1:end], "0123456789%)") {
			return Printed{Unit: c.Unit("%"), Text: "%"} // "(% of energy)" stays a part of the name
		}
	}
	return Printed{}
}

// part is a stretch of a bracket; the N of "N = 12" is no newton.
func (c *Catalog) part(text string, start, end, close int) Printed {
	if end < close && text[end] == '=' && strings.ContainsFunc(text[end:close], unicode.IsDigit) {
		return Printed{}
	}
	return c.given(text, start, end, false)
}

// commaUnit looks at what stands between commas outside of brackets, the last
// first. What is said of the statistics may follow it: "Debris, mg, mean (SD)".
func (c *Catalog) commaUnit(text string) Printed {
	depth, end, seen := 0, len(text), false
	for i := len(text) - 1; i > 0; i-- {
		switch text[i] {
		case ')', ']':
			depth++
		case '(', '[':
			if depth--; depth == 0 {
				end = i
			}
		case ',', ';', ':':
			if depth != 0 {
				continue
			}
			if p := c.given(text, i+1, max(i+1, end), true); p.Text != "" {
				return p
			}
			if m := c.Marks(text[i+1 : max(i+1, end)]); len(m) > 0 && !seen {
				if p := c.given(text, i+1, i+1+m[0].Start, true); p.Text != "" && i+1+m[0].Start > i+2 {
					return p
				}
			}
			end, seen = i, true
		}
	}
	return Printed{}
}

// unitAfterIn reads "Height in cm".
func (c *Catalog) unitAfterIn(text string) Printed {
	words := fields(text)
	for i, w := range words {
		if s := text[w[0]:w[1]]; s != "in" && s != "In" || i+1 >= len(words) {
			continue
		}
		for n := min(4, len(words)-i-1); n >= 1; n-- {
			end := words[i+n][1]
			for end > w[1] && strings.IndexByte(".,;:)", text[end-1]) >= 0 {
				end--
			}
			if p := c.given(text, words[i+1][0], end, false); p.Text != "" {
				return p
			}
		}
	}
	return Printed{}
}

// lastUnit looks at the last words of a label, where they can hardly be
// anything but a unit: "Torque N·cm", "ALT U L⁻¹", not "Group N" or "Type m".
func (c *Catalog) lastUnit(text string) Printed {
	words := fields(text)
	for n := min(5, len(words)-1); n >= 1; n-- {
		start, end := words[len(words)-n][0], words[len(words)-1][1]
		for end > start && strings.IndexByte(",;:)]", text[end-1]) >= 0 && !strings.ContainsAny(text[start:end-1], "([") {
			end--
		}
		for start < end && (text[start] == '(' || text[start] == '[') && !strings.ContainsAny(text[start:end], ")]") {
			start++
		}
		before := text[words[len(words)-n-1][0]:words[len(words)-n-1][1]]
		if bareNumber(before) {
			continue // "5 mg" is a dose
		}
		s := text[start:end]
		e, ok := c.expression(s, false)
		u := c.FindUnit(s)
		if ok && e.nouns > 0 && strings.Contains(s, " /") {
			continue // "CD4 cells /mL" counts cells
		}
		if ok && e.strong() || u != nil && (strings.ContainsAny(s, "°%µμ²³·/") || end-start > 1 && c.names(text[:start], u)) {
			return Printed{u, s, start, end}
		}
	}
	return Printed{}
}

// strokeUnit reads a unit after a stroke: the °C of "Temperature/°C", and
// what a count is given per, "Pulse/min".
func (c *Catalog) strokeUnit(text string) Printed {
	text = strings.TrimRight(text, " ")
	if e, ok := c.expression(text, false); ok && e.nouns == 0 {
		return Printed{} // a unit without a name
	}
	start, end, inside := 0, len(text), false
	if g := brackets(text); len(g) > 0 && g[len(g)-1][1] == len(text)-1 {
		start, end, inside = g[len(g)-1][0], g[len(g)-1][1], true
	}
	i := strings.IndexByte(text[start:end], '/')
	if i <= 0 {
		return Printed{}
	}
	i += start
	s := strings.TrimSpace(text[i+1 : end])
	if len(s) == 1 && s != "N" && s != "h" && s != "L" && s != "l" && !c.names(text[start:i], c.FindUnit(s)) {
		return Printed{}
	}
	if _, ok := c.expression("/"+s, false); ok && !c.names(text[start:i], c.FindUnit(s)) {
		if inside {
			i = start // the whole bracket is a unit of symbols that are not known: "(DU/mL)"
		}
		return Printed{nil, text[i:end], i, end}
	}
	if u := c.FindUnit(s); u != nil && !bareNumber(text[start:i]) {
		return Printed{u, s, i, end}
	}
	return Printed{}
}

// names reports whether words name what a unit measures: the time of "Time/s".
func (c *Catalog) names(words string, u *Unit) bool {
	if u == nil {
		return false
	}
	if o := c.FindOutcome(words); o != nil && o.Quantity == u.Quantity {
		return true
	}
	for _, w := range cut(words) {
		if c.quantityOf[w.fold] == u.Quantity {
			return true
		}
	}
	return false
}

// bareNumber reports whether a word is a number, with what may be glued to it.
func bareNumber(w string) bool {
	w = strings.TrimLeft(w, "([<>≤≥±+-−~×x")
	return w == "" || w[0] >= '0' && w[0] <= '9'
}

func lastWord(s string) string {
	w := fields(s)
	if len(w) == 0 {
		return ""
	}
	return s[w[len(w)-1][0]:w[len(w)-1][1]]
}

// fields gives the byte ranges of the words of a text.
func fields(s string) [][2]int {
	var out [][2]int
	start := -1
	for i, r := range s {
		switch space := unicode.IsSpace(r); {
		case space && start >= 0:
			out = append(out, [2]int{start, i})
			start = -1
		case !space && start < 0:
			start = i
		}
	}
	if start >= 0 {
		out = append(out, [2]int{start, len(s)})
	}
	return out
}

// brackets gives the ranges of what stands in round or square brackets, up to
// the next bracket, in order.
func brackets(s string) [][2]int {
	var out [][2]int
	start := -1
	for i, r := range s {
		switch r {
		case '(', '[':
			if start >= 0 && start < i {
				out = append(out, [2]int{start, i}) // the years of "[years (SD)]"
			}
			start = i + 1
		case ')', ']':
			if start >= 0 && start < i {
				out = append(out, [2]int{start, i})
			}
			start = -1
		}
	}
	return out
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
