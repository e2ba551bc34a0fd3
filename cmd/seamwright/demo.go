package main

import (
	"fmt"
	"io"
	"path"

	"github.com/spf13/cobra"

	"seamwright/bench/job"
	"seamwright/examples"
	"seamwright/unit"
)

// demoJob is the folder of the example that the demonstration plans.
const demoJob = "keel-cradle"

func demoCommand() *cobra.Command {
	var dir string
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Plan the example job that this program carries",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			j, err := job.Decode("job.yaml", embedded(demoJob))
			if err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "Example examples/%s/job.yaml\n\n", demoJob)
			return planJob(cmd.Context(), planning{job: j, dir: dir, progress: progress(cmd.ErrOrStderr(), false)},
				report{out: cmd.OutOrStdout(), system: unit.Metric})
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "out/demo", "folder to write the plan into")
	completeFlags(cmd, map[string]completer{"out": folders})
	return cmd
}

// embedded opens the files of an example, named relative to its folder.
type embedded string

func (e embedded) Open(name string) (io.ReadCloser, error) {
	return examples.Files.Open(path.Join(string(e), name))
}
