package index

import (
	"context"
	"errors"
	"math"

	"github.com/blevesearch/bleve/v2/mapping"
	"github.com/blevesearch/bleve/v2/search"
	bleve "github.com/blevesearch/bleve_index_api"
)

// A phraseQuery finds words in order, as the engine's own phrase query does.
// The engine holds each place of one word against each of the next, which for
// two words that stand a hundred times in every paper takes seconds over a
// large library; this one walks their places once.
type phraseQuery struct {
	field string
	terms []string // "" where a function word stood
}

// Searcher implements the engine's query.
func (q *phraseQuery) Searcher(ctx context.Context, r bleve.IndexReader, _ mapping.IndexMapping, o search.SearcherOptions) (search.Searcher, error) {
	s := &phraseSearcher{field: q.field, places: o.IncludeTermVectors, norm: 1}
	papers, err := r.DocCount()
	if err != nil {
		return nil, err
	}
	rarest := uint64(math.MaxUint64)
	for i, t := range q.terms {
		if t == "" {
			continue
		}
		tr, err := r.TermFieldReader(ctx, []byte(t), q.field, true, false, true)
		if err != nil {
			return nil, errors.Join(err, s.Close())
		}
		s.words = append(s.words, &phraseWord{term: t, offset: uint64(i), reader: tr})
		rarest = min(rarest, tr.Count())
	}
	s.count = rarest
	s.idf = 1 + math.Log(float64(papers)/float64(rarest+1))
	return s, nil
}

type phraseWord struct {
	term   string
	offset uint64 // from the beginning of the phrase
	reader bleve.TermFieldReader
	doc    *bleve.TermFieldDoc // nil: no more
	buffer bleve.TermFieldDoc
	at     int // in doc.Vectors, while the places are walked
}

type phraseSearcher struct {
	field   string
	words   []*phraseWord
	places  bool
	started bool
	count   uint64
	idf     float64
	norm    float64
}

func (w *phraseWord) next() (err error) {
	w.doc, err = w.reader.Next(w.buffer.Reset())
	return err
}

func (w *phraseWord) advance(id bleve.IndexInternalID) (err error) {
	w.doc, err = w.reader.Advance(id, w.buffer.Reset())
	return err
}

// Next gives the next paper with the phrase, nil at the end.
func (s *phraseSearcher) Next(ctx *search.SearchContext) (*search.DocumentMatch, error) {
	if !s.started {
		s.started = true
		for _, w := range s.words {
			if err := w.next(); err != nil {
				return nil, err
			}
		}
	} else if err := s.first().next(); err != nil {
		return nil, err
	}
	return s.find(ctx)
}

// Advance gives the first paper with the phrase from id on.
func (s *phraseSearcher) Advance(ctx *search.SearchContext, id bleve.IndexInternalID) (*search.DocumentMatch, error) {
	for _, w := range s.words {
		if s.started && (w.doc == nil || w.doc.ID.Compare(id) >= 0) {
			continue
		}
		if err := w.advance(id); err != nil {
			return nil, err
		}
	}
	s.started = true
	return s.find(ctx)
}

func (s *phraseSearcher) first() *phraseWord { return s.words[0] }

// find brings all words to one paper and walks their places, until a paper
// has the phrase.
func (s *phraseSearcher) find(ctx *search.SearchContext) (*search.DocumentMatch, error) {
	for {
		id, err := s.meet()
		if id == nil || err != nil {
			return nil, err
		}
		if m := s.match(ctx); m != nil {
			return m, nil
		}
		if err := s.first().next(); err != nil {
			return nil, err
		}
	}
}

// meet moves the words on until all stand in one paper.
func (s *phraseSearcher) meet() (bleve.IndexInternalID, error) {
	if len(s.words) == 0 || s.first().doc == nil {
		return nil, nil
	}
	id := s.first().doc.ID
	for i := 0; i < len(s.words); i++ {
		w := s.words[i]
		if w.doc == nil {
			return nil, nil
		}
		if w.doc.ID.Compare(id) < 0 {
			if err := w.advance(id); err != nil {
				return nil, err
			}
			if w.doc == nil {
				return nil, nil
			}
		}
		if w.doc.ID.Compare(id) > 0 {
			id, i = w.doc.ID, -1 // begin again from the later paper
		}
	}
	return id, nil
}

// where is a place in a field: which of its values, and the word there.
type where struct{ value, pos uint64 }

func (w *phraseWord) where() where {
	v := w.doc.Vectors[w.at]
	out := where{pos: v.Pos}
	if len(v.ArrayPositions) > 0 {
		out.value = v.ArrayPositions[0]
	}
	return out
}

// to moves a word on to a place or behind it; it reports whether it is there.
func (w *phraseWord) to(p where) bool {
	for ; w.at < len(w.doc.Vectors); w.at++ {
		switch at := w.where(); {
		case at == p:
			return true
		case at.value > p.value || at.value == p.value && at.pos > p.pos:
			return false
		}
	}
	return false
}

// match walks the places of all words once. Nil: the phrase is not there.
func (s *phraseSearcher) match(ctx *search.SearchContext) *search.DocumentMatch {
	for _, w := range s.words {
		w.at = 0
	}
	var m *search.DocumentMatch
	n := 0
	first := s.first()
	for ; first.at < len(first.doc.Vectors); first.at++ {
		start := first.where()
		all := true
		for _, w := range s.words[1:] {
			if !w.to(where{start.value, start.pos + w.offset - first.offset}) {
				all = false
				break
			}
		}
		if !all {
			continue
		}
		if n++; m == nil {
			m = ctx.DocumentMatchPool.Get()
			m.IndexInternalID = append(m.IndexInternalID[:0], first.doc.ID...)
		}
		if s.places {
			s.note(m)
		}
	}
	if m != nil {
		m.Score = math.Sqrt(float64(n)) * s.idf * s.idf * s.norm
	}
	return m
}

// note keeps where the words stand now.
func (s *phraseSearcher) note(m *search.DocumentMatch) {
	for _, w := range s.words {
		v := w.doc.Vectors[w.at]
		m.FieldTermLocations = append(m.FieldTermLocations, search.FieldTermLocation{Field: s.field, Term: w.term,
			Location: search.Location{Pos: v.Pos, Start: v.Start, End: v.End, ArrayPositions: append(search.ArrayPositions(nil), v.ArrayPositions...)}})
	}
}

// Close frees the readers.
func (s *phraseSearcher) Close() error {
	var all []error
	for _, w := range s.words {
		if err := w.reader.Close(); err != nil {
			all = append(all, err)
		}
	}
	return errors.Join(all...)
}

// Weight, SetQueryNorm, Count, Min, Size and DocumentMatchPoolSize are what the
// engine asks of every searcher.
func (s *phraseSearcher) Weight() float64            { return s.idf * s.idf }
func (s *phraseSearcher) SetQueryNorm(norm float64)  { s.norm = norm }
func (s *phraseSearcher) Count() uint64              { return s.count }
func (s *phraseSearcher) Min() int                   { return 0 }
func (s *phraseSearcher) Size() int                  { return 256 * (1 + len(s.words)) }
func (s *phraseSearcher) DocumentMatchPoolSize() int { return 1 }
