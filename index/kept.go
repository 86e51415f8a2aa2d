package index

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// keptFile holds what was made of a paper, in one file since each file costs a
// disk about as much as 30 kB of text:
//
//	line 1   the record: title, authors, what was measured, sums
//	line 2   what a comparison across papers needs, the caller's JSON
//	line 3   the audit, the caller's JSON
//	then     the text, a line a passage: its place, a tab, its words
const keptFile = "kept.txt"

// parts of keptFile by line.
const (
	recordLine = iota
	compareLine
	auditLine
	textLines
)

// rest is keptFile after its first line.
func rest(e *Entry) ([]byte, error) {
	var b bytes.Buffer
	for _, line := range [][]byte{e.Compare, e.Audit} {
		line = bytes.TrimSpace(line)
		if bytes.IndexByte(line, '\n') >= 0 {
			var one bytes.Buffer
			if err := json.Compact(&one, line); err != nil {
				return nil, fmt.Errorf("it is not JSON: %w", err)
			}
			line = one.Bytes()
		}
		b.Write(line)
		b.WriteByte('\n')
	}
	b.Write(writeText(e.Text))
	return b.Bytes(), nil
}

// A keptReader reads keptFile front to back. It gives a line only when it
// stands there with its end: what breaks off is an error, never a shorter line.
type keptReader struct {
	id string
	f  *os.File
	r  *bufio.Reader
}

func (l *Library) openKept(id string) (*keptReader, error) {
	if !isID(id) {
		return nil, fmt.Errorf("%q is not a paper of the library", id)
	}
	f, err := l.open(id, keptFile)
	if err != nil {
		return nil, unreadable(id, keptFile, err)
	}
	return &keptReader{id, f, bufio.NewReaderSize(f, 16<<10)}, nil
}

func (k *keptReader) close() { k.f.Close() }

// line gives the next line without its end.
func (k *keptReader) line() ([]byte, error) {
	line, err := k.r.ReadBytes('\n')
	switch {
	case errors.Is(err, io.EOF):
		return nil, fmt.Errorf("papers/%.12s…/%s breaks off; run probity doctor", k.id, keptFile)
	case err != nil:
		return nil, unreadable(k.id, keptFile, err)
	}
	return line[:len(line)-1], nil
}

// Record reads what is known of one paper.
func (l *Library) Record(id string) (*Record, error) {
	line, err := l.keptLine(id, recordLine)
	if err != nil {
		return nil, err
	}
	return recordIn(id, line)
}

// keptLine gives one of the lines before the text.
func (l *Library) keptLine(id string, n int) ([]byte, error) {
	k, err := l.openKept(id)
	if err != nil {
		return nil, err
	}
	defer k.close()
	for ; n > 0; n-- {
		if _, err := k.line(); err != nil {
			return nil, err
		}
	}
	return k.line()
}

// keptWhole is all that is kept of a paper.
type keptWhole struct {
	record         *Record
	compare, audit []byte
	text           []Passage
}

// whole reads all that is kept of a paper, and holds it against its sum: a
// file that lost its end at the end of a line looks like a shorter paper.
func (l *Library) whole(id string) (*keptWhole, error) {
	data, err := l.file(id, keptFile)
	if err != nil {
		return nil, err
	}
	line, after, _ := bytes.Cut(data, []byte{'\n'})
	r, err := recordIn(id, line)
	if err != nil {
		return nil, err
	}
	if sum(after) != r.Rest {
		return nil, fmt.Errorf("what is kept of %s (papers/%.12s…/%s) is not as it was written; run probity doctor", r.Name, id, keptFile)
	}
	parts := bytes.SplitN(after, []byte{'\n'}, textLines)
	if len(parts) < textLines {
		return nil, fmt.Errorf("papers/%.12s…/%s breaks off; run probity doctor", id, keptFile)
	}
	text, err := readText(parts[textLines-1])
	if err != nil {
		return nil, fmt.Errorf("papers/%.12s…: %w; run probity doctor", id, err)
	}
	return &keptWhole{r, parts[compareLine-1], parts[auditLine-1], text}, nil
}

func unreadable(id, name string, err error) error {
	if errors.Is(err, ErrGone) {
		return fmt.Errorf("papers/%.12s… %w", id, ErrGone)
	}
	return fmt.Errorf("papers/%.12s…/%s cannot be read (%v); run probity doctor", id, name, cause(err))
}

func recordIn(id string, line []byte) (*Record, error) {
	r := &Record{}
	if err := json.Unmarshal(line, r); err != nil {
		return nil, fmt.Errorf("papers/%s/%s cannot be read (%v); run probity doctor", id, keptFile, err)
	}
	if r.ID != id {
		return nil, fmt.Errorf("papers/%s/%s is that of paper %.12s; run probity doctor", id, keptFile, r.ID)
	}
	return r, nil
}

// Compare gives what was kept for comparisons.
func (l *Library) Compare(id string) ([]byte, error) { return l.keptLine(id, compareLine) }

// Audit gives the audit as the caller printed it, without the end of its line.
func (l *Library) Audit(id string) ([]byte, error) { return l.keptLine(id, auditLine) }

// Text gives the passages of a paper with their places.
func (l *Library) Text(id string) ([]Passage, error) {
	k, err := l.whole(id)
	if err != nil {
		return nil, err
	}
	return k.text, nil
}

// Corrections gives what a person wrote beside the paper, nil: nothing.
func (l *Library) Corrections(r *Record) ([]byte, error) {
	if r.Corrections == "" {
		return nil, nil
	}
	data, err := l.file(r.ID, "corrections.csv")
	if err == nil && sum(data) != r.Corrections {
		return nil, fmt.Errorf("the corrections of %s are not as they were added; run probity doctor", r.Name)
	}
	return data, err
}

// Original gives the bytes of a paper as they were given, for a paper of a
// collection those of the whole collection. Bytes that changed on the disk are
// an error: nothing may be made of them, and no new sum kept.
func (l *Library) Original(r *Record) ([]byte, error) {
	data, err := l.original(r)
	if err == nil && (len(data) != r.Size || sum(data) != r.SHA256) {
		return nil, fmt.Errorf("the original of %s is not as it was added; run probity doctor", r.Name)
	}
	return data, err
}

func (l *Library) original(r *Record) ([]byte, error) {
	if r.Collection == "" {
		return l.file(r.ID, "original")
	}
	if !isID(r.Collection) {
		return nil, fmt.Errorf("papers/%s/%s names a collection %q that cannot be", r.ID, keptFile, r.Collection)
	}
	data, err := os.ReadFile(filepath.Join(l.Dir, "collections", r.Collection))
	if err != nil {
		return nil, fmt.Errorf("collections/%.12s… cannot be read (%v); run probity doctor", r.Collection, cause(err))
	}
	return data, nil
}

func (l *Library) file(id, name string) ([]byte, error) {
	if !isID(id) {
		return nil, fmt.Errorf("%q is not a paper of the library", id)
	}
	f, err := l.open(id, name)
	if err != nil {
		return nil, unreadable(id, name, err)
	}
	defer f.Close()
	var b bytes.Buffer
	if info, err := f.Stat(); err == nil {
		b.Grow(int(info.Size()) + bytes.MinRead)
	}
	if _, err := b.ReadFrom(f); err != nil {
		return nil, unreadable(id, name, err)
	}
	return b.Bytes(), nil
}

// open opens a file of a paper. While a paper is replaced its folder may stand
// aside for a moment.
func (l *Library) open(id, name string) (*os.File, error) {
	var first error
	for _, folder := range []string{id, oldPrefix + id, id} { // in its place, aside, or in its place by now
		f, err := os.Open(filepath.Join(l.papers(), folder, name))
		if !errors.Is(err, fs.ErrNotExist) {
			return f, err
		}
		if first == nil {
			first = err
		}
	}
	if _, err := os.Stat(l.folder(id)); errors.Is(err, fs.ErrNotExist) {
		return nil, ErrGone
	}
	return nil, first
}

// Entry gives a paper back as it was added.
func (l *Library) Entry(id string) (Entry, error) {
	k, err := l.whole(id)
	if err != nil {
		return Entry{}, err
	}
	r := k.record
	e := Entry{ID: r.ID, Name: r.Name, Collection: r.Collection, Nth: r.Nth, Total: r.Total, Card: r.Card, Text: k.text, Audit: k.audit, Compare: k.compare,
		Tool: r.Tool, Added: r.Added}
	var bad [2]error
	e.Original, bad[0] = l.Original(r)
	e.Corrections, bad[1] = l.Corrections(r)
	if err := errors.Join(bad[:]...); err != nil {
		return Entry{}, fmt.Errorf("%s: %w", r.Name, err)
	}
	return e, nil
}
