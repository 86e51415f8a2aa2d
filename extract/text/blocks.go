package text

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
	"probity/extract/internal/flow"
)

var (
	atxHeading   = regexp.MustCompile(`^ {0,3}(#{1,6})[ \t]+(.*?)[ \t]*#*$`)
	setext       = regexp.MustCompile(`^ {0,3}(=+|-+)\s*$`)
	bullet       = regexp.MustCompile(`^\s{0,6}(?:[-*+•▪●–]|\(?\d{1,2}[.)]|\(?[a-z]\))\s+`)
	listItem     = regexp.MustCompile(`^\s{0,6}(?:[-*+•▪●]|\(?1[.)])\s+`) // that may follow a line of text at once
	numbered     = regexp.MustCompile(`^(\d{1,2}(?:\.\d{1,2}){0,3})\.?\s+\p{Lu}`)
	footnoteDef  = regexp.MustCompile(`^\[\^([^\]]+)\]:\s*`)
	codeFence    = regexp.MustCompile("^ {0,3}(```|~~~)")
	bareTag      = regexp.MustCompile(`^\s*</?(?i:div|section|span|center|p|figure|details|summary|a|br|hr)\b[^<>]*>\s*$`)
	delimiterRow = regexp.MustCompile(`^[ \t]*\|?[ \t]*:?-{2,}:?[ \t]*(?:\|[ \t]*:?-{2,}:?[ \t]*)+\|?[ \t]*$|^[ \t]*\|[ \t]*:?-{2,}:?[ \t]*\|[ \t]*$`)
)

// read gives the blocks of the text: stretches of lines between blank lines.
func (r *reader) read(all []string) {
	wrapped := isWrapped(all)
	var blocks [][]string
	for i := 0; i < len(all); {
		if r.blank(all[i]) {
			i++
			continue
		}
		j := i
		for j < len(all) && !r.blank(all[j]) {
			j++
		}
		if n := len(blocks); n > 0 && headOnly(blocks[n-1]) {
			blocks[n-1] = append(slices.Clip(blocks[n-1]), all[i:j]...)
		} else {
			blocks = append(blocks, all[i:j])
		}
		i = j
	}
	for i, b := range blocks {
		if i == 0 && r.title(b, blocks[1:]) {
			b = b[1:]
		}
		r.block(b, wrapped)
	}
}

// headOnly reports lines that end in a rule drawn under columns: the body of
// their table stands below a blank line.
func headOnly(b []string) bool {
	last := b[len(b)-1]
	return len(b) > 1 && rule(last) && len(underlines(last)) > 1 && len(columns(b[len(b)-2])) > 1
}

// blank reports a line that parts paragraphs: nothing on it, or in Markdown a
// fence or a bare tag of HTML.
func (r *reader) blank(line string) bool {
	return strings.TrimSpace(line) == "" || r.markdown && (codeFence.MatchString(line) || bareTag.MatchString(line))
}

// isWrapped reports a text whose lines were broken to a width: none is long.
// In any other each line is a paragraph.
func isWrapped(all []string) bool {
	for _, line := range all {
		if len(line) > 200 && utf8.RuneCountInString(line) > 200 && !strings.ContainsAny(line, "|\t") && len(columns(line)) < 2 && !rule(line) {
			return false
		}
	}
	return true
}

// title takes the first line for the title when it looks like one and a paper
// follows: no sentence, no figure compared, and headings or long text after.
func (r *reader) title(first []string, rest [][]string) bool {
	line := strings.TrimSpace(first[0])
	if m := atxHeading.FindStringSubmatch(line); m != nil && len(m[1]) == 1 {
		if s, _ := flow.Named(m[2]); s != "" {
			return false
		}
		line = m[2]
		if r.Doc.Meta.Title = extract.Flatten(r.inline(line)); r.Doc.Meta.Title != "" {
			return true
		}
		return false
	}
	if len(first) > 3 || bullet.MatchString(line) || strings.Contains(line, "%") || !flow.TitleLike(line) {
		return false
	}
	for _, b := range rest {
		if s, plain := flow.Named(strings.TrimLeft(b[0], "# ")); len(b[0]) < 60 && s != "" && plain {
			r.Doc.Meta.Title = extract.Fold(line)
			return true
		}
	}
	return false
}

// block gives one stretch of lines: its tables, headings and paragraphs.
func (r *reader) block(b []string, wrapped bool) {
	r.fails, r.tried = 0, 0
	for len(b) > 0 {
		n := 1
		switch {
		case r.heading(b):
			if len(b) > 1 && setext.MatchString(b[1]) && !atxHeading.MatchString(b[0]) {
				n = 2
			}
		default:
			if t, lines := r.table(b); t != nil {
				r.TableAt(t)
				n = lines
				break
			}
			n = r.prose(b, wrapped)
		}
		b = b[n:]
	}
}

// heading gives the first line of b as a heading if it is one.
func (r *reader) heading(b []string) bool {
	line := strings.TrimSpace(b[0])
	if m := atxHeading.FindStringSubmatch(b[0]); m != nil && (r.markdown || len(m[1]) > 1) {
		text := r.inline(m[2])
		if line := extract.Flatten(text); len(m[1]) == 1 && !r.titled && r.Doc.Meta.Title == "" && flow.TitleLike(line) {
			r.Doc.Meta.Title = line
			return true
		}
		r.titled = true
		r.HeadingAt(len(m[1]), text)
		return true
	}
	if len(b) > 1 && setext.MatchString(b[1]) && len(line) < 200 && !strings.Contains(line, "|") && len(columns(b[0])) < 2 {
		depth := 2
		if strings.Contains(b[1], "=") {
			depth = 1
		}
		r.HeadingAt(depth, r.inline(line))
		return true
	}
	bare := strings.Trim(line, "*_ ")
	if len(bare) > 80 || bare == "" || strings.ContainsAny(bare, "|\t") {
		return false
	}
	depth := 3
	if flow.Main(bare) {
		depth = 2
	}
	if m := numbered.FindStringSubmatch(bare); m != nil {
		depth = 2 + strings.Count(m[1], ".")
	}
	if s, plain := flow.Named(bare); s != "" && plain {
		r.HeadingAt(depth, []extract.Run{{Text: bare}})
		return true
	}
	if len(b) > 1 || !alone(bare) {
		return false
	}
	if !numbered.MatchString(bare) && bare != strings.ToUpper(bare) && !(r.markdown && strings.HasPrefix(line, "**")) {
		if s, _ := flow.Named(bare); s == "" {
			return false
		}
	}
	r.HeadingAt(depth, []extract.Run{{Text: bare}})
	return true
}

// alone reports a line that can stand as a heading without a mark: words, no
// sentence, no figures compared.
func alone(s string) bool {
	return flow.HeadingLike(s) && strings.ContainsFunc(s, unicode.IsUpper) && (numbered.MatchString(s) || !bullet.MatchString(s))
}

// prose gives the paragraph at the head of b and returns how many lines it
// took: up to a table, a heading mark, the next entry of a list, or the end.
func (r *reader) prose(b []string, wrapped bool) int {
	n := 1
	for n < len(b) && wrapped {
		if bullet.MatchString(b[n]) && bullet.MatchString(b[0]) || r.markdown && (listItem.MatchString(b[n]) || atxHeading.MatchString(b[n]) || footnoteDef.MatchString(b[n])) {
			break
		}
		if t, _ := r.table(b[n:]); t != nil {
			break
		}
		if label, _ := flow.Label(strings.TrimSpace(b[n])); label != "" && flow.CaptionLike(strings.TrimSpace(b[n])) && sentenceEnd(b[n-1]) {
			break
		}
		n++
	}
	text := join(b[:n])
	kind := flow.Kind{}
	if r.markdown {
		if m := footnoteDef.FindString(text); m != "" {
			text, kind.Note = text[len(m):], true
		}
		text = strings.TrimLeft(text, "> ")
	}
	text = strings.TrimSpace(bulletOff(text, r.markdown))
	if r.lead(text, kind) {
		return n
	}
	r.Paragraph(r.inline(text), kind)
	return n
}

var leadWords = regexp.MustCompile(`^(?:\*\*|__)?([A-Z][A-Za-z&/’' ]{2,40}?)(?:\*\*|__)?\s*(?::|\.\s*[–—-]|\s[–—])\s*(?:\*\*|__)?\s*(\S.*)$`)

// lead gives "Results: …" as a heading and its paragraph.
func (r *reader) lead(text string, kind flow.Kind) bool {
	if !strings.ContainsAny(text[:min(len(text), 60)], ":–—-") {
		return false
	}
	m := leadWords.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	if s, plain := flow.Named(m[1]); s == "" || !plain {
		return false
	}
	r.HeadingAt(3, []extract.Run{{Text: m[1]}})
	r.Paragraph(r.inline(m[2]), kind)
	return true
}

func bulletOff(s string, markdown bool) string {
	if m := bullet.FindString(s); m != "" && (markdown && strings.ContainsAny(m[:min(len(m), 7)], "-*+") || strings.ContainsAny(m, "•▪●")) {
		return s[len(m):]
	}
	return s
}

func sentenceEnd(s string) bool {
	s = strings.TrimRight(s, `"”)] `)
	return strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, ":")
}

// join makes one line of several. A hyphen at a line's end joins two halves
// that stay joined by it ("nickel-/titanium"); what was one word cannot be
// told from it without a dictionary, and a hyphen too many hides no figure.
func join(b []string) string {
	var out strings.Builder
	for i, line := range b {
		line = strings.TrimSpace(line)
		if i > 0 && !strings.HasSuffix(out.String(), "-") {
			out.WriteByte(' ')
		}
		out.WriteString(line)
	}
	return out.String()
}
