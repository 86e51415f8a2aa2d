package odt

import (
	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/grid"
	"probity/extract/internal/xmltree"
)

// maxRepeat bounds repeated rows and cells: spreadsheets write "and sixteen
// thousand empty columns more".
const maxRepeat = 200

// table gives a table, then what stood nested in it. A table of one cell is
// layout: what it holds is given as blocks.
func (r *reader) table(n *xmltree.Node) {
	trs := rowsOf(nil, n, false)
	if layout(trs) {
		for _, tr := range trs {
			for _, tc := range tr.node.Kids {
				if tc.Is("table-cell") {
					r.blocks(tc)
				}
			}
		}
		return
	}
	outer := r.held
	r.held = nil
	t := &extract.Table{}
	var rows []grid.Row
	for _, tr := range trs {
		row := grid.Row{Head: tr.head, Cells: r.cells(tr.node)}
		for range min(count(tr.node, "number-rows-repeated"), maxRepeat) {
			rows = append(rows, row)
		}
	}
	grid.Fill(t, rows)
	held := r.held
	r.held = outer
	for _, h := range held {
		if h.Is("note") {
			for _, line := range r.noteLines(h) {
				t.Notes = append(t.Notes, extract.Flatten(line))
			}
		}
	}
	r.TableAt(t)
	for _, h := range held {
		switch h.Name {
		case "note":
		case "table":
			r.table(h)
		default:
			r.blocks(h)
		}
	}
}

// row is a row and whether it stands among the header rows.
type row struct {
	node *xmltree.Node
	head bool
}

func rowsOf(out []row, n *xmltree.Node, head bool) []row {
	for _, k := range n.Kids {
		switch k.Name {
		case "table-row":
			out = append(out, row{k, head})
		case "table-header-rows":
			out = rowsOf(out, k, true)
		case "table-rows", "table-row-group":
			out = rowsOf(out, k, head)
		}
	}
	return out
}

func layout(rows []row) bool {
	cells, nested := 0, 0
	for _, tr := range rows {
		for _, k := range tr.node.Kids {
			if k.Is("table-cell") {
				cells++
				if k.Find("table") != nil {
					nested++
				}
			}
		}
	}
	return cells <= 1 || 2*nested >= cells
}

// cells reads a row. Places covered by merged cells are written out in these
// files; the rectangle fills them again.
func (r *reader) cells(tr *xmltree.Node) []extract.Cell {
	var out []extract.Cell
	for _, k := range tr.Kids {
		if !k.Is("table-cell") {
			continue
		}
		c := extract.Cell{
			Runs: flow.Trim(r.cell(nil, k)),
			Rows: min(count(k, "number-rows-spanned"), grid.Most),
			Cols: min(count(k, "number-columns-spanned"), grid.Most),
		}
		for range min(count(k, "number-columns-repeated"), maxRepeat) {
			out = append(out, c)
		}
	}
	return out
}

// cell adds the paragraphs of a cell, each on a line of its own.
func (r *reader) cell(out []extract.Run, n *xmltree.Node) []extract.Run {
	for _, k := range n.Kids {
		switch k.Name {
		case "p", "h":
			text := r.runs(nil, k, paragraphStyle(r.base(k.Attr("style-name"))))
			if (extract.Cell{Runs: text}).Empty() {
				continue
			}
			if len(out) > 0 {
				out = append(out, extract.Run{Text: "\n"})
			}
			out = append(out, text...)
		case "list", "list-item", "section":
			out = r.cell(out, k)
		case "table", "text-box":
			r.held = append(r.held, k)
		}
	}
	return out
}
