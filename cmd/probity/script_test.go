package main

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"probity/extract"
	"probity/extract/open"
)

func TestMain(m *testing.M) {
	// The program starts itself as the second PDF reader; under test it is the
	// test binary that is started so.
	if len(os.Args) == 2 && os.Args[1] == witnessName {
		os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
	}
	testscript.Main(m, map[string]func(){
		"probity":       func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
		"probity-trips": func() { os.Exit(runReading(tripping, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// tripping reads papers, but trips over the word STUMBLE and never comes to an
// end of the word ENDLESS.
func tripping(data []byte, name string) ([]*extract.Document, error) {
	switch {
	case bytes.Contains(data, []byte("STUMBLE")):
		panic("a made-up fault")
	case bytes.Contains(data, []byte("ENDLESS")):
		fmt.Fprintln(os.Stderr, atWork)
		for {
		}
	}
	return open.ReadAll(data, name)
}

// atWork is how the tests know that a paper without end was begun.
const atWork = "an endless paper was begun"

// TestScripts runs the stories of testdata/script: what a person types and
// what they then see.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "../../testdata/script"})
}
