package engine

import (
	"context"
	"flag"
	"fmt"
	"os"
	"testing"
	"time"

	"probity/extract/pdf/glyph"
)

var file = flag.String("pdf", "", "a PDF to look at")

func TestLook(t *testing.T) {
	if *file == "" {
		t.Skip("no -pdf FILE")
	}
	t0 := time.Now()
	e, err := Start(Options{})
	if err != nil {
		t.Fatal(err)
	}
	fmt.Println("start", time.Since(t0), e.Note())
	data, _ := os.ReadFile(*file)
	for k := 0; k < 3; k++ {
		t0 = time.Now()
		n := 0
		pages, bad, err := e.Read(context.Background(), data, Limits{}, func(p *glyph.Page) {
			n += len(p.Glyphs)
			if k == 0 {
				fmt.Println(p.Number, p.Turned, p.Width, p.Height, len(p.Glyphs), len(p.Rules), len(p.Pictures))
			}
		})
		fmt.Println(pages, bad, err, n, time.Since(t0), time.Since(t0)/time.Duration(max(pages, 1)))
	}
}
