package jats_test

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/jats"
)

// article wraps a body as a whole article. Names and brands in these samples
// are invented.
func article(body string) string {
	return `<article><front><article-meta><title-group><article-title>Invented study</article-title></title-group></article-meta></front><body>` + body + `</body></article>`
}

func read(t *testing.T, xml string) *extract.Document {
	t.Helper()
	d, err := jats.Read([]byte(xml), "a.xml")
	if err != nil {
		t.Fatalf("Read(%.80q): %v", xml, err)
	}
	return d
}

// table writes a table as lines: cells between bars, copies in brackets,
// header rows marked by #.
func table(t *extract.Table) string {
	var b strings.Builder
	for i, row := range t.Rows {
		if i < t.Head {
			b.WriteString("#")
		}
		for j, c := range row {
			if j > 0 {
				b.WriteString("|")
			}
			if c.Copy {
				fmt.Fprintf(&b, "(%s)", c.Text())
			} else {
				b.WriteString(c.Text())
			}
		}
		b.WriteString("\n")
	}
	return b.String()
}

func TestTables(t *testing.T) {
	tests := []struct {
		name, xml, want string
	}{
		{"thead with spans, rowspan in the stub",
			`<thead><tr><th rowspan="2">Group</th><th colspan="2">25 °C</th></tr><tr><th>Mean</th><th>SD</th></tr></thead>
			<tbody><tr><td rowspan="2">Vexil</td><td>12.3</td><td>1.1</td></tr><tr><td>13.0</td><td>1.2</td></tr></tbody>`,
			"#Group|25 °C|(25 °C)\n#(Group)|Mean|SD\nVexil|12.3|1.1\n(Vexil)|13.0|1.2\n"},
		{"no thead: leading rows of words above figures are header",
			`<tbody><tr><td></td><td colspan="2">Time (s)</td></tr><tr><td>File</td><td>Mean</td><td>SD</td></tr><tr><td>Vexil</td><td>12.3</td><td>1.1</td></tr></tbody>`,
			"#|Time (s)|(Time (s))\n#File|Mean|SD\nVexil|12.3|1.1\n"},
		{"second header row inside tbody",
			`<thead><tr><th>File</th><th colspan="2">Time (s)</th></tr></thead><tbody><tr><td></td><td>Mean</td><td>SD</td></tr><tr><td>Vexil</td><td>12.3</td><td>1.1</td></tr></tbody>`,
			"#File|Time (s)|(Time (s))\n#|Mean|SD\nVexil|12.3|1.1\n"},
		{"a row-group heading is no header row",
			`<thead><tr><th>File</th><th>Mean</th><th>SD</th></tr></thead><tbody><tr><td colspan="3">Apical third</td></tr><tr><td>Vexil</td><td>12.3</td><td>1.1</td></tr></tbody>`,
			"#File|Mean|SD\nApical third|(Apical third)|(Apical third)\nVexil|12.3|1.1\n"},
		{"rules and spacers are dropped, also below a merged cell",
			`<thead><tr><th>File</th><th>Mean</th></tr><tr><th colspan="2"><hr/></th></tr></thead><tbody><tr><td rowspan="3">Vexil</td><td>12.3</td></tr><tr><td><hr/></td></tr><tr><td>13.0</td></tr><tr><td/><td> </td></tr></tbody>`,
			"#File|Mean\nVexil|12.3\n(Vexil)|13.0\n"},
		{"empty cells stay, rows are made equally long",
			`<tbody><tr><th>File</th><th>Mean</th><th>p</th></tr><tr><td>Vexil</td><td>12.3</td></tr><tr><td/><td>1.1</td><td>.04</td></tr></tbody>`,
			"#File|Mean|p\nVexil|12.3|\n|1.1|.04\n"},
		{"data rows put into thead are data",
			`<thead><tr><th>File</th><th>Torque</th><th>Angle</th></tr><tr><td>Vexil</td><td>1.2 ± 0.1</td><td>401.5 (30.2)</td></tr></thead><tbody><tr><td>Corvo</td><td>1.3 ± 0.2</td><td>388.0 (28.8)</td></tr></tbody>`,
			"#File|Torque|Angle\nVexil|1.2 ± 0.1|401.5 (30.2)\nCorvo|1.3 ± 0.2|388.0 (28.8)\n"},
		{"a span beyond the table is cut",
			`<tbody><tr><td>File</td><td rowspan="99">Mean</td></tr><tr><td>Vexil</td></tr></tbody>`,
			"#File|Mean\nVexil|(Mean)\n"},
		{"OASIS model with named columns and morerows",
			`<tgroup cols="3"><colspec colname="c1"/><colspec colname="c2"/><colspec colname="c3"/><thead><row><entry morerows="1">File</entry><entry namest="c2" nameend="c3">Time</entry></row><row><entry>Mean</entry><entry>SD</entry></row></thead><tbody><row><entry>Vexil</entry><entry>12.3</entry><entry>1.1</entry></row></tbody></tgroup>`,
			"#File|Time|(Time)\n#(File)|Mean|SD\nVexil|12.3|1.1\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := read(t, article(`<p>Text.</p><table-wrap><label>Table 1</label><table>`+tt.xml+`</table></table-wrap>`))
			if n := len(d.Tables()); n != 1 {
				t.Fatalf("%d tables, want 1", n)
			}
			if diff := cmp.Diff(tt.want, table(d.Tables()[0])); diff != "" {
				t.Errorf("table (-want +got):\n%s", diff)
			}
		})
	}
}

func TestMergedCellKeepsItsSize(t *testing.T) {
	d := read(t, article(`<table-wrap><label>Table 1</label><table><tr><td rowspan="2" colspan="2">a</td><td>b</td></tr><tr><td>c</td></tr></table></table-wrap>`))
	rows := d.Tables()[0].Rows
	if c := rows[0][0]; c.Rows != 2 || c.Cols != 2 || c.Copy {
		t.Errorf("first place of the merged cell: %d rows, %d columns, copy %v; want 2, 2, false", c.Rows, c.Cols, c.Copy)
	}
	for _, at := range [][2]int{{0, 1}, {1, 0}, {1, 1}} {
		c := rows[at[0]][at[1]]
		if !c.Copy || c.Text() != "a" || c.Place.Row != at[0]+1 || c.Place.Col != at[1]+1 {
			t.Errorf("place %v: %q copy %v at %v; want a copy of \"a\" with its own place", at, c.Text(), c.Copy, c.Place)
		}
	}
}

func TestTableNamesNotesAndPanels(t *testing.T) {
	d := read(t, article(`<sec sec-type="results"><title>Results</title><p>As <xref ref-type="table" rid="t2">Table II</xref> shows, <table-wrap id="t2"><label>Table II.</label>
		<caption><title>Time to fracture.</title><p>Mean ± SD, <italic>n</italic> = 12</p></caption>
		<table><tr><th>File</th><th>s</th></tr><tr><td>Vexil<xref ref-type="table-fn" rid="f1">a</xref></td><td>12.3<break/>(1.1)</td></tr></table>
		<table><tr><th>File</th><th>cycles</th></tr><tr><td>Vexil</td><td>400</td></tr></table>
		<table-wrap-foot><fn id="f1"><label>a</label><p>Invented file.</p></fn><p>SD, standard deviation.</p></table-wrap-foot></table-wrap> times differ.</p></sec>`))
	tables := d.Tables()
	if len(tables) != 2 {
		t.Fatalf("%d tables, want 2 panels", len(tables))
	}
	for i, tb := range tables {
		if tb.Label != "II" || tb.Part != i || tb.Caption != "Time to fracture. Mean ± SD, n = 12" {
			t.Errorf("panel %d: label %q part %d caption %q", i, tb.Label, tb.Part, tb.Caption)
		}
		if diff := cmp.Diff([]string{"ᵃ Invented file.", "SD, standard deviation."}, tb.Notes); diff != "" {
			t.Errorf("notes (-want +got):\n%s", diff)
		}
	}
	stub, figure := tables[0].Rows[1][0], tables[0].Rows[1][1]
	if stub.Text() != "Vexilᵃ" {
		t.Errorf("the mark of a footnote: %q, want it raised", stub.Text())
	}
	if figure.Text() != "12.3 (1.1)" || figure.Runs[1].Text != "\n" {
		t.Errorf("a break in a cell: %q, runs %v; want a line end kept in the runs", figure.Text(), figure.Runs)
	}
	if p := d.Proses()[1]; p.Text() != "As Table II shows, times differ." || p.Place.Section != extract.Results {
		t.Errorf("text round a table: %q in %s", p.Text(), p.Place.Section)
	}
	if got, want := figure.Place.String(), "a.xml table=II row=2 col=2"; got != want {
		t.Errorf("place %s, want %s", got, want)
	}
}

// A table that stands in the floats group is given once, where the text first
// refers to it, and the figure captions get the section of that place.
func TestFloats(t *testing.T) {
	d := read(t, `<article><front/><body><sec><title>Materials and Methods</title><p>See <xref rid="F1" ref-type="fig">Fig. 1</xref>.</p></sec>
		<sec><title>Results</title><p>See <xref rid="T1">Table 1</xref>.</p><p>Again <xref rid="T1">Table 1</xref>.</p></sec></body>
		<floats-group><fig id="F1"><label>Figure 1</label><caption><p>The invented device.</p></caption></fig>
		<table-wrap id="T1"><label>Table 1</label><table><tr><th>A</th></tr><tr><td>1</td></tr></table></table-wrap></floats-group></article>`)
	var got []string
	for _, b := range d.Blocks {
		switch b := b.(type) {
		case *extract.Prose:
			got = append(got, string(b.Place.Section)+": "+b.Text())
		case *extract.Table:
			got = append(got, "table "+b.Label)
		}
	}
	want := []string{"methods: Materials and Methods", "methods: See Fig. 1.", "methods: Figure 1 The invented device.",
		"results: Results", "results: See Table 1.", "table 1", "results: Again Table 1."}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
}

func TestSections(t *testing.T) {
	tests := []struct {
		attr, title string
		want        extract.Section
	}{
		{` sec-type="materials|methods"`, "What we did", extract.Methods},
		{` sec-type="intro"`, "", extract.Introduction},
		{` sec-type="COI-statement"`, "", extract.Back},
		{"", "2. MATERIALS AND METHODS", extract.Methods},
		{"", "Patients and Methods", extract.Methods},
		{"", "Experimental", extract.Methods},
		{"", "Statistical analysis", extract.Methods},
		{"", "Results and discussion", extract.Results},
		{"", "IV. Discussion", extract.Discussion},
		{"", "Conclusions", extract.Conclusion},
		{"", "Conflict of interest", extract.Back},
		{"", "Of files and men", extract.Body},
	}
	for _, tt := range tests {
		d := read(t, article(fmt.Sprintf(`<sec%s><title>%s</title><sec><title>Part</title><p>Text.</p></sec></sec>`, tt.attr, tt.title)))
		all := d.Proses()
		if got := all[len(all)-1].Place.Section; got != tt.want {
			t.Errorf("section%s %q: %q, want %q", tt.attr, tt.title, got, tt.want)
		}
	}
	nested := read(t, article(`<sec><title>Results and discussion</title><p>One.</p><sec><title>Discussion</title><p>Two.</p></sec><sec><title>Torque</title><p>Three.</p></sec></sec>`))
	var got []extract.Section
	for _, p := range nested.Proses() {
		if p.Role == extract.Paragraph {
			got = append(got, p.Place.Section)
		}
	}
	if diff := cmp.Diff([]extract.Section{extract.Results, extract.Discussion, extract.Results}, got); diff != "" {
		t.Errorf("nested sections (-want +got):\n%s", diff)
	}
}

// The parts of an abstract keep the section and get their headings, whether
// the XML marks them as sections, by bold words or not at all.
func TestStructuredAbstract(t *testing.T) {
	for name, abstract := range map[string]string{
		"sections": `<sec><title>Methods</title><p>Forty files.</p></sec><sec><title>Results</title><p>Vexil lasted longer.</p></sec>`,
		"bold":     `<p><bold>Methods:</bold> Forty files. <bold>Results:</bold> Vexil lasted longer.</p>`,
		"plain":    `<p>Methods: Forty files. Results: Vexil lasted longer.</p>`,
	} {
		d := read(t, `<article><front><article-meta><abstract>`+abstract+`</abstract></article-meta></front></article>`)
		var got []string
		for _, p := range d.Proses() {
			if p.Role == extract.Paragraph {
				got = append(got, fmt.Sprintf("%s/%s/%s", p.Place.Section, p.Heading, p.Text()))
			}
		}
		want := []string{"abstract/Methods/Forty files.", "abstract/Results/Vexil lasted longer."}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestText(t *testing.T) {
	tests := []struct{ name, xml, want string }{
		{"raised and lowered", `10<sup>2</sup> H<sub>2</sub>O`, "10² H₂O"},
		{"MathML", `<inline-formula><mml:math xmlns:mml="m"><mml:mn>12.3</mml:mn><mml:mo>±</mml:mo><mml:mn>1.1</mml:mn></mml:math></inline-formula> N`, "12.3 ± 1.1 N"},
		{"a power in MathML is no longer number", `<mml:math><mml:msup><mml:mn>10</mml:mn><mml:mn>2</mml:mn></mml:msup></mml:math>`, "10²"},
		{"a fraction", `<mml:math><mml:mfrac><mml:mrow><mml:mi>a</mml:mi><mml:mo>−</mml:mo><mml:mi>b</mml:mi></mml:mrow><mml:mi>b</mml:mi></mml:mfrac></mml:math>`, "(a−b)/b"},
		{"alternatives once", `<inline-formula><alternatives><tex-math>$12.3 \pm 1.1$</tex-math><mml:math><mml:mn>12.3</mml:mn><mml:mo>±</mml:mo><mml:mn>1.1</mml:mn></mml:math><inline-graphic/></alternatives></inline-formula>`, "12.3 ± 1.1"},
		{"TeX alone", `<tex-math>\documentclass{minimal} \begin{document}$$\bar{x} = 12.3 \pm 1.1\,\mathrm{N\,cm}, p \le 0.05$$\end{document}</tex-math>`, "x̄ = 12.3 ± 1.1 N cm,p ≤ 0.05"},
		{"entities of HTML", `12.3 &plusmn; 1.1 &micro;m`, "12.3 ± 1.1 µm"},
		{"entities written twice are undone once", `12.3 &amp;plusmn; 1.1, p &amp;lt; .05, &amp;amp;lt;`, "12.3 ± 1.1, p < .05, &lt;"},
		{"control characters", "12.3\x02 ± 1.1", "12.3 ± 1.1"},
		{"bad UTF-8 is read as Windows-1252", "12.3 \xb1 1.1", "12.3 ± 1.1"},
		{"a comment and a processing instruction", `12<!-- x -->.3<?y z?>4`, "12.34"},
	}
	for _, tt := range tests {
		d := read(t, article("<p>"+tt.xml+"</p>"))
		if got := d.Proses()[0].Text(); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestCitationsAreMarked(t *testing.T) {
	d := read(t, article(`<p>Longer than reported<sup><xref ref-type="bibr" rid="B1">12</xref></sup>.</p>`))
	runs := d.Proses()[0].Runs
	if len(runs) != 3 || !runs[1].Cites || !runs[1].Raised || runs[1].Text != "12" {
		t.Errorf("runs %+v, want a raised citing 12", runs)
	}
}

func TestWrappersAndEncodings(t *testing.T) {
	const inner = `<article><body><p>12.3 ± 1.1</p></body></article>`
	latin := strings.ReplaceAll(`<?xml version="1.0" encoding="ISO-8859-1"?>`+inner, "±", "\xb1")
	var wide []byte
	wide = append(wide, 0xff, 0xfe)
	for _, c := range `<?xml version="1.0" encoding="UTF-16"?>` + inner {
		wide = append(wide, byte(c), byte(c>>8))
	}
	for name, xml := range map[string]string{
		"bare":          inner,
		"BOM":           "\ufeff" + inner,
		"XML 1.1":       `<?xml version="1.1"?>` + inner,
		"old DTD":       `<!DOCTYPE article PUBLIC "-//NLM//DTD Journal Publishing DTD v2.3 20070202//EN" "journalpublishing.dtd">` + inner,
		"ISO-8859-1":    latin,
		"UTF-16":        string(wide),
		"OAI":           `<OAI-PMH><GetRecord><record><metadata>` + inner + `</metadata></record></GetRecord></OAI-PMH>`,
		"prefixed":      `<j:article xmlns:j="x"><j:body><j:p>12.3 ± 1.1</j:p></j:body></j:article>`,
		"unused entity": `<!DOCTYPE article [<!ENTITY fig1 SYSTEM "fig1.gif" NDATA gif>]>` + inner,
	} {
		d := read(t, xml)
		if got := d.Proses()[0].Text(); got != "12.3 ± 1.1" {
			t.Errorf("%s: %q", name, got)
		}
	}
}

func TestCollections(t *testing.T) {
	const two = `<pmc-articleset><article><body><p>One.</p></body></article><article><body><p>Two.</p><p>x</p></body><sub-article><body><p>No.</p></body></sub-article></article></pmc-articleset>`
	docs, err := jats.ReadAll([]byte(two), "a.xml")
	if err != nil || len(docs) != 2 || docs[1].Proses()[0].Text() != "Two." {
		t.Fatalf("ReadAll: %d articles, %v", len(docs), err)
	}
	if d := read(t, two); len(d.Problems) != 1 || !strings.Contains(d.Problems[0].What, "2 articles") {
		t.Errorf("Read of a collection says %v", d.Problems)
	}
}

func TestRefusals(t *testing.T) {
	for name, tt := range map[string]struct{ xml, want string }{
		"own entities": {`<!DOCTYPE article [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><article><body><p>&b;</p></body></article>`, "declares its own entity &b;"},
		"too deep":     {`<article><body>` + strings.Repeat("<sec>", 400) + `</body></article>`, "deeper than 256"},
		"not a paper":  {`<catalog><item/></catalog>`, "no journal article"},
		"empty paper":  {`<article><front/><body/></article>`, "has no text"},
	} {
		_, err := jats.Read([]byte(tt.xml), "a.xml")
		var p *extract.Problem
		if !errors.As(err, &p) || !strings.Contains(p.What, tt.want) || p.Place.File != "a.xml" {
			t.Errorf("%s: error %v, want a problem of a.xml that says %q", name, err, tt.want)
		}
	}
}

// What stands before a break is kept, and a problem says where it breaks off.
func TestBrokenOff(t *testing.T) {
	d := read(t, `<article><body><p>Vexil lasted 12.3 s.</p><p>Corvo la`)
	if got := d.Proses()[0].Text(); got != "Vexil lasted 12.3 s." {
		t.Errorf("first paragraph %q", got)
	}
	if len(d.Problems) != 1 || !strings.Contains(d.Problems[0].What, "ends inside <p>") {
		t.Errorf("problems %v", d.Problems)
	}
}

func TestPictureTable(t *testing.T) {
	d := read(t, article(`<table-wrap><label>Table 3</label><caption><p>Torque (n = 20).</p></caption><graphic href="t3.jpg"/><table-wrap-foot><p>SD, standard deviation.</p></table-wrap-foot></table-wrap>`))
	if len(d.Problems) != 1 || d.Problems[0].Place.String() != "a.xml table=3" || !strings.Contains(d.Problems[0].What, "only a picture") {
		t.Fatalf("problems %v", d.Problems)
	}
	if got := d.Proses()[0]; got.Text() != "Table 3. Torque (n = 20)." || got.Role != extract.Caption {
		t.Errorf("caption of the picture: %q, role %d", got.Text(), got.Role)
	}
}

func TestMeta(t *testing.T) {
	d := read(t, `<article><front><journal-meta><journal-title-group><journal-title>Journal of Invented Files</journal-title></journal-title-group></journal-meta><article-meta>
		<article-id pub-id-type="doi">https://doi.org/10.9999/ABC.1</article-id><title-group><article-title>Time of <italic>Vexil</italic></article-title><subtitle>a bench study</subtitle></title-group>
		<contrib-group><contrib contrib-type="author"><name><surname>Tarrant</surname><given-names>T. A.</given-names></name></contrib><contrib contrib-type="editor"><name><surname>No</surname></name></contrib></contrib-group>
		<author-notes><fn fn-type="conflict"><p>None declared.</p></fn></author-notes>
		<pub-date pub-type="ppub"><year>2019</year></pub-date><pub-date pub-type="epub"><year>2018</year></pub-date><pub-date pub-type="pmc-release"><year>2017</year></pub-date>
		<permissions><license><license-p>CC BY 4.0</license-p></license></permissions>
		<funding-group><award-group><funding-source>Invented Fund</funding-source><award-id>7</award-id></award-group></funding-group></article-meta></front><body><p>x</p></body></article>`)
	want := extract.Meta{Title: "Time of Vexil: a bench study", Authors: []string{"T. A. Tarrant"}, Journal: "Journal of Invented Files", Year: 2018,
		DOI: "10.9999/abc.1", Licence: "CC BY 4.0", Funding: "Invented Fund (7)", Interests: "None declared."}
	if diff := cmp.Diff(want, d.Meta); diff != "" {
		t.Errorf("meta (-want +got):\n%s", diff)
	}
}

func TestReferencesAndNotes(t *testing.T) {
	d := read(t, `<article><body><p>Text<fn><p>A footnote.</p></fn> goes on.</p></body><back><ack><title>Acknowledgments</title><p>Thanks.</p></ack>
		<ref-list><title>References</title><ref><label>1</label><element-citation><person-group><name><surname>Jarnow</surname><given-names>W</given-names></name></person-group><year>2001</year></element-citation></ref></ref-list></back></article>`)
	var got []string
	for _, p := range d.Proses() {
		got = append(got, fmt.Sprintf("%s %d %s", p.Place.Section, p.Role, p.Text()))
	}
	want := []string{"body 0 Text goes on.", "body 3 A footnote.", "back 1 Acknowledgments", "back 0 Thanks.", "back 1 References", "back 4 ¹ Jarnow W 2001"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("prose (-want +got):\n%s", diff)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(article(`<sec><title>Results</title><p>a <table-wrap><label>Table 1</label><table><tr><td rowspan="3" colspan="2">x</td></tr><tr><td>1.2 ± 0.3</td></tr></table></table-wrap></p></sec>`)))
	f.Add([]byte(`<article><body><p><mml:msup><mml:mn>10</mml:mn></mml:msup><tex-math>\frac{1}{^2</tex-math></p></body></article>`))
	f.Add([]byte("\xff\xfe<\x00a\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := jats.Read(data, "f.xml")
		if (d == nil) == (err == nil) {
			t.Fatalf("Read gives document %v and error %v", d, err)
		}
		if d == nil {
			return
		}
		for _, tb := range d.Tables() {
			for _, row := range tb.Rows {
				if len(row) != len(tb.Rows[0]) {
					t.Fatalf("table %q is no rectangle", tb.Label)
				}
			}
		}
	})
}

// long is an invented article of some 100 kB with two tables.
func long() []byte {
	var b strings.Builder
	for i := range 200 {
		fmt.Fprintf(&b, `<p>In group %d the instrument lasted %d.%d ± 12.3 s (<italic>P</italic> &lt; .05), longer than reported <xref ref-type="bibr" rid="B%d">[%d]</xref>. %s</p>`,
			i, 600+i, i%10, i, i, strings.Repeat("The invented canal had a radius of 5 mm and an angle of 60°. ", 4))
	}
	for range 2 {
		b.WriteString(`<table-wrap><label>Table 1</label><table><tr><th>File</th><th>Mean</th><th>SD</th></tr>`)
		for i := range 100 {
			fmt.Fprintf(&b, `<tr><td>F%d</td><td>%d.3</td><td>1.1<sup>a</sup></td></tr>`, i, i)
		}
		b.WriteString(`</table></table-wrap>`)
	}
	return []byte(article(b.String()))
}

func BenchmarkRead(b *testing.B) {
	data := long()
	if file := os.Getenv("PROBITY_BENCH_PAPER"); file != "" {
		data, _ = os.ReadFile(file)
	}
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := jats.Read(data, "a.xml"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	d, err := jats.Read([]byte(`<article><body><sec><title>Results</title><p>Vexil lasted longer.</p>
		<table-wrap><label>Table 1</label><caption><p>Time (s)</p></caption><table>
		<tr><th>File</th><th>Mean ± SD</th></tr><tr><td>Vexil</td><td>702.3 ± 106.8</td></tr></table></table-wrap></sec></body></article>`), "vexil.xml")
	if err != nil {
		fmt.Println(err)
		return
	}
	cell := d.Tables()[0].Rows[1][1]
	fmt.Println(cell.Place, "reads", cell.Text())
	// Output: vexil.xml table=1 row=2 col=2 reads 702.3 ± 106.8
}
