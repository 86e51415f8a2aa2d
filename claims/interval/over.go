package interval

import (
	"errors"
	"fmt"
	"math"
)

// A Func maps figures, in the order of their boxes, to a result. NaN says that
// the result is not defined there. It must not keep its argument.
type Func func(x []float64) float64

// maxBoxes keeps the number of corners, 2^k, within reason.
const maxBoxes = 16

// Over returns the range of f over a box of inputs by evaluating its corners.
// That is exact for an f that rises or falls steadily in each input while the
// others stand still, in whatever direction; use Search for any other. An f
// that is undefined at a corner has no range.
func Over(f Func, boxes ...Interval) (Interval, error) {
	if err := checkBoxes(boxes); err != nil {
		return Interval{}, err
	}
	x := make([]float64, len(boxes))
	found := Interval{math.Inf(1), math.Inf(-1)}
	for corner := range 1 << len(boxes) {
		for i, b := range boxes {
			x[i] = b.Low
			if corner>>i&1 == 1 {
				x[i] = b.High
			}
		}
		y := f(x)
		if math.IsNaN(y) {
			return Interval{}, fmt.Errorf("no result at %v", x)
		}
		found = found.Hull(Point(y))
	}
	return found, nil
}

// Search returns the range of f over a box of inputs for an f that need not be
// monotone. It looks at every point of a lattice with three values an input
// (the corners among them), then improves the lowest and the highest by one
// input at a time, a coarse scan followed by golden section, until a round
// brings nothing. A smooth f with one bump an input is found to about 1e-8 of
// its range; a peak narrower than an eighth of a box can be missed.
func Search(f Func, boxes ...Interval) (Interval, error) {
	if err := checkBoxes(boxes); err != nil {
		return Interval{}, err
	}
	x := make([]float64, len(boxes))
	points := 1
	for range boxes {
		points *= 3
	}
	if points > 1<<13 {
		return Interval{}, fmt.Errorf("%d boxes are too many to search", len(boxes))
	}
	low, high := math.Inf(1), math.Inf(-1)
	var atLow, atHigh []float64
	for p := range points {
		for i, rest := 0, p; i < len(boxes); i, rest = i+1, rest/3 {
			x[i] = [...]float64{boxes[i].Low, boxes[i].Mid(), boxes[i].High}[rest%3]
		}
		y := f(x)
		if math.IsNaN(y) {
			return Interval{}, fmt.Errorf("no result at %v", x)
		}
		if y < low {
			low, atLow = y, append(atLow[:0], x...)
		}
		if y > high {
			high, atHigh = y, append(atHigh[:0], x...)
		}
	}
	if atLow == nil || atHigh == nil { // every value the same infinity
		return Interval{low, high}, nil
	}
	low = descend(f, boxes, atLow)
	high = -descend(func(x []float64) float64 { return -f(x) }, boxes, atHigh)
	return Interval{low, high}, nil
}

// descend lowers f from x by one input at a time and returns its least value.
func descend(f Func, boxes []Interval, x []float64) float64 {
	best := f(x)
	for range 20 {
		before := best
		for i, b := range boxes {
			if b.Low == b.High {
				continue
			}
			along := func(v float64) float64 {
				keep := x[i]
				x[i] = v
				y := f(x)
				x[i] = keep
				return y
			}
			if v, y := Minimum(along, b); y < best {
				x[i], best = v, y
			}
		}
		if !(before-best > 1e-10*math.Abs(before)) {
			break
		}
	}
	return best
}

// Minimum returns where f is least on b and how low it is there: nine points
// to find the valley, golden section to find its floor. The ends are looked at
// as they are, so a monotone f gives its value at an end exactly.
func Minimum(f func(float64) float64, b Interval) (at, least float64) {
	const coarse = 8
	step := b.Width() / coarse
	at, least = b.Low, math.Inf(1)
	for i := range coarse + 1 {
		v := b.Low + float64(i)*step
		if i == coarse {
			v = b.High
		}
		if y := f(v); y < least {
			at, least = v, y
		}
	}
	lo, hi := math.Max(b.Low, at-step), math.Min(b.High, at+step)
	const golden = 0.6180339887498949
	p, q := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fp, fq := f(p), f(q)
	for range 40 {
		if fp <= fq {
			hi, q, fq = q, p, fp
			p = hi - golden*(hi-lo)
			fp = f(p)
		} else {
			lo, p, fp = p, q, fq
			q = lo + golden*(hi-lo)
			fq = f(q)
		}
	}
	if fp < least {
		at, least = p, fp
	}
	if fq < least {
		at, least = q, fq
	}
	return at, least
}

func checkBoxes(boxes []Interval) error {
	if len(boxes) == 0 {
		return errors.New("no boxes to search over")
	}
	if len(boxes) > maxBoxes {
		return fmt.Errorf("%d boxes: at most %d", len(boxes), maxBoxes)
	}
	for i, b := range boxes {
		if err := b.check(); err != nil {
			return fmt.Errorf("box %d: %w", i+1, err)
		}
	}
	return nil
}
