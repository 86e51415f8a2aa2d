package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/gif"  // the kinds of
	_ "image/jpeg" // pictures that
	_ "image/png"  // are read

	"probity/extract"
	"probity/extract/pdf/glyph"
	"probity/extract/pdf/layout"
)

const (
	maxDots  = 60 << 20 // of a picture: far above any page drawn at ocr.DPI
	wideDots = 2000     // narrower pictures are enlarged: letters of a few dots are not recognised
	maxLarge = 4        // times, at most
)

// Picture reads the picture of a table (PNG, JPEG or GIF) by text recognition,
// as a page that is a picture is read, and gives the tables that it shows,
// without labels; each says in its Doubt that it was recognised.
func Picture(data []byte, recognise func(*image.Gray) (*glyph.Page, error)) (tables []*extract.Table, err error) {
	defer func() {
		if p := recover(); p != nil {
			tables, err = nil, fmt.Errorf("the picture could not be read (%v)", p)
		}
	}()
	picture, err := decoded(data)
	if err != nil {
		return nil, err
	}
	page, err := recognise(picture)
	if err != nil {
		return nil, err
	}
	if page == nil || page.Empty() {
		return nil, errors.New("no text was recognised in the picture")
	}
	page.Number = 1
	paper := document([]*layout.Sheet{layout.Picture(page)}, "")
	for _, b := range paper.Doc.Blocks {
		if t, ok := b.(*extract.Table); ok {
			tables = append(tables, offPage(t))
		}
	}
	if len(tables) == 0 {
		return nil, errors.New("no rows and columns were found in the picture")
	}
	return tables, nil
}

// offPage makes a table of a page one that stands where its picture does.
func offPage(t *extract.Table) *extract.Table {
	why := guessed
	if t.Doubt != "" {
		why += "; " + t.Doubt
	}
	return &extract.Table{Caption: t.Caption, Head: t.Head, Rows: t.Rows, Notes: t.Notes, Doubt: why, Cut: t.Cut}
}

// decoded gives a picture in shades of grey, on white, enlarged where it is
// small.
func decoded(data []byte) (*image.Gray, error) {
	size, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the picture is of a kind that is not read, or damaged: %w", err)
	}
	if size.Width <= 0 || size.Height <= 0 || size.Width > maxDots/size.Height {
		return nil, fmt.Errorf("the picture has %d × %d dots, more than any page", size.Width, size.Height)
	}
	m, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the picture (%s) is damaged: %w", kind, err)
	}
	return enlarged(grey(m)), nil
}

// grey lays a picture on white paper.
func grey(m image.Image) *image.Gray {
	b := m.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			c := color.NRGBAModel.Convert(m.At(b.Min.X+x, b.Min.Y+y)).(color.NRGBA)
			luma := (299*int(c.R) + 587*int(c.G) + 114*int(c.B)) / 1000
			out.Pix[y*out.Stride+x] = uint8((luma*int(c.A) + 255*(255-int(c.A))) / 255)
		}
	}
	return out
}

// enlarged draws a small picture larger, dots between dots in between shades.
func enlarged(p *image.Gray) *image.Gray {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	n := min(maxLarge, (wideDots+w-1)/w)
	for n > 1 && w*n > maxDots/(h*n) {
		n--
	}
	if n <= 1 {
		return p
	}
	out := image.NewGray(image.Rect(0, 0, w*n, h*n))
	at := func(x, y int) int { return int(p.Pix[min(y, h-1)*p.Stride+min(x, w-1)]) }
	for y := range h * n {
		for x := range w * n {
			x0, y0, dx, dy := x/n, y/n, x%n, y%n
			upper := at(x0, y0)*(n-dx) + at(x0+1, y0)*dx
			lower := at(x0, y0+1)*(n-dx) + at(x0+1, y0+1)*dx
			out.Pix[y*out.Stride+x] = uint8((upper*(n-dy) + lower*dy) / (n * n))
		}
	}
	return out
}
