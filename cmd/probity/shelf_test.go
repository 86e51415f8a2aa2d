package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// inventedPaper writes paper number i of an invented shelf as JATS XML of
// about 30 kB: invented arms, consistent figures, a few claims about them, and
// running text of a Zipf vocabulary of 60,000 invented words. The same i gives
// the same bytes.
func inventedPaper(i int) []byte {
	r := rand.New(rand.NewPCG(uint64(i), 7))
	zipf := rand.NewZipf(r, 1.3, 8, 59_999)
	arms := []string{"Kestrine", "Halyard", "Corvane", "Brindle", "Osprane", "Tamarisk"}
	r.Shuffle(len(arms), func(a, b int) { arms[a], arms[b] = arms[b], arms[a] })
	arms = arms[:3]
	temperature := []string{"35", "37", "20", "23"}[r.IntN(4)]
	n := 10 + 2*r.IntN(6)
	base := 300 + 400*r.Float64()
	var means, sds [3]float64
	for k := range means {
		means[k] = math.Round(10*base*(0.8+0.5*r.Float64())) / 10
		sds[k] = math.Round(10*means[k]*(0.08+0.1*r.Float64())) / 10
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8"?>
<!-- An invented paper: names and figures are made up. -->
<article article-type="research-article"><front><journal-meta><journal-title-group><journal-title>%s</journal-title></journal-title-group></journal-meta>
<article-meta><article-id pub-id-type="doi">10.5555/shelf.%d</article-id><title-group><article-title>Cyclic fatigue of %s, %s and %s: %s</article-title></title-group>
<contrib-group><contrib contrib-type="author"><name><surname>%s</surname><given-names>P</given-names></name></contrib></contrib-group>
<pub-date pub-type="epub"><year>%d</year></pub-date>
`, []string{"Annals of Imaginary Endodontics", "Invented Journal of Dental Benches", "Proceedings of No Society"}[r.IntN(3)], i, arms[0], arms[1], arms[2],
		filler(zipf, 5), strings.ToUpper(word(uint64(r.IntN(5000)))[:1])+word(uint64(r.IntN(5000))), 2000+r.IntN(30))
	change := 100 * (means[0] - means[1]) / means[1]
	direction := "longer"
	if change < 0 {
		direction = "shorter"
	}
	fmt.Fprintf(&b, `<abstract><p>The time to fracture of %s was %.1f%% %s than that of %s. %s</p></abstract></article-meta></front><body>
<sec sec-type="intro"><title>Introduction</title>%s</sec>
<sec sec-type="methods"><title>Materials and methods</title><p>The instruments of size 25, .06 taper rotated at 300 rpm in a static test in a stainless steel canal (60° angle of curvature, 5 mm radius) at %s °C. The sample was n = %d per group. The level of significance was set at 5%%. Data were analysed with one-way ANOVA.</p>%s</sec>
<sec sec-type="results"><title>Results</title>%s<table-wrap id="T1"><label>Table 1</label><caption><p>Time to fracture (s) and number of cycles to fracture (NCF), mean (SD), n = %d.</p></caption>
<table><thead><tr><th>Instrument</th><th>Time to fracture (s)</th><th>NCF</th></tr></thead><tbody>
`, arms[0], math.Abs(change), direction, arms[1], filler(zipf, 120), paragraphs(zipf, 8), temperature, n, paragraphs(zipf, 7), paragraphs(zipf, 8), n)
	for k, a := range arms {
		fmt.Fprintf(&b, "<tr><td>%s</td><td>%.1f (%.1f)</td><td>%.1f (%.1f)</td></tr>\n", a, means[k], sds[k], 5*means[k], 5*sds[k])
	}
	fmt.Fprintf(&b, "</tbody></table></table-wrap></sec>\n<sec sec-type=\"discussion\"><title>Discussion</title>%s</sec></body></article>\n", paragraphs(zipf, 17))
	return []byte(b.String())
}

// word is the k-th word of the invented vocabulary: syllables from its number.
func word(k uint64) string {
	const consonants, vowels = "bdfgklmnprstvz", "aeiou"
	var b strings.Builder
	for k += 70; k > 0; k /= 70 {
		b.WriteByte(consonants[k%70/5])
		b.WriteByte(vowels[k%5])
	}
	return b.String()
}

func filler(z *rand.Zipf, words int) string {
	var b strings.Builder
	for i := range words {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(word(z.Uint64()))
		if i%14 == 13 {
			b.WriteString(". ")
		}
	}
	return b.String()
}

func paragraphs(z *rand.Zipf, n int) string {
	var b strings.Builder
	for range n {
		b.WriteString("<p>" + filler(z, 125) + ".</p>\n")
	}
	return b.String()
}

// shelfFolder writes n invented papers, a hundred a folder.
func shelfFolder(t testing.TB, n int) string {
	t.Helper()
	dir := t.TempDir()
	for i := range n {
		sub := filepath.Join(dir, fmt.Sprintf("%03d", i/100))
		if i%100 == 0 {
			if err := os.MkdirAll(sub, 0o755); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(filepath.Join(sub, fmt.Sprintf("p%05d.xml", i)), inventedPaper(i), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}
