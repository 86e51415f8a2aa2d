// Package witness reads a PDF a second time, with a reader that shares no code
// with the first, and says which digits it sees on each page.
//
//	bytes → [process of its own: Main] → []Page
//
// That reader can be driven into endless loops, stack overflow and memory
// without bound by damaged files, and a Go program cannot recover from the
// last two. It therefore runs in a process of its own: By starts one, Main is
// what it runs.
package witness

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"time"

	"github.com/ledongthuc/pdf"
)

// A Page is what the witness saw on one page.
type Page struct {
	Number int     // from 1
	Digits [10]int // how often each digit 0 to 9 is printed
	Text   string  // the page's text, columns and tables not told apart
	Shows  bool    // its content prints or draws something
	Failed string  // why the page, or a part of it, could not be read; "" if it was
}

// Total is the number of digits.
func (p Page) Total() int {
	n := 0
	for _, k := range p.Digits {
		n += k
	}
	return n
}

// Limits of one run.
const (
	maxIn     = 300 << 20
	maxPages  = 2000
	maxText   = 1 << 20 // of one page
	maxTime   = 10 * time.Second
	maxMemory = 1 << 30
	maxStack  = 128 << 20
)

// Main reads a PDF from in and writes its pages to out, a JSON line each. It
// is for a process that does nothing else: it bounds the process's stack, and
// ends it when it takes too long or too much memory.
func Main(in io.Reader, out io.Writer) error {
	debug.SetMaxStack(maxStack)
	debug.SetMemoryLimit(maxMemory / 2)
	time.AfterFunc(maxTime, func() { os.Exit(3) })
	go guard()
	data, err := io.ReadAll(io.LimitReader(in, maxIn+1))
	if err != nil {
		return err
	}
	if len(data) > maxIn {
		return fmt.Errorf("the PDF has more than %d MB", maxIn>>20)
	}
	enc := json.NewEncoder(out)
	return Read(data, func(p Page) error { return enc.Encode(p) })
}

// guard ends the process before it takes the machine's memory.
func guard() {
	var m runtime.MemStats
	for {
		runtime.ReadMemStats(&m)
		if m.Sys > maxMemory {
			os.Exit(4)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// Read gives every page to visit. It must not be called on a file from
// outside in a process that matters: see the package's comment.
func Read(data []byte, visit func(Page) error) (err error) {
	defer failed(&err)
	data = trimmed(data)
	r, err := pdf.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	w := &walk{visit: visit}
	return w.leaves(r.Trailer().Key("Root").Key("Pages"), 0)
}

// Count counts the digits of a text.
func Count(s string) (n [10]int) {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= '0' && c <= '9' {
			n[c-'0']++
		}
	}
	return n
}
