package assemble

import (
	"fmt"
	"strings"

	"probity/claims"
	"probity/extract"
)

// about is the field of a correction that says which figures a sentence
// compares.
const about = "about"

// Tie lets a person's word on which figures a sentence is about win over the
// tie that was read. A correction of the field "about" names the sentence by
// its first forty characters and, as its new value, the place of the figure it
// is about and, after a semicolon, of the figure it is compared with:
//
//	page=9,about,"Batch 3 lasted longer than the first bat",table=2 row=4 col=3; table=2 row=2 col=3,the sentence names batch 3
//
// With one place only, the comparison keeps the second figure it had.
func Tie(statements []*claims.Statement, measures []*claims.Measure, corrections []Correction) []*extract.Problem {
	var problems []*extract.Problem
	for _, c := range corrections {
		if c.Field != about {
			continue
		}
		if why := c.tie(statements, measures); why != "" {
			problems = append(problems, c.problem(why))
		}
	}
	return problems
}

// tie applies one correction and says why it could not.
func (c Correction) tie(statements []*claims.Statement, measures []*claims.Measure) string {
	var sides []*claims.Measure
	for _, text := range strings.Split(c.Now, ";") {
		at, err := extract.ParsePlace(text)
		if err != nil {
			return err.Error()
		}
		m := figureAt(measures, at)
		if m == nil {
			return fmt.Sprintf("no figure was read at %s", at)
		}
		sides = append(sides, m)
	}
	if len(sides) > 2 {
		return "more than two figures are named; a line ties one comparison"
	}
	found := false
	for _, s := range statements {
		if c.Place.Page != 0 && s.Place.Page != 0 && c.Place.Page != s.Place.Page || !begins(s.Text, c.Was) {
			continue
		}
		pair := claims.Pair{A: sides[0]}
		switch {
		case len(sides) == 2:
			pair.B = sides[1]
		case len(s.Pairs) == 1:
			pair.B = s.Pairs[0].B
		default:
			return "the second figure of the comparison is not known; name it after a semicolon"
		}
		s.Pairs, s.A, s.B = []claims.Pair{pair}, claims.Figure{}, claims.Figure{}
		s.Rests = append(s.Rests, "tied by a person: "+c.Why)
		s.Why = ""
		found = true
	}
	if !found {
		return fmt.Sprintf("no statement begins with %q: this line may no longer be needed", c.Was)
	}
	return ""
}

func figureAt(measures []*claims.Measure, at extract.Place) *claims.Measure {
	for _, m := range measures {
		if m.Place.Table == at.Table && m.Place.Row == at.Row && (at.Col == 0 || m.Place.Col == at.Col) && at.Table != "" {
			return m
		}
	}
	return nil
}

// begins reports whether a sentence opens with the words that a person copied.
func begins(sentence, was string) bool { return strings.HasPrefix(flatten(sentence), flatten(was)) }
