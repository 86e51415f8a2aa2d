package index

import (
	"fmt"
	"math"

	"github.com/blevesearch/bleve/v2/analysis"
	"github.com/blevesearch/bleve/v2/document"
	bleve "github.com/blevesearch/bleve_index_api"
)

// A Field is something a query can ask for by name.
type Field struct {
	Name  string
	Kind  FieldKind
	Facet bool   // counted beside the results
	Says  string // for help
	of    func(c *Card) []string
	nums  func(c *Card) []float64
}

// FieldKind says how a field is matched.
type FieldKind int

// The kinds of field.
const (
	Words  FieldKind = iota // by words and phrases
	Whole                   // by the whole value
	Figure                  // by a number or a range
)

// textField is the text of the paper, searched where no field is named.
const textField = "text"

// Fields lists what can be asked for, in the order help shows it.
var Fields = []Field{
	{Name: "title", Kind: Words, Says: "words of the title", of: func(c *Card) []string { return one(c.Title) }},
	{Name: "author", Kind: Words, Says: "an author", of: func(c *Card) []string { return c.Authors }},
	{Name: "journal", Kind: Words, Facet: true, Says: "words of the journal's name", of: func(c *Card) []string { return one(c.Journal) }},
	{Name: "year", Kind: Figure, Facet: true, Says: "year of publication", nums: func(c *Card) []float64 { return year(c.Year) }},
	{Name: "doi", Kind: Whole, Says: "the DOI", of: func(c *Card) []string { return one(c.DOI) }},
	{Name: "instrument", Kind: Words, Facet: true, Says: "an arm: instrument, material, treatment", of: func(c *Card) []string { return c.Instruments }},
	{Name: "outcome", Kind: Words, Facet: true, Says: "what was measured, by any of its names", of: func(c *Card) []string { return c.Printed }},
	{Name: "condition", Kind: Words, Says: "a condition of the test, as printed", of: func(c *Card) []string { return c.Conditions }},
	{Name: "verdict", Kind: Whole, Facet: true, Says: "reproduces, other-base, reversed, does-not-reproduce, not-checkable", of: func(c *Card) []string { return c.Verdicts }},
	{Name: "finding", Kind: Whole, Facet: true, Says: "a check, or a grade: at-odds, query, caution", of: func(c *Card) []string { return c.Findings }},
	{Name: "format", Kind: Whole, Facet: true, Says: "jats, pdf, html, docx, odt, text", of: func(c *Card) []string { return one(c.Format) }},
	{Name: "n", Kind: Figure, Says: "specimens in an arm", nums: func(c *Card) []float64 { return c.N }},
	{Name: "ratio", Kind: Figure, Says: "ratio of two means that a statement compares", nums: func(c *Card) []float64 { return c.Ratios }},
}

func one(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}

func year(y int) []float64 {
	if y == 0 {
		return nil
	}
	return []float64{float64(y)}
}

// FieldNamed gives the field with that name, nil if there is none.
func FieldNamed(name string) *Field {
	for i := range Fields {
		if Fields[i].Name == name {
			return &Fields[i]
		}
	}
	return nil
}

// facetField is where the whole values of a field are counted.
func facetField(name string) string { return name + "_is" }

// revField tells which state of a paper the index knows.
const revField = "rev"

// mappingVersion changes when fields or the cutting of words do; an index of
// another version is made again. Those of version 1 may lack the ends of texts:
// what was made from kept texts was made from the first 16 KiB of some.
const mappingVersion = 2

// wholeText makes one term of a whole value.
type wholeText struct{}

func (wholeText) Analyze(input []byte) analysis.TokenStream {
	return analysis.TokenStream{{Term: []byte(fold(string(input))), Start: 0, End: len(input), Position: 1}}
}

// asIs makes one term of a value and leaves it as it is printed.
type asIs struct{}

func (asIs) Analyze(input []byte) analysis.TokenStream {
	return analysis.TokenStream{{Term: input, Start: 0, End: len(input), Position: 1}}
}

func fold(s string) string {
	out := make([]rune, 0, len(s))
	for _, r := range s {
		out = append(out, lower(r))
	}
	return string(out)
}

// documentOf makes what the search engine indexes of a paper.
func documentOf(r *Record, text []Passage, w words) *document.Document {
	d := document.NewDocument(r.ID)
	d.AddField(document.NewTextFieldCustom(textField, nil, []byte(body(text)), bleve.IndexField|bleve.IncludeTermVectors, w))
	for i := range Fields {
		addField(d, &Fields[i], &r.Card, w)
	}
	for i, id := range r.Card.Outcomes { // the outcome itself, whatever the paper calls it
		d.AddField(document.NewTextFieldCustom("outcome", pos(1000+i), []byte(namePrefix+id), bleve.IndexField|bleve.IncludeTermVectors, asIs{}))
		d.AddField(document.NewTextFieldCustom(facetField("outcome"), pos(i), []byte(id), bleve.IndexField|bleve.DocValues, asIs{}))
	}
	d.AddField(document.NewTextFieldCustom(revField, nil, []byte(r.revision()), bleve.IndexField|bleve.StoreField, asIs{}))
	return d
}

func pos(i int) []uint64 { return []uint64{uint64(i)} }

func addField(d *document.Document, f *Field, c *Card, w words) {
	switch f.Kind {
	case Figure:
		for i, x := range f.nums(c) {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				continue
			}
			d.AddField(document.NewNumericFieldWithIndexingOptions(f.Name, pos(i), x, bleve.IndexField))
			if f.Facet {
				d.AddField(document.NewTextFieldCustom(facetField(f.Name), pos(i), []byte(fmt.Sprint(x)), bleve.IndexField|bleve.DocValues, asIs{}))
			}
		}
	case Whole:
		for i, v := range f.of(c) {
			opt := bleve.IndexField
			if f.Facet {
				opt |= bleve.DocValues
			}
			d.AddField(document.NewTextFieldCustom(f.Name, pos(i), []byte(v), opt, wholeText{}))
		}
	default:
		for i, v := range f.of(c) {
			d.AddField(document.NewTextFieldCustom(f.Name, pos(i), []byte(v), bleve.IndexField|bleve.IncludeTermVectors, w))
			if f.Facet && f.Name != "outcome" {
				d.AddField(document.NewTextFieldCustom(facetField(f.Name), pos(i), []byte(v), bleve.IndexField|bleve.DocValues, asIs{}))
			}
		}
	}
}
