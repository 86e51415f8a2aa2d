package assemble

import (
	"math"
	"strings"
	"unicode"

	"probity/claims/tabular"
	"probity/extract"
	"probity/extract/numeral"
)

// tabular gives the axes of a table with the signs that tell what they are.
func (t *table) tabular() *tabular.Table {
	out := &tabular.Table{Above: t.outcomeOver()}
	for _, d := range t.d {
		out.Axes = append(out.Axes, tabular.Axis{Name: t.axisName(d), Labels: len(d.distinct), ByRow: d.byRow, Signs: t.signs(d)})
	}
	for i, d := range t.d {
		for j, other := range t.d {
			if i != j && standsUnder(d, other) {
				out.Axes[i].In = append(out.Axes[i].In, j)
			}
		}
	}
	return out
}

// weights gives the weights of signs, read from the catalogue once for the paper.
func (p *paper) weights() tabular.Weights {
	if p.evidence == nil {
		p.evidence = tabular.WeightsOf(p.ls.cat.Evidence)
	}
	return p.evidence
}

func (t *table) axisName(d *dim) string {
	switch {
	case d.section:
		return "the headings between the rows"
	case d.byRow:
		return "the row labels"
	}
	return "the column headings"
}

// standsUnder reports whether each label of d stands under one label of other only,
// of which there are several: it has labels of its own there.
func standsUnder(d, other *dim) bool {
	if d.byRow != other.byRow || len(other.distinct) < 2 || len(d.distinct) <= len(other.distinct) {
		return false
	}
	over := map[string]string{}
	for i, l := range d.labels {
		if l == nil || l.clean == "" {
			continue
		}
		name := ""
		if o := other.labels[i]; o != nil {
			name = o.clean
		}
		if was, ok := over[l.clean]; ok && was != name {
			return false
		}
		over[l.clean] = name
	}
	return true
}

// signs lists what speaks for what of an axis.
func (t *table) signs(d *dim) []tabular.Sign {
	var out []tabular.Sign
	add := func(name string, x float64) {
		if x != 0 && name != "" {
			out = append(out, tabular.Sign{Name: name, Strength: min(x, 1)})
		}
	}
	n := float64(len(d.distinct))
	sum := map[string]float64{}
	count := func(name string, yes bool) {
		if yes {
			sum[name] += 1 / n
		}
	}
	seen := map[string]bool{}
	for _, l := range d.labels {
		if l == nil || l.clean == "" || seen[l.clean] {
			continue
		}
		seen[l.clean] = true
		t.labelSigns(l, count)
		sum["time or place"] += t.conditionShare(l) / n
	}
	d.placed = sum["time or place"]
	for _, name := range labelSignNames {
		add(name, sum[name])
	}
	add(headSigns[t.headKind(d)], 1)
	for _, s := range d.distinct {
		if k := t.ls.read(s).kind; strings.HasSuffix(k, "-head") {
			add("is a heading", 1/n)
			add("single and a word for what is below", b2f(n == 1))
		}
	}
	add("compared in a sentence", t.comparedInText(d))
	add("named in the caption", t.inCaption(d))
	add("figures differ in size", t.scaleOf(d))
	add("one series", series(d.distinct))
	if d.byRow && t.unitCol > 0 {
		add("units beside the rows", 1)
	}
	add("single", b2f(n == 1))
	add("single and no time or place", b2f(n == 1)*(1-min(1, d.placed)))
	add("many", math.Log2(n)/5)
	add("two to four", b2f(n >= 2 && n <= 4))
	switch {
	case d.section:
		add("between the rows", 1)
	case d.byRow:
		add("beside the rows", 1)
	default:
		add("over the columns", 1)
		if d.level == t.g.head-1 {
			add("lowest heading", 1)
		}
	}
	p := t.roleIn(t.col, "p") || t.roleIn(t.col, "statistic")
	pRow := t.roleIn(t.row, "p")
	switch {
	case d.byRow && p && !pRow:
		add("a p for each row", 1)
	case !d.byRow && p && !pRow:
		add("a p compares the columns", 1)
	case !d.byRow && pRow && !p:
		add("a p for each column", 1)
	case d.byRow && pRow && !p:
		add("a p compares the rows", 1)
	}
	if t.describes() {
		if d.byRow {
			add("rows of a table of characteristics", 1)
		} else {
			add("columns of a table of characteristics", 1)
		}
	}
	return out
}

// series is the share of names that differ from the first in their figures
// only: "5 mg", "10 mg"; "T0", "T1".
func series(names []string) float64 {
	bare := func(s string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsDigit(r) || r == '.' || r == ',' {
				return -1
			}
			return r
		}, s)
	}
	if len(names) < 2 {
		return 0
	}
	n := 0
	for _, s := range names[1:] {
		if strings.ContainsAny(s, "0123456789") && bare(s) == bare(names[0]) {
			n++
		}
	}
	return float64(n) / float64(len(names)-1)
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func (t *table) roleIn(axes []axis, role string) bool {
	for i := range axes {
		if axes[i].role == role {
			return true
		}
	}
	return false
}

// headSigns name what the heading over an axis says, by its kind in the
// catalogue.
var headSigns = map[string]string{
	"arm-head": "under a word for groups", "outcome-head": "under a word for what is measured", "condition-head": "under a word for times or places",
	"trait": "under a word for a trait", "result-head": "under a word for results", "unit-head": "under a word for units",
}

// placeSigns are those that tell where an axis stands and how many labels it
// has, not what they say.
var placeSigns = []string{"over the columns", "lowest heading", "beside the rows", "between the rows", "two to four", "many", "single", "single and no time or place",
	"a p for each row", "a p compares the columns", "a p for each column", "a p compares the rows", "rows of a table of characteristics", "columns of a table of characteristics"}

// labelSignNames are the signs of single labels, in the order they are told.
var labelSignNames = []string{"known group", "called a group in the text", "in a sentence of allocation", "calls itself a group", "n beside it", "size of an instrument", "known outcome", "unit beside it",
	"mark beside it", "time or place", "only figures", "a code", "several words", "measured in the text", "short form of a group", "short form of an outcome", "arm word", "compares groups", "an amount", "begins with a time",
	"arm in another table", "outcome in another table", "condition in another table"}

func (t *table) labelSigns(l *label, count func(string, bool)) {
	k := key(l.clean)
	count("known group", t.arms.known(l.clean))
	count("called a group in the text", t.said().groups[k])
	allocated, measured := t.said().of(l.clean)
	count("in a sentence of allocation", len(k) > 1 && allocated)
	count("measured in the text", len(k) > 2 && measured)
	count("calls itself a group", groupWord(l.clean))
	for _, c := range []tabular.Category{tabular.Arm, tabular.Outcome, tabular.Condition} {
		count(c.String()+" in another table", t.elsewhere(k, c))
	}
	count("begins with a time", t.beginsTime(l))
	count("arm word", l.kind == "arm")
	count("n beside it", l.n.Known())
	count("size of an instrument", hasSize(l.clean))
	count("known outcome", l.outcome != nil)
	count("unit beside it", l.unit != "" && !startsWithDigit(l.clean))
	count("mark beside it", (l.centre() || l.spread() != "" || l.has("count")) && l.clean != "")
	count("only figures", onlyFigures(l.clean))
	count("a code", isCode(l.clean))
	count("an amount", t.amount(l.clean))
	count("several words", len(strings.Fields(l.clean)) > 2)
	low := " " + strings.ToLower(l.clean) + " "
	count("compares groups", strings.Contains(low, " vs ") || strings.Contains(low, " vs. ") || strings.Contains(low, " versus "))
	if long := t.short[l.clean]; long != "" {
		count("short form of a group", groupWord(long) || t.said().groups[key(long)] || t.arms.known(long))
		count("short form of an outcome", t.ls.cat.FindOutcome(long) != nil)
	}
}

// A learned name is what the axes of a table tell for certain.
type learned struct {
	table *table
	is    tabular.Category
}

// elsewhere reports whether another table reads a name so, without doubt.
func (t *table) elsewhere(key string, is tabular.Category) bool {
	for _, l := range t.learned[key] {
		if l.table != t && l.is == is {
			return true
		}
	}
	return false
}

// beginsTime reports a label whose first words are a time: "After 14 days of
// treatment", "Baseline value".
func (t *table) beginsTime(l *label) bool {
	for _, m := range t.ls.cat.FindLabels(l.clean) {
		if m.Start == 0 && m.Row.Kind == "time" {
			return true
		}
	}
	return false
}

// amount reports a figure with a unit that is none of times, temperatures and
// lengths: a dose, a concentration.
func (t *table) amount(s string) bool {
	for _, k := range numeral.Scan(s) {
		if k.Percent {
			return true
		}
		if k.Form == numeral.Figure {
			if u, _ := t.unitAt(s, k); u != nil {
				switch u.Quantity {
				case "time", "temperature", "length":
				default:
					return true
				}
			}
		}
	}
	return false
}

func onlyFigures(s string) bool {
	return s != "" && !strings.ContainsFunc(s, func(r rune) bool { return unicode.IsLetter(r) })
}

func isCode(s string) bool {
	if s == "" || len(s) > 5 || strings.Contains(s, " ") {
		return false
	}
	r := []rune(s)[0]
	return unicode.IsUpper(r) && strings.ToUpper(s) == s
}

// scaleOf says how much of the differences in size among the figures lies
// between the labels of an axis: outcomes differ in size more than groups.
func (t *table) scaleOf(d *dim) float64 {
	if len(d.distinct) < 2 {
		return 0
	}
	type group struct{ n, sum float64 }
	by := map[string]*group{}
	var all []float64
	var of []*group
	for r := t.g.head; r < len(t.g.rows); r++ {
		for c := 0; c < t.g.cols; c++ {
			if t.g.stub[c] || !t.row[r].live || !t.col[c].live {
				continue
			}
			rd := &t.g.read[r][c]
			l := d.at(r, c)
			if rd.Form == numeral.None || l == nil || l.clean == "" || rd.Number.Value == 0 || t.row[r].role == "sd" || t.row[r].role == "se" || t.col[c].role == "sd" || t.col[c].role == "se" {
				continue
			}
			g := by[l.clean]
			if g == nil {
				g = &group{}
				by[l.clean] = g
			}
			x := math.Log10(math.Abs(rd.Number.Value))
			g.n++
			g.sum += x
			all, of = append(all, x), append(of, g)
		}
	}
	if len(all) < 3 || len(by) < 2 || len(all) <= len(by) {
		return 0
	}
	mean := 0.0
	for _, x := range all {
		mean += x / float64(len(all))
	}
	total, inner := 0.0, 0.0
	for i, x := range all {
		total += (x - mean) * (x - mean)
		m := of[i].sum / of[i].n
		inner += (x - m) * (x - m)
	}
	if total == 0 {
		return 0
	}
	share := 1 - inner/total
	chance := float64(len(by)-1) / float64(len(all)-1)
	return max(0, (share-chance)/(1-chance)) * min(1, math.Sqrt(total/float64(len(all)))/0.4)
}

// inCaption is the share of an axis's labels that the caption names, where it
// names two.
func (t *table) inCaption(d *dim) float64 {
	hits := 0
	low := strings.ToLower(t.caption.text)
	for _, s := range d.distinct {
		if len(s) > 2 && containsName(low, strings.ToLower(s)) || len(s) <= 2 && len(s) > 0 && containsName(t.caption.text, s) && s != "a" && s != "A" {
			hits++
		}
	}
	if hits < 2 {
		return 0
	}
	return float64(hits) / float64(len(d.distinct))
}

// comparedInText says how often sentences compare two labels of an axis.
func (t *table) comparedInText(d *dim) float64 {
	if len(d.distinct) < 2 || len(d.distinct) > 20 {
		return 0
	}
	id := strings.Join(d.distinct, "\x00")
	if known, ok := t.said().pairs[id]; ok {
		return known
	}
	lower := make([]string, len(d.distinct))
	for i, name := range d.distinct {
		lower[i] = strings.ToLower(name)
	}
	hits := 0
	for _, s := range t.said().comparing {
		found := 0
		for i, name := range d.distinct {
			if len(name) > 1 && containsName(s.text, name) || len(name) > 3 && containsName(s.low, lower[i]) {
				found++
			}
		}
		if found >= 2 {
			hits++
		}
	}
	t.said().pairs[id] = min(1, float64(hits)/2)
	return t.said().pairs[id]
}

// describes reports whether the caption calls the table one of the
// characteristics of groups.
func (t *table) describes() bool {
	return hasAny(strings.ToLower(t.caption.text), "characteristic", "demographic", "baseline")
}

// outcomeOver says what would name the outcome where no axis does.
func (t *table) outcomeOver() tabular.Sign {
	c := t.corner()
	switch {
	case c != nil && c.clean != "" && (c.outcome != nil || c.unit != "" && c.kind == ""):
		return tabular.Sign{Name: "known corner", Strength: 1}
	case t.captionOutcome().name != "":
		return tabular.Sign{Name: "known caption", Strength: 1}
	case t.textOutcome().name != "":
		return tabular.Sign{Name: "text", Strength: 1}
	}
	if c != nil && c.clean != "" && !strings.HasSuffix(c.kind, "-head") && !t.headOnly(c.clean) && captionWords(t.caption.clean) == "" {
		return tabular.Sign{Name: "corner", Strength: 1}
	}
	return tabular.Sign{Name: "caption", Strength: 1}
}

// said is what the text says of names, found once for the paper.
type said struct {
	groups     map[string]bool // names that stand before "group"
	allocation []*sentence
	measuring  []*sentence
	comparing  []*sentence
	names      map[string][2]bool // in a sentence of allocation, of measuring
	pairs      map[string]float64 // how often the labels of an axis are compared
}

func (p *paper) said() *said {
	if p.saidOf == nil {
		p.saidOf = p.sayings()
	}
	return p.saidOf
}

func (p *paper) sayings() *said {
	out := &said{groups: map[string]bool{}, names: map[string][2]bool{}, pairs: map[string]float64{}}
	for i := range p.sentences {
		s := &p.sentences[i]
		groupNames(s.text, s.low, out.groups)
		switch {
		case hasAny(s.low, "randomi", "allocated", "assigned", "divided into", "received ", "treated with", "groups:", "compared "):
			if s.place.Section != extract.Results {
				out.allocation = append(out.allocation, s)
			}
		}
		if hasAny(s.low, "measured", "assessed", "determined", "evaluated", "recorded", "analysed", "analyzed", "calculated", "outcome") {
			out.measuring = append(out.measuring, s)
		}
		if hasAny(s.low, " than ", " versus ", " vs", "compared ", "between ", "relative to") {
			out.comparing = append(out.comparing, s)
		}
	}
	return out
}

func anySays(list []*sentence, name string) bool {
	low := strings.ToLower(name)
	for _, s := range list {
		if containsName(s.text, name) || len(name) > 3 && containsName(s.low, low) {
			return true
		}
	}
	return false
}

// of tells whether sentences of allocation and of measuring hold a name.
func (s *said) of(name string) (allocated, measured bool) {
	found, ok := s.names[name]
	if !ok {
		found = [2]bool{anySays(s.allocation, name), anySays(s.measuring, name)}
		s.names[name] = found
	}
	return found[0], found[1]
}

// groupNames keeps what stands before words of groups: "the laser group",
// "saline-treated rats", "IG patients".
func groupNames(text, low string, names map[string]bool) {
	for _, noun := range []string{"group", "arm", "-treated", "patients", "subjects", "participants", "animals", "rats", "mice", "specimens", "files", "instruments"} {
		for from := 0; ; {
			i := strings.Index(low[from:], noun)
			if i < 0 {
				break
			}
			i += from
			from = i + len(noun)
			if i == 0 || noun[0] != '-' && text[i-1] != ' ' {
				continue
			}
			words := lastFields(low[max(0, i-60):i], 4)
			for k := len(words) - 1; k >= 0; k-- {
				if strings.HasSuffix(words[k], ",") || strings.HasSuffix(words[k], ".") {
					words = words[k+1:]
					break
				}
			}
			name := strings.Fields(key(strings.Trim(strings.Join(words, " "), " ,;:()")))
			for k := range name {
				if s := strings.Join(name[k:], " "); len(s) > 1 {
					names[s] = true
				}
			}
		}
	}
}
