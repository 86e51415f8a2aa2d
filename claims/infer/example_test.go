package infer_test

import (
	"fmt"

	"probity/claims/infer"
	"probity/claims/interval"
)

func Example() {
	arm := func(mean, sd string, n int) infer.ArmBox {
		m, _ := interval.Parse(mean)
		s, _ := interval.Parse(sd)
		b, _ := interval.BoxOf(m, s, n)
		return b
	}
	a, b := arm("702.3", "106.8", 12), arm("588.0", "140.3", 12)
	test, _ := infer.Welch(a.Arm, b.Arm)
	over, _ := infer.WelchRange(a, b)
	printed, _ := infer.ParseP("p = .02")
	verdict, _ := over.Against(printed, 0.05)
	fmt.Printf("t = %.2f, df = %.1f, p = %v\n", test.T, test.DF, test.P)
	fmt.Printf("rounding allows p = %v to %v; p = .02 fits: %v\n", over.Low, over.High, verdict.Consistent)
	// Output:
	// t = 2.25, df = 20.5, p = 0.0359
	// rounding allows p = 0.0357 to 0.0361; p = .02 fits: false
}
