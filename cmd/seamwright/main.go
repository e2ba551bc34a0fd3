// Command seamwright turns rough taught points, an arm, weld sizes and a
// welding procedure into a run fit to weld, and answers the trade's smaller
// questions from the terminal.
//
// It plans; it never moves an arm.
//
//	seamwright plan JOB.yaml -o DIR
//	seamwright orient "fixed x-y-z degrees" 134.37 -8.54 34.13
//	seamwright size --leg "5 mm" --wire "1.0 mm" --feed "9 m/min"
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/spf13/cobra"
)

// Exit codes, a contract with scripts.
const (
	exitFit      = 0 // planned, nothing stops it
	exitStopped  = 1 // planned, but findings stop it
	exitUnusable = 2 // the input cannot be used
)

// errStopped says that a plan was made and findings stop it. Everything a
// person needs has been printed already.
var errStopped = errors.New("findings stop this job")

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run is the whole program without its process: arguments in, exit code out.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) (code int) {
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
	root.AddCommand(planCommand(), demoCommand(), orientCommand(), sizeCommand())
	root.SetArgs(append([]string{}, args...)) // nil would stand for the process's own
	root.SetOut(stdout)
	root.SetErr(stderr)
	switch err := root.ExecuteContext(ctx); {
	case err == nil:
		return exitFit
	case errors.Is(err, errStopped):
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
