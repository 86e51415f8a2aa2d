package interval

import (
	"math"
	"testing"
)

func TestOver(t *testing.T) {
	product := func(x []float64) float64 { return x[0] * x[1] }
	got, err := Over(product, Interval{-1, 2}, Interval{3, 5})
	if err != nil || got != (Interval{-5, 10}) {
		t.Errorf("Over(xy, [-1, 2], [3, 5]) = %v, %v, want [-5, 10]", got, err)
	}
	if got, err := Over(func(x []float64) float64 { return math.Log(x[0]) }, Interval{-1, 2}); err == nil {
		t.Errorf("Over(ln x, [-1, 2]) = %v, want an error", got)
	}
	for _, bad := range [][]Interval{nil, {{2, 1}}, {{math.NaN(), 1}}, {{0, math.Inf(1)}}, make([]Interval, 17)} {
		if got, err := Over(product, bad...); err == nil {
			t.Errorf("Over(xy, %v) = %v, want an error", bad, got)
		}
		if got, err := Search(product, bad...); err == nil {
			t.Errorf("Search(xy, %v) = %v, want an error", bad, got)
		}
	}
}

func TestSearch(t *testing.T) {
	tests := []struct {
		source string
		f      Func
		boxes  []Interval
		want   Interval
	}{
		{"by hand: a valley inside, ends 1 and 4", func(x []float64) float64 { return x[0] * x[0] }, []Interval{{-1, 2}}, Interval{0, 4}},
		{"by hand: valley at (0.3, -0.2)", func(x []float64) float64 {
			return (x[0]-0.3)*(x[0]-0.3) + (x[1]+0.2)*(x[1]+0.2)
		}, []Interval{{0, 1}, {-1, 1}}, Interval{0, 0.49 + 1.44}},
		{"by hand: peak e^-1 of x e^-x at 1", func(x []float64) float64 { return x[0] * math.Exp(-x[0]) }, []Interval{{0.2, 3}}, Interval{3 * math.Exp(-3), math.Exp(-1)}},
		{"by hand: monotone: the ends as they are", func(x []float64) float64 { return 2*x[0] - x[1] }, []Interval{{1, 2}, {3, 4}}, Interval{-2, 1}},
		{"by hand: |x| times y", func(x []float64) float64 { return math.Abs(x[0]) * x[1] }, []Interval{{-0.7, 0.4}, {1, 2}}, Interval{0, 1.4}},
		{"by hand: sine over a hump", func(x []float64) float64 { return math.Sin(x[0]) }, []Interval{{1, 2.5}}, Interval{math.Sin(2.5), 1}},
		{"by hand: a point", func(x []float64) float64 { return x[0] + 1 }, []Interval{{2, 2}}, Interval{3, 3}},
		{"by hand: valley near an end, at 0.02", func(x []float64) float64 { return (x[0] - 0.02) * (x[0] - 0.02) }, []Interval{{0, 1}}, Interval{0, 0.9604}},
	}
	for _, test := range tests {
		got, err := Search(test.f, test.boxes...)
		if err != nil || math.Abs(got.Low-test.want.Low) > 1e-8 || math.Abs(got.High-test.want.High) > 1e-8 {
			t.Errorf("%s: Search = %v, %v, want %v", test.source, got, err, test.want)
		}
	}
	if _, err := Search(func(x []float64) float64 { return math.NaN() }, Interval{0, 1}); err == nil {
		t.Error("Search of a function without values: no error")
	}
}

func TestIntervals(t *testing.T) {
	a, b := Interval{1, 2}, Interval{2, 3}
	if !a.Meets(b) || !b.Meets(a) || a.Meets(Interval{2.1, 3}) {
		t.Error("Meets: touching ends meet, a gap does not")
	}
	if !a.Contains(1) || a.Contains(2.0000001) || !a.Covers(Interval{1.5, 2}) || a.Covers(b) {
		t.Error("Contains or Covers")
	}
	if a.Hull(b) != (Interval{1, 3}) || a.Neg() != (Interval{-2, -1}) || a.Mid() != 1.5 || a.Width() != 1 {
		t.Error("Hull, Neg, Mid or Width")
	}
	if got := a.String(); got != "[1, 2]" {
		t.Errorf("String() = %q", got)
	}
}

func TestArmChecks(t *testing.T) {
	for name, a := range map[string]Arm{
		"NaN mean":    {Mean: math.NaN(), SD: 1, N: 5},
		"Inf mean":    {Mean: math.Inf(-1), SD: 1, N: 5},
		"NaN SD":      {Mean: 1, SD: math.NaN(), N: 5},
		"Inf SD":      {Mean: 1, SD: math.Inf(1), N: 5},
		"negative SD": {Mean: 1, SD: -1, N: 5},
		"n of one":    {Mean: 1, SD: 1, N: 1},
		"zero arm":    {},
	} {
		if a.Check() == nil {
			t.Errorf("%s: no error", name)
		}
		if ExactBox(a).Check() == nil {
			t.Errorf("box of %s: no error", name)
		}
	}
	b, err := BoxOf(mustParse(t, "5.0"), mustParse(t, "0.0"), 5)
	if err != nil || b.SD != (Interval{0, 0.05}) || b.Arm != (Arm{5, 0, 5}) {
		t.Errorf("BoxOf(5.0, 0.0, 5) = %+v, %v", b, err)
	}
	if _, err := BoxOf(Printed{}, mustParse(t, "1"), 5); err == nil {
		t.Error("BoxOf an unknown mean: no error")
	}
	if err := (ArmBox{Arm: Arm{1, 1, 5}, Mean: Point(1), SD: Interval{-1, 1}}).Check(); err == nil {
		t.Error("a negative SD interval: no error")
	}
}
