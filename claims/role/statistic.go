package role

import "strings"

// ofP: "p = 0.03", "P-value for difference <0.0001", "P = 2 × 10^−5".
func ofP(c *context, i int) {
	n := &c.nums[i]
	if n.word || n.pct || n.unitText != "" || n.value > 1.01 && n.value != 10 && !c.powerOfTen(n) || n.value < 0 {
		return
	}
	if n.value < 1 && n.decimals > 1 && c.clauseStart(i, cP) {
		c.vote(i, P, 4, "the sentence speaks of p values")
	}
	if j := c.pBefore(i); j >= 0 && c.onlyP(j, n) {
		c.vote(i, P, 10, "behind a p")
	}
}

// powerOfTen: the 2 and the 10 of "2 × 10^−5".
func (c *context) powerOfTen(n *num) bool {
	return c.sign(n.last+1) == '×' && c.raw(n.last+2) == "10" || n.value == 10 && c.sign(n.tok-1) == '×'
}

// pBefore finds the p a number belongs to: over signs and, where a sign of
// relation stands before the number, over a few words; -1.
func (c *context) pBefore(i int) int {
	n := &c.nums[i]
	j := c.back(i, 9, cFiller|cJoiner)
	for steps := 0; j >= 0 && steps < 5 && !c.is(j, cP); steps++ {
		if n.rel == 0 || c.is(j, cStatistic|cEffect|cInterval) || c.at(j).sort == digits || c.num(j) != nil {
			return -1
		}
		if j--; c.at(j).sort == sign && c.sign(j) != '-' && c.sign(j) != '`' {
			return -1
		}
	}
	if j >= 0 && c.at(j).gap && c.at(j+1).sort == word && n.rel == 0 && c.raw(j) == "p" || !c.is(j, cP) {
		return -1
	}
	return j
}

// onlyP: between a p and a number stand no figure above 1 and no end of a list.
func (c *context) onlyP(j int, n *num) bool {
	for k := n.tok - 1; k > j; k-- {
		x := c.num(k)
		if x == nil {
			continue
		}
		if x.value > 1.01 && !c.powerOfTen(n) || c.sign(k+1) == ')' || c.sign(k+1) == ';' {
			return false
		}
	}
	return true
}

// ofAlpha: "α = 0.05", "at the 5 % level", "significance was set at p < 0.05".
func ofAlpha(c *context, i int) {
	n := &c.nums[i]
	if n.value > 10 || n.value <= 0 || n.value > 1 && !n.pct && c.sign(n.tok-1) == 0 {
		return
	}
	if j := c.back(i, 7, cFiller|cP); c.is(j, cAlpha) && n.end-n.tok < 4 && (n.value < .2 || n.pct) {
		c.vote(i, Alpha, 11, "behind a level of significance")
	}
	if w := c.low(n.end); n.pct && (w == "level" || w == "significance") || n.value < .2 && n.decimals > 0 && w == "level" {
		c.vote(i, Alpha, 9, "a level of significance")
	}
	if n.value < .2 && n.decimals > 1 && c.near(i, cAlpha, 8, 6) >= 0 {
		c.vote(i, Alpha, 3, "near a level of significance")
	}
}

// ofDF: "F(2, 42) =", "χ2(1) =", "t31 =", "F1,410 =", "df = 28", "18 df".
func ofDF(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.word {
		return
	}
	b := c.inBracket(i)
	switch {
	case b > 0 && !c.at(b).gap && c.at(b).shut > 0 && (c.is(b-1, cStatistic) && c.at(b-1).sort == word || c.chiSquare(b-1)):
		c.vote(i, DF, 10, "in the brackets of a statistic")
	case n.prev >= 0 && c.nums[n.prev].ballot.Score(DF) >= 8 && b == c.inBracket(n.prev) && n.rel == 0:
		c.vote(i, DF, 9, "the second degrees of freedom")
	case c.belowStatistic(n):
		c.vote(i, DF, 10, "degrees of freedom below a statistic")
	case c.is(c.back(i, 8, cFiller|cNamed), cDF):
		c.vote(i, DF, 10, "behind df")
	case c.is(n.last+1, cDF) && n.decimals == 0:
		c.vote(i, DF, 9, "before df")
	}
}

// belowStatistic: the digits of "F1,410 =" or "t 23 =", but not the square of
// "χ2 =".
func (c *context) belowStatistic(n *num) bool {
	t := c.at(n.tok - 1)
	return t.sort == word && c.is(n.tok-1, cStatistic) && t.end-t.start <= 2 && (!c.at(n.tok).gap || n.decimals == 0 && c.sign(n.last+1) == '=') &&
		c.equalsSoon(n.last+1) && !(n.value == 2 && strings.ContainsAny(c.raw(n.tok-1), "χrRη"))
}

// ofStatistic: "F(2, 42) = 57.3", "t = 4.07", "U = 61.5", "the kappa was 0.8".
func ofStatistic(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.word || n.ballot.Score(DF) >= 9 || n.rel == 0 && c.at(n.tok-1).sort != word && c.sign(n.tok-1) != ':' && n.prev < 0 {
		return
	}
	if n.decimals > 0 && n.value < 1 && n.rel == 0 && c.clauseStart(i, cStatistic) {
		c.vote(i, Statistic, 3, "the sentence speaks of a coefficient")
	}
	k := c.back(i, 8, cFiller|cNamed)
	switch {
	case n.rel == 0 && n.decimals > 0 && c.chiSquare(n.tok-1) && c.at(n.tok).gap:
		c.vote(i, Statistic, 9, "behind a test statistic") // "χ^2 9.27"
	case n.rel != 0 && c.sign(c.left(n)) != 0 && c.statisticBefore(n):
		c.vote(i, Statistic, 10, "behind a test statistic")
	case c.is(k, cStatistic) && (n.rel != 0 || c.at(k).end-c.at(k).start > 2) && !c.is(k, cP):
		c.vote(i, Statistic, 8, "behind a test statistic")
	}
}

// statisticBefore looks over the brackets of degrees of freedom and raised or
// glued digits: "F(2,42) =", "χ² =", "F1,410 =".
func (c *context) statisticBefore(n *num) bool {
	j := n.tok - 1
	for c.at(j).sort == sign && strings.ContainsRune("=<>≤≥−-+~", c.sign(j)) {
		j--
	}
	if s := c.sign(j); s == ')' || s == ']' {
		o := c.at(j).open
		for k := j - 1; k >= 0 && k > j-9; k-- {
			if c.at(k).shut == j {
				o = k
				break
			}
		}
		return o > 0 && (c.is(o-1, cStatistic) || c.chiSquare(o-1))
	}
	for s := 0; s < 5 && (c.at(j).sort == digits || c.at(j).sort == raised || c.sign(j) == ',' || c.sign(j) == '^' || c.sign(j) == '-'); s++ {
		j--
	}
	return c.is(j, cStatistic)
}

// chiSquare: the 2 of "χ2" or "χ^2" stands at j.
func (c *context) chiSquare(j int) bool {
	return c.raw(j) == "2" && (c.raw(j-1) == "χ" || c.sign(j-1) == '^' && c.raw(j-2) == "χ")
}

// squared: the raised 2 of "χ^2 =", "R^2 =", and "χ^22 =", where the degrees
// of freedom stand behind it.
func (c *context) squared(n *num) bool {
	base := c.at(n.tok - 2)
	if c.sign(n.tok-1) != '^' || base.sort != word {
		return false
	}
	if c.raw(n.tok-2) == "χ" && c.raw(n.tok)[0] == '2' {
		return true
	}
	return n.value == 2 && !c.at(n.tok-1).gap && base.end-base.start <= 2 && !c.is(n.tok-2, cUnit) && (c.equalsSoon(n.last+1) || c.sign(n.last+1) == '(')
}

// equalsSoon: only digits and commas stand before a sign of relation.
func (c *context) equalsSoon(j int) bool {
	for s := 0; s < 4; s, j = s+1, j+1 {
		switch t := c.at(j); {
		case t.sort == sign && (t.sign == '=' || t.sign == '<' || t.sign == '>'):
			return true
		case t.sort == digits, t.sort == sign && t.sign == ',':
		default:
			return false
		}
	}
	return false
}

// ofEffect: "HR 0.52", "odds ratio of 1.4", "d = 0.91, 0.14 and 1.02",
// "relative risk [RR] = 0.5".
func ofEffect(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.word || n.unitText != "" && n.unitText != "d" {
		return
	}
	k := c.back(i, 9, cFiller|cJoiner)
	if s := c.sign(c.left(n) - 1); k < 0 && (s == ']' || s == ')') {
		k = c.left(n) - 2
	}
	if c.is(k, cEffect) {
		short := c.at(k).end-c.at(k).start <= 2 && c.at(k).span == 1 && !among(c.raw(k), "RR", "HR", "OR")
		if !(short && c.headOfList(i).rel != '=') && !(n.decimals == 0 && n.value > 30) {
			c.vote(i, Effect, 9, "behind an effect measure")
		}
		return
	}
	if n.decimals > 0 && n.unitText == "" && n.value < 50 && c.effectNamed(n, 25) && (c.bracketFollows(n, cInterval) || c.pairFollows(n)) {
		c.vote(i, Effect, 8, "an effect measure is named, an interval follows")
	}
	if n.decimals > 1 && n.value < 10 && !n.signed && c.low(n.tok-1) == "of" && c.effectNamed(n, 4) {
		c.vote(i, Effect, 4, "near an effect measure")
	}
}

// effectNamed: an effect measure stands among so many tokens before.
func (c *context) effectNamed(n *num, most int) bool {
	for j := n.tok - 1; j >= max(0, n.tok-most); j-- {
		if c.is(j, cEffect) && (c.at(j).end-c.at(j).start > 1 || c.raw(j) == "β") {
			return true
		}
	}
	return false
}

// bracketFollows: the class stands in the bracket behind a number, or behind a
// comma: "0.52 (95 % CI …)", "0.52, 95 % CI …".
func (c *context) bracketFollows(n *num, k class) bool {
	b := n.end
	if s := c.sign(b); s == ',' || s == ';' {
		return c.is(b+1, k) || c.at(b+1).sort == digits && (c.is(b+2, k) || c.is(b+3, k))
	}
	if c.at(b).shut < 0 || c.sign(b) == 0 {
		return false
	}
	for j := b + 1; j < min(c.at(b).shut, b+longBracket); j++ {
		if c.is(j, k) {
			return true
		}
	}
	return false
}

// pairFollows: "0.89 (0.87 – 0.92)", but not "42.9 (3/7)".
func (c *context) pairFollows(n *num) bool {
	b := n.end
	s := c.at(b).shut
	if c.at(b).sort != sign || s < 0 || s-b > longBracket {
		return false
	}
	count := 0
	for j := b + 1; j < s; j++ {
		if c.num(j) != nil {
			count++
		} else if c.at(j).sort == word && c.low(j) != "to" || c.sign(j) == '/' {
			return false
		}
	}
	return count == 2
}

// ofConfidence: the 95 of "95% CI", "95%-CI", "CI 95% 1.2 to 3.4".
func ofConfidence(c *context, i int) {
	n := &c.nums[i]
	if !confident(n.value) && !n.pct {
		return
	}
	if n.pct && (c.is(n.end, cInterval) || confident(n.value) && c.is(n.end+1, cInterval) && c.sign(n.end) != 0) || !n.pct && c.is(n.last+1, cInterval) {
		c.vote(i, Confidence, 14, "the level of an interval")
		return
	}
	k, between := c.intervalBefore(n)
	if k >= 0 && between == 0 && n.pct && confident(n.value) && c.at(n.end).sort != word && n.tok-k <= 3 {
		c.vote(i, Confidence, 13, "the level of an interval")
	}
}

// confident: a usual level of confidence in per cent.
func confident(v float64) bool {
	return v == 95 || v == 90 || v == 99 || v == 97.5 || v == 80 || v == 98
}

// ofBound: "95% CI 1.2 to 3.4", "CI: −2.1, 0.2", "OR 0.89 (0.87–0.92)",
// "HR 2.4; 1.3–4.4".
func ofBound(c *context, i int) {
	n := &c.nums[i]
	if n.ballot.Score(Confidence) > 10 {
		return
	}
	if k, between := c.intervalBefore(n); k >= 0 && between < 2 {
		c.vote(i, Bound, 12, "behind a confidence interval")
		return
	}
	if c.near(i, cBound, 9, 0) >= 0 && c.near(i, cInterval, 25, 0) >= 0 {
		c.vote(i, Bound, 9, "a limit of a confidence interval")
		return
	}
	if lo := c.lowEnd(i); lo > 0 {
		e, low := &c.nums[lo-1], &c.nums[lo]
		if e.ballot.Score(Effect) >= 5 && e.end == low.tok-1 && c.sign(e.end) != '(' {
			c.vote(i, Bound, 9, "the pair behind an effect measure")
		}
	}
	if h := c.bracketHead(i); h != nil && max(h.ballot.Score(Effect), h.ballot.Score(Statistic)) >= 5 && c.pairFollows(h) {
		c.vote(i, Bound, 9, "the pair behind an effect measure")
	}
}

// intervalBefore finds the words of a confidence interval that a number stands
// behind, -1, and how many numbers but the level of confidence stand between.
func (c *context) intervalBefore(n *num) (at, between int) {
	for j, s := n.tok-1, 0; j >= 0 && s < 14; j, s = j-1, s+1 {
		if c.is(j, cInterval) {
			return j, between
		}
		if !c.withinInterval(j) {
			break
		}
		if x := c.num(j); x != nil && !(x.pct && confident(x.value)) {
			between++
		}
	}
	return -1, 0
}

// withinInterval: a token may stand between "CI" and a bound.
func (c *context) withinInterval(j int) bool {
	t := c.at(j)
	switch t.sort {
	case digits, raised:
		return true
	case sign:
		return strings.ContainsRune("=:,;-–−‐([%±", t.sign) || (t.sign == ')' || t.sign == ']') && c.is(j-1, cInterval)
	}
	return t.is&(cFiller|cJoiner|cBound|cUnit) != 0 || c.num(j) != nil || among(t.low, "for", "difference", "mean")
}

// lowEnd is the first number of a pair "1.3–4.4" that a number belongs to, -1.
func (c *context) lowEnd(i int) int {
	switch n := &c.nums[i]; {
	case n.joint == "-":
		return n.prev
	case n.next >= 0 && c.nums[n.next].joint == "-":
		return i
	}
	return -1
}
