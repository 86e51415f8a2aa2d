package effect

import (
	"testing"

	"probity/claims/internal/published"
)

// arms returns the two arms of a row.
func arms(t *testing.T, r published.Row) (a, b Arm) {
	t.Helper()
	return Arm{Mean: r.Float(t, "m1"), SD: r.Float(t, "sd1"), N: r.Int(t, "n1")},
		Arm{Mean: r.Float(t, "m2"), SD: r.Float(t, "sd2"), N: r.Int(t, "n2")}
}

// groups returns the groups of a row.
func groups(t *testing.T, r published.Row) []Arm {
	t.Helper()
	m, sd, n := r.List(t, "m"), r.List(t, "sd"), r.List(t, "n")
	groups := make([]Arm, len(m))
	for i := range m {
		groups[i] = Arm{Mean: m[i], SD: sd[i], N: int(n[i])}
	}
	return groups
}
