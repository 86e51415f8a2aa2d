package assemble

import (
	"regexp"
	"slices"
	"strings"

	"probity/claims"
	numberrole "probity/claims/role"
	"probity/extract"
)

// A sample is how many took part in the whole work, and whether each group of
// a table holds all of them.
type sample struct {
	n, in   extract.Number // those analysed, those who entered
	crossed bool           // each person took every treatment in turn
	others  bool           // a table prints another n
	single  bool           // there were no groups
}

// wholeSampleOf reads the number of people or animals of the whole work:
// "48 healthy women took part". Those analysed come before those who entered;
// where a stage names several numbers, the one named most often holds.
func (p *paper) wholeSampleOf() sample {
	out := sample{crossed: p.crossedOver(),
		single: !p.says([]string{"group", "arm", "random", "control", "cohort"}, groupWords, nil) && !p.groupedTables()}
	var at [stages][]extract.Number
	for i := range p.sentences {
		s := &p.sentences[i]
		if s.place.Section == extract.Introduction || s.place.Section == extract.InTable || s.figure || len(p.countsIn(s)) == 0 || !hasAny(s.low, peopleNouns...) || asked.MatchString(s.low) || planned(s.low) {
			continue
		}
		for _, q := range p.countsIn(s) {
			if p.takesPart(s, q) {
				k := stageOf(s.low)
				at[k] = append(at[k], p.at(s, q))
			}
		}
	}
	entered := slices.Concat(at[allotted], at[0])
	n := usual(entered)
	out.in = n
	for _, k := range []stage{completed, analysed} {
		if later := usual(at[k]); later.Known() && (!n.Known() || later.Value <= n.Value && later.Value*2 > n.Value) {
			n = later
		}
	}
	out.n = n
	for _, m := range p.study.Measures {
		out.others = out.others || m.N.Known() && m.N.Value != n.Value
	}
	return out
}

// crossedOver reports whether each person took every treatment in turn.
func (p *paper) crossedOver() bool {
	if p.crossed == nil {
		yes := p.says([]string{"cross", "split-mouth", "own control"}, crossing, crossedNot) && !p.says([]string{"parallel"}, parallel, nil)
		p.crossed = &yes
	}
	return *p.crossed
}

// groupedTables reports whether a table calls what it compares groups, or one
// of them a control.
func (p *paper) groupedTables() bool {
	for _, a := range p.arms.arms {
		if p.arms.used[a] && (isControl(a) || groupWords.MatchString(extract.Lower(a.Name))) {
			return true
		}
	}
	return false
}

// why says why the number of the whole sample is that of a measure, "" if it is
// not.
func (w *sample) why(m *claims.Measure) string {
	switch {
	case m.Arm != nil && wholeSample(m.Arm) || m.Arm == nil && namesWhole(m.ArmText):
		return "text, of the whole sample"
	case w.crossed && w.n.Known():
		return "text, of all, who took every treatment in turn"
	case w.single && w.n.Known():
		return "text, of all: no groups are told of"
	}
	return ""
}

// takesPart reports a number of people of whom a sentence says that they took
// part, without naming a group they were in.
func (p *paper) takesPart(s *sentence, q size) bool {
	before, after := s.low[:q.start], s.low[q.end:]
	if q.Value < 5 || !headPeople.MatchString(after) || openBracket(s.text, q.start) >= 0 || bothSexes(s.low, q.end) || !kept(s.low, q.start) || ofAll(before) || perEach(after) || inGroup.MatchString(after) {
		return false
	}
	opens := strings.TrimSpace(before) == "" || strings.HasSuffix(before, "total of ") || strings.HasSuffix(before, "we studied ") || strings.HasSuffix(before, "we enrolled ") || strings.HasSuffix(before, "we recruited ")
	return opens || s.place.Section != extract.Results && q.Value > 5 && p.roleAt(s, q) == numberrole.N && among.MatchString(before) || tookPart.MatchString(after) || strings.HasSuffix(before, "included ") || strings.HasSuffix(before, "involved ") || strings.HasSuffix(before, "data from ") || strings.HasSuffix(before, "in ") && s.place.Section == "title"
}

// roleAt is what a number of a sentence is by its words, where that is sure.
func (p *paper) roleAt(s *sentence, q size) numberrole.Role {
	for _, n := range p.numbers(s) {
		if n.Start < q.end && q.start < n.End && n.Role.Sure() {
			return n.Role.Best.Value
		}
	}
	return numberrole.NotKnown
}

// usual is the number that a list has most often, not known where two are
// named as often.
func usual(list []extract.Number) extract.Number {
	best, count, tied := extract.Number{}, 0, false
	for i, n := range list {
		k := 0
		for _, o := range list {
			if o.Value == n.Value {
				k++
			}
		}
		switch first := slices.IndexFunc(list, func(o extract.Number) bool { return o.Value == n.Value }) == i; {
		case k > count:
			best, count, tied = n, k, false
		case k == count && first && n.Value != best.Value:
			tied = true
		}
	}
	if tied {
		return extract.Number{}
	}
	return best
}

// says reports whether title, abstract or methods have words of one kind, in a
// sentence without those of another. Sentences without any of some words, quick
// to find, have none of that kind.
func (p *paper) says(any []string, words, but *regexp.Regexp) bool {
	for i := range p.sentences {
		s := &p.sentences[i]
		switch s.place.Section {
		case "title", extract.Abstract, extract.Methods:
			if hasAny(s.low, any...) && words.MatchString(s.low) && (but == nil || !but.MatchString(s.low)) {
				return true
			}
		}
	}
	return false
}

// peopleNouns are those of headPeople.
var peopleNouns = strings.Split("patients subjects participants women men children infants animals rats mice dogs rabbits individuals adults volunteers students people persons males females boys girls horses pigs cows sheep lambs goats cats calves athletes players nurses adolescents residents runners cyclists", " ")

var (
	headPeople = regexp.MustCompile(`^\s+(?:[\p{L}-]+,?\s+){0,6}?(?:` + strings.Join(peopleNouns, "|") + `)\b`)
	among      = regexp.MustCompile(`\b(?:in|on|comprising|enrolled|recruited|selected|studied|involving|among|with|of)\s+$`)
	tookPart   = regexp.MustCompile(`^[^;]*?\b(?:participated|took part|were enrolled|was enrolled|were recruited|were included|were studied|completed|were randomi[sz]ed|were analy[sz]ed|volunteered|were used|were investigated|were examined|were selected|were exposed)\b`)
	inGroup    = regexp.MustCompile(`^\s+(?:[\p{L}-]+\s+){0,5}?(?:in|to|from|of|received|receiving) (?:the |a )?(?:[\p{L}-]+\s+){0,3}?(?:group|arm|cohort)\b`)
	asked      = regexp.MustCompile(`\b(?:screened|approached|invited|eligible|assessed for|contacted|admitted|responded|previous(?:ly)? (?:study|reported)|registered|visited|identified)\b`)
	crossing   = regexp.MustCompile(`\b(?:cross-?\s?over|crossover)\W+(?:[\w-]+\W+){0,4}(?:design|study|trial|fashion|manner|experiment|comparison|protocol)\b|\b(?:randomi[sz]ed|blind\w*|controlled|\w+-way|\w+-period|design|study|trial|experiment)\W+(?:[\w-]+\W+){0,4}cross-?\s?over\b|\bsplit-mouth\b|\bserved as (?:their|his|its|her) own controls?\b|\bcrossed over (?:to|after)\b[^.;]*\bother\b`)
	crossedNot = regexp.MustCompile(`\b(?:no|not|not a|without|avoid\w*|previous|allowed|permitted|could)\b[^.;]*\bcross-?\s?over\b|\bcross-?\s?over\b[^.;]*\b(?:allowed|permitted)\b`)
	parallel   = regexp.MustCompile(`\bparallel[\s-]+(?:\w+[\s-]+)?(?:group|arm|design|trial|study)s?\b`)
	groupWords = regexp.MustCompile(`\b(?:control|placebo|intervention|treatment|experimental|comparison|sham|study|care|case)[\s-]+(?:group|arm)s?\b|\bgroups\b|\barms\b|\brandomi[sz]ed\b|\brandomly (?:assigned|allocated|divided)\b|\bcontrolled\b|\bcontrols\b|\bcohorts\b`)
)
