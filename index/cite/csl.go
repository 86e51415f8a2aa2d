package cite

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// cslItem is an item of CSL-JSON (citationstyles.org, csl-data.json).
type cslItem struct {
	ID        any       `json:"id"`
	Type      string    `json:"type"`
	Title     string    `json:"title,omitempty"`
	Author    []cslName `json:"author,omitempty"`
	Container any       `json:"container-title,omitempty"`
	Issued    *cslDate  `json:"issued,omitempty"`
	Volume    any       `json:"volume,omitempty"`
	Issue     any       `json:"issue,omitempty"`
	Page      string    `json:"page,omitempty"`
	DOI       string    `json:"DOI,omitempty"`
}

type cslName struct {
	Family   string `json:"family,omitempty"`
	Given    string `json:"given,omitempty"`
	Literal  string `json:"literal,omitempty"`
	Particle string `json:"non-dropping-particle,omitempty"`
}

type cslDate struct {
	Parts   [][]any `json:"date-parts,omitempty"`
	Raw     string  `json:"raw,omitempty"`
	Literal string  `json:"literal,omitempty"`
}

func readCSL(data []byte) ([]Ref, error) {
	var items []cslItem
	if err := json.Unmarshal(data, &items); err != nil {
		var one cslItem
		if json.Unmarshal(data, &one) != nil {
			return nil, fmt.Errorf("it is not CSL-JSON (%w)", err)
		}
		items = []cslItem{one}
	}
	var out []Ref
	for _, it := range items {
		r := Ref{Key: text(it.ID), Title: line(it.Title), Journal: text(it.Container), Volume: text(it.Volume), Issue: text(it.Issue),
			Pages: strings.ReplaceAll(line(it.Page), "-", "–"), DOI: bareDOI(it.DOI)}
		for _, a := range it.Author {
			if a.Literal != "" {
				r.Authors = append(r.Authors, Name{Family: line(a.Literal)})
				continue
			}
			r.Authors = append(r.Authors, Name{Family: line(strings.TrimSpace(a.Particle + " " + a.Family)), Given: line(a.Given)})
		}
		if d := it.Issued; d != nil {
			if len(d.Parts) > 0 && len(d.Parts[0]) > 0 {
				r.Year = year(text(d.Parts[0][0]))
			} else {
				r.Year = year(d.Raw + " " + d.Literal)
			}
		}
		if r.Title != "" || r.DOI != "" {
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		return nil, errors.New("no CSL-JSON item could be read")
	}
	return out, nil
}

// text reads a value that may be a string, a number or a list.
func text(v any) string {
	switch v := v.(type) {
	case string:
		return line(v)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case []any:
		if len(v) > 0 {
			return text(v[0])
		}
	}
	return ""
}

func writeCSL(w io.Writer, refs []Ref) error {
	items := make([]cslItem, 0, len(refs))
	used := map[string]int{}
	for _, r := range refs {
		key := keyOf(r)
		if used[key]++; used[key] > 1 {
			key = fmt.Sprintf("%s-%d", key, used[key])
		}
		it := cslItem{ID: key, Type: "article-journal", Title: line(r.Title), DOI: r.DOI, Page: strings.ReplaceAll(line(r.Pages), "–", "-")}
		if r.Journal != "" {
			it.Container = line(r.Journal)
		}
		if r.Volume != "" {
			it.Volume = line(r.Volume)
		}
		if r.Issue != "" {
			it.Issue = line(r.Issue)
		}
		for _, a := range r.Authors {
			it.Author = append(it.Author, cslName{Family: line(a.Family), Given: line(a.Given)})
		}
		if r.Year > 0 {
			it.Issued = &cslDate{Parts: [][]any{{r.Year}}}
		}
		items = append(items, it)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(items)
}
