package infer

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"probity/claims/internal/published"
	"probity/claims/interval"
)

func TestPublishedTests(t *testing.T) {
	rows := published.Read(t, "tests.csv")
	for _, r := range rows {
		if r["fn"] == "adjust" {
			adjusted, err := map[string]func([]float64) ([]float64, error){"bonferroni": Bonferroni, "holm": Holm}[r["quantity"]](r.List(t, "p"))
			r.WantList(t, adjusted, err)
			continue
		}
		got, err := testFigure(t, r)
		r.Want(t, got, err)
	}
	t.Logf("%d rows", len(rows))
}

// testFigure computes the figure of a row of tests.csv.
func testFigure(t *testing.T, r published.Row) (float64, error) {
	q := r["quantity"]
	switch r["fn"] {
	case "ttest":
		return tFigure(t, r, q)
	case "p_from_t":
		p, err := TwoSidedT(r.Float(t, "t"), r.Float(t, "df"))
		return pFigure(q, p), err
	case "p_from_F":
		p, err := UpperF(r.Float(t, "F"), r.Float(t, "df1"), r.Float(t, "df2"))
		return pFigure(q, p), err
	case "anova":
		a, err := OneWay(groups(t, r))
		switch q {
		case "df1":
			return a.DF1, nil
		case "df2":
			return a.DF2, nil
		case "ss_between":
			return a.SSB, nil
		case "ss_within":
			return a.SSW, nil
		case "ms_within":
			return a.MSW, nil
		case "F":
			return a.F, err
		case "eta2":
			return a.EtaSquared, err
		}
		return pFigure(q, a.P), err
	case "tukey_pair":
		return tukeyFigure(t, r, q)
	case "tukey_crit":
		return RangeCritical(r.Float(t, "alpha"), r.Int(t, "k"), r.Float(t, "df"))
	case "tukey":
		p, err := StudentizedRange(r.Float(t, "q"), r.Int(t, "k"), r.Float(t, "df"))
		return pFigure(q, p), err
	}
	t.Errorf("%s: no test for %q", r["id"], r["fn"])
	return 0, errors.New("no test")
}

func pFigure(quantity string, p P) float64 {
	if strings.HasPrefix(quantity, "log10p") {
		return p.Log10
	}
	return p.Value
}

func tFigure(t *testing.T, r published.Row, q string) (float64, error) {
	if r["m1"] == "" { // printed statistic and df only
		p, err := TwoSidedT(r.Float(t, "t"), r.Float(t, "df"))
		return p.Value, err
	}
	a, b := arms(t, r)
	test, err := Student(a, b)
	if strings.HasSuffix(q, "_welch") {
		test, err = Welch(a, b)
	}
	kind, _, _ := strings.Cut(q, "_")
	switch kind {
	case "diff":
		return test.Diff, nil
	case "se":
		return test.SE, nil
	case "df":
		if q == "df_student" {
			return test.DF, nil
		}
		return test.DF, err
	case "t":
		return test.T, err
	case "lo", "hi":
		if err != nil {
			return 0, err
		}
		ci, err := test.Interval(0.95)
		if kind == "lo" {
			return ci.Low, err
		}
		return ci.High, err
	}
	return pFigure(q, test.P), err
}

func tukeyFigure(t *testing.T, r published.Row, q string) (float64, error) {
	list, err := TukeyKramer(groups(t, r))
	if err != nil {
		return 0, err
	}
	for _, p := range list {
		if p.I != r.Int(t, "i")-1 || p.J != r.Int(t, "j")-1 {
			continue
		}
		switch q {
		case "diff":
			return p.Diff, nil
		case "q":
			return p.Q, nil
		case "p_tukey":
			return p.P.Value, nil
		case "p_unadjusted_pooled":
			return p.Unadjusted().Value, nil
		}
		level := 0.95
		if r["alpha"] != "" {
			level = 1 - r.Float(t, "alpha")
		}
		ci, err := p.Interval(level)
		if q == "lo" {
			return ci.Low, err
		}
		return ci.High, err
	}
	return 0, errors.New("no such pair")
}

// printedBox returns an arm of a row as printed.
func printedBox(t *testing.T, r published.Row, arm string) ArmBox {
	t.Helper()
	b, err := interval.BoxOf(mustParse(t, r["m"+arm]), mustParse(t, r["sd"+arm]), r.Int(t, "n"+arm))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func mustParse(t *testing.T, text string) interval.Printed {
	t.Helper()
	p, err := interval.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPublishedPValues(t *testing.T) {
	rows := published.Read(t, "pvalue.csv")
	for _, r := range rows {
		q := r["quantity"]
		if r["fn"] == "p_text" {
			p, err := ParseP(r["text"])
			switch q {
			case "lo":
				r.Want(t, p.Low, err)
			case "hi":
				r.Want(t, p.High, err)
			case "lo_open":
				r.WantBool(t, p.LowOpen, err)
			case "hi_open":
				r.WantBool(t, p.HighOpen, err)
			}
			continue
		}
		a, b := printedBox(t, r, "1"), printedBox(t, r, "2")
		test, over := Student, StudentRange
		if r["test"] == "welch" {
			test, over = Welch, WelchRange
		}
		got, err := over(a, b)
		switch q {
		case "p_point":
			r.Want(t, got.Point.Value, err)
		case "p_min":
			r.Want(t, got.Low.Value, err)
		case "p_max":
			r.Want(t, got.High.Value, err)
		case "p_corner_min":
			dist := distance(a.Mean, b.Mean)
			r.Want(t, plainP(test, dist.High, a.SD.Low, b.SD.Low, r), nil)
		case "p_corner_max":
			dist := distance(a.Mean, b.Mean)
			r.Want(t, plainP(test, dist.Low, a.SD.High, b.SD.High, r), nil)
		default:
			printed, perr := ParseP(r["p_text"])
			if err != nil || perr != nil {
				t.Fatal(err, perr)
			}
			verdict, err := got.Against(printed, r.Float(t, "alpha"))
			r.WantBool(t, map[string]bool{
				"consistent":              verdict.Consistent,
				"consistent_if_one_sided": verdict.ConsistentOneSided,
				"decision_flip":           verdict.DecisionFlip,
			}[q], err)
		}
	}
	t.Logf("%d rows", len(rows))
}

// plainP returns a test's p at a distance of the means and two SDs. The rows
// "corner" take it where both SDs are least, or both greatest: what the range
// would be if p rose with each SD.
func plainP(test func(a, b Arm) (TTest, error), d, sa, sb float64, r published.Row) float64 {
	na, _ := strconv.Atoi(r["n1"])
	nb, _ := strconv.Atoi(r["n2"])
	got, err := test(Arm{SD: sa, N: na}, Arm{Mean: d, SD: sb, N: nb})
	if err != nil && d == 0 {
		return 1
	}
	return got.P.Value
}

func TestPublishedGranularity(t *testing.T) {
	rows := published.Read(t, "granularity.csv")
	for _, r := range rows {
		q := r["quantity"]
		switch r["fn"] {
		case "gran_mean":
			m, err := GranularityOfMean(mustParse(t, r["mean_text"]), Grain{N: r.Int(t, "n"), Items: r.Int(t, "items")})
			switch q {
			case "possible":
				r.WantBool(t, m.Possible, err)
			case "possible_half_up_only":
				r.WantBool(t, m.HalfUp, err)
			case "decidable":
				r.WantBool(t, m.Decidable, err)
			case "sums_in_interval":
				r.Want(t, float64(m.Sums), err)
			case "nearest_below":
				r.Want(t, m.Below, err)
			case "nearest_above":
				r.Want(t, m.Above, err)
			}
		case "gran_sd":
			var scale Scale
			if r["scale_lo"] != "" {
				scale = Scale{r.Int(t, "scale_lo"), r.Int(t, "scale_hi")}
			}
			g, err := GranularityOfSD(mustParse(t, r["mean_text"]), mustParse(t, r["sd_text"]), r.Int(t, "n"), scale)
			switch {
			case r["expected"] == "undefined":
				if err != nil || g.ScaleKnown || g.OnScale {
					t.Errorf("%s: %+v, %v, want no answer without a scale", r["id"], g, err)
				}
			case q == "mean_possible":
				r.WantBool(t, g.MeanPossible, err)
			case q == "possible_parity":
				r.WantBool(t, g.Possible, err)
			case q == "possible_on_scale":
				r.WantBool(t, g.OnScale, err)
			}
		case "sd_bounds":
			b, err := BoundSD(r.Float(t, "mean"), r.Float(t, "lo"), r.Float(t, "hi"), r.Int(t, "n"))
			r.Want(t, map[string]float64{
				"sd_max_bhatia_davis": b.BhatiaDavis, "sd_max_exact": b.Max,
				"sd_max_range_only": b.RangeMax, "sd_min_if_range_attained": b.RangeMin,
			}[q], err)
		default:
			t.Errorf("%s: no test for %q", r["id"], r["fn"])
		}
	}
	t.Logf("%d rows", len(rows))
}

// couples reads "1-2;1-3" into places from 0.
func couples(t *testing.T, text string) []Couple {
	t.Helper()
	var list []Couple
	for _, part := range strings.Split(text, ";") {
		if part == "" || part == "none" {
			continue
		}
		a, b, _ := strings.Cut(part, "-")
		i, err := strconv.Atoi(a)
		j, err2 := strconv.Atoi(b)
		if err != nil || err2 != nil {
			t.Fatalf("pairs %q", text)
		}
		list = append(list, Couple{i - 1, j - 1})
	}
	return list
}

func TestPublishedLetters(t *testing.T) {
	rows := published.Read(t, "letters.csv")
	for _, r := range rows {
		q := r["quantity"]
		if r["fn"] == "cld_sets" {
			sets, err := LetterSets(r.Int(t, "k"), couples(t, r["sig_pairs"]))
			if q == "n_max_cliques" {
				r.Want(t, float64(len(sets)), err)
			} else if got := printSets(sets); got != r["expected"] || err != nil {
				t.Errorf("%s = %q, %v, want %q", r["id"], got, err, r["expected"])
			}
			continue
		}
		letters, significant := strings.Split(r["letters"], ";"), couples(t, r["sig_pairs"])
		if r["fn"] == "cld_from_stats" {
			list, err := TukeyKramer(groups(t, r))
			if err != nil {
				t.Fatal(err)
			}
			significant = SignificantPairs(list, r.Float(t, "alpha"))
		}
		d, err := CheckLetters(letters, significant, SameIsNotDifferent)
		switch q {
		case "consistent":
			r.WantBool(t, d.Consistent, err)
		case "consistent_if_reversed":
			d, err := CheckLetters(letters, significant, SameIsDifferent)
			r.WantBool(t, d.Consistent, err)
		case "shared_but_significant":
			wantCouples(t, r, d.Shared, err)
		case "unshared_but_nonsignificant":
			wantCouples(t, r, d.Unshared, err)
		case "sig_pairs":
			wantCouples(t, r, significant, err)
		default:
			t.Errorf("%s: no test for %q", r["id"], q)
		}
	}
	t.Logf("%d rows", len(rows))
}

func printSets(sets [][]int) string {
	texts := make([]string, len(sets))
	for i, set := range sets {
		for j, g := range set {
			if j > 0 {
				texts[i] += "+"
			}
			texts[i] += strconv.Itoa(g + 1)
		}
	}
	return strings.Join(texts, ";")
}

func wantCouples(t *testing.T, r published.Row, got []Couple, err error) {
	t.Helper()
	if want := couples(t, r["expected"]); err != nil || !slices.Equal(got, want) {
		t.Errorf("%s = %v, %v, want %v", r["id"], got, err, want)
	}
}
