package flow

import (
	"regexp"
	"strings"

	"probity/extract"
)

// marks open a footnote: a raised letter or digit, an asterisk, a dagger.
var legendMark = regexp.MustCompile(`^(?:[ᵃ-ᶻᴬ-ᵂ⁰¹²³⁴-⁹]|[*†‡§¶#]|\(?[a-zA-Z]\)\s|[a-zA-Z][:=]\s|[A-Za-z]\s?[,&]\s?[A-Za-z]\s?[;:=])`)

// legendWords open the notes of a table, or stand in nearly all of them.
// Source: common practice.
var legendWords = regexp.MustCompile(`(?i)^(?:notes?\b\s*[.:]|abbreviations?\b|legend\b|key\b\s*:|values? (?:are|is|with|sharing|in|marked|followed|within|represent|given)|data (?:are|is|represent|given|presented as|expressed)|means? (?:with|sharing|followed|values? (?:with|followed|sharing|marked)|marked|within|in (?:the same|each|a) )|groups? (?:with|sharing|marked|identified|connected)|(?:different|same|similar|identical|equal|dissimilar|common|distinct|shared|unlike|the same|the different)\s+(?:superscript|upper|lower|lowercase|uppercase|capital|small|letter|symbol|number|alphabet)|(?:super|sub)?script(?:s|ed)? letters?|(?:superscript|upper-?\s?case|lower-?\s?case|capital|small) letters?|letters? (?:compare|indicate|denote|in|within|represent|show|that)|(?:statistically )?significan(?:t|ce) (?:at|level)|\(?n\s*=\s*\d|n\s*[:=]|(?:sd|se|sem|ci|iqr|s\.d\.|cv)\s*[,:=(]|standard deviations?\b.{0,40}$|\(?p\s*[<>=≤≥]|ns\s*[,:=]|in (?:each|the same) (?:row|column)|(?:columns?|rows?) (?:with|sharing|marked)|adjusted (?:means|for)|source\s*:|\*)`)

// testNamed opens notes that only name the test.
var testNamed = regexp.MustCompile(`^(?i:kruskal|mann-?\s?whitney|(?:one|two|three)-?\s?way|anova|tukey|student|wilcoxon|friedman|chi-?\s?squared?|fisher|paired t)`)

// definition is a legend made of abbreviations: "SD, standard deviation; n,
// number of teeth" or "PR = first file".
var definition = regexp.MustCompile(`^(?:[A-Za-zµ%Δ][A-Za-z0-9µ%/–-]{0,11}(?:\s[A-Za-z0-9]{1,4})?\s*(?:=|:|,|–|-)\s*[^.;]{3,80}(?:[;.,]\s*|$))+$`)

// LegendLike reports a text that has the look of the notes below a table:
// marks, abbreviations, what letters mean. A sentence of the text has not.
func LegendLike(s string) bool {
	if len(s) > 1500 {
		return false
	}
	if legendMark.MatchString(s) || legendWords.MatchString(s) {
		return true
	}
	if testNamed.MatchString(s) && len(s) < 120 && !strings.Contains(s, " was ") && !strings.Contains(s, " were ") {
		return true
	}
	if len(s) < 700 && (lettersMean.MatchString(s) || len(defines.FindAllString(s, 3)) >= 2) {
		return true
	}
	return len(s) < 600 && strings.ContainsAny(s, "=:,") && definition.MatchString(s) && (abbreviates(s) || strings.Contains(s, ";"))
}

// lettersMean stands somewhere in notes that explain grouping letters.
var lettersMean = regexp.MustCompile(`(?i)\b(?:same|different|similar|identical|common)\s+(?:superscript|(?:upper|lower)-?\s?case|capital|small)?\s*(?:superscripts?|letters?)\b`)

// defines is one abbreviation with its meaning inside a note.
var defines = regexp.MustCompile(`(?:^|[;.,]\s)[A-Z][A-Za-z0-9-]{0,9}\s?[:=]\s?[A-Za-z][a-z]+`)

// abbreviates reports that the first word is an abbreviation: short, with more
// capitals than one.
func abbreviates(s string) bool {
	word := strings.TrimRight(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' || r == '=' || r == ':' })[0], ".")
	capitals := 0
	for _, r := range word {
		if r >= 'A' && r <= 'Z' {
			capitals++
		}
	}
	return len(word) <= 3 && capitals >= 1 || capitals >= 2
}

// tells are the verbs with which a sentence of the text speaks of a table:
// "Table 2 shows …" is no caption.
var tells = regexp.MustCompile(`^(?i:tables?|tab\.)\s*\S+\s*(?i:(?:also|further|clearly|thus|again)\s+)?(?i:shows?|presents?|lists?|summari[sz]es?|gives?|displays?|reports?|indicates?|demonstrates?|compares?|contains?|provides?|reveals?|depicts?|describes?|illustrates?|details?|includes?|and|is|are|was|were|has|we)\b`)

// CaptionLike reports a text that opens with a label and is a caption rather
// than a sentence about the table.
func CaptionLike(s string) bool {
	label, rest := Label(s)
	return label != "" && len(s) < 1500 && !tells.MatchString(s) && (rest == "" || rest[0] != ')' && rest[0] != ',')
}

// References reports the title of the reference list.
func References(title string) bool {
	switch fold(title) {
	case "references", "reference", "bibliography", "literature cited", "literature", "reference list", "works cited":
		return true
	}
	return false
}

// Alike reports that two titles are the same but for case, white space and
// what one of them adds at its end.
func Alike(a, b string) bool {
	a, b = strings.ToLower(extract.Fold(a)), strings.ToLower(extract.Fold(b))
	return a != "" && b != "" && (strings.HasPrefix(a, b) || strings.HasPrefix(b, a))
}
