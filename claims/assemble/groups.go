package assemble

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/claims"
	"probity/extract"
	"probity/extract/numeral"
)

// readGroups finds the groups that abstract and methods define.
func (p *paper) readGroups() {
	for i := range p.sentences {
		s := &p.sentences[i]
		switch s.place.Section {
		case extract.Results, extract.InTable:
			continue
		}
		if s.figure {
			continue
		}
		p.arms.at = s.place
		if strings.Contains(s.low, "gr") || strings.Contains(s.low, "g1") {
			p.numberedGroups(s)
		}
		if strings.ContainsRune(s.text, '(') && (strings.Contains(s.low, "group") || strings.Contains(s.low, "instrument") ||
			strings.Contains(s.low, "file") || strings.Contains(s.low, "compar")) {
			p.listedGroups(s)
		}
	}
}

// numberedGroups reads "Group 1 (n = 10): glass ionomer", "Group A, rinsed
// with saline".
func (p *paper) numberedGroups(s *sentence) {
	at := 0
	for {
		i := indexGroup(s.low, at)
		if i < 0 {
			return
		}
		name, end := groupName(s.text, i)
		at = max(end, i+2)
		if name == "" {
			continue
		}
		n, description, next := p.described(s.text, end)
		at = max(at, next)
		a := p.arms.find(name)
		if a == nil {
			if description == "" && !n.Known() {
				continue
			}
			full := name
			if description != "" {
				full = description
			}
			if b := p.arms.find(description); b != nil && description != "" {
				a = b
			} else {
				a = p.arms.define(full, name, s.place)
			}
		}
		p.arms.alias(a, name)
		if description != "" && len(description) > 2 {
			p.arms.alias(a, description)
			if a.Name == name {
				a.Name = description
			}
		}
		p.arms.geometry(a, s.text[i:min(next, len(s.text))])
		if n.Known() {
			p.arms.n[a] = append(p.arms.n[a], n)
		}
	}
}

// indexGroup finds the next word that may begin a group's name: "group",
// "gr", "G1".
func indexGroup(low string, from int) int {
	for i := from; i+1 < len(low); i++ {
		if low[i] == 'g' && (low[i+1] == 'r' || low[i+1] >= '0' && low[i+1] <= '9') && (i == 0 || !isWordByte(low[i-1])) {
			return i
		}
	}
	return -1
}

func isWordByte(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9' || b >= utf8.RuneSelf
}

// groupName reads "Group 1", "Gr. B", "group IIa" at i.
func groupName(text string, i int) (string, int) {
	j := i
	for j < len(text) && isWordByte(text[j]) {
		j++
	}
	switch strings.ToLower(text[i:j]) {
	case "group", "gr", "subgroup":
	default:
		if w := text[i:j]; len(w) >= 2 && len(w) <= 4 && (w[0] == 'G' || w[0] == 'g') && allDigits(strings.TrimPrefix(w[1:], "r")) && j < len(text) {
			return "Group " + strings.TrimPrefix(w[1:], "r"), j // G1, Gr1
		}
		return "", j
	}
	k := j
	for k < len(text) && (text[k] == '.' || text[k] == ' ' || text[k] == '-') {
		k++
	}
	e := k
	for e < len(text) && isWordByte(text[e]) {
		e++
	}
	w := text[k:e]
	if !groupToken(w) {
		return "", j
	}
	return "Group " + w, e
}

// groupToken reports whether a word can number a group: 1, 2a, B, IV, PR.
func groupToken(w string) bool {
	if w == "" || len(w) > 4 {
		return false
	}
	digits, upper := 0, 0
	for _, r := range w {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsUpper(r):
			upper++
		}
	}
	return digits+upper >= len(w)-1 && digits+upper > 0
}

// described reads n and the description that follow a group's name.
func (p *paper) described(text string, i int) (n extract.Number, description string, next int) {
	i = skipSpace(text, i)
	bracketed := ""
	if i < len(text) && text[i] == '(' {
		if j := closing(text, i); j > 0 {
			bracketed = text[i+1 : j]
			i = skipSpace(text, j+1)
		}
	}
	for _, t := range numeral.Scan(bracketed) {
		if t.Form == numeral.N {
			n = t.Number
			bracketed = bracketed[:t.Start] + bracketed[t.End:]
			break
		}
	}
	bracketed = strings.Trim(bracketed, " ,;:=")
	next = i
	if i < len(text) {
		r, size := utf8.DecodeRuneInString(text[i:])
		if strings.ContainsRune(":,=–—-", r) {
			rest := text[i+size:]
			stop := len(rest)
			for _, mark := range []string{";", ". ", "group ", "Group ", "Gr ", "gr. ", " (", "), ", ", group", ", Group"} {
				if k := strings.Index(rest, mark); k >= 0 && k < stop && k > 0 {
					stop = k
				}
			}
			description = strings.Trim(rest[:stop], " .,;:")
			description = strings.TrimSuffix(description, " and")
			next = i + size + stop
			if r == ',' && (startsLower(description) || len(description) > 40) {
				description = "" // "In Group 1, the canals were …"
			}
			if r == ',' && groupToken(firstWord(description)) {
				description = ""
			}
			if !n.Known() {
				n = nSoon(rest[:min(stop+16, len(rest))])
			}
		}
	}
	if description == "" && len(bracketed) > 1 && len(bracketed) < 60 && strings.ContainsFunc(bracketed, unicode.IsLetter) {
		description = bracketed
	}
	if len(description) > 90 || len(strings.Fields(description)) > 12 || printsResult(description) {
		description = ""
	}
	return n, description, next
}

func nSoon(s string) extract.Number {
	for _, t := range numeral.Scan(s) {
		if t.Form == numeral.N {
			return t.Number
		}
	}
	return extract.Number{}
}

func skipSpace(s string, i int) int {
	for i < len(s) && s[i] == ' ' {
		i++
	}
	return i
}

func startsLower(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLower(r)
}

func firstWord(s string) string {
	w, _, _ := strings.Cut(s, " ")
	return strings.Trim(w, ",;:")
}

// listedGroups reads a list of names with their traits in brackets: "Orlin
// (25/.06; heat-treated; n = 15), Brex (…) and Tovan (…)".
func (p *paper) listedGroups(s *sentence) {
	for i := 0; i < len(s.text); i++ {
		if s.text[i] != '(' {
			continue
		}
		j := closing(s.text, i)
		if j < 0 {
			return
		}
		inner := s.text[i+1 : j]
		name := nameBefore(s.text[:i])
		first, _, _ := strings.Cut(inner, ";")
		if group := groupIn(first); group != "" {
			p.bracketedGroup(s, i, group, inner)
			i = j
			continue
		} else if groupToken(inner) && (inner == "A" || inner == "1" || inner == "I") {
			p.enumerated(s, i)
		}
		if name != "" && !p.isWord(name) && (hasSize(inner) || nSoon(inner).Known() && len(inner) < 40 || p.arms.find(name) != nil && strings.Contains(inner, ";")) {
			a := p.arms.find(name)
			if a == nil {
				a = p.arms.define(name, name, s.place)
			}
			p.arms.alias(a, name)
			p.trait(a, inner)
			if before := groupBefore(s.text[:i-len(name)]); before != "" {
				p.arms.alias(a, before)
			}
		}
		i = j
	}
}

// isWord keeps figures' names and marks of statistics from being groups.
func (p *paper) isWord(name string) bool {
	low := strings.ToLower(name)
	return p.ls.cat.Mark(name) != "" || strings.HasPrefix(low, "fig") || strings.HasPrefix(low, "table") || len(name) < 2 ||
		p.ls.cat.Label(name) != "" && p.ls.cat.Label(name) != "arm" || p.ls.cat.FindOutcome(name) != nil
}

// nameBefore gives the capitalised words right before a bracket.
func nameBefore(s string) string {
	words := strings.Fields(s)
	k := len(words)
	for k > 0 && len(words)-k < 4 {
		w := words[k-1]
		if k < len(words) && strings.HasSuffix(w, ",") || strings.HasSuffix(w, ":") || strings.HasSuffix(w, ";") || strings.HasSuffix(w, ".") || strings.HasSuffix(w, ")") {
			break
		}
		r, _ := utf8.DecodeRuneInString(w)
		if !unicode.IsUpper(r) && !unicode.IsDigit(r) {
			break
		}
		k--
	}
	if k == len(words) {
		return ""
	}
	name := strings.Join(words[k:], " ")
	if r, _ := utf8.DecodeRuneInString(name); unicode.IsDigit(r) {
		return ""
	}
	return name
}

// groupBefore gives the "Group 1" of "Group 1, Orlin (…)".
func groupBefore(s string) string {
	s = strings.TrimRight(s, " ")
	if !strings.HasSuffix(s, ",") && !strings.HasSuffix(s, ":") && !strings.HasSuffix(s, "(") {
		return ""
	}
	s = strings.TrimRight(s, " ,:(")
	words := strings.Fields(s)
	if len(words) < 2 || !groupToken(words[len(words)-1]) {
		return ""
	}
	switch strings.ToLower(strings.Trim(words[len(words)-2], ".")) {
	case "group", "gr":
		return "Group " + words[len(words)-1]
	}
	return ""
}

// trait reads one bracket of traits: size, n, and words that class the group.
func (p *paper) trait(a *claims.Arm, inner string) {
	p.arms.geometry(a, inner)
	for _, part := range strings.Split(inner, ";") {
		part = strings.TrimSpace(part)
		n := nSoon(part)
		switch {
		case n.Known():
			p.arms.n[a] = append(p.arms.n[a], n)
		case part == "" || hasSize(part) || strings.ContainsAny(part, "0123456789") || len(part) > 40:
		case len(strings.Fields(part)) <= 3 && strings.Contains(inner, ";"):
			a.Class = appendNew(a.Class, part)
		}
	}
}

func appendNew(list []string, s string) []string {
	for _, x := range list {
		if x == s {
			return list
		}
	}
	return append(list, s)
}

// armAround names the group of a table that has only one: by its caption.
func (t *table) armAround(m *claims.Measure) {
	if t.capKey == nil {
		k := " " + key(t.caption.text) + " "
		t.capKey = &k
	}
	for _, a := range t.arms.arms {
		for _, name := range append([]string{a.Name, a.Short}, a.Aliases...) {
			if k := key(name); len(k) > 3 && strings.Contains(*t.capKey, " "+k+" ") {
				m.Arm, m.ArmText = a, name
				t.arms.used[a] = true
				return
			}
		}
	}
}
