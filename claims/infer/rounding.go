package infer

import (
	"errors"
	"fmt"
	"math"

	"probity/claims/interval"
)

// A Range is what a test can give once the rounding of its inputs is allowed
// for.
type Range struct {
	Statistic interval.Interval // of |t|, F or q; High is +Inf when all SDs may be zero
	Point     P                 // from the figures as printed
	Low, High P                 // the least and the greatest p
}

// P returns the range of p as an interval.
func (r Range) P() interval.Interval { return interval.Interval{Low: r.Low.Value, High: r.High.Value} }

// StudentRange returns what Student can give for arms as printed. Its p falls
// with the distance of the means and rises with each SD, so the corners are
// exact. Means whose roundings overlap allow p = 1, SDs that may both be zero
// allow p = 0.
func StudentRange(a, b ArmBox) (Range, error) {
	if err := checkBoxes(a, b); err != nil {
		return Range{}, err
	}
	dist := distance(a.Mean, b.Mean)
	t := func(d, sa, sb float64) float64 {
		test, err := Student(Arm{Mean: 0, SD: sa, N: a.Arm.N}, Arm{Mean: d, SD: sb, N: b.Arm.N})
		if err != nil {
			return noSpread(d)
		}
		return math.Abs(test.T)
	}
	df := float64(a.Arm.N + b.Arm.N - 2)
	stat := interval.Interval{
		Low:  t(dist.Low, a.SD.High, b.SD.High),
		High: t(dist.High, a.SD.Low, b.SD.Low),
	}
	point := t(math.Abs(a.Arm.Mean-b.Arm.Mean), a.Arm.SD, b.Arm.SD)
	p := func(t float64) P { return twoSidedOrZero(t, df) }
	return Range{Statistic: stat, Point: p(point), Low: p(stat.High), High: p(stat.Low)}, nil
}

// WelchRange returns what Welch can give for arms as printed. Its df moves
// with the ratio of the SDs, so p need not rise with each SD and the corners
// of the box are not enough. At a fixed ratio p does rise with both SDs
// together: the greatest p therefore lies on an edge where one SD is greatest,
// the least on an edge where one is least, and those four edges are searched.
func WelchRange(a, b ArmBox) (Range, error) {
	if err := checkBoxes(a, b); err != nil {
		return Range{}, err
	}
	dist := distance(a.Mean, b.Mean)
	w := welchBox{na: a.Arm.N, nb: b.Arm.N}
	r := Range{
		Statistic: interval.Interval{
			Low:  w.t(dist.Low, a.SD.High, b.SD.High),
			High: w.t(dist.High, a.SD.Low, b.SD.Low),
		},
		Point: pOf(w.logP(math.Abs(a.Arm.Mean-b.Arm.Mean), a.Arm.SD, b.Arm.SD)),
		Low:   P{},
		High:  pOf(0),
	}
	r.Low = pOf(math.Min(
		least(b.SD, func(sb float64) float64 { return w.logP(dist.High, a.SD.Low, sb) }),
		least(a.SD, func(sa float64) float64 { return w.logP(dist.High, sa, b.SD.Low) })))
	if dist.Low > 0 {
		r.High = pOf(-math.Min(
			least(b.SD, func(sb float64) float64 { return -w.logP(dist.Low, a.SD.High, sb) }),
			least(a.SD, func(sa float64) float64 { return -w.logP(dist.Low, sa, b.SD.High) })))
	}
	return r, nil
}

// A welchBox computes Welch's test at a distance d of the means.
type welchBox struct{ na, nb int }

func (w welchBox) t(d, sa, sb float64) float64 {
	scale := math.Max(sa, sb)
	if scale == 0 {
		return noSpread(d)
	}
	return d / (scale * math.Sqrt(w.variance(sa/scale, sb/scale)))
}

func (w welchBox) variance(sa, sb float64) float64 {
	return sa*sa/float64(w.na) + sb*sb/float64(w.nb)
}

// logP returns ln p, two-sided.
func (w welchBox) logP(d, sa, sb float64) float64 {
	t := w.t(d, sa, sb)
	if t == 0 || math.IsInf(t, 1) {
		return -t
	}
	scale := math.Max(sa, sb)
	ra, rb := sa/scale, sb/scale
	return logTUpper(t, welchDF(ra*ra/float64(w.na), rb*rb/float64(w.nb), w.na, w.nb)) + math.Ln2
}

// least returns the least value of a smooth f on an interval that holds at
// most one valley: nine points, one more close to each end for a valley just
// inside it, and golden section where a valley is found.
func least(b interval.Interval, f func(float64) float64) float64 {
	if b.Low == b.High {
		return f(b.Low)
	}
	const cells = 8
	step := b.Width() / cells
	at := func(i float64) float64 {
		if i >= cells {
			return f(b.High)
		}
		return f(b.Low + i*step)
	}
	best, where := math.Inf(1), 0.0
	for _, i := range [...]float64{0, 0.01, 1, 2, 3, 4, 5, 6, 7, cells - 0.01, cells} {
		if y := at(i); y < best {
			best, where = y, i
		}
	}
	if where == 0 || where == cells {
		return best
	}
	const golden = 0.6180339887498949
	lo, hi := math.Max(0, where-1), math.Min(cells, where+1)
	p, q := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fp, fq := at(p), at(q)
	for range 36 {
		if fp <= fq {
			hi, q, fq = q, p, fp
			p = hi - golden*(hi-lo)
			fp = at(p)
		} else {
			lo, p, fp = p, q, fq
			q = lo + golden*(hi-lo)
			fq = at(q)
		}
	}
	return math.Min(best, math.Min(fp, fq))
}

// AnovaRange returns what OneWay can give for groups as printed. F rises with
// the sum of squares between groups, which the means alone decide, and falls
// with each SD. The least sum between is found exactly; the greatest is a
// corner of the means' box, found exactly for up to 14 groups and above that
// replaced by a bound that is never too small, so the range errs on the wide
// side.
func AnovaRange(groups []ArmBox) (Range, error) {
	if err := checkBoxes(groups...); err != nil {
		return Range{}, err
	}
	if len(groups) < 2 {
		return Range{}, fmt.Errorf("%d groups: at least 2 are needed", len(groups))
	}
	s := sumsOver(groups)
	df1, df2 := float64(len(groups)-1), s.n-float64(len(groups))
	f := func(between, within float64) float64 {
		if within == 0 {
			return noSpread(between)
		}
		return between / df1 / (within / df2)
	}
	p := func(f float64) P {
		if math.IsInf(f, 1) {
			return pOf(math.Inf(-1))
		}
		return pOf(logFUpper(f, df1, df2))
	}
	r := Range{Statistic: interval.Interval{
		Low:  f(s.between.Low, s.within.High),
		High: f(s.between.High, s.within.Low),
	}}
	arms := make([]Arm, len(groups))
	for i, g := range groups {
		arms[i] = g.Arm
	}
	ssb, ssw, _, _ := sumsOfSquares(arms)
	r.Point, r.Low, r.High = p(f(ssb, ssw)), p(r.Statistic.High), p(r.Statistic.Low)
	return r, nil
}

// TukeyRange returns what TukeyKramer can give for the pair of groups i and j
// (places in the list). The distance of the two means and the pooled SD move
// apart from each other, so the corners are exact.
func TukeyRange(groups []ArmBox, i, j int) (Range, error) {
	q, point, df, err := tukeyQ(groups, i, j)
	if err != nil {
		return Range{}, err
	}
	p := func(q float64) P {
		if math.IsInf(q, 1) {
			return pOf(math.Inf(-1))
		}
		return pOf(logRangeUpper(q, len(groups), df))
	}
	return Range{Statistic: q, Point: p(point), Low: p(q.High), High: p(q.Low)}, nil
}

// TukeyQ returns the range of the pair's studentized range q and its df: to be
// held against one RangeCritical for all pairs, which is a thousand times
// cheaper than a p for each.
func TukeyQ(groups []ArmBox, i, j int) (q interval.Interval, df float64, err error) {
	q, _, df, err = tukeyQ(groups, i, j)
	return q, df, err
}

func tukeyQ(groups []ArmBox, i, j int) (q interval.Interval, point, df float64, err error) {
	if err := checkBoxes(groups...); err != nil {
		return q, 0, 0, err
	}
	if i < 0 || j < 0 || i >= len(groups) || j >= len(groups) || i == j {
		return q, 0, 0, fmt.Errorf("pair %d, %d is not among %d groups", i, j, len(groups))
	}
	a, b := groups[i], groups[j]
	df = -float64(len(groups))
	scale := 0.0
	for _, g := range groups {
		df += float64(g.Arm.N)
		scale = math.Max(scale, g.SD.High)
	}
	dist := distance(a.Mean, b.Mean)
	of := func(d float64, sd func(ArmBox) float64) float64 {
		var within float64
		for _, g := range groups {
			r := sd(g) / scale
			within += float64(g.Arm.N-1) * r * r
		}
		if scale == 0 || within == 0 {
			return noSpread(d)
		}
		return d / scale / math.Sqrt(within/df/2*(1/float64(a.Arm.N)+1/float64(b.Arm.N)))
	}
	q.Low = of(dist.Low, func(g ArmBox) float64 { return g.SD.High })
	q.High = of(dist.High, func(g ArmBox) float64 { return g.SD.Low })
	point = of(math.Abs(a.Arm.Mean-b.Arm.Mean), func(g ArmBox) float64 { return g.Arm.SD })
	return q, point, df, nil
}

// A sums holds the sums of squares that boxes allow, in units of a common
// scale squared.
type sums struct {
	n               float64
	between, within interval.Interval
}

func sumsOver(groups []ArmBox) sums {
	var s sums
	scale, centre := 0.0, 0.0
	for _, g := range groups {
		s.n += float64(g.Arm.N)
	}
	first := groups[0].Mean.Low
	for _, g := range groups {
		scale = math.Max(scale, math.Max(g.SD.High, math.Max(math.Abs(g.Mean.Low-first), math.Abs(g.Mean.High-first))))
	}
	if scale == 0 {
		return s
	}
	for _, g := range groups {
		centre += float64(g.Arm.N) / s.n * ((g.Mean.Mid() - first) / scale)
	}
	means := make([]weighted, len(groups))
	for i, g := range groups {
		n, lo, hi := float64(g.Arm.N), g.SD.Low/scale, g.SD.High/scale
		s.within.Low += (n - 1) * lo * lo
		s.within.High += (n - 1) * hi * hi
		means[i] = weighted{n, interval.Interval{
			Low:  (g.Mean.Low-first)/scale - centre,
			High: (g.Mean.High-first)/scale - centre,
		}}
	}
	s.between = interval.Interval{Low: leastBetween(means), High: mostBetween(means, s.n)}
	return s
}

type weighted struct {
	n    float64
	mean interval.Interval
}

// leastBetween returns the least of Σ n (m - g)² over the means' box: the least
// over c of Σ n dist(c, box)², convex in c, found by bisection of its slope.
func leastBetween(means []weighted) float64 {
	lo, hi := math.Inf(1), math.Inf(-1) // the low end of the highest box, ...
	for _, m := range means {
		lo, hi = math.Min(lo, m.mean.High), math.Max(hi, m.mean.Low)
	}
	if lo >= hi {
		return 0
	}
	away := func(m weighted, c float64) float64 {
		return math.Max(0, c-m.mean.High) - math.Max(0, m.mean.Low-c)
	}
	for range 60 {
		c, slope := lo+(hi-lo)/2, 0.0
		for _, m := range means {
			slope += m.n * away(m, c)
		}
		if slope > 0 {
			hi = c
		} else {
			lo = c
		}
	}
	var sum float64
	for _, m := range means {
		d := away(m, lo)
		sum += m.n * d * d
	}
	return sum
}

// mostBetween returns the greatest of Σ n (m - g)² over the means' box, which
// is convex in each mean: a corner. All corners are visited up to 14 groups,
// one mean changed at a time; beyond, the bound min over c of Σ n (furthest
// distance from c)² takes their place.
func mostBetween(means []weighted, n float64) float64 {
	if len(means) > 14 {
		return boundBetween(means)
	}
	var sum, squares, most float64
	at := make([]float64, len(means))
	for i, m := range means {
		at[i] = m.mean.Low
		sum += m.n * at[i]
		squares += m.n * at[i] * at[i]
	}
	most = squares - sum*sum/n
	for code := 1; code < 1<<len(means); code++ {
		i := 0
		for code>>i&1 == 0 { // the bit that a Gray code changes
			i++
		}
		m := means[i]
		to := m.mean.Low + m.mean.High - at[i]
		sum += m.n * (to - at[i])
		squares += m.n * (to - at[i]) * (to + at[i])
		at[i] = to
		most = math.Max(most, squares-sum*sum/n)
	}
	return most
}

func boundBetween(means []weighted) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, m := range means {
		lo, hi = math.Min(lo, m.mean.Low), math.Max(hi, m.mean.High)
	}
	_, bound := interval.Minimum(func(c float64) float64 {
		var sum float64
		for _, m := range means {
			d := math.Max(c-m.mean.Low, m.mean.High-c)
			sum += m.n * d * d
		}
		return sum
	}, interval.Interval{Low: lo, High: hi})
	return bound
}

// distance returns the range of |x - y|.
func distance(x, y interval.Interval) interval.Interval {
	lo, hi := x.Low-y.High, x.High-y.Low
	d := interval.Interval{High: math.Max(math.Abs(lo), math.Abs(hi))}
	if lo > 0 || hi < 0 {
		d.Low = math.Min(math.Abs(lo), math.Abs(hi))
	}
	return d
}

// noSpread returns the statistic's limit as every SD goes to zero.
func noSpread(d float64) float64 {
	if d == 0 {
		return 0
	}
	return math.Inf(1)
}

func twoSidedOrZero(t, df float64) P {
	if math.IsInf(t, 1) {
		return pOf(math.Inf(-1))
	}
	return twoSidedT(t, df)
}

func checkBoxes(boxes ...ArmBox) error {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, b := range boxes {
		if err := b.Check(); err != nil {
			return fmt.Errorf("group %d: %w", i+1, err)
		}
		lo, hi = math.Min(lo, b.Mean.Low), math.Max(hi, b.Mean.High)
	}
	if math.IsInf(hi-lo, 0) {
		return errors.New("the difference of the means is too large for a number")
	}
	return nil
}
