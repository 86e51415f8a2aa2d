package index

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/blevesearch/bleve/v2"
	"github.com/blevesearch/bleve/v2/search"
	"github.com/blevesearch/bleve/v2/search/query"

	"probity/extract"
)

// A Hit is one paper that a query finds.
type Hit struct {
	Record   *Record
	Score    float64
	Snippets []Snippet
}

// A Snippet is a stretch of the paper where the query was met.
type Snippet struct {
	Place extract.Place
	Text  string
	Marks [][2]int // stretches of Text that met the query, in bytes
}

// A Found is the answer to a query.
type Found struct {
	Total  int
	Hits   []Hit
	Facets []Facet
	Whole  map[string][]string // whole values asked for by field: "verdict": {"reversed"}
}

// A Facet counts the values of a field over all papers found.
type Facet struct {
	Field  string
	Values []Count
	Others int
}

// A Count is how many papers have a value.
type Count struct {
	Value  string
	Papers int
}

// A Search is what is asked of a library.
type Search struct {
	Query  string
	Size   int  // hits wanted; 0: 10
	From   int  // hits passed over
	Facets bool // count the values of fields
}

// A Reader searches a library. It holds the lock together with other readers,
// or searches the last state while another process changes the library.
type Reader struct {
	*Library
	held  *lock // nil: the last state
	idx   bleve.Index
	words words
}

// Reader opens the index for searching. An index that is behind the papers or
// damaged is put right first, where the library may be written. While another
// process changes the library, the state before is searched.
func (l *Library) Reader() (r *Reader, err error) {
	err = l.patiently(func() error {
		r, err = l.reader()
		return err
	})
	return r, err
}

func (l *Library) reader() (*Reader, error) {
	for mended := false; ; mended = true {
		held, err := l.take(false)
		var b *busy
		if errors.As(err, &b) {
			if r := l.lastState(b.who); r != nil {
				return r, nil
			}
		}
		if err != nil {
			return nil, err
		}
		why := l.behind()
		if why == nil || mended {
			return l.search(held)
		}
		held.free()
		if err := l.mend(why); err != nil {
			return nil, err
		}
	}
}

func (l *Library) search(held *lock) (*Reader, error) {
	idx, err := engine(filepath.Join(l.Dir, searchFolder), false)
	if err != nil {
		held.free()
		return nil, fmt.Errorf("%w; run probity rebuild", err)
	}
	return &Reader{Library: l, held: held, idx: idx, words: l.words()}, nil
}

// mend brings the index up to the papers.
func (l *Library) mend(why error) error {
	held, err := l.take(true)
	if errors.Is(err, errBusy) {
		return err
	}
	if err != nil {
		return fmt.Errorf("%w (%v)", err, why)
	}
	if !errors.Is(why, errStale) {
		l.say("%v", why)
	}
	w, err := l.writer(held)
	if err != nil {
		return fmt.Errorf("%w (%v)", err, why)
	}
	return w.Close()
}

// behind says why the index cannot be searched as it is, nil if it can. It is
// quick: sizes and times of files and the number of papers.
func (l *Library) behind() error {
	if err := l.sound(false); err != nil {
		return err
	}
	m, err := l.manifest()
	if err != nil {
		return err
	}
	ids, err := l.IDs()
	if err != nil {
		return err
	}
	if len(ids) != m.Papers {
		return fmt.Errorf("%w: it knows %d papers of %d", errStale, m.Papers, len(ids))
	}
	return nil
}

// Close ends the searching.
func (r *Reader) Close() error {
	err := closeSafely(r.idx)
	r.held.free()
	return err
}

// Find answers a query: the papers that fit best first, each with the places
// where it was met.
func (r *Reader) Find(s Search) (found *Found, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the search index is damaged (%v); run probity rebuild", p)
		}
	}()
	a, err := parse(s.Query, r.words)
	if err != nil {
		return nil, err
	}
	if s.Size <= 0 {
		s.Size = 10
	}
	req := bleve.NewSearchRequestOptions(a.query, s.Size, max(0, s.From), false)
	req.SortBy([]string{"-_score", "_id"})
	req.Fields = []string{revField}
	if s.Facets {
		for _, f := range Fields {
			if f.Facet {
				req.AddFacet(f.Name, bleve.NewFacetRequest(countedIn(&f), facetValues))
			}
		}
	}
	res, err := r.idx.Search(req)
	if err != nil {
		return nil, fmt.Errorf("the search failed: %w; run probity doctor", err)
	}
	found = &Found{Total: int(res.Total), Facets: facetsOf(res.Facets), Whole: a.fields}
	places, err := r.places(a, res.Hits)
	if err != nil {
		return nil, err
	}
	changed := 0
	for _, h := range res.Hits {
		record, text, err := r.shown(h.ID, len(places[h.ID]) > 0)
		if errors.Is(err, ErrGone) {
			changed++
			continue
		}
		if err != nil {
			r.say("%v", err)
		}
		if record == nil {
			continue
		}
		hit := Hit{Record: record, Score: h.Score}
		switch rev, _ := h.Fields[revField].(string); {
		case rev != record.revision():
			changed++ // the places are those of another text
		case text != nil:
			hit.Snippets = snippets(text, places[h.ID])
		}
		found.Hits = append(found.Hits, hit)
	}
	if changed > 0 {
		r.say("papers changed or taken out since, and shown without places or not at all: %d", changed)
	}
	return found, nil
}

// shown reads what is shown of a paper, and its text if need be. Of a paper
// whose text is damaged the record is given beside the error.
func (l *Library) shown(id string, text bool) (*Record, []Passage, error) {
	if text {
		k, err := l.whole(id)
		if err == nil {
			return k.record, k.text, nil
		}
		r, _ := l.Record(id)
		return r, nil, err
	}
	r, err := l.Record(id)
	return r, nil, err
}

// facetValues is how many values of a field are counted by name.
const facetValues = 8

func countedIn(f *Field) string {
	if f.Kind == Whole {
		return f.Name
	}
	return facetField(f.Name)
}

func facetsOf(res search.FacetResults) []Facet {
	var out []Facet
	for _, f := range Fields {
		got := res[f.Name]
		if got == nil || got.Terms == nil || got.Total == 0 {
			continue
		}
		facet := Facet{Field: f.Name, Others: got.Other}
		for _, t := range got.Terms.Terms() {
			facet.Values = append(facet.Values, Count{t.Term, t.Count})
		}
		sort.SliceStable(facet.Values, func(i, j int) bool {
			a, b := facet.Values[i], facet.Values[j]
			return a.Papers > b.Papers || a.Papers == b.Papers && a.Value < b.Value
		})
		out = append(out, facet)
	}
	return out
}

// places asks again, of the papers shown alone, where the query was met: to
// collect places over all papers found would cost most of the time.
func (r *Reader) places(a *asked, hits search.DocumentMatchCollection) (map[string][]spot, error) {
	if !a.inText || len(hits) == 0 {
		return nil, nil
	}
	ids := make([]string, len(hits))
	for i, h := range hits {
		ids[i] = h.ID
	}
	req := bleve.NewSearchRequestOptions(query.NewConjunctionQuery([]query.Query{query.NewDocIDQuery(ids), a.query}), len(ids), 0, false)
	req.IncludeLocations = true
	res, err := r.idx.Search(req)
	if err != nil {
		return nil, fmt.Errorf("the search failed: %w; run probity doctor", err)
	}
	out := map[string][]spot{}
	for _, h := range res.Hits {
		var spots []spot
		for t, locations := range h.Locations[textField] {
			for _, at := range locations {
				spots = append(spots, spot{int(at.Start), int(at.End), t})
			}
		}
		slices.SortFunc(spots, func(x, y spot) int {
			if x.start != y.start {
				return x.start - y.start
			}
			return y.end - x.end
		})
		out[h.ID] = spots
	}
	return out, nil
}

// A spot is where a term stands in the body of a paper.
type spot struct {
	start, end int
	term       string
}

const (
	snippetsShown = 3
	snippetWidth  = 240 // bytes of text around what was met
)

// snippets picks the passages that meet most of the query and shows the
// stretch around it.
func snippets(text []Passage, spots []spot) []Snippet {
	type scored struct {
		passage int
		offset  int
		spots   []spot
		weight  float64
	}
	often := map[string]int{}
	for _, s := range spots {
		often[s.term]++
	}
	var all []scored
	at, k := 0, 0
	for i, p := range text {
		end := at + len(p.Text)
		s := scored{passage: i, offset: at}
		seen := map[string]bool{}
		for ; k < len(spots) && spots[k].start < end; k++ {
			if spots[k].end <= end {
				s.spots = append(s.spots, spots[k])
				if t := spots[k].term; !seen[t] {
					seen[t] = true
					s.weight += 1 / float64(often[t]) // what stands in few passages tells most
				}
			}
		}
		if s.weight > 0 {
			all = append(all, s)
		}
		at = end + 1
	}
	slices.SortStableFunc(all, func(a, b scored) int {
		if a.weight != b.weight {
			return cmp.Compare(b.weight, a.weight)
		}
		return min(len(b.spots), 4) - min(len(a.spots), 4)
	})
	var out []Snippet
	for _, s := range all[:min(len(all), snippetsShown)] {
		out = append(out, around(text[s.passage], s.spots, s.offset))
	}
	return out
}

// around cuts a stretch of a passage with its first spots, at word ends.
func around(p Passage, spots []spot, offset int) Snippet {
	from := max(0, spots[0].start-offset-snippetWidth/3)
	to := min(len(p.Text), from+snippetWidth)
	to = max(to, min(len(p.Text), spots[0].end-offset))
	if from > 0 {
		if i := strings.IndexByte(p.Text[from:to], ' '); i >= 0 && from+i < spots[0].start-offset {
			from += i + 1
		}
		for from < to && !utf8.RuneStart(p.Text[from]) {
			from++
		}
	}
	if to < len(p.Text) {
		if i := strings.LastIndexByte(p.Text[from:to], ' '); i > 0 && from+i >= spots[0].end-offset {
			to = from + i
		}
		for to > from && !utf8.RuneStart(p.Text[to]) {
			to--
		}
	}
	s := Snippet{Place: p.Place, Text: p.Text[from:to]}
	lead := 0
	if from > 0 {
		s.Text, lead = "… "+s.Text, len("… ")
	}
	if to < len(p.Text) {
		s.Text += " …"
	}
	end := 0
	for _, x := range spots {
		a, b := x.start-offset, x.end-offset
		if a < from || b > to || a < end {
			continue
		}
		s.Marks = append(s.Marks, [2]int{a - from + lead, b - from + lead})
		end = b
	}
	return s
}
