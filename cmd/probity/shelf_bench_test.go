//go:build unix

package main

import (
	"context"
	"flag"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"syscall"
	"testing"
	"time"

	"probity/claims/compare"
	"probity/index"
)

var shelfSize = flag.Int("shelf", 300, "how many invented papers the library benchmarks use")

// program makes this test binary run as probity in a process of its own.
func program(t testing.TB) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "probity")
	if err := os.Symlink(self, path); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	return path
}

// BenchmarkShelf measures the library at the size of -shelf: add in a process
// of its own with its peak memory, the size of the index, find in a process
// and within one, compare over all.
//
//	go test -run '^$' -bench Shelf -benchtime 1x -timeout 30m ./cmd/probity -shelf=10000
func BenchmarkShelf(b *testing.B) {
	papers, lib, exe := shelfFolder(b, *shelfSize), filepath.Join(b.TempDir(), "library"), program(b)
	for b.Loop() {
		if err := os.RemoveAll(lib); err != nil {
			b.Fatal(err)
		}
		start := time.Now()
		cmd := exec.Command(exe, "add", "--library", lib, papers)
		cmd.Stderr = os.Stderr
		if err := cmd.Run(); err != nil {
			b.Fatal(err)
		}
		took := time.Since(start)
		b.ReportMetric(float64(*shelfSize)/took.Seconds(), "papers/s")
		if u, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
			b.ReportMetric(float64(u.Maxrss)/1024, "peak-MB")
			b.ReportMetric((cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime()).Seconds()*1000/float64(*shelfSize), "cpu-ms/paper")
		}
	}
	b.ReportMetric(float64(sizeOf(b, filepath.Join(lib, "search.bleve")))/1024/float64(*shelfSize), "index-kB/paper")
	var cold []time.Duration
	for range 9 {
		start := time.Now()
		if err := exec.Command(exe, "find", "--library", lib, "kestrine NCF").Run(); err != nil {
			b.Fatal(err)
		}
		cold = append(cold, time.Since(start))
	}
	slices.Sort(cold)
	b.ReportMetric(ms(cold[4]), "cold-find-ms")
	c := newConsole(context.Background(), nil, io.Discard, os.Stderr)
	l, err := index.Open(lib, index.Options{Synonyms: c.synonyms(), Wait: time.Second})
	if err != nil {
		b.Fatal(err)
	}
	compared := []time.Duration{compareAll(b, c, l), compareAll(b, c, l), compareAll(b, c, l)}
	slices.Sort(compared)
	b.ReportMetric(ms(compared[1]), "compare-ms")
	findAll(b, l)
}

func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

func compareAll(b *testing.B, c *console, l *index.Library) time.Duration {
	start := time.Now()
	papers, err := c.comparable(l, "cycles-to-fracture", nil)
	if err != nil {
		b.Fatal(err)
	}
	res, err := compare.Table(papers, compare.Query{Outcome: "cycles-to-fracture"}, c.catalog)
	if err != nil {
		b.Fatal(err)
	}
	c.tableReport(res, false)
	took := time.Since(start)
	if res.Rows() < *shelfSize {
		b.Fatalf("%d comparisons of %d papers", res.Rows(), *shelfSize)
	}
	return took
}

// findQueries are terms, phrases and filters, rare and frequent.
var findQueries = []string{"kestrine", "NCF", `"cyclic fatigue"`, "bebe", "babe bebe fabe", `"time to fracture"`, `"babe bebe"`, `"stainless steel canal"`,
	"kestrine year:2010..2015", "outcome:NCF n>=18", "verdict:reproduces ratio>1.5", "halyerd~", "pabe*", "-kestrine year:2029", `title:"cyclic fatigue of kestrine"`,
	`"level of significance"`, "60°", "temperature 35 °C", "instrument:osprane condition:23", "author:rgiko", "p<0.05", "one-way ANOVA", `"fivida gebe"`, "zzz OR kestrine"}

func findAll(b *testing.B, l *index.Library) {
	r, err := l.Reader()
	if err != nil {
		b.Fatal(err)
	}
	defer r.Close()
	var all []time.Duration
	worst := map[string]time.Duration{}
	for range 10 {
		for _, q := range findQueries {
			start := time.Now()
			if _, err := r.Find(index.Search{Query: q}); err != nil {
				b.Fatal(err)
			}
			took := time.Since(start)
			all = append(all, took)
			worst[q] = max(worst[q], took)
		}
	}
	slices.Sort(all)
	b.ReportMetric(ms(all[len(all)/2]), "find-p50-ms")
	b.ReportMetric(ms(all[len(all)*95/100]), "find-p95-ms")
	if testing.Verbose() {
		for _, q := range findQueries {
			b.Logf("%-45s %8.2f ms at worst", q, ms(worst[q]))
		}
	}
}

func sizeOf(t testing.TB, dir string) (n int64) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			n += info.Size()
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}
