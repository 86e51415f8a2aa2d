// Package report turns judgements and findings into what a person or a
// program reads.
//
//	Audit{Study, Judgements, Findings} → Of → Report (words, digits, order) → Writer → bytes
//	Audit → WriteAudit → the audit format, a line a paper
//
// Words, digits and order are decided once, in Of; writers only lay them out,
// so they cannot disagree.
package report

import "probity/extract"

// A Report is a small tree that every writer lays out in its own way.
type Report struct {
	Title string
	Parts []Part
}

// A Part is a Heading, a Para, an Entry, a Table or Notes.
type Part interface{ isPart() }

// Heading opens a section of the report. Level counts from 1.
type Heading struct {
	Level int
	Text  string
}

// Para is a paragraph of running text.
type Para struct{ Text string }

// An Entry is one matter: the verdict first, then what it rests on.
type Entry struct {
	Lead  string // "does not reproduce", "caution"
	Tone  Tone
	Head  string // the matter in one sentence
	Lines []Line
	Place extract.Place
}

// A Line is one labelled line of an entry.
type Line struct {
	Label string // "printed", "sum", "say", "ask"; "" for a quotation
	Text  string
	Quote bool // the words of the paper
}

// A Table is rows of cells with a header.
type Table struct {
	Caption string
	Head    []string
	Right   []bool // columns of figures
	Rows    [][]Cell
}

// A Cell holds the text people read, the number programs read and where it
// stands.
type Cell struct {
	Text  string
	Value *float64
	Place extract.Place
}

// Notes are the standing cautions at the end.
type Notes struct{ Texts []string }

func (Heading) isPart() {}
func (Para) isPart()    {}
func (Entry) isPart()   {}
func (Table) isPart()   {}
func (Notes) isPart()   {}

// Tone is how much an entry wants to be seen. It is never the only sign: the
// words say the same.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Good
	Careful
	Grave
)
