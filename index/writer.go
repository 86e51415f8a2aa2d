package index

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/blevesearch/bleve/v2"
)

// A Writer changes a library. It holds the lock from Writer to Close; at most
// one process has one.
type Writer struct {
	*Library
	held  *lock
	words words
	idx   bleve.Index
	batch *bleve.Batch
	jobs  chan job // to the goroutine that owns the index
	ended chan error

	mu       sync.RWMutex      // for Has, which other goroutines may ask
	papers   map[string]*known // by id
	byDOI    map[string]string
	byName   map[string]string
	byHash   map[uint64][]string // the sketches
	inColl   map[string]int      // papers of each collection
	unread   int                 // papers whose record cannot be read
	kept     map[string]bool     // collections known to be on the disk whole
	waiting  []*written
	batches  chan []*written // to the goroutine that commits
	idle     sync.WaitGroup  // batches not yet committed
	failed   atomic.Pointer[error]
	writing  chan struct{} // bounds how many folders are written at a time
	onCommit func(Entry)
	changed  atomic.Bool
}

// known is what the writer remembers of a paper in the library.
type known struct {
	name, doi, corrections, tool, collection, rev, completed string
	total                                                    int
	sketch                                                   sketch
}

// A written entry is on its way to the disk until done is closed.
type written struct {
	entry  Entry
	record *Record
	temp   string
	done   chan struct{}
	err    error
}

type job struct {
	record *Record
	text   []Passage
	remove string
	caught bool // the index agrees with the folders from here on
}

// Writer locks the library for writing, clears away what an ended process left
// behind and brings the index up to the folders.
func (l *Library) Writer() (*Writer, error) {
	held, err := l.lock(true)
	if err != nil {
		return nil, err
	}
	return l.writer(held)
}

// writer begins to write under a lock, which it frees where it cannot.
func (l *Library) writer(held *lock) (*Writer, error) {
	w := &Writer{Library: l, held: held, words: l.words()}
	if err := w.begin(); err != nil {
		held.free()
		return nil, err
	}
	return w, nil
}

func (w *Writer) begin() error {
	if err := w.clear(); err != nil {
		return err
	}
	if err := w.remember(); err != nil {
		return err
	}
	if err := w.openIndex(); err != nil {
		return err
	}
	w.batches, w.writing = make(chan []*written, 2), make(chan struct{}, 4)
	go w.commits()
	return nil
}

// clear finishes or takes back what was being written when a process ended.
func (w *Writer) clear() error {
	for _, dir := range []string{w.Dir, w.root()} {
		entries, err := os.ReadDir(dir)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("the library cannot be read: %w", err)
		}
		for _, e := range entries {
			path := filepath.Join(dir, e.Name())
			switch id, old := strings.CutPrefix(e.Name(), oldPrefix); {
			case strings.HasPrefix(e.Name(), tempPrefix):
				err = os.RemoveAll(path)
			case old:
				if _, missing := os.Stat(filepath.Join(dir, id)); missing != nil && isID(id) {
					err = os.Rename(path, filepath.Join(dir, id))
				} else {
					err = os.RemoveAll(path)
				}
			}
			if err != nil {
				return fmt.Errorf("the library cannot be tidied: %w", err)
			}
		}
	}
	return nil
}

func (w *Writer) root() string { return w.Library.papers() }

// remember reads what tells papers apart.
func (w *Writer) remember() error {
	w.papers, w.byDOI, w.byName = map[string]*known{}, map[string]string{}, map[string]string{}
	w.byHash, w.inColl, w.kept = map[uint64][]string{}, map[string]int{}, map[string]bool{}
	records, bad := w.List()
	w.unread = len(bad)
	for _, err := range bad {
		w.say("%v", err)
	}
	revs := make([]string, len(records))
	each(len(records), func(i int) { revs[i] = records[i].revision() })
	for i, r := range records {
		w.note(r, revs[i])
	}
	return nil
}

func (w *Writer) note(r *Record, rev string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	k := &known{name: r.Name, doi: r.Card.DOI, corrections: r.Corrections, tool: r.Tool, collection: r.Collection, total: r.Total,
		rev: rev, sketch: r.Sketch, completed: r.Card.Completed}
	w.papers[r.ID] = k
	if k.doi != "" {
		w.byDOI[k.doi] = r.ID
	}
	w.byName[k.name] = r.ID
	for _, h := range k.sketch {
		w.byHash[h] = append(w.byHash[h], r.ID)
	}
	if k.collection != "" {
		w.inColl[k.collection]++
	}
}

func (w *Writer) forget(id string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	k := w.papers[id]
	if k == nil {
		return
	}
	delete(w.papers, id)
	if w.byDOI[k.doi] == id {
		delete(w.byDOI, k.doi)
	}
	if w.byName[k.name] == id {
		delete(w.byName, k.name)
	}
	for _, h := range k.sketch {
		w.byHash[h] = slices.DeleteFunc(w.byHash[h], func(other string) bool { return other == id })
	}
	if k.collection != "" {
		w.inColl[k.collection]--
	}
}

// Has reports whether a file is in the library already, unchanged: the same
// bytes with the same corrections, read by the same version. For a file of
// several papers all of them must be there. Any goroutine may ask.
func (w *Writer) Has(original string, corrections []byte, tool string) bool {
	w.mu.RLock()
	defer w.mu.RUnlock()
	wantFix := ""
	if corrections != nil {
		wantFix = sum(corrections)
	}
	if k := w.papers[original]; k != nil && k.corrections == wantFix && k.tool == tool && k.collection == "" {
		return true
	}
	if w.inColl[original] == 0 {
		return false
	}
	have := 0
	for _, k := range w.papers {
		if k.collection != original {
			continue
		}
		if k.corrections != wantFix || k.tool != tool {
			return false
		}
		if have++; have == k.total {
			return true
		}
	}
	return false
}

// Standing says how an entry stands to what is in the library.
type Standing int

// The standings.
const (
	New       Standing = iota
	Unchanged          // the same bytes, corrections and version
	Changed            // another version of a paper that is there: it takes its place
	Duplicate          // the same paper from another file
)

// String names the standing.
func (s Standing) String() string {
	return [...]string{"new", "unchanged", "changed", "duplicate"}[s]
}

// Stands says how an entry stands to the library, to which paper, and why.
func (w *Writer) Stands(e *Entry) (s Standing, other, why string) {
	fix := ""
	if e.Corrections != nil {
		fix = sum(e.Corrections)
	}
	if k := w.papers[e.ID]; k != nil {
		switch {
		case k.corrections != fix:
			return Changed, e.ID, "its corrections"
		case k.tool != e.Tool:
			return Changed, e.ID, "read by another version"
		case e.Card.Completed != "" && k.completed != e.Card.Completed:
			return Changed, e.ID, "its title page"
		}
		return Unchanged, e.ID, "the same bytes"
	}
	like, share := w.mostAlike(e)
	if id := w.byName[e.Name]; id != "" {
		k := w.papers[id]
		if e.Card.DOI != "" && e.Card.DOI == k.doi || id == like {
			return Changed, id, "the file has other bytes now"
		}
	}
	if id := w.byDOI[e.Card.DOI]; id != "" && e.Card.DOI != "" {
		return Duplicate, id, "the same DOI"
	}
	if like != "" {
		k := w.papers[like]
		if e.Card.DOI == "" || k.doi == "" || e.Card.DOI == k.doi {
			return Duplicate, like, fmt.Sprintf("about %.0f %% of the text is the same", 100*share)
		}
	}
	return New, "", ""
}

// mostAlike finds the paper whose text is the same, if any.
func (w *Writer) mostAlike(e *Entry) (id string, share float64) {
	s := e.Sketched()
	common := map[string]int{}
	for _, h := range s {
		for _, id := range w.byHash[h] {
			common[id]++
		}
	}
	for _, other := range slices.Sorted(maps.Keys(common)) {
		if common[other] < sketchSize/4 {
			continue
		}
		if a := s.alike(w.papers[other].sketch); a >= sameText && a > share {
			id, share = other, a
		}
	}
	return id, share
}

// OnCommit sets what is called for each entry once it is safe on the disk. It
// is called from another goroutine, one entry at a time.
func (w *Writer) OnCommit(f func(Entry)) { w.onCommit = f }

// commitEvery bounds how many papers a kill may cost.
const commitEvery = 48

// Add takes an entry in. It is safe when OnCommit says so: after Commit, or
// when enough more entries came. An entry with the id of a paper in the library
// replaces it; replaces names another paper that goes when this one comes. The
// error may be that of an entry before.
func (w *Writer) Add(e Entry, replaces string) error {
	if !isID(e.ID) {
		return fmt.Errorf("%s: %q is not the id of a paper", e.Name, e.ID)
	}
	if err := w.failed.Load(); err != nil {
		return *err
	}
	e.Text = inLines(e.Text)
	if w.papers[e.ID] != nil { // the same folder must not be written twice at a time
		if err := w.Flush(); err != nil {
			return err
		}
	}
	r := &Record{Schema: layout, ID: e.ID, Name: e.Name, SHA256: sum(e.Original), Size: len(e.Original), Collection: e.Collection, Nth: e.Nth,
		Total: e.Total, Tool: e.Tool, Added: e.Added.UTC(), Card: e.Card, Sketch: e.Sketched()}
	if e.Corrections != nil {
		r.Corrections = sum(e.Corrections)
	}
	if e.Collection != "" {
		if err := w.keepCollection(e); err != nil {
			return fmt.Errorf("%s: cannot be written to the library: %w", e.Name, cause(err))
		}
	}
	x := &written{entry: e, record: r, temp: filepath.Join(w.root(), tempPrefix+e.ID), done: make(chan struct{})}
	w.waiting = append(w.waiting, x)
	w.writing <- struct{}{}
	go func() {
		w.write(x)
		<-w.writing
	}()
	w.forget(e.ID)
	w.note(r, "")
	if replaces != "" && replaces != e.ID {
		if err := w.Flush(); err != nil { // the new one is there before the old one goes
			return err
		}
		return w.Remove(replaces)
	}
	if len(w.waiting) >= commitEvery {
		w.Commit()
	}
	return nil
}

// write writes the folder of an entry and says when it is done.
func (w *Writer) write(x *written) {
	defer close(x.done)
	x.err = spared(func() error { return w.writeFolder(x.temp, x.entry, x.record) })
}

// spared runs f. A panic becomes an error: it must not end the program while
// other papers are on their way to the disk.
func spared(f func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%v; this is a fault of probity, please report it", p)
		}
	}()
	return f()
}

func (w *Writer) writeFolder(temp string, e Entry, r *Record) error {
	if err := os.Mkdir(temp, 0o755); err != nil {
		return err
	}
	if e.Collection == "" {
		if err := os.WriteFile(filepath.Join(temp, "original"), e.Original, 0o644); err != nil {
			return err
		}
	}
	if e.Corrections != nil {
		if err := os.WriteFile(filepath.Join(temp, "corrections.csv"), e.Corrections, 0o644); err != nil {
			return err
		}
	}
	after, err := rest(&e)
	if err != nil {
		return err
	}
	r.Rest = sum(after)
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(r); err != nil {
		return err
	}
	b.Write(after)
	return os.WriteFile(filepath.Join(temp, keptFile), b.Bytes(), 0o644)
}

// keepCollection keeps a file of several papers once. One that is there with
// other bytes was damaged, and is written again.
func (w *Writer) keepCollection(e Entry) error {
	if w.kept[e.Collection] {
		return nil
	}
	path := filepath.Join(w.Dir, "collections", e.Collection)
	if have, err := os.ReadFile(path); err != nil || !bytes.Equal(have, e.Original) {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := writeFile(path, e.Original); err != nil {
			return err
		}
	}
	w.kept[e.Collection] = true
	return nil
}

// Commit has what was added brought to the disk, and does not wait for it.
func (w *Writer) Commit() {
	if len(w.waiting) == 0 {
		return
	}
	w.idle.Add(1)
	w.batches <- w.waiting
	w.waiting = nil
}

// Flush commits and waits until it is done.
func (w *Writer) Flush() error {
	w.Commit()
	w.idle.Wait()
	if err := w.failed.Load(); err != nil {
		return *err
	}
	return nil
}

// commits is the goroutine that brings batches to the disk, in order.
func (w *Writer) commits() {
	for batch := range w.batches {
		broken := true
		err := spared(func() (err error) { err, broken = w.commit(batch), false; return err })
		if broken {
			err = fmt.Errorf("the library broke off (%w); what is in it is safe, run the command again", err)
		}
		if err != nil {
			w.failed.CompareAndSwap(nil, &err)
		}
		w.idle.Done()
	}
}

// commit brings a batch to the disk, puts it in its place, tells the caller
// and hands it to the index. After a failure nothing more is committed.
func (w *Writer) commit(batch []*written) error {
	folders := make([]string, len(batch))
	for i, x := range batch {
		folders[i] = x.temp
		if <-x.done; x.err != nil {
			return fmt.Errorf("%s: cannot be written to the library: %w", x.record.Name, cause(x.err))
		}
	}
	if w.failed.Load() != nil {
		return nil
	}
	if err := syncAll(w.root(), folders); err != nil {
		return fmt.Errorf("the library cannot be brought to the disk: %w", err)
	}
	for _, x := range batch {
		if err := w.place(x.temp, x.record.ID); err != nil {
			return fmt.Errorf("%s: cannot be put in its place in the library: %w", x.record.Name, err)
		}
	}
	syncDir(w.root())
	for _, x := range batch {
		if w.onCommit != nil {
			w.onCommit(x.entry)
		}
	}
	for _, x := range batch {
		w.send(job{record: x.record, text: x.entry.Text})
	}
	return nil
}

// place renames a finished folder to its name. Where the system cannot exchange
// it with the folder that is there, that one goes to the side first: clear
// brings it back if the process ends in between.
func (w *Writer) place(temp, id string) error {
	final, old := w.folder(id), filepath.Join(w.root(), oldPrefix+id)
	if exchange(temp, final) == nil {
		return os.RemoveAll(temp)
	}
	replaced := false
	if _, err := os.Stat(final); err == nil {
		if err := os.Rename(final, old); err != nil {
			return err
		}
		replaced = true
	}
	if err := os.Rename(temp, final); err != nil {
		return err
	}
	if replaced {
		return os.RemoveAll(old)
	}
	return nil
}

// syncDir brings the renames to the disk; not every system can.
func syncDir(dir string) {
	if f, err := os.Open(dir); err == nil {
		f.Sync()
		f.Close()
	}
}

// Remove takes a paper out of the library.
func (w *Writer) Remove(id string) error {
	k := w.papers[id]
	if k == nil && !isID(id) {
		return fmt.Errorf("%q is not in the library", id)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	gone := filepath.Join(w.root(), tempPrefix+"gone-"+id)
	if err := os.Rename(w.folder(id), gone); err != nil {
		return fmt.Errorf("the paper cannot be removed: %w", cause(err))
	}
	if err := os.RemoveAll(gone); err != nil {
		return fmt.Errorf("the paper cannot be removed: %w", err)
	}
	w.forget(id)
	if k != nil && k.collection != "" && w.inColl[k.collection] <= 0 && w.unread == 0 { // one that cannot be read may need it
		delete(w.kept, k.collection)
		if err := os.Remove(filepath.Join(w.Dir, "collections", k.collection)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("the collection cannot be removed: %w", err)
		}
	}
	w.send(job{remove: id})
	return nil
}

// Count is how many papers the library holds, those not yet safe included.
func (w *Writer) Count() int { return len(w.papers) }

// Close commits, closes the index in order and frees the library.
func (w *Writer) Close() error {
	defer w.held.free()
	err := w.Flush()
	close(w.batches)
	if closing := w.closeIndex(); err == nil {
		err = closing
	}
	return err
}
