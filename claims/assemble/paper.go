package assemble

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/claims"
	"probity/claims/catalog"
	numberrole "probity/claims/role"
	"probity/claims/tabular"
	"probity/extract"
	"probity/extract/numeral"
)

// paper is one document on its way to a Study.
type paper struct {
	doc       *extract.Document
	study     *claims.Study
	ls        *labels
	arms      *registry
	sentences []sentence // of title, abstract, methods, results and captions
	short     map[string]string
	design    design
	crossed   *bool     // each person took every treatment in turn; once asked for
	mentions  []mention // names with an n of their own in brackets
	alphas    int       // levels of significance that the text states, all different
	comma     bool      // the tables of this paper print a decimal comma
	unitOfOut map[string]namedUnit
	lent      map[*claims.Measure]bool // measures whose unit a condition or a heading of another thing prints
	facts     map[factKey]bool
	saidOf    *said
	evidence  tabular.Weights
	learned   map[string][]learned // what the names of tables are
}

// sentence is one sentence of the prose with where it stands.
type sentence struct {
	text   string
	low    string // text by extract.Lower: an index into one is one into the other
	place  extract.Place
	figure bool                 // of the caption of a figure: its letters name panels
	roles  *[]numberrole.Number // of its numbers, once asked for
	counts *[]size              // those that may count people or specimens, once asked for
}

// numbers tells what the numbers of a sentence are, read once.
func (p *paper) numbers(s *sentence) []numberrole.Number {
	if s.roles == nil {
		read := numberrole.Numbers(s.text, p.ls.cat)
		s.roles = &read
	}
	return *s.roles
}

// mention is an n in brackets with the words before it.
type mention struct {
	before string
	n      extract.Number
}

type namedUnit struct{ id, printed string }

func newPaper(doc *extract.Document, cat *catalog.Catalog) *paper {
	p := &paper{doc: doc, ls: &labels{cat: cat, seen: map[string]*label{}}, short: map[string]string{}, unitOfOut: map[string]namedUnit{}, lent: map[*claims.Measure]bool{}, facts: map[factKey]bool{}, learned: map[string][]learned{}}
	p.study = &claims.Study{Document: doc.ID, File: doc.File, Format: doc.Format, Pages: doc.Pages, Meta: doc.Meta}
	p.study.Problems = append(p.study.Problems, doc.Problems...)
	p.arms = newRegistry(p)
	p.readProse()
	p.comma = p.findComma()
	return p
}

// readProse cuts the parts of the paper that describe its own work into
// sentences and collects the abbreviations it defines.
func (p *paper) readProse() {
	add := func(text string, place extract.Place, figure bool) {
		p.shortForms(text)
		if i := strings.Index(text, "groups:"); i >= 0 {
			p.noteForms(text[i+len("groups:"):]) // "three groups: H, heated files; P, polished files"
		}
		for _, s := range pieces(text, cutSentences(text)) {
			at := place
			at.Start, at.End = s[0], s[1]
			t := text[s[0]:s[1]]
			p.sentences = append(p.sentences, sentence{text: t, low: extract.Lower(t), place: at, figure: figure})
		}
	}
	if p.doc.Meta.Title != "" {
		add(p.doc.Meta.Title, extract.Place{File: p.doc.File, Section: "title"}, false)
	}
	for _, b := range p.doc.Blocks {
		switch b := b.(type) {
		case *extract.Prose:
			switch b.Place.Section {
			case extract.Introduction, extract.Discussion, extract.Conclusion, extract.Back:
				continue
			}
			if b.Role != extract.Reference {
				add(b.Text(), b.Place, b.Role == extract.Caption)
			}
		case *extract.Table:
			for _, n := range b.Notes {
				p.noteForms(n)
				p.shortForms(n)
			}
			p.shortForms(b.Caption)
		}
	}
}

// cutSentences gives the byte ranges of the sentences of a paragraph. It may
// cut too seldom; it does not cut in numbers, after initials or "et al.".
func cutSentences(text string) [][2]int {
	var out [][2]int
	start := 0
	for i := 0; i < len(text); i++ {
		if text[i] != '.' && text[i] != '?' && text[i] != '!' {
			continue
		}
		j := i + 1
		for j < len(text) && (text[j] == ')' || text[j] == ']' || text[j] == '"') {
			j++
		}
		if j < len(text) && text[j] != ' ' {
			continue
		}
		if j < len(text) {
			next, _ := utf8.DecodeRuneInString(text[j+1:])
			if unicode.IsLower(next) || notEnd(text[start:i]) {
				continue
			}
		}
		out = append(out, [2]int{start, j})
		start = min(j+1, len(text))
	}
	if start < len(text) {
		out = append(out, [2]int{start, len(text)})
	}
	return out
}

// longest bounds a sentence, in bytes. What is longer is a list, or a text
// without points: it is read in pieces, so that time stays in proportion to
// length. The longest sentences of papers are about half as long.
const longest = 4000

// pieces cuts the ranges that are longer than a sentence is, at spaces where
// there are any.
func pieces(text string, ranges [][2]int) [][2]int {
	var out [][2]int
	for _, s := range ranges {
		for s[1]-s[0] > longest {
			end := s[0] + longest
			if k := strings.LastIndexByte(text[s[0]:end], ' '); k > 0 {
				end = s[0] + k + 1
			}
			for !utf8.RuneStart(text[end]) {
				end--
			}
			out = append(out, [2]int{s[0], end})
			s[0] = end
		}
		out = append(out, s)
	}
	return out
}

// notEnd reports whether a point after these words ends no sentence.
func notEnd(s string) bool {
	i := strings.LastIndexAny(s, " (")
	w := s[i+1:]
	switch w {
	case "al", "Fig", "Figs", "fig", "vs", "e.g", "i.e", "Dr", "No", "no", "Inc", "Co", "Ltd", "Corp", "St", "approx", "ca", "Gr", "gr", "Eq", "Tab", "cf":
		return true
	}
	if len(w) != 1 || !unicode.IsUpper(rune(w[0])) || i < 1 || strings.HasSuffix(s[:i], "roup") {
		return false
	}
	return s[i-1] < '0' || s[i-1] > '9' // "1.2 N." ends one, "J. Lee" does not
}

// findComma finds out whether the tables print a decimal comma; where none of
// them shows its sign, the text does.
func (p *paper) findComma() bool {
	var texts []string
	for _, t := range p.doc.Tables() {
		texts = append(texts, tableTexts(t)...)
	}
	if comma, point := numeral.Signs(texts...); comma+point > 0 {
		return numeral.StyleOf(texts...).DecimalComma
	}
	for i := range p.sentences {
		texts = append(texts, p.sentences[i].text)
	}
	return numeral.StyleOf(texts...).DecimalComma
}

func tableTexts(t *extract.Table) []string {
	var texts []string
	for r := range t.Rows {
		for c := range t.Rows[r] {
			if cell := &t.Rows[r][c]; !cell.Copy {
				texts = append(texts, cell.Text())
			}
		}
	}
	return texts
}

// styleOf is the style of one table: its own where it shows one, the paper's
// otherwise. Tables of one paper are not always typed by one hand.
func (p *paper) styleOf(t *extract.Table) numeral.Style {
	texts := tableTexts(t)
	if comma, point := numeral.Signs(texts...); p.comma && point <= comma {
		return numeral.Style{DecimalComma: true}
	}
	return numeral.StyleOf(texts...)
}

// shortForms collects abbreviations that are defined in brackets, "time to
// fracture (TTF)", by the rule of Schwartz and Hearst: from the right, each
// letter of the short form stands in the words before it, the first at the
// start of a word.
//
// Source: Schwartz and Hearst (2003), Pac Symp Biocomput 8:451-462.
func (p *paper) shortForms(text string) {
	for i := 0; i < len(text); i++ {
		if text[i] != '(' {
			continue
		}
		j := strings.IndexByte(text[i:], ')')
		if j < 0 {
			return
		}
		inner := text[i+1 : i+j]
		if k := strings.IndexAny(inner, ";,"); k > 0 {
			inner = inner[:k]
		}
		inner = strings.TrimSpace(inner)
		if isShort(inner) {
			if long := longForm(inner, text[:i]); long != "" {
				p.addShort(inner, long)
			}
		}
		i += j
	}
}

func (p *paper) addShort(short, long string) {
	if _, ok := p.short[short]; !ok {
		p.short[short] = long
	}
}

// isShort reports whether a text has the shape of an abbreviation.
func isShort(s string) bool {
	n := utf8.RuneCountInString(s)
	if n < 1 || n > 10 || strings.Count(s, " ") > 1 {
		return false
	}
	letters, upper := 0, 0
	for _, r := range s {
		switch {
		case unicode.IsLetter(r):
			letters++
			if unicode.IsUpper(r) {
				upper++
			}
		case unicode.IsDigit(r), r == '-', r == '/', r == ' ', r == '+', r == '.':
		default:
			return false
		}
	}
	return letters > 0 && upper > 0
}

// longForm finds the words before a bracket that its short form stands for.
func longForm(short, before string) string {
	words := lastFields(ending(before, 1000), min(len(short)+5, len(short)*2))
	if len(words) == 0 {
		return ""
	}
	window := strings.Join(words, " ")
	if k := strings.LastIndexAny(window, ".;:("); k >= 0 {
		window = strings.TrimSpace(window[k+1:])
	}
	s, l := []rune(strings.ToLower(short)), []rune(window)
	low := []rune(strings.ToLower(window))
	if len(low) != len(l) {
		return ""
	}
	i, j := len(s)-1, len(low)-1
	for ; i >= 0; i-- {
		c := s[i]
		if !unicode.IsLetter(c) && !unicode.IsDigit(c) {
			continue
		}
		for j >= 0 && (low[j] != c || i == 0 && j > 0 && (unicode.IsLetter(low[j-1]) || unicode.IsDigit(low[j-1]))) {
			j--
		}
		if j < 0 {
			return ""
		}
		j--
	}
	long := strings.TrimSpace(string(l[j+1:]))
	if len(long) <= len(short) || strings.EqualFold(long, short) {
		return ""
	}
	return long
}

// ending is the end of a text, of at most n bytes.
func ending(s string, n int) string {
	at := max(0, len(s)-n)
	for at < len(s) && !utf8.RuneStart(s[at]) {
		at++
	}
	return s[at:]
}

// noteForms collects the abbreviations of a legend: "PR = retreatment files;
// SD, standard deviation", "PD: probing depth, CAL: attachment level".
func (p *paper) noteForms(note string) {
	for _, part := range strings.FieldsFunc(note, func(r rune) bool { return r == ';' || r == '.' }) {
		for _, sep := range []string{":", "=", ",", " "} {
			pieces := []string{part}
			if sep != "," && sep != " " {
				pieces = strings.Split(part, ",")
			}
			if sep == " " {
				pieces = strings.Split(part, ",")
			}
			done := false
			for _, piece := range pieces {
				short, long, ok := strings.Cut(strings.TrimSpace(piece), sep)
				short, long = strings.TrimSpace(short), strings.TrimSpace(long)
				if ok && isShort(short) && len(long) > len(short) && len(long) < 80 && initials(short, long) {
					p.addShort(short, long)
					done = true
				}
			}
			if done {
				break
			}
		}
	}
}

// initials reports whether the letters of a short form follow each other in
// its long form, the first one at its start or at the start of a word.
func initials(short, long string) bool {
	return longForm(short, long) != "" || strings.EqualFold(short[:1], long[:1])
}
