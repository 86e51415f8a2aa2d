package assemble

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"probity/extract"
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
		names, heads := false, false
		if g.rows[r].repeated {
			names, heads = g.beginsBlock(r, p.ls)
		}
		if !heads {
			rows = append(rows, t.Rows[r])
			continue
		}
		first := len(rows) == 0
		add()
		over, section := g.withoutStub(r)
		switch at := g.levelLike(r); {
		case first || !names:
			head = append(append([][]extract.Cell(nil), t.Rows[:g.head]...), over)
		case at >= 0:
			head = append([][]extract.Cell(nil), t.Rows[:g.head]...)
			head[at] = over
		default:
			head = [][]extract.Cell{over}
		}
		if section != nil {
			rows = append(rows, section)
		}
	}
	if len(out) == 0 {
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

// beginsBlock reports whether a row of words in the body heads the rows below
// it, and whether it names something: groups, times, outcomes.
func (g *grid) beginsBlock(r int, ls *labels) (names, heads bool) {
	words := 0
	for c := 0; c < g.cols; c++ {
		s := g.text[r][c]
		if s == "" || g.stub[c] || g.cell(r, c).Copy {
			continue
		}
		if utf8.RuneCountInString(s) > longestHeading || decimal.MatchString(s) || strings.Contains(s, "=") && !ls.read(s).n.Known() {
			return false, false
		}
		words++
		names = names || ls.read(s).clean != ""
	}
	under := 0
	for c := 0; c < g.cols && r+1 < len(g.rows); c++ {
		if !g.stub[c] && g.figure(r+1, c) {
			under++
		}
	}
	return names, words > 1 && under > 0
}
