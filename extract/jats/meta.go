package jats

import (
	"strconv"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/xmltree"
)

func articleMeta(front *xmltree.Node) *xmltree.Node {
	if m := front.Child("article-meta"); m != nil {
		return m
	}
	return front
}

// meta reads the title page, and of the back matter who paid and who gains.
func meta(article, front *xmltree.Node) extract.Meta {
	m := articleMeta(front)
	if m == nil {
		return extract.Meta{}
	}
	r := &reader{}
	titles := m.Child("title-group")
	out := extract.Meta{
		Title:   extract.Flatten(r.runs(titles.Child("article-title"))),
		Authors: authors(m),
		Journal: journal(front),
		Year:    year(m),
		DOI:     doi(m),
		Licence: licence(m),
		Funding: funding(article, m),
	}
	if sub := extract.Flatten(r.runs(titles.Child("subtitle"))); sub != "" {
		out.Title = strings.TrimRight(out.Title, ": ") + ": " + sub
	}
	out.Interests = interests(article, m)
	return out
}

func authors(m *xmltree.Node) []string {
	var out []string
	for _, group := range m.Kids {
		if !group.Is("contrib-group") {
			continue
		}
		for _, c := range group.All("contrib") {
			if t := c.Attr("contrib-type"); t != "" && t != "author" {
				continue
			}
			if name := person(c); name != "" {
				out = append(out, name)
			}
		}
	}
	return out
}

func person(c *xmltree.Node) string {
	n := c.Child("name", "string-name")
	if n == nil {
		n = c.Child("name-alternatives").Child("name", "string-name")
	}
	if n == nil {
		return c.Child("collab").String()
	}
	surname := n.Child("surname").String()
	if surname == "" {
		return n.String()
	}
	var parts []string
	for _, s := range []string{n.Child("given-names").String(), surname, n.Child("suffix").String()} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, " ")
}

func journal(front *xmltree.Node) string {
	j := front.Child("journal-meta")
	if t := j.Find("journal-title"); t != nil {
		return t.String()
	}
	if t := j.Find("abbrev-journal-title"); t != nil {
		return t.String()
	}
	for _, id := range j.All("journal-id") {
		if s := id.String(); strings.Contains(s, " ") || id.Attr("journal-id-type") == "nlm-ta" {
			return s
		}
	}
	return ""
}

// year is the first year in which the paper was out, in print or on line.
func year(m *xmltree.Node) int {
	first := 0
	for _, d := range m.Kids {
		if !d.Is("pub-date") || strings.Contains(d.Attr("pub-type")+d.Attr("date-type"), "release") || strings.HasPrefix(d.Attr("pub-type"), "nihms") {
			continue
		}
		text := d.Child("year").String()
		if text == "" {
			text = d.Child("string-date").String()
		}
		if y := flow.Year(text); y > 0 && (first == 0 || y < first) {
			first = y
		}
	}
	if first == 0 {
		first, _ = strconv.Atoi(m.Child("permissions").Child("copyright-year").String())
	}
	return first
}

func doi(m *xmltree.Node) string {
	for _, id := range m.Kids {
		if id.Is("article-id") && id.Attr("pub-id-type") == "doi" {
			return flow.DOI(id.String())
		}
	}
	return ""
}

func licence(m *xmltree.Node) string {
	p := m.Child("permissions")
	if p == nil {
		p = m
	}
	l := p.Child("license", "open-access", "license_ref")
	if l == nil {
		return p.Child("copyright-statement").String()
	}
	if s := l.String(); s != "" {
		return s
	}
	return l.Attr("href")
}

func funding(article, m *xmltree.Node) string {
	var parts []string
	g := m.Child("funding-group")
	for _, s := range g.All("funding-statement") {
		parts = append(parts, s.String())
	}
	if len(parts) == 0 {
		for _, a := range g.All("award-group") {
			s := a.Find("funding-source").String()
			if id := a.Find("award-id").String(); id != "" {
				s += " (" + id + ")"
			}
			parts = append(parts, strings.TrimSpace(s))
		}
	}
	if len(parts) == 0 {
		parts = said(article, m, flow.Pays, "financial-disclosure", "supported-by", "funding-information")
	}
	return strings.Join(parts, " ")
}

func interests(article, m *xmltree.Node) string {
	return strings.Join(said(article, m, flow.Gains, "conflict", "coi-statement", "competing-interests"), " ")
}

// said collects the text of the notes of one of the types and of the sections
// whose title says the matter.
func said(article, m *xmltree.Node, titled func(string) bool, types ...string) []string {
	var out []string
	var walk func(n *xmltree.Node)
	walk = func(n *xmltree.Node) {
		for _, k := range n.Kids {
			if !k.Is("fn", "sec", "notes", "back", "body", "fn-group", "author-notes", "ack", "p", "app-group", "app") {
				continue
			}
			kind := strings.ToLower(k.Attr("fn-type") + k.Attr("sec-type") + k.Attr("notes-type"))
			title := k.Child("title").String()
			lead := k.Child("bold").String() // "<p><bold>Conflict of interest:</bold> none</p>"
			match := titled(title) || k.Is("p") && titled(lead)
			for _, t := range types {
				match = match || kind == t
			}
			if k.Is("fn") && !match {
				match = titled(first(k.Child("p").Child("bold", "italic").String()))
			}
			if !match {
				walk(k)
				continue
			}
			s := strings.TrimSpace(strings.TrimPrefix(prose(k), title))
			if s != "" {
				out = append(out, s)
			}
		}
	}
	walk(m)
	walk(article)
	return out
}

// first is the lead of a note up to its colon.
func first(s string) string { s, _, _ = strings.Cut(s, ":"); return s }

// prose is the text of a section with spaces between its paragraphs.
func prose(n *xmltree.Node) string {
	r := &reader{}
	return extract.Flatten(r.kids(nil, n, style{}))
}
