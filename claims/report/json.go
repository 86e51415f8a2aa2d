package report

import (
	"encoding/json"
	"io"
)

type (
	reportJSON struct {
		Title string     `json:"title"`
		Parts []partJSON `json:"parts"`
	}
	partJSON struct {
		Kind    string       `json:"kind"` // heading, para, entry, table, notes
		Level   int          `json:"level,omitempty"`
		Text    string       `json:"text,omitempty"`
		Lead    string       `json:"lead,omitempty"`
		Lines   []lineJSON   `json:"lines,omitempty"`
		Place   string       `json:"place,omitempty"`
		Caption string       `json:"caption,omitempty"`
		Head    []string     `json:"head,omitempty"`
		Rows    [][]cellJSON `json:"rows,omitempty"`
		Notes   []string     `json:"notes,omitempty"`
	}
	lineJSON struct {
		Label string `json:"label,omitempty"`
		Text  string `json:"text"`
		Quote bool   `json:"quote,omitempty"`
	}
	cellJSON struct {
		Text  string   `json:"text"`
		Value *float64 `json:"value,omitempty"`
		Place string   `json:"place,omitempty"`
	}
)

// writeJSON writes the tree of a report as it stands.
func writeJSON(w io.Writer, r Report, _ Layout) error {
	out := reportJSON{Title: r.Title, Parts: make([]partJSON, 0, len(r.Parts))}
	for _, p := range r.Parts {
		out.Parts = append(out.Parts, partOf(p))
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(out)
}

func partOf(p Part) partJSON {
	switch p := p.(type) {
	case Heading:
		return partJSON{Kind: "heading", Level: p.Level, Text: p.Text}
	case Para:
		return partJSON{Kind: "para", Text: p.Text}
	case Entry:
		out := partJSON{Kind: "entry", Lead: p.Lead, Text: p.Head, Place: p.Place.String()}
		for _, l := range p.Lines {
			out.Lines = append(out.Lines, lineJSON(l))
		}
		return out
	case Table:
		out := partJSON{Kind: "table", Caption: p.Caption, Head: p.Head}
		for _, row := range p.Rows {
			cells := make([]cellJSON, len(row))
			for i, c := range row {
				cells[i] = cellJSON{Text: c.Text, Place: c.Place.String()}
				if c.Value != nil {
					cells[i].Value = finite(*c.Value)
				}
			}
			out.Rows = append(out.Rows, cells)
		}
		return out
	case Notes:
		return partJSON{Kind: "notes", Notes: p.Texts}
	}
	return partJSON{}
}
