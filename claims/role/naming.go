package role

// ofCode: "HbA1c", "Ki-67", "T2", "3Y-TZP".
func ofCode(c *context, i int) {
	n := &c.nums[i]
	if c.squared(n) {
		c.vote(i, Name, 12, "the square of a statistic")
		return
	}
	if c.gluedToWord(n) {
		c.gluedCode(i)
		return
	}
	if n.word {
		return
	}
	before, after := c.at(n.tok-1), c.at(n.last+1)
	if s := before.sign; (s == '-' || s == '‐' || s == '–') && !before.gap && !c.at(n.tok).gap && n.joint == "" {
		w, m := c.at(n.tok-2), c.num(n.tok-2)
		if w.sort == word && !c.is(n.tok-2, cTime|cSet|cStatistic) || m != nil && w.sort == digits && m.ballot.Score(Name) > 5 {
			c.vote(i, Name, 8, "hyphened to a word")
		}
	}
	if n.prev >= 0 && n.joint == "-" && c.nums[n.prev].ballot.Score(Name) > 6 && n.unitText == "" {
		c.vote(i, Name, 5, "goes on with a name")
	}
	if after.sort == word && !after.gap && n.unitText == "" && after.low != "x" && after.is&cTimes == 0 {
		c.vote(i, Name, 7, "glued to letters")
	}
	if in := c.at(n.last + 2); after.sign == '(' && !after.gap && in.upper && in.end-in.start <= 3 && n.decimals == 0 && after.shut == n.last+3 {
		c.vote(i, Name, 6, "glued to letters in brackets")
	}
}

// gluedCode: digits that go on with a word.
func (c *context) gluedCode(i int) {
	n := &c.nums[i]
	before := c.at(n.tok - 1)
	length := before.end - before.start
	switch {
	case c.is(n.tok-1, cCalendar) && length > 2:
		c.vote(i, TimePoint, 7, "behind the name of a time")
	case c.is(n.tok-1, cP|cSize) && length == 1:
	case length > 4 && !before.glued:
		c.vote(i, Name, 3, "glued to a word")
	default:
		c.vote(i, Name, 9, "glued to letters")
		if among(c.raw(n.tok-1), "T", "t", "V") && n.value < 30 {
			c.vote(i, TimePoint, 6, "the code of a time")
		}
	}
}

// ofCompound: "two-way ANOVA", "10-MDP primer", "double-blind".
func ofCompound(c *context, i int) {
	n := &c.nums[i]
	if c.gluedToWord(n) {
		return
	}
	if n.word && among(c.low(n.tok), "double", "triple") {
		c.vote(i, Name, 5, "part of a compound name")
	}
	w := c.at(n.last + 2)
	if !c.hyphen(n.last+1) || w.sort != word || w.gap || n.pct || w.is&cTimes != 0 {
		return
	}
	unit := w.is&(cTime|cSet) != 0
	switch {
	case w.is&cHyphenNoun != 0 && !unit:
		c.vote(i, Name, 6, "part of a compound word")
	case unit || w.is&cUnit != 0:
		if u := c.at(n.last + 3); u.upper || u.sign == '-' && c.at(n.last+4).upper {
			c.vote(i, Name, 5, "part of a compound name")
		}
	case w.low == "to" || w.low == "and":
	case n.word:
		c.vote(i, Other, 3, "part of a compound word")
	default:
		c.vote(i, Name, 6, "part of a compound name")
	}
}

// ofLabel: "Table 2", "groups 1, 2 and 5", "group two", "week 4", "Brisa 20".
func ofLabel(c *context, i int) {
	n := &c.nums[i]
	if n.word {
		if c.is(n.tok-1, cLabel) && !c.is(n.tok-1, cSettingWord) && c.at(n.tok).gap && n.value >= 1 {
			c.vote(i, Name, 5, "behind the noun of a label")
		}
		return
	}
	if c.pairOfGroups(i) {
		c.vote(i, Name, 6, "one of two groups that are compared")
	}
	j := c.back(i, 14, cJoiner)
	if c.gluedToWord(n) || n.pct || n.unitText != "" && !n.lent || n.decimals > 0 || c.goesOnAsCount(n) || j < 0 || !c.listFrom(j, n) {
		return
	}
	name := c.at(j)
	switch {
	case c.is(j, cCalendar) && c.num(j-1) == nil:
		c.vote(i, TimePoint, 8, "behind the name of a time")
	case c.is(j, cLabel) && !(c.low(j) == "no" && n.tok-j > 1):
		w := 9.0
		if c.is(j, cSettingWord|cWeakLabel) {
			w = 4
		}
		c.vote(i, Name, w, "behind the noun of a label")
	case j == n.tok-1 && c.productName(j) && !n.lent && (n.value < 2000 || name.glued) && c.at(n.tok).gap:
		w := 4.0
		if !name.glued && c.beginsSentence(j) {
			w = 2.5
		}
		c.vote(i, Name, w, "behind a capitalised name")
	}
}

// pairOfGroups: "1 vs 2: p = .02".
func (c *context) pairOfGroups(i int) bool {
	n := &c.nums[i]
	if !c.compared(n) || n.decimals > 0 || n.unitText != "" || n.value > 12 {
		return false
	}
	j := c.tailOfList(i).end
	if s := c.sign(j); s == ':' || s == ',' {
		j++
	}
	return c.is(j, cP)
}

// goesOnAsCount: "in group 1 and 1 of 50 in group 2", "the gap group 8 of 20
// crowns": the number counts.
func (c *context) goesOnAsCount(n *num) bool {
	m := c.num(n.last + 2)
	return c.low(n.last+1) == "of" && m != nil && (n.prev >= 0 || c.people(m) >= 0)
}

// listFrom: between the noun at j and a number stand only numbers of its form
// and the signs of a list.
func (c *context) listFrom(j int, n *num) bool {
	for k := j + 1; k < n.tok; k++ {
		switch c.sign(k) {
		case '(', '[', '=', ':', '<', '>', '≤', '≥', '±', '%':
			return false
		}
		if m := c.num(k); m != nil && (m.decimals > 0 || m.pct) {
			return false
		}
	}
	return j == n.tok-1 || c.num(j+1) != nil || c.sign(j+1) == '.' && j+2 == n.tok
}

// productName: a capitalised word of which nothing else is known.
func (c *context) productName(j int) bool {
	t := c.at(j)
	return t.sort == word && t.upper && t.is == 0
}

// beginsSentence: a word that would have its capital in any case.
func (c *context) beginsSentence(j int) bool {
	if j == 0 {
		return true
	}
	switch c.sign(j - 1) {
	case '.', ':', '•', '“', '"':
		return true
	}
	return false
}
