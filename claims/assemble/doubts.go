package assemble

import (
	"probity/claims"
	"probity/claims/reading"
	"probity/extract"
)

// Doubts carries the doubts of paragraphs over to what was read in them: the
// figures of running text, the n taken from there, the statements. It comes
// after statements and their figures have been read. What a table is doubted
// for is on its measures already.
func Doubts(doc *extract.Document, study *claims.Study) {
	why := map[int]string{} // by paragraph
	for _, p := range doc.Proses() {
		if p.Doubt != "" && p.Place.Par > 0 {
			why[p.Place.Par] = p.Doubt
		}
	}
	if len(why) == 0 {
		return
	}
	of := func(at extract.Place) string {
		if at.Table != "" {
			return ""
		}
		return why[at.Par]
	}
	for _, m := range study.Measures {
		d := of(m.Place)
		if d == "" && m.N.Known() {
			if d = of(m.N.Place); d != "" {
				d = "its n: " + d
			}
		}
		if d != "" {
			m.Doubt.Add(d, reading.Slight)
		}
	}
	for _, s := range study.Statements {
		if d := of(s.Place); d != "" {
			s.Doubt.Add(d, reading.Slight) // which figures it means is as sure as before
		}
	}
}
