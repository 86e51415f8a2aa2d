package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"probity/claims/compare"
	"probity/claims/report"
	"probity/index"
	"probity/index/cite"
)

func citationsCommand(c *console) *cobra.Command {
	var s *shelf
	var format, out, from string
	var names []string
	for _, f := range cite.Formats {
		names = append(names, f.Name)
	}
	cmd := &cobra.Command{
		Use:   "citations [PAPER...]",
		Short: "Write references of the library's papers, or complete title pages from references",
		Long: `citations writes references of the papers named, or of all, as ` + strings.Join(names, ", ") + `.

With --from it reads references (the format is told from the file) and fills in
what title pages lack: title, authors, journal, year, DOI. A reference belongs to
a paper with the same DOI, the same title, the file it names, or whose first page
prints the title. What a paper prints itself is never changed.`,
		Example: `  probity citations --format ris -o shelf.ris
  probity citations --from exported.bib`,
		RunE: func(_ *cobra.Command, args []string) error {
			if from != "" {
				return c.citationsIn(s, from)
			}
			return c.citationsOut(s, args, format, out)
		},
	}
	s = libraryFlags(cmd)
	cmd.Flags().StringVar(&format, "format", "", "how to write them: "+strings.Join(names, ", ")+" (default bibtex, or what the ending of --out says)")
	cmd.Flags().StringVarP(&out, "out", "o", "", "write them to this file")
	cmd.Flags().StringVar(&from, "from", "", "complete title pages from this file")
	return cmd
}

func (c *console) citationsOut(s *shelf, papers []string, format, out string) error {
	var known []ending
	for _, f := range cite.Formats {
		known = append(known, ending{f.Ext, f.Name})
	}
	name, err := formatFor(format, out, "bibtex", known)
	if err != nil {
		return err
	}
	f, err := cite.FormatNamed(name)
	if err != nil {
		return err
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	records, bad := lib.List()
	for _, err := range bad {
		fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(err.Error()))
		c.note(exitUnusable)
	}
	if len(papers) > 0 {
		records = nil
		for _, p := range papers {
			r, err := lib.Resolve(p)
			if err != nil {
				return err
			}
			records = append(records, r)
		}
	}
	var refs []cite.Ref
	for _, r := range records {
		refs = append(refs, refOf(r))
	}
	var b bytes.Buffer
	if err := f.Write(&b, refs); err != nil {
		return err
	}
	if out == "" {
		_, err = c.stdout.Write(b.Bytes())
		return err
	}
	if err := os.WriteFile(out, b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("%s: cannot be written (%v)", out, reason(err))
	}
	return nil
}

func refOf(r *index.Record) cite.Ref {
	ref := cite.Ref{Title: r.Card.Title, Journal: r.Card.Journal, Year: r.Card.Year, DOI: r.Card.DOI}
	if ref.Title == "" {
		ref.Title = filepath.Base(r.Name)
	}
	for _, a := range r.Card.Authors {
		ref.Authors = append(ref.Authors, cite.ParseName(a))
	}
	return ref
}

func (c *console) citationsIn(s *shelf, from string) error {
	data, err := c.readFile(from)
	if err != nil {
		return err
	}
	refs, err := cite.Read(data)
	if err != nil {
		return fmt.Errorf("%s: %w", from, err)
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	w, err := lib.Writer()
	if err != nil {
		return err
	}
	n := 0
	w.OnCommit(func(e index.Entry) { // told when it is safe
		n++
		fmt.Fprintf(c.stdout, "completed  %s  %s\n", short(e.ID), report.Clean(paperLine(&index.Record{Name: e.Name, Card: e.Card})))
	})
	err = c.completeAll(lib, w, refs, filepath.Base(from))
	if closing := w.Close(); err == nil {
		err = closing
	}
	fmt.Fprintf(c.stdout, "%d references, %d papers completed\n", len(refs), n)
	return err
}

func (c *console) completeAll(lib *index.Library, w *index.Writer, refs []cite.Ref, from string) error {
	records, _ := lib.List()
	for _, r := range records {
		ref := refFor(lib, r, refs)
		if ref == nil {
			continue
		}
		card := r.Card
		with := index.Card{Title: ref.Title, Journal: ref.Journal, Year: ref.Year, DOI: ref.DOI}
		for _, a := range ref.Authors {
			with.Authors = append(with.Authors, a.String())
		}
		if !complete(&card, &with, from) {
			continue
		}
		e, err := recarded(lib, r.ID, card)
		if err != nil { // one that is damaged does not end the rest
			fmt.Fprintf(c.stderr, "probity: not completed: %s\n", report.Clean(err.Error()))
			c.note(exitUnusable)
			continue
		}
		if err := w.Add(e, ""); err != nil {
			return err
		}
	}
	return nil
}

// recarded gives a paper with another title page.
func recarded(lib *index.Library, id string, card index.Card) (index.Entry, error) {
	e, err := lib.Entry(id)
	if err != nil {
		return e, err
	}
	e.Card = card
	var p compare.Paper
	if err := json.Unmarshal(e.Compare, &p); err != nil {
		return e, errors.New("papers/" + short(id) + "/kept.txt cannot be read; run probity refresh " + short(id))
	}
	p.Title, p.Authors, p.Journal, p.Year, p.DOI = card.Title, card.Authors, card.Journal, card.Year, card.DOI
	rows, err := json.Marshal(p)
	if err != nil {
		return e, err
	}
	e.Compare = append(rows, '\n')
	return e, nil
}

// titleLetters is the least that makes a title one of its kind.
const titleLetters = 25

// refFor finds the reference of a paper: by DOI, title, file, or the title on
// its first page. A reference with another DOI never fits.
func refFor(lib *index.Library, r *index.Record, refs []cite.Ref) *cite.Ref {
	title := letters(r.Card.Title)
	head := ""
	for i := range refs {
		ref := &refs[i]
		if ref.DOI != "" && r.Card.DOI != "" {
			if ref.DOI == r.Card.DOI {
				return ref
			}
			continue
		}
		t := letters(ref.Title)
		if title != "" && len(t) >= titleLetters && t == title {
			return ref
		}
		if ref.File != "" && ref.File == filepath.Base(r.Name) {
			return ref
		}
		if title == "" && len(t) >= titleLetters {
			if head == "" {
				head = letters(firstWords(lib, r.ID))
			}
			if strings.Contains(head, t) {
				return ref
			}
		}
	}
	return nil
}

// firstWords is the beginning of a paper's text.
func firstWords(lib *index.Library, id string) string {
	text, err := lib.Text(id)
	if err != nil {
		return ""
	}
	var b strings.Builder
	for _, p := range text {
		if b.Len() > 2000 {
			break
		}
		b.WriteString(p.Text + " ")
	}
	return b.String()
}

func letters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}
