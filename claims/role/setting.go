package role

import "strings"

// ofTime: "at 6 months", "for 8 weeks", "8-week treatment", "aged 35 to 49 years".
func ofTime(c *context, i int) {
	n := &c.nums[i]
	switch {
	case n.colon || n.rel == '±':
		return
	case n.unit != cTime:
		if c.near(i, cAge, 3, 2) >= 0 && n.decimals == 0 && n.unitText == "" && n.value > 5 && n.value < 120 && c.near(i, cPeople, 0, 3) < 0 {
			c.vote(i, Duration, 3, "an age")
		}
		return
	case c.clockTime(n):
		c.vote(i, Clock, 6, "a time of day")
		return
	}
	last := c.tail(i)
	after := last.end
	k := c.back(i, 6, cFiller|cBoundWord&^cWhen)
	switch {
	case c.is(after, cAge) || c.is(after-1, cAge) || c.near(i, cAge, 4, 3) >= 0:
		if c.near(i, cMean, 6, 0) >= 0 {
			c.vote(i, Level, 5, "a mean age")
		} else {
			c.vote(i, Duration, 5, "an age")
		}
		if c.lowEnd(i) >= 0 {
			c.vote(i, RangeEnd, 4, "a range of ages")
		}
	case c.hyphen(last.last+1) && c.is(after, cPoint|cWhen):
		c.vote(i, TimePoint, 6, "names a time of follow-up")
	case c.hyphen(last.last + 1):
		c.vote(i, Duration, 5, "a length of time that names something")
	case c.timeMeasured(n, after, k):
		c.vote(i, Level, 2.5, "a measured time")
	case among(c.low(k), "after", "following") && (c.is(after, cLasting) || c.low(after) == "in") && n.joint == "" && n.next < 0:
		c.vote(i, Duration, 6, "a time of treatment behind after")
		c.vote(i, TimePoint, 5, "behind after")
	case c.is(k, cWhen) && c.low(k) != "treatment":
		c.vote(i, TimePoint, 6, "behind at, after or before")
	case c.is(k, cComparative) && !among(c.low(k), "above", "below"):
		c.vote(i, Duration, 3, "a longer or shorter time")
	case c.is(after, cPoint) && (c.low(after) != "after" || c.near(i, cComparative, 4, 0) < 0):
		c.vote(i, TimePoint, 5, "a time of follow-up")
	case c.is(k, cLasting) || among(c.low(k), "last", "first", "previous"):
		c.vote(i, Duration, 6, "behind for, over or during")
	case c.low(k) == "every" || c.near(i, cRegimen, 2, 2) >= 0:
		c.vote(i, Dose, 4, "how often")
		c.vote(i, Duration, 3, "how often")
	case c.is(k, cSet|cSubstance|cSettingWord):
		c.vote(i, Duration, 4, "a length of time of what was set")
	default:
		c.vote(i, Duration, 1.6, "a time")
		c.vote(i, TimePoint, 1.2, "a time")
	}
}

// clockTime: "1700 h".
func (c *context) clockTime(n *num) bool {
	return (n.unitText == "h" || n.unitText == "H") && n.decimals == 0 && n.value >= 100 && n.value <= 2400
}

// timeMeasured: a time with decimals, a spread or a mean is an outcome.
func (c *context) timeMeasured(n *num, after, k int) bool {
	return n.decimals > 0 || c.sign(after) == '±' || c.is(k, cMean)
}

// ofMeasuredTime: "the files lasted 74 s", "510 s on average", "after 5.6 years
// of follow-up".
func ofMeasuredTime(c *context, i int) {
	n := &c.nums[i]
	if n.colon || n.rel == '±' || n.unit != cTime || c.clockTime(n) {
		return
	}
	last := c.tail(i)
	k := c.back(i, 6, cFiller|cBoundWord&^cWhen)
	if c.timeMeasured(n, last.end, k) {
		c.vote(i, Level, .5, "a measured time")
	}
	if c.near(i, cLife, 7, 0) >= 0 && !c.hyphen(last.last+1) && !c.is(k, cSettingWord) {
		c.vote(i, Level, 4.5, "behind a time that is measured")
	}
	if c.near(i, cMean, 0, 3) >= 0 && c.low(last.end) == "on" {
		c.vote(i, Level, 4, "on average")
	}
	if c.low(last.end) == "of" && c.is(last.end+1, cLasting|cPoint) {
		c.vote(i, Duration, 5, "a length of treatment or follow-up")
	}
	if c.near(i, cSet, 6, 0) >= 0 && c.near(i, cMean, 8, 0) < 0 {
		c.vote(i, Duration, 2, "beside other settings")
	}
}

// longTime: whole hours, days or longer: such times are set more often than
// they are measured.
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

// ofSetUnit: "300 rpm", "40 mg", "37 °C", "at 60°".
func ofSetUnit(c *context, i int) {
	n := &c.nums[i]
	if n.unit == cSet {
		w := 5.0
		if c.measuredHere(i) {
			w = 1
		}
		if strings.Contains(n.unitText, "°") && n.decimals > 0 {
			w--
		}
		if n.unitText == "°" && n.decimals > 0 {
			w-- // angles are set in whole degrees
		}
		c.vote(i, Dose, w, "a unit of what is set or given")
	}
	degrees := strings.HasPrefix(n.unitText, "°") && among(c.low(c.back(i, 6, cFiller)), "at", "of")
	if degrees || strings.Contains(n.unitText, "°C") && n.decimals == 0 && c.sign(n.last+1) == '±' {
		c.vote(i, Dose, 3, "a temperature or an angle that was set")
	}
	if strings.Contains(n.unitText, "/") && n.unit == 0 && (c.near(i, cSubstance, 2, 3) >= 0 || c.set(n)) {
		c.vote(i, Dose, 3.5, "a concentration beside its substance")
	}
}

// measuredHere: a spread, a mean or a comparison stands around the number.
func (c *context) measuredHere(i int) bool {
	n := &c.nums[i]
	if c.sign(n.end) == '±' || c.sign(n.last+1) == '±' || c.is(n.tok-1, cMean) {
		return true
	}
	if h := n.end; c.opens(h) {
		if m := c.num(h + 1); c.is(h+1, cSpread|cInterval) || m != nil && m.end == c.at(h).shut && !m.pct {
			return true
		}
	}
	return c.near(i, cMean, 6, 0) >= 0 || c.near(i, cAgainst, 2, 2) >= 0 || among(c.low(n.tok-1), "was", "were")
}

// ofSettingName: "size 25", "a radius of 5 mm", "power 60 %", "#15".
func ofSettingName(c *context, i int) {
	n := &c.nums[i]
	k := c.back(i, 6, cFiller)
	oneForm := n.prev < 0 || (n.decimals > 0) == (c.nums[n.prev].decimals > 0)
	if !n.pct && c.is(k, cSettingWord) && !c.is(k, cMeasuredToo) && n.rel == 0 && n.tok-k <= 3 && c.people(n) < 0 && oneForm {
		c.vote(i, Dose, 4, "behind the name of a setting")
	}
	if n.pct && (c.is(n.tok-1, cSettingWord) || strings.HasPrefix(c.low(k), "concentration")) && !c.is(n.tok-1, cShare) && n.rel == 0 && c.near(i, cAlpha, 8, 8) < 0 {
		c.vote(i, Dose, 3, "behind the name of a setting")
	}
	if s := c.sign(n.tok - 1); s == '#' || s == '№' {
		c.vote(i, Dose, 6, "behind a number sign")
		c.vote(i, Name, 5, "behind a number sign")
	}
}

// ofStrength: "5.25 % NaOCl", "17 % EDTA", "15 % w/v", "a 0.6 % cranberry rinse".
func ofStrength(c *context, i int) {
	n := &c.nums[i]
	if !n.pct {
		return
	}
	before := c.low(n.tok - 1)
	if known := c.is(n.end, cSubstance); known || c.acronym(n.end) && n.value < 50 {
		w := 6.0
		if !known && n.joint == "" && !c.set(n) && !among(before, "with", "in") && n.decimals > 0 && n.value > 10 {
			w = .8 // "25.4 % TNF" may be a result
		}
		c.vote(i, Dose, w, "the strength of a substance")
	}
	if c.is(c.back(i, 6, cFiller), cSubstance) {
		c.vote(i, Dose, 2, "behind a substance")
	}
	if among(c.low(n.end), "w", "v") && c.sign(n.end+1) == '/' {
		c.vote(i, Dose, 6, "a strength by weight or volume")
	}
	if among(before, "a", "an") && c.at(n.end).sort == word && c.at(n.end).is == 0 && c.near(i, cShare|cChangeNoun|cComparative, 0, 4) < 0 {
		c.vote(i, Dose, 1.8, "a strength before its noun")
	}
}

// acronym: an acronym or a formula, as of a substance.
func (c *context) acronym(j int) bool {
	t := c.at(j)
	return t.sort == word && t.glued && t.end-t.start >= 2 && t.is&(cInterval|cSpread|cEffect|cStatistic) == 0 && !c.is(j+1, cChangeNoun|cComparative|cDiff)
}

// ofTaper: "25/.06", "Brisa 30/04", ".04 taper", "0.016 wires", "15 K-file".
func ofTaper(c *context, i int) {
	n := &c.nums[i]
	if c.tipTaper(i) {
		c.vote(i, Dose, 9, "tip and taper of a file")
		if t := c.at(n.tok - 1); t.upper && t.sort == word {
			c.vote(i, Name, 5, "in the name of a file")
		}
	}
	if among(c.raw(n.last+1), "K", "H") && c.hyphen(n.last+2) && c.is(n.last+3, cSpecimen|cHyphenNoun) {
		c.vote(i, Dose, 4, "the size of a file")
	}
	if before := c.low(c.left(n)); n.value < .1 && n.decimals > 1 && n.unitText == "" && n.rel == 0 && among(before, "a", "an", "the", "of", "with", "for", "and", "in") && c.at(n.end).sort == word && c.at(n.end).is&(notNouns|cEffect|cP) == 0 {
		c.vote(i, Dose, 3, "a size before its noun")
	}
	if among(c.low(n.end), "taper", "tapered") {
		c.vote(i, Dose, 6, "a taper")
	}
	if n.decimals > 0 && n.value < .1 && n.unitText == "" && c.is(n.last+1, cSpecimen) {
		c.vote(i, Dose, 3, "the size of an instrument")
	}
}

// tipTaper: "25/.06", "#25/.06", "30/04".
func (c *context) tipTaper(i int) bool {
	pair := func(tip, taper *num) bool {
		s := c.raw(taper.tok)
		return c.sign(tip.last+1) == '/' && taper.tok == tip.last+2 && !c.at(tip.last+1).gap && tip.decimals == 0 && tip.value >= 6 && tip.value <= 140 &&
			(strings.HasPrefix(s, ".") || strings.HasPrefix(s, "0.0") || strings.HasPrefix(s, "0") && len(s) == 2)
	}
	return i+1 < len(c.nums) && pair(&c.nums[i], &c.nums[i+1]) || i > 0 && pair(&c.nums[i-1], &c.nums[i])
}

// ofAdjective: "a 90° stylet", "a 1.0 mm wire", "3 mm-thick", "8-hour shifts".
func ofAdjective(c *context, i int) {
	n := &c.nums[i]
	if c.adjectival(n) {
		switch {
		case n.unit == cTime:
			c.vote(i, Duration, 2, "before the noun it belongs to")
		case n.pct && !c.set(n) && c.low(n.tok-1) != "with":
		default:
			c.vote(i, Dose, 2.2, "before the noun it belongs to")
		}
	}
	if c.sign(n.last+1) == '-' && !c.at(n.last+1).gap && c.is(n.last+2, cUnit) {
		c.vote(i, Dose, 5, "a size that names something")
	}
}

// ofSetVerb: "irrigated with 5 mL", "heated to 60 °C".
func ofSetVerb(c *context, i int) {
	n := &c.nums[i]
	if !c.set(n) {
		return
	}
	w := 2.5
	if n.unit == cTime || n.unitText == "" {
		w = 1
	}
	c.vote(i, Dose, w, "behind a verb of setting")
}

// set reports whether a verb of setting stands shortly before.
func (c *context) set(n *num) bool {
	for j := n.tok - 1; j >= max(0, n.tok-8); j-- {
		if c.is(j, cSetVerb) {
			return true
		}
		if x := c.sign(j); x == ';' || x == '.' && c.at(j+1).gap {
			return false
		}
	}
	return false
}

// ofCross: "17 × 25", "0.016 × 0.022 in", "5000×", "×200".
func ofCross(c *context, i int) {
	n := &c.nums[i]
	if c.crossed(n) && !n.word && n.rel == 0 {
		c.vote(i, Dose, 4, "one side of a cross-section")
	}
	if c.sign(n.last+1) == '×' && n.decimals == 0 && n.value >= 20 && c.num(n.last+2) == nil {
		c.vote(i, Dose, 6, "so many times over")
	}
	if c.sign(n.tok-1) == '×' && !c.at(n.tok).gap && c.at(n.tok-2).sort != digits {
		c.vote(i, Dose, 6, "a magnification")
	}
}

// crossed: "17 × 25", but not "2 × 10^-5".
func (c *context) crossed(n *num) bool {
	side := func(a, b *num) bool { return b.joint == "×" && b.value != 10 && (a.decimals > 0) == (b.decimals > 0) }
	return n.next >= 0 && side(n, &c.nums[n.next]) || n.prev >= 0 && side(&c.nums[n.prev], n)
}

// ofHowOften: "twice daily", "three times a day", "after 10 uses".
func ofHowOften(c *context, i int) {
	n := &c.nums[i]
	next, then := c.low(n.last+1), c.low(n.last+2)
	switch often := n.word && among(c.low(n.tok), "once", "twice", "thrice"); {
	case often && (c.is(n.last+1, cRegimen) || among(next, "a", "per")):
		c.vote(i, Dose, 9, "how often it was given")
	case often && c.low(n.tok) != "thrice" && c.near(i, cComparative, 0, 4) < 0 && !among(next, "as", "that", "the"):
		c.vote(i, Dose, 5, "how often")
	}
	if among(next, "every", "autoclave", "uses") || next == "times" && (among(then, "daily", "a", "per") || c.low(n.tok-1) == "used") {
		c.vote(i, Dose, 5, "how often")
	}
}

// ofSetPlace: "at 200 N", "at 3 mm", "with 50 N"; what "failed at 1 204 N" is a
// result.
func ofSetPlace(c *context, i int) {
	n := &c.nums[i]
	k := c.back(i, 6, cFiller)
	switch {
	case n.pct || n.unitText == "" || n.unit == cTime || c.is(n.end, cAgainst):
	case c.low(k) == "at" && c.is(k-1, cFate):
		c.vote(i, Level, 2.5, "where something failed")
	case c.low(k) == "at":
		c.vote(i, Dose, 2.5, "behind at")
	case among(c.low(k), "after", "following") && n.decimals == 0:
		c.vote(i, Dose, 3, "how many were done before")
	case n.dimension && among(c.low(k), "with", "under", "using"):
		c.vote(i, Dose, 2, "what something was done with")
	}
}

// ofDimension: "blocks of 12 mm", "a load of 50 N".
func ofDimension(c *context, i int) {
	n := &c.nums[i]
	if n.dimension && n.decimals == 0 && !c.measuredHere(i) {
		c.vote(i, Dose, 1.8, "a whole length or force, as is set")
	}
}
