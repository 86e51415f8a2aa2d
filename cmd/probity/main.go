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
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"probity/claims/report"
	"probity/extract"
	"probity/extract/open"
)

// Exit codes, the same for every command.
const (
	exitFine     = 0 // nothing at odds was found
	exitAtOdds   = 1 // something at odds was found
	exitUnusable = 2 // an input or the command line could not be used, or the command was stopped
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
	return runReading(open.ReadAll, args, stdin, stdout, stderr)
}

// A reader makes the papers of a file from its bytes.
type reader func(data []byte, name string) ([]*extract.Document, error)

// runReading is run with a reader of papers; tests hand in one that trips or
// never ends. The command runs beside it, so that a signal ends the program
// whatever the command waits for or reckons at.
func runReading(read reader, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	out, said := newGate(stdout), newGate(stderr)
	c := newConsole(ctx, stdin, out, said)
	c.papersOf = read
	ended := make(chan error, 1)
	go func() {
		ended <- spared("probity "+strings.Join(args, " "), func() error { return c.execute(args) })
	}()
	err := c.ending(ended)
	out.shut()
	said.shut()
	lost := out.failed()
	if lost != nil && err != errStopped {
		fmt.Fprintf(stderr, "probity: standard output cannot be written (%v): the result did not arrive whole; make room and run the command again\n", reason(lost))
		if err == nil || errors.Is(err, reason(lost)) {
			return exitUnusable
		}
	}
	switch {
	case err == nil:
		return c.worst
	case err == errStopped:
		fmt.Fprintf(stderr, "%sprobity: %s\n", c.clearLine(), c.soFar(out.written.Load()))
	case !errors.Is(err, errSaid):
		fmt.Fprintf(stderr, "probity: %v\n", report.Clean(err.Error()))
	}
	return exitUnusable
}

// ending waits for the command, and once it is stopped, no longer than for its
// last word.
func (c *console) ending(ended <-chan error) error {
	select {
	case err := <-ended:
		return err
	case <-c.ctx.Done():
	}
	select {
	case err := <-ended:
		return err
	case <-time.After(lastWord):
		return errStopped
	}
}

// execute finds the command and runs it.
func (c *console) execute(args []string) error {
	useWitness()
	root := &cobra.Command{
		Use:   "probity",
		Short: "Recompute the comparisons a dental instrument paper states",
		Long: `probity reads papers on dental instruments, recomputes every comparison their
authors state from the means, spreads and n they print, and says which figure
holds on which base, where it stands, and with what caution it may be repeated.

Nothing leaves this machine. A bench result is not a clinical outcome; an
misfit is a question to the authors, not an accusation.`,
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.SetArgs(args)
	root.SetIn(c.stdin)
	root.SetOut(c.stdout)
	root.SetErr(c.stderr)
	root.CompletionOptions.HiddenDefaultCmd = true
	for _, command := range commands {
		root.AddCommand(command(c))
	}
	sayUse(root)
	return root.ExecuteContext(c.ctx)
}

// sayUse adds to errors of the command line how each command is used.
func sayUse(cmd *cobra.Command) {
	cmd.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return fmt.Errorf("%w; %s --help lists what there is", err, c.CommandPath())
	})
	if fits := cmd.Args; fits != nil {
		cmd.Args = func(c *cobra.Command, args []string) error {
			if fits(c, args) != nil {
				return fmt.Errorf("the arguments do not fit; it is used so: %s", c.UseLine())
			}
			return nil
		}
	}
	for _, sub := range cmd.Commands() {
		sayUse(sub)
	}
}

// errSaid marks an error whose message was already shown.
var errSaid = errors.New("already said")
