// Package reading holds a choice between rival readings of one thing: what a
// number is, what a label names, which figures a sentence speaks of.
//
// A choice keeps its best reading, the next one and the reasons of both. The
// gap between their scores is its doubt: what rests on a narrow gap may be
// asked about, and is never held against a paper.
package reading

import "slices"

// A Reason is why a reading is believed, in words a person can read. Its
// weight adds to the score of the reading; a negative one speaks against it.
type Reason struct {
	Text   string
	Weight float64
}

// A Candidate is one reading with what speaks for it.
type Candidate[T comparable] struct {
	Value   T
	Score   float64
	Reasons []Reason // heaviest first
}

// A Choice is the best reading of a thing and its closest rival. The zero
// Choice has read nothing.
type Choice[T comparable] struct {
	Best, Second Candidate[T]
}

// Wide is the gap from which a choice counts as sure: one reason of middling
// weight more than its rival has. A doubt of this weight outweighs a reading:
// nothing follows from it.
const Wide = 2.0

// Slight is the weight of a doubt that leaves a question: what rests on the
// reading may be asked about, and is never held against a paper.
const Slight = 1.0

// Gap is by how much the best reading beats its rival, 0 where nothing was
// read.
func (c Choice[T]) Gap() float64 { return c.Best.Score - c.Second.Score }

// Sure reports whether something was read and no rival comes near.
func (c Choice[T]) Sure() bool { return c.Best.Score > 0 && c.Gap() >= Wide }

// A Ballot collects reasons for rival readings.
type Ballot[T comparable] struct {
	Candidates []Candidate[T]
}

// For adds a reason for a reading.
func (b *Ballot[T]) For(value T, weight float64, why string) {
	if weight == 0 {
		return
	}
	i := slices.IndexFunc(b.Candidates, func(c Candidate[T]) bool { return c.Value == value })
	if i < 0 {
		i = len(b.Candidates)
		b.Candidates = append(b.Candidates, Candidate[T]{Value: value})
	}
	c := &b.Candidates[i]
	c.Score += weight
	c.Reasons = append(c.Reasons, Reason{why, weight})
}

// Score is what speaks for a reading so far.
func (b *Ballot[T]) Score(value T) float64 {
	for i := range b.Candidates {
		if b.Candidates[i].Value == value {
			return b.Candidates[i].Score
		}
	}
	return 0
}

// Choose picks the reading with the highest score; of equals the one that was
// named first. The ballot is not changed.
func (b *Ballot[T]) Choose() Choice[T] {
	var out Choice[T]
	best, second := -1, -1
	for i := range b.Candidates {
		switch s := b.Candidates[i].Score; {
		case best < 0 || s > b.Candidates[best].Score:
			best, second = i, best
		case second < 0 || s > b.Candidates[second].Score:
			second = i
		}
	}
	if best >= 0 {
		out.Best = sorted(b.Candidates[best])
	}
	if second >= 0 {
		out.Second = sorted(b.Candidates[second])
	}
	return out
}

func sorted[T comparable](c Candidate[T]) Candidate[T] {
	c.Reasons = slices.Clone(c.Reasons)
	slices.SortStableFunc(c.Reasons, func(a, b Reason) int {
		switch {
		case a.Weight > b.Weight:
			return -1
		case a.Weight < b.Weight:
			return 1
		}
		return 0
	})
	return c
}

// A Doubt is what may make a reading another one: its reasons, heaviest
// first. The zero value has none: the reading is sure.
type Doubt []Reason

// Sure reports that nothing speaks against the reading.
func (d Doubt) Sure() bool { return len(d) == 0 }

// Outweighs reports a doubt so heavy that nothing follows from the reading.
func (d Doubt) Outweighs() bool { return len(d) > 0 && d[0].Weight >= Wide }

// Add keeps a reason once. An empty text adds nothing.
func (d *Doubt) Add(text string, weight float64) {
	if text == "" || slices.ContainsFunc(*d, func(r Reason) bool { return r.Text == text }) {
		return
	}
	i := len(*d)
	for i > 0 && (*d)[i-1].Weight < weight {
		i--
	}
	*d = slices.Insert(slices.Clip(*d), i, Reason{text, weight}) // doubts share their backing arrays
}

// Join adds the reasons of another doubt.
func (d *Doubt) Join(other Doubt) {
	for _, r := range other {
		d.Add(r.Text, r.Weight)
	}
}

// String gives the reasons as one clause, "" where there is none.
func (d Doubt) String() string {
	out := ""
	for i, r := range d {
		if i > 0 {
			out += "; "
		}
		out += r.Text
	}
	return out
}
