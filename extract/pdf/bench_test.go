package pdf_test

import (
	"sync"
	"testing"

	"probity/extract/pdf"
)

// BenchmarkRead reads whole papers; ms/page is what one page takes on one core.
func BenchmarkRead(b *testing.B) {
	for _, file := range []string{"latex.pdf", "chromium.pdf", "libreoffice.pdf"} {
		b.Run(file, func(b *testing.B) {
			data := sample(b, file)
			pages := mustRead(b, file).Pages
			b.ReportAllocs()
			for b.Loop() {
				if _, err := pdf.Read(data, file, pdf.Options{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/1000/float64(b.N*pages), "ms/page")
		})
	}
}

// BenchmarkTwo reads two papers at once; compare its time for two papers with
// that of BenchmarkRead for one.
func BenchmarkTwo(b *testing.B) {
	data := sample(b, "latex.pdf")
	mustRead(b, "latex.pdf")
	for b.Loop() {
		var wg sync.WaitGroup
		for range 2 {
			wg.Go(func() {
				if _, err := pdf.Read(data, "latex.pdf", pdf.Options{}); err != nil {
					b.Error(err)
				}
			})
		}
		wg.Wait()
	}
}
