package flow

import (
	"regexp"
	"strings"

	"probity/extract"
)

// leads parts the paragraphs of an abstract at the words that open its parts
// ("Methods: …", bold "Results."), so that each part has its heading whether
// the format marks it or not.
func (w *Writer) leads() {
	var out []extract.Block
	heading := ""
	for _, b := range w.Doc.Blocks {
		p, ok := b.(*extract.Prose)
		if ok && p.Role == extract.Paragraph && keywords.MatchString(p.Text()) {
			p.Place.Section = extract.Back
		}
		if !ok || p.Role != extract.Paragraph || p.Place.Section != extract.Abstract || partHeading(p.Heading) {
			if ok && p.Role == extract.Heading {
				heading = ""
			}
			out = append(out, b)
			continue
		}
		for _, part := range parts(p.Runs) {
			if part.lead != nil {
				heading = strings.TrimRight(extract.Flatten(part.lead), " .:–—-")
				out = append(out, &extract.Prose{Place: p.Place, Role: extract.Heading, Heading: heading, Runs: part.lead})
			}
			if runs := Trim(part.runs); len(runs) > 0 {
				q := &extract.Prose{Place: p.Place, Heading: p.Heading, Runs: runs}
				if heading != "" {
					q.Heading = heading
				}
				if keywords.MatchString(q.Text()) {
					q.Place.Section = extract.Back
				}
				out = append(out, q)
			}
		}
	}
	w.Doc.Blocks = out
}

// partHeading reports the heading of a part of an abstract that the format
// itself marks.
func partHeading(title string) bool {
	s, _ := Named(title)
	return s != "" && s != extract.Abstract
}

var keywords = regexp.MustCompile(`^(?i:key\s?-?words|index terms|mesh terms)\s*[:.–—-]`)

// part is a stretch of an abstract and the words that open it.
type part struct{ lead, runs []extract.Run }

// opening is a lead in running text: words and a colon, at the start or after
// the end of a sentence.
var opening = regexp.MustCompile(`(?:^|[.!?)]\s+|\n\s*)([A-Z][A-Za-z&/’', ]{2,40}?)\s*(:|\.?\s*[–—]|\.-)\s`)

func parts(runs []extract.Run) []part {
	out := []part{{}}
	cur := func() *part { return &out[len(out)-1] }
	for i := 0; i < len(runs); i++ {
		r := runs[i]
		if r.Bold && leading(r.Text, runs[i+1:]) && Ended(cur().runs) {
			out = append(out, part{lead: []extract.Run{r}})
			if i+1 < len(runs) {
				runs[i+1].Text = strings.TrimLeft(runs[i+1].Text, ":. ")
			}
			continue
		}
		for !r.Raised && !r.Lowered {
			at := lead(r.Text, Ended(cur().runs))
			if at == nil {
				break
			}
			before, name := r.Text[:at[0]], r.Text[at[0]:at[1]]
			if before != "" {
				cur().runs = append(cur().runs, extract.Run{Text: before, Bold: r.Bold, Cites: r.Cites})
			}
			out = append(out, part{lead: []extract.Run{{Text: name, Bold: r.Bold}}})
			r.Text = r.Text[at[2]:]
		}
		cur().runs = append(cur().runs, r)
	}
	if out[0].lead == nil && len(Trim(out[0].runs)) == 0 && len(out) > 1 {
		out = out[1:]
	}
	return out
}

// leading reports bold text that is the name of a part, with its colon or full
// stop inside it or right behind.
func leading(text string, after []extract.Run) bool {
	if _, plain := Named(text); !plain {
		return false
	}
	s := strings.TrimSpace(text)
	if strings.HasSuffix(s, ":") || strings.HasSuffix(s, ".") || strings.HasSuffix(text, "\n") {
		return true
	}
	return len(after) > 0 && strings.HasPrefix(strings.TrimLeft(after[0].Text, " "), ":")
}

// lead finds the first lead in text: where its words begin and end and where
// the text behind it begins.
func lead(text string, atStart bool) []int {
	for from := 0; ; {
		m := opening.FindStringSubmatchIndex(text[from:])
		if m == nil {
			return nil
		}
		name := text[from+m[2] : from+m[3]]
		if _, plain := Named(name); plain && (from+m[0] > 0 || m[2] > 0 || atStart) {
			return []int{from + m[2], from + m[5], from + m[1]}
		}
		from += m[3]
	}
}
