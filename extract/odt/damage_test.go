package odt_test

import (
	"flag"
	"os"
	"strings"
	"testing"

	"probity/extract/internal/harm"
	"probity/extract/odt"
)

var (
	damaged    = flag.Int("damaged", 200, "how many damaged copies to read; the full run is 2000")
	damagedDir = flag.String("damaged-dir", "", "damage the files of this folder instead of the invented paper")
)

// TestDamaged reads damaged copies: each gives a document or a problem that
// says what is wrong, and where many figures are gone a problem says so.
//
//	go test ./extract/odt -run Damaged -damaged 2000
//	go test ./extract/odt -run Damaged -damaged 600 -damaged-dir DIR -v
func TestDamaged(t *testing.T) {
	data, err := os.ReadFile("../../testdata/papers/formats-invented/paper.odt")
	if err != nil {
		t.Fatal(err)
	}
	files := []harm.File{{Name: "paper.odt", Data: data}}
	if *damagedDir != "" {
		if files, err = harm.Folder(*damagedDir, ".odt"); err != nil {
			t.Fatal(err)
		}
	}
	harm.Run(t, files, harm.Parts("content.xml"), *damaged, odt.Read)
}

// Where the text is damaged that is said and every figure is doubted; where it
// only has a gap nothing else is.
func TestDamageIsSaid(t *testing.T) {
	whole := pack(p("Results")+p("Vexil lasted 702.3 s in the invented canal."), nil)
	for name, tt := range map[string]struct {
		data    []byte
		want    string
		doubted bool
	}{
		"a digit":                   {harm.Stored(whole, "702.3", "702.8"), "figures may have changed", true},
		"an element does not close": {pack(p("Vexil lasted 702.3 s.")+"</text:q>", nil), "text around there may be missing", false},
	} {
		d, err := odt.Read(tt.data, "a.odt")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(d.Problems) != 1 || !strings.Contains(d.Problems[0].What, tt.want) || d.Problems[0].Try == "" {
			t.Errorf("%s: Problems = %v, want one that says %q", name, d.Problems, tt.want)
		}
		for _, p := range d.Proses() {
			if (p.Doubt != "") != tt.doubted {
				t.Errorf("%s: Doubt = %q, want one: %v", name, p.Doubt, tt.doubted)
			}
		}
	}
}
