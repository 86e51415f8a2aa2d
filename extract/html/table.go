package html

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/grid"
)

// layout reports a table that only lays out the page: it holds other tables or
// headings, has one cell in every row, or says so itself.
func layout(n *html.Node) bool {
	if role := attr(n, "role"); role == "presentation" || role == "none" {
		return true
	}
	rows, wide, long, cells := 0, 0, 0, 0
	nested, marked := false, false
	walkTable(n, func(k *html.Node) {
		switch k.DataAtom {
		case atom.Table, atom.H1, atom.H2, atom.H3:
			nested = true
		case atom.Caption, atom.Thead, atom.Th:
			marked = true
		case atom.Tr:
			rows++
			if count(k) > 1 {
				wide++
			}
		case atom.Td:
			cells++
			if len(rawText(k)) > 600 {
				long++
			}
		}
	})
	if nested || rows == 0 {
		return true
	}
	return !marked && (wide == 0 || 2*long > cells)
}

// walkTable visits the elements of a table but not inside nested tables.
func walkTable(n *html.Node, visit func(*html.Node)) {
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		if k.Type != html.ElementNode {
			continue
		}
		visit(k)
		if k.DataAtom != atom.Table {
			walkTable(k, visit)
		}
	}
}

func count(tr *html.Node) int {
	n := 0
	for k := tr.FirstChild; k != nil; k = k.NextSibling {
		if k.DataAtom == atom.Td || k.DataAtom == atom.Th {
			n++
		}
	}
	return n
}

// wraps reports an element round one table and its caption and notes: its
// class or id says so and there is little other text in it.
func wraps(n *html.Node) bool {
	if n.DataAtom != atom.Div && n.DataAtom != atom.Section && n.Data != "table-wrap" {
		return false
	}
	v := strings.ToLower(attr(n, "class") + " " + attr(n, "id"))
	if !hasWord(v, tableWords) || !strings.Contains(v, "t") {
		return false
	}
	found, outside, heads := 0, 0, false
	var walk func(*html.Node)
	walk = func(k *html.Node) {
		switch {
		case heads || outside >= mostAround: // no wrapper: enough seen
		case k.Type == html.TextNode:
			outside += len(strings.TrimSpace(k.Data))
		case k.Type != html.ElementNode || skipped(k):
		case k.DataAtom == atom.Table && !layout(k):
			found++
		case k.DataAtom == atom.H1 || k.DataAtom == atom.H2 && !isLabel(k):
			heads = true
		default:
			for c := k.FirstChild; c != nil; c = c.NextSibling {
				walk(c)
			}
		}
	}
	walk(n)
	return found > 0 && !heads && outside < mostAround
}

// mostAround is the most text, in bytes, that stands round a table in its
// wrapper: caption and notes.
const mostAround = 4000

func isLabel(n *html.Node) bool {
	label, _ := flow.Label(extract.Flatten(runs(n)))
	return label != ""
}

// tableWords are words in class names of wrappers of tables.
// Source: common practice of publishers' pages.
var tableWords = map[string]bool{
	"tw": true, "table": true, "tables": true, "tbl": true, "tablewrap": true, "tabular": true, "tab": true, "figure": true, "float": true,
}

// wrapped gives the tables inside a wrapper: what stands before the first is
// its caption, what stands after it its notes.
func (r *reader) wrapped(n *html.Node) {
	w := &wrapper{}
	w.walk(n)
	label, caption := w.named()
	for _, t := range w.tables {
		r.table(t, &extract.Table{Label: label, Caption: caption, Notes: w.notes})
	}
}

// wrapper collects what stands round the tables of a wrapper.
type wrapper struct {
	tables []*html.Node
	before []string
	notes  []string
}

func (w *wrapper) walk(n *html.Node) {
	var loose []extract.Run
	flush := func() {
		w.add(flow.Trim(loose))
		loose = nil
	}
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		switch {
		case k.Type == html.TextNode:
			loose = inline(loose, k, style{})
		case k.Type != html.ElementNode || skipped(k):
		case k.DataAtom == atom.Table && !layout(k):
			flush()
			w.tables = append(w.tables, k)
		case holdsBlock(k) || k.DataAtom == atom.Table:
			flush()
			w.walk(k)
		case isBlock[k.DataAtom]:
			flush()
			w.add(runs(k))
		default:
			loose = inline(loose, k, style{})
		}
	}
	flush()
}

func (w *wrapper) add(text []extract.Run) {
	for _, line := range flow.Lines(text) {
		switch low := strings.ToLower(line); {
		case chrome[strings.TrimRight(low, ". →>")] || strings.HasPrefix(low, "download table"):
		case len(w.tables) == 0:
			w.before = append(w.before, line)
		default:
			w.notes = append(w.notes, line)
		}
	}
}

// chrome are the words of links that pages set round a table.
var chrome = map[string]bool{
	"open in a new tab": true, "open in new tab": true, "view larger": true, "view large": true, "full size table": true,
	"full-size table": true, "expand table": true, "enlarge": true, "download": true, "download csv": true,
	"view table": true, "close": true, "display table": true, "export": true, "view inline": true, "view popup": true,
	"download as csv": true, "open in viewer": true, "show": true, "hide": true, "powerpoint": true,
}

// named takes label and caption from what stands before the table, or, where
// nothing does, from a caption printed below it.
func (w *wrapper) named() (label, caption string) {
	label, caption = flow.Label(strings.Join(w.before, " "))
	if label != "" || len(w.before) > 0 || len(w.notes) == 0 {
		return label, caption
	}
	if label, caption = flow.Label(w.notes[0]); label != "" {
		w.notes = w.notes[1:]
		return label, caption
	}
	return "", ""
}

// table gives one table. Its own caption element comes first, then what its
// wrapper says, then a caption held back from the text before it.
func (r *reader) table(n *html.Node, t *extract.Table) {
	if t == nil {
		t = &extract.Table{}
	}
	if cap := find(n, func(k *html.Node) bool { return k.DataAtom == atom.Caption }); cap != nil {
		label, rest := flow.Label(extract.Flatten(runs(cap)))
		switch {
		case label != "":
			t.Label, t.Caption = label, rest
		case t.Caption == "" || t.Label == "":
			t.Caption = strings.TrimSpace(t.Caption + " " + rest)
		}
	}
	if r.Full() {
		return
	}
	rows, notes := rowsOf(n)
	grid.Fill(t, rows)
	t.Notes = append(append([]string(nil), t.Notes...), notes...)
	r.TableAt(t)
}

// rowsOf reads the rows of a table. A foot one cell wide, and a last row that
// spans the whole table with more than a few words, are notes.
func rowsOf(n *html.Node) (rows []grid.Row, notes []string) {
	group := 0
	var walk func(n *html.Node, in atom.Atom)
	walk = func(n *html.Node, in atom.Atom) {
		for k := n.FirstChild; k != nil; k = k.NextSibling {
			switch k.DataAtom {
			case atom.Thead, atom.Tbody, atom.Tfoot:
				group++
				walk(k, k.DataAtom)
				group++
			case atom.Tr:
				if skipped(k) {
					continue
				}
				row := grid.Row{Cells: cells(k), Head: in == atom.Thead, Group: group}
				if in == atom.Tfoot && len(row.Cells) == 1 {
					notes = append(notes, flow.Lines(row.Cells[0].Runs)...)
				} else {
					rows = append(rows, row)
				}
			}
		}
	}
	walk(n, 0)
	rows, more := lastNotes(rows)
	return rows, append(more, notes...)
}

// lastNotes takes full-width rows with the look of a legend off the end.
func lastNotes(rows []grid.Row) ([]grid.Row, []string) {
	var notes []string
	for len(rows) > 1 {
		last := rows[len(rows)-1]
		if len(last.Cells) != 1 || last.Cells[0].Cols < 2 {
			break
		}
		text := last.Cells[0].Text()
		if !flow.LegendLike(text) && len(text) < 120 {
			break
		}
		notes = append(flow.Lines(last.Cells[0].Runs), notes...)
		rows = rows[:len(rows)-1]
	}
	return rows, notes
}

func cells(tr *html.Node) []extract.Cell {
	var out []extract.Cell
	for k := tr.FirstChild; k != nil; k = k.NextSibling {
		if k.Type != html.ElementNode || k.DataAtom != atom.Td && k.DataAtom != atom.Th {
			continue
		}
		c := extract.Cell{
			Runs:   runs(k),
			Rows:   grid.Span(attr(k, "rowspan")),
			Cols:   grid.Span(attr(k, "colspan")),
			Header: k.DataAtom == atom.Th,
		}
		if strings.TrimSpace(attr(k, "rowspan")) == "0" {
			c.Rows = grid.Most // HTML: to the end of the row group
		}
		out = append(out, c)
	}
	return out
}
