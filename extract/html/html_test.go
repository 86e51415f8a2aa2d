package html_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/html"
	"probity/extract/internal/outline"
)

func read(t *testing.T, page string) *extract.Document {
	t.Helper()
	d, err := html.Read([]byte(page), "a.html")
	if err != nil {
		t.Fatalf("Read(%.80q): %v", page, err)
	}
	return d
}

const data = `<thead><tr><th>File</th><th>s</th></tr></thead><tbody><tr><td>Vexil</td><td>12.3</td></tr></tbody>`

const rows = ` / #File|s / Vexil|12.3`

// The ways in which pages set a table with its caption and notes. The files
// are invented.
func TestTableSurroundings(t *testing.T) {
	tests := []struct {
		name, page, want string
	}{
		{"caption element", `<table><caption><b>Table 2.</b> Time.</caption>` + data + `</table>`, `table 2 "Time."` + rows},
		{"heading and caption in a wrapper, notes below",
			`<section class="tw xbox" id="T2"><h4 class="obj_head">Table 2.</h4><div class="caption p"><p>Time.</p></div><div class="tbl-box p"><table class="content">` + data + `</table></div><div class="p text-right"><a href="x">Open in a new tab</a></div><div class="tw-foot p"><div class="fn"><p><sup>a</sup>New.</p></div></div></section>`,
			`table 2 "Time."` + rows + ` [ᵃNew.]`},
		{"figure with figcaption", `<figure><figcaption><b>Table 2</b> Time.</figcaption><div><table>` + data + `</table></div></figure>`, `table 2 "Time."` + rows},
		{"span captions and definition notes",
			`<div class="tables"><span class="captions"><span class="label">Table 2</span>. <p>Time.</p></span><div class="groups"><table>` + data + `</table></div><p class="legend">SD, standard deviation.</p></div>`,
			`table 2 "Time."` + rows + ` [SD, standard deviation.]`},
		{"paragraph above", `<p><b>Table 2.</b> Time.</p><table>` + data + `</table>`, `table 2 "Time."` + rows},
		{"label and caption in two paragraphs", `<p>Table 2</p><p>Time.</p><table>` + data + `</table>`, `table 2 "Time."` + rows},
		{"paragraph below", `<table>` + data + `</table><p>Table 2. Time.</p>`, `table 2 "Time."` + rows},
		{"notes as plain paragraphs below", `<table><caption>Table 2. Time.</caption>` + data + `</table><p>n = 18 in every group.</p><p>Different letters indicate significant differences (P &lt; .05).</p>`,
			`table 2 "Time."` + rows + ` [n = 18 in every group.] [Different letters indicate significant differences (P < .05).]`},
		{"note in tfoot", `<table><caption>Table 2. Time.</caption>` + data + `<tfoot><tr><td colspan="2">SD in brackets.</td></tr></tfoot></table>`, `table 2 "Time."` + rows + ` [SD in brackets.]`},
		{"note in a last row", `<table><caption>Table 2. Time.</caption>` + strings.Replace(data, "</tbody>", `<tr><td colspan="2">* P &lt; .05</td></tr></tbody>`, 1) + `</table>`, `table 2 "Time."` + rows + ` [* P < .05]`},
		{"printed for two widths", `<div class="wide"><table><caption>Table 2. Time.</caption>` + data + `</table></div><div class="narrow"><table><caption>Table 2. Time.</caption>` + data + `</table></div>`, `table 2 "Time."` + rows},
	}
	for _, tt := range tests {
		d := read(t, `<html><body><h1>Invented study of files</h1><h2>Results</h2><p>Before.</p>`+tt.page+`<p>Vexil lasted longer.</p></body></html>`)
		want := []string{"results # Results", "results Before.", tt.want, "results Vexil lasted longer."}
		if diff := cmp.Diff(want, outline.Of(d)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

// "Table 2 shows …" is a sentence, also right before a table.
func TestSentenceAboutTable(t *testing.T) {
	d := read(t, `<h2>Results</h2><p>Table 2 shows that Vexil lasted longer.</p><table><caption>Table 2. Time.</caption>`+data+`</table>`)
	want := []string{"results # Results", "results Table 2 shows that Vexil lasted longer.", `table 2 "Time."` + rows}
	if diff := cmp.Diff(want, outline.Of(d)); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
}

func TestWhatStandsAround(t *testing.T) {
	d := read(t, `<html><head><title>Site</title><script>x = "<p>no</p>"</script></head><body>
		<header><nav><ul><li>Home</li></ul></nav></header>
		<div class="cookie-banner"><p>We use cookies.</p></div>
		<aside><p>Most read.</p></aside>
		<main><article><h1>Invented study of files</h1><p hidden>Hidden.</p><p style="display: none">Gone.</p><span class="sr-only">Skip.</span>
		<h2>Abstract</h2><p>Vexil lasted longer.</p>
		<table role="presentation"><tr><td><h2>Results</h2><p>Laid out.</p></td></tr></table>
		<table><tr><td><p>One cell.</p></td></tr></table>
		<h2>References</h2><ol><li>Tarrant T. Files. 2001.</li></ol></article></main>
		<footer><p>Copyright.</p></footer></body></html>`)
	want := []string{"abstract # Abstract", "abstract Vexil lasted longer.", "results # Results", "results Laid out.", "results One cell.",
		"back # References", "back ref: Tarrant T. Files. 2001."}
	if diff := cmp.Diff(want, outline.Of(d)); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
	if d.Meta.Title != "Invented study of files" {
		t.Errorf("title %q", d.Meta.Title)
	}
}

// Pages often set the parts of an abstract at the depth of the sections of the
// paper: the abstract ends where the order of headings starts again.
func TestAbstractEndsWhereHeadingsStartAgain(t *testing.T) {
	for name, page := range map[string]string{
		"same depth": `<h2>Abstract</h2><h2>Aim</h2><p>A.</p><h2>Methods</h2><p>A.</p><h2>Results</h2><p>A.</p><h2>Conclusion</h2><p>A.</p><h2>Introduction</h2><p>I.</p><h2>Methods</h2><p>M.</p><h2>Results</h2><p>R.</p><h2>Conclusion</h2><p>C.</p>`,
		"deeper":     `<h2>Abstract</h2><h3>Aim</h3><p>A.</p><h3>Methods</h3><p>A.</p><h3>Results</h3><p>A.</p><h3>Conclusion</h3><p>A.</p><h2>Introduction</h2><p>I.</p><h2>Methods</h2><p>M.</p><h2>Results</h2><p>R.</p><h2>Conclusion</h2><p>C.</p>`,
		"flat body":  `<h2>Abstract</h2><h3>Aim</h3><p>A.</p><h3>Methods</h3><p>A.</p><h3>Results</h3><p>A.</p><h3>Conclusion</h3><p>A.</p><h3>Introduction</h3><p>I.</p><h3>Methods</h3><p>M.</p><h3>Results</h3><p>R.</p><h3>Conclusion</h3><p>C.</p>`,
		"run-in":     `<h2>Abstract</h2><p><b>Aim:</b> A.</p><p><b>Methods:</b> A.</p><p><b>Results:</b> A. <b>Conclusion:</b> A.</p><h2>Introduction</h2><p>I.</p><h2>Methods</h2><p>M.</p><h2>Results</h2><p>R.</p><h2>Conclusion</h2><p>C.</p>`,
	} {
		var got []string
		for _, p := range read(t, `<h1>Invented study of files</h1>`+page).Proses() {
			if p.Role == extract.Paragraph {
				got = append(got, fmt.Sprintf("%s/%s %s", p.Place.Section, p.Heading, p.Text()))
			}
		}
		want := []string{"abstract/Aim A.", "abstract/Methods A.", "abstract/Results A.", "abstract/Conclusion A.",
			"introduction/Introduction I.", "methods/Methods M.", "results/Results R.", "conclusion/Conclusion C."}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestText(t *testing.T) {
	tests := []struct{ name, page, want string }{
		{"raised and lowered", `10<sup>2</sup> H<sub>2</sub>O 12.3<span style="vertical-align: super">a</span>`, "10² H₂O 12.3ᵃ"},
		{"MathML", `<math><mn>12.3</mn><mo>&plusmn;</mo><mn>1.1</mn></math>`, "12.3 ± 1.1"},
		{"TeX for a script", `<span class="mathjax-tex">\(12.3 \pm 1.1\)</span>`, "12.3 ± 1.1"},
		{"TeX in a script", `<span class="MathJax_Preview">12</span><script type="math/tex">12.3 \pm 1.1</script>`, "12.3 ± 1.1"},
		{"entities written twice", `12.3 &amp;plusmn; 1.1`, "12.3 ± 1.1"},
		{"a sign as a picture", `12.3 <img alt="±"> 1.1 <img alt="Photograph of the device">`, "12.3 ± 1.1"},
	}
	for _, tt := range tests {
		d := read(t, "<p>"+tt.page+"</p>")
		if got := d.Proses()[0].Text(); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestCellsAndSpans(t *testing.T) {
	d := read(t, `<table><tr><th rowspan="2">File</th><th colspan="2">25 °C</th></tr><tr><th>Mean</th><th>SD</th></tr><tr><td rowspan="0">Vexil</td><td>12.3<br>(1.1)</td><td>1</td></tr><tr><td>13.0</td><td>2</td></tr></table>`)
	tb := d.Tables()[0]
	want := [][]string{{"File", "25 °C", "25 °C"}, {"File", "Mean", "SD"}, {"Vexil", "12.3 (1.1)", "1"}, {"Vexil", "13.0", "2"}}
	var got [][]string
	for _, row := range tb.Rows {
		var line []string
		for _, c := range row {
			line = append(line, c.Text())
		}
		got = append(got, line)
	}
	if diff := cmp.Diff(want, got); diff != "" || tb.Head != 2 {
		t.Errorf("head %d, want 2; cells (-want +got):\n%s", tb.Head, diff)
	}
	if cell := tb.Rows[2][1]; cell.Runs[1].Text != "\n" {
		t.Errorf("runs %v, want the line end kept", cell.Runs)
	}
}

func TestHugeSpansAreCut(t *testing.T) {
	d := read(t, `<table><tr><td>a</td><td>b</td></tr>`+strings.Repeat(`<tr><td colspan="999999" rowspan="65534">x</td><td>1</td></tr>`, 500)+`</table>`)
	if tb := d.Tables()[0]; tb.Doubt == "" {
		t.Errorf("a table of %d×%d places is read without doubt", len(tb.Rows), len(tb.Rows[0]))
	}
}

// What of a table is left out is said, with the name of the table.
func TestCutTablesAreNamed(t *testing.T) {
	row := "<tr>" + strings.Repeat("<td>1.5 ± 0.3</td>", 500) + "</tr>"
	d := read(t, `<table><caption>Table 4. Invented forces.</caption>`+strings.Repeat(row, 900)+`</table>`)
	if len(d.Problems) != 1 {
		t.Fatalf("problems %v, want one", d.Problems)
	}
	p := d.Problems[0]
	if p.Place.Table != "4" || !strings.Contains(p.What, "of its 900 rows the last 100 are not read") || p.Try == "" { // 400,000 places
		t.Errorf("%v: %s; %s", p.Place, p.What, p.Try)
	}
}

func TestMissingTables(t *testing.T) {
	for name, page := range map[string]string{
		"link to a page":  `<figure><figcaption>Table 2 Time.</figcaption><a href="/tables/2">Full size table</a></figure>`,
		"picture":         `<figure><figcaption>Table 2. Time.</figcaption><img src="t2.png"></figure>`,
		"only a caption":  `<div class="caption">Table 2. Time.</div>`,
		"caption heading": `<p class="cap">Table 2. Time.</p><h2>Discussion</h2>`,
	} {
		d := read(t, `<h2>Results</h2><p>x</p>`+page)
		if len(d.Problems) != 1 || d.Problems[0].Place.Table != "2" {
			t.Errorf("%s: problems %v, want one of table 2", name, d.Problems)
		}
	}
}

func TestMeta(t *testing.T) {
	d := read(t, `<html><head><title>Time of Vexil | Journal</title><meta name="citation_title" content="Time of Vexil"><meta name="citation_author" content="Tarrant, T. A."><meta name="citation_author" content="W Jarnow">
		<meta name="citation_journal_title" content="Journal of Invented Files"><meta name="citation_doi" content="10.9999/ABC.1"><meta name="citation_publication_date" content="2019/03/01"><meta name="citation_online_date" content="2018/12/01"><link rel="license" href="https://creativecommons.org/licenses/by/4.0/"></head>
		<body><h1>Time of Vexil</h1><p>x</p><h2>Funding</h2><p>None.</p><h2>Conflict of interest</h2><p>None declared.</p></body></html>`)
	want := extract.Meta{Title: "Time of Vexil", Authors: []string{"T. A. Tarrant", "W Jarnow"}, Journal: "Journal of Invented Files", Year: 2018,
		DOI: "10.9999/abc.1", Licence: "https://creativecommons.org/licenses/by/4.0/", Funding: "None.", Interests: "None declared."}
	if diff := cmp.Diff(want, d.Meta); diff != "" {
		t.Errorf("meta (-want +got):\n%s", diff)
	}
}

func TestRefusals(t *testing.T) {
	for name, page := range map[string]string{
		"no text":  `<html><body><script>x</script></body></html>`,
		"too deep": strings.Repeat("<div>", 5000),
	} {
		if d, err := html.Read([]byte(page), "a.html"); err == nil || !strings.HasPrefix(err.Error(), "a.html: ") {
			t.Errorf("%s: document %v, error %v", name, d != nil, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`<h1>a</h1><h2>Results</h2><p>Table 1</p><table><tr><td rowspan=3 colspan=2>x<td>1.2 ± 0.3</table><p>* n`))
	f.Add([]byte(`<figure><figcaption>Table 2</figcaption><math><mfrac><mn>1</mn></mfrac></math></figure><script type="math/tex">\frac{`))
	f.Fuzz(func(t *testing.T, page []byte) {
		d, err := html.Read(page, "f.html")
		if (d == nil) == (err == nil) {
			t.Fatalf("Read gives document %v and error %v", d, err)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var page strings.Builder
	page.WriteString(`<html><body><main><h1>Invented study of files</h1><h2>Results</h2>`)
	for i := range 200 {
		fmt.Fprintf(&page, `<div class="p"><p>In group %d the file lasted %d.%d ± 12.3 s (<i>P</i> &lt; .05), longer than reported <a href="#B%d">[%d]</a>. %s</p></div>`,
			i, 600+i, i%10, i, i, strings.Repeat("The invented canal had a radius of 5 mm and an angle of 60°. ", 4))
	}
	page.WriteString(`<table><caption>Table 1. Time</caption><tr><th>File</th><th>Mean</th></tr>`)
	for i := range 200 {
		fmt.Fprintf(&page, `<tr><td>F%d</td><td>%d.3 ± 1.1<sup>a</sup></td></tr>`, i, i)
	}
	page.WriteString(`</table></main></body></html>`)
	data := []byte(page.String())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := html.Read(data, "a.html"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	d, err := html.Read([]byte(`<h1>Invented study of files</h1><h2>Results</h2><p>Vexil lasted longer.</p>
		<table><caption>Table 1. Time (s)</caption><tr><th>File</th><th>Mean ± SD</th></tr><tr><td>Vexil</td><td>702.3 ± 106.8</td></tr></table>`), "vexil.html")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Proses()[1].Place, "reads", d.Proses()[1].Text())
	fmt.Println(d.Tables()[0].Rows[1][1].Place, "reads", d.Tables()[0].Rows[1][1].Text())
	// Output:
	// vexil.html section=results par=2 reads Vexil lasted longer.
	// vexil.html table=1 row=2 col=2 reads 702.3 ± 106.8
}
