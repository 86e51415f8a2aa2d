package assemble

import (
	"fmt"
	"strings"

	"probity/claims"
	"probity/extract"
	"probity/extract/numeral"
)

// results keeps the p values and test statistics that a table prints in
// columns or rows of their own.
func (t *table) results() {
	for r := t.g.head; r < len(t.g.rows); r++ {
		if t.row[r].role == "other" {
			continue
		}
		if t.statisticRow(r) {
			continue
		}
		for c := 0; c < t.g.cols; c++ {
			if t.g.stub[c] {
				continue
			}
			if t.row[r].role == "p" || t.col[c].role == "p" {
				t.result(r, c)
			}
		}
	}
}

// result keeps one p value with the measures it compares.
func (t *table) result(r, c int) {
	rd := &t.g.read[r][c]
	if rd.Form != numeral.Figure && rd.Form != numeral.P || rd.Number.Value < 0 || rd.Number.Value > 1 || rd.Percent {
		return
	}
	res := &claims.Result{Name: "p", P: rd.Number, Value: rd.Number, Text: rd.Text, Place: t.g.cell(r, c).Place}
	res.Place.Section, res.Place.Table = extract.InTable, t.place.Table
	if t.row[r].role == "p" {
		res.Between = t.inColumn(r, c)
	} else {
		res.Between = t.inRow(r, c)
	}
	t.keepResult(res)
}

func (t *table) keepResult(res *claims.Result) {
	if len(res.Between) > 0 {
		res.Outcome = res.Between[0].Outcome
	} else if res.Outcome == "" {
		res.Outcome = t.captionOutcome().name
	}
	res.ID = fmt.Sprintf("r%d", len(t.study.Results)+1)
	res.Test = t.testNamed(res)
	t.study.Results = append(t.study.Results, res)
}

// testNamed is the one test of groups that heading, caption and notes of the
// table name; "" where they name none or several.
func (t *table) testNamed(res *claims.Result) string {
	found := ""
	for _, text := range t.words(res) {
		for _, m := range t.ls.cat.FindTests(text) {
			switch m.Row.Family {
			case "two-arm", "omnibus", "post-hoc", "paired", "factorial":
			default:
				continue
			}
			if found != "" && found != m.Row.ID {
				return ""
			}
			found = m.Row.ID
		}
		if found != "" {
			return found
		}
	}
	return ""
}

// words are the texts around a result, nearest first: its headings, then
// caption and notes.
func (t *table) words(res *claims.Result) []string {
	var out []string
	if c := res.Place.Col - 1; c >= 0 && c < len(t.g.headings) {
		out = append(out, strings.Join(t.g.headings[c], " "))
	}
	whole := t.caption.text
	for _, n := range t.notes {
		whole += " " + n
	}
	return append(out, whole)
}

// inColumn lists the measures above a p value, back to the last one or to the
// beginning of its section.
func (t *table) inColumn(r, c int) []*claims.Measure {
	var out []*claims.Measure
	for i := r - 1; i >= t.g.head && t.row[i].role != "p" && !t.g.rows[i].section; i-- {
		if m := t.measure[[2]int{i, c}]; t.ofGroup(m) && !hasMeasure(out, m) {
			out = append([]*claims.Measure{m}, out...)
		}
	}
	return distinctArms(out)
}

// inRow lists the measures left of a p value that it compares: those of its
// row under the same heading, or those of the rows that its cell covers in
// the nearest column.
func (t *table) inRow(r, c int) []*claims.Measure {
	rows := max(1, t.g.cell(r, c).Rows)
	var out []*claims.Measure
	if rows > 1 {
		for col := c - 1; col >= 0 && len(out) < 2; col-- {
			out = nil
			for i := r; i < min(r+rows, len(t.g.rows)); i++ {
				if m := t.measure[[2]int{i, col}]; t.ofGroup(m) && !hasMeasure(out, m) {
					out = append(out, m)
				}
			}
		}
		return distinctArms(out)
	}
	shared := 0
	for col := c - 1; col >= 0; col-- {
		m := t.measure[[2]int{r, col}]
		if !t.ofGroup(m) || hasMeasure(out, m) {
			continue
		}
		n := common(&t.col[c], &t.col[col])
		if len(out) == 0 {
			shared = n
		}
		if n < shared || t.pBetween(r, col, c) && n == 0 {
			break
		}
		out = append([]*claims.Measure{m}, out...)
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// pBetween reports whether another p value of the row stands between two
// columns: it closes the set before it.
func (t *table) pBetween(r, from, to int) bool {
	for c := from + 1; c < to; c++ {
		if t.col[c].role == "p" && t.g.text[r][c] != "" && !t.g.cell(r, c).Copy {
			return true
		}
	}
	return false
}

// ofGroup leaves out measures of the whole sample: no test compares it with
// its parts.
func (t *table) ofGroup(m *claims.Measure) bool {
	return m != nil && (m.Place.Col < 1 || m.Place.Col > len(t.col) || t.col[m.Place.Col-1].sample == "")
}

func hasMeasure(list []*claims.Measure, m *claims.Measure) bool {
	for _, x := range list {
		if x == m {
			return true
		}
	}
	return false
}

// distinctArms gives a list only where its measures are of different groups
// or conditions; one measure compares nothing.
func distinctArms(list []*claims.Measure) []*claims.Measure {
	if len(list) < 2 {
		return nil
	}
	return list
}

// statisticRow reads a row of an analysis of variance: F with its degrees of
// freedom and p.
func (t *table) statisticRow(r int) bool {
	f, df, p := -1, -1, -1
	for c := range t.col {
		switch t.col[c].role {
		case "statistic":
			f = c
		case "df":
			df = c
		case "p":
			p = c
		}
	}
	if f < 0 || t.g.read[r][f].Form != numeral.Figure {
		return false
	}
	rd := &t.g.read[r][f]
	res := &claims.Result{Name: t.statisticName(f), Value: rd.Number, Text: rd.Text, Place: t.g.cell(r, f).Place}
	res.Place.Section, res.Place.Table = extract.InTable, t.place.Table
	if df >= 0 && t.g.read[r][df].Form == numeral.Figure {
		res.DF = append(res.DF, t.g.read[r][df].Number)
		if n, ok := t.errorDF(df); ok {
			res.DF = append(res.DF, n)
		}
	}
	if p >= 0 && t.g.read[r][p].Form == numeral.Figure && t.g.read[r][p].Number.Value <= 1 {
		res.P = t.g.read[r][p].Number
		res.Between = t.inRow(r, p)
	}
	t.keepResult(res)
	return true
}

func (t *table) statisticName(c int) string {
	low := strings.ToLower(t.g.heading(c))
	switch {
	case strings.Contains(low, "chi") || strings.Contains(low, "χ"):
		return "chi2"
	case strings.HasPrefix(low, "t"):
		return "t"
	case strings.HasPrefix(low, "z") || strings.Contains(low, "wald"):
		return "z"
	case strings.HasPrefix(low, "u"):
		return "U"
	case strings.HasPrefix(low, "h"):
		return "H"
	case strings.HasPrefix(low, "r"):
		return "r"
	}
	return "F"
}

// errorDF finds the degrees of freedom of the error term.
func (t *table) errorDF(c int) (extract.Number, bool) {
	for r := t.g.head; r < len(t.g.rows); r++ {
		low := strings.ToLower(t.g.text[r][0])
		if (strings.Contains(low, "within") || strings.Contains(low, "error") || strings.Contains(low, "residual")) && t.g.read[r][c].Form == numeral.Figure {
			return t.g.read[r][c].Number, true
		}
	}
	return extract.Number{}, false
}
