package assemble

import (
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract/numeral"
)

// told reads what the caption and the notes say for the whole table.
func (t *table) told() {
	t.marks = strongMarks(t.ls.cat, t.caption.text)
	t.why = "caption"
	for _, n := range t.notes {
		more := strongMarks(t.ls.cat, n)
		if len(more) > 0 && spreadIn(t.marks) == "" {
			t.why = "note"
		}
		t.marks = append(t.marks, more...)
	}
	t.spread = spreadIn(t.marks)
	t.adjusted = t.says(t.caption, adjusted)
}

// strongMarks lists the marks of centre and spread in running words.
func strongMarks(cat *catalog.Catalog, s string) []string {
	var out []string
	for _, m := range cat.Marks(s) {
		word := s[m.Start:m.End]
		switch m.Row.Kind {
		case "sd", "se", "iqr", "median", "ci95", "count", "cv", "mad":
			if len(word) > 1 {
				out = append(out, m.Row.Kind)
			}
		case "mean", "range":
			if len(word) > 2 {
				out = append(out, m.Row.Kind)
			}
		}
	}
	return out
}

// spreadIn gives the kind of spread that a list of marks names first: an SD
// before a range that stands beside it.
func spreadIn(marks []string) string {
	for _, want := range [][]string{{"sd"}, {"se"}, {"iqr"}, {"ci95"}, {"range"}} {
		for _, m := range marks {
			if m == want[0] {
				return m
			}
		}
	}
	return ""
}

// spreadOf sets the spread of a measure and says what its kind rests on.
func (t *table) spreadOf(m *claims.Measure, p part, parts map[string]part) {
	rd := p.read
	switch rd.Form {
	case numeral.Spread:
		m.Spread = claims.Spread{Value: rd.Spread, Text: rd.Spread.Text}
		t.kindOf(m, p, false)
		t.rangeBeside(m, p)
	case numeral.Interval:
		m.Spread = claims.Spread{Low: rd.Low, High: rd.High, Text: rd.Low.Text + ".." + rd.High.Text}
		t.kindOf(m, p, true)
	default:
		t.partsSpread(m, parts)
	}
	t.limitsOf(m, parts)
}

// rangeBeside takes the pair of "12.9 ± 3.9 (8.3–32)" for least and greatest
// value only where words call it a range and none an interval or quartiles.
func (t *table) rangeBeside(m *claims.Measure, p part) {
	near := t.marksAt(p)
	kind, why := pairKind(near), "heading"
	if kind == "" {
		kind, why = pairKind(t.marks), t.why
	}
	for _, marks := range [][]string{near, t.marks} {
		if contains(marks, "ci95") || contains(marks, "iqr") || contains(marks, "median") {
			return
		}
	}
	if kind == "range" {
		m.Min, m.Max, m.RangeWhy = p.read.Min, p.read.Max, why
	}
}

// kindOf says what the figure beside a centre is, from the nearest words.
func (t *table) kindOf(m *claims.Measure, p part, pair bool) {
	near := t.marksAt(p)
	kind, why := "", "heading"
	switch {
	case pair:
		kind = pairKind(near)
		if kind == "" {
			kind, why = pairKind(t.marks), t.why
		}
	case p.read.Sign == ",":
		kind = pairKind(near)
		if kind == "" {
			kind, why = pairKind(t.marks), t.why
		}
	default:
		near = append(near, t.noSpreads(p)...)
		kind = besideKind(near, p.read.Sign)
		if kind == "" {
			kind, why = besideKind(t.marks, p.read.Sign), t.why
		}
		if kind == "" && p.read.Sign != "/" {
			kind, why = t.study.Design.SpreadKind.String(), t.study.Design.SpreadWhy
		}
	}
	m.Spread.Kind = claims.SpreadKindOf(kind)
	if m.Spread.Kind != claims.NotStated {
		m.Spread.Why = why
	}
}

func pairKind(marks []string) string {
	for _, m := range marks {
		if m == "iqr" || m == "range" || m == "ci95" {
			return m
		}
	}
	return ""
}

// noSpreads lists the marks of figures that are printed like a spread and are
// none of its kinds, in the labels of a cell: "median ± MAD", "mean (CV%)".
func (t *table) noSpreads(p part) []string {
	var out []string
	for _, a := range []*axis{&t.row[p.r], &t.col[p.c]} {
		for _, l := range a.labels {
			for _, m := range t.ls.cat.Marks(l.text) {
				if m.Row.Kind == "cv" || m.Row.Kind == "mad" {
					out = append(out, m.Row.Kind)
				}
			}
		}
	}
	return out
}

// besideKind gives the kind of a single figure beside a centre, printed with
// sign: that of singleKind, but "unstated" for a coefficient of variation or an
// absolute deviation, which are none, and after ± the range of quartiles only
// about a median: quartiles are names of groups as well.
func besideKind(marks []string, sign string) string {
	kind := singleKind(marks)
	switch {
	case kind == "sd" || kind == "se":
	case contains(marks, "cv") || contains(marks, "mad"):
		return claims.NotStated.String()
	case kind == "iqr" && sign == "±" && !contains(marks, "median"):
		return ""
	}
	return kind
}

func singleKind(marks []string) string {
	for _, m := range marks {
		if m == "sd" || m == "se" {
			return m
		}
	}
	for _, m := range marks {
		if m == "iqr" || m == "ci95" {
			return m
		}
	}
	return ""
}

// partsSpread takes the spread from cells of its own.
func (t *table) partsSpread(m *claims.Measure, parts map[string]part) {
	order := []string{"sd", "se", "ci95", "iqr"}
	if m.Centre == claims.Median {
		order = []string{"iqr", "sd", "se", "ci95"}
	}
	for _, role := range order {
		q, ok := parts[role]
		if !ok {
			continue
		}
		m.Spread.Kind, m.Spread.Why = claims.SpreadKindOf(role), "heading"
		if q.read.Form == numeral.Limits {
			m.Spread.Low, m.Spread.High = q.read.Low, q.read.High
			m.Spread.Text = q.read.Low.Text + ".." + q.read.High.Text
			return
		}
		if q.read.Form == numeral.Figure {
			m.Spread.Value, m.Spread.Text = q.read.Number, q.read.Number.Text
			return
		}
	}
	if q, ok := parts["spread"]; ok {
		m.Spread.Value, m.Spread.Text = q.read.Number, q.read.Number.Text
		t.kindOf(m, q, false)
		return
	}
	low, ok := parts["low"]
	high, ok2 := parts["high"]
	if ok && ok2 {
		m.Spread.Low, m.Spread.High = low.read.Number, high.read.Number
		m.Spread.Text = low.read.Number.Text + ".." + high.read.Number.Text
		m.Spread.Kind = claims.CI95
		if m.Centre == claims.Median {
			m.Spread.Kind = claims.IQR
		}
		m.Spread.Why = "heading"
	}
}

// limitsOf sets the least and greatest value where they are printed.
func (t *table) limitsOf(m *claims.Measure, parts map[string]part) {
	if q, ok := parts["min"]; ok && q.read.Form == numeral.Figure {
		m.Min, m.RangeWhy = q.read.Number, "heading"
	}
	if q, ok := parts["max"]; ok && q.read.Form == numeral.Figure {
		m.Max = q.read.Number
	}
	if q, ok := parts["range"]; ok && q.read.Form == numeral.Limits {
		m.Min, m.Max, m.RangeWhy = q.read.Low, q.read.High, "heading"
	}
	if !m.Spread.Known() && m.Centre == claims.Median && m.Min.Known() && m.Max.Known() {
		m.Spread = claims.Spread{Kind: claims.Range, Low: m.Min, High: m.Max, Text: m.Min.Text + ".." + m.Max.Text, Why: "heading"}
	}
	if m.Spread.Kind == claims.Range && m.Spread.Low.Known() {
		m.Min, m.Max, m.RangeWhy = m.Spread.Low, m.Spread.High, m.Spread.Why
	}
}

// captionOutcome is the outcome that the caption names; where it names
// several, the first, unless nothing else is known of it.
func (t *table) captionOutcome() named {
	if t.capOut != nil {
		return *t.capOut
	}
	out := t.outcomeNamed(t.caption.text)
	t.capOut = &out
	return out
}

func (t *table) outcomeNamed(text string) named {
	m := catalog.Longest(t.ls.cat.FindOutcomes(text))
	if m.Row == nil {
		return named{}
	}
	l := t.ls.read(text)
	return named{name: text[m.Start:m.End], outcome: m.Row, unit: l.unit, unitID: l.unitID, label: l}
}

// captionCondition is a condition that the caption gives for all figures:
// "at baseline", "after 24 h", "on day 7".
func (t *table) captionCondition() string {
	if t.capCond != nil {
		return *t.capCond
	}
	out := t.conditionIn(t.caption.text)
	t.capCond = &out
	return out
}

func (t *table) conditionIn(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		switch strings.ToLower(strings.Trim(w, "(,;.")) {
		case "at", "on", "after", "before", "following":
		case "baseline", "preoperative", "postoperative", "pretreatment", "initial":
			if i+1 < len(words) && (words[i+1] == "and" || words[i+1] == "or") {
				continue // "initial and final": two conditions, told apart below
			}
			return strings.Trim(w, "(),;.")
		default:
			continue
		}
		for n := min(5, len(words)-i-1); n >= 1; n-- {
			s := strings.Trim(strings.Join(words[i+1:i+1+n], " "), "(),;.")
			if l := t.ls.read(s); t.conditionShare(l) == 1 && (strings.ContainsAny(s, "0123456789") || l.kind == "condition" || l.kind == "time") {
				return strings.TrimSuffix(strings.TrimPrefix(s, "the "), " and")
			}
		}
	}
	return ""
}
