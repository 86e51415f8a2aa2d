package flow

import (
	"regexp"
	"strconv"
	"strings"

	"probity/extract"
)

var yearPattern = regexp.MustCompile(`\b(1[89]\d\d|20\d\d)\b`)

// Year finds the first plausible year of publication in a text; 0 if none.
func Year(s string) int {
	n, _ := strconv.Atoi(yearPattern.FindString(s))
	return n
}

var doiPattern = regexp.MustCompile(`(?i)\b10\.\d{4,9}/[^\s"<>]+`)

// DOI finds a DOI in a text and gives it bare and in lower case; "" if none.
// Syntax: DOI Handbook, section 2.2.
func DOI(s string) string {
	d := doiPattern.FindString(s)
	d = strings.TrimRight(d, ".,;:'’”")
	if !strings.Contains(d, "(") {
		d = strings.TrimRight(d, ")]")
	}
	return strings.ToLower(d)
}

// Pays reports a title under which a paper says who paid for it.
func Pays(title string) bool {
	s := fold(title)
	return hasAny(s, "funding", "financial support", "source of support", "sources of support", "grant support", "financial disclosure", "support statement")
}

// Gains reports a title under which authors say what interests they have.
func Gains(title string) bool {
	s := fold(title)
	return hasAny(s, "conflict of interest", "conflicts of interest", "competing interest", "conflicting interest",
		"declaration of interest", "declarations of interest", "disclosure", "duality of interest")
}

func hasAny(s string, phrases ...string) bool {
	for _, p := range phrases {
		if strings.Contains(s, p) {
			return true
		}
	}
	return false
}

// back fills what the title page left open from the sections that say it.
func (w *Writer) back() {
	m := &w.Doc.Meta
	w.titlePage()
	pays, gains := m.Funding == "", m.Interests == ""
	for _, b := range w.Doc.Blocks {
		p, ok := b.(*extract.Prose)
		if !ok || p.Role == extract.Heading || p.Role == extract.Reference || p.Place.Section == extract.Abstract {
			continue
		}
		if pays && Pays(p.Heading) {
			m.Funding = strings.TrimSpace(m.Funding + " " + p.Text())
		} else if gains && Gains(p.Heading) {
			m.Interests = strings.TrimSpace(m.Interests + " " + p.Text())
		}
	}
}

var published = regexp.MustCompile(`(?i)\b(?:published|publication|copyright|accepted|received|©|\(c\))\D{0,40}|\b(?:19|20)\d\d\s*[;,]\s*\d`)

// titlePage reads DOI and year from the title page, where a format has no
// fields for them: what stands before the abstract or introduction.
func (w *Writer) titlePage() {
	m := &w.Doc.Meta
	for i, b := range w.Doc.Blocks {
		p, ok := b.(*extract.Prose)
		if !ok || i > 40 || p.Place.Section != extract.Back || p.Role == extract.Reference {
			return
		}
		text := p.Text()
		if m.DOI == "" {
			m.DOI = DOI(text)
		}
		if m.Year == 0 && published.MatchString(text) {
			m.Year = Year(text[published.FindStringIndex(text)[0]:])
		}
	}
}
