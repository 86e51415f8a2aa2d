package odt_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/internal/outline"
	"probity/extract/odt"
)

const automatic = `<office:automatic-styles>
<style:style style:name="T1" style:family="text"><style:text-properties style:text-position="super 58%"/></style:style>
<style:style style:name="T2" style:family="text"><style:text-properties style:text-position="-33% 58%"/></style:style>
<style:style style:name="T3" style:family="text"><style:text-properties fo:font-weight="bold"/></style:style>
<style:style style:name="P1" style:family="paragraph" style:parent-style-name="Table_20_caption"/></office:automatic-styles>`

// pack makes a document of a body and other parts.
func pack(body string, parts map[string]string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	add := func(name, text string) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name})
		if err != nil {
			panic(err)
		}
		w.Write([]byte(text))
	}
	add("mimetype", "application/vnd.oasis.opendocument.text")
	add("content.xml", `<office:document-content>`+automatic+`<office:body><office:text>`+body+`</office:text></office:body></office:document-content>`)
	for name, text := range parts {
		add(name, text)
	}
	z.Close()
	return b.Bytes()
}

func p(text string) string { return `<text:p>` + text + `</text:p>` }

func read(t *testing.T, body string, parts map[string]string) *extract.Document {
	t.Helper()
	d, err := odt.Read(pack(body, parts), "a.odt")
	if err != nil {
		t.Fatalf("Read(%.80q): %v", body, err)
	}
	return d
}

func TestText(t *testing.T) {
	tests := []struct{ name, body, want string }{
		{"raised and lowered", `10<text:span text:style-name="T1">2</text:span> H<text:span text:style-name="T2">2</text:span>O`, "10² H₂O"},
		{"spaces, tabs, line ends", `a<text:s text:c="3"/>b<text:tab/>c<text:line-break/>d`, "a b c d"},
		{"links, sequences, bookmarks", `<text:a>a</text:a> <text:sequence>1</text:sequence><text:bookmark/>`, "a 1"},
		{"a formula inside", `x <draw:frame><draw:object><math:math><math:mn>12.3</math:mn><math:mo>±</math:mo><math:mn>1.1</math:mn></math:math></draw:object></draw:frame>`, "x 12.3 ± 1.1"},
		{"a formula beside", `x <draw:frame><draw:object xlink:href="./Object 1"/></draw:frame>`, "x 12.3 ± 1.1"},
		{"comments", `a<office:annotation><text:p>no</text:p></office:annotation>b`, "ab"},
	}
	object := map[string]string{"Object 1/content.xml": `<math><semantics><mrow><mn>12.3</mn><mo>±</mo><mn>1.1</mn></mrow><annotation>12.3 +- 1.1</annotation></semantics></math>`}
	for _, tt := range tests {
		d := read(t, p(tt.body), object)
		if got := d.Proses()[0].Text(); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestDocument(t *testing.T) {
	cell := func(props, text string) string {
		return `<table:table-cell ` + props + `>` + p(text) + `</table:table-cell>`
	}
	d := read(t, `<text:tracked-changes><text:changed-region><text:deletion><text:p>Gone.</text:p></text:deletion></text:changed-region></text:tracked-changes>
		<text:p text:style-name="Title">Time of invented files</text:p><text:h text:outline-level="1">Results</text:h>
		<text:p>Vexil<text:note><text:note-citation>1</text:note-citation><text:note-body><text:p>Invented.</text:p></text:note-body></text:note> lasted longer.</text:p>
		<text:list><text:list-item><text:p>One.</text:p></text:list-item></text:list>
		<text:p text:style-name="P1">Table <text:sequence>2</text:sequence>. Time (s)</text:p>
		<table:table><table:table-column/><table:table-header-rows><table:table-row>`+cell(`table:number-rows-spanned="2"`, "File")+cell(`table:number-columns-spanned="2"`, "25 °C")+`<table:covered-table-cell/></table:table-row>
		<table:table-row><table:covered-table-cell/>`+cell("", "Mean")+cell("", "SD")+`</table:table-row></table:table-header-rows>
		<table:table-row>`+cell("", "Vexil")+cell("", "12.3")+`<table:table-cell><text:p>1.1</text:p><text:p>new</text:p></table:table-cell></table:table-row></table:table>
		<text:p>SD, standard deviation.</text:p><text:p><draw:frame><draw:text-box><text:p>Boxed.</text:p></draw:text-box></draw:frame></text:p>`, nil)
	want := []string{"results # Results", "results Vexil¹ lasted longer.", "results note: ¹ Invented.", "results One.",
		`table 2 "Time (s)" / #File|25 °C|25 °C / #File|Mean|SD / Vexil|12.3|1.1 new [SD, standard deviation.]`, "results Boxed."}
	if diff := cmp.Diff(want, outline.Of(d)); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
	if d.Meta.Title != "Time of invented files" {
		t.Errorf("title %q", d.Meta.Title)
	}
	if len(d.Problems) != 1 || !strings.Contains(d.Problems[0].What, "1 deletions") {
		t.Errorf("problems %v, want one about tracked changes", d.Problems)
	}
}

func TestRefusals(t *testing.T) {
	for name, data := range map[string][]byte{
		"damaged":  []byte("PK\x03\x04 and nothing more"),
		"empty":    pack("", nil),
		"password": pack(p("x"), map[string]string{"META-INF/manifest.xml": `<manifest:encryption-data/>`}),
	} {
		if _, err := odt.Read(data, "a.odt"); err == nil || !strings.HasPrefix(err.Error(), "a.odt: ") {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(p("Results") + `<table:table><table:table-row table:number-rows-repeated="9999"><table:table-cell table:number-columns-repeated="9999">` + p("a") + `</table:table-cell></table:table-row></table:table>`))
	f.Fuzz(func(t *testing.T, body []byte) {
		d, err := odt.Read(pack(string(body), nil), "f.odt")
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
		if _, err := odt.Read(data, "a.odt"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	d, err := odt.Read(pack(`<text:h text:outline-level="1">Results</text:h>`+p("Vexil lasted 702.3 s."), nil), "vexil.odt")
	if err != nil {
		fmt.Println(err)
		return
	}
	last := d.Proses()[1]
	fmt.Println(last.Place, "reads", last.Text())
	// Output: vexil.odt section=results par=2 reads Vexil lasted 702.3 s.
}
