package check

import (
	"fmt"
	"math"

	"probity/claims"
	"probity/claims/infer"
	"probity/claims/interval"
	"probity/claims/reading"
	"probity/extract"
)

// statistic judges a printed test statistic, or a printed p, against the
// figures it was computed from.
func (j *judge) statistic(s *claims.Statement) claims.Judgement {
	if can, why := j.design.recomputable(); !can {
		return claims.Judgement{Why: why}
	}
	if s.BeforeTo {
		return claims.Judgement{Why: "the same specimens were measured twice, which means and SDs cannot bring back"}
	}
	if s.Stat != nil && s.Stat.Value.Known() {
		switch s.Stat.Name {
		case "F":
			return j.fStatistic(s)
		case "t":
			return j.tStatistic(s)
		case "p", "":
		default:
			return claims.Judgement{Why: fmt.Sprintf("means and SDs cannot bring the statistic %s back", s.Stat.Name)}
		}
	}
	return j.pValue(s)
}

// box is the rounding interval of a printed number with its relation.
func box(n extract.Number) (interval.Interval, bool) {
	p, ok := printed(n)
	if !ok {
		return interval.Interval{}, false
	}
	b := p.Interval()
	switch n.Relation {
	case extract.Less, extract.LessEqual:
		b.Low = math.Inf(-1)
	case extract.Greater, extract.GreaterEqual:
		b.High = math.Inf(1)
	}
	return b, true
}

// A fReading is one family of arms held against a printed F.
type fReading struct {
	family  []*claims.Measure
	groups  []group
	r       infer.Range
	f       float64
	df1     float64
	df2     float64
	dfFits  bool
	fits    bool
	asSE    float64 // F when the spreads are taken as standard errors
	seFits  bool
	assumed bool
}

func (j *judge) fReadings(s *claims.Statement) []fReading {
	want, ok := box(s.Stat.Value)
	if !ok {
		return nil
	}
	var out []fReading
	for _, family := range j.familiesOf(s) {
		groups, missing := groupsOf(family)
		if missing != "" || len(groups) < 2 || len(groups) > mostOmnibus {
			continue
		}
		r, err := infer.AnovaRange(boxesOf(groups))
		if err != nil {
			continue
		}
		f := fReading{family: family, groups: groups, r: r, f: midF(groups), df1: float64(len(groups) - 1), dfFits: true}
		n := 0
		se := make([]group, len(groups))
		for i, g := range groups {
			n += g.box.Arm.N
			se[i] = g.asSE()
			f.assumed = f.assumed || g.assumed
		}
		f.df2 = float64(n - len(groups))
		if df := s.Stat.DF; len(df) == 2 {
			f.dfFits = df[0].Value == f.df1 && df[1].Value == f.df2
		}
		f.fits = r.Statistic.Meets(want)
		if rse, err := infer.AnovaRange(boxesOf(se)); err == nil {
			f.asSE, f.seFits = midF(se), rse.Statistic.Meets(want)
		}
		out = append(out, f)
	}
	return out
}

func (j *judge) fStatistic(s *claims.Statement) claims.Judgement {
	readings := j.fReadings(s)
	if len(readings) == 0 {
		return claims.Judgement{Why: "the mean, SD and n of every arm are needed for F, and they are not all printed"}
	}
	for _, f := range readings {
		if f.fits {
			return f.judgement(claims.Reproduces, f.text())
		}
	}
	f := readings[0]
	if len(readings) > 1 || !f.dfFits && len(s.Stat.DF) == 2 || len(s.Stat.DF) == 0 {
		out := f.judgement(claims.NotCheckable, f.text()+fmt.Sprintf("; %s is printed, which may be another analysis", s.Printed))
		out.Doubt.Add(anotherTest, reading.Slight)
		return out
	}
	why := f.text() + fmt.Sprintf(", not the printed %s", plainNumber(s.Stat.Value))
	if f.seFits {
		why += fmt.Sprintf("; taken as standard errors the spreads give F = %s, which fits", digits(f.asSE))
	}
	if !j.design.certain() || !pairsSureOrNone(s) {
		out := f.judgement(claims.NotCheckable, why)
		out.Doubt.Add(anotherTest, reading.Slight)
		return out
	}
	return f.judgement(claims.DoesNotReproduce, why)
}

// anotherTest is why a statistic that does not come out may yet be right.
const anotherTest = "another test, or another part of the data, may stand behind it"

func pairsSureOrNone(s *claims.Statement) bool { return len(s.Pairs) == 0 || pairsSure(s) }

func (f fReading) text() string {
	t := fmt.Sprintf("one-way analysis of variance over %d arms: F(%s, %s) = %s", len(f.groups), digits(f.df1), digits(f.df2), digits(f.f))
	if r := rangeText(f.r.Statistic.Low, f.r.Statistic.High, ""); r != "" {
		t += " (" + r + " within rounding)"
	}
	return t
}

func (f fReading) judgement(v claims.Verdict, why string) claims.Judgement {
	return claims.Judgement{Verdict: v, Why: why, Measures: f.family,
		Recomputed: []claims.Recalculation{{Method: "one-way analysis of variance", Value: f.f, Low: f.r.Statistic.Low, High: f.r.Statistic.High, Fits: f.fits}}}
}

func (j *judge) tStatistic(s *claims.Statement) claims.Judgement {
	want, ok := box(s.Stat.Value)
	if !ok || len(s.Pairs) == 0 {
		return claims.Judgement{Why: missing(s)}
	}
	if want.High < 0 {
		want = want.Neg()
	}
	out := claims.Judgement{}
	for _, p := range s.Pairs {
		c, why := j.compare(p)
		if why != "" {
			out.Why = why
			continue
		}
		for _, t := range c.tests() {
			if t.stat != "t" || t.bonf > 1 {
				continue
			}
			one := claims.Recalculation{Method: t.name, Value: t.r.Statistic.Mid(), Low: t.r.Statistic.Low, High: t.r.Statistic.High, Fits: t.r.Statistic.Meets(want)}
			out.Recomputed = append(out.Recomputed, one)
			out.Measures = []*claims.Measure{p.A, p.B}
			out.Why = fmt.Sprintf("%s for %s: t = %s to %s", t.name, c.pair(), digits(one.Low), digits(one.High))
			if one.Fits {
				out.Verdict = claims.Reproduces
				return out
			}
		}
	}
	if len(out.Recomputed) > 0 {
		out.Why += fmt.Sprintf(", not the printed %s", plainNumber(s.Stat.Value))
		if len(s.Pairs) == 1 && pairsSure(s) && j.design.certain() && j.design.tTest() {
			out.Verdict = claims.DoesNotReproduce
		} else {
			out.Doubt.Add(anotherTest, reading.Slight)
		}
	}
	return out
}

// pValue judges a printed p on its own: it must be met by a test that may
// stand behind it.
func (j *judge) pValue(s *claims.Statement) claims.Judgement {
	n := s.P
	if !n.Known() && s.Stat != nil {
		n = s.Stat.P
	}
	p, ok := printedP(n)
	if !ok || len(s.Pairs) == 0 {
		if ok {
			if out, found := j.omnibusP(s, n, p); found {
				return out
			}
		}
		return claims.Judgement{Why: missing(s)}
	}
	out := claims.Judgement{}
	var nearest string
	for _, pair := range s.Pairs {
		c, why := j.compare(pair)
		if why != "" {
			out.Why = why
			continue
		}
		out.Measures = append(out.Measures, pair.A, pair.B)
		for _, t := range c.tests() {
			fits := p.Meets(t.r.P())
			out.Recomputed = append(out.Recomputed, claims.Recalculation{Method: t.name, Value: t.r.Point.Value, Low: t.r.Low.Value, High: t.r.High.Value, Fits: fits})
			if fits {
				out.Verdict = claims.Reproduces
				out.Measures = []*claims.Measure{pair.A, pair.B}
				out.Why = fmt.Sprintf("%s for %s", t, c.pair())
				return out
			}
		}
		if nearest == "" {
			nearest = fmt.Sprintf("%s for %s", c.primary, c.pair())
		}
		if len(s.Pairs) == 1 && pairsSure(s) && c.k == 2 && !c.assumed && j.design.certain() && j.design.tTest() {
			out.Verdict = claims.DoesNotReproduce
		}
	}
	if nearest != "" {
		out.Why = fmt.Sprintf("%s, not the printed %s", nearest, pPrinted(n))
		if out.Verdict != claims.DoesNotReproduce {
			out.Doubt.Add(anotherTest, reading.Slight)
		}
	}
	return out
}

// omnibusP holds a p printed for all groups against analysis of variance.
func (j *judge) omnibusP(s *claims.Statement, n extract.Number, p infer.PrintedP) (claims.Judgement, bool) {
	for _, family := range j.familiesOf(s) {
		groups, missing := groupsOf(family)
		if missing != "" || len(groups) < 2 || len(groups) > mostOmnibus {
			continue
		}
		r, err := infer.AnovaRange(boxesOf(groups))
		if err != nil {
			continue
		}
		out := claims.Judgement{Measures: family, Why: fmt.Sprintf("one-way analysis of variance over %d arms: F = %s, %s", len(groups), digits(midF(groups)), pText(r.Point.Value))}
		if p.Meets(r.P()) {
			out.Verdict = claims.Reproduces
			return out, true
		}
		out.Why += fmt.Sprintf(", not the printed %s", pPrinted(n))
		out.Doubt.Add(anotherTest, reading.Slight)
		return out, true
	}
	return claims.Judgement{}, false
}
