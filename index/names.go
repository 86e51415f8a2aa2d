package index

import "github.com/blevesearch/bleve/v2/analysis"

// A Synonym is one thing and all its names. A text that prints one of them is
// found by any other.
type Synonym struct {
	ID    string
	Names []string
}

// namePrefix opens the term that stands for a thing whatever its name; no
// printed word holds it.
const namePrefix = "§"

// names is a tree of the words of all names.
type names struct{ next map[string]*name }

type name struct {
	id   string // the thing that is named so far, if any
	next map[string]*name
}

func newNames(list []Synonym) *names {
	root := &names{next: map[string]*name{}}
	for _, s := range list {
		for _, n := range s.Names {
			root.add(s.ID, n)
		}
	}
	return root
}

func (t *names) add(id, text string) {
	c := cutter{in: []byte(text)}
	c.run()
	if len(c.tokens) == 0 || len(c.tokens) == 1 && len(c.tokens[0].Term) < 2 {
		return // a single letter names too much
	}
	at := t.next
	var last *name
	for _, tok := range c.tokens {
		n := at[string(tok.Term)]
		if n == nil {
			n = &name{next: map[string]*name{}}
			at[string(tok.Term)] = n
		}
		last, at = n, n.next
	}
	if last.id == "" {
		last.id = id
	}
}

// in gives one more token for each name among tokens, the longest where
// several begin.
func (t *names) in(tokens []analysis.Token) []analysis.Token {
	var out []analysis.Token
	for i := 0; i < len(tokens); i++ {
		id, end := "", i
		at := t.next
		for j := i; j < len(tokens); j++ {
			if tokens[j].KeyWord {
				continue
			}
			if j > i && tokens[j].Position-tokens[i].Position > passageGap {
				break
			}
			n := at[string(tokens[j].Term)]
			if n == nil {
				break
			}
			if n.id != "" {
				id, end = n.id, j
			}
			at = n.next
		}
		if id != "" {
			out = append(out, analysis.Token{Start: tokens[i].Start, End: tokens[end].End, Term: []byte(namePrefix + id),
				Position: tokens[i].Position, KeyWord: true})
			i = end
		}
	}
	return out
}
