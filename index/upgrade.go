package index

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// upgrades[v] turns a library of layout v into one of layout v+1. Layout 1 is
// the first.
var upgrades = map[int]func(dir string) error{}

// fits brings an older library up to this layout, after a copy of all that is
// not a cache was made beside it, and refuses a newer one.
func (l *Library) fits(version int) error { return l.bringUp(version, layout, upgrades) }

func (l *Library) bringUp(version, to int, steps map[int]func(dir string) error) error {
	if version == to {
		return nil
	}
	if version > to {
		return fmt.Errorf("%s was written by a newer probity (layout %d; this one knows %d); use that one, nothing was changed", l.Dir, version, to)
	}
	held, err := l.lock(true)
	if err != nil {
		return err
	}
	defer held.free()
	backup := fmt.Sprintf("%s-backup-layout-%d", strings.TrimRight(l.Dir, `/\`), version)
	l.say("the library is brought from layout %d to %d; a copy of it as it was stays in %s", version, to, backup)
	if err := copyLibrary(l.Dir, backup); err != nil {
		return fmt.Errorf("the library was not upgraded, as it cannot be copied to %s: %w", backup, err)
	}
	for v := version; v < to; v++ {
		step := steps[v]
		if step == nil {
			return fmt.Errorf("%s has layout %d, which cannot be upgraded", l.Dir, v)
		}
		if err := step(l.Dir); err != nil {
			return fmt.Errorf("the upgrade of %s from layout %d failed: %w; the copy in %s is as it was", l.Dir, v, err, backup)
		}
		if err := writeVersion(l.Dir, v+1); err != nil {
			return err
		}
	}
	l.unpublish()
	return os.RemoveAll(filepath.Join(l.Dir, searchFolder)) // a cache; the next writer makes it again
}

// copyLibrary copies all but the search index. A copy that was begun and not
// ended is begun again.
func copyLibrary(from, to string) error {
	if _, err := os.Stat(filepath.Join(to, "library.json")); err == nil {
		return errors.New("it is there already")
	}
	var folders []string
	err := filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		switch {
		case rel == searchFolder, rel == lastFolder:
			return filepath.SkipDir
		case d.IsDir():
			folders = append(folders, filepath.Join(to, rel))
			return os.MkdirAll(filepath.Join(to, rel), 0o755)
		case !d.Type().IsRegular() || rel == "library.lock" || rel == "library.json":
			return nil
		}
		return copyFile(path, filepath.Join(to, rel))
	})
	if err != nil {
		return err
	}
	if err := syncAll(to, folders); err != nil {
		return err
	}
	return copyFile(filepath.Join(from, "library.json"), filepath.Join(to, "library.json")) // last: the copy is whole
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.Create(to)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	if closing := out.Close(); err == nil {
		err = closing
	}
	return err
}
