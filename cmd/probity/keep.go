package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/extract/open"
	"probity/index"
)

func removeCommand(c *console) *cobra.Command {
	var s *shelf
	cmd := &cobra.Command{
		Use:   "remove PAPER...",
		Short: "Take papers out of the library",
		Long: `remove deletes papers from the library, with what was made of them. PAPER is the
beginning of an id, a DOI, a file name, or words of a title. The file that the
paper was read from is not touched.`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return c.remove(s, args) },
	}
	s = libraryFlags(cmd)
	return cmd
}

func (c *console) remove(s *shelf, papers []string) error {
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	var found []*index.Record
	for _, p := range papers { // all are known before any goes
		r, err := lib.Resolve(p)
		if err != nil {
			return err
		}
		found = append(found, r)
	}
	w, err := lib.Writer()
	if err != nil {
		return err
	}
	for _, r := range found {
		if err := w.Remove(r.ID); err != nil {
			return errors.Join(err, w.Close())
		}
		fmt.Fprintf(c.stdout, "removed    %s  %s\n", short(r.ID), report.Clean(paperLine(r)))
	}
	return w.Close()
}

func refreshCommand(c *console) *cobra.Command {
	var s *shelf
	var all bool
	cmd := &cobra.Command{
		Use:   "refresh [PAPER...]",
		Short: "Read papers of the library again with this version of probity",
		Long: `refresh reads and judges papers again from the originals that the library keeps:
those named, or else those that another version of probity read, or with --all
every one. Corrections are the ones kept with the paper; add the paper again to
bring in others.`,
		RunE: func(_ *cobra.Command, args []string) error { return c.refresh(s, args, all) },
	}
	s = libraryFlags(cmd)
	cmd.Flags().BoolVar(&all, "all", false, "every paper, not only those read by another version")
	return cmd
}

func (c *console) refresh(s *shelf, papers []string, all bool) error {
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	var todo []*index.Record
	if len(papers) == 0 {
		records, bad := lib.List()
		for _, err := range bad {
			fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(err.Error()))
			c.note(exitUnusable)
		}
		for _, r := range records {
			if all || r.Tool != version() {
				todo = append(todo, r)
			}
		}
	}
	for _, p := range papers {
		r, err := lib.Resolve(p)
		if err != nil {
			return err
		}
		todo = append(todo, r)
	}
	w, err := lib.Writer()
	if err != nil {
		return err
	}
	t := c.begin(len(todo), "what is told as refreshed is safe, run the same command to go on")
	bar := newProgress(c, len(todo))
	w.OnCommit(func(e index.Entry) {
		t.done.Add(1)
		bar.clear()
		fmt.Fprintf(c.stdout, "refreshed  %s  %s\n", short(e.ID), report.Clean(e.Name))
	})
	err = batch(c.ctx, slices.Values(todo), func(r *index.Record) (out again) {
		t.begun.Add(1)
		out.err = spared(r.Name, func() (err error) {
			out.entry, err = c.readAgain(lib, r)
			return err
		})
		return out
	}, func(r *index.Record, a again) error {
		bar.step()
		if a.err != nil {
			bar.clear()
			fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(a.err.Error()))
			c.note(exitUnusable)
			return nil
		}
		return w.Add(*a.entry, "")
	})
	closing := w.Close()
	bar.end()
	fmt.Fprintf(c.stdout, "%d of %d read again; %d in the library\n", t.done.Load(), len(todo), w.Count())
	return c.endOf(err, closing)
}

// again is a paper of the library read again.
type again struct {
	entry *index.Entry
	err   error
}

func (c *console) readAgain(lib *index.Library, r *index.Record) (*index.Entry, error) {
	data, err := lib.Original(r)
	if err != nil {
		return nil, err
	}
	fix, err := lib.Corrections(r)
	if err != nil {
		return nil, err
	}
	entries, err := c.entriesOf(r.Name, data, fix, nil)
	if err != nil {
		return nil, err
	}
	for i := range entries {
		if e := &entries[i]; e.ID == r.ID {
			keepCompletion(lib, r.ID, e)
			e.Added = r.Added
			return e, nil
		}
	}
	return nil, fmt.Errorf("%s: this version finds %d papers in it, not this one; the paper stays as it was", r.Name, len(entries))
}

func rebuildCommand(c *console) *cobra.Command {
	var s *shelf
	cmd := &cobra.Command{
		Use:   "rebuild",
		Short: "Make the search index of the library again from its papers",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			lib, err := s.open(c)
			if err != nil {
				return err
			}
			if err := lib.Rebuild(); err != nil {
				return err
			}
			ids, err := lib.IDs()
			if err != nil {
				return err
			}
			fmt.Fprintf(c.stdout, "the search index was made again from %d papers\n", len(ids))
			return nil
		},
	}
	s = libraryFlags(cmd)
	return cmd
}

func doctorCommand(c *console) *cobra.Command {
	var s *shelf
	var look bool
	cmd := &cobra.Command{
		Use:   "doctor",
		Short: "Check that every paper of the library is whole, and put the search index right",
		Long: `doctor reads every file of the library and compares it with the sum kept of it,
and the search index with the papers. A search index that is damaged or behind
is made again; papers are never changed. Texts that an earlier version cut when
it completed a title page are found by reading the original again; refresh mends
them.

Exit code: 0 all is well, 1 something was damaged and is well again, 2 something
needs a person.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return c.doctor(s, !look) },
	}
	s = libraryFlags(cmd)
	cmd.Flags().BoolVar(&look, "look", false, "only look, put nothing right")
	return cmd
}

// textAgain reads the text of a paper of the library again.
func textAgain(r *index.Record, original []byte) (text []index.Passage, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%s: this paper could not be worked through (%v)", r.Name, p)
		}
	}()
	docs, err := open.ReadAll(original, r.Name)
	if err != nil {
		return nil, err
	}
	for _, doc := range docs {
		if doc.ID == r.ID {
			return index.TextOf(doc), nil
		}
	}
	return nil, fmt.Errorf("%s: this version does not find the paper in it", r.Name)
}

func (c *console) doctor(s *shelf, repair bool) error {
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	papers, complaints, err := lib.Check(repair)
	if err != nil {
		return err
	}
	r := report.Report{Title: fmt.Sprintf("%d papers were checked", papers)}
	if len(complaints) == 0 {
		r.Parts = append(r.Parts, report.Para{Text: "All is well: every paper can be read, every sum agrees, the search index is complete."})
	}
	for _, x := range complaints {
		e := report.Entry{Lead: "damaged", Tone: report.Grave, Head: x.What, Lines: []report.Line{{Label: "do", Text: x.Try}}}
		if x.Healthy {
			e.Lead, e.Tone, e.Lines = "put right", report.Careful, []report.Line{{Label: "done", Text: "the search index was made again from the papers"}}
			c.note(exitAtOdds)
		} else {
			c.note(exitUnusable)
		}
		r.Parts = append(r.Parts, e)
	}
	return report.WriteText(c.stdout, r, c.layout())
}
