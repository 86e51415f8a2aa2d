package role_test

import (
	"fmt"

	"probity/claims/catalog"
	"probity/claims/role"
)

func Example() {
	text := "Brisa 20 lasted 398.4 ± 36.7 s at 300 rpm, 58 % longer than Korvel (n = 12, p < 0.001)."
	for _, n := range role.Numbers(text, catalog.Default()) {
		fmt.Printf("%s: %s, %s\n", text[n.Start:n.End], n.Role.Best.Value, n.Role.Best.Reasons[0].Text)
	}
	// Output:
	// 20: name, behind a capitalised name
	// 398.4: level, behind a time that is measured
	// 36.7: spread, behind ±
	// 300: dose, a unit of what is set or given
	// 58: percent-claim, more or less by so much
	// 12: n, behind n =
	// 0.001: p, behind a p
}
