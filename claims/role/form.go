package role

// ofForm: what the shape of a number alone says.
func ofForm(c *context, i int) {
	n := &c.nums[i]
	switch {
	case n.word && !c.is(n.tok, cRatioWord) && !n.pct:
		c.vote(i, Other, 1.5, "a number word")
	case n.colon && n.value > 0 && c.near(i, cTime|cMean, 12, 6) >= 0:
		c.vote(i, Level, 3.5, "minutes and seconds")
		c.vote(i, Clock, 2, "minutes and seconds")
	case n.colon:
		c.vote(i, Clock, 3, "a time of day, or a proportion")
		if n.value < 600 {
			c.vote(i, Dose, 2, "a proportion")
		}
	case n.pct:
		c.vote(i, Share, 1, "a percentage")
	case n.decimals > 0:
		c.vote(i, Level, 1.5, "a decimal figure")
	case n.unitText != "":
		c.vote(i, Level, .8, "a figure with its unit")
	default:
		c.vote(i, Other, .4, "a bare whole number")
		c.vote(i, Level, .3, "a figure")
	}
}

// ofProportion: "1:100,000", "allocated 2:1".
func ofProportion(c *context, i int) {
	n := &c.nums[i]
	side := func(j int) bool {
		return c.sign(j) == ':' && !c.at(j).gap && !c.at(j+1).gap && c.at(j-1).sort == digits && c.at(j+1).sort == digits
	}
	if n.decimals > 0 || !side(n.tok-1) && !side(n.last+1) {
		return
	}
	c.vote(i, Dose, 3, "one side of a proportion")
	if c.near(i, cEnrol, 8, 8) >= 0 || c.near(i, cPart, 0, 4) >= 0 {
		c.vote(i, Other, 4, "one side of a proportion")
	}
}

// ofMoney: "€18.50", "US$ 21", "CHF 84".
func ofMoney(c *context, i int) {
	n := &c.nums[i]
	if s := c.sign(n.tok - 1); s == '$' || s == '€' || s == '£' || s == '¥' || n.unit == cMoney || c.is(n.tok-1, cMoney) {
		c.vote(i, Money, 9, "an amount of money")
	}
}

// ofExponent: the 2 of "mm2", the −1 of "min−1", the −5 of "p < 10^−5".
func ofExponent(c *context, i int) {
	n := &c.nums[i]
	t := c.at(n.tok - 1)
	glued := !c.at(n.tok).gap
	minus := t.sort == sign && (t.sign == '−' || t.sign == '-') && !t.gap && glued
	if t.sort == word && glued && c.is(n.tok-1, cLength) && (n.value == 2 || n.value == 3) && n.tok > 1 && c.at(n.tok-2).sort != word {
		c.vote(i, Other, 14, "an exponent")
	}
	if minus && t.sign == '−' && c.at(n.tok-2).sort == word && n.decimals == 0 && n.value < 4 && n.value > -4 {
		c.vote(i, Other, 11, "an exponent")
	}
	if minus && c.is(n.tok-2, cUnit|cTime|cSet) && n.decimals == 0 && n.value < 5 {
		c.vote(i, Other, 9, "an exponent")
	}
	if base := c.raisedOver(n); base >= 0 {
		switch m := c.num(base); {
		case m != nil && m.ballot.Score(P) > 5:
			c.vote(i, P, 12, "the power of a p value")
		case c.is(base, cUnit|cTime|cSet) && n.value < 4, c.at(base).sort == digits && !c.at(base+1).gap:
			c.vote(i, Other, 12, "an exponent")
		}
	}
}

// raisedOver is the token a number is raised behind, "^2" or "^−5"; -1.
func (c *context) raisedOver(n *num) int {
	if c.sign(n.tok-1) == '^' {
		return n.tok - 2
	}
	if s := c.sign(n.tok - 1); (s == '−' || s == '-') && c.sign(n.tok-2) == '^' {
		return n.tok - 3
	}
	return -1
}

// ofListMark: "(1) … (2) …", "1) …", "1 = relaxed", "the two groups", "11th",
// "80 % power".
func ofListMark(c *context, i int) {
	n := &c.nums[i]
	next := n.last + 1
	if b := c.inBracket(i); b >= 0 && c.at(b).shut == next && n.tok == b+1 && n.decimals == 0 && !n.word && n.value < 10 && c.at(next+1).sort == word && (b == 0 || c.sign(b-1) != 0 || c.low(b-1) == "and") {
		c.vote(i, Other, 5, "the number of an item")
	}
	if c.sign(next) == ')' && c.inBracket(i) < 0 && n.decimals == 0 && n.value < 20 {
		c.vote(i, Other, 6, "the number of an item")
	}
	if c.sign(next) == '=' && n.decimals == 0 && c.at(next+1).sort == word && n.rel == 0 && c.at(n.tok-1).sort != word {
		c.vote(i, Other, 4, "a code with its meaning")
	}
	if n.decimals == 0 && n.unitText == "" && n.value < 20 && c.sign(next) != ')' && c.countsParts(n) {
		c.vote(i, Other, 4, "how many groups or parts")
	}
	if c.ordinal(n) {
		c.vote(i, Other, 9, "an ordinal")
	}
	if n.pct && c.near(i, cPower, 3, 3) >= 0 && c.near(i, cAlpha|cSize, 30, 30) >= 0 || n.value < 1 && n.decimals > 0 && n.unitText == "" && c.is(c.back(i, 4, cFiller), cPower) {
		c.vote(i, Other, 5, "the power of a test")
	}
}

// countsParts: "three different irrigation methods".
func (c *context) countsParts(n *num) bool {
	for j := n.last + 1; j < n.last+5; j++ {
		if c.is(j, cPart) {
			return true
		}
		if c.at(j).sort != word || c.is(j, cTime|cSet|cPeople|cJoiner|cAgainst) {
			return false
		}
	}
	return false
}

// ordinal: "11th", "17^th".
func (c *context) ordinal(n *num) bool {
	j := n.last + 1
	if c.sign(j) == '^' {
		j++
	}
	return !c.at(j).gap && among(c.raw(j), "th", "st", "nd", "rd")
}
