package assemble

import (
	"fmt"
	"strings"
	"unicode"

	"probity/claims"
	"probity/claims/reading"
	"probity/extract"
	"probity/extract/numeral"
)

// leave sets the figures of a row of other statistics apart.
func (t *table) leave(r int) {
	for c := 0; c < t.g.cols; c++ {
		if !t.g.stub[c] {
			t.setApart(r, c, "", t.row[r].role)
		}
	}
}

// roleWords say what a mark stands for, in reasons.
var roleWords = map[string]string{
	"p": "a p value", "statistic": "a test statistic", "df": "degrees of freedom", "anova": "a term of an analysis of variance",
	"effect": "an effect or a coefficient", "difference": "a difference with its spread", "n": "a number of specimens",
	"count": "a count with its percentage", "percent": "a percentage", "letters": "grouping letters", "other": "another statistic",
}

// setApart keeps a figure that is no measure: one of the form of a measure, or
// of a row or column of other figures.
func (t *table) setApart(r, c int, why, role string) {
	rd := &t.g.read[r][c]
	if !measureForm(rd) && (roleWords[role] == "" || rd.Form == numeral.None) {
		return
	}
	if why == "" {
		why = roleWords[role]
	}
	if role == "" {
		role = roleOf(why)
	}
	at := t.g.cell(r, c).Place
	at.Table = t.place.Table
	t.study.Apart = append(t.study.Apart, claims.Apart{What: role, Place: at, Text: rd.Text, Why: why})
	if role == "count" {
		t.keepCount(part{r, c, rd})
	}
}

// roleOf is the role that a reason names, "unclear" if none.
func roleOf(why string) string {
	for role, words := range roleWords { // any order: each has its own words
		if words == why {
			return role
		}
	}
	return "unclear"
}

// keepCount keeps how many of a group have something.
func (t *table) keepCount(p part) {
	k := &claims.Count{K: p.read.Number, Text: p.read.Text, Place: t.g.cell(p.r, p.c).Place}
	k.Place.Section, k.Place.Table = extract.InTable, t.place.Table
	switch {
	case p.read.Sign == "/":
		k.Of = claims.Quantity{Number: p.read.Spread, Origin: claims.Printed, Why: "cell"}
	default:
		k.Share = p.read.Spread
	}
	var arm, outcome, condition []string
	for _, d := range t.d {
		l := d.over(p.r, p.c)
		if l == nil || l.clean == "" {
			continue
		}
		switch d.role {
		case roleArm:
			arm = append(arm, l.clean)
		case roleOutcome:
			outcome = append(outcome, l.clean)
		case roleCondition:
			condition = append(condition, l.clean)
		}
		if n := l.n; n.Known() && d.role == roleArm && !k.Of.Known() {
			k.Of = claims.Quantity{Number: n, Origin: claims.Printed, Why: "label"}
		}
	}
	k.ArmText, k.Condition = strings.Join(arm, " "), strings.Join(condition, "; ")
	if k.Outcome = strings.Join(outcome, ", "); k.Outcome == "" {
		k.Outcome = t.above.name
	}
	if len(arm) > 0 {
		k.Arm = t.arms.find(arm[0])
	}
	k.Doubt.Add(t.axesDoubt(), reading.Slight)
	k.ID = fmt.Sprintf("k%d", len(t.study.Counts)+1)
	t.study.Counts = append(t.study.Counts, k)
}

// between reports whether the group of a cell is a pair of groups: "A vs B".
func (t *table) between(p part) bool {
	for _, d := range t.d {
		if d.role != roleArm {
			continue
		}
		if l := d.at(p.r, p.c); l != nil {
			low := " " + strings.ToLower(l.clean) + " "
			if strings.Contains(low, " vs ") || strings.Contains(low, " vs. ") || strings.Contains(low, " versus ") {
				return true
			}
		}
	}
	return false
}

// noMeasure says why a cell is no measure, "" if it is one.
func (t *table) noMeasure(p part, parts map[string]part) string {
	rd := p.read
	near := t.marksAt(p)
	marked := contains(near, "mean") || contains(near, "median") || contains(near, "sd") || contains(near, "se") || contains(near, "iqr")
	if t.counted(p.r, p.c) {
		return roleWords["count"]
	}
	if t.unsettled(p.r, p.c) {
		return "two figures whose meaning is not stated"
	}
	if t.apart != "" && t.row[p.r].words.Score(measured) < marksMeans && t.col[p.c].words.Score(measured) < marksMeans {
		return t.apart
	}
	switch rd.Form {
	case numeral.Spread:
		switch {
		case rd.Label != "" && rd.Sign != "±" && t.ls.cat.Mark(rd.Label) == "":
			return "words stand with the figures"
		case rd.Sign == "±", rd.Sign == "?":
			return ""
		case rd.Sign == "," && !contains(near, "median") && !contains(near, "iqr") && !contains(t.marks, "median") && !contains(t.marks, "iqr"):
			return "two figures whose meaning is not stated"
		case rd.Sign == "/" && !(contains(near, "sd") || contains(t.marks, "sd")):
			return "two figures whose meaning is not stated"
		case rd.Rest != "" && len(rd.Rest) > 12:
			return "words stand with the figures"
		}
		return ""
	case numeral.Interval:
		if strings.Contains(rd.Text, "/") && rd.Low.Decimals == 0 && rd.High.Decimals == 0 {
			return "a share with its count of the total"
		}
		if !marked && len(t.marks) == 0 && !contains(near, "ci95") && !contains(near, "range") {
			return "a figure with a range or an interval whose meaning is not stated"
		}
		return ""
	case numeral.Figure:
		return t.bareFigure(p, parts, near)
	}
	return "no centre is printed"
}

// bareFigure says why a single figure is no measure.
func (t *table) bareFigure(p part, parts map[string]part, near []string) string {
	rd := p.read
	for _, role := range []string{"sd", "se", "ci95", "iqr", "spread"} {
		if _, ok := parts[role]; ok {
			return ""
		}
	}
	if rd.Sign != "" || strings.ContainsFunc(rd.Rest, wordRune) || rd.Label != "" && t.ls.cat.Mark(rd.Label) == "" || t.strangeUnit(rd) {
		return "a figure alone"
	}
	_, mean := parts["mean"]
	_, median := parts["median"]
	b := t.weighBare(p, near, mean || median)
	best := b.Choose().Best
	if best.Value == measured && best.Score >= bareEnough {
		return ""
	}
	if why := roleWords[best.Value]; why != "" && best.Value != measured {
		return why
	}
	return "a figure alone"
}

// bareEnough is the least that must speak for a single figure as a mean.
const bareEnough = 2

// weighBare weighs whether a single figure is a mean whose spread is not
// printed, a count or a percentage.
func (t *table) weighBare(p part, near []string, marked bool) *reading.Ballot[string] {
	var b reading.Ballot[string]
	row, col := t.lineOf(p.r), t.column(p.c)
	rd := p.read
	decimals := rd.Number.Decimals > 0
	if marked || contains(near, "mean") || contains(near, "median") {
		b.For(measured, 4, "a heading names the mean or the median")
	}
	if col.spreads > col.figures && col.spreads > 1 {
		switch {
		case row.spreads > 0:
			b.For(measured, 3, "the figures beside it have a spread")
		case decimals:
			b.For(measured, 1, "the figures above and below have a spread")
		}
	}
	if t.caption.centre() && decimals {
		b.For(measured, 2, "the caption names the mean or the median")
	}
	if row.spreads == 0 && (contains(near, "sd") || contains(near, "se")) {
		b.For(measured, -2, "a spread is named and none is printed")
	}
	if rd.Percent {
		b.For("percent", 2, "a percentage")
	}
	if row.counts > 0 || contains(near, "count") {
		b.For("count", 4, "the figures beside it are counts")
	}
	if row.figures > 1 && row.whole == row.figures && row.spreads == 0 {
		b.For("count", 1.5, "whole numbers alone")
	}
	if t.row[p.r].role == "n" {
		b.For("count", 4, "a row of numbers of specimens")
	}
	for _, a := range []*axis{&t.row[p.r], &t.col[p.c]} {
		b.For("count", a.words.Score("count"), "words for counts")
		b.For("percent", a.words.Score("percent"), "words for shares")
	}
	return &b
}

func wordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// strangeUnit reports whether words stand with a figure that are no unit: the
// "5 days", "0.1 M Veln" of a label.
func (t *table) strangeUnit(rd *numeral.Reading) bool {
	return strings.ContainsFunc(rd.Unit, unicode.IsLetter) && t.ls.cat.FindUnit(rd.Unit) == nil && rd.Unit != "min:s"
}

func (t *table) rowColN(p part) float64 {
	if n := t.col[p.c].n; n.Known() {
		return n.Value
	}
	if n := t.row[p.r].n; n.Known() {
		return n.Value
	}
	return 0
}
