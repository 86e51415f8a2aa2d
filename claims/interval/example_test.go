package interval_test

import (
	"fmt"

	"probity/claims/interval"
)

func Example() {
	subject, _ := interval.Parse("702.3")
	reference, _ := interval.Parse("588.0")
	claim, _ := interval.Parse("19%")
	for _, base := range []interval.Base{interval.Reference, interval.Subject} {
		c, _ := interval.Percent(base, subject, reference)
		fits, _ := interval.Fits(claim, base, subject, reference)
		fmt.Printf("base %s: %.2f %%, from %.2f to %.2f; 19 %% fits: %v\n", base, c.Value, c.Range.Low, c.Range.High, fits)
	}
	// Output:
	// base reference: 19.44 %, from 19.42 to 19.46; 19 % fits: true
	// base subject: 16.28 %, from 16.26 to 16.29; 19 % fits: false
}
