package assemble

import "slices"

// wordIndex finds names by their words without trying all of them.
type wordIndex struct {
	by   map[string][]string // the names that hold a word
	rare map[string][]string // each name by the one of its words that fewest names had before it
}

func newWordIndex() wordIndex {
	return wordIndex{by: map[string][]string{}, rare: map[string][]string{}}
}

// add enters a name under its words.
func (x wordIndex) add(name string, words []string) {
	if len(words) == 0 {
		return
	}
	rarest := words[0]
	for _, w := range words {
		if len(x.by[w]) < len(x.by[rarest]) {
			rarest = w
		}
		x.by[w] = append(x.by[w], name)
	}
	x.rare[rarest] = append(x.rare[rarest], name)
}

// like lists the names that may hold all the words given, of which there is
// one at least, and those whose words may all be among them.
func (x wordIndex) like(words []string) []string {
	fewest := x.by[words[0]]
	for _, w := range words[1:] {
		if len(x.by[w]) < len(fewest) {
			fewest = x.by[w]
		}
	}
	out := slices.Clone(fewest)
	for _, w := range words {
		out = append(out, x.rare[w]...)
	}
	return out
}
