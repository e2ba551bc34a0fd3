package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"seamwright/bench/export"
	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/bench/prove"
	"seamwright/unit"
)

func planCommand() *cobra.Command {
	var dir, units string
	var only []string
	var quiet, keys bool
	cmd := &cobra.Command{
		Use:   "plan JOB.yaml -o DIR",
		Short: "Plan and check a job: torch targets, postures, speeds, heat, findings",
		Long: `Plan and check a job.

Reads the job document and every file it names, and writes plan.json, steps.csv,
trace.csv and findings.json into DIR, and for every seam that bends a drawing of
what comes out along it into DIR/profile; where the job names a welding procedure,
its filled sheet into procedure.html, to print: all or none. Prints what was
planned and every finding.

Exit code 0: fit. 1: planned, but findings stop it. 2: the input cannot be used.`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if dir == "" {
				return errors.New("say where the plan goes: -o DIR, an empty or a new folder")
			}
			if _, err := unit.ParseSystem(units); units != "" && err != nil {
				return err
			}
			files := folder(filepath.Dir(args[0]))
			j, err := job.Decode(filepath.Base(args[0]), files)
			if err != nil {
				return err
			}
			j, said, err := onlySeams(j, only)
			if err != nil {
				return err
			}
			r := report{out: cmd.OutOrStdout(), system: tableSystem(units, j), keys: keys}
			return planJob(cmd.Context(), planning{document: args[0], dir: dir, job: j, said: said, progress: progress(cmd.ErrOrStderr(), quiet)}, r)
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "", "folder to write the plan into (required)")
	cmd.Flags().StringVar(&units, "units", "", "units of the table: metric or inch (default: those of the job)")
	cmd.Flags().BoolVar(&keys, "keys", false, "print the values to key in at the controller, in the job's own convention")
	cmd.Flags().BoolVarP(&quiet, "quiet", "q", false, "show no progress")
	cmd.Flags().StringArrayVar(&only, "only", nil, "plan this `SEAM` alone, to look at it; may be repeated; such a plan is never fit")
	cmd.ValidArgsFunction = once(files("yaml", "yml"))
	completeFlags(cmd, map[string]completer{"out": folders, "units": words("metric", "inch"), "only": seamNames})
	return cmd
}

func oneJob(_ *cobra.Command, args []string) error {
	switch {
	case len(args) != 1:
		return fmt.Errorf("name one job document, such as job.yaml; found %d names", len(args))
	case args[0] == "":
		return errors.New("name one job document, such as job.yaml; found an empty name")
	}
	return nil
}

// tableSystem is the system of units that was asked for, or that of the job:
// inches where its points were read in inches.
func tableSystem(asked string, j *job.Job) unit.System {
	if system, err := unit.ParseSystem(asked); err == nil {
		return system
	}
	if j.Keying.Length == "in" {
		return unit.InchPound
	}
	return unit.Metric
}

// planning is a job that is to be planned into a folder. document is where it was
// read from, empty where it is no file of its own; said are findings about what was
// asked for.
type planning struct {
	document, dir string
	job           *job.Job
	said          []finding.Finding
	progress      plan.Progress
}

// planJob plans, writes the folder and prints the table. A folder that cannot
// be written is told before the planning, not after it.
func planJob(ctx context.Context, a planning, r report) error {
	if err := export.CheckFolder(a.dir); err != nil {
		return err
	}
	p, err := plan.Make(ctx, a.job, a.progress)
	if err != nil {
		return err
	}
	p.Findings = append(p.Findings, a.said...)
	files, err := provedFiles(a, p)
	if err == nil {
		err = export.Folder(a.dir, files)
	}
	if err != nil {
		return fmt.Errorf("the plan could not be written: %w", err)
	}
	table := bufio.NewWriter(r.out)
	r.out = table
	if err := r.print(a.job, p, a.dir); err != nil {
		return err
	}
	if err := table.Flush(); err != nil {
		return fmt.Errorf("the plan is in %s, but its table could not be printed: %w", a.dir, err)
	}
	if finding.Worst(p.Findings) == finding.Stop {
		return errStopped
	}
	return nil
}

// provedFiles are the files of a plan, proved as they will be written: only the proof
// may call a plan fit. Where it does not hold and no finding says so, one is added for
// each constraint that is broken.
func provedFiles(a planning, p *plan.Plan) ([]export.File, error) {
	document := seenFrom(a.dir, a.document)
	files, err := export.Files(a.job, p, document)
	if err != nil {
		return nil, err
	}
	v, err := proveFiles(files, a.job, p)
	if err != nil {
		return nil, err
	}
	if len(v.Untold) == 0 {
		return files, nil
	}
	p.Findings = append(p.Findings, unproven(v)...)
	return export.Files(a.job, p, document)
}

// proveFiles proves a plan that is not written yet.
func proveFiles(files []export.File, j *job.Job, p *plan.Plan) (*prove.Verdict, error) {
	f, err := prove.Read(func(name string) ([]byte, error) {
		for _, f := range files {
			if f.Name == name {
				return f.Data, nil
			}
		}
		return nil, os.ErrNotExist
	})
	if err != nil {
		return nil, err
	}
	return f.ProveAmong(j, p.Scene)
}

// unproven are the findings of a proof that does not hold.
func unproven(v *prove.Verdict) (list []finding.Finding) {
	for _, u := range v.Untold {
		where := finding.Place{}
		if u.Seam != "" {
			where = finding.AtSeam(u.Seam)
		}
		text := u.Text
		if text == "" {
			text = fmt.Sprintf("%.4g %s, limit %.4g", u.Measured, u.Unit, u.Limit)
		}
		f := finding.Newf(finding.ProofFails, where, "the proof does not hold: %s: %s (%s)", u.Constraint, text, u.Where)
		if u.Text == "" {
			f = f.Values(u.Measured, u.Limit, u.Unit)
		}
		list = append(list, f)
	}
	return list
}

// seenFrom is the path of a file as it is found from the folder dir, with slashes;
// its whole path where there is no way from there, and nothing of no file.
func seenFrom(dir, file string) string {
	if file == "" {
		return ""
	}
	whole, err := filepath.Abs(file)
	if err != nil {
		whole = file
	}
	from, err := filepath.Abs(dir)
	if err == nil {
		if real, err := filepath.EvalSymlinks(from); err == nil {
			from = real
		}
		if path, err := filepath.Rel(from, whole); err == nil {
			whole = path
		}
	}
	return filepath.ToSlash(whole)
}

// folder opens the files that a job names, relative to the job's own folder.
type folder string

func (f folder) Open(name string) (io.ReadCloser, error) {
	path := filepath.FromSlash(name)
	if !filepath.IsAbs(path) {
		path = filepath.Join(string(f), path)
	}
	return os.Open(path)
}

// progress returns a callback that writes a line to a terminal, and nothing
// anywhere else.
func progress(w io.Writer, quiet bool) plan.Progress {
	f, ok := w.(*os.File)
	if !ok || quiet {
		return nil
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return func(done, of int, what string) {
		fmt.Fprintf(f, "\r\x1b[K%d of %d  %s", done, of, what)
		if done == of {
			fmt.Fprint(f, "\r\x1b[K")
		}
	}
}
