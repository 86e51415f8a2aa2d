package main

import (
	"errors"
	"fmt"
	"io"
	"sync/atomic"
	"time"
)

// errStopped is what a command ends with that a signal stopped. What is said of
// it is soFar.
var errStopped = errors.New("stopped before the end")

// lastWord is how long a command has, once it is stopped, to tell what it has.
// Then it is left behind: readers and audits are pure functions that hold
// nothing, and a library bears to be left at any moment.
const lastWord = 700 * time.Millisecond

// A tally is how far a command has come with its files.
type tally struct {
	total       int // files; 0: not known beforehand
	begun, done atomic.Int64
	kept        string // what a person has of the papers that are done
}

// begin opens the tally that is told when the command is stopped.
func (c *console) begin(total int, kept string) *tally {
	t := &tally{total: total, kept: kept}
	c.tally.Store(t)
	return t
}

// soFar says what a stopped command has done and what it has not.
func (c *console) soFar(printed bool) string {
	t := c.tally.Load()
	switch {
	case t == nil && printed:
		return errStopped.Error() + "; what is printed is not all"
	case t == nil:
		return errStopped.Error() + "; nothing was printed"
	}
	text := fmt.Sprintf("%v: %s, %s", errStopped, t.finished(), t.left())
	if t.done.Load() > 0 {
		return text + "; " + t.kept
	}
	return text
}

func (t *tally) finished() string {
	if n := t.done.Load(); n != 1 {
		return fmt.Sprintf("%d papers done", n)
	}
	return "1 paper done"
}

func (t *tally) left() string {
	if t.total == 0 {
		return "how many were not begun is not known"
	}
	left := t.total - int(t.begun.Load())
	if left == 0 {
		return "every file was begun"
	}
	return fmt.Sprintf("%d of %d files not begun", left, t.total)
}

// A gate lets writes through, each as a whole, until it is shut: what is left
// behind when a command ends writes no more, and no line is cut. It keeps the
// first error of writing, so that no command ends well whose result did not
// arrive.
type gate struct {
	w       io.Writer
	turn    chan struct{} // taken by who writes
	closed  bool
	written atomic.Bool
	lost    atomic.Pointer[error]
}

func newGate(w io.Writer) *gate { return &gate{w: w, turn: make(chan struct{}, 1)} }

func (g *gate) Write(p []byte) (int, error) {
	g.turn <- struct{}{}
	defer func() { <-g.turn }()
	if g.closed {
		return 0, errStopped
	}
	g.written.Store(true)
	n, err := g.w.Write(p)
	if err != nil {
		g.lost.CompareAndSwap(nil, &err)
	}
	return n, err
}

// failed gives the first error of writing.
func (g *gate) failed() error {
	if err := g.lost.Load(); err != nil {
		return *err
	}
	return nil
}

// shut waits for a write that is under way, but not for a reader who has gone
// to sleep.
func (g *gate) shut() {
	select {
	case g.turn <- struct{}{}:
		g.closed = true
		<-g.turn
	case <-time.After(lastWord):
	}
}
