package index

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// many makes n invented papers with enough words for an index of some size.
func many(n int) []Entry {
	var out []Entry
	for i := range n {
		out = append(out, entry(fmt.Sprintf("p%03d.xml", i), Card{Title: fmt.Sprintf("Paper %d on Kestrine", i), Year: 2000 + i%30, Outcomes: []string{"cycles-to-fracture"}, N: []float64{float64(i)}},
			"The NCF of Kestrine was high. "+longText(i, 200), longText(1000+i, 200)))
	}
	return out
}

func indexFilePaths(t *testing.T, l *Library) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(filepath.Join(l.Dir, searchFolder), func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			out = append(out, path)
		}
		return err
	})
	if err != nil || len(out) == 0 {
		t.Fatalf("index files %v, %v", out, err)
	}
	return out
}

// TestDamagedIndex flips bytes in, cuts and removes each file of the index:
// the doctor notices, puts it right, and everything is found again.
func TestDamagedIndex(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	damages := map[string]func(path string, data []byte) error{
		"flipped": func(path string, data []byte) error {
			for range max(1, len(data)/400) {
				data[r.IntN(len(data))] ^= byte(1 + r.IntN(255))
			}
			return os.WriteFile(path, data, 0o644)
		},
		"cut":     func(path string, data []byte) error { return os.Truncate(path, int64(len(data)/2)) },
		"emptied": func(path string, data []byte) error { return os.Truncate(path, 0) },
		"removed": func(path string, _ []byte) error { return os.Remove(path) },
	}
	l := shelf(t, many(40)...)
	for how, damage := range damages {
		for _, path := range indexFilePaths(t, l) {
			data, err := os.ReadFile(path)
			if err != nil {
				continue // it went with the index made again
			}
			if len(data) == 0 {
				continue
			}
			info, err := os.Stat(path)
			if err != nil {
				t.Fatal(err)
			}
			name := how + " " + filepath.Base(path)
			if err := damage(path, bytes.Clone(data)); err != nil {
				t.Fatal(err)
			}
			os.Chtimes(path, info.ModTime(), info.ModTime()) // as a failing disk does: the time does not tell
			if _, complaints, err := l.Check(false); err != nil || len(complaints) == 0 {
				t.Errorf("%s: the doctor sees nothing (%v)", name, err)
			}
			_, complaints, err := l.Check(true)
			if err != nil || len(complaints) != 1 || !complaints[0].Healthy {
				t.Errorf("%s: the doctor says %v, %v; want one complaint put right", name, complaints, err)
			}
			if _, complaints, err := l.Check(false); err != nil || len(complaints) > 0 {
				t.Errorf("%s: after the doctor: %v, %v", name, complaints, err)
			}
			if found := mustFind(t, l, "NCF"); found.Total != 40 {
				t.Errorf("%s: %d papers are found after the doctor, want 40", name, found.Total)
			}
		}
	}
}

// TestSearchOnDamage searches and writes on damage that no doctor saw yet:
// whatever comes back, nothing may panic.
func TestSearchOnDamage(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	l := shelf(t, many(40)...)
	for round := range 30 {
		files := indexFilePaths(t, l)
		path := files[r.IntN(len(files))]
		data, err := os.ReadFile(path)
		if err != nil || len(data) == 0 {
			continue
		}
		if round%3 == 0 {
			data = data[:r.IntN(len(data))]
		}
		for range min(8, len(data)) {
			data[r.IntN(len(data))] ^= 0x5a
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		rd, err := l.Reader()
		if err != nil {
			t.Fatalf("round %d: %v; want the index made again", round, err)
		}
		found, err := rd.Find(Search{Query: `NCF OR "the NCF of Kestrine" OR kestr* year:2000..`, Facets: true})
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if found.Total != 40 {
			t.Errorf("round %d: %d papers, %v; want 40", round, found.Total, err)
		}
		rd.Close()
	}
}

// TestDamagedPaper changes what is kept of a paper: the doctor names it, the
// other papers stay usable.
func TestDamagedPaper(t *testing.T) {
	entries := many(3)
	for _, file := range []string{"original", keptFile} {
		l := shelf(t, entries...)
		path := filepath.Join(l.folder(entries[1].ID), file)
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		data[len(data)/2] ^= 1
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		_, complaints, err := l.Check(true)
		if err != nil || len(complaints) == 0 || complaints[0].ID != entries[1].ID || complaints[0].Healthy || !strings.Contains(complaints[0].Try, entries[1].ID[:12]) {
			t.Errorf("%s: the doctor says %v, %v; want it to name the paper and what to do", file, complaints, err)
		}
		if err := os.Truncate(path, 10); err != nil {
			t.Fatal(err)
		}
		if records, _ := l.List(); len(records) < 2 {
			t.Errorf("%s cut: only %d papers are listed", file, len(records))
		}
		w, err := l.Writer()
		if err != nil {
			t.Fatal(err)
		}
		if err := w.Remove(entries[1].ID); err != nil {
			t.Errorf("%s cut: the paper cannot be removed: %v", file, err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		if n, complaints, err := l.Check(true); n != 2 || len(complaints) > 0 || err != nil {
			t.Errorf("%s: after the removal: %d papers, %v, %v", file, n, complaints, err)
		}
	}
}
