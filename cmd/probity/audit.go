package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"probity/claims"
	"probity/claims/report"
	"probity/extract/open"
	"probity/extract/pdf/ocr"
)

func auditCommand(c *console) *cobra.Command {
	var format string
	var recognise bool
	cmd := &cobra.Command{
		Use:   "audit PATH...",
		Short: "Recompute every comparison that papers state",
		Long: `audit reads papers and recomputes every comparison they state from the figures
they print. PATH is a file, a folder that is searched for papers (links are
followed), or - for one paper on standard input. A list of paths goes through
xargs, or to add -, which takes no paper there. The kind of a file is told from
its bytes.

A file NAME` + correctionsEnding + ` beside a paper, written by a person, is applied to it.

Ctrl-C ends the command and leaves the paper under way; what is printed is whole,
and it is said how many papers are done. A second Ctrl-C ends it at once.

Exit code: 0 nothing at odds, 1 something at odds was found, 2 an
input or the command line could not be used, or the command was stopped.`,
		Example: `  probity audit paper.xml
  probity audit --format json papers/ > audits.jsonl
  unzip -p shelf.zip lee.pdf | probity audit -`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := useOCR(recognise); err != nil {
				return err
			}
			return c.audit(args, format)
		},
	}
	ocrFlag(cmd, &recognise)
	cmd.Flags().StringVar(&format, "format", "text", "how to print the result: "+strings.Join(auditFormats, ", "))
	return cmd
}

// ocrFlag adds --ocr to a command that reads papers.
func ocrFlag(cmd *cobra.Command, on *bool) {
	cmd.Flags().BoolVar(on, "ocr", false, "read pages of PDFs that are pictures, and tables of JATS papers whose pictures lie beside them, by text recognition (tesseract, where it is installed); every figure so read is marked as doubtful")
}

// useOCR hands text recognition to the list of formats, or takes it back.
func useOCR(on bool) error {
	open.PDF.Recognise, open.Beside = nil, nil
	if !on {
		return nil
	}
	program, err := ocr.Find()
	if err != nil {
		return fmt.Errorf("--ocr: %w", err)
	}
	open.PDF.Recognise, open.Beside = ocr.By(program), pictureBeside
	return nil
}

var auditFormats = []string{"text", "json", "markdown", "html"}

func (c *console) audit(paths []string, format string) error {
	out, err := c.auditOutput(format)
	if err != nil {
		return err
	}
	files, problems := find(paths, isPaperName)
	for _, p := range problems {
		fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(p.Error()))
		c.note(exitUnusable)
	}
	bar := newProgress(c, len(files))
	defer bar.end()
	err = c.auditAll(files, func(path string, r result) error {
		if r.err != nil {
			bar.clear()
			if !alreadyNamed(problems, path) {
				fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(r.err.Error()))
			}
			c.note(exitUnusable)
		}
		for _, a := range r.audits {
			bar.clear()
			if r.err != nil && format != "json" {
				continue // its message stands on stderr; there is nothing to lay out
			}
			if err := out.add(a); err != nil {
				return fmt.Errorf("the result cannot be written: %w", err)
			}
			for _, f := range a.Findings {
				if f.Grade == claims.AtOdds {
					c.note(exitAtOdds)
				}
			}
		}
		bar.step()
		return nil
	})
	switch {
	case err == errStopped:
		if err := out.end(c.partial()); err != nil {
			return err
		}
	case err == nil:
		err = out.end("")
	}
	return err
}

// partial is what stands on a page that was to hold more papers.
func (c *console) partial() string {
	t := c.tally.Load()
	return fmt.Sprintf("The audit was stopped before its end: this page holds %d of %d files.", t.done.Load(), t.total)
}

func alreadyNamed(problems []error, path string) bool {
	for _, p := range problems {
		if strings.HasPrefix(p.Error(), path+":") {
			return true
		}
	}
	return false
}

// An auditOutput writes audits one by one, or, where the format is one page,
// all at the end. Partial says what is missing on the page; "": nothing.
type auditOutput struct {
	add func(report.Audit) error
	end func(partial string) error
}

func (c *console) auditOutput(format string) (auditOutput, error) {
	nothing := func(string) error { return nil }
	if !slices.Contains(auditFormats, format) {
		return auditOutput{}, fmt.Errorf("--format %s is not known; use one of %s", format, strings.Join(auditFormats, ", "))
	}
	if format == "json" {
		return auditOutput{func(a report.Audit) error { return report.WriteAudit(c.stdout, a) }, nothing}, nil
	}
	w, err := report.WriterNamed(format)
	if err != nil {
		return auditOutput{}, err
	}
	if format == "html" {
		return c.onePage(w), nil
	}
	shown := 0
	return auditOutput{func(a report.Audit) error {
		if shown > 0 {
			fmt.Fprintln(c.stdout)
		}
		shown++
		return w.Write(c.stdout, report.Of(a), c.layout())
	}, nothing}, nil
}

// onePage gathers the reports of all papers on one page.
func (c *console) onePage(w report.Writer) auditOutput {
	var page report.Report
	papers := 0
	return auditOutput{
		add: func(a report.Audit) error {
			r := report.Of(a)
			papers++
			if papers == 1 {
				page = r
				return nil
			}
			page.Parts = append(append(page.Parts, report.Heading{Level: 1, Text: r.Title}), r.Parts...)
			return nil
		},
		end: func(partial string) error {
			if papers == 0 {
				return nil
			}
			if partial != "" {
				page.Parts = slices.Insert(page.Parts, 0, report.Part(report.Entry{Lead: "partial", Tone: report.Grave, Head: partial}))
			}
			return w.Write(c.stdout, page, c.layout())
		},
	}
}

func (c *console) layout() report.Layout {
	return report.Layout{Width: c.width(), Colour: c.colour()}
}
