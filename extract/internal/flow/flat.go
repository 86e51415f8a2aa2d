package flow

import (
	"regexp"
	"strings"
	"unicode"

	"probity/extract"
)

// A Flat writes the paper of a format in which captions and notes of tables
// are paragraphs like any other. It finds them from their words and from where
// they stand: a caption is held back until its table comes.
type Flat struct {
	*Writer
	held []held
	last *extract.Table // the table just given, while notes may follow it
}

// held is a paragraph or heading that may be the caption of the next table.
type held struct {
	depth int // of a heading; 0 for a paragraph
	runs  []extract.Run
	sure  bool // the format marks it as a caption
}

// Kind is what a format itself says of a paragraph.
type Kind struct {
	Reference bool // stands in the reference list
	Caption   bool // is a caption
	Note      bool // is a footnote
	Item      bool // is an entry of a list
}

// NewFlat starts a document of that name and format.
func NewFlat(name, format string) *Flat { return &Flat{Writer: New(name, format)} }

// HeadingAt gives a heading of a depth. One that names a table is its caption.
func (f *Flat) HeadingAt(depth int, text []extract.Run) {
	if len(f.marks) == 0 && Alike(extract.Flatten(text), f.Doc.Meta.Title) {
		return // the title again
	}
	if label, _ := Label(extract.Flatten(text)); label != "" {
		f.hold(held{depth: depth, runs: text})
		return
	}
	f.Flush()
	f.last = nil
	f.Heading(depth, text)
}

// figureLead opens the caption of a figure: its number and a mark, or its
// number and a capital ("Figure 2 Mean time …"). A sentence about a figure
// goes on with a verb.
var figureLead = regexp.MustCompile(`^(?i:supplement(?:ary|al)\s+)?(?i:figure|fig\.?|scheme|chart|graph)\s*S?\d{1,2}[a-zA-Z]?\s*(?:[.:|–—]|$|\n|\(|\s\p{Lu})`)

// Paragraph gives a paragraph, note, caption or reference, or holds it back
// when a table may follow that it is the caption of.
func (f *Flat) Paragraph(text []extract.Run, k Kind) {
	text = Trim(text)
	if len(text) == 0 {
		return
	}
	line := extract.Flatten(text)
	if f.caption(line, text, k) {
		return
	}
	if f.last != nil && (k.Note || LegendLike(line)) {
		f.last.Notes = append(f.last.Notes, Lines(text)...)
		return
	}
	f.Flush()
	f.last = nil
	if k == (Kind{}) && !f.inReferences() && SetAsHeading(text) {
		f.Heading(6, text)
		return
	}
	f.Prose(f.role(line, k), text)
}

func (f *Flat) role(line string, k Kind) extract.Role {
	switch {
	case k.Reference || f.inReferences():
		return extract.Reference
	case k.Caption && !k.Note, figureLead.MatchString(line):
		return extract.Caption
	case k.Note:
		return extract.Footnote
	}
	return extract.Paragraph
}

// inReferences reports that the last heading heads the reference list.
func (f *Flat) inReferences() bool {
	n := len(f.marks)
	return n > 0 && References(f.marks[n-1].title)
}

// caption holds back a paragraph that looks like the caption of a table, and
// what stands between a bare label and its table. It reports whether the
// paragraph was taken.
func (f *Flat) caption(line string, text []extract.Run, k Kind) bool {
	label, rest := Label(line)
	if label != "" && CaptionLike(line) {
		if f.last != nil && f.last.Label == "" && len(f.held) == 0 {
			// A caption printed below its table. Captions that stand above
			// are met first and leave no table without a label.
			relabel(f.last, label, rest)
			return true
		}
		f.hold(held{runs: text, sure: k.Caption})
		return true
	}
	if len(f.held) == 1 && len(line) < 600 {
		if _, after := Label(extract.Flatten(f.held[0].runs)); after == "" {
			f.held = append(f.held, held{runs: text})
			return true
		}
	}
	return false
}

// relabel names a table that was given without a label.
func relabel(t *extract.Table, label, caption string) {
	t.Label = label
	t.Caption = strings.TrimSpace(caption + " " + t.Caption)
	t.Place.Table = label
	for i := range t.Rows {
		for j := range t.Rows[i] {
			t.Rows[i][j].Place.Table = label
		}
	}
}

// hold keeps a caption back until its table comes.
func (f *Flat) hold(h held) {
	f.Flush()
	f.last = nil
	f.held = []held{h}
}

// TableAt gives a table. Where it has no label of its own it takes the caption
// held back from the text before it.
func (f *Flat) TableAt(t *extract.Table) {
	if len(f.held) > 0 {
		label, caption := f.waiting()
		switch {
		case t.Label == "":
			t.Label = label
			if t.Caption == "" {
				t.Caption = caption
			}
			f.held = nil
		case t.Label == label:
			f.held = nil
		}
	}
	f.Flush()
	f.last = nil
	before := len(f.Doc.Blocks)
	f.Table(t)
	if len(f.Doc.Blocks) > before {
		f.last = t
	}
}

// waiting is what is held back, as label and caption.
func (f *Flat) waiting() (label, caption string) {
	var parts []string
	for _, h := range f.held {
		parts = append(parts, extract.Flatten(h.runs))
	}
	return Label(strings.Join(parts, " "))
}

// missing is said of a table whose caption stands in the paper without it.
const missing = "the table of this caption is not in the file, or is only a picture; its figures are not read"

// Missing reports a table of which there is only the caption.
func (f *Flat) Missing(label, what string, caption []extract.Run) {
	f.Flush()
	f.last = nil
	if what == "" {
		what = missing
	}
	f.Problem(label, what, "type its figures into a corrections file, or look for the paper in another format")
	f.Prose(extract.Caption, caption)
}

// Flush gives what is held back as what it was: no table came.
func (f *Flat) Flush() {
	pending := f.held
	f.held = nil
	for _, h := range pending {
		switch {
		case h.sure:
			label, _ := Label(extract.Flatten(h.runs))
			f.Missing(label, "", h.runs)
		case h.depth > 0:
			f.Heading(h.depth, h.runs)
		default:
			f.Prose(f.role(extract.Flatten(h.runs), Kind{}), h.runs)
		}
	}
}

// Finish gives what is still held back and finishes the document.
func (f *Flat) Finish() *extract.Document {
	f.Flush()
	return f.Writer.Finish()
}

// TitleLike reports a line that may be the title of a paper: words, neither a
// sentence nor a heading, caption or comparison of figures.
func TitleLike(line string) bool {
	if len(line) > 300 || len(strings.Fields(line)) < 3 || strings.ContainsAny(line, "|\t=<>±") || strings.HasSuffix(line, ".") {
		return false
	}
	if s, _ := Named(line); s != "" {
		return false
	}
	label, _ := Label(line)
	return label == "" && !figureLead.MatchString(line)
}

// SetAsHeading reports a paragraph that is set as a heading where the format
// marks none: a short line all in bold.
func SetAsHeading(text []extract.Run) bool {
	for _, r := range text {
		if !r.Bold && strings.TrimSpace(r.Text) != "" {
			return false
		}
	}
	line := extract.Flatten(text)
	return line != "" && HeadingLike(line)
}

// HeadingLike reports a line on its own that can be a heading where the format
// marks none but sets it bold or in capitals: short, no sentence, no figures
// compared.
func HeadingLike(line string) bool {
	if len(line) > 100 || len(strings.Fields(line)) > 12 || strings.ContainsAny(line, "|\t=<>±%") {
		return false
	}
	if c := line[len(line)-1]; c == '.' || c == ',' || c == ';' {
		return false
	}
	label, _ := Label(line)
	return label == "" && !figureLead.MatchString(line) && strings.ContainsFunc(line, unicode.IsLetter)
}
