package assemble

import (
	"strings"

	"probity/extract"
)

// bracketedGroup reads "Orlin (group A)": the name before the bracket.
func (p *paper) bracketedGroup(s *sentence, i int, group, inner string) {
	name := nameBefore(s.text[:i])
	if name == "" {
		name = phraseBefore(s.text[:i])
	}
	if name == "" || p.isWord(name) {
		return
	}
	a := p.arms.find(name)
	if a == nil {
		a = p.arms.exact(group)
	}
	if a == nil {
		a = p.arms.define(name, group, s.place)
	}
	p.arms.alias(a, group)
	p.arms.alias(a, name)
	if n := nSoon(inner); n.Known() {
		p.arms.n[a] = append(p.arms.n[a], n)
	}
}

// groupIn reads the group that a bracket names: "group A", "PR group".
func groupIn(s string) string {
	s = strings.TrimSpace(s)
	if group, end := groupName(s, 0); group != "" && end == len(s) {
		return group
	}
	if w, ok := strings.CutSuffix(extract.Lower(s), " group"); ok && groupToken(s[:len(w)]) {
		return "Group " + s[:len(w)]
	}
	return ""
}

// phraseBefore gives the words before a bracket back to a comma, a colon or
// "and", without articles and verbs of doing: "rinsing with saline".
func phraseBefore(s string) string {
	for _, sep := range []string{",", ";", ":", " and ", " or ", " with ", " by ", " using ", " in ", " of ", " the "} {
		if i := strings.LastIndex(s, sep); i >= 0 {
			s = s[i+len(sep):]
		}
	}
	s = strings.TrimSpace(s)
	if n := len(strings.Fields(s)); n == 0 || n > 5 {
		return ""
	}
	return s
}

// enumerated reads "(A) Orlin, (B) Brex" and "Orlin (A), Brex (B)" from the
// first bracket on, in sentences about groups.
func (p *paper) enumerated(s *sentence, i int) {
	if !strings.Contains(s.low, "group") {
		return
	}
	marks := []int{i}
	for want := s.text[i+1] + 1; ; want++ {
		last := marks[len(marks)-1] + 3
		k := strings.Index(s.text[last:], "("+string(rune(want))+")")
		if k < 0 {
			break
		}
		marks = append(marks, last+k)
	}
	if len(marks) < 2 {
		return
	}
	after := strings.TrimLeft(s.text[i+3:], " ")
	before := strings.HasPrefix(after, ",") || strings.HasPrefix(after, ";") || strings.HasPrefix(after, "and ")
	start := 0
	for k, at := range marks {
		name := ""
		switch {
		case before:
			name = s.text[start:at]
			if k == 0 {
				name = phraseBefore(name)
			}
			start = at + 3
		case k+1 < len(marks):
			name = s.text[at+3 : marks[k+1]]
		default:
			name = s.text[at+3:]
			if e := strings.IndexAny(name, "(;."); e > 0 {
				name = name[:e]
			}
		}
		p.lettered(s, "Group "+s.text[at+1:at+2], name)
	}
}

// lettered keeps one group of an enumeration.
func (p *paper) lettered(s *sentence, group, name string) {
	name = strings.Trim(name, " .,;:")
	name = strings.TrimPrefix(strings.TrimSuffix(name, " and"), "and ")
	name = strings.Trim(name, " ,;.")
	if name == "" || len(name) > 80 || len(strings.Fields(name)) > 10 {
		return
	}
	a := p.arms.exact(name)
	if a == nil {
		a = p.arms.define(name, group, s.place)
	}
	p.arms.alias(a, group)
}
