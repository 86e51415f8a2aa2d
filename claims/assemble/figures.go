package assemble

import (
	"slices"
	"strings"
	"unicode"

	"probity/claims/catalog"
	"probity/claims/reading"
	"probity/extract/numeral"
)

// This file weighs what the figures of a row, a column or a whole table are:
// means and medians with their spread, or something else of the same form: an
// odds ratio with its interval, a coefficient with its standard error, a
// difference between groups. Words of the catalogue (figures.csv) and the
// forms of the figures are reasons with weights; their sums decide.

// measured is the reading that figures are centres with their spread.
const measured = "measure"

// adjusted is what words say of means that a model or a transformation gave.
const adjusted = "adjusted"

// enough is the least that must speak for another reading, and ahead the least
// by which it must beat that of measures: an innocent word tells little.
const (
	enough = 2.5
	ahead  = 1.0
)

// marksMeans is the score of words from which they name means with their
// spread: "mean (SD)", "median", "IQR".
const marksMeans = 3.0

// outerShare is what words of an outer label count beside those of the
// innermost one.
const outerShare = 0.6

// apartKinds are the readings that set a row or column apart, by the role
// that its axis then has.
var apartKinds = map[string]string{
	"effect": "effect", "model": "effect", "difference": "difference", "between": "difference", "p": "p", "statistic": "statistic", "anova": "anova",
}

// weighLabels adds what the words of the labels of an axis say, from the
// outside in. Words of an outcome's name say nothing: a ratio that is measured
// is a measure.
func (t *table) weighLabels(b *reading.Ballot[string], labels []*label) {
	var texts []string
	inner := 0
	for i, l := range labels {
		if i == len(labels)-1 {
			inner = len(strings.Join(texts, " "))
		}
		if l.n.Known() && !l.has("ci95") {
			texts = append(texts, strings.Repeat(" ", len(l.text))) // a group, whatever it is called
			continue
		}
		texts = append(texts, l.text)
	}
	text := strings.Join(texts, " ")
	outcomes := t.ls.cat.FindOutcomes(text)
	for _, m := range t.ls.cat.FindFigures("label", text) {
		if within(outcomes, m.Start, m.End) || valueFollows(text[m.End:]) {
			continue
		}
		w := m.Row.Weight
		if m.End <= inner {
			w *= outerShare
		}
		why := "the words “" + text[m.Start:m.End] + "”"
		b.For(m.Row.Kind, w, why)
		if m.Row.Kind == adjusted {
			b.For(measured, w, why)
		}
	}
}

// within reports whether a stretch is a part of the name of an outcome: the
// frequency of "resonance frequency".
func within(outcomes []catalog.Match[catalog.Outcome], start, end int) bool {
	for _, o := range outcomes {
		if o.Start <= start && end <= o.End {
			return true
		}
	}
	return false
}

// valueFollows reports whether a label prints the value of what it names: the
// "χ² = 2.58" of a row of means is a result beside them.
func valueFollows(after string) bool {
	after = strings.TrimLeft(after, " :,;(")
	if strings.HasPrefix(after, "=") || strings.HasPrefix(after, "<") {
		return true
	}
	digits := strings.TrimLeft(after, "0123456789.·")
	return len(digits) < len(after) && !strings.HasPrefix(strings.TrimLeft(digits, " "), "%")
}

// forms counts the figures of an axis: all, those with ±, those with limits
// on both sides of a centre, and those with one figure in brackets.
type forms struct{ all, plusMinus, centred, bracketed int }

func (f *forms) add(rd *numeral.Reading) {
	switch {
	case rd.Form == numeral.None:
		return
	case rd.Form == numeral.Spread && rd.Sign == "±":
		f.plusMinus++
	case rd.Form == numeral.Interval && rd.Low.Value <= rd.Number.Value && rd.Number.Value <= rd.High.Value:
		f.centred++
	case isPair(rd):
		f.bracketed++
	}
	f.all++
}

// formsIn counts the figures of row r, or of column c where r < 0.
func (t *table) formsIn(r, c int) forms {
	var f forms
	if r >= 0 {
		for k := range t.g.read[r] {
			if !t.g.stub[k] {
				f.add(&t.g.read[r][k])
			}
		}
		return f
	}
	for k := t.g.head; k < len(t.g.read); k++ {
		if !t.g.rows[k].section && !t.g.rows[k].repeated {
			f.add(&t.g.read[k][c])
		}
	}
	return f
}

// weigh adds what the forms say: ± is printed with means and hardly elsewhere.
func (f forms) weigh(b *reading.Ballot[string]) {
	if f.plusMinus*2 > f.all {
		b.For(measured, 3, "figures printed with ±")
	}
}

// other gives the reading that a ballot prefers to measures by enough, "" if
// there is none.
func other(b *reading.Ballot[string]) reading.Candidate[string] {
	var best reading.Candidate[string]
	for _, c := range b.Candidates {
		if apartKinds[c.Value] != "" && c.Score > best.Score {
			best = c
		}
	}
	if best.Score < enough || best.Score < b.Score(measured)+ahead {
		return reading.Candidate[string]{}
	}
	return best
}

// otherLines gives rows and columns that hold other figures than measures the
// role of what they hold.
func (t *table) otherLines() {
	for c := range t.col {
		if !t.g.stub[c] {
			t.otherLine(&t.col[c], t.formsIn(-1, c), t.limitedBeside(c))
		}
	}
	t.changes(t.col)
	for r := t.g.head; r < len(t.row); r++ {
		if t.row[r].role != "other" {
			t.otherLine(&t.row[r], t.formsIn(r, -1), false)
		}
	}
	t.changes(t.row)
}

// otherLine decides what one row or column holds; limited: a column of
// intervals follows it.
func (t *table) otherLine(a *axis, f forms, limited bool) {
	if len(a.labels) == 0 || f.all == 0 {
		return
	}
	t.weighLabels(&a.words, a.labels)
	if !a.data() {
		return
	}
	b := reading.Ballot[string]{Candidates: slices.Clone(a.words.Candidates)}
	f.weigh(&b)
	if t.says(t.caption, adjusted) {
		b.For(measured, 3, "the caption tells of adjusted means")
	}
	if e := b.Score("effect"); e > 0 && limited || e >= 2 && f.centred*2 > f.all {
		b.For("effect", 1, "printed with an interval")
	}
	if kind := other(&b).Value; kind != "" {
		a.role = apartKinds[kind]
	}
}

// limitedBeside reports whether a column of intervals follows column c, which is
// not one of several that are lettered: "B | 95% CI" is a coefficient, and "A |
// 95% CI | B | 95% CI" are groups.
func (t *table) limitedBeside(c int) bool {
	if c+1 >= len(t.col) || t.col[c+1].role != "ci95" || len(t.col[c].labels) == 0 {
		return false
	}
	for k := range t.col {
		n := len(t.col[k].labels)
		if k == c || n == 0 {
			continue
		}
		if s, own := t.col[k].labels[n-1].text, t.col[c].labels[len(t.col[c].labels)-1].text; s != own && len(s) == 1 && len(own) == 1 && unicode.IsUpper(rune(s[0])) && t.col[k].data() {
			return false
		}
	}
	return true
}

// changes takes a difference for a change of its group where it stands among
// times of this group and nothing else: "Before | After | Difference".
func (t *table) changes(axes []axis) {
	times, others := map[string]int{}, map[string]int{}
	for i := range axes {
		o := &axes[i]
		if len(o.labels) == 0 || !o.data() {
			continue
		}
		if l := o.labels[len(o.labels)-1]; t.conditionShare(l) == 1 && !t.says(l, measured) {
			times[outside(o)]++
		} else {
			others[outside(o)]++
		}
	}
	for i := range axes {
		a := &axes[i]
		if a.role != "difference" || len(a.labels) == 0 || t.says(a.labels[len(a.labels)-1], "between") {
			continue
		}
		if at := outside(a); times[at] > 1 && others[at] == 0 {
			a.role = ""
		}
	}
}

// outside joins the texts of the labels outside the innermost one.
func outside(a *axis) string {
	var parts []string
	for _, l := range a.labels[:len(a.labels)-1] {
		parts = append(parts, l.text)
	}
	return strings.Join(parts, "\x00")
}

// says reports whether a label has words for figures of a kind.
func (t *table) says(l *label, kind string) bool {
	for _, m := range t.ls.cat.FindFigures("label", l.text) {
		if m.Row.Kind == kind {
			return true
		}
	}
	return false
}

// adjustedAt reports whether the words over or beside a cell, or the caption
// where they name no mean, say that it comes from a model or a transformation:
// "Least-squares mean (SE)".
func (t *table) adjustedAt(r, c int) bool {
	row, col := &t.row[r].words, &t.col[c].words
	if row.Score(adjusted)+col.Score(adjusted) > 0 {
		return true
	}
	return t.adjusted && row.Score(measured)+col.Score(measured) == 0
}
