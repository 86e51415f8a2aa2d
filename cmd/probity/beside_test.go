//go:build unix

package main

import (
	"context"
	"flag"
	"io"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

var firsts = flag.Int("firsts", 5, "how many times several processes begin one library")

// TestFirstAddsAtOnce lets three processes add to a library that is not there
// yet: one begins it, the others wait, and all papers are in it.
//
//	go test -run TestFirstAddsAtOnce ./cmd/probity -firsts=45
func TestFirstAddsAtOnce(t *testing.T) {
	folder, exe := shelfFolder(t, 3), program(t)
	for k := range *firsts {
		lib := filepath.Join(t.TempDir(), "new", "library")
		var wg sync.WaitGroup
		for _, paper := range []string{"p00000.xml", "p00001.xml", "p00002.xml"} {
			wg.Go(func() {
				if out, err := exec.Command(exe, "add", "--library", lib, filepath.Join(folder, "000", paper)).CombinedOutput(); err != nil {
					t.Errorf("try %d, %s: %v\n%s", k+1, paper, err, out)
				}
			})
		}
		wg.Wait()
		if out, _ := does(t, 0, "list", "--library", lib); !strings.Contains(out, "holds 3 papers") {
			t.Errorf("try %d:\n%s", k+1, out)
		}
		does(t, 0, "doctor", "--library", lib)
	}
}

// TestBesideAnAdd reads the library in every way while another process adds to
// it: each answers, and says that the library is being changed.
func TestBesideAnAdd(t *testing.T) {
	folder := shelfFolder(t, 5)
	lib := filepath.Join(t.TempDir(), "library")
	paper := func(name string) string { return filepath.Join(folder, "000", name) }
	does(t, 0, "add", "--library", lib, paper("p00000.xml"), paper("p00001.xml"), paper("p00002.xml"))
	c := newConsole(context.Background(), nil, io.Discard, io.Discard)
	l, err := (&shelf{dir: lib}).open(c)
	if err != nil {
		t.Fatal(err)
	}
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	ids, err := l.IDs()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Remove(ids[0]); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		args []string
		want string
	}{
		{[]string{"find", "verdict:reproduces"}, "3 papers"}, // as before the one was taken out
		{[]string{"list"}, "holds 2 papers"},
		{[]string{"compare", "--outcome", "NCF"}, "mber of cycles"},
		{[]string{"check", "Kestrine lasts twice as long as Halyard"}, "held against 2 papers"},
	} {
		out, talk := does(t, 0, append(tt.args, "--library="+lib)...)
		if !strings.Contains(out, tt.want) || !strings.Contains(talk, "is changing the library") {
			t.Errorf("probity %s beside an add:\n%s%s", strings.Join(tt.args, " "), out, talk)
		}
	}
	does(t, 0, "show", "--library", lib, ids[1])
	if _, talk := does(t, exitUnusable, "add", "--library", lib, "--wait", "100ms", paper("p00003.xml")); !strings.Contains(talk, "in use by another probity (process ") {
		t.Errorf("a second add says %s", talk)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if out, talk := does(t, 0, "find", "--library", lib, "verdict:reproduces"); !strings.Contains(out, "2 papers") || talk != "" {
		t.Errorf("after the add find gives\n%s%s", out, talk)
	}
}
