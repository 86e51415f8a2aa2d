package role

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"probity/claims/catalog"
)

// class is a set of what a word or phrase does for the numbers around it; the
// names are those of signs.csv.
type class uint64

const (
	cP class = 1 << iota
	cAlpha
	cStatistic
	cDF
	cEffect
	cInterval
	cBound
	cSpread
	cRange
	cMean
	cSize
	cTotal
	cPeople
	cSpecimen
	cEvent
	cFate
	cEnrol
	cTime
	cSet
	cSubstance
	cSettingWord
	cRegimen
	cGrade
	cLabel
	cCalendar
	cComparative
	cChangeNoun
	cChangeVerb
	cDiff
	cAgainst
	cShare
	cTimes
	cBoundWord
	cThreshold
	cAge
	cWhen
	cLasting
	cPoint
	cCiting
	cJoiner
	cFiller
	cMonth
	cMoney
	cFrom
	cNamed
	cHyphenNoun
	cPart
	cPower
	cSetVerb
	cLife
	cFunction
	cScale
	cFound
	cOutcomeVerb
	cUnit // also the units of one word of units.csv
)

var classNames = map[string]class{
	"p": cP, "alpha": cAlpha, "statistic": cStatistic, "df": cDF, "effect": cEffect, "interval": cInterval, "bound": cBound, "spread": cSpread,
	"range": cRange, "mean": cMean, "size": cSize, "totalWord": cTotal, "people": cPeople, "specimen": cSpecimen, "event": cEvent, "fate": cFate,
	"enrol": cEnrol, "time": cTime, "set": cSet, "substance": cSubstance, "settingWord": cSettingWord, "regimen": cRegimen, "grade": cGrade,
	"label": cLabel, "calendar": cCalendar, "comparative": cComparative, "changeNoun": cChangeNoun, "changeVerb": cChangeVerb, "diff": cDiff,
	"against": cAgainst, "shareWord": cShare, "times": cTimes, "boundWord": cBoundWord, "thresholdWord": cThreshold, "age": cAge, "when": cWhen,
	"lasting": cLasting, "pointNoun": cPoint, "citing": cCiting, "joiner": cJoiner, "filler": cFiller, "monthName": cMonth, "money": cMoney,
	"fromWord": cFrom, "named": cNamed, "hyphenNoun": cHyphenNoun, "partWord": cPart, "powerWord": cPower, "setVerb": cSetVerb, "lifeWord": cLife, "functionWord": cFunction, "scaleWord": cScale, "foundVerb": cFound, "outcomeVerb": cOutcomeVerb, "unit": cUnit,
}

// lexicon is signs.csv made ready for look-up.
type lexicon struct {
	words   map[string]class // by lower-case word
	exact   map[string]class // as written
	phrases map[string][]phrase
}

// phrase is a sign of several words, by its first.
type phrase struct {
	rest []string
	is   class
}

var (
	lexicons sync.Map // *catalog.Catalog → *lexicon
)

func lexiconOf(cat *catalog.Catalog) *lexicon {
	if l, ok := lexicons.Load(cat); ok {
		return l.(*lexicon)
	}
	l := &lexicon{map[string]class{}, map[string]class{}, map[string][]phrase{}}
	for _, s := range cat.Signs {
		is, ok := classNames[s.Class]
		if !ok {
			panic(fmt.Sprintf("signs.csv: the class %q of %q is not one of package role", s.Class, s.Words[0]))
		}
		for _, w := range s.Words {
			l.add(w, is, s.Exact)
		}
	}
	for _, u := range cat.Units {
		if u.Quantity == "ratio plain" || u.Quantity == "ph" {
			continue // "an index of 2", "pH 6": said before the number
		}
		for _, w := range u.Aliases {
			l.addUnit(w)
		}
	}
	lexicons.Store(cat, l)
	return l
}

// addUnit keeps a unit of one word, unless the word does something else in
// running text ("teeth", "index", "rotation").
func (l *lexicon) addUnit(w string) {
	if strings.IndexFunc(w, func(r rune) bool { return !unicode.IsLetter(r) }) < 0 && l.words[strings.ToLower(w)]&^(cScale|cHyphenNoun|cPart|cStatistic) == 0 {
		l.exact[w] |= cUnit
	}
}

func (l *lexicon) add(words string, is class, exact bool) {
	if exact {
		l.exact[words] |= is
		return
	}
	parts := strings.Fields(strings.ToLower(words))
	if len(parts) == 1 {
		l.words[parts[0]] |= is
		return
	}
	l.phrases[parts[0]] = append(l.phrases[parts[0]], phrase{parts[1:], is})
}

// numberWords are the words that are numbers themselves.
var numberWords = map[string]float64{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30,
	"forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
	"once": 1, "twice": 2, "thrice": 3, "half": .5, "halves": .5, "third": 1. / 3, "thirds": 1. / 3, "quarter": .25, "quarters": .25, "fifth": .2, "fifths": .2, "tenth": .1,
	"double": 2, "doubled": 2, "triple": 3, "tripled": 3, "halved": .5,
	"twofold": 2, "threefold": 3, "fourfold": 4, "fivefold": 5, "sixfold": 6, "sevenfold": 7, "eightfold": 8, "ninefold": 9, "tenfold": 10,
}
