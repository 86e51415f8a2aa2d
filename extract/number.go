package extract

import "math"

// Relation says how a printed numeral binds the value behind it. Zero is
// equality: "12.3" says that the value rounds to 12.3.
type Relation int

// The relations met in print.
const (
	Equal        Relation = iota
	Less                  // "< .001", "below 5"
	LessEqual             // "≤ .05", "up to 5"
	Greater               // "> .05", "more than 5"
	GreaterEqual          // "≥ 5", "at least 5"
	About                 // "about 20", "~20"
)

// A Number is one numeral as printed.
type Number struct {
	Text     string // as printed: "0.050"; empty: no number
	Value    float64
	Decimals int // digits printed after the point: 3
	Relation Relation
	Place    Place
}

// Known reports whether a numeral was printed at all.
func (n Number) Known() bool { return n.Text != "" }

// Half is half a unit of the last printed digit: what rounding may have hidden
// on either side.
func (n Number) Half() float64 { return 0.5 * math.Pow10(-n.Decimals) }

// Bounds gives the true values that could have been printed so, as a closed
// interval. A one-sided relation leaves its open side infinite; About is no
// wider here than Equal (how far people stretch "about" is for the reader of
// statements to say).
func (n Number) Bounds() (low, high float64) {
	h := n.Half()
	switch n.Relation {
	case Less, LessEqual:
		return math.Inf(-1), n.Value
	case Greater, GreaterEqual:
		return n.Value, math.Inf(1)
	}
	return n.Value - h, n.Value + h
}
