package pdf

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/pdf/engine"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/witness"
)

// A testimony is what the witness says of a file.
type testimony struct {
	asked bool
	pages []witness.Page
	err   error // why there are no pages, or no more of them
}

// ask lets the witness read while the engine does.
func ask(w func([]byte) ([]witness.Page, error), data []byte) func() testimony {
	if w == nil {
		return func() testimony { return testimony{} }
	}
	answer := make(chan testimony, 1)
	go func() {
		t := testimony{asked: true}
		defer func() {
			if p := recover(); p != nil {
				t = testimony{asked: true, err: fmt.Errorf("the second PDF reader failed: %v", p)}
			}
			answer <- t
		}()
		t.pages, t.err = w(data)
	}()
	return func() testimony { return <-answer }
}

// opened hands the witness a copy without encryption where the file has one:
// it knows few kinds of it. What it then reads are still the file's own parts.
func opened(e *engine.Engine, w func([]byte) ([]witness.Page, error)) func([]byte) ([]witness.Page, error) {
	if w == nil {
		return nil
	}
	return func(data []byte) ([]witness.Page, error) {
		if engine.Locked(data) {
			ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
			defer cancel()
			if open, err := e.Unlock(ctx, data); err == nil {
				data = open
			}
		}
		return w(data)
	}
}

// What a block says that stands on a page on which the readers differ, or
// which one of them cannot read.
const (
	unlike = "two PDF readers see different digits on this page"
	alone  = "only one of two PDF readers can read this page"
)

// compare marks the pages on which the witness saw digits that the engine did
// not, or that it could not read, and what stands on them.
func (p *paper) compare(pages []*glyph.Page, seen testimony) {
	if !seen.asked {
		return
	}
	said := map[int]*witness.Page{}
	for i := range seen.pages {
		said[seen.pages[i].Number] = &seen.pages[i]
	}
	doubts := map[string]map[int]string{unlike: {}, alone: {}}
	var missed []int
	for _, e := range together(pages) {
		if e.Recognised {
			continue // the witness sees no pictures
		}
		w := said[e.Number]
		if w == nil {
			missed = append(missed, e.Number)
		}
		if doubt := p.hold(&e, w); doubt != "" {
			doubts[doubt][e.Number] = doubt
		}
	}
	if len(missed) > 0 {
		which := "of " + counted(missed)
		if len(seen.pages) == 0 {
			which, missed = "of the file", []int{0}
		}
		p.fault(missed[0], "the second PDF reader reads nothing "+which+": no figure there is read twice", "hold its figures against the printed page; if the paper is not whole, fetch it again").Err = seen.err
	}
	if n := len(seen.pages); n > p.Doc.Pages {
		p.fault(0, fmt.Sprintf("the second PDF reader finds %d pages, the first only %d", n, p.Doc.Pages), "look whether the paper is whole; fetch it again")
	}
	p.doubt(doubts[unlike], unlike)
	p.doubt(doubts[alone], alone)
}

// hold holds a page against what the witness says of it, if it says anything,
// and gives the doubt that this casts.
func (p *paper) hold(e *glyph.Page, w *witness.Page) (doubt string) {
	if e.Objects == 0 && (w == nil || w.Failed != "" || w.Shows) {
		p.fault(e.Number, "nothing is read of this page, and it may not be blank", "look at the page; if it is not blank, fetch the paper again")
		doubt = alone
	}
	switch {
	case w == nil:
		return alone
	case w.Failed != "":
		p.fault(e.Number, "the second PDF reader cannot read this page: "+w.Failed, "hold its figures against the printed page; if the page is not whole, fetch the paper again")
		return alone
	}
	if what := difference(e.Digits, *w); what != "" {
		p.fault(e.Number, unlike+": "+what, "hold its figures against the printed page")
		return unlike
	}
	return doubt
}

// together gives one page for each number: a page set in two directions comes
// as two.
func together(pages []*glyph.Page) []glyph.Page {
	var out []glyph.Page
	for _, p := range pages {
		if n := len(out); n > 0 && out[n-1].Number == p.Number {
			for d := range p.Digits {
				out[n-1].Digits[d] += p.Digits[d]
			}
			out[n-1].Objects += p.Objects
			continue
		}
		out = append(out, *p)
	}
	return out
}

// counted names pages in the order given: "page 4", "pages 4 to 7", "5 pages
// from page 4 on".
func counted(pages []int) string {
	first, last := pages[0], pages[len(pages)-1]
	switch {
	case len(pages) == 1:
		return fmt.Sprintf("page %d", first)
	case last-first == len(pages)-1:
		return fmt.Sprintf("pages %d to %d", first, last)
	}
	return fmt.Sprintf("%d pages from page %d on", len(pages), first)
}

// fault adds a problem of a page, or with 0 of the paper.
func (p *paper) fault(page int, what, try string) *extract.Problem {
	out := &extract.Problem{Place: extract.Place{File: p.Doc.File, Page: page}, What: what, Try: try}
	p.Doc.Problems = append(p.Doc.Problems, out)
	return out
}

// doubt marks the tables and the prose that stand, in part at least, on the
// pages given.
func (p *paper) doubt(pages map[int]string, why string) {
	p.Doc.Doubt(why, func(b extract.Block) bool {
		switch b := b.(type) {
		case *extract.Table:
			return onPages(b, pages)
		case *extract.Prose:
			for n := b.Place.Page; n <= max(b.Place.Page, p.ends[b]); n++ {
				if pages[n] != "" {
					return true
				}
			}
		}
		return false
	})
}

// onPages reports that a table stands, in part at least, on one of the pages.
func onPages(t *extract.Table, pages map[int]string) bool {
	if pages[t.Place.Page] != "" {
		return true
	}
	for _, r := range t.Rows {
		for _, c := range r {
			if pages[c.Place.Page] != "" {
				return true
			}
		}
	}
	return false
}

// difference puts into words how the witness contradicts the engine. The
// witness leaves whole stretches out (forms, fonts it does not know), so that
// fewer digits say little; but a digit more, or the same number of digits and
// not the same ones, is a contradiction.
func difference(n [10]int, w witness.Page) string {
	var more, fewer []string
	for d := range n {
		switch k := w.Digits[d] - n[d]; {
		case k > 0:
			more = append(more, fmt.Sprintf("%d %q more", k, fmt.Sprint(d)))
		case k < 0:
			fewer = append(fewer, fmt.Sprintf("%d %q fewer", -k, fmt.Sprint(d)))
		}
	}
	if len(more) == 0 {
		return ""
	}
	return "the second one " + strings.Join(append(more, fewer...), ", ")
}

// withoutEngine reads what can be read where the engine does not start: the
// witness's text, without columns and tables.
func withoutEngine(data []byte, name string, opt Options, cause error) (*extract.Document, error) {
	pages := ask(opt.Witness, data)().pages
	w := flow.New(name, "pdf")
	for _, p := range pages {
		for _, par := range strings.Split(p.Text, "\n\n") {
			if pr := w.Prose(extract.Paragraph, []extract.Run{{Text: par}}); pr != nil {
				pr.Place.Page = p.Number
			}
		}
	}
	if len(w.Doc.Blocks) == 0 {
		return nil, problem(name, cause.Error(), "read the XML or HTML of the paper", cause)
	}
	doc := w.Finish()
	doc.Pages = len(pages)
	sum := sha256.Sum256(data)
	doc.ID = hex.EncodeToString(sum[:])
	doc.Problems = append(doc.Problems, problem(name,
		"the PDF engine does not start, so that only plain text is read: no tables, columns run together, signs such as ± may be lost",
		"hold every figure against the printed page", cause))
	return doc, nil
}
