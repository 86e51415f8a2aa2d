package index

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// lastWord is a word that only the n-th invented paper has, at its very end.
func lastWord(n int) string {
	return "zend" + string(rune('a'+n/26)) + string(rune('a'+n%26)) + "q"
}

// uneven makes a hundred invented papers whose kept text goes from one word to
// 200 kB, in one passage or in many, with audits from two bytes to 60 kB. Some
// are made to end just before, on and just behind what one look at the file
// takes in; sizes tells how large the kept file of a paper is.
func uneven(t *testing.T, sizes func(Entry) int) []Entry {
	var out []Entry
	for i := range 100 {
		var paragraphs []string
		for n, seed := 1<<(i%18), 1000*i; n > 8; n -= 5 * 400 {
			paragraphs = append(paragraphs, longText(seed, min(400, n/5)))
			seed++
		}
		if i%7 == 3 { // a passage longer than one look at the file
			paragraphs = []string{strings.Join(paragraphs, " ")}
		}
		paragraphs = append(paragraphs, lastWord(i))
		if i == 0 {
			paragraphs = []string{"ж"} // one letter
		}
		e := entry(fmt.Sprintf("invented-%03d.xml", i), Card{Title: fmt.Sprintf("Paper %d on Kestrine", i), Year: 2030}, paragraphs...)
		if i%5 == 2 {
			e.Audit = []byte(`{"pad":"` + strings.Repeat("p", 600*i) + `"}` + "\n")
		}
		if i%11 == 4 {
			e.Compare = []byte(`{"pad":"` + strings.Repeat("c", 300*i) + `"}` + "\n")
		}
		out = append(out, e)
	}
	for k, edge := range []int{-2, -1, 0, 1, 2} { // the file ends at 16,384 bytes, about
		i := 18*k + 9 // a paper of some hundred bytes
		if i%5 == 2 || i%11 == 4 {
			i++
		}
		out[i].Audit = []byte(`{"pad":""}`)
		pad := 16384 + edge - sizes(out[i])
		if pad < 0 {
			t.Fatalf("paper %d is too long already", i)
		}
		out[i].Audit = []byte(`{"pad":"` + strings.Repeat("p", pad) + `"}`)
	}
	for k := range 5 { // the audit ends at 16,384 bytes, about, and the text follows
		i := 18*k + 15
		out[i].Audit = []byte(`{"pad":""}`)
		pad := 16384 - 2 + k - (sizes(out[i]) - len(writeText(inLines(out[i].Text))))
		out[i].Audit = []byte(`{"pad":"` + strings.Repeat("p", pad) + `"}`)
	}
	return out
}

// TestKeptWhole adds papers of all lengths, and looks whether the last word of
// each is found: after add, after the index was made again, after it was
// completed, and after the papers were written again.
func TestKeptWhole(t *testing.T) {
	papers := uneven(t, func(e Entry) int { return len(keptBytes(t, shelf(t, e), e.ID)) })
	l := shelf(t, papers...)
	before := map[string][]byte{}
	for i := range papers {
		e := &papers[i]
		before[e.ID] = keptBytes(t, l, e.ID)
		if !bytes.HasSuffix(before[e.ID], writeText(inLines(e.Text))) {
			t.Fatalf("%s is not kept as it was given", e.Name)
		}
	}
	wholeShelf(t, "after add", l, papers)
	if err := l.Rebuild(); err != nil {
		t.Fatal(err)
	}
	wholeShelf(t, "after rebuild", l, papers)
	for id, want := range before {
		if !bytes.Equal(keptBytes(t, l, id), want) {
			t.Errorf("%.12s is kept otherwise after rebuild", id)
		}
	}

	// A process that ended: the folders are there, the index knows nothing of them.
	other := shelf(t)
	if err := os.RemoveAll(other.papers()); err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(other.papers(), os.DirFS(l.papers())); err != nil {
		t.Fatal(err)
	}
	wholeShelf(t, "after the index was completed", other, papers)

	// Written again, as for a title page that is completed.
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	for i := range papers {
		e, err := l.Entry(papers[i].ID)
		if err != nil {
			t.Fatal(err)
		}
		if e.Card.Title += ", completed"; !slices.Equal(writeText(inLines(e.Text)), writeText(inLines(papers[i].Text))) {
			t.Errorf("%s comes back with other text", e.Name)
		}
		if err := w.Add(e, ""); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	wholeShelf(t, "after all were written again", l, papers)
}

// wholeShelf holds that every paper is found by its last word and comes back as
// it was given, and that the doctor is content.
func wholeShelf(t *testing.T, when string, l *Library, papers []Entry) {
	t.Helper()
	lost := 0
	for i := range papers {
		e := &papers[i]
		words := strings.Fields(e.Text[len(e.Text)-1].Text)
		word := words[len(words)-1]
		found := mustFind(t, l, word)
		if !slices.ContainsFunc(found.Hits, func(h Hit) bool { return h.Record.ID == e.ID && len(h.Snippets) > 0 }) {
			lost++
		}
		text, err := l.Text(e.ID)
		if err != nil || !bytes.Equal(writeText(text), writeText(inLines(e.Text))) {
			t.Errorf("%s: the text of %s has %d bytes of %d, %v", when, e.Name, len(writeText(text)), len(writeText(inLines(e.Text))), err)
		}
		audit, err := l.Audit(e.ID)
		if err != nil || !bytes.Equal(audit, bytes.TrimSpace(e.Audit)) {
			t.Errorf("%s: the audit of %s has %d bytes of %d, %v", when, e.Name, len(audit), len(e.Audit), err)
		}
		rows, err := l.Compare(e.ID)
		if err != nil || !bytes.Equal(rows, bytes.TrimSpace(e.Compare)) {
			t.Errorf("%s: the comparison of %s has %d bytes of %d, %v", when, e.Name, len(rows), len(e.Compare), err)
		}
	}
	if lost > 0 {
		t.Errorf("%s: %d of %d papers are not found by their last word", when, lost, len(papers))
	}
	if n, complaints, err := l.Check(false); n != len(papers) || len(complaints) > 0 || err != nil {
		t.Errorf("%s: the doctor says %d papers, %v, %v", when, n, complaints, err)
	}
}

func keptBytes(t *testing.T, l *Library, id string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(l.folder(id), keptFile))
	if err != nil {
		t.Fatal(err)
	}
	return data
}
