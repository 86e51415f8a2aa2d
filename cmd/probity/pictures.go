package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// pictureEndings are tried on the names of pictures, which mostly lack one;
// those that are read before those that are found and not read.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".gif", ".tif", ".tiff"}

// largestPicture is the most that is read of one: a page as a picture has some
// 30 MB.
const largestPicture = 64 << 20

// pictureBeside reads the first picture that lies in the folder of a paper
// under one of the names. The names come from the paper: they never lead out
// of its folder, and links are not followed.
func pictureBeside(paper string, names []string) (data []byte, file string, err error) {
	if paper == standardInput {
		return nil, "", errors.New("a paper on standard input has no folder where its pictures could lie")
	}
	folder, err := os.OpenRoot(filepath.Dir(paper))
	if err != nil {
		return nil, "", fmt.Errorf("the folder of the paper cannot be opened (%v)", reason(err))
	}
	defer folder.Close()
	for _, name := range names {
		for _, file := range fileNames(name) {
			data, err := plainFile(folder, file)
			if errors.Is(err, fs.ErrNotExist) {
				continue
			}
			if err != nil {
				return nil, "", fmt.Errorf("%s: %w", file, reason(err))
			}
			return data, file, nil
		}
	}
	return nil, "", fmt.Errorf("no file %s lies beside the paper; put it there", quotedNames(names))
}

// fileNames gives the names under which a picture may lie beside its paper:
// with each ending, also where the paper gives one (the file that was printed
// from, not the one that goes with the paper).
func fileNames(name string) []string {
	if !plainName(name) {
		return nil
	}
	stem, out := name, []string(nil)
	if ending := filepath.Ext(name); slices.Contains(pictureEndings, strings.ToLower(ending)) {
		stem = strings.TrimSuffix(name, ending)
		if !unreadPicture(ending) {
			out = append(out, name)
		}
	}
	for _, ending := range pictureEndings {
		out = append(out, stem+ending)
	}
	return append(out, name)
}

func unreadPicture(ending string) bool { return strings.HasPrefix(strings.ToLower(ending), ".tif") }

// plainName reports the name of a file in the folder itself.
func plainName(name string) bool {
	return name != "" && len(name) < 200 && filepath.IsLocal(name) && !strings.ContainsAny(name, "/\\:\x00") && name != "."
}

// plainFile reads a file that is neither a link, nor a folder or a device.
func plainFile(folder *os.Root, name string) ([]byte, error) {
	before, err := folder.Lstat(name)
	if err != nil {
		return nil, err
	}
	if !before.Mode().IsRegular() {
		return nil, errors.New("this is a link, a folder or a device, not a picture")
	}
	if unreadPicture(filepath.Ext(name)) {
		return nil, errors.New("pictures of this kind (TIFF) are not read; save it as PNG beside the paper")
	}
	if before.Size() > largestPicture {
		return nil, fmt.Errorf("larger than %d MB, which no picture of a table is", largestPicture>>20)
	}
	f, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if now, err := f.Stat(); err != nil || !os.SameFile(before, now) {
		return nil, errors.New("it changed while it was opened; run again")
	}
	return io.ReadAll(io.LimitReader(f, largestPicture))
}

// quotedNames puts the names of pictures into a message, the first of many.
func quotedNames(names []string) string {
	name := names[0]
	if len(name) > 60 {
		name = name[:60] + "…"
	}
	return fmt.Sprintf("%q (.jpg, .png or .gif)", name)
}
