package extract

import (
	"fmt"
	"strconv"
	"strings"
)

// Section names the part of a paper that something stands in.
type Section string

// The sections of a paper. Empty means not known; Body is running text that
// no heading assigns.
const (
	Abstract     Section = "abstract"
	Introduction Section = "introduction"
	Methods      Section = "methods"
	Results      Section = "results"
	Discussion   Section = "discussion"
	Conclusion   Section = "conclusion"
	Body         Section = "body"
	InTable      Section = "table"
	Back         Section = "back" // acknowledgements, funding, references
)

// A Place is where something is printed. Zero fields are not known or do not
// apply: formats without pages leave Page out. Rows and columns count from 1
// in the full rectangle, header included; a table goes by the label the paper
// prints. Start and End count bytes of the paragraph's (or cell's) Text.
type Place struct {
	File       string
	Page       int
	Section    Section
	Table      string
	Row, Col   int
	Par        int // paragraph of the document, from 1
	Start, End int
}

// String prints the place the way every message, report and corrections file
// writes it, so that it can be copied from one into another:
//
//	lee2020.pdf page=6 table=2 row=4 col=3
func (p Place) String() string {
	var b strings.Builder
	if p.File != "" {
		b.WriteString(asWord(p.File, strings.Contains(p.File, "=")))
	}
	add := func(key, value string) {
		if value == "" {
			return
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(key + "=" + asWord(value, false))
	}
	count := func(key string, n int) {
		if n != 0 {
			add(key, strconv.Itoa(n))
		}
	}
	count("page", p.Page)
	if p.Section != InTable {
		add("section", string(p.Section))
	}
	add("table", p.Table)
	count("row", p.Row)
	count("col", p.Col)
	count("par", p.Par)
	if p.End > 0 {
		add("chars", fmt.Sprintf("%d-%d", p.Start, p.End))
	}
	return b.String()
}

// asWord writes a value so that ParsePlace reads it back as one word.
func asWord(s string, quoted bool) string {
	if quoted || strings.ContainsAny(s, " \"") || strings.TrimSpace(s) != s {
		return strconv.Quote(s)
	}
	return s
}

// ParsePlace reads what String prints. The file may be missing.
func ParsePlace(s string) (Place, error) {
	var p Place
	for rest := strings.TrimSpace(s); rest != ""; rest = strings.TrimSpace(rest) {
		quoted := ""
		if rest[0] == '"' {
			q, err := strconv.QuotedPrefix(rest)
			if err != nil {
				return Place{}, fmt.Errorf("place %q: unclosed quote", s)
			}
			p.File, _ = strconv.Unquote(q)
			rest = rest[len(q):]
			continue
		}
		word := rest
		if i := strings.IndexByte(rest, ' '); i >= 0 {
			word = rest[:i]
		}
		key, value, ok := strings.Cut(word, "=")
		if !ok {
			p.File, rest = word, rest[len(word):]
			continue
		}
		if strings.HasPrefix(value, `"`) {
			q, err := strconv.QuotedPrefix(rest[len(key)+1:])
			if err != nil {
				return Place{}, fmt.Errorf("place %q: unclosed quote after %s=", s, key)
			}
			quoted, _ = strconv.Unquote(q)
			rest, value = rest[len(key)+1+len(q):], quoted
		} else {
			rest = rest[len(word):]
		}
		if err := p.set(key, value); err != nil {
			return Place{}, fmt.Errorf("place %q: %w", s, err)
		}
	}
	if p.Table != "" {
		p.Section = InTable
	}
	return p, nil
}

func (p *Place) set(key, value string) error {
	switch key {
	case "section":
		p.Section = Section(value)
		return nil
	case "table":
		p.Table = value
		return nil
	case "chars":
		_, err := fmt.Sscanf(value, "%d-%d", &p.Start, &p.End)
		if err != nil || p.Start < 0 || p.End < p.Start {
			return fmt.Errorf("chars=%s is not a stretch such as 12-40", value)
		}
		return nil
	}
	n, err := strconv.Atoi(value)
	if err != nil || n < 1 {
		return fmt.Errorf("%s=%s is not a number from 1 on", key, value)
	}
	switch key {
	case "page":
		p.Page = n
	case "row":
		p.Row = n
	case "col":
		p.Col = n
	case "par":
		p.Par = n
	default:
		return fmt.Errorf("%s= is not known; places use page, section, table, row, col, par, chars", key)
	}
	return nil
}

// A Problem is something that could not be read. It travels with the result;
// the rest of the paper goes on.
type Problem struct {
	Place Place
	What  string // `"12,8±1.1" has both a comma and a point`
	Try   string // what a person can do; may be empty
	Err   error  // the cause, if any
}

// Error makes a Problem usable where nothing at all could be read.
func (p *Problem) Error() string {
	var b strings.Builder
	if at := p.Place.String(); at != "" {
		b.WriteString(at + ": ")
	}
	b.WriteString(p.What)
	if p.Try != "" {
		b.WriteString("; " + p.Try)
	}
	return b.String()
}

// Unwrap gives the cause.
func (p *Problem) Unwrap() error { return p.Err }
