package role

import (
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
	cRatioWord
	cExtreme
	cWeakLabel
	cMeasuredToo
	cMeasuredPer
	cEnergy // also units.csv
	cLength // units.csv
	cForce  // and grams; units.csv
	cUnit   // also the units of one word of units.csv
)

var classNames = map[string]class{
	"p": cP, "alpha": cAlpha, "statistic": cStatistic, "df": cDF, "effect": cEffect, "interval": cInterval, "bound": cBound, "spread": cSpread,
	"range": cRange, "mean": cMean, "size": cSize, "totalWord": cTotal, "people": cPeople, "specimen": cSpecimen, "event": cEvent, "fate": cFate,
	"enrol": cEnrol, "time": cTime, "set": cSet, "substance": cSubstance, "settingWord": cSettingWord, "regimen": cRegimen, "grade": cGrade,
	"label": cLabel, "calendar": cCalendar, "comparative": cComparative, "changeNoun": cChangeNoun, "changeVerb": cChangeVerb, "diff": cDiff,
	"against": cAgainst, "shareWord": cShare, "times": cTimes, "boundWord": cBoundWord, "thresholdWord": cThreshold, "age": cAge, "when": cWhen,
	"lasting": cLasting, "pointNoun": cPoint, "citing": cCiting, "joiner": cJoiner, "filler": cFiller, "monthName": cMonth, "money": cMoney,
	"fromWord": cFrom, "named": cNamed, "hyphenNoun": cHyphenNoun, "partWord": cPart, "powerWord": cPower, "setVerb": cSetVerb, "lifeWord": cLife, "functionWord": cFunction, "scaleWord": cScale, "foundVerb": cFound, "outcomeVerb": cOutcomeVerb, "ratioWord": cRatioWord, "extreme": cExtreme, "weakLabel": cWeakLabel,
	"measuredToo": cMeasuredToo, "measuredPer": cMeasuredPer,
	"energyUnit": cEnergy, "unit": cUnit,
}

// lexicon is signs.csv made ready for look-up, with the units of units.csv.
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

var lexicons sync.Map // *catalog.Catalog → *lexicon

// lexiconOf makes the lexicon of a catalogue once. A sign of a class that this
// package does not know says nothing here; a test finds it.
func lexiconOf(cat *catalog.Catalog) *lexicon {
	if l, ok := lexicons.Load(cat); ok {
		return l.(*lexicon)
	}
	l := &lexicon{map[string]class{}, map[string]class{}, map[string][]phrase{}}
	for _, s := range cat.Signs {
		for _, w := range s.Words {
			l.add(w, classNames[s.Class], s.Exact)
		}
	}
	for _, u := range cat.Units {
		if u.Quantity != "ratio plain" && u.Quantity != "ph" { // "an index of 2", "pH 6": said before the number
			for _, w := range u.Aliases {
				l.addUnit(w, &u)
			}
		}
	}
	lexicons.Store(cat, l)
	return l
}

// add keeps a word, or a phrase by its first word.
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

// besideUnits are the classes a word may have and still be a unit: "points",
// "T", but not "teeth" or "rotation".
const besideUnits = cScale | cHyphenNoun | cPart | cStatistic

// addUnit keeps a unit of one word.
func (l *lexicon) addUnit(w string, u *catalog.Unit) {
	letters := strings.IndexFunc(w, func(r rune) bool { return !unicode.IsLetter(r) }) < 0
	if !letters || l.words[strings.ToLower(w)]&^besideUnits != 0 {
		return
	}
	l.exact[w] |= cUnit
	switch u.Quantity {
	case "length":
		l.exact[w] |= cLength
	case "force":
		l.exact[w] |= cForce
	case "mass":
		if u.Factor < 1 { // grams; bodies are weighed in kg
			l.exact[w] |= cForce
		}
	case "energy":
		l.exact[w] |= cEnergy
	}
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
