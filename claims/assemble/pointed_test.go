package assemble

import "testing"

func TestPointsTo(t *testing.T) {
	for _, c := range []struct {
		low, label string
		want       bool
	}{
		{"the times are given in table 2.", "2", true},
		{"(table\u00a02)", "2", true},
		{"table-2 lists the times", "2", true},
		{"see tables 1, 2 and 3", "2", true},
		{"see tables 1 and 3", "2", false},
		{"see tables 1-3", "2", true},
		{"see tables 1 to 3", "2", true},
		{"tables i and ii", "II", true},
		{"table ii", "2", true},
		{"table 2", "II", true},
		{"table 2a", "2", false},
		{"table 2a", "2A", true},
		{"table 12", "2", false},
		{"tab. 4 shows", "4", true},
		{"table s1", "S1", true},
		{"a table of 2 rows", "2", false},
		{"the stable 2 of them", "2", false},
	} {
		if got := pointsTo(c.low, c.label); got != c.want {
			t.Errorf("pointsTo(%q, %q) = %v, want %v", c.low, c.label, got, c.want)
		}
	}
}
