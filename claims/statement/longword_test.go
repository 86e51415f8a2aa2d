package statement

import (
	"strings"
	"testing"

	"probity/claims/catalog"
	"probity/extract"
)

// Words of any length, in letters of one to four bytes, are one token each.
func TestLongWordsOfAnyLetters(t *testing.T) {
	cat := catalog.Default()
	for n := range 60 {
		for _, letter := range []string{"é", "Ⱥ", "ⱥ", "字", "𝐀", "a"} {
			word := strings.Repeat("x", n) + strings.Repeat(letter, 3)
			x := lexer{lex: lexiconOf(cat)}
			if toks := x.run(word + " 5"); len(toks) != 2 || toks[0].end != len(word) {
				t.Errorf("%q is read as %d tokens, want a word and a number", word, len(toks))
			}
			text := "Velto lasted 19.4% longer than Koris in " + word + "."
			doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Place: extract.Place{Section: extract.Results}, Runs: []extract.Run{{Text: text}}}}}
			if found, _ := Read(doc, testStudy(), cat); len(found) != 1 {
				t.Errorf("%q holds %d statements, want 1", text, len(found))
			}
		}
	}
}
