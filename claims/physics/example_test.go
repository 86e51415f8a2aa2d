package physics_test

import (
	"fmt"

	"probity/claims/physics"
)

func Example() {
	cycles, _ := physics.Cycles(120.4, 350) // 120.4 s at 350 rpm
	d3, _ := physics.Diameter(25, 6, 3)     // size 25, taper .06, 3 mm from the tip
	other, _ := physics.Diameter(25, 4, 3)
	size, _ := physics.CompareSizes(other, d3)
	fmt.Printf("%.1f cycles; %.2f mm against %.2f mm: ×%.2f to ×%.2f from size alone\n", cycles, d3, other, size.Cube, size.Fourth)
	// Output: 702.3 cycles; 0.43 mm against 0.37 mm: ×1.57 to ×1.82 from size alone
}
