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

// An ArmBox is an arm as printed: the figures, and where the numbers that were
// rounded to them may lie.
type ArmBox struct {
	Arm  Arm      // as printed
	Mean Interval // of the unrounded mean
	SD   Interval // of the unrounded SD, cut off at zero
}

// BoxOf returns the box of an arm from its printed mean and SD.
func BoxOf(mean, sd Printed, n int) (ArmBox, error) {
	if !mean.known || !sd.known {
		return ArmBox{}, errNotKnown
	}
	b := ArmBox{
		Arm:  Arm{Mean: mean.value, SD: sd.value, N: n},
		Mean: mean.Interval(),
		SD:   sd.Interval(),
	}
	b.SD.Low = math.Max(0, b.SD.Low)
	return b, b.Check()
}

// ExactBox returns the box of an arm whose figures carry no rounding.
func ExactBox(a Arm) ArmBox { return ArmBox{Arm: a, Mean: Point(a.Mean), SD: Point(a.SD)} }

// Check returns an error that says what is wrong with b.
func (b ArmBox) Check() error {
	if err := b.Arm.Check(); err != nil {
		return err
	}
	if err := b.Mean.check(); err != nil {
		return fmt.Errorf("mean: %w", err)
	}
	if err := b.SD.check(); err != nil {
		return fmt.Errorf("SD: %w", err)
	}
	if b.SD.Low < 0 {
		return fmt.Errorf("SD interval %v reaches below zero", b.SD)
	}
	return nil
}
