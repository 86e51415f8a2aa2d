package layout

import "probity/extract/pdf/glyph"

// Picture reads a page that is known to be the picture of a table, without
// what is printed around it: where no caption and no rules show a table, all
// that stands there is one.
func Picture(p *glyph.Page) *Sheet {
	s := Analyse([]*glyph.Page{p})[0]
	for _, it := range s.Items {
		if it.Table != nil {
			return s
		}
	}
	s = &Sheet{Page: p, words: Words(p), rules: newRules(p)}
	s.body = bodySize([]*Sheet{s})
	s.take(s.whole())
	for i := range s.words {
		if t := s.words[i].table; t != nil {
			s.Items = append(s.Items, Item{Table: t})
		}
	}
	return s
}

// whole is a region of all words of a sheet.
func (s *Sheet) whole() *region {
	b := boxOf(s.words)
	r := &region{sheet: s, box: glyph.Box{X0: b.X0 - 3, X1: b.X1 + 3, Y0: b.Y0 - 3, Y1: b.Y1 + 3}}
	levels := s.levels()
	width := level{x0: b.X0, x1: b.X1}
	for i := range levels {
		if levels[i].alike(&width) {
			r.full = append(r.full, levels[i].y)
		}
	}
	r.inner(levels)
	return r
}
