package engine

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"probity/extract/pdf/glyph"
)

func start(t testing.TB, opt Options) *Engine {
	t.Helper()
	e, err := Start(opt)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { e.Close() })
	return e
}

func read(t testing.TB, e *Engine, file string) []*glyph.Page {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../../testdata/papers/pdf-invented", file))
	if err != nil {
		t.Fatal(err)
	}
	var out []*glyph.Page
	if _, _, err := e.Read(context.Background(), data, Limits{}, func(p *glyph.Page) { out = append(out, p) }); err != nil {
		t.Fatalf("Read(%s): %v", file, err)
	}
	return out
}

func text(p *glyph.Page) string {
	var b strings.Builder
	for _, g := range p.Glyphs {
		b.WriteRune(g.Rune)
	}
	return b.String()
}

// A page that is turned, and a table set sideways on an upright page, both
// come out upright.
func TestTurned(t *testing.T) {
	e := start(t, Options{})
	for _, p := range read(t, e, "rotated.pdf") {
		if p.Turned != 0 || p.Width < p.Height {
			continue
		}
		for _, g := range p.Glyphs {
			if g.X1 < g.X0 || g.Base < 0 || g.Base > p.Height {
				t.Fatalf("a glyph of a turned page stands outside it: %+v on %v × %v", g, p.Width, p.Height)
			}
		}
	}
	found := false
	for _, p := range read(t, e, "latex.pdf") {
		if p.Turned != 90 {
			continue
		}
		found = true
		if s := text(p); !strings.Contains(strings.ReplaceAll(s, " ", ""), "Alvo") || p.Width < p.Height {
			t.Errorf("the sideways part is %v × %v and reads %.60q, want it wide and upright", p.Width, p.Height, s)
		}
	}
	if !found {
		t.Error("latex.pdf: no sideways part, want the one that holds table 4")
	}
}

func TestDigitsAreCounted(t *testing.T) {
	for _, p := range read(t, start(t, Options{}), "libreoffice.pdf") {
		var n [10]int
		for _, g := range p.Glyphs {
			if g.Rune >= '0' && g.Rune <= '9' {
				n[g.Rune-'0']++
			}
		}
		if n != p.Digits || n[0] == 0 {
			t.Errorf("page %d: Digits = %v, its glyphs hold %v", p.Number, p.Digits, n)
		}
	}
}

func TestCacheThatCannotBeWritten(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if testing.Short() {
		t.Skip("compiles the engine anew")
	}
	e := start(t, Options{Cache: filepath.Join(file, "below")})
	if !strings.Contains(e.Note(), "compiled anew") {
		t.Errorf("Note() = %q, want it to say that the engine is compiled anew each time", e.Note())
	}
	if pages := read(t, e, "libreoffice.pdf"); len(pages) == 0 {
		t.Error("no pages are read without a cache")
	}
}

func TestTimeIsUp(t *testing.T) {
	e := start(t, Options{})
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, _, err := e.Read(ctx, []byte("%PDF-1.4"), Limits{}, func(*glyph.Page) {})
	if !errors.Is(err, ErrTime) {
		t.Errorf("Read after its time = %v, want ErrTime", err)
	}
}

func TestPagesAreLimited(t *testing.T) {
	e := start(t, Options{})
	data, err := os.ReadFile("../../../testdata/papers/pdf-invented/latex.pdf")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	pages, _, err := e.Read(context.Background(), data, Limits{Pages: 1}, func(*glyph.Page) { n++ })
	if pages != 3 || n != 1 || err == nil || !strings.Contains(err.Error(), "first 1 of 3") {
		t.Errorf("Read with one page allowed: %d pages, %d visited, %v; want 3, 1 and an error that says so", pages, n, err)
	}
}

func TestSymbols(t *testing.T) {
	tests := []struct {
		source string
		r      rune
		pi     bool
		want   rune
	}{
		{"ISO 32000-1 D.5, code 0xB1", 0xf0b1, false, '±'},
		{"ISO 32000-1 D.5, code 0xA3", 0xf0a3, false, '≤'},
		{"ISO 32000-1 D.5, code 0x6D", 0xf06d, false, 'μ'},
		{"Mathematical Pi: 6", '6', true, '±'},
		{"Mathematical Pi: 5", '5', true, '='},
		{"Mathematical Pi: comma", ',', true, '<'},
		{"a 6 of any other font", '6', false, '6'},
		{"U+1D45D mathematical italic small p", 0x1d45d, false, 'p'},
		{"PDFium's hyphen at a line's end", 2, false, '\u00ad'},
		{"private use", 0xe123, false, '\ufffd'},
	}
	for _, tt := range tests {
		if got, _, _ := plain(tt.r, tt.pi); got != tt.want {
			t.Errorf("%s: plain(%U, %v) = %q, want %q", tt.source, tt.r, tt.pi, got, tt.want)
		}
	}
	for name, want := range map[string]bool{"MathematicalPi-One": true, "Mathematical-Pi 1": true, "UniversalMath": false, "Times-Roman": false} {
		if got := isMathPi(name); got != want {
			t.Errorf("isMathPi(%q) = %v, want %v", name, got, want)
		}
	}
}

func BenchmarkPage(b *testing.B) {
	e := start(b, Options{})
	data, err := os.ReadFile("../../../testdata/papers/pdf-invented/latex.pdf")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, _, err := e.Read(context.Background(), data, Limits{}, func(*glyph.Page) {}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStart(b *testing.B) {
	start(b, Options{})
	for b.Loop() {
		e, err := Start(Options{})
		if err != nil {
			b.Fatal(err)
		}
		e.Close()
	}
}
