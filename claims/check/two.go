package check

import (
	"fmt"

	"probity/claims"
	"probity/claims/effect"
	"probity/claims/infer"
	"probity/claims/interval"
)

// Two recomputes everything that two arms in summary allow: the change on
// every base, the ratio and the difference of means with their intervals, the
// test of means within rounding, and the sentence that may be said. Each
// convention is named. Nil measures give nothing.
func Two(a, b *claims.Measure) []claims.Sum {
	sa, okA := sideOfMeasure(a)
	sb, okB := sideOfMeasure(b)
	if !okA || !okB {
		return nil
	}
	out := baseSums(sa, sb)
	ga, whyA := groupOf(a)
	gb, whyB := groupOf(b)
	if whyA != "" || whyB != "" {
		why := whyA
		if why == "" {
			why = whyB
		}
		return append(out, claims.Sum{Name: "intervals and tests", Text: "not given: " + why})
	}
	for _, g := range []group{ga, gb} {
		out = append(out, spreadSums(g)...)
	}
	out = append(out, ratioSums(ga, gb)...)
	out = append(out, differenceSums(ga, gb)...)
	return append(out, maySay(sa, sb, ga, gb)...)
}

func baseSums(a, b side) []claims.Sum {
	ma, mb, err := sameSign(a, b)
	if err != nil {
		return []claims.Sum{{Name: "percent change", Text: "not defined: the two figures lie on both sides of zero"}}
	}
	var out []claims.Sum
	for _, base := range interval.Bases {
		if base == interval.Points && !(a.percent && b.percent) {
			continue
		}
		change, err := interval.Percent(base, ma.printed, mb.printed)
		if err != nil {
			continue
		}
		text := sumText(base, ma, mb, change.Value)
		unit := " %"
		if base == interval.Points {
			unit = " points"
		}
		if r := rangeText(change.Range.Low, change.Range.High, unit); r != "" {
			text += " (" + r + " within rounding)"
		}
		out = append(out, claims.Sum{Name: "base " + base.String(), Text: text, Source: "arithmetic"})
	}
	return out
}

// spreadSums shows how a spread that is no SD was brought to one.
func spreadSums(g group) []claims.Sum {
	spread, n := g.measure.Spread, g.measure.N.Value
	sum := claims.Sum{Name: "SD of " + armName(g.measure), Source: "Cochrane Handbook for Systematic Reviews of Interventions, ch. 6.5.2.2"}
	sd := digits(g.box.Arm.SD)
	if scale := g.measure.Scale; scale.Factor > 0 {
		sd = fmt.Sprintf("%s %s, and × %s %s %s", digits(g.box.Arm.SD/scale.Factor), g.measure.Unit, digits(scale.Factor), sd, scale.Unit)
	}
	switch spread.Kind {
	case claims.SE:
		sum.Text = fmt.Sprintf("SE %s × √%d = %s", plainNumber(spread.Value), g.box.Arm.N, sd)
	case claims.CI95:
		t, err := infer.TCritical(0.05, n-1)
		if err != nil {
			return nil
		}
		sum.Text = fmt.Sprintf("95 %% CI: (%s − %s) × √%d / (2 × %s) = %s, with t on %d df", plainNumber(spread.High), plainNumber(spread.Low), g.box.Arm.N, digits(t), sd, g.box.Arm.N-1)
	case claims.NotStated:
		sum.Text = fmt.Sprintf("%s, the unlabelled figure taken as an SD", sd)
		sum.Source = ""
	default:
		return nil
	}
	return []claims.Sum{sum}
}

func ratioSums(a, b group) []claims.Sum {
	var out []claims.Sum
	if r, err := effect.LogRatio(a.box.Arm, b.box.Arm); err == nil {
		if log, err := r.Interval(0.95); err == nil {
			ci := effect.AsRatio(log)
			out = append(out, claims.Sum{Name: "ratio of means",
				Text:   fmt.Sprintf("%s, 95 %% CI %s to %s (log ratio, separate variances, t with %s df)", digits(a.box.Arm.Mean/b.box.Arm.Mean), digits(ci.Low), digits(ci.High), digits(r.DF)),
				Source: "Hedges, Gurevitch & Curtis 1999 Ecology 80:1150; Satterthwaite 1946 Biometrics Bull 2:110"})
		}
	}
	if f, err := effect.Fieller(a.box.Arm, b.box.Arm, effect.Separate, 0.95); err == nil {
		text := "not bounded: the denominator cannot be told from zero"
		if ci, err := f.Interval(); err == nil {
			text = fmt.Sprintf("95 %% CI %s to %s (separate variances)", digits(ci.Low), digits(ci.High))
		}
		out = append(out, claims.Sum{Name: "ratio, Fieller", Text: text, Source: "Fieller 1954 J R Stat Soc B 16:175"})
	}
	return out
}

func differenceSums(a, b group) []claims.Sum {
	var out []claims.Sum
	if d, err := effect.Subtract(a.box.Arm, b.box.Arm); err == nil {
		text := digits(d.Value)
		if ci, err := d.Interval(0.95); err == nil {
			text += fmt.Sprintf(", 95 %% CI %s to %s", digits(ci.Low), digits(ci.High))
		}
		out = append(out, claims.Sum{Name: "difference of means", Text: text, Source: "Welch 1947 Biometrika 34:28"})
	}
	for _, t := range []struct {
		name   string
		run    func(a, b infer.Arm) (infer.TTest, error)
		over   func(a, b infer.ArmBox) (infer.Range, error)
		source string
	}{
		{"Welch t test", infer.Welch, infer.WelchRange, "Welch 1947 Biometrika 34:28"},
		{"Student t test", infer.Student, infer.StudentRange, "Student 1908 Biometrika 6:1"},
	} {
		one, err := t.run(a.box.Arm, b.box.Arm)
		if err != nil {
			continue
		}
		text := fmt.Sprintf("t = %s, df = %s, %s", digits(one.T), digits(one.DF), pText(one.P.Value))
		if r, err := t.over(a.box, b.box); err == nil {
			text += fmt.Sprintf(" (%s to %s within rounding)", pNumber(r.Low.Value), pNumber(r.High.Value))
		}
		out = append(out, claims.Sum{Name: t.name, Text: text, Source: t.source})
	}
	return out
}

// maySay is a sentence that the figures carry: the ratio, both means, n, and
// the interval.
func maySay(a, b side, ga, gb group) []claims.Sum {
	r, ok := ratioInterval(ga.measure, gb.measure)
	if !ok || gb.box.Arm.Mean == 0 {
		return nil
	}
	figures := fmt.Sprintf("(%s against %s, n = %d and %d; 95 %% CI of the ratio %s to %s)", a.text, b.text, ga.box.Arm.N, gb.box.Arm.N, fixed(r.Low, 2), fixed(r.High, 2))
	text := fmt.Sprintf("In this test the mean of %s was %s times that of %s %s.", a.name, fixed(ga.box.Arm.Mean/gb.box.Arm.Mean, 2), b.name, figures)
	if r.Low <= 1 && r.High >= 1 {
		text = fmt.Sprintf("In this test no difference between %s and %s was shown %s.", a.name, b.name, figures)
	}
	return []claims.Sum{{Name: claims.MayBeSaid, Text: text}}
}
