//go:build unix

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// A process is the program with the reader tripping, on one core, so that
// papers are begun one after the other.
type process struct {
	*exec.Cmd
	stdout, stderr bytes.Buffer
	working        chan struct{} // closed when it came to a paper without end
}

func startTripping(t *testing.T, stdin *os.File, args ...string) *process {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	p := &process{working: make(chan struct{})}
	p.Cmd = &exec.Cmd{Path: exe, Args: append([]string{"probity-trips"}, args...), Env: append(os.Environ(), "GOMAXPROCS=1")}
	if stdin != nil {
		p.Stdin = stdin
	}
	p.Stdout, p.Stderr = &p.stdout, &watch{to: &p.stderr, seen: p.working}
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { p.Process.Kill() })
	return p
}

// watch closes seen when atWork is written.
type watch struct {
	to   *bytes.Buffer
	seen chan struct{}
	once sync.Once
}

func (w *watch) Write(p []byte) (int, error) {
	n, err := w.to.Write(p)
	if strings.Contains(w.to.String(), atWork) {
		w.once.Do(func() { close(w.seen) })
	}
	return n, err
}

// patience is far beyond what the program needs; what hangs does not outlast it.
const patience = time.Minute

// end waits for the end of the program and gives its exit code.
func (p *process) end(t *testing.T) int {
	t.Helper()
	late := time.AfterFunc(patience, func() { p.Process.Kill() })
	defer late.Stop()
	var exit *exec.ExitError
	if err := p.Wait(); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return p.ProcessState.ExitCode()
}

func (p *process) waitForWork(t *testing.T) {
	t.Helper()
	select {
	case <-p.working:
	case <-time.After(patience):
		t.Fatalf("the paper was not begun: %s", p.stderr.String())
	}
}

// inFolder writes papers into a folder and makes it the current one.
func inFolder(t *testing.T, papers map[string]string) {
	t.Helper()
	t.Chdir(t.TempDir())
	for name, text := range papers {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

var soundAndEndless = map[string]string{
	"good.txt": "The time to fracture fell by 63% from 1083.82 s to 403.80 s.", // invented
	"long.txt": "ENDLESS",
	"more.txt": "The load fell by 65% from 0.86 N to 0.52 N.",
}

// TestStop: a signal ends a paper that does not end by itself. What was done
// is there and whole, and it is said how far the command came.
func TestStop(t *testing.T) {
	const counts = "probity: stopped before the end: 1 paper done, 2 of 4 files not begun; "
	tests := []struct {
		args           []string
		signal         syscall.Signal
		stderr, stdout string // contained
		empty          bool   // nothing on stdout
	}{
		{args: []string{"audit", "--format", "json", "good.txt", "long.txt", "more.txt", "good.txt"}, signal: syscall.SIGINT,
			stderr: counts + "what is printed of them is complete", stdout: `"verdict":"reproduces"`},
		{args: []string{"audit", "good.txt", "long.txt", "more.txt", "good.txt"}, signal: syscall.SIGTERM,
			stderr: counts + "what is printed of them is complete", stdout: "REPRODUCES"},
		{args: []string{"audit", "--format", "html", "good.txt", "long.txt", "more.txt", "good.txt"}, signal: syscall.SIGTERM,
			stderr: counts, stdout: "this page holds 1 of 4 files"},
		{args: []string{"audit", "--format", "html", "long.txt", "good.txt"}, signal: syscall.SIGINT,
			stderr: "stopped before the end: 0 papers done, 1 of 2 files not begun\n", empty: true},
		{args: []string{"audit", "long.txt"}, signal: syscall.SIGINT, stderr: "stopped before the end: 0 papers done, every file was begun\n", empty: true},
		{args: []string{"read", "long.txt"}, signal: syscall.SIGINT, stderr: "stopped before the end; nothing was printed", empty: true},
		{args: []string{"add", "--library", "lib", "good.txt", "long.txt", "more.txt", "good.txt"}, signal: syscall.SIGTERM,
			stderr: ", 2 of 4 files not begun"},
	}
	for _, tt := range tests {
		t.Run(strings.Join(tt.args, " "), func(t *testing.T) {
			inFolder(t, soundAndEndless)
			p := startTripping(t, nil, tt.args...)
			p.waitForWork(t)
			if err := p.Process.Signal(tt.signal); err != nil {
				t.Fatal(err)
			}
			if code := p.end(t); code != exitUnusable {
				t.Errorf("exit code %d, want %d", code, exitUnusable)
			}
			if !strings.Contains(p.stderr.String(), tt.stderr) || strings.Contains(p.stderr.String(), "goroutine") {
				t.Errorf("says %q, want %q", p.stderr.String(), tt.stderr)
			}
			if !strings.Contains(p.stdout.String(), tt.stdout) || tt.empty && p.stdout.Len() > 0 {
				t.Errorf("prints %q, want %q", p.stdout.String(), tt.stdout)
			}
			if slices.Contains(tt.args, "json") {
				wholeLines(t, p.stdout.Bytes(), 1)
			}
		})
	}
}

// wholeLines wants n lines of JSON and nothing after them.
func wholeLines(t *testing.T, out []byte, n int) {
	t.Helper()
	lines := bytes.SplitAfter(out, []byte("\n"))
	if len(lines) != n+1 || len(lines[n]) != 0 {
		t.Errorf("%d lines, the last is %q; want %d and nothing after", len(lines)-1, lines[len(lines)-1], n)
	}
	for _, l := range lines[:len(lines)-1] {
		if !json.Valid(l) {
			t.Errorf("line %q is not JSON", l)
		}
	}
}

// TestStopAddIsSafe: what a stopped add told is in the library, and the next
// one goes on. The papers done are told, unless the disk is too slow for that
// within the last word; then the summary is missing, too.
func TestStopAddIsSafe(t *testing.T) {
	inFolder(t, soundAndEndless)
	p := startTripping(t, nil, "add", "--library", "lib", "good.txt", "more.txt", "long.txt")
	p.waitForWork(t)
	p.Process.Signal(syscall.SIGINT)
	code, text := p.end(t), p.stdout.String()
	told := strings.Count(text, "new  ")
	if inTime := strings.Contains(text, "in the library"); code != exitUnusable || inTime && (told != 2 || !strings.Contains(p.stderr.String(), "run the same command to go on")) {
		t.Fatalf("%d\n%s%s", code, text, p.stderr.String())
	}
	out, errs, code := addTo(t, "lib", nil, "good.txt", "more.txt")
	if unchanged := strings.Contains(out, fmt.Sprintf("%d unchanged", told)); code != exitFine || told > 0 && !unchanged || !strings.Contains(out, "2 in the library") {
		t.Errorf("%d were told; add again: %d\n%s%s", told, code, out, errs)
	}
}

// TestStopWaiting: a signal ends a command that waits for standard input, or
// for a pipe to which nobody writes.
func TestStopWaiting(t *testing.T) {
	for _, args := range [][]string{{"audit", "-"}, {"read", "-"}, {"add", "--library", "lib", "-"}, {"citations", "--library", "lib", "--from", "-"},
		{"add", "--library", "lib", "--from-audit", "/dev/stdin"}} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			inFolder(t, nil)
			r, w, err := os.Pipe()
			if err != nil {
				t.Fatal(err)
			}
			defer r.Close()
			defer w.Close()
			p := startTripping(t, r, args...)
			// more than a pipe holds: when it is written, the program reads
			written := make(chan error, 1)
			go func() { _, err := w.WriteString(strings.Repeat("no such file.txt\n", 20_000)); written <- err }()
			select {
			case err := <-written:
				if err != nil {
					t.Fatal(err)
				}
			case <-time.After(patience):
				t.Fatal("standard input is not read")
			}
			p.Process.Signal(syscall.SIGTERM)
			if code := p.end(t); code != exitUnusable || !strings.Contains(p.stderr.String(), "stopped before the end") {
				t.Errorf("exit code %d, says %q", code, p.stderr.String())
			}
		})
	}
}

// TestStopTwice: a second signal ends the program at once, by the signal.
func TestStopTwice(t *testing.T) {
	inFolder(t, soundAndEndless)
	p := startTripping(t, nil, "read", "long.txt")
	p.waitForWork(t)
	stop := make(chan struct{})
	defer close(stop)
	go func() {
		for {
			select {
			case <-stop:
				return
			case <-time.After(5 * time.Millisecond):
				p.Process.Signal(syscall.SIGINT)
			}
		}
	}()
	p.end(t)
	if s := p.ProcessState.Sys().(syscall.WaitStatus); !s.Signaled() || s.Signal() != syscall.SIGINT {
		t.Errorf("it ended with %v, want by the second signal", p.ProcessState)
	}
}

// TestTripping: every command that works on papers ends with 2 where one trips
// it, names the paper and goes on with the others.
func TestTripping(t *testing.T) {
	inFolder(t, map[string]string{"good.txt": soundAndEndless["good.txt"], "stumble.txt": "STUMBLE"})
	for _, args := range [][]string{{"audit", "stumble.txt", "good.txt"}, {"audit", "--format", "html", "good.txt", "stumble.txt"}, {"read", "stumble.txt"},
		{"read", "--sheet", "stumble.txt"}, {"add", "--library", "lib", "stumble.txt", "good.txt"}} {
		var out, errs bytes.Buffer
		code := runReading(tripping, args, nil, &out, &errs)
		if code != exitUnusable || !strings.Contains(errs.String(), "stumble.txt: could not be worked through (a made-up fault)") || strings.Contains(errs.String(), "goroutine") {
			t.Errorf("%v: %d, says %q", args, code, errs.String())
		}
		if len(args) > 3 && args[1] != "--sheet" && out.Len() == 0 {
			t.Errorf("%v: the other paper is not in the output", args)
		}
	}
	// what is no paper's fault names the command line
	var errs bytes.Buffer
	code := run([]string{"add", "--library", "lib", "-"}, tripsReader{}, io.Discard, &errs)
	if code != exitUnusable || !strings.Contains(errs.String(), "probity add --library lib -: could not be worked through (a made-up fault)") {
		t.Errorf("standard input that trips: %d, says %q", code, errs.String())
	}
}

type tripsReader struct{}

func (tripsReader) Read([]byte) (int, error) { panic("a made-up fault") }

// TestBatch: results come in the order of the inputs; a stop hands on what is
// finished up to the first that is not; an input that trips is an error.
func TestBatch(t *testing.T) {
	numbers := func(n int) func(func(int) bool) {
		return func(yield func(int) bool) {
			for i := range n {
				if !yield(i) {
					return
				}
			}
		}
	}
	var got []int
	keep := func(_, out int) error { got = append(got, out); return nil }
	square := func(i int) int { return i * i }
	if err := batch(context.Background(), numbers(5), square, keep); err != nil || !slices.Equal(got, []int{0, 1, 4, 9, 16}) {
		t.Errorf("batch of 0 to 4 squared: %v, %v", got, err)
	}
	ctx, stop := context.WithCancel(context.Background())
	got = nil
	endless := make(chan int)
	err := batch(ctx, numbers(100), func(i int) int {
		if i == 3 {
			stop()
			return <-endless
		}
		return i
	}, keep)
	if err != errStopped || len(got) > 3 || !slices.Equal(got, []int{0, 1, 2}[:len(got)]) {
		t.Errorf("stopped at 3: %v, %v", got, err)
	}
	full := errors.New("the disk is full")
	if err := batch(context.Background(), numbers(100), square, func(in, _ int) error {
		if in == 2 {
			return full
		}
		return nil
	}); err != full {
		t.Errorf("an error at 2: %v", err)
	}
	if err := batch(context.Background(), func(func(int) bool) { panic("a made-up fault") }, square, keep); err == nil || !strings.Contains(err.Error(), "please report it") {
		t.Errorf("inputs that trip: %v", err)
	}
}

// TestGate: what writes after the end writes nothing.
func TestGate(t *testing.T) {
	var b bytes.Buffer
	g := newGate(&b)
	g.Write([]byte("a line\n"))
	g.shut()
	if _, err := g.Write([]byte("cut")); err != errStopped || b.String() != "a line\n" || !g.written.Load() {
		t.Errorf("after the end: %v, %q", err, b.String())
	}
}
