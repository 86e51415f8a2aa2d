// Package cite reads and writes lists of references in the open formats that
// reference managers share: BibTeX, RIS and CSL-JSON.
//
//	bytes → Read → []Ref        []Ref → Write → bytes
//
// It knows no library; a Ref is what a title page says.
package cite

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
)

// A Ref is one reference. Empty: not known.
type Ref struct {
	Key     string
	Title   string
	Authors []Name
	Journal string
	Year    int
	Volume  string
	Issue   string
	Pages   string
	DOI     string // bare, lower case
	File    string // the name of a file that belongs to it
}

// A Name is one author.
type Name struct{ Family, Given string }

// String writes a name as title pages do: given name first.
func (n Name) String() string { return strings.TrimSpace(n.Given + " " + n.Family) }

// ParseName reads "Family, Given", "Given Family" or "Family GI".
func ParseName(s string) Name {
	s = strings.Join(strings.Fields(s), " ")
	if family, given, ok := strings.Cut(s, ","); ok {
		return Name{Family: strings.TrimSpace(family), Given: strings.TrimSpace(given)}
	}
	words := strings.Fields(s)
	if len(words) < 2 {
		return Name{Family: s}
	}
	if last := words[len(words)-1]; initials(last) && !initials(words[0]) {
		return Name{Family: strings.Join(words[:len(words)-1], " "), Given: last}
	}
	at := len(words) - 1
	for at > 1 && unicode.IsLower([]rune(words[at-1])[0]) { // "van der", "de"
		at--
	}
	return Name{Family: strings.Join(words[at:], " "), Given: strings.Join(words[:at], " ")}
}

// initials reports whether a word is "P", "PR" or "P.R.".
func initials(w string) bool {
	w = strings.ReplaceAll(strings.ReplaceAll(w, ".", ""), "-", "")
	if w == "" || len([]rune(w)) > 3 {
		return false
	}
	return strings.IndexFunc(w, func(r rune) bool { return !unicode.IsUpper(r) }) < 0
}

// A Format is one of the formats.
type Format struct {
	Name, Ext string
	Write     func(w io.Writer, refs []Ref) error
	read      func(data []byte) ([]Ref, error)
}

// Formats lists every format.
var Formats = []Format{
	{Name: "bibtex", Ext: ".bib", Write: writeBibTeX, read: readBibTeX},
	{Name: "ris", Ext: ".ris", Write: writeRIS, read: readRIS},
	{Name: "csl-json", Ext: ".json", Write: writeCSL, read: readCSL},
}

// FormatNamed finds a format; the error names those there are.
func FormatNamed(name string) (Format, error) {
	var names []string
	for _, f := range Formats {
		if f.Name == name {
			return f, nil
		}
		names = append(names, f.Name)
	}
	return Format{}, fmt.Errorf("format %s is not known; use one of %s", name, strings.Join(names, ", "))
}

// Read tells the format from what stands in the file.
func Read(data []byte) ([]Ref, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	start := bytes.TrimSpace(data)
	switch {
	case len(start) == 0:
		return nil, errors.New("the file is empty")
	case start[0] == '[' || start[0] == '{':
		return readCSL(data)
	case bytes.HasPrefix(start, []byte("TY  -")) || bytes.Contains(start, []byte("\nTY  -")):
		return readRIS(data)
	case bytes.ContainsRune(start, '@'):
		return readBibTeX(data)
	}
	return nil, errors.New("it is neither BibTeX, RIS nor CSL-JSON")
}

// bareDOI takes a DOI out of a link.
func bareDOI(s string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	for _, p := range []string{"https://", "http://", "dx.", "doi.org/", "doi:"} {
		s = strings.TrimSpace(strings.TrimPrefix(s, p))
	}
	if !strings.HasPrefix(s, "10.") {
		return ""
	}
	return s
}

// year finds the first four digits that may be a year.
func year(s string) int {
	for i := 0; i+4 <= len(s); i++ {
		n := 0
		for _, r := range s[i : i+4] {
			if r < '0' || r > '9' {
				n = -1
				break
			}
			n = 10*n + int(r-'0')
		}
		if n >= 1000 && n < 3000 {
			return n
		}
	}
	return 0
}

// line keeps a value on one line and free of what moves a cursor.
func line(s string) string {
	return strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if unicode.IsControl(r) {
			return -1
		}
		return r
	}, s)), " ")
}
