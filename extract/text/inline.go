package text

import (
	"html"
	"regexp"
	"strings"
	"unicode"

	"probity/extract"
)

var comment = regexp.MustCompile(`(?s)<!--.*?-->`)

func withoutComments(s string) string { return comment.ReplaceAllString(s, "") }

// inline reads the marks of Markdown inside a line: bold, italic, raised,
// lowered, links, code. Plain text has none: an asterisk there is printed.
func (r *reader) inline(s string) []extract.Run {
	if !r.markdown {
		return typed(s)
	}
	m := &marks{src: s}
	m.read()
	return m.runs
}

// scripts are raised and lowered text as people type it: "10^2", "12.3^(a,b)",
// "H_(2)O".
var scripts = regexp.MustCompile(`([\pL\d)%])\s?(?:\^\(([^()^]{1,12})\)|\^([a-zA-Z]|[-−+]?\d{1,3})(?:\b|$)|_\(([^()\s_]{1,8})\))`)

func typed(s string) []extract.Run {
	if !strings.ContainsAny(s, "^_") {
		return []extract.Run{{Text: s}}
	}
	var out []extract.Run
	at := 0
	for _, m := range scripts.FindAllStringSubmatchIndex(s, -1) {
		out = append(out, extract.Run{Text: s[at:m[3]]})
		for g := 2; g <= 4; g++ { // the last is lowered
			if m[2*g] >= 0 {
				lowered := g == 4
				out = append(out, extract.Run{Text: s[m[2*g]:m[2*g+1]], Raised: !lowered, Lowered: lowered})
			}
		}
		at = m[1]
	}
	return append(out, extract.Run{Text: s[at:]})
}

// marks walks a line of Markdown. A mark opens only where its pair follows, so
// that "12.3*" and "2 * 3" keep their asterisks.
type marks struct {
	src     string
	at      int
	runs    []extract.Run
	style   extract.Run
	pending strings.Builder
	ends    []end
}

// end is where an open mark closes and what it was before.
type end struct {
	at, skip int
	was      extract.Run
}

func (m *marks) read() {
	for m.at < len(m.src) {
		if n := len(m.ends); n > 0 && m.ends[n-1].at == m.at {
			m.flush()
			m.style, m.at = m.ends[n-1].was, m.at+m.ends[n-1].skip
			m.ends = m.ends[:n-1]
			continue
		}
		if !m.mark(m.src[m.at:]) {
			m.pending.WriteByte(m.src[m.at])
			m.at++
		}
	}
	m.flush()
}

func (m *marks) flush() {
	if m.pending.Len() > 0 {
		run := m.style
		run.Text = html.UnescapeString(m.pending.String())
		m.runs = append(m.runs, run)
		m.pending.Reset()
	}
}

// mark reads one mark at the head of s and reports whether there was one.
func (m *marks) mark(s string) bool {
	switch {
	case len(s) > 1 && s[0] == '\\' && strings.IndexByte("\\`*_{}[]()#+-.!|~^<>", s[1]) >= 0:
		m.pending.WriteByte(s[1])
		m.at += 2
		return true
	case strings.HasPrefix(s, "<br>"), strings.HasPrefix(s, "<br/>"), strings.HasPrefix(s, "<br />"):
		m.flush()
		m.runs = append(m.runs, extract.Run{Text: "\n"})
		m.at += strings.IndexByte(s, '>') + 1
		return true
	case strings.HasPrefix(s, "<sup>"):
		return m.open(s, "<sup>", "</sup>", func(r *extract.Run) { r.Raised = true })
	case strings.HasPrefix(s, "<sub>"):
		return m.open(s, "<sub>", "</sub>", func(r *extract.Run) { r.Lowered = true })
	case strings.HasPrefix(s, "****"):
		m.at += 4
		return true
	case strings.HasPrefix(s, "***"):
		return m.open(s, "***", "***", func(r *extract.Run) { r.Bold = true })
	case strings.HasPrefix(s, "**"):
		return m.open(s, "**", "**", func(r *extract.Run) { r.Bold = true })
	case strings.HasPrefix(s, "__"):
		return m.open(s, "__", "__", func(r *extract.Run) { r.Bold = true })
	case s[0] == '*':
		return m.open(s, "*", "*", func(*extract.Run) {})
	case s[0] == '_' && (m.at == 0 || !letter(m.src[m.at-1])):
		return m.open(s, "_", "_", func(*extract.Run) {})
	case s[0] == '^' && !strings.HasPrefix(s, "^["):
		return m.short(s, "^", func(r *extract.Run) { r.Raised = true })
	case strings.HasPrefix(s, "~~"):
		return m.open(s, "~~", "~~", func(*extract.Run) {})
	case s[0] == '~':
		return m.short(s, "~", func(r *extract.Run) { r.Lowered = true })
	case s[0] == '`':
		return m.open(s, "`", "`", func(*extract.Run) {})
	case s[0] == '[', strings.HasPrefix(s, "!["):
		return m.link(s)
	}
	return false
}

// farthest is how far on the pair of a mark is looked for, so that a line of
// open marks takes no quadratic time.
const farthest = 4000

// open opens a mark whose pair stands further on, not after white space and
// not at once.
func (m *marks) open(s, mark, pair string, set func(*extract.Run)) bool {
	rest := s[len(mark):min(len(s), farthest)]
	if rest == "" || unicode.IsSpace(rune(rest[0])) {
		return false
	}
	limit := len(m.src)
	if n := len(m.ends); n > 0 {
		limit = m.ends[n-1].at
	}
	i := strings.Index(rest, pair)
	if i <= 0 || m.at+len(mark)+i+len(pair) > limit && m.at+len(mark)+i >= limit || len(mark) == 1 && unicode.IsSpace(rune(rest[i-1])) {
		return false
	}
	m.flush()
	m.ends = append(m.ends, end{m.at + len(mark) + i, len(pair), m.style})
	set(&m.style)
	m.at += len(mark)
	return true
}

// short opens a mark of raised or lowered text, which holds no white space.
func (m *marks) short(s, mark string, set func(*extract.Run)) bool {
	i := strings.Index(s[1:min(len(s), 16)], mark)
	if i < 1 || i > 12 || strings.ContainsAny(s[1:1+i], " \t") {
		return false
	}
	return m.open(s, mark, mark, set)
}

// link keeps the text of a link and drops its target; of a picture it keeps
// nothing. A bare "[12]" stays as printed.
func (m *marks) link(s string) bool {
	picture := s[0] == '!'
	s = strings.TrimPrefix(s, "!")
	s = s[:min(len(s), farthest)]
	end := strings.IndexByte(s, ']')
	if end < 0 || end+1 >= len(s) || s[end+1] != '(' {
		return false
	}
	stop := strings.IndexByte(s[end:], ')')
	if stop < 0 {
		return false
	}
	if !picture {
		m.pending.WriteString(s[1:end])
	} else {
		m.at++
	}
	m.at += end + stop + 1
	return true
}

func letter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' || c >= '0' && c <= '9' }
