package main

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/index"
)

// A shelf is the library that a command works on, as its flags say.
type shelf struct {
	dir  string
	wait time.Duration
}

// libraryFlags adds the flags that every command on the library has.
func libraryFlags(cmd *cobra.Command) *shelf {
	s := &shelf{}
	cmd.Flags().StringVar(&s.dir, "library", "", "folder of the library (default "+strings.ReplaceAll(libraryHome(), home(), "~")+")")
	cmd.Flags().DurationVar(&s.wait, "wait", time.Minute, "how long to wait while another probity changes the library")
	return s
}

func home() string {
	h, err := os.UserHomeDir()
	if err != nil || h == "/" {
		return "\x00" // found in no path
	}
	return h
}

// libraryHome is where the library lives unless said otherwise: the folder for
// data of the XDG Base Directory Specification 0.8, or what takes its place on
// other systems.
func libraryHome() string {
	if d := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(d) {
		return filepath.Join(d, "probity", "library")
	}
	h, err := os.UserHomeDir()
	if err != nil {
		return "probity-library"
	}
	switch runtime.GOOS {
	case "darwin":
		return filepath.Join(h, "Library", "Application Support", "probity", "library")
	case "windows":
		if d := os.Getenv("LOCALAPPDATA"); d != "" {
			return filepath.Join(d, "probity", "library")
		}
	}
	return filepath.Join(h, ".local", "share", "probity", "library")
}

func (s *shelf) folder() string {
	if s.dir != "" {
		return s.dir
	}
	return libraryHome()
}

func (s *shelf) options(c *console) index.Options {
	return index.Options{Synonyms: c.synonyms(), Wait: s.wait, Stop: c.ctx.Done(), Reread: textAgain, Say: func(msg string) {
		fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(msg))
	}}
}

// open opens a library that exists.
func (s *shelf) open(c *console) (*index.Library, error) { return index.Open(s.folder(), s.options(c)) }

// beside says that what is read of the library may change meanwhile.
func (c *console) beside(lib *index.Library) {
	if who, busy := lib.Busy(); busy {
		fmt.Fprintf(c.stderr, "probity: another probity%s is changing the library; this answers from the papers that are safe by now\n", who)
	}
}

// synonyms hands the names of outcomes to the search as values.
func (c *console) synonyms() []index.Synonym {
	var out []index.Synonym
	for _, o := range c.catalog.Outcomes {
		out = append(out, index.Synonym{ID: o.ID, Names: slices.Concat([]string{o.Name}, o.Aliases)})
	}
	return out
}

// formatFlag adds --format and --out.
type outFlags struct{ format, out string }

func formatFlags(cmd *cobra.Command) *outFlags {
	f := &outFlags{}
	var names []string
	for _, w := range report.Writers {
		names = append(names, w.Name)
	}
	cmd.Flags().StringVar(&f.format, "format", "", "how to print the result: "+strings.Join(names, ", ")+" (default text, or what the ending of --out says)")
	cmd.Flags().StringVarP(&f.out, "out", "o", "", "write the result to this file")
	return f
}

// writer finds the writer meant, before any work is done.
func (f *outFlags) writer() (report.Writer, error) {
	if f.format != "" {
		if _, err := report.WriterNamed(f.format); err != nil {
			return report.Writer{}, err
		}
	}
	var known []ending
	for _, w := range report.Writers {
		known = append(known, ending{w.Ext, w.Name})
	}
	name, err := formatFor(f.format, f.out, "text", known)
	if err != nil {
		return report.Writer{}, err
	}
	return report.WriterNamed(name)
}

// An ending of a file's name says its format.
type ending struct{ ext, format string }

// formatFor gives the format that a person named, or else that of the ending
// of the file, or else the usual one. A file is not written under the ending
// of another kind of file.
func formatFor(format, file, usual string, known []ending) (string, error) {
	ext := strings.ToLower(filepath.Ext(file))
	if ext == ".htm" {
		ext = ".html"
	}
	says := ""
	var all []string
	for _, e := range known {
		if all = append(all, e.ext); e.ext == ext {
			says = e.format
		}
	}
	switch {
	case ext == "":
		return cmp.Or(format, usual), nil
	case says == "" && (format == "" || slices.Contains(paperEndings, ext)):
		return "", fmt.Errorf("-o %s: %s cannot be written; take one of %s", file, ext, strings.Join(all, ", "))
	case says != "" && format != "" && says != format:
		return "", fmt.Errorf("-o %s: %s is the ending of %s, not of %s", file, ext, says, format)
	}
	return cmp.Or(format, says), nil
}

// show writes a report where the flags say.
func (c *console) show(f *outFlags, w report.Writer, r report.Report) error {
	if f.out == "" {
		if _, terminal := terminal(c.stdout); terminal && w.Bytes {
			return fmt.Errorf("--format %s is not for a terminal; give a file with --out NAME%s", w.Name, w.Ext)
		}
		if err := w.Write(c.stdout, r, c.layout()); err != nil {
			return fmt.Errorf("the result cannot be written: %w", err)
		}
		return nil
	}
	file, err := os.Create(f.out)
	if err != nil {
		return fmt.Errorf("%s: cannot be written (%v)", f.out, reason(err))
	}
	err = w.Write(file, r, report.Layout{Width: 100})
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return fmt.Errorf("%s: cannot be written (%v)", f.out, reason(err))
	}
	return nil
}

// flat reports whether a format is for programs and spreadsheets: one plain
// table with every figure and its place.
func flat(w report.Writer) bool { return slices.Contains([]string{"csv", "xlsx", "json"}, w.Name) }

// paperLine names a paper in lists: authors, year, title.
func paperLine(r *index.Record) string {
	var parts []string
	switch n := len(r.Card.Authors); {
	case n == 1:
		parts = append(parts, r.Card.Authors[0])
	case n > 1:
		parts = append(parts, r.Card.Authors[0]+" et al.")
	}
	if r.Card.Year > 0 {
		parts = append(parts, fmt.Sprint(r.Card.Year))
	}
	if r.Card.Title != "" {
		parts = append(parts, r.Card.Title)
	} else {
		parts = append(parts, filepath.Base(r.Name))
	}
	return strings.Join(parts, ", ")
}

// short is how ids are shown: enough to tell papers apart and to type.
func short(id string) string { return id[:min(12, len(id))] }
