package engine

import (
	"errors"
	"image"
	"math"
)

// Values of PDFium's fpdfview.h.
const (
	bitmapGray   = 1    // FPDFBitmap_Gray: a byte a pixel
	drawGray     = 0x08 // FPDF_GRAYSCALE
	drawPrinting = 0x800
	white        = 0xffffffff
)

// maxPixels bounds a picture: A3 at 300 dots an inch has 17 million.
const maxPixels = 40_000_000

var errPicture = errors.New("the page cannot be drawn")

// coarse is how finely a page is drawn to see whether anything shows on it.
const coarse = 36

// ink reports that something shows on a page.
func (s *scratch) ink(page uint64, width, height float64) bool {
	picture, err := s.picture(page, width, height, coarse)
	if err != nil {
		return true // better to ask than to be silent
	}
	for _, v := range picture.Pix {
		if v < 250 {
			return true
		}
	}
	return false
}

// picture draws a page as it is shown, in shades of grey.
func (s *scratch) picture(page uint64, width, height, dpi float64) (*image.Gray, error) {
	w, h := int(math.Ceil(width*dpi/72)), int(math.Ceil(height*dpi/72))
	if w < 1 || h < 1 || w > maxPixels/h {
		return nil, errPicture
	}
	bitmap := s.call("FPDFBitmap_CreateEx", uint64(w), uint64(h), bitmapGray, 0, 0)
	if bitmap == 0 {
		return nil, errPicture
	}
	defer s.call("FPDFBitmap_Destroy", bitmap)
	s.call("FPDFBitmap_FillRect", bitmap, 0, 0, uint64(w), uint64(h), white)
	s.call("FPDF_RenderPageBitmap", bitmap, page, 0, 0, uint64(w), uint64(h), 0, drawGray|drawPrinting)
	stride := s.count("FPDFBitmap_GetStride", bitmap)
	buffer := uint32(s.call("FPDFBitmap_GetBuffer", bitmap))
	if s.err != nil || stride < w || buffer == 0 {
		return nil, errPicture
	}
	out := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		row, ok := s.mem.Read(buffer+uint32(y*stride), uint32(w))
		if !ok {
			return nil, errPicture
		}
		copy(out.Pix[y*out.Stride:], row)
	}
	return out, nil
}
