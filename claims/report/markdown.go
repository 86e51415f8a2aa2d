package report

import (
	"bufio"
	"io"
	"strings"
)

// writeMarkdown lays a report out as Markdown (CommonMark with the tables of
// GitHub). What a paper prints is escaped: it cannot become a link, a heading
// or HTML.
func writeMarkdown(w io.Writer, r Report, _ Layout) error {
	b := bufio.NewWriter(w)
	b.WriteString("# " + mark(r.Title) + "\n")
	for _, p := range r.Parts {
		markdownPart(b, p)
	}
	return b.Flush()
}

func markdownPart(b *bufio.Writer, p Part) {
	b.WriteByte('\n')
	switch p := p.(type) {
	case Heading:
		b.WriteString(strings.Repeat("#", min(max(p.Level, 1), 6)) + " " + mark(p.Text) + "\n")
	case Para:
		b.WriteString(mark(p.Text) + "\n")
	case Entry:
		markdownEntry(b, p)
	case Table:
		markdownTable(b, p)
	case Notes:
		for _, n := range p.Texts {
			b.WriteString("- " + mark(n) + "\n")
		}
	}
}

func markdownEntry(b *bufio.Writer, e Entry) {
	b.WriteString("**" + mark(e.Lead) + "** " + mark(e.Head) + "\n")
	for _, l := range e.Lines {
		switch {
		case l.Quote:
			b.WriteString("\n> " + mark(l.Text) + "\n\n")
		case l.Label == "":
			b.WriteString("- " + mark(l.Text) + "\n")
		default:
			b.WriteString("- " + mark(l.Label) + ": " + mark(l.Text) + "\n")
		}
	}
	if where := at(e.Place); where != "" {
		b.WriteString("- at: " + mark(where) + "\n")
	}
}

func markdownTable(b *bufio.Writer, t Table) {
	if t.Caption != "" {
		b.WriteString(mark(t.Caption) + "\n\n")
	}
	b.WriteByte('|')
	for _, h := range t.Head {
		b.WriteString(" " + mark(h) + " |")
	}
	b.WriteString("\n|")
	for i := range t.Head {
		if i < len(t.Right) && t.Right[i] {
			b.WriteString(" ---: |")
		} else {
			b.WriteString(" --- |")
		}
	}
	for _, row := range t.Rows {
		b.WriteString("\n|")
		for _, c := range row {
			b.WriteString(" " + mark(c.Text) + " |")
		}
	}
	b.WriteByte('\n')
}

// mark escapes all that Markdown or HTML could take for more than text.
func mark(s string) string {
	var b strings.Builder
	for _, r := range Clean(s) {
		switch r {
		case '\\', '`', '*', '_', '{', '}', '[', ']', '#', '|', '~', '!':
			b.WriteByte('\\')
			b.WriteRune(r)
		case '<':
			b.WriteString("&lt;")
		case '>':
			b.WriteString("&gt;")
		case '&':
			b.WriteString("&amp;")
		default:
			b.WriteRune(r)
		}
	}
	s = b.String()
	if strings.HasPrefix(s, "- ") || strings.HasPrefix(s, "+ ") {
		s = "\\" + s
	}
	return s
}
