package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims"
	"probity/claims/report"
)

func auditCommand(c *console) *cobra.Command {
	var format string
	cmd := &cobra.Command{
		Use:   "audit PATH...",
		Short: "Recompute every comparison that papers state",
		Long: `audit reads papers and recomputes every comparison they state from the figures
they print. PATH is a file, a folder that is searched for papers, or - for
standard input. The kind of a file is told from its bytes.

A file NAME` + correctionsEnding + ` beside a paper, written by a person, is applied to it.

Exit code: 0 nothing inconsistent, 1 something inconsistent was found, 2 an
input or the command line could not be used.`,
		Example: `  probity audit paper.xml
  probity audit --format json papers/ > audits.jsonl`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return c.audit(args, format) },
	}
	cmd.Flags().StringVar(&format, "format", "text", "how to print the result: "+strings.Join(auditFormats, ", "))
	return cmd
}

var auditFormats = []string{"text", "json"}

func (c *console) audit(paths []string, format string) error {
	write, err := c.auditWriter(format)
	if err != nil {
		return err
	}
	files, problems := find(paths)
	for _, p := range problems {
		fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(p.Error()))
		c.note(exitUnusable)
	}
	bar := newProgress(c, len(files))
	defer bar.end()
	shown := 0
	return c.auditAll(files, func(path string, r result) error {
		if r.err != nil {
			bar.clear()
			if !alreadyNamed(problems, path) {
				fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(r.err.Error()))
			}
			c.note(exitUnusable)
		}
		for _, a := range r.audits {
			bar.clear()
			if r.err != nil && format == "text" {
				continue // its message stands on stderr; there is nothing to lay out
			}
			if shown > 0 && format == "text" {
				fmt.Fprintln(c.stdout)
			}
			shown++
			if err := write(a); err != nil {
				return fmt.Errorf("the result cannot be written: %w", err)
			}
			for _, f := range a.Findings {
				if f.Grade == claims.Inconsistent {
					c.note(exitInconsistent)
				}
			}
		}
		bar.step()
		return nil
	})
}

func alreadyNamed(problems []error, path string) bool {
	for _, p := range problems {
		if strings.HasPrefix(p.Error(), path+":") {
			return true
		}
	}
	return false
}

func (c *console) auditWriter(format string) (func(report.Audit) error, error) {
	switch format {
	case "json":
		return func(a report.Audit) error { return report.WriteAudit(c.stdout, a) }, nil
	case "text":
		return func(a report.Audit) error { return report.WriteText(c.stdout, report.Of(a), c.layout()) }, nil
	}
	return nil, fmt.Errorf("--format %s is not known; use one of %s", format, strings.Join(auditFormats, ", "))
}

func (c *console) layout() report.Layout {
	return report.Layout{Width: c.width(), Colour: c.colour()}
}
