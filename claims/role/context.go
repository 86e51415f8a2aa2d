package role

import (
	"slices"
	"strings"
)

// Walks along a list or within a bracket end after so many numbers or tokens,
// so that time grows with the length of a text; no list of means is as long.
const (
	longList    = 40
	longBracket = 200
)

// context is a text with its numbers.
type context struct {
	text string
	toks []tok
	nums []num
	of   []int // by token: the number that begins there, -1
}

// newContext reads the numbers of a text, their units and their lists.
func newContext(text string, l *lexicon) *context {
	c := &context{text: text, toks: lex(text, l)}
	c.of = make([]int, len(c.toks))
	for i := range c.of {
		c.of[i] = -1
	}
	for i := 0; i < len(c.toks); i++ {
		if n, ok := c.number(i); ok {
			n.index = len(c.nums)
			c.of[i] = n.index
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

// vote gives a number a reason for a role.
func (c *context) vote(i int, r Role, w float64, why string) { c.nums[i].ballot.For(r, w, why) }

// at is a token, an empty one outside the text.
func (c *context) at(i int) *tok {
	if i < 0 || i >= len(c.toks) {
		return &noTok
	}
	return &c.toks[i]
}

// is reports whether a token is of a class, of one of several.
func (c *context) is(i int, k class) bool { return c.at(i).is&k != 0 }

// low is the word of a token in lower case, "" of signs and numbers.
func (c *context) low(i int) string { return c.at(i).low }

// sign is the sign of a token, 0 of words and numbers.
func (c *context) sign(i int) rune { return c.at(i).sign }

// raw is the text of a token.
func (c *context) raw(i int) string { t := c.at(i); return c.text[t.start:t.end] }

// num is the number that begins at a token, nil where none does.
func (c *context) num(j int) *num {
	if j < 0 || j >= len(c.of) || c.of[j] < 0 {
		return nil
	}
	return &c.nums[c.of[j]]
}

// left is the token before a number and its sign.
func (c *context) left(n *num) int {
	if n.signed {
		return n.tok - 2
	}
	return n.tok - 1
}

// opens: an opening bracket.
func (c *context) opens(j int) bool { return c.sign(j) == '(' || c.sign(j) == '[' }

// hyphen: a hyphen or dash without space before it.
func (c *context) hyphen(j int) bool {
	s := c.sign(j)
	return (s == '-' || s == '‐' || s == '–') && !c.at(j).gap
}

// among reports whether a word is one of some.
func among(w string, words ...string) bool { return slices.Contains(words, w) }

// back walks from a number over signs, fillers and the numbers of its list to
// the nearest word that is none of these, at most so many tokens away. It
// gives -1 where a stop or a bracket's end comes first.
func (c *context) back(i, most int, over class) int {
	for j, n := c.nums[i].tok-1, 0; j >= 0 && n < most; j, n = j-1, n+1 {
		t := &c.toks[j]
		switch {
		case t.sort == digits, t.sort == raised, c.of[j] >= 0:
		case (t.sign == '(' || t.sign == '[') && c.endsFigure(j-1):
			return -1 // a figure of its own stands before the bracket
		case t.sort == sign && strings.ContainsRune("=:<>≤≥~≈,-–−±+×[(%°‘’'\"/⩽⩾`‐^¼\\˂˃‹›", t.sign):
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
// clause: a semicolon or a full stop ends it. -1: none.
func (c *context) near(i int, k class, before, after int) int {
	n := &c.nums[i]
	for j := n.tok - 1; j >= max(0, n.tok-before); j-- {
		if c.is(j, k) {
			return j
		}
		if c.stops(j) {
			break
		}
	}
	for j := n.end; j < min(len(c.toks), n.end+after); j++ {
		if c.is(j, k) {
			return j
		}
		if c.stops(j) {
			break
		}
	}
	return -1
}

// stops: a semicolon, or the full stop of a sentence.
func (c *context) stops(j int) bool {
	s := c.sign(j)
	return s == ';' || s == '.' && c.at(j+1).gap && c.at(j+1).upper
}

// notNouns are the classes of words that do not follow a number as the noun it
// belongs to.
const notNouns = cFunction | cJoiner | cAgainst | cComparative | cWhen | cFate | cEnrol | cTime | cSet | cFiller | cFrom | cChangeNoun | cDiff | cInterval | cSpread | cTimes |
	cPeople | cSpecimen | cShare | cRegimen | cMean | cLasting | cBoundWord | cChangeVerb | cThreshold | cAge | cGrade

// adjectival reports whether a number with its unit stands before the noun it
// belongs to: "1.0 mm wire", "a 90° stylet", "2.5 % hypochlorite". A figure
// that was found is followed by a stop, a preposition or a comparison.
func (c *context) adjectival(n *num) bool {
	t := c.at(n.end)
	return n.unitText != "" && !n.lent && t.sort == word && t.is&notNouns == 0 && len(t.low) > 2
}

// inBracket gives the bracket a number stands in directly, -1.
func (c *context) inBracket(i int) int { return c.toks[c.nums[i].tok].open }

// bracketHead is the number that stands before the bracket of number i: in
// "105.6 [10.1]" the centre of the spread. nil: none.
func (c *context) bracketHead(i int) *num {
	b := c.inBracket(i)
	if b <= 0 {
		return nil
	}
	for k := i - 1; k >= 0 && k >= i-6; k-- {
		n := &c.nums[k]
		switch {
		case c.toks[n.tok].sort == digits && c.gluedToWord(n):
			return nil // part of a name
		case n.end == b, n.end == b-1 && (c.at(b-1).sort == raised || c.at(b-1).sort == word && !c.is(b-1, cPeople|cSpecimen|cEvent)):
			return n
		case n.tok < b && n.end < b-2:
			return nil
		}
	}
	return nil
}
