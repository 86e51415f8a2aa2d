// Package physics holds the arithmetic of instrument tests: what time, speed,
// cycles, torque, angle and diameter of one and the same test must be to each
// other.
//
//	time × speed → cycles    torque × angle → bound of energy    size, taper → diameter
//
// The functions are pure and take figures in the unit their names or comments
// give. They say what follows, not what a paper got wrong.
package physics

import (
	"errors"
	"fmt"
	"math"
)

// Cycles returns the turns made in a time at a constant speed, seconds × rpm/60.
// An SD of times becomes an SD of cycles by the same factor, so the coefficient
// of variation of both is one. It is for continuous rotation only; see
// Reciprocation.
func Cycles(seconds, rpm float64) (float64, error) {
	if err := notNegative("time", seconds, "speed", rpm); err != nil {
		return 0, err
	}
	return seconds * rpm / 60, nil
}

// Seconds returns the time that a number of turns takes at a constant speed.
// At zero speed there is none.
func Seconds(cycles, rpm float64) (float64, error) {
	if err := notNegative("cycles", cycles, "speed", rpm); err != nil {
		return 0, err
	}
	if rpm == 0 {
		return 0, errors.New("at zero speed no cycle is ever made")
	}
	return cycles / (rpm / 60), nil
}

// ImpliedSpeed returns the speed in rpm at which a time gives a number of
// cycles, 60 × cycles/seconds. Arms of one test with different implied speeds
// were run at different speeds, and their times and cycles rank differently.
func ImpliedSpeed(cycles, seconds float64) (float64, error) {
	if err := notNegative("cycles", cycles, "time", seconds); err != nil {
		return 0, err
	}
	if seconds == 0 {
		return 0, errors.New("in no time no speed is defined")
	}
	return 60 * cycles / seconds, nil
}

// CycleStep returns the least difference of two numbers of cycles that were
// computed from times read in steps, step × rpm/60: whole seconds at 300 rpm
// give multiples of 5.
func CycleStep(stepSeconds, rpm float64) (float64, error) {
	return Cycles(stepSeconds, rpm)
}

// A Reciprocation is a motion to and fro by two angles in degrees, the cutting
// direction first: {150, 30}.
type Reciprocation struct {
	Forward, Back float64
}

// Counts are the three things that papers call "cycles" of a reciprocating
// instrument.
// They differ by constant factors and must not be compared with each other.
type Counts struct {
	NetTurns       float64 // full turns gained
	Reciprocations float64 // movements to and fro
	SweptTurns     float64 // turns travelled in both directions
}

// InTime returns the counts of a time at a frequency of reciprocations a
// second.
func (r Reciprocation) InTime(seconds, perSecond float64) (Counts, error) {
	if err := r.check(); err != nil {
		return Counts{}, err
	}
	if err := notNegative("time", seconds, "frequency", perSecond); err != nil {
		return Counts{}, err
	}
	return r.counts(seconds * perSecond), nil
}

// AtEquivalentSpeed returns the counts of a time at the "equivalent rpm" a motor
// shows: net turns a minute.
//
//	{150, 30} for 100 s at 300 equivalent rpm: 500 net turns, 1500 reciprocations
//
// A motion that gains no net turn has no equivalent speed.
func (r Reciprocation) AtEquivalentSpeed(seconds, rpm float64) (Counts, error) {
	if err := r.check(); err != nil {
		return Counts{}, err
	}
	turns, err := Cycles(seconds, rpm)
	if err != nil {
		return Counts{}, err
	}
	net := math.Abs(r.Forward - r.Back)
	if net == 0 {
		return Counts{}, errors.New("equal angles gain no net turn")
	}
	return r.counts(turns * 360 / net), nil
}

// PerTurn returns how many reciprocations make one net turn.
func (r Reciprocation) PerTurn() (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	if r.Forward == r.Back {
		return 0, errors.New("equal angles gain no net turn")
	}
	return 360 / math.Abs(r.Forward-r.Back), nil
}

func (r Reciprocation) counts(reciprocations float64) Counts {
	return Counts{
		NetTurns:       reciprocations * math.Abs(r.Forward-r.Back) / 360,
		Reciprocations: reciprocations,
		SweptTurns:     reciprocations * (r.Forward + r.Back) / 360,
	}
}

func (r Reciprocation) check() error {
	if err := notNegative("forward angle", r.Forward, "back angle", r.Back); err != nil {
		return err
	}
	if r.Forward+r.Back == 0 {
		return errors.New("no angle: no motion")
	}
	return nil
}

// TorsionSpeed is the speed of the standard torsion test of ISO 3630-1 and
// ANSI/ADA 28, in rpm.
const TorsionSpeed = 2

// AngleAfter returns the angle in degrees through which a shaft turned at a
// speed in rpm after a time: 12° a second at TorsionSpeed.
func AngleAfter(seconds, rpm float64) (float64, error) {
	turns, err := Cycles(seconds, rpm)
	return 360 * turns, err
}

// TimeToAngle returns the seconds that a shaft takes through an angle in
// degrees at a speed in rpm.
func TimeToAngle(degrees, rpm float64) (float64, error) {
	if err := notNegative("angle", degrees, "speed", rpm); err != nil {
		return 0, err
	}
	return Seconds(degrees/360, rpm)
}

// EnergyBound returns the greatest energy in joules that a torsion test can
// have taken, from its greatest torque in N·m and its angle at fracture in
// degrees: torque × angle in radians, the rectangle around the curve. The area
// under the curve (toughness) must lie below it. A toughness that was
// integrated in degrees is 57.3 times too large.
func EnergyBound(torqueNm, degrees float64) (float64, error) {
	if err := notNegative("torque", torqueNm, "angle", degrees); err != nil {
		return 0, err
	}
	return torqueNm * degrees * math.Pi / 180, nil
}

// notNegative checks two named figures.
func notNegative(nameA string, a float64, nameB string, b float64) error {
	for _, x := range []struct {
		name  string
		value float64
	}{{nameA, a}, {nameB, b}} {
		if math.IsNaN(x.value) || math.IsInf(x.value, 0) {
			return fmt.Errorf("%s %v is not a finite number", x.name, x.value)
		}
		if x.value < 0 {
			return fmt.Errorf("%s %v is negative", x.name, x.value)
		}
	}
	return nil
}
