package pdf_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"probity/extract/pdf"
)

// made is a PDF of the contents given, a page each, with all its parts where
// it says; every page can set text in F, and place the form X and the picture
// I. A page of no content at all has none.
func made(contents ...string) []byte {
	objects := []string{
		"<</Type/Catalog/Pages 2 0 R>>",
		"", // the tree of pages
		"<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>",
		"<</Type/XObject/Subtype/Form/BBox[0 0 300 300]/Length 0>>stream\n\nendstream",
		"<</Type/XObject/Subtype/Image/Width 1/Height 1/BitsPerComponent 8/ColorSpace/DeviceGray/Length 1>>stream\n\x80\nendstream",
	}
	var kids []string
	for _, c := range contents {
		page := len(objects) + 1
		kids = append(kids, fmt.Sprintf("%d 0 R", page))
		entry := ""
		if c != "" {
			entry = fmt.Sprintf("/Contents %d 0 R", page+1)
		}
		objects = append(objects, "<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources<</Font<</F 3 0 R>>/XObject<</X 4 0 R/I 5 0 R>>>>"+entry+">>")
		if c != "" {
			objects = append(objects, fmt.Sprintf("<</Length %d>>stream\n%s\nendstream", len(c), c))
		}
	}
	objects[1] = fmt.Sprintf("<</Type/Pages/Kids[%s]/Count %d>>", strings.Join(kids, " "), len(kids))
	var b bytes.Buffer
	b.WriteString("%PDF-1.4\n")
	at := make([]int, len(objects))
	for i, o := range objects {
		at[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj%s\nendobj\n", i+1, o)
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer<</Root 1 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, xref)
	return b.Bytes()
}

// lines sets lines of text from the top of a page down.
func lines(text ...string) string {
	var b strings.Builder
	b.WriteString("BT /F 10 Tf 14 TL 60 780 Td ")
	for _, l := range text {
		fmt.Fprintf(&b, "(%s) Tj T* ", l)
	}
	return b.String() + "ET"
}

var prose = lines("This invented paper has a page of text on which Vexil lasted 702.3 s.", "It goes on for a second line, so that it is one paragraph of prose.")

// upwards sets a table upwards along the edge: fewer letters than a page of
// its own needs, but 64 digits.
func upwards() string {
	var b strings.Builder
	b.WriteString("BT /F 8 Tf ")
	for i := range 4 {
		for j := range 4 {
			fmt.Fprintf(&b, "0 1 -1 0 %d %d Tm (%d%d.%d%d) Tj ", 400+12*i, 200+60*j, i+1, j+1, j+2, i+3)
		}
	}
	return b.String() + "ET"
}

// A page of which nothing, or little, is read is named, with what to do, and
// a page on which nothing is printed is not.
func TestLostPages(t *testing.T) {
	square := " 100 100 200 200 re f"
	tests := []struct {
		name, content string
		want          string // of the problem of page 2; "" for none
		doubt         string
	}{
		{"no content", "", "", ""},
		{"empty content", "q Q", "", ""},
		{"a white sheet", "1 1 1 rg 0 0 595 842 re f", "", ""},
		{"an empty form", "q /X Do Q", "", ""},
		{"text", prose, "", ""},
		{"a picture", "q 595 0 0 842 0 0 cm /I Do Q", "a picture without text", ""},
		{"a picture with a stamp", "q 595 0 0 842 0 0 cm /I Do Q " + lines("Fetched on 3 May 2024 from the invented library"), "a picture with hardly any text", ""},
		{"letters drawn as shapes", "q 0 g" + square + " Q", "what it shows is drawn", ""},
		{"a form that is missing", "q /Y Do Q", "missing", ""},
		{"zeroes in its content", prose + strings.Repeat("\x00", 400), "zeroes", "only one of two PDF readers"},
		{"a font that is missing", prose + " " + strings.ReplaceAll(prose, "/F ", "/G "), "a font of it is missing", "only one of two PDF readers"},
		{"a small table set sideways", prose + " " + upwards(), "64 of the 68 digits printed on the page found no place", "found no place"},
	}
	witness := apart(t)
	for _, tt := range tests {
		doc, err := pdf.Read(made(prose, tt.content, prose), "a.pdf", pdf.Options{Witness: witness})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		said := ""
		for _, p := range doc.Problems {
			if p.Place.Page != 2 || p.Try == "" {
				t.Errorf("%s: %v, want problems of page 2 only, which say what to do", tt.name, p)
			}
			said += p.What + "\n"
		}
		if (said == "") != (tt.want == "") || !strings.Contains(said, tt.want) {
			t.Errorf("%s: Problems = %q, want %q", tt.name, said, tt.want)
		}
		for _, p := range doc.Proses() {
			if want := tt.doubt != "" && p.Place.Page == 2; want != (p.Doubt != "") || !strings.Contains(p.Doubt, tt.doubt) && want {
				t.Errorf("%s: page %d: Doubt = %q, want %q on page 2 only", tt.name, p.Place.Page, p.Doubt, tt.doubt)
			}
		}
	}
}

// Drawn text can be recognised, and the problem of such a page says so.
func TestDrawnPageNamesRecognition(t *testing.T) {
	doc, err := pdf.Read(made(prose, "0 g 100 100 200 200 re f"), "a.pdf", pdf.Options{})
	if err != nil || len(doc.Problems) != 1 || !strings.Contains(doc.Problems[0].Try, "--ocr") {
		t.Errorf("Problems = %v, %v; want one that names --ocr", doc.Problems, err)
	}
}
