package flow_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/internal/flow"
)

func text(s string) []extract.Run { return []extract.Run{{Text: s}} }

func TestLabel(t *testing.T) {
	tests := []struct{ in, label, rest string }{
		{"Table 2. Time to fracture", "2", "Time to fracture"},
		{"TABLE II: Time", "II", "Time"},
		{"Tab. 3 – Time", "3", "Time"},
		{"Table S1 Time", "S1", "Time"},
		{"Supplementary Table S1. Time", "S1", "Time"},
		{"Table 2 (continued)", "2", ""},
		{"Table 4A: Time", "4A", "Time"},
		{"Table A.", "A", ""},
		{"Table-5", "5", ""},
		{"Table – 5: Time", "5", "Time"},
		{"TABLE-III", "III", ""},
		{"TABLE II. Time", "II", "Time"},
		{"S2 Table. Time", "S2", "Time"},
		{"S2 Tables of times", "", "S2 Tables of times"},
		{"Additional file 3: Table S2. Time", "S2", "Time"},
		{"Table-top units", "", "Table-top units"},
		{"Tables were set", "", "Tables were set"},
		{"Table", "", "Table"},
		{"Time", "", "Time"},
	}
	for _, tt := range tests {
		if label, rest := flow.Label(tt.in); label != tt.label || rest != tt.rest {
			t.Errorf("Label(%q) = %q, %q; want %q, %q", tt.in, label, rest, tt.label, tt.rest)
		}
	}
}

func TestCaptionLike(t *testing.T) {
	for s, want := range map[string]bool{
		"Table 2. Time to fracture": true, "Table 2": true, "Table 1 Means and SD of torque": true,
		"Table 2 shows that files differ.": false, "Table 2 and Figure 1 give the times.": false, "Time": false,
		"Table 1 also lists the sizes.": false, "Table 1, which lists sizes": false,
	} {
		if got := flow.CaptionLike(s); got != want {
			t.Errorf("CaptionLike(%q) = %v, want %v", s, got, want)
		}
	}
}

// What stands below a table is a note when it explains the table. A statement
// that is taken for a note is lost, so sentences about results never are.
func TestLegendLike(t *testing.T) {
	for s, want := range map[string]bool{
		"n = 18 in every group.":  true,
		"SD, standard deviation.": true,
		"y, years; m, months.":    true,
		"* P < .05":               true,
		"ᵃ Vexil against Corvo":   true,
		"Different superscript letters indicate significant differences.": true,
		"Values sharing the same letter within a row do not differ.":      true,
		"Kruskal-Wallis test":                                                    true,
		"Abbreviations: NCF, number of cycles to fracture":                       true,
		"Vexil lasted significantly longer than Corvo (P < .05).":                false,
		"Significant differences between Vexil and Corvo were found (P < .05).":  false,
		"The mean time of Vexil was 12.3 s, that of Corvo 11.0 s.":               false,
		"One-way ANOVA showed that the files differed, and Vexil was the first.": false,
		"No file broke.": false,
	} {
		if got := flow.LegendLike(s); got != want {
			t.Errorf("LegendLike(%q) = %v, want %v", s, got, want)
		}
	}
}

func TestNamed(t *testing.T) {
	tests := []struct {
		title   string
		section extract.Section
		plain   bool
	}{
		{"2. Materials and Methods", extract.Methods, true},
		{"RESULTS:", extract.Results, true},
		{"Results and discussion", extract.Results, false},
		{"iv. Discussion", extract.Discussion, true},
		{"Reference standard", "", false},
		{"Methods of cleaning", extract.Methods, false},
		{"Methodical doubt", "", false},
		{"Aim", extract.Introduction, true},
		{"Aim of instruments", "", false},
	}
	for _, tt := range tests {
		if s, plain := flow.Named(tt.title); s != tt.section || plain != tt.plain {
			t.Errorf("Named(%q) = %q, %v; want %q, %v", tt.title, s, plain, tt.section, tt.plain)
		}
	}
}

// Two panels of one label are parts; the same table twice is one.
func TestPanelsAndRepeats(t *testing.T) {
	w := flow.New("a.xml", "jats")
	table := func(s string) *extract.Table {
		return &extract.Table{Label: "1", Rows: [][]extract.Cell{{{Runs: text(s)}}}}
	}
	w.Table(table("a"))
	w.Table(table("b"))
	w.Table(table("a"))
	var got []string
	for _, tb := range w.Finish().Tables() {
		got = append(got, fmt.Sprintf("%s/%d %s at %s", tb.Label, tb.Part, tb.Rows[0][0].Text(), tb.Rows[0][0].Place))
	}
	want := []string{"1/0 a at a.xml table=1 row=1 col=1", "1/1 b at a.xml table=1 row=1 col=1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("tables (-want +got):\n%s", diff)
	}
}

// A caption without a table is given as what it was.
func TestCaptionWithoutTable(t *testing.T) {
	f := flow.NewFlat("a.txt", "text")
	f.Paragraph(text("Table 2. Time to fracture"), flow.Kind{})
	f.Paragraph(text("Vexil lasted longer than Corvo in all of the tests."), flow.Kind{})
	var got []string
	for _, p := range f.Finish().Proses() {
		got = append(got, p.Text())
	}
	want := []string{"Table 2. Time to fracture", "Vexil lasted longer than Corvo in all of the tests."}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("prose (-want +got):\n%s", diff)
	}
}

func TestDOIAndYear(t *testing.T) {
	for s, want := range map[string]string{
		"https://doi.org/10.9999/ABC(1)2.": "10.9999/abc(1)2", "doi:10.9999/x.": "10.9999/x", "(10.9999/x)": "10.9999/x", "none": "",
	} {
		if got := flow.DOI(s); got != want {
			t.Errorf("DOI(%q) = %q, want %q", s, got, want)
		}
	}
	if got := flow.Year("Received 2 March 2018; 44:123"); got != 2018 {
		t.Errorf("Year = %d, want 2018", got)
	}
}

// Text in a million pieces takes no quadratic time.
func TestAppendStaysCheap(t *testing.T) {
	var runs []extract.Run
	for range 200_000 {
		runs = flow.Append(runs, extract.Run{Text: "abc"})
	}
	total := 0
	for _, r := range runs {
		total += len(r.Text)
		if len(r.Text) > 5000 {
			t.Fatalf("a run of %d bytes", len(r.Text))
		}
	}
	if total != 600_000 {
		t.Errorf("%d bytes, want 600000", total)
	}
}

func TestTrim(t *testing.T) {
	got := flow.Trim([]extract.Run{{Text: " \n"}, {Text: "  a"}, {Text: "b ", Bold: true}, {Text: "\n"}})
	if diff := cmp.Diff([]extract.Run{{Text: "a"}, {Text: "b", Bold: true}}, got); diff != "" {
		t.Errorf("Trim (-want +got):\n%s", diff)
	}
	if got := flow.Trim(text(" \u00a0\n")); got != nil {
		t.Errorf("Trim of white space: %v", got)
	}
}

func ExampleWriter() {
	w := flow.New("vexil.xml", "jats")
	w.Enter("", "Results and discussion")
	w.Prose(extract.Paragraph, text("Vexil lasted longer."))
	w.Leave()
	p := w.Finish().Proses()[0]
	fmt.Println(p.Place, strings.ToUpper(p.Heading))
	// Output: vexil.xml section=results par=1 RESULTS AND DISCUSSION
}
