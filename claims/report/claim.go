package report

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"probity/claims"
)

// A Claim is one claim typed by hand, judged.
type Claim struct {
	Text       string
	Sides      []claims.Understood // what was made of the figures, subject first
	Asks       []string            // open questions, before which nothing is judged
	Unused     []string            // figures of the sentence that are no part of the sum
	Judgements []claims.Judgement
	Findings   []claims.Finding
	Sums       []claims.Sum
}

// OfClaim lays out one claim typed by hand: its verdicts first, then what has
// to be cleared up, what was understood, and all that the two arms allow.
func OfClaim(c Claim) Report {
	r := Report{Title: "“" + c.Text + "”"}
	for _, j := range c.Judgements {
		r.Parts = append(r.Parts, claimEntry(j))
	}
	for _, q := range c.Asks {
		r.Parts = append(r.Parts, Entry{Lead: "to clear up", Tone: Careful, Head: q})
	}
	for _, f := range c.Findings {
		e := findingEntry(f)
		e.Lines = withoutQuote(e.Lines)
		r.Parts = append(r.Parts, e)
	}
	for _, s := range c.Sums {
		if s.Name == claims.MayBeSaid { // what the lecturer came for stands before the sums
			r.Parts = append(r.Parts, Entry{Lead: s.Name, Head: s.Text})
		}
	}
	if len(c.Sides) > 0 || len(c.Unused) > 0 {
		r.Parts = append(r.Parts, Heading{2, "Understood"})
	}
	for _, u := range c.Sides {
		r.Parts = append(r.Parts, sideEntry(u))
	}
	if len(c.Unused) > 0 {
		r.Parts = append(r.Parts, Entry{Lead: "no part of the sum", Head: strings.Join(c.Unused, ", ")})
	}
	sums := slices.DeleteFunc(slices.Clone(c.Sums), func(s claims.Sum) bool { return s.Name == claims.MayBeSaid })
	if len(sums) > 0 {
		r.Parts = append(r.Parts, Heading{2, "Recomputed"})
	}
	for _, s := range sums {
		e := Entry{Lead: s.Name, Head: s.Text}
		if s.Source != "" {
			e.Lines = append(e.Lines, Line{Label: "method", Text: s.Source})
		}
		r.Parts = append(r.Parts, e)
	}
	r.Parts = append(r.Parts, Notes{standing})
	return r
}

// sideEntry shows what was made of the figures of one side, with the words
// they came from.
func sideEntry(u claims.Understood) Entry {
	var parts []string
	for _, p := range u.Parts {
		text := p.What + " " + p.Value
		if p.Words != "" && p.Words != p.Value {
			text += " “" + p.Words + "”"
		}
		parts = append(parts, text)
	}
	e := Entry{Lead: u.Name, Head: strings.Join(parts, " · ")}
	for _, a := range u.Assumed {
		e.Lines = append(e.Lines, Line{Label: "assumed", Text: a})
	}
	if len(u.Left) > 0 {
		e.Lines = append(e.Lines, Line{Label: "not used", Text: "“" + strings.Join(u.Left, "”, “") + "”"})
	}
	return e
}

func claimEntry(j claims.Judgement) Entry {
	e := judgementEntry(j, false)
	for _, again := range j.Recomputed {
		if again.Base != "" && again.Base != j.Base && again.Fits {
			e.Lines = append(e.Lines, Line{Label: "also", Text: "the base " + string(again.Base) + " fits"})
		}
	}
	return e
}

func withoutQuote(lines []Line) []Line {
	var out []Line
	for _, l := range lines {
		if !l.Quote {
			out = append(out, l)
		}
	}
	return out
}

type (
	claimJSON struct {
		Statement  string           `json:"statement"`
		Verdict    string           `json:"verdict"`
		Base       string           `json:"base,omitempty"`
		Why        string           `json:"why"`
		Asks       []string         `json:"asks,omitempty"`
		Understood []understoodJSON `json:"understood"`
		Unused     []string         `json:"unused,omitempty"`
		Judgements []statementJSON  `json:"judgements"`
		Findings   []findingJSON    `json:"findings"`
		Sums       []sumJSON        `json:"sums"`
	}
	understoodJSON struct {
		Name    string           `json:"name"`
		Parts   []understoodPart `json:"parts"`
		Assumed []string         `json:"assumed,omitempty"`
		NotUsed []string         `json:"not_used,omitempty"`
	}
	understoodPart struct {
		What  string `json:"what"`
		Value string `json:"value"`
		Words string `json:"words,omitempty"`
	}
	sumJSON struct {
		Name   string `json:"name"`
		Text   string `json:"text"`
		Source string `json:"source,omitempty"`
	}
)

// gravest orders verdicts for the one that a claim of several statements is
// summed up by.
var gravest = []claims.Verdict{claims.Reversed, claims.DoesNotReproduce, claims.OtherBase, claims.NotCheckable, claims.Agrees, claims.Reproduces}

// WriteClaim writes a claim as one JSON object. Of several statements in one
// sentence the gravest verdict stands first; judgements has them all.
func WriteClaim(w io.Writer, c Claim) error {
	if len(c.Judgements) == 0 {
		return fmt.Errorf("nothing was judged")
	}
	first := slices.MinFunc(c.Judgements, func(a, b claims.Judgement) int {
		return slices.Index(gravest, a.Verdict) - slices.Index(gravest, b.Verdict)
	})
	out := claimJSON{Statement: c.Text, Verdict: first.Verdict.String(), Base: string(first.Base), Why: first.Why, Asks: c.Asks,
		Understood: []understoodJSON{}, Unused: c.Unused, Findings: []findingJSON{}, Sums: []sumJSON{}}
	for _, u := range c.Sides {
		side := understoodJSON{Name: u.Name, Assumed: u.Assumed, NotUsed: u.Left}
		for _, p := range u.Parts {
			side.Parts = append(side.Parts, understoodPart(p))
		}
		out.Understood = append(out.Understood, side)
	}
	for _, j := range c.Judgements {
		out.Judgements = append(out.Judgements, statementOf(j))
	}
	for _, f := range c.Findings {
		out.Findings = append(out.Findings, findingOf(f))
	}
	for _, s := range c.Sums {
		out.Sums = append(out.Sums, sumJSON(s))
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(out)
}
