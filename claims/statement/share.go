package statement

import (
	"strings"

	"probity/claims"
)

// continues reports whether a percentage goes on with the claim before it:
// "by 47 and 48 %", "62 % for PT3, 42 % for LXT and 26 % for TMP".
func (s *sentence) continues(f *found, q *quantity) bool {
	joined := false
	words := 0
	for i := f.end; i < q.at; i++ {
		t := s.at(i)
		switch {
		case t.sort == signToken && (t.sign == '(' || t.sign == '['):
			if e := closing(s.toks[:s.to], i); e > 0 && e < q.at {
				i = e
				continue
			}
			return false
		case t.sort == signToken && t.sign == ',':
			joined, words = true, 0
		case t.sort == signToken && t.sign == ';':
			return false
		case t.sort == wordToken && (s.raw(i, i+1) == "and" || s.raw(i, i+1) == "or"):
			joined, words = true, 0
		case t.is.any(setOf(versus, comparator, clauseWord)), t.is.has(fromWord):
			return false
		case s.any(i, setOf(verbUp, verbDown, verbMerit, verbLast, verbShare, verbDiff)) && !t.is.any(nouns):
			return false
		case t.sort == wordToken:
			switch s.raw(i, i+1) {
			case "was", "were", "had", "is", "are", "showed", "to", "received":
				return false
			}
			words++
			if words > 8 {
				return false
			}
		}
	}
	if !joined {
		return false
	}
	// what stands right before it must let it be one more value of the list
	j := s.skipLeft(q.at - 1)
	switch w := strings.ToLower(s.raw(j, j+1)); w {
	case "by", "and", "or", ",":
		return !s.is(q.end, notClaim)
	case "of":
		return s.sense(f.at, "of") && (s.raw(j-1, j) == "and" || s.raw(j-1, j) == ",")
	}
	return false
}

// sense reports whether the value at a token stands behind this word.
func (s *sentence) sense(at int, word string) bool {
	return strings.EqualFold(s.raw(s.skipLeft(at-1), s.skipLeft(at-1)+1), word)
}

// inBrackets: "was decreased (from −17 to −10, −40 %)", "enhancement was seen
// (67 %, from 19.1 to 31.7)": a bare percentage in the brackets of a pair.
func (s *sentence) inBrackets(q *quantity) (sense, bool) {
	p := int(s.at(q.at).paren)
	if p < s.from || q.spread.Known() {
		return sense{}, false
	}
	next := s.sign(q.end)
	if next != ',' && next != ';' && next != ')' && next != ']' {
		return sense{}, false
	}
	signed := s.at(q.at).negative || s.sign(q.at-1) == '+' && s.sortOf(q.at-2) == signToken
	from := false
	for j := p; j < p+30 && j < s.to && s.sign(j) != ')'; j++ {
		from = from || s.is(j, fromWord)
	}
	if !signed && !from {
		return sense{}, false
	}
	if from && !signed && q.at != s.skipBack(p, q.at) {
		return sense{}, false
	}
	v, ok := s.governing(p-1, 14, true)
	if signed {
		v.at = q.at
		if !ok {
			v = sense{at: q.at}
		}
		v.dir = claims.Higher
		if s.at(q.at).negative {
			v.dir = claims.Lower
		}
		return v, ok || from
	}
	return v, ok
}

// skipBack gives the token after an opening bracket or comma when only marks
// of approximation stand between.
func (s *sentence) skipBack(p, i int) int {
	j := s.skipLeft(i-1) + 1
	if s.sign(j-1) == '(' || s.sign(j-1) == '[' || s.sign(j-1) == ',' {
		return i
	}
	return j - 1
}

// share: "reached 92 % of the cycles of B", "46 % of control", "86 % of the
// expected 24 sessions". A share of specimens is none.
func (s *sentence) share(q *quantity) (sense, bool) {
	i := q.end
	if s.raw(i, i+1) != "of" {
		return sense{}, false
	}
	for k := i + 1; k < i+5; k++ {
		if s.is(k, counted) && !s.is(k-1, whole) || k == i+1 && s.is(k, notClaim) {
			return sense{}, false
		}
		if s.stopsShare(k) {
			break
		}
	}
	out := sense{at: i, share: true}
	j := s.skipLeft(q.at - 1)
	if s.is(j, toWord) {
		j--
	}
	w := s.raw(j, j+1)
	verb := s.any(j, setOf(verbShare, verbLast, versus)) || w == "was" || w == "were" || w == "is" || w == "showed" || w == "had" || w == "(" || w == "," || w == "—" || w == "and"
	for k := i + 1; k < i+4; k++ {
		switch w := strings.ToLower(s.raw(k, k+1)); {
		case w == "that" || w == "those":
			next := s.raw(k+1, k+2)
			return out, verb && (next == "of" || next == "for" || w == "that" && (next == "in" || next == "with" || s.any(k+1, setOf(comparator))))
		case s.is(k, control), s.is(k, whole), s.armAt(k) != nil:
			return out, verb
		}
	}
	if !verb || w == "and" || w == "," {
		return sense{}, false
	}
	// "P % of the OUTCOME of B"
	for k := i + 1; k < i+12; k++ {
		if k > i+2 && s.raw(k, k+1) == "of" && !s.is(k+1, counted) || s.raw(k, k+1) == "'" || s.raw(k, k+1) == "’" {
			return out, true
		}
		if s.stopsShare(k) {
			break
		}
	}
	return sense{}, false
}

func (s *sentence) stopsShare(i int) bool {
	t := s.at(i)
	return t.sort == emptyToken || t.sort == signToken && t.sign != '-' && t.sign != '’' && t.sign != '\'' && t.sign != '/' || t.is.any(setOf(clauseWord))
}
