package main

import (
	"context"
	"fmt"
	"iter"
	"os"
	"runtime"
	"runtime/debug"
)

// ahead bounds how many finished papers, a core, wait for their turn.
const ahead = 16

// batch works on inputs side by side on all cores and hands what came of them
// to each, in the order of the inputs. It ends with the first error of each.
// When ctx ends, what is finished is still handed on, up to the first that is
// not; work under way is left behind, and the error is errStopped.
func batch[In, Out any](ctx context.Context, inputs iter.Seq[In], work func(In) Out, each func(In, Out) error) error {
	type job struct {
		in   In
		done chan Out
	}
	ctx, leave := context.WithCancel(ctx)
	defer leave()
	workers := runtime.GOMAXPROCS(0)
	jobs, queue := make(chan job), make(chan job, ahead*workers)
	ended := errStopped // why there are no more inputs; to be read when queue is closed
	go func() {
		defer close(jobs)
		defer close(queue)
		ended = spared("the list of papers", func() error {
			for in := range inputs {
				j := job{in, make(chan Out, 1)}
				if !send(ctx, queue, j) || !send(ctx, jobs, j) {
					return errStopped
				}
			}
			return nil
		})
	}()
	for range workers {
		go func() {
			for j := range jobs {
				j.done <- work(j.in)
			}
		}()
	}
	for {
		j, more, there := receive(ctx, queue)
		if !there {
			return errStopped
		}
		if !more {
			return ended
		}
		out, _, there := receive(ctx, j.done)
		if !there {
			return errStopped
		}
		if err := each(j.in, out); err != nil {
			return err
		}
	}
}

func send[T any](ctx context.Context, to chan<- T, v T) bool {
	select {
	case to <- v:
		return true
	case <-ctx.Done():
		return false
	}
}

// receive takes what is there, even after ctx has ended, or what comes before
// it does. more is false when the channel is closed.
func receive[T any](ctx context.Context, from <-chan T) (v T, more, there bool) {
	select {
	case v, more = <-from:
		return v, more, true
	default:
	}
	select {
	case v, more = <-from:
		return v, more, true
	case <-ctx.Done():
		return v, false, false
	}
}

// showStack names the variable of the environment that has the trace of a
// panic printed.
const showStack = "PROBITY_STACK"

// spared runs f on a paper and turns a panic into an error that names it: one
// paper that trips us ends neither the program nor the rest of a batch. Every
// goroutine that works on papers goes through it.
func spared(paper string, f func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			if os.Getenv(showStack) != "" {
				fmt.Fprintf(os.Stderr, "%s: %v\n%s", paper, p, debug.Stack())
			}
			err = fmt.Errorf("%s: could not be worked through (%v); this is a fault of probity, please report it", paper, p)
		}
	}()
	return f()
}
