package role

import "strings"

// link joins two numbers that share their reasons.
type link struct{ a, b int }

// agree lets the numbers of a list share their reasons: what is said of the
// last holds for the first. So do figures with their spreads between them,
// numbers whose noun is said once, and figures told by one sentence.
func (c *context) agree() {
	links := c.listed()
	links = append(links, c.overSpreads()...)
	links = append(links, c.elided()...)
	links = append(links, c.centres()...)
	for _, l := range links {
		c.share(l.b, l.a, "in a list with the number before it")
	}
	for i := len(links) - 1; i >= 0; i-- {
		c.share(links[i].a, links[i].b, "in a list with the number behind it")
	}
}

// share gives one number part of what another is sure of.
func (c *context) share(to, from int, why string) {
	if choice := c.nums[from].ballot.Choose(); choice.Best.Score > 0 {
		c.vote(to, choice.Best.Value, .55*min(choice.Gap(), 6), why)
	}
}

// listed links neighbours of a list: "0.21, 0.18 and 0.12 mm".
func (c *context) listed() []link {
	var out []link
	for i := range c.nums {
		if p := c.nums[i].prev; p >= 0 && c.peers(p, i) {
			out = append(out, link{p, i})
		}
	}
	return out
}

// overSpreads links figures over their spreads: "105.6 [10.1] vs 55.6 [13.1]".
func (c *context) overSpreads() []link {
	var out []link
	for i := range c.nums {
		k := i + 1
		for k < len(c.nums) && k <= i+3 && (c.nums[k].ballot.Score(Spread) >= 5 || c.nums[k].ballot.Score(RangeEnd) > 4) {
			k++
		}
		if k > i+1 && k < len(c.nums) && c.nums[k].rel == c.nums[i].rel && c.peers(i, k) && c.listBetween(&c.nums[k-1], &c.nums[k]) {
			out = append(out, link{i, k})
		}
	}
	return out
}

// listBetween: only units, brackets' ends and list signs stand between the
// spread of one figure and the next figure, or few words.
func (c *context) listBetween(a, b *num) bool {
	for j := a.end; j < b.tok; j++ {
		t := c.at(j)
		if t.sort == sign && strings.ContainsRune(");],%-−–(.", t.sign) || t.is&(cJoiner|cAgainst|cTime|cUnit) != 0 {
			continue
		}
		if j-a.end > 10 {
			return false
		}
	}
	return true
}

// peers are two numbers of one form.
func (c *context) peers(a, b int) bool {
	x, y := &c.nums[a], &c.nums[b]
	switch {
	case x.word != y.word && (x.decimals > 0 || y.decimals > 0) || x.pct != y.pct || x.rel == '±' || y.rel == '±' || x.colon != y.colon,
		x.ballot.Score(Year) > 3 != (y.ballot.Score(Year) > 3),
		x.unitText != y.unitText && (x.unit != cTime || y.unit != cTime),
		strings.Contains(y.joint, "/") && !strings.Contains(y.joint, "v") && !c.tipTaper(a),
		(x.decimals > 0) != (y.decimals > 0) && (x.unitText == "" || x.unitText != y.unitText),
		(x.rel == '=') != (y.rel == '=') && y.joint == "," && x.ballot.Score(N) < 8, // but "n = 12, 14 and 13"
		strings.Contains(y.joint, ";") && x.rel != y.rel:
		return false
	}
	return c.inBracket(a) == c.inBracket(b) || c.bracketHead(a) == nil && c.bracketHead(b) == nil
}

// elided links numbers whose noun or unit is said with another one: "3
// patients in the test and 5 in the control arm", "11 min 20 s".
func (c *context) elided() []link {
	var out []link
	echoes := make([]bool, len(c.nums))
	for i := 1; i < len(c.nums); i++ {
		a, b := &c.nums[i-1], &c.nums[i]
		if a.unit == cTime && b.unit == cTime && a.end == b.tok && a.unitText != b.unitText || c.parallel(a, b) {
			out = append(out, link{i - 1, i})
		} else if k := c.echoed(i, echoes); k >= 0 {
			echoes[i] = true
			out = append(out, link{k, i})
		}
	}
	return out
}

// parallel: two figures with one unit before one preposition, or joined by
// "and": "47 °C for the gold and 33 °C for the silver wire", "482 N before and
// 519 N after".
func (c *context) parallel(a, b *num) bool {
	one, two, joined := c.low(a.end), c.low(b.end), c.low(b.tok-1) == "and"
	return a.unitText != "" && a.unitText == b.unitText && !a.lent && (a.decimals > 0) == (b.decimals > 0) && c.is(a.end, cFunction) && c.is(b.end, cFunction) &&
		(one == two && two != "and" || joined && one != "and" && b.tok-a.end < 8) &&
		b.tok-a.end < 16 && c.at(a.tok).open == c.at(b.tok).open && c.oneClause(a.end, b.tok)
}

// echoed gives the number that a bare one behind "and" or a comma, before a
// preposition or an article, goes on with: "all 40 patients at 1 week, 36 at 6
// months and 31 at 2 years". Times and percentages may stand between. -1: none.
func (c *context) echoed(i int, earlier []bool) int {
	b := &c.nums[i]
	joined := c.low(b.tok-1) == "and" || c.is(b.tok-1, cAgainst) || c.sign(b.tok-1) == ','
	if b.decimals > 0 || b.unitText != "" || b.rel != 0 || b.word && b.value < 2 || !joined || !c.is(b.last+1, cFunction) {
		return -1
	}
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		a := &c.nums[k]
		if b.tok-a.end > 20 || !c.oneClause(a.end, b.tok) || c.inBracket(i) != c.inBracket(k) {
			return -1
		}
		if a.decimals == 0 && a.unitText == "" && a.rel == 0 && (c.people(a) >= 0 || c.countsNouns(a) || earlier[k]) {
			return k
		}
		if a.unit != cTime && !a.pct && a.unit != cMoney {
			return -1
		}
	}
	return -1
}

// centres links figures with their spreads or intervals that are told by one
// sentence: "was 1.6 ± 0.8 mm (P < 0.001) in A and 2.2 ± 0.7 mm in B".
func (c *context) centres() []link {
	var out []link
	last := -1
	for i := 0; i+1 < len(c.nums); i++ {
		a := &c.nums[i]
		if !c.isCentre(i) {
			continue
		}
		if last >= 0 {
			p := &c.nums[last]
			if a.tok-p.tok < 30 && p.pct == a.pct && p.unitText == a.unitText && c.oneClause(p.end, a.tok) {
				out = append(out, link{last, i})
			}
		}
		last = i
	}
	return out
}

// isCentre: the next number is the spread of this one, or stands in a bracket
// behind it and is of another kind: "48 g (32 %)".
func (c *context) isCentre(i int) bool {
	a, b := &c.nums[i], &c.nums[i+1]
	if b.tok-a.end > 3 || a.decimals == 0 && a.unitText == "" {
		return false
	}
	return b.ballot.Score(Spread) >= 8 || c.bracketHead(i+1) == a && b.pct != a.pct
}

// oneClause: no semicolon, colon or full stop stands between two tokens.
func (c *context) oneClause(from, to int) bool {
	for j := from; j < to; j++ {
		if x := c.sign(j); x == ';' || x == ':' || x == '.' && c.at(j+1).gap {
			return false
		}
	}
	return true
}
