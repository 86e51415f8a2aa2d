package jats

import (
	"strconv"
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/grid"
	"probity/extract/internal/xmltree"
)

// table gives what a table-wrap holds: each table or tgroup in it a panel of
// the same label. A table that is only a picture leaves its caption and notes
// as prose, because n and units may stand there, and a problem.
func (r *reader) table(n *xmltree.Node) {
	if r.again(n) {
		return
	}
	outer := r.held
	r.held = nil
	label, caption := r.named(n)
	notes := r.notes(n)
	var bodies []*xmltree.Node
	bodies = tables(bodies, n)
	given := 0
	for _, b := range bodies {
		if r.Full() {
			return
		}
		given += r.panels(b, extract.Table{Label: label, Caption: caption, Notes: notes})
	}
	if given == 0 {
		r.picture(n, label, caption, notes)
	}
	waiting := r.held
	r.held = outer
	for _, k := range waiting {
		if !k.Is("xref", "fn") { // notes inside a table are among its notes
			r.block(k)
		}
	}
}

// named gives the label without the word for a table, and the caption as one
// line; a caption that opens with the label gives it up.
func (r *reader) named(n *xmltree.Node) (label, caption string) {
	runs := r.runs(n.Child("caption"))
	if runs == nil {
		runs = r.runs(n.Child("title"))
	}
	caption = extract.Flatten(runs)
	printed := extract.Flatten(r.runs(n.Child("label")))
	if printed == "" {
		return flow.Label(caption)
	}
	label, rest := flow.Label(printed)
	if label == "" {
		label = printed
	}
	if again, after := flow.Label(caption); again == label && again != "" {
		caption = after
	}
	return label, strings.TrimSpace(rest + " " + caption)
}

// notes gives the footnotes and legends of a table.
func (r *reader) notes(n *xmltree.Node) []string {
	var out []string
	add := func(k *xmltree.Node) {
		for _, line := range flow.Lines(r.kids(nil, k, style{})) {
			out = append(out, line)
		}
	}
	var walk func(*xmltree.Node)
	walk = func(k *xmltree.Node) {
		switch {
		case k.Is("fn", "p", "attrib", "fn-group", "table-wrap-foot", "permissions", "list", "list-item", "def-list", "def-item") && k.Child("fn", "p", "list", "list-item", "def-list", "def-item", "fn-group") != nil && !k.Is("fn", "def-item", "p"):
			for _, kk := range k.Kids {
				walk(kk)
			}
		case k.Is("fn", "p", "attrib", "def-item", "list-item", "table-wrap-foot"):
			add(k)
		}
	}
	for _, k := range n.Kids {
		if k.Is("table-wrap-foot", "fn", "fn-group", "p", "attrib", "list", "def-list") {
			walk(k)
		}
	}
	for _, t := range n.All("td") {
		for _, f := range t.All("fn") {
			add(f)
		}
	}
	return out
}

// tables finds the tables of a wrap, of alternatives only the first.
func tables(out []*xmltree.Node, n *xmltree.Node) []*xmltree.Node {
	for _, k := range n.Kids {
		switch {
		case k.Is("table"):
			out = append(out, k)
		case k.Is("alternatives"):
			if found := tables(nil, k); len(found) > 0 {
				out = append(out, found[0])
			}
		case k.Is("p", "disp-quote", "boxed-text", "table-wrap-group", "oasis"):
			out = tables(out, k)
		}
	}
	return out
}

// panels gives one table element: one panel, or one for each tgroup.
func (r *reader) panels(n *xmltree.Node, t extract.Table) int {
	groups := []*xmltree.Node{n}
	if g := n.All("tgroup"); len(g) > 0 {
		groups = g
	}
	given := 0
	for _, g := range groups {
		rows, notes := r.rows(g)
		panel := t
		grid.Fill(&panel, rows)
		panel.Notes = append(append([]string(nil), t.Notes...), notes...)
		if len(panel.Rows) > 0 {
			r.Table(&panel)
			given++
		}
	}
	return given
}

// rows reads the rows of a table in either model: XHTML's (tr, th, td) or
// OASIS's (row, entry). A foot that is one cell wide is a note.
func (r *reader) rows(n *xmltree.Node) (rows []grid.Row, notes []string) {
	cols := columns(n)
	var foot []grid.Row
	group := 0
	var walk func(n *xmltree.Node, in string)
	walk = func(n *xmltree.Node, in string) {
		for _, k := range n.Kids {
			switch {
			case k.Is("thead", "tbody", "tfoot"):
				group++
				walk(k, k.Name)
				group++
			case k.Is("tr", "row"):
				row := grid.Row{Cells: r.cells(k, cols), Head: in == "thead", Group: group}
				if in == "tfoot" {
					foot = append(foot, row)
				} else {
					rows = append(rows, row)
				}
			}
		}
	}
	walk(n, "")
	for _, f := range foot {
		if len(f.Cells) == 1 {
			notes = append(notes, flow.Lines(f.Cells[0].Runs)...)
		} else {
			rows = append(rows, f)
		}
	}
	return rows, notes
}

// columns gives the position of each named column of the OASIS model.
func columns(n *xmltree.Node) map[string]int {
	cols := map[string]int{}
	for _, k := range n.Kids {
		if k.Is("colspec") {
			num, err := strconv.Atoi(k.Attr("colnum"))
			if err != nil {
				num = len(cols) + 1
			}
			cols[k.Attr("colname")] = num
		}
	}
	return cols
}

func (r *reader) cells(row *xmltree.Node, cols map[string]int) []extract.Cell {
	var out []extract.Cell
	for _, k := range row.Kids {
		if !k.Is("td", "th", "entry") {
			continue
		}
		c := extract.Cell{
			Runs:   flow.Trim(r.runs(k)),
			Rows:   grid.Span(k.Attr("rowspan")),
			Cols:   grid.Span(k.Attr("colspan")),
			Header: k.Is("th"),
		}
		if more, err := strconv.Atoi(k.Attr("morerows")); err == nil {
			c.Rows = min(more, grid.Most) + 1
		}
		if a, b := cols[k.Attr("namest")], cols[k.Attr("nameend")]; a > 0 && b > a {
			c.Cols = b - a + 1
		}
		out = append(out, c)
	}
	return out
}

// picture gives a table that holds no cells: what text recognition makes of
// its picture, where that is asked for, or a problem, and its caption and notes
// as prose.
func (r *reader) picture(n *xmltree.Node, label, caption string, notes []string) {
	names := pictures(n)
	switch {
	case len(names) == 0:
		r.Problem(label, "the table holds no rows", elsewhere)
	case r.opt.Picture == nil:
		r.Problem(label, onlyPicture, elsewhere+"; with --ocr the picture is read where its file lies beside the paper and tesseract is installed")
	default:
		tables, file, err := r.opt.Picture(names)
		if err == nil {
			r.recognised(tables, file, extract.Table{Label: label, Caption: caption, Notes: notes})
			return
		}
		r.Problem(label, onlyPicture+": "+err.Error(), elsewhere)
	}
	if caption != "" {
		title := "Table " + label + ". "
		if label == "" {
			title = ""
		}
		r.Prose(extract.Caption, []extract.Run{{Text: title + caption}})
	}
	for _, note := range notes {
		r.Prose(extract.Footnote, []extract.Run{{Text: note}})
	}
}

const (
	onlyPicture = "the table is only a picture; its figures are not read"
	elsewhere   = "look for the table's text in the paper's PDF, or in another format"
)

// pictures gives the names of a table's pictures, of alternatives too.
func pictures(n *xmltree.Node) []string {
	var out []string
	for _, kind := range []string{"graphic", "inline-graphic", "media"} {
		for _, g := range n.All(kind) {
			out = append(out, g.Attr("href"))
		}
	}
	return out
}

// recognised gives the tables that a picture shows, with what the article
// itself says of them.
func (r *reader) recognised(tables []*extract.Table, file string, said extract.Table) {
	r.Problem(said.Label, "the table is a picture; its text was recognised from "+file+", and digits and signs may be misread", "hold its figures against the picture")
	for _, t := range tables {
		t.Label = said.Label
		if said.Caption != "" {
			t.Caption = said.Caption
		}
		t.Notes = append(append([]string(nil), said.Notes...), t.Notes...)
		r.Table(t)
	}
}
