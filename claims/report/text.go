package report

import (
	"bufio"
	"io"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// Layout is what a text writer needs to know of its page.
type Layout struct {
	Width  int  // columns; 0: 80
	Colour bool // ANSI colours for the lead words
}

// WriteText lays a report out for a terminal or a plain file. Text from a
// paper is stripped of control characters.
func WriteText(w io.Writer, r Report, page Layout) error {
	if page.Width <= 0 {
		page.Width = 80
	}
	t := textWriter{Writer: bufio.NewWriter(w), page: page}
	t.wrapped("", "", Clean(r.Title))
	t.line(strings.Repeat("─", min(page.Width, cells(Clean(r.Title)))))
	for _, p := range r.Parts {
		t.part(p)
	}
	return t.Flush()
}

type textWriter struct {
	*bufio.Writer
	page Layout
}

func (t *textWriter) part(p Part) {
	switch p := p.(type) {
	case Heading:
		t.line("")
		t.heading(Clean(p.Text))
	case Para:
		t.wrapped("", "", Clean(p.Text))
	case Entry:
		t.entry(p)
	case Table:
		t.table(p)
	case Notes:
		t.line("")
		for _, n := range p.Texts {
			t.wrapped("· ", "  ", Clean(n))
		}
	}
}

func (t *textWriter) entry(e Entry) {
	t.line("")
	lead := strings.ToUpper(Clean(e.Lead))
	t.wrapped(t.tone(lead, e.Tone)+"  ", "  ", Clean(e.Head))
	for _, l := range e.Lines {
		text := Clean(l.Text)
		if l.Quote {
			t.wrapped("  “", "   ", text+"”")
			continue
		}
		label := Clean(l.Label)
		if label != "" {
			label += ": "
		}
		t.wrapped("  "+label, "    ", text)
	}
	if at := e.Place.String(); at != "" && e.Place.File != "" {
		t.wrapped("  at: ", "    ", Clean(at))
	}
}

func (t *textWriter) line(s string) {
	t.WriteString(strings.TrimRight(s, " "))
	t.WriteByte('\n')
}

// wrapped writes text broken at spaces to the page's width, the first line
// behind first, the others behind rest.
func (t *textWriter) wrapped(first, rest, text string) {
	line, used := first, cells(plainWidth(first))
	empty := true
	for _, word := range strings.Fields(text) {
		n := cells(word)
		if !empty && used+1+n > t.page.Width {
			t.line(line)
			line, used, empty = rest, cells(rest), true
		}
		if !empty {
			line, used = line+" ", used+1
		}
		line, used, empty = line+word, used+n, false
	}
	t.line(line)
}

func (t *textWriter) table(tb Table) {
	t.line("")
	if tb.Caption != "" {
		t.wrapped("", "", Clean(tb.Caption))
	}
	widths := make([]int, len(tb.Head))
	for i, h := range tb.Head {
		widths[i] = cells(Clean(h))
	}
	for _, row := range tb.Rows {
		for i, c := range row {
			widths[i] = max(widths[i], cells(Clean(c.Text)))
		}
	}
	write := func(texts []string) {
		var b strings.Builder
		for i, s := range texts {
			pad := strings.Repeat(" ", max(0, widths[i]-cells(s)))
			if i < len(tb.Right) && tb.Right[i] {
				b.WriteString(pad + s)
			} else {
				b.WriteString(s + pad)
			}
			b.WriteString("  ")
		}
		t.line(b.String())
	}
	head := make([]string, len(tb.Head))
	rule := make([]string, len(tb.Head))
	for i, h := range tb.Head {
		head[i], rule[i] = Clean(h), strings.Repeat("─", widths[i])
	}
	write(head)
	write(rule)
	for _, row := range tb.Rows {
		texts := make([]string, len(row))
		for i, c := range row {
			texts[i] = Clean(c.Text)
		}
		write(texts)
	}
}

// heading writes a heading, in bold where colours are on.
func (t *textWriter) heading(s string) {
	if t.page.Colour {
		t.WriteString("\x1b[1m")
	}
	t.wrapped("", "", s)
	if t.page.Colour {
		t.WriteString("\x1b[0m")
	}
}

// tone colours a lead word; the word itself says the same without colour.
func (t *textWriter) tone(s string, tone Tone) string {
	if !t.page.Colour {
		return s
	}
	code := map[Tone]string{Plain: "1", Good: "32", Careful: "33", Grave: "1;31"}[tone]
	return "\x1b[" + code + "m" + s + "\x1b[0m"
}

// plainWidth drops our own colour codes, so that they take no columns.
func plainWidth(s string) string {
	for {
		i := strings.Index(s, "\x1b[")
		if i < 0 {
			return s
		}
		j := strings.IndexByte(s[i:], 'm')
		if j < 0 {
			return s
		}
		s = s[:i] + s[i+j+1:]
	}
}

// cells counts the terminal columns of s: wide East Asian characters take two,
// combining marks none.
func cells(s string) int {
	n := 0
	for _, r := range s {
		switch {
		case unicode.Is(unicode.Mn, r), r == '\u200b':
		case width.LookupRune(r).Kind() == width.EastAsianWide, width.LookupRune(r).Kind() == width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

// Clean drops what could move a cursor, recolour a terminal or reorder text:
// whatever a paper contains, the reader sees only its words.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, s)
}
