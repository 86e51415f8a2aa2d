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

// busy is errBusy with who it is: " (process 123)", "" where that is not known.
type busy struct{ who string }

func (b *busy) Error() string { return errBusy.Error() + b.who }
func (b *busy) Unwrap() error { return errBusy }

// A lock is held on library.lock. The system frees it when the process ends,
// however it ends.
type lock struct{ file *os.File }

// take tries once to take the lock. Several readers may hold it together, a
// writer alone.
func (l *Library) take(alone bool) (*lock, error) {
	path := filepath.Join(l.Dir, "library.lock")
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil && !alone {
		f, err = os.Open(path) // a library that may only be read
	}
	if err != nil {
		return nil, fmt.Errorf("the library cannot be locked: %w", err)
	}
	err = lockFile(f, alone)
	if err == nil && !standsAt(f, path) {
		err = errBusy // the library was removed and begun again
	}
	if err != nil {
		defer f.Close()
		if errors.Is(err, errBusy) {
			return nil, &busy{holder(f)}
		}
		return nil, fmt.Errorf("the library cannot be locked: %w", err)
	}
	if alone {
		f.Truncate(0)
		f.WriteAt([]byte(strconv.Itoa(os.Getpid())), 0)
	}
	return &lock{f}, nil
}

// standsAt reports whether an open file is still the one with that name.
func standsAt(f *os.File, path string) bool {
	mine, err1 := f.Stat()
	there, err2 := os.Stat(path)
	return err1 == nil && err2 == nil && os.SameFile(mine, there)
}

// lock waits for the lock.
func (l *Library) lock(alone bool) (held *lock, err error) {
	err = l.patiently(func() error {
		held, err = l.take(alone)
		return err
	})
	return held, err
}

const (
	askAgain = 50 * time.Millisecond
	sayAfter = time.Second // before that nobody wonders
)

// patiently does what needs the lock again and again while another process
// holds it, as long as the options say.
func (l *Library) patiently(do func() error) error {
	begun, said := time.Now(), false
	for {
		err := do()
		var b *busy
		if !errors.As(err, &b) {
			return err
		}
		waited := time.Since(begun)
		if waited >= l.opt.Wait {
			return fmt.Errorf("the library %s is in use by another probity%s; waited %v; try again when it has ended, or wait longer with --wait", l.Dir, b.who, l.opt.Wait)
		}
		if !said && waited >= sayAfter {
			said = true
			l.say("the library is in use by another probity%s; waiting for it, up to %v", b.who, l.opt.Wait)
		}
		select {
		case <-time.After(min(askAgain, l.opt.Wait-waited)):
		case <-l.opt.Stop:
			return fmt.Errorf("stopped while waiting for another probity%s that uses the library %s; nothing was changed", b.who, l.Dir)
		}
	}
}

// Busy reports whether another process is changing the library, and which:
// " (process 123)", or "" where that is not known.
func (l *Library) Busy() (who string, yes bool) {
	held, err := l.take(false)
	held.free()
	var b *busy
	if errors.As(err, &b) {
		return b.who, true
	}
	return "", false
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
