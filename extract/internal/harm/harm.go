// Package harm damages files for the tests of the readers and holds what is
// then read against what the intact file gives.
//
//	intact file → Way → damaged copy → reader → how many figures are gone, and is it said?
//
// A reader may refuse a damaged file, or read what is left of it; what it must
// never do is lose figures and say nothing.
package harm

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"probity/extract"
)

// A Way of damaging a file. Do gets a copy of its own.
type Way struct {
	Name string
	Do   func(r *rand.Rand, data []byte) []byte
}

// stretch picks a piece of at most 4,000 bytes.
func stretch(r *rand.Rand, n int) (from, to int) {
	from = r.IntN(n)
	return from, from + 1 + r.IntN(min(n-from, 4000))
}

// Bytes are the ways that need to know nothing of the format.
var Bytes = []Way{
	{"cut short", func(r *rand.Rand, d []byte) []byte { return d[:r.IntN(len(d))] }},
	{"tail cut off", func(r *rand.Rand, d []byte) []byte { return d[:len(d)-1-r.IntN(min(len(d)-1, 2000))] }},
	{"bytes flipped", func(r *rand.Rand, d []byte) []byte {
		for range 1 + r.IntN(60) {
			d[r.IntN(len(d))] ^= byte(1 << r.IntN(8))
		}
		return d
	}},
	{"block zeroed", func(r *rand.Rand, d []byte) []byte {
		from, to := stretch(r, len(d))
		clear(d[from:to])
		return d
	}},
	{"block deleted", func(r *rand.Rand, d []byte) []byte {
		from, to := stretch(r, len(d))
		return slices.Delete(d, from, to)
	}},
	{"block doubled", func(r *rand.Rand, d []byte) []byte {
		from, to := stretch(r, len(d))
		return slices.Concat(d[:to], d[from:])
	}},
	{"blocks swapped", func(r *rand.Rand, d []byte) []byte {
		size := 1 + r.IntN(min(len(d)/2, 4000))
		a := r.IntN(len(d) - 2*size + 1)
		b := a + size + r.IntN(len(d)-a-2*size+1)
		return slices.Concat(d[:a], d[b:b+size], d[a+size:b], d[a:a+size], d[b+size:])
	}},
	{"digits changed", func(r *rand.Rand, d []byte) []byte {
		from, to := stretch(r, len(d))
		for i := from; i < to; i++ {
			if d[i] >= '0' && d[i] <= '9' && r.IntN(4) == 0 {
				d[i] = '0' + byte(r.IntN(10))
			}
		}
		return d
	}},
}

// A File is an intact file.
type File struct {
	Name string
	Data []byte
}

// Folder gives the files of a folder that end in ext.
func Folder(dir, ext string) ([]File, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*"+ext))
	if err == nil && len(names) == 0 {
		err = fmt.Errorf("%s holds no file that ends in %s", dir, ext)
	}
	var out []File
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out = append(out, File{filepath.Base(name), data})
	}
	return out, err
}

// tolerated is the share of a file's figures that may go without a word.
const tolerated = 0.3

var figure = regexp.MustCompile(`\d+(?:[.,]\d+)*`)

// figures counts the numbers of a document's tables and prose.
func figures(d *extract.Document) map[string]int {
	n := map[string]int{}
	count := func(text string) {
		for _, f := range figure.FindAllString(text, -1) {
			n[f]++
		}
	}
	for _, p := range d.Proses() {
		count(p.Text())
	}
	for _, t := range d.Tables() {
		count(t.Caption + " " + strings.Join(t.Notes, " "))
		for _, row := range t.Rows {
			for _, c := range row {
				if !c.Copy {
					count(c.Text())
				}
			}
		}
	}
	return n
}

// lost is the share of the intact document's figures that the other has not.
func lost(intact, got map[string]int) float64 {
	all, gone := 0, 0
	for f, n := range intact { // any order: sums
		all += n
		gone += max(0, n-got[f])
	}
	if all == 0 {
		return 0
	}
	return float64(gone) / float64(all)
}

// news reports a problem that the intact document has not.
func news(intact, got *extract.Document) bool {
	old := map[string]bool{}
	for _, p := range intact.Problems {
		old[p.Error()] = true
	}
	return slices.ContainsFunc(got.Problems, func(p *extract.Problem) bool { return !old[p.Error()] })
}

// tally is what became of the copies damaged in one way.
type tally struct{ copies, refused, said, unsaid, lossy int }

// patience is far beyond what reading a copy needs on the busiest machine; what
// hangs does not outlast it.
const patience = 5 * time.Minute

// Run reads n damaged copies of the files, each way in its turn: each gives a
// document or a problem that says what to do, and none hangs; a copy of which
// more figures are gone than tolerated says so.
func Run(t *testing.T, files []File, ways []Way, n int, read func(data []byte, name string) (*extract.Document, error)) {
	t.Helper()
	intact := make([]*extract.Document, len(files))
	counts := make([]map[string]int, len(files))
	for i, f := range files {
		d, err := read(bytes.Clone(f.Data), f.Name)
		if err != nil {
			t.Fatalf("the intact file: %v", err)
		}
		intact[i], counts[i] = d, figures(d)
	}
	tallies := make([]tally, len(ways))
	for i := range n {
		w, k := i%len(ways), i/len(ways)%len(files)
		r := rand.New(rand.NewPCG(2026, uint64(i)))
		data := ways[w].Do(r, bytes.Clone(files[k].Data))
		what := ways[w].Name
		if again := r.IntN(4 * len(Bytes)); again < len(Bytes) && len(data) > 64 { // every fourth copy is damaged twice
			data = Bytes[again].Do(r, data)
			what += ", " + Bytes[again].Name
		}
		name := fmt.Sprintf("copy %d (%s, %s, %d bytes)", i, files[k].Name, what, len(data))
		late := time.AfterFunc(patience, func() { panic(name + " hangs") })
		doc, err := read(data, files[k].Name)
		late.Stop()
		y := &tallies[w]
		y.copies++
		var p *extract.Problem
		switch {
		case err != nil && (!errors.As(err, &p) || p.What == "" || p.Try == ""):
			t.Errorf("%s: %v, want a problem that says what to do", name, err)
		case err != nil:
			y.refused++
		case doc == nil || len(doc.Blocks) == 0 && len(doc.Problems) == 0:
			t.Errorf("%s: neither text nor a problem", name)
		default:
			gone, said := lost(counts[k], figures(doc)), news(intact[k], doc)
			if said {
				y.said++
			} else if gone > 0 {
				y.unsaid++
			}
			if gone > tolerated {
				y.lossy++
				if !said {
					t.Errorf("%s: %.0f %% of the figures are gone and no problem says so", name, 100*gone)
				}
			}
		}
	}
	for i, y := range tallies {
		t.Logf("%-22s %4d copies: %4d refused, %4d read with a problem said, %4d lose over %.0f %% of the figures, %4d lose some unsaid", ways[i].Name, y.copies, y.refused, y.said, y.lossy, 100*tolerated, y.unsaid)
	}
}
