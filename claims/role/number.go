package role

import (
	"math"
	"strconv"
	"strings"

	"probity/claims/reading"
)

// num is a number under reading.
type num struct {
	index     int // among the numbers of the text
	tok, last int // its first and last token
	end       int // token after its unit
	value     float64
	decimals  int
	word      bool
	negative  bool
	signed    bool   // a plus or minus belongs to it
	pct       bool   // of per cent
	unit      class  // of the unit behind it
	unitText  string // as printed
	dimension bool   // the unit is one of length or force
	lent      bool   // the unit stands behind a later number of its list
	rel       rune   // the < > ≤ ≥ = ~ ± before it, 0 none
	colon     bool   // 1:42
	prev      int    // the number it follows in a list, -1
	next      int
	head      int // the first and the last number of its list: itself where it stands alone
	foot      int
	joint     string // what joins it to prev: ",", "-", "v", "/", "&", "×"
	ballot    reading.Ballot[Role]
}

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

// isFraction: the "third" of "one third", the "halves" of "two halves".
func isFraction(low string) bool { v := numberWords[low]; return v > 0 && v < 1 && low != "halved" }

// skipHyphen steps over a hyphen: "two-thirds", "2.3-fold".
func (c *context) skipHyphen(i int) int {
	if s := c.sign(i); s == '-' || s == '‐' || s == '–' {
		return i + 1
	}
	return i
}

// countsAsNumber: "that one", "the third molar", "in one" are none.
func (c *context) countsAsNumber(i int) bool {
	next, before := c.at(i+1), c.at(i-1)
	switch c.low(i) {
	case "one":
		return !among(before.low, "this", "that", "the", "which", "no", "any", "each", "every", "another", "latter", "former", "other", "rotary", "manual", "new") &&
			!among(next.low, "another", "should", "can", "may", "must", "wants")
	case "third", "fifth", "tenth":
		return before.low == "one" || before.low == "a" && (next.low == "of" || next.is&cComparative != 0) || before.low == "by" && c.at(i-2).low != ""
	case "thirds", "fifths", "halves", "quarters":
		return false // said with the number before it
	case "quarter":
		return before.low == "a" || before.low == "one"
	}
	return true
}

// parse reads a numeral: its value, its decimals, and whether it is minutes and
// seconds, which it gives in seconds.
func parse(s string) (v float64, decimals int, colon bool) {
	if min, sec, ok := strings.Cut(s, ":"); ok {
		m, _ := strconv.ParseFloat(min, 64)
		v, _ = strconv.ParseFloat(sec, 64)
		return 60*m + v, 0, true
	}
	comma, stop := strings.LastIndexByte(s, ','), strings.LastIndexFunc(s, pointRune)
	decimalComma := comma > stop && (stop >= 0 || len(s)-comma-1 != 3 || strings.HasPrefix(s, "0,"))
	var b strings.Builder
	point := false
	for i, r := range s {
		switch {
		case isDigit(r):
			b.WriteRune(r)
			if point {
				decimals++
			}
		case r == ',' && decimalComma && i == comma, pointRune(r) && !decimalComma:
			b.WriteByte('.')
			point = true
		}
	}
	v, _ = strconv.ParseFloat(b.String(), 64)
	if math.IsInf(v, 0) {
		v = 0
	}
	return v, decimals, false
}

// signs reads what stands before a number: its sign and its relation.
func (c *context) signs(n *num) {
	i := n.tok - 1
	if s := c.sign(i); s != 0 && c.signOf(n, i) {
		n.signed = true
		if s != '+' {
			n.negative, n.value = true, -n.value
		}
		i--
	}
	if s := c.sign(i); s != 0 && strings.ContainsRune("<>≤≥⩽⩾=~≈∼±∓˂˃", s) {
		n.rel = s
		if b := c.sign(i - 1); s == '=' && (b == '<' || b == '>') {
			n.rel = b
		}
	}
	c.plusMinus(n, i)
}

// signOf: the sign at a token is that of the number behind it, and no hyphen
// or dash between two numbers.
func (c *context) signOf(n *num, i int) bool {
	s, b := c.sign(i), c.at(i-1)
	if c.toks[n.tok].gap {
		return s == '−' && b.sort == sign && b.sign != ')' && b.sign != '%'
	}
	if s != '-' && s != '−' && s != '–' && s != '+' && s != '‐' {
		return false
	}
	if !c.at(i).gap && i > 0 && !(b.sort == sign && strings.ContainsRune("(=[:<>,≤≥−~", b.sign)) {
		return false
	}
	return !(s == '-' && b.sign == '/')
}

// plusMinus: "+/- 1.2", "+- 1.2", "+/−1.2" are ±.
func (c *context) plusMinus(n *num, i int) {
	one, two := c.sign(i), c.sign(i-1)
	if one == '-' && two == '/' && c.sign(i-2) == '+' || (one == '/' || one == '-') && two == '+' || n.signed && !n.negative && c.sign(n.tok-2) == '/' {
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
	if c.hyphen(j) && c.at(j+1).sort == word && !c.at(j+1).gap {
		j++ // "8-week"
	}
	t := c.at(j)
	switch {
	case t.sort == word && !t.gap && j == n.last+1 && (c.is(n.tok-1, cLabel) || c.sign(n.tok-1) == '.' && c.is(n.tok-2, cLabel)):
		// "Fig. 2b"
	case t.sign == '%', t.sign == '％', t.low == "percent", t.low == "percentage" && strings.HasPrefix(c.low(j+1), "point"):
		n.pct, n.unitText, n.end = true, "%", j+1
	case t.low == "per" && c.low(j+1) == "cent":
		n.pct, n.unitText, n.end = true, "%", j+2
	case t.sign == '°', t.sign == 'º':
		n.unit, n.unitText, n.end = cSet, "°", j+1
		if w := c.raw(j + 1); w == "C" || w == "F" {
			n.unitText, n.end = "°"+w, j+2
		}
	case t.sign == '€', t.sign == '$', t.sign == '£':
		n.unit, n.unitText, n.end = cMoney, string(t.sign), j+1
	case t.sort == word:
		c.unitWord(n, j)
	}
}

// unitWord reads a unit of letters: "s", "MPa", "mg/dl", "N·cm", "mm^2".
func (c *context) unitWord(n *num, j int) {
	t := c.at(j)
	k := t.is & (cTime | cSet | cMoney)
	if k != 0 {
		t.is = k | t.is&(cLasting|cAge|cCalendar|cWhen|cUnit|cLength|cForce|cEnergy) // "12 min" is no minimum, "30 s" no SD
	}
	if k&cTime != 0 && among(c.raw(j), "H", "D", "S") {
		k = 0
	}
	letter := t.end-t.start == 1 && c.hyphen(j+1) && c.at(j+2).sort == word && t.is&cTime == 0 // "15 K-file"
	if k == 0 && t.is&cUnit == 0 || letter {
		return
	}
	n.unit, n.unitText, n.end, n.dimension = k, c.raw(j), j+1, t.is&(cLength|cForce|cEnergy) != 0
	if n.unit == 0 && c.sign(n.end) == '%' {
		n.unitText, n.end = n.unitText+"%", n.end+1 // "vol%"
	}
	for c.sign(n.end) == '/' && c.at(n.end+1).sort == word {
		c.per(n, j)
	}
	if s := c.sign(n.end); (s == '·' || s == '.' || s == '∙' || s == '⋅') && !c.at(n.end).gap && c.is(n.end+1, cUnit) && !c.at(n.end+1).gap {
		n.unitText += "·" + c.raw(n.end+1)
		n.end, n.dimension = n.end+2, false
	}
	if t := c.at(n.end); t.sort == digits && !t.gap && among(c.raw(n.end), "2", "3") && c.is(n.end-1, cLength) {
		n.end++ // "cm2"
	}
	for c.sign(n.end) == '^' || c.at(n.end).sort == raised {
		n.end++
		if c.at(n.end).sort == digits && c.sign(n.end-1) == '^' {
			n.end++
		}
	}
}

// per goes on with a unit: what is counted per litre, gram or length is
// measured, energy per area is given.
func (c *context) per(n *num, first int) {
	n.unitText += "/" + c.raw(n.end+1)
	energy := c.is(first, cEnergy)
	switch by := n.end + 1; {
	case n.unit == cTime:
		n.unit = 0
	case energy && c.is(by, cLength):
		n.unit = cSet
	case n.unit == cSet && c.is(by, cMeasuredPer):
		n.unit = 0
	}
	c.toks[n.end+1].is &= cUnit | cLength | cSet | cTime // the s of "mm/s" is no SD
	n.end, n.dimension = n.end+2, false
}
