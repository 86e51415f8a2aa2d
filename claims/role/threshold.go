package role

import "strings"

// ofThreshold: "≥ 5 mm", "less than 45 years", "a BMI above 25", "wider than
// 0.25 mm", "over the critical 10 °C", "6 or more", "65+".
func ofThreshold(c *context, i int) {
	n := &c.nums[i]
	if n.rel != 0 && strings.ContainsRune("<>≤≥⩽⩾", n.rel) {
		c.vote(i, Threshold, 6, "behind a sign of order")
	}
	if c.low(n.end) == "or" && c.is(n.end+1, cComparative) {
		c.vote(i, Threshold, 6, "so much or more")
	}
	if c.sign(n.last+1) == '+' && n.decimals == 0 && !c.at(n.last+1).gap {
		c.vote(i, Threshold, 3, "so much or more")
	}
	j := n.tok - 1
	for s := 0; s < 2 && (c.low(j) == "a" || c.low(j) == "the" && c.low(j-1) != "than"); s++ {
		j--
	}
	unknown := c.is(j-1, cBoundWord) && c.at(j).is == 0 && c.at(j).sort == word && j == n.tok-1 && !c.measuredHere(i)
	than := c.low(j) == "than" && c.is(j-1, cComparative) && !c.spreadFollows(n) && !c.opens(n.end) && !c.is(n.end, cFunction)
	if unknown || than {
		c.vote(i, Threshold, 3.5, "behind words of a bound")
	}
	if !c.is(j, cBoundWord) {
		return
	}
	w := 2.5
	if n.pct || c.near(i, cTimes|cComparative, 0, 3) >= 0 || c.is(n.tok, cRatioWord) {
		w = 1
	}
	if c.near(i, cThreshold|cAge, 12, 8) >= 0 || among(c.low(j), "above", "below") {
		w += 1.5
	}
	c.vote(i, Threshold, w, "behind words of a bound")
	if n.pct && c.near(i, cPeople|cShare, 16, 0) >= 0 && c.near(i, cChangeNoun|cChangeVerb, 12, 3) >= 0 && c.responders(n) {
		c.vote(i, Threshold, 8, "what makes a responder")
	}
}

// ofCriterion: "a cut-off of 0.3", "to detect a difference of 2 mmHg",
// "inclusion criteria were …".
func ofCriterion(c *context, i int) {
	n := &c.nums[i]
	if n.rel != 0 {
		return
	}
	if c.is(c.back(i, 4, cFiller|cWhen), cThreshold) {
		c.vote(i, Threshold, 3, "behind the name of a criterion")
	}
	if c.near(i, cDiff|cChangeNoun, 4, 0) >= 0 && c.near(i, cThreshold, 9, 0) >= 0 {
		c.vote(i, Threshold, 5.2, "a difference that counts")
	}
	figure := n.decimals > 0 || n.unitText != ""
	if figure && !n.word && c.near(i, cThreshold, 10, 10) >= 0 {
		c.vote(i, Threshold, 1.2, "near words of a criterion")
	}
	if figure && !(n.decimals == 0 && n.unit == cTime) && c.criteria(n) {
		c.vote(i, Threshold, 3, "the sentence lists criteria")
	}
}

// criteria: the sentence tells who or what was included or excluded.
func (c *context) criteria(n *num) bool {
	for j := n.tok - 1; j >= max(0, n.tok-80); j-- {
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
func (c *context) responders(n *num) bool {
	for j := n.tok - 1; j > max(0, n.tok-13); j-- {
		if among(c.low(j), "with", "who") || c.is(j, cFate) {
			return c.is(j-1, cPeople|cShare) || c.is(j-2, cPeople|cShare)
		}
	}
	return false
}
