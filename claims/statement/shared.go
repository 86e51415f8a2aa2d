package statement

import (
	"probity/claims"
	"probity/claims/reading"
)

// Figures that text and tables share name their group: a sentence that prints
// 10.7 ± 2.24 speaks of the row that prints 10.7 ± 2.24. Where the words of
// the sentence seem to say otherwise, the table's group holds, and a doubt is
// left.

// leastDigits is how many digits of mean and spread together hardly agree by
// chance.
const leastDigits = 5

// shareGroups gives figures of running text the group that the tables give to
// the same figures.
func shareGroups(measures []*claims.Measure, tables []*claims.Measure) {
	type figures struct{ mean, spread string }
	arms := map[figures][]*claims.Measure{}
	for _, t := range tables {
		if t.Place.Table != "" && t.Arm != nil && t.Spread.Value.Known() {
			k := figures{t.Mean.Text, t.Spread.Value.Text}
			arms[k] = append(arms[k], t)
		}
	}
	for _, m := range measures {
		if !m.Spread.Value.Known() || digits(m.Mean.Text)+digits(m.Spread.Value.Text) < leastDigits {
			continue
		}
		if t := oneArm(arms[figures{m.Mean.Text, m.Spread.Value.Text}], m.Arm); t != nil {
			if m.Arm != nil {
				m.Doubt.Add("table "+t.Place.Table+" gives these figures to another group than the words seem to", reading.Slight)
			}
			m.Arm, m.ArmText = t.Arm, t.ArmText
		}
	}
}

// oneArm gives the first of figures that are all of one group, and not of the
// one given; nil otherwise.
func oneArm(alike []*claims.Measure, not *claims.Arm) *claims.Measure {
	for _, t := range alike {
		if t.Arm == not || t.Arm != alike[0].Arm {
			return nil
		}
	}
	if len(alike) == 0 {
		return nil
	}
	return alike[0]
}

func digits(s string) int {
	n := 0
	for _, r := range s {
		if r >= '0' && r <= '9' {
			n++
		}
	}
	return n
}
