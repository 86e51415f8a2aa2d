package numeral

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
)

// Scan reads the figures of running text in the style of English print. A
// paragraph's Text gives tokens whose Start and End count its bytes.
func Scan(text string) []Token { return ScanStyle(text, Style{}) }

// ScanStyle reads the figures of running text.
func ScanStyle(text string, style Style) []Token {
	if !strings.ContainsFunc(text, func(r rune) bool { return r >= '0' && r <= '9' }) {
		return nil
	}
	l := flat(text)
	s := &scanner{reader: reader{l: l, it: l.items(style)}}
	for s.i < len(s.it) {
		if !s.token() {
			s.i++
		}
	}
	return s.tokens
}

type scanner struct {
	reader
	tokens []Token
}

// emit keeps the reading of items from..to-1 as a token.
func (s *scanner) emit(f Figures, from, to int) {
	t := Token{Figures: f, Start: s.l.at[s.it[from].from], End: s.l.at[s.it[to-1].to]}
	if from > 0 && s.it[from-1].class == aWord {
		t.Follows = s.it[from-1].text
	}
	s.tokens = append(s.tokens, t)
	s.i = to
}

// token reads one token at the present item; the forms that begin with a word
// come first.
func (s *scanner) token() bool {
	switch s.at(0).class {
	case aWord:
		return s.pValue() || s.sampleSize() || s.level() || s.statistic() || s.label()
	case '[':
		return s.citation()
	case aRelation, aSign:
		return s.bound()
	case aMark:
		return s.at(0).text == "#" && s.is(1, aNumber) && s.sizeAt(1)
	case aNumber:
		if s.it[s.i].glued && s.i > 0 && s.compound() {
			return false
		}
		return s.sizeAt(0) || s.year() || s.figure()
	}
	return false
}

// compound reports whether the number is a part of a name: "Z-100" and
// "3630-1", where a hyphen without space goes before it.
func (s *scanner) compound() bool {
	p := s.it[s.i-1]
	return p.class == aDash && p.glued && s.i > 1 && s.it[s.i-2].class == aWord
}

// pValue reads "p < .001", "P value = 0.02", "(P=0.03)", "p of .04".
func (s *scanner) pValue() bool {
	w := s.at(0).text
	if w != "p" && w != "P" && !strings.EqualFold(w, "p-value") && !strings.EqualFold(w, "p-values") && w != "𝑝" {
		return false
	}
	k := 1
	if v := strings.ToLower(s.at(k).text); v == "value" || v == "values" {
		k++
	}
	rel, k, ok := s.relationAt(k)
	if !ok || !s.is(k, aNumber) {
		return false
	}
	n := s.at(k).number
	if n.Value < 0 || n.Value > 1 {
		return false
	}
	n.Relation = rel
	s.emit(Figures{Form: P, Number: n, Name: "p"}, s.i, s.i+k+1)
	return true
}

// wordRelations are the words that stand for a relation sign, two words at
// most.
var wordRelations = map[string]extract.Relation{
	"of": extract.Equal, "was": extract.Equal, "is": extract.Equal, "were": extract.Equal,
	"less than": extract.Less, "below": extract.Less, "greater than": extract.Greater,
	"more than": extract.Greater, "above": extract.Greater, "at": extract.Equal,
	"about": extract.About, "approximately": extract.About,
}

// relationAt reads a relation, a sign or words, at item k.
func (s *scanner) relationAt(k int) (extract.Relation, int, bool) {
	if s.is(k, aRelation) {
		r := relation(s.at(k).text)
		k++
		if s.is(k, aRelation) {
			k++ // "< =" and "= <"
		}
		return r, k, true
	}
	for s.is(k, ':') {
		return extract.Equal, k + 1, true
	}
	two := strings.ToLower(s.at(k).text + " " + s.at(k+1).text)
	if r, ok := wordRelations[two]; ok {
		return r, k + 2, true
	}
	if r, ok := wordRelations[strings.ToLower(s.at(k).text)]; ok {
		if next, j, ok := s.relationAt(k + 1); ok && next != extract.Equal {
			return next, j, true // "was less than", "is <"
		}
		return r, k + 1, true
	}
	return extract.Equal, k, false
}

// sampleSize reads "n = 12" and "N=12".
func (s *scanner) sampleSize() bool {
	if !strings.EqualFold(s.at(0).text, "n") || !s.is(1, aRelation) || !s.is(2, aNumber) {
		return false
	}
	n := s.at(2).number
	if n.Decimals > 0 || n.Value < 0 {
		return false
	}
	n.Relation = relation(s.at(1).text)
	s.emit(Figures{Form: N, Number: n, Name: s.at(0).text}, s.i, s.i+3)
	return true
}

// level reads "α = 0.05".
func (s *scanner) level() bool {
	w := strings.ToLower(s.at(0).text)
	if w != "α" && w != "alpha" {
		return false
	}
	k := 1
	if strings.EqualFold(s.at(k).text, "level") {
		k++
	}
	_, k, ok := s.relationAt(k)
	if !ok || !s.is(k, aNumber) {
		return false
	}
	f := Figures{Form: Level, Number: s.at(k).number, Name: "α"}
	k++
	if s.is(k, aPercent) {
		f.Percent = true
		k++
	}
	s.emit(f, s.i, s.i+k)
	return true
}

// statistics are the letters of test statistics as printed.
var statistics = map[string]string{"F": "F", "t": "t", "T": "t", "χ2": "chi2", "χ": "chi2", "x2": "chi2", "X2": "chi2",
	"chi2": "chi2", "U": "U", "H": "H", "Z": "z", "z": "z", "r": "r", "q": "q", "W": "W", "Q": "Q"}

// statistic reads "F(2, 27) = 6.1", "t = 2.20", "χ²(3) = 9.1".
func (s *scanner) statistic() bool {
	name, ok := statistics[strings.Map(dropRaised, s.at(0).text)]
	if !ok {
		return false
	}
	f := Figures{Form: Stat, Name: name}
	k := 1
	if s.is(k, aRaised) || s.is(k, aNumber) && s.at(k).glued && name == "chi2" {
		k++
	}
	if s.is(k, '(') || s.is(k, '[') {
		end := s.closed(k)
		if end == 0 {
			return false
		}
		f.DF = s.inside(k+1, end).numbers
		k = end + 1
	}
	if !s.is(k, aRelation) || !s.is(k+1, aNumber) {
		return false
	}
	f.Number = s.at(k + 1).number
	f.Number.Relation = relation(s.at(k).text)
	s.emit(f, s.i, s.i+k+2)
	return true
}

// dropRaised puts raised and lowered digits on the line.
func dropRaised(r rune) rune {
	if p, ok := extract.Unraise(r); ok {
		return p
	}
	return r
}

// labels are the words that a number names a thing with.
var labels = map[string]bool{"table": true, "tables": true, "fig": true, "figs": true, "figure": true, "figures": true,
	"group": true, "groups": true, "gr": true, "step": true, "section": true, "eq": true, "equation": true,
	"iso": true, "no": true, "number": true, "class": true, "type": true, "grade": true, "subgroup": true,
	"version": true, "experiment": true, "score": true, "ref": true, "refs": true, "appendix": true}

// label reads "Table 2", "Groups 1, 2 and 3", "Fig. 4".
func (s *scanner) label() bool {
	if !labels[strings.ToLower(strings.TrimRight(s.at(0).text, "."))] {
		return false
	}
	k := 1
	if s.is(k, '.') {
		k++
	}
	if !s.is(k, aNumber) || s.at(k).number.Decimals > 0 || s.at(k).number.Value > 20000 {
		return false
	}
	name, from := s.at(0).text, s.i
	if strings.EqualFold(name, "iso") {
		end := k + 1
		if s.is(end, aDash) && s.at(end).glued && s.is(end+1, aNumber) && s.at(end+1).glued {
			end += 2 // ISO 3630-1 is one name
		}
		s.emit(Figures{Form: Label, Number: s.at(k).number, Name: name}, s.i, s.i+end)
		return true
	}
	for {
		s.emit(Figures{Form: Label, Number: s.at(k).number, Name: name}, max(from, s.i), s.i+k+1)
		from = s.i
		k = 0
		for s.is(k, ',') || s.is(k, '&') || s.is(k, aDash) || s.at(k).text == "and" || s.at(k).text == "or" || s.at(k).text == "to" {
			k++
		}
		if k == 0 || k > 2 || !s.is(k, aNumber) || s.at(k).number.Decimals > 0 || s.at(k).number.Value >= 100 || s.at(k+1).class == aPercent ||
			s.at(k+1).class == aSign {
			return true
		}
	}
}

// citation reads "[12]", "[3–5, 9]": whole numbers that do not belong to the
// figure before them.
func (s *scanner) citation() bool {
	if s.i > 0 && s.it[s.i-1].class == aNumber {
		return false
	}
	end := s.closed(0)
	if end < 2 {
		return false
	}
	var first extract.Number
	for k := 1; k < end; k++ {
		switch it := s.at(k); {
		case it.class == aNumber && it.number.Decimals == 0 && it.number.Value > 0 && it.number.Value < 1000:
			if !first.Known() {
				first = it.number
			}
		case it.class == ',' || it.class == aDash || it.class == ';':
		default:
			return false
		}
	}
	s.emit(Figures{Form: Citation, Number: first}, s.i, s.i+end+1)
	return true
}

// bound reads "< 5", "≥ 12.3".
func (s *scanner) bound() bool {
	if !s.is(0, aRelation) || !s.is(1, aNumber) {
		return false
	}
	from := s.i
	rel := relation(s.at(0).text)
	s.i++
	if !s.figure() {
		s.i = from
		return false
	}
	t := &s.tokens[len(s.tokens)-1]
	t.Number.Relation = rel
	t.Start = s.l.at[s.it[from].from]
	return true
}

// sizeAt reads an instrument size at item k: 25/.06, and 25.06 where a name
// or the word size goes before it and no sign of a measure follows.
func (s *scanner) sizeAt(k int) bool {
	i := s.i + k
	if isSize(s.it, i) {
		s.emit(Figures{Form: Size, Number: s.it[i].number}, s.i, i+3)
		return true
	}
	if !s.sizeWord(i) {
		return false
	}
	s.emit(Figures{Form: Size, Number: s.it[i].number}, s.i, i+1)
	return true
}

func (s *scanner) sizeWord(i int) bool {
	text := s.it[i].number.Text
	pointed := len(text) == 5 && text[2] == '.' && text[3] == '0' && text[4] >= '1' && text[4] <= '9'
	if i > 0 && (s.it[i-1].text == "#" || strings.EqualFold(s.it[i-1].text, "size") || strings.EqualFold(s.it[i-1].text, "sizes")) {
		return pointed || s.it[i].number.Decimals == 0
	}
	if !pointed || i == 0 || s.it[i-1].class != aWord {
		return false
	}
	if i+1 < len(s.it) && (s.it[i+1].class == aSign || s.it[i+1].class == '(' || s.it[i+1].class == aPercent) {
		return false
	}
	first, _ := utf8.DecodeRuneInString(s.it[i-1].text)
	return unicode.IsUpper(first)
}

// year leaves the years of citations apart: "(Lee 2010)", "et al., 2010".
func (s *scanner) year() bool {
	n := s.at(0).number
	if len(n.Text) != 4 || n.Decimals != 0 || n.Value < 1900 || n.Value > 2099 || s.i == 0 {
		return false
	}
	p := s.it[s.i-1]
	cited := p.class == ',' || p.class == '(' || p.class == '.' ||
		p.class == aWord && (p.text == "al" || p.text == "in" || p.text == "In" || unicode.IsUpper([]rune(p.text)[0]))
	after := s.at(1).class
	if !cited || after == aSign || after == '(' || after == aPercent {
		return false
	}
	s.emit(Figures{Form: Citation, Number: n}, s.i, s.i+1)
	return true
}
