package index

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/blevesearch/bleve/v2"
	"github.com/blevesearch/bleve/v2/search/query"
)

// TestPhraseAgrees holds our walk against the engine's own phrase query, which
// is slow and right, over random texts of few words.
func TestPhraseAgrees(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	vocabulary := strings.Fields("ka lo mi nu pe ra")
	some := func(n int) string {
		var out []string
		for range n {
			out = append(out, vocabulary[r.IntN(len(vocabulary))])
		}
		return strings.Join(out, " ")
	}
	var entries []Entry
	for i := range 60 {
		e := entry(fmt.Sprint(i), Card{Title: fmt.Sprint(i), Instruments: []string{some(2), some(3)}}, some(3+r.IntN(30)), some(5))
		entries = append(entries, e)
	}
	l := shelf(t, entries...)
	idx, err := engine(filepath.Join(l.Dir, searchFolder), false)
	if err != nil {
		t.Fatal(err)
	}
	defer idx.Close()
	ids := func(q query.Query) []string {
		res, err := idx.Search(bleve.NewSearchRequestOptions(q, 1000, 0, false))
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, h := range res.Hits {
			out = append(out, h.ID)
		}
		slices.Sort(out)
		return out
	}
	found := 0
	for range 200 {
		terms := strings.Fields(some(2 + r.IntN(3)))
		if len(terms) > 2 && r.IntN(3) == 0 {
			terms[1] = "" // a function word stood here
		}
		field := []string{textField, "instrument"}[r.IntN(2)]
		ours, theirs := query.Query(&phraseQuery{field, terms}), query.Query(query.NewPhraseQuery(terms, field))
		if r.IntN(2) == 0 { // advanced by another query
			other := query.NewTermQuery(vocabulary[0])
			other.SetField(textField)
			ours, theirs = query.NewConjunctionQuery([]query.Query{other, ours}), query.NewConjunctionQuery([]query.Query{other, theirs})
		}
		a, b := ids(ours), ids(theirs)
		found += len(a)
		if !slices.Equal(a, b) {
			t.Errorf("phrase %q in %s: ours finds %d papers, the engine's %d", terms, field, len(a), len(b))
		}
	}
	if found == 0 {
		t.Error("no phrase was found at all")
	}
}
