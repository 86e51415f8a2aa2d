package role

import (
	"strings"
)

// rules are the readers of signs, in no order that matters: each adds its
// reasons, and the heaviest role wins.
var rules = []func(*context, int){
	ofForm, ofP, ofAlpha, ofStatistic, ofEffect, ofInterval, ofSpread, ofRange, ofSize, ofCount, ofCitation, ofYear, ofName, ofTime, ofSetting,
	ofThreshold, ofPercent, ofRatio, ofChange, ofLevel, ofMoney, ofListMark,
}

// ofForm: what the shape of a number alone says.
func ofForm(c *context, i int) {
	n := &c.nums[i]
	if c.proportion(i) {
		c.vote(i, Dose, 3, "one side of a proportion")
		if c.near(i, cEnrol, 8, 8) >= 0 || c.near(i, cPart, 0, 4) >= 0 {
			c.vote(i, Other, 4, "one side of a proportion")
		}
	}
	switch {
	case n.word && !isRatioWord(c.low(n.tok)) && !n.pct:
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

// proportion: "2:1", "1:100,000".
func (c *context) proportion(i int) bool {
	n := &c.nums[i]
	side := func(j int) bool {
		return c.sign(j) == ':' && !c.at(j).gap && !c.at(j+1).gap && c.at(j-1).sort == digits && c.at(j+1).sort == digits
	}
	return n.decimals == 0 && (side(n.tok-1) || side(n.last+1))
}

// ofP: "p = 0.03", "P-value for difference <0.0001".
func ofP(c *context, i int) {
	n := &c.nums[i]
	power := c.sign(n.last+1) == '×' && c.raw(n.last+2) == "10" || n.value == 10 && c.sign(n.tok-1) == '×'
	if n.word || n.pct || n.unitText != "" || n.value > 1.01 && n.value != 10 && !power || n.value < 0 {
		return
	}
	if n.value < 1 && n.decimals > 1 && c.clauseStart(i, cP) {
		c.vote(i, P, 4, "the sentence speaks of p values")
	}
	j := c.back(i, 9, cFiller|cJoiner)
	for steps := 0; j >= 0 && steps < 5 && !c.is(j, cP); steps++ {
		if n.rel == 0 || c.is(j, cStatistic|cEffect|cInterval) || c.of[j] >= 0 || c.at(j).sort == digits {
			return
		}
		if j--; c.at(j).sort == sign && c.sign(j) != '-' && c.sign(j) != '`' {
			return
		}
	}
	if j < 0 || !c.is(j, cP) || c.at(j).gap && c.at(j+1).sort == word && n.rel == 0 && c.raw(j) == "p" {
		return
	}
	for k := n.tok - 1; k > j; k-- {
		if x := c.of[k]; x >= 0 && c.nums[x].value > 1.01 && !power {
			return
		}
		if c.of[k] >= 0 && (c.sign(k+1) == ')' || c.sign(k+1) == ';') {
			return
		}
	}
	c.vote(i, P, 10, "behind a p")
	if c.is(n.tok-1, cP) || n.rel == 0 && c.at(n.tok-1).sort == word {
		return
	}
}

// ofAlpha: "α = 0.05", "at the 5 % level", "significance was set at p < 0.05".
func ofAlpha(c *context, i int) {
	n := &c.nums[i]
	if n.value > 10 || n.value <= 0 || n.value > 1 && !n.pct && c.sign(n.tok-1) == 0 {
		return
	}
	if j := c.back(i, 7, cFiller|cP); j >= 0 && c.is(j, cAlpha) && n.end-n.tok < 4 && (n.value < .2 || n.pct) {
		c.vote(i, Alpha, 11, "behind a level of significance")
	}
	if n.pct && c.low(n.end) == "level" || n.pct && c.low(n.end) == "significance" || n.value < .2 && n.decimals > 0 && c.low(n.end) == "level" {
		c.vote(i, Alpha, 9, "a level of significance")
	}
	if n.value < .2 && n.decimals > 1 && c.near(i, cAlpha, 8, 6) >= 0 {
		c.vote(i, Alpha, 3, "near a level of significance")
	}
}

// ofStatistic: "F(2, 42) = 57.3", "t = 4.07, df = 28", "U = 61.5".
func ofStatistic(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.word {
		return
	}
	j := n.tok - 1
	if b := c.inBracket(i); b > 0 && !c.at(b).gap && (c.is(b-1, cStatistic) && c.at(b-1).sort == word || c.chiSquare(b-1)) && c.at(b).shut > 0 {
		c.vote(i, DF, 10, "in the brackets of a statistic")
		return
	}
	if n.prev >= 0 && c.nums[n.prev].ballot.Score(DF) >= 8 && c.inBracket(i) == c.inBracket(n.prev) && n.rel == 0 {
		c.vote(i, DF, 9, "the second degrees of freedom")
		return
	}
	if t := c.at(j); t.sort == word && (!c.at(n.tok).gap || n.decimals == 0 && c.sign(n.last+1) == '=') && c.is(j, cStatistic) && t.end-t.start <= 2 && c.equalsSoon(n.last+1) && !(n.value == 2 && strings.ContainsAny(c.raw(j), "χrRη")) {
		c.vote(i, DF, 10, "degrees of freedom below a statistic") // F1,410 =
		return
	}
	k := c.back(i, 8, cFiller|cNamed)
	if k >= 0 && c.is(k, cDF) {
		c.vote(i, DF, 10, "behind df")
		return
	}
	if c.is(n.last+1, cDF) && n.decimals == 0 {
		c.vote(i, DF, 9, "before df")
		return
	}
	if n.rel == 0 && c.at(n.tok-1).sort != word && c.sign(n.tok-1) != ':' && n.prev < 0 {
		return
	}
	if n.decimals > 0 && n.value < 1 && n.rel == 0 && c.clauseStart(i, cStatistic) {
		c.vote(i, Statistic, 3, "the sentence speaks of a coefficient")
	}
	switch {
	case n.rel != 0 && c.sign(n.tok-1-b2i(n.signed)) != 0 && c.statisticBefore(i):
		c.vote(i, Statistic, 10, "behind a test statistic")
	case k >= 0 && c.is(k, cStatistic) && (n.rel != 0 || c.at(k).end-c.at(k).start > 2) && !c.is(k, cP):
		c.vote(i, Statistic, 8, "behind a test statistic")
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// statisticBefore looks over the brackets of degrees of freedom and raised or
// glued digits: "F(2,42) =", "χ² =", "F1,410 =".
func (c *context) statisticBefore(i int) bool {
	j := c.nums[i].tok - 1
	for ; j >= 0 && c.at(j).sort == sign && strings.ContainsRune("=<>≤≥−-+~", c.sign(j)); j-- {
	}
	if c.sign(j) == ')' || c.sign(j) == ']' {
		o := c.at(j).open
		for k := j - 1; k >= 0 && k > j-9; k-- {
			if c.at(k).shut == j {
				o = k
				break
			}
		}
		return o > 0 && (c.is(o-1, cStatistic) || c.chiSquare(o-1))
	}
	for n := 0; n < 5 && j >= 0 && (c.at(j).sort == digits || c.at(j).sort == raised || c.sign(j) == ',' || c.sign(j) == '^' || c.sign(j) == '-'); n++ {
		j--
	}
	return c.is(j, cStatistic)
}

// chiSquare: the 2 of "χ2" or "χ^2" stands at j.
func (c *context) chiSquare(j int) bool {
	return c.raw(j) == "2" && (c.raw(j-1) == "χ" || c.sign(j-1) == '^' && c.raw(j-2) == "χ")
}

func (c *context) equalsSoon(j int) bool {
	for n := 0; n < 4; n, j = n+1, j+1 {
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

// ofEffect: "HR 0.52", "odds ratio of 1.4", "d = 0.91, 0.14 and 1.02".
func ofEffect(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.word || n.unitText != "" && n.unitText != "d" {
		return
	}
	k := c.back(i, 9, cFiller|cJoiner)
	if k < 0 && (c.sign(n.tok-2-b2i(n.signed)) == ']' || c.sign(n.tok-2-b2i(n.signed)) == ')') { // "relative risk [RR] = 0.5"
		k = n.tok - 3 - b2i(n.signed)
	}
	if k >= 0 && c.is(k, cEffect) {
		short := c.at(k).end-c.at(k).start <= 2 && c.at(k).span == 1
		switch raw := c.raw(k); {
		case short && c.headOfList(i).rel != '=' && raw != "RR" && raw != "HR" && raw != "OR":
		case n.decimals == 0 && n.value > 30:
		default:
			c.vote(i, Effect, 9, "behind an effect measure")
		}
		return
	}
	if n.decimals > 0 && n.unitText == "" && n.value < 50 && c.sentenceHas(i, cEffect, 25) && (c.bracketFollows(i, cInterval) || c.pairFollows(i)) {
		c.vote(i, Effect, 8, "an effect measure is named, an interval follows")
	}
	if n.decimals > 1 && n.value < 10 && !n.signed && c.low(n.tok-1) == "of" && c.sentenceHas(i, cEffect, 4) {
		c.vote(i, Effect, 4, "near an effect measure")
	}
}

// headOfList is the first number of a list.
func (c *context) headOfList(i int) *num {
	return &c.nums[c.nums[i].head]
}

// tailOfList is the last number of a list.
func (c *context) tailOfList(i int) *num {
	return &c.nums[c.nums[i].foot]
}

func (c *context) sentenceHas(i int, k class, before int) bool {
	for j, s := c.nums[i].tok-1, 0; j >= 0 && s < before; j, s = j-1, s+1 {
		if c.is(j, k) && (c.at(j).end-c.at(j).start > 1 || c.raw(j) == "β") {
			return true
		}
	}
	return false
}

func (c *context) bracketFollows(i int, k class) bool {
	b := c.nums[i].end
	if s := c.sign(b); s == ',' || s == ';' {
		b++
		if c.at(b).sort == digits {
			return c.is(b+2, k) || c.is(b+1, k)
		}
		return c.is(b, k)
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

// pairFollows: "0.89 (0.87 – 0.92)".
func (c *context) pairFollows(i int) bool {
	b := c.nums[i].end
	s := c.at(b).shut
	if c.at(b).sort != sign || s < 0 || s-b > longBracket {
		return false
	}
	count := 0
	for j := b + 1; j < s; j++ {
		if c.of[j] >= 0 {
			count++
		} else if c.at(j).sort == word && c.low(j) != "to" || c.sign(j) == '/' {
			return false
		}
	}
	return count == 2
}

// ofInterval: "95% CI 1.2 to 3.4", "CI 95% −2.1 to 0.2", "0.89 (0.87–0.92)".
func ofInterval(c *context, i int) {
	n := &c.nums[i]
	if n.pct && (c.is(n.end, cInterval) || confident(n.value) && c.is(n.end+1, cInterval) && c.sign(n.end) != 0) || !n.pct && c.is(n.last+1, cInterval) && confident(n.value) {
		c.vote(i, Confidence, 14, "the level of an interval")
		return
	}
	k := -1
	for j, s := n.tok-1, 0; j >= 0 && s < 14; j, s = j-1, s+1 {
		t := &c.toks[j]
		if t.is&cInterval != 0 {
			k = j
			break
		}
		if t.sort == digits || c.of[j] >= 0 || t.sort == raised || t.sort == sign && strings.ContainsRune("=:,;-–−‐([%±])", t.sign) || t.is&(cFiller|cJoiner) != 0 || t.low == "for" || t.low == "difference" || t.is&cBound != 0 || t.low == "mean" || t.sort == word && c.unitLike(j) {
			if (t.sign == ')' || t.sign == ']') && !c.is(j-1, cInterval) {
				break
			}
			continue
		}
		break
	}
	if k >= 0 {
		between := 0
		for j := k + 1; j < n.tok; j++ {
			if x := c.of[j]; x >= 0 && !(c.nums[x].pct && confident(c.nums[x].value)) {
				between++
			}
		}
		if between == 0 && n.pct && confident(n.value) && c.at(n.end).sort != word && n.tok-k <= 3 {
			c.vote(i, Confidence, 13, "the level of an interval")
			return
		}
		if between < 2 {
			c.vote(i, Bound, 12, "behind a confidence interval")
			return
		}
	}
	if c.near(i, cBound, 9, 0) >= 0 && c.near(i, cInterval, 25, 0) >= 0 {
		c.vote(i, Bound, 9, "a limit of a confidence interval")
		return
	}
	if lo := c.lowEnd(i); lo > 0 && c.nums[lo-1].ballot.Score(Effect) >= 5 && c.nums[lo-1].end == c.nums[lo].tok-1 && c.sign(c.nums[lo].tok-1) != '(' {
		c.vote(i, Bound, 9, "the pair behind an effect measure") // "HR 2.4; 1.3–4.4"
	}
	if h := c.bracketHead(i); h >= 0 && max(c.nums[h].ballot.Score(Effect), c.nums[h].ballot.Score(Statistic)) >= 5 && c.pairFollows(h) {
		c.vote(i, Bound, 9, "the pair behind an effect measure")
	}
}

// lowEnd is the number itself or, of the second of a pair "1.3–4.4", the first.
func (c *context) lowEnd(i int) int {
	switch n := &c.nums[i]; {
	case n.joint == "-":
		return n.prev
	case n.next >= 0 && c.nums[n.next].joint == "-":
		return i
	}
	return -1
}

func confident(v float64) bool {
	return v == 95 || v == 90 || v == 99 || v == 97.5 || v == 80 || v == 98
}

// ofSpread: "± 1.2", "SD 25.2", "105.6 [10.1]" under "mean [SEM]".
func ofSpread(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.rel == '∓' {
		c.vote(i, Spread, 12, "behind ±")
		return
	}
	k := c.back(i, 6, cFiller|cJoiner)
	if c.at(n.tok-1).sort == word && !c.at(n.tok).gap && n.tok > 0 {
		return // "S1" is a name
	}
	if k >= 0 && c.is(k, cSpread) && c.sign(k-1) != '±' && c.spreadAt(k, i) {
		c.vote(i, Spread, 10, "behind SD, SE or CV")
		return
	}
	b := c.inBracket(i)
	h := c.bracketHead(i)
	if h < 0 || n.word || n.unitText != "" && n.unitText != c.nums[h].unitText || n.rel != 0 {
		if b > 0 && (n.signed && !n.negative || c.sign(n.tok-1) == '+') && i > 0 && c.inBracket(i-1) == b && c.nums[i-1].end == n.tok-1 && n.decimals > 0 {
			c.vote(i, Spread, 8, "behind a plus that stands for ±") // "(3.45 + 0.51)"
		}
		return
	}
	head := &c.nums[h]
	shut := c.at(b).shut
	if shut < 0 || b+1 != n.tok || shut != n.end {
		return
	}
	switch {
	case head.unit == cTime && head.decimals == 0 && n.decimals > 0: // "at 4 weeks (1.9)"
		c.vote(i, Level, 2, "in brackets behind a time")
	case head.word || head.value == 0 && head.decimals == 0:
	case c.is(head.tok-1, cLabel) && head.decimals == 0 && !c.is(head.tok-1, cSpread):
	case n.pct != head.pct && n.pct:
	case c.spreadNamed(i):
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
	if c.at(j).sort == word && (c.unitLike(j) || c.is(j, cSet|cTime)) {
		return true
	}
	return c.is(j, cAgainst) && (c.at(j+1).sort == digits || c.at(j+2).sort == digits)
}

// spreadAt: no other number but those of one list stands between the mark at
// k and the number.
func (c *context) spreadAt(k, i int) bool {
	between := 0
	for j := k + 1; j < c.nums[i].tok; j++ {
		if c.of[j] >= 0 {
			between++
		}
		if s := c.sign(j); s == ')' || s == ';' || between > 0 && (s == '(' || s == '[') {
			return false
		}
	}
	return between == 0 || c.nums[i].prev >= 0 && c.nums[c.nums[i].prev].ballot.Score(Spread) > 5 && !strings.Contains(c.nums[i].joint, "v")
}

// spreadNamed: the words "(SD)" or "mean [SEM]" stand in the text.
func (c *context) spreadNamed(i int) bool {
	for j := max(0, c.nums[i].tok-40); j < len(c.toks) && j < c.nums[i].tok+60; j++ {
		if c.is(j, cSpread) && c.of[j] < 0 && c.raw(j) != "s" && c.raw(j) != "S" && c.raw(j) != "se" {
			return true
		}
	}
	return false
}

// ofRange: "IQR 81–120", "range 39.5–58.2", "9.25 [7.3–13.2]".
func ofRange(c *context, i int) {
	n := &c.nums[i]
	k := c.back(i, 7, cFiller|cJoiner)
	switch {
	case k >= 0 && c.is(k, cRange) && !c.is(k, cBoundWord):
		w := c.low(k)
		if strings.HasPrefix(w, "rang") || strings.HasPrefix(w, "quart") || w == "iqr" || c.at(k).span > 1 || c.at(k).inside {
			if n.prev < 0 || c.back(n.prev, 7, cFiller|cJoiner) == k {
				c.vote(i, RangeEnd, 8, "behind a range")
			}
			return
		}
		c.vote(i, RangeEnd, 4.5, "the least or greatest value")
	}
	if h := c.bracketHead(i); h >= 0 && c.pairFollows(h) && c.nums[h].ballot.Score(Effect) < 5 && c.nums[h].end == c.inBracket(i) {
		if c.intervalsHere(i) {
			c.vote(i, Bound, 4.5, "a pair in brackets, as before a confidence interval")
		} else {
			c.vote(i, RangeEnd, 4.5, "a pair in brackets behind a figure")
		}
	}
	if c.quartileNamed(i) {
		c.vote(i, RangeEnd, 6, "behind the name of a quartile")
	}
	if c.rangesFromTo(i) {
		c.vote(i, RangeEnd, 6, "an end of what ranges from so much to so much")
	}
	if c.endOfScale(i) {
		c.vote(i, RangeEnd, 6, "an end of a scale")
	}
	if (n.joint == "-" || n.next >= 0 && c.nums[n.next].joint == "-") && c.is(n.end, cTime) == false && c.near(i, cAge, 4, 4) >= 0 {
		c.vote(i, RangeEnd, 3, "ends of a range of ages")
	}
}

// quartileNamed: "Q1 0.4; Q3 1.1", "(Q1–Q3: 201–288)".
func (c *context) quartileNamed(i int) bool {
	n := &c.nums[i]
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
func (c *context) intervalsHere(i int) bool {
	for j, s := c.nums[i].tok-1, 0; j >= 0 && s < 50; j, s = j-1, s+1 {
		if c.is(j, cRange) {
			return false
		}
		if c.is(j, cInterval) {
			return true
		}
	}
	return false
}

// rangesFromTo: "ranged from 16.3 to 23.1 MPa", "lasted between 3 and 11 canals".
func (c *context) rangesFromTo(i int) bool {
	lo := i
	if n := &c.nums[i]; n.prev >= 0 && (n.joint == "-" || n.joint == "&") {
		lo = n.prev
	}
	j := c.nums[lo].tok - 1 - b2i(c.nums[lo].signed)
	switch c.low(j) {
	case "from":
		return c.is(j-1, cRange) || c.low(j-1) == "varied" || c.low(j-1) == "varying"
	case "between":
		return c.is(j-1, cRange|cOutcomeVerb) || c.low(j-1) == "varied" || c.low(j-1) == "varying"
	}
	return false
}

// endOfScale: "a 0–10 scale", "(VAS, 0 to 100)".
func (c *context) endOfScale(i int) bool {
	n := &c.nums[i]
	lo, hi := n, n
	switch {
	case n.joint == "-":
		lo = &c.nums[n.prev]
	case n.next >= 0 && c.nums[n.next].joint == "-":
		hi = &c.nums[n.next]
	default:
		return false
	}
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

// ofSize: "n = 12", "a total of 70 patients", "12 extracted molars".
func ofSize(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct {
		return
	}
	t := c.at(n.tok - 1)
	if n.rel == '=' || t.sort == sign && t.sign == ':' {
		if c.is(n.tok-2, cSize) {
			c.vote(i, N, 11, "behind n =")
			return
		}
	}
	if t.sort == word && c.is(n.tok-1, cSize) && (c.raw(n.tok-1) == "n" || c.raw(n.tok-1) == "N") {
		c.vote(i, N, 8, "behind n")
	}
	if c.near(i, cSize, 6, 0) >= 0 && c.low(c.near(i, cSize, 6, 0)) != "s" && n.value > 9 && n.unitText == "" {
		if j := c.near(i, cSize, 6, 0); c.at(j).end-c.at(j).start > 3 {
			c.vote(i, N, 6, "a sample size")
		}
	}
	if w := c.low(n.tok - 1); c.is(n.tok-2, cPart) && w == "of" || c.low(n.last+1) == "per" && c.is(n.last+2, cLabel) || c.low(n.last+1) == "in" && c.low(n.last+2) == "each" || c.low(n.last+1) == "each" {
		if n.unitText == "" && n.rel == 0 {
			c.vote(i, N, 4, "the size of each group")
		}
	}
	p := c.people(n)
	if c.is(n.tok-1, cSettingWord) && c.at(n.tok).gap {
		return // "the size 25 files"
	}
	if p < 0 {
		if n.unitText == "" && n.rel == 0 && n.value > 4 && (c.low(n.tok-1) == "was" || c.low(n.tok-1) == "were") && c.clauseStart(i, cSize) {
			c.vote(i, N, 3, "the sentence speaks of a sample")
		}
		if w := c.low(c.headOfList(i).tok - 1); c.countsNouns(c.tailOfList(i)) && (w == "after" || w == "following") {
			c.vote(i, Dose, 3, "how many were done before")
		} else if c.countsNouns(n) {
			c.vote(i, N, 1.5, "before a noun in the plural")
		}
		return
	}
	w := 2.5
	if c.near(i, cEnrol, 12, 12) >= 0 || c.near(i, cTotal, 4, 0) >= 0 {
		w += 2
	}
	if n.value > 4 {
		w += .5
	}
	if c.near(i, cFate, 0, 8) >= 0 && !(c.near(i, cEnrol, 12, 12) >= 0) {
		w -= 2
		c.vote(i, Count, 2, "of people of whom something is told")
	}
	c.vote(i, N, w, "a number of people or specimens")
}

// people finds the noun of people or specimens that a number counts.
func (c *context) people(n *num) int {
	if n.unitText != "" || n.colon {
		return -1
	}
	for s := 0; s < longList && n.next >= 0 && (strings.Contains(c.nums[n.next].joint, ",") || strings.Contains(c.nums[n.next].joint, "&") || strings.Contains(c.nums[n.next].joint, "v")) && c.nums[n.next].rel == n.rel && c.nums[n.next].decimals == 0 && c.nums[n.next].unitText == ""; s++ {
		n = &c.nums[n.next] // "46, 61 and 108 participants"
	}
	for j, s := n.last+1, 0; s < 5 && j < len(c.toks); j, s = j+1, s+1 {
		t := &c.toks[j]
		switch {
		case t.is&(cPeople|cSpecimen) != 0 && t.sort == word:
			if c.sign(j+1) == '-' && !c.at(j+1).gap {
				return -1
			}
			return j
		case t.sort == word && t.is&(cTime|cSet|cJoiner|cAgainst|cWhen|cFate|cPart) == 0, t.sort == sign && (t.sign == '-' || t.sign == '–') && !t.gap && j > n.last+1:
		default:
			return -1
		}
	}
	return -1
}

// countsNouns: a whole number before a noun in the plural, of which nothing
// else is known: "1 955 and 1 949 fillings".
func (c *context) countsNouns(n *num) bool {
	if n.unitText != "" || n.decimals > 0 || n.rel != 0 || n.colon {
		return false
	}
	for j := n.last + 1; j < n.last+4; j++ {
		t := c.at(j)
		if t.sort != word || t.is != 0 || t.glued {
			return false
		}
		if len(t.low) > 3 && strings.HasSuffix(t.low, "s") && !strings.HasSuffix(t.low, "ss") && !strings.HasSuffix(t.low, "us") && !strings.HasSuffix(t.low, "is") && !strings.HasSuffix(t.low, "ous") {
			return true
		}
	}
	return false
}

// ofCount: "6/30", "five of the nine lambs", "283 (14 %)", "11 adverse events".
func ofCount(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct || n.value < 0 || n.word && isRatioWord(c.low(n.tok)) {
		return
	}
	next := n.last + 1
	if m := c.of2(next + 1); c.low(next) == "in" && m >= 0 && c.nums[m].word == n.word && c.nums[m].value > n.value && c.nums[m].unitText == "" && (n.word || n.value < 4 && c.nums[m].value < 101 && c.people(&c.nums[m]) >= 0) {
		c.vote(i, Count, 4, "one in so many")
		c.vote(m, Total, 4, "one in so many")
	}
	if c.low(n.tok-1) == "all" && n.unitText == "" && c.people(n) < 0 && c.at(next).sort != word {
		c.vote(i, Total, 3.5, "all of so many")
	}
	if (c.sign(next) == '/' || c.sign(next) == '∕') && !c.at(next).gap && c.of2(next+1) >= 0 {
		m := &c.nums[c.of2(next+1)]
		if m.decimals == 0 && m.value >= n.value && m.value > 0 && !c.at(next+1).gap && n.unitText == "" && !(n.tok > 0 && c.at(n.tok-1).sort == word && c.at(n.tok-1).upper && !c.is(n.tok-1, cLabel)) {
			c.vote(i, Count, 5, "k/N")
			c.vote(c.of2(next+1), Total, 5, "k/N")
		}
	}
	if o := c.low(next); o == "of" || o == "out" {
		k := next + 1
		for s := 0; s < 3 && (c.low(k) == "of" || c.low(k) == "the" || c.low(k) == "all" || c.low(k) == "these"); s++ {
			k++
		}
		if m := c.of2(k); m >= 0 && c.nums[m].decimals == 0 && c.nums[m].value >= n.value && !c.nums[m].pct && c.nums[m].unitText == "" {
			c.vote(i, Count, 8, "k of N")
			c.vote(m, Total, 8, "k of N")
		} else if n.word && o == "of" && !isRatioWord(c.low(n.tok)) {
			c.vote(i, Count, 2, "so many of them")
		}
	}
	if (c.low(n.tok-1) == "of" || c.low(n.tok-1) == "the" && c.low(n.tok-2) == "of") && c.low(n.tok-2) != "total" && (n.tok < 4 || c.low(n.tok-2) == "out" || c.at(n.tok-1).upper) && c.people(n) >= 0 {
		c.vote(i, Total, 6, "out of so many")
	}
	if (c.sign(next) == '(' || c.sign(next) == '[') && c.sign(n.tok-1) != '/' {
		if m := c.of2(next + 1); m >= 0 && c.nums[m].pct && c.nums[m].end == c.at(next).shut && n.unitText == "" {
			c.vote(i, Count, 7, "a count with its percentage")
			c.vote(m, Share, 5, "the percentage of a count")
		}
	}
	if p := c.people(n); p >= 0 && n.ballot.Score(Total) < 5 && (c.sign(p+1) == '(' || c.sign(p+1) == '[') {
		if m := c.of2(p + 2); m >= 0 && c.nums[m].pct {
			c.vote(i, Count, 5, "a count with its percentage")
			c.vote(m, Share, 4, "the percentage of a count")
		}
	}
	if i > 0 && c.nums[i-1].pct && c.low(c.skipShut(c.nums[i-1].end)) == "of" && n.tok-c.nums[i-1].end <= 5 && n.unitText == "" && c.sign(n.tok-1) == 0 && (c.sign(c.nums[i-1].end) == 0 || c.people(n) >= 0) {
		c.vote(i, Total, 5, "the whole of a percentage")
	}
	if b := c.inBracket(i); b > 0 && i > 0 && c.nums[i-1].pct && c.nums[i-1].end == b {
		if c.sign(next) == '/' || c.low(next) == "of" {
			c.vote(i, Count, 3, "the count behind a percentage")
			c.vote(i-1, Share, 5, "the percentage of a count")
		}
	}
	if j := next; n.unitText == "" && c.at(j).sort == word && (c.sign(j+1) == '(' || c.sign(j+1) == '[') {
		if m := c.of2(j + 2); m >= 0 && c.nums[m].pct && !c.is(j, cTime|cSet) {
			c.vote(i, Count, 5, "a count with its percentage")
		}
	}
	if h := c.headOfList(i).tok; c.low(h-1) == "in" && (c.is(h-2, cFound) || c.is(h-3, cFound)) && c.people(n) >= 0 {
		c.vote(i, Count, 4.5, "in whom something was found")
	}
	for j, s := next, 0; s < 4 && j < len(c.toks); j, s = j+1, s+1 {
		t := c.at(j)
		if t.is&cEvent != 0 {
			c.vote(i, Count, 5, "a number of events")
			break
		}
		if t.sort != word || t.is&(cJoiner|cAgainst|cTime|cWhen|cPart) != 0 {
			break
		}
	}
	if n.unitText == "" && c.is(next, cFate) && !c.is(n.tok-1, cLabel) && !n.signed && !c.productName(n.tok-1) {
		c.vote(i, Count, 4, "so many of whom something is told")
	}
	if n.word && c.people(n) >= 0 && n.value < 5 {
		c.vote(i, Count, 2, "a few people or specimens")
	}
	if n.unitText == "" && c.low(next) == "times" && c.near(i, cChangeNoun|cComparative, 3, 4) < 0 {
		c.vote(i, Count, 2, "so many times")
	}
}

// skipShut steps over the end of a bracket.
func (c *context) skipShut(j int) int {
	if s := c.sign(j); s == ')' || s == ']' {
		return j + 1
	}
	return j
}

func (c *context) of2(j int) int {
	if j < 0 || j >= len(c.of) {
		return -1
	}
	return c.of[j]
}

// ofCitation: "[12]", "^12", "et al.35", "reported.4".
func ofCitation(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct || n.word || n.value < 1 || n.negative && n.joint == "" {
		return
	}
	if b := c.inBracket(i); n.value > 400 {
		if b >= 0 && c.sign(b) == '[' && c.onlyNumbers(b) && c.bracketHead(i) < 0 && c.at(b-1).sort != digits {
			c.vote(i, Citation, 5, "alone in square brackets") // "[2730]" was "[27–30]"
		}
		return
	}
	before := c.at(n.tok - 1)
	if c.squared(i) {
		return
	}
	if b := c.inBracket(i); b > 0 && c.sign(b) == '[' && c.sign(b-1) == '[' && c.onlyNumbers(b) {
		c.vote(i, Citation, 12, "in doubled square brackets")
		return
	} else if h := c.bracketHead(i); b >= 0 && c.sign(b) == '[' && c.onlyNumbers(b) && h >= 0 && n.end == c.at(b).shut && n.tok == b+1 && (c.nums[h].pct || c.nums[h].unit == cTime || c.nums[h].decimals > 0) && !c.nums[h].lent && c.endsAt(c.at(b).shut) {
		c.vote(i, Citation, 7, "alone in square brackets at the end of a clause")
		return
	}
	if h := c.bracketHead(i); h >= 0 && c.sign(c.inBracket(i)) == '[' && c.nums[h].pct && c.onlyNumbers(c.inBracket(i)) && c.endsAt(c.at(c.inBracket(i)).shut) {
		c.vote(i, Citation, 7, "in square brackets behind a percentage")
		return
	}
	if b := c.inBracket(i); b >= 0 && c.sign(b) == '[' && c.onlyNumbers(b) && c.bracketHead(i) < 0 {
		c.vote(i, Citation, 9, "alone in square brackets")
		return
	}
	if before.sort == sign && before.sign == '^' || i > 0 && n.prev >= 0 && c.nums[n.prev].ballot.Score(Citation) > 8 && c.sign(c.nums[n.prev].tok-1) == '^' {
		p := c.at(n.tok - 2)
		if before.sign != '^' || before.gap || !(p.sort == word && c.unitLike(n.tok-2) && n.value < 4) && p.sort != digits && !(p.sort == sign && (p.sign == '−' || p.sign == '-')) {
			c.vote(i, Citation, 9, "raised behind a word")
			return
		}
	}
	if b := c.inBracket(i); b > 0 && c.sign(b) == '(' && c.onlyNumbers(b) && c.at(b-1).sort == word && c.bracketHead(i) < 0 {
		c.vote(i, Citation, 3.5, "alone in brackets behind a word")
	}
	gluedPoint := before.sort == sign && strings.ContainsRune(".,;:)", before.sign) && !c.at(n.tok).gap && (c.at(n.tok-2).sort == word && c.at(n.tok-2).end-c.at(n.tok-2).start > 1 && !before.gap || before.sign == ')' && false)
	if gluedPoint && (before.sign != ',' && before.sign != ':' || n.prev >= 0) {
		c.vote(i, Citation, 8, "glued behind the end of a sentence or name")
		return
	}
	if c.is(n.tok-1, cCiting) || before.sign == '.' && c.is(n.tok-2, cCiting) || c.is(n.tok-1, cCiting) {
		c.vote(i, Citation, 9, "behind et al. or a reference")
		return
	}
	if before.sort == word && !c.at(n.tok).gap && before.end-before.start > 4 && !before.glued && !c.is(n.tok-1, cCalendar|cTime|cLabel) {
		c.vote(i, Citation, 4, "glued behind a word")
	}
	if n.prev >= 0 && c.nums[n.prev].ballot.Score(Citation) > 7 && !c.at(n.tok-1).gap {
		c.vote(i, Citation, 8, "in a list of citations")
	}
}

// squared: the raised 2 of "χ^2 =", "R^2 =".
func (c *context) squared(i int) bool {
	n := &c.nums[i]
	if c.raw(n.tok-2) == "χ" && c.sign(n.tok-1) == '^' && c.raw(n.tok)[0] == '2' {
		return true // "χ^2", and "χ^22" with its degrees of freedom
	}
	return n.value == 2 && c.sign(n.tok-1) == '^' && !c.at(n.tok-1).gap && c.at(n.tok-2).sort == word && c.at(n.tok-2).end-c.at(n.tok-2).start <= 2 && !c.unitLike(n.tok-2) && (c.equalsSoon(n.last+1) || c.sign(n.last+1) == '(')
}

// endsAt reports whether a sentence or clause ends behind a bracket.
func (c *context) endsAt(j int) bool {
	s := c.sign(j + 1)
	return j+1 >= len(c.toks) || s == '.' || s == ',' || s == ';'
}

// onlyNumbers: a bracket holds whole numbers and the signs of a list.
func (c *context) onlyNumbers(b int) bool {
	if s := c.at(b).shut; s < 0 || s-b > longBracket {
		return false
	}
	for j := b + 1; j < c.at(b).shut; j++ {
		t := c.at(j)
		if t.sort == digits && !strings.ContainsAny(c.raw(j), ".·:") || t.sort == sign && strings.ContainsRune(",-–;‐−", t.sign) || t.low == "and" {
			continue
		}
		return false
	}
	return true
}

// ofYear: "in 2010", "(Patel et al. 1992)".
func ofYear(c *context, i int) {
	n := &c.nums[i]
	t := c.at(n.tok)
	if n.decimals > 0 || n.word || n.pct || t.end-t.start != 4 || n.value < 1900 || n.value > 2100 || n.unitText != "" {
		return
	}
	w := 4.0
	if c.is(n.tok-1, cMonth) || c.low(n.tok-1) == "in" || c.low(n.tok-1) == "since" || c.low(n.tok-1) == "during" {
		w = 6
	}
	if c.clockLike(i) {
		return
	}
	c.vote(i, Year, w, "a year")
	for j := n.tok - 1; j >= 0 && j > n.tok-7; j-- {
		if c.is(j, cCiting) || c.sign(j) == '(' && c.at(j+1).upper && c.at(j+1).sort == word && !c.is(j+1, cMonth) {
			c.vote(i, Citation, 5, "the year of a citation")
			break
		}
	}
}

func (c *context) clockLike(i int) bool {
	n := &c.nums[i]
	return c.raw(n.end-1) == "h" || n.next >= 0 && c.raw(c.nums[n.next].end-1) == "h"
}

// ofName: "Group 2", "Table 3", "HbA1c", "Ki-67", "two-way", "Brisa 20".
func ofName(c *context, i int) {
	n := &c.nums[i]
	if c.squared(i) {
		c.vote(i, Name, 12, "the square of a statistic")
		return
	}
	before, after := c.at(n.tok-1), c.at(n.last+1)
	if !n.word && before.sort == word && !c.at(n.tok).gap {
		switch {
		case c.is(n.tok-1, cCalendar) && before.end-before.start > 2:
			c.vote(i, TimePoint, 7, "behind the name of a time")
		case c.is(n.tok-1, cP|cSize) && before.end-before.start == 1:
		case before.end-before.start > 4 && !before.glued:
			c.vote(i, Name, 3, "glued to a word")
		default:
			c.vote(i, Name, 9, "glued to letters")
			if before.end-before.start == 1 && strings.ContainsAny(c.raw(n.tok-1), "TtV") && n.value < 30 {
				c.vote(i, TimePoint, 6, "the code of a time")
			}
		}
		return
	}
	if s := before.sign; before.sort == sign && (s == '-' || s == '‐' || s == '–') && !before.gap && !c.at(n.tok).gap && n.joint == "" && !n.word {
		if w := c.at(n.tok - 2); w.sort == word && w.is&(cTime|cSet) == 0 && !c.is(n.tok-2, cStatistic) || w.sort == digits && c.of2(n.tok-2) >= 0 && c.nums[c.of2(n.tok-2)].ballot.Score(Name) > 5 {
			c.vote(i, Name, 8, "hyphened to a word")
		}
	}
	if n.prev >= 0 && n.joint == "-" && c.nums[n.prev].ballot.Score(Name) > 6 && n.unitText == "" {
		c.vote(i, Name, 5, "goes on with a name")
	}
	if after.sort == word && !after.gap && !n.word && n.unitText == "" && !(after.low == "x" || c.is(n.last+1, cTimes)) {
		c.vote(i, Name, 7, "glued to letters")
	}
	if after.sort == sign && after.sign == '(' && !after.gap && c.at(n.last+2).upper && c.at(n.last+2).end-c.at(n.last+2).start <= 3 && n.decimals == 0 && c.at(n.last+1).shut == n.last+3 {
		c.vote(i, Name, 6, "glued to letters in brackets")
	}
	if s := after.sign; after.sort == sign && (s == '-' || s == '‐' || s == '–') && !after.gap && c.at(n.last+2).sort == word && !c.at(n.last+2).gap && !n.pct {
		w := c.at(n.last + 2)
		switch {
		case w.is&cTimes != 0:
		case w.is&cHyphenNoun != 0 && w.is&(cTime|cSet) == 0:
			c.vote(i, Name, 6, "part of a compound word")
		case w.is&(cTime|cSet) != 0 || c.unitLike(n.last+2):
			if u := c.at(n.last + 3); u.sort == sign && u.sign == '-' || u.upper {
				if x := c.at(n.last + 4); u.upper || x.upper {
					c.vote(i, Name, 5, "part of a compound name")
				}
			}
		case w.low == "to" || w.low == "and":
		case n.word:
			c.vote(i, Other, 3, "part of a compound word")
		default:
			c.vote(i, Name, 6, "part of a compound name")
		}
	}
	if n.word && (c.low(n.tok) == "double" || c.low(n.tok) == "triple") {
		c.vote(i, Name, 5, "part of a compound name")
	}
	c.label(i)
}

// label: "Table 2", "groups 1, 2 and 5", "week 4", "Brisa 20".
func (c *context) label(i int) {
	n := &c.nums[i]
	if n.word && c.is(n.tok-1, cLabel) && !c.is(n.tok-1, cSettingWord) && c.at(n.tok).gap && n.value >= 1 {
		c.vote(i, Name, 5, "behind the noun of a label")
	}
	if n.word || n.pct || n.unitText != "" && !n.lent || c.low(n.last+1) == "of" && c.of2(n.last+2) >= 0 && (n.prev >= 0 || c.people(&c.nums[c.of2(n.last+2)]) >= 0) {
		return
	}
	j := c.back(i, 14, cJoiner)
	if j < 0 {
		return
	}
	for k := j + 1; k < n.tok; k++ { // only list signs between
		if s := c.sign(k); s == '(' || s == '[' || s == '=' || s == ':' || s == '<' || s == '>' || s == '≤' || s == '≥' || s == '±' || s == '%' {
			return
		}
		if x := c.of[k]; x >= 0 && (c.nums[x].decimals > 0 && n.decimals == 0 || c.nums[x].pct) {
			return
		}
	}
	if j != n.tok-1 && c.of2(j+1) < 0 && !(c.sign(j+1) == '.' && j+2 == n.tok) {
		return
	}
	before := c.at(j)
	switch {
	case c.is(j, cCalendar) && n.decimals == 0 && !(c.of2(j-1) >= 0):
		c.vote(i, TimePoint, 8, "behind the name of a time")
	case c.is(j, cLabel) && n.decimals == 0 && !(c.low(j) == "no" && n.tok-j > 1):
		w := 9.0
		if c.is(j, cSettingWord) || c.low(j) == "score" || c.low(j) == "test" || c.low(j) == "number" || c.low(j) == "no" || c.low(j) == "case" || c.low(j) == "aim" || c.low(j) == "factor" || c.low(j) == "arm" || c.low(j) == "trial" {
			w = 4
		}
		c.vote(i, Name, w, "behind the noun of a label")
	case j == n.tok-1 && c.productName(j) && n.decimals == 0 && !n.lent && (n.value < 2000 || before.glued) && c.at(n.tok).gap:
		w := 4.0
		if !before.glued && c.beginsSentence(j) {
			w = 2.5
		}
		c.vote(i, Name, w, "behind a capitalised name")
	}
	if c.sign(n.last+1) == '.' && false {
		return
	}
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
	s := c.sign(j - 1)
	return s == '.' || s == ':' || s == '•' || s == '“' || s == '"'
}

// ofTime: "at 6 months", "for 8 weeks", "8-week treatment", "aged 35 to 49 years".
func ofTime(c *context, i int) {
	n := &c.nums[i]
	isTime := n.unit == cTime
	if n.colon || n.rel == '±' {
		return
	}
	if !isTime {
		if c.near(i, cAge, 3, 2) >= 0 && n.decimals == 0 && n.unitText == "" && n.value > 5 && n.value < 120 && c.near(i, cPeople, 0, 3) < 0 {
			c.vote(i, Duration, 3, "an age")
		}
		return
	}
	if raw := n.unitText; (raw == "h" || raw == "H") && n.decimals == 0 && n.value >= 100 && n.value <= 2400 {
		c.vote(i, Clock, 6, "a time of day")
		return
	}
	last := c.tail(i)
	after := last.end
	hyphen := c.sign(last.last+1) == '-' || c.sign(last.last+1) == '‐' || c.sign(last.last+1) == '–' && !c.at(last.last+1).gap
	k := c.back(i, 6, cFiller|cBoundWord&^cWhen)
	if c.near(i, cLife, 7, 0) >= 0 && !hyphen && !(k >= 0 && c.is(k, cSettingWord)) {
		c.vote(i, Level, 4.5, "behind a time that is measured")
	}
	if c.near(i, cMean, 0, 3) >= 0 && c.low(after) == "on" {
		c.vote(i, Level, 4, "on average")
	}
	if c.low(after) == "of" && c.is(after+1, cLasting|cPoint) {
		c.vote(i, Duration, 5, "a length of treatment or follow-up")
	}
	measured := n.decimals > 0 || c.sign(after) == '±' || c.is(k, cMean) || c.is(k, cAgainst) && n.decimals > 0
	switch {
	case c.is(after, cAge) || c.is(after-1, cAge) || c.near(i, cAge, 4, 3) >= 0:
		c.vote(i, Duration, 5, "an age")
		if n.joint == "-" || n.next >= 0 && c.nums[n.next].joint == "-" {
			c.vote(i, RangeEnd, 4, "a range of ages")
		}
	case hyphen && (c.is(after, cPoint) || c.is(after, cWhen)):
		c.vote(i, TimePoint, 6, "names a time of follow-up")
	case hyphen:
		c.vote(i, Duration, 5, "a length of time that names something")
	case measured:
		c.vote(i, Level, 2.5, "a measured time")
	case k >= 0 && (c.low(k) == "after" || c.low(k) == "following") && (c.is(after, cLasting) || c.low(after) == "in") && n.joint == "" && n.next < 0:
		c.vote(i, Duration, 6, "a time of treatment behind after")
		c.vote(i, TimePoint, 5, "behind after")
	case k >= 0 && c.is(k, cWhen) && c.low(k) != "treatment":
		c.vote(i, TimePoint, 6, "behind at, after or before")
	case k >= 0 && c.is(k, cComparative) && c.low(k) != "above" && c.low(k) != "below":
		c.vote(i, Duration, 3, "a longer or shorter time")
	case c.is(after, cPoint) && (c.low(after) != "after" || c.near(i, cComparative, 4, 0) < 0):
		c.vote(i, TimePoint, 5, "a time of follow-up")
	case k >= 0 && c.is(k, cLasting) || k >= 0 && (c.low(k) == "last" || c.low(k) == "first" || c.low(k) == "previous"):
		c.vote(i, Duration, 6, "behind for, over or during")
	case k >= 0 && c.low(k) == "every" || c.near(i, cRegimen, 2, 2) >= 0:
		c.vote(i, Dose, 4, "how often")
		c.vote(i, Duration, 3, "how often")
	case k >= 0 && c.is(k, cSet|cSubstance|cSettingWord):
		c.vote(i, Duration, 4, "a length of time of what was set")
	default:
		c.vote(i, Duration, 1.6, "a time")
		c.vote(i, TimePoint, 1.2, "a time")
	}
	if n.decimals == 0 && !measured {
		return
	}
	c.vote(i, Level, .5, "a measured time")
}

// ofSetting: "300 rpm", "40 mg twice daily", "size 25", "25/.06", "5.25 % NaOCl".
func ofSetting(c *context, i int) {
	n := &c.nums[i]
	k := c.back(i, 6, cFiller)
	prevWord := c.at(n.tok - 1)
	switch {
	case n.unit == cSet:
		w := 5.0
		if c.measuredHere(i) {
			w = 1
		}
		if strings.Contains(n.unitText, "°") && n.decimals > 0 {
			w--
		}
		c.vote(i, Dose, w, "a unit of what is set or given")
	case n.word && (c.low(n.tok) == "once" || c.low(n.tok) == "twice" || c.low(n.tok) == "thrice") && (c.is(n.last+1, cRegimen) || c.low(n.last+1) == "a" || c.low(n.last+1) == "per"):
		c.vote(i, Dose, 9, "how often it was given")
	case n.word && (c.low(n.tok) == "once" || c.low(n.tok) == "twice") && c.near(i, cComparative, 0, 4) < 0 && c.low(n.last+1) != "as" && c.low(n.last+1) != "that" && c.low(n.last+1) != "the":
		c.vote(i, Dose, 5, "how often")
	}
	if !n.pct && k >= 0 && c.is(k, cSettingWord) && n.rel == 0 && n.tok-k <= 3 && c.people(n) < 0 && (n.prev < 0 || (n.decimals > 0) == (c.nums[n.prev].decimals > 0)) && !(c.low(k) == "level" || c.low(k) == "levels" || strings.HasPrefix(c.low(k), "frequenc") || strings.HasPrefix(c.low(k), "concentration")) {
		c.vote(i, Dose, 4, "behind the name of a setting")
	}
	if n.pct && c.is(n.tok-1, cSettingWord) && !c.is(n.tok-1, cShare) && n.rel == 0 && c.near(i, cAlpha, 8, 8) < 0 {
		c.vote(i, Dose, 3, "behind the name of a setting")
	}
	if n.pct && (c.is(n.end, cSubstance) || c.substance(n.end) && n.value < 50) {
		w := 6.0
		if !c.is(n.end, cSubstance) && n.joint == "" && !c.set(i) && c.low(n.tok-1) != "with" && c.low(n.tok-1) != "in" && n.decimals > 0 && n.value > 10 {
			w = .8
		}
		c.vote(i, Dose, w, "the strength of a substance")
	}
	if k >= 0 && n.pct && c.is(k, cSubstance) {
		c.vote(i, Dose, 2, "behind a substance")
	}
	if c.tipTaper(i) {
		c.vote(i, Dose, 9, "tip and taper of a file")
		if prevWord.upper && c.at(n.tok-1).sort == word {
			c.vote(i, Name, 5, "in the name of a file")
		}
	}
	if c.adjectival(n) {
		switch {
		case n.unit == cTime:
			c.vote(i, Duration, 2, "before the noun it belongs to")
		case n.pct && !c.set(i) && c.low(n.tok-1) != "with":
		default:
			c.vote(i, Dose, 2.2, "before the noun it belongs to")
		}
	}
	if c.set(i) {
		w := 2.5
		if n.unit == cTime || n.unitText == "" && !n.pct {
			w = 1
		}
		c.vote(i, Dose, w, "behind a verb of setting")
	}
	if x := c.crossed(i); x && !n.word && n.rel == 0 {
		c.vote(i, Dose, 4, "one side of a cross-section")
	}
	if c.sign(n.last+1) == '×' && n.decimals == 0 && n.value >= 20 && c.of2(n.last+2) < 0 {
		c.vote(i, Dose, 6, "so many times over")
	}
	if c.sign(n.tok-1) == '×' && !c.at(n.tok).gap && c.at(n.tok-2).sort != digits {
		c.vote(i, Dose, 6, "a magnification")
	}
	if n.pct && (c.low(n.end) == "w" || c.low(n.end) == "v") && c.sign(n.end+1) == '/' {
		c.vote(i, Dose, 6, "a strength by weight or volume")
	}
	if n.pct && (c.low(n.tok-1) == "a" || c.low(n.tok-1) == "an") && c.at(n.end).sort == word && c.at(n.end).is == 0 && c.near(i, cShare|cChangeNoun|cComparative, 0, 4) < 0 {
		c.vote(i, Dose, 1.8, "a strength before its noun")
	}
	if strings.Contains(n.unitText, "/") && n.unit == 0 && (c.near(i, cSubstance, 2, 3) >= 0 || c.set(i)) {
		c.vote(i, Dose, 3.5, "a concentration beside its substance")
	}
	if c.sign(n.tok-1) == '#' || c.sign(n.tok-1) == '№' {
		c.vote(i, Dose, 6, "behind a number sign")
		c.vote(i, Name, 5, "behind a number sign")
	}
	if k >= 0 && c.low(k) == "at" && !n.pct && n.unitText != "" && n.unit != cTime && c.at(n.end).is&cAgainst == 0 {
		c.vote(i, Dose, 2.5, "behind at")
	}
	if strings.Contains(n.unitText, "°C") && n.decimals == 0 && c.sign(n.last+1) == '±' || strings.HasPrefix(n.unitText, "°") && k >= 0 && (c.low(k) == "at" || c.low(k) == "of") {
		c.vote(i, Dose, 3, "a temperature or an angle that was set")
	}
	if n.decimals > 0 && n.value < .1 && n.unitText == "" && c.is(n.last+1, cSpecimen) {
		c.vote(i, Dose, 3, "the size of an instrument")
	}
	if c.low(n.end) == "taper" || n.pct && c.low(n.end) == "taper" {
		c.vote(i, Dose, 6, "a taper")
	}
	if c.low(n.last+1) == "every" || c.low(n.last+1) == "times" && (c.low(n.last+2) == "daily" || c.low(n.last+2) == "a" || c.low(n.last+2) == "per") || c.low(n.last+1) == "autoclave" || (c.low(n.last+1) == "uses" || c.low(n.last+1) == "times" && c.low(n.tok-1) == "used") {
		c.vote(i, Dose, 5, "how often")
	}
	if u := n.unitText; (u == "mm" || u == "nm" || u == "µm" || u == "μm" || u == "N" || u == "g" || u == "K" || u == "J" || u == "mJ" || u == "W") && n.decimals == 0 && !c.measuredHere(i) {
		c.vote(i, Dose, 1.8, "a whole length or force, as is set")
	}
	if c.sign(n.last+1) == '-' && !c.at(n.last+1).gap && c.unitLike(n.last+2) {
		c.vote(i, Dose, 5, "a size that names something")
	}
	if u := c.sign(n.end); n.unit == cTime && (u == ')' || c.near(i, cSet, 6, 0) >= 0) && c.near(i, cSet, 6, 0) >= 0 && c.near(i, cMean, 8, 0) < 0 {
		c.vote(i, Duration, 2, "beside other settings")
	}
}

// crossed: "17 × 25", "0.016 × 0.022 in", but not "2 × 10^-5".
func (c *context) crossed(i int) bool {
	n := &c.nums[i]
	if n.next >= 0 && c.nums[n.next].joint == "×" {
		m := &c.nums[n.next]
		return m.value != 10 && (n.decimals > 0) == (m.decimals > 0)
	}
	if n.joint == "×" {
		return n.value != 10 && (n.decimals > 0) == (c.nums[n.prev].decimals > 0)
	}
	return false
}

// set reports whether a verb of setting stands shortly before.
func (c *context) set(i int) bool {
	n := &c.nums[i]
	for j, s := n.tok-1, 0; j >= 0 && s < 8; j, s = j-1, s+1 {
		if c.is(j, cSetVerb) {
			return true
		}
		if x := c.sign(j); x == ';' || x == '.' && c.at(j+1).gap {
			return false
		}
	}
	return false
}

// measuredHere: a spread, a mean or a comparison stands around the number.
func (c *context) measuredHere(i int) bool {
	n := &c.nums[i]
	if c.sign(n.end) == '±' || c.sign(n.last+1) == '±' || c.is(n.tok-1, cMean) {
		return true
	}
	if h := n.end; c.sign(h) == '(' || c.sign(h) == '[' {
		if c.is(h+1, cSpread|cInterval) || c.of2(h+1) >= 0 && c.nums[c.of2(h+1)].end == c.at(h).shut && !c.nums[c.of2(h+1)].pct {
			return true
		}
	}
	return c.near(i, cMean, 6, 0) >= 0 || c.near(i, cAgainst, 2, 2) >= 0 || c.low(n.tok-1) == "was" || c.low(n.tok-1) == "were"
}

// substance: "17 % EDTA": an acronym or a formula behind a percentage.
func (c *context) substance(j int) bool {
	t := c.at(j)
	return t.sort == word && t.glued && t.end-t.start >= 2 && t.is&(cInterval|cSpread|cEffect|cStatistic) == 0 && !c.is(j+1, cChangeNoun|cComparative|cDiff)
}

// tipTaper: "25/.06", "#25/.06", "30/04".
func (c *context) tipTaper(i int) bool {
	n := &c.nums[i]
	taper := func(m int) bool {
		s := c.raw(c.nums[m].tok)
		return strings.HasPrefix(s, ".") || strings.HasPrefix(s, "0.0") || strings.HasPrefix(s, "0") && len(s) == 2
	}
	if c.sign(n.last+1) == '/' && c.of2(n.last+2) == i+1 && i+1 < len(c.nums) && !c.at(n.last+1).gap && n.decimals == 0 && n.value >= 6 && n.value <= 140 && taper(i+1) {
		return true
	}
	return i > 0 && c.sign(n.tok-1) == '/' && c.nums[i-1].last+2 == n.tok && !c.at(n.tok-1).gap && c.nums[i-1].decimals == 0 && c.nums[i-1].value >= 6 && taper(i)
}

// ofThreshold: "≥ 5 mm", "less than 45 years", "a BMI above 25".
func ofThreshold(c *context, i int) {
	n := &c.nums[i]
	if strings.ContainsRune("<>≤≥⩽⩾", n.rel) && n.rel != 0 {
		c.vote(i, Threshold, 5, "behind a sign of order")
	}
	j := n.tok - 1
	for s := 0; s < 2 && (c.low(j) == "a" || c.low(j) == "the" && c.low(j-1) != "than"); s++ {
		j--
	}
	if (c.low(j) == "than" && c.is(j-1, cComparative) || c.is(j-1, cBoundWord) && c.at(j).is == 0 && c.at(j).sort == word && j == n.tok-1) && !c.measuredHere(i) {
		c.vote(i, Threshold, 3, "behind words of a bound") // "wider than 0.25 mm", "over the critical 10 °C"
	}
	if k := c.back(i, 4, cFiller|cWhen); k >= 0 && c.is(k, cThreshold) && n.rel == 0 {
		c.vote(i, Threshold, 3, "behind the name of a criterion")
	}
	if c.near(i, cDiff|cChangeNoun, 4, 0) >= 0 && c.near(i, cThreshold, 9, 0) >= 0 && n.rel == 0 {
		c.vote(i, Threshold, 3, "a difference that counts")
	}
	if c.is(j, cBoundWord) && c.at(j).sort == word {
		w := 2.5
		if n.pct || c.near(i, cTimes|cComparative, 0, 3) >= 0 || n.word && isRatioWord(c.low(n.tok)) {
			w = 1
		}
		if c.near(i, cThreshold|cAge, 12, 8) >= 0 || c.low(j) == "above" || c.low(j) == "below" {
			w += 1.5
		}
		c.vote(i, Threshold, w, "behind words of a bound")
	}
	if c.is(j, cBoundWord) && n.pct && c.near(i, cPeople|cShare, 16, 0) >= 0 && c.near(i, cChangeNoun|cChangeVerb, 12, 3) >= 0 && c.responders(i) {
		c.vote(i, Threshold, 8, "what makes a responder")
	}
	if k := c.near(i, cThreshold, 10, 10); k >= 0 && !n.word && n.rel == 0 && (n.decimals > 0 || n.unitText != "") {
		c.vote(i, Threshold, 1.2, "near words of a criterion")
	}
	if n.rel == 0 && (n.decimals > 0 || n.unitText != "" && n.unit != cTime) && c.criteria(i) {
		c.vote(i, Threshold, 3, "the sentence lists criteria")
	}
	if c.low(n.end) == "or" && (c.low(n.end+1) == "more" || c.low(n.end+1) == "less" || c.low(n.end+1) == "higher" || c.low(n.end+1) == "lower" || c.low(n.end+1) == "greater" || c.low(n.end+1) == "fewer") {
		c.vote(i, Threshold, 6, "so much or more")
	}
	if c.sign(n.last+1) == '+' && n.decimals == 0 && !c.at(n.last+1).gap {
		c.vote(i, Threshold, 3, "so much or more")
	}
}

// criteria: the sentence tells who or what was included or excluded.
func (c *context) criteria(i int) bool {
	for j, s := c.nums[i].tok-1, 0; j >= 0 && s < 80; j, s = j-1, s+1 {
		if c.low(j) == "criteria" {
			return true
		}
		if c.sign(j) == '.' && c.at(j+1).gap && c.at(j+1).upper {
			return false
		}
	}
	return false
}

// responders: "patients with a reduction of at least", "who reached": the
// change is a condition on people, not a result.
func (c *context) responders(i int) bool {
	for j, s := c.nums[i].tok-1, 0; j > 0 && s < 12; j, s = j-1, s+1 {
		switch c.low(j) {
		case "with", "who", "achieving", "reaching", "having", "achieved", "reached", "experiencing", "showing", "experienced":
			return c.is(j-1, cPeople|cShare) || c.is(j-2, cPeople|cShare)
		}
	}
	return false
}

// ofPercent: whether a percentage is a claim, a share or a level.
func ofPercent(c *context, i int) {
	n := &c.nums[i]
	if !n.pct {
		return
	}
	end := n.end
	if c.low(end) == "point" || c.low(end) == "points" {
		c.vote(i, Percent, 9, "percentage points")
		return
	}
	for s := 0; s < 3 && !c.fromTo(i); s++ { // "39% statistically significant lower", "17% (95% CI …) reduction"
		if c.is(end+s, cComparative|cChangeNoun|cDiff) && c.at(end+s).sort == word {
			c.vote(i, Percent, 7, "more or less by so much")
			break
		}
		if c.at(end+s).sort != word || c.is(end+s, cJoiner|cAgainst) || c.low(end+s) == "of" || c.low(end+s) == "in" {
			break
		}
	}
	if b := end; (c.sign(b) == '(' || c.sign(b) == '[') && c.at(b).shut > 0 {
		for s := 1; s < 4; s++ {
			if c.is(c.at(b).shut+s, cChangeNoun|cComparative) {
				c.vote(i, Percent, 6, "more or less by so much")
				break
			}
		}
	}
	k := c.back(i, 6, cFiller)
	by := c.low(n.tok-1-b2i(n.signed)) == "by" || k >= 0 && c.low(k) == "by" || k >= 0 && c.of2(k+1) < 0 && c.low(k) == "by"
	switch {
	case (c.low(n.tok-1) == "up" || c.low(n.tok-1) == "down") && !c.is(n.tok-1, cBoundWord):
		c.vote(i, Percent, 5, "up or down by so much")
	case by && c.low(end) == "of" && c.near(i, cPeople|cSpecimen, 0, 6) >= 0:
	case by:
		c.vote(i, Percent, 6, "by so much")
	case c.arrow(i):
		c.vote(i, Percent, 6, "behind an arrow up or down")
	case c.is(n.tok-1-b2i(n.signed), cDiff|cChangeNoun) || c.low(n.tok-1) == "to" && c.is(n.tok-3, cChangeNoun) && c.is(n.tok-2, cChangeVerb):
		c.vote(i, Percent, 5, "a change of so much")
	case c.low(n.tok-1) == "another" || c.low(n.tok-1) == "additional" || c.low(n.tok-1) == "further":
		c.vote(i, Percent, 3, "so much more")
	case c.low(n.tok-1) == "of" && c.low(n.tok-2) == "and" && i > 0 && c.nums[i-1].ballot.Score(Percent) > 4, c.low(n.tok-1) == "of" && c.low(n.tok-2) == "and" && i > 1 && c.nums[i-2].ballot.Score(Percent) > 4:
		c.vote(i, Percent, 5, "goes on with a change of so much")
	case c.low(n.tok-1) == "of" && c.is(n.tok-2, cChangeNoun|cDiff):
		c.vote(i, Percent, 5, "a change of so much")
	case c.changeInOf(i):
		c.vote(i, Percent, 4, "a change of so much")
	case k >= 0 && c.is(k, cChangeVerb) && !c.is(k, cFrom):
		c.vote(i, Percent, 3, "behind a verb of change")
	case n.signed:
		c.vote(i, Percent, 3.5, "a signed percentage")
	}
	if c.sign(n.tok-1) == '(' && c.bracketHead(i) < 0 && c.is(n.tok-2, cChangeNoun|cComparative) && n.rel == 0 && c.at(c.inBracket(i)).shut == n.end {
		c.vote(i, Percent, 2.5, "in brackets behind words of change")
	}
	if c.sign(n.end) == '±' || c.sign(n.last+1) == '±' || c.near(i, cMean, 5, 0) >= 0 {
		c.vote(i, Level, 3, "a mean with its spread")
	}
	if c.clauseStart(i, cDiff|cChangeNoun) && c.low(n.tok-1) != "from" && c.low(n.tok-1) != "to" && n.rel == 0 && !c.fromTo(i) {
		c.vote(i, Percent, 2.5, "the sentence speaks of changes")
	}
	if c.low(end) == "of" && c.near(i, cPeople|cSpecimen, 0, 6) >= 0 || c.is(end, cPeople|cSpecimen) {
		c.vote(i, Share, 4, "a percentage of people or specimens")
	}
	if c.sign(end) == '(' && c.is(end+1, cSize) {
		c.vote(i, Share, 5, "a percentage with its n")
	}
	if w := c.low(end); strings.HasSuffix(w, "ing") && len(w) > 5 && c.at(end).is&^cFate == 0 {
		c.vote(i, Share, 2.5, "of whom something is told")
	}
	if c.near(i, cShare, 14, 4) >= 0 {
		c.vote(i, Share, 1.5, "near words of a rate")
	}
	if n.joint == "v" || n.next >= 0 && c.nums[n.next].joint == "v" {
		c.vote(i, Share, 1.2, "one of two percentages that are compared")
	}
}

func isRatioWord(w string) bool {
	switch w {
	case "half", "twice", "thrice", "double", "triple", "doubled", "tripled", "halved", "quarter", "third", "fifth", "tenth", "once", "halves":
		return true
	}
	return strings.HasSuffix(w, "fold")
}

// ofRatio: "2.3-fold", "twice as", "1.8 times longer", "by a factor of 1.9".
func ofRatio(c *context, i int) {
	n := &c.nums[i]
	next := c.skipHyphen(n.last + 1)
	low := c.low(n.tok)
	switch {
	case c.is(next, cTimes) && c.at(next).sort == word && strings.HasPrefix(c.low(next), "fold"):
		c.vote(i, Ratio, 9, "so many fold")
	case c.low(next) == "times":
		w := 1.5
		if c.is(next+1, cComparative) || c.low(next+1) == "as" || c.low(next+1) == "the" || c.low(next+1) == "that" || c.low(next+1) == "between" {
			w = 8
		} else if c.near(i, cComparative|cDiff, 5, 6) >= 0 && c.low(n.tok-1) != "than" {
			w = 4
		}
		if c.is(n.tok-1, cComparative|cFate) && c.low(n.tok-1) != "lasted" {
			w -= 2
		}
		c.vote(i, Ratio, w, "so many times")
	case c.sign(n.last+1) == '×' || c.raw(n.last+1) == "x" || c.raw(n.last+1) == "X":
		if c.of2(n.last+2) < 0 {
			c.vote(i, Ratio, 5, "so many times")
		}
	case n.word && strings.HasSuffix(low, "fold"):
		c.vote(i, Ratio, 9, "so many fold")
	case n.word && (low == "twice" || low == "thrice") && !c.is(next, cRegimen) && (c.low(next) == "as" || c.low(next) == "that" || c.low(next) == "the" || c.is(next, cComparative)):
		c.vote(i, Ratio, 8, "twice as much")
	case n.word && (low == "doubled" || low == "tripled" || low == "halved"):
		c.vote(i, Ratio, 5, "a verb of so many times")
	case n.word && isRatioWord(low) && low != "once" && low != "twice":
		if c.low(next) == "of" && c.near(i, cPeople|cSpecimen, 0, 7) >= 0 || c.near(i, cPeople|cSpecimen, 0, 4) >= 0 {
			c.vote(i, Share, 4, "a part of people or specimens")
		} else {
			c.vote(i, Ratio, 4, "a part or a multiple")
		}
	}
	if n.last > n.tok && n.word {
		c.vote(i, Ratio, 4, "a part")
	}
	if k := c.back(i, 4, cFiller); k >= 0 && (c.low(k) == "factor" || c.is(k, cTimes) && (c.at(k).span > 1 || c.at(k).inside)) {
		c.vote(i, Ratio, 8, "a factor of so much")
	}
	if n.next >= 0 && c.nums[n.next].joint == "-" {
		if m := &c.nums[n.next]; c.low(c.skipHyphen(m.last+1)) == "times" || c.is(c.skipHyphen(m.last+1), cTimes) {
			c.vote(i, Ratio, 7, "a range of so many times")
		}
	}
}

// ofChange: "a decrease of 1.15 kg", "mean difference −0.60", "Δ = 5.3".
func ofChange(c *context, i int) {
	n := &c.nums[i]
	if n.pct || n.rel == '±' || n.word && c.low(n.tok) != "one" {
		return
	}
	k := c.back(i, 6, cFiller)
	i1 := n.tok - 1 - b2i(n.signed)
	switch {
	case k >= 0 && c.is(k, cDiff|cChangeNoun) && (n.decimals > 0 || n.unitText != "" || n.signed || n.rel == '=') && !c.is(k, cSettingWord):
		c.vote(i, Change, 5, "behind a change or difference")
	case c.byHead(i) && (c.near(i, cChangeVerb|cChangeNoun|cComparative, 25, 0) >= 0 || n.decimals > 0):
		c.vote(i, Change, 6, "by so much")
	case c.changeInOf(i):
		c.vote(i, Change, 4.5, "a change of so much")
	case c.arrow(i) && (n.decimals > 0 || n.unitText != ""):
		c.vote(i, Change, 4, "behind an arrow up or down")
	case n.signed && (n.decimals > 0 || n.unitText != "") && !n.pct:
		w := 2.5
		if c.near(i, cDiff|cChangeNoun|cChangeVerb, 25, 6) >= 0 {
			w = 4.5
		}
		c.vote(i, Change, w, "a signed figure")
	case k >= 0 && c.is(k, cChangeVerb) && n.unitText != "" && c.low(k) != "raised" && c.low(i1) != "to" && c.low(i1) != "from":
		c.vote(i, Change, 2, "behind a verb of change")
	}
	if (n.decimals > 0 || n.unitText != "") && (c.is(n.end, cComparative) || c.low(n.end) == "per" && c.is(n.end+2, cComparative)) && n.unit != cTime {
		c.vote(i, Change, 4, "more or less by so much")
	}
	if c.clauseStart(i, cDiff|cChangeNoun) && n.decimals > 0 && c.low(i1) != "from" && c.low(i1) != "to" && !c.fromTo(i) {
		c.vote(i, Change, 4.2, "the sentence speaks of changes")
	}
}

// byHead: a number behind "by" or "by more than", or in a list that stands
// there: "by 0.21, 0.18 and 0.12 mm".
func (c *context) byHead(i int) bool {
	h := &c.nums[i]
	for s := 0; h.prev >= 0 && s < longList; s++ {
		if p := &c.nums[h.prev]; strings.Contains(h.joint, "v") || p.pct != h.pct {
			return false
		}
		h = &c.nums[h.prev]
	}
	j := h.tok - 1 - b2i(h.signed)
	for s := 0; s < 3 && c.is(j, cBoundWord|cFiller); s++ {
		j--
	}
	return c.low(j) == "by"
}

// changeInOf: "a decrease in triglycerides and cholesterol of 53.3 and 24 mg/dl".
func (c *context) changeInOf(i int) bool {
	j := c.headOfList(i).tok - 1 - b2i(c.headOfList(i).signed)
	if c.low(j) != "of" {
		return false
	}
	for s := 0; s < 14 && j > 0; s++ {
		j--
		if x := c.sign(j); c.of[j] >= 0 || x == ';' || x == '.' || x == ')' || x == '(' {
			return false
		}
		if c.is(j, cChangeNoun|cDiff) {
			return c.low(j+1) == "in" || c.low(j+1) == "of" || c.low(j+1) == "between"
		}
	}
	return false
}

// fromTo: one of "from 3.45 to 2.15".
func (c *context) fromTo(i int) bool {
	n := &c.nums[i]
	for j, s := n.tok-1, 0; j >= 0 && s < 8; j, s = j-1, s+1 {
		if c.low(j) == "from" {
			return true
		}
		if c.sign(j) == ';' || c.sign(j) == ')' && s < 2 {
			return false
		}
	}
	return false
}

// clauseStart: the subject of the number's clause, before its verb, is of
// such a class: "Average changes … were 3.9 and 0.5".
func (c *context) clauseStart(i int, k class) bool {
	j := c.nums[i].tok - 1
	verb := -1
	for s := 0; j >= 0 && s < 40; j, s = j-1, s+1 {
		if x := c.sign(j); x == ';' || x == '.' && c.at(j+1).gap {
			break
		}
		switch c.low(j) {
		case "was", "were", "is", "are":
			if verb < 0 {
				verb = j
			}
		}
	}
	if b := c.inBracket(i); verb < 0 || b > verb {
		// "(mean increment: control group = 4.11 …)"
		if b >= 0 {
			for m := b + 1; m < b+4; m++ {
				if c.is(m, k) {
					return true
				}
			}
		}
		return false
	}
	for m, s := verb-1, 0; m > j && s < 14; m, s = m-1, s+1 {
		if c.is(m, k) && (k != cStatistic || c.at(m).end-c.at(m).start > 3) {
			return true
		}
		if x := c.of[m]; x >= 0 && (c.nums[x].decimals > 0 || c.nums[x].unitText != "") && c.nums[x].ballot.Score(Name) < 5 && c.nums[x].ballot.Score(P) < 8 {
			return false
		}
		if x := c.sign(m); x == ',' {
			return false
		}
	}
	return false
}

// ofLevel: a mean, a median, a value with its spread.
func ofLevel(c *context, i int) {
	n := &c.nums[i]
	if n.rel == '±' || n.word {
		return
	}
	if c.sign(n.end) == '±' || c.sign(n.last+1) == '±' || c.sign(n.end) == '+' && (c.sign(n.end+1) == '/' || c.sign(n.end+1) == '-') || c.at(n.last+1).sort == sign && c.sign(n.last+1) == '^' && c.sign(n.last+3) == '±' {
		c.centre(i, 4, "with its spread")
	}
	if b := n.end; c.sign(b) == '(' || c.sign(b) == '[' {
		if c.is(b+1, cSpread|cInterval|cRange) || c.is(b+2, cInterval) || c.is(b+3, cInterval) {
			c.centre(i, 3, "with its spread")
		} else if m := c.of2(b + 1); m >= 0 && c.nums[m].end == c.at(b).shut && !c.nums[m].pct && (c.nums[m].decimals > 0 || c.spreadNamed(m) || c.goesOn(c.at(b).shut)) && !c.nums[m].word {
			c.centre(i, 2.5, "with its spread in brackets")
		} else if c.pairFollows(i) {
			c.centre(i, 2, "with a pair in brackets")
		}
	}
	if c.sign(n.end) == ',' && c.is(n.end+1, cSpread) {
		c.vote(i, Level, 3, "with its spread")
	}
	if k := c.back(i, 5, cFiller); k >= 0 {
		switch {
		case c.is(k, cMean):
			c.vote(i, Level, 3, "behind a mean or median")
		case c.is(k, cAgainst) && !n.pct && (n.decimals > 0 || n.unitText != ""):
			c.vote(i, Level, 1.5, "compared with another")
		case c.longTime(n):
		case (c.low(k) == "from" || c.low(k) == "to") && !n.pct && c.near(i, cChangeVerb|cChangeNoun, 24, 0) >= 0 && !c.is(n.tok-1, cCalendar):
			c.vote(i, Level, 3, "from so much to so much")
		}
	}
	if c.near(i, cMean, 10, 0) >= 0 {
		c.vote(i, Level, 1, "near a mean")
	}
	if n.joint == "v" || n.next >= 0 && c.nums[n.next].joint == "v" {
		if !n.pct && !c.longTime(n) && !(n.unit == cSet && c.near(i, cSettingWord, 4, 0) >= 0) {
			c.vote(i, Level, 3, "one of two that are compared")
		}
	}
	c.alone(i)
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

// ranked: "Quenda 612 > Ostrel 405 > Noreva 298 s".
func (c *context) ranked(i int) bool {
	n := &c.nums[i]
	follows := func(j int) bool {
		s := c.sign(j)
		return (s == '>' || s == '<') && c.at(j+1).sort == word && c.at(j+1).upper && c.of2(j+2) >= 0
	}
	t := c.at(n.tok - 1)
	return t.sort == word && t.upper && n.rel == 0 && (follows(n.end) || i > 0 && c.nums[i-1].end == n.tok-2 && follows(n.tok-2))
}

// longTime: whole hours, days or longer: times are measured so only now and
// then, and set often.
func (c *context) longTime(n *num) bool {
	if n.unit != cTime || n.decimals > 0 {
		return false
	}
	switch n.unitText[0] {
	case 's', 'm', 'S', 'M':
		return strings.HasPrefix(n.unitText, "mo") || strings.HasPrefix(n.unitText, "Mo")
	}
	return true
}

// alone: a figure with its unit that fills a bracket behind a name, "(74 s)",
// where the sentence compares; and figures shared out by "respectively".
func (c *context) alone(i int) {
	n := &c.nums[i]
	b := c.inBracket(i)
	if b > 0 && b+1 == n.tok && !n.pct && n.unitText != "" && n.decimals+len(n.unitText) > 0 && c.at(b-1).sort == word && (c.at(b).shut == n.end || c.sign(n.end) == ',' || c.sign(n.end) == ';') {
		if c.near(i, cComparative|cAgainst|cChangeVerb, 18, 12) >= 0 && !c.longTime(n) {
			c.vote(i, Level, 4.2, "in the brackets of one side of a comparison")
		}
	}
	t := c.tail(i)
	if t == n {
		t = c.tailOfList(i)
	}
	for j, s := t.end, 0; s < 3; j, s = j+1, s+1 {
		if strings.HasPrefix(c.low(j), "respective") || c.low(j) == "resp" {
			if m := &c.nums[i]; m.pct {
				c.vote(i, Share, 1, "shared out by respectively")
			} else if c.low(m.tok-1) != "to" {
				c.vote(i, Level, 2.5, "shared out by respectively")
			}
			return
		}
		if c.at(j).sort == word || c.at(j).sort == digits || c.at(j).sort == none {
			return
		}
	}
}

// centre: a figure with its spread or interval is a level, or where the words
// speak of changes a change.
func (c *context) centre(i int, w float64, why string) {
	n := &c.nums[i]
	c.vote(i, Level, w, why)
	for _, r := range [...]Role{Change, Percent} {
		if c.nums[i].ballot.Score(r) >= 2 && (r == Percent) == n.pct {
			c.vote(i, r, w, why)
		}
	}
}

// arrow: "torque ↓ 12 %".
func (c *context) arrow(i int) bool {
	s := c.sign(c.nums[i].tok - 1)
	return s == '↑' || s == '↓' || s == '▲' || s == '▼'
}

// ofMoney: "€18.50", "US$ 21".
func ofMoney(c *context, i int) {
	n := &c.nums[i]
	if s := c.sign(n.tok - 1); s == '$' || s == '€' || s == '£' || s == '¥' || n.unit == cMoney || c.is(n.tok-1, cMoney) {
		c.vote(i, Money, 9, "an amount of money")
	}
}

// ofListMark: "(1) … (2) …", "the two groups", exponents, powers.
func ofListMark(c *context, i int) {
	n := &c.nums[i]
	t := c.at(n.tok - 1)
	if t.sort == word && !c.at(n.tok).gap && areaUnit(c.raw(n.tok-1)) && (n.value == 2 || n.value == 3) && n.tok > 1 && c.at(n.tok-2).sort != word {
		c.vote(i, Other, 14, "an exponent")
	}
	if t.sort == sign && t.sign == '−' && !t.gap && !c.at(n.tok).gap && c.at(n.tok-2).sort == word && n.decimals == 0 && n.value < 4 && n.value > -4 {
		c.vote(i, Other, 11, "an exponent")
	}
	if t.sort == sign && (t.sign == '−' || t.sign == '-') && !t.gap && !c.at(n.tok).gap && c.at(n.tok-2).sort == word && (c.unitLike(n.tok-2) || c.is(n.tok-2, cTime|cSet)) && n.decimals == 0 && n.value < 5 {
		c.vote(i, Other, 9, "an exponent")
	}
	if t.sort == sign && t.sign == '^' || (t.sign == '−' || t.sign == '-') && c.sign(n.tok-2) == '^' {
		j := n.tok - 2
		if t.sign != '^' {
			j--
		}
		switch {
		case c.of2(j) >= 0 && c.nums[c.of2(j)].ballot.Score(P) > 5:
			c.vote(i, P, 12, "the power of a p value")
		case c.at(j).sort == word && (c.unitLike(j) || c.is(j, cTime|cSet)) && n.value < 4 || c.at(j).sort == digits && !c.at(j+1).gap:
			c.vote(i, Other, 12, "an exponent")
		}
	}
	if b := c.inBracket(i); b >= 0 && c.at(b).shut == n.last+1 && n.tok == b+1 && n.decimals == 0 && !n.word && n.value < 10 && c.at(n.last+2).sort == word && (b == 0 || c.sign(b-1) != 0 || c.low(b-1) == "and") {
		c.vote(i, Other, 5, "the number of an item")
	}
	if n.decimals == 0 && n.unitText == "" && n.value < 20 && c.sign(n.last+1) != ')' {
		for j, s := n.last+1, 0; s < 4; j, s = j+1, s+1 {
			if c.is(j, cPart) {
				c.vote(i, Other, 4, "how many groups or parts")
				break
			}
			if c.at(j).sort != word || c.is(j, cTime|cSet|cPeople|cJoiner|cAgainst) {
				break
			}
		}
	}
	if c.sign(n.last+1) == ')' && c.inBracket(i) < 0 && n.decimals == 0 && n.value < 20 {
		c.vote(i, Other, 6, "the number of an item") // "1) the prevention of"
	}
	if n.pct && c.near(i, cPower, 3, 3) >= 0 && c.near(i, cAlpha|cSize, 30, 30) >= 0 || n.value < 1 && n.decimals > 0 && n.unitText == "" && c.is(c.back(i, 4, cFiller), cPower) {
		c.vote(i, Other, 5, "the power of a test")
	}
	if c.sign(n.last+1) == '=' && n.decimals == 0 && c.at(n.last+2).sort == word && n.rel == 0 && c.at(n.tok-1).sort != word {
		c.vote(i, Other, 4, "a code with its meaning")
	}
	th := n.last + 1
	if c.sign(th) == '^' {
		th++
	}
	if w := c.raw(th); (w == "th" || w == "st" || w == "nd" || w == "rd") && !c.at(th).gap {
		c.vote(i, Other, 9, "an ordinal")
	}
}

// agree lets the numbers of a list share their reasons: what is said of the
// last holds for the first. Figures with their spreads between them are one
// list too.
func (c *context) agree() {
	add := func(to, from int, w float64, why string) {
		choice := c.nums[from].ballot.Choose()
		if choice.Best.Score <= 0 {
			return
		}
		c.vote(to, choice.Best.Value, w*min(choice.Gap(), 6), why)
	}
	var links []link
	for i := range c.nums {
		n := &c.nums[i]
		if n.prev >= 0 && c.peers(n.prev, i) {
			links = append(links, link{n.prev, i})
		}
	}
	for i := range c.nums { // "105.6 [10.1] vs 55.6 [13.1]"
		k := i + 1
		for k < len(c.nums) && k <= i+3 && (c.nums[k].ballot.Score(Spread) >= 5 || c.nums[k].ballot.Score(RangeEnd) > 4) {
			k++
		}
		if k > i+1 && k < len(c.nums) && c.nums[k].rel == c.nums[i].rel && c.peers(i, k) && c.listBetween(k-1, k) {
			links = append(links, link{i, k})
		}
	}
	links = append(links, c.elided()...)
	links = append(links, c.centres()...)
	for _, l := range links {
		add(l.b, l.a, .55, "in a list with the number before it")
	}
	for i := len(links) - 1; i >= 0; i-- {
		add(links[i].a, links[i].b, .55, "in a list with the number behind it")
	}
}

// link joins two numbers that share their reasons.
type link struct{ a, b int }

// elided finds numbers whose noun or unit is said with another one: "3
// patients in the test and 5 in the control arm", "11 min 20 s".
func (c *context) elided() []link {
	var out []link
	echoes := make([]bool, len(c.nums))
	for i := 1; i < len(c.nums); i++ {
		a, b := &c.nums[i-1], &c.nums[i]
		switch {
		case a.unit == cTime && b.unit == cTime && a.end == b.tok && a.unitText != b.unitText:
			out = append(out, link{i - 1, i})
		case c.parallel(i):
			out = append(out, link{i - 1, i})
		default:
			if k := c.echoed(i, echoes); k >= 0 {
				echoes[i] = true
				out = append(out, link{k, i})
			}
		}
	}
	return out
}

// parallel: two figures with one unit before one preposition: "47 °C for the
// gold and 33 °C for the silver wire".
func (c *context) parallel(i int) bool {
	a, b := &c.nums[i-1], &c.nums[i]
	w := c.low(b.end)
	return a.unitText != "" && a.unitText == b.unitText && !a.lent && w != "" && w == c.low(a.end) && c.is(b.end, cFunction) && w != "and" &&
		b.tok-a.end < 16 && c.inBracket(i-1) == c.inBracket(i) && c.oneClause(a.end, b.tok) && (a.decimals > 0) == (b.decimals > 0)
}

// centres links figures with their spreads or intervals that are told by one
// sentence: "was 1.6 ± 0.8 mm (P < 0.001) in A and 2.2 ± 0.7 mm in B".
func (c *context) centres() []link {
	var out []link
	last := -1
	for i := 0; i+1 < len(c.nums); i++ {
		a, b := &c.nums[i], &c.nums[i+1]
		if b.ballot.Score(Spread) < 8 && (c.bracketHead(i+1) != i || b.pct == a.pct) || b.tok-a.end > 3 || a.decimals == 0 && a.unitText == "" {
			continue
		}
		if last >= 0 && a.tok-c.nums[last].tok < 30 && c.nums[last].pct == a.pct && c.nums[last].unitText == a.unitText && c.oneClause(c.nums[last].end, a.tok) {
			out = append(out, link{last, i})
		}
		last = i
	}
	return out
}

// oneClause: no semicolon or full stop stands between two tokens.
func (c *context) oneClause(from, to int) bool {
	for j := from; j < to; j++ {
		if x := c.sign(j); x == ';' || x == ':' || x == '.' && c.at(j+1).gap {
			return false
		}
	}
	return true
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

// listBetween: only units, brackets' ends and list signs stand between the
// spread of one figure and the next figure.
func (c *context) listBetween(a, b int) bool {
	for j := c.nums[a].end; j < c.nums[b].tok; j++ {
		t := c.at(j)
		if t.sort == sign && strings.ContainsRune(");],%-−–(", t.sign) || t.is&(cJoiner|cAgainst) != 0 || t.sort == word && c.unitLike(j) || t.is&cTime != 0 || t.sign == '.' {
			continue
		}
		if j-c.nums[a].end > 10 || t.sign == ';' {
			return false
		}
	}
	return true
}

// peers are two numbers of one form.
func (c *context) peers(a, b int) bool {
	x, y := &c.nums[a], &c.nums[b]
	if x.word != y.word && (x.decimals > 0 || y.decimals > 0) || x.pct != y.pct || x.rel == '±' || y.rel == '±' || (x.colon != y.colon) {
		return false
	}
	if x.ballot.Score(Year) > 3 != (y.ballot.Score(Year) > 3) {
		return false
	}
	if x.unitText != y.unitText && (x.unit != cTime || y.unit != cTime) || strings.Contains(y.joint, "/") && !strings.Contains(y.joint, "v") && !c.tipTaper(a) {
		return false
	}
	if (x.decimals > 0) != (y.decimals > 0) && (x.unitText == "" || x.unitText != y.unitText) {
		return false
	}
	if (x.rel == '=') != (y.rel == '=') && y.joint == "," && x.ballot.Score(N) < 8 || strings.Contains(y.joint, ";") && x.rel != y.rel {
		return false
	}
	return c.inBracket(a) == c.inBracket(b) || c.bracketHead(a) < 0 && c.bracketHead(b) < 0
}
