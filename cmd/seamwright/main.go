// Command seamwright turns rough taught points, an arm, weld sizes and a
// welding procedure into a run fit to weld, and answers the trade's smaller
// questions from the terminal.
//
// It plans; it never moves an arm.
//
//	seamwright new POINTS -o DIR
//	seamwright points FILE
//	seamwright plan JOB.yaml -o DIR
//	seamwright prove DIR
//	seamwright orient "fixed x-y-z degrees" 134.37 -8.54 34.13
//	seamwright size --leg "5 mm" --wire "1.0 mm" --feed "9 m/min"
//	seamwright shape FILE --unit mm
//	seamwright quote WELDS.csv --settings FILE
//	seamwright gauge JOB.yaml READINGS.csv
package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
)

// Exit codes, a contract with scripts.
const (
	exitFit      = 0 // planned, nothing stops it
	exitStopped  = 1 // planned, but findings stop it; shown, but something wants a look
	exitUnusable = 2 // the input cannot be used
)

// errStopped says that a plan was made and findings stop it. Everything a
// person needs has been printed already.
var errStopped = errors.New("findings stop this job")

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(runAt(ctx, os.Args[1:], desk{in: bufio.NewReader(os.Stdin), out: os.Stdout, errs: os.Stderr, asks: terminal(os.Stdin)}))
}

// run is the whole program without its process and with nobody to ask:
// arguments in, exit code out.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) (code int) {
	return runAt(ctx, args, desk{in: bufio.NewReader(strings.NewReader("")), out: stdout, errs: stderr})
}

// runAt is the whole program at a desk.
func runAt(ctx context.Context, args []string, d desk) (code int) {
	stdout, stderr := d.out, d.errs
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(stderr, "seamwright: a mistake of this program, not of your files: %v\n%s\nNo plan folder is half written. Please report it with the job that caused it.\n", p, debug.Stack())
			code = exitUnusable
		}
	}()
	root := &cobra.Command{
		Use:           "seamwright",
		Short:         "A bench for people who program robot welders",
		Long:          "A bench for people who program robot welders.\nIt plans and checks; it never moves an arm.",
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.NoArgs,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.AddCommand(newCommand(d), pointsCommand(d), planCommand(), proveCommand(), demoCommand(), orientCommand(), sizeCommand(), symbolCommand(), shapeCommand(), quoteCommand(), gaugeCommand(), completionCommand())
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetArgs(append([]string{}, args...)) // nil would stand for the process's own
	root.SetOut(stdout)
	root.SetErr(stderr)
	switch err := root.ExecuteContext(ctx); {
	case err == nil:
		return exitFit
	case errors.Is(err, errStopped), errors.Is(err, errLook):
		return exitStopped
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "seamwright: cancelled; nothing was written")
		return exitUnusable
	default:
		fmt.Fprintf(stderr, "seamwright: %v\n", err)
		return exitUnusable
	}
}

// version is the version that the build recorded, "(devel)" for a build from a
// working copy.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "(unknown)"
	}
	return info.Main.Version
}
