package pdf

import (
	"probity/extract"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/witness"
)

func ask(w func([]byte) ([]witness.Page, error), data []byte) func() []witness.Page {
	return func() []witness.Page { return nil }
}

func compare(doc *extract.Document, pages []*glyph.Page, seen []witness.Page) {}

func withoutEngine(data []byte, name string, opt Options, err error) (*extract.Document, error) {
	return nil, problem(name, err.Error(), "", err)
}
