package check

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims"
)

// Letters that stand with too many figures to be checked are said to be
// unchecked, once.
func TestLettersOfManyArms(t *testing.T) {
	build := func(n int) *claims.Study {
		study := &claims.Study{Design: claims.Design{Tests: named("anova", "tukey")}}
		for i := range n {
			study.Measures = append(study.Measures, arm(t, fmt.Sprint("W", i), fmt.Sprint(500+i), "80", 10, "a"))
		}
		return study
	}
	none(t, "200 arms", find(build(200), "letters-figures"))
	got := find(build(201), "letters-figures")
	if len(got) != 1 || got[0].Grade != claims.Caution || got[0].Place.Table != "1" || !strings.Contains(got[0].Message, "201") || got[0].Caution == "" {
		t.Errorf("201 arms: %+v, want one caution that names table 1", got)
	}
}
