package assemble

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"probity/claims"
	numberrole "probity/claims/role"
	"probity/extract"
	"probity/extract/numeral"
)

// design is what the text says of n before the tables are read.
type design struct {
	groupN, subN  extract.Number // n of each group, of each subgroup
	controlN      extract.Number // n of each control group, where it is another
	total, groups extract.Number
	totalText     string // the sentence of the total
}

func itoa(n int) string { return strconv.Itoa(n) }

// readDesign reads level, totals, n per group, tests and conditions from
// title, abstract and methods, and the convention of spread from the whole
// text.
func (p *paper) readDesign() {
	for i := range p.sentences {
		s := &p.sentences[i]
		if s.place.Section == extract.Introduction {
			continue
		}
		p.tests(s)
		p.spreadConvention(s)
		p.wholeUnits(s)
		if powerSentence(s.low) {
			continue
		}
		p.alpha(s)
		if s.place.Section == extract.Results && strings.Contains(s.low, "each") && stageOf(s.low) > 0 {
			p.sampleSizes(s, p.sizes(s, numeral.Scan(s.text)))
		}
		if s.place.Section != extract.Results {
			tokens := numeral.Scan(s.text)
			p.sampleSizes(s, p.sizes(s, tokens))
			p.conditions(s, tokens)
		}
		p.runOuts(s)
	}
	d := &p.study.Design
	p.settleN()
	d.Bench = p.bench()
}

// sizes leaves out the numbers that are no sizes of samples or groups: doses,
// times, levels, citations.
func (p *paper) sizes(s *sentence, tokens []numeral.Token) []numeral.Token {
	if len(tokens) == 0 {
		return nil
	}
	numbers := p.numbers(s)
	var out []numeral.Token
	for _, t := range tokens {
		if !otherThanSize(numbers, t.Start, t.End) {
			out = append(out, t)
		}
	}
	return out
}

// otherThanSize reports a number between two bytes whose words make it
// something else than a size for certain.
func otherThanSize(numbers []numberrole.Number, start, end int) bool {
	for _, n := range numbers {
		if n.Start < start || n.Start >= end {
			continue
		}
		switch n.Role.Best.Value {
		case numberrole.Dose, numberrole.TimePoint, numberrole.Duration, numberrole.Level, numberrole.Percent, numberrole.P, numberrole.Year, numberrole.Citation,
			numberrole.Threshold, numberrole.Spread, numberrole.Bound, numberrole.Money:
			return n.Role.Sure()
		}
		return false
	}
	return false
}

// powerSentence tells the sizes of a power calculation from those of the
// work.
func powerSentence(low string) bool {
	for _, w := range []string{"sample size", "power of", "power analysis", "power calculation", "statistical power", "% power", "power (", "of detecting", "to detect a", "β error", "type ii error"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

func (p *paper) fact(s *sentence, id string, n extract.Number, unit string, start, end int) claims.Fact {
	at := s.place
	base := s.place.Start
	at.Start, at.End = base+start, base+end
	n.Place = at
	return claims.Fact{ID: id, Value: n, Unit: unit, Text: s.text, Place: at}
}

// tests keeps the tests that abstract and methods name.
func (p *paper) tests(s *sentence) {
	for _, m := range p.ls.cat.FindTests(s.text) {
		id := "test:" + m.Row.ID
		known := false
		for _, f := range p.study.Design.Tests {
			known = known || f.ID == id
		}
		if !known {
			f := p.fact(s, id, extract.Number{}, "", m.Start, m.End)
			f.Text = s.text[m.Start:m.End]
			p.study.Design.Tests = append(p.study.Design.Tests, f)
		}
	}
}

// alpha reads the level of significance: "significance level of 5%", "α =
// 0.05", "p < 0.05 was considered significant". A paper that states two keeps
// none: which holds for which result is not known.
func (p *paper) alpha(s *sentence) {
	if s.place.Section == extract.Results || s.place.Section == extract.Discussion || !strings.Contains(s.low, "signific") && !strings.Contains(s.low, "α") && !strings.Contains(s.low, "alpha") {
		return
	}
	if powerSentence(s.low) {
		return
	}
	rule := ruleOfLevel(s.low)
	for _, t := range p.numbers(s) {
		is := t.Role.Best.Value
		if is != numberrole.Alpha && !(is == numberrole.P && rule) || !t.Role.Sure() || ofOneTest(around(s.low, t.Start, t.End)) {
			continue
		}
		n := extract.Number{Text: s.text[t.Start:t.End], Value: t.Value, Decimals: t.Decimals}
		if t.Percent {
			n.Value, n.Decimals = n.Value/100, n.Decimals+2
		}
		if n.Value <= 0 || n.Value > 0.2 {
			continue
		}
		switch d := &p.study.Design; {
		case p.alphas == 0:
			d.Alpha = p.fact(s, "alpha", n, "", t.Start, t.End)
		case d.Alpha.Value.Value == n.Value:
			return
		default:
			d.Alpha = claims.Fact{}
		}
		p.alphas++
		return
	}
}

// around gives the words beside a number, back to the stop before it.
func around(low string, start, end int) string {
	from := max(0, start-120)
	if i := strings.LastIndex(low[from:min(start, len(low))], ". "); i >= 0 {
		from += i
	}
	return low[from:min(len(low), end+60)]
}

// ofOneTest tells the level of one test among several, or a corrected one, from
// that of the paper.
func ofOneTest(low string) bool {
	for _, w := range []string{"bonferroni", "correct", "pairwise", "multiple", "post hoc", "post-hoc", "mann", "wilcoxon", "interim", "normality", "entry", "remove", "adjusted"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// ruleOfLevel tells "p < 0.05 was considered significant" from a result.
func ruleOfLevel(low string) bool {
	for _, w := range []string{"considered", "regarded", "deemed", "accepted", "defined", "was set", "were set", "set at", "taken as", "taken to", "level of", "significance level", "indicated", "denote", "chosen", "assumed"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// spreadConvention reads what a ± of this paper is: "values are expressed as
// mean ± SD".
func (p *paper) spreadConvention(s *sentence) {
	d := &p.study.Design
	if d.SpreadKind != claims.NotStated {
		return
	}
	if !strings.Contains(s.low, "mean") && !strings.Contains(s.low, "expressed") && !strings.Contains(s.low, "presented") {
		return
	}
	marks := strongMarks(p.ls.cat, s.text)
	if len(marks) < 2 || !contains(marks, "mean") && !strings.Contains(s.low, "expressed") && !strings.Contains(s.low, "presented") {
		return
	}
	kind := singleKind(marks)
	if kind != "sd" && kind != "se" {
		return
	}
	if contains(marks, "sd") && contains(marks, "se") {
		return
	}
	d.SpreadKind, d.SpreadWhy = claims.SpreadKindOf(kind), "text: “"+clip(s.text, 120)+"”"
}

// clip shortens a quotation at a word.
func clip(s string, n int) string {
	if len(s) <= n {
		return s
	}
	i := strings.LastIndexByte(s[:n], ' ')
	if i < 0 {
		return s
	}
	return s[:i] + " …"
}

func (p *paper) wholeUnits(s *sentence) {
	for _, w := range []string{"whole second", "nearest second", "whole minute", "nearest whole", "full seconds"} {
		if strings.Contains(s.low, w) {
			p.study.Design.WholeUnits = true
		}
	}
}

// things that are counted into groups.
var countedWords = []string{"instrument", "file", "specimen", "sample", "tooth", "teeth", "root", "canal", "premolar", "molar", "incisor", "canine",

	"patient", "subject", "participant", "children", "implant", "block", "disc", "disk", "bar", "site", "volunteer", "adult", "individual", "beam"}

func counted(low string) bool {
	for _, w := range countedWords {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// sampleSizes reads totals, numbers of groups and n of each group.
func (p *paper) sampleSizes(s *sentence, tokens []numeral.Token) {
	p.namedSizes(s, tokens)
	d := &p.study.Design
	for _, q := range wordedNumbers(s.text, s.low) {
		if otherThanSize(p.numbers(s), q.start, q.end) || unitNext(s.low[q.end:]) || inRange(s.low, q.start, q.end) {
			continue
		}
		before, after := s.low[max(0, q.start-60):q.start], s.low[q.end:min(len(s.low), q.end+60)]
		switch {
		case isGroupCount(after):
			d.Groups = append(d.Groups, p.fact(s, "groups", q.n, "", q.start, q.end))
		case perEach(after) || groupsOf.MatchString(before) && !listOn.MatchString(after) || eachHas.MatchString(before) && headNoun.MatchString(after):
			id := "n"
			if strings.HasSuffix(before, "subgroups of ") {
				id = "n of subgroup"
			}
			counts := p.countsIn(s)
			upTo := slices.IndexFunc(counts, func(o size) bool { return o.end > q.end })
			if upTo < 0 {
				upTo = len(counts)
			}
			if q.n.Value >= 3 && !notEach(s.low, q.end) && !strings.HasSuffix(before, "all ") && !otherThings(s, counts[:upTo]) {
				d.PerGroup = append(d.PerGroup, p.fact(s, id, q.n, "", q.start, q.end))
			}
		case q.n.Value >= 6 && counted(firstWords(after, 5)) && !isYear(q.n) && !strings.HasPrefix(after, ":") && !strings.HasPrefix(after, " to ") && !strings.HasPrefix(after, ")") && !strings.Contains(before[max(0, len(before)-24):], "each of") && !unitNext(after):
			d.Total = append(d.Total, p.fact(s, "total", q.n, "", q.start, q.end))
		}
	}
}

// namedSizes reads "n = 12": of each group where the words beside it say so, or
// where all groups that a sentence tells of have the same.
func (p *paper) namedSizes(s *sentence, tokens []numeral.Token) {
	d := &p.study.Design
	var list []numeral.Token
	alike := true
	for _, t := range tokens {
		if t.Form == numeral.N && t.Number.Relation == extract.Equal {
			list = append(list, t)
			alike = alike && t.Number.Value == list[0].Number.Value
			if i := strings.LastIndexByte(s.text[:t.Start], '('); i >= 0 && t.Start-i < 3 && !partly.MatchString(s.low) {
				p.mentions = append(p.mentions, mention{s.text[max(0, i-60):i], t.Number})
			}
		}
	}
	for _, t := range list {
		before, after := s.low[:t.Start], s.low[min(t.End, len(s.low)):]
		id := ""
		switch {
		case notEach(s.low, t.End), sumOfOthers(t, list):
		case subgroupNear(s.low, t.Start):
			id = "n of subgroup"
		case groupsBefore.MatchString(before) && !alike:
			id = "n"
			if strings.Contains(lastWords(before, 4), "control") {
				id = "n of control" // each kind of groups has its own
			}
		case perEach(after), groupsBefore.MatchString(before), eachHas.MatchString(before), alike && len(list) > 1 && strings.Contains(s.low, "group"),
			len(list) == 1 && behindGroups.MatchString(before):
			id = "n"
		}
		if id != "" {
			d.PerGroup = append(d.PerGroup, p.fact(s, id, t.Number, "", t.Start, t.End))
		}
	}
}

var (
	groupsOf     = regexp.MustCompile(`\b(?:into|in|two|three|four|five|six|seven|eight|nine|ten|\d+|equal|equally|experimental|treatment|main|study|sub)[ -]*groups,?(?: each)? of\s+$`)
	groupsBefore = regexp.MustCompile(`\b(?:groups|arms|each (?:\w+ ){0,2}(?:group|arm|subgroup)|per (?:group|arm))\s*[([,:;]\s*$`)
	eachHas      = regexp.MustCompile(`\beach\b[^.;()]{0,40}\b(?:consist\w* of|contain\w*|compris\w*|includ\w*|compos\w* of|with|had|having|of)\s+(?:a total of\s+)?$`)
	// behindGroups is what goes before an n that holds for every group that a
	// sentence tells of: "were divided into four groups by shape (n = 10)".
	behindGroups = regexp.MustCompile(`\b(?:divided|assigned|allocated|randomi[sz]ed|distributed|separated|split|sorted|subdivided)\b[^.;]*\bgroups\b[^.;]*[([]\s*$|\beach (?:\w+ )?(?:group|arm)\b[^.;]*[([]\s*$`)
	listOn       = regexp.MustCompile(`^\s*(?:to|-|–|or)\s*\w`)
	// eachGroup follows a number that holds for every group: "12 per group",
	// "12 teeth in each group", "12 specimens each".
	eachGroup = regexp.MustCompile(`^\s*(?:[\p{L}/’'-]+\s+){0,5}?(?:were\s+)?(?:randomly\s+)?(?:(?:assigned|allocated|randomi[sz]ed)\s+)?(?:per|(?:in|for|to|into|of|from)\s+(?:each|every)(?:\s+of\s+the)?|/\s*)\s*(?:[\p{L}-]+\s+){0,2}?(?:groups?|arms?|subgroups?|cohorts?|instruments?|files?|materials?|brands?|types?|treatments?|diets?|conditions?|techniques?)\b`)
	eachOnly  = regexp.MustCompile(`^\s*(?:[\p{L}-]+\s+){0,4}?(?:each|apiece)\s*(?:[.,;:)\]]|$|\(|in the\b)`)
	inEach    = regexp.MustCompile(`^\s*(?:[\p{L}-]+\s+){0,3}?(?:in|for) each\s*(?:[.,;:)\]]|$)`)
	noHeads   = regexp.MustCompile(`^\s*(?:[\p{L}-]+\s+){0,3}?(?:sets?|repetitions?|trials?|questions?|sessions?|items?|visits?|times?|tasks?|options?|days?|weeks?|minutes?|hours?|blocks of|levels?|doses?|tablets?|capsules?|features?|measurements?|readings?|images?|workshops?|points?|words?|sites? per|sections? per|replicates?|wells?|wires? per)\b`)
)

// sumOfOthers reports the n of all groups together among those of each.
func sumOfOthers(t numeral.Token, list []numeral.Token) bool {
	sum := 0.0
	for _, o := range list {
		if o.Start != t.Start {
			sum += o.Number.Value
		}
	}
	return len(list) > 2 && sum == t.Number.Value
}

// notEach reports a number that is of blocks of an allocation, of a part of the
// sample or of one sex, not of whole groups.
func notEach(low string, end int) bool {
	return noHeads.MatchString(low[min(end, len(low)):]) || hasAny(low, "block size", "blocks of", "permuted", "block method", "block random") || partly.MatchString(low) || bothSexes(low, min(end, len(low))) || !kept(low, end) || planned(low)
}

// isGroupCount reads "four groups", "3 experimental groups".
func isGroupCount(after string) bool {
	w := firstFields(after, 4)
	for i := range w {
		t := strings.Trim(w[i], ".,;:()")
		if t == "groups" || t == "subgroups" || t == "sub-groups" {
			return true
		}
		if strings.HasSuffix(w[i], ",") || t == "of" || t == "in" || t == "per" || counted(t) {
			return false
		}
	}
	return false
}

// perEach reads "specimens each", "per group", "in each group".
func perEach(after string) bool {
	return eachGroup.MatchString(after) || eachOnly.MatchString(after) || inEach.MatchString(after)
}

func subgroupNear(low string, at int) bool {
	i := strings.LastIndex(low[:at], "group")
	return i >= 3 && low[i-3:i] == "sub" && at-i < 60
}

// settleN chooses the n of each group and subgroup, the total and the number
// of groups: what is said most often, the first of several.
func (p *paper) settleN() {
	d := &p.study.Design
	if p.design.subN = most(d.PerGroup, "n of subgroup"); !p.design.subN.Known() {
		p.design.subN = extract.Number{}
	}
	p.design.groupN = most(d.PerGroup, "n")
	p.design.controlN = most(d.PerGroup, "n of control")
	for _, f := range d.Groups {
		if f.Value.Value >= 2 {
			p.design.groups = f.Value
			break
		}
	}
	for _, f := range allocated(d.Total) {
		if p.design.groups.Known() && f.Value.Value > p.design.groups.Value && f.Place.Section != "title" {
			p.design.total, p.design.totalText = f.Value, f.Text
			break
		}
	}
}

// allocated lists the totals of sentences that tell of dividing them.
func allocated(facts []claims.Fact) []claims.Fact {
	var out []claims.Fact
	for _, f := range facts {
		if hasAny(strings.ToLower(f.Text), "divided", "allocated", "assigned", "distributed", "a total of") {
			out = append(out, f)
		}
	}
	return out
}

// most is the value that facts of one kind give most often, the first of
// several. What was analysed goes before what was allotted.
func most(facts []claims.Fact, id string) extract.Number {
	for _, f := range facts {
		if f.ID == id && stageOf(strings.ToLower(f.Text)) == analysed && len(facts) > 1 {
			return f.Value
		}
	}
	count := map[float64]int{}
	best := extract.Number{}
	for _, f := range facts {
		if f.ID == id {
			count[f.Value.Value]++
		}
	}
	for _, f := range facts {
		if f.ID == id && (!best.Known() || count[f.Value.Value] > count[best.Value]) {
			best = f.Value
		}
	}
	return best
}

// bench reports whether the work was done without patients.
func (p *paper) bench() bool {
	bench, clinic := 0, 0
	for i := range p.sentences {
		low := p.sentences[i].low
		for _, w := range []string{"in vitro", "ex vivo", "laboratory", "bench", "extracted", "artificial canal", "specimens were", "cyclic fatigue", "torsion"} {
			if strings.Contains(low, w) {
				bench++
			}
		}
		for _, w := range []string{"patients were", "clinical trial", "informed consent", "subjects were", "participants", "randomized controlled", "randomised controlled"} {
			if strings.Contains(low, w) {
				clinic++
			}
		}
	}
	return bench > clinic
}
