package check

import (
	"math"

	"probity/claims"
	"probity/claims/interval"
	"probity/extract"
)

// claimed is the printed value of a percent, fold or difference claim as the
// range it may stand for.
type claimed struct {
	box     interval.Interval
	printed interval.Printed
	plain   bool // neither "about" nor a bound nor a range: ties are decided exactly
}

// wordWidth is how far number words stretch, as a share of the value: people
// say "twice" of 1.8 to 2.2 and "half" of 0.45 to 0.55 (common practice).
const wordWidth = 0.1

// aboutWidth is how far "about", "nearly", "approximately" stretch a figure
// (common practice).
const aboutWidth = 0.1

func claimOf(s *claims.Statement) (claimed, bool) {
	p, ok := printed(s.Value)
	if !ok {
		return claimed{}, false
	}
	if s.Scale.Factor > 0 {
		brought, err := p.Times(s.Scale.Factor)
		if err != nil {
			return claimed{}, false
		}
		p = brought
	}
	c := claimed{printed: p, box: p.Interval(), plain: true}
	v := math.Abs(p.Value())
	if s.Word {
		c.plain = false
		c.box = interval.Interval{Low: v * (1 - wordWidth), High: v * (1 + wordWidth)}
	}
	relation := s.Value.Relation
	if s.Most && relation == extract.LessEqual {
		relation = extract.About // the greatest of several, and mostly a rounded one
	}
	switch relation {
	case extract.About:
		c.plain = false
		c.box = c.box.Hull(interval.Interval{Low: v * (1 - aboutWidth), High: v * (1 + aboutWidth)})
	case extract.Less, extract.LessEqual:
		c.plain = false
		c.box.Low = math.Inf(-1)
	case extract.Greater, extract.GreaterEqual:
		c.plain = false
		c.box.High = math.Inf(1)
	}
	if s.High.Known() {
		if h, ok := sideOf(s.High); ok && h.bring(s.Scale) && h.box.High > c.box.Low {
			c.plain = false
			c.box.High = h.box.High
			if s.Value.Relation == extract.About {
				c.box.High = math.Max(c.box.High, math.Abs(h.value)*(1+aboutWidth))
			}
		}
	}
	return c, true
}
