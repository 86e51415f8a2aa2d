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
	waiting  []*written
	onCommit func(Entry)
	changed  bool
}

// known is what the writer remembers of a paper in the library.
type known struct {
	name, doi, corrections, tool, collection, rev, completed string
	total                                                    int
	sketch                                                   sketch
}

type written struct {
	entry  Entry
	record *Record
	temp   string
}

type job struct {
	record *Record
	text   []Passage
	remove string
	done   chan struct{} // flush, then close it
}

// Writer locks the library for writing, clears away what an ended process left
// behind and brings the index up to the folders.
func (l *Library) Writer() (*Writer, error) {
	held, err := take(l.Dir, true, l.opt.Wait)
	if err != nil {
		return nil, err
	}
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
	return w.openIndex()
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
			case strings.HasPrefix(e.Name(), tempPrefix), e.Name() == newFolder:
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
	w.byHash, w.inColl = map[uint64][]string{}, map[string]int{}
	records, bad := w.List()
	for _, err := range bad {
		w.say("%v", err)
	}
	for _, r := range records {
		w.note(r)
	}
	return nil
}

func (w *Writer) note(r *Record) {
	w.mu.Lock()
	defer w.mu.Unlock()
	k := &known{name: r.Name, doi: r.Card.DOI, corrections: r.Corrections, tool: r.Tool, collection: r.Collection, total: r.Total,
		rev: r.revision(), sketch: r.Sketch, completed: r.Card.Completed}
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
	s := sketchOf(e.Text)
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

// OnCommit sets what is called for each entry once it is safe on the disk.
func (w *Writer) OnCommit(f func(Entry)) { w.onCommit = f }

// commitEvery bounds how many papers a kill may cost.
const commitEvery = 48

// Add writes an entry. It is safe when Commit, or enough more entries, came.
// An entry with the id of a paper in the library replaces it; replaces names
// another paper that goes when this one comes.
func (w *Writer) Add(e Entry, replaces string) error {
	if !isID(e.ID) {
		return fmt.Errorf("%s: %q is not the id of a paper", e.Name, e.ID)
	}
	r := &Record{Schema: layout, ID: e.ID, Name: e.Name, SHA256: sum(e.Original), Size: len(e.Original), Collection: e.Collection, Nth: e.Nth,
		Total: e.Total, Tool: e.Tool, Added: e.Added.UTC(), Card: e.Card, Sketch: sketchOf(e.Text), Sums: map[string]string{}}
	if e.Corrections != nil {
		r.Corrections = sum(e.Corrections)
	}
	temp := filepath.Join(w.root(), tempPrefix+e.ID)
	if err := w.writeFolder(temp, e, r); err != nil {
		os.RemoveAll(temp)
		return fmt.Errorf("%s: cannot be written to the library: %w", e.Name, cause(err))
	}
	w.waiting = append(w.waiting, &written{entry: e, record: r, temp: temp})
	w.forget(e.ID)
	w.note(r)
	if replaces != "" && replaces != e.ID {
		if err := w.Commit(); err != nil { // the new one is there before the old one goes
			return err
		}
		return w.Remove(replaces)
	}
	if len(w.waiting) >= commitEvery {
		return w.Commit()
	}
	return nil
}

func (w *Writer) writeFolder(temp string, e Entry, r *Record) error {
	if err := os.RemoveAll(temp); err != nil {
		return err
	}
	if err := os.MkdirAll(temp, 0o755); err != nil {
		return err
	}
	files := map[string][]byte{"text.tsv": writeText(e.Text), "audit.json": e.Audit, "compare.json": e.Compare}
	if e.Corrections != nil {
		files["corrections.csv"] = e.Corrections
	}
	if e.Collection == "" {
		files["original"] = e.Original
	} else if err := w.keepCollection(e); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if name != "original" { // its checksum is the record's SHA256
			r.Sums[name] = sum(files[name])
		}
		if err := os.WriteFile(filepath.Join(temp, name), files[name], 0o644); err != nil {
			return err
		}
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(r); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(temp, "paper.json"), b.Bytes(), 0o644)
}

func (w *Writer) keepCollection(e Entry) error {
	path := filepath.Join(w.Dir, "collections", e.Collection)
	if info, err := os.Stat(path); err == nil && info.Size() == int64(len(e.Original)) {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return writeFile(path, e.Original)
}

// Commit brings what was added to the disk, puts it in its place, tells the
// caller, and hands it to the index.
func (w *Writer) Commit() error {
	if len(w.waiting) == 0 {
		return nil
	}
	folders := make([]string, len(w.waiting))
	for i, x := range w.waiting {
		folders[i] = x.temp
	}
	if err := syncAll(w.root(), folders); err != nil {
		return fmt.Errorf("the library cannot be brought to the disk: %w", err)
	}
	waiting := w.waiting
	w.waiting = nil
	for _, x := range waiting {
		if err := w.place(x.temp, x.record.ID); err != nil {
			return fmt.Errorf("%s: cannot be put in its place in the library: %w", x.record.Name, err)
		}
	}
	syncDir(w.root())
	for _, x := range waiting {
		w.send(job{record: x.record, text: x.entry.Text})
		if w.onCommit != nil {
			w.onCommit(x.entry)
		}
	}
	return nil
}

// place renames a finished folder to its name. A folder that is there goes to
// the side first: clear brings it back if the process ends in between.
func (w *Writer) place(temp, id string) error {
	final, old := w.folder(id), filepath.Join(w.root(), oldPrefix+id)
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
	gone := filepath.Join(w.root(), tempPrefix+"gone-"+id)
	if err := os.Rename(w.folder(id), gone); err != nil {
		return fmt.Errorf("the paper cannot be removed: %w", cause(err))
	}
	if err := os.RemoveAll(gone); err != nil {
		return fmt.Errorf("the paper cannot be removed: %w", err)
	}
	w.forget(id)
	if k != nil && k.collection != "" && w.inColl[k.collection] <= 0 {
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
	err := w.Commit()
	if closing := w.closeIndex(); err == nil {
		err = closing
	}
	return err
}
