package report

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"probity/claims"
	"probity/extract"
)

// standing are the cautions that end every report.
var standing = []string{
	"A bench result is not a clinical outcome: it holds for the sizes, lots and conditions tested.",
	"Follow the manufacturer's instructions, local rules and a licensed professional's judgement.",
	"What is at odds is a question to the authors, not an accusation; our reading may be at fault too, so look at the place named.",
	"Check for corrections and retractions before citing.",
}

// verdictWords are the verdicts as people read them.
var verdictWords = map[claims.Verdict]string{
	claims.Reproduces:       "reproduces",
	claims.Agrees:           "agrees with the paper's own print",
	claims.OtherBase:        "only on another base",
	claims.Reversed:         "direction reversed",
	claims.DoesNotReproduce: "does not reproduce",
	claims.NotCheckable:     "cannot be checked",
}

var verdictTones = map[claims.Verdict]Tone{
	claims.Reproduces: Good, claims.OtherBase: Careful, claims.Reversed: Grave, claims.DoesNotReproduce: Grave,
}

var gradeTones = map[claims.Grade]Tone{claims.AtOdds: Grave, claims.Query: Careful, claims.Caution: Plain}

// Of turns an audit into the report a person reads: findings first, firmest
// first, then every statement with its sum.
func Of(a Audit) Report {
	s := a.Study
	out := Report{Title: titleOf(s)}
	out.Parts = append(out.Parts, Para{summary(a)})
	for _, g := range []struct {
		grade claims.Grade
		title string
	}{
		{claims.AtOdds, "At odds: follows from the printed figures"},
		{claims.Query, "To ask: two readings, or a likely slip"},
		{claims.Caution, "With caution: the figures may be right, the words go further"},
	} {
		var entries []Part
		for _, f := range a.Findings {
			if f.Grade == g.grade {
				entries = append(entries, findingEntry(f))
			}
		}
		if len(entries) > 0 {
			out.Parts = append(out.Parts, Heading{2, g.title})
			out.Parts = append(out.Parts, entries...)
		}
	}
	out.statements(a)
	if len(s.Problems) > 0 {
		out.Parts = append(out.Parts, Heading{2, "Could not be read"})
		for _, p := range s.Problems {
			e := Entry{Lead: "problem", Tone: Careful, Head: p.What, Place: p.Place}
			if p.Try != "" {
				e.Lines = append(e.Lines, Line{Label: "try", Text: p.Try})
			}
			out.Parts = append(out.Parts, e)
		}
	}
	out.Parts = append(out.Parts, Notes{standing})
	return out
}

func titleOf(s *claims.Study) string {
	parts := []string{filepath.Base(s.File)}
	if s.Meta.Title != "" {
		parts = append(parts, s.Meta.Title)
	}
	title := strings.Join(parts, " · ")
	if s.Meta.Year > 0 {
		title += fmt.Sprintf(" (%d)", s.Meta.Year)
	}
	return title
}

// summary is the first thing read: how many matters of each kind.
func summary(a Audit) string {
	grades := map[claims.Grade]int{}
	for _, f := range a.Findings {
		grades[f.Grade]++
	}
	verdicts := map[claims.Verdict]int{}
	own := 0
	for _, j := range a.Judgements {
		if j.Statement.Own {
			own++
			verdicts[j.Verdict]++
		}
	}
	var b strings.Builder
	switch {
	case len(a.Study.Measures) == 0 && own == 0:
		b.WriteString("Nothing was recomputed: no summary figures and no comparative statements could be read.")
	case grades[claims.AtOdds] > 0:
		fmt.Fprintf(&b, "%s, %s, %s.", count(grades[claims.AtOdds], "matter at odds", "matters at odds"),
			count(grades[claims.Query], "question", "questions"), count(grades[claims.Caution], "caution", "cautions"))
	default:
		fmt.Fprintf(&b, "Nothing at odds was found; %s, %s.", count(grades[claims.Query], "question", "questions"),
			count(grades[claims.Caution], "caution", "cautions"))
	}
	if own > 0 {
		fmt.Fprintf(&b, " Of %s about the paper's own results %d %s", count(own, "statement", "statements"), verdicts[claims.Reproduces], plural(verdicts[claims.Reproduces], "reproduces", "reproduce"))
		for _, v := range []claims.Verdict{claims.Agrees, claims.OtherBase, claims.Reversed, claims.DoesNotReproduce, claims.NotCheckable} {
			if n := verdicts[v]; n > 0 {
				fmt.Fprintf(&b, ", %d %s", n, tally(v, n))
			}
		}
		b.WriteString(".")
	}
	if n := len(a.Study.Measures); n > 0 {
		fmt.Fprintf(&b, " %s read.", count(n, "summary figure was", "summary figures were"))
	}
	return b.String()
}

func tally(v claims.Verdict, n int) string {
	switch v {
	case claims.Agrees:
		return plural(n, "agrees with the p or the letters it prints, with nothing to recompute it from", "agree with the p or the letters they print, with nothing to recompute them from")
	case claims.OtherBase:
		return plural(n, "holds only on another base", "hold only on another base")
	case claims.Reversed:
		return plural(n, "goes the other way than the figures", "go the other way than the figures")
	case claims.DoesNotReproduce:
		return plural(n, "does not reproduce", "do not reproduce")
	}
	return "cannot be checked"
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

func count(n int, one, many string) string {
	if n == 0 {
		return "no " + many
	}
	return fmt.Sprintf("%d %s", n, plural(n, one, many))
}

// gradeWord is a grade as people read it: "at odds".
func gradeWord(grade string) string { return strings.ReplaceAll(grade, "-", " ") }

func findingEntry(f claims.Finding) Entry {
	e := Entry{Lead: gradeWord(string(f.Grade)), Tone: gradeTones[f.Grade], Head: f.Message, Place: f.Place}
	if f.Statement != nil {
		e.Lines = append(e.Lines, Line{Text: f.Statement.Text, Quote: true})
	}
	if f.Printed != "" && f.Recomputed != "" {
		e.Lines = append(e.Lines, Line{Label: "printed", Text: f.Printed}, Line{Label: "recomputed", Text: f.Recomputed})
	}
	e.Lines = append(e.Lines, figures(f.Measures)...)
	for _, l := range []Line{{Label: "caution", Text: f.Caution}, {Label: "ask", Text: f.Ask}, {Label: "method", Text: f.Source}} {
		if l.Text != "" {
			e.Lines = append(e.Lines, l)
		}
	}
	return e
}

// mostFigures keeps an entry readable; the audit format names them all.
const mostFigures = 6

// figures shows where each figure that an entry rests on stands.
func figures(measures []*claims.Measure) []Line {
	var out []Line
	for i, m := range measures {
		if i == mostFigures && len(measures) > mostFigures+1 {
			return append(out, Line{Label: "figure", Text: fmt.Sprintf("and %d more", len(measures)-i)})
		}
		out = append(out, Line{Label: "figure", Text: figureText(m)})
	}
	return out
}

// sources names in one line where the figures of a sum stand.
func sources(measures []*claims.Measure) string {
	var out []string
	mixed := slices.ContainsFunc(measures, func(m *claims.Measure) bool { return m.Unit != measures[0].Unit })
	for i, m := range measures {
		if i == mostFigures {
			out = append(out, fmt.Sprintf("and %d more", len(measures)-i))
			break
		}
		place := m.Place
		place.File, place.Start, place.End = "", 0, 0
		text := m.Mean.Text
		if mixed && m.Unit != "" {
			text += " " + m.Unit
		}
		if m.Arm != nil && m.Arm.Name != "" {
			text = m.Arm.Name + " " + text
		} else if m.ArmText != "" {
			text = m.ArmText + " " + text
		}
		if at := place.String(); at != "" {
			text += " [" + at + "]"
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}

func figureText(m *claims.Measure) string {
	name := m.ArmText
	if m.Arm != nil && m.Arm.Name != "" {
		name = m.Arm.Name
	}
	var b strings.Builder
	b.WriteString(name)
	if m.Condition != "" {
		fmt.Fprintf(&b, ", %s", m.Condition)
	}
	if m.Outcome != "" {
		fmt.Fprintf(&b, ": %s", m.Outcome)
	}
	fmt.Fprintf(&b, " %s", figure(m))
	place := m.Place
	place.File = ""
	if at := place.String(); at != "" {
		fmt.Fprintf(&b, " [%s]", at)
	}
	return strings.TrimSpace(b.String())
}

// figure writes a measure in one way whatever the paper's own way: mean
// (spread), unit, n.
func figure(m *claims.Measure) string {
	var b strings.Builder
	b.WriteString(m.Mean.Text)
	switch {
	case m.Spread.Low.Known():
		fmt.Fprintf(&b, " (%s %s to %s)", m.Spread.Kind, m.Spread.Low.Text, m.Spread.High.Text)
	case m.Spread.Value.Known() && m.Spread.Kind == claims.NotStated:
		fmt.Fprintf(&b, " ± %s (kind not stated)", m.Spread.Value.Text)
	case m.Spread.Value.Known():
		fmt.Fprintf(&b, " (%s %s)", strings.ToUpper(m.Spread.Kind.String()), m.Spread.Value.Text)
	}
	if m.Unit != "" {
		b.WriteString(" " + m.Unit)
	}
	if m.N.Known() {
		fmt.Fprintf(&b, ", n = %d", int(m.N.Value))
	}
	if m.Letters != "" {
		fmt.Fprintf(&b, ", marked %s", m.Letters)
	}
	return b.String()
}

// statementSections order the statements as a reader meets them.
var statementSections = []extract.Section{extract.Abstract, extract.Introduction, extract.Methods, extract.Results, extract.Discussion, extract.Conclusion}

func (r *Report) statements(a Audit) {
	var own []claims.Judgement
	foreign := 0
	for _, j := range a.Judgements {
		if j.Statement.Own {
			own = append(own, j)
		} else {
			foreign++
		}
	}
	if len(own) > 0 {
		r.Parts = append(r.Parts, Heading{2, "Statements"})
	}
	slices.SortStableFunc(own, func(x, y claims.Judgement) int {
		return sectionOrder(x.Statement.Place.Section) - sectionOrder(y.Statement.Place.Section)
	})
	for i := 0; i < len(own); {
		// One sentence may make several statements: quote it once.
		n := 1
		for i+n < len(own) && own[i+n].Statement.Text == own[i].Statement.Text && own[i+n].Statement.Place.Par == own[i].Statement.Place.Par {
			n++
		}
		for k, j := range own[i : i+n] {
			r.Parts = append(r.Parts, judgementEntry(j, k == 0))
		}
		i += n
	}
	if foreign > 0 {
		r.Parts = append(r.Parts, Para{fmt.Sprintf("%s of cited work, of a power calculation or of a method left aside.", count(foreign, "statement was", "statements were"))})
	}
}

func sectionOrder(s extract.Section) int {
	if i := slices.Index(statementSections, s); i >= 0 {
		return i
	}
	return len(statementSections)
}

func judgementEntry(j claims.Judgement, quote bool) Entry {
	s := j.Statement
	e := Entry{Lead: verdictWords[j.Verdict], Tone: verdictTones[j.Verdict], Head: headOf(j), Place: s.Place}
	if quote {
		e.Lines = append(e.Lines, Line{Text: s.Text, Quote: true})
	}
	e.Lines = append(e.Lines, Line{Label: "sum", Text: j.Why})
	if from := sources(j.Measures); from != "" && (j.Verdict != claims.NotCheckable || !j.Doubt.Sure()) {
		e.Lines = append(e.Lines, Line{Label: "from", Text: from})
	}
	if j.May != "" {
		e.Lines = append(e.Lines, Line{Label: "may be said", Text: j.May})
	}
	return e
}

// headOf says in a few words which statement it is.
func headOf(j claims.Judgement) string {
	s := j.Statement
	parts := []string{}
	if s.Printed != "" {
		parts = append(parts, s.Printed)
	} else {
		parts = append(parts, strings.ReplaceAll(string(s.Kind), "-", " "))
	}
	subject, reference := partyText(s.Subject), partyText(s.Reference)
	switch {
	case subject != "" && reference != "":
		parts = append(parts, subject+" against "+reference)
	case subject != "":
		parts = append(parts, subject)
	}
	if s.Outcome != "" {
		parts = append(parts, s.Outcome)
	}
	return strings.Join(parts, ", ")
}
