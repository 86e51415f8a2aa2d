//go:build unix

package main

import (
	"context"
	"database/sql"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	_ "modernc.org/sqlite"

	"probity/index"
)

// BenchmarkShelfSQLite does the same work with SQLite FTS5 in place of our
// index: papers are read and judged likewise, the text and the fields go into
// one database. It keeps no places and no synonyms; what it leaves out it
// saves. It is the yardstick of the README, not a part of the program.
func BenchmarkShelfSQLite(b *testing.B) {
	papers, file := shelfFolder(b, *shelfSize), filepath.Join(b.TempDir(), "shelf.db")
	c := newConsole(context.Background(), nil, io.Discard, os.Stderr)
	for b.Loop() {
		os.Remove(file)
		start := time.Now()
		sqliteAdd(b, c, papers, file)
		b.ReportMetric(float64(*shelfSize)/time.Since(start).Seconds(), "papers/s")
	}
	info, err := os.Stat(file)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(info.Size())/1024/float64(*shelfSize), "index-kB/paper")
	sqliteFind(b, file)
}

const sqliteSchema = `PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL;
CREATE VIRTUAL TABLE paper USING fts5(title, authors, journal, instruments, outcomes, text, tokenize='porter unicode61');
CREATE TABLE fact(id INTEGER PRIMARY KEY, year INTEGER, verdict TEXT, n REAL, ratio REAL);`

func sqliteAdd(b *testing.B, c *console, papers, file string) {
	b.Helper()
	db, err := sql.Open("sqlite", file)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(sqliteSchema); err != nil {
		b.Fatal(err)
	}
	files, _ := find([]string{papers}, isPaperName)
	type done struct {
		entries []index.Entry
		err     error
	}
	queue := make(chan chan done, 32)
	go func() {
		defer close(queue)
		slots := make(chan struct{}, runtime.GOMAXPROCS(0))
		for _, path := range files {
			out := make(chan done, 1)
			queue <- out
			slots <- struct{}{}
			go func() {
				defer func() { <-slots }()
				data, err := os.ReadFile(path)
				if err != nil {
					out <- done{err: err}
					return
				}
				entries, err := c.entriesOf(path, data, nil, nil)
				out <- done{entries, err}
			}()
		}
	}()
	n := 0
	var tx *sql.Tx
	for out := range queue {
		d := <-out
		if d.err != nil {
			b.Fatal(d.err)
		}
		for _, e := range d.entries {
			if tx == nil {
				if tx, err = db.Begin(); err != nil {
					b.Fatal(err)
				}
			}
			n++
			var text strings.Builder
			for _, p := range e.Text {
				text.WriteString(p.Text + "\n")
			}
			if _, err := tx.Exec(`INSERT INTO paper(rowid,title,authors,journal,instruments,outcomes,text) VALUES(?,?,?,?,?,?,?)`, n, e.Card.Title,
				strings.Join(e.Card.Authors, " "), e.Card.Journal, strings.Join(e.Card.Instruments, " "), strings.Join(e.Card.Printed, " "), text.String()); err != nil {
				b.Fatal(err)
			}
			if _, err := tx.Exec(`INSERT INTO fact VALUES(?,?,?,?,?)`, n, e.Card.Year, strings.Join(e.Card.Verdicts, " "), most(e.Card.N), most(e.Card.Ratios)); err != nil {
				b.Fatal(err)
			}
			if n%100 == 0 {
				if err := tx.Commit(); err != nil {
					b.Fatal(err)
				}
				tx = nil
			}
		}
	}
	if tx != nil {
		if err := tx.Commit(); err != nil {
			b.Fatal(err)
		}
	}
	if _, err := db.Exec(`PRAGMA wal_checkpoint(TRUNCATE)`); err != nil {
		b.Fatal(err)
	}
}

func most(list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	return slices.Max(list)
}

// sqliteQueries ask for the same as findQueries, as far as FTS5 can: fuzzy
// words and signs it cannot.
var sqliteQueries = []struct{ match, where string }{
	{"kestrine", ""}, {"ncf", ""}, {`"cyclic fatigue"`, ""}, {"bebe", ""}, {"babe bebe fabe", ""}, {`"time to fracture"`, ""}, {`"babe bebe"`, ""},
	{`"stainless steel canal"`, ""}, {"kestrine", "year BETWEEN 2010 AND 2015"}, {"outcomes:ncf", "n >= 18"}, {"", "verdict = 'reproduces' AND ratio > 1.5"},
	{"pabe*", ""}, {`title:"cyclic fatigue of kestrine"`, ""}, {`"level of significance"`, ""}, {"60", ""}, {"temperature 35", ""}, {"instruments:osprane", ""},
	{"authors:rgiko", ""}, {`"one way" anova`, ""}, {`"fivida gebe"`, ""}, {"zzz OR kestrine", ""},
}

func sqliteFind(b *testing.B, file string) {
	db, err := sql.Open("sqlite", file)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	var all []time.Duration
	for range 10 {
		for _, q := range sqliteQueries {
			start := time.Now()
			sqliteOne(b, db, q.match, q.where)
			all = append(all, time.Since(start))
		}
	}
	slices.Sort(all)
	b.ReportMetric(ms(all[len(all)/2]), "find-p50-ms")
	b.ReportMetric(ms(all[len(all)*95/100]), "find-p95-ms")
}

// sqliteOne counts all papers and shows ten with a snippet, as find does.
func sqliteOne(b *testing.B, db *sql.DB, match, where string) {
	cond := []string{}
	args := []any{}
	if match != "" {
		cond, args = append(cond, "paper MATCH ?"), append(args, match)
	}
	if where != "" {
		cond = append(cond, where)
	}
	from := " FROM paper JOIN fact ON fact.id = paper.rowid WHERE " + strings.Join(cond, " AND ")
	var n int
	if err := db.QueryRow("SELECT count(*)"+from, args...).Scan(&n); err != nil {
		b.Fatal(match, err)
	}
	show, order := "substr(text, 1, 100)", ""
	if match != "" {
		show, order = "snippet(paper, 5, '[', ']', '…', 20)", " ORDER BY rank"
	}
	rows, err := db.Query("SELECT title, "+show+from+order+" LIMIT 10", args...)
	if err != nil {
		b.Fatal(match, err)
	}
	defer rows.Close()
	for rows.Next() {
		var title, text string
		if err := rows.Scan(&title, &text); err != nil {
			b.Fatal(err)
		}
	}
	if err := rows.Err(); err != nil {
		b.Fatal(err)
	}
}
