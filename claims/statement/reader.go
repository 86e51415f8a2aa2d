package statement

import (
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// Read gives the comparative statements of a paper in reading order, and the
// measures that its running prose prints.
func Read(doc *extract.Document, study *claims.Study, cat *catalog.Catalog) ([]*claims.Statement, []*claims.Measure) {
	if study == nil {
		study = &claims.Study{}
	}
	r := newReader(study, cat)
	for _, p := range doc.Proses() {
		if p.Role != extract.Paragraph && p.Role != extract.Caption {
			continue
		}
		if p.Place.Section == extract.Back {
			continue
		}
		before := len(r.statements)
		r.paragraph(p.Text(), p.Place, p.Heading)
		if tellsNoResults(p) {
			r.statements = append(r.statements[:before], onlyFigures(r.statements[before:])...)
		}
	}
	shareGroups(r.measures, study.Measures)
	return r.statements, r.measures
}

// tellsNoResults reports a paragraph that says what was done or is known, not
// what was found: "the patients were equally divided" is no result.
func tellsNoResults(p *extract.Prose) bool {
	switch p.Place.Section {
	case extract.Methods, extract.Introduction:
		return true
	case extract.Abstract:
		heading := strings.ToLower(p.Heading)
		for _, word := range []string{"aim", "objective", "purpose", "background", "introduction", "material", "method", "design"} {
			if strings.HasPrefix(heading, word) {
				return true
			}
		}
	}
	return false
}

// onlyFigures keeps percent and fold claims, and what is told of others.
func onlyFigures(in []*claims.Statement) []*claims.Statement {
	var out []*claims.Statement
	for _, s := range in {
		if s.Kind == claims.Percent || s.Kind == claims.Fold || !s.Own {
			out = append(out, s)
		}
	}
	return out
}

// ReadText reads a claim typed by hand, without a paper. The names in it are
// its arms: capitalised words that are neither words of the catalogue nor
// outcomes.
func ReadText(text string, cat *catalog.Catalog) []*claims.Statement {
	return ReadTextOf(text, "", cat)
}

// ReadTextOf is ReadText for a claim whose figures are known to be of a
// quantity of the catalogue's units: "twice as fast" of two times is half the
// time, of two speeds it is not.
func ReadTextOf(text, quantity string, cat *catalog.Catalog) []*claims.Statement {
	text = extract.Fold(text)
	r := newReader(&claims.Study{Arms: namesIn(text, cat)}, cat)
	r.typed, r.quantity = true, quantity
	r.paragraph(text, extract.Place{}, "")
	return r.statements
}

// ReadSentence reads one sentence as a paper's own, with the names in it for
// arms: whatever a paper would be doubted for is in doubt here too.
func ReadSentence(text string, cat *catalog.Catalog) []*claims.Statement {
	r := newReader(&claims.Study{Arms: namesIn(text, cat)}, cat)
	r.paragraph(text, extract.Place{}, "")
	return r.statements
}

// namesIn gives an arm for each name of a typed claim.
func namesIn(text string, cat *catalog.Catalog) []*claims.Arm {
	lex := lexer{lex: lexiconOf(cat)}
	var out []*claims.Arm
	seen := map[string]bool{}
	toks := lex.run(text)
	for i, t := range toks {
		if t.sort != wordToken || !t.upper || t.word != nil {
			continue
		}
		name := text[t.start:t.end]
		behind := i > 0 && toks[i-1].sort == numberToken
		if behind && (isCross(name) || cat.FindUnit(name) != nil) {
			continue // "5X longer", "3 N"
		}
		if seen[name] || cat.FindOutcome(name) != nil || len(name) > 1 && cat.FindUnit(name) != nil || strings.EqualFold(name, "p") {
			continue
		}
		seen[name] = true
		out = append(out, &claims.Arm{Name: name, Short: name})
	}
	return out
}

// reader holds what is known across the sentences of one paper.
type reader struct {
	study       *claims.Study
	cat         *catalog.Catalog
	lex         lexer
	typed       bool
	quantity    string // of the figures, where it is known
	statements  []*claims.Statement
	measures    []*claims.Measure
	arms        armIndex
	outcomes    outcomeIndex
	byArm       map[*claims.Arm][]*claims.Measure
	hasAdjusted bool
	lastArms    []*claims.Arm // named in the sentence before
	citedBefore bool          // the sentence before tells of others' work
	context     []spoken      // outcomes of the sentences before in the paragraph
	memo
}

func newReader(study *claims.Study, cat *catalog.Catalog) *reader {
	r := &reader{study: study, cat: cat, byArm: map[*claims.Arm][]*claims.Measure{}}
	r.lex.lex = lexiconOf(cat)
	r.arms = newArmIndex(study)
	r.outcomes = newOutcomeIndex(study)
	for _, m := range study.Measures {
		if m.Arm != nil && m.Mean.Known() {
			r.byArm[m.Arm] = append(r.byArm[m.Arm], m)
			r.hasAdjusted = r.hasAdjusted || m.Adjusted
		}
	}
	return r
}

func (r *reader) paragraph(text string, place extract.Place, heading string) {
	toks := r.lex.run(text)
	var before *sentence
	r.context, r.citedBefore = nil, false
	split(toks, func(start, end int) {
		for from := start; from < end; from += longest {
			before = r.sentence(text, toks, from, min(from+longest, end), place, before)
		}
	})
}

// longest bounds a sentence, in tokens: what is longer is a list or hostile,
// and is read in pieces so that time stays in proportion to length.
const longest = 300

// sentence reads one sentence and gives it back for the next.
func (r *reader) sentence(text string, toks []token, from, to int, place extract.Place, before *sentence) *sentence {
	s := &sentence{r: r, text: text, toks: toks, from: from, to: to, place: place, hint: -1}
	defer s.keepArms()
	if !s.worth() {
		s.remember()
		return s
	}
	s.quantities()
	s.read(before)
	if out := s.measured(s.outcomesIn(from, to)); len(out) > 0 {
		r.context = out
	}
	s.remember()
	return s
}

// keepArms notes the arms a sentence names for "the former" in the next.
func (s *sentence) keepArms() {
	s.r.lastArms = s.r.lastArms[:0]
	if len(s.r.arms.all) == 0 {
		return
	}
	for i := s.from; i < s.to; i++ {
		if h := s.armAt(i); h != nil && len(h.arms) == 1 {
			s.r.lastArms = append(s.r.lastArms, h.arms[0])
		}
	}
}

// worth is the cheap look that most sentences do not pass.
func (s *sentence) worth() bool {
	var is kinds
	for i := s.from; i < s.to; i++ {
		is = is.or(s.toks[i].is)
		t := &s.toks[i]
		if t.sign == '%' || t.sign == '±' || s.crossAt(i) {
			return true
		}
		if t.sort == wordToken && t.end-t.start == 1 && s.text[t.start]|0x20 == 'p' && s.sortOf(i+1) == signToken && (s.sortOf(i+2) == numberToken || s.sortOf(i+3) == numberToken) {
			return true // "p = .03"
		}
	}
	return is.any(telling)
}

func (s *sentence) read(before *sentence) {
	fs := s.changes()
	s.proseMeasures(fs)
	fs = s.assign(fs)
	s.claimed = s.claimed[:0]
	for i := range fs {
		s.claimed = append(s.claimed, fs[i].at)
	}
	for i := range fs {
		s.finishClaim(fs, i)
	}
	s.fromBeforeSentence(fs, before)
	s.doubtTies(fs)
	for i := range fs {
		s.emit(fs[i].st)
	}
	s.plainStatements()
}

// fromBeforeSentence takes the pair of the sentence before for a claim whose
// own sentence prints none: "… to 5,837. This represents a 54 % increase".
func (s *sentence) fromBeforeSentence(fs []found, before *sentence) {
	if before == nil || len(fs) == 0 {
		return
	}
	for i := range fs {
		if fs[i].st.A.Known() {
			return
		}
	}
	if before.quants == nil {
		before.quantities()
	}
	taken := map[int]bool{}
	for _, f := range before.changes() {
		for t := f.at; t < f.end; t++ {
			taken[t] = true
		}
	}
	var cs, apart []couple
	for _, c := range before.couples(taken) {
		switch {
		case c.how == byVersus || c.how == byFromTo:
			cs = append(cs, c)
		case c.sure:
			apart = append(apart, c)
		}
	}
	if len(cs) == 0 {
		cs = apart
	}
	if len(cs) != 1 {
		return
	}
	for i := range fs {
		st := fs[i].st
		if len(st.Pairs) > 0 || len(st.Subject.Arms) > 0 && len(st.Reference.Arms) > 0 || s.is(fs[i].end, versus) {
			continue // the sentence names its own sides
		}
		before.give(&fs[i], &cs[0])
		s.direct(st, fs[i].sense)
	}
}

func (s *sentence) emit(st *claims.Statement) {
	st.ID = "s" + strconv.Itoa(len(s.r.statements)+1)
	st.Text = s.raw(s.from, s.to)
	st.Place = s.place
	st.Place.Start, st.Place.End = s.toks[s.from].start, s.toks[s.to-1].end
	s.whose(st)
	s.doubtSaid(st)
	s.r.statements = append(s.r.statements, st)
}
