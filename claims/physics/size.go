package physics

import (
	"fmt"
	"math"
)

// Diameter returns the diameter in mm of an instrument at a distance from its
// tip, of tip size in hundredths of a millimetre and taper in percent.
//
//	size/100 + taper/100 × distance
//
// It holds for a constant taper only; the printed taper of a variable-taper
// instrument is true for the first millimetres.
//
// Source: ISO 3630-1.
func Diameter(size, taperPercent, mm float64) (float64, error) {
	if err := notNegative("size", size, "distance from the tip", mm); err != nil {
		return 0, err
	}
	if math.IsNaN(taperPercent) || math.IsInf(taperPercent, 0) {
		return 0, fmt.Errorf("taper %v is not a finite number", taperPercent)
	}
	d := (size + taperPercent*mm) / 100
	if d <= 0 {
		return 0, fmt.Errorf("size %v with taper %v %% leaves no diameter at %v mm", size, taperPercent, mm)
	}
	return d, nil
}

// A SizeEffect is what a difference in diameter alone makes of two similar
// round sections: the ratio of the second to the first.
type SizeEffect struct {
	Ratio  float64 // of the diameters
	Square float64 // of the areas
	Cube   float64 // of torsional strength, and of the bending moment on a plateau
	Fourth float64 // of elastic stiffness in torsion and bending
}

// CompareSizes returns the effect of going from diameter d1 to d2, in any one
// unit. It is a scaling argument, not a prediction across alloys or section
// shapes: an observed ratio between Cube and Fourth cannot be told from size.
//
// Source: strength of round bars, T = π τ d³/16, J = π d⁴/32, I = π d⁴/64.
func CompareSizes(d1, d2 float64) (SizeEffect, error) {
	if err := notNegative("first diameter", d1, "second diameter", d2); err != nil {
		return SizeEffect{}, err
	}
	if d1 == 0 || d2 == 0 {
		return SizeEffect{}, fmt.Errorf("diameters %v and %v must both be above zero", d1, d2)
	}
	r := d2 / d1
	return SizeEffect{Ratio: r, Square: r * r, Cube: r * r * r, Fourth: r * r * r * r}, nil
}

// Explains reports whether an observed ratio of the second to the first lies in
// the band between Cube and Fourth, ends included.
func (s SizeEffect) Explains(ratio float64) bool {
	return ratio >= math.Min(s.Cube, s.Fourth) && ratio <= math.Max(s.Cube, s.Fourth)
}

// DiameterFor returns by what ratio of diameters alone a ratio of outcomes
// comes about when the outcome goes with the given power of the diameter (3 or
// 4): ratio^(1/power).
func DiameterFor(ratio, power float64) (float64, error) {
	if !(ratio > 0) || math.IsInf(ratio, 0) || !(power > 0) || math.IsInf(power, 0) {
		return 0, fmt.Errorf("ratio %v and power %v must be finite and above zero", ratio, power)
	}
	return math.Pow(ratio, 1/power), nil
}

// SurfaceStrain returns the strain at the surface of a round section of
// diameter d on a bend of radius r (to the axis), both in one unit, as a share:
// d/(2r).
func SurfaceStrain(d, r float64) (float64, error) {
	if err := notNegative("diameter", d, "radius", r); err != nil {
		return 0, err
	}
	if 2*r <= d {
		return 0, fmt.Errorf("radius %v leaves no room for a section of diameter %v", r, d)
	}
	return d / (2 * r), nil
}
