package index

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
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

// TestLostEnd cuts what is kept of a paper at the end of a line, as a disk that
// lost its last blocks may: it is never taken for a shorter paper.
func TestLostEnd(t *testing.T) {
	papers := many(2)
	l := shelf(t, papers...)
	id := papers[0].ID
	data := keptBytes(t, l, id)
	if err := os.Truncate(filepath.Join(l.folder(id), keptFile), int64(bytes.LastIndexByte(data[:len(data)-1], '\n')+1)); err != nil {
		t.Fatal(err)
	}
	if text, err := l.Text(id); err == nil {
		t.Errorf("%d passages of %d are given as the text", len(text), len(papers[0].Text))
	}
	if e, err := l.Entry(id); err == nil {
		t.Errorf("a paper with %d passages of %d is given back", len(e.Text), len(papers[0].Text))
	}
	if err := l.Rebuild(); err != nil {
		t.Fatal(err)
	}
	_, complaints, err := l.Check(true)
	if err != nil || len(complaints) != 1 || complaints[0].ID != id || !strings.Contains(complaints[0].Try, "probity refresh") {
		t.Errorf("the doctor says %v, %v; want one complaint, of the paper alone", complaints, err)
	}
}

// TestTextCutOnce keeps a paper as an earlier version did after it completed a
// title page: cut, and with a sum that agrees.
func TestTextCutOnce(t *testing.T) {
	papers := many(4)
	whole := map[string][]Passage{}
	for i := range papers {
		e := &papers[i]
		whole[e.ID] = e.Text
		if i > 0 {
			e.Card.Completed = "refs.bib"
		}
		switch i {
		case 1: // cut within a passage
			e.Text = []Passage{e.Text[0], {e.Text[1].Place, e.Text[1].Text[:300]}}
		case 2: // cut between two
			e.Text = e.Text[:1]
		}
	}
	l := shelf(t, papers...)
	l.opt.Reread = func(r *Record, original []byte) ([]Passage, error) {
		if sum(original) != r.SHA256 {
			t.Errorf("%s is read again from other bytes", r.Name)
		}
		return whole[r.ID], nil
	}
	_, complaints, err := l.Check(true)
	var ids []string
	for _, c := range complaints {
		ids = append(ids, c.ID)
		if !strings.Contains(c.What, "breaks off") || !strings.Contains(c.Try, "probity refresh "+c.ID[:12]) {
			t.Errorf("the doctor says %q, do %q", c.What, c.Try)
		}
	}
	want := []string{papers[1].ID, papers[2].ID}
	slices.Sort(want)
	if err != nil || !slices.Equal(ids, want) {
		t.Errorf("the doctor complains of %.12q, %v; want %.12q", ids, err, want)
	}
}

// collection makes n invented papers that came in one file.
func collection(n int) []Entry {
	file := []byte("<articles>all of them</articles>")
	papers := many(n)
	for i := range papers {
		e := &papers[i]
		e.Original, e.Collection, e.Nth, e.Total = file, sum(file), i, n
	}
	return papers
}

// TestCollectionStays holds that a file of several papers is not removed while
// a paper that cannot be read may need it, and is put right when it comes again.
func TestCollectionStays(t *testing.T) {
	papers := collection(2)
	l := shelf(t, papers...)
	path := filepath.Join(l.Dir, "collections", papers[0].Collection)
	for _, e := range papers {
		if err := os.Truncate(filepath.Join(l.folder(e.ID), keptFile), 10); err != nil {
			t.Fatal(err)
		}
	}
	for _, repair := range []bool{false, true} {
		if _, complaints, err := l.Check(repair); err != nil || len(complaints) < 2 {
			t.Errorf("the doctor says %v, %v; want both papers", complaints, err)
		}
		if _, err := os.Stat(path); err != nil {
			t.Fatalf("the doctor (putting right: %v) took the original of two papers away", repair)
		}
	}
	fill(t, l, papers[0])
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Remove(papers[0].ID); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(path); err != nil {
		t.Fatal("to remove one paper took the original of the other away")
	}

	data := bytes.Clone(papers[0].Original)
	data[3] ^= 1
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	fill(t, l, papers...)
	if _, complaints, err := l.Check(true); err != nil || len(complaints) > 0 {
		t.Errorf("after the file was added again the doctor says %v, %v", complaints, err)
	}
}

// TestDamagedOriginal holds that nothing is made of an original or of
// corrections that are not as they were added: to write such a paper again
// would give the damage a sum that agrees.
func TestDamagedOriginal(t *testing.T) {
	for _, file := range []string{"original", "corrections.csv"} {
		papers := many(1)
		e := papers[0]
		e.Corrections = []byte("place,field,was,now,why\n")
		l := shelf(t, e)
		path := filepath.Join(l.folder(e.ID), file)
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		data[len(data)/2] ^= 1
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := l.Entry(e.ID); err == nil || !strings.Contains(err.Error(), "not as") {
			t.Errorf("%s damaged: the paper is given back, %v", file, err)
		}
		if _, complaints, err := l.Check(true); err != nil || len(complaints) != 1 {
			t.Errorf("%s damaged: the doctor says %v, %v; want one complaint", file, complaints, err)
		}
	}
}
