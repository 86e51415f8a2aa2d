package report

import "probity/claims"

// OfClaim lays out one claim typed by hand: its verdicts first, then all that
// the two arms allow.
func OfClaim(text string, judgements []claims.Judgement, findings []claims.Finding, sums []claims.Sum) Report {
	r := Report{Title: "“" + text + "”"}
	for _, j := range judgements {
		r.Parts = append(r.Parts, claimEntry(j))
	}
	for _, f := range findings {
		e := findingEntry(f)
		e.Lines = withoutQuote(e.Lines)
		r.Parts = append(r.Parts, e)
	}
	for _, s := range sums {
		if s.Name == claims.MayBeSaid { // what the lecturer came for stands before the sums
			r.Parts = append(r.Parts, Entry{Lead: s.Name, Head: s.Text})
		}
	}
	if len(sums) > 0 {
		r.Parts = append(r.Parts, Heading{2, "Recomputed"})
		for _, s := range sums {
			if s.Name == claims.MayBeSaid {
				continue
			}
			e := Entry{Lead: s.Name, Head: s.Text}
			if s.Source != "" {
				e.Lines = append(e.Lines, Line{Label: "method", Text: s.Source})
			}
			r.Parts = append(r.Parts, e)
		}
	}
	r.Parts = append(r.Parts, Notes{standing})
	return r
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
