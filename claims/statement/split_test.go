package statement

import (
	"testing"

	"probity/claims"
	"probity/claims/catalog"
)

func TestSplit(t *testing.T) {
	tests := []struct {
		text string
		want []string
	}{
		{"Velto broke. Koris did not.", []string{"Velto broke.", "Koris did not."}},
		{"Alder et al. found it. We did not.", []string{"Alder et al. found it.", "We did not."}},
		{"See Fig. 2 and Table 3. The rest follows.", []string{"See Fig. 2 and Table 3.", "The rest follows."}},
		{"It was 3.5 vs. 4.1 mm. No more.", []string{"It was 3.5 vs. 4.1 mm.", "No more."}},
		{"Growth of P. gingivalis and S. aureus fell. It stopped.", []string{"Growth of P. gingivalis and S. aureus fell.", "It stopped."}},
		{"This held in group C. The others failed.", []string{"This held in group C.", "The others failed."}},
		{"It was tested at 37 °C. No file broke.", []string{"It was tested at 37 °C.", "No file broke."}},
		{"The bond was restored with Marel F. According to the makers it is new.", []string{"The bond was restored with Marel F.", "According to the makers it is new."}},
		{"The layer is lost quickly.[20-21] The rest stays.", []string{"The layer is lost quickly.[20-21]", "The rest stays."}},
		{"It is a strong cement.27-30 Moreover, it sets fast.", []string{"It is a strong cement.27-30", "Moreover, it sets fast."}},
		{"It depends on dose. 5000 ppm fluoride helped.", []string{"It depends on dose.", "5000 ppm fluoride helped."}},
		{"Values (i.e. means, e.g. 3 mm) differed. P < .05 was kept.", []string{"Values (i.e. means, e.g. 3 mm) differed.", "P < .05 was kept."}},
		{"Approx. 5 mm were lost! Why? Nobody knows.", []string{"Approx. 5 mm were lost!", "Why?", "Nobody knows."}},
		{"It was less (P<.05). However, it held.", []string{"It was less (P<.05).", "However, it held."}},
		{"J. Alder wrote it. K. Birch read it.", []string{"J. Alder wrote it.", "K. Birch read it."}},
		{"He said “it broke.” Then he left.", []string{"He said “it broke.”", "Then he left."}},
		{"One sentence without an end", []string{"One sentence without an end"}},
	}
	for _, tt := range tests {
		r := newReader(&claims.Study{}, catalog.Default())
		toks := r.lex.run(tt.text)
		var got []string
		split(toks, func(from, to int) { got = append(got, tt.text[toks[from].start:toks[to-1].end]) })
		if len(got) != len(tt.want) {
			t.Errorf("split(%q) = %q, want %q", tt.text, got, tt.want)
			continue
		}
		for i := range got {
			if got[i] != tt.want[i] {
				t.Errorf("split(%q)[%d] = %q, want %q", tt.text, i, got[i], tt.want[i])
			}
		}
	}
}

func TestNumbers(t *testing.T) {
	tests := []struct {
		text string
		want []float64
	}{
		{"12 12.5 .05 0·72 1,083 1,083.82 23,5 0,02", []float64{12, 12.5, .05, .72, 1083, 1083.82, 23.5, .02}},
		{"from −17 to -10 and 5-7", []float64{-17, -10, 5, 7}},
		{"3.5–4.1 and (–2.1)", []float64{3.5, 4.1, -2.1}},
		{"et al34 found 5", []float64{34, 5}},
	}
	for _, tt := range tests {
		r := newReader(&claims.Study{}, catalog.Default())
		var got []float64
		for _, tok := range r.lex.run(tt.text) {
			if tok.sort == numberToken {
				got = append(got, tok.value)
			}
		}
		if len(got) != len(tt.want) {
			t.Errorf("numbers of %q = %v, want %v", tt.text, got, tt.want)
			continue
		}
		for i := range got {
			if got[i] != tt.want[i] {
				t.Errorf("numbers of %q = %v, want %v", tt.text, got, tt.want)
				break
			}
		}
	}
}

// Every row of phrases.csv must be of a kind this package knows, have a
// source, and carry a value where its kind needs one.
func TestPhrases(t *testing.T) {
	cat := catalog.Default()
	if _, err := newLexicon(cat); err != nil {
		t.Fatal(err)
	}
	if len(cat.Phrases) < 100 {
		t.Fatalf("only %d rows of phrases", len(cat.Phrases))
	}
	for _, p := range cat.Phrases {
		if p.Source == "" || p.Text == "" {
			t.Errorf("phrases.csv: %q of kind %q has no source", p.Text, p.Kind)
		}
	}
	used := map[string]bool{}
	for _, p := range cat.Phrases {
		used[p.Kind] = true
	}
	for k, name := range kindNames {
		if kind(k) != unitWord && !used[name] {
			t.Errorf("no row of phrases.csv has the kind %q", name)
		}
	}
	_, err := newLexicon(&catalog.Catalog{Phrases: []catalog.Phrase{{Text: "x", Kind: "no such kind"}}})
	if err == nil {
		t.Error("an unknown kind of phrase was taken")
	}
	_, err = newLexicon(&catalog.Catalog{Phrases: []catalog.Phrase{{Text: "twice", Kind: "k-word", Value: "two"}}})
	if err == nil {
		t.Error("a multiple without a number was taken")
	}
}
