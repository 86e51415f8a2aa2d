package typed

import (
	"fmt"
	"strings"

	"probity/claims"
	"probity/extract"
)

// builder makes the measure of a side from its items, one thing after the
// other, and notes what each was made from.
type builder struct {
	*reader
	*Side
	centre int
	used   map[int]bool
	spread int // the item that is the spread, -1: none
}

func (b *builder) use(i int) {
	if b.used == nil {
		b.used = map[int]bool{}
	}
	b.used[i] = true
}

func (b *builder) part(what, value, words string) {
	b.Parts = append(b.Parts, claims.Part{What: what, Value: value, Words: words})
}

func (b *builder) itemWords(i int) string {
	it := &b.items[i]
	words := b.words(it.from, it.to)
	if it.bracket > 0 && it.from > 0 && it.to < len(b.toks) && b.toks[it.from-1].text == "(" && b.toks[it.to].text == ")" {
		return "(" + words + ")"
	}
	if it.bracket > 0 && it.from > 0 && it.to < len(b.toks) && b.toks[it.from-1].text == "[" && b.toks[it.to].text == "]" {
		return "[" + words + "]"
	}
	return words
}

func quantity(n extract.Number) claims.Quantity {
	return claims.Quantity{Number: n, Origin: claims.Printed}
}

// takeCentre takes the mean or median. An interquartile range without a word
// for its centre goes with a median.
func (b *builder) takeCentre() error {
	it := &b.items[b.centre]
	if it.pair() {
		return fmt.Errorf("“%s” is a pair where one figure is wanted; type “%s”", b.itemWords(b.centre), Example)
	}
	b.use(b.centre)
	b.Measure.Mean = quantity(it.number)
	what := "mean"
	if it.label == "median" {
		b.Measure.Centre, what = claims.Median, "median"
	}
	for i := range b.items {
		if it.label == "" && b.items[i].label == "iqr" {
			b.Measure.Centre, what = claims.Median, "median"
			b.Assumed = append(b.Assumed, fmt.Sprintf("%s is taken as a median, since an interquartile range stands beside it", it.number.Text))
			break
		}
	}
	b.part(what, plain(it.number), b.itemWords(b.centre))
	if it.spaced && !b.hasSpread() {
		return fmt.Errorf("“%s” may be one figure or two; type %s, or name each: “mean 650, SD 120, n = 12”", it.number.Text, plain(it.number))
	}
	return nil
}

func (b *builder) hasSpread() bool {
	n := false
	for i := range b.items {
		if it := &b.items[i]; i != b.centre && it.label != "n" {
			return true
		} else if it.label == "n" {
			n = true
		}
	}
	return !n // "1 245 s" alone is one figure
}

// takeN takes the number of specimens, and refuses what can be none.
func (b *builder) takeN() error {
	for i := range b.items {
		it := &b.items[i]
		if it.label != "n" {
			continue
		}
		words := b.itemWords(i)
		switch {
		case b.Measure.N.Known():
			continue
		case it.pair():
			return fmt.Errorf("“%s”: one n is wanted, not a range; type the n behind this mean", words)
		case !whole(it.number.Value) || it.number.Decimals > 0:
			return fmt.Errorf("“%s”: a number of specimens is a whole number; type it as “n=12”", words)
		case it.number.Value < 1:
			return fmt.Errorf("“%s”: a mean has at least one specimen behind it; type how many, as “n=12”", words)
		}
		b.use(i)
		b.Measure.N = quantity(it.number)
		value := plain(it.number)
		if it.number.Value == 1 {
			value += ", which allows no test"
		}
		b.part("n", value, words)
	}
	if !b.Measure.N.Known() {
		b.part("n", "not given", "")
	}
	return nil
}

// spreadOrder lists the labels of spreads, the one that says most first.
var spreadOrder = []string{"sd", "sd-forced", "se", "ci95", "iqr", "range"}

var spreadKinds = map[string]claims.SpreadKind{"sd": claims.SD, "sd-forced": claims.SD, "se": claims.SE, "ci95": claims.CI95, "iqr": claims.IQR, "range": claims.Range}

var spreadNames = map[claims.SpreadKind]string{claims.SD: "SD", claims.SE: "SE", claims.CI95: "95 % CI", claims.IQR: "IQR", claims.Range: "range", claims.NotStated: "±"}

// takeSpread takes the spread: by its label, behind ±, or in brackets.
func (b *builder) takeSpread() error {
	b.spread = -1
	for _, label := range spreadOrder {
		for i := range b.items {
			if b.items[i].label == label && b.spread < 0 {
				b.spread = i
			}
		}
	}
	kind := claims.NotStated
	if b.spread >= 0 {
		kind = spreadKinds[b.items[b.spread].label]
	}
	for i := range b.items {
		it := &b.items[i]
		if b.spread >= 0 || b.used[i] || it.label != "" || it.pair() {
			continue
		}
		switch {
		case it.sign:
			b.spread = i
			b.Assumed = append(b.Assumed, fmt.Sprintf("± %s is not named: the sums take it as an SD; type “SE %s” if it is one", it.number.Text, it.number.Text))
		case it.bracket > 0:
			b.spread, kind = i, claims.SD
			b.Assumed = append(b.Assumed, fmt.Sprintf("(%s) is taken as the SD; type “SE %s” if it is one", it.number.Text, it.number.Text))
		}
	}
	if b.spread < 0 {
		b.part("spread", "not given", "")
		return b.bounds()
	}
	it := &b.items[b.spread]
	b.use(b.spread)
	words := b.itemWords(b.spread)
	if err := b.spreadFits(it, kind, words); err != nil {
		return err
	}
	b.Measure.Spread = claims.Spread{Kind: kind, Value: it.number, Low: it.low, High: it.high, Text: words, Why: "as typed"}
	value := plain(it.number)
	if it.pair() {
		value = plain(it.low) + " to " + plain(it.high)
	}
	b.part(spreadNames[kind], value, words)
	return b.bounds()
}

// spreadFits refuses spreads that cannot be what they are called.
func (b *builder) spreadFits(it *item, kind claims.SpreadKind, words string) error {
	pairs := kind == claims.CI95 || kind == claims.Range
	switch {
	case it.pair() && !pairs && kind != claims.IQR:
		return fmt.Errorf("“%s”: an %s is one figure, not a pair; type “95 %% CI 600 to 700”, “IQR 600 to 700” or “range 600 to 700” if one of these is meant", words, spreadNames[kind])
	case !it.pair() && pairs:
		return fmt.Errorf("“%s”: both limits are needed; type them as “%s 600 to 700”", words, spreadNames[kind])
	case !it.pair() && it.number.Value < 0:
		return fmt.Errorf("“%s”: a spread is never below zero; type it without the minus", words)
	case it.pair() && it.low.Value > it.high.Value:
		return fmt.Errorf("“%s”: the lower limit is above the upper one; type the lower one first", words)
	case it.pair() && (b.Measure.Mean.Value < it.low.Value-it.low.Half() || b.Measure.Mean.Value > it.high.Value+it.high.Half()):
		return fmt.Errorf("“%s” does not hold the %s, %s; look at the figures again", words, b.Measure.Centre, b.Measure.Mean.Text)
	}
	return nil
}

// bounds takes a range beside another spread, and a smallest and a largest
// value.
func (b *builder) bounds() error {
	m := b.Measure
	for i := range b.items {
		it := &b.items[i]
		if b.used[i] {
			continue
		}
		switch {
		case it.label == "range" && it.pair():
			m.Min, m.Max = it.low, it.high
			b.part("range", plain(it.low)+" to "+plain(it.high), b.itemWords(i))
		case it.label == "min" && !it.pair():
			m.Min = it.number
			b.part("smallest", plain(it.number), b.itemWords(i))
		case it.label == "max" && !it.pair():
			m.Max = it.number
			b.part("largest", plain(it.number), b.itemWords(i))
		default:
			continue
		}
		b.use(i)
	}
	return nil
}

// takeUnit takes the unit of all the figures, and refuses two.
func (b *builder) takeUnit() error {
	unit, id := b.unit, b.unitID
	for i := range b.items {
		it := &b.items[i]
		if it.unit == "" || !b.used[i] {
			continue
		}
		if unit != "" && (it.unitID != id || id == "" && it.unit != unit) {
			return fmt.Errorf("“%s” and “%s” stand on one side; type its figures in one unit", unit, it.unit)
		}
		unit, id = it.unit, it.unitID
	}
	b.Measure.Unit, b.Measure.UnitID = unit, id
	switch {
	case unit == "":
		b.part("unit", "not given", "")
	case id == "":
		b.part("unit (not in the table of units)", unit, unit)
	default:
		b.part("unit", unit, unit)
	}
	return nil
}

// check holds what was made against the laws of a group.
func (b *builder) check() error {
	m := b.Measure
	if m.N.Value == 1 && m.Spread.Known() {
		b.Assumed = append(b.Assumed, fmt.Sprintf("%s is not used: one specimen has no spread; look at n again", m.Spread.Text))
	}
	return nil
}

// leftover names what was not used. Words are harmless; figures are asked
// about, since a verdict would rest on half of what was typed.
func (b *builder) leftover() {
	unused := make([]bool, len(b.toks))
	for i := range b.items {
		it := &b.items[i]
		if b.used[i] {
			continue
		}
		for k := it.from; k < it.to; k++ {
			unused[k] = true
		}
		words := b.itemWords(i)
		switch {
		case it.label == "" && it.pair():
			b.Asks = append(b.Asks, fmt.Sprintf("what %s is was not said; type “95 %% CI %s to %s”, “IQR %s to %s” or “range %s to %s”", words,
				it.low.Text, it.high.Text, it.low.Text, it.high.Text, it.low.Text, it.high.Text))
		case spreadKinds[it.label] != claims.NotStated || it.sign:
			b.Assumed = append(b.Assumed, fmt.Sprintf("%s is not used: the sums take %s", words, b.Measure.Spread.Text))
		default:
			b.Asks = append(b.Asks, fmt.Sprintf("“%s” was not understood; say what it is, or leave it out", words))
		}
	}
	first := len(b.toks)
	if len(b.items) > 0 {
		first = b.items[0].from
	}
	for _, i := range b.left {
		if i < first && b.toks[i].sort == wordToken {
			b.Side.Name = strings.TrimSpace(b.Side.Name + " " + b.toks[i].text)
			continue
		}
		unused[i] = true
	}
	for from := 0; from < len(unused); from++ {
		to := from
		for to < len(unused) && unused[to] {
			to++
		}
		if to > from {
			b.Left = append(b.Left, b.words(from, to))
			from = to
		}
	}
}

// plain writes a figure as it was understood: "650.5" for "650,5".
func plain(n extract.Number) string {
	return strings.ReplaceAll(fmt.Sprintf("%.*f", n.Decimals, n.Value), "-", "−")
}
