package pdf

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/witness"
)

// ask lets the witness read while the engine does. The answer is nil when
// there is none: a witness that cannot read a file says nothing about it.
func ask(w func([]byte) ([]witness.Page, error), data []byte) func() []witness.Page {
	if w == nil {
		return func() []witness.Page { return nil }
	}
	answer := make(chan []witness.Page, 1)
	go func() {
		defer func() {
			if recover() != nil {
				answer <- nil
			}
		}()
		pages, err := w(data)
		if err != nil {
			pages = nil
		}
		answer <- pages
	}()
	return func() []witness.Page { return <-answer }
}

// unlike is what a doubted table says.
const unlike = "two PDF readers see different digits on this page"

// compare marks the pages on which the witness saw digits that the engine did
// not, and what stands on them.
func compare(doc *extract.Document, pages []*glyph.Page, seen []witness.Page) {
	if len(seen) == 0 {
		return
	}
	printed := map[int][10]int{}
	for _, p := range pages {
		n := printed[p.Number]
		for d := range n {
			n[d] += p.Digits[d]
		}
		printed[p.Number] = n
	}
	differ := map[int]string{}
	for _, w := range seen {
		if n, ok := printed[w.Number]; ok && !w.Failed {
			if what := difference(n, w); what != "" {
				differ[w.Number] = what
				doc.Problems = append(doc.Problems, &extract.Problem{
					Place: extract.Place{File: doc.File, Page: w.Number},
					What:  "two PDF readers see different digits on this page: " + what,
					Try:   "hold its figures against the printed page",
				})
			}
		}
	}
	doubt(doc, differ, unlike)
}

// doubt marks the tables and the prose that stand on the pages given.
func doubt(doc *extract.Document, pages map[int]string, why string) {
	for _, b := range doc.Blocks {
		switch b := b.(type) {
		case *extract.Table:
			if onPages(b, pages) {
				b.Doubt = addDoubt(b.Doubt, why)
			}
		case *extract.Prose:
			if pages[b.Place.Page] != "" {
				b.Doubt = addDoubt(b.Doubt, why)
			}
		}
	}
}

func addDoubt(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
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
	total := 0
	for _, k := range n {
		total += k
	}
	seen := w.Total()
	if seen == 0 || total == 0 {
		return ""
	}
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
	pages := ask(opt.Witness, data)()
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
