package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"seamwright/bench/job"
	"seamwright/bench/prove"
)

func proveCommand() *cobra.Command {
	var document, out string
	cmd := &cobra.Command{
		Use:   "prove DIR",
		Short: "Prove a plan folder again from its files alone",
		Long: `Prove a plan folder again from its files alone.

Reads the folder that plan wrote, the job document and the files that it names,
and computes every constraint again from the joint values: poses, limits, speeds,
angles, settings, heat, clearances. Nothing in it plans. Prints one row for every
constraint, with the margin and the place of the least, and what was not checked.

Exit code 0: fit. 1: not fit. 2: the folder or the job cannot be used.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 || args[0] == "" {
				return fmt.Errorf("name one plan folder; found %d names", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			v, err := proveFolder(args[0], document)
			if err != nil {
				return err
			}
			if out != "" {
				if err := writeVerdict(out, v); err != nil {
					return err
				}
			}
			printVerdict(cmd.OutOrStdout(), v)
			if !v.Fit {
				return errStopped
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&document, "job", "", "the job `FILE` that was planned, where it is no longer where the plan has it")
	cmd.Flags().StringVarP(&out, "out", "o", "", "write the verdict into this `FILE` as JSON too")
	return cmd
}

// proveFolder proves the plan in a folder against a job document.
func proveFolder(dir, document string) (*prove.Verdict, error) {
	f, err := prove.Read(planFiles(dir))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", dir, err)
	}
	if document == "" {
		if f.JobPath() == "" {
			return nil, fmt.Errorf("%s does not know where its job stands: name the document with --job JOB.yaml", dir)
		}
		document = filepath.FromSlash(f.JobPath())
		if !filepath.IsAbs(document) {
			document = filepath.Join(realFolder(dir), document)
		}
	}
	j, err := job.Decode(filepath.Base(document), folder(filepath.Dir(document)))
	if err != nil {
		return nil, err
	}
	v, err := f.Prove(j)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", dir, err)
	}
	return v, nil
}

// realFolder is the folder that a name stands for where it is a link.
func realFolder(dir string) string {
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		return real
	}
	return dir
}

// mostPlan is the most that a file of a plan folder may hold, bytes: a job of a
// thousand seams stays far below.
const mostPlan = 1 << 30

// planFiles returns the files of a plan folder, refusing what is no plain file and
// what is too large.
func planFiles(dir string) prove.Files {
	return func(name string) ([]byte, error) {
		if !fs.ValidPath(name) {
			return nil, fmt.Errorf("%q is no name of a file in the folder", name)
		}
		path := filepath.Join(dir, filepath.FromSlash(name))
		info, err := os.Stat(path)
		switch {
		case errors.Is(err, os.ErrNotExist):
			return nil, fmt.Errorf("there is no %s: name the folder that the plan was written into", name)
		case err != nil:
			return nil, err
		case !info.Mode().IsRegular():
			return nil, fmt.Errorf("%s is no plain file", name)
		case info.Size() > mostPlan:
			return nil, fmt.Errorf("%s has %d bytes, %d at most are read", name, info.Size(), mostPlan)
		}
		return os.ReadFile(path)
	}
}

func writeVerdict(name string, v *prove.Verdict) error {
	text, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(name, append(text, '\n'), 0o644)
}

// printVerdict prints a row for every constraint, then what is broken.
func printVerdict(out io.Writer, v *prove.Verdict) {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "constraint\toutcome\tleast margin\tmeasured\tlimit\tunit\twhere\tchecked")
	for i := range v.Rows {
		r := &v.Rows[i]
		cells := []string{r.Name, r.Outcome.String(), "", "", "", "", r.Where, fmt.Sprint(r.Checked)}
		if r.Known {
			cells[2], cells[3], cells[4], cells[5] = fmt.Sprintf("%.4g", r.Margin), fmt.Sprintf("%.4g", r.Measured), fmt.Sprintf("%.4g", r.Limit), r.Unit
		}
		fmt.Fprintln(w, strings.Join(cells, "\t"))
	}
	w.Flush()
	for i := range v.Rows {
		if r := &v.Rows[i]; r.Note != "" {
			fmt.Fprintf(out, "\nnote  %s: %s\n", r.Name, r.Note)
		}
	}
	for i := range v.Rows {
		r := &v.Rows[i]
		for _, b := range r.Breaches {
			text := b.Text
			if text == "" {
				text = fmt.Sprintf("%.6g %s, limit %.6g", b.Measured, r.Unit, b.Limit)
			}
			fmt.Fprintf(out, "\n%s  %s: %s\n", r.Outcome, r.Name, text)
			fmt.Fprintf(out, "      at %s\n", b.Where)
		}
	}
	for _, code := range v.Stops {
		fmt.Fprintf(out, "\nSTOP  the plan's own finding %s\n", code)
	}
	verdict := "NOT FIT"
	if v.Fit {
		verdict = "FIT to dry run"
	}
	fmt.Fprintf(out, "\n%s\n", verdict)
}
