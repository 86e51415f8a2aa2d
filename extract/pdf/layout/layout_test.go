package layout

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract/pdf/glyph"
)

var roman, bold = &glyph.Font{Name: "Roman"}, &glyph.Font{Name: "Bold", Bold: true}

// set puts a text on a page, each letter half an em wide; a blank is a gap of
// a quarter em without a character of its own.
func set(p *glyph.Page, x, y, size float64, font *glyph.Font, text string) float64 {
	for _, r := range text {
		if r == ' ' {
			x += 0.25 * size
			continue
		}
		p.Glyphs = append(p.Glyphs, glyph.Glyph{Rune: r, Base: y, Size: size, Font: font,
			Box: glyph.Box{X0: x, X1: x + 0.5*size, Y0: y - 0.75*size, Y1: y + 0.25*size}})
		x += 0.5 * size
	}
	return x
}

func texts(words []Word) []string {
	var out []string
	for i := range words {
		out = append(out, words[i].Text())
	}
	return out
}

func TestMarks(t *testing.T) {
	p := &glyph.Page{Number: 1, Width: 600, Height: 800}
	x := set(p, 50, 100, 10, roman, "12.3")
	x = set(p, x, 96, 6, roman, "a,b")
	x = set(p, x+3, 100, 10, roman, "H")
	x = set(p, x, 102, 6, roman, "2")
	x = set(p, x, 100, 10, roman, "O")
	x = set(p, x+3, 100, 10, roman, "10")
	set(p, x, 96, 6, roman, "2")
	want := []string{"12.3ᵃ,ᵇ", "H₂O", "10²"}
	if diff := cmp.Diff(want, texts(Words(p))); diff != "" {
		t.Errorf("words with raised and lowered parts (-want +got):\n%s", diff)
	}
}

func TestSpacedLetters(t *testing.T) {
	p := &glyph.Page{Number: 1, Width: 600, Height: 800}
	x := 50.0
	for _, r := range "TABLE" { // letters set a fifth of an em apart
		x = set(p, x, 100, 10, roman, string(r)) + 2
	}
	set(p, x+4, 100, 10, roman, "1.")
	if diff := cmp.Diff([]string{"TABLE", "1."}, texts(Words(p))); diff != "" {
		t.Errorf("letters spread apart (-want +got):\n%s", diff)
	}
}

func TestLineNumbersGo(t *testing.T) {
	p := &glyph.Page{Number: 1, Width: 600, Height: 800}
	for i := range 12 {
		y := 100 + 14*float64(i)
		set(p, 40, y, 8, roman, []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"}[i])
		set(p, 80, y, 10, roman, "7 words of text stand here")
	}
	for _, w := range texts(dropLineNumbers(Words(p))) {
		if w == "3" || w == "12" {
			t.Errorf("line number %q is left in the text", w)
		}
	}
	if n := strings.Count(strings.Join(texts(dropLineNumbers(Words(p))), " "), "7 words"); n != 12 {
		t.Errorf("%d lines still begin with their own figure, want 12", n)
	}
}

// columns of two papers set side by side read down, then down.
func TestColumns(t *testing.T) {
	p := &glyph.Page{Number: 1, Width: 600, Height: 800}
	for i := range 8 {
		y := 100 + 12*float64(i)
		set(p, 50, y, 10, roman, "left words fill this line of text up")
		set(p, 330, y+5, 10, roman, "right words fill this line of text up") // not level
	}
	sheets := Analyse([]*glyph.Page{p})
	var got []string
	for _, it := range sheets[0].Items {
		got = append(got, it.Block.Lines[0].Words[0].Text())
	}
	if diff := cmp.Diff([]string{"left", "right"}, got); diff != "" {
		t.Errorf("blocks in reading order (-want +got):\n%s", diff)
	}
}

func TestSureCaption(t *testing.T) {
	tests := []struct {
		line string
		want bool
	}{
		{"Table 1. Means of all groups", true},
		{"TABLE II: Means of all groups", true},
		{"Table 3 Means of all groups", true},
		{"Table 1 shows the means", false},
		{"Table 2 and the text agree", false},
		{"Table 4 presents what was found", false},
	}
	for _, tt := range tests {
		p := &glyph.Page{Number: 1, Width: 600, Height: 800}
		set(p, 50, 100, 10, roman, tt.line)
		s := &Sheet{Page: p, words: Words(p), body: 10}
		caps := s.captions(rowsOf(s.words))
		if got := len(caps) == 1 && caps[0].sure; got != tt.want {
			t.Errorf("%q: a caption = %v, want %v", tt.line, got, tt.want)
		}
	}
}

func TestRounds(t *testing.T) {
	names := strings.Split("Group,Mean,SD,p,Mean,SD,p", ",")
	if start, period, ok := rounds(names, 2); !ok || start != 1 || period != 3 {
		t.Errorf("rounds(%v, 2) = %d, %d, %v; want 1, 3, true", names, start, period, ok)
	}
	if _, _, ok := rounds(names, 3); ok {
		t.Errorf("rounds(%v, 3) found some, want none", names)
	}
}

// Rows of 3, 1 and 2 lines, each set to the middle of its row: by hand, the
// rows' heights are 20, 45 and 65.
func TestShare(t *testing.T) {
	var ps []piece
	for _, y := range []float64{10, 20, 30, 45, 60, 70} {
		ps = append(ps, piece{base: y, size: 9})
	}
	if diff := cmp.Diff([]int{0, 0, 0, 1, 2, 2}, share(ps, []float64{20, 45, 65})); diff != "" {
		t.Errorf("rows of the lines (-want +got):\n%s", diff)
	}
}

func TestLostDigitIsDoubted(t *testing.T) {
	w := []Word{{}, {}}
	p := &glyph.Page{Number: 1, Width: 600, Height: 800}
	set(p, 50, 100, 10, roman, "12 34")
	w = Words(p)
	tb := &Table{Rows: [][]Cell{make([]Cell, 2)}}
	tb.Rows[0][0].add(&piece{words: w[:1]}, false)
	tb.check(w)
	if len(tb.Doubts) != 1 {
		t.Errorf("a table without one of its figures: Doubts = %q, want one", tb.Doubts)
	}
	tb.Doubts = nil
	tb.Rows[0][1].add(&piece{words: w[1:]}, false)
	tb.check(w)
	if len(tb.Doubts) != 0 {
		t.Errorf("a table with all of its figures: Doubts = %q, want none", tb.Doubts)
	}
}

func TestFigure(t *testing.T) {
	for s, want := range map[string]bool{"12.3": true, "<.05": true, "±4": true, "(4.5)": true, "−0.1": true, "n": false, "p = .05": false, "Group 1": false} {
		if got := figure(s); got != want {
			t.Errorf("figure(%q) = %v, want %v", s, got, want)
		}
	}
}

// tableOf reads the only table of a page of text: cells at their places, below
// a caption, between rules where there are any.
func tableOf(t *testing.T, place func(p *glyph.Page)) []string {
	t.Helper()
	p := &glyph.Page{Number: 1, Width: 600, Height: 800}
	place(p)
	var out []string
	for _, s := range Analyse([]*glyph.Page{p}) {
		for _, it := range s.Items {
			if it.Table == nil {
				continue
			}
			for _, row := range it.Table.Rows {
				out = append(out, rowText(row))
			}
		}
	}
	return out
}

func rule(p *glyph.Page, x0, x1, y float64) {
	p.Rules = append(p.Rules, glyph.Rule{Box: glyph.Box{X0: x0, X1: x1, Y0: y, Y1: y + 0.5}})
}

// Names set to their middle still open rows of figures, a name of two lines
// stands around its figures, and the caption names a table that is narrower
// than it.
func TestMiddledNames(t *testing.T) {
	got := tableOf(t, func(p *glyph.Page) {
		set(p, 50, 100, 10, bold, "Table 1. Time to fracture of invented files")
		for _, y := range []float64{110, 130, 216} {
			rule(p, 150, 450, y)
		}
		centre := func(mid, y float64, text string) { set(p, mid-2.5*float64(len(text)), y, 10, roman, text) }
		centre(200, 123, "File")
		centre(320, 123, "New")
		centre(410, 123, "Used")
		for i, name := range []string{"Alvo", "Brellorine", "Corvane"} {
			y := 144 + 14*float64(i)
			centre(200, y, name)
			centre(320, y, "412.6")
			centre(410, y, "371.0")
		}
		centre(200, 190, "Halyard of")
		centre(320, 196, "355.2")
		centre(410, 196, "322.4")
		centre(200, 202, "the")
	})
	want := []string{"File|New|Used", "Alvo|412.6|371.0", "Brellorine|412.6|371.0", "Corvane|412.6|371.0", "Halyard of the|355.2|322.4"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
}

// A line of spreads in brackets finishes the figures above it, and a figure
// between two columns does not run on over those after them.
func TestSpreadsBelow(t *testing.T) {
	got := tableOf(t, func(p *glyph.Page) {
		set(p, 50, 100, 10, bold, "Table 1. Time to fracture of invented files by size and batch")
		for _, y := range []float64{110, 130, 216} {
			rule(p, 50, 450, y)
		}
		for j, text := range []string{"File", "New", "Used", "Worn"} {
			set(p, 50+110*float64(j), 123, 10, roman, text)
		}
		for i, name := range []string{"Alvo", "Brell"} {
			y := 144 + 34*float64(i)
			set(p, 50, y, 10, roman, name)
			for j := range 3 {
				set(p, 160+110*float64(j), y, 10, roman, "412")
				set(p, 160+110*float64(j), y+22, 10, roman, "(38)")
			}
		}
	})
	want := []string{"File|New|Used|Worn", "Alvo|412 (38)|412 (38)|412 (38)", "Brell|412 (38)|412 (38)|412 (38)"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
}
