package infer

import (
	"errors"
	"math"
	"strings"
	"testing"

	"probity/claims/internal/published"
	"probity/claims/interval"
)

// TestPublishedMore runs the rows of infer_more.csv; wanted.R beside it says
// how they were made.
func TestPublishedMore(t *testing.T) {
	rows := published.Read(t, "infer_more.csv")
	for _, r := range rows {
		got, err := moreFigure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

func moreFigure(t *testing.T, r published.Row) (float64, error) {
	switch r["fn"] {
	case "t_upper":
		p, err := UpperT(r.Float(t, "x"), r.Float(t, "df"))
		return p.Log10, err
	case "f_upper":
		p, err := UpperF(r.Float(t, "x"), r.Float(t, "df"), r.Float(t, "df2"))
		return p.Log10, err
	case "chi2_upper":
		p, err := UpperChiSquared(r.Float(t, "x"), r.Float(t, "df"))
		return p.Log10, err
	case "z_upper":
		p, err := UpperZ(r.Float(t, "x"))
		return p.Log10, err
	case "t_critical":
		return TCritical(r.Float(t, "x"), r.Float(t, "df"))
	case "range":
		p, err := StudentizedRange(r.Float(t, "x"), r.Int(t, "k"), r.Float(t, "df"))
		return p.Value, err
	case "fmax":
		p, err := FMaxUpper(r.Float(t, "x"), r.Int(t, "k"), r.Float(t, "df"))
		return p.Value, err
	case "dunnett_table":
		lambda := make([]float64, r.Int(t, "k"))
		for i := range lambda {
			lambda[i] = math.Sqrt(0.5)
		}
		return math.Exp(logDunnettUpper(r.Float(t, "x"), lambda, r.Float(t, "df"))), nil
	case "mw_least":
		n := r.List(t, "n")
		p, err := SmallestMannWhitneyP(int(n[0]), int(n[1]))
		return p.Value, err
	case "mw_z":
		n := r.List(t, "n")
		_, p, err := MannWhitneyZ(r.Float(t, "x"), int(n[0]), int(n[1]), r["quantity"] == "continuity")
		return p.Value, err
	}
	return groupFigure(t, r)
}

func groupFigure(t *testing.T, r published.Row) (float64, error) {
	g := groups(t, r)
	switch r["fn"] {
	case "welch_anova":
		a, err := WelchAnova(g)
		return map[string]float64{"F": a.F, "df2": a.DF2, "p": a.P.Value}[r["quantity"]], err
	case "bartlett":
		b, err := Bartlett(g)
		return map[string]float64{"statistic": b.Statistic, "p": b.P.Value}[r["quantity"]], err
	case "games_howell":
		list, err := GamesHowell(g)
		return pairP(list, couples(t, r["quantity"])[0]), err
	case "dunnett":
		list, err := Dunnett(g, 0)
		return pairP(list, Couple{r.Int(t, "quantity") - 1, 0}), err
	case "paired":
		p, err := Paired(g[0], g[1], r.Float(t, "r"))
		return map[string]float64{"t": p.T, "p": p.P.Value}[r["quantity"]], err
	case "tost_means", "tost_ratio":
		test := EquivalentMeans
		if r["fn"] == "tost_ratio" {
			test = EquivalentRatio
		}
		e, err := test(g[0], g[1], interval.Interval{Low: r.Float(t, "low"), High: r.Float(t, "high")})
		return e.P.Value, err
	case "anova_range", "tukey_range":
		boxes := boxesOf(t, g, r.Int(t, "decimals"))
		over, err := AnovaRange(boxes)
		if r["fn"] == "tukey_range" {
			over, err = TukeyRange(boxes, 0, 1)
		}
		if r["quantity"] == "low" {
			return over.Statistic.Low, err
		}
		return over.Statistic.High, err
	}
	t.Errorf("%s: no test for %q", r["id"], r["fn"])
	return 0, errors.New("no test")
}

func pairP(list []Pair, c Couple) float64 {
	for _, p := range list {
		if p.I == c.I && p.J == c.J {
			return p.P.Value
		}
	}
	return math.NaN()
}

// boxesOf returns arms as printed with a number of decimals.
func boxesOf(t *testing.T, arms []Arm, decimals int) []ArmBox {
	t.Helper()
	boxes := make([]ArmBox, len(arms))
	for i, a := range arms {
		mean, err := interval.Of(a.Mean, decimals)
		if err != nil {
			t.Fatal(err)
		}
		sd, err := interval.Of(a.SD, decimals)
		if err != nil {
			t.Fatal(err)
		}
		if boxes[i], err = interval.BoxOf(mean, sd, a.N); err != nil {
			t.Fatal(err)
		}
	}
	return boxes
}

// Worked figures that stand in print or follow by hand.
func TestWorkedExamples(t *testing.T) {
	three := []Arm{{Mean: 1.20, SD: 0.15, N: 10}, {Mean: 1.45, SD: 0.18, N: 10}, {Mean: 1.10, SD: 0.12, N: 10}}
	anova, err := OneWay(three)
	if err != nil {
		t.Fatal(err)
	}
	pairs, err := TukeyKramer(three)
	if err != nil {
		t.Fatal(err)
	}
	display, err := Letters(3, SignificantPairs(pairs, 0.05))
	if err != nil || strings.Join(display, " ") != "a b a" {
		t.Errorf("letters of three groups = %q, %v, want a b a: HSD 0.1685 lies between the gaps 0.10 and 0.25", display, err)
	}
	tests := []struct {
		source       string
		got, want    float64
		halfLastUnit float64
	}{
		{"by hand: (0.65 - 2 × 0.0231)/(0.65 + 0.6237 + 0.0231)", anova.OmegaSquared, 0.4656, 5e-5},
		{"by hand: 0.65/1.2737", anova.EtaSquared, 0.5103, 5e-5},
		{"by hand: (2.5/1)²", must(FMax([]Arm{{SD: 1, N: 10}, {SD: 2.5, N: 10}})).Statistic, 6.25, 1e-12},
		{"Hartley (1950) table, Fmax .05 for k = 2, df = 9 is 4.03 (from memory): P beyond it", mustP(FMaxUpper(4.03, 2, 9)).Value, 0.05, 2e-4},
		{"Hartley (1950) table, Fmax .05 for k = 3, df = 10 is 4.85 (from memory): P beyond it", mustP(FMaxUpper(4.85, 3, 10)).Value, 0.05, 2e-4},
		{"Hartley (1950) table, Fmax .05 for k = 6, df = 12 is 5.72 (from memory): P beyond it", mustP(FMaxUpper(5.72, 6, 12)).Value, 0.05, 3e-4},
	}
	for _, test := range tests {
		if !(math.Abs(test.got-test.want) <= test.halfLastUnit) {
			t.Errorf("%s: got %v, want %v", test.source, test.got, test.want)
		}
	}
}

func must(v VarianceTest, err error) VarianceTest {
	if err != nil {
		panic(err)
	}
	return v
}

func mustP(p P, err error) P {
	if err != nil {
		panic(err)
	}
	return p
}

func TestLettersAgainstMeans(t *testing.T) {
	tests := []struct {
		source  string
		letters string
		means   []float64
		skips   int // letters that skip a group
		missing int // pairs without the separation that a closer pair has
	}{
		{"by hand: a plain run", "a;ab;b", []float64{1, 2, 3}, 0, 0},
		{"by hand: b between two a", "a;b;a", []float64{1, 2, 3}, 1, 1},
		{"by hand: the same out of order", "a;a;b", []float64{1, 3, 2}, 1, 1},
		{"by hand: no letter for the middle", "a;;a", []float64{1, 2, 3}, 1, 1},
		{"by hand: equal means called different while 1 apart is not", "a;b;a", []float64{1, 2, 2}, 0, 1},
		{"by hand: 3 apart is not different while 1 apart is", "a;a;b", []float64{1, 4, 5}, 0, 1},
		{"by hand: all different", "a;b;c", []float64{3, 1, 2}, 0, 0},
		{"by hand: two letters skip at once", "ab;c;ab;b", []float64{1, 2, 3, 4}, 2, 2},
		{"by hand: none different", "a;a;a", []float64{1, 9, 5}, 0, 0},
	}
	for _, test := range tests {
		letters := strings.Split(test.letters, ";")
		means := make([]interval.Interval, len(test.means))
		for i, m := range test.means {
			means[i] = interval.Point(m)
		}
		runs, err := Runs(letters, means)
		if err != nil || broken(runs) != test.skips {
			t.Errorf("%s: Runs(%q) = %v, %v, want %d with a gap", test.source, test.letters, runs, err, test.skips)
		}
		for _, run := range runs {
			for _, i := range run.Members {
				if test.means[i] < test.means[run.Ends.I] || test.means[i] > test.means[run.Ends.J] {
					t.Errorf("%s: Runs(%q): %v lies outside the ends of %v", test.source, test.letters, i, run)
				}
			}
		}
		pairs, err := MissingSeparation(letters, means, SameIsNotDifferent)
		if err != nil || len(pairs) != test.missing {
			t.Errorf("%s: MissingSeparation(%q) = %v, %v, want %d", test.source, test.letters, pairs, err, test.missing)
		}
	}
}

// broken counts the letters that skip a group.
func broken(runs []Run) (n int) {
	for _, r := range runs {
		if len(r.Skipped) > 0 {
			n++
		}
	}
	return n
}

func TestGranularityOfSteps(t *testing.T) {
	step := func(text string) interval.Printed {
		p := mustParse(t, text)
		exact, err := interval.Exact(p.Value())
		if err != nil {
			t.Fatal(err)
		}
		return exact
	}
	tests := []struct {
		source   string
		mean     string
		grain    Grain
		possible bool
		sums     int
	}{
		{"by hand: 8443/12 = 703.583", "703.58", Grain{N: 12}, true, 1},
		{"by hand: 8442/12 = 703.5, 8443/12 = 703.583", "703.55", Grain{N: 12}, false, 0},
		{"by hand: 5234/10", "523.4", Grain{N: 10}, true, 1},
		{"by hand: tenths only", "523.43", Grain{N: 10}, false, 0},
		{"by hand: 12 values in steps of 5: multiples of 0.41667; 602.0833 = 1445 × 5/12", "602.08", Grain{N: 12, Step: step("5")}, true, 1},
		{"by hand: 602.0833 and 602.5 are neighbours", "602.30", Grain{N: 12, Step: step("5")}, false, 0},
		{"by hand: step 0.5, n = 4: multiples of 0.125", "2.125", Grain{N: 4, Step: step("0.5")}, true, 1},
		{"by hand: likewise", "2.10", Grain{N: 4, Step: step("0.5")}, false, 0},
		{"by hand: 16.7 to 16.8 holds no seventh: 16.714 = 117/7 does", "16.71", Grain{N: 7}, true, 1},
	}
	for _, test := range tests {
		m, err := GranularityOfMean(mustParse(t, test.mean), test.grain)
		if err != nil || m.Possible != test.possible || m.Sums != test.sums {
			t.Errorf("%s: GranularityOfMean(%s) = %+v, %v, want %v with %d sums", test.source, test.mean, m, err, test.possible, test.sums)
		}
	}
}

func TestGranularityOfSDByDivisor(t *testing.T) {
	tests := []struct {
		source        string
		mean, sd      string
		n             int
		minus1, withN bool
	}{
		{"by hand: S 46, Q 222: 10.4/9 = 1.07497²", "4.60", "1.07", 10, true, false},
		{"by hand: 1.07497 does not round up", "4.60", "1.08", 10, false, false},
		{"by hand: S 46: Q - 211.6 = 10.4 or 12.4: SD 1.07497, 1.174; with n 1.020, 1.114", "4.60", "1.10", 10, false, false},
		{"by hand: with one decimal 1.07497 prints as 1.1", "4.6", "1.1", 10, true, true},
		{"by hand: 1.0198 = sqrt(10.4/10)", "4.60", "1.02", 10, false, true},
		{"by hand: S 34: Q - 115.6 = 4.4 or 6.4: 0.699, 0.843; with n 0.663, 0.800", "3.40", "0.80", 10, false, true},
		{"by hand: sqrt(4.4/9)", "3.40", "0.70", 10, true, false},
		{"by hand: sqrt(6.4/9)", "3.40", "0.84", 10, true, false},
		{"by hand: 1, 2, 3: SD 1, with n sqrt(2/3)", "2.00", "0.82", 3, false, true},
	}
	for _, test := range tests {
		g, err := GranularityOfSD(mustParse(t, test.mean), mustParse(t, test.sd), test.n, Scale{})
		if err != nil || g.Possible != test.minus1 || g.PossibleN != test.withN {
			t.Errorf("%s: GranularityOfSD(%s, %s, %d) = %+v, %v, want %v, %v", test.source, test.mean, test.sd, test.n, g, err, test.minus1, test.withN)
		}
	}
}

func TestSDRange(t *testing.T) {
	tests := []struct {
		source    string
		n         int
		low, high float64 // in units of the range
	}{
		{"by hand: 1/√8 and √(6/20)", 5, 0.354, 0.548},
		{"by hand: 1/√14 and √(16/56)", 8, 0.267, 0.535},
		{"by hand: 1/√18 and √(25/90)", 10, 0.236, 0.527},
		{"by hand: 1/√22 and √(36/132)", 12, 0.213, 0.522},
		{"by hand: 1/√28 and √(56/210)", 15, 0.189, 0.516},
		{"by hand: 1/√38 and √(100/380)", 20, 0.162, 0.513},
		{"by hand: 1/√58 and √(225/870)", 30, 0.131, 0.509},
		{"by hand: 1/√2 twice", 2, 0.707, 0.707},
	}
	for _, test := range tests {
		r, err := SDRange(interval.Printed{}, mustParse(t, "0.0000000"), mustParse(t, "1.0000000"), test.n)
		if err != nil || math.Abs(r.Low-test.low) > 5.1e-4 || math.Abs(r.High-test.high) > 5.1e-4 {
			t.Errorf("%s: SDRange of n = %d is %v, %v, want %v to %v", test.source, test.n, r, err, test.low, test.high)
		}
	}
	// Rounding takes certainty away: 2.0 and 2.0 may stand in any order.
	near := interval.Interval{Low: 1.95, High: 2.05}
	if runs, err := Runs([]string{"a", "b", "a"}, []interval.Interval{interval.Point(1), near, near}); err != nil || broken(runs) != 0 {
		t.Errorf("Runs with overlapping roundings = %v, %v, want no gap", runs, err)
	}
	// Rounding widens: 1 to 5 printed whole may be 0.5 to 5.5.
	r, err := SDRange(mustParse(t, "1.2"), mustParse(t, "1"), mustParse(t, "5"), 10)
	if want := math.Sqrt(4.25 * 0.75 * 10 / 9); err != nil || math.Abs(r.High-want) > 1e-12 {
		t.Errorf("SDRange(1.2, 1, 5, 10) = %v, %v, want high end %v (by hand: (5.5-1.25)(1.25-0.5)·10/9)", r, err, want)
	}
}
