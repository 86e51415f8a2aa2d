package check

import (
	"strings"

	"probity/claims"
	"probity/claims/catalog"
)

// design is what the checks need to know of how the paper tested.
type design struct {
	alpha       float64
	alphaStated bool
	named       map[string]bool // ids of the tests the paper names
	rank        bool            // a rank test is named
	paired      bool            // a paired or repeated-measures test is named
	adjusted    bool            // covariates, transformations
	factorial   bool            // several factors: another error term than one-way
	parametric  bool            // t tests, analysis of variance, their post-hoc tests
	any         bool            // any comparison test is named at all
}

// usualAlpha is the level taken where the paper states none (common practice).
const usualAlpha = 0.05

func readDesign(study *claims.Study, cat *catalog.Catalog) design {
	d := design{alpha: usualAlpha, named: map[string]bool{}}
	if a := study.Design.Alpha.Value; a.Known() {
		d.alpha, d.alphaStated = level(a.Value)
	}
	families := map[string]catalog.Test{}
	for _, t := range cat.Tests {
		families[t.ID] = t
	}
	for _, f := range study.Design.Tests {
		id := strings.TrimPrefix(f.ID, "test:")
		t, ok := families[id]
		if !ok {
			continue
		}
		d.named[id] = true
		switch t.Family {
		case "two-arm", "omnibus", "post-hoc", "paired", "factorial":
		default:
			continue // tests of normality and variance, of counts, correlations
		}
		d.any = true
		d.rank = d.rank || t.Rank
		d.paired = d.paired || t.Paired
		d.adjusted = d.adjusted || t.Adjusted
		d.factorial = d.factorial || t.Family == "factorial"
		d.parametric = d.parametric || !t.Rank && !t.Paired && !t.Adjusted
	}
	return d
}

// level brings a stated level of significance to a share: "5 %" is .05. What is
// no level (a confidence of 95 %) leaves the usual one.
func level(v float64) (alpha float64, stated bool) {
	switch {
	case v > 0 && v <= 0.2:
		return v, true
	case v >= 0.5 && v <= 20:
		return v / 100, true
	case v >= 80 && v < 100:
		return (100 - v) / 100, true
	}
	return usualAlpha, false
}

// recomputable reports whether means, SDs and n can bring the paper's own test
// back, and if not, why.
func (d design) recomputable() (bool, string) {
	switch {
	case d.rank && !d.parametric:
		return false, "the paper names a rank test, which means and SDs cannot bring back"
	case d.adjusted && !d.parametric:
		return false, "the paper names a test with covariates, which means and SDs cannot bring back"
	case d.paired && !d.parametric:
		return false, "the paper names a test for repeated or paired data, which means and SDs cannot bring back"
	}
	return true, ""
}

// certain reports whether a named parametric test for independent groups, and
// no other kind, stands behind the paper's p values.
func (d design) certain() bool {
	return d.parametric && !d.rank && !d.paired && !d.adjusted && !d.factorial
}

// tTest reports whether the paper names a t test of two independent arms.
func (d design) tTest() bool { return d.named["student-t"] || d.named["welch-t"] }
