package statement

import (
	"probity/claims"
	"probity/extract"
)

// role says what a number of a sentence is for.
type role uint8

const (
	roleValue     role = iota // a figure that may stand on one side of a comparison
	rolePercent               // a number of per cent: a claim, a level or a share
	roleLabel                 // "Table 2", "group 3", "day 7", "[12]", a year
	roleCondition             // "at 30 °C", "for 6 months"
	roleP                     // a p value
	roleN                     // n = 12
	roleStat                  // a test statistic, an effect size, a coefficient
	roleRatio                 // a printed hazard, odds or rate ratio
	roleCI                    // a bound of an interval, a confidence level
	roleSpread                // an SD, SE, range or IQR of the figure before
	roleThreshold             // "≥ 5 mm"
	roleCount                 // "4/28", "12 specimens"
)

// quantity is a number of a sentence with what belongs to it.
type quantity struct {
	at       int // token of the number
	end      int // token after its unit and spread
	highAt   int // token of the upper end of a range, -1
	role     role
	percent  bool
	points   bool
	unit     string
	time     bool
	counted  bool // "86 [28.1%] subjects"
	relation extract.Relation
	spread   claims.Spread
	n        extract.Number
	glued    bool // part of "12-week", "0- to 2-h": names a time
}

// sentence is one sentence under reading: a stretch of its paragraph's tokens.
type sentence struct {
	sought   []namedStretch // stretches whose outcomes were sought
	r        *reader
	text     string // of the paragraph
	toks     []token
	from, to int
	quants   []quantity
	hits     []armHit // names of arms, once read
	hitsRead bool
	hint     int                     // the comparator of the claim under reading, -1 if open
	claimed  []int                   // tokens of percent and fold claims
	printed  map[int]*claims.Measure // prose measures by the token of their figure
	place    extract.Place
}

func (s *sentence) at(i int) *token {
	if i < s.from || i >= s.to {
		return &noToken
	}
	return &s.toks[i]
}

var noToken = token{sort: emptyToken, paren: -1, span: 1}

func (s *sentence) is(i int, k kind) bool   { return s.at(i).is.has(k) }
func (s *sentence) any(i int, k kinds) bool { return s.at(i).is.any(k) }
func (s *sentence) sign(i int) rune         { return s.at(i).sign }
func (s *sentence) word(i int) string {
	if w := s.at(i).word; w != nil {
		return w.text
	}
	return ""
}
func (s *sentence) sortOf(i int) sort { return s.at(i).sort }

// raw is the text of tokens i to j (j not included).
func (s *sentence) raw(i, j int) string {
	i, j = max(i, s.from), min(j, s.to)
	if i >= j {
		return ""
	}
	return s.text[s.toks[i].start:s.toks[j-1].end]
}

// number makes the printed number of a token.
func (s *sentence) number(i int) extract.Number {
	t := s.at(i)
	if t.sort != numberToken {
		if t.is.has(numberWord) {
			return wordNumber(s, i, i+1, t.value)
		}
		return extract.Number{}
	}
	p := s.place
	p.Start, p.End = t.start, t.end
	return extract.Number{Text: s.text[t.start:t.end], Value: t.value, Decimals: int(t.decimals), Place: p}
}

// quantities reads every number of the sentence once, from left to right.
func (s *sentence) quantities() {
	s.quants = s.quants[:0]
	for i := s.from; i < s.to; {
		if t := &s.toks[i]; t.sort != numberToken && !(t.is.has(numberWord) && s.any(i+1, setOf(percentWord, pointsWord))) {
			i++
			continue
		}
		q := s.quantityAt(i)
		s.quants = append(s.quants, q)
		i = max(q.end, i+1)
	}
	s.finish()
}

func (s *sentence) quantityAt(i int) quantity {
	q := quantity{at: i, end: i + 1, highAt: -1}
	q.relation = s.relationBefore(i)
	switch {
	case s.isCitation(i):
		q.role = roleLabel
		return q
	case s.partOfName(i):
		q.role = roleLabel
		return q
	case s.isP(i):
		q.role = roleP
		return q
	case s.isStat(i):
		q.role = roleStat
		return q
	case s.isN(i):
		q.role = roleN
		return q
	}
	s.readUnit(&q)
	switch {
	case s.isConfidence(&q):
		q.role = roleCI
	case s.isSpreadMark(i), s.is(q.end, spreadSD) && !q.percent:
		q.role = roleSpread
		s.extendRange(&q)
	case s.ratioBracket(i):
		q.role = roleCI
	case s.isLabel(i) && (q.unit == "" || s.is(i-1, label) || s.sortOf(i-1) != wordToken):
		q.role = roleLabel
	case s.isRatio(i):
		q.role = roleRatio
	case q.glued || s.isCondition(&q):
		q.role = roleCondition
	case s.isThreshold(i, q):
		q.role = roleThreshold
	case s.isCount(&q):
		q.role = roleCount
	case q.percent && s.isConcentration(q.end):
		q.role = roleCondition
	case q.percent || q.points:
		q.role = rolePercent
	}
	if q.role == roleValue || q.role == rolePercent {
		s.valueRange(&q)
		s.readSpread(&q)
	}
	return q
}

// relationBefore reads <, >, ≤, ≥, ~ before a number.
func (s *sentence) relationBefore(i int) extract.Relation {
	switch s.sign(i - 1) {
	case '<':
		return extract.Less
	case '>':
		return extract.Greater
	case '≤', '⩽', '≦':
		return extract.LessEqual
	case '≥', '⩾', '≧':
		return extract.GreaterEqual
	case '~', '∼', '≈', '≅', '˜', '∽':
		return extract.About
	}
	return extract.Equal
}
