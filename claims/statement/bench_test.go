package statement

import (
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// prose is invented text in the mixture of a paper: one sentence in four
// compares, the others tell what was done.
const prose = `The instruments were inspected under a microscope before use and those with visible defects were discarded. ` +
	`Each file rotated freely in a stainless steel canal until it broke, and the time was taken with a stopwatch. ` +
	`The lubricant was renewed after every third instrument, and the block was kept in a water bath. ` +
	`The mean time to fracture of Velto (702.3 ± 106.8 s) was significantly longer than that of Koris (588.0 ± 140.3 s) (P < 0.05). ` +
	`Fragments were cleaned in an ultrasonic bath, mounted on stubs and viewed at several levels. ` +
	`The surface of the fractured fragments showed dimples near the centre and striations at the edge. ` +
	`This pattern is typical of metal that has been bent many times and was described by the first users of such tests. ` +
	`Velto lasted 19.4% longer than Koris, and the difference held at both temperatures.`

func benchmarkDocument() (*extract.Document, int) {
	doc := &extract.Document{}
	n := 0
	for i := range 40 {
		text := strings.Repeat(prose+" ", 3)
		n += len(text)
		doc.Blocks = append(doc.Blocks, &extract.Prose{Place: extract.Place{Section: extract.Results, Par: i + 1}, Runs: []extract.Run{{Text: text}}})
	}
	for _, p := range doc.Proses() {
		p.Text()
	}
	return doc, n
}

// BenchmarkRead is the speed of statement reading on one core: 5 MB/s is the
// least that is wanted.
func BenchmarkRead(b *testing.B) {
	doc, n := benchmarkDocument()
	cat := catalog.Default()
	b.Run("text", func(b *testing.B) {
		b.SetBytes(int64(n))
		b.ReportAllocs()
		for b.Loop() {
			Read(doc, nil, cat)
		}
	})
	b.Run("study", func(b *testing.B) {
		study := testStudy()
		b.SetBytes(int64(n))
		b.ReportAllocs()
		for b.Loop() {
			Read(doc, study, cat)
		}
	})
}

// FuzzRead: any text gives statements, and every statement stands in it.
func FuzzRead(f *testing.F) {
	for _, c := range sentenceCases {
		f.Add(c.text)
	}
	f.Add(prose)
	f.Add("((((((((((((((((((([[[[[[ 5% 5% vs vs ))) twice as twice of that of that of")
	f.Add(strings.Repeat("x", 37) + "é " + strings.Repeat("y", 38) + "Ⱥ 5% higher")
	f.Add("p < p = P , .05 F(2,27 = χ² U = H")
	cat := catalog.Default()
	study := testStudy()
	f.Fuzz(func(t *testing.T, text string) {
		doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Place: extract.Place{Section: extract.Results}, Runs: []extract.Run{{Text: text}}}}}
		flat := doc.Proses()[0].Text()
		for _, st := range [2]*claims.Study{nil, study} {
			found, _ := Read(doc, st, cat)
			for _, s := range found {
				if !strings.Contains(flat, s.Text) || s.Text == "" {
					t.Fatalf("statement %q does not stand in %q", s.Text, flat)
				}
				if s.Place.Start < 0 || s.Place.End > len(flat) || flat[s.Place.Start:s.Place.End] != s.Text {
					t.Fatalf("statement %q is not at %d-%d of %q", s.Text, s.Place.Start, s.Place.End, flat)
				}
				if len(s.Than) > 0 && len(s.Than) != len(s.Order)-1 {
					t.Fatalf("order of %d parties with %d relations in %q", len(s.Order), len(s.Than), flat)
				}
				for _, p := range s.Pairs {
					if p.A == nil || p.B == nil {
						t.Fatalf("half a pair in %q", s.Text)
					}
				}
			}
		}
		ReadText(text, cat)
	})
}

// TestLongText: time grows with the length of the text, not with its square.
func TestLongText(t *testing.T) {
	cat := catalog.Default()
	for _, unit := range []string{"5% higher vs 3 and ", "(", "twice that of ", "1, ", "from 2 to 3 ", "A > ", "p = .05, ", "between and "} {
		text := strings.Repeat(unit, 40_000/len(unit))
		doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Runs: []extract.Run{{Text: text}}}}}
		Read(doc, testStudy(), cat) // must end: the go test timeout is the bound
	}
}
