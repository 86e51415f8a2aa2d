package assemble

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
)

func isYear(n extract.Number) bool {
	return len(n.Text) == 4 && n.Value >= 1900 && n.Value < 2100
}

// unitNext keeps "14 mm roots" from being a number of roots.
func unitNext(after string) bool {
	w := firstWord(strings.TrimLeft(after, " -"))
	switch w {
	case "mm", "mm.", "cm", "%", "°", "°c", "s", "min", "h", "ml", "µm", "μm", "mpa", "n", "rpm", "days", "day", "hours", "months", "weeks", "years", "year", "seconds", "minutes", "grit", "µl", "μl", "ppm":
		return true
	}
	return false
}

func lastWords(s string, n int) string { return strings.Join(lastFields(s, n), " ") }

// firstFields and lastFields give up to n words of the beginning or the end of
// a text, however long it is.
func firstFields(s string, n int) []string {
	var out []string
	for w := range strings.FieldsSeq(s) {
		if len(out) == n {
			break
		}
		out = append(out, w)
	}
	return out
}

func lastFields(s string, n int) []string {
	var out []string
	for s = strings.TrimRightFunc(s, unicode.IsSpace); s != "" && len(out) < n; s = strings.TrimRightFunc(s, unicode.IsSpace) {
		at := strings.LastIndexFunc(s, unicode.IsSpace)
		if at >= 0 {
			_, size := utf8.DecodeRuneInString(s[at:])
			at += size
		} else {
			at = 0
		}
		out = append(out, s[at:])
		s = s[:at]
	}
	slices.Reverse(out)
	return out
}

func firstWords(s string, n int) string {
	w := strings.Fields(s)
	for i := range w {
		if strings.HasSuffix(w[i], ".") || strings.HasSuffix(w[i], ",") && i > 2 || w[i] == "and" && i > 1 {
			return strings.Join(w[:i+1], " ")
		}
	}
	return strings.Join(w[:min(n, len(w))], " ")
}

// a worded is a number in words or digits.
type worded struct {
	n          extract.Number
	start, end int
}

var unitsInWords = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,

	"twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "one": 1}

var tensInWords = map[string]int{"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

// wordedNumbers finds whole numbers printed in words or digits: "forty-five",
// "one-hundred and forty-four", "60".
func wordedNumbers(text, low string) []worded {
	var out []worded
	if len(low) != len(text) {
		return nil
	}
	for i := 0; i < len(low); {
		if !isWordByte(low[i]) || i > 0 && (isWordByte(low[i-1]) || low[i-1] == '.' || low[i-1] == '#' || low[i-1] == '-') {
			i++
			continue
		}
		value, end := wordedAt(low, i)
		if value > 0 {
			out = append(out, worded{extract.Number{Text: text[i:end], Value: float64(value)}, i, end})
		}
		i = max(end, i+1)
	}
	return out
}

// wordedAt reads one number at i.
func wordedAt(low string, i int) (value, end int) {
	j := i
	for j < len(low) && low[j] >= '0' && low[j] <= '9' {
		j++
	}
	if end := thousands(low, i, j); end > j {
		n, _ := strconv.Atoi(strings.ReplaceAll(low[i:end], ",", ""))
		return n, end
	}
	if j > i {
		if j < len(low) && (isWordByte(low[j]) || low[j] == '%' || low[j] == '/' || low[j] == '-' && j+1 < len(low) && low[j+1] >= '0' && low[j+1] <= '9') ||
			j+1 < len(low) && (low[j] == '.' || low[j] == ',') && low[j+1] >= '0' && low[j+1] <= '9' || j-i > 5 {
			for j < len(low) && (isWordByte(low[j]) || low[j] == '.') {
				j++
			}
			return 0, j
		}
		n, _ := strconv.Atoi(low[i:j])
		return n, j
	}
	total, any := 0, false
	end = i
	for k := i; k < len(low); {
		e := k
		for e < len(low) && unicode.IsLetter(rune(low[e])) {
			e++
		}
		w := low[k:e]
		switch {
		case tensInWords[w] > 0:
			total += tensInWords[w]
		case unitsInWords[w] > 0:
			total += unitsInWords[w]
		case w == "hundred" && any:
			total *= 100
		case w == "and" && any && total >= 100 && total%100 == 0:
			end = min(end, k)
			k = e + 1
			continue
		default:
			if !any {
				return 0, e
			}
			return total, end
		}
		any, end = true, e
		if e >= len(low) || low[e] != ' ' && low[e] != '-' {
			break
		}
		k = e + 1
	}
	return total, end
}

// thousands gives the end of a number with commas between its thousands,
// "20,536", that begins with the digits from i to j; j if it is none.
func thousands(s string, i, j int) int {
	end := j
	for j-i <= 3 && end > i && end+3 < len(s) && s[end] == ',' && allDigits(s[end+1:end+4]) {
		end += 4
	}
	if end < len(s) && (isWordByte(s[end]) || s[end] == '.' && end+1 < len(s) && s[end+1] >= '0' && s[end+1] <= '9') {
		return j
	}
	return end
}
