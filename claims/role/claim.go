package role

import "strings"

// ofPercentClaim: "14 % more", "fell by 65 %", "a 17 % (95 % CI …) reduction",
// "torque ↓ 12 %", "3 percentage points".
func ofPercentClaim(c *context, i int) {
	n := &c.nums[i]
	if !n.pct {
		return
	}
	if among(c.low(n.end), "point", "points") {
		c.vote(i, Percent, 9, "percentage points")
		return
	}
	if c.changeFollows(i) {
		c.vote(i, Percent, 7, "more or less by so much")
	}
	if b := n.end; c.opens(b) && c.at(b).shut > 0 && c.anyOf(c.at(b).shut+1, 3, cChangeNoun|cComparative) {
		c.vote(i, Percent, 6, "more or less by so much")
	}
	c.percentBehind(i)
	if c.sign(n.tok-1) == '(' && c.bracketHead(i) == nil && c.is(n.tok-2, cChangeNoun|cComparative) && n.rel == 0 && c.at(c.inBracket(i)).shut == n.end {
		c.vote(i, Percent, 2.5, "in brackets behind words of change")
	}
	if n.rel == 0 && c.clauseStart(i, cDiff|cChangeNoun) && !among(c.low(n.tok-1), "from", "to") && !c.fromTo(n) {
		c.vote(i, Percent, 2.5, "the sentence speaks of changes")
	}
}

// changeFollows: "39 % statistically significantly lower"; what goes "from 100
// % to 95 % much faster" is no claim of so much.
func (c *context) changeFollows(i int) bool {
	n := &c.nums[i]
	if c.fromTo(n) {
		return false
	}
	for j := n.end; j < n.end+3; j++ {
		if c.is(j, cComparative|cChangeNoun|cDiff) && c.at(j).sort == word {
			return true
		}
		if c.at(j).sort != word || c.is(j, cJoiner|cAgainst) || among(c.low(j), "of", "in") {
			return false
		}
	}
	return false
}

// anyOf: one of so many tokens is of a class.
func (c *context) anyOf(j, most int, k class) bool {
	for s := range most {
		if c.is(j+s, k) {
			return true
		}
	}
	return false
}

// percentBehind: what the words before a percentage make of it.
func (c *context) percentBehind(i int) {
	n := &c.nums[i]
	k := c.back(i, 6, cFiller)
	one, left := c.low(n.tok-1), c.left(n)
	switch {
	case among(one, "up", "down") && !c.is(n.tok-1, cBoundWord):
		c.vote(i, Percent, 5, "up or down by so much")
	case c.low(left) == "by" || c.low(k) == "by":
		if c.low(n.end) != "of" || c.near(i, cPeople|cSpecimen, 0, 6) < 0 { // "reported by 79 % of women"
			c.vote(i, Percent, 6, "by so much")
		}
	case c.arrow(n):
		c.vote(i, Percent, 6, "behind an arrow up or down")
	case c.is(left, cDiff|cChangeNoun), one == "to" && c.is(n.tok-3, cChangeNoun) && c.is(n.tok-2, cChangeVerb), one == "of" && c.is(n.tok-2, cChangeNoun|cDiff):
		c.vote(i, Percent, 5, "a change of so much")
	case among(one, "another", "additional", "further"):
		c.vote(i, Percent, 3, "so much more")
	case one == "of" && c.low(n.tok-2) == "and" && (i > 0 && c.nums[i-1].ballot.Score(Percent) > 4 || i > 1 && c.nums[i-2].ballot.Score(Percent) > 4):
		c.vote(i, Percent, 5, "goes on with a change of so much")
	case c.changeInOf(i):
		c.vote(i, Percent, 4, "a change of so much")
	case c.is(k, cChangeVerb) && !c.is(k, cFrom):
		c.vote(i, Percent, 3, "behind a verb of change")
	case n.signed:
		c.vote(i, Percent, 3.5, "a signed percentage")
	}
}

// ofPercentLevel: "a mean of 54 %", "54.0 ± 12.2 %".
func ofPercentLevel(c *context, i int) {
	n := &c.nums[i]
	if n.pct && !among(c.low(n.end), "point", "points") && (c.sign(n.end) == '±' || c.sign(n.last+1) == '±' || c.near(i, cMean, 5, 0) >= 0) {
		c.vote(i, Level, 3, "a mean with its spread")
	}
}

// ofShare: "14 % of the patients", "65 % (n = 58)", "66 % reporting", "the
// success rate was 91 %".
func ofShare(c *context, i int) {
	n := &c.nums[i]
	if !n.pct || among(c.low(n.end), "point", "points") {
		return
	}
	if c.low(n.end) == "of" && c.near(i, cPeople|cSpecimen, 0, 6) >= 0 || c.is(n.end, cPeople|cSpecimen) {
		c.vote(i, Share, 4, "a percentage of people or specimens")
	}
	if c.sign(n.end) == '(' && c.is(n.end+1, cSize) {
		c.vote(i, Share, 5, "a percentage with its n")
	}
	if w := c.low(n.end); strings.HasSuffix(w, "ing") && len(w) > 5 && c.at(n.end).is&^cFate == 0 {
		c.vote(i, Share, 2.5, "of whom something is told")
	}
	if c.near(i, cShare, 14, 4) >= 0 {
		c.vote(i, Share, 1.5, "near words of a rate")
	}
	if c.compared(n) {
		c.vote(i, Share, 1.2, "one of two percentages that are compared")
	}
}

// ofTimes: "2.3-fold", "1.8 times longer", "3x faster", "by a factor of 1.9",
// "two to three times".
func ofTimes(c *context, i int) {
	n := &c.nums[i]
	next := c.skipHyphen(n.last + 1)
	switch x := c.raw(n.last + 1); {
	case c.is(next, cTimes) && strings.HasPrefix(c.low(next), "fold"):
		c.vote(i, Ratio, 9, "so many fold")
	case c.low(next) == "times":
		c.vote(i, Ratio, c.timesWeight(i, next), "so many times")
	case among(x, "×", "x", "X") && c.num(n.last+2) == nil:
		c.vote(i, Ratio, 5, "so many times")
	}
	if k := c.back(i, 4, cFiller); c.low(k) == "factor" {
		c.vote(i, Ratio, 8, "a factor of so much")
	}
	if n.next >= 0 && c.nums[n.next].joint == "-" && c.is(c.skipHyphen(c.nums[n.next].last+1), cTimes) {
		c.vote(i, Ratio, 7, "a range of so many times")
	}
}

// timesWeight: "5 times longer" compares, "used 5 times" counts.
func (c *context) timesWeight(i, times int) float64 {
	n := &c.nums[i]
	w := 1.5
	if c.is(times+1, cComparative) || among(c.low(times+1), "as", "the", "that", "between") {
		w = 8
	} else if c.near(i, cComparative|cDiff, 5, 6) >= 0 && c.low(n.tok-1) != "than" {
		w = 4
	}
	if c.is(n.tok-1, cComparative|cFate) && c.low(n.tok-1) != "lasted" {
		w -= 2
	}
	return w
}

// ofPart: "twice as long", "a fivefold difference", "halved", "a quarter of
// that", "half of the teeth", "two thirds".
func ofPart(c *context, i int) {
	n := &c.nums[i]
	if !n.word {
		return
	}
	next := c.skipHyphen(n.last + 1)
	switch low := c.low(n.tok); {
	case c.is(next, cTimes):
	case strings.HasSuffix(low, "fold"):
		c.vote(i, Ratio, 9, "so many fold")
	case among(low, "twice", "thrice") && !c.is(next, cRegimen) && (among(c.low(next), "as", "that", "the") || c.is(next, cComparative)):
		c.vote(i, Ratio, 8, "twice as much")
	case among(low, "doubled", "tripled", "halved"):
		c.vote(i, Ratio, 5, "a verb of so many times")
	case c.is(n.tok, cRatioWord) && low != "once" && low != "twice":
		if c.low(next) == "of" && c.near(i, cPeople|cSpecimen|cLabel, 0, 7) >= 0 || c.near(i, cPeople|cSpecimen, 0, 4) >= 0 {
			c.vote(i, Share, 4, "a part of people or specimens")
		} else {
			c.vote(i, Ratio, 4, "a part or a multiple")
		}
	}
	if n.last > n.tok {
		c.vote(i, Ratio, 4, "a part")
	}
}

// ofChange: "a decrease of 1.15 kg", "mean difference −0.60", "fell by 2.1 N",
// "Δ = 5.3", "a decrease in triglycerides and cholesterol of 53.3 mg/dl".
func ofChange(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.rel == '±' || n.word && c.low(n.tok) != "one" {
		return
	}
	figure := n.decimals > 0 || n.unitText != ""
	k, left := c.back(i, 6, cFiller), c.left(n)
	switch {
	case c.is(k, cDiff|cChangeNoun) && (figure || n.signed || n.rel == '=') && !c.is(k, cSettingWord):
		c.vote(i, Change, 5, "behind a change or difference")
	case among(c.low(n.tok-1), "up", "down") && figure && c.near(i, cChangeVerb|cChangeNoun, 25, 0) >= 0:
		c.vote(i, Change, 6, "up or down by so much")
	case c.byHead(n) && (c.near(i, cChangeVerb|cChangeNoun|cComparative, 25, 0) >= 0 || n.decimals > 0):
		c.vote(i, Change, 6, "by so much")
	case c.changeInOf(i):
		c.vote(i, Change, 4.5, "a change of so much")
	case c.arrow(n) && figure:
		c.vote(i, Change, 4, "behind an arrow up or down")
	case n.signed && figure:
		w := 2.5
		if c.near(i, cDiff|cChangeNoun|cChangeVerb, 25, 6) >= 0 {
			w = 4.5
		}
		c.vote(i, Change, w, "a signed figure")
	case c.is(k, cChangeVerb) && n.unitText != "" && c.low(k) != "raised" && !among(c.low(left), "to", "from"):
		c.vote(i, Change, 2, "behind a verb of change")
	}
	if n.decimals > 0 && c.clauseStart(i, cDiff|cChangeNoun) && !among(c.low(left), "from", "to") && !c.fromTo(n) {
		c.vote(i, Change, 4.2, "the sentence speaks of changes")
	}
}

// ofMoreOrLess: "4.2 points more", "5.2 MPa lower", "0.4 mm per side thicker".
func ofMoreOrLess(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.rel == '±' || n.word && c.low(n.tok) != "one" || c.longTime(n) || n.decimals == 0 && n.unitText == "" {
		return
	}
	if c.is(n.end, cComparative) || c.low(n.end) == "per" && c.is(n.end+2, cComparative) {
		c.vote(i, Change, 5.5, "more or less by so much")
	}
}

// arrow: "torque ↓ 12 %".
func (c *context) arrow(n *num) bool {
	switch c.sign(n.tok - 1) {
	case '↑', '↓', '▲', '▼':
		return true
	}
	return false
}

// byHead: a number behind "by" or "by more than", or in a list that stands
// there: "by 0.21, 0.18 and 0.12 mm".
func (c *context) byHead(n *num) bool {
	for s := 0; n.prev >= 0 && s < longList; s++ {
		p := &c.nums[n.prev]
		if strings.Contains(n.joint, "v") || p.pct != n.pct {
			return false
		}
		n = p
	}
	j := c.left(n)
	for s := 0; s < 3 && c.is(j, cBoundWord|cFiller); s++ {
		j--
	}
	return c.low(j) == "by"
}

// changeInOf: a change "in" something "of" so much.
func (c *context) changeInOf(i int) bool {
	j := c.left(c.headOfList(i))
	if c.low(j) != "of" {
		return false
	}
	for s := 0; s < 14 && j > 0; s++ {
		j--
		if x := c.sign(j); c.num(j) != nil || x == ';' || x == '.' || x == ')' || x == '(' {
			return false
		}
		if c.is(j, cChangeNoun|cDiff) {
			return among(c.low(j+1), "in", "of", "between")
		}
	}
	return false
}

// fromTo: one of "from 3.45 to 2.15".
func (c *context) fromTo(n *num) bool {
	for j, s := n.tok-1, 0; j >= 0 && s < 8; j, s = j-1, s+1 {
		if c.low(j) == "from" {
			return true
		}
		if x := c.sign(j); x == ';' || x == ')' && s < 2 {
			return false
		}
	}
	return false
}

// clauseStart: the subject of the number's clause, before its verb, is of such
// a class: "Average changes … were 3.9 and 0.5", "(mean increment: 4.11 …)".
func (c *context) clauseStart(i int, k class) bool {
	verb, start := c.verbBefore(c.nums[i].tok)
	if b := c.inBracket(i); verb < 0 || b > verb {
		return b >= 0 && c.anyOf(b+1, 3, k)
	}
	for m, s := verb-1, 0; m > start && s < 14; m, s = m-1, s+1 {
		if c.is(m, k) && (k != cStatistic || c.at(m).end-c.at(m).start > 3) {
			return true
		}
		if x := c.num(m); c.sign(m) == ',' || x != nil && (x.decimals > 0 || x.unitText != "") && x.ballot.Score(Name) < 5 && x.ballot.Score(P) < 8 {
			return false
		}
	}
	return false
}

// verbBefore finds the nearest form of "to be" before a token, -1, and the stop
// before the clause.
func (c *context) verbBefore(tok int) (verb, start int) {
	verb = -1
	j := tok - 1
	for s := 0; j >= 0 && s < 40; j, s = j-1, s+1 {
		if x := c.sign(j); x == ';' || x == '.' && c.at(j+1).gap {
			break
		}
		if verb < 0 && among(c.low(j), "was", "were", "is", "are") {
			verb = j
		}
	}
	return verb, j
}
