package text

import (
	"strings"
	"unicode/utf8"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/internal/grid"
)

// table reads a table at the head of b, in whichever way it is set, and
// returns how many lines it took; nil where there is none.
func (r *reader) table(b []string) (*extract.Table, int) {
	if !strings.ContainsAny(b[0], "|\t+") && !strings.Contains(strings.TrimLeft(b[0], " "), "  ") && !rule(b[0]) && !leadsIn(b) {
		return nil, 0
	}
	if t, n := r.pipes(b); t != nil {
		return t, n
	}
	if t, n := r.boxes(b); t != nil {
		return t, n
	}
	if t, n := r.tabs(b); t != nil {
		return t, n
	}
	return r.columned(b)
}

// columned reads aligned columns, but does not try for ever on lines that were
// found to be none.
func (r *reader) columned(b []string) (*extract.Table, int) {
	if len(b) <= r.tried {
		r.fails, r.tried = 0, 0
	}
	if r.fails > mostFails {
		return nil, 0
	}
	t, n := r.aligned(b)
	if t == nil && n > 2 {
		r.fails++
		if r.tried == 0 || len(b)-n < r.tried {
			r.tried = max(len(b)-n, 1)
		}
		return nil, 0
	}
	return t, n
}

// mostFails is how often a stretch of lines is tried as a table.
const mostFails = 20

// leadsIn reports an indented line above columns: a header entry that stands
// over several of them alone.
func leadsIn(b []string) bool {
	return strings.HasPrefix(b[0], "    ") && len(b) > 2 && len(columns(b[1])) > 1
}

func filled(rows []grid.Row) *extract.Table {
	t := &extract.Table{}
	grid.Fill(t, rows)
	if t.Head > 1 && spread(rows, t) {
		grid.Fill(t, rows)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}

// spread widens the entries of upper header rows over the empty places to
// their right that have entries of their own below them: text cannot say that
// cells are merged, so they are set so.
func spread(rows []grid.Row, t *extract.Table) bool {
	done := false
	if len(rows) != len(t.Rows) {
		return false
	}
	for i := 0; i+1 < t.Head; i++ {
		cells := rows[i].Cells
		if len(cells) != len(t.Rows[i]) {
			continue // some are merged already
		}
		var out []extract.Cell
		for j := 0; j < len(cells); j++ {
			c := cells[j]
			if j > 0 && !c.Empty() && !t.Rows[i+1][j].Empty() {
				c.Cols = 1
				for j+1 < len(cells) && cells[j+1].Empty() && !t.Rows[i+1][j+1].Empty() {
					j++
					c.Cols++
					done = true
				}
			}
			out = append(out, c)
		}
		rows[i].Cells = out
	}
	return done
}

// pipes reads a pipe table: cells between bars, with or without a row of
// dashes below the header.
func (r *reader) pipes(b []string) (*extract.Table, int) {
	n, width, ruled := 0, 0, -1
	var rows []grid.Row
	for n < len(b) && strings.Contains(b[n], "|") && strings.Count(b[n], "|") <= mostBars {
		if delimiterRow.MatchString(b[n]) {
			if ruled < 0 {
				ruled = len(rows)
			}
			n++
			continue
		}
		cells := bars(b[n])
		if n == 0 {
			if width = len(cells); width < 2 {
				return nil, 0
			}
		}
		if ruled < 0 && len(cells) != width && n > 0 {
			break
		}
		row := grid.Row{}
		for _, c := range cells {
			row.Cells = append(row.Cells, extract.Cell{Runs: flow.Trim(r.cell(c))})
		}
		rows = append(rows, row)
		n++
	}
	if width < 2 || len(rows) < 2 && ruled < 0 {
		return nil, 0
	}
	for i := range rows {
		rows[i].Head = i < ruled
	}
	return filled(rows), n
}

// mostBars is the most cells that a line of a table may hold.
const mostBars = 1000

// cell reads the marks inside a cell even in plain text that uses bars.
func (r *reader) cell(s string) []extract.Run {
	was := r.markdown
	r.markdown = was || strings.Contains(s, "<br") || strings.Contains(s, "<su")
	defer func() { r.markdown = was }()
	return r.inline(s)
}

// bars parts a line at bars that are not escaped.
func bars(line string) []string {
	line = strings.TrimSpace(line)
	line = strings.TrimPrefix(line, "|")
	if strings.HasSuffix(line, "|") && !strings.HasSuffix(line, `\|`) {
		line = line[:len(line)-1]
	}
	var out []string
	start := 0
	for i := 0; i < len(line); i++ {
		if line[i] == '\\' {
			i++
		} else if line[i] == '|' {
			out = append(out, strings.TrimSpace(line[start:i]))
			start = i + 1
		}
	}
	return append(out, strings.TrimSpace(line[start:]))
}

// boxes reads a table drawn with "+---+" lines, whose cells may hold several
// lines.
func (r *reader) boxes(b []string) (*extract.Table, int) {
	if len(b) < 3 || !boxRule(b[0]) || boxRule(b[1]) {
		return nil, 0
	}
	var rows []grid.Row
	var cells [][]string
	n, head := 0, false
	for ; n < len(b) && (boxRule(b[n]) || strings.Contains(b[n], "|")); n++ {
		if !boxRule(b[n]) {
			for i, c := range bars(b[n]) {
				for len(cells) <= i {
					cells = append(cells, nil)
				}
				if c != "" {
					cells[i] = append(cells[i], c)
				}
			}
			continue
		}
		if cells != nil {
			row := grid.Row{}
			for _, c := range cells {
				row.Cells = append(row.Cells, extract.Cell{Runs: flow.Trim(r.cell(strings.Join(c, " ")))})
			}
			rows = append(rows, row)
			cells = nil
		}
		if strings.Contains(b[n], "=") && !head {
			head = true
			for i := range rows {
				rows[i].Head = true
			}
		}
	}
	if len(rows) < 2 {
		return nil, 0
	}
	return filled(rows), n
}

func boxRule(s string) bool {
	s = strings.TrimSpace(s)
	return len(s) > 4 && s[0] == '+' && strings.Trim(s, "+-=:") == ""
}

// tabs reads lines whose cells are parted by tabs, as pasted from a
// spreadsheet.
func (r *reader) tabs(b []string) (*extract.Table, int) {
	n := 0
	var rows []grid.Row
	for n < len(b) && strings.Contains(strings.TrimSpace(b[n]), "\t") {
		row := grid.Row{}
		for _, c := range strings.Split(b[n], "\t") {
			row.Cells = append(row.Cells, extract.Cell{Runs: flow.Trim(r.cell(c))})
		}
		rows = append(rows, row)
		n++
	}
	if n < 2 {
		return nil, 0
	}
	return filled(rows), n
}

// span is a stretch of a line between wide gaps, in characters.
type span struct {
	from, to int
	text     string
}

// columns parts a line at gaps of two spaces and more.
func columns(line string) []span {
	var out []span
	pos, start, end := 0, -1, 0
	var text strings.Builder
	for _, c := range strings.ReplaceAll(line, "\t", "    ") {
		if c == ' ' || c == '\u00a0' {
			pos++
			continue
		}
		switch {
		case start < 0:
			start = pos
		case pos-end >= 2:
			out = append(out, span{start, end, text.String()})
			text.Reset()
			start = pos
		case pos > end:
			text.WriteByte(' ')
		}
		text.WriteRune(c)
		pos++
		end = pos
	}
	if start >= 0 {
		out = append(out, span{start, end, text.String()})
	}
	return out
}

// rule reports a line drawn across the table or under its columns.
func rule(line string) bool {
	s := strings.ReplaceAll(strings.TrimSpace(line), " ", "")
	return len(s) >= 3 && (strings.Trim(s, "-") == "" || strings.Trim(s, "=") == "" || strings.Trim(s, "_") == "" || strings.Trim(s, "─━—") == "")
}

// aligned reads a table whose columns are set with spaces: at least two lines
// of two cells and more, with figures under each other.
func (r *reader) aligned(b []string) (*extract.Table, int) {
	n, rows, figures, rules := 0, 0, 0, 0
	var parts [][]span
	var ruled []int  // rows above each rule
	var drawn []span // columns, where a rule is drawn under each
	for ; n < len(b); n++ {
		if rule(b[n]) {
			rules++
			ruled = append(ruled, len(parts))
			if u := underlines(b[n]); len(u) > 1 && drawn == nil {
				drawn = u
			}
			continue
		}
		c := columns(b[n])
		if len(c) < 2 && !inside(b, n, rules) {
			break
		}
		if len(c) >= 2 {
			rows++
			if figured(c[1:]) {
				figures++
			}
		}
		parts = append(parts, c)
	}
	sure := drawn != nil // a rule under each column says it all
	if rows < 2 || len(parts) < 2 || !sure && (3*figures < rows && rules < 2 || figures == 0) {
		return nil, n
	}
	cols := drawn
	if cols == nil {
		cols = gutters(parts)
	}
	if len(cols) < 2 {
		return nil, n
	}
	var out []grid.Row
	for i, p := range parts {
		row := grid.Row{}
		if groups := spanned(p, cols); groups != nil && i < firstFigured(parts) {
			row.Cells = r.assign(groups, cols)
		} else {
			row.Cells = r.assign(p, cols)
		}
		row.Head = len(ruled) > 0 && headed(ruled, i, len(parts))
		out = append(out, row)
	}
	return filled(out), n
}

// inside reports that a line of one cell stands within the table: more lines
// of several cells follow, or it is indented like a row-group heading.
func inside(b []string, n, rules int) bool {
	if n == 0 || n+1 >= len(b) {
		return false
	}
	for _, line := range b[n+1 : min(len(b), n+3)] {
		if len(columns(line)) >= 2 || rule(line) && rules < 2 {
			return utf8.RuneCountInString(b[n]) < 60
		}
	}
	return false
}

// underlines are the columns of a rule drawn in pieces.
func underlines(line string) []span {
	var out []span
	pos := 0
	for _, c := range line {
		if c != ' ' {
			if n := len(out); n > 0 && out[n-1].to == pos {
				out[n-1].to++
			} else {
				out = append(out, span{from: pos, to: pos + 1})
			}
		}
		pos++
	}
	return out
}

func figured(cells []span) bool {
	n := 0
	for _, c := range cells {
		if grid.Figure(c.text) {
			n++
		}
	}
	return 2*n >= len(cells)
}

// headed reports that row i stands above the rule below the header: the first
// rule with rows above it and rows below it.
func headed(ruled []int, i, all int) bool {
	for _, at := range ruled {
		if at > 0 && at < all {
			return i < at
		}
	}
	return false
}

// gutters finds the columns: stretches that the cells of the fullest lines
// cover, merged where they overlap.
func gutters(parts [][]span) []span {
	most := 0
	for _, p := range parts {
		most = max(most, len(p))
	}
	var cols []span
	for _, p := range parts {
		if len(p) < most || most < 2 {
			continue
		}
		for i, c := range p {
			if len(cols) <= i {
				cols = append(cols, c)
				continue
			}
			cols[i].from, cols[i].to = min(cols[i].from, c.from), max(cols[i].to, c.to)
		}
	}
	for i := 1; i < len(cols); i++ {
		if cols[i].from < cols[i-1].to {
			return nil // the columns run into each other: no table
		}
	}
	return cols
}

// firstFigured is the first line with figures beside its stub.
func firstFigured(parts [][]span) int {
	for i, p := range parts {
		if len(p) > 1 && figured(p[1:]) {
			return i
		}
	}
	return len(parts)
}

// spanned widens the entries of a header line that stand over the middle of
// equal groups of columns to the width of their groups; nil where they do not.
func spanned(p, cols []span) []span {
	var out []span
	if len(p) > 0 && p[0].from < cols[0].to {
		out, p = append(out, p[0]), p[1:]
	}
	body := cols[1:]
	if len(p) == 0 || len(p) >= len(body) || len(body)%len(p) != 0 {
		return nil
	}
	each := len(body) / len(p)
	for i, c := range p {
		from, to := body[i*each].from, body[(i+1)*each-1].to
		off := (c.from + c.to) - (from + to) // twice the distance of the middles
		if max(off, -off) > max(6, (to-from)/2) {
			return nil
		}
		out = append(out, span{min(c.from, from), max(c.to, to), c.text})
	}
	return out
}

// assign puts the stretches of a line into the columns they stand in or over.
func (r *reader) assign(p, cols []span) []extract.Cell {
	out := make([]extract.Cell, 0, len(cols))
	next := 0
	for _, c := range p {
		if next >= len(cols) { // more than fits: nothing is lost
			out[len(out)-1].Runs = append(out[len(out)-1].Runs, extract.Run{Text: " " + c.text})
			continue
		}
		first, last := overlap(c, cols, next)
		for next < first {
			out = append(out, extract.Cell{})
			next++
		}
		out = append(out, extract.Cell{Runs: r.inline(c.text), Cols: last - first + 1})
		next = last + 1
	}
	return out
}

// overlap gives the first and last column that a stretch stands in; where it
// stands in none, the nearest that is free.
func overlap(c span, cols []span, next int) (first, last int) {
	first = -1
	for i := next; i < len(cols); i++ {
		if c.from < cols[i].to && c.to > cols[i].from {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first >= 0 {
		return first, last
	}
	best, gap := next, 1<<30
	for i := next; i < len(cols); i++ {
		d := max(cols[i].from-c.to, c.from-cols[i].to)
		if d < gap {
			best, gap = i, d
		}
	}
	return best, best
}
