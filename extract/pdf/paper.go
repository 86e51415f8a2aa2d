package pdf

import (
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/pdf/layout"
)

// A paper is the walk through a PDF's blocks that makes a Document.
type paper struct {
	*flow.Writer
	style   style
	words   vocabulary
	begun   bool                   // past the title page
	refs    bool                   // inside the list of references
	open    *draft                 // a paragraph that may go on in the next column
	waiting []func()               // floats met while a paragraph is open
	placed  map[int]int            // digits that found a place, by page
	ends    map[*extract.Prose]int // the last page of prose that goes on over pages
}

// A draft is prose before it is written.
type draft struct {
	page int
	last int // the page it ends on
	role extract.Role
	runs []extract.Run
	size float64
	end  bool // the last line ends by will
}

func document(sheets []*layout.Sheet, name string) *paper {
	p := &paper{Writer: flow.New(name, "pdf"), style: learn(sheets), words: collect(sheets), placed: map[int]int{}, ends: map[*extract.Prose]int{}}
	for _, s := range sheets {
		p.placed[s.Page.Number] += s.Taken()
		for _, it := range s.Items {
			p.item(it)
		}
	}
	p.flush()
	p.Finish()
	p.meta(sheets)
	return p
}

func (p *paper) item(it layout.Item) {
	if it.Table != nil {
		t := it.Table
		t.Digits(p.placed)
		p.float(func() { p.table(t) })
		return
	}
	b := it.Block
	p.placed[b.Page] += b.Digits()
	text := extract.Flatten(p.runs(b))
	if text == "" {
		return
	}
	switch role := p.style.role(b, text, p.refs); role {
	case extract.Heading:
		if p.style.isTitle(b) {
			return // it stands in Meta, as in the other formats
		}
		if !p.begins(text) {
			p.paragraph(b, text, extract.Paragraph)
			return
		}
		p.flush()
		p.headed(b.Page, p.style.depth(b, text), p.runs(b), text)
	case extract.Caption, extract.Footnote:
		d := p.draft(b, role)
		p.float(func() { p.write(d) })
	default:
		p.paragraph(b, text, role)
	}
}

// float writes at once, or after the paragraph that it interrupts.
func (p *paper) float(write func()) {
	if p.open == nil {
		write()
		return
	}
	p.waiting = append(p.waiting, write)
}

func (p *paper) flush() {
	if p.open != nil {
		d := p.open
		p.open = nil
		p.write(d)
	}
	for _, w := range p.waiting {
		w()
	}
	p.waiting = nil
}

func (p *paper) write(d *draft) {
	if prose := p.Prose(d.role, d.runs); prose != nil {
		prose.Place.Page = d.page
		if d.last > d.page {
			p.ends[prose] = d.last
		}
	}
}

func (p *paper) draft(b *layout.Block, role extract.Role) *draft {
	return &draft{page: b.Page, last: b.Page, role: role, runs: p.runs(b), size: b.Size, end: !b.Open}
}

// begins reports whether the paper proper has begun with this heading or
// before: names of authors and the like are set large as well.
func (p *paper) begins(text string) bool {
	if !p.begun {
		named, _ := flow.Named(text)
		p.begun = named != "" || chapter.MatchString(text) || !p.style.named
	}
	return p.begun
}

func (p *paper) headed(page, depth int, runs []extract.Run, text string) {
	p.refs = isReferences(text)
	n := len(p.Doc.Blocks)
	p.Heading(depth, runs)
	if len(p.Doc.Blocks) > n {
		p.Doc.Blocks[n].(*extract.Prose).Place.Page = page
	}
}

func (p *paper) paragraph(b *layout.Block, text string, role extract.Role) {
	if role == extract.Paragraph && p.runIn(b) {
		return
	}
	d := p.draft(b, role)
	if p.open != nil && p.joins(p.open, b, text, role) {
		p.open.runs = glue(p.open.runs, d.runs, p.words)
		p.open.end, p.open.last = d.end, d.page
		return
	}
	p.flush()
	p.open = d
}

// runIn parts a heading set at the start of its paragraph ("2.1. Specimens.
// Forty …", the heading in italic or bold) from the text.
func (p *paper) runIn(b *layout.Block) bool {
	words := b.Lines[0].Words
	n := 0
	for n < len(words) && n < 14 && (words[n].Bold && !b.Bold || words[n].Italic && !b.Italic || n == 0 && chapter.MatchString(words[0].Text()+" X")) {
		n++
	}
	if n < 2 || n >= len(words) {
		return false
	}
	head := *b
	line := b.Lines[0]
	line.Words = words[:n]
	head.Lines = []layout.Line{line}
	text := plainText(&head)
	if !strings.HasSuffix(text, ".") || !chapter.MatchString(text) && !words[1].Bold || figureCaption.MatchString(text) {
		return false
	}
	p.flush()
	p.headed(b.Page, max(2, p.style.depth(&head, text)), p.runs(&head), text)
	rest := *b
	rest.Lines = append([]layout.Line(nil), b.Lines...)
	rest.Lines[0].Words = words[n:]
	p.open = p.draft(&rest, extract.Paragraph)
	return true
}

// joins reports whether a block goes on with the paragraph before it.
func (p *paper) joins(d *draft, b *layout.Block, text string, role extract.Role) bool {
	if d.role != role || diff(d.size, b.Size) > 0.6 {
		return false
	}
	before := extract.Flatten(d.runs)
	if endsSentence(before) && !d.continues(text) {
		return false
	}
	if b.Indent && endsSentence(before) {
		return false
	}
	return startsLower(text) || !endsSentence(before) && (!d.end || strings.HasSuffix(before, "-") || strings.HasSuffix(before, ","))
}

func (d *draft) continues(text string) bool { return !d.end && startsLower(text) }

func diff(a, b float64) float64 {
	if a > b {
		return a - b
	}
	return b - a
}
