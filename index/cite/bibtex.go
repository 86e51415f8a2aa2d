package cite

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// readBibTeX reads the entries of a BibTeX file. @comment and @preamble are
// passed over, @string values are put in; what cannot be read ends the entry,
// not the file.
func readBibTeX(data []byte) ([]Ref, error) {
	p := &bib{text: string(data), strings: map[string]string{}}
	var out []Ref
	for {
		i := strings.IndexByte(p.text[p.at:], '@')
		if i < 0 {
			break
		}
		p.at += i + 1
		if r, ok := p.entry(); ok {
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no BibTeX entry could be read")
	}
	return out, nil
}

type bib struct {
	text    string
	at      int
	strings map[string]string
}

func (p *bib) space() {
	for p.at < len(p.text) && unicode.IsSpace(rune(p.text[p.at])) {
		p.at++
	}
}

// word reads up to one of the bytes of stop.
func (p *bib) word(stop string) string {
	p.space()
	i := strings.IndexAny(p.text[p.at:], stop)
	if i < 0 {
		i = len(p.text) - p.at
	}
	w := strings.TrimSpace(p.text[p.at : p.at+i])
	p.at += i
	return w
}

func (p *bib) next(b byte) bool {
	p.space()
	if p.at < len(p.text) && p.text[p.at] == b {
		p.at++
		return true
	}
	return false
}

func (p *bib) entry() (Ref, bool) {
	kind := strings.ToLower(p.word("{(@"))
	if !p.next('{') && !p.next('(') {
		return Ref{}, false
	}
	switch kind {
	case "comment", "preamble":
		return Ref{}, false
	case "string":
		name := strings.ToLower(p.word("=}"))
		if p.next('=') {
			p.strings[name] = p.value()
		}
		return Ref{}, false
	}
	r := Ref{Key: p.word(",})")}
	fields := map[string]string{}
	for p.next(',') {
		name := strings.ToLower(p.word("=,})"))
		if name == "" || !p.next('=') {
			continue
		}
		if _, twice := fields[name]; !twice {
			fields[name] = p.value()
		} else {
			p.value()
		}
	}
	r.Title, r.Journal = plainTeX(fields["title"]), plainTeX(fields["journal"])
	if r.Journal == "" {
		r.Journal = plainTeX(fields["journaltitle"])
	}
	for _, a := range strings.Split(strings.Join(strings.Fields(fields["author"]), " "), " and ") {
		whole := strings.HasPrefix(a, "{") && strings.HasSuffix(a, "}")
		switch a = plainTeX(a); {
		case a == "" || a == "others":
		case whole: // the name of a body
			r.Authors = append(r.Authors, Name{Family: a})
		default:
			r.Authors = append(r.Authors, ParseName(a))
		}
	}
	r.Year = year(fields["year"])
	if r.Year == 0 {
		r.Year = year(fields["date"])
	}
	r.Volume, r.Issue, r.Pages = plainTeX(fields["volume"]), plainTeX(fields["number"]), strings.ReplaceAll(plainTeX(fields["pages"]), "--", "–")
	r.DOI = bareDOI(plainTeX(fields["doi"]))
	r.File = fileOf(fields["file"])
	return r, r.Title != "" || r.DOI != ""
}

// value reads a value: braces, quotes, numbers and names of strings, joined by #.
func (p *bib) value() string {
	var b strings.Builder
	for {
		p.space()
		if p.at >= len(p.text) {
			return b.String()
		}
		switch c := p.text[p.at]; c {
		case '{', '"':
			b.WriteString(p.group(c))
		default:
			w := p.word(",#})")
			if v, ok := p.strings[strings.ToLower(w)]; ok {
				w = v
			}
			b.WriteString(w)
		}
		if !p.next('#') {
			return b.String()
		}
	}
}

// group reads a braced or quoted value, inner braces kept.
func (p *bib) group(open byte) string {
	p.at++
	start, depth := p.at, 0
	for ; p.at < len(p.text); p.at++ {
		switch c := p.text[p.at]; {
		case c == '\\':
			p.at++
		case c == '{':
			depth++
		case c == '}' && depth > 0:
			depth--
		case c == '}' && open == '{', c == '"' && open == '"' && depth == 0:
			v := p.text[start:p.at]
			p.at++
			return v
		}
	}
	p.at = len(p.text)
	return p.text[min(start, len(p.text)):]
}

// accents of TeX as combining characters.
var accents = map[byte]rune{'"': '\u0308', '\'': '\u0301', '`': '\u0300', '^': '\u0302', '~': '\u0303', 'c': '\u0327', 'v': '\u030c', '=': '\u0304', '.': '\u0307', 'u': '\u0306', 'H': '\u030b', 'k': '\u0328', 'r': '\u030a'}

var texLetters = map[string]string{"ss": "ß", "o": "ø", "O": "Ø", "l": "ł", "L": "Ł", "ae": "æ", "AE": "Æ", "oe": "œ", "OE": "Œ", "aa": "å", "AA": "Å", "i": "ı"}

// plainTeX takes the TeX out of a value: braces, accents, escaped signs.
func plainTeX(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch c := s[i]; c {
		case '{', '}':
		case '~':
			b.WriteByte(' ')
		case '\\':
			i += texCommand(s[i+1:], &b)
		default:
			b.WriteByte(c)
		}
	}
	return line(norm.NFC.String(b.String()))
}

// texCommand writes what a command stands for; it returns how many bytes
// after the backslash it took.
func texCommand(s string, b *strings.Builder) int {
	if s == "" {
		return 0
	}
	letters := 0
	for letters < len(s) && (s[letters] >= 'a' && s[letters] <= 'z' || s[letters] >= 'A' && s[letters] <= 'Z') {
		letters++
	}
	mark, isAccent := accents[s[0]]
	switch {
	case isAccent && letters <= 1:
		rest := strings.TrimLeft(s[1:], "{ ")
		took := len(s) - len(rest)
		if strings.HasPrefix(rest, `\i`) {
			rest, took = "i"+rest[2:], took+1
		}
		for _, r := range rest {
			b.WriteRune(r)
			b.WriteRune(mark)
			return took + len(string(r))
		}
		return took
	case letters > 0:
		b.WriteString(texLetters[s[:letters]])
		if letters < len(s) && s[letters] == ' ' {
			return letters + 1
		}
		return letters
	}
	b.WriteByte(s[0])
	return 1
}

// fileOf reads "name.pdf", or "Description:path/name.pdf:application/pdf".
func fileOf(s string) string {
	s, _, _ = strings.Cut(s, ";")
	if parts := strings.Split(s, ":"); len(parts) >= 3 {
		s = strings.Join(parts[1:len(parts)-1], ":")
	}
	if i := strings.LastIndexAny(s, `/\`); i >= 0 {
		s = s[i+1:]
	}
	return strings.Trim(s, "{} ")
}

func writeBibTeX(w io.Writer, refs []Ref) error {
	b := bufio.NewWriter(w)
	used := map[string]int{}
	for i, r := range refs {
		if i > 0 {
			b.WriteByte('\n')
		}
		key := keyOf(r)
		if used[key]++; used[key] > 1 {
			key = fmt.Sprintf("%s-%d", key, used[key])
		}
		fmt.Fprintf(b, "@article{%s", key)
		field := func(name, value string) {
			if value != "" {
				fmt.Fprintf(b, ",\n  %s = {%s}", name, tex(value))
			}
		}
		var names []string
		for _, a := range r.Authors {
			if a.Given == "" {
				names = append(names, "{"+tex(a.Family)+"}")
			} else {
				names = append(names, tex(a.Family)+", "+tex(a.Given))
			}
		}
		if len(names) > 0 {
			fmt.Fprintf(b, ",\n  author = {%s}", strings.Join(names, " and "))
		}
		if r.Title != "" { // braces keep the capitals as printed
			fmt.Fprintf(b, ",\n  title = {{%s}}", tex(r.Title))
		}
		field("journal", r.Journal)
		if r.Year > 0 {
			field("year", fmt.Sprint(r.Year))
		}
		field("volume", r.Volume)
		field("number", r.Issue)
		field("pages", strings.ReplaceAll(r.Pages, "–", "--"))
		field("doi", r.DOI)
		b.WriteString("\n}\n")
	}
	return b.Flush()
}

// tex escapes what TeX would take for more than text.
func tex(s string) string {
	var b strings.Builder
	for _, r := range line(s) {
		switch r {
		case '\\':
			b.WriteString(`\textbackslash `)
		case '{', '}': // unbalanced braces would break the entry
		case '&', '%', '$', '#', '_':
			b.WriteByte('\\')
			b.WriteRune(r)
		case '~':
			b.WriteString(`\~{}`)
		case '^':
			b.WriteString(`\^{}`)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// keyOf makes a key from author, year and title: letters and digits only.
func keyOf(r Ref) string {
	letters := func(s string) string {
		return strings.Map(func(r rune) rune {
			if r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
				return unicode.ToLower(r)
			}
			return -1
		}, norm.NFD.String(s))
	}
	key := ""
	if len(r.Authors) > 0 {
		key = letters(r.Authors[0].Family)
	}
	if r.Year > 0 {
		key += fmt.Sprint(r.Year)
	}
	for _, w := range strings.Fields(r.Title) {
		if w = letters(w); len(w) > 3 {
			key += w
			break
		}
	}
	if key == "" {
		return "paper"
	}
	return key
}
