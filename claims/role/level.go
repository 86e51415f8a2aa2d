package role

import "strings"

// ofCentre: a figure with its spread, interval or range behind it: "12.3 ±
// 1.1", "12.3 (SD 1.1)", "12.3 [1.1] vs", "94 s (81–120)", "0.94^a ± 0.11".
func ofCentre(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.word {
		return
	}
	if c.spreadFollows(n) {
		c.centre(i, 4, "with its spread")
	}
	if b := n.end; c.opens(b) {
		m := c.num(b + 1)
		switch {
		case c.is(b+1, cSpread|cInterval|cRange) || c.is(b+2, cInterval) || c.is(b+3, cInterval):
			c.centre(i, 3, "with its spread")
		case m != nil && m.end == c.at(b).shut && !m.pct && !m.word && (m.decimals > 0 || c.spreadNamed(m) || c.goesOn(c.at(b).shut)):
			c.centre(i, 2.5, "with its spread in brackets")
		case c.pairFollows(n):
			c.centre(i, 2, "with a pair in brackets")
		}
	}
	if c.sign(n.end) == ',' && c.is(n.end+1, cSpread) {
		c.vote(i, Level, 3, "with its spread")
	}
}

// spreadFollows: "± 1.1", "+/- 1.1", "^a ± 1.1".
func (c *context) spreadFollows(n *num) bool {
	plus := c.sign(n.end) == '+' && (c.sign(n.end+1) == '/' || c.sign(n.end+1) == '-')
	return c.sign(n.end) == '±' || c.sign(n.last+1) == '±' || plus || c.sign(n.last+1) == '^' && c.sign(n.last+3) == '±'
}

// centre: a figure with its spread or interval is a level, or where the words
// speak of changes a change.
func (c *context) centre(i int, w float64, why string) {
	n := &c.nums[i]
	c.vote(i, Level, w, why)
	if n.pct && c.near(i, cShare, 14, 0) >= 0 {
		c.vote(i, Share, w, why)
	}
	for _, r := range [...]Role{Change, Percent} {
		if n.ballot.Score(r) >= 2 && (r == Percent) == n.pct {
			c.vote(i, r, w, why)
		}
	}
}

// ofLevel: "a mean of 3.4", "rose from 1.1 to 1.9", "Brisa: 35.2", "was 12.1",
// "Quenda 612 > Ostrel 405".
func ofLevel(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.word {
		return
	}
	switch k := c.back(i, 5, cFiller); {
	case c.is(k, cMean):
		c.vote(i, Level, 3, "behind a mean or median")
	case c.is(k, cAgainst) && !n.pct && (n.decimals > 0 || n.unitText != ""):
		c.vote(i, Level, 1.5, "compared with another")
	case among(c.low(k), "from", "to") && !c.longTime(n) && !n.pct && c.near(i, cChangeVerb|cChangeNoun, 24, 0) >= 0 && !c.is(n.tok-1, cCalendar):
		c.vote(i, Level, 3, "from so much to so much")
	}
	if c.near(i, cMean, 10, 0) >= 0 {
		c.vote(i, Level, 1, "near a mean")
	}
	if c.sign(n.tok-1) == ':' && n.unit == 0 && c.at(n.tok-2).sort == word && !n.pct {
		c.vote(i, Level, 1, "behind the name of a group")
	}
	if c.is(n.tok-1, cOutcomeVerb) && !n.pct && c.people(n) < 0 {
		c.vote(i, Level, 1.5, "told of an outcome")
	}
	if c.ranked(i) {
		c.vote(i, Level, 5, "in a ranking of names and figures")
	}
}

// ofComparedLevel: "642 vs 631 cycles", "faster with Brisa (74 s)".
func ofComparedLevel(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.word || n.pct || c.people(n) >= 0 || c.longTime(n) && n.unitText[0] != 'y' {
		return
	}
	if c.compared(n) && !(n.unit == cSet && c.near(i, cSettingWord, 4, 0) >= 0) {
		c.vote(i, Level, 3, "one of two that are compared")
	}
	b := c.inBracket(i)
	opens := b > 0 && b+1 == n.tok && c.at(b-1).sort == word && (c.at(b).shut == n.end || c.sign(n.end) == ',' || c.sign(n.end) == ';')
	if opens && n.unitText != "" && c.near(i, cComparative|cAgainst|cChangeVerb, 18, 12) >= 0 {
		c.vote(i, Level, 4.2, "in the brackets of one side of a comparison")
	}
}

// compared: one of two numbers with "vs", "than" or "compared with" between.
func (c *context) compared(n *num) bool {
	return n.joint == "v" || n.next >= 0 && c.nums[n.next].joint == "v"
}

// ofRespectively: "21.4, 18.0 and 13.7 MPa, respectively".
func ofRespectively(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.word {
		return
	}
	t := c.tail(i)
	if t == n {
		t = c.tailOfList(i)
	}
	for j := t.end; j < t.end+3; j++ {
		if w := c.low(j); strings.HasPrefix(w, "respective") || w == "resp" {
			if n.pct {
				c.vote(i, Share, 1, "shared out by respectively")
			} else if c.low(n.tok-1) != "to" {
				c.vote(i, Level, 2.5, "shared out by respectively")
			}
			return
		}
		if s := c.at(j).sort; s == word || s == digits || s == none {
			return
		}
	}
}

// ranked: "Quenda 612 > Ostrel 405 > Noreva 298 s".
func (c *context) ranked(i int) bool {
	n := &c.nums[i]
	follows := func(j int) bool {
		s := c.sign(j)
		return (s == '>' || s == '<') && c.at(j+1).sort == word && c.at(j+1).upper && c.num(j+2) != nil
	}
	t := c.at(n.tok - 1)
	return t.sort == word && t.upper && n.rel == 0 && (follows(n.end) || i > 0 && c.nums[i-1].end == n.tok-2 && follows(n.tok-2))
}
