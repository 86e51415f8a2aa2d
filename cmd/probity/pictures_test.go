package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// Names come from the paper: whatever they are, nothing outside its folder, no
// link and no folder is read.
func TestPictureBeside(t *testing.T) {
	top := t.TempDir()
	folder := filepath.Join(top, "papers")
	write := func(path, text string) {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(filepath.Join(top, "outside.png"), "outside")
	write(filepath.Join(folder, "inner", "deep.png"), "deep")
	write(filepath.Join(folder, "a-t1.jpg"), "large")
	write(filepath.Join(folder, "a-t1.gif"), "thumbnail")
	write(filepath.Join(folder, "b-t1.png"), "png")
	write(filepath.Join(folder, "c-t1.tif"), "tiff")
	if runtime.GOOS != "windows" {
		if err := os.Symlink("../outside.png", filepath.Join(folder, "link.png")); err != nil {
			t.Fatal(err)
		}
	}
	paper := filepath.Join(folder, "lee.xml")
	tests := []struct {
		names []string
		file  string // "" where nothing may be read
	}{
		{[]string{"a-t1"}, "a-t1.jpg"},
		{[]string{"a-t1.gif"}, "a-t1.gif"},
		{[]string{"b-t1.tif"}, "b-t1.png"},
		{[]string{"missing", "b-t1"}, "b-t1.png"},
		{[]string{"c-t1"}, ""},
		{[]string{"../outside"}, ""},
		{[]string{`..\outside`}, ""},
		{[]string{filepath.Join(top, "outside.png")}, ""},
		{[]string{"inner/deep"}, ""},
		{[]string{"inner"}, ""},
		{[]string{"link"}, ""},
		{[]string{"", ".", "..", "lee\x00"}, ""},
	}
	for _, test := range tests {
		_, file, err := pictureBeside(paper, test.names)
		if file != test.file || (err == nil) != (test.file != "") {
			t.Errorf("pictureBeside(%q) = %q, %v; want %q", test.names, file, err, test.file)
		}
	}
	if _, _, err := pictureBeside(standardInput, []string{"a-t1"}); err == nil {
		t.Error("a paper on standard input was given a picture")
	}
}
