// Package archive opens the zip files that word processors write, within
// limits: their bytes come from anywhere.
package archive

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// Limits against archives made to unfold without end. A long manuscript with
// pictures has some hundred parts and its text is a few megabytes.
const (
	MaxParts = 20_000
	MaxBytes = 64 << 20 // of all parts that are read together
)

// An Archive is an opened zip file.
type Archive struct {
	files map[string]*zip.File
	left  int64
}

// Open reads the directory of the archive in data.
func Open(data []byte) (*Archive, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fmt.Errorf("the archive is damaged: %w", err)
	}
	if len(z.File) > MaxParts {
		return nil, fmt.Errorf("the archive has more than %d parts", MaxParts)
	}
	a := &Archive{files: make(map[string]*zip.File, len(z.File)), left: MaxBytes}
	for _, f := range z.File {
		name := clean(f.Name)
		if _, twice := a.files[name]; !twice {
			a.files[name] = f
		}
	}
	return a, nil
}

func clean(name string) string {
	return strings.TrimPrefix(path.Clean("/"+strings.ReplaceAll(name, `\`, "/")), "/")
}

// Has reports whether the archive holds a part of that name.
func (a *Archive) Has(name string) bool { return a.files[clean(name)] != nil }

// Part unfolds one part. A part that is not there is nil without an error.
func (a *Archive) Part(name string) ([]byte, error) {
	f := a.files[clean(name)]
	if f == nil {
		return nil, nil
	}
	r, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("%s cannot be opened: %w", name, damage{err})
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, a.left+1))
	if int64(len(data)) > a.left {
		return nil, fmt.Errorf("the archive unfolds to more than %d MB", MaxBytes>>20)
	}
	a.left -= int64(len(data))
	if errors.Is(err, zip.ErrChecksum) {
		return data, fmt.Errorf("%s is not what was saved: %w", name, damage{err})
	}
	if err != nil {
		return data, fmt.Errorf("%s breaks off: %w", name, damage{err})
	}
	return data, nil
}

// damage marks errors of parts whose bytes are not those that were packed.
type damage struct{ error }

func (d damage) Unwrap() error { return d.error }

// Damaged reports whether an error of Part means that what came with it, if
// anything, may be misread: any of its bytes may have changed.
func Damaged(err error) bool {
	var d damage
	return errors.As(err, &d)
}
