package infer

import (
	"errors"
	"fmt"
	"math"
)

// An Anova is a one-way analysis of variance. The sums of squares are in the
// squared unit of the means.
type Anova struct {
	DF1, DF2     float64 // k - 1 and N - k
	SSB, SSW     float64 // between and within groups
	MSB, MSW     float64 // SSB/DF1, SSW/DF2
	F            float64 // MSB / MSW
	EtaSquared   float64 // SSB / (SSB + SSW)
	OmegaSquared float64 // (SSB - DF1 MSW) / (SSB + SSW + MSW); negative below F = 1
	P            P       // upper tail of F
}

// OneWay compares k ≥ 2 independent means with one pooled SD.
//
//	g   = Σ n m / N
//	SSB = Σ n (m - g)²,  SSW = Σ (n-1) s²
//	F   = (SSB/(k-1)) / (SSW/(N-k))
//
// Means are centred before squaring. It assumes normal data with equal spread.
// When all SDs are zero there is no F; the error then comes with the sums of
// squares filled in. Sums of squares of figures beyond 1e150 overflow to +Inf;
// F and p do not.
//
// Source: Fisher (1925), Statistical Methods for Research Workers.
func OneWay(groups []Arm) (Anova, error) {
	if err := checkGroups(groups, 2); err != nil {
		return Anova{}, err
	}
	ssb, ssw, n, scale := sumsOfSquares(groups)
	k := float64(len(groups))
	a := Anova{DF1: k - 1, DF2: n - k}
	unit := scale * scale
	a.SSB, a.SSW = ssb*unit, ssw*unit
	a.MSB, a.MSW = a.SSB/a.DF1, a.SSW/a.DF2
	if ssw == 0 {
		return a, errors.New("all SDs are zero: F has no value")
	}
	msw := ssw / a.DF2
	a.F = ssb / a.DF1 / msw
	a.EtaSquared = ssb / (ssb + ssw)
	a.OmegaSquared = (ssb - a.DF1*msw) / (ssb + ssw + msw)
	a.P = pOf(logFUpper(a.F, a.DF1, a.DF2))
	return a, nil
}

// sumsOfSquares returns the sums of squares between and within groups in units
// of scale², which keeps them in range for figures of any size, and the total n.
func sumsOfSquares(groups []Arm) (ssb, ssw, n, scale float64) {
	first := groups[0].Mean
	var sum float64
	for _, g := range groups {
		n += float64(g.N)
		scale = math.Max(scale, math.Max(g.SD, math.Abs(g.Mean-first)))
	}
	if scale == 0 {
		return 0, 0, n, 1
	}
	for _, g := range groups {
		sum += float64(g.N) / n * ((g.Mean - first) / scale)
	}
	for _, g := range groups {
		d, s := (g.Mean-first)/scale-sum, g.SD/scale
		ssb += float64(g.N) * d * d
		ssw += float64(g.N-1) * s * s
	}
	return ssb, ssw, n, scale
}

// WelchAnova compares k ≥ 2 independent means without pooling the SDs. The
// result has F, DF1, DF2 and P; its sums of squares are not defined and zero.
//
//	w = n/s², W = Σ w, g = Σ w m / W
//	A = Σ w (m - g)² / (k-1)
//	L = Σ (1 - w/W)² / (n-1)
//	F = A / (1 + 2 (k-2) L / (k²-1)),  df2 = (k²-1) / (3 L)
//
// An SD of zero leaves a weight without value and is refused.
//
// Source: Welch (1951), Biometrika 38:330-336.
func WelchAnova(groups []Arm) (Anova, error) {
	if err := checkGroups(groups, 2); err != nil {
		return Anova{}, err
	}
	least, most := math.Inf(1), 0.0
	for i, g := range groups {
		if g.SD == 0 {
			return Anova{}, fmt.Errorf("group %d: SD is zero, its weight has no value", i+1)
		}
		least, most = math.Min(least, g.SD), math.Max(most, g.SD)
	}
	first := groups[0].Mean
	var total, centre float64
	weight := make([]float64, len(groups))
	for i, g := range groups {
		weight[i] = float64(g.N) * (least / g.SD) * (least / g.SD)
		total += weight[i]
	}
	for i, g := range groups {
		centre += weight[i] / total * ((g.Mean - first) / least)
	}
	var between, l float64
	for i, g := range groups {
		d := (g.Mean-first)/least - centre
		between += weight[i] * d * d
		r := 1 - weight[i]/total
		l += r * r / float64(g.N-1)
	}
	k := float64(len(groups))
	a := Anova{DF1: k - 1, DF2: (k*k - 1) / (3 * l)}
	a.F = between / (k - 1) / (1 + 2*(k-2)*l/(k*k-1))
	a.P = pOf(logFUpper(a.F, a.DF1, a.DF2))
	return a, nil
}

func checkGroups(groups []Arm, least int) error {
	if len(groups) < least {
		return fmt.Errorf("%d groups: at least %d are needed", len(groups), least)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, g := range groups {
		if err := g.Check(); err != nil {
			return fmt.Errorf("group %d: %w", i+1, err)
		}
		low, high = math.Min(low, g.Mean), math.Max(high, g.Mean)
	}
	if math.IsInf(high-low, 0) {
		return errors.New("the difference of the means is too large for a number")
	}
	return nil
}
