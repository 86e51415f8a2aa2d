package infer

import (
	"errors"
	"fmt"
	"math"
	"math/big"

	"probity/claims/interval"
)

// A Grain says of what a mean is a mean: N values, each the mean of Items
// whole numbers of steps. Items and Step of zero stand for 1.
type Grain struct {
	N     int
	Items int              // whole numbers averaged in each value, as in a score of several items
	Step  interval.Printed // the least difference of two readings, such as 5 s; an interval.Exact
}

// A MeanGranularity says whether a printed mean can be the mean of its data.
type MeanGranularity struct {
	Possible     bool    // some whole sum gives a mean that rounds to the figure, ties either way
	HalfUp       bool    // likewise when ties round away from zero only
	Sums         int     // how many whole sums do
	Decidable    bool    // N × Items is below 10^decimals / step: not every figure is possible
	Below, Above float64 // the attainable means on either side, equal when the figure is attained
}

// GranularityOfMean holds a printed mean of counts, whole-number scores or
// stepped readings against the values that such a mean can take.
//
//	possible if an integer S has  low ≤ S × step / (N × Items) ≤ high
//
// decided in rational arithmetic on the printed decimals. A failure is a
// question to ask (another n after exclusions, a composite score, a weighted
// mean), not a proof. It says nothing of measured continuous quantities.
//
// Source: Brown & Heathers (2017), Soc Psychol Personal Sci 8:363-369.
func GranularityOfMean(mean interval.Printed, g Grain) (MeanGranularity, error) {
	unit, err := g.unit()
	if err != nil {
		return MeanGranularity{}, err
	}
	if !mean.Known() {
		return MeanGranularity{}, errors.New("the printed mean is not known")
	}
	value, low, high := mean.Rat()
	first, last := sumsBetween(low, high, unit)
	if new(big.Int).Sub(last, first).Cmp(big.NewInt(math.MaxInt32)) > 0 {
		return MeanGranularity{}, fmt.Errorf("the mean %v allows too many sums to count", mean.Value())
	}
	m := MeanGranularity{Sums: int(max(0, new(big.Int).Sub(last, first).Int64()+1))}
	m.Possible = m.Sums > 0
	m.HalfUp = m.Possible
	if m.Sums == 1 { // is the only sum a tie that half-up rounding sends elsewhere?
		edge := high
		if value.Sign() < 0 {
			edge = low
		}
		m.HalfUp = new(big.Rat).Mul(new(big.Rat).SetInt(first), unit).Cmp(edge) != 0
	}
	m.Decidable = unit.Cmp(new(big.Rat).Sub(high, low)) > 0
	below := floor(new(big.Rat).Quo(value, unit))
	above := below
	if new(big.Rat).Mul(new(big.Rat).SetInt(below), unit).Cmp(value) != 0 {
		above = new(big.Int).Add(below, big.NewInt(1))
	}
	m.Below, _ = new(big.Rat).Mul(new(big.Rat).SetInt(below), unit).Float64()
	m.Above, _ = new(big.Rat).Mul(new(big.Rat).SetInt(above), unit).Float64()
	return m, nil
}

// unit returns the distance of neighbouring attainable means.
func (g Grain) unit() (*big.Rat, error) {
	items := max(g.Items, 1)
	switch {
	case g.N < 1:
		return nil, fmt.Errorf("n = %d: a mean needs at least one value", g.N)
	case g.Items < 0:
		return nil, fmt.Errorf("%d items is not a number of items", g.Items)
	}
	unit := big.NewRat(1, int64(g.N)*int64(items))
	if g.Step.Known() {
		step, _, _ := g.Step.Rat()
		if step.Sign() <= 0 {
			return nil, fmt.Errorf("step %v must be above zero", g.Step.Value())
		}
		unit.Mul(unit, step)
	}
	return unit, nil
}

// sumsBetween returns the least and the greatest integer S with
// low ≤ S × unit ≤ high; the least is the greater when there is none.
func sumsBetween(low, high, unit *big.Rat) (first, last *big.Int) {
	lo := new(big.Rat).Quo(low, unit)
	first = new(big.Int).Neg(floor(lo.Neg(lo)))
	return first, floor(new(big.Rat).Quo(high, unit))
}

func floor(r *big.Rat) *big.Int {
	return new(big.Int).Div(r.Num(), r.Denom()) // Euclidean, and the denominator is positive
}

// A Scale is the range of whole numbers that single values can take. The zero
// Scale is not known.
type Scale struct {
	Low, High int
}

// An SDGranularity says whether a printed SD can be the SD of whole-number
// data with the printed mean.
type SDGranularity struct {
	MeanPossible bool // the mean itself is attainable
	Possible     bool // some sum and sum of squares of whole numbers fit (divisor n-1): necessary
	PossibleN    bool // likewise with divisor n, as some authors use
	OnScale      bool // some data on the scale fit (divisor n-1): exact; false without a scale
	ScaleKnown   bool
}

// GranularityOfSD holds a printed SD of n whole-number values against the SDs
// that such data can have beside the printed mean.
//
//	SD² (n-1) = Q - S²/n,  Q integer, of the same parity as S, and Q ≥ S²/n
//
// over the rounding of both figures, in rational arithmetic. With a scale it
// also says exactly whether any data on the scale fit, by counting through all
// attainable pairs of sum and sum of squares; n times the width of the scale
// must not exceed 2000 then.
//
// Source: Brown & Heathers (2017) for the principle, Anaya (2016), PeerJ
// Preprints 4:e2400v1, for SDs (from memory).
func GranularityOfSD(mean, sd interval.Printed, n int, scale Scale) (SDGranularity, error) {
	switch {
	case n < 2:
		return SDGranularity{}, fmt.Errorf("n = %d: an SD needs at least two values", n)
	case !mean.Known() || !sd.Known():
		return SDGranularity{}, errors.New("the printed mean or SD is not known")
	case sd.Value() < 0:
		return SDGranularity{}, fmt.Errorf("SD %v is negative", sd.Value())
	case scale != Scale{} && scale.Low >= scale.High:
		return SDGranularity{}, fmt.Errorf("scale %d to %d is empty", scale.Low, scale.High)
	case scale != Scale{} && n*(scale.High-scale.Low) > 2000:
		return SDGranularity{}, fmt.Errorf("n = %d on a scale of %d steps is too large to count through", n, scale.High-scale.Low)
	}
	unit := big.NewRat(1, int64(n))
	_, meanLow, meanHigh := mean.Rat()
	first, last := sumsBetween(meanLow, meanHigh, unit)
	if new(big.Int).Sub(last, first).Cmp(big.NewInt(100000)) > 0 {
		return SDGranularity{}, fmt.Errorf("the mean %v allows too many sums to count", mean.Value())
	}
	_, sdLow, sdHigh := sd.Rat()
	if sdLow.Sign() < 0 {
		sdLow = new(big.Rat)
	}
	g := SDGranularity{MeanPossible: first.Cmp(last) <= 0, ScaleKnown: scale != Scale{}}
	var attained []*big.Int
	if g.ScaleKnown {
		attained = attainable(n, scale.High-scale.Low)
	}
	one := big.NewInt(1)
	for s := new(big.Int).Set(first); s.Cmp(last) <= 0; s.Add(s, one) {
		qs := squaresBetween(s, n, int64(n-1), sdLow, sdHigh)
		g.Possible = g.Possible || qs.any(s)
		g.PossibleN = g.PossibleN || squaresBetween(s, n, int64(n), sdLow, sdHigh).any(s)
		if g.ScaleKnown && !g.OnScale {
			g.OnScale = qs.anyOf(s, n, scale.Low, attained)
		}
	}
	return g, nil
}

// A span is a range of integers, empty when low is above high.
type span struct{ low, high *big.Int }

// squaresBetween returns the sums of squares that n values of sum s can have
// when divisor × SD² lies between the edges.
func squaresBetween(s *big.Int, n int, divisor int64, sdLow, sdHigh *big.Rat) span {
	base := new(big.Rat).SetFrac(new(big.Int).Mul(s, s), big.NewInt(int64(n)))
	edge := func(sd *big.Rat) *big.Rat {
		e := new(big.Rat).Mul(sd, sd)
		e.Mul(e, new(big.Rat).SetInt64(divisor))
		return e.Add(e, base)
	}
	low := edge(sdLow)
	return span{new(big.Int).Neg(floor(low.Neg(low))), floor(edge(sdHigh))}
}

// any reports whether the span holds an integer of the parity of s.
func (q span) any(s *big.Int) bool {
	low := new(big.Int).Set(q.low)
	if low.Bit(0) != s.Bit(0) {
		low.Add(low, big.NewInt(1))
	}
	return low.Cmp(q.high) <= 0
}

// anyOf reports whether n whole numbers from bottom upward have the sum s and
// a sum of squares in the span; attained lists what they can have as steps
// above bottom.
func (q span) anyOf(s *big.Int, n, bottom int, attained []*big.Int) bool {
	// With y = x - bottom: Σy = s - n bottom, Σy² = Q - 2 bottom s + n bottom².
	steps := s.Int64() - int64(n)*int64(bottom)
	if !s.IsInt64() || steps < 0 || steps >= int64(len(attained)) {
		return false
	}
	shift := int64(n)*int64(bottom)*int64(bottom) - 2*int64(bottom)*s.Int64()
	low, high := q.low.Int64()+shift, q.high.Int64()+shift
	set := attained[steps]
	for i := max(0, low); i <= min(high, int64(set.BitLen())-1); i++ {
		if set.Bit(int(i)) == 1 {
			return true
		}
	}
	return false
}

// attainable returns, for each sum of n whole numbers from 0 to width, the set
// of their possible sums of squares as the bits of an integer.
func attainable(n, width int) []*big.Int {
	sets := make([]*big.Int, n*width+1)
	for i := range sets {
		sets[i] = new(big.Int)
	}
	sets[0].SetBit(sets[0], 0, 1)
	var shifted big.Int
	for drawn := range n {
		next := make([]*big.Int, len(sets))
		for i := range next {
			next[i] = new(big.Int)
		}
		for sum := 0; sum <= drawn*width; sum++ {
			if sets[sum].Sign() == 0 {
				continue
			}
			for v := range width + 1 {
				next[sum+v].Or(next[sum+v], shifted.Lsh(sets[sum], uint(v*v)))
			}
		}
		sets = next
	}
	return sets
}
