package docx

import (
	"strconv"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/grid"
	"probity/extract/internal/xmltree"
)

// table gives a table, then the tables nested in it. A table of one cell, or
// one that only sets tables and long text side by side, is layout: what it
// holds is given as blocks.
func (r *reader) table(n *xmltree.Node) {
	rows := members(n, "tr")
	if layout(rows) {
		for _, tr := range rows {
			for _, tc := range members(tr, "tc") {
				r.blocks(tc)
			}
		}
		return
	}
	outer, outerMarks := r.held, r.marks
	r.held, r.marks = nil, nil
	t := &extract.Table{}
	grid.Fill(t, r.rows(rows))
	held, marks := r.held, r.marks
	r.held, r.marks = outer, outerMarks
	for _, key := range marks {
		t.Notes = append(t.Notes, r.note(key)...)
	}
	r.TableAt(t)
	for _, h := range held {
		if h.Is("tbl") {
			r.table(h)
		} else {
			r.blocks(h)
		}
	}
}

// members are the rows of a table or the cells of a row, through what may
// wrap them.
func members(n *xmltree.Node, name string) []*xmltree.Node {
	var out []*xmltree.Node
	for _, k := range n.Kids {
		switch {
		case k.Is(name):
			out = append(out, k)
		case k.Is("sdt"):
			if c := k.Child("sdtContent"); c != nil {
				out = append(out, members(c, name)...)
			}
		case k.Is("ins", "moveTo", "customXml", "smartTag"):
			out = append(out, members(k, name)...)
		}
	}
	return out
}

func layout(rows []*xmltree.Node) bool {
	cells, nested := 0, 0
	for _, tr := range rows {
		for _, tc := range members(tr, "tc") {
			cells++
			if tc.Find("tbl") != nil {
				nested++
			}
		}
	}
	return cells <= 1 || 2*nested >= cells
}

// note is the text of a footnote of a table, once.
func (r *reader) note(key string) []string {
	n := r.notes[key]
	if n == nil {
		return nil
	}
	delete(r.notes, key)
	text := []extract.Run{{Text: itoa(r.number(key)), Raised: true}, {Text: " "}}
	for _, p := range n.All("p") {
		text = append(r.runs(text, p, font{}), extract.Run{Text: " "})
	}
	return flow.Lines(text)
}

// rows reads the rows. A cell merged downwards is written in every row, the
// first of them says "restart": it becomes one cell that reaches down.
func (r *reader) rows(trs []*xmltree.Node) []grid.Row {
	var out []grid.Row
	open := map[int]*extract.Cell{} // by column: the cell that reaches down
	for _, tr := range trs {
		p := tr.Child("trPr")
		if p.Child("del") != nil {
			r.count.deleted++
			continue
		}
		tcs := members(tr, "tc")
		// Cells are appended to in place later, so they must not move.
		row := grid.Row{Head: p.Child("tblHeader") != nil && on(p.Child("tblHeader")), Cells: make([]extract.Cell, 0, len(tcs)+2)}
		col := 0
		if before := number(p.Child("gridBefore")); before > 0 {
			row.Cells = append(row.Cells, extract.Cell{Cols: min(before, grid.Most)})
			col = before
		}
		next := map[int]*extract.Cell{}
		for _, tc := range tcs {
			c, merged := r.cell(tc)
			if above := open[col]; merged && above != nil {
				above.Rows++
				above.Runs = flow.Trim(append(above.Runs, c.Runs...))
				next[col] = above
				col += max(above.Cols, 1)
				continue
			}
			row.Cells = append(row.Cells, c)
			if tc.Path("tcPr", "vMerge") != nil {
				next[col] = &row.Cells[len(row.Cells)-1]
			}
			col += max(c.Cols, 1)
		}
		open = next
		out = append(out, row)
	}
	return out
}

func number(n *xmltree.Node) int {
	v, _ := strconv.Atoi(n.Attr0("val"))
	return max(v, 0)
}

// cell reads one cell and whether it continues the one above.
func (r *reader) cell(tc *xmltree.Node) (c extract.Cell, merged bool) {
	p := tc.Child("tcPr")
	c.Rows, c.Cols = 1, max(min(number(p.Child("gridSpan")), grid.Most), 1)
	if v := p.Child("vMerge"); v != nil && v.Attr("val") != "restart" {
		merged = true
	}
	var runs []extract.Run
	var walk func(n *xmltree.Node)
	walk = func(n *xmltree.Node) {
		for _, k := range n.Kids {
			switch {
			case k.Is("p"):
				runs = r.line(runs, k)
				if c.Indent == 0 {
					c.Indent = indentation(k.Child("pPr"))
				}
			case k.Is("tbl"):
				r.held = append(r.held, k)
			case k.Is("sdt"):
				if content := k.Child("sdtContent"); content != nil {
					walk(content)
				}
			case k.Is("ins", "moveTo", "customXml", "smartTag"):
				walk(k)
			case k.Is("oMath", "oMathPara"):
				runs = r.inline(runs, k, font{})
			}
		}
	}
	walk(tc)
	c.Runs = flow.Trim(runs)
	return c, merged
}

// line adds a paragraph of a cell on a line of its own.
func (r *reader) line(runs []extract.Run, p *xmltree.Node) []extract.Run {
	text := r.runs(nil, p, r.paragraphFont(p.Child("pPr")))
	if (extract.Cell{Runs: text}).Empty() {
		return runs
	}
	if len(runs) > 0 {
		runs = append(runs, extract.Run{Text: "\n"})
	}
	return append(runs, text...)
}

// indentation of a stub entry, in steps of a twentieth of an inch so that
// small differences do not count.
func indentation(pPr *xmltree.Node) int {
	ind := pPr.Child("ind")
	if ind == nil {
		return 0
	}
	total := 0
	for _, name := range []string{"left", "start", "firstLine"} {
		v, _ := strconv.Atoi(ind.Attr(name))
		total += v
	}
	return max(total/72, 0)
}
