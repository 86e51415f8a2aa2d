package assemble

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"probity/claims"
	numberrole "probity/claims/role"
	"probity/extract"
	"probity/extract/numeral"
)

// A headcount is a number of people, animals or specimens that a sentence
// gives of one group.
type headcount struct {
	n     extract.Number
	arm   *claims.Arm // nil: of a group by a name that no table has
	stage stage
}

// A stage says of which people a sentence tells. Zero: it does not say.
type stage int

const (
	allotted  stage = iota + 1 // "were randomly assigned"
	completed                  // "completed the follow-up"
	analysed                   // "were analysed", "leaving 18"
	stages
)

// headcounts reads how many the sentences count in each group. It comes when
// the tables have told the groups and their names.
func (p *paper) headcounts() [][]headcount {
	names := p.namesOfArms()
	var out [][]headcount
	for i := range p.sentences {
		s := &p.sentences[i]
		if s.place.Section == extract.Introduction || s.figure || !strings.ContainsAny(s.low, "0123456789") && !counted(s.low) {
			continue
		}
		if list := p.headsIn(s, names); len(list) > 0 {
			out = append(out, list)
		}
	}
	return out
}

// A size is a number that may count people or specimens, with the bytes it
// takes, "n = " included.
type size struct {
	extract.Number
	start, end int
	named      bool // "n = 12"
}

// countsIn lists the whole numbers of a sentence whose words do not make them
// something else for certain.
func (p *paper) countsIn(s *sentence) []size {
	if s.counts == nil {
		list := p.readCounts(s)
		s.counts = &list
	}
	return *s.counts
}

func (p *paper) readCounts(s *sentence) []size {
	worded := wordedNumbers(s.text, s.low)
	if len(worded) == 0 && !strings.ContainsAny(s.low, "0123456789") {
		return nil
	}
	tokens := numeral.Scan(s.text)
	var out []size
	for _, n := range p.numbers(s) {
		if n.Word {
			inWords(&n, worded)
		}
		if n.Decimals > 0 || n.Percent || n.Unit != "" || n.Value < 2 || n.Value > 1e5 || n.Value != float64(int(n.Value)) || !countRole(n) {
			continue
		}
		if n.Start > 0 && s.text[n.Start-1] == '/' || n.End < len(s.text) && s.text[n.End] == '/' {
			continue // "12/15"
		}
		if inRange(s.low, n.Start, n.End) {
			continue
		}
		if strings.Trim(s.text[:n.Start], " (") == "" && n.End < len(s.text) && strings.IndexByte("-).:–", s.text[n.End]) >= 0 {
			continue // the number of an item
		}
		q := size{extract.Number{Text: s.text[n.Start:n.End], Value: n.Value}, n.Start, n.End, false}
		for _, t := range tokens {
			if t.Form == numeral.N && t.Start <= n.Start && n.Start < t.End && t.Number.Value == n.Value && t.Number.Relation == extract.Equal {
				q.start, q.named = t.Start, true
			}
		}
		out = append(out, q)
	}
	return out
}

// inRange reports whether a number is an end of a range: "4 to 5", "1900–2100".
func inRange(low string, start, end int) bool {
	return rangeBefore.MatchString(low[max(0, start-24):start]) || rangeBehind.MatchString(low[end:])
}

var (
	rangeBefore = regexp.MustCompile(`\d\s*(?:[-–−—~]|to|or)\s*$|\b(?:two|three|four|five|six|seven|eight|nine|ten|twelve)\s+(?:to|or)\s+$|\bbetween\s+$`)
	rangeBehind = regexp.MustCompile(`^\s*(?:[-–−—~]\s*\d|(?:to|or)\s+(?:\d|two\b|three\b|four\b|five\b|six\b|seven\b|eight\b|nine\b|ten\b|eleven\b|twelve\b))`)
)

// inWords takes the whole of a number in words: "one hundred and eighty".
func inWords(n *numberrole.Number, worded []worded) {
	for _, w := range worded {
		if w.end == n.End {
			n.Start, n.Value = w.start, w.n.Value
			return
		}
		if w.start <= n.Start && n.Start < w.end {
			n.Value = 0 // a part of one that is read at its end
			return
		}
	}
}

// countRole reports whether a number may be a size by its role.
func countRole(n numberrole.Number) bool {
	switch n.Role.Best.Value {
	case numberrole.N, numberrole.Total:
		return true
	case numberrole.Count, numberrole.Level, numberrole.Name, numberrole.Other, numberrole.NotKnown:
		return !n.Role.Sure()
	}
	return false
}

// headsIn reads the headcounts of one sentence.
func (p *paper) headsIn(s *sentence, names *armNames) []headcount {
	sizes := p.countsIn(s)
	if len(sizes) == 0 || !strings.Contains(s.low, "=") && !dividing.MatchString(s.low) || partly.MatchString(s.low) || strings.Contains(s.low, "subgroup") || planned(s.low) || ofOneOutcome.MatchString(s.low) || !dividing.MatchString(s.low) && !slices.ContainsFunc(sizes, func(q size) bool { return q.named }) {
		return nil
	}
	if list := inOrder(s, sizes, names); list != nil {
		return list
	}
	var out []headcount
	k := stageOf(s.low)
	if tellsOfPart(s, sizes, k) {
		return nil
	}
	for i, q := range sizes {
		from, to := 0, len(s.text)
		if i > 0 {
			from = sizes[i-1].end
		}
		if i+1 < len(sizes) {
			to = sizes[i+1].start
		}
		if bothSexes(s.low, q.end) || !kept(s.low, q.start) {
			continue
		}
		if k == 0 && !q.named && q.Value < 10 {
			continue // some of whom something is told
		}
		if otherThings(s, sizes[:i+1]) || ofOthers(s.low, q) {
			continue
		}
		if arm, ok := p.whose(s, q, from, to, names); ok {
			out = append(out, headcount{p.at(s, q), arm, k})
		}
	}
	return out
}

func (p *paper) at(s *sentence, q size) extract.Number {
	n := q.Number
	n.Place = s.place
	n.Place.Start, n.Place.End = s.place.Start+q.start, s.place.Start+q.end
	return n
}

// whose finds the group that a number counts: the one named before its
// bracket, within it, behind "in" or "received", or before "included".
func (p *paper) whose(s *sentence, q size, from, to int, names *armNames) (*claims.Arm, bool) {
	if open := openBracket(s.text, q.start); open >= 0 {
		shut := closing(s.text, open)
		if shut < 0 || shut-open > 120 {
			return nil, false
		}
		inner := s.text[open+1:q.start] + " " + s.text[min(q.end, shut):shut]
		if open < from || to < shut {
			left, right := max(open+1, min(from, q.start)), max(q.end, min(to, shut))
			inner = partOf(s.text[left:right], q.start-left, q.end-left)
		}
		if a := names.only(inner); a != nil && (q.named || q.Value >= 5 && countsOnly(inner, names)) {
			return a, true
		}
		if open < from || to < shut {
			return p.follows(s, q, min(to, shut), names) // several numbers in one bracket
		}
		if everyGroup.MatchString(s.low[open:shut]) || strings.Contains(s.low[open:shut], "each") || strings.Contains(s.low[open:shut], "per ") {
			return nil, false
		}
		if !q.named && !headNoun.MatchString(s.low[q.end:shut]) && strings.TrimSpace(s.low[q.end:shut]) != "" {
			return nil, false
		}
		if !q.named && q.end == shut && !grouped.MatchString(s.low[max(from, open-40):open]) {
			return nil, false
		}
		return p.ending(s.text[from:open], names)
	}
	if a, ok := p.follows(s, q, to, names); ok {
		return a, true
	}
	return p.precedes(s, q, from, names)
}

// tellsOfPart reports whether a sentence counts those of each group of whom
// something is told.
func tellsOfPart(s *sentence, sizes []size, k stage) bool {
	return slices.ContainsFunc(sizes, func(q size) bool {
		return fateBefore.MatchString(s.low[max(0, q.start-30):q.start]) || k == 0 && withTrait.MatchString(s.low[q.end:])
	})
}

// otherThings reports whether the last of some numbers counts things that are
// neither people nor specimens: "42 clinics", and "111" in "307 referrals, of
// which 111 of the control group".
func otherThings(s *sentence, sizes []size) bool {
	for i := len(sizes) - 1; i >= 0; i-- {
		after := s.low[sizes[i].end:]
		if headNoun.MatchString(after) {
			return false
		}
		if w := firstWord(strings.TrimLeft(after, " ")); after != "" && after[0] == ' ' && clusters[single(w)] {
			return true
		}
		if sizes[i].named {
			return false
		}
	}
	return false
}

// ofOthers reports whether a number without a noun is one of those that are
// counted before it and are no people: "111" in "307 referrals, of which 111 of
// the control group".
func ofOthers(low string, q size) bool {
	if q.named || headNoun.MatchString(low[q.end:]) {
		return false
	}
	found := counting.FindAllStringSubmatchIndex(low[:q.start], -1)
	if len(found) == 0 {
		return false
	}
	last := found[len(found)-1]
	return clusters[single(low[last[2]:last[3]])] && !headNoun.MatchString(" "+low[last[3]:q.start])
}

// counting is a number with the noun of what it counts.
var counting = regexp.MustCompile(`\b\d+ ([\p{L}]+)`)

// clusters are what people are counted by, or in.
var clusters = map[string]bool{"referral": true, "cluster": true, "clinic": true, "practice": true, "hospital": true, "center": true, "centre": true, "community": true, "communitie": true, "village": true,
	"school": true, "classe": true, "facility": true, "facilitie": true, "home": true, "household": true, "session": true, "visit": true, "episode": true, "event": true, "procedure": true, "provider": true, "pharmacy": true, "pharmacie": true,
	"questionnaire": true, "site": true, "ward": true, "unit": true, "cycle": true, "day": true, "week": true, "month": true, "family": true, "familie": true, "district": true, "record": true, "measurement": true, "region": true}

// countsOnly reports whether a text says nothing but the name of a group and
// what is counted in it: "lamp group, 20 patients", but not "lamp, pH 5".
func countsOnly(inner string, names *armNames) bool {
	if strings.Contains(inner, "%") {
		return false
	}
	at := 0
	for _, m := range append(names.in(inner), mentioned{nil, len(inner), len(inner)}) {
		for _, w := range strings.FieldsFunc(extract.Lower(inner[at:m.start]), func(r rune) bool { return !unicode.IsLetter(r) }) {
			if w = single(w); !plainWords[w] && !headNoun.MatchString(" "+w) && w != "had" && w != "the" && w != "and" && w != "of" && w != "with" {
				return false
			}
		}
		at = m.end
	}
	return true
}

// partOf is the part of a bracket that a number stands in, without it: between
// commas and semicolons, with the name that goes before "n = 12".
func partOf(inner string, start, end int) string {
	from := strings.LastIndexAny(inner[:start], ";") + 1
	if i := strings.LastIndexByte(inner[from:start], ','); i >= 0 && strings.Trim(inner[from+i+1:start], " ") != "" {
		from += i + 1
	}
	to := len(inner)
	if i := strings.IndexAny(inner[end:], ";,"); i >= 0 {
		to = end + i
	}
	return inner[from:start] + " " + inner[end:to]
}

// ending finds the group that a text ends with.
func (p *paper) ending(text string, names *armNames) (*claims.Arm, bool) {
	text = strings.TrimRight(text, " ,:")
	if strings.HasSuffix(text, ")") {
		if i := strings.LastIndexByte(text, '('); i > 0 {
			text = strings.TrimRight(text[:i], " ")
		}
	}
	found := names.in(text)
	if len(found) > 0 {
		last := found[len(found)-1]
		if plainRest(text[last.end:]) {
			return last.arm, true
		}
	}
	phrase := phraseEnd(text)
	if !grouped.MatchString(extract.Lower(phrase)) && len(strings.Fields(phrase)) > 5 {
		return nil, false
	}
	if everyGroup.MatchString(extract.Lower(phrase)) {
		return nil, false
	}
	if a := names.like(phrase); a != nil {
		return a, true
	}
	return nil, grouped.MatchString(extract.Lower(phrase))
}

// plainRest reports whether a text adds nothing to the name before it: "group",
// "treated patients".
func plainRest(s string) bool {
	if strings.ContainsAny(s, ",;:.(") {
		return false
	}
	for _, w := range strings.Fields(extract.Lower(s)) {
		if w = single(w); !plainWords[w] && w != "cohort" && w != "condition" && w != "diet" {
			return false
		}
	}
	return true
}

// phraseEnd gives the last phrase of a text: the words behind the last comma,
// "and", "to".
func phraseEnd(s string) string {
	for _, sep := range []string{",", ";", ":", "(", ")", " and ", " or ", " to ", " into ", " either ", " versus ", " received ", " in ", " of ", " were ", " was "} {
		if i := strings.LastIndex(s, sep); i >= 0 {
			s = s[i+len(sep):]
		}
	}
	return strings.TrimSpace(s)
}

var (
	// dividing words make a sentence one that tells who was in which group.
	dividing = regexp.MustCompile(`\b(?:assign|allocat|randomi[sz]|divided|enrol|recruit|includ|compris|consist|contain|compos|receiv|underw|complet|finish|analy[sz]|evaluat|studied|remain|leaving|treated|conclud|measur|there were|participat|follow)`)
	// grouped: of a group: "lamp group", "control".
	grouped = regexp.MustCompile(`\b(?:group|arm|cohort|control|placebo|sham|intervention|treatment|experimental)s?\b`)
	// everyGroup tells of all groups at once.
	everyGroup = regexp.MustCompile(`\b(?:each|both|every|either|all|per|two|three|four|five|six|these)\b.*\b(?:group|arm|cohort)s?\b|\bgroups\b|\barms\b`)
	// headNoun: what a number counts: "22 healthy adults".
	headNoun = regexp.MustCompile(`^\s*(?:[\p{L}-]+\s+){0,3}(?:patient|subject|participant|women|men|child|infant|animal|rat|mice|mouse|dog|rabbit|individual|adult|volunteer|student|people|person|case|eye|teeth|tooth|specimen|sample|implant|root|canal|file|instrument|knee|hip|limb|boy|girl|male|female|horse|pig|cow|sheep|lamb|calve|steer|bird|chick|site|molar|premolar|block|disc|disk)`)
	// forward: what leads from a number to its group: "22 patients were allocated to the …".
	forward = regexp.MustCompile(`^\s*(?:[\p{L}'’/-]+\s+){0,7}?(?:in|to|into|for|from|on|of|receiv\w+|underwent|undergoing|took|taking|treated with|given|with|allocated|assigned)\s+(?:either\s+|receive\s+|have\s+|undergo\s+|the\s+|an?\s+)*`)
	// backward: what leads from a group to its number: "the lamp group included …".
	backward = regexp.MustCompile(`(?:\b(?:included|includes|comprised|comprises|consisted of|contained|composed of|made up of|formed by|was|had|with|of|totalled)|[:,=–-])\s*(?:a total of\s+)?$`)
	// lostWords: of people who left.
	lostWords = regexp.MustCompile(`\b(?:exclu|withdr|dropped|drop-?\s?outs?\b|lost\b|left the|discontinu|did not|refus|declin|died|deaths?\b|non-?complet|missed|missing|not complete|incomplete|unable|stopped|events?\b|ineligib|attrition)`)
	// keptWords: of those left after them.
	keptWords = regexp.MustCompile(`\b(?:leaving|remaining|remained|finally|final|complet|analy[sz]|evaluat|resulting|therefore|thus|randomi[sz]|allocat|assign)`)
	// analysedWords: see stage.
	analysedWords  = regexp.MustCompile(`\b(?:leaving|remaining|remained|finally|final|analy[sz]ed|studied|included in the (?:\w+ )?analys[ie]s)\b`)
	completedWords = regexp.MustCompile(`\b(?:completed|completing|finished|available|followed)\b`)
	allottedWords  = regexp.MustCompile(`\b(?:assigned|allocated|randomi[sz]ed|randomly|divided|allotted|distributed|enrolled|recruited|consisted|comprised)\b`)
	// fateWords: something is told of these people: they are a part of a group.
	fateWords = regexp.MustCompile(`^[^.;]*?\b(?:had|have|has|developed|experienced|reported|showed|required|suffered|improved|responded|achieved|were (?:male|female|men|women|smok|positive|diagnos|diabet|taking|treated for|lost|unable)|achieving|with (?:a |an )?(?:history|diabetes|hypertension))\b`)
	// fateBefore: "… was seen in 15 patients of the lamp group".
	fateBefore = regexp.MustCompile(`\b(?:observed|seen|found|noted|detected|occurred|reported|recorded|achieved|developed|present|diagnosed|identified|needed|experienced|required)\s+(?:only\s+)?(?:in|by|for|among)\s+$`)
	// withTrait: "18 cases with elevated lipids".
	withTrait = regexp.MustCompile(`^\s+(?:[\p{L}-]+\s+){0,3}?(?:patients|subjects|participants|cases|women|men|children|individuals|people|eyes|teeth|implants)\s+(?:with|who|having|whose)\b[^.;]*?\bin (?:the |an? )?(?:[\p{L}-]+\s+){0,3}(?:group|arm)\b`)
	// ofOneOutcome: of those in whom one thing could be measured.
	ofOneOutcome = regexp.MustCompile(`\bdata (?:on|for|about|of|regarding|concerning)\b[^.;]*\b(?:was|were) (?:only )?available\b`)
	// ofThose: "25 of those received …".
	ofThose = regexp.MustCompile(`^\s*(?:of (?:those|them|these|whom)|had|have)\b`)
	// ofWhole: "of the 25 patients …".
	ofWhole = regexp.MustCompile(`\b(?:of|of the|of all|all|first|every|each)\s+$`)
	// ofTotal: "a total of 25 patients".
	ofTotal = regexp.MustCompile(`\b(?:total|data|results|records|measurements|consist\w*|compos\w*|made up|number|sample|cohort|groups?|population) of\s+$`)
	// ofGroup: "15 of the control group".
	ofGroup = regexp.MustCompile(`^\s*(?:[\p{L}’'/-]+\s+){0,3}?of\b`)
	// oneOf: "… to lamp or sham".
	oneOf = regexp.MustCompile(`^[^;]*?\bor\b`)
	// partly: of a part of the sample.
	partly = regexp.MustCompile(`\b(?:subset|sub-?sample|substudy|sub-study)`)
	// sexes: "12 men and 10 women".
	sexes = regexp.MustCompile(`^\s*(?:[\p{L}-]+\s+){0,2}(?:men|women|males?|females?|boys|girls|man|woman)\b`)
)

// bothSexes reports whether a number counts one sex of a group.
func bothSexes(low string, end int) bool {
	if !sexes.MatchString(low[end:]) {
		return false
	}
	return hasAny(low, " women", " female", " girls", "(female", "(women") && hasAny(low, " men ", " men,", " men)", " male", " boys", "(male")
}

// kept reports whether a number is not one of people lost.
func kept(low string, at int) bool {
	if !lostWords.MatchString(low) {
		return true
	}
	found := keptWords.FindAllStringIndex(low[:at], -1)
	if len(found) == 0 {
		return false
	}
	return !lostWords.MatchString(low[found[len(found)-1][0]:])
}

// stageOf tells from the words of a sentence at which stage its people were
// counted.
func stageOf(low string) stage {
	switch {
	case analysedWords.MatchString(low):
		return analysed
	case completedWords.MatchString(low):
		return completed
	case allottedWords.MatchString(low):
		return allotted
	}
	return 0
}

// follows reads "19 in the control group", "20 received placebo", "17
// controls".
func (p *paper) follows(s *sentence, q size, to int, names *armNames) (*claims.Arm, bool) {
	rest := s.text[q.end:to]
	low := s.low[q.end:to]
	for _, stop := range []string{";", "(", ". "} {
		if i := strings.Index(rest, stop); i >= 0 {
			rest, low = rest[:i], low[:i]
		}
	}
	of := ofGroup.MatchString(low)
	if of && stageOf(s.low) < completed {
		return nil, false
	}
	if p.opensNext(s, q, to) {
		return nil, false
	}
	if fateWords.MatchString(toStop(s.low[q.end:])) || ofThose.MatchString(low) || ofAll(s.low[:q.start]) || !q.named && q.Value < 5 {
		return nil, false
	}
	if found := names.in(rest); len(found) > 0 && strings.TrimSpace(rest[:found[0].start]) == "" && q.end < len(s.text) && s.text[q.end] == ' ' && !q.named {
		after := rest[found[0].end:]
		if strings.HasSuffix(rest[:found[0].end], "s") && len(armsAmong(found)) == 1 || headNoun.MatchString(extract.Lower(after)) || strings.TrimLeft(after, " ,") == "" || strings.TrimSpace(after) == "and" {
			return found[0].arm, true
		}
	}
	link := forward.FindStringIndex(low)
	if link == nil {
		return nil, false
	}
	phrase := cutPhrase(rest[link[1]:])
	if strings.Contains(low[:link[1]], "either") || oneOf.MatchString(s.low[q.end+link[1]:to]) {
		return nil, false
	}
	if everyGroup.MatchString(extract.Lower(phrase)) {
		return nil, false
	}
	found := names.in(phrase)
	if arms := armsAmong(found); len(arms) == 1 && len(strings.Fields(phrase[:found[0].start])) <= 3 {
		return arms[0], true
	} else if len(arms) > 1 {
		return nil, false
	}
	lowPhrase := extract.Lower(phrase)
	if a := names.like(phrase); a != nil {
		return a, true
	}
	return nil, strings.Contains(lowPhrase, "group") || strings.Contains(lowPhrase, " arm") || strings.HasPrefix(lowPhrase, "control") || strings.HasPrefix(lowPhrase, "placebo")
}

// opensNext reports whether a bracket stands between a number and the next one
// that may be a size: "43 patients were assigned to the lamp group (n = 22)". The
// words between them name the group of the next one.
func (p *paper) opensNext(s *sentence, q size, to int) bool {
	return to < len(s.text) && openBracket(s.text, to) > q.end && openBracket(s.text, q.start) < 0
}

// toStop is a text up to its first stop.
func toStop(s string) string {
	if i := strings.IndexAny(s, ",;.("); i >= 0 {
		return s[:i]
	}
	return s
}

// ofAll reads "of the" before a number that others are a part of, but not "a
// total of".
func ofAll(before string) bool { return ofWhole.MatchString(before) && !ofTotal.MatchString(before) }

// cutPhrase ends a phrase at a comma, "and" or the words of how long.
func cutPhrase(s string) string {
	if i := strings.Index(s, " for "); i > 0 {
		s = s[:i]
	}
	if i := strings.IndexAny(s, ",:"); i >= 0 {
		s = s[:i]
	}
	s = strings.TrimRight(s, " ")
	return strings.TrimSuffix(strings.TrimSuffix(s, " and"), " or")
}

// precedes reads "the control group included 19 patients", "control group:
// 19".
func (p *paper) precedes(s *sentence, q size, from int, names *armNames) (*claims.Arm, bool) {
	before := s.low[from:q.start]
	link := backward.FindStringIndex(before)
	if link == nil && q.named && strings.TrimSpace(before) != "" {
		return p.ending(s.text[from:q.start], names) // "lamp group n = 12"
	}
	if link == nil || !q.named && !headNoun.MatchString(s.low[q.end:]) {
		return nil, false
	}
	if to := min(len(s.low), q.end+60); fateWords.MatchString(s.low[q.end:to]) {
		return nil, false
	}
	text := strings.TrimRight(s.text[from:from+link[0]], " ,")
	if !q.named && q.Value < 5 || ofAll(before) {
		return nil, false
	}
	if !strings.HasSuffix(extract.Lower(text), "group") && !strings.HasSuffix(extract.Lower(text), "arm") && len(names.in(text)) == 0 {
		return nil, false
	}
	return p.ending(text, names)
}

// openBracket finds the bracket that a byte stands in, -1 if it stands in
// none.
func openBracket(s string, at int) int {
	depth := 0
	for i := at - 1; i >= 0; i-- {
		switch s[i] {
		case ')', ']':
			depth++
		case '(', '[':
			if depth == 0 {
				return i
			}
			depth--
		}
	}
	return -1
}

// inOrder reads lists: "20, 19 and 21 patients in the A, B and C groups,
// respectively".
func inOrder(s *sentence, sizes []size, names *armNames) []headcount {
	if len(sizes) < 2 || !strings.Contains(s.low, "respectively") || lostWords.MatchString(s.low) || fateWords.MatchString(s.low) {
		return nil
	}
	for i := 0; i+1 < len(sizes); i++ {
		j := i
		for j+1 < len(sizes) && listed(s.low[sizes[j].end:sizes[j+1].start]) {
			j++
		}
		if j == i {
			continue
		}
		end := strings.Index(s.low[sizes[j].end:], "respectively")
		if end < 0 {
			return nil
		}
		list := sizes[i : j+1]
		counts := headNoun.MatchString(s.low[list[len(list)-1].end:]) || list[0].named ||
			headNoun.MatchString(" "+lastWords(s.low[:list[0].start], 1)) || hasAny(lastWords(s.low[:list[0].start], 3), "included", "comprised", "consisted")
		if !counts {
			return nil
		}
		arms := armsAmong(names.in(s.text[list[len(list)-1].end : list[len(list)-1].end+end]))
		if len(arms) != len(list) {
			arms = armsAmong(names.in(s.text[:list[0].start]))
		}
		if len(arms) != len(list) {
			return nil
		}
		var out []headcount
		for k, q := range list {
			n := q.Number
			n.Place = s.place
			n.Place.Start, n.Place.End = s.place.Start+q.start, s.place.Start+q.end
			out = append(out, headcount{n, arms[k], stageOf(s.low)})
		}
		return out
	}
	return nil
}

// listed reports whether only a comma or "and" stands between two numbers.
func listed(s string) bool {
	switch strings.TrimSpace(s) {
	case ",", "and", ", and", "&", "vs", "vs.", "versus", "/":
		return true
	}
	return false
}

// planned tells the sizes that were reckoned or wished for from those of the
// work.
func planned(low string) bool {
	return powerSentence(low) || hasAny(low, "we required", "were required", "was required", "is required", "are required", "are needed", "were needed", "was needed", "be needed", "we needed", "needed to",
		"planned to", "aimed to recruit", "assuming", "anticipat", "expected", "dropout rate", "drop-out rate", "a priori", "we estimated", "would be", "target sample", "clinically relevant difference")
}

// A told is what the sentences say of the size of one group.
type told struct {
	at      [stages][]extract.Number
	guessed bool // by leaving only one group for it
}

// saidN collects the headcounts of each group. In a list with one group that
// no table names by that name, it is the one group of a table that is left.
func (p *paper) saidN(lists [][]headcount) map[*claims.Arm]*told {
	out := map[*claims.Arm]*told{}
	add := func(a *claims.Arm, h headcount, guess bool) {
		t := out[a]
		if t == nil {
			t = &told{}
			out[a] = t
		}
		t.at[h.stage] = append(t.at[h.stage], h.n)
		t.guessed = t.guessed || guess
	}
	tables := unlike(p.armsOfTables())
	for _, list := range lists {
		for _, h := range list {
			if h.arm != nil {
				add(h.arm, h, false)
			}
		}
	}
	for _, list := range lists {
		p.leftOver(list, tables, func(a *claims.Arm, h headcount) {
			if out[a] == nil || out[a].guessed {
				add(a, h, true)
			}
		})
	}
	return out
}

// A tableArms is a table with its groups.
type tableArms struct {
	table string
	arms  []*claims.Arm
}

// armsOfTables lists the groups of each table with measures, without those
// that stand for all.
func (p *paper) armsOfTables() []tableArms {
	at := map[string]int{}
	type armIn struct {
		table int
		arm   *claims.Arm
	}
	seen := map[armIn]bool{}
	var out []tableArms
	for _, m := range p.study.Measures {
		if m.Arm == nil || wholeSample(m.Arm) {
			continue
		}
		i, ok := at[m.Place.Table]
		if !ok {
			i = len(out)
			at[m.Place.Table] = i
			out = append(out, tableArms{table: m.Place.Table})
		}
		if k := (armIn{i, m.Arm}); !seen[k] {
			seen[k] = true
			out[i].arms = append(out[i].arms, m.Arm)
		}
	}
	return out
}

// unlike leaves out the tables that have the groups of one before them.
func unlike(tables []tableArms) []tableArms {
	seen := map[string]bool{}
	return slices.DeleteFunc(tables, func(t tableArms) bool {
		var k strings.Builder
		for _, a := range t.arms {
			fmt.Fprintf(&k, "%p ", a)
		}
		if seen[k.String()] {
			return true
		}
		seen[k.String()] = true
		return false
	})
}

// leftOver gives the groups of tables that have as many as a list of
// headcounts what the list does not give to a group by its name: the last one,
// or all of them where all numbers are alike.
func (p *paper) leftOver(list []headcount, tables []tableArms, give func(*claims.Arm, headcount)) {
	var known []*claims.Arm
	var unknown []headcount
	alike := true
	for _, h := range list {
		alike = alike && h.n.Value == list[0].n.Value
		if h.arm == nil {
			unknown = append(unknown, h)
		} else {
			known = append(known, h.arm)
		}
	}
	if len(list) < 2 || len(unknown) == 0 || len(known)+len(unknown) != len(list) || len(unknown) > 1 && !alike {
		return
	}
	for _, t := range tables {
		arms := t.arms
		if len(arms) != len(list) {
			continue
		}
		var rest []*claims.Arm
		for _, a := range arms {
			if !slices.Contains(known, a) {
				rest = append(rest, a)
			}
		}
		if len(rest) != len(unknown) {
			continue
		}
		for i, a := range rest {
			give(a, unknown[i])
		}
	}
}

// settle chooses among what is said of a group: those analysed before those
// allotted to it. What other sentences say holds where they agree. The note
// names a number that differs.
func (t *told) settle() (n extract.Number, why, note string) {
	why = "text, of this group"
	if t.guessed {
		why = "text, of the one group left"
	}
	at := func(k stage) (extract.Number, bool) { return first(t.at[k]), len(t.at[k]) > 0 && same(t.at[k]) }
	in, allot := at(allotted)
	left, analysis := at(analysed)
	done, complete := at(completed)
	switch {
	case analysis && (!allot || left.Value <= in.Value && left.Value*2 > in.Value):
		if allot && left.Value != in.Value {
			note = in.Text + " are said to have been allotted to the group, " + left.Text + " to have been analysed"
		}
		return left, why, note
	case allot:
		if complete && done.Value < in.Value {
			note = in.Text + " are said to have been allotted to the group, " + done.Text + " to have completed"
		}
		return in, why, note
	case complete && len(t.at[0]) > 0 && same(t.at[0]) && t.at[0][0].Value > done.Value:
		return done, why, "" // more than those who completed: other things are counted
	}
	if said := slices.Concat(t.at[:]...); len(said) > 0 && same(said) {
		return said[0], why, ""
	}
	return extract.Number{}, "", ""
}

func first(list []extract.Number) extract.Number {
	if len(list) == 0 {
		return extract.Number{}
	}
	return list[0]
}

// captionN gives the n that caption and notes of a table print for a group to
// its measures: "lamp (n = 12) or sham (n = 11)".
func (p *paper) captionN() {
	names := p.namesOfArms()
	of := map[string]map[*claims.Arm]*told{}
	for _, t := range p.doc.Tables() {
		var lists [][]headcount
		for _, text := range append([]string{t.Caption}, t.Notes...) {
			for _, at := range pieces(text, cutSentences(text)) {
				s := &sentence{text: text[at[0]:at[1]], low: extract.Lower(text[at[0]:at[1]]), place: t.Place}
				if !strings.ContainsAny(s.low, "0123456789") && !counted(s.low) {
					continue
				}
				if list := p.headsIn(s, names); len(list) > 0 {
					lists = append(lists, list)
				}
			}
		}
		if len(lists) > 0 {
			of[t.Place.Table] = p.saidN(lists)
		}
	}
	for _, m := range p.study.Measures {
		if t := of[m.Place.Table][m.Arm]; t != nil && !m.N.Known() && m.Arm != nil {
			if n, _, _ := t.settle(); n.Known() {
				m.N = claims.Quantity{Number: n, Origin: claims.Printed, Why: "caption or notes, of this group"}
			}
		}
	}
}

// notOfAll takes back the one n of a caption from the groups of its table
// where the text gives each group fewer: it is that of all together, or of
// those analysed. Where it is just the sum, each group has its own.
func (p *paper) notOfAll(said map[*claims.Arm]*told, whole *sample) map[*claims.Measure]bool {
	left := map[*claims.Measure]bool{}
	if whole.crossed || whole.single {
		return left
	}
	sums := map[string]float64{}
	for _, tb := range p.armsOfTables() {
		for _, a := range tb.arms {
			if t := said[a]; t != nil {
				n, _, _ := t.settle()
				sums[tb.table] += n.Value
			}
		}
	}
	for _, m := range p.study.Measures {
		if m.Arm == nil || wholeSample(m.Arm) || m.N.Why != "caption" && m.N.Why != "note" {
			continue
		}
		n := m.N.Value
		if t := said[m.Arm]; t != nil {
			if own, _, _ := t.settle(); own.Known() && own.Value < n {
				m.N = claims.Quantity{}
				left[m] = sums[m.Place.Table] != n
			}
		} else if whole.n.Known() && whole.n.Value == n {
			m.N = claims.Quantity{}
		}
	}
	return left
}
