package check

import (
	"fmt"
	"math"
	"strings"

	"probity/claims"
	"probity/claims/effect"
	"probity/claims/interval"
	"probity/claims/physics"
)

var classPair = Check{
	Name:   "class-pair",
	Asks:   "Does a percentage said of a whole class hold for one pair of arms only?",
	Source: "comparison of all arms of both classes (arithmetic); best of many pairs: Gelman & Loken 2014 Am Sci 102:460 (from memory)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if s.Kind != claims.Percent && s.Kind != claims.Fold || len(s.Pairs) < 2 || !s.Pooled && s.Subject.Class == "" {
				return
			}
			if f, ok := pairOfMany(j); ok {
				out = append(out, f)
			}
		})
		return out
	},
}

var bestOfMany = Check{
	Name:   "best-of-many",
	Asks:   "Is a figure the greatest of several, told as if it were the usual one?",
	Source: "best of many comparisons: Gelman & Loken 2014 Am Sci 102:460 (from memory)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if !s.Most || j.Verdict == claims.NotCheckable {
				return
			}
			f := about(j, claims.Caution)
			f.Recomputed = recomputedText(j)
			f.Message = fmt.Sprintf("%s is told as the greatest of several; the others were less", s.Printed)
			f.Caution = "Say what was usual, with its figures; not “up to”."
			f.Ask = "What did the other comparisons give?"
			out = append(out, f)
		})
		return out
	},
}

// pairOfMany tells which of many pairs a figure fits, and what all of one
// side against all of the other give.
func pairOfMany(j claims.Judgement) (claims.Finding, bool) {
	s := j.Statement
	if j.Verdict != claims.Reproduces || len(j.Measures) != 2 {
		return claims.Finding{}, false
	}
	mean := func(pick func(claims.Pair) *claims.Measure) (float64, int) {
		seen := map[*claims.Measure]bool{}
		sum := 0.0
		for _, p := range s.Pairs {
			if m := pick(p); m != nil && !seen[m] {
				seen[m] = true
				sum += m.Mean.Value
			}
		}
		return sum / float64(len(seen)), len(seen)
	}
	a, na := mean(func(p claims.Pair) *claims.Measure { return p.A })
	b, nb := mean(func(p claims.Pair) *claims.Measure { return p.B })
	if na*nb < 2 || b == 0 {
		return claims.Finding{}, false
	}
	c, ok := claimOf(s)
	if !ok {
		return claims.Finding{}, false
	}
	overall := math.Abs(100 * (a - b) / b)
	text := percentText(overall)
	if s.Kind == claims.Fold {
		overall = a / b
		text = digits(overall) + " times"
	}
	if c.box.Contains(overall) {
		return claims.Finding{}, false
	}
	f := about(j, claims.Caution)
	f.Recomputed = text + " (all against all)"
	f.Message = fmt.Sprintf("%s is the pair %s %s against %s %s; all of %s against all of %s give %s", s.Printed,
		armName(j.Measures[0]), plainNumber(j.Measures[0].Mean.Number), armName(j.Measures[1]), plainNumber(j.Measures[1].Mean.Number),
		orWord(s.Subject.Class, s.Subject.Text), orWord(s.Reference.Class, s.Reference.Text), text)
	f.Caution = "Name the two instruments; do not say it of the whole class."
	f.Ask = "Was this pair the comparison planned beforehand?"
	return f, true
}

func orWord(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

var adjustedMeans = Check{
	Name:   "adjusted-means",
	Asks:   "Is a figure taken from means adjusted for a property of the instruments themselves?",
	Source: "Miller & Chapman 2001 J Abnorm Psychol 110:40-48",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			adjusted := s.Adjusted
			for _, m := range j.Measures {
				adjusted = adjusted || m.Adjusted
			}
			if !adjusted || s.Kind == claims.TestStatistic {
				return
			}
			f := about(j, claims.Caution)
			f.Message = "the comparison is of adjusted means"
			if len(j.Measures) >= 2 {
				f.Message += fmt.Sprintf(" (%s and %s)", plainNumber(j.Measures[0].Mean.Number), plainNumber(j.Measures[1].Mean.Number))
			}
			if s.Printed != "" {
				f.Message = s.Printed + ": " + f.Message
			}
			f.Message += "; where the covariate is a property of the instrument, adjusting takes away part of the instrument's own effect"
			f.Caution = "Quote the raw means; the adjusted ones compare instruments that do not exist."
			f.Ask = "What are the raw means, and do the arms overlap in the covariate?"
			out = append(out, f)
		})
		return onePerSentence(out)
	},
}

var mixedConditions = Check{
	Name:   "mixed-conditions",
	Asks:   "Are arms compared that were tested under different conditions?",
	Source: "temperature: Vieira et al. 2020 J Contemp Dent Pract 21:277; Savitha et al. 2022, doi 10.4103/jcd.jcd_55_22",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			if len(j.Measures) != 2 || j.Measures[0].Arm == nil || j.Measures[1].Arm == nil || j.Measures[0].Arm == j.Measures[1].Arm {
				return
			}
			a, okA := c.temperature(j.Measures[0])
			b, okB := c.temperature(j.Measures[1])
			if !okA || !okB || math.Abs(a-b) < mixedDegrees {
				return
			}
			f := about(j, claims.Caution)
			f.Message = fmt.Sprintf("%s was tested at %s °C and %s at %s °C", armName(j.Measures[0]), digits(a), armName(j.Measures[1]), digits(b))
			if j.Statement.Printed != "" {
				f.Message += fmt.Sprintf("; %s compares them directly", j.Statement.Printed)
			}
			f.Caution = "Do not compare these two arms: heat-treated alloys change with temperature."
			f.Ask = "Were both arms also tested at one temperature?"
			out = append(out, f)
		})
		return out
	},
}

// mixedDegrees is the least difference of temperature that separates two
// conditions: wider than the control of a bath, narrower than room to body.
const mixedDegrees = 5

func (c *Case) temperature(m *claims.Measure) (float64, bool) {
	own, _ := c.judge.said("temperature", m.Arm)
	if len(own) != 1 || !own[0].Value.Known() {
		return 0, false
	}
	return own[0].Value.Value, true
}

var runOuts = Check{
	Name:   "run-outs",
	Asks:   "Did specimens survive the test and enter the mean at its cap?",
	Source: "Kaplan & Meier 1958 J Am Stat Assoc 53:457 (censored times)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		for _, f := range c.Study.Design.Facts {
			if f.ID != "run-outs" {
				continue
			}
			finding := claims.Finding{Grade: claims.Caution, Place: f.Place, Printed: f.Value.Text}
			arms := armsText(f.Arms)
			finding.Message = fmt.Sprintf("some specimens%s did not fracture: “%s”", arms, f.Text)
			for _, m := range c.Study.Measures {
				if len(finding.Measures) == mostPairs {
					break
				}
				if (m.OutcomeID == timeID || m.OutcomeID == cyclesID) && m.Place.Table != "" && (len(f.Arms) == 0 || contains(f.Arms, m.Arm)) {
					finding.Measures = append(finding.Measures, m)
				}
			}
			for _, m := range finding.Measures {
				finding.Message += fmt.Sprintf("; the mean %s of %s is a lower bound", plainNumber(m.Mean.Number), armName(m))
				break
			}
			finding.Caution = "Say “at least”; a percentage of such a mean is not defined."
			finding.Ask = "How many specimens survived, and was a method for censored times used?"
			out = append(out, finding)
		}
		return out
	},
}

const mostPairs = 6

func contains(arms []*claims.Arm, a *claims.Arm) bool {
	for _, x := range arms {
		if x == a {
			return true
		}
	}
	return false
}

func armsText(arms []*claims.Arm) string {
	var names []string
	for _, a := range arms {
		names = append(names, a.Name)
	}
	if len(names) == 0 {
		return ""
	}
	return " of " + strings.Join(names, ", ")
}

var standardTest = Check{
	Name:   "standard-test",
	Asks:   "Does a test named after a standard use that standard's grip and speed?",
	Source: "ISO 3630-1 and ANSI/ADA 28 as quoted by the papers: 3 mm held, 2 rpm, 45° (common practice)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		named := c.facts("standard", nil)
		if len(named) == 0 {
			return nil
		}
		for _, f := range c.Study.Design.Facts {
			want, what := 0.0, ""
			switch f.ID {
			case "grip":
				want, what = 3, "mm held"
			case "torsion-speed":
				want, what = 2, "rpm"
			default:
				continue
			}
			if !f.Value.Known() || f.Value.Value == want {
				continue
			}
			out = append(out, claims.Finding{Grade: claims.Caution, Place: f.Place, Printed: plainNumber(f.Value) + " " + f.Unit, Recomputed: digits(want) + " " + what,
				Message: fmt.Sprintf("%s is cited with %s %s; that test has %s %s", named[0].Text, plainNumber(f.Value), what, digits(want), what),
				Ask:     "Why was the test changed?", Caution: "Do not compare these figures with those of tests that kept to the standard."})
		}
		return out
	},
}

var sizeAlone = Check{
	Name:   "size-alone",
	Asks:   "Could the instruments' diameters alone explain the difference?",
	Source: "round bar: torsional strength as d³, bending stiffness as d⁴ (textbook mechanics, from memory); nominal diameters: tip + taper × 3 mm",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if s.Kind != claims.Percent && s.Kind != claims.Fold || len(j.Measures) != 2 {
				return
			}
			if f, ok := bySize(j); ok {
				out = append(out, f)
			}
		})
		return out
	},
}

// critical is where torsion and bending tests hold the instrument, in mm from
// the tip (common practice).
const critical = 3

func bySize(j claims.Judgement) (claims.Finding, bool) {
	a, b := j.Measures[0], j.Measures[1]
	if a.Arm == nil || b.Arm == nil || (a.OutcomeID != torqueID && a.OutcomeID != "bending-load") {
		return claims.Finding{}, false
	}
	da, db := diameter(a.Arm.Size), diameter(b.Arm.Size)
	if da == 0 || db == 0 || math.Abs(da/db-1) < 0.05 || b.Mean.Value == 0 {
		return claims.Finding{}, false
	}
	size, err := physics.CompareSizes(db, da)
	if err != nil {
		return claims.Finding{}, false
	}
	d3, d4 := size.Cube, size.Fourth
	ratio := a.Mean.Value / b.Mean.Value
	band := interval.Interval{Low: math.Min(d3, d4), High: math.Max(d3, d4)}
	f := about(j, claims.Caution)
	f.Recomputed = fmt.Sprintf("%s to %s from diameter alone", digits(band.Low), digits(band.High))
	f.Message = fmt.Sprintf("%s (%s) and %s (%s) differ in diameter at 3 mm, %s and %s mm; size alone would give a ratio of %s to %s, observed is %s",
		armName(a), a.Arm.Size.Text, armName(b), b.Arm.Size.Text, digits(da), digits(db), digits(band.Low), digits(band.High), digits(ratio))
	f.Caution = "Do not credit alloy or design with a difference that size may explain."
	f.Ask = "Were the diameters measured at the plane of the test?"
	return f, true
}

func diameter(g claims.Geometry) float64 {
	if g.Tip == 0 || g.Taper == 0 {
		return 0
	}
	d, err := physics.Diameter(float64(g.Tip), 100*g.Taper, critical)
	if err != nil {
		return 0
	}
	return d
}

var equivalence = Check{
	Name:   "equivalence",
	Asks:   "Is “no significant difference” told as equality?",
	Source: "Altman & Bland 1995 BMJ 311:485; Alderson 2004 BMJ 328:476",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if !s.Equal || beforeTreatment(s.Text) {
				return
			}
			f := about(j, claims.Caution)
			f.Message = "absence of a significant difference is told as equality, without a margin"
			if !pairsSure(s) || len(s.Pairs) > 1 {
				f.Measures = nil // which figures are meant is not certain
			} else if len(j.Measures) >= 2 {
				a, b := j.Measures[0], j.Measures[1]
				f.Measures = []*claims.Measure{a, b}
				f.Message += fmt.Sprintf("; %s and %s", measureText(a), measureText(b))
				if r, ok := ratioInterval(a, b); ok {
					f.Message += fmt.Sprintf(", 95 %% CI of the ratio %s to %s", digits(r.Low), digits(r.High))
				}
			}
			f.Caution = "Say “no difference was shown”, with the interval."
			f.Ask = "Which difference would have mattered, and was it excluded?"
			out = append(out, f)
		})
		out = onePerSentence(out)
		if len(out) > 1 {
			out[0].Message += fmt.Sprintf("; %d more sentences likewise", len(out)-1)
			out = out[:1]
		}
		return out
	},
}

// beforeTreatment tells a sentence on what groups were like at the start: that
// they are alike is hoped for by design, and no result (CONSORT 2010, item 15:
// Moher et al. BMJ 340:c869).
func beforeTreatment(text string) bool {
	text = strings.ToLower(text)
	for _, w := range []string{"baseline", "characteristics", "demographic", "randomi", "at entry", "at admission", "preoperative", "pre-operative"} {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

func measureText(m *claims.Measure) string {
	if !m.Spread.Known() {
		return armName(m) + " " + plainNumber(m.Mean.Number)
	}
	return fmt.Sprintf("%s %s (%s)", armName(m), plainNumber(m.Mean.Number), spreadText(m))
}

// ratioInterval is the 95 % interval of the ratio of two means, shown to
// people: logarithm, separate variances, Satterthwaite df.
func ratioInterval(a, b *claims.Measure) (effect.Interval, bool) {
	ga, missing := groupOf(a)
	if missing != "" || ga.assumed {
		return effect.Interval{}, false
	}
	gb, missing := groupOf(b)
	if missing != "" || gb.assumed {
		return effect.Interval{}, false
	}
	r, err := effect.LogRatio(ga.box.Arm, gb.box.Arm)
	if err != nil {
		return effect.Interval{}, false
	}
	log, err := r.Interval(0.95)
	if err != nil {
		return effect.Interval{}, false
	}
	return effect.AsRatio(log), true
}

var clinicalWording = Check{
	Name:   "wording",
	Asks:   "Do the words go further than a bench test can carry?",
	Source: "bench tests are surrogates: Hülsmann, Donnermeyer & Schäfer 2019 Int Endod J 52:1427; Feghali et al. 2021 J Contemp Dent Pract 22(4)",
	Run: func(c *Case) []claims.Finding {
		if !c.Study.Design.Bench {
			return nil
		}
		var out []claims.Finding
		for _, a := range c.Study.Alarms {
			out = append(out, claims.Finding{Grade: claims.Caution, Place: a.Place, Printed: a.Text,
				Message: fmt.Sprintf("“%s” says more than a bench test shows: %s", a.Word, quoted(a.Text)),
				Caution: "Say what was measured, on which rig and under which conditions; do not speak of patients.",
				Ask:     "Which clinical observation supports this sentence?"})
		}
		return out
	},
}

func quoted(s string) string { return "“" + s + "”" }

var wideInterval = Check{
	Name:   "interval-wide",
	Asks:   "How much room do n and spread leave around a percentage?",
	Source: "log ratio of means, separate variances: Hedges, Gurevitch & Curtis 1999 Ecology 80:1150; df: Satterthwaite 1946",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			headline := s.Place.Section == "abstract" || s.Place.Section == "conclusion" || s.Place.Section == "body"
			if s.Kind != claims.Percent && s.Kind != claims.Fold || len(j.Measures) != 2 || !headline || j.Verdict == claims.DoesNotReproduce || s.BeforeTo {
				return
			}
			a, b := j.Measures[0], j.Measures[1]
			r, ok := ratioInterval(a, b)
			if !ok {
				return
			}
			ratio := a.Mean.Value / b.Mean.Value
			if r.High/r.Low < 1.25 && (r.Low > 1) == (ratio > 1) {
				return
			}
			f := about(j, claims.Caution)
			f.Recomputed = fmt.Sprintf("ratio %s, 95 %% CI %s to %s", digits(ratio), digits(r.Low), digits(r.High))
			f.Message = fmt.Sprintf("%s: n = %d and n = %d leave room for a change from %s to %s (95 %% CI of the ratio %s, %s to %s)", s.Printed,
				int(a.N.Value), int(b.N.Value), percentText(100*(r.Low-1)), percentText(100*(r.High-1)), digits(ratio), digits(r.Low), digits(r.High))
			f.Caution = "Say the interval with the percentage."
			out = append(out, f)
		})
		return onePerSentence(out)
	},
}

var spreadUnstated = Check{
	Name:   "spread-unstated",
	Asks:   "Is it said what the value after ± is?",
	Source: "Altman & Bland 2005 BMJ 331:903 (standard deviations and standard errors)",
	Run: func(c *Case) []claims.Finding {
		var first *claims.Measure
		n := 0
		for _, m := range c.Study.Measures {
			if m.Place.Table != "" && m.Spread.Value.Known() && m.Spread.Kind == claims.NotStated {
				if first == nil {
					first = m
				}
				n++
			}
		}
		if first == nil {
			return nil
		}
		return []claims.Finding{{Grade: claims.Caution, Measures: []*claims.Measure{first}, Place: first.Place, Printed: first.Text,
			Message: fmt.Sprintf("it is not said whether the spread is a standard deviation or a standard error (%s)", count(n, "figure", "figures")),
			Caution: "Do not compute from these spreads before that is known.",
			Ask:     "Is the value after ± a standard deviation or a standard error?"}}
	},
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
