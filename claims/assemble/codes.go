package assemble

import (
	"unicode"
	"unicode/utf8"

	"probity/extract/numeral"
)

// Where the labels of a table stand, for codes: levels of headings count from
// nought, columns of labels down from -1; sections are one place.
func headingPlace(level int) int { return level }
func stubPlace(col int) int      { return -1 - col }

const sectionPlace = 1 << 20

// labelAt reads a label where it stands: a code of a group is a name there, also
// where it is a mark of statistics elsewhere.
func (t *table) labelAt(text string, place int) *label {
	if t.code[codeAt{text, place}] {
		return t.ls.name(text)
	}
	return t.ls.read(text)
}

type codeAt struct {
	text  string
	place int
}

// codes finds the labels that are marks of statistics by their letters, H or CI,
// and stand for groups: the text says so, or they head the same figures as
// the names beside them, or means and SDs of their own.
func (t *table) codes() {
	g := t.g
	t.code = map[codeAt]bool{}
	for level := range g.head {
		cells := newSiblings()
		for c := range g.headings {
			if !g.stub[c] && g.headings[c][level] != "" {
				s := cells.of(g.headings[c][level])
				s.add(t.formsIn(-1, c))
				s.below(t, level, c)
			}
		}
		t.settleCodes(cells, headingPlace(level))
	}
	sections, marked := newSiblings(), t.markedColumns()
	for c := range g.stub {
		if !g.stub[c] {
			continue
		}
		cells := newSiblings()
		for r := g.head; r < len(g.rows); r++ {
			switch s := g.text[r][c]; {
			case s == "" || g.rows[r].repeated:
			case g.rows[r].section && mayBeCode(s):
				sections.of(s).overMarks = t.marksBelow(r)
			case g.rows[r].section:
				sections.of(s)
			default:
				x := cells.of(s)
				x.add(t.formsIn(r, -1))
				x.crossed = x.crossed || marked
			}
		}
		t.settleCodes(cells, stubPlace(c))
	}
	t.settleCodes(sections, sectionPlace)
}

// siblings are the different labels of one level or column.
type siblings struct {
	order []*sibling
	by    map[string]*sibling
}

type sibling struct {
	text      string
	forms     forms
	marks     map[string]bool
	overMarks bool // marks of centre and spread stand below it
	crossed   bool // marks of centre and spread stand on the other side
}

func newSiblings() *siblings { return &siblings{by: map[string]*sibling{}} }

func (s *siblings) of(text string) *sibling {
	if s.by[text] == nil {
		s.by[text] = &sibling{text: text, marks: map[string]bool{}}
		s.order = append(s.order, s.by[text])
	}
	return s.by[text]
}

func (s *sibling) add(f forms) {
	s.forms.all += f.all
	s.forms.plusMinus += f.plusMinus
	s.forms.centred += f.centred
	s.forms.bracketed += f.bracketed
}

// below notes the mark of column c under a heading of a level.
func (s *sibling) below(t *table, level, c int) {
	for k := level + 1; k < t.g.head; k++ {
		if l := t.ls.read(t.g.headings[c][k]); l.whole && l.clean == "" {
			for _, m := range l.marks {
				s.marks[m] = true
			}
		}
	}
	s.overMarks = (s.marks["mean"] || s.marks["median"]) && len(s.marks) > 1
}

// markedColumns reports whether the columns are called mean and SD.
func (t *table) markedColumns() bool {
	centre, spread := false, false
	for c := range t.g.headings {
		for _, s := range t.g.headings[c] {
			if l := t.ls.read(s); s != "" && !t.g.stub[c] && len(s) > 1 {
				centre, spread = centre || l.whole && l.centre(), spread || l.whole && l.spread() != ""
			}
		}
	}
	return centre && spread
}

// marksBelow reports whether the rows of a section are called mean and SD.
func (t *table) marksBelow(r int) bool {
	centre, spread := false, false
	for k := r + 1; k < len(t.g.rows) && !t.g.rows[k].section; k++ {
		for c := range t.g.stub {
			if s := t.g.text[k][c]; t.g.stub[c] && s != "" {
				l := t.ls.read(s)
				centre, spread = centre || l.whole && l.centre(), spread || l.whole && l.spread() != ""
			}
		}
	}
	return centre && spread
}

// whole reports whether most figures are centres with their spread.
func (f forms) whole() bool { return f.all > 0 && (f.plusMinus+f.centred+f.bracketed)*2 > f.all }

func (t *table) settleCodes(s *siblings, place int) {
	names, told := 0, 0
	whole := false
	for _, x := range s.order {
		l := t.ls.read(x.text)
		switch {
		case l.clean != "":
			names++
			whole = whole || x.forms.whole()
		case t.toldCode(x.text):
			told++
		}
	}
	for _, x := range s.order {
		l := t.ls.read(x.text)
		if !l.whole || l.clean != "" || !mayBeCode(x.text) {
			continue
		}
		switch centre := l.centre(); {
		case t.toldCode(x.text) && names+told > 1, x.overMarks, x.crossed,
			x.forms.whole() && (names > 0 && whole || names == 0 && len(s.order) > 1 && !centre):
			t.code[codeAt{x.text, place}] = true
		}
	}
}

// mayBeCode reports a few letters and figures with a capital first.
func mayBeCode(s string) bool {
	first, _ := utf8.DecodeRuneInString(s)
	return utf8.RuneCountInString(s) <= 4 && unicode.IsUpper(first)
}

// toldCode reports whether the text gives a short form a meaning that is no
// statistic: "heated files (H)", "group P".
func (t *table) toldCode(s string) bool {
	if !mayBeCode(s) {
		return false
	}
	if long := t.short[s]; long != "" {
		return len(t.ls.cat.Marks(long)) == 0
	}
	return t.arms.exact(s) != nil
}

// name reads a text that is a name whatever its letters are elsewhere.
func (ls *labels) name(text string) *label {
	key := "\x00" + text
	if l, ok := ls.seen[key]; ok {
		return l
	}
	l := &label{text: text, clean: tidy(text)}
	ls.seen[key] = l
	return l
}

// amount reports a cell with one figure and its unit, "24 h", "5 %": beside
// figures without one it is a label.
func amount(rd *numeral.Reading) bool {
	return rd.Form == numeral.Figure && rd.Sign == "" && rd.Label == "" && rd.Rest == "" && (rd.Unit != "" || rd.Percent)
}
