package pdf

import (
	"regexp"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/pdf/layout"
)

// meta fills the title page from the typography of the first pages and from
// the words of the back matter.
func (p *paper) meta(sheets []*layout.Sheet) {
	m := &p.Doc.Meta
	if p.style.title != nil {
		m.Title = p.titleText(sheets)
	}
	head := p.front(sheets)
	m.DOI = flow.DOI(head)
	m.Year = published(head)
	m.Licence = licence.FindString(head)
	p.authors(sheets)
	for _, pr := range p.Doc.Proses() {
		if pr.Role == extract.Heading || pr.Role == extract.Reference {
			continue
		}
		title, text := pr.Heading, pr.Text()
		if lead, rest, ok := strings.Cut(text, ":"); ok && len(lead) < 60 && (flow.Pays(lead) || flow.Gains(lead)) {
			title, text = lead, strings.TrimSpace(rest)
		} else if pr.Place.Section != extract.Back {
			continue
		}
		if flow.Pays(title) && m.Funding == "" {
			m.Funding = text
		}
		if flow.Gains(title) && m.Interests == "" {
			m.Interests = text
		}
	}
}

// front is the text of the first two pages and their margins, as far as the
// references.
func (p *paper) front(sheets []*layout.Sheet) string {
	var b strings.Builder
	for i, s := range sheets {
		if i > 1 {
			break
		}
		b.WriteString(s.Furniture() + "\n")
		for _, it := range s.Items {
			if it.Block == nil {
				continue
			}
			text := extract.Flatten(p.runs(it.Block))
			if isReferences(text) {
				return b.String()
			}
			b.WriteString(text + "\n")
		}
	}
	return b.String()
}

func (p *paper) titleText(sheets []*layout.Sheet) string {
	var runs []extract.Run
	for _, it := range sheets[0].Items {
		if it.Block != nil && p.style.isTitle(it.Block) {
			runs = glue(runs, p.runs(it.Block), p.words)
		}
	}
	return extract.Flatten(runs)
}

var (
	licence = regexp.MustCompile(`(?i)creative commons attribution[^.,;]*|\bCC[ -]BY(?:[ -][A-Z]{2})*(?: \d\.\d)?`)
	dated   = regexp.MustCompile(`(?i)(?:published|copyright|©|\(c\)|accepted|volume|received|available online)[^\n]{0,80}?\b((?:19|20)\d\d)\b`)
)

// published finds the year of publication: beside a word that dates a paper,
// else the first that could be one.
func published(head string) int {
	head = head[:min(len(head), 12_000)]
	found := dated.FindAllString(head, -1)
	for _, word := range []string{"published", "copyright", "©", "volume", "accepted", ""} {
		for _, m := range found {
			if strings.Contains(strings.ToLower(m), word) {
				return flow.Year(m[len(m)-4:])
			}
		}
	}
	return flow.Year(head[:min(len(head), 600)])
}

// authors takes the names between the title and the first paragraph: blocks of
// capitalised words parted by commas.
func (p *paper) authors(sheets []*layout.Sheet) {
	if p.style.title == nil {
		return
	}
	after := false
	for _, it := range sheets[0].Items {
		b := it.Block
		if b == nil {
			continue
		}
		if p.style.isTitle(b) {
			after = true
			continue
		}
		if !after {
			continue
		}
		if names := nameList(p.runs(b)); len(names) > 0 {
			p.Doc.Meta.Authors = names
		}
		return
	}
}

var person = regexp.MustCompile(`^(?:\p{Lu}[\p{L}.'’-]*|[dvDV][aeio]n?|de[nlr]?|von|bin|al-\p{L}+)(?:[ -]+(?:\p{Lu}[\p{L}.'’-]*|de[nlr]?|d[aeiou]s?|van|von|bin|el|al))+$`)

func nameList(runs []extract.Run) []string {
	var b strings.Builder
	for _, r := range runs {
		if r.Raised {
			b.WriteString(",")
			continue
		}
		b.WriteString(r.Text)
	}
	s := strings.NewReplacer(" and ", ",", " & ", ",", ";", ",", "*", "").Replace(b.String())
	var out []string
	for _, n := range strings.Split(s, ",") {
		n = strings.Trim(extract.Fold(n), " .")
		if n == "" || len(n) <= 3 {
			continue
		}
		if !person.MatchString(n) {
			if len(out) == 0 {
				return nil
			}
			continue
		}
		out = append(out, n)
	}
	return out
}
