package role

import "strings"

// lists joins the numbers that stand in one list, and lends them the unit
// behind the last.
func (c *context) lists() {
	for i := range c.nums {
		c.nums[i].head, c.nums[i].foot = i, i
	}
	for i := 1; i < len(c.nums); i++ {
		a, b := &c.nums[i-1], &c.nums[i]
		if j, ok := c.joined(a, b); ok && !(c.gluedToWord(a) && strings.ContainsAny(j, "v&")) {
			b.prev, a.next, b.joint, b.head = i-1, i, j, a.head
		}
	}
	for i := len(c.nums) - 2; i >= 0; i-- {
		a := &c.nums[i]
		if a.next >= 0 {
			a.foot = c.nums[a.next].foot
		}
		if b := &c.nums[i+1]; b.rel == '±' && a.unitText == "" && b.unitText != "" && b.tok-a.end <= 3 {
			a.borrow(b)
		}
		if b := c.elidedUnit(i); b != nil {
			a.borrow(b)
			continue
		}
		if a.next < 0 || a.unitText != "" {
			continue
		}
		if b := &c.nums[a.next]; c.lends(b, a) {
			a.borrow(b)
		}
	}
}

// elidedUnit finds the number whose unit holds for a bare one too: "98.2 % at 3
// and 94.6 % at 8 years".
func (c *context) elidedUnit(i int) *num {
	a := &c.nums[i]
	w := c.low(a.tok - 1)
	if a.unitText != "" || a.decimals > 0 || a.word || a.rel != 0 || !among(w, "at", "after") {
		return nil
	}
	for k := i + 1; k < min(len(c.nums), i+5); k++ {
		b := &c.nums[k]
		if b.tok-a.end > 14 || !c.oneClause(a.end, b.tok) {
			return nil
		}
		if c.low(b.tok-1) == w && b.decimals == 0 && b.unit&(cTime|cSet) != 0 {
			return b
		}
	}
	return nil
}

// borrow takes the unit that stands behind a later number.
func (n *num) borrow(b *num) {
	n.unit, n.unitText, n.dimension, n.pct, n.lent = b.unit, b.unitText, b.dimension, b.pct, true
}

// gluedToWord: "HbA1", "T2".
func (c *context) gluedToWord(n *num) bool {
	return !n.word && !c.at(n.tok).gap && c.at(n.tok-1).sort == word
}

// lends reports whether the unit behind the later number of a list is that of
// the one before it too: "9.3 and 7.9 mm", but not "p = 0.001, 81 %".
func (c *context) lends(b, a *num) bool {
	switch {
	case a.rel != 0 && c.is(a.tok-2, cP): // "p = 0.02 and 67.3 %"
		return false
	case b.unitText == "" || a.word != b.word || a.colon, c.sign(a.tok-1) != 0 && strings.ContainsRune("$€£¥", c.sign(a.tok-1)), strings.Contains(b.joint, ";") || b.joint == "/" && b.unit != cSet, b.joint == "×" && b.unit == cTime, c.is(c.skipHyphen(b.end), cInterval):
		return false
	case b.rel == a.rel, b.rel == 0 && a.rel != 0 && strings.ContainsRune("<>≤≥~", a.rel):
		return true
	}
	return b.rel == 0 && b.joint != "," && !(a.rel == '=' && strings.Contains(b.joint, "v"))
}

// tail is the last number of a list, behind which its unit stands.
func (c *context) tail(i int) *num {
	n := &c.nums[i]
	for s := 0; n.lent && n.next >= 0 && s < longList; s++ {
		n = &c.nums[n.next]
	}
	return n
}

// headOfList is the first number of a list.
func (c *context) headOfList(i int) *num { return &c.nums[c.nums[i].head] }

// tailOfList is the last number of a list.
func (c *context) tailOfList(i int) *num { return &c.nums[c.nums[i].foot] }

// joined reports whether only list signs stand between two neighbours.
func (c *context) joined(a, b *num) (string, bool) {
	from, to := a.end, b.tok
	if to-from > 8 {
		return "", false
	}
	joint := ""
	for j := from; j < to; j++ {
		t := &c.toks[j]
		switch {
		case t.sort == sign && (t.sign == ',' || t.sign == ';'):
			joint += string(t.sign)
		case t.sort == sign && strings.ContainsRune("–—", t.sign) && t.gap && c.at(j+1).gap && c.is(a.tok-1, cLabel):
			return "", false // "Group 1 – 1 min"
		case t.low == "and" && a.decimals == 0 && (b.decimals > 0 || b.pct) && c.is(a.tok-1, cLabel|cSettingWord):
			return "", false // "34.2 for size 25 and 61.7 for size 40"
		case t.sort == sign && strings.ContainsRune("–-−‐→", t.sign):
			joint += "-"
		case t.sort == sign && t.sign == '/':
			joint += "/"
		case t.sort == sign && strings.ContainsRune("<>≤≥=+", t.sign):
		case t.sort == sign && (t.sign == '&' || t.sign == '×'):
			joint += string(t.sign)
		case t.sort == word && (t.low == "and" || t.low == "or" || t.low == "then"):
			joint += "&"
		case t.sort == word && t.low == "to":
			joint += "-"
		case t.sort == word && (t.low == "versus" || t.low == "vs" || t.low == "v"):
			joint += "v"
		case t.sort == sign && t.sign == '.' && j > from && (c.low(j-1) == "vs" || c.low(j-1) == "v"):
		case t.sort == word && t.low == "from", t.sort == word && t.low == "compared", t.sort == word && t.low == "with" && joint != "", t.sort == word && t.low == "than":
			joint += "v"
		default:
			return "", false
		}
	}
	return joint, joint != ""
}
