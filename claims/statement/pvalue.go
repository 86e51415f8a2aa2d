package statement

import (
	"math"

	"probity/extract"
)

// pIn gives the p value of a clause, or of the sentence when it has one only.
func (s *sentence) pIn(c clause) extract.Number {
	var all, in []int
	for k := range s.quants {
		if s.quants[k].role != roleP {
			continue
		}
		all = append(all, k)
		if at := s.quants[k].at; at >= c.from && at < c.to {
			in = append(in, k)
		}
	}
	switch {
	case len(in) == 1 || len(in) > 1 && s.sameP(in):
		return s.pNumber(in[0])
	case len(in) == 0 && len(all) == 1 && s.quants[all[0]].at > c.to:
		return s.pNumber(all[0])
	}
	return extract.Number{}
}

// pAfter: of several p values of a clause, the first behind the word.
func (s *sentence) pAfter(c clause, at int) extract.Number {
	if p := s.pIn(c); p.Known() {
		return p
	}
	first := extract.Number{}
	for k := range s.quants {
		q := &s.quants[k]
		if q.role != roleP || q.at < c.from || q.at >= c.to {
			continue
		}
		p := s.pNumber(k)
		if first.Known() && belowLevel(p) != belowLevel(first) {
			return extract.Number{} // one is, one is not: which is meant is not said
		}
		if !first.Known() && q.at > at {
			first = p
		}
	}
	return first
}

// belowLevel: at the usual level; which level holds is judged elsewhere.
func belowLevel(p extract.Number) bool {
	return p.Value <= 0.05 && p.Relation != extract.Greater && p.Relation != extract.GreaterEqual
}

func (s *sentence) sameP(in []int) bool {
	for _, k := range in {
		a, b := s.pNumber(in[0]), s.pNumber(k)
		if a.Value != b.Value || a.Relation != b.Relation {
			return false
		}
	}
	return true
}

// pNumber is the p value with its relation, read through damaged signs: in
// "P , .05" the lost sign was "<", in "P [ 0.05" it was ">".
func (s *sentence) pNumber(k int) extract.Number {
	q := &s.quants[k]
	n := s.number(q.at)
	n.Value = math.Abs(n.Value)
	n.Relation = extract.Equal
	for j := q.at - 1; j >= q.at-4; j-- {
		switch s.sign(j) {
		case '<', '‹', '˂', ',', '\\':
			n.Relation = extract.Less
			if s.sign(j+1) == '=' {
				n.Relation = extract.LessEqual
			}
		case '>', '›', '˃', '[':
			n.Relation = extract.Greater
			if s.sign(j+1) == '=' {
				n.Relation = extract.GreaterEqual
			}
		case '≤', '⩽':
			n.Relation = extract.LessEqual
		case '≥', '⩾':
			n.Relation = extract.GreaterEqual
		default:
			if s.sortOf(j) == wordToken {
				return n
			}
			continue
		}
		return n
	}
	return n
}

func (s *sentence) printedP(c clause) string {
	for k := range s.quants {
		if q := &s.quants[k]; q.role == roleP && q.at >= c.from && q.at < c.to {
			from := q.at
			for from > c.from && from > q.at-4 && s.sortOf(from) != wordToken {
				from--
			}
			return s.raw(from, q.end)
		}
	}
	return ""
}
