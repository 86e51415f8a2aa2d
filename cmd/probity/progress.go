package main

import (
	"fmt"
	"time"
)

// few papers need no progress line.
const few = 4

// A progress line on standard error tells how far a batch has come. It shows
// only on a terminal and only for more than a few papers.
type progress struct {
	c     *console
	total int
	done  int
	start time.Time
	last  time.Time
	shown bool
}

func newProgress(c *console, total int) *progress {
	now := time.Now()
	return &progress{c: c, total: total, start: now, last: now}
}

func (p *progress) on() bool {
	_, ok := terminal(p.c.stderr)
	return ok && (p.total > few || p.total == 0 && p.done > few)
}

// step counts one paper and redraws at most ten times a second.
func (p *progress) step() {
	p.done++
	if !p.on() || time.Since(p.last) < 100*time.Millisecond {
		return
	}
	p.last = time.Now()
	rate := float64(p.done) / time.Since(p.start).Seconds()
	if p.total == 0 { // archives are opened on the way: nobody knows how many
		fmt.Fprintf(p.c.stderr, "\r\x1b[K%d papers, %.0f a second", p.done, rate)
		p.shown = true
		return
	}
	left := time.Duration(float64(p.total-p.done) / rate * float64(time.Second)).Round(time.Second)
	fmt.Fprintf(p.c.stderr, "\r\x1b[K%d of %d papers, %.0f a second, %s left", p.done, p.total, rate, left)
	p.shown = true
}

// clear takes the line away, so that a result or a message can be printed.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.c.stderr, "\r\x1b[K")
		p.shown = false
	}
}

func (p *progress) end() { p.clear() }
