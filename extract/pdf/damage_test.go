package pdf_test

import (
	"bytes"
	"errors"
	"flag"
	"math/rand/v2"
	"testing"
	"time"

	"probity/extract"
	"probity/extract/pdf"
)

var damaged = flag.Int("damaged", 120, "how many damaged copies to read; the full run is 2000")

// harm makes a damaged copy: flipped bytes, a cut, a stretch taken out or put
// in twice, pieces of two files together, numbers changed.
func harm(r *rand.Rand, files [][]byte) []byte {
	d := bytes.Clone(files[r.IntN(len(files))])
	for range 1 + r.IntN(3) {
		n := len(d)
		if n < 64 {
			break
		}
		at := r.IntN(n - 32)
		size := 1 + r.IntN(min(n-at, 2000)-1)
		switch r.IntN(7) {
		case 0: // flipped bytes
			for range 1 + r.IntN(200) {
				d[r.IntN(n)] ^= byte(1 << r.IntN(8))
			}
		case 1: // cut short
			d = d[:at+1]
		case 2: // a stretch missing
			d = append(d[:at:at], d[at+size:]...)
		case 3: // a stretch twice
			d = append(d[:at+size:at+size], d[at:]...)
		case 4: // spliced with another file
			o := files[r.IntN(len(files))]
			d = append(d[:at:at], o[r.IntN(len(o)):]...)
		case 5: // every fourth digit of a stretch changed
			for i := at; i < at+size; i++ {
				if d[i] >= '0' && d[i] <= '9' && r.IntN(4) == 0 {
					d[i] = '0' + byte(r.IntN(10))
				}
			}
		case 6: // zeroes
			clear(d[at : at+size])
		}
	}
	return d
}

// TestDamaged reads damaged copies: each gives a document or a problem that
// says what is wrong, within five seconds, and nothing crashes.
//
//	go test ./extract/pdf -run Damaged -damaged 2000
func TestDamaged(t *testing.T) {
	var files [][]byte
	for _, tt := range typeset {
		files = append(files, sample(t, tt.file))
	}
	files = append(files, []byte(picture))
	r := rand.New(rand.NewPCG(2026, 11))
	read, refused := 0, 0
	var slowest time.Duration
	for i := range *damaged {
		data := harm(r, files)
		began := time.Now()
		doc, err := pdf.Read(data, "damaged.pdf", pdf.Options{Time: 5 * time.Second})
		took := time.Since(began)
		slowest = max(slowest, took)
		var p *extract.Problem
		switch {
		case took > 5*time.Second:
			t.Errorf("copy %d (%d bytes) took %v, want at most 5 s", i, len(data), took)
		case err == nil && (doc == nil || len(doc.Blocks) == 0 && len(doc.Problems) == 0):
			t.Errorf("copy %d: neither text nor a problem", i)
		case err == nil:
			read++
		case !errors.As(err, &p) || p.What == "" || p.Try == "":
			t.Errorf("copy %d: %v, want a problem that says what to do", i, err)
		default:
			refused++
		}
	}
	t.Logf("%d damaged copies: %d read, %d refused, slowest %v", *damaged, read, refused, slowest)
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
