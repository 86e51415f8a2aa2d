package assemble

import (
	"regexp"
	"strings"

	"probity/claims"
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
	caption := t.caption.clean
	low, word := extract.Lower(caption), extract.Lower(m.Outcome)
	for from := 0; ; {
		i := strings.Index(low[from:], word)
		if i < 0 {
			return
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
		m.Outcome += " of " + strings.TrimSpace(found[1])
		if o != nil && m.OutcomeID == "" {
			m.OutcomeID = o.ID
		}
		return
	}
}
