package role

import "strings"

// ofSpread: "± 1.2", "SD 25.2", "105.6 [10.1]" under "mean [SEM]".
func ofSpread(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.rel == '∓' {
		c.vote(i, Spread, 12, "behind ±")
		return
	}
	if c.gluedToWord(n) {
		return // "S1" is a name
	}
	if k := c.back(i, 6, cFiller|cJoiner); c.is(k, cSpread) && c.sign(k-1) != '±' && c.spreadAt(k, n) {
		c.vote(i, Spread, 10, "behind SD, SE or CV")
		return
	}
	if c.plusForSpread(i) {
		c.vote(i, Spread, 8, "behind a plus that stands for ±")
	}
	if head := c.bracketHead(i); head != nil && !n.word && (n.unitText == "" || n.unitText == head.unitText) && n.rel == 0 && c.aloneInBracket(n) {
		c.spreadOf(n, head)
	}
}

// plusForSpread: "(3.45 + 0.51)".
func (c *context) plusForSpread(i int) bool {
	n := &c.nums[i]
	b := c.inBracket(i)
	return b > 0 && (n.signed && !n.negative || c.sign(n.tok-1) == '+') && i > 0 && c.inBracket(i-1) == b && c.nums[i-1].end == n.tok-1 && n.decimals > 0 &&
		(c.bracketHead(i) == nil || n.word || n.rel != 0)
}

// aloneInBracket: a number fills its bracket.
func (c *context) aloneInBracket(n *num) bool {
	b := c.toks[n.tok].open
	return b >= 0 && b+1 == n.tok && c.at(b).shut == n.end
}

// spreadOf: a number alone in the bracket behind another.
func (c *context) spreadOf(n, head *num) {
	i, shut := n.index, n.end
	switch {
	case head.unit == cTime && head.decimals == 0 && n.decimals > 0: // "at 4 weeks (1.9)"
		c.vote(i, Level, 2, "in brackets behind a time")
	case head.word || head.value == 0 && head.decimals == 0:
	case c.is(head.tok-1, cLabel) && head.decimals == 0 && !c.is(head.tok-1, cSpread):
	case n.pct && !head.pct:
	case c.spreadNamed(n):
		c.vote(i, Spread, 8, "in brackets, and the text names an SD or SE")
	case n.decimals > 0 && head.decimals > 0:
		c.vote(i, Spread, 5, "in brackets behind a decimal figure")
	case n.decimals > 0 || head.decimals > 0:
		c.vote(i, Spread, 2.5, "in brackets behind a figure")
	case c.goesOn(shut):
		c.vote(i, Spread, 3, "in brackets between a figure and its unit or its rival")
	case head.unitText != "" && !head.pct:
		c.vote(i, Spread, 2, "in brackets behind a figure")
	}
}

// goesOn: a unit, "vs" or "and" with a further figure follows a bracket.
func (c *context) goesOn(shut int) bool {
	j := shut + 1
	return c.at(j).sort == word && c.is(j, cUnit|cSet|cTime) || c.is(j, cAgainst) && (c.at(j+1).sort == digits || c.at(j+2).sort == digits)
}

// spreadAt: no other number but those of one list stands between the mark at
// k and the number.
func (c *context) spreadAt(k int, n *num) bool {
	between := 0
	for j := k + 1; j < n.tok; j++ {
		if c.num(j) != nil {
			between++
		}
		if s := c.sign(j); s == ')' || s == ';' || between > 0 && (s == '(' || s == '[') {
			return false
		}
	}
	return between == 0 || n.prev >= 0 && c.nums[n.prev].ballot.Score(Spread) > 5 && !strings.Contains(n.joint, "v")
}

// spreadNamed: the words "(SD)" or "mean [SEM]" stand in the text.
func (c *context) spreadNamed(n *num) bool {
	for j := max(0, n.tok-40); j < min(len(c.toks), n.tok+60); j++ {
		if c.is(j, cSpread) && !among(c.raw(j), "s", "S", "se") {
			return true
		}
	}
	return false
}

// ofRange: "IQR 81–120", "range 39.5–58.2", "9.25 [7.3–13.2]", "Q1 0.4; Q3
// 1.1", "ranged from 16.3 to 23.1", "a 0–10 scale".
func ofRange(c *context, i int) {
	n := &c.nums[i]
	c.behindRange(i)
	if h := c.bracketHead(i); h != nil && c.pairFollows(h) && h.ballot.Score(Effect) < 5 && h.end == c.inBracket(i) {
		if c.intervalsHere(n) {
			c.vote(i, Bound, 4.5, "a pair in brackets, as before a confidence interval")
		} else {
			c.vote(i, RangeEnd, 4.5, "a pair in brackets behind a figure")
		}
	}
	if c.quartileNamed(n) {
		c.vote(i, RangeEnd, 6, "behind the name of a quartile")
	}
	if c.rangesFromTo(i) {
		c.vote(i, RangeEnd, 6, "an end of what ranges from so much to so much")
	}
	if c.endOfScale(i) {
		c.vote(i, RangeEnd, 6, "an end of a scale")
	}
	if c.lowEnd(i) >= 0 && !c.is(n.end, cTime) && c.near(i, cAge, 4, 4) >= 0 {
		c.vote(i, RangeEnd, 3, "ends of a range of ages")
	}
}

// behindRange: "range 39.5–58.2", "the minimum was 12".
func (c *context) behindRange(i int) {
	n := &c.nums[i]
	k := c.back(i, 7, cFiller|cJoiner)
	if !c.is(k, cRange) || c.is(k, cBoundWord) {
		return
	}
	if !c.is(k, cExtreme) || c.at(k).span > 1 || c.at(k).inside {
		if n.prev < 0 || c.back(n.prev, 7, cFiller|cJoiner) == k {
			c.vote(i, RangeEnd, 8, "behind a range")
		}
		return
	}
	c.vote(i, RangeEnd, 4.5, "the least or greatest value")
}

// rangesFromTo: "ranged from 16.3 to 23.1 MPa", "lasted between 3 and 11 canals".
func (c *context) rangesFromTo(i int) bool {
	n := &c.nums[i]
	if n.prev >= 0 && (n.joint == "-" || n.joint == "&") {
		n = &c.nums[n.prev]
	}
	switch j := c.left(n); c.low(j) {
	case "from":
		return c.is(j-1, cRange)
	case "between":
		return c.is(j-1, cRange|cOutcomeVerb)
	}
	return false
}

// quartileNamed: "Q1 0.4; Q3 1.1", "(Q1–Q3: 201–288)".
func (c *context) quartileNamed(n *num) bool {
	if c.gluedToWord(n) {
		return false
	}
	for j, s := n.tok-1, 0; j > 0 && s < 4; j, s = j-1, s+1 {
		switch t := c.at(j); {
		case t.sort == digits && c.low(j-1) == "q" && !t.gap:
			return true
		case t.sort != digits && t.sort != sign || t.sign == ';' || t.sign == '(':
			return false
		}
	}
	return false
}

// intervalsHere: a confidence interval was named shortly before, and no range.
func (c *context) intervalsHere(n *num) bool {
	for j := n.tok - 1; j >= max(0, n.tok-50); j-- {
		if c.is(j, cRange) {
			return false
		}
		if c.is(j, cInterval) {
			return true
		}
	}
	return false
}

// endOfScale: "a 0–10 scale", "(VAS, 0 to 100)".
func (c *context) endOfScale(i int) bool {
	at := c.lowEnd(i)
	if at < 0 {
		return false
	}
	lo := &c.nums[at]
	hi := &c.nums[lo.next]
	if c.low(lo.tok-1) == "score" || lo.value != 0 && lo.value != 1 || lo.decimals+hi.decimals > 0 || hi.value < 3 || lo.pct || lo.unit == cTime {
		return false
	}
	for j := lo.tok - 5; j < hi.end+4; j++ {
		if c.is(j, cScale) {
			return true
		}
	}
	return false
}
