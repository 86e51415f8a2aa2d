package index

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// A Complaint is one thing that is not as it should be.
type Complaint struct {
	ID      string // the paper; "": the library or its index
	What    string
	Try     string
	Index   bool // the index, not a paper: Rebuild puts it right
	Healthy bool // put right just now
}

// Check looks at everything: every paper readable, its files as they were
// written, the index whole and complete. With repair it makes a damaged index
// again and tidies what ended processes left. Papers are never changed.
func (l *Library) Check(repair bool) (papers int, out []Complaint, err error) {
	if _, dirty := os.Stat(filepath.Join(l.Dir, dirtyFile)); repair && dirty == nil {
		// A process was ended in its work: to complete the index is no complaint.
		w, err := l.Writer()
		if err != nil {
			return 0, nil, err
		}
		if err := w.Close(); err != nil {
			return 0, nil, err
		}
	}
	held, err := l.lock(true)
	if err != nil {
		return 0, nil, err
	}
	free := held.free
	defer func() { free() }()
	ids, err := l.IDs()
	if err != nil {
		return 0, nil, err
	}
	found := make([][]Complaint, len(ids))
	each(len(ids), func(i int) { found[i] = l.checkPaper(ids[i]) })
	damaged := map[string]bool{}
	for i, c := range found {
		damaged[ids[i]] = len(c) > 0
		out = append(out, c...)
	}
	if repair {
		out = append(out, l.tidyCollections(ids)...)
	}
	indexed := l.checkIndex(ids, damaged)
	if len(indexed) == 0 || !repair {
		return len(ids), append(out, indexed...), nil
	}
	free()
	free = func() {}
	if err := l.Rebuild(); err != nil {
		return len(ids), append(out, indexed...), err
	}
	for i := range indexed {
		indexed[i].Healthy = true
	}
	return len(ids), append(out, indexed...), nil
}

func (l *Library) checkPaper(id string) []Complaint {
	complain := func(what, try string) []Complaint { return []Complaint{{ID: id, What: what, Try: try}} }
	again := "probity remove " + id[:12] + ", and add the paper again"
	r, err := l.Record(id)
	if err != nil {
		return complain(bare(err), again)
	}
	data, err := l.Original(r)
	if err != nil {
		return complain(bare(err), again)
	}
	refresh := "probity refresh " + id[:12]
	var out []Complaint
	if _, err := l.Corrections(r); err != nil {
		out = append(out, Complaint{ID: id, What: bare(err), Try: again})
	}
	k, err := l.whole(id)
	switch {
	case err != nil:
		out = append(out, Complaint{ID: id, What: bare(err), Try: refresh})
	case l.cutOnce(k, data):
		out = append(out, Complaint{ID: id, What: fmt.Sprintf("the text kept of %s breaks off: an earlier version cut it when it completed the title page", r.Name),
			Try: refresh + ", which reads it again from the original kept"})
	}
	return out
}

// onceRead is as far as an earlier version read what is kept: it lost the text
// behind when it wrote a paper with a completed title page.
const onceRead = 16 << 10

// cutOnce reports whether what is kept is a text that was cut so: it agrees with
// its sum, so the original is read again where it can be.
func (l *Library) cutOnce(k *keptWhole, original []byte) bool {
	have := writeText(k.text)
	if l.opt.Reread == nil || k.record.Card.Completed == "" || len(k.audit)+len(have) > onceRead {
		return false
	}
	text, err := l.opt.Reread(k.record, original)
	if err != nil {
		return false
	}
	want := writeText(inLines(text))
	return len(have) < len(want) && bytes.HasPrefix(want, bytes.TrimSuffix(have, []byte{'\n'}))
}

// bare is an error without the advice to call the doctor.
func bare(err error) string { return strings.TrimSuffix(err.Error(), "; run probity doctor") }

// tidyCollections removes files of several papers that no paper needs: a
// process that ended between a collection and its papers leaves them. A paper
// whose record cannot be read may need any of them.
func (l *Library) tidyCollections(ids []string) []Complaint {
	entries, err := os.ReadDir(filepath.Join(l.Dir, "collections"))
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return []Complaint{{What: err.Error()}}
	}
	if len(entries) == 0 {
		return nil
	}
	needed := map[string]bool{}
	for _, id := range ids {
		r, err := l.Record(id)
		if err != nil {
			return nil
		}
		needed[r.Collection] = true
	}
	var out []Complaint
	for _, e := range entries {
		if isID(e.Name()) && !needed[e.Name()] {
			if err := os.Remove(filepath.Join(l.Dir, "collections", e.Name())); err != nil {
				out = append(out, Complaint{What: fmt.Sprintf("collections/%.12s… belongs to no paper and cannot be removed (%v)", e.Name(), cause(err))})
			}
		}
	}
	return out
}

// checkIndex holds the index against the papers, but for damaged ones: those
// cannot be indexed.
func (l *Library) checkIndex(ids []string, damaged map[string]bool) []Complaint {
	complain := func(format string, args ...any) []Complaint {
		return []Complaint{{What: fmt.Sprintf(format, args...), Try: "probity rebuild", Index: true}}
	}
	if len(ids) == 0 {
		if _, err := os.Stat(filepath.Join(l.Dir, searchFolder)); errors.Is(err, fs.ErrNotExist) {
			return nil
		}
	}
	if err := l.sound(true); err != nil {
		return complain("%v", err)
	}
	idx, err := engine(filepath.Join(l.Dir, searchFolder), false)
	if err != nil {
		return complain("%v", err)
	}
	defer closeSafely(idx)
	revs, err := indexed(idx)
	if err != nil {
		return complain("%v", err)
	}
	missing, stale := 0, 0
	for _, id := range ids {
		r, err := l.Record(id)
		if err != nil || damaged[id] {
			delete(revs, id)
			continue // complained of above
		}
		switch rev, ok := revs[id]; {
		case !ok:
			missing++
		case rev != r.revision():
			stale++
		}
		delete(revs, id)
	}
	if missing+stale+len(revs) > 0 {
		return complain("the search index lacks %d papers, knows %d as they were before, and %d that are gone", missing, stale, len(revs))
	}
	return nil
}

// Rebuild makes the search index again from the folders of the papers.
func (l *Library) Rebuild() error {
	held, err := l.lock(true)
	if err != nil {
		return err
	}
	if m, err := l.manifest(); err == nil && l.sound(true) == nil {
		l.publish(m.Papers)
	}
	if err := l.fresh(); err != nil {
		held.free()
		return err
	}
	w, err := l.writer(held)
	if err != nil {
		return err
	}
	w.changed.Store(true) // settle even an empty index
	return w.Close()
}
