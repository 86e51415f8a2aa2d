package check

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/infer"
	"probity/extract"
)

var significanceCheck = Check{
	Name:   "significance",
	Asks:   "Do the printed p, the letters and the recomputed test agree with what is called significant?",
	Source: "Welch 1947 Biometrika 34:28; Student 1908 Biometrika 6:1; Tukey 1953; letters: Piepho 2004 J Comput Graph Stat 13:456",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if s.Kind != claims.Significance && s.Kind != claims.NoDifference && !(s.Kind == claims.Difference && s.Significant != nil) {
				return
			}
			f := about(j, claims.AtOdds)
			switch {
			case c.aboveStatedLevel(j):
				return // said once for all by the check of the level
			case j.Verdict == claims.DoesNotReproduce:
			case !j.Doubt.Sure() && worthAsking(j) && (!s.P.Known() || s.P.Relation == extract.Equal):
				f.Grade = claims.Query
			default:
				return
			}
			if s.P.Known() {
				f.Printed = pPrinted(s.P)
			}
			what := "a significant difference is stated"
			if s.Kind == claims.NoDifference {
				what = "no significant difference is stated"
			}
			if s.P.Known() {
				what += " with " + pPrinted(s.P)
			}
			f.Message = what + because(j)
			f.Caution = "Say the two means with their spread, not the word “significant”, until this is cleared up."
			f.Ask = "Which test gave this result, on how many specimens, and what was its p?"
			out = append(out, f)
		})
		return out
	},
}

var significanceLevel = Check{
	Name:   "significance-level",
	Asks:   "Are differences called significant whose p lies above the level that the paper states?",
	Source: "comparison of the printed p with the stated level",
	Run: func(c *Case) []claims.Finding {
		var f claims.Finding
		var ps []string
		c.own(func(j claims.Judgement) {
			for _, p := range c.levelsCrossed(j) {
				if len(ps) == 0 {
					f = about(j, claims.AtOdds)
				}
				if !slices.Contains(ps, p) {
					ps = append(ps, p)
				}
			}
		})
		if len(ps) == 0 {
			return nil
		}
		level := c.Study.Design.Alpha.Place
		level.File = ""
		f.Printed = strings.Join(ps, ", ")
		f.Recomputed = "level " + digits(c.judge.design.alpha)
		f.Message = fmt.Sprintf("the level of significance is stated as %s (%s); %s called significant", digits(c.judge.design.alpha), level, joined(ps))
		f.Ask = "Which level of significance was used?"
		f.Caution = "Say the p values, not the word “significant”."
		return []claims.Finding{f}
	},
}

// exactPs finds p values printed with "=" in a sentence.
var exactPs = regexp.MustCompile(`(?i)\bp(?:-value)?\s*=\s*(0?\.\d+)`)

// levelsCrossed lists the p of a statement of significance that lies above the
// stated level, and those of its sentence that do so yet lie below the usual
// one: values called significant by another level than the stated.
func (c *Case) levelsCrossed(j claims.Judgement) []string {
	s := j.Statement
	if s.Doubt.Outweighs() {
		return nil
	}
	var out []string
	if c.aboveStatedLevel(j) {
		out = append(out, pPrinted(s.P))
	}
	if s.Kind != claims.Significance || !c.judge.design.alphaStated || s.Alpha.Known() || c.deniesToo(s.Text) {
		return out
	}
	for _, m := range exactPs.FindAllStringSubmatch(s.Text, -1) {
		v, err := strconv.ParseFloat(m[1], 64)
		if err == nil && v > c.judge.design.alpha && v <= usualAlpha {
			if p := "p = 0" + strings.TrimPrefix(m[1], "0"); !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	return out
}

// deniesToo reports a sentence that also says of something that it did not
// differ: its p values cannot be told apart then.
func (c *Case) deniesToo(text string) bool {
	if c.judge.denied == nil {
		c.judge.denied = map[string]bool{}
		for _, j := range c.Judgements {
			if j.Statement.Kind == claims.NoDifference {
				c.judge.denied[j.Statement.Text] = true
			}
		}
	}
	return c.judge.denied[text]
}

func joined(ps []string) string {
	if len(ps) == 1 {
		return ps[0] + " is"
	}
	return strings.Join(ps[:len(ps)-1], ", ") + " and " + ps[len(ps)-1] + " are"
}

// aboveStatedLevel reports a difference called significant beside a p above
// the level that the paper itself states.
func (c *Case) aboveStatedLevel(j claims.Judgement) bool {
	s := j.Statement
	if s.Kind == claims.NoDifference || s.Significant != nil && !*s.Significant || s.P.Relation != extract.Equal || s.Alpha.Known() || !c.judge.design.alphaStated {
		return false
	}
	if s.Kind != claims.Significance && s.Significant == nil {
		return false
	}
	p, ok := printedP(s.P)
	return ok && !s.Doubt.Outweighs() && s.P.Value <= mostLevel && p.Side(c.judge.design.alpha) == infer.NotSignificant
}

// mostLevel is the highest level in use: a p above it beside "significant" is
// a sentence read wrongly (common practice).
const mostLevel = 0.1

// worthAsking keeps questions to what a colleague would ask: a reading that
// could be ours alone is not put to the authors.
func worthAsking(j claims.Judgement) bool {
	if len(j.Measures) == 0 {
		return j.Statement.P.Known() && j.Statement.P.Relation == extract.Equal
	}
	return pairsSure(j.Statement)
}

var statisticCheck = Check{
	Name:   "test-statistic",
	Asks:   "Do the printed means, spreads and n give the printed test statistic or p?",
	Source: "one-way analysis of variance from summary figures: Fisher 1925, Statistical Methods for Research Workers; Cochrane Handbook 6.5.2 (SE taken for SD)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if s.Kind != claims.TestStatistic || j.Verdict != claims.DoesNotReproduce {
				return
			}
			f := about(j, claims.AtOdds)
			f.Message = fmt.Sprintf("%s is printed%s", s.Printed, because(j))
			f.Recomputed = j.Why
			f.Caution = "The size of the effect stands as printed; how sure it is does not, until this is cleared up."
			f.Ask = "Are the values after ± standard deviations or standard errors, and how many specimens entered the test?"
			if s.Stat == nil || s.Stat.Name != "F" {
				f.Grade = claims.Query
				f.Ask = "Which test gave this p, and how many specimens entered it?"
			}
			out = append(out, f)
		})
		return out
	},
}

var degreesOfFreedom = Check{
	Name:   "degrees-of-freedom",
	Asks:   "Do the degrees of freedom fit the number of arms and specimens?",
	Source: "one-way analysis of variance: k − 1 and N − k (Fisher 1925)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		c.own(func(j claims.Judgement) {
			s := j.Statement
			if s.Stat == nil || s.Stat.Name != "F" || len(s.Stat.DF) != 2 {
				return
			}
			readings := c.judge.fReadings(s)
			if len(readings) != 1 || readings[0].dfFits || !pairsSureOrNone(s) {
				return
			}
			r := readings[0]
			df1, df2 := s.Stat.DF[0], s.Stat.DF[1]
			f := about(j, claims.AtOdds)
			if df1.Value != r.df1 || !c.judge.design.certain() {
				f.Grade = claims.Query // another design (two factors, a covariate) may stand behind it
			}
			f.Measures = r.family
			f.Recomputed = fmt.Sprintf("F(%s, %s)", digits(r.df1), digits(r.df2))
			f.Message = fmt.Sprintf("F has %s and %s degrees of freedom; %d arms with %d specimens give %s and %s",
				plainNumber(df1), plainNumber(df2), len(r.groups), int(r.df1+r.df2)+1, digits(r.df1), digits(r.df2))
			f.Ask = "Were specimens left out, or did another model stand behind the test?"
			f.Caution = "n may be other than printed; say so where the figure is used."
			out = append(out, f)
		})
		return out
	},
}

var lettersFigures = Check{
	Name:   "letters-figures",
	Asks:   "Do the grouping letters of a table agree with its own means, spreads and n?",
	Source: "Tukey 1953; Welch 1947 Biometrika 34:28; letters: Piepho 2004 J Comput Graph Stat 13:456",
	Run:    runLettersFigures,
}

// farApart is how small the recomputed p must be before arms that share a
// letter are asked about: far below any correction for many comparisons.
const farApart = 1e-5

func runLettersFigures(c *Case) []claims.Finding {
	if can, _ := c.judge.design.recomputable(); !can {
		return nil
	}
	type table struct {
		off            []claims.Finding
		shared, agrees int // misfits of a shared letter, pairs that agree
	}
	tables := map[string]*table{}
	var order []string
	var out []claims.Finding
	done := map[*claims.Measure]bool{}
	for _, m := range c.Study.Measures {
		if m.Letters == "" || done[m] || m.Place.Table == "" || !m.Doubt.Sure() {
			continue
		}
		family := c.judge.family(m)
		for _, o := range family {
			done[o] = true
		}
		t := tables[m.Place.Table]
		if t == nil {
			t = &table{}
			tables[m.Place.Table] = t
			order = append(order, m.Place.Table)
		}
		if len(family) > mostLettered {
			out = append(out, claims.Finding{Grade: claims.Caution, Place: m.Place,
				Message: fmt.Sprintf("letters stand with %d figures of one outcome; more than %d are not held against each other", len(family), mostLettered),
				Caution: "The letters of these figures were not checked against the figures."})
			continue
		}
		for i, a := range family {
			for _, b := range family[i+1:] {
				if f, ok := c.lettersPair(a, b); ok {
					t.off = append(t.off, f)
					if v, _ := byLetters(a, b); v == lettersSame {
						t.shared++
					}
				} else if v, _ := byLetters(a, b); v != lettersSilent {
					t.agrees++
				}
			}
		}
	}
	for _, key := range order {
		switch t := tables[key]; {
		case len(t.off) == 0:
		case t.shared <= 1 && t.agrees > 0:
			out = append(out, t.off...) // the other pairs of the table are the witness
		default:
			f := t.off[0]
			f.Grade = claims.Query
			if n := len(t.off) - 1; n > 0 {
				f.Message += fmt.Sprintf("; %d more pairs of the table likewise", n)
			}
			f.Ask = "Among which cells are the letters to be compared, and what does a shared letter mean?"
			out = append(out, f)
		}
	}
	return out
}

// mostLettered is the most arms whose letters are held against their figures
// pair by pair: a longer list is no set of groups that were compared.
const mostLettered = 200

func (c *Case) lettersPair(a, b *claims.Measure) (claims.Finding, bool) {
	v, stated := byLetters(a, b)
	if v == lettersSilent || !stated || !a.Doubt.Sure() || !b.Doubt.Sure() {
		return claims.Finding{}, false
	}
	if !c.worthComparing(v, a, b) {
		return claims.Finding{}, false
	}
	cmp, missing := c.judge.compare(claims.Pair{A: a, B: b})
	if missing != "" || cmp.assumed {
		return claims.Finding{}, false
	}
	f := claims.Finding{Grade: claims.AtOdds, Measures: []*claims.Measure{a, b}, Place: a.Place,
		Printed: "letters " + a.Letters + " and " + b.Letters, Recomputed: cmp.primary.String(),
		Ask: "Which letters belong to these two arms?", Caution: "Compare these two arms by their figures, not by the letters."}
	worst := 0.0
	for _, t := range cmp.tests() {
		worst = math.Max(worst, t.r.High.Value)
	}
	switch {
	case v == lettersSame && worst < farApart:
		if !c.judge.design.certain() && c.judge.design.any {
			f.Grade = claims.Query
		}
		f.Message = fmt.Sprintf("%s share a letter, which the legend reads as no significant difference; %s gives %s", cmp.pair(), cmp.two[0].name, pText(cmp.two[0].r.Point.Value))
		return f, true
	case v == lettersDiffer && cmp.every(c.judge.design.alpha, infer.NotSignificant) && c.judge.design.certain() && allAbove(cmp, 2*c.judge.design.alpha):
		f.Grade = claims.Query
		f.Message = fmt.Sprintf("%s share no letter, which the legend reads as a significant difference; %s", cmp.pair(), cmp.primary)
		return f, true
	}
	return claims.Finding{}, false
}

func allAbove(c *comparison, p float64) bool {
	for _, t := range c.tests() {
		if t.r.Low.Value < p {
			return false
		}
	}
	return true
}

// worthComparing is a cheap look before every test of a pair is computed: most
// pairs of a table agree with their letters.
func (c *Case) worthComparing(v letterVerdict, a, b *claims.Measure) bool {
	ga, missing := groupOf(a)
	if missing != "" {
		return false
	}
	gb, missing := groupOf(b)
	if missing != "" {
		return false
	}
	r, err := infer.StudentRange(ga.box, gb.box)
	if err != nil {
		return false
	}
	if v == lettersSame {
		return r.High.Value < farApart
	}
	return r.Low.Value >= c.judge.design.alpha
}

var pImpossible = Check{
	Name:   "p-impossible",
	Asks:   "Is a p value printed that no test can give?",
	Source: "a p value is above 0 and at most 1; printing rule: AMA Manual of Style, 11th ed., 19.5 (from memory)",
	Run: func(c *Case) []claims.Finding {
		var out []claims.Finding
		add := func(n extract.Number, place extract.Place, s *claims.Statement) {
			if !n.Known() || n.Relation == extract.Greater || n.Relation == extract.GreaterEqual {
				return
			}
			f := claims.Finding{Place: place, Printed: "p " + n.Text, Statement: s}
			switch {
			case n.Value > 1 || n.Value < 0:
				f.Grade = claims.Query
				f.Message = fmt.Sprintf("p = %s is printed; a p value lies between 0 and 1", n.Text)
			case n.Value == 0 && n.Relation == extract.Equal:
				f.Grade = claims.Query
				f.Recomputed = "below " + digits(n.Half())
				f.Message = fmt.Sprintf("p = %s is printed; a p value is never zero, software prints this for values below %s", n.Text, digits(n.Half()))
			default:
				return
			}
			f.Ask = "What was the p value?"
			f.Caution = "Say “p < 0.001” only if the authors confirm it."
			out = append(out, f)
		}
		c.own(func(j claims.Judgement) {
			s := j.Statement
			add(s.P, s.Place, s)
			if s.Stat != nil {
				add(s.Stat.P, s.Place, s)
			}
		})
		return onePerSentence(out)
	},
}

func onePerSentence(findings []claims.Finding) []claims.Finding {
	seen := map[string]bool{}
	var out []claims.Finding
	for _, f := range findings {
		if f.Statement != nil {
			if seen[f.Statement.Text] {
				continue
			}
			seen[f.Statement.Text] = true
		}
		out = append(out, f)
	}
	return out
}
