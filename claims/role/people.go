package role

import "strings"

// ofSize: "n = 12", "n: 30", "N 45", "a sample size of 40", "the required
// sample was 24".
func ofSize(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct {
		return
	}
	if (n.rel == '=' || c.sign(n.tok-1) == ':') && c.is(n.tok-2, cSize) {
		c.vote(i, N, 11, "behind n =")
		return
	}
	if w := c.raw(n.tok - 1); w == "n" || w == "N" {
		c.vote(i, N, 8, "behind n")
	}
	if j := c.near(i, cSize, 6, 0); j >= 0 && c.at(j).end-c.at(j).start > 3 && n.value > 9 && n.unitText == "" {
		c.vote(i, N, 6, "a sample size")
	}
	if n.unitText == "" && n.rel == 0 && n.value > 4 && among(c.low(n.tok-1), "was", "were") && c.people(n) < 0 && c.clauseStart(i, cSize) {
		c.vote(i, N, 3, "the sentence speaks of a sample")
	}
}

// ofEachSize: "12 per group", "12 in each", "12 each", "four groups of ten".
func ofEachSize(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.unitText != "" || n.rel != 0 {
		return
	}
	next := n.last + 1
	if c.low(n.tok-1) == "of" && c.is(n.tok-2, cPart) || c.low(next) == "per" && c.is(next+1, cLabel) || c.low(next) == "in" && c.low(next+1) == "each" || c.low(next) == "each" {
		c.vote(i, N, 4, "the size of each group")
	}
}

// ofPeople: "a total of 70 patients", "12 extracted molars", "5 patients
// relapsed".
func ofPeople(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct || c.people(n) < 0 || c.sizeNamed(n) || n.ballot.Score(N) > 10 {
		return
	}
	enrolled := c.near(i, cEnrol, 12, 12) >= 0
	w := 2.5
	if enrolled || c.near(i, cTotal, 4, 0) >= 0 {
		w += 2
	}
	if n.value > 4 {
		w += .5
	}
	if c.near(i, cFate, 0, 8) >= 0 && !enrolled {
		w -= 2
		c.vote(i, Count, 2, "of people of whom something is told")
	}
	c.vote(i, N, w, "a number of people or specimens")
}

// sizeNamed: "the size 25 files" are no 25 files.
func (c *context) sizeNamed(n *num) bool {
	return c.is(n.tok-1, cSettingWord) && c.at(n.tok).gap
}

// ofNouns: "1 955 and 1 949 fillings"; "after 500 and 5 000 thermocycles".
func ofNouns(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct || c.people(n) >= 0 || c.sizeNamed(n) || n.ballot.Score(N) > 10 {
		return
	}
	if c.countsNouns(c.tailOfList(i)) && among(c.low(c.headOfList(i).tok-1), "after", "following") {
		c.vote(i, Dose, 3, "how many were done before")
	} else if c.countsNouns(n) {
		c.vote(i, N, 1.5, "before a noun in the plural")
	}
}

// people finds the noun of people or specimens that a number, or the list it
// stands in, counts: "46, 61 and 108 participants"; -1.
func (c *context) people(n *num) int {
	if n.unitText != "" || n.colon {
		return -1
	}
	for s := 0; s < longList && c.countsOn(n); s++ {
		n = &c.nums[n.next]
	}
	for j, s := n.last+1, 0; s < 5 && j < len(c.toks); j, s = j+1, s+1 {
		t := &c.toks[j]
		switch {
		case t.is&(cPeople|cSpecimen) != 0 && t.sort == word:
			if c.sign(j+1) == '-' && !c.at(j+1).gap {
				return -1
			}
			return j
		case t.sort == word && t.is&(cTime|cSet|cJoiner|cAgainst|cWhen|cFate|cPart) == 0:
		case t.sort == sign && (t.sign == '-' || t.sign == '–') && !t.gap && j > n.last+1:
		default:
			return -1
		}
	}
	return -1
}

// countsOn: the next number of the list counts the same.
func (c *context) countsOn(n *num) bool {
	if n.next < 0 {
		return false
	}
	m := &c.nums[n.next]
	return strings.ContainsAny(m.joint, ",&v") && m.rel == n.rel && m.decimals == 0 && m.unitText == ""
}

// countsNouns: a whole number before a noun in the plural, of which nothing
// else is known.
func (c *context) countsNouns(n *num) bool {
	if n.unitText != "" || n.decimals > 0 || n.rel != 0 || n.colon {
		return false
	}
	for j := n.last + 1; j < n.last+4; j++ {
		t := c.at(j)
		if t.sort != word || t.is != 0 || t.glued {
			return false
		}
		if plural(t.low) {
			return true
		}
	}
	return false
}

// plural: "fillings", but not "stress", "mucous" or "basis".
func plural(w string) bool {
	return len(w) > 3 && w[len(w)-1] == 's' && !strings.ContainsRune("sui", rune(w[len(w)-2]))
}

// counts: a whole number that can be k of N.
func (c *context) counts(n *num) bool {
	return n.decimals == 0 && !n.pct && n.value >= 0 && !(n.word && c.is(n.tok, cRatioWord))
}

// ofPartOfWhole: "6/30", "five of the nine lambs", "2 out of 8", "one in eight".
func ofPartOfWhole(c *context, i int) {
	n := &c.nums[i]
	if !c.counts(n) {
		return
	}
	next := n.last + 1
	if m := c.num(next + 1); m != nil && c.low(next) == "in" && m.word == n.word && m.value > n.value && m.unitText == "" && (n.word || n.value < 4 && m.value < 101 && c.people(m) >= 0) {
		c.vote(i, Count, 4, "one in so many")
		c.vote(m.index, Total, 4, "one in so many")
	}
	if m := c.num(next + 1); m != nil && (c.sign(next) == '/' || c.sign(next) == '∕') && c.isFraction(n, m) {
		c.vote(i, Count, 5, "k/N")
		c.vote(m.index, Total, 5, "k/N")
	}
	if o := c.low(next); o == "of" || o == "out" {
		k := next + 1
		for s := 0; s < 3 && among(c.low(k), "of", "the", "all", "these"); s++ {
			k++
		}
		if m := c.num(k); m != nil && m.decimals == 0 && m.value >= n.value && m.unitText == "" {
			c.vote(i, Count, 8, "k of N")
			c.vote(m.index, Total, 8, "k of N")
		} else if n.word && o == "of" {
			c.vote(i, Count, 2, "so many of them")
		}
	}
}

// isFraction: "6/30", but not "AZL 20/12.5", "3/0" or "31/44/58".
func (c *context) isFraction(n, m *num) bool {
	before := c.at(n.tok - 1)
	return !c.at(n.last+1).gap && !c.at(m.tok).gap && c.sign(n.tok-1) != '/' && c.sign(m.last+1) != '/' && m.decimals == 0 && m.value >= n.value && m.value > 0 && n.unitText == "" &&
		!(before.sort == word && before.upper && !c.is(n.tok-1, cLabel))
}

// ofTotal: "Of the 50 subjects", "in all 16", "94 % of 32 teeth".
func ofTotal(c *context, i int) {
	n := &c.nums[i]
	if !c.counts(n) {
		return
	}
	if c.low(n.tok-1) == "all" && n.unitText == "" && c.people(n) < 0 && c.at(n.last+1).sort != word {
		c.vote(i, Total, 3.5, "all of so many")
	}
	one, two := c.low(n.tok-1), c.low(n.tok-2)
	if (one == "of" || one == "the" && two == "of") && two != "total" && (n.tok < 4 || two == "out" || c.at(n.tok-1).upper) && c.people(n) >= 0 {
		c.vote(i, Total, 6, "out of so many")
	}
	if i == 0 || n.unitText != "" || c.sign(n.tok-1) != 0 {
		return
	}
	if p := &c.nums[i-1]; p.pct && c.low(c.skipShut(p.end)) == "of" && n.tok-p.end <= 5 && (c.sign(p.end) == 0 || c.people(n) >= 0) {
		c.vote(i, Total, 5, "the whole of a percentage")
	}
}

// skipShut steps over the end of a bracket.
func (c *context) skipShut(j int) int {
	if s := c.sign(j); s == ')' || s == ']' {
		return j + 1
	}
	return j
}

// ofCountWithPercentage: "283 (14 %)", "5 patients (31%)", "14 % (6/43)".
func ofCountWithPercentage(c *context, i int) {
	n := &c.nums[i]
	if !c.counts(n) {
		return
	}
	next := n.last + 1
	if m := c.num(next + 1); m != nil && c.opens(next) && c.sign(n.tok-1) != '/' && m.pct && m.end == c.at(next).shut && n.unitText == "" {
		c.vote(i, Count, 7, "a count with its percentage")
		c.vote(m.index, Share, 5, "the percentage of a count")
	}
	if p := c.people(n); p >= 0 && n.ballot.Score(Total) < 5 && c.opens(p+1) {
		if m := c.num(p + 2); m != nil && m.pct {
			c.vote(i, Count, 5, "a count with its percentage")
			c.vote(m.index, Share, 4, "the percentage of a count")
		}
	}
	if m := c.num(next + 2); m != nil && m.pct && n.unitText == "" && c.at(next).sort == word && c.opens(next+1) && !c.is(next, cTime|cSet) {
		c.vote(i, Count, 5, "a count with its percentage")
	}
	if b := c.inBracket(i); b > 0 && i > 0 && c.nums[i-1].pct && c.nums[i-1].end == b && (c.sign(next) == '/' || c.low(next) == "of") {
		c.vote(i, Count, 3, "the count behind a percentage")
		c.vote(i-1, Share, 5, "the percentage of a count")
	}
}

// ofEvents: "11 adverse events", "6 dropped out", "occurred in 4 patients",
// "stopped 14 times".
func ofEvents(c *context, i int) {
	n := &c.nums[i]
	if !c.counts(n) {
		return
	}
	next := n.last + 1
	people := c.people(n) >= 0
	if h := c.headOfList(i).tok; people && c.low(h-1) == "in" && (c.is(h-2, cFound) || c.is(h-3, cFound)) {
		c.vote(i, Count, 4.5, "in whom something was found")
	}
	if c.countsEvents(n) {
		c.vote(i, Count, 5, "a number of events")
	}
	if n.unitText == "" && c.is(next, cFate) && !c.is(n.tok-1, cLabel) && !n.signed && !c.productName(n.tok-1) {
		c.vote(i, Count, 4, "so many of whom something is told")
	}
	if n.word && people && n.value < 5 {
		c.vote(i, Count, 2, "a few people or specimens")
	}
	if n.unitText == "" && c.low(next) == "times" && c.near(i, cChangeNoun|cComparative, 3, 4) < 0 {
		c.vote(i, Count, 2, "so many times")
	}
}

// countsEvents: "11 serious adverse events".
func (c *context) countsEvents(n *num) bool {
	for j := n.last + 1; j < n.last+5; j++ {
		t := c.at(j)
		if t.is&cEvent != 0 {
			return true
		}
		if t.sort != word || t.is&(cJoiner|cAgainst|cTime|cWhen|cPart) != 0 {
			return false
		}
	}
	return false
}
