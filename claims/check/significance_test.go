package check

import "testing"

// Which words call the p behind them significant; the clauses are invented.
func TestCalledSignificant(t *testing.T) {
	for before, want := range map[string]bool{
		"Corva lasted significantly longer ":                                                true,
		"Corva lasted longer (P < 0.001), with a significant reduction in torque ":          true,
		"Corva did not last significantly longer ":                                          false,
		"a non-significant reduction in torque ":                                            false,
		"the reduction was significant in the first canal (P < 0.001), in the second none ": false,
		"significant in one third, but in the other ":                                       false,
		"a trend to a significant reduction ":                                               false,
		"a significance level of 5 %, ":                                                     false,
		"Corva lasted longer ":                                                              false,
	} {
		if got := calledSignificant(before); got != want {
			t.Errorf("%q: %v, want %v", before, got, want)
		}
	}
}
