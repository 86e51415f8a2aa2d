package assemble

import (
	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// sheetHead is the header line of a corrections file.
var sheetHead = []string{"place", "field", "was", "now", "why"}

// Sheet gives the rows of a corrections file for a person to fill in: what
// was read from each cell, which cells name the groups, and what the paper
// does not state. Now and why are left blank; a row left blank does nothing.
func Sheet(doc *extract.Document, cat *catalog.Catalog) [][]string {
	study := Study(doc, nil, cat)
	out := [][]string{sheetHead}
	add := func(p extract.Place, field, was string) {
		p.File, p.Start, p.End = "", 0, 0
		if was != "" {
			out = append(out, []string{p.String(), field, was, "", ""})
		}
	}
	for _, t := range doc.Tables() {
		var mine []*claims.Measure
		for _, m := range study.Measures {
			if m.Place.Table == t.Place.Table {
				mine = append(mine, m)
			}
		}
		if len(mine) == 0 {
			continue
		}
		whole := extract.Place{Page: t.Place.Page, Table: t.Place.Table}
		missing := map[string]bool{}
		for _, m := range mine {
			missing["spread"] = missing["spread"] || m.Spread.Known() && m.Spread.Kind == claims.NotStated
			missing["n"] = missing["n"] || !m.N.Known()
			missing["unit"] = missing["unit"] || m.Unit == ""
		}
		for _, field := range []string{"spread", "n", "unit"} {
			if missing[field] {
				add(whole, field, first40(tableWords(t)))
			}
		}
		for r := range t.Rows {
			for c := range t.Rows[r] {
				cell := &t.Rows[r][c]
				if cell.Copy {
					continue
				}
				for _, a := range study.Arms {
					if a.Place.Table == t.Place.Table && key(a.Short) == key(printed(cell.Runs)) && key(a.Short) != "" {
						add(cell.Place, "role", first40(cell.Text()))
						break
					}
				}
			}
		}
		for _, m := range mine {
			add(m.Place, "text", m.Text)
		}
	}
	return out
}

// tableWords are words of a table that a row about the whole of it can rest
// on: the caption, or the first cell.
func tableWords(t *extract.Table) string {
	if t.Caption != "" {
		return t.Caption
	}
	for r := range t.Rows {
		for c := range t.Rows[r] {
			if s := t.Rows[r][c].Text(); s != "" {
				return s
			}
		}
	}
	return ""
}

func first40(s string) string {
	r := []rune(s)
	if len(r) > 40 {
		return string(r[:40])
	}
	return s
}
