package numeral

import "probity/extract"

// durations are the pairs of words in which a time is printed as two
// figures, with how many of the second make one of the first, and the unit of
// the second: its m beside years is no metre.
var durations = []struct {
	long, short string
	of          float64
	unit        string
}{
	{"y", "m", 12, "months"}, {"yr", "mo", 12, "mo"}, {"years", "months", 12, "months"}, {"year", "months", 12, "months"}, {"yrs", "months", 12, "months"},
	{"min", "s", 60, "s"}, {"min", "sec", 60, "sec"}, {"m", "s", 60, "s"}, {"h", "min", 60, "min"},
}

// duration reads "12 y 9 m" and "3 min 25 s" as one figure in the smaller
// unit.
func (r *reader) duration() (n extract.Number, items int, unit string, ok bool) {
	if n, ok := r.clock(); ok {
		return n, 3, "min:s", true
	}
	if !r.is(0, aNumber) || !r.is(1, aWord) || !r.is(2, aNumber) || !r.is(3, aWord) {
		return n, 0, "", false
	}
	for _, d := range durations {
		if r.at(1).text == d.long && r.at(3).text == d.short {
			n = r.at(2).number
			n.Value += r.at(0).number.Value * d.of
			n.Text = r.l.slice(r.at(0).from, r.at(3).to)
			n.Place.Start = r.at(0).number.Place.Start
			return n, 4, d.unit, true
		}
	}
	return n, 0, "", false
}

// clock reads "3:25" as a time in seconds.
func (r *reader) clock() (n extract.Number, ok bool) {
	if !r.is(0, aNumber) || !r.is(1, ':') || !r.is(2, aNumber) || !r.at(1).glued || !r.at(2).glued {
		return n, false
	}
	min, sec := r.at(0).number, r.at(2).number
	if min.Decimals > 0 || len(sec.Text) < 2 || sec.Text[0] < '0' || sec.Text[0] > '5' || len(sec.Text) > 2 && sec.Decimals == 0 || min.Value < 0 || min.Value > 240 {
		return n, false
	}
	n = sec
	n.Value += 60 * min.Value
	n.Text = r.l.slice(r.at(0).from, r.at(2).to)
	n.Place.Start = min.Place.Start
	return n, true
}

// isSize reports whether the items from i on print an instrument size.
func isSize(it []item, i int) bool {
	if i+2 >= len(it) || it[i].class != aNumber || it[i+1].class != '/' || it[i+2].class != aNumber || !it[i+1].glued || !it[i+2].glued {
		return false
	}
	tip, taper := it[i].number, it[i+2].number
	if tip.Decimals != 0 || tip.Value < 6 || tip.Value > 140 {
		return false
	}
	t := taper.Text
	return len(t) == 3 && t[0] == '.' && t[1] == '0' || len(t) == 4 && t[:3] == "0.0" || len(t) == 2 && t[0] == '0'
}
