package assemble

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"probity/extract"
	"probity/extract/numeral"
)

// blocksOf cuts a table where a row of headings in its body begins a new
// block. Headings that only say "n = 12" or "mean (SD)", and those that follow
// the headings of the table at once, stand under them; others take the place
// of the level that they are printed like.
func (p *paper) blocksOf(t *extract.Table) []*grid {
	g := p.gridOf(t)
	var out []*grid
	var head [][]extract.Cell
	for r := range g.head {
		head = append(head, t.Rows[r])
	}
	rows := [][]extract.Cell{}
	add := func() {
		if len(rows) > 0 {
			block := *t
			block.Head = len(head)
			block.Rows = append(append([][]extract.Cell(nil), head...), rows...)
			out = append(out, p.gridOf(&block))
		}
		rows = nil
	}
	for r := g.head; r < len(g.rows); r++ {
		end, names := g.headingsAt(r, p.ls)
		first := len(rows) == 0
		if end == r || first && names && g.labelled(r) {
			rows = append(rows, t.Rows[r])
			continue
		}
		add()
		head = nil
		if at := g.levelLike(r); first || !names {
			head = append(head, t.Rows[:g.head]...)
		} else if at >= 0 {
			head = append(append(head, t.Rows[:at]...), t.Rows[at+1:g.head]...)
		}
		for ; r < end; r++ {
			switch {
			case g.rows[r].skip:
				continue
			case g.countsClusters(r, p.ls):
				rows = append(rows, t.Rows[r])
				continue
			case first && names:
				head = append(head, t.Rows[r])
				continue
			}
			over, section := g.withoutStub(r)
			head = append(head, over)
			if section != nil {
				rows = append(rows, section)
			}
		}
		r--
	}
	if len(head) == g.head && len(out) == 0 {
		return []*grid{g}
	}
	add()
	return out
}

func (p *paper) gridOf(t *extract.Table) *grid {
	g := newGrid(t, p.styleOf(t))
	g.shape(p.ls)
	return g
}

// withoutStub parts a row of headings into what stands over the figures and
// what stands over the row labels: a section heading, nil if nothing.
func (g *grid) withoutStub(r int) (over, section []extract.Cell) {
	over = slices.Clone(g.t.Rows[r])
	for c := range over {
		if !g.stub[c] || g.text[r][c] == "" || over[c].Copy {
			continue
		}
		if section == nil {
			section = make([]extract.Cell, len(over))
			for k := range section {
				section[k] = extract.Cell{Place: over[k].Place}
			}
			section[0].Runs = over[c].Runs
		}
		over[c] = extract.Cell{Place: over[c].Place}
	}
	return over, section
}

// labelled reports whether a row right below the headings has a label of its
// own beside it, under a heading for such labels: what each column is, in words.
func (g *grid) labelled(r int) bool {
	for c := range g.cols {
		if g.stub[c] && g.text[r][c] != "" && !g.cell(r, c).Copy && g.lastHeading(c) != "" {
			return true
		}
	}
	return false
}

// countsClusters reports whether a row gives how many there are of what people
// are counted by: "clinics", n = 99.
func (g *grid) countsClusters(r int, ls *labels) bool {
	found := false
	for c := range g.cols {
		switch s := g.text[r][c]; {
		case s == "":
		case g.stub[c]:
			found = found || slices.ContainsFunc(strings.Fields(strings.ToLower(s)), func(w string) bool { return clusters[single(w)] })
		case g.read[r][c].Form != numeral.N || ls.read(s).clean != "":
			return false
		}
	}
	return found
}

// levelLike gives the level of the table's headings that is printed over the
// same columns as the headings of row r, -1 if none is.
func (g *grid) levelLike(r int) int {
	for level := g.head - 1; level >= 0; level-- {
		same := true
		for c := 0; c < g.cols && same; c++ {
			same = g.stub[c] || g.cell(level, c).Copy == g.cell(r, c).Copy
		}
		if same {
			return level
		}
	}
	return -1
}

// longestHeading bounds what a heading in the body may be, in letters.
const longestHeading = 60

// decimal finds a figure, which no heading holds.
var decimal = regexp.MustCompile(`\d[.,·]\d`)

// headingsAt gives the end of the rows of words that begin at row r and head
// the figures below them, r where they do not, and whether they name
// something: groups, times, outcomes.
func (g *grid) headingsAt(r int, ls *labels) (end int, names bool) {
	for end = r; end < len(g.rows) && (g.rows[end].repeated || end > r && g.rows[end].skip); end++ {
		if g.rows[end].skip || g.countsClusters(end, ls) {
			continue
		}
		words := 0
		for c := 0; c < g.cols; c++ {
			s := g.text[end][c]
			if s == "" || g.stub[c] || g.cell(end, c).Copy {
				continue
			}
			l := ls.read(s)
			if utf8.RuneCountInString(s) > longestHeading || decimal.MatchString(s) || strings.Contains(s, "=") && !l.n.Known() {
				return r, false
			}
			words++
			names = names || l.clean != ""
		}
		if words < 2 {
			return r, false
		}
	}
	for c := 0; c < g.cols && end < len(g.rows); c++ {
		if !g.stub[c] && g.figure(end, c) {
			return end, names
		}
	}
	return r, false
}
