package effect_test

import (
	"fmt"

	"probity/claims/effect"
)

func Example() {
	a, b := effect.Arm{Mean: 702.3, SD: 106.8, N: 12}, effect.Arm{Mean: 588.0, SD: 140.3, N: 12}
	ratio, _ := effect.LogRatio(a, b)
	log, _ := ratio.Interval(0.95)
	ci := effect.AsPercent(log)
	set, _ := effect.Fieller(a, b, effect.Separate, 0.95)
	fieller, _ := set.Interval()
	fmt.Printf("%.1f %% longer (t, df %.1f: %.1f to %.1f %%)\n", ratio.Percent(), ratio.DF, ci.Low, ci.High)
	fmt.Printf("ratio %.3f, Fieller %.3f to %.3f\n", set.Ratio, fieller.Low, fieller.High)
	// Output:
	// 19.4 % longer (t, df 18.7: 0.6 to 41.7 %)
	// ratio 1.194, Fieller 1.012 to 1.428
}
