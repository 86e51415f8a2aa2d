package assemble

import (
	"strings"
	"unicode"

	"probity/claims/catalog"
	"probity/extract"
	"probity/extract/numeral"
)

// label is what a heading or a row label says: the words that name
// something, apart from the marks of statistics, the unit and n that stand
// with them.
type label struct {
	text    string   // as printed, on one line
	clean   string   // the words that name something
	marks   []string // kinds of the catalogue: "mean", "sd", "n" ...
	whole   bool     // the marks are all there is
	unit    string   // as printed
	unitID  string
	n       extract.Number
	outcome *catalog.Outcome
	kind    string // what labels.csv says of the words
	leads   string // a mark of a difference or an effect that the label begins with
	adjust  bool
}

func (l *label) has(kind string) bool {
	for _, m := range l.marks {
		if m == kind {
			return true
		}
	}
	return false
}

// spread gives the kind of spread the label names, "" if none.
func (l *label) spread() string {
	for _, m := range l.marks {
		switch m {
		case "sd", "se", "ci95", "iqr", "range":
			return m
		}
	}
	return ""
}

// centre reports whether the label says that a centre stands below it.
func (l *label) centre() bool { return l.has("mean") || l.has("median") }

// asName takes a label that is a mark by its letters for a name after all.
func (l *label) asName() {
	if l.whole && l.clean == "" && l.spread() == "" && !l.centre() {
		l.clean, l.marks, l.whole = l.text, nil, false
	}
}

// labels reads label texts once each: tables repeat them.
type labels struct {
	cat  *catalog.Catalog
	seen map[string]*label
}

func (ls *labels) cell(c *extract.Cell) *label { return ls.read(printed(c.Runs)) }

// printed is the text of runs as a label prints it: raised footnote marks at
// the end are left out, raised powers stay.
func printed(runs []extract.Run) string {
	plain := make([]extract.Run, 0, len(runs))
	for i, r := range runs {
		if r.Raised && i > 0 && footnoteMark(r.Text, runs[i-1].Text) {
			continue
		}
		plain = append(plain, r)
	}
	return strings.TrimSpace(extract.Flatten(plain))
}

// footnoteMark tells the a of "Ra value^a" from the 2 of "mm^2".
func footnoteMark(s, before string) bool {
	s = strings.TrimSpace(s)
	if s == "" || strings.ContainsAny(s, "-−") {
		return false
	}
	for _, r := range s {
		if unicode.IsDigit(r) {
			last := strings.Fields(before)
			if len(last) == 0 {
				return true
			}
			w := last[len(last)-1]
			return !(strings.HasSuffix(w, "m") || strings.HasSuffix(w, "10") || strings.HasSuffix(w, "R") || strings.HasSuffix(w, "χ") ||
				strings.HasSuffix(w, "eta") || strings.HasSuffix(w, "H"))
		}
	}
	return true
}

func (ls *labels) read(text string) *label {
	if l, ok := ls.seen[text]; ok {
		return l
	}
	l := ls.parse(text)
	ls.seen[text] = l
	return l
}

func (ls *labels) parse(text string) *label {
	l := &label{text: text}
	text = strings.NewReplacer("⁽", "(", "⁾", ")").Replace(text) // raised with the power beside them
	if kind := ls.cat.Mark(text); kind != "" {
		l.marks, l.whole = []string{kind}, true
		if kind == "percent" {
			l.unit, l.unitID = "%", "%"
		}
		return l
	}
	for _, m := range ls.cat.Marks(text) {
		if m.Row.Kind == "count" {
			l.marks = append(l.marks, "count")
			text = text[:m.Start] + strings.TrimPrefix(text[m.End:], ")") // its % is no unit
			break
		}
	}
	unit := ls.cat.UnitAt(text)
	l.unit, l.unitID = unit.Text, unit.ID()
	rest := l.brackets(ls.cat, withoutUnit(text, unit))
	rest = l.tail(rest)
	rest = l.strong(ls.cat, rest)
	l.clean = tidy(rest)
	if l.spread() != "" && !l.centre() && (strings.Contains(text, "±") || strings.Contains(text, "(") && l.clean != "" && len(l.marks) == 1 && bracketed(text, ls.cat)) {
		l.marks = append(l.marks, "mean") // "Torque ± SD" and "Torque (SD)" name the centre by its outcome
	}
	l.whole = l.clean == "" && len(l.marks) > 0
	if l.clean != "" {
		l.outcome = ls.cat.FindOutcome(l.clean)
		if l.outcome == nil {
			l.outcome = ls.cat.FindOutcome(text)
		}
		l.kind = ls.cat.Label(l.clean)
		if m := ls.cat.Marks(text); len(m) > 0 && m[0].Start <= 1 && (m[0].Row.Kind == "difference" || m[0].Row.Kind == "effect") && (m[0].End-m[0].Start > 5 || m[0].Row.Kind == "effect") {
			l.leads = m[0].Row.Kind
		}
		low := strings.ToLower(text)
		l.adjust = strings.Contains(low, "adjusted") && !strings.Contains(low, "unadjusted") ||
			strings.Contains(low, "adj.") || strings.Contains(low, "covariate-corrected")
	}
	return l
}

// withoutUnit takes the unit out of a label where it stands outside of
// brackets; those go with what else they hold.
func withoutUnit(text string, u catalog.Printed) string {
	if u.Start == u.End || inBracket(text, u.Start) {
		return text
	}
	before := strings.TrimRight(text[:u.Start], " ,;:/")
	for _, w := range []string{" in", " In", " expressed", " measured"} {
		before = strings.TrimSuffix(before, w)
	}
	return before + text[u.End:]
}

// nIn reads "n = 12" in a label.
func (l *label) nIn(s string) bool {
	if !strings.ContainsAny(s, "nN") || len(s) > 24 {
		return false
	}
	for _, t := range numeral.Scan(s) {
		if t.Form == numeral.N {
			l.n = t.Number
			return t.Start == 0 && t.End >= len(s)-8 || strings.Count(s, " ") <= 3
		}
	}
	return false
}

// tail takes a unit after the last comma, and n without brackets, off the
// text.
func (l *label) tail(s string) string {
	if i := strings.LastIndexByte(s, ','); i >= 0 && l.unit != "" && strings.TrimSpace(s[i+1:]) == l.unit {
		s = s[:i]
	}
	for _, t := range numeral.Scan(s) {
		if t.Form == numeral.N {
			l.n = t.Number
			s = s[:t.Start] + s[t.End:]
			break
		}
	}
	return s
}

// paired drops brackets that have lost their other half, and the spaces and
// commas that a mark or a unit leaves beside brackets and commas.
func paired(s string) string {
	keep := make([]bool, len(s))
	var open []int
	for i := 0; i < len(s); i++ {
		keep[i] = true
		switch s[i] {
		case '(', '[':
			keep[i] = false
			open = append(open, i)
		case ')', ']':
			keep[i] = len(open) > 0
			if n := len(open); n > 0 {
				keep[open[n-1]] = true
				open = open[:n-1]
			}
		}
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if keep[i] {
			b.WriteByte(s[i])
		} else {
			b.WriteByte(' ')
		}
	}
	out := strings.Join(strings.Fields(b.String()), " ")
	for _, r := range [][2]string{{"( ", "("}, {"[ ", "["}, {" )", ")"}, {" ]", "]"}, {" ,", ","}, {" ;", ";"}, {",,", ","}, {"(,", "("}, {",)", ")"}, {";)", ")"}, {"()", ""}, {"[]", ""}} {
		out = strings.ReplaceAll(out, r[0], r[1])
	}
	return strings.Join(strings.Fields(out), " ")
}

// tidy leaves no stray signs and joining words at the ends of a name.
func tidy(s string) string {
	s = strings.TrimLeftFunc(s, func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Mn, r) })
	s = strings.Join(strings.Fields(strings.NewReplacer("()", " ", "[]", " ", "( )", " ", "[ ]", " ").Replace(s)), " ")
	for {
		t := strings.Trim(s, " ,;:–—-*†‡§¶#|/=.&")
		low := extract.Lower(t)
		for _, w := range []string{"of ", "of the ", "and ", "the ", "value ", "values ", "value of ", "values of "} {
			if strings.HasPrefix(low, w) {
				t = t[len(w):]
				low = low[len(w):]
			}
		}
		for _, w := range []string{" and", " of", " in", " with", " the", " for"} {
			if strings.HasSuffix(low, w) {
				t = t[:len(t)-len(w)]
				low = low[:len(low)-len(w)]
			}
		}
		if t == s {
			break
		}
		s = t
	}
	s = strings.Trim(paired(s), " -–,;:")
	if s == "value" || s == "values" || s == "Values" || s == "Value" {
		return ""
	}
	return s
}
