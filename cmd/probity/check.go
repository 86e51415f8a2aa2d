package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims"
	"probity/claims/check"
	"probity/claims/report"
	"probity/claims/typed"
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
It shows what it understood of them and from which words.

The figures of a side may be typed as a paper prints them: 702.3 (106.8) n=12;
650,5 (80,2); mean 650, SD 80, n = 12; 650 SE 80 n=12; 650 ± 80 s;
median 650 (IQR 600-720) n=12; 650 (95 % CI 600 to 700), n=12. Two units of one
quantity are brought to one. Where it is not clear what was meant, nothing is
judged, and it says what to type.

With --library the claim is held against every paper of the library that
measured its outcome on its arms: what each shows, under which conditions, and
the verdict in one paragraph.`,
		Example: `  probity check "X lasted 19% longer than Y" --subject "702.3 (106.8) n=12" --reference "588.0 (140.3) n=12"
  probity check "Time fell by 63% from 1083.82 s to 403.80 s"
  probity check "Kestrine lasts twice as long as Halyard" --library`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(cmd *cobra.Command, args []string) error {
			if held.asked(cmd, args) {
				if subject+reference != "" {
					return errors.New("--subject and --reference are not used with --library: leave out the one or the other")
				}
				return c.checkOnShelf(args[0], &held)
			}
			if len(args) > 1 {
				return errors.New("one statement at a time: put it in quotation marks")
			}
			for _, flag := range []string{"unstated", "medians", "with-caution"} {
				if cmd.Flags().Changed(flag) {
					return fmt.Errorf("--%s is for a claim held against the library: add --library, or leave it out", flag)
				}
			}
			for _, flag := range []string{"subject", "reference"} {
				if f := cmd.Flags().Lookup(flag); f.Changed && strings.TrimSpace(f.Value.String()) == "" {
					return fmt.Errorf("--%s is empty; type its figures, as “%s”", flag, typed.Example)
				}
			}
			return c.check(args[0], subject, reference, &held.out)
		},
	}
	cmd.Flags().StringVar(&subject, "subject", "", "figures of the arm the claim is about, as \""+typed.Example+"\"")
	cmd.Flags().StringVar(&reference, "reference", "", "figures of the arm it is compared with")
	held.flags(cmd)
	return cmd
}

func (c *console) check(text, subject, reference string, out *outFlags) error {
	w, err := claimWriter(out)
	if err != nil {
		return err
	}
	claim, err := typed.Read(text, subject, reference, c.catalog)
	if err != nil {
		return err
	}
	number(claim.Study)
	judgements, findings := claim.Settle(check.Audit(claim.Study, c.catalog))
	for _, f := range findings {
		if f.Grade == claims.AtOdds {
			c.note(exitAtOdds)
		}
	}
	r := report.Claim{Text: text, Sides: claim.Sides, Asks: claim.Asks, Unused: claim.Unused, Judgements: judgements, Findings: findings}
	if len(claim.Asks) > 0 {
		c.note(exitUnusable)
	} else {
		r.Sums = check.Two(claim.A, claim.B)
	}
	if w.Name == "json" { // one object of its own, not the tree of a report
		w.Write = func(to io.Writer, _ report.Report, _ report.Layout) error { return report.WriteClaim(to, r) }
	}
	return c.show(out, w, report.OfClaim(r))
}

// claimFormats are the formats of a single claim, which has no table.
var claimFormats = []string{"text", "markdown", "html", "json"}

// claimWriter finds the writer for a single claim by --format, or else by the
// ending of the file to write; what cannot be written is refused.
func claimWriter(f *outFlags) (report.Writer, error) {
	name, ending := f.format, strings.ToLower(filepath.Ext(f.out))
	if name == "" && f.out == "" {
		name = "text"
	}
	var endings []string
	for _, w := range report.Writers {
		if !slices.Contains(claimFormats, w.Name) {
			continue
		}
		if w.Name == name || name == "" && w.Ext == ending {
			return w, nil
		}
		endings = append(endings, w.Ext)
	}
	if name != "" {
		return report.Writer{}, fmt.Errorf("--format %s is not one of a claim without a library; use one of %s", name, strings.Join(claimFormats, ", "))
	}
	return report.Writer{}, fmt.Errorf("%s: a claim cannot be written to a file of that ending; end it in one of %s, or name a --format", f.out, strings.Join(endings, ", "))
}
