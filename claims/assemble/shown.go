package assemble

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"probity/claims"
	"probity/extract"
)

// A table shows how many a group has also where it prints no n: the sexes of
// the group add up to it, "9/7", and counts with their percentages, "12 (75)",
// lead to it.

// nShown sets n of a measure from the sexes or the counts that stand in its
// column or its row. It reports whether there are any.
func (t *table) nShown(m *claims.Measure, p part) bool {
	for _, s := range []bothCounted{t.sexesOfColumn(p.c), t.sexesOfRow(p.r)} {
		if s.n > 0 {
			m.N = t.derived(s.n, "the sexes of the group added up: "+s.text)
			return true
		}
	}
	if n := t.sharedN(p.c); n > 0 {
		m.N = t.derived(n, "counts of the group with their percentages")
		return true
	}
	return false
}

// bothCounted are the sexes of a group, added up. Zero is "none printed".
type bothCounted struct {
	n    float64
	text string // "9/7"
}

func (t *table) derived(n float64, why string) claims.Quantity {
	return claims.Quantity{Number: extract.Number{Text: itoa(int(n)), Value: n, Place: t.place}, Origin: claims.Derived, Why: why}
}

// sexesOfColumn and sexesOfRow add up the sexes that a cell of a column or a row
// counts, found once for each.
func (t *table) sexesOfColumn(c int) bothCounted {
	k := t.column(c)
	if k.sexes == nil {
		k.sexes = &bothCounted{}
		for r := t.g.head; r < len(t.g.rows) && k.sexes.n == 0; r++ {
			*k.sexes = t.sexesIn(r, c)
		}
	}
	return *k.sexes
}

func (t *table) sexesOfRow(r int) bothCounted {
	k := t.lineOf(r)
	if k.sexes == nil {
		k.sexes = &bothCounted{}
		for c := 0; c < t.g.cols && k.sexes.n == 0; c++ {
			if !t.g.stub[c] {
				*k.sexes = t.sexesIn(r, c)
			}
		}
	}
	return *k.sexes
}

var (
	// twoSexes heads cells such as "9/7".
	twoSexes = regexp.MustCompile(`\b(?:sex|gender|(?:no\.? of |number of )?(?:m|f|men|women|males?|females?|boys?|girls?)\s*(?:/|:|, ?|and|-)\s*(?:no\.? of |number of )?(?:m|f|men|women|males?|females?|boys?|girls?))\b`)
	pairOf   = regexp.MustCompile(`^(\d+)\s*[/:]\s*(\d+)$`)
	// sexesNamed is a cell that names them: "9 M, 7 F".
	sexesNamed = regexp.MustCompile(`^(\d+)\s*(?:m|males?|men|boys)\s*[,;/:&]?\s*(?:and\s+)?(\d+)\s*(?:f|females?|women|girls)$|^(\d+)\s*(?:f|females?|women|girls)\s*[,;/:&]?\s*(?:and\s+)?(\d+)\s*(?:m|males?|men|boys)$|^(?:m|males?|men|boys)\s*[:=]?\s*(\d+)\s*[,;/:&]?\s*(?:and\s+)?(?:f|females?|women|girls)\s*[:=]?\s*(\d+)$|^(?:f|females?|women|girls)\s*[:=]?\s*(\d+)\s*[,;/:&]?\s*(?:and\s+)?(?:m|males?|men|boys)\s*[:=]?\s*(\d+)$`)
)

// sexesIn adds up the sexes that a cell counts.
func (t *table) sexesIn(r, c int) bothCounted {
	text := t.g.read[r][c].Text
	if text == "" || len(text) > 40 {
		return bothCounted{}
	}
	var found []string
	if strings.ContainsAny(text, "mMfFbB") {
		found = sexesNamed.FindStringSubmatch(extract.Lower(text))
	} else if !strings.ContainsAny(text, "/:") {
		return bothCounted{}
	}
	if found == nil {
		if found = pairOf.FindStringSubmatch(text); found == nil || !t.headsSexes(r, c) {
			return bothCounted{}
		}
	}
	sum, k := 0, 0
	for _, digits := range found[1:] {
		if digits != "" {
			n, _ := strconv.Atoi(digits)
			sum, k = sum+n, k+1
		}
	}
	if k != 2 || sum < 4 || sum > 1e6 {
		return bothCounted{}
	}
	return bothCounted{float64(sum), text}
}

// headsSexes reports whether the labels of a cell say that it counts both
// sexes.
func (t *table) headsSexes(r, c int) bool {
	for _, a := range []*axis{&t.row[r], &t.col[c]} {
		for _, l := range a.labels {
			low := extract.Lower(l.text)
			if strings.Contains(low, "%") && !strings.Contains(low, "n (%)") || strings.Contains(low, "ratio") {
				return false
			}
		}
	}
	for _, a := range []*axis{&t.row[r], &t.col[c]} {
		for _, l := range a.labels {
			if twoSexes.MatchString(extract.Lower(l.text)) {
				return true
			}
		}
	}
	return false
}

// sharedN is the one n that the counts of a column with their percentages lead
// to, 0 where they leave several or disagree.
func (t *table) sharedN(c int) float64 {
	k := t.column(c)
	if k.shared != nil {
		return *k.shared
	}
	var rows []int
	for r := t.g.head; r < len(t.g.rows); r++ {
		if isPair(&t.g.read[r][c]) && t.counted(r, c) && t.row[r].role != "other" {
			rows = append(rows, r)
		}
	}
	n := t.onlyBase(rows, c)
	k.shared = &n
	return n
}

// onlyBase is the base that the counts of some rows have in common, where no
// other whole number would do and most of them fit.
func (t *table) onlyBase(rows []int, c int) float64 {
	b := t.commonBase(rows, c)
	if b.n == 0 {
		return 0
	}
	low, high, fit, all := 0.0, math.Inf(1), 0, 0
	for _, r := range rows {
		rd := &t.g.read[r][c]
		if weightFit(rd) == 0 {
			continue
		}
		all++
		if least, greatest := totals(rd, 0.5); least <= b.n && b.n <= greatest {
			low, high, fit = max(low, least), min(high, greatest), fit+1
		}
	}
	if low != high || fit < 3 || 3*fit < 2*all {
		return 0
	}
	return low
}
