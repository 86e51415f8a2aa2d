package main

import (
	_ "embed"
	"fmt"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/extract/open"
)

// demoPaper is an invented paper with three planted faults: a
// percentage on the other base, a mean that differs between abstract and
// table, and a p value that the figures do not bear out. Its other claims are
// sound.
//
//go:embed demo/paper.xml
var demoPaper []byte

func demoCommand(c *console) *cobra.Command {
	return &cobra.Command{
		Use:   "demo",
		Short: "Audit a whole invented paper that comes with the program",
		Long: `demo runs the main job on an invented paper that is part of the program: no
real instrument, person, maker or result is meant. Three of its statements were
made not to agree with its own figures; the others are sound.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			doc, err := open.Read(demoPaper, "invented-paper.xml")
			if err != nil {
				return fmt.Errorf("the embedded paper: %w", err)
			}
			fmt.Fprint(c.stdout, "An invented paper: instruments, maker, authors and figures are made up.\n\n")
			a := c.auditDocument(doc, nil, nil, demoPaper)
			return report.WriteText(c.stdout, report.Of(a), c.layout())
		},
	}
}
