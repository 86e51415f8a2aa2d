package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"probity/claims/interval"
	"probity/claims/pool"
)

// A Combined is one contrast of a stratum combined over papers, or why it was
// not.
type Combined struct {
	Contrast          string
	Refused           string // why there is no result; "": there is one
	Papers            int
	Ratio, Low, High  float64 // random effects, Hartung–Knapp
	PredLow, PredHigh float64 // where another paper's ratio is expected
	Tau2, I2          float64
	Q, PQ             float64
	Without           []Without // leaving out one paper at a time
	NotIn             []Left    // papers of the contrast that did not enter
}

// A Without is the result with one paper left out.
type Without struct {
	Paper            *Paper
	Ratio, Low, High float64
}

const (
	fewestPapers = 3
	// mostLeftOut bounds the work of leaving out one paper at a time; with more
	// papers no single one moves the result much.
	mostLeftOut = 60
)

// combine goes through the contrasts of a stratum. Contrasts that a single
// paper has are passed over; one refusal says so for all of them.
func (res *Result) combine(s *Stratum) []Combined {
	order := []string{}
	by := map[string][]*Row{}
	for _, r := range s.Rows {
		c := r.contrast
		if res.Contrast {
			c = "asked"
		}
		if by[c] == nil {
			order = append(order, c)
		}
		by[c] = append(by[c], r)
	}
	var out []Combined
	alone := 0
	for _, c := range order {
		rows := by[c]
		if papersOf(rows) < 2 && len(order) > 1 {
			alone++
			continue
		}
		out = append(out, res.one(rows))
	}
	if len(out) == 0 && alone > 0 {
		out = append(out, Combined{Contrast: "all", Papers: s.Papers, Refused: "no two papers compare the same arms here"})
	}
	return out
}

// effectOf is a paper's share in a combination with the rows it came from.
type effectOf struct {
	pool.Effect
	paper *Paper
}

func (res *Result) one(rows []*Row) Combined {
	c := Combined{Contrast: rows[0].Subject.Name + " against " + rows[0].Reference.Name}
	if res.Contrast {
		c.Contrast = res.Query.Subject + " against " + res.Query.Against
	}
	byPaper := map[*Paper][]*Row{}
	var papers []*Paper
	for _, r := range rows {
		if byPaper[r.Paper] == nil {
			papers = append(papers, r.Paper)
		}
		byPaper[r.Paper] = append(byPaper[r.Paper], r)
	}
	var effects []effectOf
	for _, p := range papers {
		e, why := res.effect(byPaper[p])
		if why != "" {
			c.NotIn = append(c.NotIn, Left{p, why})
			continue
		}
		effects = append(effects, effectOf{e, p})
	}
	c.Papers = len(effects)
	if len(effects) < fewestPapers {
		c.Refused = fmt.Sprintf("%s may enter; at least %d are needed to combine, so they stand side by side", papersWord(len(effects)), fewestPapers)
		return c
	}
	if err := c.pool(effects); err != nil {
		c.Refused = err.Error()
	}
	return c
}

func papersWord(n int) string {
	if n == 1 {
		return "1 paper"
	}
	return fmt.Sprintf("%d papers", n)
}

// effect is what one paper enters with, or why it does not. Rows that share an
// arm are merged with their covariance.
func (res *Result) effect(rows []*Row) (pool.Effect, string) {
	var use []*Row
	why := ""
	for _, r := range rows {
		switch {
		case r.Grade == WithCaution && !res.Query.Caution:
			why = "with caution: " + r.Reasons[0]
		case !r.HasInterval:
			why = "no interval: " + r.NoInterval
		case !(r.log.Var > 0):
			why = "no spread"
		default:
			use = append(use, r)
		}
	}
	if len(use) == 0 {
		return pool.Effect{}, why
	}
	effects := make([]pool.Effect, len(use))
	for i, r := range use {
		effects[i] = pool.Effect{Value: r.log.Log, Var: r.log.Var, Paper: r.Paper.ID}
	}
	if len(use) == 1 {
		return effects[0], ""
	}
	for i, a := range use {
		for _, b := range use[:i] {
			if sameArm(a.Subject, b.Subject) && sameArm(a.Reference, b.Reference) {
				return pool.Effect{}, "the same arms under several conditions; choose one with --where condition=…"
			}
			if (a.Subject.Figure == b.Subject.Figure) == (a.Reference.Figure == b.Reference.Figure) && a.Condition != b.Condition {
				return pool.Effect{}, "several conditions; choose one with --where condition=…"
			}
		}
	}
	merged, err := pool.Merge(effects, func(i, j int) float64 { return covariance(use[i], use[j]) })
	if err != nil {
		return pool.Effect{}, err.Error()
	}
	return merged, ""
}

func sameArm(a, b Side) bool { return strings.EqualFold(a.Name, b.Name) }

// covariance of two log ratios through the arms they share.
func covariance(a, b *Row) float64 {
	shared := func(s Side) float64 {
		v, err := pool.SharedLogRatio(interval.Arm{Mean: s.Mean, SD: s.SD, N: s.N})
		if err != nil {
			return 0
		}
		return v
	}
	sum := 0.0
	if a.Reference.Figure == b.Reference.Figure {
		sum += shared(a.Reference)
	}
	if a.Subject.Figure == b.Subject.Figure {
		sum += shared(a.Subject)
	}
	if a.Subject.Figure == b.Reference.Figure {
		sum -= shared(a.Subject)
	}
	if a.Reference.Figure == b.Subject.Figure {
		sum -= shared(a.Reference)
	}
	return sum
}

func (c *Combined) pool(effects []effectOf) error {
	list := make([]pool.Effect, len(effects))
	for i, e := range effects {
		list[i] = e.Effect
	}
	r, err := pool.Pool(list, pool.REML)
	if err != nil {
		return err
	}
	ci, err := r.IntervalTruncatedHK(0.95)
	if err != nil {
		return err
	}
	c.Ratio, c.Low, c.High = math.Exp(r.Estimate), math.Exp(ci.Low), math.Exp(ci.High)
	c.Tau2, c.Q = r.Tau2, r.Q
	c.I2, _ = r.I2Tau()
	c.PQ, _ = r.PQ()
	if p, err := r.Predict(pool.PredictHTS, 0.95); err == nil {
		c.PredLow, c.PredHigh = math.Exp(p.Low), math.Exp(p.High)
	}
	if len(effects) <= fewestPapers || len(effects) > mostLeftOut {
		return nil
	}
	for i, e := range effects {
		r, err := pool.Pool(slices.Delete(slices.Clone(list), i, i+1), pool.REML)
		if err != nil {
			return err
		}
		ci, err := r.IntervalTruncatedHK(0.95)
		if err != nil {
			return err
		}
		c.Without = append(c.Without, Without{e.paper, math.Exp(r.Estimate), math.Exp(ci.Low), math.Exp(ci.High)})
	}
	return nil
}
