package docx_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/docx"
	"probity/extract/internal/outline"
)

const styles = `<w:styles xmlns:w="w"><w:style w:type="paragraph" w:styleId="berschrift1"><w:name w:val="heading 1"/></w:style>
<w:style w:type="paragraph" w:styleId="Own"><w:name w:val="My head"/><w:basedOn w:val="berschrift1"/></w:style>
<w:style w:type="paragraph" w:styleId="Titel"><w:name w:val="Title"/></w:style>
<w:style w:type="paragraph" w:styleId="Beschriftung"><w:name w:val="caption"/></w:style>
<w:style w:type="character" w:styleId="Hoch"><w:name w:val="Up"/><w:rPr><w:vertAlign w:val="superscript"/></w:rPr></w:style></w:styles>`

// pack makes a document of a body and other parts.
func pack(body string, parts map[string]string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	add := func(name, text string) {
		w, err := z.Create(name)
		if err != nil {
			panic(err)
		}
		w.Write([]byte(text))
	}
	add("[Content_Types].xml", `<Types/>`)
	add("word/document.xml", `<w:document xmlns:w="w" xmlns:m="m" xmlns:mc="mc"><w:body>`+body+`<w:sectPr/></w:body></w:document>`)
	if parts["word/styles.xml"] == "" {
		add("word/styles.xml", styles)
	}
	for name, text := range parts {
		add(name, text)
	}
	z.Close()
	return b.Bytes()
}

func p(text string) string {
	return `<w:p><w:r><w:t xml:space="preserve">` + text + `</w:t></w:r></w:p>`
}

func read(t *testing.T, body string, parts map[string]string) *extract.Document {
	t.Helper()
	d, err := docx.Read(pack(body, parts), "a.docx")
	if err != nil {
		t.Fatalf("Read(%.80q): %v", body, err)
	}
	return d
}

func TestText(t *testing.T) {
	r := func(text string) string { return `<w:r><w:t xml:space="preserve">` + text + `</w:t></w:r>` }
	tests := []struct{ name, runs, want string }{
		{"split runs", r("12.") + r("3"), "12.3"},
		{"raised", r("12.3") + `<w:r><w:rPr><w:vertAlign w:val="superscript"/></w:rPr><w:t>a</w:t></w:r>`, "12.3ᵃ"},
		{"raised by a style", r("10") + `<w:r><w:rPr><w:rStyle w:val="Hoch"/></w:rPr><w:t>2</w:t></w:r>`, "10²"},
		{"raised by its position", r("10") + `<w:r><w:rPr><w:position w:val="8"/></w:rPr><w:t>2</w:t></w:r>`, "10²"},
		{"symbols", `<w:r><w:t>12.3 </w:t></w:r><w:r><w:sym w:font="Symbol" w:char="F0B1"/></w:r>` + r(" 1.1"), "12.3 ± 1.1"},
		{"symbol font", r("5 ") + `<w:r><w:rPr><w:rFonts w:ascii="Symbol"/></w:rPr><w:t>m</w:t></w:r>` + r("m"), "5 μm"},
		{"tabs, breaks and hyphens", `<w:r><w:t>a</w:t><w:tab/><w:t>b</w:t><w:br/><w:t>c</w:t><w:noBreakHyphen/><w:t>d</w:t><w:softHyphen/><w:t>e</w:t></w:r>`, "a b c-de"},
		{"hidden text", r("a") + `<w:r><w:rPr><w:vanish/></w:rPr><w:t>b</w:t></w:r>`, "a"},
		{"a field gives its result", `<w:r><w:fldChar w:fldCharType="begin"/></w:r><w:r><w:instrText>REF x</w:instrText></w:r><w:r><w:fldChar w:fldCharType="separate"/></w:r>` + r("Table 1") + `<w:r><w:fldChar w:fldCharType="end"/></w:r>` + r(" shows"), "Table 1 shows"},
		{"link and content control", `<w:hyperlink>` + r("a") + `</w:hyperlink><w:sdt><w:sdtContent>` + r("b") + `</w:sdtContent></w:sdt>`, "ab"},
		{"equation", r("x ") + `<m:oMath><m:r><m:t>12.3±1.1</m:t></m:r></m:oMath>`, "x 12.3 ± 1.1"},
		{"fraction and power", `<m:oMath><m:f><m:num><m:r><m:t>a−b</m:t></m:r></m:num><m:den><m:r><m:t>b</m:t></m:r></m:den></m:f><m:sSup><m:e><m:r><m:t>10</m:t></m:r></m:e><m:sup><m:r><m:t>2</m:t></m:r></m:sup></m:sSup></m:oMath>`, "(a−b)/b10²"},
		{"bracket", `<m:oMath><m:d><m:dPr><m:begChr m:val="["/><m:endChr m:val="]"/></m:dPr><m:e><m:r><m:t>1</m:t></m:r></m:e></m:d></m:oMath>`, "[1]"},
		{"one branch of alternatives", `<w:r><mc:AlternateContent><mc:Choice><w:t>a</w:t></mc:Choice><mc:Fallback><w:t>b</w:t></mc:Fallback></mc:AlternateContent></w:r>`, "a"},
		{"comments", r("a") + `<w:r><w:commentReference w:id="1"/></w:r>`, "a"},
	}
	for _, tt := range tests {
		d := read(t, `<w:p>`+tt.runs+`</w:p>`, nil)
		if got := d.Proses()[0].Text(); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestSections(t *testing.T) {
	styled := func(style, text string) string {
		return `<w:p><w:pPr><w:pStyle w:val="` + style + `"/></w:pPr><w:r><w:t>` + text + `</w:t></w:r></w:p>`
	}
	bold := func(text string) string {
		return `<w:p><w:r><w:rPr><w:b/></w:rPr><w:t>` + text + `</w:t></w:r></w:p>`
	}
	want := []string{"abstract # Abstract", "abstract Files were tested.", "methods # Materials and Methods", "methods Forty files.",
		"methods # Torsion test", "methods More.", "results # Results", "results Vexil lasted longer."}
	rest := p("Files were tested.")
	for name, body := range map[string]string{
		"styles": styled("Titel", "Time of invented files") + styled("berschrift1", "Abstract") + rest + styled("Own", "Materials and Methods") + p("Forty files.") +
			bold("Torsion test") + p("More.") + styled("berschrift1", "Results") + p("Vexil lasted longer."),
		"bold": bold("Time of invented files") + bold("Abstract") + rest + bold("Materials and Methods") + p("Forty files.") +
			`<w:p><w:pPr><w:outlineLvl w:val="7"/></w:pPr><w:r><w:t>Torsion test</w:t></w:r></w:p>` + p("More.") + bold("Results") + p("Vexil lasted longer."),
	} {
		d := read(t, body, nil)
		if diff := cmp.Diff(want, outline.Of(d)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
		if d.Meta.Title != "Time of invented files" {
			t.Errorf("%s: title %q", name, d.Meta.Title)
		}
	}
}

// Styles that are based on one another in a long row are read alike each time.
func TestLongRowsOfStyles(t *testing.T) {
	var own strings.Builder
	own.WriteString(`<w:styles xmlns:w="w"><w:style w:styleId="S0"><w:name w:val="heading 1"/></w:style>`)
	for i := 1; i <= 30; i++ {
		fmt.Fprintf(&own, `<w:style w:styleId="S%d"><w:name w:val="Own %d"/><w:basedOn w:val="S%d"/></w:style>`, i, i, i-1)
	}
	own.WriteString(`</w:styles>`)
	seen := map[string]bool{}
	for range 30 {
		var body strings.Builder
		for i := 1; i <= 30; i++ {
			fmt.Fprintf(&body, `<w:p><w:pPr><w:pStyle w:val="S%d"/></w:pPr><w:r><w:t>Part %d of this paper</w:t></w:r></w:p>`, i, i)
		}
		d := read(t, body.String(), map[string]string{"word/styles.xml": own.String()})
		seen[strings.Join(outline.Of(d), "\n")] = true
	}
	if len(seen) != 1 {
		t.Errorf("one document was read in %d ways", len(seen))
	}
}

func tc(props, text string) string {
	return `<w:tc><w:tcPr>` + props + `</w:tcPr>` + p(text) + `</w:tc>`
}

func TestTables(t *testing.T) {
	const restart, goesOn, two = `<w:vMerge w:val="restart"/>`, `<w:vMerge/>`, `<w:gridSpan w:val="2"/>`
	body := p("Results") + `<w:p><w:pPr><w:pStyle w:val="Beschriftung"/></w:pPr><w:r><w:t>Table </w:t></w:r><w:fldSimple w:instr="SEQ Table"><w:r><w:t>2</w:t></w:r></w:fldSimple><w:r><w:t>. Time (s)</w:t></w:r></w:p>` +
		`<w:tbl><w:tr><w:trPr><w:tblHeader/></w:trPr>` + tc(restart, "File") + tc(two, "25 °C") + `</w:tr>` +
		`<w:tr><w:trPr><w:tblHeader/></w:trPr>` + tc(goesOn, "") + tc("", "Mean") + tc("", "SD") + `</w:tr>` +
		`<w:tr>` + tc(restart, "Vexil") + tc("", "12.3") + `<w:tc>` + p("1.1") + p("(new)") + `</w:tc></w:tr>` +
		`<w:tr>` + tc(goesOn, "") + tc("", "13.0") + tc("", "1.2") + `</w:tr>` +
		`<w:tr><w:trPr><w:gridBefore w:val="1"/></w:trPr>` + tc("", "14.0") + tc("", "1.3") + `</w:tr></w:tbl>` +
		p("SD, standard deviation.") + p("Vexil lasted longer.")
	d := read(t, body, nil)
	want := []string{"results # Results",
		`table 2 "Time (s)" / #File|25 °C|25 °C / #File|Mean|SD / Vexil|12.3|1.1 (new) / Vexil|13.0|1.2 / |14.0|1.3 [SD, standard deviation.]`,
		"results Vexil lasted longer."}
	if diff := cmp.Diff(want, outline.Of(d)); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
	rows := d.Tables()[0].Rows
	if c := rows[2][0]; c.Rows != 2 || c.Copy || !rows[3][0].Copy {
		t.Errorf("merged stub: %d rows, copy %v, below it copy %v", c.Rows, c.Copy, rows[3][0].Copy)
	}
	if c := rows[2][2]; c.Runs[1].Text != "\n" {
		t.Errorf("two paragraphs of a cell: runs %v, want a line end between them", c.Runs)
	}
}

func TestNestedAndLayoutTables(t *testing.T) {
	inner := `<w:tbl><w:tr>` + tc("", "File") + tc("", "s") + `</w:tr><w:tr>` + tc("", "Vexil") + tc("", "12.3") + `</w:tr></w:tbl>`
	d := read(t, `<w:tbl><w:tr><w:tc>`+p("Before.")+inner+p("After.")+`</w:tc></w:tr></w:tbl>`, nil)
	if diff := cmp.Diff([]string{"body Before.", `table  "" / #File|s / Vexil|12.3`, "body After."}, outline.Of(d)); diff != "" {
		t.Errorf("a table of one cell is layout (-want +got):\n%s", diff)
	}
	d = read(t, `<w:tbl><w:tr>`+tc("", "File")+tc("", "s")+tc("", "n")+`</w:tr><w:tr>`+tc("", "Vexil")+`<w:tc>`+p("12.3")+inner+`</w:tc>`+tc("", "9")+`</w:tr></w:tbl>`, nil)
	if diff := cmp.Diff([]string{`table  "" / #File|s|n / Vexil|12.3|9`, `table  "" / #File|s / Vexil|12.3`}, outline.Of(d)); diff != "" {
		t.Errorf("a nested table comes after the outer one (-want +got):\n%s", diff)
	}
}

func TestNotesBoxesAndChanges(t *testing.T) {
	body := `<w:p><w:r><w:t>Vexil</w:t></w:r><w:r><w:footnoteReference w:id="3"/></w:r><w:r><w:t xml:space="preserve"> lasted </w:t></w:r>` +
		`<w:del><w:r><w:delText>12.0</w:delText></w:r></w:del><w:ins><w:r><w:t>12.3</w:t></w:r></w:ins><w:r><w:t xml:space="preserve"> s.</w:t></w:r>` +
		`<w:r><mc:AlternateContent><mc:Choice><w:drawing><w:txbxContent>` + p("Boxed.") + `</w:txbxContent></w:drawing></mc:Choice><mc:Fallback><w:pict><w:txbxContent>` + p("Boxed.") + `</w:txbxContent></w:pict></mc:Fallback></mc:AlternateContent></w:r></w:p>`
	d := read(t, body, map[string]string{"word/footnotes.xml": `<w:footnotes><w:footnote w:type="separator" w:id="0"/><w:footnote w:id="3">` + p("Invented.") + `</w:footnote></w:footnotes>`})
	if diff := cmp.Diff([]string{"body Vexil¹ lasted 12.3 s.", "body Boxed.", "body note: ¹ Invented."}, outline.Of(d)); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
	if len(d.Problems) != 1 || !strings.Contains(d.Problems[0].What, "1 deletions are left out") {
		t.Errorf("problems %v, want one about tracked changes", d.Problems)
	}
}

func TestRefusals(t *testing.T) {
	var other bytes.Buffer
	z := zip.NewWriter(&other)
	w, _ := z.Create("x.txt")
	w.Write([]byte("x"))
	z.Close()
	for name, data := range map[string][]byte{
		"damaged":   []byte("PK\x03\x04 and nothing more"),
		"no text":   other.Bytes(),
		"empty":     pack("", nil),
		"too large": bomb(),
	} {
		if _, err := docx.Read(data, "a.docx"); err == nil || !strings.HasPrefix(err.Error(), "a.docx: ") {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// bomb unfolds a few hundred kilobytes to more than the limit.
func bomb() []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, _ := z.Create("word/document.xml")
	chunk := bytes.Repeat([]byte(" "), 1<<20)
	for range 66 {
		w.Write(chunk)
	}
	z.Close()
	return b.Bytes()
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(p("Results") + `<w:tbl><w:tr>` + tc(`<w:vMerge/>`, "a") + tc(`<w:gridSpan w:val="3"/>`, "b") + `</w:tr></w:tbl>`))
	f.Add([]byte(`<w:p><w:r><w:fldChar w:fldCharType="end"/><w:footnoteReference w:id="1"/></w:r><m:oMath><m:f/><m:d/></m:oMath></w:p>`))
	f.Fuzz(func(t *testing.T, body []byte) {
		d, err := docx.Read(pack(string(body), nil), "f.docx")
		if (d == nil) == (err == nil) {
			t.Fatalf("Read gives document %v and error %v", d, err)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var body strings.Builder
	for i := range 200 {
		body.WriteString(p(fmt.Sprintf("In group %d the file lasted %d.3 ± 12.3 s. %s", i, i, strings.Repeat("The invented canal had a radius of 5 mm and an angle of 60°. ", 4))))
	}
	data := pack(body.String(), nil)
	b.SetBytes(int64(body.Len()))
	for b.Loop() {
		if _, err := docx.Read(data, "a.docx"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	d, err := docx.Read(pack(p("Results")+p("Vexil lasted 702.3 s."), nil), "vexil.docx")
	if err != nil {
		fmt.Println(err)
		return
	}
	last := d.Proses()[1]
	fmt.Println(last.Place, "reads", last.Text())
	// Output: vexil.docx section=results par=2 reads Vexil lasted 702.3 s.
}
