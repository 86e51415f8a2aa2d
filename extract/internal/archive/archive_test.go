package archive_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"

	"probity/extract/internal/archive"
)

func pack(name, text string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, _ := z.Create(name)
	w.Write([]byte(text))
	z.Close()
	return b.Bytes()
}

func TestNamesStayInside(t *testing.T) {
	a, err := archive.Open(pack("../../word\\document.xml", "x"))
	if err != nil {
		t.Skipf("the standard library refuses the name: %v", err)
	}
	if data, err := a.Part("/word/document.xml"); string(data) != "x" || err != nil {
		t.Errorf("part %q, %v", data, err)
	}
}

func TestLimits(t *testing.T) {
	a, err := archive.Open(pack("big", strings.Repeat(" ", archive.MaxBytes+1)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.Part("big"); err == nil || !strings.Contains(err.Error(), "unfolds to more than") {
		t.Errorf("error %v, want the limit named", err)
	}
	if data, err := a.Part("none"); data != nil || err != nil {
		t.Errorf("a part that is not there: %v, %v", data, err)
	}
}

func ExampleOpen() {
	a, err := archive.Open(pack("content.xml", "<x/>"))
	if err != nil {
		fmt.Println(err)
		return
	}
	data, err := a.Part("content.xml")
	fmt.Println(string(data), err)
	// Output: <x/> <nil>
}
