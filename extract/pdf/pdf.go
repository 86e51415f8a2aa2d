// Package pdf reads a paper from a PDF as readers hold it, so that what comes
// out looks like the same paper read from its XML: prose in reading order with
// sections, tables as full rectangles, every piece with its page.
//
//	bytes → engine → glyph.Page → layout → extract.Document
//
// The engine (PDFium) is the only source of figures. A second, independent
// reader can be handed in as Options.Witness; where its digits differ from
// the engine's, or it cannot read a page, the tables and paragraphs of that
// page carry a Doubt and the page a Problem. So do those of a page of whose
// digits many found no place. Package whole says what of the file itself is
// missing.
package pdf

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"strings"
	"sync"
	"time"

	"probity/extract"
	"probity/extract/pdf/engine"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/layout"
	"probity/extract/pdf/whole"
	"probity/extract/pdf/witness"
)

// Options say how to read. The zero value is right for most.
type Options struct {
	// Witness reads the same bytes with an independent reader and gives what
	// it sees, page by page. It must not be able to take this process down:
	// run witness.Main in a process of its own. Nil: nobody is asked.
	Witness func(data []byte) ([]witness.Page, error)
	// Recognise reads a page that is a picture, drawn at ocr.DPI. Nil: such
	// pages are not read, and said to be pictures.
	Recognise func(picture *image.Gray) (*glyph.Page, error)

	Time  time.Duration // allowed for one paper; 0: a minute, or with Recognise half an hour
	Pages int           // read at most; 0: 2,000
}

// maxBytes is far above any paper; scans of whole books are larger.
const maxBytes = 300 << 20

// Read reads one paper with the engine that the whole process shares. The
// error is an *extract.Problem that says what to do; the other limits and
// losses travel in Document.Problems.
func Read(data []byte, name string, opt Options) (*extract.Document, error) {
	e, err := shared()
	if err != nil {
		return withoutEngine(data, name, opt, err)
	}
	return read(e, data, name, opt)
}

// shared starts the engine when the first PDF comes and never again.
var shared = sync.OnceValues(func() (*engine.Engine, error) {
	return engine.Start(engine.Options{})
})

func problem(name, what, try string, err error) *extract.Problem {
	return &extract.Problem{Place: extract.Place{File: name}, What: what, Try: try, Err: err}
}

func read(e *engine.Engine, data []byte, name string, opt Options) (doc *extract.Document, err error) {
	defer func() {
		if p := recover(); p != nil {
			doc, err = nil, problem(name, fmt.Sprintf("the layout of this PDF could not be read (%v)", p), "try another copy of the paper, or its XML or HTML", nil)
		}
	}()
	if len(data) > maxBytes {
		return nil, problem(name, fmt.Sprintf("the PDF has %d MB; at most %d are read", len(data)>>20, maxBytes>>20), "cut out the pages of the paper", nil)
	}
	seen := ask(opened(e, opt.Witness), data)
	var pages []*glyph.Page
	total, bad, err := e.Read(context.Background(), data, opt.limits(), func(p *glyph.Page) {
		pages = append(pages, p)
	})
	if len(pages) == 0 {
		return nil, unreadable(data, name, total, err)
	}
	if p := textless(pages); p != nil {
		p.Place.File = name
		return nil, p
	}
	paper := document(layout.Analyse(pages), name)
	paper.Doc.Pages = total
	sum := sha256.Sum256(data)
	paper.Doc.ID = hex.EncodeToString(sum[:])
	for _, what := range whole.Faults(data, total) {
		paper.fault(0, what+"; text and figures may be missing", "fetch the paper again")
	}
	paper.note(pages, bad, err)
	if note := e.Note(); note != "" {
		paper.fault(0, note, "make the folder writable to start faster")
	}
	paper.markRecognised(pages)
	paper.markUnplaced(pages)
	paper.compare(pages, seen())
	return paper.Doc, nil
}

// unreadable puts the engine's error into words for a reader.
func unreadable(data []byte, name string, pages int, err error) *extract.Problem {
	switch {
	case errors.Is(err, engine.ErrPassword):
		return problem(name, "the PDF is locked with a password", "save a copy without the password and read that", err)
	case errors.Is(err, engine.ErrTime):
		return problem(name, "the PDF could not be read in the time allowed", "save it anew from a PDF viewer, or read the XML or HTML of the paper", err)
	case errors.Is(err, engine.ErrFormat):
		if faults := whole.Faults(data, 0); len(faults) > 0 && bytes.HasPrefix(data, []byte("%PDF-")) {
			return problem(name, "the PDF is damaged beyond reading: "+strings.Join(faults, "; "), "fetch the paper again", err)
		}
		return problem(name, "the file is not a PDF, or it is damaged beyond reading", "fetch the paper again", err)
	case err != nil:
		return problem(name, "the PDF could not be read: "+err.Error(), "fetch the paper again, or read its XML or HTML", err)
	case pages > 0:
		return problem(name, fmt.Sprintf("none of the PDF's %d pages can be read", pages), "fetch the paper again", nil)
	}
	return problem(name, "the PDF holds no pages", "fetch the paper again", nil)
}

// recognise is what a person can do about pages that are pictures.
const recognise = "run text recognition (OCR) over it and read the result; with --ocr that is done here, where tesseract is installed"

// textless reports a paper that is pictures only, or nothing at all.
func textless(pages []*glyph.Page) *extract.Problem {
	glyphs, pictures, scanned := 0, 0, 0
	for _, p := range pages {
		glyphs += len(p.Glyphs)
		pictures += len(p.Pictures)
		if p.Scanned() {
			scanned++
		}
	}
	switch {
	case scanned > 0 && scanned == len(pages), glyphs < 20 && pictures > 0:
		return &extract.Problem{What: "the PDF has no text layer: its pages are pictures", Try: recognise}
	case glyphs == 0:
		return &extract.Problem{What: "nothing is printed on the PDF's pages as text", Try: "if the pages show text it is drawn: " + recognise}
	}
	return nil
}

// note adds what was lost on the way.
func (p *paper) note(pages []*glyph.Page, bad []int, err error) {
	for _, run := range stretches(bad) {
		what := "the page cannot be read"
		if len(run) > 1 {
			what = counted(run) + " cannot be read"
		}
		p.fault(run[0], what, "fetch the paper again")
	}
	if err != nil {
		p.fault(0, "reading stopped early: "+err.Error(), "what follows in the paper is missing here").Err = err
	}
	for _, g := range pages {
		switch {
		case g.Turned == 0 && g.Scanned():
			p.fault(g.Number, "the page is a picture without text", recognise)
		case g.Turned == 0 && g.Stamped():
			p.fault(g.Number, "the page is a picture with hardly any text of its own", recognise)
		case g.Ink:
			p.fault(g.Number, "nothing on the page is text; what it shows is drawn", "if it shows text or figures: "+recognise)
		}
		if g.Hidden > 0 {
			p.fault(g.Number, "the text is recognised text under a picture", "hold its figures against the picture")
		}
		if n := unnamed(g); n > 0 {
			p.fault(g.Number, fmt.Sprintf("%d printed characters have no name in their fonts and stand as \ufffd", n), "look at the page where they touch a figure")
		}
	}
}

// stretches parts pages into stretches without a gap.
func stretches(pages []int) (out [][]int) {
	for i, n := range pages {
		if i == 0 || n != pages[i-1]+1 {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], n)
	}
	return out
}

func unnamed(p *glyph.Page) int {
	n := 0
	for i := range p.Glyphs {
		if p.Glyphs[i].Rune == '\ufffd' {
			n++
		}
	}
	return n
}
