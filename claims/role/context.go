package role

import (
	"math"
	"strconv"
	"strings"

	"probity/claims/reading"
)

// Walks along a list or within a bracket end after so many numbers or tokens,
// so that time grows with the length of a text; no list of means is as long.
const (
	longList    = 40
	longBracket = 200
)

// num is a number under reading.
type num struct {
	tok, last int // its first and last token
	end       int // token after its unit
	value     float64
	decimals  int
	word      bool
	negative  bool
	signed    bool // a plus or minus belongs to it
	pct       bool
	unit      class  // of the unit behind it
	unitText  string // as printed
	lent      bool   // the unit stands behind a later number of its list
	rel       rune   // the < > ≤ ≥ = ~ ± before it, 0 none
	colon     bool   // 1:42
	prev      int    // the number it follows in a list, -1
	next      int
	head      int // the first and the last number of its list: itself where it stands alone
	foot      int
	joint     string // what joins it to prev: ",", "to", "vs", "/"
	ballot    reading.Ballot[Role]
}

// context is a text with its numbers.
type context struct {
	text string
	toks []tok
	nums []num
	of   []int // by token: the number that begins there, -1
}

func newContext(text string, l *lexicon) *context {
	c := &context{text: text, toks: lex(text, l)}
	c.of = make([]int, len(c.toks))
	for i := 0; i < len(c.toks); i++ {
		c.of[i] = -1
	}
	for i := 0; i < len(c.toks); i++ {
		if n, ok := c.number(i); ok {
			c.of[i] = len(c.nums)
			c.nums = append(c.nums, n)
			i = n.last
		}
	}
	for i := range c.nums {
		c.unit(i)
	}
	c.lists()
	return c
}

func (c *context) at(i int) *tok {
	if i < 0 || i >= len(c.toks) {
		return &noTok
	}
	return &c.toks[i]
}

func (c *context) is(i int, k class) bool { return c.at(i).is&k != 0 }
func (c *context) low(i int) string       { return c.at(i).low }
func (c *context) sign(i int) rune {
	if t := c.at(i); t.sort == sign {
		return t.sign
	}
	return 0
}

// raw is the text of a token.
func (c *context) raw(i int) string { t := c.at(i); return c.text[t.start:t.end] }

// number reads the number that begins at a token: digits, or a number word.
func (c *context) number(i int) (num, bool) {
	t := &c.toks[i]
	n := num{tok: i, last: i, prev: -1, next: -1}
	switch {
	case t.sort == digits:
		n.value, n.decimals, n.colon = parse(c.text[t.start:t.end])
	case t.sort == word:
		v, ok := numberWords[t.low]
		if !ok || !c.countsAsNumber(i) {
			return n, false
		}
		n.word, n.value = true, v
		if v >= 1 && v < 10 && isFraction(c.low(c.skipHyphen(i+1))) {
			n.last = c.skipHyphen(i + 1)
			n.value *= numberWords[c.low(n.last)]
			t.end = c.toks[n.last].end
		}
	default:
		return n, false
	}
	c.signs(&n)
	return n, true
}

func (c *context) skipHyphen(i int) int {
	if s := c.sign(i); s == '-' || s == '‐' || s == '–' {
		return i + 1
	}
	return i
}

func isFraction(low string) bool {
	switch low {
	case "half", "third", "thirds", "quarter", "quarters", "fifth", "fifths", "tenth", "halves":
		return true
	}
	return false
}

// countsAsNumber: "that one", "the third molar", "in one" are none.
func (c *context) countsAsNumber(i int) bool {
	low, next, before := c.low(i), c.at(i+1), c.at(i-1)
	switch low {
	case "one":
		if before.sort == word {
			switch before.low {
			case "this", "that", "the", "which", "no", "any", "each", "every", "another", "latter", "former", "other", "rotary", "manual", "new":
				return false
			}
		}
		if next.low == "another" || next.low == "should" || next.low == "can" || next.low == "may" || next.low == "wants" || next.low == "must" {
			return false
		}
	case "third", "fifth", "tenth":
		return before.low == "one" || before.low == "a" && (next.low == "of" || next.is&(cComparative) != 0) || before.low == "by" && c.at(i-2).low != ""
	case "thirds", "fifths", "halves", "quarters":
		return false // said with the number before it
	case "quarter":
		return before.low == "a" || before.low == "one"
	case "second", "first":
		return false
	case "double", "triple":
		return true
	}
	return true
}

func parse(s string) (v float64, decimals int, colon bool) {
	var b strings.Builder
	points := strings.Count(s, ".") + strings.Count(s, "·") + strings.Count(s, "∙")
	comma := strings.LastIndexByte(s, ',')
	decimalComma := comma >= 0 && (len(s)-comma-1 != 3 || strings.HasPrefix(s, "0,") || points > 0 && comma > strings.LastIndexByte(s, '.'))
	for i, r := range s {
		switch {
		case isDigit(r):
			b.WriteRune(r)
			if decimals >= 0 && strings.Contains(b.String(), ".") {
				decimals++
			}
		case r == ',' && decimalComma && i == comma, pointRune(r) && !(decimalComma && points > 0):
			b.WriteByte('.')
		}
	}
	if min, sec, ok := strings.Cut(s, ":"); ok {
		m, _ := strconv.ParseFloat(min, 64)
		v, _ = strconv.ParseFloat(sec, 64)
		return 60*m + v, 0, true // minutes and seconds, in seconds
	}
	v, _ = strconv.ParseFloat(b.String(), 64)
	if math.IsInf(v, 0) {
		v = 0
	}
	return v, decimals, colon
}

// signs reads what stands before a number: its sign and its relation.
func (c *context) signs(n *num) {
	i := n.tok - 1
	t := &c.toks[n.tok]
	switch s := c.sign(i); {
	case (s == '-' || s == '−' || s == '–' || s == '+' || s == '‐') && !t.gap:
		b := c.at(i - 1)
		if c.at(i).gap || i == 0 || b.sort == sign && strings.ContainsRune("(=[:<>,≤≥−~", b.sign) {
			if !(b.sort == digits && s != '−' && s != '+' && !c.at(i).gap) && !(s == '-' && b.sort == sign && b.sign == '/') {
				n.signed = true
				if s != '+' {
					n.negative, n.value = true, -n.value
				}
				i--
			}
		}
	case s == '−' && c.sign(i-1) != 0 && c.sign(i-1) != ')' && c.sign(i-1) != '%':
		n.signed, n.negative, n.value = true, true, -n.value
		i--
	}
	if s := c.sign(i); strings.ContainsRune("<>≤≥⩽⩾=~≈∼±∓˂˃", s) && s != 0 {
		n.rel = s
		if s == '=' && strings.ContainsRune("<>", c.sign(i-1)) {
			n.rel = c.sign(i - 1)
		}
	}
	if s := c.sign(i); s == '-' && c.sign(i-1) == '/' && c.sign(i-2) == '+' || s == '/' && c.sign(i-1) == '+' || s == '-' && c.sign(i-1) == '+' {
		n.rel = '±'
	}
	if n.signed && !n.negative && c.sign(n.tok-2) == '/' {
		n.rel = '±'
	}
	if n.negative && c.sign(n.tok-2) == '/' && c.sign(n.tok-3) == '+' {
		n.rel, n.negative, n.signed, n.value = '±', false, false, -n.value
	}
}

// unit reads what stands behind a number.
func (c *context) unit(i int) {
	n := &c.nums[i]
	j := n.last + 1
	n.end = j
	if s := c.sign(j); (s == '-' || s == '‐' || s == '–') && !c.at(j).gap && c.at(j+1).sort == word && !c.at(j+1).gap {
		j++ // "8-week"
	}
	t := c.at(j)
	switch {
	case t.sort == word && !t.gap && j == n.last+1 && (c.is(n.tok-1, cLabel) || c.sign(n.tok-1) == '.' && c.is(n.tok-2, cLabel)):
	case t.sort == sign && (t.sign == '%' || t.sign == '％'), t.sort == word && (t.low == "percent" || t.low == "percentage" && strings.HasPrefix(c.low(j+1), "point")):
		n.pct, n.unitText, n.end = true, "%", j+1
	case t.low == "per" && c.low(j+1) == "cent":
		n.pct, n.unitText, n.end = true, "%", j+2
	case t.sort == sign && (t.sign == '°' || t.sign == 'º'):
		n.unit, n.unitText, n.end = cSet, "°", j+1
		if w := c.raw(j + 1); w == "C" || w == "F" {
			n.unitText, n.end = "°"+w, j+2
		}
	case t.sort == sign && (t.sign == '€' || t.sign == '$' || t.sign == '£'):
		n.unit, n.unitText, n.end = cMoney, string(t.sign), j+1
	case t.sort == word:
		k := t.is & (cTime | cSet | cMoney)
		if k != 0 {
			t.is = k | t.is&(cLasting|cAge|cCalendar|cWhen|cUnit) // "12 min" is no minimum, "30 s" no SD
		}
		if raw := c.raw(j); k&cTime != 0 && (raw == "H" || raw == "D" || raw == "S") {
			k = 0
		}
		n.unit, n.unitText, n.end = k, c.raw(j), j+1
		if k == 0 && !c.unitLike(j) {
			n.unitText, n.end = "", n.last+1
			break
		}
		for c.sign(n.end) == '/' && c.at(n.end+1).sort == word {
			n.unitText += "/" + c.raw(n.end+1)
			if (n.unitText == "J/cm" || n.unitText == "mJ/cm") && n.unit == 0 {
				n.unit = cSet
			}
			n.end += 2
			if n.unit == cSet && n.unitText != "" && perVolume(n.unitText) {
				n.unit = 0
			}
			if n.unit == cTime {
				n.unit = 0
			}
		}
		if s := c.sign(n.end); (s == '·' || s == '.' || s == '∙' || s == '⋅') && !c.at(n.end).gap && c.at(n.end+1).sort == word && !c.at(n.end+1).gap && c.unitLike(n.end+1) {
			n.unitText += "·" + c.raw(n.end+1)
			n.end += 2
		}
		if t := c.at(n.end); t.sort == digits && !t.gap && (c.raw(n.end) == "2" || c.raw(n.end) == "3") && areaUnit(c.raw(n.end-1)) {
			n.end++ // "cm2"
		}
		for c.sign(n.end) == '^' || c.at(n.end).sort == raised {
			n.end++
			if c.at(n.end).sort == digits && c.sign(n.end-1) == '^' {
				n.end++
			}
		}
	}
}

func areaUnit(w string) bool {
	return w == "mm" || w == "cm" || w == "m" || w == "µm" || w == "μm" || w == "km"
}

// perVolume: what is measured in blood, not what is given.
func perVolume(u string) bool {
	switch u[strings.IndexByte(u, '/')+1:] {
	case "dl", "dL", "l", "L", "ml", "mL", "g", "mm":
		return true
	case "cm":
		return !strings.HasPrefix(u, "J") && !strings.HasPrefix(u, "mJ") && !strings.HasPrefix(u, "mW") && !strings.HasPrefix(u, "W")
	}
	return false
}

// unitLike: a token is a unit, whether of what is set or of what is measured.
func (c *context) unitLike(i int) bool { return c.is(i, cUnit) }

// lists joins the numbers that stand in one list, and lends them the unit
// behind the last.
func (c *context) lists() {
	for i := range c.nums {
		c.nums[i].head, c.nums[i].foot = i, i
	}
	for i := 1; i < len(c.nums); i++ {
		a, b := &c.nums[i-1], &c.nums[i]
		if j, ok := c.joined(a, b); ok && !(c.gluedToWord(a) && strings.ContainsAny(j, "v&")) {
			b.prev, a.next, b.joint, b.head = i-1, i, j, a.head
		}
	}
	for i := len(c.nums) - 2; i >= 0; i-- {
		a := &c.nums[i]
		if a.next >= 0 {
			a.foot = c.nums[a.next].foot
		}
		if b := &c.nums[i+1]; b.rel == '±' && a.unitText == "" && b.unitText != "" && b.tok-a.end <= 3 {
			a.unit, a.unitText, a.pct, a.lent = b.unit, b.unitText, b.pct, true
		}
		if a.next < 0 || a.unitText != "" {
			continue
		}
		if b := &c.nums[a.next]; c.lends(b, a) {
			a.unit, a.unitText, a.pct, a.lent = b.unit, b.unitText, b.pct, true
		}
	}
}

// gluedToWord: "HbA1", "T2".
func (c *context) gluedToWord(n *num) bool {
	return !n.word && !c.at(n.tok).gap && c.at(n.tok-1).sort == word
}

// lends reports whether the unit behind the later number of a list is that of
// the one before it too: "9.3 and 7.9 mm", but not "p = 0.001, 81 %".
func (c *context) lends(b, a *num) bool {
	switch {
	case b.unitText == "" || a.word != b.word || a.colon, strings.ContainsRune("$€£¥", c.sign(a.tok-1)) && c.sign(a.tok-1) != 0, strings.Contains(b.joint, ";") || b.joint == "/" && b.unit != cSet, c.is(c.skipHyphen(b.end), cInterval):
		return false
	case b.rel == a.rel, b.rel == 0 && a.rel != 0 && strings.ContainsRune("<>≤≥~", a.rel):
		return true
	}
	return b.rel == 0 && b.joint != "," && !(a.rel == '=' && strings.Contains(b.joint, "v"))
}

// tail is the last number of a list, behind which its unit stands.
func (c *context) tail(i int) *num {
	n := &c.nums[i]
	for s := 0; n.lent && n.next >= 0 && s < longList; s++ {
		n = &c.nums[n.next]
	}
	return n
}

// joined reports whether only list signs stand between two neighbours.
func (c *context) joined(a, b *num) (string, bool) {
	from, to := a.end, b.tok
	if to-from > 8 {
		return "", false
	}
	joint := ""
	for j := from; j < to; j++ {
		t := &c.toks[j]
		switch {
		case t.sort == sign && (t.sign == ',' || t.sign == ';'):
			joint += string(t.sign)
		case t.sort == sign && strings.ContainsRune("–—", t.sign) && t.gap && c.at(j+1).gap && c.is(a.tok-1, cLabel):
			return "", false // "Group 1 – 1 min"
		case t.low == "and" && a.decimals == 0 && b.decimals > 0 && c.is(a.tok-1, cLabel|cSettingWord):
			return "", false // "34.2 for size 25 and 61.7 for size 40"
		case t.sort == sign && strings.ContainsRune("–-−‐→", t.sign):
			joint += "-"
		case t.sort == sign && t.sign == '/':
			joint += "/"
		case t.sort == sign && strings.ContainsRune("<>≤≥=+", t.sign):
		case t.sort == sign && (t.sign == '&' || t.sign == '×'):
			joint += string(t.sign)
		case t.sort == word && (t.low == "and" || t.low == "or" || t.low == "then"):
			joint += "&"
		case t.sort == word && t.low == "to":
			joint += "-"
		case t.sort == word && (t.low == "versus" || t.low == "vs" || t.low == "v"):
			joint += "v"
		case t.sort == sign && t.sign == '.' && j > from && (c.low(j-1) == "vs" || c.low(j-1) == "v"):
		case t.sort == word && t.low == "from", t.sort == word && t.low == "compared", t.sort == word && t.low == "with" && joint != "", t.sort == word && t.low == "than":
			joint += "v"
		default:
			return "", false
		}
	}
	return joint, joint != ""
}

// back walks from a number over signs, fillers and the numbers of its list to
// the nearest word that is none of these, at most so many tokens away. It
// gives -1 where a stop or a bracket's end comes first.
func (c *context) back(i, most int, over class) int {
	for j, n := c.nums[i].tok-1, 0; j >= 0 && n < most; j, n = j-1, n+1 {
		t := &c.toks[j]
		switch {
		case t.sort == digits || c.of[j] >= 0, t.sort == raised:
		case (t.sign == '(' || t.sign == '[') && c.endsFigure(j-1):
			return -1 // a figure of its own stands before the bracket
		case t.sort == sign && strings.ContainsRune("=:<>≤≥~≈,-–−±+[(%°‘’'\"/⩽⩾`‐^¼\\˂˃‹›", t.sign):
		case t.sort == sign && t.sign == '.' && c.is(j-1, cLabel|cCiting|cAgainst) && !t.gap:
		case t.sort == sign:
			return -1
		case t.is&over != 0 && t.is&^(cFiller|cJoiner|cFunction|cOutcomeVerb|over) == 0:
		case t.sort == word:
			return j
		}
	}
	return -1
}

// endsFigure reports whether a number, with its unit, ends at a token.
func (c *context) endsFigure(j int) bool {
	for k, s := j, 0; k >= 0 && s < 4; k, s = k-1, s+1 {
		if x := c.of[k]; x >= 0 {
			return c.nums[x].end == j+1 && !(c.at(k).sort == digits && !c.at(k).gap && c.at(k-1).sort == word)
		}
	}
	return false
}

// near looks for a class within so many tokens on either side, in the same
// clause: a semicolon or a full stop ends it.
func (c *context) near(i int, k class, before, after int) int {
	n := &c.nums[i]
	for j, s := n.tok-1, 0; j >= 0 && s < before; j, s = j-1, s+1 {
		if c.is(j, k) {
			return j
		}
		if x := c.sign(j); x == ';' || x == '.' && c.at(j+1).gap && c.at(j+1).upper {
			break
		}
	}
	for j, s := n.end, 0; j < len(c.toks) && s < after; j, s = j+1, s+1 {
		if c.is(j, k) {
			return j
		}
		if x := c.sign(j); x == ';' || x == '.' && c.at(j+1).gap && c.at(j+1).upper {
			break
		}
	}
	return -1
}

// adjectival reports whether a number with its unit stands before the noun it
// belongs to: "1.0 mm wire", "a 90° stylet", "2.5 % hypochlorite". A figure
// that was found is followed by a stop, a preposition or a comparison.
func (c *context) adjectival(n *num) bool {
	if n.unitText == "" || n.lent {
		return false
	}
	t := c.at(n.end)
	if t.sort != word || t.is&(cFunction|cJoiner|cAgainst|cComparative|cWhen|cFate|cEnrol|cTime|cSet|cFiller|cFrom|cChangeNoun|cDiff|cInterval|cSpread|cTimes|cPeople|cSpecimen|cShare|cRegimen|cMean|cLasting|cBoundWord|cChangeVerb|cThreshold|cAge) != 0 {
		return false
	}
	switch t.low {
	case "away", "behind", "beyond", "below", "above", "across", "ago", "prior", "apart", "once", "off", "around", "towards", "higher", "significantly", "statistically", "long", "wide", "thick", "deep", "high", "tall":
		return false
	}
	return len(t.low) > 2
}

func (c *context) vote(i int, r Role, w float64, why string) { c.nums[i].ballot.For(r, w, why) }

// inBracket gives the bracket a number stands in directly, -1.
func (c *context) inBracket(i int) int { return c.toks[c.nums[i].tok].open }

// bracketHead is the number that stands before the bracket of number i, -1: in
// "105.6 [10.1]" the centre of the spread.
func (c *context) bracketHead(i int) int {
	b := c.inBracket(i)
	if b <= 0 {
		return -1
	}
	for k := i - 1; k >= 0 && k >= i-6; k-- {
		n := &c.nums[k]
		if t := c.at(n.tok); t.sort == digits && !t.gap && c.at(n.tok-1).sort == word {
			return -1 // part of a name
		}
		if n.end == b || n.end == b-1 && c.at(b-1).sort == word && !c.is(b-1, cPeople|cSpecimen|cEvent) || n.end == b-1 && c.at(b-1).sort == raised {
			return k
		}
		if n.tok < b && n.end < b-2 {
			return -1
		}
	}
	return -1
}
