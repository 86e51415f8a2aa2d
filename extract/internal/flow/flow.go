// Package flow keeps the running order of a paper while a reader walks through
// it: which section and heading each paragraph, caption and table stands
// under, which number each paragraph has, which panel of its label a table is.
//
//	Enter, Leave or Heading, and Prose, Table … Finish → extract.Document
//
// A format whose sections enclose their text uses Enter and Leave; one that
// has only headings uses Heading, and Finish works the sections out.
//
// Every reader of marked-up or plain text uses it, so that the same paper
// gives the same places whatever it was read from.
package flow

import (
	"slices"
	"strconv"

	"probity/extract"
)

// maxCells is the most that all tables of a document may hold, against files
// made to exhaust memory. A paper has some thousand.
const maxCells = 2_000_000

// A Writer collects the blocks of one document.
type Writer struct {
	Doc   *extract.Document
	stack []level
	marks []mark // headings that do not enclose what they head
	parts map[string]int
	given map[string][]*extract.Table // by label and caption
	cells int
}

// level is one open section.
type level struct {
	depth   int
	section extract.Section
	heading string
	loose   bool // opened by a heading that encloses nothing
}

// New starts a document of that name and format.
func New(name, format string) *Writer {
	return &Writer{
		Doc:   &extract.Document{File: name, Format: format},
		parts: map[string]int{},
		given: map[string][]*extract.Table{},
	}
}

// Section is the section that stands open; Body when no heading says.
func (w *Writer) Section() extract.Section {
	if n := len(w.stack); n > 0 {
		return w.stack[n-1].section
	}
	return extract.Body
}

func (w *Writer) heading() string {
	for _, l := range slices.Backward(w.stack) {
		if l.heading != "" {
			return l.heading
		}
	}
	return ""
}

// Enter opens a section inside the one that stands open. Section is what the
// format itself says, or empty; then the title decides, and where that says
// nothing either the new section inherits.
func (w *Writer) Enter(section extract.Section, title string) {
	w.closeLoose()
	if section == "" || w.fixed() {
		section = w.inherit(title)
	}
	depth := 1
	if n := len(w.stack); n > 0 {
		depth = w.stack[n-1].depth + 1
	}
	w.stack = append(w.stack, level{depth: depth, section: section, heading: title})
}

// fixed reports that what stands open lends its name to all within: the
// abstract and the back matter keep theirs whatever their parts are called.
func (w *Writer) fixed() bool {
	s := w.Section()
	return s == extract.Abstract || s == extract.Back
}

// inherit gives the section of a part with that title. Inside a known section
// a title changes it only when it is the plain name of a later main section,
// as in "Results and discussion" with "Discussion" inside it.
func (w *Writer) inherit(title string) extract.Section {
	now := w.Section()
	if w.fixed() {
		return now
	}
	named, plain := Named(title)
	if named == "" || named == extract.Abstract && now != extract.Body {
		return now
	}
	if now == extract.Body || plain && (later(now, named) || named == extract.Back && !within(title)) {
		return named
	}
	return now
}

func later(now, named extract.Section) bool {
	order := []extract.Section{extract.Introduction, extract.Methods, extract.Results, extract.Discussion, extract.Conclusion}
	return slices.Index(order, named) > slices.Index(order, now) && named != extract.Methods
}

// Leave closes the section opened last.
func (w *Writer) Leave() {
	w.closeLoose()
	if n := len(w.stack); n > 0 {
		w.stack = w.stack[:n-1]
	}
}

func (w *Writer) closeLoose() {
	if n := len(w.stack); n > 0 && w.stack[n-1].loose {
		w.stack = w.stack[:n-1]
	}
}

// Subheading adds a paragraph that is set as a heading inside an enclosing
// section. It heads what follows up to the next one or the end of the section.
func (w *Writer) Subheading(runs []extract.Run) {
	w.closeLoose()
	w.Enter("", extract.Flatten(runs))
	w.stack[len(w.stack)-1].loose = true
	w.Prose(extract.Heading, runs)
}

// Heading adds a heading of a depth (1 the highest) in a format whose headings
// do not enclose what they head. Finish decides what it heads.
func (w *Writer) Heading(depth int, runs []extract.Run) {
	if p := w.Prose(extract.Heading, runs); p != nil {
		w.marks = append(w.marks, mark{len(w.Doc.Blocks) - 1, depth, p.Text()})
	}
}

// Prose adds a paragraph and gives it its place. White space alone is no
// paragraph.
func (w *Writer) Prose(role extract.Role, runs []extract.Run) *extract.Prose {
	runs = Trim(runs)
	if len(runs) == 0 {
		return nil
	}
	p := &extract.Prose{Role: role, Heading: w.heading(), Runs: runs}
	p.Place = extract.Place{File: w.Doc.File, Section: w.Section()}
	w.Doc.Blocks = append(w.Doc.Blocks, p)
	return p
}

// Finish gives headings their sections, parts the paragraphs of a structured
// abstract, numbers the paragraphs and returns the document.
func (w *Writer) Finish() *extract.Document {
	w.outline()
	w.leads()
	par := 0
	for _, b := range w.Doc.Blocks {
		if p, ok := b.(*extract.Prose); ok {
			par++
			p.Place.Par = par
		}
	}
	w.back()
	return w.Doc
}

// Full reports that no more tables are taken: the document holds more than any
// paper does.
func (w *Writer) Full() bool { return w.cells > maxCells }

// Table adds a table and gives it and its cells their places. A label that
// came before makes it the next panel of that label. A table without cells or
// one that was added before is left out.
func (w *Writer) Table(t *extract.Table) {
	if len(t.Rows) == 0 || len(t.Rows[0]) == 0 {
		return
	}
	if w.cells += len(t.Rows) * len(t.Rows[0]); w.cells > maxCells {
		if w.cells-len(t.Rows)*len(t.Rows[0]) <= maxCells {
			w.Problem(t.Label, "the document has more tables than any paper; from this one on they are not read", "give the paper alone")
		}
		return
	}
	if w.repeated(t) {
		return
	}
	name := t.Label
	if name == "" {
		w.parts["#"]++
		name = "unlabelled " + strconv.Itoa(w.parts["#"])
	} else {
		t.Part = w.parts[name]
		w.parts[name]++
	}
	if t.Cut != "" {
		w.Problem(name, "the table is larger than any that is printed: "+t.Cut, "divide it into several tables")
	}
	t.Place = extract.Place{File: w.Doc.File, Section: extract.InTable, Table: name}
	for i, row := range t.Rows {
		for j := range row {
			p := t.Place
			p.Row, p.Col = i+1, j+1
			row[j].Place = p
		}
	}
	w.Doc.Blocks = append(w.Doc.Blocks, t)
}

// repeated reports whether the same cells were given before under the same
// label: pages print a table once for wide and once for narrow screens.
func (w *Writer) repeated(t *extract.Table) bool {
	key := t.Label + "\n" + t.Caption
	before := w.given[key]
	for _, o := range before[max(0, len(before)-8):] {
		if sameCells(o.Rows, t.Rows) {
			return true
		}
	}
	w.given[key] = append(before, t)
	return false
}

func sameCells(a, b [][]extract.Cell) bool {
	return slices.EqualFunc(a, b, func(x, y []extract.Cell) bool {
		return slices.EqualFunc(x, y, func(c, d extract.Cell) bool { return slices.Equal(c.Runs, d.Runs) })
	})
}

// Problem adds a problem at the place that is open, or at the table named.
func (w *Writer) Problem(table, what, try string) {
	p := extract.Place{File: w.Doc.File, Section: w.Section(), Table: table}
	if table != "" {
		p.Section = extract.InTable
	}
	w.Doc.Problems = append(w.Doc.Problems, &extract.Problem{Place: p, What: what, Try: try})
}
