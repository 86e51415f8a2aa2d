// Command probity audits comparative claims in dental instrument literature:
// it reads a paper, recomputes every comparison its authors state from the
// figures they print, and says with a place and a caution what holds.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/spf13/cobra"

	"probity/claims/report"
)

// Exit codes, the same for every command.
const (
	exitFine         = 0 // nothing inconsistent was found
	exitInconsistent = 1 // something inconsistent was found
	exitUnusable     = 2 // an input or the command line could not be used
)

// commands is the table of commands, in the order help shows them.
var commands = []func(*console) *cobra.Command{
	auditCommand,
	readCommand,
	checkCommand,
	checksCommand,
	demoCommand,
	addCommand,
	listCommand,
	showCommand,
	findCommand,
	compareCommand,
	questionCommand,
	citationsCommand,
	removeCommand,
	refreshCommand,
	rebuildCommand,
	doctorCommand,
	witnessCommand,
}

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// run is the whole program as a function, so that tests can call it.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	c := newConsole(ctx, stdin, stdout, stderr)
	useWitness()
	root := &cobra.Command{
		Use:   "probity",
		Short: "Recompute the comparisons a dental instrument paper states",
		Long: `probity reads papers on dental instruments, recomputes every comparison their
authors state from the means, spreads and n they print, and says which figure
holds on which base, where it stands, and with what caution it may be repeated.

Nothing leaves this machine. A bench result is not a clinical outcome; an
inconsistency is a question to the authors, not an accusation.`,
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	root.CompletionOptions.HiddenDefaultCmd = true
	for _, command := range commands {
		root.AddCommand(command(c))
	}
	if err := root.ExecuteContext(ctx); err != nil {
		if !errors.Is(err, errSaid) {
			fmt.Fprintf(stderr, "probity: %v\n", report.Clean(err.Error()))
		}
		return exitUnusable
	}
	return c.worst
}

// errSaid marks an error whose message was already shown.
var errSaid = errors.New("already said")
