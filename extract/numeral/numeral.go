// Package numeral reads the figures that this literature prints: a numeral
// with its decimals, and the forms in which a centre and a spread stand
// together.
//
//	extract.Cell → Reading      one cell of a table
//	string       → []Token      the figures of a sentence, in order
//
// It decides what is printed, not what it means: whether 1.1 in
// "12.3 (1.1)" is a standard deviation is for package assemble to say. Text
// that no rule reads is left in Reading.Rest, or between the tokens.
package numeral

import (
	"strings"

	"probity/extract"
)

// Style says how a document prints numerals. The zero Style is the one of
// English print: a decimal point, and a comma for thousands.
type Style struct {
	DecimalComma bool // "12,3" is 12.3 and "1.234" is 1234
}

// Form is the form in which figures stand together. Zero: none was found.
type Form int

// The forms of figures.
const (
	None     Form = iota
	Figure        // one numeral: 12.3
	Spread        // a centre and one spread: 12.3 ± 1.1, 12.3 (1.1)
	Interval      // a centre and a pair: 12.3 (11.2–13.4), 12.3 [11.2; 13.4]
	Limits        // a pair alone: 11.2–13.4
	Count         // a count and its percentage, or a count of a total: 12 (40%), 12/30
	P             // a p value: p < 0.001
	N             // a number of specimens: n = 12
	Size          // an instrument size: 25/.06
	Stat          // a test statistic: F(2, 27) = 6.1
	Level         // a level of significance: α = 0.05
	Label         // a number that names something: Table 2, Group 3
	Citation      // a number that points to the reference list
)

var formNames = [...]string{"none", "figure", "spread", "interval", "limits", "count", "p", "n", "size",
	"statistic", "level", "label", "citation"}

// String gives the name of the form, for messages and tests.
func (f Form) String() string { return formNames[f] }

// Figures are the figures of one form.
type Figures struct {
	Form      Form
	Number    extract.Number // the figure, or the centre
	Spread    extract.Number // the single figure beside it
	Low, High extract.Number // the pair beside it, or the limits
	Sign      string         // what joins centre and spread: "±", "(", "[", "/", ","; "?" for a damaged sign
	Unit      string         // the words right after the figure, where they may be a unit
	Percent   bool           // "%" stands right after the figure
	Mark      string         // words printed with the spread: "SD", "95% CI", "range"
	Name      string         // of a statistic: "F", "t", "χ²", "U"; of a label: "Table"
	DF        []extract.Number
	Note      string // a doubt about the reading: a damaged sign; "" when sound
}

// A Reading is what one cell of a table prints.
type Reading struct {
	Figures
	Letters  string         // grouping letters: "ab", "A,b"
	Raised   bool           // the letters are raised: no unit can be meant
	Marks    string         // other marks: "*", "†"
	N        extract.Number // "(n = 12)", or the "(219)" after a mean and spread
	Min, Max extract.Number // a range printed after centre and spread
	Label    string         // words before the figures
	Rest     string         // what was not read
	Text     string         // the cell as one line
}

// A Token is one group of figures in running text; Start and End count bytes
// of the text it was read from.
type Token struct {
	Figures
	Start, End int
	Hyphen     bool   // "30-day", "10-min": the number is part of a compound word
	Follows    string // the word right before, "" at the start of a sentence
}

// StyleOf finds out from the figures of a document, or of a table, whether it
// prints a decimal comma. It wants figures that only a comma can be meant in
// and none that only a point can.
func StyleOf(texts ...string) Style {
	comma, point := Signs(texts...)
	return Style{DecimalComma: comma >= 3 && comma > 4*point}
}

// Signs counts the figures that make sense with a decimal comma only, and
// those that do with a point only: 0,5 and 12,34; 0.5 and 12.34.
func Signs(texts ...string) (comma, point int) {
	for _, s := range texts {
		l := flat(s)
		for i := 0; i < len(l.r); i++ {
			if !l.digit(i) || i > 0 && (l.digit(i-1) || isMark(l.r[i-1])) {
				continue
			}
			c, p := l.evidence(i)
			comma, point = comma+c, point+p
		}
	}
	return comma, point
}

// evidence looks at the numeral that starts at i: does only a comma, or only
// a point, make sense as its decimal sign?
func (l *line) evidence(i int) (comma, point int) {
	j := l.digits(i)
	whole := j - i
	if j+1 >= len(l.r) || !l.digit(j+1) {
		return 0, 0
	}
	end := l.digits(j + 1)
	after := end - (j + 1)
	if end < len(l.r) && isMark(l.r[end]) && end+1 < len(l.r) && l.digit(end+1) {
		return 0, 0
	}
	grouped := after == 3 && whole <= 3 && l.r[i] != '0'
	switch {
	case l.r[j] == ',' && !grouped:
		return 1, 0
	case l.r[j] == '.' && !grouped:
		return 0, 1
	}
	return 0, 0
}

func isMark(r rune) bool { return r == '.' || r == ',' }

// Number reads s as one numeral and nothing else.
func Number(s string, style Style) (extract.Number, bool) {
	l := flat(strings.TrimSpace(s))
	n, end, ok := l.number(0, style)
	return n, ok && end == len(l.r)
}
