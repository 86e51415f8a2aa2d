package index

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// lastFolder is the index as it stood before the process that writes began, or
// at the last point since at which it could be searched. The engine locks what
// it writes, so this is what others search meanwhile. The files of an index are
// written once and never changed: links to them are enough, and what the engine
// writes in place, its root, is small and is copied. Where the disk knows no
// links there is no such state, and readers wait.
const lastFolder = "search.last"

// A long add shows what it brought in for search after publishFirst, then each
// time after twice as long, at most publishMost: the engine is closed and opened
// for it, which takes some tenths of a second.
var publishFirst = 5 * time.Second // a variable for tests

const publishMost = 2 * time.Minute

// publish makes the closed index what others search. It reports whether it
// could; if not, what was published before stays.
func (l *Library) publish(papers int) bool {
	from, temp, to := filepath.Join(l.Dir, searchFolder), filepath.Join(l.Dir, tempPrefix+lastFolder), filepath.Join(l.Dir, lastFolder)
	defer os.RemoveAll(temp)
	if err := linkIndex(from, temp); err != nil {
		return false
	}
	data, _ := json.Marshal(manifest{Mapping: mappingVersion, Names: l.namesHash(), Papers: papers}) // plain fields: cannot fail
	if err := os.WriteFile(filepath.Join(temp, searchFile), data, 0o644); err != nil {
		return false
	}
	if exchange(temp, to) == nil {
		return true
	}
	if err := os.RemoveAll(to); err != nil { // a reader has it open, on systems where that matters
		return false
	}
	return os.Rename(temp, to) == nil
}

// unpublish takes the last state away: the index itself can be searched, or
// the state is not to be trusted.
func (l *Library) unpublish() { os.RemoveAll(filepath.Join(l.Dir, lastFolder)) }

// segmentEnding marks the files of an index that are written once.
const segmentEnding = ".zap"

func linkIndex(from, to string) error {
	return filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		switch target := filepath.Join(to, rel); {
		case d.IsDir():
			return os.MkdirAll(target, 0o755)
		case filepath.Ext(path) == segmentEnding:
			return os.Link(path, target)
		default:
			return copyFile(path, target)
		}
	})
}

// lastState opens what was published last, nil: nothing was, or it was made
// with other names of outcomes.
func (l *Library) lastState(who string) *Reader {
	dir := filepath.Join(l.Dir, lastFolder)
	m, err := readManifest(filepath.Join(dir, searchFile))
	if err != nil || m.Mapping != mappingVersion || m.Names != l.namesHash() {
		return nil
	}
	idx, err := engine(dir, false)
	if err != nil { // it is just being replaced
		return nil
	}
	papers := fmt.Sprint(m.Papers, " papers")
	if m.Papers == 1 {
		papers = "1 paper"
	}
	l.say("another probity%s is changing the library; this answers from its last state that can be searched, with %s", who, papers)
	return &Reader{Library: l, idx: idx, words: l.words()}
}

// checkpoint brings the index to a state that can be searched, and publishes
// it. It reports whether it could be published.
func (w *Writer) checkpoint() (published bool, err error) {
	if err := w.persist(); err != nil {
		return false, err
	}
	papers, err := w.idx.DocCount()
	if err != nil {
		return false, err
	}
	if err := closeSafely(w.idx); err != nil {
		return false, err
	}
	published = w.publish(int(papers))
	if w.idx, err = engine(filepath.Join(w.Dir, searchFolder), true); err != nil {
		return false, err
	}
	w.batch = w.idx.NewBatch()
	return published, nil
}

func readManifest(path string) (*manifest, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	m := &manifest{}
	if err := json.Unmarshal(data, m); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return m, nil
}
