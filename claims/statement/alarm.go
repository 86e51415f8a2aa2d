package statement

import (
	"strings"
	"unicode"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// Alarms gives the sentences of abstract, discussion and conclusion whose own
// words go further than a bench test can carry: a result told of patients, a
// promise that no test shows. Sentences that deny, doubt, ask for more work or
// tell of others' work raise none.
func Alarms(doc *extract.Document, cat *catalog.Catalog) []claims.Alarm {
	lex := lexer{lex: lexiconOf(cat)}
	var out []claims.Alarm
	for _, p := range doc.Proses() {
		switch p.Place.Section {
		case extract.Abstract, extract.Discussion, extract.Conclusion, extract.Body:
		default:
			continue
		}
		if p.Role != extract.Paragraph {
			continue
		}
		text := p.Text()
		if !mayAlarm(text, cat) {
			continue
		}
		toks := lex.run(text)
		split(toks, func(from, to int) {
			place := p.Place
			place.Start, place.End = toks[from].start, toks[to-1].end
			if a, ok := alarmIn(toks[from:to], text[place.Start:place.End], cat); ok {
				a.Place = place
				out = append(out, a)
			}
		})
	}
	return out
}

// mayAlarm is the cheap look that most paragraphs do not pass.
func mayAlarm(text string, cat *catalog.Catalog) bool {
	low := strings.ToLower(text)
	for _, a := range cat.Alarms {
		all := true
		for _, w := range a.Words {
			all = all && strings.Contains(low, strings.TrimSuffix(w, "*"))
		}
		if all {
			return true
		}
	}
	return false
}

// quiet are the senses that take the edge off a sentence: it denies, doubts,
// or is not the authors' own.
var quiet = setOf(negation).or(setOf(citedName)).or(setOf(citedWork)).or(setOf(hedge)).or(setOf(agreement))

func alarmIn(toks []token, text string, cat *catalog.Catalog) (claims.Alarm, bool) {
	for i := range toks {
		if toks[i].is.any(quiet) {
			return claims.Alarm{}, false
		}
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	for _, a := range cat.Alarms {
		if found := a.In(words); found != nil {
			return claims.Alarm{Kind: a.Kind, Word: strings.Join(found, " … "), Text: text}, true
		}
	}
	return claims.Alarm{}, false
}
