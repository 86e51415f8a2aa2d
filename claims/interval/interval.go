// Package interval says which results rounded figures allow.
//
//	"702.3" → 702.25 to 702.35 → every percentage, ratio or p that fits
//
// A printed figure stands for every number that rounds to it, so a result
// computed from printed figures is a range as well. The package holds that
// range (Interval), the numeral it came from with exact decimal edges
// (Printed), the arm of a study as figures (Arm) and as ranges (ArmBox), the
// change between two printed figures on each base (Percent), and the range of
// any function over such boxes (Over, Search). Whether a printed result meets
// a range is decided in rational arithmetic where floating point could decide
// it wrongly (Fits).
//
// It reads no paper and judges no sentence; that is left to the checks.
package interval

import (
	"fmt"
	"math"
)

// An Interval is a closed range of real numbers, both ends included. An end
// may be infinite; it is never NaN in a value that this package returns.
type Interval struct {
	Low, High float64
}

// Point returns the interval that holds x alone.
func Point(x float64) Interval { return Interval{x, x} }

// Contains reports whether x lies in i, ends included.
func (i Interval) Contains(x float64) bool { return i.Low <= x && x <= i.High }

// Covers reports whether all of o lies in i.
func (i Interval) Covers(o Interval) bool { return i.Low <= o.Low && o.High <= i.High }

// Meets reports whether i and o have a point in common; touching ends count.
func (i Interval) Meets(o Interval) bool { return i.Low <= o.High && o.Low <= i.High }

// Hull returns the smallest interval that holds both i and o.
func (i Interval) Hull(o Interval) Interval {
	return Interval{math.Min(i.Low, o.Low), math.Max(i.High, o.High)}
}

// Neg returns the mirror image of i at zero.
func (i Interval) Neg() Interval { return Interval{-i.High, -i.Low} }

// Width returns how far apart the ends are.
func (i Interval) Width() float64 { return i.High - i.Low }

// Mid returns the middle of a bounded interval.
func (i Interval) Mid() float64 { return i.Low + (i.High-i.Low)/2 }

// String prints the ends with all their digits: "[1.5, 2.5]".
func (i Interval) String() string { return fmt.Sprintf("[%v, %v]", i.Low, i.High) }

// check returns an error unless i is a bounded, ordered range.
func (i Interval) check() error {
	switch {
	case math.IsNaN(i.Low) || math.IsNaN(i.High) || math.IsInf(i.Low, 0) || math.IsInf(i.High, 0):
		return fmt.Errorf("interval %v: both ends must be finite numbers", i)
	case i.Low > i.High:
		return fmt.Errorf("interval %v: the low end is above the high end", i)
	}
	return nil
}
