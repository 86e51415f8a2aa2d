package infer

import (
	"fmt"
	"math"

	"probity/claims/interval"
)

// SDBounds are the limits that a range sets to the sample SD (divisor n - 1)
// of n values, in the unit of the values.
type SDBounds struct {
	BhatiaDavis float64 // no data between the ends with this mean have more
	Max         float64 // the greatest that any data between the ends with this mean have
	RangeMax    float64 // the greatest that any data between the ends have, whatever the mean
	RangeMin    float64 // the least when both ends occur in the data
}

// BoundSD returns the limits of the SD of n ≥ 2 values between lo and hi whose
// mean is known.
//
//	BhatiaDavis = sqrt((hi-m)(m-lo) n/(n-1))
//	Max         = all values at an end but one, which takes up the rest
//	RangeMax    = (hi-lo) sqrt(⌊n/2⌋⌈n/2⌉ / (n(n-1)))
//	RangeMin    = (hi-lo) / sqrt(2(n-1))
//
// A mean outside the range is refused.
//
// Source: Bhatia & Davis (2000), Am Math Mon 107:353-357; the others follow by
// moving values apart or together.
func BoundSD(mean, lo, hi float64, n int) (SDBounds, error) {
	if err := checkRangeOf(lo, hi, n); err != nil {
		return SDBounds{}, err
	}
	if !(mean >= lo && mean <= hi) {
		return SDBounds{}, fmt.Errorf("mean %v lies outside the range %v to %v", mean, lo, hi)
	}
	width, size := hi-lo, float64(n)
	b := SDBounds{RangeMax: rangeMax(width, n), RangeMin: width / math.Sqrt(2*(size-1))}
	b.BhatiaDavis = math.Sqrt(hi-mean) * math.Sqrt(mean-lo) * math.Sqrt(size/(size-1))
	if width == 0 {
		return b, nil
	}
	above := size * ((mean - lo) / width) // ends' worth of width above lo
	full := math.Floor(above)
	rest := above - full
	share := above / size
	squares := full*(1-share)*(1-share) + (size-full)*share*share
	if rest > 0 { // one value stands between the ends
		squares += (rest-share)*(rest-share) - share*share
	}
	b.Max = width * math.Sqrt(squares/(size-1))
	return b, nil
}

// SDRange returns the SDs that n ≥ 2 values can have whose printed least and
// greatest are lo and hi and whose printed mean is mean, rounding allowed for
// on the wide side. A mean that is not known leaves it out.
func SDRange(mean, lo, hi interval.Printed, n int) (interval.Interval, error) {
	if !lo.Known() || !hi.Known() {
		return interval.Interval{}, fmt.Errorf("the least or the greatest value is not known")
	}
	l, h := lo.Interval(), hi.Interval()
	if err := checkRangeOf(l.Low, h.High, n); err != nil {
		return interval.Interval{}, err
	}
	r := interval.Interval{
		Low:  math.Max(0, h.Low-l.High) / math.Sqrt(2*float64(n-1)),
		High: rangeMax(h.High-l.Low, n),
	}
	if !mean.Known() {
		return r, nil
	}
	m := mean.Interval()
	if m.High < l.Low || m.Low > h.High {
		return interval.Interval{}, fmt.Errorf("mean %v lies outside the range %v to %v", mean.Value(), lo.Value(), hi.Value())
	}
	nearest := clamp(l.Low+(h.High-l.Low)/2, math.Max(m.Low, l.Low), math.Min(m.High, h.High))
	b, err := BoundSD(nearest, l.Low, h.High, n)
	if err != nil {
		return interval.Interval{}, err
	}
	r.High = math.Min(r.High, b.BhatiaDavis)
	return r, nil
}

// rangeMax returns the SD of half the values at each end.
func rangeMax(width float64, n int) float64 {
	half, size := float64(n/2), float64(n)
	return width * math.Sqrt(half*(size-half)/(size*(size-1)))
}

func checkRangeOf(lo, hi float64, n int) error {
	switch {
	case math.IsNaN(lo) || math.IsInf(lo, 0) || math.IsNaN(hi) || math.IsInf(hi, 0):
		return fmt.Errorf("range %v to %v: both ends must be finite numbers", lo, hi)
	case lo > hi:
		return fmt.Errorf("range %v to %v: the least value is above the greatest", lo, hi)
	case n < 2:
		return fmt.Errorf("n = %d: an SD needs at least two values", n)
	}
	return nil
}
