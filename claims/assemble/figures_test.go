package assemble_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
)

// figureForms are invented tables of each form of figure that stands beside
// means or looks like them. Wanted lines are typed by hand from the tables: what
// is read as a measure ("centre kind spread", "change" and "adjusted" where it
// is), and what is set apart with its reason. Bare figures that are no measures
// are neither.
var figureForms = []struct{ name, table, read, apart string }{
	{"odds ratios beside counts", `
		Complications in the two groups
		# Complication | Orlin (n = 40) | Brex (n = 40) | OR (95% CI)
		Fracture | 4 (10%) | 8 (20%) | 0.44 (0.12–1.61)
		Ledge | 6 (15%) | 3 (7.5%) | 2.18 (0.50–9.40)`,
		``, `
		4 (10%): a count with its percentage
		8 (20%): a count with its percentage
		0.44 (0.12–1.61): an effect or a coefficient
		6 (15%): a count with its percentage
		3 (7.5%): a count with its percentage
		2.18 (0.50–9.40): an effect or a coefficient`},
	{"hazard ratios and their intervals in columns of their own", `
		Survival of the restorations
		# Factor | HR | 95% CI | p
		Depth | 1.84 | 1.10–3.08 | .02
		Surface | 0.93 | 0.70–1.24 | .61`,
		``, `
		1.84: an effect or a coefficient
		.02: a p value
		0.93: an effect or a coefficient
		.61: a p value`},
	{"a heading that names the measure and no effect", `
		Vital signs, mean ± SD
		# Sign | Orlin | Brex
		HR (bpm) | 72.1 ± 8.4 | 74.5 ± 9.0
		RR (breaths/min) | 14.2 ± 2.1 | 15.0 ± 2.4`, `
		72.1 sd 8.4
		74.5 sd 9.0
		14.2 sd 2.1
		15.0 sd 2.4`, ``},
	{"difference between groups beside the groups", `
		Pain scores at 24 h
		# Outcome | Orlin, mean (SD) | Brex, mean (SD) | Mean difference (95% CI)
		Pain score | 3.2 (1.1) | 4.0 (1.3) | -0.8 (-1.4 to -0.2)
		Swelling (mm) | 12.4 (3.0) | 13.1 (2.8) | -0.7 (-2.1 to 0.7)`, `
		3.2 sd 1.1
		4.0 sd 1.3
		12.4 sd 3.0
		13.1 sd 2.8`, `
		-0.8 (-1.4 to -0.2): a difference with its spread
		-0.7 (-2.1 to 0.7): a difference with its spread`},
	{"difference among times is a change", `
		Bending load (gf), mean ± SD
		# File | Before | After | Difference
		Orlin | 55.1 ± 4.2 | 50.3 ± 4.4 | 4.8 ± 1.2
		Brex | 61.7 ± 5.0 | 60.2 ± 5.1 | 1.5 ± 0.9`, `
		55.1 sd 4.2
		50.3 sd 4.4
		4.8 sd 1.2 change
		61.7 sd 5.0
		60.2 sd 5.1
		1.5 sd 0.9 change`, ``},
	{"a model with its constant", `
		Results of multilevel model analysis of bending load
		# Parameter | Model 1 | Model 2
		Constant | 4.63 (0.77) | 9.69 (3.18)
		Tip size | 1.70 (0.86) | 1.30 (0.79)`,
		``, `
		4.63 (0.77): an effect or a coefficient
		9.69 (3.18): an effect or a coefficient
		1.70 (0.86): a coefficient of a model
		1.30 (0.79): a coefficient of a model`},
	{"means in a table whose caption speaks of a regression", `
		Characteristics used for the regression model
		# Characteristic | Orlin (n = 30) | Brex (n = 30)
		Age, mean (SD) | 34.2 (8.1) | 35.0 (7.7)`, `
		34.2 sd 8.1
		35.0 sd 7.7`, ``},
	{"coefficients with their standard errors", `
		Predictors of torque
		# Predictor | β (SE) | p
		Taper | 0.41 (0.07) | .001
		Tip size | -0.15 (0.14) | .28`,
		``, `
		0.41 (0.07): an effect or a coefficient
		.001: a p value
		-0.15 (0.14): an effect or a coefficient
		.28: a p value`},
	{"a geometric mean ratio with its interval", `
		Bioavailability of the gels
		# Parameter | Veln gel, mean (CV%) | Tarn gel, mean (CV%) | Geometric mean ratio | 90% CI
		Peak (ng/mL) | 16.2 (11.5) | 16.4 (11.3) | 0.988 | 0.950–1.027`, `
		16.2 unstated 11.5
		16.4 unstated 11.3`, `
		0.988: an effect or a coefficient`},
	{"an effect size of two headings, p by a word, bare counts", `
		Mean performance of the operators
		# Test | Orlin | Brex | Effect | Probability
		# ^ | ^ | ^ | Size | Group
		Speed (s), mean (SD) | 12.1 (2.2) | 14.4 (2.9) | 0.89 | .01
		Errors (n) | 0 | 2 | 0.20 | .40`, `
		12.1 sd 2.2
		14.4 sd 2.9`, `
		0.89: an effect or a coefficient
		.01: a p value
		0.20: an effect or a coefficient
		.40: a p value`},
	{"a result printed in a label says nothing of the row", `
		Characteristics of the operators, mean (SD)
		# Characteristic | Test | Orlin | Brex
		Age (years) | t = 0.58, p = .56 | 34.2 (8.1) | 35.0 (7.7)
		Practice (years) | χ² = 1.41, p = .24 | 9.1 (4.0) | 8.8 (4.4)`, `
		34.2 sd 8.1
		35.0 sd 7.7
		9.1 sd 4.0
		8.8 sd 4.4`, ``},
	{"a row named like a statistic or a spread", `
		Hormones, median (IQR)
		# Variable | Orlin | Brex
		T | 23.92 (21.01–28.07) | 20.57 (19.43–26.64)
		CI | 3.1 (2.8–3.4) | 3.3 (3.0–3.9)`, `
		median 23.92 iqr 21.01..28.07
		median 20.57 iqr 19.43..26.64
		median 3.1 iqr 2.8..3.4
		median 3.3 iqr 3.0..3.9`, ``},
	{"a pair whose comma might be one of thousands", `
		Enzymes, median (IQR)
		# Enzyme | Orlin | Brex
		Kinase (U/L) | 195 (168,215) | 168 (113,368)`, `
		median 195 iqr 168..215
		median 168 iqr 113..368`, ``},
	{"means and SDs far apart", `
		Scores before and after
		# Scale | Orlin | < | < | <
		# ^ | Mean | < | SD | <
		# ^ | Pre | Post | Pre | Post
		Anxiety | 29.3 | 19.4 | 8.65 | 4.11`, `
		29.3 sd 8.65
		19.4 sd 4.11`, ``},
	{"a mean that names its outcome beside a bare SD", `
		Colour of the samples
		# Time (h) | Orlin | < | Brex | <
		# ^ | Mean (dL) | SD | Mean (dL) | SD
		1 | 0.372 | 0.872 | 0.049 | 1.031`, `
		0.372 sd 0.872
		0.049 sd 1.031`, ``},
	{"valid n, mean, SD, and differences", `
		Quality of life
		# Scale | Orlin | < | < | Brex | < | < | Mean difference | 95% CI
		# ^ | valid n | Mean | SD | valid n | Mean | SD | |
		Physical | 213 | 41.37 | 13.26 | 193 | 42.25 | 11.81 | -0.88 | -3.44 to 1.68`, `
		41.37 sd 13.26
		42.25 sd 11.81`, `
		-0.88: a difference with its spread`},
	{"rows of mean, difference and SD", `
		Torque at fracture
		# Statistic | Orlin | Brex
		Mean | 1.21 | 0.98
		Difference in means (95% CI) | 0.23 (0.15 to 0.31) | <
		SD | 0.10 | 0.12`, `
		1.21 sd 0.10
		0.98 sd 0.12`, `
		0.23 (0.15 to 0.31): a difference with its spread`},
	{"a median and its quartiles in rows", `
		Volume of the irrigant (mL)
		# Statistic | Orlin | Brex
		Median | 60 | 20
		1st quartile | 40 | 12
		3rd quartile | 96 | 31`, `
		median 60 iqr 40..96
		median 20 iqr 12..31`, ``},
	{"adjusted means", `
		Plaque at 12 weeks
		# Outcome | Orlin, LS mean (SE) | Brex, estimated marginal mean (SE)
		Plaque index | 1.84 (0.06) | 2.01 (0.07)`, `
		1.84 se 0.06 adjusted
		2.01 se 0.07 adjusted`, ``},
	{"a column of the whole sample", `
		Baseline characteristics, mean (SD)
		# Characteristic | Orlin (n = 30) | Brex (n = 30) | Total (n = 60)
		Age (years) | 34.2 (8.1) | 35.0 (7.7) | 34.6 (7.9)`, `
		34.2 sd 8.1
		35.0 sd 7.7
		34.6 sd 7.9`, ``},
	{"quartiles are names of groups", `
		Characteristics by quartiles of wear
		# Characteristic | Lowest quartile | Highest quartile
		Load (N) | 66 ± 10 | 68 ± 9`, `
		66 unstated 10
		68 unstated 9`, ``},
	{"a median with its absolute deviation", `
		Originality of the answers
		# Test | Orlin median ± MAD | Brex median ± MAD
		Originality score | 7.0 ± 0.5 | 6.7 ± 0.4`, `
		median 7.0 unstated 0.5
		median 6.7 unstated 0.4`, ``},
	{"correlations under a caption of medians", `
		Reliability over 5 min, median (range)
		# Scale | Agreement (ICC) | <
		# ^ | Baseline | Follow-up
		Warmth | 0.97 (0.94–0.99) | 0.91 (0.79–0.95)`,
		``, `
		0.97 (0.94–0.99): an effect or a coefficient
		0.91 (0.79–0.95): an effect or a coefficient`},
	{"a coefficient B is no group B", `
		Intention to use the file again
		# Factor | B | 95% CI | P-value
		Group | -0.92 | -1.64;-0.19 | .01
		Age | 0.02 | -0.01;0.05 | .30`,
		``, `
		-0.92: an effect or a coefficient
		-1.64;-0.19: a spread without its centre
		.01: a p value
		0.02: an effect or a coefficient
		-0.01;0.05: a spread without its centre
		.30: a p value`},
	{"a group B beside a group A", `
		Mean torque (N·cm)
		# Tip | A | 95% CI | B | 95% CI
		D1 | 1.21 | 1.15–1.27 | 0.98 | 0.91–1.05`, `
		1.21 ci95 1.15..1.27
		0.98 ci95 0.91..1.05`, ``},
	{"an interval's heading is no figure", `
		Torque, mean ± SD
		# Group | Torque (N·cm)
		Orlin | 1.21 ± 0.10
		Brex | 95% CI`, `
		1.21 sd 0.10`, ``},
}

func TestFigureForms(t *testing.T) {
	for _, c := range figureForms {
		t.Run(c.name, func(t *testing.T) {
			study := assemble.Study(paperOf(t, "", c.table), nil, catalog.Default())
			var read, apart []string
			for _, m := range study.Measures {
				read = append(read, figureLine(m))
			}
			for _, a := range study.Apart {
				apart = append(apart, a.Text+": "+a.Why)
			}
			if diff := cmp.Diff(wantedLines(c.read), read); diff != "" {
				t.Errorf("measures (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(wantedLines(c.apart), apart); diff != "" {
				t.Errorf("set apart (-want +got):\n%s", diff)
			}
		})
	}
}

// figureLine writes the figures of a measure and what they are.
func figureLine(m *claims.Measure) string {
	out := strings.Split(lineOf(m), "; ")[3]
	if m.Change {
		out += " change"
	}
	if m.Adjusted {
		out += " adjusted"
	}
	return out
}

func wantedLines(s string) []string {
	var out []string
	for line := range strings.Lines(s) {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}

// TestTotalIsNoGroup reports a column of the whole sample that was taken for a
// group, or that a printed p was said to compare with its parts.
func TestTotalIsNoGroup(t *testing.T) {
	study := assemble.Study(paperOf(t, "", `
		Baseline characteristics, mean (SD)
		# Characteristic | Total (n = 60) | Orlin (n = 30) | Brex (n = 30) | p
		Age (years) | 34.6 (7.9) | 34.2 (8.1) | 35.0 (7.7) | .70`), nil, catalog.Default())
	if slices.ContainsFunc(study.Arms, func(a *claims.Arm) bool { return strings.Contains(a.Name, "Total") }) {
		t.Errorf("arms %v, want none of the whole sample", study.Arms)
	}
	if len(study.Results) != 1 || len(study.Results[0].Between) != 2 {
		t.Fatalf("results %v, want one p between two measures", study.Results)
	}
	if m := study.Measures[0]; m.Arm != nil || m.ArmText != "Total" {
		t.Errorf("Measures[0] of %v %q, want no arm and the name Total", m.Arm, m.ArmText)
	}
}
