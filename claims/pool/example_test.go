package pool_test

import (
	"fmt"

	"probity/claims/pool"
)

func Example() {
	// Three log ratios of means with their squared standard errors.
	effects := []pool.Effect{
		{Value: 0.17763, Var: 0.0817 * 0.0817, Paper: "first"},
		{Value: 0.85745, Var: 0.04745 * 0.04745, Paper: "second"},
		{Value: 0.35, Var: 0.1 * 0.1, Paper: "third"},
	}
	r, _ := pool.Pool(effects, pool.DerSimonianLaird)
	hk, _ := r.IntervalHK(0.95)
	i2, _ := r.I2()
	fmt.Printf("log ratio %.3f, Hartung-Knapp %.2f to %.2f, I² %.0f %%\n", r.Estimate, hk.Low, hk.High, i2)
	_, err := pool.Pool(effects[:2], pool.DerSimonianLaird)
	fmt.Println(err)
	// Output:
	// log ratio 0.466, Hartung-Knapp -0.42 to 1.35, I² 97 %
	// 2 papers: at least three are needed to combine them
}
