package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"probity/index"
)

// does runs probity and gives what it prints.
func does(t *testing.T, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, talk bytes.Buffer
	if got := run(args, strings.NewReader(""), &out, &talk); got != want {
		t.Fatalf("probity %s ended %d, want %d\n%s%s", strings.Join(args, " "), got, want, out.String(), talk.String())
	}
	return out.String(), talk.String()
}

// full is a disk without room: it takes the first bytes and no more.
type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if n := f.room; n < len(p) {
		f.room = 0
		return n, syscall.ENOSPC
	}
	f.room -= len(p)
	return len(p), nil
}

// TestNoRoomForTheResult writes the result of every command to a full disk:
// each ends 2 and says so once, and the library keeps what it took in.
func TestNoRoomForTheResult(t *testing.T) {
	dir := t.TempDir()
	paper := filepath.Join(dir, "invented.xml")
	if err := os.WriteFile(paper, demoPaper, 0o644); err != nil {
		t.Fatal(err)
	}
	lib := filepath.Join(dir, "library")
	for _, line := range []string{"add PAPER", "list", "find kestrine", "show invented.xml", "show invented.xml --keep text", "compare --outcome NCF", "citations",
		"doctor", "rebuild", "refresh --all", "question list", "audit PAPER", "audit --format json PAPER", "audit --format html PAPER", "read PAPER", "read --sheet PAPER",
		"check X_lasted_twice_as_long_as_Y", "checks", "demo", "--help", "find --help", "remove invented.xml"} {
		args := strings.Fields(strings.ReplaceAll(line, "PAPER", paper))
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "_", " ")
		}
		if strings.Contains("add list find show compare citations doctor rebuild refresh remove", args[0]) {
			args = append(args, "--library", lib)
		}
		if args[0] == "question" {
			args = append(args, "--library", lib)
		}
		for _, room := range []int{0, 12} {
			if args[0] == "remove" && room > 0 {
				continue // it is gone by now
			}
			var talk bytes.Buffer
			if got := run(args, strings.NewReader(""), &full{room}, &talk); got != exitUnusable {
				t.Errorf("probity %s ended %d, want %d", line, got, exitUnusable)
			}
			if s := talk.String(); strings.Count(s, "no space left") != 1 || !strings.Contains(s, "standard output cannot be written") {
				t.Errorf("probity %s says %q", line, s)
			}
		}
		if args[0] == "add" {
			if out, _ := does(t, 0, "list", "--library", lib); !strings.Contains(out, "1 paper") {
				t.Errorf("after add to a full disk the library holds\n%s", out)
			}
		}
	}
}

// TestCutTextIsMended makes of a paper what an earlier version made of it when
// it completed the title page, and holds that the doctor sees it and refresh
// brings the end of the text back.
func TestCutTextIsMended(t *testing.T) {
	dir := t.TempDir()
	lib, paper := filepath.Join(dir, "library"), filepath.Join(dir, "invented.txt")
	text := "An invented note on the bending of Kestrine\n\n" + strings.Repeat("The bending load of Kestrine was low in this invented paper.\n\n", 600) + "The end is zendaaq.\n"
	if err := os.WriteFile(paper, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	does(t, 0, "add", "--library", lib, paper)
	if out, _ := does(t, 0, "doctor", "--library", lib); !strings.Contains(out, "All is well") {
		t.Fatalf("the doctor says\n%s", out)
	}
	c := newConsole(context.Background(), nil, nil, os.Stderr)
	l, err := (&shelf{dir: lib}).open(c)
	if err != nil {
		t.Fatal(err)
	}
	ids, err := l.IDs()
	if err != nil || len(ids) != 1 {
		t.Fatalf("%q, %v; want one paper", ids, err)
	}
	e, err := l.Entry(ids[0])
	if err != nil {
		t.Fatal(err)
	}
	e.Card.Completed, e.Card.Year, e.Text = "refs.bib", 2030, e.Text[:100]
	e.Text[99].Text = e.Text[99].Text[:20]
	w, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add(e, ""); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if out, _ := does(t, 0, "find", "--library", lib, "zendaaq"); !strings.HasPrefix(out, "0 papers") {
		t.Fatalf("the end is still found:\n%s", out)
	}
	out, _ := does(t, exitUnusable, "doctor", "--library", lib)
	flat := strings.Join(strings.Fields(out), " ")
	if !strings.Contains(flat, "breaks off") || !strings.Contains(flat, "probity refresh "+ids[0][:12]) {
		t.Errorf("the doctor says\n%s", out)
	}
	does(t, 0, "refresh", "--library", lib, ids[0])
	if out, _ := does(t, 0, "find", "--library", lib, "zendaaq"); !strings.HasPrefix(out, "1 paper") {
		t.Errorf("the end is not found after refresh:\n%s", out)
	}
	if out, _ := does(t, 0, "doctor", "--library", lib); !strings.Contains(out, "All is well") {
		t.Errorf("after refresh the doctor says\n%s", out)
	}
	if r, err := l.Record(ids[0]); err != nil || r.Card.Completed != "refs.bib" {
		t.Errorf("after refresh the title page is completed from %q, %v", r.Card.Completed, err)
	}
}

// TestQuestionAfterABrokenLine adds to a question whose last line broke off, as
// on a full disk: the new line is a line of its own, and once the broken one is
// taken out, as the message says, all others are there.
func TestQuestionAfterABrokenLine(t *testing.T) {
	dir := t.TempDir()
	lib, paper := filepath.Join(dir, "library"), filepath.Join(dir, "invented.xml")
	if err := os.WriteFile(paper, demoPaper, 0o644); err != nil {
		t.Fatal(err)
	}
	does(t, 0, "add", "--library", lib, paper)
	file := filepath.Join(lib, "questions", "heat.jsonl")
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, nil, 0o644); err != nil { // a process ended before it asked
		t.Fatal(err)
	}
	does(t, 0, "question", "new", "heat", "Does heat matter?", "--outcome", "NCF", "--library", lib)
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := appendQuestion(&index.Library{Dir: lib}, "heat", event{At: now(), Do: "assume", Text: "first"}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, append(data, `{"at":"2031-01-02","do":"assu`...), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := appendQuestion(&index.Library{Dir: lib}, "heat", event{At: now(), Do: "assume", Text: "second"}); err != nil {
		t.Fatal(err)
	}
	if _, talk := does(t, exitUnusable, "question", "log", "heat", "--library", lib); !strings.Contains(talk, "line 2 cannot be read") {
		t.Errorf("it says %s", talk)
	}
	if data, err = os.ReadFile(file); err != nil {
		t.Fatal(err)
	}
	lines := bytes.SplitAfter(data, []byte{'\n'})
	if err := os.WriteFile(file, bytes.Join([][]byte{lines[0], lines[2]}, nil), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, _ := does(t, 0, "question", "log", "heat", "--library", lib); !strings.Contains(out, "second") {
		t.Errorf("what was noted after the broken line is lost:\n%s", out)
	}
}
