package report

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"probity/extract"
)

// A Writer lays a report out in one format. It is handed a Report and nothing
// else, so writers cannot disagree.
type Writer struct {
	Name  string // as the command line names it
	Ext   string // of files
	Bytes bool   // not for a terminal
	Write func(w io.Writer, r Report, page Layout) error
}

// Writers lists every format, in the order help shows them.
var Writers = []Writer{
	{Name: "text", Ext: ".txt", Write: WriteText},
	{Name: "markdown", Ext: ".md", Write: writeMarkdown},
	{Name: "html", Ext: ".html", Write: writeHTML},
	{Name: "csv", Ext: ".csv", Write: writeCSV},
	{Name: "xlsx", Ext: ".xlsx", Bytes: true, Write: writeXLSX},
	{Name: "json", Ext: ".json", Write: writeJSON},
}

// WriterNamed finds a format. The error names those there are.
func WriterNamed(name string) (Writer, error) {
	var names []string
	for _, w := range Writers {
		if w.Name == name {
			return w, nil
		}
		names = append(names, w.Name)
	}
	return Writer{}, fmt.Errorf("--format %s is not known; use one of %s", name, strings.Join(names, ", "))
}

// Sheet keeps a spreadsheet from taking text of a paper for a formula: text
// that begins like one is marked as text.
func Sheet(s string) string {
	s = Clean(s)
	if trimmed := strings.TrimLeftFunc(s, unicode.IsSpace); trimmed != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(trimmed)[0]) {
		return "'" + s
	}
	return s
}

// at writes a place without the file where there is one to write.
func at(p extract.Place) string { return Clean(p.String()) }
