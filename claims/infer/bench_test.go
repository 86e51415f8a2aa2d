package infer_test

import (
	"testing"

	"probity/claims/effect"
	"probity/claims/infer"
	"probity/claims/interval"
)

// BenchmarkTwoArms recalculates one comparison in full: every base, the ratio
// and its Fieller interval, g with its noncentral interval, Welch's p and what
// rounding makes of it.
func BenchmarkTwoArms(b *testing.B) {
	parse := func(text string) interval.Printed {
		p, err := interval.Parse(text)
		if err != nil {
			b.Fatal(err)
		}
		return p
	}
	m1, s1, m2, s2, claim := parse("702.3"), parse("106.8"), parse("588.0"), parse("140.3"), parse("19%")
	b.ReportAllocs()
	for b.Loop() {
		var failed error
		note := func(err error) {
			if err != nil {
				failed = err
			}
		}
		for _, base := range interval.Bases {
			_, err := interval.Percent(base, m1, m2)
			note(err)
			_, err = interval.Fits(claim, base, m1, m2)
			note(err)
		}
		box1, err := interval.BoxOf(m1, s1, 12)
		note(err)
		box2, err := interval.BoxOf(m2, s2, 12)
		note(err)
		ratio, err := effect.LogRatio(box1.Arm, box2.Arm)
		note(err)
		_, err = ratio.Interval(0.95)
		note(err)
		set, err := effect.Fieller(box1.Arm, box2.Arm, effect.Separate, 0.95)
		note(err)
		_, err = set.Interval()
		note(err)
		g, err := effect.Standardise(box1.Arm, box2.Arm)
		note(err)
		_, err = g.NoncentralIntervalG(0.95)
		note(err)
		_, err = infer.Welch(box1.Arm, box2.Arm)
		note(err)
		_, err = infer.WelchRange(box1, box2)
		note(err)
		if failed != nil {
			b.Fatal(failed)
		}
	}
}

func BenchmarkTukey(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := infer.StudentizedRange(3.5, 4, 44); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTukeyRange(b *testing.B) {
	arms := []infer.Arm{{Mean: 1242.5, SD: 188.3, N: 12}, {Mean: 913.2, SD: 140.6, N: 12}, {Mean: 1020.1, SD: 95.2, N: 12}, {Mean: 771.4, SD: 201.7, N: 12}}
	boxes := make([]infer.ArmBox, len(arms))
	for i, a := range arms {
		boxes[i] = interval.ArmBox{
			Arm:  a,
			Mean: interval.Interval{Low: a.Mean - 0.05, High: a.Mean + 0.05},
			SD:   interval.Interval{Low: a.SD - 0.05, High: a.SD + 0.05},
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := infer.TukeyRange(boxes, 0, 1); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkTukeyQ is the cheap way for many pairs: one critical value, then a
// range of q for each.
func BenchmarkTukeyQ(b *testing.B) {
	arms := []infer.Arm{{Mean: 1242.5, SD: 188.3, N: 12}, {Mean: 913.2, SD: 140.6, N: 12}, {Mean: 1020.1, SD: 95.2, N: 12}}
	boxes := make([]infer.ArmBox, len(arms))
	for i, a := range arms {
		boxes[i] = interval.ExactBox(a)
	}
	for b.Loop() {
		if _, _, err := infer.TukeyQ(boxes, 0, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRangeCritical(b *testing.B) {
	for b.Loop() {
		if _, err := infer.RangeCritical(0.05, 4, 44); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWelchRange(b *testing.B) {
	a := interval.ArmBox{Arm: infer.Arm{Mean: 702.3, SD: 106.8, N: 12}, Mean: interval.Interval{Low: 702.25, High: 702.35}, SD: interval.Interval{Low: 106.75, High: 106.85}}
	c := interval.ArmBox{Arm: infer.Arm{Mean: 588, SD: 140.3, N: 12}, Mean: interval.Interval{Low: 587.95, High: 588.05}, SD: interval.Interval{Low: 140.25, High: 140.35}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := infer.WelchRange(a, c); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAnovaRange12(b *testing.B) {
	boxes := make([]infer.ArmBox, 12)
	for i := range boxes {
		m := float64(i % 5)
		boxes[i] = interval.ArmBox{
			Arm:  infer.Arm{Mean: m, SD: 1, N: 10},
			Mean: interval.Interval{Low: m - 0.05, High: m + 0.05},
			SD:   interval.Interval{Low: 0.95, High: 1.05},
		}
	}
	for b.Loop() {
		if _, err := infer.AnovaRange(boxes); err != nil {
			b.Fatal(err)
		}
	}
}
