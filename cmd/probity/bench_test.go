package main

import (
	"bytes"
	"context"
	"io"
	"testing"

	"probity/claims/assemble"
	"probity/claims/catalog"
	"probity/claims/check"
	"probity/claims/report"
	"probity/claims/statement"
	"probity/extract/open"
)

// paperOf100kB is the invented paper of the demo with its discussion repeated
// until the file has 100 kB, the size of a long article.
func paperOf100kB() []byte {
	const mark = "<sec sec-type=\"discussion\"><title>Discussion</title>"
	paragraph := []byte(`<p>The instruments rotated in a canal of steel, and the temperature was that of the body. Differences between the instruments may follow from their alloy, their section or their size, and no single test can tell these apart. Manufacturers seldom give the transformation temperatures of an alloy, and lots of one instrument are not all alike.</p>` +
		`<p>The time to fracture of Corvane was 30.5% longer than that of Halyard. Oakes and Penhallow [2] reported that instruments tested at room temperature lasted longer than at body temperature, by an amount that depended on the alloy. The canal used here was wider than the instruments, so that the true radius of the curve was larger than the one that was milled, as it is in most rigs of this kind.</p>`)
	need := (100<<10 - len(demoPaper)) / len(paragraph)
	return bytes.Replace(demoPaper, []byte(mark), append([]byte(mark), bytes.Repeat(paragraph, need)...), 1)
}

// The stages of the main job on a paper of 100 kB, one core.
func BenchmarkPaper(b *testing.B) {
	data := paperOf100kB()
	cat := catalog.Default()
	doc, err := open.Read(data, "bench.xml")
	if err != nil {
		b.Fatal(err)
	}
	study := assemble.Study(doc, nil, cat)
	statements, measures := statement.Read(doc, study, cat)
	study.Statements, study.Measures = statements, append(study.Measures, measures...)
	judgements := check.Judge(study, cat)
	if len(judgements) < 50 {
		b.Fatalf("the paper gives %d statements, want a long list", len(judgements))
	}
	stages := []struct {
		name string
		run  func()
	}{
		{"read", func() { open.Read(data, "bench.xml") }},
		{"assemble", func() { assemble.Study(doc, nil, cat) }},
		{"statements", func() { statement.Read(doc, assemble.Study(doc, nil, cat), cat) }},
		{"judge", func() { check.Audit(study, cat) }},
		{"whole", func() {
			c := newConsole(context.Background(), nil, io.Discard, io.Discard)
			d, _ := open.Read(data, "bench.xml")
			report.WriteAudit(io.Discard, c.auditDocument(d, nil, nil, data))
		}},
	}
	for _, s := range stages {
		b.Run(s.name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			for b.Loop() {
				s.run()
			}
		})
	}
}
