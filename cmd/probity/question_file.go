package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"probity/claims/compare"
	"probity/claims/report"
	"probity/index"
)

// An event is one line of a question's file.
type event struct {
	At      string        `json:"at"`
	Do      string        `json:"do"` // asked, searched, include, exclude, assume, seen
	Text    string        `json:"text,omitempty"`
	Compare *compareFlags `json:"compare,omitempty"`
	Where   string        `json:"where,omitempty"`
	Query   string        `json:"query,omitempty"`
	Found   int           `json:"found,omitempty"`
	Paper   string        `json:"paper,omitempty"`
	Name    string        `json:"name,omitempty"`
	Why     string        `json:"why,omitempty"`
	Seen    []seenRow     `json:"seen,omitempty"`
}

// A seenRow is what is remembered of a line of the table.
type seenRow struct {
	Key   string  `json:"key"` // paper, arms, condition
	Says  string  `json:"says"`
	Ratio float64 `json:"ratio,omitempty"`
	Low   float64 `json:"low,omitempty"`
	High  float64 `json:"high,omitempty"`
	Grade string  `json:"grade,omitempty"`
}

// A question is what its lines add up to: the last word holds.
type question struct {
	Text     string
	Compare  compareFlags
	Searches []event
	Decided  map[string]event
	Order    []string // papers, in the order first decided on
	Assumed  []string
	Seen     []seenRow
	SeenAt   string
	Events   []event
}

func (q *question) count(do string) (n int) {
	for _, d := range q.Decided {
		if d.Do == do {
			n++
		}
	}
	return n
}

func questionPath(lib *index.Library, name string) string {
	return filepath.Join(lib.Dir, "questions", name+".jsonl")
}

func questionNames(lib *index.Library) ([]string, error) {
	files, err := os.ReadDir(filepath.Join(lib.Dir, "questions"))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("the questions cannot be read: %w", err)
	}
	var out []string
	for _, f := range files {
		if name, ok := strings.CutSuffix(f.Name(), ".jsonl"); ok && questionName.MatchString(name) {
			out = append(out, name)
		}
	}
	return out, nil
}

func beginQuestion(lib *index.Library, name string, e event) error {
	path := questionPath(lib, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("the question cannot be kept: %w", err)
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	switch {
	case errors.Is(err, fs.ErrExist):
		if info, err := os.Stat(path); err != nil || info.Size() > 0 { // empty: a process ended before it asked
			return fmt.Errorf("the question %s is there already; take another name, or remove questions/%s.jsonl from the library", name, name)
		}
	case err != nil:
		return fmt.Errorf("the question cannot be kept: %w", err)
	default:
		f.Close()
	}
	return appendQuestion(lib, name, e)
}

// appendQuestion adds lines in one write, so that two processes do not mix
// theirs, and brings them to the disk. They stand apart from a line that broke
// off, as on a full disk: that one costs no other.
func appendQuestion(lib *index.Library, name string, events ...event) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	for _, e := range events {
		if err := enc.Encode(e); err != nil {
			return err
		}
	}
	f, err := os.OpenFile(questionPath(lib, name), os.O_APPEND|os.O_RDWR, 0o644)
	if err != nil {
		return fmt.Errorf("the question cannot be kept: %w", err)
	}
	lines := b.Bytes()
	if broken(f) {
		lines = append([]byte{'\n'}, lines...)
	}
	_, err = f.Write(lines)
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return fmt.Errorf("the question cannot be kept: %w", err)
	}
	return nil
}

// broken reports whether a file ends within a line.
func broken(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Size() == 0 {
		return false
	}
	var last [1]byte
	_, err = f.ReadAt(last[:], info.Size()-1)
	return err == nil && last[0] != '\n'
}

func readQuestion(lib *index.Library, name string) (*question, error) {
	if !questionName.MatchString(name) {
		return nil, fmt.Errorf("%q is no name of a question; probity question list shows them", name)
	}
	data, err := os.ReadFile(questionPath(lib, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no question %s; probity question list shows them, probity question new begins one", name)
	}
	if err != nil {
		return nil, fmt.Errorf("the question cannot be read: %w", err)
	}
	q := &question{Decided: map[string]event{}}
	in := bufio.NewScanner(bytes.NewReader(data))
	in.Buffer(nil, 64<<20)
	for n := 1; in.Scan(); n++ {
		if len(bytes.TrimSpace(in.Bytes())) == 0 {
			continue
		}
		var e event
		if err := json.Unmarshal(in.Bytes(), &e); err != nil {
			return nil, fmt.Errorf("questions/%s.jsonl line %d cannot be read (%v); put it right or take it out", name, n, err)
		}
		q.apply(e)
	}
	if err := in.Err(); err != nil {
		return nil, fmt.Errorf("questions/%s.jsonl cannot be read: %w", name, err)
	}
	if q.Text == "" {
		return nil, fmt.Errorf("questions/%s.jsonl has no line that asks", name)
	}
	return q, nil
}

func (q *question) apply(e event) {
	q.Events = append(q.Events, e)
	if len(e.At) < 10 {
		e.At += strings.Repeat(" ", 10-len(e.At))
	}
	switch e.Do {
	case "asked":
		q.Text = e.Text
		if e.Compare != nil {
			q.Compare = *e.Compare
		}
	case "searched":
		q.Searches = append(q.Searches, e)
	case "include", "exclude":
		if _, before := q.Decided[e.Paper]; !before {
			q.Order = append(q.Order, e.Paper)
		}
		q.Decided[e.Paper] = e
	case "assume":
		q.Assumed = append(q.Assumed, e.Text)
	case "seen":
		q.Seen, q.SeenAt = e.Seen, e.At
	}
}

// seenOf is what is remembered of a table.
func seenOf(res *compare.Result) []seenRow {
	var out []seenRow
	row := func(r *compare.Row) {
		low, high := r.Interval()
		out = append(out, seenRow{Key: strings.Join([]string{r.Paper.ID, r.Subject.Name, r.Reference.Name, r.Condition, r.Subject.Figure.Place}, "|"),
			Says: r.Paper.Name() + ": " + r.Subject.Name + " against " + r.Reference.Name, Ratio: r.Ratio, Low: low, High: high, Grade: r.Grade.String()})
	}
	for _, s := range res.Strata {
		for _, r := range s.Rows {
			row(r)
		}
		for _, c := range s.Combined {
			if c.Refused == "" {
				out = append(out, seenRow{Key: "combined|" + s.Name + "|" + c.Contrast, Says: fmt.Sprintf("combined, %s (%s)", c.Contrast, s.Name), Ratio: c.Ratio, Low: c.Low, High: c.High,
					Grade: papersCount(c.Papers)})
			}
		}
	}
	for _, r := range res.Apart {
		row(r)
	}
	return out
}

// changedParts says what came, went and moved since a table was kept.
func changedParts(before, after []seenRow, since string) []report.Part {
	if since == "" {
		return nil
	}
	e := report.Entry{Lead: "changed", Head: "since the table kept on " + since[:10]}
	line := func(label string, r seenRow, more string) {
		text := r.Says
		if r.Ratio > 0 {
			text += fmt.Sprintf(", ratio %.2f (%.2f to %.2f)", r.Ratio, r.Low, r.High)
		}
		e.Lines = append(e.Lines, report.Line{Label: label, Text: text + more})
	}
	find := func(list []seenRow, key string) *seenRow {
		if i := slices.IndexFunc(list, func(r seenRow) bool { return r.Key == key }); i >= 0 {
			return &list[i]
		}
		return nil
	}
	for _, r := range after {
		switch old := find(before, r.Key); {
		case old == nil:
			line("new", r, ", "+r.Grade)
		case old.Ratio != r.Ratio || old.Low != r.Low || old.High != r.High || old.Grade != r.Grade:
			line("moved", r, fmt.Sprintf(", %s; was %.2f (%.2f to %.2f), %s", r.Grade, old.Ratio, old.Low, old.High, old.Grade))
		}
	}
	for _, r := range before {
		if find(after, r.Key) == nil {
			line("gone", r, "")
		}
	}
	if len(e.Lines) == 0 {
		e.Head = "nothing " + e.Head
	}
	return []report.Part{e}
}
