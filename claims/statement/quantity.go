package statement

import (
	"slices"

	"probity/claims"
	"probity/claims/reading"
	"probity/claims/role"
	"probity/extract"
)

// use is what a number of a sentence can serve for here; it follows from the
// role that package role gives it.
type use uint8

const (
	roleValue     use = iota // a figure that may stand on one side of a comparison
	rolePercent              // a number of per cent: a claim, a level or a share
	roleLabel                // "Table 2", "group 3", "[12]", a year
	roleCondition            // "at 30 °C", "for 6 months"
	roleP                    // a p value
	roleN                    // n = 12
	roleStat                 // a test statistic, a coefficient, a level of significance
	roleRatio                // a printed hazard, odds or rate ratio
	roleCI                   // a bound of an interval, a confidence level
	roleSpread               // an SD, SE, range or IQR of the figure before
	roleThreshold            // "≥ 5 mm"
	roleCount                // "4/28", "12 specimens"
)

// uses gives the use of each role.
var uses = [...]use{
	role.NotKnown: roleValue, role.Level: roleValue, role.Share: rolePercent, role.Change: roleValue, role.Percent: rolePercent, role.Ratio: roleValue,
	role.P: roleP, role.Alpha: roleStat, role.Statistic: roleStat, role.DF: roleStat, role.Effect: roleRatio, role.Bound: roleCI, role.Confidence: roleCI,
	role.RangeEnd: roleSpread, role.Spread: roleSpread, role.N: roleN, role.Count: roleCount, role.Total: roleCount, role.Dose: roleCondition,
	role.TimePoint: roleCondition, role.Duration: roleCondition, role.Threshold: roleThreshold, role.Year: roleLabel, role.Citation: roleLabel,
	role.Clock: roleLabel, role.Money: roleValue, role.Name: roleLabel, role.Other: roleLabel,
}

// quantity is a number of a sentence with what belongs to it.
type quantity struct {
	at       int // token of the number
	end      int // token after its unit and spread
	highAt   int // token of the upper end of a range, -1
	role     use
	is       role.Role
	sure     bool // no other role comes near
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
	conds    map[string]int // how many parts of a condition it names, once counted
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
	if !slices.ContainsFunc(s.toks[s.from:s.to], func(t token) bool { return t.sort == numberToken || t.is.has(numberWord) }) {
		s.finish()
		return
	}
	start := s.toks[s.from].start
	numbers := role.Numbers(s.text[start:s.toks[s.to-1].end], s.r.cat)
	for i := s.from; i < s.to; {
		t := &s.toks[i]
		for len(numbers) > 0 && numbers[0].End <= t.start-start {
			numbers = numbers[1:]
		}
		if t.sort != numberToken && !(t.is.has(numberWord) && s.any(i+1, setOf(percentWord, pointsWord))) {
			i++
			continue
		}
		var n *role.Number
		if len(numbers) > 0 && numbers[0].Start < t.end-start {
			n = &numbers[0]
			s.whole(i, n, start)
		}
		q := s.quantityAt(i, n)
		s.quants = append(s.quants, q)
		i = max(q.end, i+1)
	}
	s.finish()
}

// whole makes one token of a number that package role reads as one and the
// lexer as several: "1 245", "7:58".
func (s *sentence) whole(i int, n *role.Number, start int) {
	t := &s.toks[i]
	if n.Word || t.end-start >= n.End || t.start-start > n.Start {
		return
	}
	t.value, t.decimals, t.end = n.Value, int8(n.Decimals), start+n.End
	for j := i + 1; j < s.to && s.toks[j].start < t.end; j++ {
		s.toks[j].sort, s.toks[j].sign, s.toks[j].is = markToken, 0, kinds{}
		s.toks[j].start = min(s.toks[j].start, t.end)
	}
}

// close is the gap below which a number that may be a figure is read as one.
const close = 1.2

// quantityAt reads the number at a token with its unit and spread; what it is
// was told by package role.
func (s *sentence) quantityAt(i int, n *role.Number) quantity {
	q := quantity{at: i, end: i + 1, highAt: -1}
	q.relation = s.relationBefore(i)
	if n != nil {
		q.is, q.sure = n.Role.Best.Value, n.Lead >= reading.Wide
		if second := n.Role.Second.Value; !q.is.Pairable() && second.Pairable() && n.Role.Gap() < close {
			q.is = second // it may be a figure; nothing is held against anyone on it
		}
		q.role = uses[q.is]
	}
	switch q.role {
	case roleLabel, roleP, roleStat, roleN:
		return q
	}
	s.readUnit(&q)
	switch {
	case q.role == roleSpread || q.role == roleCI:
		s.extendRange(&q)
	case q.role == roleCount:
		q.counted = true
	case q.role == roleThreshold && q.percent && q.relation == extract.Equal && !n.Role.Sure(), q.role == roleValue && (q.percent || q.points):
		q.role = rolePercent
	case q.role == rolePercent && !q.percent && !q.points:
		q.role = roleValue // a share of people without its sign
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
