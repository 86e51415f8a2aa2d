package engine

import (
	"context"
	"errors"
	"fmt"

	"probity/extract/pdf/glyph"
)

// fpdfErrPassword is FPDF_ERR_PASSWORD of PDFium's public header fpdfview.h;
// FPDF_ERR_SECURITY, an unknown way of locking, is for the reader the same.
const (
	fpdfErrPassword = 4
	fpdfErrSecurity = 5
)

// An event is what the goroutine that owns an instance reports.
type event struct {
	sheets []*glyph.Page
	pages  int
	bad    int // a page that could not be read
	err    error
	last   bool
}

// Read gives every page to visit, in order; a page set in two directions comes
// as two. A page that cannot be read is left out and named in bad. The error
// says that nothing could be opened, or why reading stopped early.
//
// A call into PDFium cannot be interrupted at a bearable price (checking for it
// makes a page five times slower), so a document that overstays its time is
// abandoned: Read returns, and the instance is thrown away when it returns.
func (e *Engine) Read(ctx context.Context, data []byte, lim Limits, visit func(*glyph.Page)) (pages int, bad []int, err error) {
	lim = lim.fill()
	ctx, cancel := context.WithTimeout(ctx, lim.Time)
	defer cancel()
	select {
	case e.slots <- struct{}{}:
		defer func() { <-e.slots }()
	case <-ctx.Done():
		return 0, nil, ErrTime
	}
	events := make(chan event)
	go e.work(ctx, data, lim, events)
	for {
		select {
		case <-ctx.Done():
			return pages, bad, ErrTime
		case ev := <-events:
			if ev.pages > 0 {
				pages = ev.pages
			}
			if ev.bad > 0 {
				bad = append(bad, ev.bad)
			}
			for _, s := range ev.sheets {
				visit(s)
			}
			if ev.last {
				return pages, bad, ev.err
			}
		}
	}
}

// work owns one instance from birth to death. It never blocks on a reader that
// has gone.
func (e *Engine) work(ctx context.Context, data []byte, lim Limits, events chan<- event) {
	send := func(ev event) bool {
		select {
		case events <- ev:
			return true
		case <-ctx.Done():
			return false
		}
	}
	var err error
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the PDF engine failed: %v", p)
		}
		send(event{err: err, last: true})
	}()
	r, done, err2 := e.instance(ctx)
	if err2 != nil {
		err = err2
		return
	}
	defer done()
	err = r.document(data, lim, send)
}

func (r *raw) document(data []byte, lim Limits, send func(event) bool) error {
	doc, err := r.open(data)
	if err != nil {
		return err
	}
	pages := r.count("FPDF_GetPageCount", uint64(doc))
	s := newScratch(r)
	for i := 0; i < pages && i < lim.Pages; i++ {
		ev := event{pages: pages}
		p, err := s.page(doc, i, lim)
		if r.err != nil { // the instance itself is broken: nothing more can come
			return fmt.Errorf("page %d: %w", i+1, r.err)
		}
		if err != nil {
			ev.bad = i + 1
		} else {
			ev.sheets = p.sheets()
			if p.drawn != nil {
				ev.sheets = []*glyph.Page{p.drawn}
			}
		}
		if !send(ev) {
			return ErrTime
		}
	}
	if pages > lim.Pages {
		return fmt.Errorf("only the first %d of %d pages are read", lim.Pages, pages)
	}
	return r.err
}

func (r *raw) open(data []byte) (uint32, error) {
	buf := r.alloc(len(data) + 1)
	empty := r.alloc(4)
	if r.err != nil {
		return 0, r.err
	}
	if !r.mem.Write(buf, data) || !r.mem.Write(empty, []byte{0, 0, 0, 0}) {
		return 0, errors.New("the PDF does not fit into the memory one document may take")
	}
	doc := uint32(r.call("FPDF_LoadMemDocument", uint64(buf), uint64(len(data)), uint64(empty)))
	if r.err != nil {
		return 0, r.err
	}
	if doc != 0 {
		return doc, nil
	}
	switch r.call("FPDF_GetLastError") {
	case fpdfErrPassword, fpdfErrSecurity:
		return 0, ErrPassword
	}
	return 0, ErrFormat
}
