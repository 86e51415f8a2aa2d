package report

import (
	_ "embed"
	"html/template"
	"io"
)

//go:embed page.html
var pageSource string

// writeHTML lays a report out as one HTML page without scripts and without
// anything fetched. Whatever a paper prints is escaped by the template, and the
// page's own policy forbids the rest.
func writeHTML(w io.Writer, r Report, _ Layout) error {
	return pageTemplate.Execute(w, r)
}

var pageTemplate = template.Must(template.New("page").Funcs(template.FuncMap{
	"kind": func(p Part) string {
		switch p.(type) {
		case Heading:
			return "heading"
		case Para:
			return "para"
		case Entry:
			return "entry"
		case Table:
			return "table"
		}
		return "notes"
	},
	"tone":  func(t Tone) string { return [...]string{"plain", "good", "careful", "grave"}[t] },
	"place": at,
	"clean": Clean,
	"right": func(t Table, i int) bool { return i < len(t.Right) && t.Right[i] },
}).Parse(pageSource))
