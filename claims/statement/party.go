package statement

import (
	"strings"
	"unicode/utf8"

	"probity/claims"
)

// armHit is a place of the sentence that names arms.
type armHit struct {
	at, end int
	arms    []*claims.Arm
	group   bool // "the other groups", a class
	others  bool
	all     bool
	class   string
	// opposite: a word such as "conventional" where the study names no control
	opposite bool
}

// armAt gives the arms named at token i with the longest of their names, nil
// if none is.
func (s *sentence) armAt(i int) *armHit {
	if len(s.r.arms.all) == 0 || i < s.from || i >= s.to {
		return nil
	}
	t := &s.toks[i]
	if t.sort != wordToken && t.sort != numberToken || s.sign(i-1) == '°' && !t.gap {
		return nil // the C of "37 °C" is no group
	}
	first := strings.ToLower(s.text[t.start:t.end])
	best := armHit{at: i, end: i}
	list := s.r.arms.names[first]
	if len(list.names) == 0 {
		return nil
	}
	for _, n := range list.from(s.wordAfter(i)) {
		end, ok := s.nameAt(i, n)
		if !ok || end < best.end {
			continue
		}
		if end > best.end {
			best.arms, best.end = nil, end
		}
		best.arms = append(best.arms, n.arm)
	}
	if len(best.arms) == 0 {
		return nil
	}
	best.arms = uniqueArms(best.arms)
	return &best
}

// wordAfter is the word or number after token i, over the signs that nameAt
// passes over.
func (s *sentence) wordAfter(i int) string {
	j := i + 1
	for k := 0; k < 3 && s.sortOf(j) == signToken && nameSign(s.sign(j)); k++ {
		j++
	}
	t := s.at(j)
	return s.text[t.start:t.end]
}

// nameAt matches a name at token i; small signs may stand between its words.
func (s *sentence) nameAt(i int, n armName) (int, bool) {
	if n.exact != "" && !s.exactAt(i, n) {
		return 0, false
	}
	j := i + 1
	for _, w := range n.words[1:] {
		for k := 0; k < 3 && s.sortOf(j) == signToken && nameSign(s.sign(j)); k++ {
			j++
		}
		t := s.at(j)
		if t.sort != wordToken && t.sort != numberToken || !strings.EqualFold(s.text[t.start:t.end], w) && strings.TrimLeft(s.text[t.start:t.end], ".") != strings.TrimLeft(w, "0.") {
			return 0, false
		}
		j++
	}
	return j, true
}

// exactAt: a short name must be printed as it is, and one letter or number
// only stands for an arm beside the word "group" or in a list of such.
func (s *sentence) exactAt(i int, n armName) bool {
	t := s.at(i)
	if s.text[t.start:t.end] != n.exact {
		return false
	}
	if t.sort == wordToken && utf8.RuneCountInString(n.exact) > 1 {
		return true
	}
	if t.sort == wordToken && n.exact != "A" && n.exact != "I" && !s.isInitial(i) {
		return true
	}
	return s.afterGroupWord(i)
}

func (s *sentence) isInitial(i int) bool {
	return s.sign(i+1) == '.' && s.sortOf(i+2) == wordToken && !s.at(i+2).upper
}

// afterGroupWord: "group 1", "groups A, B and C", "A and B groups".
func (s *sentence) afterGroupWord(i int) bool {
	for j, n := i-1, 0; n < 14; j, n = j-1, n+1 {
		t := s.at(j)
		switch {
		case t.sort == wordToken && groupWord(s.raw(j, j+1)):
			return true
		case t.sort == signToken && (t.sign == ',' || t.sign == '(' || t.sign == ')' || t.sign == '&' || t.sign == '/' || t.sign == '-' || t.sign == '.'):
		case t.sort == numberToken && t.decimals == 0:
		case t.sort == wordToken && (t.end-t.start == 1 || s.raw(j, j+1) == "and" || s.raw(j, j+1) == "or" || s.raw(j, j+1) == "vs" || s.raw(j, j+1) == "versus"):
		default:
			n = 99
		}
	}
	return s.at(i).sort == wordToken && (groupWord(s.raw(i+1, i+2)) || s.raw(i+1, i+2) == "and" && groupWord(s.raw(i+3, i+4)))
}

func groupWord(w string) bool {
	switch strings.ToLower(w) {
	case "group", "groups", "gr", "grp", "grps", "gp", "subgroup", "subgroups", "instrument", "instruments", "file", "files", "material", "materials", "system", "systems":
		return true
	}
	return false
}

func nameSign(r rune) bool {
	switch r {
	case '-', '‐', '‑', '–', '/', '#', '®', '™', '.', '+', '(', ')', ',', '“', '”', '"', '\'', '’', '&':
		return true
	}
	return false
}

// armHits lists every naming of arms between two tokens, in order.
func (s *sentence) armHits(from, to int) []armHit {
	if len(s.r.arms.all) == 0 {
		return nil
	}
	if !s.hitsRead {
		s.hits, s.hitsRead = s.readHits(), true
	}
	var out []armHit
	for _, h := range s.hits {
		if h.at >= from && h.end <= to {
			out = append(out, h)
		}
	}
	return out
}

// readHits finds the names once for the whole sentence.
func (s *sentence) readHits() []armHit {
	var out []armHit
	for i := s.from; i < s.to; i++ {
		if h := s.armAt(i); h != nil {
			out = append(out, *h)
			i = h.end - 1
			continue
		}
		if h, ok := s.backHit(i); ok {
			out = append(out, h)
			i = max(h.end-1, i)
			continue
		}
		if h, ok := s.groupHit(i); ok {
			out = append(out, h)
			i = max(h.end-1, i)
		}
	}
	return out
}

// backHit: "the former" and "the latter" of the two arms named last, in this
// sentence or the one before.
func (s *sentence) backHit(i int) (armHit, bool) {
	t := s.at(i)
	if !t.is.any(setOf(former, latter)) {
		return armHit{}, false
	}
	var last []*claims.Arm
	for k := s.from; k < i; k++ {
		if h := s.armAt(k); h != nil && len(h.arms) == 1 {
			last = append(last, h.arms[0])
		}
	}
	if len(last) < 2 {
		last = append(append([]*claims.Arm(nil), s.r.lastArms...), last...)
	}
	if len(last) < 2 {
		return armHit{}, false
	}
	a := last[len(last)-1]
	if t.is.has(former) {
		a = last[len(last)-2]
	}
	return armHit{at: i, end: i + int(t.span), arms: []*claims.Arm{a}}, true
}

// groupHit: "the other groups", "both groups", "the control group", a class.
func (s *sentence) groupHit(i int) (armHit, bool) {
	t := s.at(i)
	h := armHit{at: i, end: i + int(t.span), group: true}
	if len(s.r.arms.class) > 0 && t.sort == wordToken {
		for _, c := range s.r.arms.class {
			if !s.sameWord(i, c.words[0]) {
				continue
			}
			if end, ok := s.nameAt(i, armName{words: c.words}); ok {
				h.end, h.class, h.arms = end, c.name, c.arms
				return h, true
			}
		}
	}
	switch {
	case t.is.has(allOthers):
		h.others = true
		return h, true
	case t.is.has(allGroups):
		h.all = true
		return h, true
	case t.is.has(control) && t.sort == wordToken:
		for _, a := range s.r.arms.all {
			if a.Control {
				h.arms = append(h.arms, a)
			}
		}
		h.group = len(h.arms) != 1
		h.opposite = len(h.arms) == 0
		return h, len(h.arms) > 0 || len(s.r.arms.class) > 0
	}
	return h, false
}
