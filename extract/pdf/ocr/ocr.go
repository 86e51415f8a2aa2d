// Package ocr reads pages that are pictures, with the text recognition program
// tesseract where the user has installed it.
//
//	picture → tesseract, a process of its own → hOCR → glyph.Page
//
// What comes out is a guess at what is printed: who uses it marks every figure.
package ocr

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"os/exec"
	"time"

	"probity/extract/pdf/glyph"
)

// ErrMissing says that no program to recognise text is installed.
var ErrMissing = errors.New("no text recognition program: tesseract is not installed, or not on the PATH")

// DPI is how finely pages are to be drawn.
const DPI = 300

const (
	maxTime = 2 * time.Minute // for one page
	maxOut  = 64 << 20
)

// Find gives the program to recognise text with.
func Find() (program string, err error) {
	program, err = exec.LookPath("tesseract")
	if err != nil {
		return "", fmt.Errorf("%w; install it, or leave the pages that are pictures unread", ErrMissing)
	}
	return program, nil
}

// By gives a reader of pictures, drawn at DPI, that runs program for each.
func By(program string) func(picture *image.Gray) (*glyph.Page, error) {
	return func(picture *image.Gray) (*glyph.Page, error) {
		ctx, cancel := context.WithTimeout(context.Background(), maxTime)
		defer cancel()
		cmd := exec.CommandContext(ctx, program, "stdin", "stdout", "--dpi", fmt.Sprint(DPI), "-c", "hocr_char_boxes=1", "hocr")
		cmd.Env = append(os.Environ(), "OMP_THREAD_LIMIT=1") // papers are read side by side already
		cmd.Stdin = pgm(picture)
		cmd.WaitDelay = time.Second
		var out bytes.Buffer
		cmd.Stdout = &limited{&out, maxOut}
		if err := cmd.Run(); err != nil {
			return nil, fmt.Errorf("text recognition failed: %w", err)
		}
		return page(&out, picture), nil
	}
}

// pgm writes a picture in the plainest format there is (netpbm, P5).
func pgm(p *image.Gray) io.Reader {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	readers := []io.Reader{bytes.NewReader(fmt.Appendf(nil, "P5\n%d %d\n255\n", w, h))}
	for y := range h {
		readers = append(readers, bytes.NewReader(p.Pix[y*p.Stride:y*p.Stride+w]))
	}
	return io.MultiReader(readers...)
}

// limited is a writer that fails after so many bytes.
type limited struct {
	w    io.Writer
	left int
}

func (l *limited) Write(b []byte) (int, error) {
	if l.left -= len(b); l.left < 0 {
		return 0, errors.New("too much output")
	}
	return l.w.Write(b)
}
