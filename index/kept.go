package index

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
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

// headSize is how much is read at first: enough for record and comparison of
// most papers.
const headSize = 16 << 10

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

// kept reads keptFile as far as the end of a line; textLines reads it all.
func (l *Library) kept(id string, upTo int) ([][]byte, error) {
	if !isID(id) {
		return nil, fmt.Errorf("%q is not a paper of the library", id)
	}
	f, err := os.Open(filepath.Join(l.folder(id), keptFile))
	if err != nil {
		return nil, fmt.Errorf("papers/%.12s…/%s cannot be read (%v); run probity doctor", id, keptFile, cause(err))
	}
	defer f.Close()
	data := make([]byte, headSize)
	n, err := io.ReadFull(f, data)
	data = data[:n]
	whole := errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
	if !whole && err == nil && bytes.Count(data, []byte{'\n'}) <= upTo {
		var more []byte
		more, err = io.ReadAll(f)
		data = append(data, more...)
		whole = true
	}
	if err != nil && !whole {
		return nil, fmt.Errorf("papers/%.12s…/%s cannot be read (%v); run probity doctor", id, keptFile, cause(err))
	}
	parts := bytes.SplitN(data, []byte{'\n'}, textLines+1)
	if len(parts) <= upTo || len(parts) == upTo+1 && upTo < textLines {
		return nil, fmt.Errorf("papers/%.12s…/%s breaks off; run probity doctor", id, keptFile)
	}
	return parts, nil
}

// Record reads what is known of one paper.
func (l *Library) Record(id string) (*Record, error) {
	parts, err := l.kept(id, recordLine)
	if err != nil {
		return nil, err
	}
	return recordIn(id, parts[recordLine])
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
func (l *Library) Compare(id string) ([]byte, error) {
	parts, err := l.kept(id, compareLine)
	if err != nil {
		return nil, err
	}
	return parts[compareLine], nil
}

// Audit gives the audit as the caller printed it, without the end of its line.
func (l *Library) Audit(id string) ([]byte, error) {
	parts, err := l.kept(id, auditLine)
	if err != nil {
		return nil, err
	}
	return parts[auditLine], nil
}

// Text gives the passages of a paper with their places.
func (l *Library) Text(id string) ([]Passage, error) {
	_, text, err := l.read(id)
	return text, err
}

// read gives what the index needs of a paper.
func (l *Library) read(id string) (*Record, []Passage, error) {
	parts, err := l.kept(id, textLines)
	if err != nil {
		return nil, nil, err
	}
	r, err := recordIn(id, parts[recordLine])
	if err != nil {
		return nil, nil, err
	}
	text, err := readText(parts[textLines])
	if err != nil {
		return nil, nil, fmt.Errorf("papers/%.12s…: %w; run probity doctor", id, err)
	}
	return r, text, nil
}

// Corrections gives what a person wrote beside the paper, nil: nothing.
func (l *Library) Corrections(r *Record) ([]byte, error) {
	if r.Corrections == "" {
		return nil, nil
	}
	return l.file(r.ID, "corrections.csv")
}

// Original reads the bytes of a paper as they were given: for a paper of a
// collection those of the whole collection.
func (l *Library) Original(r *Record) ([]byte, error) {
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
	data, err := os.ReadFile(filepath.Join(l.folder(id), name))
	if err != nil {
		return nil, fmt.Errorf("papers/%.12s…/%s cannot be read (%v); run probity doctor", id, name, cause(err))
	}
	return data, nil
}

// Entry gives a paper back as it was added.
func (l *Library) Entry(id string) (Entry, error) {
	r, text, err := l.read(id)
	if err != nil {
		return Entry{}, err
	}
	e := Entry{ID: r.ID, Name: r.Name, Collection: r.Collection, Nth: r.Nth, Total: r.Total, Card: r.Card, Text: text, Tool: r.Tool, Added: r.Added}
	var bad [4]error
	e.Original, bad[0] = l.Original(r)
	e.Corrections, bad[1] = l.Corrections(r)
	e.Audit, bad[2] = l.Audit(id)
	e.Compare, bad[3] = l.Compare(id)
	if err := errors.Join(bad[:]...); err != nil {
		return Entry{}, fmt.Errorf("%s: %w", r.Name, err)
	}
	return e, nil
}
