package index

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// errBusy says that another process holds the lock.
var errBusy = errors.New("locked by another process")

// A lock is held on library.lock. The system frees it when the process ends,
// however it ends.
type lock struct{ file *os.File }

// take waits for the lock no longer than the given time. Several readers may
// hold it together, a writer alone.
func take(dir string, alone bool, wait time.Duration) (*lock, error) {
	path := filepath.Join(dir, "library.lock")
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if errors.Is(err, os.ErrPermission) && !alone {
		f, err = os.Open(path) // a library that may only be read
	}
	if err != nil {
		return nil, fmt.Errorf("the library cannot be locked: %w", err)
	}
	for until := time.Now().Add(wait); ; time.Sleep(50 * time.Millisecond) {
		err := lockFile(f, alone)
		if err == nil {
			break
		}
		if !errors.Is(err, errBusy) {
			f.Close()
			return nil, fmt.Errorf("the library cannot be locked: %w", err)
		}
		if !time.Now().Before(until) {
			who := holder(f)
			f.Close()
			return nil, fmt.Errorf("the library %s is in use by another probity%s; waited %v; try again when it has ended, or wait longer with --wait", dir, who, wait)
		}
	}
	if alone {
		f.Truncate(0)
		f.WriteAt([]byte(strconv.Itoa(os.Getpid())), 0)
	}
	return &lock{f}, nil
}

// holder names the process that wrote itself into the lock last.
func holder(f *os.File) string {
	var b [20]byte
	n, _ := f.ReadAt(b[:], 0)
	pid := strings.TrimSpace(string(b[:n]))
	if _, err := strconv.Atoi(pid); err != nil {
		return ""
	}
	return " (process " + pid + ")"
}

func (l *lock) free() {
	if l != nil && l.file != nil {
		l.file.Close()
		l.file = nil
	}
}
