package main

import (
	"time"

	"github.com/schollz/progressbar/v3"
)

// few papers need no progress bar.
const few = 4

// A progress bar on standard error tells how far a batch has come, how fast it
// goes and how long it takes yet. It shows only on a terminal and only for more
// than a few papers. A total of zero is not known: then it only counts.
type progress struct{ bar *progressbar.ProgressBar }

func newProgress(c *console, total int) *progress {
	width, ok := terminal(c.stderr)
	if !ok || total > 0 && total <= few {
		return &progress{}
	}
	if total == 0 {
		total = -1
	}
	return &progress{progressbar.NewOptions(total,
		progressbar.OptionSetWriter(c.stderr),
		progressbar.OptionSetDescription("papers"),
		progressbar.OptionSetWidth(max(10, min(40, width/3))),
		progressbar.OptionShowCount(),
		progressbar.OptionShowIts(),
		progressbar.OptionSetItsString("papers"),
		progressbar.OptionSetPredictTime(true),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
		progressbar.OptionUseANSICodes(true),
	)}
}

// step counts one paper.
func (p *progress) step() {
	if p.bar != nil {
		p.bar.Add(1)
	}
}

// clear takes the bar away, so that a result or a message can be printed; the
// next step draws it again.
func (p *progress) clear() {
	if p.bar != nil {
		p.bar.Clear()
	}
}

// end takes the bar away for good.
func (p *progress) end() {
	if p.bar != nil {
		p.bar.Finish()
		p.bar.Clear()
	}
}
