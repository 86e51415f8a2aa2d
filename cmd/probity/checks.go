package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"probity/claims/check"
	"probity/claims/report"
)

func checksCommand(c *console) *cobra.Command {
	return &cobra.Command{
		Use:   "checks",
		Short: "List what is checked, and by which method",
		Long:  "checks lists every check: what it asks, and the source of its method.",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			r := report.Report{Title: "What probity checks"}
			for _, k := range check.All {
				r.Parts = append(r.Parts, report.Entry{Lead: k.Name, Head: k.Asks,
					Lines: []report.Line{{Label: "method", Text: k.Source}}})
			}
			if err := report.WriteText(c.stdout, r, c.layout()); err != nil {
				return fmt.Errorf("the list cannot be written: %w", err)
			}
			return nil
		},
	}
}
