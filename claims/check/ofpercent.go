package check

import (
	"fmt"
	"math"

	"probity/claims"
)

var percentBase = Check{
	Name:   "percent-base",
	Asks:   "Does a percentage or a factor hold on the base that its words imply?",
	Source: "arithmetic; bases: AMA Manual of Style, 11th ed., 18.7.2 (from memory)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			if j.Verdict != claims.OtherBase || isOverHundred(j.Statement) {
				return
			}
			f := about(j, claims.AtOdds)
			s := j.Statement
			switch {
			case j.Base == claims.OnPoints:
				f.Grade = claims.Query
				f.Caution = "Say “percentage points”, or give both percentages."
			case s.Inverts:
				f.Grade = claims.Caution
				f.Caution = "Name the outcome that was measured and its figures; the inverse quality was not measured."
			case s.Kind == claims.Fold:
				f.Grade = claims.Query
				f.Caution = "“Times more” is heard in two ways; give both figures and their ratio."
			default:
				f.Caution = "Do not repeat the percentage without its base; say both figures."
			}
			if !j.Doubt.Sure() {
				f.Grade = claims.Query
			}
			f.Recomputed = recomputedText(j)
			f.Message = fmt.Sprintf("%s is printed%s", s.Printed, because(j))
			f.Ask = "On which base was the percentage taken?"
			out = append(out, f)
		})
		return out
	},
}

// because gives the sum behind a judgement as the second half of a message.
func because(j claims.Judgement) string { return "; " + j.Why }

func recomputedText(j claims.Judgement) string {
	out := ""
	for _, r := range j.Recomputed {
		if r.Base == "" || r.Base == claims.OnReference || r.Base == claims.OnRatio && j.Statement.Kind == claims.Fold || r.Fits {
			if out != "" {
				out += "; "
			}
			if j.Statement.Kind == claims.Percent && r.Base != claims.OnPoints {
				out += percentText(r.Value)
			} else {
				out += digits(r.Value)
			}
			if r.Base != "" {
				out += " (base " + string(r.Base) + ")"
			}
		}
	}
	return out
}

// isOverHundred reports a decrease of more than 100 %, which no quantity above
// zero can show.
func isOverHundred(s *claims.Statement) bool {
	return s.Kind == claims.Percent && s.Form == claims.Change && s.Direction < 0 && !s.Inverts && s.Value.Known() && s.Value.Value > 100
}

var overHundred = Check{
	Name:   "decrease-over-100",
	Asks:   "Is a quantity said to fall by more than 100 %?",
	Source: "arithmetic: a quantity above zero cannot fall by more than all of itself",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			if !isOverHundred(j.Statement) {
				return
			}
			s := j.Statement
			f := about(j, claims.AtOdds)
			f.Message = fmt.Sprintf("a decrease of %s is printed; a quantity above zero cannot fall by more than 100 %%", s.Printed)
			if len(j.Recomputed) > 0 {
				f.Recomputed = percentText(math.Abs(j.Recomputed[0].Value))
				f.Message += because(j)
			} else {
				f.Grade = claims.Query
			}
			f.Caution = "Do not repeat the percentage; say both figures."
			f.Ask = "Which two figures, and which of them as the base, gave this percentage?"
			out = append(out, f)
		})
		return out
	},
}

var directionCheck = Check{
	Name:   "direction",
	Asks:   "Do the figures go the way the words say?",
	Source: "arithmetic on the printed figures",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			if j.Verdict != claims.Reversed || isOverHundred(j.Statement) {
				return
			}
			f := about(j, claims.AtOdds)
			if j.Statement.Kind == claims.Significance || j.Statement.Kind == claims.Ranking || j.Statement.Inverts || j.Statement.Hedged {
				if !j.Statement.A.Known() {
					return // an outcome where lower is better is easily read the wrong way
				}
				f.Grade = claims.Query
			}
			f.Recomputed = recomputedText(j)
			f.Message = "the figures go the other way than the words" + because(j)
			f.Caution = "Do not repeat the direction before the figures are cleared up."
			f.Ask = "Are two arms or two figures exchanged?"
			out = append(out, f)
		})
		return out
	},
}

var notReproduced = Check{
	Name:   "does-not-reproduce",
	Asks:   "Do the printed figures give the percentage, factor or difference that is stated?",
	Source: "arithmetic within the rounding of everything printed",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			switch s.Kind {
			case claims.Percent, claims.Fold, claims.Difference:
			default:
				return
			}
			if isOverHundred(s) || s.Significant != nil && !s.Value.Known() {
				return
			}
			grade := claims.AtOdds
			switch {
			case j.Verdict == claims.DoesNotReproduce:
			case !j.Doubt.Sure() && len(j.Recomputed) > 0 && s.A.Known() && s.Kind != claims.Difference && !s.Word && !s.Median:
				grade = claims.Query
			default:
				return
			}
			if s.Hedged {
				grade = claims.Query
			}
			f := about(j, grade)
			f.Recomputed = recomputedText(j)
			f.Message = fmt.Sprintf("%s is printed%s", s.Printed, because(j))
			f.Caution = "Do not repeat the figure; say the two means it should come from."
			f.Ask = "From which two figures was it taken?"
			out = append(out, f)
		})
		return out
	},
}
