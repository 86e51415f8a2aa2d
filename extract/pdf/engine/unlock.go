package engine

import (
	"bytes"
	"context"
	"fmt"

	"github.com/klippa-app/go-pdfium/requests"
)

// Locked reports whether a PDF says that it is encrypted. Such a file opens
// without a password where its owner only forbids to print or copy it.
func Locked(data []byte) bool { return bytes.Contains(data, []byte("/Encrypt")) }

// Unlock gives a copy of a PDF that is not encrypted, for readers that know
// fewer ways of encryption. What the file holds is copied as it is.
func (e *Engine) Unlock(ctx context.Context, data []byte) ([]byte, error) {
	type answer struct {
		data []byte
		err  error
	}
	answers := make(chan answer, 1)
	go func() {
		out, err := e.unlock(ctx, data)
		answers <- answer{out, err}
	}()
	select {
	case a := <-answers:
		return a.data, a.err
	case <-ctx.Done():
		return nil, ErrTime
	}
}

func (e *Engine) unlock(ctx context.Context, data []byte) (out []byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the PDF engine failed: %v", p)
		}
	}()
	inst, err := e.pool.GetInstanceWithContext(ctx)
	if err != nil {
		return nil, err
	}
	defer func() { _ = inst.Kill() }()
	doc, err := inst.OpenDocument(&requests.OpenDocument{File: &data})
	if err != nil {
		return nil, err
	}
	saved, err := inst.FPDF_SaveAsCopy(&requests.FPDF_SaveAsCopy{Document: doc.Document, Flags: requests.SaveFlagRemoveSecurity})
	if err != nil {
		return nil, err
	}
	if saved.FileBytes == nil {
		return nil, errShape
	}
	return *saved.FileBytes, nil
}
