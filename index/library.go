package index

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// layout is the version of the folders this package writes.
const layout = 1

// ErrNone says that there is no library yet.
var ErrNone = errors.New("there is no library here yet")

// ErrGone says that a paper was taken out of the library.
var ErrGone = errors.New("is no longer in the library")

// Options says how a library is opened.
type Options struct {
	Synonyms []Synonym        // names of the same thing, for the search
	Wait     time.Duration    // how long to wait for another process
	Stop     <-chan struct{}  // closed: stop waiting; nil: never
	Say      func(msg string) // told what takes long or was put right; may be nil
	Reread   Reread           // for the doctor; may be nil
}

// Reread reads the text of a paper again from its original.
type Reread func(r *Record, original []byte) ([]Passage, error)

// A Library is a folder of papers. Its methods that only read (List, Record,
// Audit ...) need no lock: folders appear and go as a whole.
type Library struct {
	Dir string
	opt Options
}

// A Record is the first line of what is kept of a paper.
type Record struct {
	Schema      int       `json:"schema"`
	ID          string    `json:"id"`
	Name        string    `json:"name"`
	SHA256      string    `json:"sha256"` // of the original
	Size        int       `json:"size"`
	Collection  string    `json:"collection,omitempty"`
	Nth         int       `json:"nth,omitempty"`
	Total       int       `json:"total,omitempty"`
	Corrections string    `json:"corrections,omitempty"` // SHA-256
	Tool        string    `json:"tool"`
	Added       time.Time `json:"added"`
	Card        Card      `json:"card"`
	Sketch      sketch    `json:"sketch,omitempty"`
	Rest        string    `json:"rest"` // SHA-256 of what follows this line
}

// revision changes whenever anything kept of the paper does.
func (r *Record) revision() string {
	data, _ := json.Marshal(r) // plain fields: cannot fail
	return sum(data)[:16]
}

// Open opens a library that exists.
func Open(dir string, opt Options) (*Library, error) {
	l := &Library{Dir: dir, opt: opt}
	version, err := readVersion(dir)
	if err != nil {
		return nil, err
	}
	if err := l.fits(version); err != nil {
		return nil, err
	}
	return l, nil
}

// Create opens a library for writing, and begins one where there is none. The
// lock comes before all else: of several processes that begin the same library
// one does, and the others wait for it.
func Create(dir string, opt Options) (*Writer, error) {
	l, err := Open(dir, opt)
	if err == nil {
		return l.Writer()
	}
	if !errors.Is(err, ErrNone) {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("the library cannot be made: %w", err)
	}
	l = &Library{Dir: dir, opt: opt}
	held, err := l.lock(true)
	if err != nil {
		return nil, err
	}
	switch version, err := readVersion(dir); {
	case errors.Is(err, ErrNone):
		if err := l.begin(); err != nil {
			held.free()
			return nil, fmt.Errorf("the library cannot be made: %w", err)
		}
	case err != nil || version != layout: // what came into being here meanwhile is another matter
		held.free()
		if _, err := Open(dir, opt); err != nil {
			return nil, err
		}
		return l.Writer()
	}
	return l.writer(held)
}

// begin makes an empty library.
func (l *Library) begin() error {
	if err := os.MkdirAll(l.papers(), 0o755); err != nil {
		return err
	}
	return writeVersion(l.Dir, layout)
}

type versionFile struct {
	Library int `json:"probity.library"`
}

func readVersion(dir string) (int, error) {
	path := filepath.Join(dir, "library.json")
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		why := noVersion(dir, path)
		if data, err = os.ReadFile(path); errors.Is(err, fs.ErrNotExist) { // not begun while we looked
			return 0, why
		}
	}
	if err != nil {
		return 0, fmt.Errorf("the library cannot be opened: %w", err)
	}
	var v versionFile
	if err := json.Unmarshal(data, &v); err != nil || v.Library < 1 {
		return 0, fmt.Errorf("%s cannot be read; write {\"probity.library\":%d} into it", path, layout)
	}
	return v.Library, nil
}

// noVersion says what a folder without a version is.
func noVersion(dir, path string) error {
	if entries, err := os.ReadDir(filepath.Join(dir, "papers")); err == nil && len(entries) > 0 {
		return fmt.Errorf("%s is missing; write {\"probity.library\":%d} into it if this folder is a library", path, layout)
	}
	if _, err := os.Stat(dir); err == nil && !mayBecome(dir) {
		return fmt.Errorf("%s is not a library: it holds other files; give --library an empty or a new folder", dir)
	}
	return fmt.Errorf("%s: %w; add papers to it first: probity add PATH", dir, ErrNone)
}

// mayBecome reports whether a folder holds nothing but what a library that
// was just begun holds.
func mayBecome(dir string) bool {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return false
	}
	for _, e := range entries {
		if n := e.Name(); n != "papers" && n != "library.lock" && !strings.HasPrefix(n, tempPrefix) {
			return false
		}
	}
	return true
}

func writeVersion(dir string, version int) error {
	data, _ := json.Marshal(versionFile{version})
	return writeFile(filepath.Join(dir, "library.json"), append(data, '\n'))
}

// writeFile replaces a file in one step, and brings it and its name to the disk.
func writeFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), tempPrefix)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name())
		return err
	}
	syncDir(filepath.Dir(path))
	return nil
}

// tempPrefix marks what is being written; a process that was ended leaves it
// behind and the next writer clears it away.
const tempPrefix = ".part-"

// oldPrefix marks a folder that is being replaced.
const oldPrefix = ".old-"

func (l *Library) papers() string { return filepath.Join(l.Dir, "papers") }

func (l *Library) folder(id string) string { return filepath.Join(l.papers(), id) }

func (l *Library) say(format string, args ...any) {
	if l.opt.Say != nil {
		l.opt.Say(fmt.Sprintf(format, args...))
	}
}

// isID reports whether a name is one that papers have: 64 hex digits. It
// keeps what a person typed from becoming a path.
func isID(s string) bool {
	if len(s) != 64 {
		return false
	}
	for _, r := range s {
		if !(r >= '0' && r <= '9' || r >= 'a' && r <= 'f') {
			return false
		}
	}
	return true
}

// IDs lists the papers kept, in order.
func (l *Library) IDs() ([]string, error) {
	f, err := os.Open(l.papers())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("the library cannot be read: %w", err)
	}
	defer f.Close()
	entries, err := f.Readdirnames(-1)
	if err != nil {
		return nil, fmt.Errorf("the library cannot be read: %w", err)
	}
	for i := range entries { // one that is being replaced
		entries[i] = strings.TrimPrefix(entries[i], oldPrefix)
	}
	ids := slices.DeleteFunc(entries, func(n string) bool { return !isID(n) })
	slices.Sort(ids)
	return slices.Compact(ids), nil
}

func cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// List reads all records, sorted by year, first author and title. Papers that
// cannot be read are given as errors beside.
func (l *Library) List() ([]*Record, []error) {
	ids, err := l.IDs()
	if err != nil {
		return nil, []error{err}
	}
	records := make([]*Record, len(ids))
	bad := make([]error, len(ids))
	each(len(ids), func(i int) { records[i], bad[i] = l.Record(ids[i]) })
	records = slices.DeleteFunc(records, func(r *Record) bool { return r == nil })
	bad = slices.DeleteFunc(bad, func(err error) bool { return err == nil || errors.Is(err, ErrGone) })
	slices.SortFunc(records, byYear)
	return records, bad
}

func byYear(a, b *Record) int {
	if a.Card.Year != b.Card.Year {
		return a.Card.Year - b.Card.Year
	}
	first := func(r *Record) string {
		if len(r.Card.Authors) == 0 {
			return ""
		}
		return r.Card.Authors[0]
	}
	if c := strings.Compare(first(a), first(b)); c != 0 {
		return c
	}
	if c := strings.Compare(a.Card.Title, b.Card.Title); c != 0 {
		return c
	}
	return strings.Compare(a.ID, b.ID)
}

// Resolve finds the paper that a person means: by the beginning of its id, its
// DOI, its file name, or words of its title.
func (l *Library) Resolve(text string) (*Record, error) {
	records, _ := l.List()
	want := strings.ToLower(strings.TrimSpace(text))
	tests := []func(*Record) bool{
		func(r *Record) bool { return r.ID == want || len(want) >= 6 && strings.HasPrefix(r.ID, want) },
		func(r *Record) bool {
			return r.Card.DOI != "" && r.Card.DOI == strings.TrimPrefix(strings.TrimPrefix(want, "https://doi.org/"), "doi:")
		},
		func(r *Record) bool { return strings.ToLower(r.Name) == want },
		func(r *Record) bool { return strings.ToLower(filepath.Base(r.Name)) == want },
		func(r *Record) bool { return len(want) > 3 && strings.Contains(strings.ToLower(r.Card.Title), want) },
	}
	for _, is := range tests {
		var found []*Record
		for _, r := range records {
			if is(r) {
				found = append(found, r)
			}
		}
		switch {
		case len(found) == 1:
			return found[0], nil
		case len(found) > 1:
			var names []string
			for _, r := range found[:min(5, len(found))] {
				names = append(names, fmt.Sprintf("%.12s %s", r.ID, r.Name))
			}
			return nil, fmt.Errorf("%q may be %d papers (%s); give more of the id", text, len(found), strings.Join(names, "; "))
		}
	}
	if ids, err := l.IDs(); err == nil && len(want) >= 6 {
		for _, id := range ids { // one whose record cannot be read
			if strings.HasPrefix(id, want) {
				return &Record{ID: id}, nil
			}
		}
	}
	return nil, fmt.Errorf("%q is not in the library; probity list shows what is", text)
}

// each runs f for 0 … n-1 on all cores. A panic of f is the caller's, who can
// recover it.
func each(n int, f func(i int)) {
	var wg sync.WaitGroup
	var tripped atomic.Pointer[any]
	one := func(i int) {
		defer func() {
			if p := recover(); p != nil {
				tripped.Store(&p)
			}
		}()
		f(i)
	}
	const workers = 4 // reading small files: a few more than cores hide the waiting
	next := make(chan int, 256)
	for range min(workers, n) {
		wg.Go(func() {
			for i := range next {
				one(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
	if p := tripped.Load(); p != nil {
		panic(*p)
	}
}
