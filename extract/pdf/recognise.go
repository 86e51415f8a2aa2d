package pdf

import (
	"image"
	"time"

	"probity/extract"
	"probity/extract/pdf/engine"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/ocr"
)

// limits are the bounds for one paper, and what to do with pages that are
// pictures.
func (opt Options) limits() engine.Limits {
	lim := engine.Limits{Pages: opt.Pages, Time: opt.Time}
	if opt.Recognise == nil {
		return lim
	}
	if lim.Time == 0 {
		lim.Time = 30 * time.Minute // some seconds a page
	}
	lim.DrawDPI = ocr.DPI
	lim.Draw = func(p *glyph.Page, picture *image.Gray) *glyph.Page {
		out, err := opt.Recognise(picture)
		if err != nil || out == nil || out.Empty() {
			return nil // the page stays a picture, and is said to be one
		}
		out.Number = p.Number
		return out
	}
	return lim
}

// What everything says that was read from a picture, by us or by whoever laid
// invisible text under it.
const (
	guessed   = "read from a picture by text recognition"
	underlaid = "recognised text under a picture"
)

// markRecognised doubts everything on pages whose text was recognised.
func markRecognised(doc *extract.Document, pages []*glyph.Page) {
	ours, theirs := map[int]string{}, map[int]string{}
	for _, p := range pages {
		if p.Hidden > 0 {
			theirs[p.Number] = underlaid
		}
		if p.Recognised {
			ours[p.Number] = guessed
			doc.Problems = append(doc.Problems, &extract.Problem{
				Place: extract.Place{File: doc.File, Page: p.Number},
				What:  "the page is a picture; its text was recognised, and digits and signs may be misread",
				Try:   "hold its figures against the picture",
			})
		}
	}
	doubt(doc, ours, guessed)
	doubt(doc, theirs, underlaid)
}
