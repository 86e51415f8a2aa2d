package physics

import (
	"fmt"
	"math"
)

// StandardGravity is the exact conventional acceleration in m/s² that turns a
// gram into a gram-force.
//
// Source: 3rd CGPM (1901), in the SI Brochure, 9th ed.
const StandardGravity = 9.80665

// A Unit is a unit of force, torque or energy with its factor to the SI unit
// of its kind: newton, newton metre, joule. The zero Unit is not known.
type Unit struct {
	Symbol string
	Kind   Kind
	SI     float64 // one Unit in the SI unit of its kind
}

// A Kind is a physical quantity.
type Kind int

// The kinds of quantity. A torque and an energy have the same dimension and
// are kept apart: a torque becomes an energy only through an angle.
const (
	Force Kind = iota + 1
	Torque
	Energy
)

// The units met in torsion, bending and buckling tests.
var (
	Newton      = Unit{"N", Force, 1}
	MilliNewton = Unit{"mN", Force, 1e-3}
	GramForce   = Unit{"gf", Force, 1e-3 * StandardGravity}
	KilogramF   = Unit{"kgf", Force, StandardGravity}
	OunceForce  = Unit{"ozf", Force, 0.028349523125 * StandardGravity}
	PoundForce  = Unit{"lbf", Force, 0.45359237 * StandardGravity}

	NewtonMetre      = Unit{"N m", Torque, 1}
	NewtonCentimetre = Unit{"N cm", Torque, 1e-2}
	NewtonMillimetre = Unit{"N mm", Torque, 1e-3}
	MilliNewtonMetre = Unit{"mN m", Torque, 1e-3}
	GramForceCm      = Unit{"gf cm", Torque, 1e-5 * StandardGravity}
	GramForceMm      = Unit{"gf mm", Torque, 1e-6 * StandardGravity}
	OunceForceInch   = Unit{"ozf in", Torque, 0.0254 * 0.028349523125 * StandardGravity}

	Joule              = Unit{"J", Energy, 1}
	MilliJoule         = Unit{"mJ", Energy, 1e-3}
	NewtonCmRadian     = Unit{"N cm rad", Energy, 1e-2}
	NewtonCmDegree     = Unit{"N cm °", Energy, 1e-2 * math.Pi / 180}
	NewtonMmRadian     = Unit{"N mm rad", Energy, 1e-3}
	GramForceCmRadian  = Unit{"gf cm rad", Energy, 1e-5 * StandardGravity}
	GramForceCmDegrees = Unit{"gf cm °", Energy, 1e-5 * StandardGravity * math.Pi / 180}
)

// Units lists the units by kind, in the order above.
var Units = []Unit{
	Newton, MilliNewton, GramForce, KilogramF, OunceForce, PoundForce,
	NewtonMetre, NewtonCentimetre, NewtonMillimetre, MilliNewtonMetre, GramForceCm, GramForceMm, OunceForceInch,
	Joule, MilliJoule, NewtonCmRadian, NewtonCmDegree, NewtonMmRadian, GramForceCmRadian, GramForceCmDegrees,
}

// Convert returns a value in another unit of the same kind. Units of different
// kinds do not convert: a bending force becomes a moment only with its lever
// arm, see Moment.
func Convert(value float64, from, to Unit) (float64, error) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return 0, fmt.Errorf("value %v is not a finite number", value)
	}
	if from.SI == 0 || to.SI == 0 {
		return 0, fmt.Errorf("a unit is not known")
	}
	if from.Kind != to.Kind {
		return 0, fmt.Errorf("%s and %s are units of different quantities", from.Symbol, to.Symbol)
	}
	if from == to {
		return value, nil
	}
	return value * (from.SI / to.SI), nil
}

// Moment returns the bending moment in N·m of a force in newton at a lever arm
// in mm.
func Moment(newton, armMm float64) (float64, error) {
	if err := notNegative("force", newton, "lever arm", armMm); err != nil {
		return 0, err
	}
	return newton * armMm / 1000, nil
}
