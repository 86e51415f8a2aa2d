package role

import "strings"

// ofCitation: "[12]", "^12", "et al.35", "reported.4", "[2730]" for "[27–30]".
func ofCitation(c *context, i int) {
	n := &c.nums[i]
	if n.decimals > 0 || n.pct || n.word || n.value < 1 || n.negative && n.joint == "" {
		return
	}
	switch w, why := c.inSquareBrackets(i); {
	case w > 0:
		c.vote(i, Citation, w, why)
		return
	case n.value > 400 || c.squared(n):
		return
	case c.raisedMark(n):
		c.vote(i, Citation, 9, "raised behind a word")
		return
	}
	if b := c.inBracket(i); b > 0 && c.sign(b) == '(' && c.onlyNumbers(b) && c.at(b-1).sort == word && c.bracketHead(i) == nil {
		c.vote(i, Citation, 3.5, "alone in brackets behind a word")
	}
	switch {
	case c.gluedToStop(n):
		c.vote(i, Citation, 8, "glued behind the end of a sentence or name")
		return
	case c.is(n.tok-1, cCiting), c.sign(n.tok-1) == '.' && c.is(n.tok-2, cCiting):
		c.vote(i, Citation, 9, "behind et al. or a reference")
		return
	}
	if t := c.at(n.tok - 1); c.gluedToWord(n) && t.end-t.start > 4 && !t.glued && !c.is(n.tok-1, cCalendar|cTime|cLabel) {
		c.vote(i, Citation, 4, "glued behind a word")
	}
	if n.prev >= 0 && c.nums[n.prev].ballot.Score(Citation) > 7 && !c.at(n.tok-1).gap {
		c.vote(i, Citation, 8, "in a list of citations")
	}
}

// inSquareBrackets: "[12, 15–17]", "[[12]]", and behind a figure where a
// clause ends: "in 18.4% [12].".
func (c *context) inSquareBrackets(i int) (weight float64, why string) {
	n := &c.nums[i]
	b := c.inBracket(i)
	if b < 0 || c.sign(b) != '[' || !c.onlyNumbers(b) {
		return 0, ""
	}
	h := c.bracketHead(i)
	switch {
	case n.value > 400:
		if h == nil && c.at(b-1).sort != digits {
			return 5, "alone in square brackets"
		}
	case c.sign(b-1) == '[':
		return 12, "in doubled square brackets"
	case h == nil:
		return 9, "alone in square brackets"
	case c.endsAt(c.at(b).shut) && (h.pct || c.aloneInBracket(n) && (h.unit == cTime || h.decimals > 0) && !h.lent):
		return 7, "in square brackets at the end of a clause"
	}
	return 0, ""
}

// raisedMark: "^12" behind a word; not the exponents of "mm^2" and "10^5".
func (c *context) raisedMark(n *num) bool {
	t, p := c.at(n.tok-1), c.at(n.tok-2)
	if t.sign != '^' {
		return n.prev >= 0 && c.nums[n.prev].ballot.Score(Citation) > 8 && c.sign(c.nums[n.prev].tok-1) == '^'
	}
	unit := c.is(n.tok-2, cUnit) && n.value < 4
	return t.gap || !unit && p.sort != digits && p.sign != '−' && p.sign != '-'
}

// gluedToStop: "reported.4", "reported.4,5".
func (c *context) gluedToStop(n *num) bool {
	t, p := c.at(n.tok-1), c.at(n.tok-2)
	stop := t.sort == sign && strings.ContainsRune(".,;:)", t.sign) && !t.gap && !c.at(n.tok).gap && p.sort == word && p.end-p.start > 1
	listed := n.prev >= 0 || t.sign == ',' && p.end-p.start > 3 && !p.glued // "spondylitis,22–24"
	return stop && (t.sign != ',' && t.sign != ':' || listed)
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

// ofYear: "in 2010", "June 2020", "(Patel et al. 1992)", but not "1500–1700 h".
func ofYear(c *context, i int) {
	n := &c.nums[i]
	t := c.at(n.tok)
	if n.decimals > 0 || n.word || n.pct || t.end-t.start != 4 || n.value < 1900 || n.value > 2100 || n.unitText != "" {
		return
	}
	if c.raw(n.end-1) == "h" || n.next >= 0 && c.raw(c.nums[n.next].end-1) == "h" {
		return
	}
	w := 4.0
	if c.is(n.tok-1, cMonth) || among(c.low(n.tok-1), "in", "since", "during") {
		w = 6
	}
	c.vote(i, Year, w, "a year")
	for j := n.tok - 1; j >= 0 && j > n.tok-7; j-- {
		if c.is(j, cCiting) || c.sign(j) == '(' && c.at(j+1).upper && c.at(j+1).sort == word && !c.is(j+1, cMonth) {
			c.vote(i, Citation, 5, "the year of a citation")
			break
		}
	}
}
