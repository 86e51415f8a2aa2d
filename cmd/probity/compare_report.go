package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"probity/claims/compare"
	"probity/claims/report"
	"probity/extract"
)

// benchCautions end every comparison.
var benchCautions = []string{
	"A bench result is not a clinical outcome: it holds for the sizes, lots and conditions tested.",
	"Ratios are of means within one paper, with 95 % intervals (log ratio, separate variances, t with Satterthwaite's df: Hedges, Gurevitch & Curtis 1999 Ecology 80:1150).",
	"Values converted or estimated here are not the authors' numbers; those as printed stand beside them with their place.",
	"Check for corrections and retractions before citing.",
}

// tableReport lays out a comparison: for people by strata, for programs as one
// flat table.
func (c *console) tableReport(res *compare.Result, flat bool) report.Report {
	title := fmt.Sprintf("%s: %d comparisons of %d papers", res.Outcome.Name, res.Rows(), res.Papers-len(res.Left))
	if res.Contrast {
		title += fmt.Sprintf(", %s against %s", res.Query.Subject, res.Query.Against)
	}
	r := report.Report{Title: title}
	if flat {
		r.Parts = append(r.Parts, c.flatRows(res), c.flatCombined(res))
		for _, x := range res.Assumed {
			r.Parts = append(r.Parts, report.Para{Text: x})
		}
		return r
	}
	if res.Rows() == 0 {
		r.Parts = append(r.Parts, report.Para{Text: fmt.Sprintf("No two arms can be compared: %d papers of the library measured this outcome.", res.Papers)})
	} else if len(res.Strata) > 1 {
		r.Parts = append(r.Parts, report.Para{Text: fmt.Sprintf("The tests fall into %d kinds of conditions; ratios of one kind are not to be read beside those of another.", len(res.Strata))})
	}
	number := 0
	for i := range res.Strata {
		s := &res.Strata[i]
		name := s.Short
		if name == "" {
			name = "comparable conditions"
		}
		r.Parts = append(r.Parts, report.Heading{Level: 2, Text: fmt.Sprintf("%d. %s (%s)", i+1, name, papersCount(s.Papers))})
		r.Parts = append(r.Parts, report.Para{Text: "Conditions: " + s.Name + "."})
		if len(s.Apart) > 0 {
			r.Parts = append(r.Parts, report.Para{Text: "Not comparable with 1: " + joined(s.Apart) + "."})
		}
		r.Parts = append(r.Parts, c.rowParts(s.Rows, &number, res.Unit)...)
		r.Parts = append(r.Parts, combinedParts(s.Combined)...)
	}
	if len(res.Apart) > 0 {
		r.Parts = append(r.Parts, report.Heading{Level: 2, Text: "Not comparable"})
		r.Parts = append(r.Parts, c.rowParts(res.Apart, &number, res.Unit)...)
	}
	r.Parts = append(r.Parts, leftParts(res.Left)...)
	notes := slices.Clone(res.Assumed)
	for i := range notes {
		notes[i] = "Assumed: " + notes[i] + "."
	}
	r.Parts = append(r.Parts, report.Notes{Texts: append(notes, benchCautions...)})
	return r
}

func papersCount(n int) string {
	if n == 1 {
		return "1 paper"
	}
	return fmt.Sprintf("%d papers", n)
}

// mostShown keeps a report for people readable; the flat formats hold all.
const mostShown = 200

// rowParts is the table of a stratum, where its figures stand, and why lines
// call for caution.
func (c *console) rowParts(rows []*compare.Row, number *int, unit string) []report.Part {
	head := "mean (SD)"
	if unit != "" {
		head += ", " + c.unitText(unit)
	}
	t := report.Table{Head: []string{"", "paper", "arm", head, "n", "against", head, "n", "ratio (95 % CI)", "own claim"},
		Right: []bool{true, false, false, true, true, false, true, true, true}}
	places := report.Table{Caption: "Where the figures stand, as printed", Head: []string{"", "arm", "as printed", "place", "against", "as printed", "place", "difference (95 % CI)"},
		Right: []bool{true, false, false, false, false, false, false, true}}
	var whys, tests entries
	shown := rows[:min(len(rows), mostShown)]
	for _, x := range shown {
		*number++
		n := fmt.Sprint(*number)
		name := x.Paper.Name()
		ratio := x.Ratio
		t.Rows = append(t.Rows, []report.Cell{{Text: n}, {Text: shortTo(name, 26)}, {Text: shortTo(armText(x.Subject, x.Condition), 26)}, c.meanCell(x.Subject, x.Paper.File),
			{Text: known(x.Subject.N)}, {Text: shortTo(armText(x.Reference, ""), 22)}, c.meanCell(x.Reference, x.Paper.File), {Text: known(x.Reference.N)},
			{Text: ratioText(x), Value: &ratio}, {Text: claimText(x)}})
		places.Rows = append(places.Rows, []report.Cell{{Text: n}, {Text: shortTo(x.Subject.Name, 22)}, {Text: printed(x.Subject.Figure)}, {Text: x.Subject.Figure.Place},
			{Text: shortTo(x.Reference.Name, 22)}, {Text: printed(x.Reference.Figure)}, {Text: x.Reference.Figure.Place},
			{Text: differenceText(x), Value: &x.Difference}})
		tests.add(n, report.Entry{Lead: "tested at", Head: conditionsText(x)})
		if e, ok := whyEntry(x); ok {
			whys.add(n, e)
		}
	}
	out := []report.Part{t}
	if len(rows) > len(shown) {
		out = append(out, report.Para{Text: fmt.Sprintf("%d more lines: --format csv or xlsx holds them all.", len(rows)-len(shown))})
	}
	return slices.Concat(out, whys.parts(), []report.Part{places}, tests.parts())
}

func armText(s compare.Side, condition string) string {
	text := s.Name
	if s.Size != "" && !strings.Contains(text, s.Size) {
		text += " " + s.Size
	}
	if condition != "" {
		text += ", " + condition
	}
	return text
}

func (c *console) meanCell(s compare.Side, file string) report.Cell {
	text := significant(s.Mean)
	if f := s.Figure; s.Mean == f.Value && (s.SD == f.Spread || s.SD == 0) { // nothing was converted
		if text = f.Text; s.SD > 0 {
			text += " (" + f.Printed + ")"
		}
	} else if s.SD > 0 {
		text += " (" + significant(s.SD) + ")"
	}
	place, err := extract.ParsePlace(s.Figure.Place)
	if err != nil {
		place = extract.Place{}
	}
	place.File = file
	return report.Cell{Text: text, Value: &s.Mean, Place: place}
}

// significant writes a figure with four significant digits, trailing zeros kept.
func significant(x float64) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Sprint(x)
	}
	decimals := 3 - int(math.Floor(math.Log10(math.Abs(x))))
	return fmt.Sprintf("%.*f", min(max(decimals, 0), 6), x)
}

func ratioText(x *compare.Row) string {
	switch {
	case x.Ratio == 0:
		return "none"
	case !x.HasInterval:
		return fmt.Sprintf("%.2f (no interval)", x.Ratio)
	}
	low, high := x.Interval()
	return fmt.Sprintf("%.2f (%.2f to %.2f)", x.Ratio, low, high)
}

func differenceText(x *compare.Row) string {
	low, high, ok := x.DifferenceInterval()
	if !ok {
		return significant(x.Difference)
	}
	return fmt.Sprintf("%s (%s to %s)", significant(x.Difference), significant(low), significant(high))
}

func claimText(x *compare.Row) string {
	var parts []string
	for _, cl := range x.Claims {
		text := strings.ReplaceAll(cl.Verdict, "-", " ")
		if cl.Printed != "" {
			text = cl.Printed + " " + text
		}
		if !slices.Contains(parts, text) {
			parts = append(parts, text)
		}
	}
	return shortTo(joined(parts), 40)
}

// printed is a figure as the paper prints it.
func printed(f *compare.Figure) string {
	text := f.Text
	switch f.Kind {
	case "":
	case "unstated":
		text += " ± " + f.Printed + " (kind not stated)"
	default:
		text += " (" + strings.ToUpper(f.Kind) + " " + f.Printed + ")"
	}
	return strings.TrimSpace(text + " " + f.Unit)
}

var gradeTone = map[compare.Grade]report.Tone{compare.Comparable: report.Plain, compare.WithCaution: report.Careful, compare.NotComparable: report.Grave}

// entries are told once for all lines that they are about.
type entries struct {
	list  []report.Entry
	lines [][]string
}

func (w *entries) add(n string, e report.Entry) {
	i := slices.IndexFunc(w.list, func(o report.Entry) bool {
		return o.Lead == e.Lead && o.Head == e.Head && slices.Equal(o.Lines, e.Lines)
	})
	if i < 0 {
		w.list, w.lines = append(w.list, e), append(w.lines, nil)
		i = len(w.list) - 1
	}
	w.lines[i] = append(w.lines[i], n)
}

func (w *entries) parts() []report.Part {
	var out []report.Part
	for i, e := range w.list {
		which := "line "
		if len(w.lines[i]) > 1 {
			which = "lines "
		}
		e.Lead = which + strings.Join(w.lines[i], ", ") + " " + e.Lead
		out = append(out, e)
	}
	return out
}

// whyEntry says what a line calls for beyond its figures.
func whyEntry(x *compare.Row) (report.Entry, bool) {
	e := report.Entry{Lead: x.Grade.String(), Tone: gradeTone[x.Grade], Head: joined(x.Reasons)}
	line := func(label string, list []string) {
		if len(list) > 0 {
			e.Lines = append(e.Lines, report.Line{Label: label, Text: joined(list)})
		}
	}
	if x.NoInterval != "" && x.Ratio > 0 {
		line("no interval", []string{x.NoInterval})
	}
	line("note", x.Notes)
	var found []string
	for _, f := range x.Findings {
		if text := f.Grade + ": " + f.Check; !slices.Contains(found, text) {
			found = append(found, text)
		}
	}
	line("findings", found)
	if x.Grade == compare.Comparable && len(found) == 0 && x.NoInterval == "" {
		return e, false // notes alone are in the flat formats
	}
	return e, true
}

func combinedParts(list []compare.Combined) []report.Part {
	var out []report.Part
	for _, x := range list {
		if x.Refused != "" {
			e := report.Entry{Lead: "not combined", Head: x.Contrast + ": " + x.Refused}
			e.Lines = leftLines(x.NotIn)
			out = append(out, e)
			continue
		}
		e := report.Entry{Lead: "combined", Tone: report.Good, Head: fmt.Sprintf("%s over %s: ratio %.2f, 95 %% CI %.2f to %.2f", x.Contrast, papersCount(x.Papers), x.Ratio, x.Low, x.High)}
		if x.PredLow <= 1 && x.PredHigh >= 1 || x.Low <= 1 && x.High >= 1 {
			e.Tone = report.Careful // another paper may well show the opposite
		}
		line := func(label, format string, args ...any) {
			e.Lines = append(e.Lines, report.Line{Label: label, Text: fmt.Sprintf(format, args...)})
		}
		line("another paper", "its ratio is expected between %.2f and %.2f (95 %% prediction)", x.PredLow, x.PredHigh)
		line("heterogeneity", "I² %.0f %%, τ² %.4f, Q %.2f, p %s", x.I2, x.Tau2, x.Q, pOf(x.PQ))
		for _, w := range x.Without {
			line("without "+w.Paper.Name(), "%.2f, 95 %% CI %.2f to %.2f", w.Ratio, w.Low, w.High)
		}
		e.Lines = append(e.Lines, leftLines(x.NotIn)...)
		line("method", "random effects on the log ratio of means, REML, interval of Hartung and Knapp never narrower than the plain one, t with k − 1 df")
		out = append(out, e)
	}
	return out
}

func pOf(p float64) string {
	if p < 0.001 {
		return "< 0.001"
	}
	return fmt.Sprintf("%.3f", p)
}

// leftLines names the papers that did not enter, by their reasons.
func leftLines(left []compare.Left) []report.Line {
	var order []string
	by := map[string][]string{}
	for _, l := range left {
		if by[l.Why] == nil {
			order = append(order, l.Why)
		}
		by[l.Why] = append(by[l.Why], l.Paper.Name())
	}
	var out []report.Line
	for _, why := range order {
		names := by[why]
		text := joined(names[:min(len(names), 8)])
		if len(names) > 8 {
			text += fmt.Sprintf(" and %d more", len(names)-8)
		}
		out = append(out, report.Line{Label: "not in it", Text: text + ": " + why})
	}
	return out
}

func leftParts(left []compare.Left) []report.Part {
	if len(left) == 0 {
		return nil
	}
	e := report.Entry{Lead: "without a line", Head: papersCount(len(left)) + " measured this outcome and give no comparison", Lines: leftLines(left)}
	return []report.Part{report.Heading{Level: 2, Text: "Left out"}, e}
}

// flatRows is every comparison with all that is known of it.
func (c *console) flatRows(res *compare.Result) report.Table {
	t := report.Table{Caption: "Comparisons", Head: []string{"stratum", "comparability", "reasons", "notes", "paper", "year", "title", "journal", "doi", "id", "outcome", "condition",
		"arm", "arm size", "arm n", "arm mean", "arm sd", "arm as printed", "arm place",
		"against", "against size", "against n", "against mean", "against sd", "against as printed", "against place", "unit",
		"ratio", "ratio low", "ratio high", "difference", "difference low", "difference high", "no interval", "own claims", "verdicts", "claim places", "findings"}}
	var fields []string
	for _, r := range res.Rules {
		if slices.Contains([]string{"bands", "within", "words", "size"}, r.Kind) {
			fields = append(fields, r.Name)
		}
	}
	t.Head = append(t.Head, fields...)
	for i := range res.Strata {
		for _, x := range res.Strata[i].Rows {
			t.Rows = append(t.Rows, c.flatRow(fmt.Sprintf("%d. %s", i+1, res.Strata[i].Name), x, res))
		}
	}
	for _, x := range res.Apart {
		t.Rows = append(t.Rows, c.flatRow("", x, res))
	}
	return t
}

func (c *console) flatRow(stratum string, x *compare.Row, res *compare.Result) []report.Cell {
	text := func(s string) report.Cell { return report.Cell{Text: s} }
	figure := func(v float64, known bool) report.Cell {
		if !known || math.IsNaN(v) || math.IsInf(v, 0) {
			return report.Cell{}
		}
		return report.Cell{Text: significant(v), Value: &v}
	}
	var said, verdicts, places, found []string
	for _, cl := range x.Claims {
		said, verdicts, places = append(said, cl.Text), append(verdicts, cl.Verdict), append(places, cl.Place)
	}
	for _, f := range x.Findings {
		found = append(found, f.Grade+": "+f.Check)
	}
	a, b := x.Subject, x.Reference
	low, high := x.Interval()
	dlow, dhigh, hasDifference := x.DifferenceInterval()
	row := []report.Cell{text(stratum), text(x.Grade.String()), text(joined(x.Reasons)), text(joined(x.Notes)), text(x.Paper.Name()),
		figure(float64(x.Paper.Year), x.Paper.Year > 0), text(x.Paper.Title), text(x.Paper.Journal), text(x.Paper.DOI), text(x.Paper.ID), text(res.Outcome.Name), text(x.Condition)}
	for _, s := range []compare.Side{a, b} {
		row = append(row, text(s.Name), text(s.Size), figure(float64(s.N), s.N > 0), c.meanCell(s, x.Paper.File), figure(s.SD, s.SD > 0), text(printed(s.Figure)), text(s.Figure.Place))
	}
	row = append(row, text(c.unitText(x.Unit)), figure(x.Ratio, x.Ratio > 0), figure(low, x.HasInterval), figure(high, x.HasInterval),
		figure(x.Difference, true), figure(dlow, hasDifference), figure(dhigh, hasDifference), text(x.NoInterval),
		text(joined(said)), text(joined(verdicts)), text(joined(places)), text(joined(found)))
	for _, cond := range x.Conditions {
		row = append(row, text(cond.Show()))
	}
	return row
}

func (c *console) flatCombined(res *compare.Result) report.Table {
	t := report.Table{Caption: "Combined", Head: []string{"stratum", "contrast", "papers", "ratio", "low", "high", "prediction low", "prediction high", "I2 %", "tau2", "Q", "p of Q", "not combined because"}}
	for i, s := range res.Strata {
		for _, x := range s.Combined {
			row := []report.Cell{{Text: fmt.Sprintf("%d. %s", i+1, s.Name)}, {Text: x.Contrast}, count(x.Papers)}
			for _, v := range []float64{x.Ratio, x.Low, x.High, x.PredLow, x.PredHigh, x.I2, x.Tau2, x.Q, x.PQ} {
				if x.Refused != "" {
					row = append(row, report.Cell{})
					continue
				}
				row = append(row, report.Cell{Text: significant(v), Value: &v})
			}
			t.Rows = append(t.Rows, append(row, report.Cell{Text: x.Refused}))
		}
	}
	return t
}
