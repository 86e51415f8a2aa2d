package statement

// split gives the sentences of a paragraph as stretches of its tokens. A full
// stop ends a sentence when white space and a capital, a digit or an opening
// mark follow, and the word before it is no abbreviation and no initial. In
// doubt it does not split: a sentence too long is still found by its words.
func split(toks []token, each func(from, to int)) {
	from := 0
	for i := range toks {
		if toks[i].sort != signToken {
			continue
		}
		var end int
		switch toks[i].sign {
		case '.', '?', '!', '…':
			end = sentenceEnd(toks, i)
		default:
			continue
		}
		if end > 0 && end > from {
			each(from, end)
			from = end
		}
	}
	if from < len(toks) {
		each(from, len(toks))
	}
}

// sentenceEnd gives the token after the sentence that the mark at i ends, 0
// if it ends none.
func sentenceEnd(toks []token, i int) int {
	end := afterCitations(toks, i+1)
	if end >= len(toks) {
		return len(toks)
	}
	next := &toks[end]
	if !next.gap && !(next.sort == wordToken && next.upper && i > 0 && (toks[i-1].sort == signToken || end > i+1 || lowerWord(toks, i-1) && wordLength(toks, end) > 1)) {
		return 0
	}
	if toks[i].paren >= 0 && toks[i].paren != next.paren && next.paren >= 0 {
		return 0
	}
	if !startsSentence(toks, end) {
		return 0
	}
	if toks[i].sign == '.' && end == i+1 && noEnd(toks, i-1, end) {
		return 0
	}
	return end
}

// afterCitations passes closing quotes and brackets and citation numbers that
// are glued to a full stop: "quickly.[20-21]", "cement.27-30", "teeth.”".
func afterCitations(toks []token, j int) int {
	for j < len(toks) && !toks[j].gap {
		t := &toks[j]
		switch {
		case t.sort == markToken:
			j++
		case t.sort == signToken && (t.sign == ')' || t.sign == ']' || t.sign == '”' || t.sign == '"' || t.sign == '’' || t.sign == '\''):
			j++
		case t.sort == signToken && t.sign == '[':
			k := closing(toks, j)
			if k < 0 {
				return j
			}
			j = k + 1
		case t.sort == numberToken, t.sort == signToken && (t.sign == '-' || t.sign == '–' || t.sign == ','):
			j++
		default:
			return j
		}
	}
	return j
}

// closing gives the bracket that closes the one at i, -1 if none is near.
func closing(toks []token, i int) int {
	for j := i + 1; j < len(toks) && j < i+60; j++ {
		if s := toks[j].sign; (s == ')' || s == ']') && toks[j].paren == int32(i) {
			return j
		}
	}
	return -1
}

func startsSentence(toks []token, i int) bool {
	t := &toks[i]
	switch t.sort {
	case numberToken:
		return true
	case wordToken:
		return t.upper || i+1 < len(toks) && toks[i+1].sort == signToken && toks[i+1].sign == '-' && i+2 < len(toks) && toks[i+2].upper
	case signToken:
		switch t.sign {
		case '“', '"', '(', '[', '–', '—', '•', '¶', '‘', '\'', '*', '†':
			return true
		}
		return false
	}
	return false
}

// noEnd reports whether the full stop after the word at i belongs to the word.
func noEnd(toks []token, i, next int) bool {
	if i < 0 {
		return true
	}
	t := &toks[i]
	if t.sort == numberToken {
		// "2. The" at the very beginning is a numbering
		return i == 0
	}
	if t.sort != wordToken {
		return false
	}
	if t.end-t.start == 1 && i > 1 && !t.gap && toks[i-1].sort == signToken && toks[i-1].sign == '.' && toks[i-2].sort == wordToken {
		return true // "e.g.", "i.e."
	}
	if t.is.has(abbreviation) {
		return !(t.word.text == "no" && lowerWord(toks, i-1) && toks[next].sort == wordToken)
	}
	if t.end-t.start == 1 && t.upper && i > 0 && (toks[i-1].sort == signToken && toks[i-1].sign == '°' || toks[i-1].sort == numberToken) {
		return false // "at 37 °C.", "was 1.55 N."
	}
	if t.end-t.start == 1 && t.upper {
		// an initial after a name, a comma or at the start; else "group C."
		if toks[next].is.has(opener) {
			return false
		}
		return i == 0 || !lowerWord(toks, i-1) || toks[next].sort == wordToken && !toks[next].upper
	}
	return false
}

func lowerWord(toks []token, i int) bool {
	return i >= 0 && toks[i].sort == wordToken && !toks[i].upper
}

func wordLength(toks []token, i int) int { return toks[i].end - toks[i].start }
