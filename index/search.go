package index

import (
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/blevesearch/bleve/v2"
	"github.com/blevesearch/bleve/v2/index/scorch"
	"github.com/blevesearch/bleve/v2/search/query"
)

const (
	searchFolder = "search.bleve"
	searchFile   = "search.json"
	dirtyFile    = "search.dirty"
)

// errStale says that the index is not that of the papers.
var errStale = errors.New("the search index is not up to date")

// A manifest says what the index files are when it was closed in order.
type manifest struct {
	Mapping int         `json:"mapping"`
	Names   string      `json:"names"` // of the synonyms it was made with
	Papers  int         `json:"papers"`
	Files   []indexFile `json:"files"`
}

type indexFile struct {
	Name  string    `json:"name"`
	Size  int64     `json:"size"`
	Time  time.Time `json:"time"`
	CRC32 uint32    `json:"crc32c"`
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(path string) (uint32, error) {
	f, err := os.Open(path)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	h := crc32.New(castagnoli)
	if _, err := io.CopyBuffer(struct{ io.Writer }{h}, f, make([]byte, 1<<20)); err != nil {
		return 0, err
	}
	return h.Sum32(), nil
}

// indexFiles lists the files of the index in order, without their checksums.
func indexFiles(dir string) ([]indexFile, error) {
	var out []indexFile
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		f := indexFile{Name: filepath.ToSlash(rel), Size: info.Size(), Time: info.ModTime().UTC()}
		out = append(out, f)
		return nil
	})
	slices.SortFunc(out, func(a, b indexFile) int { return strings.Compare(a.Name, b.Name) })
	return out, err
}

// sumOf gives the checksum of a file that is as it was when it was last known.
func (m *manifest) sumOf(f indexFile) (uint32, bool) {
	if m == nil {
		return 0, false
	}
	for _, old := range m.Files {
		if old.Name == f.Name && old.Size == f.Size && old.Time.Equal(f.Time) {
			return old.CRC32, true
		}
	}
	return 0, false
}

func (l *Library) manifest() (*manifest, error) {
	return readManifest(filepath.Join(l.Dir, searchFile))
}

// sound compares the index files with the manifest. A file whose size or time
// differs is checked by its checksum, and with whole all are.
func (l *Library) sound(whole bool) error {
	if _, err := os.Stat(filepath.Join(l.Dir, dirtyFile)); err == nil {
		return fmt.Errorf("%w: a process ended while it wrote", errStale)
	}
	m, err := l.manifest()
	if err != nil {
		return fmt.Errorf("%w: %s is missing or cannot be read", errStale, searchFile)
	}
	if m.Mapping != mappingVersion || m.Names != l.namesHash() {
		return fmt.Errorf("%w: it was made by another version or with other names of outcomes", errStale)
	}
	dir := filepath.Join(l.Dir, searchFolder)
	have, err := indexFiles(dir)
	if err != nil {
		return fmt.Errorf("the search index cannot be read: %w", err)
	}
	byName := map[string]indexFile{}
	for _, f := range have {
		byName[f.Name] = f
	}
	for _, want := range m.Files {
		f, ok := byName[want.Name]
		switch {
		case !ok:
			return fmt.Errorf("the search index is damaged: %s is missing", want.Name)
		case f.Size != want.Size:
			return fmt.Errorf("the search index is damaged: %s has %d bytes of %d", want.Name, f.Size, want.Size)
		case !whole && f.Time.Equal(want.Time):
			continue
		}
		crc, err := checksum(filepath.Join(dir, filepath.FromSlash(want.Name)))
		if err != nil {
			return fmt.Errorf("the search index cannot be read: %w", err)
		}
		if crc != want.CRC32 {
			return fmt.Errorf("the search index is damaged: %s is not as it was written", want.Name)
		}
	}
	return nil
}

// namesHash tells one set of synonyms from another.
func (l *Library) namesHash() string {
	data, _ := json.Marshal(l.opt.Synonyms)
	return sum(data)[:16]
}

func (l *Library) words() words { return words{names: newNames(l.opt.Synonyms)} }

// engine opens or makes the index in a folder. The engine below may panic on
// damaged files; that is an error here.
func engine(dir string, write bool) (idx bleve.Index, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the search index cannot be opened: %v", p)
		}
	}()
	// The lock of the library is held: nobody else has the index open, and the
	// engine must not wait for ever if somebody has.
	config := map[string]any{"bolt_timeout": "2s", "numSnapshotsToKeep": 1}
	if !write {
		config["read_only"] = true
		idx, err = bleve.OpenUsing(dir, config)
	} else {
		// Papers are safe in their folders, so the index need not be on the disk
		// before the next batch; what a kill loses is indexed again.
		config["unsafe_batch"] = true
		config["scorchPersisterOptions"] = map[string]any{"PersisterNapTimeMSec": 50, "PersisterNapUnderNumFiles": 100}
		config["scorchMergePlanOptions"] = map[string]any{"MaxSegmentsPerTier": 6, "MaxSegmentSize": 1 << 30, "TierGrowth": 8.0,
			"SegmentsPerMergeTask": 8, "FloorSegmentSize": 500, "ReclaimDeletesWeight": 2.0}
		if _, statErr := os.Stat(dir); statErr == nil {
			idx, err = bleve.OpenUsing(dir, config)
		} else {
			m := bleve.NewIndexMapping()
			m.DefaultMapping.Dynamic = false
			idx, err = bleve.NewUsing(dir, m, scorch.Name, scorch.Name, config)
		}
	}
	if err != nil {
		return nil, fmt.Errorf("the search index cannot be opened: %w", err)
	}
	return idx, nil
}

// indexed gives the revision of every paper the index knows.
func indexed(idx bleve.Index) (revs map[string]string, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the search index cannot be read: %v", p)
		}
	}()
	n, err := idx.DocCount()
	if err != nil {
		return nil, err
	}
	req := bleve.NewSearchRequestOptions(query.NewMatchAllQuery(), int(n)+1, 0, false)
	req.Fields = []string{revField}
	req.Score = "none"
	res, err := idx.Search(req)
	if err != nil {
		return nil, err
	}
	revs = map[string]string{}
	for _, h := range res.Hits {
		rev, _ := h.Fields[revField].(string)
		revs[h.ID] = rev
	}
	return revs, nil
}

// settle writes the manifest of an index that was closed in order.
func (l *Library) settle() error {
	ids, err := l.IDs() // unreadable papers too: they are no reason to look again
	if err != nil {
		return err
	}
	dir := filepath.Join(l.Dir, searchFolder)
	files, err := indexFiles(dir)
	if err != nil {
		return fmt.Errorf("the search index cannot be read: %w", err)
	}
	old, _ := l.manifest()
	for i := range files {
		f := &files[i]
		if sum, ok := old.sumOf(*f); ok { // files of the index are written once
			f.CRC32 = sum
			continue
		}
		if f.CRC32, err = checksum(filepath.Join(dir, filepath.FromSlash(f.Name))); err != nil {
			return fmt.Errorf("the search index cannot be read: %w", err)
		}
	}
	m := manifest{Mapping: mappingVersion, Names: l.namesHash(), Papers: len(ids), Files: files}
	data, err := json.MarshalIndent(m, "", " ")
	if err != nil {
		return err
	}
	if err := writeFile(filepath.Join(l.Dir, searchFile), append(data, '\n')); err != nil {
		return fmt.Errorf("the search index cannot be settled: %w", err)
	}
	if err := os.Remove(filepath.Join(l.Dir, dirtyFile)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	l.unpublish()
	return nil
}
