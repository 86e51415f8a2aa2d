package index

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
)

var testNames = []Synonym{
	{ID: "cycles-to-fracture", Names: []string{"Number of cycles to fracture", "NCF", "cycles to failure"}},
	{ID: "time-to-fracture", Names: []string{"Time to fracture", "TTF"}},
}

// entry makes an invented paper of the words given.
func entry(name string, card Card, paragraphs ...string) Entry {
	var text []Passage
	for i, p := range paragraphs {
		text = append(text, Passage{Place: extract.Place{Page: i/2 + 1, Section: extract.Results, Par: i + 1}, Text: p})
	}
	original := []byte(name + "\n" + strings.Join(paragraphs, "\n"))
	h := sha256.Sum256(original)
	return Entry{ID: hex.EncodeToString(h[:]), Name: name, Original: original, Card: card, Text: text, Audit: []byte("{}\n"), Compare: []byte("{}\n"), Tool: "test",
		Added: time.Date(2031, 1, 2, 3, 4, 5, 0, time.UTC)}
}

func shelf(t testing.TB, entries ...Entry) *Library {
	t.Helper()
	w, err := Create(filepath.Join(t.TempDir(), "library"), Options{Synonyms: testNames, Wait: time.Second})
	if err != nil {
		t.Fatal(err)
	}
	addAll(t, w, entries...)
	return w.Library
}

func fill(t testing.TB, l *Library, entries ...Entry) {
	t.Helper()
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	addAll(t, w, entries...)
}

func addAll(t testing.TB, w *Writer, entries ...Entry) {
	t.Helper()
	for _, e := range entries {
		if err := w.Add(e, ""); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

func invented() []Entry {
	return []Entry{
		entry("kestrine.xml", Card{Title: "Fatigue of Kestrine instruments", Authors: []string{"Oakhollow P", "Hülsta R"}, Year: 2029, DOI: "10.5555/one",
			Journal: "Annals of Imaginary Endodontics", Instruments: []string{"Kestrine", "Halyard"}, Outcomes: []string{"cycles-to-fracture"},
			Printed: []string{"NCF"}, Verdicts: []string{"reproduces"}, Findings: []string{"interval-wide", "caution"}, N: []float64{12}, Ratios: []float64{1.589},
			Conditions: []string{"temperature 35 degC"}},
			"The number of cycles to fracture was 3279.0 ± 424.5 for Kestrine.",
			"The alloy was in the β phase at 37 °C (p < 0.05).",
			"Kestrine needed 65% less bending load than Halyard; heat-treated instruments bend."),
		entry("corvane.pdf", Card{Title: "Torsion of Corvane files", Authors: []string{"Tamsin R"}, Year: 2024, Instruments: []string{"Corvane"},
			Outcomes: []string{"time-to-fracture"}, Printed: []string{"TTF (s)"}, Verdicts: []string{"other-base"}, N: []float64{20}, Ratios: []float64{0.8}},
			"TTF fell from 1,083.82 s to 403.80 s.",
			"Fatigue was not measured in cycles. The fracture of files came late."),
	}
}

func TestFind(t *testing.T) {
	l := shelf(t, invented()...)
	r, err := l.Reader()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	one, two, both, none := []string{"kestrine.xml"}, []string{"corvane.pdf"}, []string{"corvane.pdf", "kestrine.xml"}, []string{}
	tests := []struct {
		query string
		want  []string
	}{
		{"NCF", one}, // printed as "number of cycles to fracture"
		{`"number of cycles to fracture"`, one},
		{"outcome:NCF", one},
		{"outcome:cycles-to-failure", one},
		{`"time to fracture"`, two},
		{"fatigue", both[:1]}, // the titles are not the text
		{"instruments", one},
		{"instrument", one},
		{"files", two},
		{"title:fatigue", one},
		{"author:hulsta", one}, // accents fold
		{"author:Hülsta", one},
		{"β", one},
		{"beta", one},
		{"±", one},
		{`"37 °C"`, one},
		{"65%", one},
		{"p<0.05", one},
		{`"p < 0.05"`, one},
		{"p<0.01", none},
		{"1083.82", two},
		{"1,083.82", two},
		{"heat-treated", one},
		{`"treated heat"`, none},
		{`"fracture files"`, none}, // "of" keeps its place
		{`"fracture of files"`, two},
		{"halyerd~", one},
		{"kestr*", one},
		{"fatigue -cycles", none},
		{"kestrine OR ttf", both},
		{"kestrine ttf", none},
		{"n:12", one},
		{"n>12", two},
		{"n:10..25", both},
		{"year:2025..", one},
		{"year<=2024", two},
		{"ratio<1", two},
		{"verdict:other-base", two},
		{"finding:caution", one},
		{"doi:10.5555/one", one},
		{"condition:35", one},
		{"journal:imaginary", one},
		{"-kestrine", two},
		{"instrument:Kestrine year:2029 NCF", one},
	}
	for _, tt := range tests {
		t.Run(tt.query, func(t *testing.T) {
			found, err := r.Find(Search{Query: tt.query, Facets: true})
			if err != nil {
				t.Fatal(err)
			}
			got := []string{}
			for _, h := range found.Hits {
				got = append(got, h.Record.Name)
			}
			slices.Sort(got)
			if tt.query == "fatigue" {
				tt.want = two
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("Find(%s) = %q, want %q", tt.query, got, tt.want)
			}
		})
	}
	for _, q := range []string{"", "the of", `"open`, "n:many", "n>1..2", "year:", "n:NaN"} {
		if _, err := r.Find(Search{Query: q}); err == nil {
			t.Errorf("Find(%q) gave no error", q)
		}
	}
}

func TestSnippetsLeadToThePlace(t *testing.T) {
	l := shelf(t, invented()...)
	r, err := l.Reader()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	found, err := r.Find(Search{Query: "NCF"})
	if err != nil || len(found.Hits) != 1 || len(found.Hits[0].Snippets) == 0 {
		t.Fatalf("Find(NCF) = %+v, %v; want one hit with a snippet", found, err)
	}
	s := found.Hits[0].Snippets[0]
	if want := (extract.Place{Page: 1, Section: extract.Results, Par: 1}); s.Place != want {
		t.Errorf("place %v, want %v", s.Place, want)
	}
	if len(s.Marks) == 0 || s.Text[s.Marks[0][0]:s.Marks[0][1]] != "number of cycles to fracture" {
		t.Errorf("marks %v of %q, want the name of the outcome", s.Marks, s.Text)
	}
}

func TestAnalyze(t *testing.T) {
	tests := []struct{ in, want string }{
		{"12.3±4.5 mm²", "12.3 ± 4.5 mm2"},
		{"P<.05, n=20", "p < 05 n = 20"},
		{"+/- 2 %", "± 2 %"},
		{"Tukey’s tests of boxes, studies", "tukey test boxe study"},
		{"37°C", "37 ° c"},
		{"1,200 and 12,5", "1200 12.5"},
		{"Café Ångström", "cafe angstrom"},
		{"10²", "10"},
		{"\xff\xfeb", "b"},
	}
	for _, tt := range tests {
		var got []string
		for _, tok := range (words{}).Analyze([]byte(tt.in)) {
			if !tok.KeyWord {
				got = append(got, string(tok.Term))
			}
		}
		if s := strings.Join(got, " "); s != tt.want {
			t.Errorf("Analyze(%q) = %q, want %q", tt.in, s, tt.want)
		}
	}
}

func FuzzAnalyze(f *testing.F) {
	for _, s := range []string{"12.3±4.5", "+/−", "β-phase 37 °C", "a\xff", "ies", "Number of cycles to fracture (NCF)"} {
		f.Add(s)
	}
	w := words{names: newNames(testNames)}
	f.Fuzz(func(t *testing.T, s string) {
		for _, tok := range w.Analyze([]byte(s)) {
			if tok.Start < 0 || tok.End > len(s) || tok.Start >= tok.End || len(tok.Term) == 0 {
				t.Errorf("Analyze(%q): token %v stands nowhere", s, tok)
			}
		}
		if a, err := parse(s, w); err == nil && a.query == nil {
			t.Errorf("parse(%q) gave neither query nor error", s)
		}
	})
}

func TestTextRoundTrip(t *testing.T) {
	text := []Passage{{extract.Place{Page: 2, Table: "S 3", Row: 4}, "a | b"}, {extract.Place{Par: 7, Section: extract.Abstract}, "words ± 3"}}
	want := []Passage{{extract.Place{Page: 2, Table: "S 3", Row: 4, Section: extract.InTable}, "a | b"}, text[1]}
	got, err := readText(writeText(text))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// longText gives words that no other seed gives in this order.
func longText(seed, n int) string {
	var b strings.Builder
	x := uint64(seed)*2654435761 + 1
	for range n {
		x = x*6364136223846793005 + 1442695040888963407
		fmt.Fprintf(&b, "w%c%c%c ", 'a'+rune(x>>40%26), 'a'+rune(x>>48%26), 'a'+rune(x>>56%26))
	}
	return b.String()
}

func TestStands(t *testing.T) {
	text := longText(1, 400)
	first := entry("a.xml", Card{Title: "One", DOI: "10.5555/a"}, text)
	noDOI := entry("b.xml", Card{Title: "Two"}, longText(2, 400))
	l := shelf(t, first, noDOI)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	fixed := first
	fixed.Corrections = []byte("place,field,was,now,why\n")
	newer := first
	newer.Tool = "later"
	words := strings.Fields(text)
	words[50], words[300] = "cut", "page 7 of 12"
	tests := []struct {
		why   string
		e     Entry
		want  Standing
		other string
	}{
		{"the same bytes", first, Unchanged, first.ID},
		{"corrections came", fixed, Changed, first.ID},
		{"another version", newer, Changed, first.ID},
		{"the same DOI", entry("c.pdf", Card{DOI: "10.5555/a"}, longText(3, 400)), Duplicate, first.ID},
		{"the same text, two places differ", entry("c.pdf", Card{}, strings.Join(words, " ")), Duplicate, first.ID},
		{"the same text but a DOI of its own", entry("c.pdf", Card{DOI: "10.5555/other"}, text), New, ""},
		{"other text", entry("d.pdf", Card{}, longText(4, 400)), New, ""},
		{"the file has other bytes now", entry("a.xml", Card{DOI: "10.5555/a"}, longText(5, 400)), Changed, first.ID},
		{"too short to tell", entry("e.txt", Card{}, "A few words only."), New, ""},
	}
	for _, tt := range tests {
		got, other, _ := w.Stands(&tt.e)
		if got != tt.want || other != tt.other {
			t.Errorf("%s: Stands = %v of %.6s, want %v of %.6s", tt.why, got, other, tt.want, tt.other)
		}
	}
}

func TestSecondWriterWaitsAndSays(t *testing.T) {
	l := shelf(t, invented()...)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	second := &Library{Dir: l.Dir, opt: Options{Synonyms: testNames, Wait: 120 * time.Millisecond}}
	_, err = second.Writer()
	if err == nil || !strings.Contains(err.Error(), "in use by another probity") || !strings.Contains(err.Error(), "waited 120ms") {
		t.Errorf("second writer: %v, want a message that says who and how long", err)
	}
	if records, bad := second.List(); len(records) != 2 || len(bad) > 0 {
		t.Errorf("List beside a writer = %d papers, %v; want 2", len(records), bad)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	a, err := second.Reader()
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	b, err := l.Reader() // readers stand together
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
}

func TestRemoveAndReplace(t *testing.T) {
	papers := invented()
	l := shelf(t, papers...)
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Remove(papers[0].ID); err != nil {
		t.Fatal(err)
	}
	changed := papers[1]
	changed.Card.Title = "A new title"
	changed.Tool = "later"
	if err := w.Add(changed, ""); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	found := mustFind(t, l, "title:new")
	if len(found.Hits) != 1 {
		t.Errorf("title:new finds %d papers, want 1", len(found.Hits))
	}
	if found := mustFind(t, l, "kestrine"); found.Total != 0 {
		t.Errorf("a removed paper is found")
	}
	if n, bad, err := l.Check(false); n != 1 || len(bad) > 0 || err != nil {
		t.Errorf("Check = %d, %v, %v; want one paper and no complaint", n, bad, err)
	}
}

func mustFind(t *testing.T, l *Library, q string) *Found {
	t.Helper()
	r, err := l.Reader()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	found, err := r.Find(Search{Query: q})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestVersions(t *testing.T) {
	l := shelf(t, invented()...)
	if err := writeVersion(l.Dir, layout+1); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(l.Dir, l.opt); err == nil || !strings.Contains(err.Error(), "newer probity") {
		t.Errorf("a newer library: %v, want a refusal", err)
	}
	// An upgrade of a layout to come, to hold the copy and the order of steps.
	if err := writeVersion(l.Dir, layout); err != nil {
		t.Fatal(err)
	}
	var steps []int
	step := func(n int) func(string) error {
		return func(string) error { steps = append(steps, n); return nil }
	}
	if err := l.bringUp(layout, layout+2, map[int]func(string) error{layout: step(1), layout + 1: step(2)}); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(steps, []int{1, 2}) {
		t.Errorf("steps %v, want 1 then 2", steps)
	}
	backup, err := Open(fmt.Sprintf("%s-backup-layout-%d", l.Dir, layout), l.opt)
	if err != nil {
		t.Fatal(err)
	}
	if records, bad := backup.List(); len(records) != 2 || len(bad) > 0 {
		t.Errorf("the copy holds %d papers, %v; want 2", len(records), bad)
	}
	if v, _ := readVersion(l.Dir); v != layout+2 {
		t.Errorf("layout %d after the upgrade, want %d", v, layout+2)
	}
}

func TestStrangeFolderIsRefused(t *testing.T) {
	dir := t.TempDir()
	os.WriteFile(filepath.Join(dir, "thesis.doc"), []byte("x"), 0o644)
	if _, err := Create(dir, Options{}); err == nil || !strings.Contains(err.Error(), "is not a library") {
		t.Errorf("Create in a folder with other files: %v, want a refusal", err)
	}
}

// TestEachTrips: a panic beside the caller reaches the caller, who can recover
// it, after everything else was done.
func TestEachTrips(t *testing.T) {
	var done atomic.Int64
	defer func() {
		if p := recover(); p != "a made-up fault" || done.Load() != 1999 {
			t.Errorf("recovered %v after %d, want the panic of f after 1999", p, done.Load())
		}
	}()
	each(2000, func(i int) {
		if i == 42 {
			panic("a made-up fault")
		}
		done.Add(1)
	})
	t.Error("each returned")
}
