package typed

import (
	"fmt"
	"math"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
	"probity/extract/numeral"
)

// Example is how the figures of a side are best typed.
const Example = "702.3 (106.8) n=12"

// A Side is the figures of one arm as typed, and what was made of them.
type Side struct {
	Measure *claims.Measure
	Name    string // words before the figures
	claims.Understood
	Asks []string // what has to be cleared up before anything is judged
}

// ReadSide reads the figures of one side. The error says what cannot be used
// and what to type instead.
func ReadSide(text string, cat *catalog.Catalog) (*Side, error) {
	return readSide(text, styleOf(text), cat)
}

func readSide(text string, style numeral.Style, cat *catalog.Catalog) (*Side, error) {
	text = extract.Fold(text)
	toks, err := lex(text, style)
	if err != nil {
		return nil, err
	}
	r := &reader{text: text, toks: toks, cat: cat}
	r.run()
	return r.side()
}

// item is a figure or a pair as typed, with the label, sign or bracket that
// says what it is.
type item struct {
	label    string // kind of the catalogue's marks: "mean", "sd", "n" …; "" unlabelled
	sign     bool   // behind ±
	bracket  int    // 0, or which bracket it stands in
	number   extract.Number
	low      extract.Number // of a pair, number is then unknown
	high     extract.Number
	unit     string
	unitID   string
	from, to int  // tokens
	spaced   bool // "1 245"
}

func (it *item) pair() bool { return it.low.Known() }

// reader walks the tokens once, from left to right.
type reader struct {
	text                 string
	toks                 []token
	cat                  *catalog.Catalog
	i                    int
	bracket              int // the bracket open now, 0: none
	opened               int // brackets so far
	items                []item
	unit                 string // typed apart from a figure
	unitID               string
	unitAt               string
	head                 string // kind of spread that the words before the figures name
	headCentre, headText string
	left                 []int  // tokens not used
	refuse               string // what cannot be used at all
}

func (r *reader) at(k int) token {
	if r.i+k >= 0 && r.i+k < len(r.toks) {
		return r.toks[r.i+k]
	}
	return token{}
}

func (r *reader) isSign(k int, signs string) bool {
	t := r.at(k)
	return t.sort == signToken && strings.Contains(signs, t.text)
}

// words gives the typed text of tokens i to j (j not included).
func (r *reader) words(i, j int) string {
	if i >= j {
		return ""
	}
	return r.text[r.toks[i].start:r.toks[j-1].end]
}

// heading reads "mean (SD)", "mean ± SD:", "median [IQR]" before the figures:
// they are then what it says.
func (r *reader) heading() {
	centre := r.cat.Mark(r.at(0).text)
	if r.at(0).sort != wordToken || centre != "mean" && centre != "median" || !r.isSign(1, "±([,/") {
		return
	}
	for k := min(longestLabel, len(r.toks)-2); k >= 1; k-- {
		kind := r.cat.Mark(r.words(2, 2+k))
		if _, ok := spreadKinds[kind]; !ok {
			continue
		}
		j := 2 + k
		for r.isSign(j, ")]:=,") {
			j++
		}
		if r.at(j).sort == numberToken {
			r.head, r.headCentre, r.headText = kind, centre, r.words(0, 2+k)
			r.i = j
		}
		return
	}
}

func (r *reader) run() {
	r.heading()
	for r.i < len(r.toks) {
		switch t := r.at(0); {
		case r.isSign(0, "(["):
			r.opened++
			r.bracket = r.opened
			r.i++
		case r.isSign(0, ")]"):
			r.bracket = 0
			r.i++
		case r.isSign(0, ",;:|"):
			r.i++
		case r.label():
		case r.isSign(0, "±") && r.at(1).sort == numberToken:
			r.i++
			r.figure("", r.i-1, true)
		case r.isSign(0, "±") && r.at(1).sort == wordToken && spreadKinds[r.cat.Mark(r.at(1).text)] != claims.NotStated:
			r.i++ // "650 ± SD 80"
		case t.sort == numberToken:
			r.figure("", r.i, false)
		case r.unitAlone():
		default:
			r.left = append(r.left, r.i)
			r.i++
		}
	}
}

// longestLabel is the most tokens that a label is made of: "95 % confidence
// interval", "standard error of the mean".
const longestLabel = 6

// label reads "SD 80", "n = 12", "95 % CI 600 to 700", "M = 650", and "80 SD"
// in a bracket of its own.
func (r *reader) label() bool {
	for k := min(longestLabel, len(r.toks)-r.i); k >= 1; k-- {
		if r.at(k-1).sort == signToken && r.at(k-1).text != "%" {
			continue
		}
		kind := r.cat.Mark(r.words(r.i, r.i+k))
		if kind == "" || k == 1 && r.at(0).sort != wordToken {
			continue
		}
		from := r.i
		j := k
		for r.isSign(j, "=:") || r.isSign(j, ",") && isPairLabel(kind) || r.at(j).sort == wordToken && isOf(r.at(j).text) {
			j++
		}
		if r.isSign(j, "([") { // "SD (80)", "CI = [600, 700]"
			j++
			r.opened++
			r.bracket = r.opened
		}
		if r.at(j).sort != numberToken {
			return false
		}
		if single := r.at(0).text; k == 1 && (single == "m" || single == "M" || single == "x") && j == k {
			return false // "650 m"
		}
		r.i += j
		r.figure(kind, from, false)
		return true
	}
	return false
}

func isOf(w string) bool {
	switch strings.ToLower(w) {
	case "of", "is", "was":
		return true
	}
	return false
}

// figure reads the number at hand, and the pair it may open, with its unit.
func (r *reader) figure(label string, from int, sign bool) {
	it := item{label: label, sign: sign, bracket: r.bracket, number: r.at(0).number, from: from, spaced: r.at(0).spaced}
	r.i++
	if high, ok := r.upper(label); ok {
		it.low, it.high, it.number = it.number, high, extract.Number{}
	}
	if label == "" && !it.pair() && r.confidence(&it) {
		return
	}
	if label == "n" {
		it.to = r.i
		r.items = append(r.items, it)
		r.skipSpecimens()
		return
	}
	if label == "" && !sign && !it.pair() && len(r.items) > 0 && r.specimens() {
		it.label = "n"
		r.i++
	} else {
		r.unitOf(&it)
	}
	if it.label == "" && (sign || it.bracket > 0) {
		it.label = r.labelBehind(sign)
	}
	it.to = r.i
	if r.head != "" && it.label == "" {
		switch {
		case len(r.items) == 0 && !it.pair():
			it.label = r.headCentre
		case sign || it.bracket > 0:
			it.label = r.head
		}
	}
	r.items = append(r.items, it)
}

// labelBehind reads the name of a spread behind it: "(80 SD)", "± 80 SD",
// "± 80 (SD)".
func (r *reader) labelBehind(sign bool) string {
	open := boolInt(sign && r.isSign(0, "(["))
	kind := r.cat.Mark(r.at(open).text)
	if r.at(open).sort != wordToken || spreadKinds[kind] == claims.NotStated || r.at(open+1).sort == numberToken || r.isSign(open+1, "=:") {
		return ""
	}
	if open == 1 && !r.isSign(2, ")]") || !sign && !r.isSign(1, ")],;") {
		return ""
	}
	r.i += 1 + 2*open
	return kind
}

// upper reads the second figure of a pair: "600-700", "600 to 700", and in a
// bracket or behind a label "600, 700" and "600; 700".
func (r *reader) upper(label string) (extract.Number, bool) {
	j := 0
	if u := r.at(0); u.sort == wordToken && !strings.EqualFold(u.text, "to") && r.cat.FindUnit(u.text) != nil && (r.isSign(1, "-") || strings.EqualFold(r.at(1).text, "to")) {
		j = 1 // "10 s to 12 s"
	}
	joined := r.isSign(j, "-") || strings.EqualFold(r.at(j).text, "to") || strings.EqualFold(r.at(j).text, "and") && isPairLabel(label)
	if !joined && (isPairLabel(label) || r.bracket > 0 && label == "") {
		joined = r.isSign(j, ",;/") && r.at(j+1).sort == numberToken && (r.isSign(j+2, ")]") || isPairLabel(label))
	}
	if !joined || r.at(j+1).sort != numberToken {
		return extract.Number{}, false
	}
	r.i += j + 2
	return r.toks[r.i-1].number, true
}

func isPairLabel(label string) bool { return label == "ci95" || label == "iqr" || label == "range" }

// confidence: the 90 of "90 % CI", which no formula here can use.
func (r *reader) confidence(it *item) bool {
	if !r.isSign(0, "%") || r.at(1).sort != wordToken || r.cat.Mark(r.at(1).text) != "ci95" && !strings.EqualFold(r.at(1).text, "confidence") {
		return false
	}
	if r.refuse == "" {
		r.refuse = fmt.Sprintf("“%s”: only a 95 %% interval can be brought to an SD; type the SD, the SE or the 95 %% CI", r.words(it.from, r.i+2))
	}
	r.i += 2
	return true
}

// specimens reports whether the word at hand is one for what is counted in a
// group, as the catalogue's signs list them.
func (r *reader) specimens() bool {
	w := strings.ToLower(r.at(0).text)
	if r.at(0).sort != wordToken {
		return false
	}
	for _, s := range r.cat.Signs {
		if s.Class != "specimen" && s.Class != "people" {
			continue
		}
		for _, x := range s.Words {
			if x == w {
				return true
			}
		}
	}
	return false
}

// skipSpecimens passes "instruments" in "n = 12 instruments", which repeats
// what n says.
func (r *reader) skipSpecimens() {
	if r.specimens() {
		r.i++
	}
	if strings.EqualFold(r.at(0).text, "each") || strings.EqualFold(r.at(0).text, "per") && strings.EqualFold(r.at(1).text, "group") {
		r.i += map[bool]int{true: 1, false: 2}[strings.EqualFold(r.at(0).text, "each")]
	}
}

// unitOf reads the unit right behind a figure: one of the catalogue, of up to
// four words, or a single word that nothing else explains and that a bracket,
// a ± or the end follows.
func (r *reader) unitOf(it *item) {
	if text, u, k := r.unitHere(); u != nil {
		it.unit, it.unitID = text, u.ID
		r.i += k
		return
	}
	w := r.at(0)
	if w.sort != wordToken || r.bracket > 0 || it.label != "" || it.pair() || r.cat.Mark(w.text) != "" || numberWord(w.text) > 0 || approximate(w.text) {
		return
	}
	if r.i+1 == len(r.toks) || r.isSign(1, "([±") {
		it.unit = w.text
		r.i++
	}
}

// unitHere finds the longest unit of the catalogue at hand. A letter n before a
// figure or an equals sign is a number of specimens, never newtons.
func (r *reader) unitHere() (string, *catalog.Unit, int) {
	if r.isSign(0, "%‰") {
		if u := r.cat.FindUnit(r.at(0).text); u != nil {
			return r.at(0).text, u, 1
		}
		return "", nil, 0
	}
	for k := 4; k >= 1; k-- {
		ok := true
		for j := 0; j < k; j++ {
			t := r.at(j)
			ok = ok && t.sort == wordToken && !(strings.EqualFold(t.text, "n") && (r.isSign(j+1, "=:") || r.at(j+1).sort == numberToken || t.text == "n"))
		}
		if !ok {
			continue
		}
		text := r.words(r.i, r.i+k)
		if u := r.cat.FindUnit(text); u != nil {
			return text, u, k
		}
	}
	return "", nil, 0
}

// unitAlone reads a unit that stands apart from its figure: "650 (80) s", "(s)".
func (r *reader) unitAlone() bool {
	behind := r.i > 0 && (r.toks[r.i-1].text == ")" || r.toks[r.i-1].text == "]")
	alone := r.bracket > 0 && (r.isSign(-1, "([") && len(r.items) > 0)
	if !behind && !alone || r.unit != "" {
		return false
	}
	text, u, k := r.unitHere()
	if u == nil || alone && !r.isSign(k, ")]") {
		return false
	}
	r.unit, r.unitID, r.unitAt = text, u.ID, text
	r.i += k
	return true
}

var numberWords = []string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
	"fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty",
	"ninety", "hundred", "thousand", "half", "dozen"}

// numberWord gives 1 and more for a word that is a number.
func numberWord(w string) int {
	for i, x := range numberWords {
		if strings.EqualFold(w, x) {
			return i + 1
		}
	}
	return 0
}

// approximate: words and signs behind which no figure is one as printed.
func approximate(w string) bool {
	switch strings.ToLower(w) {
	case "about", "approximately", "approx", "approx.", "around", "roughly", "circa", "ca", "ca.", "nearly", "almost", "over", "under", "above", "below",
		"up", "least", "most", "more", "less", "~", "≈", "<", ">", "≤", "≥":
		return true
	}
	return false
}

// side makes a measure of the items.
func (r *reader) side() (*Side, error) {
	s := &Side{Measure: &claims.Measure{Text: r.text}}
	if r.refuse != "" {
		return nil, fmt.Errorf("%s", r.refuse)
	}
	if err := r.inexact(); err != nil {
		return nil, err
	}
	centre, err := r.centre()
	if err != nil {
		return nil, err
	}
	b := builder{reader: r, Side: s, centre: centre}
	for _, step := range []func() error{b.takeCentre, b.takeSpread, b.takeN, b.takeUnit, b.check} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	b.leftover()
	return s, nil
}

// inexact refuses figures that are words, or that are said to be approximate:
// how they were rounded is not known.
func (r *reader) inexact() error {
	for _, i := range r.left {
		t := r.toks[i]
		next := token{}
		if i+1 < len(r.toks) {
			next = r.toks[i+1]
		}
		switch {
		case numberWord(t.text) > 0 && !upper(t.text):
			words := r.words(i-boolInt(i > 0 && approximate(r.toks[i-1].text)), i+1)
			if _, err := r.centre(); err != nil {
				return fmt.Errorf("“%s” is a number in words, and no mean could be read; type the figure in digits, as “%s”", words, Example)
			}
			return fmt.Errorf("“%s” is a number in words; type the figure in digits, as “%s”", words, Example)
		case approximate(t.text) && (next.sort == numberToken || i+2 < len(r.toks) && r.toks[i+2].sort == numberToken):
			return fmt.Errorf("“%s” is not a figure as printed, and how it was rounded is not known; type the figure that the paper prints, as “%s”", r.words(i, i+2+boolInt(next.sort != numberToken)), Example)
		}
	}
	return nil
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

func upper(w string) bool { return w != strings.ToLower(w) }

// centre finds the item that is the mean or median. Bare figures in a row are
// taken only where no second way to take them exists.
func (r *reader) centre() (int, error) {
	labelled, bare := -1, []int{} // bare: the first figures that stand side by side
	for i := range r.items {
		it := &r.items[i]
		switch {
		case it.label == "mean" || it.label == "median":
			if labelled < 0 {
				labelled = i
			}
		case it.label == "" && !it.sign && !it.pair() && it.bracket == 0 && (len(bare) == 0 || bare[len(bare)-1] == i-1):
			bare = append(bare, i)
		}
	}
	switch {
	case labelled >= 0:
		return labelled, nil
	case len(bare) == 0:
		for i := 0; i+1 < len(r.items); i++ { // "(650 ± 80) s"
			if it, next := &r.items[i], &r.items[i+1]; it.label == "" && !it.sign && !it.pair() && next.sign && it.bracket == next.bracket {
				return i, nil
			}
		}
		return 0, r.noCentre()
	case len(bare) == 1:
		return bare[0], nil
	case len(bare) == 3 && len(r.items) == 3 && r.forced(bare):
		r.items[bare[1]].label, r.items[bare[2]].label = "sd-forced", "n"
		return bare[0], nil
	}
	var list []string
	for _, i := range bare {
		list = append(list, r.items[i].number.Text)
	}
	text := strings.Join(list, ", ")
	if len(bare) == 3 {
		return 0, fmt.Errorf("“%s”: which of these figures is the mean, which the SD and which n is not said; type “mean %s, SD %s, n = %s” if that is meant", text, list[0], list[1], list[2])
	}
	return 0, fmt.Errorf("“%s”: what these figures are is not said; type “%s”, or name each: “mean 650, SD 80, n = 12”", text, Example)
}

// noCentre says why no mean was found.
func (r *reader) noCentre() error {
	for i := range r.items {
		if it := &r.items[i]; it.pair() {
			return fmt.Errorf("“%s” is a pair of limits without a mean or median between them; type “mean 650 (95 %% CI 600 to 700), n = 12” or “median 650 (IQR 600 to 720), n = 12”", r.words(it.from, it.to))
		}
	}
	return fmt.Errorf("no mean could be read; type it in digits, as “%s”", Example)
}

// forced: of "650.5, 80.2, 12" only the last can be n, and the others then are
// mean and SD in their order.
func (r *reader) forced(bare []int) bool {
	a, b, c := r.items[bare[0]].number, r.items[bare[1]].number, r.items[bare[2]].number
	return a.Decimals > 0 && b.Decimals > 0 && c.Decimals == 0 && c.Value >= 2 && b.Value > 0
}

// whole reports a whole number.
func whole(x float64) bool { return x == math.Trunc(x) }
