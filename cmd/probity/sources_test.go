package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"probity/index"
)

// addTo runs add on a library of its own and gives what it printed.
func addTo(t *testing.T, lib string, stdin io.Reader, paths ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(append([]string{"add", "--library", lib}, paths...), stdin, &out, &errs)
	return out.String(), errs.String(), code
}

func writeZip(t *testing.T, path string, files map[string][]byte) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z := zip.NewWriter(f)
	for name, data := range files {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		w.Write(data)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
}

func writeTarGz(t *testing.T, path string, names []string, data func(name string) []byte) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	g := gzip.NewWriter(f)
	w := tar.NewWriter(g)
	for _, name := range names {
		d := data(name)
		if err := w.WriteHeader(&tar.Header{Name: name, Mode: 0o644, Size: int64(len(d)), Typeflag: tar.TypeReg}); err != nil {
			t.Fatal(err)
		}
		w.Write(d)
	}
	w.Close()
	g.Close()
}

func TestAddArchives(t *testing.T) {
	dir := t.TempDir()
	lib := filepath.Join(dir, "library")
	writeZip(t, filepath.Join(dir, "a.zip"), map[string][]byte{"x/p1.xml": inventedPaper(1), "x/p2.xml": inventedPaper(2), "read me.doc": []byte("no"),
		"__MACOSX/x/._p1.xml": []byte("no"), "../../outside.xml": inventedPaper(3)})
	writeTarGz(t, filepath.Join(dir, "b.tar.gz"), []string{"p4.xml", "p1.xml", "notes.doc"}, func(name string) []byte {
		return map[string][]byte{"p4.xml": inventedPaper(4), "p1.xml": inventedPaper(1), "notes.doc": []byte("no")}[name]
	})
	out, errs, code := addTo(t, lib, nil, filepath.Join(dir, "a.zip"), filepath.Join(dir, "b.tar.gz"))
	if code != exitFine || !strings.Contains(out, "4 new, 1 unchanged; 4 in the library") {
		t.Errorf("add of archives: %d\n%s%s", code, out, errs)
	}
	if _, err := os.Stat(filepath.Join(dir, "..", "outside.xml")); err == nil {
		t.Error("an archive wrote outside of the library")
	}
	os.WriteFile(filepath.Join(dir, "cut.zip"), []byte("PK\x03\x04 and no more"), 0o644)
	os.WriteFile(filepath.Join(dir, "cut.tgz"), []byte("\x1f\x8b\x08 and no more"), 0o644)
	writeZip(t, filepath.Join(dir, "none.zip"), map[string][]byte{"a.doc": []byte("x")})
	_, errs, code = addTo(t, lib, nil, filepath.Join(dir, "cut.zip"), filepath.Join(dir, "cut.tgz"), filepath.Join(dir, "none.zip"))
	if code != exitUnusable || strings.Count(errs, "refused") != 3 || !strings.Contains(errs, "no papers in this archive") {
		t.Errorf("bad archives: %d\n%s", code, errs)
	}
}

// TestAddBomb: a small archive that unfolds to hundreds of megabytes is
// refused, and the papers beside it are read.
func TestAddBomb(t *testing.T) {
	dir := t.TempDir()
	writeZip(t, filepath.Join(dir, "bomb.zip"), map[string][]byte{"bomb.xml": make([]byte, squeezeFrom+1<<20), "p1.xml": inventedPaper(1)})
	out, errs, code := addTo(t, filepath.Join(dir, "library"), nil, filepath.Join(dir, "bomb.zip"))
	if code != exitUnusable || !strings.Contains(errs, "times its size") || !strings.Contains(out, "1 new") {
		t.Errorf("bomb: %d\n%s%s", code, out, errs)
	}
}

// TestAddCollection: one file of several articles is kept once, its papers each.
func TestAddCollection(t *testing.T) {
	dir := t.TempDir()
	lib := filepath.Join(dir, "library")
	var all bytes.Buffer
	all.WriteString("<?xml version=\"1.0\"?>\n<pmc-articleset>\n")
	for i := range 3 {
		_, article, _ := strings.Cut(string(inventedPaper(10+i)), "?>")
		all.WriteString(article)
	}
	all.WriteString("</pmc-articleset>\n")
	path := filepath.Join(dir, "set.xml")
	os.WriteFile(path, all.Bytes(), 0o644)
	out, errs, code := addTo(t, lib, nil, path)
	if code != exitFine || !strings.Contains(out, "3 new; 3 in the library") {
		t.Fatalf("add of a collection: %d\n%s%s", code, out, errs)
	}
	if out, _, _ := addTo(t, lib, nil, path); !strings.Contains(out, "1 unchanged; 3 in the library") {
		t.Errorf("the collection again: %s", out)
	}
	if kept, err := os.ReadDir(filepath.Join(lib, "collections")); err != nil || len(kept) != 1 {
		t.Errorf("collections: %v, %v; want one file", kept, err)
	}
	var b bytes.Buffer
	if code := run([]string{"refresh", "--all", "--library", lib}, nil, &b, &b); code != exitFine || !strings.Contains(b.String(), "3 of 3 read again") {
		t.Errorf("refresh: %d\n%s", code, b.String())
	}
	b.Reset()
	if code := run([]string{"remove", "--library", lib, "10.5555/shelf.10", "10.5555/shelf.11", "10.5555/shelf.12"}, nil, &b, &b); code != exitFine {
		t.Errorf("remove: %d\n%s", code, b.String())
	}
	if kept, _ := os.ReadDir(filepath.Join(lib, "collections")); len(kept) != 0 {
		t.Errorf("collections after the last paper went: %v", kept)
	}
	if code := run([]string{"doctor", "--library", lib}, nil, io.Discard, &b); code != exitFine {
		t.Errorf("doctor: %d\n%s", code, b.String())
	}
}

// TestAddInterrupted stops an add as Ctrl-C does: what was told is there, and
// the next run goes on.
func TestAddInterrupted(t *testing.T) {
	folder, lib := shelfFolder(t, 120), filepath.Join(t.TempDir(), "library")
	ctx, stop := context.WithCancel(context.Background())
	var out bytes.Buffer
	c := newConsole(ctx, nil, &stopAfter{w: &out, lines: 50, stop: stop}, io.Discard)
	err := c.add(&shelf{dir: lib, wait: time.Second}, []string{folder}, "", false)
	if said := c.soFar(true); err != errStopped || !strings.Contains(said, " of 120 files not begun") || !strings.Contains(said, "run the same command to go on") {
		t.Fatalf("interrupted add: %v, says %q", err, said)
	}
	told := strings.Count(out.String(), "\nnew ") + strings.Count(out.String()[:4], "new ")
	l, err := index.Open(lib, index.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if records, bad := l.List(); len(records) != told || len(bad) > 0 || told >= 120 {
		t.Errorf("%d papers were told and %d are there, %v; want the same, fewer than 120", told, len(records), bad)
	}
	text, errs, code := addTo(t, lib, nil, folder)
	if code != exitFine || !strings.Contains(text, fmt.Sprintf("%d new, %d unchanged; 120 in the library", 120-told, told)) {
		t.Errorf("add again: %d\n%s%s", code, text[max(0, len(text)-200):], errs)
	}
}

// stopAfter calls stop when so many lines were written.
type stopAfter struct {
	w     io.Writer
	lines int
	stop  func()
}

func (s *stopAfter) Write(p []byte) (int, error) {
	if s.lines -= bytes.Count(p, []byte{'\n'}); s.lines <= 0 {
		s.stop()
	}
	return s.w.Write(p)
}

// TestFromAudit: a line counts only for the very bytes and version it was made
// with; else the paper is judged here.
func TestFromAudit(t *testing.T) {
	dir := t.TempDir()
	paper := filepath.Join(dir, "p.xml")
	os.WriteFile(paper, inventedPaper(1), 0o644)
	var audit bytes.Buffer
	run([]string{"audit", "--format", "json", paper}, nil, &audit, io.Discard)
	lines := map[string]string{
		"good.jsonl":    audit.String(),
		"version.jsonl": strings.Replace(audit.String(), `"tool":"`, `"tool":"v0-`, 1),
		"sum.jsonl":     strings.Replace(audit.String(), `"sha256":"`, `"sha256":"00`, 1),
		"text.jsonl":    strings.Replace(audit.String(), "shorter than", "longer than", 1),
		"broken.jsonl":  `{"schema":"probity.audit/1","paper":{"file":"` + paper + `"`,
	}
	for name, line := range lines {
		path := filepath.Join(dir, name)
		os.WriteFile(path, []byte(line), 0o644)
		lib := filepath.Join(dir, name+"-library")
		var out, errs bytes.Buffer
		code := run([]string{"add", "--library", lib, "--from-audit", path, paper}, nil, &out, &errs)
		if code != exitFine || !strings.Contains(out.String(), "1 in the library") {
			t.Errorf("%s: %d\n%s%s", name, code, out.String(), errs.String())
		}
		if told := strings.Contains(errs.String(), "does not count"); told != (name == "version.jsonl" || name == "broken.jsonl") {
			t.Errorf("%s: says %q", name, errs.String())
		}
		l, err := index.Open(lib, index.Options{})
		if err != nil {
			t.Fatal(err)
		}
		ids, _ := l.IDs()
		kept, err := l.Audit(ids[0])
		if err != nil || string(kept)+"\n" != audit.String() {
			t.Errorf("%s: the audit kept is another one (%v)", name, err)
		}
	}
}
