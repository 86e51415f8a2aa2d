package index

import (
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A panic while a folder is written is an error of that paper, and whoever
// waits for the folder is not left waiting.
func TestPanicInFolder(t *testing.T) {
	w := &Writer{Library: &Library{Dir: t.TempDir()}}
	x := &written{temp: filepath.Join(w.Dir, "x"), done: make(chan struct{})} // without its record
	go w.write(x)
	<-x.done
	if x.err == nil || !strings.Contains(x.err.Error(), "fault of probity") {
		t.Errorf("write without a record: %v, want an error that calls it our fault", x.err)
	}
}

// A panic while a batch is committed ends the writing with an error. What was
// brought to the disk before it is there, found and whole.
func TestPanicInCommit(t *testing.T) {
	w, err := Create(filepath.Join(t.TempDir(), "library"), Options{Synonyms: testNames, Wait: time.Second})
	if err != nil {
		t.Fatal(err)
	}
	w.OnCommit(func(e Entry) {
		if e.Name == "second.xml" {
			panic("invented fault")
		}
	})
	for _, name := range []string{"first.xml", "second.xml", "third.xml"} {
		e := entry(name, Card{Title: name}, "Words of "+strings.TrimSuffix(name, ".xml")+" alone.")
		err := w.Add(e, "")
		if err == nil {
			err = w.Flush()
		}
		if (err != nil) != (name != "first.xml") {
			t.Errorf("%s: %v, want an error from the second on", name, err)
		}
	}
	if err := w.Close(); err == nil || !strings.Contains(err.Error(), "invented fault") {
		t.Errorf("Close() = %v, want the fault", err)
	}
	l, err := Open(w.Dir, Options{Synonyms: testNames})
	if err != nil {
		t.Fatal(err)
	}
	again, err := l.Writer()
	if err != nil {
		t.Fatal(err)
	}
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
	records, bad := l.List()
	if len(records) != 2 || len(bad) != 0 {
		t.Errorf("%d records, %v; want the two papers whose batches were placed", len(records), bad)
	}
}
