package flow

import "probity/extract"

// mark is a heading by its block, depth and title.
type mark struct {
	block, depth int
	title        string
}

// shortPaper is the most text, in bytes, that a page with nothing but a
// structured abstract holds. Abstracts are limited to some 250 words.
const shortPaper = 5000

// outline works out the sections of a format that has only headings.
func (w *Writer) outline() {
	if len(w.marks) == 0 && len(w.stack) > 0 {
		return
	}
	if len(w.marks) == 0 {
		return
	}
	start, end := w.abstract()
	w.front(start)
	w.stack = nil
	next := 0
	for i, b := range w.Doc.Blocks {
		if next < len(w.marks) && w.marks[next].block == i {
			if next == end {
				w.stack = nil
			}
			w.enter(w.marks[next], next >= start && next < end)
			next++
		}
		if p, ok := b.(*extract.Prose); ok && len(w.stack) > 0 {
			p.Place.Section, p.Heading = w.Section(), w.heading()
		}
	}
	w.stack = nil
}

// enter opens the section that a heading heads and closes those it ends.
func (w *Writer) enter(m mark, abstract bool) {
	for n := len(w.stack); n > 0 && w.stack[n-1].depth >= m.depth; n-- {
		w.stack = w.stack[:n-1]
	}
	section := extract.Abstract
	if !abstract {
		section = w.inherit(m.title)
	}
	w.stack = append(w.stack, level{depth: m.depth, section: section, heading: m.title})
}

// abstract finds the first heading of the abstract and the first after it.
// Many formats set the parts of a structured abstract at the same depth as the
// sections of the paper, so that depth alone does not tell: the abstract ends
// where the order of headings starts again ("… Results, Conclusion,
// Introduction, Methods …").
func (w *Writer) abstract() (start, end int) {
	start = -1
	for i, m := range w.marks {
		if s, _ := Named(m.title); s == extract.Abstract {
			start = i
			break
		}
		if rank(m.title) > 1 {
			break // the paper has begun
		}
	}
	if start < 0 {
		return len(w.marks), len(w.marks)
	}
	for i := start + 1; i < len(w.marks) && end == 0; i++ {
		if s, plain := Named(w.marks[i].title); s == extract.Abstract && plain {
			start++ // "Abstract" printed twice
			continue
		}
		break
	}
	return min(start, w.firstAbstract(start)), w.abstractEnd(start)
}

// firstAbstract steps back over headings of the same name.
func (w *Writer) firstAbstract(i int) int {
	for i > 0 {
		if s, _ := Named(w.marks[i-1].title); s != extract.Abstract {
			break
		}
		i--
	}
	return i
}

func (w *Writer) abstractEnd(start int) int {
	again := w.startsAgain(start)
	out := w.shallower(start)
	if out == start+1 && out < len(w.marks) && again < len(w.marks) && w.size(w.marks[start].block, w.marks[out].block) == 0 {
		out = again // the parts of the abstract are set at its own depth
	}
	if end := min(again, out); end < len(w.marks) {
		return end
	}
	for i := start + 1; i < len(w.marks); i++ {
		if rank(w.marks[i].title) == 0 {
			continue
		}
		if w.size(w.marks[start].block, w.marks[i].block) > 200 {
			return i // the abstract is one text without headings
		}
		break
	}
	end := w.backFrom(start)
	if w.size(w.marks[start].block, w.blockOf(end)) <= shortPaper {
		return end
	}
	return w.afterConclusion(start)
}

// startsAgain finds the heading at which the order of main sections steps back
// and after which a section comes that was there before.
func (w *Writer) startsAgain(start int) int {
	last := 0
	seen := map[int]bool{}
	for i := start + 1; i < len(w.marks); i++ {
		r := rank(w.marks[i].title)
		if r == 0 {
			continue
		}
		if r < last {
			for _, m := range w.marks[i:] {
				if k := rank(m.title); k > 1 && seen[k] {
					return i
				}
			}
			return len(w.marks)
		}
		last = r
		seen[r] = true
	}
	return len(w.marks)
}

// shallower finds the first heading that is no deeper than that of an abstract
// whose parts have deeper ones. Back matter does not count: in flat formats it
// alone may stand at the depth of the abstract.
func (w *Writer) shallower(start int) int {
	for i := start + 1; i < len(w.marks); i++ {
		if w.marks[i].depth > w.marks[start].depth {
			continue
		}
		if s, _ := Named(w.marks[i].title); s == extract.Back {
			break
		}
		return i
	}
	return len(w.marks)
}

// backFrom finds the first heading of the back matter.
func (w *Writer) backFrom(start int) int {
	for i := start + 1; i < len(w.marks); i++ {
		if s, _ := Named(w.marks[i].title); s == extract.Back {
			return i
		}
	}
	return len(w.marks)
}

// afterConclusion finds the heading that follows the abstract's conclusion.
func (w *Writer) afterConclusion(start int) int {
	for i := start + 1; i+1 < len(w.marks); i++ {
		if rank(w.marks[i].title) == 5 {
			return i + 1
		}
	}
	return min(start+1, len(w.marks))
}

func (w *Writer) blockOf(mark int) int {
	if mark < len(w.marks) {
		return w.marks[mark].block
	}
	return len(w.Doc.Blocks)
}

// size counts the bytes of prose between two blocks.
func (w *Writer) size(from, to int) int {
	n := 0
	for _, b := range w.Doc.Blocks[from+1 : to] {
		if p, ok := b.(*extract.Prose); ok {
			n += len(p.Text())
		}
	}
	return n
}

// front says what stands before the first heading: the title page. Where no
// heading names an abstract, a long paragraph there is the abstract.
func (w *Writer) front(start int) {
	first := len(w.Doc.Blocks)
	if start < len(w.marks) {
		first = w.marks[start].block
	} else if rank(w.marks[0].title) == 1 {
		first = w.marks[0].block
	} else {
		return
	}
	for i, b := range w.Doc.Blocks[:first] {
		p, ok := b.(*extract.Prose)
		if !ok || w.marks[0].block < i {
			continue
		}
		p.Place.Section = extract.Back
		if start == len(w.marks) && len(p.Text()) > 400 {
			p.Place.Section = extract.Abstract
		}
	}
}

// rank gives the place of a main section in a paper: 1 introduction, 2
// methods, 3 results, 4 discussion, 5 conclusion; 0 for any other title.
func rank(title string) int {
	s, plain := Named(title)
	if !plain || minor[fold(title)] {
		return 0
	}
	switch s {
	case extract.Introduction:
		return 1
	case extract.Methods:
		return 2
	case extract.Results:
		return 3
	case extract.Discussion:
		return 4
	case extract.Conclusion:
		return 5
	}
	return 0
}

// Main reports the title of a main section, rather than of a part of one.
func Main(title string) bool {
	s, _ := Named(title)
	return rank(title) > 0 || s == extract.Abstract || s == extract.Back && !within(title)
}

// minor are titles of parts rather than of main sections.
var minor = map[string]bool{
	"statistical analysis": true, "statistical analyses": true, "statistical methods": true, "statistics": true,
	"sample preparation": true, "specimen preparation": true, "study design": true, "materials": true,
	"limitations": true, "strengths and limitations": true, "hypothesis": true, "experiment": true, "experiments": true,
	"observations": true, "comment": true, "comments": true, "outcomes": true,
}
