package numeral

import (
	"math"
	"strconv"
	"strings"

	"probity/extract"
)

// closed gives how many items on the bracket that opens at k closes, 0 if it
// does not.
func (r *reader) closed(k int) int {
	depth := 0
	for j := k; r.i+j < len(r.it); j++ {
		switch r.at(j).class {
		case '(', '[', '{':
			depth++
		case ')', ']', '}':
			if depth--; depth == 0 {
				return j
			}
		}
	}
	return 0
}

// inside is what stands in a bracket.
type inside struct {
	numbers []extract.Number
	words   []string
	sign    bool // ± before the first number
	percent bool
	raised  string
	count   bool // "n ="
}

func (r *reader) inside(from, to int) inside {
	var in inside
	for k := from; k < to; k++ {
		it := r.at(k)
		switch it.class {
		case aNumber:
			if r.at(k+1).class == aPercent && r.at(k+2).class == aWord && strings.EqualFold(r.at(k+2).text, "ci") {
				in.words = append(in.words, it.text+"% CI")
				k += 2
				continue
			}
			in.numbers = append(in.numbers, it.number)
		case aWord:
			if strings.EqualFold(it.text, "n") && r.at(k+1).class == aRelation {
				in.count = true
			}
			if it.text == "to" && len(in.numbers) > 0 {
				continue
			}
			in.words = append(in.words, it.text)
		case aSign:
			in.sign = true
		case aPercent:
			in.percent = len(in.numbers) > 0
		case aRaised:
			in.raised += it.text
		}
	}
	return in
}

// bracket reads what stands in brackets after a figure.
func (r *reader) bracket() bool {
	end := r.closed(0)
	if end == 0 {
		return r.unclosed()
	}
	sign := r.at(0).text
	in := r.inside(1, end)
	if in.raised != "" {
		r.letters(in.raised, true)
	}
	ok := false
	switch {
	case in.count && len(in.numbers) == 1:
		r.out.N, ok = in.numbers[0], true
	case len(in.numbers) == 0:
		ok = r.lettersIn(in)
	case len(in.numbers) == 1:
		ok = r.single(in, sign)
	case len(in.numbers) == 2:
		ok = r.double(in, sign)
	case len(in.numbers) == 3 && r.out.Form == Figure && !in.percent:
		ok = r.triple(in, sign)
	}
	if ok {
		r.i += end + 1
	}
	return ok
}

// unclosed reads "12.3 (1.1": a bracket that was never closed.
func (r *reader) unclosed() bool {
	if r.out.Form != Figure || !r.is(1, aNumber) || len(r.it) != r.i+2 {
		return false
	}
	r.out.Form, r.out.Spread, r.out.Sign = Spread, r.at(1).number, "("
	r.out.Note = "a bracket is not closed"
	r.i += 2
	return true
}

func (r *reader) lettersIn(in inside) bool {
	text := strings.Join(in.words, ",")
	if s, ok := letters(text, false); ok {
		r.letters(s, false)
		return true
	}
	if r.out.Unit == "" && len(in.words) == 1 {
		r.out.Unit = in.words[0]
	}
	return true
}

// single takes one number in brackets: a spread, a percentage, or n after a
// mean and spread.
func (r *reader) single(in inside, sign string) bool {
	n := in.numbers[0]
	switch {
	case r.out.Form == Figure && in.percent && !r.out.Percent && r.out.Number.Decimals == 0:
		r.out.Form, r.out.Spread, r.out.Sign = Count, n, sign
	case r.out.Form == Figure && !in.sign && !in.percent && r.commaPair(n, in, sign):
	case r.out.Form == Figure:
		r.out.Form, r.out.Spread, r.out.Sign = Spread, n, sign
		if in.sign {
			r.out.Sign = "±"
		}
		r.out.Mark = strings.Join(in.words, " ")
	case r.out.Form == Spread && n.Decimals == 0 && !in.percent && !r.out.N.Known():
		r.out.N = n
	case r.out.Form == Spread || r.out.Form == Interval:
		// a coefficient of variation or the like: not needed here
	default:
		return false
	}
	return true
}

// commaPair reads "94 (92,101)", a pair with a centre between, where the comma
// might as well be one of decimals or of thousands.
func (r *reader) commaPair(n extract.Number, in inside, sign string) bool {
	a, b, ok := strings.Cut(n.Text, ",")
	if !ok || strings.Contains(r.out.Number.Text, ",") {
		return false
	}
	low, err1 := strconv.ParseUint(a, 10, 32)
	high, err2 := strconv.ParseUint(b, 10, 32)
	if err1 != nil || err2 != nil || low >= high || high > 10*low || float64(low) > r.out.Number.Value || r.out.Number.Value > float64(high) {
		return false
	}
	lower, upper := n, n
	lower.Text, lower.Value, lower.Decimals, lower.Place.End = a, float64(low), 0, n.Place.Start+len(a)
	upper.Text, upper.Value, upper.Decimals, upper.Place.Start = b, float64(high), 0, n.Place.End-len(b)
	r.out.Form, r.out.Low, r.out.High, r.out.Sign = Interval, lower, upper, sign
	r.out.Mark = strings.Join(in.words, " ")
	return true
}

// double takes a pair in brackets: limits around a centre, or the range after
// a mean and spread.
func (r *reader) double(in inside, sign string) bool {
	low, high := in.numbers[0], in.numbers[1]
	switch r.out.Form {
	case Figure:
		r.out.Form, r.out.Low, r.out.High, r.out.Sign = Interval, low, high, sign
		r.out.Mark = strings.Join(in.words, " ")
	case Spread:
		if in.sign || r.out.Min.Known() {
			return false
		}
		r.out.Min, r.out.Max = low, high
		r.out.Mark = strings.Join(in.words, " ")
	default:
		return false
	}
	return true
}

// triple takes a spread and a pair in one bracket: "(0.10; 1.02–1.40)".
func (r *reader) triple(in inside, sign string) bool {
	n := in.numbers
	if n[1].Value > n[2].Value {
		return false
	}
	r.out.Form, r.out.Spread, r.out.Sign = Spread, n[0], sign
	r.out.Min, r.out.Max = n[1], n[2]
	r.out.Mark = strings.Join(in.words, " ")
	return true
}

// bracketAlone reads a cell that is all in brackets: "(1.1)", "(52 to 58)",
// "(3.5 ± 1.2) × 10⁵".
func (r *reader) bracketAlone() {
	end := r.closed(0)
	in := r.inside(1, end)
	switch {
	case len(in.numbers) == 1 && !in.count:
		r.take(Figure, in.numbers[0], end+1)
		r.out.Sign, r.out.Percent = "(", in.percent
		if in.sign {
			r.out.Sign = "±"
		}
		r.out.Mark = strings.Join(in.words, " ")
	case len(in.numbers) == 1:
		r.take(N, in.numbers[0], end+1)
		r.out.N = in.numbers[0]
	case len(in.numbers) == 2 && in.sign:
		r.take(Spread, in.numbers[0], end+1)
		r.out.Spread, r.out.Sign = in.numbers[1], "±"
		r.scale()
	case len(in.numbers) == 2:
		r.take(Limits, extract.Number{}, end+1)
		r.out.Low, r.out.High, r.out.Sign = in.numbers[0], in.numbers[1], "("
		r.out.Mark = strings.Join(in.words, " ")
	}
}

// scale applies a power of ten that stands after the bracket to both figures.
func (r *reader) scale() {
	if r.i >= len(r.it) {
		return
	}
	power, end, ok := r.l.power(r.it[r.i].from)
	if !ok {
		return
	}
	for _, n := range []*extract.Number{&r.out.Number, &r.out.Spread} {
		n.Value *= math.Pow10(power)
		n.Decimals -= power
	}
	for r.i < len(r.it) && r.it[r.i].from < end {
		r.i++
	}
}
