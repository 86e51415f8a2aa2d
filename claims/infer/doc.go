// Package infer recomputes significance from summary figures: which test
// statistic, degrees of freedom and p-value follow from means, SDs and sizes,
// and which p-values remain possible once the rounding of those figures is
// allowed for.
//
//	[]Arm → TTest, Anova, []Pair        []ArmBox → Range
//
// It also holds what can be said about printed figures without a test: the
// granularity of means and SDs of counts, bounds of an SD, and letters that
// mark groups. Functions are pure; they take figures and return figures or an
// error that says why there is no answer. Which test a paper used, and what a
// disagreement means, is left to the checks.
//
// Every p-value is computed from the tail itself and carries its logarithm, so
// that p = 1e-400 is still a number.
package infer

import "probity/claims/interval"

// An Arm is one group in summary: mean, sample SD and size.
type Arm = interval.Arm

// An ArmBox is an arm as printed, with the rounding of its mean and SD.
type ArmBox = interval.ArmBox
