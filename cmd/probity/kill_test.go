//go:build unix

package main

import (
	"bytes"
	"context"
	"flag"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"probity/index"
)

var kills = flag.Int("kills", 3, "how many times the kill test ends an add")

// TestKill ends add at random moments, as a power cut or an impatient person
// does (SIGKILL: nothing can be tidied). After each: the library opens, the
// doctor has no complaint, no paper that was told as added is lost; and add
// again completes.
//
//	go test -run TestKill ./cmd/probity -kills=50
func TestKill(t *testing.T) {
	const papers = 150
	folder, exe := shelfFolder(t, papers), program(t)
	lib := filepath.Join(t.TempDir(), "library")
	r := rand.New(rand.NewPCG(11, 13))
	told := map[string]bool{}
	c := newConsole(context.Background(), nil, io.Discard, io.Discard)
	cut := 0
	runs := 0
	for k := 0; cut < *kills; k++ {
		runs++
		var out bytes.Buffer
		cmd := exec.Command(exe, "add", "--library", lib, folder)
		cmd.Stdout = &out
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(time.Duration(20+r.IntN(1200))*time.Millisecond, func() { cmd.Process.Kill() })
		err := cmd.Wait()
		timer.Stop()
		if err != nil {
			cut++
		}
		for _, line := range strings.SplitAfter(out.String(), "\n") {
			if f := strings.Fields(line); strings.HasSuffix(line, "\n") && len(f) > 2 && f[0] == "new" {
				told[f[1]] = true
			}
		}
		if _, err := os.Stat(filepath.Join(lib, "library.json")); err != nil {
			if len(told) > 0 {
				t.Fatalf("kill %d: papers were told as added and there is no library", k+1)
			}
			continue // it was ended before it began
		}
		l, err := index.Open(lib, index.Options{Synonyms: c.synonyms(), Wait: 5 * time.Second})
		if err != nil {
			t.Fatalf("kill %d: the library does not open: %v", k+1, err)
		}
		n, complaints, err := l.Check(true)
		if err != nil || len(complaints) > 0 {
			t.Fatalf("kill %d: the doctor says %v, %v", k+1, complaints, err)
		}
		records, bad := l.List()
		have := map[string]bool{}
		for _, r := range records {
			have[r.Name] = true
		}
		for name := range told {
			if !have[name] {
				t.Errorf("kill %d: %s was told as added and is lost", k+1, name)
			}
		}
		if len(bad) > 0 || n != len(records) {
			t.Errorf("kill %d: %d papers, %d of them readable, %v", k+1, n, len(records), bad)
		}
		if n == papers { // complete: begin anew
			if err := os.RemoveAll(lib); err != nil {
				t.Fatal(err)
			}
			told = map[string]bool{}
		}
	}
	if out, err := exec.Command(exe, "add", "--library", lib, folder).CombinedOutput(); err != nil {
		t.Fatalf("add after the kills: %v\n%s", err, out)
	}
	l, err := index.Open(lib, index.Options{Synonyms: c.synonyms(), Wait: 5 * time.Second})
	if err != nil {
		t.Fatal(err)
	}
	if n, complaints, err := l.Check(false); n != papers || len(complaints) > 0 || err != nil {
		t.Errorf("after the last add: %d papers, %v, %v; want %d and no complaint", n, complaints, err, papers)
	}
	rd, err := l.Reader()
	if err != nil {
		t.Fatal(err)
	}
	defer rd.Close()
	if found, err := rd.Find(index.Search{Query: "verdict:reproduces"}); err != nil || found.Total != papers {
		t.Errorf("%+v papers are found, %v; want %d", found, err, papers)
	}
	t.Logf("%d of %d runs were ended before they were done", cut, runs)
}
