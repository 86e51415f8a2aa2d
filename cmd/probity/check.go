package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims"
	"probity/claims/check"
	"probity/claims/report"
	"probity/claims/statement"
	"probity/extract"
	"probity/extract/numeral"
)

func checkCommand(c *console) *cobra.Command {
	var subject, reference string
	var held heldAgainst
	cmd := &cobra.Command{
		Use:   `check "STATEMENT"`,
		Short: "Check one claim typed by hand, without a paper",
		Long: `check recomputes one claim from the two figures it compares, on every base, with
the interval of the ratio, the difference and the test of the means. The figures
are given as mean (SD) and n, or read from the statement when they stand in it.

With --library the claim is held against every paper of the library that
measured its outcome on its arms: what each shows, under which conditions, and
the verdict in one paragraph.`,
		Example: `  probity check "X lasted 19% longer than Y" --subject "702.3 (106.8) n=12" --reference "588.0 (140.3) n=12"
  probity check "Time fell by 63% from 1083.82 s to 403.80 s"
  probity check "Kestrine lasts twice as long as Halyard" --library`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(cmd *cobra.Command, args []string) error {
			if held.asked(cmd, args) {
				return c.checkOnShelf(args[0], &held)
			}
			if len(args) > 1 {
				return errors.New("one statement at a time: put it in quotation marks")
			}
			return c.check(args[0], subject, reference)
		},
	}
	cmd.Flags().StringVar(&subject, "subject", "", "figures of the arm the claim is about: mean (SD) n=N")
	cmd.Flags().StringVar(&reference, "reference", "", "figures of the arm it is compared with: mean (SD) n=N")
	held.flags(cmd)
	return cmd
}

func (c *console) check(text, subject, reference string) error {
	statements := statement.ReadText(text, c.catalog)
	study := &claims.Study{File: "statement"}
	a, err := typedMeasure(subject, "subject")
	if err != nil {
		return err
	}
	b, err := typedMeasure(reference, "reference")
	if err != nil {
		return err
	}
	if (a == nil) != (b == nil) {
		return errors.New("give the figures of both sides: --subject and --reference")
	}
	if a != nil {
		study.Measures = []*claims.Measure{a, b}
		for _, s := range statements {
			s.Own = true
			s.A, s.B = claims.Figure{}, claims.Figure{}
			name(a, s.Subject)
			name(b, s.Reference)
			a.Outcome, a.OutcomeID = s.Outcome, s.OutcomeID
			b.Outcome, b.OutcomeID = s.Outcome, s.OutcomeID
			s.Pairs = []claims.Pair{{A: a, B: b, Sure: true}}
		}
	}
	study.Statements = statements
	number(study)
	judgements, findings := check.Audit(study, c.catalog)
	if len(judgements) == 0 {
		return errors.New("no comparison could be read in the statement; write it as “X lasted 19% longer than Y”")
	}
	for _, f := range findings {
		if f.Grade == claims.Inconsistent {
			c.note(exitInconsistent)
		}
	}
	r := report.OfClaim(text, judgements, findings, check.Two(a, b))
	return report.WriteText(c.stdout, r, c.layout())
}

// typedMeasure reads the figures of one side as they would stand in a table.
func typedMeasure(text, side string) (*claims.Measure, error) {
	if text == "" {
		return nil, nil
	}
	m := &claims.Measure{ArmText: side, Text: text}
	for _, k := range numeral.Scan(text) {
		switch {
		case k.Form == numeral.N && !m.N.Known():
			m.N = claims.Quantity{Number: k.Number, Origin: claims.Printed}
		case (k.Form == numeral.Spread || k.Form == numeral.Figure) && !m.Mean.Known():
			m.Mean = claims.Quantity{Number: k.Number, Origin: claims.Printed}
			m.Unit = k.Unit
			if k.Form == numeral.Spread {
				m.Spread = typedSpread(k.Figures)
			}
		}
	}
	if !m.Mean.Known() {
		return nil, fmt.Errorf("--%s %q: no figure could be read; write it as “702.3 (106.8) n=12”", side, text)
	}
	m.Place = extract.Place{File: "--" + side}
	return m, nil
}

// typedSpread takes a spread for an SD, as the help says, unless it is marked.
func typedSpread(f numeral.Figures) claims.Spread {
	s := claims.Spread{Kind: claims.SD, Value: f.Spread, Text: f.Spread.Text, Why: "taken as an SD, as typed"}
	if k := claims.SpreadKindOf(strings.ToLower(f.Mark)); k != claims.NotStated {
		s.Kind = k
	}
	return s
}

func name(m *claims.Measure, p claims.Party) {
	if p.Text != "" {
		m.ArmText = p.Text
	}
}
