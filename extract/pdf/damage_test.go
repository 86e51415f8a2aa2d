package pdf_test

import (
	"bytes"
	"flag"
	"math/rand/v2"
	"regexp"
	"slices"
	"testing"
	"time"

	"probity/extract"
	"probity/extract/internal/harm"
	"probity/extract/pdf"
)

var (
	damaged    = flag.Int("damaged", 120, "how many damaged copies to read; the full run is 2000")
	damagedDir = flag.String("damaged-dir", "", "damage the PDFs of this folder instead of the invented papers")
)

var object = regexp.MustCompile(`(?s)\b\d+ \d+ obj\b.*?\bendobj\b`)

// pick gives one match of a pattern, or a lone place where there is none.
func pick(r *rand.Rand, pattern *regexp.Regexp, d []byte) []int {
	all := pattern.FindAllSubmatchIndex(d, -1)
	if len(all) == 0 {
		return []int{0, 1, 0, 1}
	}
	return all[r.IntN(len(all))]
}

// pdfWays are the ways that know what a PDF is made of.
var pdfWays = slices.Concat(harm.Bytes, []harm.Way{
	{Name: "object dropped", Do: func(r *rand.Rand, d []byte) []byte {
		at := pick(r, object, d)
		return slices.Delete(d, at[0], at[1])
	}},
	{Name: "object blanked", Do: func(r *rand.Rand, d []byte) []byte {
		at := pick(r, object, d)
		copy(d[at[0]:at[1]], bytes.Repeat([]byte(" "), at[1]-at[0]))
		return d
	}},
	{Name: "stream corrupted", Do: func(r *rand.Rand, d []byte) []byte {
		at := pick(r, stream, d)
		if n := at[3] - at[2]; n > 0 {
			for range 1 + r.IntN(8) {
				d[at[2]+r.IntN(n)] = byte(r.IntN(256))
			}
		}
		return d
	}},
	{Name: "stream emptied", Do: func(r *rand.Rand, d []byte) []byte {
		at := pick(r, stream, d)
		clear(d[at[2]:at[3]])
		return d
	}},
	{Name: "xref corrupted", Do: func(r *rand.Rand, d []byte) []byte {
		at := max(0, bytes.LastIndex(d, []byte("xref"))-400)
		for range 1 + r.IntN(20) {
			d[at+r.IntN(len(d)-at)] = '0' + byte(r.IntN(10))
		}
		return d
	}},
	{Name: "startxref moved", Do: func(r *rand.Rand, d []byte) []byte {
		return startxref.ReplaceAll(d, []byte("startxref\n17\n"))
	}},
	{Name: "name misspelt", Do: func(r *rand.Rand, d []byte) []byte {
		at := pick(r, name, d)
		d[at[0]+1] ^= 1
		return d
	}},
})

var (
	stream    = regexp.MustCompile(`(?s)\bstream\r?\n(.*?)\r?\nendstream`)
	startxref = regexp.MustCompile(`startxref\s+\d+\s+`)
	name      = regexp.MustCompile(`/(?:Contents|Kids|Count|Pages|Page|Resources|Font|ToUnicode|Filter|Length|Type|Parent)\b`)
)

// TestDamaged reads damaged copies: each gives a document or a problem that
// says what is wrong, and nothing crashes or hangs;
// and where many figures are gone a problem says so.
//
//	go test ./extract/pdf -run Damaged -damaged 2000
//	go test ./extract/pdf -run Damaged -damaged 600 -damaged-dir DIR -v
func TestDamaged(t *testing.T) {
	var files []harm.File
	for _, tt := range typeset {
		files = append(files, harm.File{Name: tt.file, Data: sample(t, tt.file)})
	}
	if *damagedDir != "" {
		var err error
		if files, err = harm.Folder(*damagedDir, ".pdf"); err != nil {
			t.Fatal(err)
		}
	}
	opt := pdf.Options{Witness: apart(t)}
	harm.Run(t, files, pdfWays, *damaged, func(data []byte, name string) (*extract.Document, error) {
		return pdf.Read(data, name, opt)
	})
}

// TestSpliced reads pieces of two files together.
func TestSpliced(t *testing.T) {
	files := [][]byte{[]byte(picture)}
	for _, tt := range typeset {
		files = append(files, sample(t, tt.file))
	}
	r := rand.New(rand.NewPCG(2026, 11))
	for i := range *damaged / 8 {
		a, b := files[r.IntN(len(files))], files[r.IntN(len(files))]
		data := slices.Concat(a[:r.IntN(len(a))], b[r.IntN(len(b)):])
		if doc, err := pdf.Read(data, "spliced.pdf", pdf.Options{}); (doc == nil) == (err == nil) {
			t.Errorf("copy %d: Read gave %v and %v, want one of them", i, doc, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(picture))
	f.Add([]byte("%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n" +
		"3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 200]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>endobj\n" +
		"4 0 obj<</Length 70>>stream\nBT /F 9 Tf 20 150 Td (Table 1. Mean) Tj 0 -12 Td (A 12.3 4.5) Tj ET   \nendstream endobj\n" +
		"5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := pdf.Read(data, "fuzz.pdf", pdf.Options{Time: 5 * time.Second})
		if (doc == nil) == (err == nil) {
			t.Errorf("Read gave %v and %v, want one of them", doc, err)
		}
	})
}
