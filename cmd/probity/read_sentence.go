package main

import (
	"fmt"
	"strings"

	"probity/claims"
	"probity/claims/reading"
	"probity/claims/report"
	"probity/claims/role"
	"probity/claims/statement"
	"probity/extract"
)

// readSentence shows how one sentence is read, as if a paper printed it: what
// each number was taken for, what is compared, and what speaks against it.
func (c *console) readSentence(text string) error {
	text = extract.Fold(strings.ToValidUTF8(text, "\uFFFD"))
	r := report.Report{Title: "how this sentence is read", Parts: []report.Part{report.Para{Text: text}}}
	numbers := role.Numbers(text, c.catalog)
	if len(numbers) == 0 {
		r.Parts = append(r.Parts, report.Para{Text: "No number was found in it."})
	}
	for _, n := range numbers {
		r.Parts = append(r.Parts, numberRead(text, n))
	}
	statements := statement.ReadSentence(text, c.catalog)
	r.Parts = append(r.Parts, report.Heading{Level: 2, Text: "What it compares"})
	if len(statements) == 0 {
		r.Parts = append(r.Parts, report.Para{Text: "No comparative statement was found in it."})
	}
	for _, s := range statements {
		r.Parts = append(r.Parts, statementRead(s))
	}
	return report.WriteText(c.stdout, r, c.layout())
}

func numberRead(text string, n role.Number) report.Part {
	e := report.Entry{Lead: n.Role.Best.Value.String(), Head: text[n.Start:n.End]}
	if n.Role.Best.Value == role.NotKnown {
		e.Lead = "not known"
	}
	if !n.Role.Sure() {
		e.Tone = report.Careful
	}
	e.Lines = append(e.Lines, becauseOf("because", n.Role.Best.Reasons)...)
	if second := n.Role.Second; second.Value != role.NotKnown && second.Score > 0 && !n.Role.Sure() {
		e.Lines = append(e.Lines, becauseOf("or "+second.Value.String(), second.Reasons)...)
	}
	return e
}

// becauseOf is one line of reasons with what each of them weighs.
func becauseOf(label string, reasons []reading.Reason) []report.Line {
	if len(reasons) == 0 {
		return nil
	}
	var out []string
	for _, r := range reasons {
		out = append(out, fmt.Sprintf("%s (%+.1f)", r.Text, r.Weight))
	}
	return []report.Line{{Label: label, Text: strings.Join(out, "; ")}}
}

func statementRead(s *claims.Statement) report.Part {
	e := report.Entry{Lead: strings.ReplaceAll(string(s.Kind), "-", " "), Head: s.Printed}
	line := func(label, text string) {
		if text != "" {
			e.Lines = append(e.Lines, report.Line{Label: label, Text: text})
		}
	}
	side := func(p claims.Party, f claims.Figure) string {
		name := p.Text
		if p.Level != "" {
			name = strings.TrimSpace(name + " " + p.Level)
		}
		if !f.Known() {
			return name
		}
		return strings.TrimSpace(name + " " + strings.TrimSpace(f.Number.Text+" "+f.Unit))
	}
	line("subject", side(s.Subject, s.A))
	line("reference", side(s.Reference, s.B))
	line("outcome", s.Outcome)
	line("condition", s.Condition)
	if s.Direction != 0 {
		line("direction", s.Direction.String())
	}
	if s.P.Known() {
		line("p", s.P.Text)
	}
	if !s.Own {
		line("not judged", s.WhyNotOwn)
	}
	if !s.Doubt.Sure() {
		e.Tone = report.Careful
		e.Lines = append(e.Lines, becauseOf("in doubt", s.Doubt)...)
	}
	line("words", strings.Join(s.Rests, " · "))
	return e
}
