package index

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// another opens the library as another process does: flock is of the open
// file, so it holds between two of one process too.
func another(l *Library, wait time.Duration, said *[]string) *Library {
	return &Library{Dir: l.Dir, opt: Options{Synonyms: testNames, Wait: wait, Say: func(msg string) { *said = append(*said, msg) }}}
}

// findsBeside searches while a writer is at work, and gives the total.
func findsBeside(t *testing.T, l *Library, q string) int {
	t.Helper()
	var said []string
	r, err := another(l, time.Minute, &said).Reader()
	if err != nil {
		t.Fatalf("beside a writer: %v", err)
	}
	defer r.Close()
	found, err := r.Find(Search{Query: q, Facets: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(said) == 0 || !strings.Contains(said[0], "is changing the library") || !strings.Contains(said[0], "(process ") {
		t.Errorf("beside a writer it says %q; want who changes the library, and that the answer is of a state before", said)
	}
	return found.Total
}

// One paper is one, not "1 papers".
func TestBesideAWriterOfOne(t *testing.T) {
	l := shelf(t, many(1)...)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	var said []string
	r, err := another(l, time.Minute, &said).Reader()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if len(said) == 0 || !strings.HasSuffix(said[0], "with 1 paper") {
		t.Errorf("it says %q, want the one paper at the end", said)
	}
}

// TestFindBesideAWriter searches while writers hold the lock: whatever they do,
// the answer is that of the state before.
func TestFindBesideAWriter(t *testing.T) {
	papers := many(60)
	l := shelf(t, papers[:20]...)
	begin := func() *Writer {
		w, err := l.Writer()
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	end := func(w *Writer, want int) {
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		if found := mustFind(t, l, "NCF"); found.Total != want {
			t.Errorf("after the writer: %d papers, want %d", found.Total, want)
		}
		if _, err := os.Stat(filepath.Join(l.Dir, lastFolder)); !errors.Is(err, os.ErrNotExist) {
			t.Errorf("after the writer its last state is left: %v", err)
		}
	}
	w := begin()
	for _, e := range papers[20:40] {
		if err := w.Add(e, ""); err != nil {
			t.Fatal(err)
		}
	}
	if n := findsBeside(t, l, "NCF"); n != 20 {
		t.Errorf("beside an add: %d papers, want the 20 of before", n)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if n := findsBeside(t, l, "NCF"); n != 20 {
		t.Errorf("beside an add that is not done: %d papers, want the 20 of before", n)
	}
	end(w, 40)

	// A paper that goes and one that changes while they are found.
	w = begin()
	if err := w.Remove(papers[0].ID); err != nil {
		t.Fatal(err)
	}
	changed := papers[1]
	changed.Text = changed.Text[1:]
	changed.Tool = "later"
	if err := w.Add(changed, ""); err != nil {
		t.Fatal(err)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	var said []string
	r, err := another(l, time.Minute, &said).Reader()
	if err != nil {
		t.Fatal(err)
	}
	found, err := r.Find(Search{Query: "NCF", Size: 100})
	if err != nil || found.Total != 40 || len(found.Hits) != 39 || len(said) != 2 || !strings.Contains(said[1], ": 2") {
		t.Errorf("beside a removal and a change: %d of %d papers shown, %v, said %q; want 39 of 40 and two told as changed or gone", len(found.Hits), found.Total, err, said)
	}
	for _, h := range found.Hits {
		if h.Record.ID == changed.ID && len(h.Snippets) > 0 {
			t.Errorf("a paper that has another text by now is shown with places of the old one: %v", h.Snippets)
		}
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	end(w, 38) // one is gone, the other does not say NCF any more

	w = begin()
	for _, e := range papers[40:] {
		if err := w.Add(e, ""); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if n := findsBeside(t, l, "NCF"); n != 38 {
		t.Errorf("beside a third writer: %d papers, want the 38 of before", n)
	}
	end(w, 58)
}

// TestLongAddIsSearched makes a point on the way at which what was brought in
// can be searched, as a long add does now and then.
func TestLongAddIsSearched(t *testing.T) {
	defer func(d time.Duration) { publishFirst = d }(publishFirst)
	publishFirst = 0 // at every paper
	papers := many(30)
	l := shelf(t)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range papers[:20] {
		if err := w.Add(e, ""); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	for findsBeside(t, l, "NCF") < 20 { // they come into the index one by one
	}
	for _, e := range papers[20:] {
		if err := w.Add(e, ""); err != nil {
			t.Fatal(err)
		}
	}
	if n := findsBeside(t, l, "NCF"); n < 20 {
		t.Errorf("%d papers, want the 20 that were found before", n)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if n, complaints, err := l.Check(false); n != 30 || len(complaints) > 0 || err != nil {
		t.Errorf("the doctor says %d papers, %v, %v", n, complaints, err)
	}
	if found := mustFind(t, l, "NCF"); found.Total != 30 {
		t.Errorf("%d papers, want 30", found.Total)
	}
}

// TestReadBesideReplacing lists and reads papers while each is replaced again
// and again: none is missing for a moment, and none is complained of.
func TestReadBesideReplacing(t *testing.T) {
	papers := many(6)
	l := shelf(t, papers...)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	stop := make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
			}
			records, bad := l.List()
			if len(records) != len(papers) || len(bad) > 0 {
				t.Errorf("%d papers of %d are listed, %v", len(records), len(papers), bad)
				return
			}
			for _, e := range papers {
				if _, err := l.Compare(e.ID); err != nil {
					t.Error(err)
					return
				}
			}
		}
	})
	for range 12 {
		for _, e := range papers {
			e.Tool += "+"
			if err := w.Add(e, ""); err != nil {
				t.Error(err)
			}
		}
		w.Commit()
	}
	if err := w.Close(); err != nil {
		t.Error(err)
	}
	close(stop)
	wg.Wait()

	// Where the system cannot exchange folders, one stands aside for a moment.
	if err := os.Rename(l.folder(papers[0].ID), filepath.Join(l.papers(), oldPrefix+papers[0].ID)); err != nil {
		t.Fatal(err)
	}
	if records, bad := l.List(); len(records) != len(papers) || len(bad) > 0 {
		t.Errorf("a folder aside: %d papers of %d are listed, %v", len(records), len(papers), bad)
	}
}

// TestFirstWriters begins one library from several sides at once.
func TestFirstWriters(t *testing.T) {
	const sides, rounds = 3, 6
	papers := many(sides)
	for range rounds {
		dir := filepath.Join(t.TempDir(), "new", "library")
		var wg sync.WaitGroup
		for i := range sides {
			wg.Go(func() {
				w, err := Create(dir, Options{Synonyms: testNames, Wait: time.Minute})
				if err != nil {
					t.Error(err)
					return
				}
				if err := w.Add(papers[i], ""); err != nil {
					t.Error(err)
				}
				if err := w.Close(); err != nil {
					t.Error(err)
				}
			})
		}
		wg.Wait()
		l, err := Open(dir, Options{Synonyms: testNames, Wait: time.Minute})
		if err != nil {
			t.Fatal(err)
		}
		if found := mustFind(t, l, "NCF"); found.Total != sides {
			t.Errorf("%d papers are found, want %d", found.Total, sides)
		}
	}
}

// TestWaitingSaysAndStops holds that a process that waits says so, and that it
// can be told to stop.
func TestWaitingSaysAndStops(t *testing.T) {
	l := shelf(t, many(1)...)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	stop, told := make(chan struct{}), make(chan string, 10)
	second := &Library{Dir: l.Dir, opt: Options{Synonyms: testNames, Wait: time.Hour, Stop: stop, Say: func(msg string) { told <- msg }}}
	ended := make(chan error)
	go func() {
		_, err := second.Writer()
		ended <- err
	}()
	if msg := <-told; !strings.Contains(msg, "in use by another probity (process ") || !strings.Contains(msg, "waiting") {
		t.Errorf("it says %q while it waits", msg)
	}
	close(stop)
	if err := <-ended; err == nil || !strings.Contains(err.Error(), "stopped while waiting") {
		t.Errorf("stopped: %v", err)
	}
}

// BenchmarkPublish measures what every writer pays so that others can search
// meanwhile, and how long it takes to open that state.
func BenchmarkPublish(b *testing.B) {
	l := shelf(b, many(1000)...)
	b.Run("publish", func(b *testing.B) {
		for b.Loop() {
			if !l.publish(1000) {
				b.Fatal("it cannot be published")
			}
		}
	})
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			r := l.lastState("")
			if r == nil {
				b.Fatal("there is nothing published")
			}
			r.Close()
		}
	})
}
