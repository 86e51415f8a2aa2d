package index

import (
	"math"
	"slices"
	"strings"

	"probity/claims"
)

// CardOf collects what the search fields know of a paper from what was read
// and judged.
func CardOf(s *claims.Study, judgements []claims.Judgement, findings []claims.Finding) Card {
	c := Card{Title: s.Meta.Title, Authors: s.Meta.Authors, Journal: s.Meta.Journal, Year: s.Meta.Year, DOI: s.Meta.DOI, Format: s.Format,
		Pages: s.Pages, Measures: len(s.Measures), Problems: len(s.Problems)}
	for _, a := range s.Arms {
		c.Instruments = add(c.Instruments, a.Name)
	}
	for _, m := range s.Measures {
		c.Outcomes = add(c.Outcomes, m.OutcomeID)
		c.Printed = add(c.Printed, m.Outcome)
		c.Conditions = add(c.Conditions, m.Condition)
		if m.N.Known() && !slices.Contains(c.N, m.N.Value) {
			c.N = append(c.N, m.N.Value)
		}
	}
	for _, f := range s.Design.Facts {
		c.Conditions = add(c.Conditions, strings.TrimSpace(strings.ReplaceAll(f.ID, "-", " ")+" "+f.Value.Text+" "+f.Unit))
	}
	for _, j := range judgements {
		if !j.Statement.Own {
			continue
		}
		c.Statements++
		c.Verdicts = add(c.Verdicts, j.Verdict.String())
		c.Outcomes = add(c.Outcomes, j.Statement.OutcomeID)
		c.ratios(j)
	}
	for _, f := range findings {
		c.Findings = add(c.Findings, f.Check)
		c.Findings = add(c.Findings, string(f.Grade))
		switch f.Grade {
		case claims.AtOdds:
			c.AtOdds++
		case claims.Query:
			c.Queries++
		default:
			c.Cautions++
		}
	}
	return c
}

func (c *Card) ratios(j claims.Judgement) {
	for _, p := range j.Statement.Pairs {
		if p.A == nil || p.B == nil || !(p.B.Mean.Value != 0) {
			continue
		}
		r := math.Round(p.A.Mean.Value/p.B.Mean.Value*1000) / 1000
		if !math.IsInf(r, 0) && !math.IsNaN(r) && !slices.Contains(c.Ratios, r) {
			c.Ratios = append(c.Ratios, r)
		}
	}
}

// add appends a value once.
func add(list []string, v string) []string {
	if v = oneLine(v); v == "" || slices.Contains(list, v) {
		return list
	}
	return append(list, v)
}
