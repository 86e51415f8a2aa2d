package interval

import (
	"strings"
	"testing"

	"probity/claims/internal/published"
)

// baseOf names the base of a quantity of the percent table.
func baseOf(t *testing.T, quantity string) Base {
	t.Helper()
	for word, base := range map[string]Base{
		"base_b": Reference, "base_a": Subject, "midpoint": Midpoint, "ratio_x100": Ratio, "diff_points": Points,
	} {
		if strings.Contains(quantity, word) {
			return base
		}
	}
	t.Fatalf("no base in %q", quantity)
	return 0
}

func mustParse(t *testing.T, text string) Printed {
	t.Helper()
	p, err := Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPublishedPercent(t *testing.T) {
	rows := published.Read(t, "percent.csv")
	for _, r := range rows {
		q := r["quantity"]
		switch r["fn"] {
		case "pct":
			got, err := PercentOf(baseOf(t, q), r.Float(t, "a"), r.Float(t, "b"))
			r.Want(t, got, err)
		case "round_interval":
			p := mustParse(t, r["text"])
			r.Want(t, map[string]float64{
				"value": p.Value(), "decimals": float64(p.Decimals()), "half_unit": p.Half(),
				"lo": p.Interval().Low, "hi": p.Interval().High,
				"lo_trailing_zeros": p.Wide().Interval().Low, "hi_trailing_zeros": p.Wide().Interval().High,
			}[q], nil)
		case "pct_interval":
			c, err := Percent(baseOf(t, q), mustParse(t, r["a_text"]), mustParse(t, r["b_text"]))
			if strings.HasSuffix(q, "_lo") {
				r.Want(t, c.Range.Low, err)
			} else {
				r.Want(t, c.Range.High, err)
			}
		case "claim_match":
			fits := Fits
			if strings.HasPrefix(q, "point_") {
				fits = PointFits
			}
			got, err := fits(mustParse(t, r["claim_text"]), baseOf(t, q), mustParse(t, r["a_text"]), mustParse(t, r["b_text"]))
			r.WantBool(t, got, err)
		default:
			t.Errorf("%s: no test for %q", r["id"], r["fn"])
		}
	}
	t.Logf("%d rows", len(rows))
}
