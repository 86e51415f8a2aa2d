package xmltree_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/extract/internal/xmltree"
)

func TestParse(t *testing.T) {
	tests := []struct{ name, xml, want string }{
		{"entities", `<a>&plusmn; &amp;plusmn; &#177; &lt;</a>`, "± ± ± <"},
		{"an unknown entity stays", `<a>&nosuch;</a>`, "&nosuch;"},
		{"CDATA", `<a><![CDATA[p < .05]]></a>`, "p < .05"},
		{"no reference to a control character", `<a>12&#2;.3&#x1F;</a>`, "12.3"},
		{"an end without a start", `<a>1</b>2</a>`, "12"},
		{"ampersand alone", `<a>R & D, a &b c</a>`, "R & D, a &b c"},
	}
	for _, tt := range tests {
		top, err := xmltree.Parse([]byte(tt.xml))
		if err != nil || top.String() != tt.want {
			t.Errorf("%s: %q, %v; want %q", tt.name, top.String(), err, tt.want)
		}
	}
}

func TestRefused(t *testing.T) {
	var many strings.Builder
	for i := range 1200 {
		fmt.Fprintf(&many, `<!ENTITY e%d "x">`, i)
	}
	for name, xml := range map[string]string{
		"deep":          strings.Repeat("<a>", 300),
		"own entity":    `<!DOCTYPE a [<!ENTITY x "y">]><a>&x;</a>`,
		"many entities": `<!DOCTYPE a [` + many.String() + `]><a/>`,
	} {
		if _, err := xmltree.Parse([]byte(xml)); !xmltree.Refused(err) {
			t.Errorf("%s: error %v is no refusal", name, err)
		}
	}
	if top, err := xmltree.Parse([]byte(`<a><b>1</b><b>2`)); err == nil || xmltree.Refused(err) || top.String() != "12" {
		t.Errorf("broken off: %q, %v; want what stands before the break", top.String(), err)
	}
}

// In what a program wrote, elements close in order; where they do not the tree
// goes on, and the place is named.
func TestParseWritten(t *testing.T) {
	for name, tt := range map[string]struct{ xml, text, want string }{
		"whole":                  {`<a><b>1</b><b>2</b></a>`, "12", ""},
		"an end without a start": {`<a><b>1</b></c><b>2</b></a>`, "12", "do not close in order at line 1"},
		"crossed":                {"<a>\n<b><c>1</b></c><b>2</b></a>", "12", "do not close in order at line 2"},
		"zeroes":                 {"<a>1\x00\x002</a>", "12", "zeroes"},
	} {
		top, err := xmltree.ParseWritten([]byte(tt.xml))
		if top.String() != tt.text || (err == nil) != (tt.want == "") || err != nil && (!xmltree.Torn(err) || !strings.Contains(err.Error(), tt.want)) {
			t.Errorf("%s: %q, %v; want %q and %q", name, top.String(), err, tt.text, tt.want)
		}
	}
	if _, err := xmltree.ParseWritten([]byte(`<a><b>1</b><b>2`)); err == nil || xmltree.Torn(err) {
		t.Errorf("broken off: %v, want an error that says it does", err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("<?xml version='1.0' encoding='utf-16'?><a>&#xd800;&#x;&#99999999;</a>"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if top, err := xmltree.Parse(data); top == nil && err == nil {
			t.Fatal("neither tree nor error")
		}
	})
}

func ExampleParse() {
	top, err := xmltree.Parse([]byte(`<article><title>Time of <i>Vexil</i></title></article>`))
	fmt.Println(top.Path("article", "title"), err)
	// Output: Time of Vexil <nil>
}
