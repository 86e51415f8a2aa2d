package interval

import (
	"fmt"
	"math"
)

// An Arm is one group of specimens in summary: what two-arm and many-arm
// formulas take. SD is the sample standard deviation (divisor n - 1) in the
// unit of Mean. An SD of zero is a printed zero; an arm whose SD is not known
// has no place here.
type Arm struct {
	Mean, SD float64
	N        int
}

// Check returns an error that says what is wrong with a as a summary of a
// sample: figures must be finite, N at least two, SD not negative.
func (a Arm) Check() error {
	switch {
	case math.IsNaN(a.Mean) || math.IsInf(a.Mean, 0):
		return fmt.Errorf("mean %v is not a finite number", a.Mean)
	case math.IsNaN(a.SD) || math.IsInf(a.SD, 0):
		return fmt.Errorf("SD %v is not a finite number", a.SD)
	case a.SD < 0:
		return fmt.Errorf("SD %v is negative", a.SD)
	case a.N < 2:
		return fmt.Errorf("n = %d: a mean with SD needs at least two specimens", a.N)
	}
	return nil
}

// An ArmBox is an arm as printed: where its unrounded mean and SD may lie.
type ArmBox struct {
	Mean, SD Interval
	N        int
}

// BoxOf returns the box of an arm from its printed mean and SD. The SD's
// interval is cut off at zero.
func BoxOf(mean, sd Printed, n int) (ArmBox, error) {
	b := ArmBox{Mean: mean.Interval(), SD: sd.Interval(), N: n}
	b.SD.Low = math.Max(0, b.SD.Low)
	if !mean.known || !sd.known {
		return ArmBox{}, fmt.Errorf("the printed mean or SD of the arm is not known")
	}
	return b, b.Check()
}

// Check returns an error that says what is wrong with b.
func (b ArmBox) Check() error {
	if err := b.Mean.check(); err != nil {
		return fmt.Errorf("mean: %w", err)
	}
	if err := b.SD.check(); err != nil {
		return fmt.Errorf("SD: %w", err)
	}
	return Arm{Mean: b.Mean.Low, SD: b.SD.Low, N: b.N}.Check()
}

// Middle returns the arm at the middle of the box, that is as printed unless
// the SD's interval was cut off at zero.
func (b ArmBox) Middle() Arm { return Arm{b.Mean.Mid(), b.SD.Mid(), b.N} }
