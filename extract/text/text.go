// Package text reads a paper, or a part of one, from plain text or Markdown:
// an abstract pasted from a data base, a table copied from a page, a single
// sentence.
//
//	bytes → extract.Document: prose in order, tables as rectangles
//
// Plain text has no marks, so that headings, captions and tables are found
// from their words and from how their columns stand. What cannot be told is
// left as running text.
package text

import (
	"bytes"
	"path"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/net/html/charset"

	"probity/extract"
	"probity/extract/internal/flow"
)

// MaxBytes is the largest text that is read.
const MaxBytes = 64 << 20

// Read reads the text in data; name is the file it came from, for messages
// and places. Its ending decides between Markdown and plain text only where
// the text itself does not.
func Read(data []byte, name string) (*extract.Document, error) {
	problem := func(what, try string) error {
		return &extract.Problem{Place: extract.Place{File: name}, What: what, Try: try}
	}
	if len(data) > MaxBytes {
		return nil, problem("the text is larger than 64 MB", "give the paper alone")
	}
	s := decode(data)
	if binary(s) {
		return nil, problem("the file is neither text nor a known format", "give the paper as JATS XML, HTML, text, DOCX, ODT or PDF")
	}
	r := &reader{Flat: flow.NewFlat(name, "text"), markdown: isMarkdown(s, name)}
	if r.markdown {
		s = withoutComments(s)
	}
	r.read(lines(s))
	d := r.Finish()
	if len(d.Blocks) == 0 {
		return nil, problem("the file holds no text", "")
	}
	return d, nil
}

// decode makes a string of UTF-8, UTF-16 with its mark, or Windows-1252.
func decode(data []byte) string {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		data = data[3:]
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		label := "utf-16le"
		if data[0] == 0xfe {
			label = "utf-16be"
		}
		if e, _ := charset.Lookup(label); e != nil {
			if out, err := e.NewDecoder().Bytes(data[2:]); err == nil {
				return string(out)
			}
		}
	}
	if utf8.Valid(data) {
		return string(data)
	}
	if e, _ := charset.Lookup("windows-1252"); e != nil {
		if out, err := e.NewDecoder().Bytes(data); err == nil {
			return string(out)
		}
	}
	return strings.ToValidUTF8(string(data), "\ufffd")
}

// binary reports bytes that are no text: more than one in a hundred is a
// control character.
func binary(s string) bool {
	bad := 0
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f' {
			bad++
		}
	}
	return 100*bad > len(s)
}

// lines parts the text at its line ends. A form feed begins a page and so a
// paragraph.
func lines(s string) []string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n\n", "\f", "\n\n", "\u00ad\n", "").Replace(s)
	out := strings.Split(s, "\n")
	for i, line := range out {
		out[i] = strings.TrimRightFunc(line, unicode.IsSpace)
	}
	return out
}

// isMarkdown tells Markdown from plain text: two different marks of it, or one
// and the name.
func isMarkdown(s, name string) bool {
	head := s[:min(len(s), 100_000)]
	heading, ruled := false, false
	for line := range strings.Lines(head) {
		line = strings.TrimRight(line, "\r\n")
		heading = heading || strings.HasPrefix(strings.TrimLeft(line, " "), "#") && atxHeading.MatchString(line)
		ruled = ruled || strings.Contains(line, "--") && delimiterRow.MatchString(line)
	}
	marks := 0
	for _, m := range []bool{
		heading,
		ruled,
		strings.Contains(head, "**"),
		strings.Contains(head, "\n- ") || strings.Contains(head, "\n* "),
		strings.Contains(head, "](http") || strings.Contains(head, "](#"),
		strings.Contains(head, "\n```"),
	} {
		if m {
			marks++
		}
	}
	ext := strings.ToLower(path.Ext(strings.TrimSuffix(strings.ToLower(name), ".gz")))
	return marks >= 2 || ext == ".md" || ext == ".markdown" || heading && ext != ".txt"
}

// reader walks the lines of one text.
type reader struct {
	*flow.Flat
	markdown bool
	titled   bool
	fails    int // how often the lines at hand were tried as a table
	tried    int // how many lines are left below them
}
