package physics

import (
	"strings"
	"testing"

	"probity/claims/internal/published"
)

var torqueUnits = map[string]Unit{
	"gcm": GramForceCm, "Ncm": NewtonCentimetre, "Nmm": NewtonMillimetre, "mNm": MilliNewtonMetre, "Nm": NewtonMetre,
}

func TestPublishedPhysics(t *testing.T) {
	rows := published.Read(t, "physics.csv")
	for _, r := range rows {
		got, err := figure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func figure(t *testing.T, r published.Row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "ncf":
		seconds := r.Float(t, "time_s")
		if q == "sd_ncf" {
			seconds = r.Float(t, "sd_time_s")
		}
		return Cycles(seconds, r.Float(t, "rpm"))
	case "time_from_ncf":
		return Seconds(r.Float(t, "ncf"), r.Float(t, "rpm"))
	case "torque":
		return Convert(r.Float(t, "value"), torqueUnits[r["unit"]], torqueUnits[q])
	case "diameter":
		return Diameter(r.Float(t, "size"), r.Float(t, "taper_pct"), r.Float(t, "at_mm"))
	case "scale_d":
		s, err := CompareSizes(r.Float(t, "d1"), r.Float(t, "d2"))
		return map[string]float64{
			"ratio": s.Ratio, "d2_sq": s.Square, "d3": s.Cube, "d4": s.Fourth,
			"pct_d3": 100 * (s.Cube - 1), "pct_d4": 100 * (s.Fourth - 1),
		}[q], err
	case "taper_at":
		d1, err := Diameter(r.Float(t, "size"), r.Float(t, "taper_pct"), r.Float(t, "at_mm"))
		if err != nil {
			return 0, err
		}
		d2, err := Diameter(r.Float(t, "size2"), r.Float(t, "taper2_pct"), r.Float(t, "at_mm"))
		if err != nil {
			return 0, err
		}
		s, err := CompareSizes(d1, d2)
		return map[string]float64{"d1_mm": d1, "d2_mm": d2, "d3_ratio": s.Cube, "d4_ratio": s.Fourth}[q], err
	}
	t.Errorf("%s: no test for %q", r["id"], r["fn"])
	return 0, nil
}

// Figures of the trade that the tables above do not hold.
func TestArithmetic(t *testing.T) {
	file := Reciprocation{Forward: 150, Back: 30}
	tests := []struct {
		source string
		got    func() (float64, error)
		want   float64
		within float64
	}{
		{"by hand: 60 × 702.3/120.4", func() (float64, error) { return ImpliedSpeed(702.3, 120.4) }, 349.983, 5e-4},
		{"by hand: 5 = 1 s × 300/60", func() (float64, error) { return CycleStep(1, 300) }, 5, 1e-12},
		{"by hand: 100 s at 300 net turns a minute", func() (float64, error) {
			c, err := file.AtEquivalentSpeed(100, 300)
			return c.NetTurns, err
		}, 500, 1e-9},
		{"by hand: 3 movements to a net turn of 3 × 120°", func() (float64, error) {
			c, err := file.AtEquivalentSpeed(100, 300)
			return c.Reciprocations, err
		}, 1500, 1e-9},
		{"by hand: 1500 × 180°/360°", func() (float64, error) {
			c, err := file.AtEquivalentSpeed(100, 300)
			return c.SweptTurns, err
		}, 750, 1e-9},
		{"by hand: 10 a second for 60 s, 120° net each", func() (float64, error) {
			c, err := file.InTime(60, 10)
			return c.NetTurns, err
		}, 200, 1e-9},
		{"by hand: 360/120", file.PerTurn, 3, 1e-12},
		{"by hand: 370/50, 360/320", Reciprocation{370, 50}.PerTurn, 1.125, 1e-12},
		{"by hand: 2 rpm is 12° a second", func() (float64, error) { return AngleAfter(1, TorsionSpeed) }, 12, 1e-12},
		{"by hand: 643/12", func() (float64, error) { return TimeToAngle(643, TorsionSpeed) }, 53.5833, 5e-5},
		{"by hand: 0.00226 N·m × 643° × π/180 = 25.4 mJ", func() (float64, error) { return EnergyBound(0.00226, 643) }, 0.02536, 5e-6},
		{"NIST SP 811 (2008), App. B.8 (from memory): 1 ozf·in = 7.061552e-3 N·m", func() (float64, error) { return Convert(1, OunceForceInch, NewtonMetre) }, 7.061552e-3, 5e-10},
		{"NIST SP 811 (2008), App. B.8 (from memory): 1 lbf = 4.448222 N", func() (float64, error) { return Convert(1, PoundForce, Newton) }, 4.448222, 5e-7},
		{"NIST SP 811 (2008), App. B.8 (from memory): 1 ozf = 2.780139e-1 N", func() (float64, error) { return Convert(1, OunceForce, Newton) }, 0.2780139, 5e-8},
		{"NIST SP 811 (2008), App. B.8 (from memory): 1 kgf = 9.80665 N", func() (float64, error) { return Convert(1, KilogramF, Newton) }, 9.80665, 1e-12},
		{"by hand: 1 N·cm·rad = 10 mJ", func() (float64, error) { return Convert(1, NewtonCmRadian, MilliJoule) }, 10, 1e-12},
		{"by hand: 57.29578° to the radian", func() (float64, error) { return Convert(1, NewtonCmRadian, NewtonCmDegree) }, 57.29578, 5e-6},
		{"by hand: 2 N at 5 mm", func() (float64, error) { return Moment(2, 5) }, 0.01, 1e-15},
		{"by hand: 2.36^¼", func() (float64, error) { return DiameterFor(2.36, 4) }, 1.2394, 5e-5},
		{"by hand: 0.43/10", func() (float64, error) { return SurfaceStrain(0.43, 5) }, 0.043, 1e-12},
		{"by hand: 0.43/4", func() (float64, error) { return SurfaceStrain(0.43, 2) }, 0.1075, 1e-12},
	}
	for _, test := range tests {
		got, err := test.got()
		if err != nil || !(got >= test.want-test.within && got <= test.want+test.within) {
			t.Errorf("%s: %v, %v, want %v", test.source, got, err, test.want)
		}
	}
}

func TestConvertThereAndBack(t *testing.T) {
	for _, a := range Units {
		for _, b := range Units {
			there, err := Convert(0.226, a, b)
			if a.Kind != b.Kind {
				if err == nil || !strings.Contains(err.Error(), "different quantities") {
					t.Errorf("Convert(%s, %s) = %v, want a refusal", a.Symbol, b.Symbol, err)
				}
				continue
			}
			back, err2 := Convert(there, b, a)
			if err != nil || err2 != nil || back < 0.226*(1-1e-15) || back > 0.226*(1+1e-15) {
				t.Errorf("%s to %s and back: %v, %v, %v", a.Symbol, b.Symbol, back, err, err2)
			}
		}
	}
}

func TestExplains(t *testing.T) {
	s, err := CompareSizes(0.37, 0.43) // d³ 1.57, d⁴ 1.82
	if err != nil || !s.Explains(1.7) || s.Explains(1.5) || s.Explains(1.9) {
		t.Errorf("CompareSizes(0.37, 0.43) = %+v, %v", s, err)
	}
	if s, err = CompareSizes(0.43, 0.37); err != nil || !s.Explains(0.6) || s.Explains(0.7) {
		t.Errorf("CompareSizes(0.43, 0.37) = %+v, %v", s, err)
	}
}

func TestRefusals(t *testing.T) {
	nan := 0.0
	nan /= nan
	for name, err := range map[string]error{
		"negative time":    second(Cycles(-1, 300)),
		"NaN speed":        second(Cycles(1, nan)),
		"no time":          second(ImpliedSpeed(500, 0)),
		"no net turn":      second(Reciprocation{90, 90}.PerTurn()),
		"no motion":        second(Reciprocation{}.PerTurn()),
		"unknown unit":     second(Convert(1, Unit{}, Newton)),
		"negative taper":   second(Diameter(10, -5, 3)),
		"no radius":        second(SurfaceStrain(0.4, 0.1)),
		"no diameter":      secondOf(CompareSizes(0, 0.4)),
		"negative ratio":   second(DiameterFor(-1, 4)),
		"negative torque":  second(EnergyBound(-1, 90)),
		"negative lever":   second(Moment(1, -1)),
		"no speed to turn": second(TimeToAngle(90, 0)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second(_ float64, err error) error      { return err }
func secondOf(_ SizeEffect, err error) error { return err }
