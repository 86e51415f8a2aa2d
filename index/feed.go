package index

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/blevesearch/bleve/v2"
)

// batchBytes and batchPapers bound what the engine works on at a time: larger
// batches are faster and cost memory (measured: 1,000 papers took 2 GB).
const (
	batchBytes  = 3 << 20
	batchPapers = 100
)

// openIndex opens the index for writing. One that cannot be used is made
// again from the folders: it is a cache.
func (w *Writer) openIndex() error {
	dir := filepath.Join(w.Dir, searchFolder)
	_, err := os.Stat(dir)
	fresh := err != nil
	if !fresh {
		switch err := w.sound(false); {
		case err == nil:
			if m, err := w.manifest(); err == nil {
				w.publish(m.Papers)
			}
		case w.usable() && w.intact(): // what was published before still holds
			w.say("a process ended before its work was done; the search index is completed")
		default:
			w.say("%v; it is made again from the papers", err)
			w.unpublish()
			fresh = true
		}
	}
	if fresh {
		if err := w.fresh(); err != nil {
			return err
		}
	}
	if err := w.mark(); err != nil { // the engine tidies its files as soon as it is open
		return err
	}
	revs, err := w.start(dir)
	if err != nil && !fresh {
		w.say("%v; it is made again from the papers", err)
		if err := w.fresh(); err != nil {
			return err
		}
		revs, err = w.start(dir)
	}
	if err != nil {
		return err
	}
	w.batch = w.idx.NewBatch()
	w.jobs, w.ended = make(chan job, batchPapers), make(chan error, 1)
	go func() { w.ended <- w.feed() }()
	w.catchUp(revs)
	return nil
}

// fresh makes way for a new index. The mark comes first: whenever the process
// ends, the next one knows that the index is not finished.
func (l *Library) fresh() error {
	if err := l.mark(); err != nil {
		return err
	}
	for _, old := range []string{filepath.Join(l.Dir, searchFile), filepath.Join(l.Dir, searchFolder)} {
		if err := os.RemoveAll(old); err != nil {
			return fmt.Errorf("the old search index cannot be removed: %w", err)
		}
	}
	return nil
}

// start opens the engine and asks it what it knows.
func (w *Writer) start(dir string) (map[string]string, error) {
	idx, err := engine(dir, true)
	if err != nil {
		return nil, err
	}
	revs, err := indexed(idx)
	if err != nil {
		closeSafely(idx)
		return nil, fmt.Errorf("the search index cannot be read: %w", err)
	}
	w.idx = idx
	return revs, nil
}

// usable reports whether an index that was not closed in order is one that
// this version may go on with.
func (w *Writer) usable() bool {
	m, err := w.manifest()
	_, dirty := os.Stat(filepath.Join(w.Dir, dirtyFile))
	if err != nil { // the first writer of the library was ended
		data, err := os.ReadFile(filepath.Join(w.Dir, dirtyFile))
		return dirty == nil && err == nil && string(data) == w.dirtyMark()
	}
	return dirty == nil && m.Mapping == mappingVersion && m.Names == w.namesHash()
}

// mark says that a process is writing; settle takes it away.
func (l *Library) mark() error {
	if err := writeFile(filepath.Join(l.Dir, dirtyFile), []byte(l.dirtyMark())); err != nil {
		return fmt.Errorf("the search index cannot be written: %w", err)
	}
	return nil
}

// intact compares the index files that are as old as the manifest with it: a
// process that ended may have left a damage from before it unseen.
func (w *Writer) intact() bool {
	dir := filepath.Join(w.Dir, searchFolder)
	m, err := w.manifest()
	if err != nil {
		return true // there is nothing to compare with
	}
	files, err := indexFiles(dir)
	if err != nil {
		return false
	}
	for _, f := range files {
		if want, ok := m.sumOf(f); ok {
			if sum, err := checksum(filepath.Join(dir, filepath.FromSlash(f.Name))); err != nil || sum != want {
				return false
			}
		}
	}
	return true
}

func (l *Library) dirtyMark() string {
	return fmt.Sprintf("a process is writing; mapping %d, names %s\n", mappingVersion, l.namesHash())
}

// catchUp makes the index agree with the folders.
func (w *Writer) catchUp(revs map[string]string) {
	missing := 0
	for id, k := range w.papers {
		if revs[id] == k.rev {
			continue
		}
		k, err := w.whole(id)
		if err != nil {
			w.say("%v", err)
			continue
		}
		missing++
		w.send(job{record: k.record, text: k.text})
	}
	for id := range revs {
		if w.papers[id] == nil {
			w.send(job{remove: id})
		}
	}
	w.jobs <- job{caught: true}
	if missing > commitEvery {
		w.say("%d papers are brought into the search index", missing)
	}
}

// send hands a job to the goroutine that owns the index.
func (w *Writer) send(j job) {
	w.changed.Store(true)
	w.jobs <- j
}

// feed owns the index until there is nothing more. A failure of the index
// does not stop the papers: they are safe, and the index is made again.
func (w *Writer) feed() (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the search index broke (%v); run probity rebuild", p)
		}
		for range w.jobs { // keep the writer from waiting for us
		}
	}()
	size := 0
	flush := func() error {
		if w.batch.Size() == 0 {
			return nil
		}
		size = 0
		err := w.idx.Batch(w.batch)
		w.batch = w.idx.NewBatch()
		return err
	}
	caught, next, due := false, publishFirst, time.Now().Add(publishFirst)
	for j := range w.jobs {
		switch {
		case j.caught:
			caught = true
		case j.remove != "":
			w.batch.Delete(j.remove)
		default:
			d := documentOf(j.record, j.text, w.words)
			if err := w.batch.IndexAdvanced(d); err != nil {
				return fmt.Errorf("%s: cannot be indexed: %w", j.record.Name, err)
			}
			for _, p := range j.text {
				size += len(p.Text)
			}
		}
		if size > batchBytes || w.batch.Size() >= batchPapers {
			err = flush()
		}
		if err == nil && caught && time.Now().After(due) {
			if err = flush(); err == nil {
				caught, err = w.checkpoint() // no more where it cannot be published
			}
			due = time.Now().Add(next)
			next = min(2*next, publishMost)
		}
		if err != nil {
			return fmt.Errorf("the search index cannot be written: %w", err)
		}
	}
	if err := flush(); err != nil {
		return fmt.Errorf("the search index cannot be written: %w", err)
	}
	return w.persist()
}

// persist waits until everything is in the index files: batches return before.
func (w *Writer) persist() error {
	if !w.changed.Load() {
		return nil
	}
	safe := make(chan error, 1)
	last := w.idx.NewBatch()
	w.mu.RLock()
	papers := len(w.papers)
	w.mu.RUnlock()
	last.SetInternal([]byte("papers"), []byte(fmt.Sprint(papers)))
	last.SetPersistedCallback(func(err error) { safe <- err })
	if err := w.idx.Batch(last); err != nil {
		return fmt.Errorf("the search index cannot be written: %w", err)
	}
	select {
	case err := <-safe:
		return err
	case <-time.After(persistWithin):
		return fmt.Errorf("the search index was not on the disk after %v; run probity rebuild", persistWithin)
	}
}

// persistWithin is far beyond what the slowest disk needs for one batch.
const persistWithin = 5 * time.Minute

// closeSafely closes an index that may be broken.
func closeSafely(idx bleve.Index) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the search index cannot be closed: %v", p)
		}
	}()
	return idx.Close()
}

// closeIndex ends the feeding and settles the index.
func (w *Writer) closeIndex() error {
	close(w.jobs)
	err := <-w.ended
	if closing := closeSafely(w.idx); err == nil {
		err = closing
	}
	if err != nil {
		return fmt.Errorf("the papers are safe, but %w", err)
	}
	return w.settle()
}
