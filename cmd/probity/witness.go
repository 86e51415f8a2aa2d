package main

import (
	"os"
	"sync"

	"github.com/spf13/cobra"

	"probity/extract/open"
	"probity/extract/pdf/witness"
)

// witnessName is the hidden command under which the program starts itself to
// read a PDF a second time: that reader can be driven into endless loops by a
// damaged file, so it lives in a process of its own.
const witnessName = "witness-pages"

func witnessCommand(c *console) *cobra.Command {
	return &cobra.Command{
		Use:    witnessName,
		Hidden: true,
		Args:   cobra.NoArgs,
		RunE:   func(*cobra.Command, []string) error { return witness.Main(c.stdin, c.stdout) },
	}
}

var setWitness sync.Once

// useWitness hands the second PDF reader to the list of formats. Without a
// program to start, PDFs are read by one reader only.
func useWitness() {
	setWitness.Do(func() {
		if program, err := os.Executable(); err == nil {
			open.PDF.Witness = witness.By(program, witnessName)
		}
	})
}
