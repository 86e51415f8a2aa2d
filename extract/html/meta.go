package html

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"probity/extract"
	"probity/extract/internal/flow"
)

// meta reads the head of the page: the citation_* names that indexing services
// ask publishers for, Dublin Core, and the title element.
func (r *reader) meta(top *html.Node) {
	m := &r.Doc.Meta
	first := func(to *string, value string) {
		if *to == "" {
			*to = extract.Fold(value)
		}
	}
	head := find(top, func(n *html.Node) bool { return n.DataAtom == atom.Head })
	if head == nil {
		return
	}
	title := ""
	for n := head.FirstChild; n != nil; n = n.NextSibling {
		switch n.DataAtom {
		case atom.Title:
			title = extract.Fold(rawText(n))
		case atom.Link:
			if attr(n, "rel") == "license" {
				first(&m.Licence, attr(n, "href"))
			}
		case atom.Meta:
			name := strings.ToLower(attr(n, "name"))
			if name == "" {
				name = strings.ToLower(attr(n, "property"))
			}
			value := attr(n, "content")
			switch name {
			case "citation_title", "dc.title":
				first(&m.Title, value)
			case "citation_author":
				m.Authors = append(m.Authors, author(value))
			case "citation_journal_title", "prism.publicationname":
				first(&m.Journal, value)
			case "citation_doi", "dc.identifier", "prism.doi", "dc.source":
				first(&m.DOI, flow.DOI(value))
			case "citation_publication_date", "citation_online_date", "citation_date", "citation_year", "dc.date", "prism.publicationdate":
				if y := flow.Year(value); y > 0 && (m.Year == 0 || y < m.Year) {
					m.Year = y
				}
			case "dc.rights", "dc.rightsagent":
				first(&m.Licence, value)
			}
		}
	}
	if m.Title == "" {
		m.Title = r.titleOf(top, title)
	}
}

// titleOf prefers the first heading over the title element, which often
// carries the journal's name too.
func (r *reader) titleOf(top *html.Node, title string) string {
	h := find(top, func(n *html.Node) bool { return n.DataAtom == atom.H1 && !skipped(n) })
	if h != nil {
		s := extract.Flatten(runs(h))
		if named, _ := flow.Named(s); named == "" && s != "" {
			return s
		}
	}
	return title
}

// author turns "Surname, Given" into "Given Surname".
func author(s string) string {
	surname, given, ok := strings.Cut(extract.Fold(s), ", ")
	if !ok {
		return surname
	}
	return given + " " + surname
}
