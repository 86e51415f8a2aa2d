package main

import (
	"context"
	"io"
	"os"
	"strconv"
	"sync/atomic"

	"golang.org/x/term"

	"probity/claims/catalog"
	"probity/extract/open"
)

// A console is what a command talks to: where results and messages go, how
// wide the terminal is, and the worst exit code so far.
type console struct {
	ctx            context.Context
	stdin          io.Reader
	stdout, stderr io.Writer
	catalog        *catalog.Catalog
	papersOf       reader
	tally          atomic.Pointer[tally] // nil: the command does not count papers
	worst          int
}

func newConsole(ctx context.Context, stdin io.Reader, stdout, stderr io.Writer) *console {
	return &console{ctx: ctx, stdin: stdin, stdout: stdout, stderr: stderr, catalog: catalog.Default(), papersOf: open.ReadAll}
}

// note keeps the worst exit code: unusable input outranks a finding.
func (c *console) note(code int) { c.worst = max(c.worst, code) }

// terminal reports whether w is a terminal, and its width.
func terminal(w io.Writer) (width int, ok bool) {
	if g, gated := w.(*gate); gated {
		w = g.w
	}
	f, isFile := w.(*os.File)
	if !isFile || !term.IsTerminal(int(f.Fd())) {
		return 0, false
	}
	width, _, err := term.GetSize(int(f.Fd()))
	return width, err == nil
}

// Lines of prose tire the eye beyond about a hundred columns and break up
// below forty (common practice).
const (
	widest    = 100
	narrowest = 40
	unknown   = 80
)

// width is the measure text is laid out to.
func (c *console) width() int {
	w, ok := terminal(c.stdout)
	if !ok {
		if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
			w = n
		} else {
			w = unknown
		}
	}
	return min(max(w, narrowest), widest)
}

// clearLine takes a progress bar away that was left behind.
func (c *console) clearLine() string {
	if _, ok := terminal(c.stderr); ok {
		return "\r\x1b[K"
	}
	return ""
}

// colour reports whether results may be coloured: on a terminal, unless
// NO_COLOR (no-color.org) or a dumb terminal says otherwise.
func (c *console) colour() bool {
	_, ok := terminal(c.stdout)
	return ok && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}
