package pdf

import (
	"image"
	"time"

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
func (p *paper) markRecognised(pages []*glyph.Page) {
	ours, theirs := map[int]string{}, map[int]string{}
	for _, g := range pages {
		if g.Hidden > 0 {
			theirs[g.Number] = underlaid
		}
		if g.Recognised {
			ours[g.Number] = guessed
			p.fault(g.Number, "the page is a picture; its text was recognised, and digits and signs may be misread", "hold its figures against the picture")
		}
	}
	p.doubt(ours, guessed)
	p.doubt(theirs, underlaid)
}
