package effect

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Standardised is a difference of two means in units of an SD.
type Standardised struct {
	D    float64 // (ma - mb) / SD
	SD   float64 // the SD it is divided by, in the unit of the means
	DF   float64 // degrees of freedom of SD
	T    float64 // D sqrt(na nb / (na + nb)): the t statistic
	J    float64 // small-sample factor; zero where it does not exist (df ≤ 1)
	Kind StandardKind

	na, nb float64
}

// A StandardKind says which SD a difference is divided by.
type StandardKind int

// The kinds of standardised difference.
const (
	ByPooledSD  StandardKind = iota + 1 // Cohen's d, Hedges' g
	ByControlSD                         // Glass's Δ
)

// A VarianceKind names a convention for the variance of a standardised
// difference. Published ones differ in the third digit; a result without the
// name of its convention cannot be checked.
type VarianceKind int

// The conventions in use.
const (
	// LargeSample: 1/na + 1/nb + G²/(2N); the default of R metafor. For
	// Glass's Δ the last divisor is 2 nb.
	LargeSample VarianceKind = iota + 1
	// Borenstein: J² (1/na + 1/nb + D²/(2N)), of Borenstein et al. (2009), ch. 4.
	Borenstein
	// Unbiased: 1/na + 1/nb + (1 - (df-2)/(df J²)) G², of Hedges (1983); it
	// needs df above 2.
	Unbiased
)

var errNoSD = errors.New("the SD to divide by is zero")

// Standardise returns Cohen's d of two independent arms and with it Hedges' g.
//
//	sp² = ((na-1) sa² + (nb-1) sb²) / (na+nb-2),  d = (ma - mb) / sp,  g = J d
//
// It takes the SDs to be alike. An SE mistaken for an SD makes d too large by
// √n. Without any spread there is none.
//
// Source: Cohen (1988); Hedges (1981), J Educ Stat 6:107-128.
func Standardise(a, b Arm) (Standardised, error) {
	if err := checkArms(a, b); err != nil {
		return Standardised{}, err
	}
	na, nb := float64(a.N), float64(b.N)
	scale := math.Max(a.SD, b.SD)
	if scale == 0 {
		return Standardised{}, errNoSD
	}
	ra, rb := a.SD/scale, b.SD/scale
	s := Standardised{DF: na + nb - 2, Kind: ByPooledSD, na: na, nb: nb}
	s.SD = scale * math.Sqrt(((na-1)*ra*ra+(nb-1)*rb*rb)/s.DF)
	return s.finish(a.Mean - b.Mean)
}

// Glass returns Glass's Δ: the difference in units of the control's SD.
//
//	Δ = (ma - mc) / sc,  g = J(nc-1) Δ,  df = nc - 1
//
// Its noncentral interval takes the SDs to be alike.
//
// Source: Glass (1976), Educ Res 5:3-8; variance as in R metafor, "SMD1".
func Glass(a, control Arm) (Standardised, error) {
	if err := checkArms(a, control); err != nil {
		return Standardised{}, err
	}
	if control.SD == 0 {
		return Standardised{}, errNoSD
	}
	s := Standardised{
		SD: control.SD, DF: float64(control.N - 1), Kind: ByControlSD,
		na: float64(a.N), nb: float64(control.N),
	}
	return s.finish(a.Mean - control.Mean)
}

func (s Standardised) finish(diff float64) (Standardised, error) {
	s.D = diff / s.SD
	s.T = s.D * math.Sqrt(s.na*s.nb/(s.na+s.nb))
	if j, err := HedgesJ(s.DF); err == nil {
		s.J = j
	}
	return s, finite(diff, s.D)
}

// G returns the difference corrected for small-sample bias, J × D.
func (s Standardised) G() (float64, error) {
	if s.J == 0 {
		return 0, fmt.Errorf("df = %v: the small-sample factor does not exist", s.DF)
	}
	return s.J * s.D, nil
}

// VarD returns the large-sample variance of D: 1/na + 1/nb + D²/(2N), for
// Glass's Δ with 2 nb in place of 2N.
func (s Standardised) VarD() float64 { return s.base() + s.D*s.D/s.divisor() }

func (s Standardised) base() float64 { return 1/s.na + 1/s.nb }

func (s Standardised) divisor() float64 {
	if s.Kind == ByControlSD {
		return 2 * s.nb
	}
	return 2 * (s.na + s.nb)
}

// VarG returns the variance of G by a named convention.
func (s Standardised) VarG(kind VarianceKind) (float64, error) {
	g, err := s.G()
	if err != nil {
		return 0, err
	}
	switch kind {
	case LargeSample:
		return s.base() + g*g/s.divisor(), nil
	case Borenstein:
		return s.J * s.J * s.VarD(), nil
	case Unbiased:
		if s.DF <= 2 {
			return 0, fmt.Errorf("df = %v: a noncentral t has no variance", s.DF)
		}
		// 1 - (df-2)/(df J²) cancels: rest is of order 1/df.
		return s.base() + (1-(s.DF-2)/(s.DF*s.J*s.J))*g*g, nil
	}
	return 0, errors.New("the convention of the variance is not known")
}

// NormalInterval returns the confidence interval G ± z sqrt(VarG) by a named
// convention.
func (s Standardised) NormalInterval(kind VarianceKind, level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	g, err := s.G()
	if err != nil {
		return Interval{}, err
	}
	v, err := s.VarG(kind)
	if err != nil {
		return Interval{}, err
	}
	half := distuv.UnitNormal.Quantile(0.5+level/2) * math.Sqrt(v)
	return Interval{Low: g - half, High: g + half}, nil
}

// NoncentralInterval returns the confidence interval of D from the noncentral t
// distribution: NoncentralityInterval(T) / sqrt(na nb/(na+nb)).
func (s Standardised) NoncentralInterval(level float64) (Interval, error) {
	i, err := NoncentralityInterval(s.T, s.DF, level)
	if err != nil {
		return Interval{}, err
	}
	root := math.Sqrt(s.na * s.nb / (s.na + s.nb))
	return Interval{Low: i.Low / root, High: i.High / root}, nil
}

// NoncentralIntervalG returns NoncentralInterval times J, for use beside G.
// Some authors quote the interval of D there; say which.
func (s Standardised) NoncentralIntervalG(level float64) (Interval, error) {
	if _, err := s.G(); err != nil {
		return Interval{}, err
	}
	i, err := s.NoncentralInterval(level)
	return Interval{Low: s.J * i.Low, High: s.J * i.High}, err
}

// HedgesJ returns the small-sample factor exactly; it exists for df > 1.
//
//	J = Γ(df/2) / (sqrt(df/2) Γ((df-1)/2))
//
// Source: Hedges (1981), J Educ Stat 6:107-128.
func HedgesJ(df float64) (float64, error) {
	if !(df > 1) || math.IsInf(df, 1) {
		return 0, fmt.Errorf("df = %v: the factor exists above 1 and below infinity", df)
	}
	if y := (df - 1) / 2; y > 500 {
		// Γ(y+½)/Γ(y) = sqrt(y) (1 - 1/(8y) + 1/(128y²) + 5/(1024y³) - ...),
		// DLMF 5.11.13; the log gammas would cancel here.
		return math.Sqrt((df-1)/df) * (1 - (1.0/8-(1.0/128+5.0/1024/y)/y)/y), nil
	}
	a, _ := math.Lgamma(df / 2)
	b, _ := math.Lgamma((df - 1) / 2)
	return math.Exp(a-b) / math.Sqrt(df/2), nil
}

// HedgesJApprox returns the usual approximation 1 - 3/(4 df - 1), which tables
// and older programs print; df must be at least 1.
func HedgesJApprox(df float64) (float64, error) {
	if !(df >= 1) {
		return 0, fmt.Errorf("df = %v must be at least 1", df)
	}
	return 1 - 3/(4*df-1), nil
}
