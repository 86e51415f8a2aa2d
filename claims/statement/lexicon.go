package statement

import (
	"fmt"
	"strconv"
	"strings"
	"sync"

	"probity/claims/catalog"
)

// kind is what a word or phrase of the catalogue does in a sentence; each is
// one value of the column "kind" of phrases.csv.
type kind uint8

// The kinds of phrase. The order is free; names below must match.
const (
	adjUp kind = iota
	adjDown
	adjMerit
	inverting
	verbUp
	verbDown
	verbMerit
	verbOver
	verbDiff
	verbLast
	verbShare
	nounUp
	nounDown
	nounMerit
	nounDiff
	superUp
	superDown
	superMerit
	rankNext
	rankHead
	rankDown
	rankUp
	comparator
	leadComparator
	versus
	fromWord
	toWord
	respectively
	former
	latter
	bothWord
	foldWord
	timesWord
	factorWord
	magnitude
	kWord
	halfWord
	fraction
	percentWord
	pointsWord
	absolute
	relative
	numberWord
	approx
	boundUp
	boundDown
	filler
	significant
	notSignificant
	negation
	equalWord
	effect
	rejected
	hedge
	citedName
	citedWork
	ownWork
	agreement
	power
	assumption
	confidence
	notClaim
	counted
	timesOther
	thirdOther
	whole
	control
	baseTime
	endTime
	allOthers
	allGroups
	clauseWord
	centre
	median
	adjusted
	meanWord
	beforeAfter
	ratioWord
	favour
	label
	timeBefore
	timeUnit
	spreadSD
	spreadSE
	spreadIQR
	spreadRange
	spreadCV
	statisticWord
	abbreviation
	methodCue
	findingCue
	omnibusTest
	opener
	joinWord
	expectation
	designWord
	unitWord // from the catalogue of units, not of phrases
	turning
	tentative
	otherModel
	kindCount
)

var kindNames = [kindCount]string{"adj-up", "adj-down", "adj-merit", "invert", "verb-up", "verb-down", "verb-merit", "verb-over",
	"verb-diff", "verb-last", "verb-share", "noun-up", "noun-down", "noun-merit", "noun-diff", "super-up", "super-down", "super-merit",
	"rank-next", "rank-head", "rank-down", "rank-up", "comparator", "lead-comparator", "versus", "from", "to", "respectively", "former",
	"latter", "both", "fold", "times", "factor", "magnitude", "k-word", "half", "fraction", "percent", "points", "absolute", "relative",
	"number-word", "approx", "bound-up", "bound-down", "filler", "significant", "not-significant", "negation", "equal", "effect",
	"rejected", "hedge", "cited-name", "cited-work", "own-work", "agreement", "power", "assumption", "confidence", "not-claim",
	"counted", "times-other", "third-other", "whole", "control", "base-time", "end-time", "all-others", "all-groups", "clause", "centre",
	"median", "adjusted", "mean", "before-after", "ratio-word", "favour", "label", "time-before", "time-unit", "spread-sd", "spread-se",
	"spread-iqr", "spread-range", "spread-cv", "statistic", "abbreviation", "method-cue", "finding-cue", "omnibus", "opener", "join", "expectation", "design", "unit", "turning", "tentative", "other-model"}

// kinds is a set of kinds.
type kinds [2]uint64

func setOf(ks ...kind) kinds {
	var s kinds
	for _, k := range ks {
		s[k>>6] |= 1 << (k & 63)
	}
	return s
}

func (s kinds) has(k kind) bool     { return s[k>>6]&(1<<(k&63)) != 0 }
func (s kinds) any(t kinds) bool    { return s[0]&t[0]|s[1]&t[1] != 0 }
func (s kinds) or(t kinds) kinds    { return kinds{s[0] | t[0], s[1] | t[1]} }
func (s kinds) minus(t kinds) kinds { return kinds{s[0] &^ t[0], s[1] &^ t[1]} }
func (s kinds) empty() bool         { return s[0]|s[1] == 0 }

// Sets asked for often.
var (
	adjectives = setOf(adjUp, adjDown, adjMerit, inverting)
	verbs      = setOf(verbUp, verbDown, verbMerit, verbOver)
	nouns      = setOf(nounUp, nounDown, nounMerit, nounDiff)
	supers     = setOf(superUp, superDown, superMerit)
	bounds     = setOf(boundUp, boundDown)
	// whole phrases of these kinds take away the sense of their single words:
	// "more efficient" is not "more", "most effective" is not "most".
	swallow = setOf(adjUp, adjDown, adjMerit, inverting, superUp, superDown, superMerit, approx, kWord, pointsWord, rankHead, rankDown,
		rankUp, ratioWord, allOthers, notClaim, magnitude, filler)
	// what makes a sentence worth reading at all
	telling = setOf(adjUp, adjDown, adjMerit, inverting, verbUp, verbDown, verbMerit, verbOver, nounUp, nounDown, nounMerit, nounDiff,
		verbDiff, superUp, superDown, superMerit, rankHead, rankNext, rankDown, rankUp, respectively, meanWord, foldWord, fraction, timesWord, kWord, halfWord, significant, notSignificant,
		equalWord, percentWord, pointsWord, factorWord, magnitude, versus, effect)
)

// word is one word of the lexicon with its senses and the phrases it opens.
type word struct {
	text    string
	is      kinds
	value   float64 // of number words, multiples, fractions
	note    string  // of inverting words: what they invert
	merit   int8
	phrases []phrase
}

// phrase is several words with one sense.
type phrase struct {
	rest  []*word
	is    kinds
	value float64
	note  string
	merit int8
}

// lexicon is the catalogue's phrases ready for looking up.
type lexicon struct {
	words map[string]*word
}

var (
	lexMu    sync.Mutex
	lexicons = map[*catalog.Catalog]*lexicon{}
)

// lexiconOf builds the lexicon of a catalogue once.
func lexiconOf(cat *catalog.Catalog) *lexicon {
	lexMu.Lock()
	defer lexMu.Unlock()
	if l := lexicons[cat]; l != nil {
		return l
	}
	l, err := newLexicon(cat)
	if err != nil {
		panic(err) // a mistake in our own table; a test walks every row
	}
	if len(lexicons) > 8 {
		clear(lexicons) // catalogues with a person's own rows come and go
	}
	lexicons[cat] = l
	return l
}

func newLexicon(cat *catalog.Catalog) (*lexicon, error) {
	l := &lexicon{words: map[string]*word{}}
	byName := map[string]kind{}
	for k, name := range kindNames {
		byName[name] = kind(k)
	}
	for _, p := range cat.Phrases {
		k, ok := byName[p.Kind]
		if !ok {
			return nil, fmt.Errorf("catalog phrases: kind %q of %q is not known to package statement", p.Kind, p.Text)
		}
		for _, alt := range strings.Split(p.Text, "|") {
			if err := l.add(alt, k, p.Value); err != nil {
				return nil, err
			}
		}
	}
	for _, u := range cat.Units {
		for _, alias := range u.Aliases {
			if first := leadingLetters(alias); first != "" {
				w := l.word(first)
				w.is = w.is.or(setOf(unitWord))
			}
		}
	}
	return l, nil
}

func leadingLetters(s string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	for i, r := range s {
		if r < 'a' || r > 'z' {
			return s[:i]
		}
	}
	return s
}

func (l *lexicon) word(text string) *word {
	w := l.words[text]
	if w == nil {
		w = &word{text: text}
		l.words[text] = w
	}
	return w
}

func (l *lexicon) add(text string, k kind, value string) error {
	fields := strings.Fields(strings.ToLower(strings.NewReplacer("-", " ", "'", " ' ").Replace(text)))
	if len(fields) == 0 {
		return nil
	}
	number, note, merit, err := senseOf(k, value)
	if err != nil {
		return fmt.Errorf("catalog phrases: %q: %w", text, err)
	}
	first := l.word(fields[0])
	if len(fields) == 1 {
		first.is = first.is.or(setOf(k))
		if number != 0 {
			first.value = number
		}
		if note != "" {
			first.note = note
		}
		if merit != 0 {
			first.merit = merit
		}
		return nil
	}
	var rest []*word
	for _, f := range fields[1:] {
		rest = append(rest, l.word(f))
	}
	for i := range first.phrases {
		if p := &first.phrases[i]; sameWords(p.rest, rest) {
			p.is = p.is.or(setOf(k))
			if number != 0 {
				p.value = number
			}
			return nil
		}
	}
	first.phrases = append(first.phrases, phrase{rest: rest, is: setOf(k), value: number, note: note, merit: merit})
	return nil
}

func senseOf(k kind, value string) (number float64, note string, merit int8, err error) {
	switch k {
	case adjMerit, verbMerit, nounMerit, superMerit, verbOver:
		m, err := strconv.Atoi(value)
		return 0, "", int8(m), err
	case inverting, notClaim:
		return 0, value, 0, nil
	case kWord, halfWord, fraction, numberWord, magnitude:
		x, err := strconv.ParseFloat(value, 64)
		return x, "", 0, err
	}
	return 0, "", 0, nil
}

func sameWords(a, b []*word) bool {
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
