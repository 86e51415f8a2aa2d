// Package assemble turns a Document, and the corrections a person wrote
// beside it, into a Study: which groups there are, what was measured in them
// on how many specimens, and how the work was done.
//
//	extract.Document + []Correction → claims.Study
//
// A table is read as labels around figures. Rows and columns are first told
// apart (headings, label columns, figures, marks such as Mean, SD, n, p);
// each level of headings and each label column is one dimension; and for each
// dimension all its labels together decide whether it tells groups, outcomes
// or conditions apart. What names nothing in the table is sought in caption,
// notes and text, in that order.
//
// The package decides meaning and computes nothing: sums begin in package
// check. Statements are read by package statement, from the Study made here.
package assemble

import (
	"fmt"
	"maps"
	"slices"

	"probity/claims"
	"probity/claims/catalog"
	"probity/claims/reading"
	"probity/extract"
	"probity/extract/numeral"
)

// Study reads a document. Neither the document nor the corrections are
// changed; what could not be read, and corrections that did not apply, are
// among the Study's problems.
func Study(doc *extract.Document, corrections []Correction, cat *catalog.Catalog) *claims.Study {
	fixed, marked, problems := applyText(doc, corrections)
	p := newPaper(fixed, cat)
	p.study.Problems = append(p.study.Problems, problems...)
	p.readGroups()
	p.readDesign()
	laid := p.layOutAll()
	for _, t := range laid {
		if len(laid) > 1 {
			t.again() // with what the other tables name
		}
		p.readTable(t)
	}
	p.fillN()
	p.fillUnits()
	p.stepped()
	p.doubts()
	p.shortNames()
	p.impliedNames()
	p.study.Arms = p.arms.finish()
	p.classes()
	p.markCorrected(marked)
	p.applyMeaning(fixed, corrections)
	for i, m := range p.study.Measures {
		m.ID = fmt.Sprintf("m%d", i+1)
	}
	return p.study
}

// stepped marks measures whose single values are whole numbers: outcomes that
// are counted or scored, times recorded in whole seconds.
func (p *paper) stepped() {
	for _, m := range p.study.Measures {
		o := p.ls.cat.Outcome(m.OutcomeID)
		if o == nil {
			continue
		}
		m.Stepped = o.Stepped || p.study.Design.WholeUnits && o.Quantity == "time" && (m.UnitID == "s" || m.UnitID == "min") && o.ID != "preparation-time"
	}
}

// doubts marks readings that rest on a guess.
func (p *paper) doubts() {
	parts := map[string]string{}
	for _, t := range p.doc.Tables() {
		if t.Doubt != "" {
			parts[t.Place.Table] = t.Doubt
		}
	}
	for _, m := range p.study.Measures {
		if why, ok := parts[m.Place.Table]; ok {
			m.Doubt.Add(why, reading.Slight)
		}
		if m.Spread.Value.Value < 0 {
			m.Doubt.Add("a negative spread is printed", reading.Slight)
		}
	}
}

// shortNames adds the abbreviations that the paper defines for its groups, in
// the order of the alphabet: the first group that takes a name keeps it.
func (p *paper) shortNames() {
	p.arms.at = extract.Place{}
	for _, short := range slices.Sorted(maps.Keys(p.short)) {
		long := p.short[short]
		if a := p.arms.keys[key(long)]; a != nil {
			p.arms.alias(a, short)
		}
		if a := p.arms.keys[key(short)]; a != nil && len(short) > 1 {
			p.arms.alias(a, long)
		}
	}
}

// classes adds the words that a table lists beside the groups in a table of
// materials or instruments, where they are few words shared by several.
func (p *paper) classes() {
	for _, a := range p.arms.arms {
		if a.Size.Text == "" {
			p.arms.geometry(a, a.Name)
		}
	}
}

// markCorrected marks figures of cells that a person corrected.
func (p *paper) markCorrected(marked map[extract.Place]string) {
	for _, m := range p.study.Measures {
		at := extract.Place{Table: m.Place.Table, Row: m.Place.Row, Col: m.Place.Col}
		if why, ok := marked[at]; ok {
			m.Mean.Origin, m.Mean.Why = claims.Corrected, why
		}
	}
}

// FigureForms counts the table cells of a document that have the form of a
// measure, and those that the study reads or sets apart with a reason.
func FigureForms(doc *extract.Document, study *claims.Study) (forms, explained int) {
	seen := map[string]bool{}
	at := func(p extract.Place) string { return fmt.Sprint(p.Table, "|", p.Row, "|", p.Col, "|", p.Page) }
	for _, m := range study.Measures {
		seen[at(m.Place)] = true
	}
	for _, a := range study.Apart {
		if a.Why != "" {
			seen[at(a.Place)] = true
		}
	}
	for _, t := range doc.Tables() {
		for r := range t.Rows {
			for c := range t.Rows[r] {
				cell := &t.Rows[r][c]
				if cell.Copy {
					continue
				}
				rd := numeral.Cell(*cell, numeral.Style{})
				if !measureForm(&rd) || rd.Label != "" || rd.Rest != "" {
					continue
				}
				forms++
				p := cell.Place
				p.Table = t.Place.Table
				if seen[at(p)] {
					explained++
				}
			}
		}
	}
	return forms, explained
}
