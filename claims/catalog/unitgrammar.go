package catalog

import (
	"strings"
	"unicode"
)

// A UnitPart is a symbol that units are put together from: the g, L and mol
// of "mmol/L" and "kg/m²".
type UnitPart struct {
	Symbols  []string
	Prefixes []string
	Kind     string // "unit", "base", "letter", "noun", "of", "names time": see unitparts.csv
	Per      bool   // counts are given per one of it
	Source   string
}

func (c *Catalog) addUnitPart(r row) error {
	c.UnitParts = append(c.UnitParts, UnitPart{Symbols: r.list("symbol"), Prefixes: strings.Fields(r["prefixes"]), Kind: r["kind"], Per: r["per"] == "yes", Source: r["source"]})
	return nil
}

// atom is one symbol of a unit, with its prefix.
type atom struct {
	part     *UnitPart
	prefixed bool
}

// buildParts lists each symbol with each of its prefixes.
func (c *Catalog) buildParts() {
	c.atoms, c.atomsLoose, c.quantityOf = map[string]atom{}, map[string]atom{}, map[string]string{}
	add := func(s string, a atom) {
		if _, ok := c.atoms[s]; !ok {
			c.atoms[s] = a
		}
		if low := strings.ToLower(s); c.atomsLoose[low].part == nil {
			c.atomsLoose[low] = a
		}
	}
	for i := range c.UnitParts {
		p := &c.UnitParts[i]
		if quantity, ok := strings.CutPrefix(p.Kind, "names "); ok {
			for _, s := range p.Symbols {
				c.quantityOf[fold(s)] = quantity
			}
			continue
		}
		for _, s := range p.Symbols {
			s = foldUnitText(s)
			if p.Kind != "base" && p.Kind != "part" {
				add(s, atom{part: p})
			}
			for _, prefix := range p.Prefixes {
				add(prefix+s, atom{part: p, prefixed: p.Kind != "part"})
				if prefix == "µ" && s != "s" {
					add("u"+s, atom{part: p, prefixed: true})
				}
			}
		}
		if p.Kind == "of" {
			for _, s := range p.Symbols {
				c.mostOf = max(c.mostOf, len(strings.Fields(s)))
			}
		}
	}
}

// foldUnitText brings a text to the signs that units are read by: one micro
// sign, one minus, digits on the line after "^", one sign for a product.
func foldUnitText(s string) string {
	var b strings.Builder
	raised := false
	for _, r := range s {
		up := false
		switch {
		case strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹", r):
			r, up = superDigit(r), true
		case r == '⁻':
			r, up = '-', true
		case r >= '₀' && r <= '₉':
			r = '0' + r - '₀'
		case r == 'μ' || r == 'ц':
			r = 'µ'
		case r == 'º' || r == '˚':
			r = '°'
		case strings.ContainsRune("−–‐‑", r):
			r = '-'
		case strings.ContainsRune("⋅∙•*×✕", r):
			r = '·'
		case r == '⁄' || r == '∕':
			r = '/'
		case unicode.IsSpace(r):
			r = ' '
		case r == '⁾' || r == '⁽':
			continue
		}
		if up && !raised {
			b.WriteByte('^')
		}
		raised = up
		b.WriteRune(r)
	}
	return strings.TrimSpace(b.String())
}

func superDigit(r rune) rune {
	switch r {
	case '¹':
		return '1'
	case '²':
		return '2'
	case '³':
		return '3'
	}
	return '0' + r - '⁰'
}

// unitToken is a piece of a printed unit.
type unitToken struct {
	kind rune // 'w' a word, 'n' a number, '^' a power, '/' a quotient, '·' a product, ' ' a space
	text string
}

// expression is what the grammar has seen of a unit.
type expression struct {
	c      *Catalog
	tokens []unitToken
	i      int
	scale  bool // ×10⁶ or log
	ten    bool // ×10⁶
	units  int
	nouns  int
	powers int
	slash  int
	alone  bool // its one symbol is a unit wherever it stands
	per    bool // what it is given per is a time, an amount, an area or a volume
	free   bool // the numerator is a word of the paper's own: serves/day
}

// expression reads s as a unit that is put together from known symbols:
// "mg/dL", "U L⁻¹", "kgm⁻²", "ml/min/1.73 m²", "×10⁹/L", "beats per minute".
// Where words is set the thing counted may be any word: "serves/day".
func (c *Catalog) expression(s string, words bool) (*expression, bool) {
	if s == "" || len(s) > 60 {
		return nil, false
	}
	e := &expression{c: c, tokens: unitTokens(foldUnitText(s))}
	ok := e.read(words)
	return e, ok
}

// unitTokens cuts a folded text.
func unitTokens(s string) []unitToken {
	var out []unitToken
	r := []rune(s)
	for i := 0; i < len(r); {
		j := i + 1
		switch {
		case unicode.IsDigit(r[i]):
			for j < len(r) && (unicode.IsDigit(r[j]) || r[j] == '.' && j+1 < len(r) && unicode.IsDigit(r[j+1])) {
				j++
			}
			out = append(out, unitToken{'n', string(r[i:j])})
		case r[i] == '^' || r[i] == '-' && j < len(r) && unicode.IsDigit(r[j]):
			if r[i] == '^' && j < len(r) && r[j] == '-' {
				j++
			}
			k := j
			for j < len(r) && unicode.IsDigit(r[j]) {
				j++
			}
			if k == j || r[i] == '-' && len(out) > 0 && out[len(out)-1].kind == 'n' {
				return nil // "0-10" is a range
			}
			out = append(out, unitToken{'^', string(r[i:j])})
		case unicode.IsLetter(r[i]) || strings.ContainsRune("°%€£$µ", r[i]):
			for j < len(r) && (unicode.IsLetter(r[j]) || unicode.IsDigit(r[j]) || strings.ContainsRune("°%€£$µ", r[j])) {
				j++
			}
			out = append(out, unitToken{'w', string(r[i:j])})
		case r[i] == '/':
			out = append(out, unitToken{'/', "/"})
		case r[i] == '·' || r[i] == '-':
			out = append(out, unitToken{'·', "·"})
		case r[i] == '.':
			if j < len(r) && (unicode.IsLetter(r[j]) || unicode.IsDigit(r[j])) {
				out = append(out, unitToken{'·', "."})
			} // the point of an abbreviation
		case r[i] == ' ' || r[i] == '(' || r[i] == ')':
			out = append(out, unitToken{' ', " "})
		default:
			return nil
		}
		i = j
	}
	return out
}

func (e *expression) at(k int) unitToken {
	if e.i+k < len(e.tokens) {
		return e.tokens[e.i+k]
	}
	return unitToken{}
}

func (e *expression) spaces() {
	for e.at(0).kind == ' ' {
		e.i++
	}
}

// read goes over all tokens; what is left over is no unit.
func (e *expression) read(words bool) bool {
	if len(e.tokens) == 0 {
		return false
	}
	e.leading()
	items := 0
	for e.i < len(e.tokens) {
		divided := false
		for k := e.at(0); k.kind == ' ' || k.kind == '/' || k.kind == '·' || k.kind == 'w' && (k.text == "per" || items > 0 && k.text == "x"); k = e.at(0) {
			if k.kind == '·' && items == 0 {
				return false
			}
			if k.kind == '/' || k.text == "per" {
				if divided {
					return false
				}
				divided = true
				e.slash++
			}
			e.i++
		}
		if e.i >= len(e.tokens) {
			if divided {
				return false
			}
			break
		}
		if !e.item(divided, items, words) {
			return false
		}
		items++
	}
	return e.sound(items)
}

// leading takes a logarithm and a power of ten off the front: "log10",
// "×10⁹", "10^3".
func (e *expression) leading() {
	e.spaces()
	switch strings.ToLower(e.at(0).text) {
	case "log", "log10", "ln", "lg":
		e.scale = true
		e.i++
		e.spaces()
		if e.at(0).kind == 'n' && e.at(0).text == "10" {
			e.i++
		}
	}
	first := e.i
	times := e.at(0).kind == '·' || e.at(0).text == "x" || e.at(0).text == "X"
	if times {
		e.i++
		e.spaces()
	}
	if w := e.at(0).text; w == "x10" || w == "X10" {
		e.i++
	} else if e.at(0).kind == 'n' && (times && strings.HasPrefix(w, "10") || e.at(1).kind == '^' || e.at(1).kind == '/' && strings.HasPrefix(w, "10")) {
		e.i++
	} else {
		e.i = first
		return
	}
	e.scale, e.ten = true, true
	if e.at(0).kind == '^' {
		e.i++
	}
}

// item reads a number with its unit, or a symbol with its power.
func (e *expression) item(divided bool, items int, words bool) bool {
	if e.at(0).kind == 'n' {
		if !divided && e.slash == 0 && items == 0 {
			return false
		}
		e.i++
		e.spaces()
		if e.at(0).kind != 'w' {
			return e.i >= len(e.tokens) && divided && items > 0 // "per 1000"
		}
	}
	if e.at(0).kind != 'w' {
		return false
	}
	if of := e.of(); of > 0 {
		if items == 0 && !divided {
			return false
		}
		e.per = e.per || divided
		if divided {
			e.units++
		}
		e.i += of
		return true
	}
	w := e.at(0).text
	a, power, ok := e.symbol(w)
	if !ok {
		if !words || items > 0 || divided || e.scale || !plainWord(w) || e.at(1).kind != '/' {
			return false
		}
		e.free = true
		e.nouns++
		e.i++
		return true
	}
	e.i++
	if power || e.at(0).kind == '^' {
		e.powers++
		if e.at(0).kind == '^' {
			e.per = e.per || strings.Contains(e.at(0).text, "-") && a.part.Per
			e.i++
		}
	}
	switch a.part.Kind {
	case "noun":
		if divided {
			return false
		}
		e.nouns++
	default:
		e.units++
		e.per = e.per || divided && a.part.Per
		e.alone = a.part.Kind == "unit" || a.prefixed
	}
	return true
}

// of counts the tokens of words that say what an amount is one of: "body
// weight".
func (e *expression) of() int {
	var words []string
	best := 0
	for k := 0; len(words) < e.c.mostOf && e.i+k < len(e.tokens); k++ {
		switch t := e.at(k); t.kind {
		case 'w':
			words = append(words, t.text)
			if a, ok := e.c.atoms[strings.Join(words, " ")]; ok && a.part.Kind == "of" {
				best = k + 1
			}
		case ' ':
		default:
			return best
		}
	}
	return best
}

// symbol finds a symbol, or two that are written as one before a power:
// "kgm⁻²". Digits at its end are a power: m2.
func (e *expression) symbol(w string) (a atom, power, ok bool) {
	if a, ok := e.atomOf(w); ok {
		return a, false, true
	}
	bare := strings.TrimRight(w, "0123456789")
	if bare == "" {
		return atom{}, false, false
	}
	if bare != w {
		if len(w)-len(bare) > 1 {
			return atom{}, false, false
		}
		if a, ok := e.atomOf(bare); ok {
			return a, true, true
		}
	}
	if bare == w && e.at(1).kind != '^' {
		return atom{}, false, false
	}
	for k := 1; k < len(bare); k++ {
		first, ok := e.c.atoms[bare[:k]]
		if !ok || first.part.Kind == "noun" || first.part.Kind == "of" {
			continue
		}
		if second, ok := e.c.atoms[bare[k:]]; ok && second.part.Kind != "noun" && second.part.Kind != "of" {
			e.units++
			return second, bare != w, true
		}
	}
	return atom{}, false, false
}

// atomOf finds a symbol as printed, or in other capitals where it has three
// letters or more, or others beside it: NS alone is no nanosecond.
func (e *expression) atomOf(w string) (atom, bool) {
	if a, ok := e.c.atoms[w]; ok {
		return a, true
	}
	if a, ok := e.c.atomsLoose[strings.ToLower(w)]; ok && (len(w) > 2 || len(w) == 2 && a.prefixed && len(e.tokens) > 1) {
		return a, true
	}
	return atom{}, false
}

func plainWord(w string) bool {
	n := 0
	for _, r := range w {
		if !unicode.IsLetter(r) {
			return false
		}
		n++
	}
	return n <= 12
}

// sound decides whether what was read makes a unit.
func (e *expression) sound(items int) bool {
	switch {
	case e.units == 0:
		return e.ten && items == 0 || e.scale && e.nouns > 0
	case e.nouns > 0:
		return e.slash+e.powers > 0 && e.per || e.scale
	case e.slash > 0 && items == 1:
		return e.per // "/min"
	}
	return e.units > 1 || e.powers > 0 || e.scale || e.alone
}

// strong reports whether a unit can hardly be anything else, so that it needs
// no bracket and no comma: "kg", "mg/dL", "U L⁻¹".
func (e *expression) strong() bool {
	return !e.free && e.units > 0 && (e.units > 1 && (e.slash > 0 || e.powers > 0) || e.nouns > 0 && e.slash > 0 || e.units == 1 && e.slash == 0 && e.nouns == 0 && e.alone)
}
