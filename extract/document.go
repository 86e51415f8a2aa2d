// Package extract holds the nouns of print: what is printed in a paper, and
// where. A reader (jats, html, text, docx, odt, pdf) turns the bytes of one
// paper into one Document; the rooms above decide what the figures mean.
//
//	bytes → Document{Prose, Table, Cell, each with a Place} + Problems
//
// Nothing here knows an outcome, an instrument or a formula.
package extract

import "strings"

// A Document is one paper as printed.
type Document struct {
	ID       string     // SHA-256 of the bytes in hex: stable under renaming
	File     string     // the name it was read from, for messages
	Format   string     // "jats", "html", "text", "pdf", "docx", "odt"
	Meta     Meta       // title page and back matter
	Pages    int        // 0: the format has no pages
	Blocks   []Block    // in reading order
	Problems []*Problem // what could not be read, and what to do
}

// Meta is what the front and back matter say of the paper. Empty: not printed,
// or not found.
type Meta struct {
	Title     string
	Authors   []string
	Journal   string
	Year      int
	DOI       string // bare, lower case: "10.1000/x"
	Licence   string
	Funding   string
	Interests string // the conflict-of-interest text
}

// A Block is a piece of a paper in reading order: *Prose or *Table.
type Block interface{ isBlock() }

// Role says what a piece of prose is in the layout. Zero is running text.
type Role int

// The roles of prose. Statements are read from paragraphs; the others are kept
// because abbreviations, units and n are defined in them.
const (
	Paragraph Role = iota
	Heading        // a section heading
	Caption        // the caption of a figure
	Footnote       // a footnote outside tables
	Reference      // an entry of the reference list
)

// Prose is one paragraph, heading, figure caption or footnote.
type Prose struct {
	Place   Place
	Role    Role
	Heading string // the nearest heading above, as printed; "" if none
	Runs    []Run
	Doubt   string // why its figures may be misread; "" if sound
	text    string // cache of Text
}

func (*Prose) isBlock() {}

// Text is the paragraph as one line: white space folded, raised and lowered
// digits and letters as the Unicode characters for them where they exist.
// Offsets in Places (Start, End) count bytes of this text.
func (p *Prose) Text() string {
	if p.text == "" {
		p.text = Flatten(p.Runs)
	}
	return p.text
}

// A Run is a stretch of text printed one way. A raised 2 is not a digit of the
// number before it; a raised letter is a mark, not a part of the figure.
type Run struct {
	Text    string
	Raised  bool // superscript
	Lowered bool // subscript
	Bold    bool
	Cites   bool // a link to the reference list, where the format says so
}

// A Table is one printed table (or one panel of it) as a full rectangle.
type Table struct {
	Place   Place
	Label   string   // "2", "S3": as the paper calls it
	Part    int      // which panel of that label: 0 the first or only one
	Caption string   // without the label
	Head    int      // leading header rows
	Rows    [][]Cell // rectangular; a merged cell stands in each place it covers
	Notes   []string // footnotes and legend, in order
	Doubt   string   // why the reading of rows and columns may be wrong; "" if sound
	Cut     string   // what of it was too large to be read; "" if it is whole
}

func (*Table) isBlock() {}

// A Cell is one place of a table's rectangle.
type Cell struct {
	Place  Place
	Runs   []Run
	Rows   int  // rows the printed cell covers; 0 and 1 both mean one
	Cols   int  // columns it covers
	Copy   bool // repeated here by merging; its first place holds the original
	Header bool // marked as a header cell by the format
	Indent int  // levels of indentation of a stub entry
}

// Text is the cell as one line, as Prose.Text.
func (c Cell) Text() string { return Flatten(c.Runs) }

// Empty reports whether nothing is printed in the cell.
func (c Cell) Empty() bool {
	for _, r := range c.Runs {
		if strings.TrimFunc(r.Text, isSpace) != "" {
			return false
		}
	}
	return true
}

// Tables are the document's tables in reading order.
func (d *Document) Tables() []*Table {
	var out []*Table
	for _, b := range d.Blocks {
		if t, ok := b.(*Table); ok {
			out = append(out, t)
		}
	}
	return out
}

// Proses are the document's paragraphs, headings, captions and notes in
// reading order.
func (d *Document) Proses() []*Prose {
	var out []*Prose
	for _, b := range d.Blocks {
		if p, ok := b.(*Prose); ok {
			out = append(out, p)
		}
	}
	return out
}

// Doubt says of the blocks that which picks why their figures may be misread.
func (d *Document) Doubt(why string, which func(Block) bool) {
	for _, b := range d.Blocks {
		if !which(b) {
			continue
		}
		switch b := b.(type) {
		case *Table:
			b.Doubt = addDoubt(b.Doubt, why)
		case *Prose:
			b.Doubt = addDoubt(b.Doubt, why)
		}
	}
}

func addDoubt(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}
