package statement

import (
	"slices"
	"strings"

	"probity/claims"
)

// outcomeIndex knows the outcomes that the study measured, by their words.
type outcomeIndex struct {
	list   []*studyOutcome
	first  map[string][]int // by the first of its words, places in list
	byID   map[string][]*studyOutcome
	single *studyOutcome // the only one, if so
}

// studyOutcome is one outcome of the study's tables.
type studyOutcome struct {
	id    string
	name  string
	words []string
}

func newOutcomeIndex(study *claims.Study) outcomeIndex {
	x := outcomeIndex{byID: map[string][]*studyOutcome{}, first: map[string][]int{}}
	seen := map[string]*studyOutcome{}
	raw := slices.ContainsFunc(study.Measures, func(m *claims.Measure) bool { return !m.Adjusted })
	for _, m := range study.Measures {
		key := m.OutcomeID + "|" + m.Outcome
		if seen[key] != nil || m.Adjusted && raw {
			continue // a plain name means the raw figures
		}
		o := &studyOutcome{id: m.OutcomeID, name: m.Outcome, words: contentWords(m.Outcome)}
		seen[key] = o
		if len(o.words) > 0 {
			x.first[o.words[0]] = append(x.first[o.words[0]], len(x.list))
		}
		x.list = append(x.list, o)
		if o.id != "" {
			x.byID[o.id] = append(x.byID[o.id], o)
		}
	}
	if len(x.list) == 1 {
		x.single = x.list[0]
	} else if len(x.byID) == 1 && len(x.list) > 0 {
		same := true
		for _, o := range x.list {
			same = same && o.id == x.list[0].id
		}
		if same {
			x.single = x.list[0]
		}
	}
	return x
}

// contentWords are the words of a name that tell it from others.
func contentWords(s string) []string {
	var out []string
	for _, w := range cutName(s) {
		switch w {
		case "the", "of", "and", "in", "a", "to", "for", "mean", "sd", "values", "value", "at", "mm", "s", "n", "cm", "with", "by", "on", "per", "se", "standard", "deviation", "group", "groups", "between":
			continue
		}
		out = append(out, strings.TrimSuffix(w, "s"))
	}
	return out
}

// spoken is an outcome named in the sentence.
type spoken struct {
	start, end int // bytes of the paragraph
	text       string
	id         string
	of         []*studyOutcome
	exact      bool // the words are those of one outcome of the study's own
}

// outcomesIn finds the outcomes that a stretch of the sentence names: those of
// the catalogue, and those of this study's own tables.
func (s *sentence) outcomesIn(from, to int) []spoken {
	if from >= to {
		return nil
	}
	for _, done := range s.sought {
		if done.from == from && done.to == to {
			return slices.Clone(done.out)
		}
	}
	out := s.outcomesAnew(from, to)
	s.sought = append(s.sought, namedStretch{from, to, out})
	return slices.Clone(out)
}

// A namedStretch keeps what a stretch of the sentence names: several
// statements of one sentence ask for the same stretch.
type namedStretch struct {
	from, to int
	out      []spoken
}

func (s *sentence) outcomesAnew(from, to int) []spoken {
	base := s.toks[from].start
	text := s.text[base:s.toks[to-1].end]
	var out []spoken
	for _, m := range s.r.cat.FindOutcomes(text) {
		sp := spoken{start: base + m.Start, end: base + m.End, text: text[m.Start:m.End], id: m.Row.ID, of: s.r.outcomes.byID[m.Row.ID]}
		if s.covariate(sp.start) {
			continue
		}
		sp.narrow()
		s.widen(&sp)
		out = append(out, sp)
	}
	out = dropCovered(out)
	for _, o := range s.maybeNamed(from, to) {
		if known(out, o) {
			continue
		}
		if start, end, ok := s.namesOutcome(o, from, to); ok {
			out = append(out, spoken{start: start, end: end, text: s.text[start:end], id: o.id, of: []*studyOutcome{o}})
		}
	}
	return out
}

// maybeNamed lists the outcomes of the study whose first word stands in a
// stretch, in their order.
func (s *sentence) maybeNamed(from, to int) []*studyOutcome {
	var at []int
	for i := from; i < to; i++ {
		if t := &s.toks[i]; t.sort != signToken {
			at = append(at, s.r.outcomes.first[strings.TrimSuffix(strings.ToLower(s.text[t.start:t.end]), "s")]...)
		}
	}
	slices.Sort(at)
	var out []*studyOutcome
	for _, i := range slices.Compact(at) {
		out = append(out, s.r.outcomes.list[i])
	}
	return out
}

// narrow keeps, of several outcomes of the study with one id, those that are
// printed in the sentence's own words.
func (sp *spoken) narrow() {
	if len(sp.of) < 2 {
		return
	}
	want := contentWords(sp.text)
	var own []*studyOutcome
	for _, o := range sp.of {
		if equalWords(o.words, want) {
			own = append(own, o)
		}
	}
	if len(own) > 0 && len(own) < len(sp.of) {
		sp.of, sp.exact = own, true
	}
}

// widen ties a shorter name to the study's own: "bond strength" in a paper that
// measured push-out bond strength.
func (s *sentence) widen(sp *spoken) {
	if len(sp.of) > 0 {
		return
	}
	words := contentWords(sp.text)
	if len(words) == 0 {
		return
	}
	for _, o := range s.r.outcomes.list {
		if holdsAll(o.words, words) {
			sp.of, sp.id = append(sp.of, o), o.id
		}
	}
}

func holdsAll(words, want []string) bool {
	for _, w := range want {
		found := false
		for _, x := range words {
			found = found || x == w
		}
		if !found {
			return false
		}
	}
	return true
}

func equalWords(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// covariate: in "after adjustment for bending load" the load is not what is
// compared.
func (s *sentence) covariate(start int) bool {
	for i := s.from; i < s.to && s.toks[i].start <= start; i++ {
		if s.is(i, adjusted) && s.toks[i].start < start {
			for k := i + 1; k < i+5 && k < s.to; k++ {
				if s.toks[k].start == start {
					return true
				}
				if s.sign(k) == ',' {
					break
				}
			}
		}
	}
	return false
}

// dropCovered leaves out names that stand inside longer ones.
func dropCovered(in []spoken) []spoken {
	var out []spoken
	for i, a := range in {
		inside := false
		for k, b := range in {
			inside = inside || k != i && b.start <= a.start && a.end <= b.end && (b.end-b.start > a.end-a.start || k < i)
		}
		if !inside {
			out = append(out, a)
		}
	}
	return out
}

func known(in []spoken, o *studyOutcome) bool {
	for _, sp := range in {
		for _, x := range sp.of {
			if x == o {
				return true
			}
		}
	}
	return false
}

// namesOutcome reports whether all words of an outcome's own name stand near
// each other in the stretch.
func (s *sentence) namesOutcome(o *studyOutcome, from, to int) (start, end int, ok bool) {
	if len(o.words) == 0 || len(o.words) > 8 {
		return 0, 0, false
	}
	first, last, found := -1, -1, 0
	for _, w := range o.words {
		hit := false
		for i := from; i < to; i++ {
			t := &s.toks[i]
			if t.sort == signToken || t.end-t.start < len(w) || t.end-t.start > len(w)+2 {
				continue
			}
			if strings.EqualFold(strings.TrimSuffix(strings.ToLower(s.text[t.start:t.end]), "s"), w) {
				hit = true
				if first < 0 || i < first {
					first = i
				}
				last = max(last, i)
				break
			}
		}
		if hit {
			found++
		}
	}
	if found < len(o.words) || last-first > 3*len(o.words)+4 {
		return 0, 0, false
	}
	if len(o.words) == 1 && len(o.words[0]) < 3 && !strings.Contains(s.text[s.toks[first].start:s.toks[last].end], strings.TrimSpace(o.name)) {
		return 0, 0, false
	}
	return s.toks[first].start, s.toks[last].end, true
}
