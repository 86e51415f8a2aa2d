package statement

// isCitation: "[12]", "[3, 5-7]", "(12)" after "et al".
func (s *sentence) isCitation(i int) bool {
	p := int(s.at(i).paren)
	if p < s.from || s.sign(p) != '[' {
		return s.sortOf(i-1) == wordToken && !s.at(i).gap && s.word(i-1) == "al"
	}
	for j := p + 1; j < s.to && j < p+40; j++ {
		t := s.at(j)
		switch {
		case t.sort == numberToken && t.decimals == 0:
		case t.sort == signToken && (t.sign == ',' || t.sign == '-' || t.sign == '–' || t.sign == ';'):
		case t.sort == signToken && t.sign == ']':
			return s.at(p-1).sort != numberToken // "86 [28]" is a figure with its share
		default:
			return false
		}
	}
	return false
}

// comparisonFollows reports whether an adjective of comparison stands behind
// a percentage, with its other side somewhere after it: "<6% lower versus".
func (s *sentence) comparisonFollows(i int) bool {
	for j := i; j < i+3; j++ {
		if s.any(j, adjectives) {
			for k := j + 1; k < s.to && k < j+12; k++ {
				if s.is(k, comparator) {
					return true
				}
			}
			return false
		}
	}
	return false
}

func (s *sentence) versusNear(i int) bool {
	for j := i - 6; j < i+6; j++ {
		if s.is(j, versus) && s.at(j).span == 1 {
			return true
		}
	}
	return false
}
