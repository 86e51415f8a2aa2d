package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/index"
)

func addCommand(c *console) *cobra.Command {
	var both bool
	var made string
	var shelf *shelf
	cmd := &cobra.Command{
		Use:   "add PATH...",
		Short: "Read papers, audit them and keep them in the library",
		Long: `add reads papers, audits them and keeps them in the library. PATH is a file, a
folder that is searched for papers, an archive (.zip, .tar, .tar.gz, .tgz) of
papers, or - for a list of paths on standard input, one a line. A file may hold
several papers.

Each paper is told as new, changed (other bytes, other corrections, or a later
version of probity), duplicate (the same DOI, or the same text in another
format; not kept unless --duplicates) or refused. What is in the library
unchanged is passed over, so that a run that was interrupted goes on when it is
started again. A paper told as new or changed is safe on the disk.

A paper itself cannot be given on standard input; audit - takes one.

Exit code: 0 all papers could be used, 2 something could not, or it was stopped.`,
		Example: `  probity add papers/ shelf.zip
  find ~/papers -name '*.pdf' | probity add -
  probity audit --format json papers/ > audits.jsonl; probity add --from-audit audits.jsonl`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && made == "" {
				return errors.New("no paper is named; give files, folders, archives, or - for a list of paths")
			}
			return c.add(shelf, args, made, both)
		},
	}
	shelf = libraryFlags(cmd)
	cmd.Flags().BoolVar(&both, "duplicates", false, "keep papers that are there already from another file")
	cmd.Flags().StringVar(&made, "from-audit", "", "take the judging from audits made elsewhere (JSON Lines); the papers named there are read")
	return cmd
}

// memoryAim makes the collector work harder before the programme grows beyond
// what a small machine has to spare.
const memoryAim = 400 << 20

func (c *console) add(s *shelf, paths []string, made string, both bool) (err error) {
	audits, named, err := c.fromElsewhere(made)
	if err != nil {
		return err
	}
	in, err := c.sourcesOf(append(paths, named...))
	if err != nil {
		return err
	}
	defer in.done()
	w, err := index.Create(s.folder(), s.options(c))
	if err != nil {
		return err
	}
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(memoryAim))
	a := &adding{console: c, w: w, both: both, last: time.Now(), standings: map[string]string{}, counts: map[string]int{}, bar: newProgress(c, in.total),
		tally: c.begin(in.total, "what is told as new or changed is safe, run the same command to go on")}
	w.OnCommit(func(e index.Entry) {
		a.mu.Lock()
		defer a.mu.Unlock()
		a.say(a.standings[e.ID], e.Name, short(e.ID)+"  "+e.Card.Title)
		delete(a.standings, e.ID)
	})
	for _, p := range in.bad {
		a.refuse(p)
	}
	err = a.all(in, audits)
	closing := w.Close()
	a.bar.end()
	a.summary(w.Count())
	return c.endOf(err, closing)
}

// endOf joins the errors of writing to the library and of closing it. Of a
// command that was stopped the program says how far it came.
func (c *console) endOf(err, closing error) error {
	if err != errStopped {
		return errors.Join(err, closing)
	}
	if closing != nil {
		fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(closing.Error()))
	}
	return err
}

// adding is one run of add.
type adding struct {
	*console
	w    *index.Writer
	both bool
	last time.Time

	mu        sync.Mutex // papers are told from the goroutine that commits, too
	bar       *progress
	tally     *tally
	standings map[string]string // of entries not yet safe
	counts    map[string]int
}

// A prepared source is read and judged, or was found unchanged.
type prepared struct {
	entries []index.Entry
	same    bool
	err     error
}

// all reads side by side and adds in order.
func (a *adding) all(in *sources, audits *elsewhere) error {
	return batch(a.ctx, in.each, func(src source) prepared { return a.prepare(src, audits) },
		func(_ source, p prepared) error { return a.take(p) })
}

// prepare reads and judges one source.
func (a *adding) prepare(src source, audits *elsewhere) (out prepared) {
	a.tally.begun.Add(1)
	err := spared(src.name, func() (err error) {
		out, err = a.judge(src, audits)
		return err
	})
	if err != nil {
		return prepared{err: err}
	}
	return out
}

func (a *adding) judge(src source, audits *elsewhere) (prepared, error) {
	if src.err != nil {
		return prepared{}, src.err
	}
	data, err := src.read()
	if err != nil {
		return prepared{}, err
	}
	fix, err := src.fix()
	if err != nil {
		return prepared{}, err
	}
	if a.w.Has(hash(data), fix, version()) {
		return prepared{same: true}, nil
	}
	entries, err := a.entriesOf(src.name, data, fix, audits)
	return prepared{entries: entries}, err
}

// commitAfter bounds how much work a kill may cost when papers come slowly.
const commitAfter = 2 * time.Second

// take adds what was prepared. An error is one of the library itself.
func (a *adding) take(p prepared) error {
	a.mu.Lock()
	switch {
	case p.err != nil:
		a.refuse(p.err)
	case p.same:
		a.count("unchanged")
	}
	a.bar.step()
	a.mu.Unlock()
	for i := range p.entries {
		if err := a.one(&p.entries[i]); err != nil {
			return err
		}
	}
	if time.Since(a.last) > commitAfter {
		a.last = time.Now()
		a.w.Commit()
	}
	return nil
}

func (a *adding) one(e *index.Entry) error {
	standing, other, why := a.w.Stands(e)
	switch standing {
	case index.Unchanged:
		a.told(func() { a.count("unchanged") })
		return nil
	case index.Duplicate:
		if !a.both {
			a.told(func() { a.say("duplicate", e.Name, fmt.Sprintf("%s of %s: %s", short(e.ID), short(other), why)) })
			return nil
		}
	case index.Changed:
		keepCompletion(a.w.Library, other, e)
		a.told(func() { a.standings[e.ID] = "changed" })
		return a.w.Add(*e, other)
	}
	a.told(func() { a.standings[e.ID] = "new" })
	return a.w.Add(*e, "")
}

func (a *adding) told(f func()) {
	a.mu.Lock()
	defer a.mu.Unlock()
	f()
}

func (a *adding) count(what string) {
	a.counts[what]++
	a.tally.done.Add(1)
}

// say tells what became of a paper, a line each.
func (a *adding) say(what, name, more string) {
	a.count(what)
	a.bar.clear()
	fmt.Fprintf(a.stdout, "%-9s  %s  %s\n", what, report.Clean(name), report.Clean(more))
}

func (a *adding) refuse(err error) {
	a.count("refused")
	a.note(exitUnusable)
	a.bar.clear()
	fmt.Fprintf(a.stderr, "refused    %s\n", report.Clean(err.Error()))
}

func (a *adding) summary(total int) {
	var parts []string
	for _, k := range []string{"new", "changed", "unchanged", "duplicate", "refused"} {
		if n := a.counts[k]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, k))
		}
	}
	if len(parts) == 0 {
		parts = []string{"nothing new"}
	}
	fmt.Fprintf(a.stdout, "%s; %d in the library\n", strings.Join(parts, ", "), total)
}

// fromElsewhere reads audits made elsewhere and names their papers. Lines that
// cannot be used are told; their papers are read and judged here.
func (c *console) fromElsewhere(path string) (*elsewhere, []string, error) {
	if path == "" {
		return nil, nil, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: cannot be read (%v); check the path", path, reason(err))
	}
	defer f.Close()
	e := &elsewhere{lines: map[string][][]byte{}}
	var names []string
	seen := map[string]bool{}
	in := bufio.NewScanner(f)
	in.Buffer(nil, 256<<20)
	for n := 1; in.Scan(); n++ {
		line := bytes.TrimSpace(in.Bytes())
		if len(line) == 0 {
			continue
		}
		a, err := readAuditLine(line)
		if a.Paper.File != "" && !seen[a.Paper.File] {
			seen[a.Paper.File] = true
			names = append(names, reach(a.Paper.File, path))
		}
		if err != nil {
			fmt.Fprintf(c.stderr, "probity: %s line %d does not count: %s; the paper is judged here\n", path, n, report.Clean(err.Error()))
			continue
		}
		e.lines[a.Paper.SHA256] = append(e.lines[a.Paper.SHA256], append(bytes.Clone(line), '\n'))
	}
	if err := in.Err(); err != nil {
		return nil, nil, fmt.Errorf("%s: cannot be read (%v)", path, err)
	}
	return e, names, nil
}

// reach finds a paper that an audit names: from here, or from beside the audit.
func reach(name, audit string) string {
	if _, err := os.Stat(name); err != nil && !filepath.IsAbs(name) {
		if beside := filepath.Join(filepath.Dir(audit), name); beside != name {
			if _, err := os.Stat(beside); err == nil {
				return beside
			}
		}
	}
	return name
}

// keepCompletion carries over what a person completed on the title page.
func keepCompletion(l *index.Library, id string, e *index.Entry) {
	old, err := l.Record(id)
	if err != nil || old.Card.Completed == "" {
		return
	}
	complete(&e.Card, &old.Card, old.Card.Completed)
}

// complete fills in what a card lacks.
func complete(card, from *index.Card, file string) bool {
	changed := false
	set := func(to *string, value string) {
		if *to == "" && value != "" {
			*to, changed = value, true
		}
	}
	set(&card.Title, from.Title)
	set(&card.Journal, from.Journal)
	set(&card.DOI, from.DOI)
	if card.Year == 0 && from.Year > 0 {
		card.Year, changed = from.Year, true
	}
	if len(card.Authors) == 0 && len(from.Authors) > 0 {
		card.Authors, changed = from.Authors, true
	}
	if changed {
		card.Completed = file
	}
	return changed
}
