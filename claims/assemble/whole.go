package assemble

import (
	"regexp"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// ofWhat finds what follows "percentages of", "volume of" in a caption, up to
// the next mark or the words that end such a name.
var ofWhat = regexp.MustCompile(`(?i)^s?\s+of\s+(?:the\s+)?([\p{L}][\p{L}\s-]*?)\s*(?:[,;:.()\[\]]|\band\s+standard\b|\bafter\b|\bbefore\b|\bin\b|\bof\s+the\b|\bfor\b|$)`)

// nameWhole completes an outcome that a heading leaves half said: under the
// caption "mean percentages of dentine removed", the column "Percentage" holds
// the percentage of dentine removed. Names the catalogue knows are whole.
func (t *table) nameWhole(m *claims.Measure) {
	if m.Outcome == "" || strings.ContainsAny(m.Outcome, " ,") || t.ls.cat.FindOutcome(m.Outcome) != nil {
		return
	}
	w, ok := t.wholes[m.Outcome]
	if !ok {
		w = t.wholeName(m.Outcome)
		if t.wholes == nil {
			t.wholes = map[string]wholeName{}
		}
		t.wholes[m.Outcome] = w
	}
	if w.rest != "" {
		m.Outcome += " of " + w.rest
		if w.outcome != nil && m.OutcomeID == "" {
			m.OutcomeID = w.outcome.ID
		}
	}
}

// wholeName is what the caption adds to a name, and the outcome that this is.
type wholeName struct {
	rest    string
	outcome *catalog.Outcome
}

func (t *table) wholeName(name string) wholeName {
	caption := t.caption.clean
	low, word := extract.Lower(caption), extract.Lower(name)
	for from := 0; ; {
		i := strings.Index(low[from:], word)
		if i < 0 {
			return wholeName{}
		}
		from += i + len(word)
		found := ofWhat.FindStringSubmatch(caption[from:])
		if found == nil {
			continue
		}
		o := t.ls.cat.FindOutcome(found[1])
		if o == nil && t.headOnly(found[1]) {
			continue // "of the groups" says nothing
		}
		return wholeName{strings.TrimSpace(found[1]), o}
	}
}
