package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"testing"

	"probity/claims/report"
	"probity/extract/open"
)

// growths are shapes of invented papers that grow with n in one way each. The
// time of an audit grows with the length of a paper, not with its square,
// whatever is repeated in it.
var growths = []struct {
	name string
	n    int // the smallest size measured
	page func(n int) string
}{
	{"figures in one sentence", 4000, func(n int) string {
		return section("Methods", each(n, "1.5 ± 0.3 mm, ")) + twoWires
	}},
	{"n in one sentence", 2000, func(n int) string { return section("Methods", "Groups were "+each(n, "(n = %d), ")) + twoWires }},
	{"sentences with claims", 1250, func(n int) string {
		return section("Results", each(n, "The force of Orlin was 20%% lower than that of Brex (p = 0.0%d). ")) + twoWires
	}},
	{"abbreviations", 1000, func(n int) string { return section("Methods", each(n, "Orlin wire %[1]d (OW%[1]d), ")) + twoWires }},
	{"rows of means", 2500, func(n int) string {
		return sheet("1", "Mean force, mean ± SD", fourHeads, each(n, "<tr><td>Wire %[1]d</td><td>12.1 ± 1.1</td><td>2.1 ± 0.1</td><td>3%[1]d ± 20</td></tr>"))
	}},
	{"rows of counts", 2500, func(n int) string {
		return sheet("1", "Force", fourHeads, each(n, "<tr><td>Wire %[1]d</td><td>12 (4)</td><td>%[1]d (2)</td><td>3%[1]d (20)</td></tr>"))
	}},
	{"rows with and without a spread", 2500, func(n int) string {
		return sheet("1", "Force", fourHeads, each(n, "<tr><td>Wire %[1]d</td><td>12 ± 2</td><td>%[1]d</td><td>3%[1]d.1</td></tr>"))
	}},
	{"rows of means, SDs and n", 2500, func(n int) string {
		return sheet("1", "Force (N)", "<th>Wire</th><th>Mean</th><th>SD</th><th>n</th>", each(n, "<tr><td>Wire %[1]d</td><td>12.1</td><td>2.1</td><td>%[1]d</td></tr>"))
	}},
	{"rows of n under each group", 1000, func(n int) string {
		return sheet("1", "Force (N), mean ± SD", fourHeads, each(n, "<tr><td>Wire %[1]d</td><td></td><td></td><td></td></tr><tr><td>new</td><td>12.1 ± 1.1</td><td>2.1 ± 0.1</td><td>3%[1]d ± 20</td></tr><tr><td>n</td><td>10</td><td>10</td><td>10</td></tr>"))
	}},
	{"rows of times, sentences on them", 500, func(n int) string {
		return section("Methods", "Group 1, Orlin (n = 12); Group 2, Brex (n = 12).") + section("Results", each(n/4, "The force decreased significantly from baseline in the Orlin group. ")) +
			sheet("1", "Force (N), mean ± SD", "<th>Time</th><th>Orlin</th><th>Brex</th>", "<tr><td>Baseline</td><td>9.2 ± 0.1</td><td>9.3 ± 0.1</td></tr>"+each(n, "<tr><td>Week %[1]d</td><td>1.2 ± 0.1</td><td>1.3 ± 0.1</td></tr>"))
	}},
	{"rows of outcomes, sentences on them", 500, func(n int) string {
		return sheet("1", "Mean ± SD", "<th>Outcome</th><th>Orlin</th><th>Brex</th><th>p</th>", each(n, "<tr><td>Kelmin%[1]d index (mm)</td><td>12.1 ± 1.1</td><td>2.1 ± 0.1</td><td>0.03</td></tr>")) +
			section("Results", each(n, "The Kelmin%[1]d index of Orlin was higher than that of Brex. "))
	}},
	{"arms and sentences on them", 500, func(n int) string {
		return section("Methods", "Wires were "+each(n, "Vel%[1]d (n = 12), ")+"and Tovan.") +
			sheet("1", "Mean force, mean ± SD", fourHeads, each(n, "<tr><td>Vel%[1]d</td><td>12.1 ± 1.1</td><td>2.1 ± 0.1</td><td>300 ± 20</td></tr>")) +
			section("Results", each(n, "The force of Vel%[1]d was significantly lower than that of the others at 37 °C. "))
	}},
	{"tables and sentences on them", 250, func(n int) string {
		return strings.Repeat(twoWires, n) + section("Results", each(n, "Table %[1]d shows the force of Orlin, which was lower than that of Brex. "))
	}},
	{"deep headings", 250, func(n int) string {
		return "<table><caption>Table 1. Force (N)</caption><thead>" + each(n, "<tr><th>Wire</th><th>Level %[1]d</th><th>Level %[1]d b</th></tr>") +
			"</thead><tbody>" + each(n, "<tr><td>Orlin %[1]d</td><td>1.2 ± 0.1</td><td>1.3 ± 0.1</td></tr>") + "</tbody></table>"
	}},
	{"long caption", 1000, func(n int) string {
		return sheet("1", "Mean force of "+each(n, "Orlin (N) (n = 12) wire, "), fourHeads, each(n/8, "<tr><td>Wire %[1]d</td><td>12.1 ± 1.1</td><td>2.1 ± 0.1</td><td>3%[1]d ± 20</td></tr>"))
	}},
}

const fourHeads = "<th>Wire</th><th>Force (N)</th><th>Torque (N·cm)</th><th>Angle (°)</th>"

var twoWires = sheet("1", "Mean force, mean ± SD", fourHeads, "<tr><td>Orlin</td><td>12.1 ± 1.1</td><td>2.1 ± 0.1</td><td>300 ± 20</td></tr><tr><td>Brex</td><td>15.1 ± 1.1</td><td>2.4 ± 0.1</td><td>310 ± 20</td></tr>")

// each writes a text n times with the number of the time, from 10 on, in it.
func each(n int, format string) string {
	var b strings.Builder
	for i := range n {
		if strings.Contains(format, "%") {
			fmt.Fprintf(&b, format, i+10)
		} else {
			b.WriteString(format)
		}
	}
	return b.String()
}

func section(heading, text string) string { return "<h2>" + heading + "</h2><p>" + text + "</p>" }

func sheet(label, caption, heads, rows string) string {
	return "<table><caption>Table " + label + ". " + caption + "</caption><thead><tr>" + heads + "</tr></thead><tbody>" + rows + "</tbody></table>"
}

func auditPage(tb testing.TB, body string) report.Audit {
	tb.Helper()
	data := []byte("<html><head><title>Forces of invented wires</title></head><body><h1>Forces of invented wires</h1>" + body + "</body></html>")
	doc, err := open.Read(data, "invented.html")
	if err != nil {
		tb.Fatal(err)
	}
	c := newConsole(context.Background(), nil, io.Discard, io.Discard)
	a := c.auditDocument(doc, nil, nil, data)
	if err := report.WriteAudit(io.Discard, a); err != nil {
		tb.Fatal(err)
	}
	return a
}

// BenchmarkGrowth audits each shape at n, 2n and 4n: MB/s stays about the same
// where the time grows with the length.
func BenchmarkGrowth(b *testing.B) {
	for _, g := range growths {
		for _, times := range []int{1, 2, 4} {
			body := g.page(times * g.n)
			b.Run(fmt.Sprintf("%s/%d", g.name, times*g.n), func(b *testing.B) {
				b.SetBytes(int64(len(body)))
				for b.Loop() {
					auditPage(b, body)
				}
			})
		}
	}
}

// Large papers come to their end: the bound is the timeout of go test, which
// these would reach if time grew with the square of the length.
func TestLargePapersEnd(t *testing.T) {
	for _, g := range []struct {
		name     string
		body     string
		measures int
	}{
		{"1 MB of figures", section("Methods", each(80_000, "1.5 ± 0.3, ")) + twoWires, 6},
		{"40,000 rows", sheet("1", "Mean force, mean ± SD", "<th>Wire</th><th>Force (N)</th>", each(40_000, "<tr><td>Wire %d</td><td>12.1 ± 1.1</td></tr>")), 40_000},
	} {
		if a := auditPage(t, g.body); len(a.Study.Measures) != g.measures {
			t.Errorf("%s: %d measures, want %d", g.name, len(a.Study.Measures), g.measures)
		}
	}
}
