package witness

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os/exec"
)

// By gives a witness that runs a program for every paper: Main in a process of
// its own, the PDF on its standard input, the pages on its standard output. An
// error may come with the pages before it.
func By(program string, args ...string) func(data []byte) ([]Page, error) {
	return func(data []byte) ([]Page, error) {
		ctx, cancel := context.WithTimeout(context.Background(), maxTime+maxTime/2)
		defer cancel()
		cmd := exec.CommandContext(ctx, program, args...)
		cmd.Stdin = bytes.NewReader(data)
		out, err := cmd.StdoutPipe()
		if err != nil {
			return nil, err
		}
		if err := cmd.Start(); err != nil {
			return nil, fmt.Errorf("the second PDF reader does not start: %w", err)
		}
		pages := decode(out)
		_, _ = io.Copy(io.Discard, io.LimitReader(out, maxIn))
		if err := cmd.Wait(); err != nil {
			return pages, fmt.Errorf("the second PDF reader failed: %w", err)
		}
		return pages, nil
	}
}

// decode reads pages until the stream ends or breaks off.
func decode(r io.Reader) []Page {
	var out []Page
	d := json.NewDecoder(bufio.NewReader(io.LimitReader(r, maxIn)))
	for len(out) < maxPages {
		var p Page
		if d.Decode(&p) != nil {
			break
		}
		out = append(out, p)
	}
	return out
}
