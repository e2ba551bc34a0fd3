package main

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"seamwright/bench/gauge"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
)

// gaugeFlags are the flags of `gauge`, as typed.
type gaugeFlags struct {
	date, learned, step string
	noLearning          bool
	one                 oneWeld
}

// learnedName is the file of what was learned, where nobody names another.
const learnedName = "learned.yaml"

func gaugeCommand() *cobra.Command {
	var f gaugeFlags
	cmd := &cobra.Command{
		Use:   "gauge JOB.yaml [READINGS.csv|READINGS.yaml]",
		Short: "Judge gauge readings of finished welds, correct speed and aim, and learn from them",
		Long: `Judge gauge readings by the acceptance of the job, each with its limit, edition and
source; a reading within half a step of the gauge from its limit is undecided, what
nobody read is not read, and neither passes. Say how to correct travel speed and
aim, and keep what the readings teach about the settings sets in a file beside the
job, which the next plan uses where the job says learned: learned.yaml. Examples:
  seamwright gauge job.yaml readings.csv --date 2031-05-12
  seamwright gauge job.yaml --seam W1 --leg "6.2 mm, 5.8 mm" --throat "4.1 mm" --step "0.1 mm"

It does not replace a qualified inspector.

Exit code 0: everything was read and accepted. 1: something is rejected, undecided or
not read. 2: the input cannot be used.`,
		RunE: func(cmd *cobra.Command, args []string) error { return f.run(cmd, args) },
	}
	fs := cmd.Flags()
	fs.StringVar(&f.date, "date", "", "date of the readings, year-month-day (default: that of the file, else today)")
	fs.StringVar(&f.learned, "learned", "", "`FILE` of what was learned (default: the one that the job names, else "+learnedName+" beside the job)")
	fs.StringVar(&f.step, "step", "", "step of the gauge")
	fs.BoolVar(&f.noLearning, "no-learning", false, "keep nothing of the readings")
	f.one.flags(cmd)
	cmd.ValidArgsFunction = jobThenReadings
	length := quantity(unit.Length)
	completers := map[string]completer{"date": words(), "learned": files("yaml", "yml"), "step": length, "tape-step": length, "seam": seamNames, "seen": words("none"),
		"travel": quantity(unit.Speed), "feed": quantity(unit.WireFeed)}
	for _, name := range []string{"at", "over", "leg", "throat", "length", "undercut", "convexity", "face"} {
		completers[name] = length
	}
	completeFlags(cmd, completers)
	return cmd
}

// jobThenReadings completes the job, then the readings.
func jobThenReadings(cmd *cobra.Command, args []string, part string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return files("yaml", "yml")(cmd, args, part)
	case 1:
		return files("csv", "yaml", "yml")(cmd, args, part)
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

func (f *gaugeFlags) run(cmd *cobra.Command, args []string) error {
	if err := f.sets(args); err != nil {
		return err
	}
	j, err := job.Decode(filepath.Base(args[0]), folder(filepath.Dir(args[0])))
	if err != nil {
		return err
	}
	seams, err := plan.Sized(j)
	if err != nil {
		return err
	}
	q := gauge.Request{Job: j, Seams: seams}
	if q.Readings, err = f.readings(args, seams); err != nil {
		return err
	}
	if q.Date, err = f.day(q.Readings); err != nil {
		return err
	}
	name := f.learnedFile(args[0], j)
	if q.Learned, err = readLearned(name); err != nil {
		return err
	}
	r := gauge.Judge(q)
	sheet := gaugeSheet{job: j, date: q.Date, result: r, system: tableSystem("", j), oneWeld: len(args) == 1, learned: filepath.Base(name)}
	if !f.noLearning && sheet.news() {
		if err := keepLearned(name, r.Learned); err != nil {
			return err
		}
		sheet.kept = name
	}
	out := bufio.NewWriter(cmd.OutOrStdout())
	passed := sheet.print(out)
	if err := out.Flush(); err != nil {
		return err
	}
	if !passed {
		return errLook
	}
	return nil
}

// sets reports arguments and flags that do not go together.
func (f *gaugeFlags) sets(args []string) error {
	switch {
	case len(args) == 0 || args[0] == "":
		return errors.New("name one job document, such as job.yaml")
	case len(args) > 2:
		return fmt.Errorf("name a job and one file of readings; found %d names", len(args))
	case len(args) == 2 && args[1] == "":
		return errors.New("name a file of readings; found an empty name")
	case len(args) == 2 && f.one.given():
		return errors.New("give a file of readings, or one weld by flags, not both; --step and --date go with either")
	case len(args) == 1 && f.one.seam == "":
		return errors.New("name a file of readings, or give one weld: --seam W1 --leg \"6.2 mm, 5.8 mm\" --step \"0.1 mm\"")
	}
	return nil
}

// readings are those of the file or of the flags.
func (f *gaugeFlags) readings(args []string, seams []plan.SizedSeam) (*job.Gaugings, error) {
	var names []string
	for i := range seams {
		names = append(names, seams[i].Name)
	}
	if len(args) == 1 {
		return f.one.readings(f.step, names)
	}
	step := 0.0
	if f.step != "" {
		var err error
		if step, err = unit.Parse(unit.Length, f.step); err != nil {
			return nil, fmt.Errorf("--step: %w", err)
		}
	}
	return job.DecodeGaugings(filepath.Base(args[1]), folder(filepath.Dir(args[1])), names, step)
}

// day is the date of the readings: as asked for, as in the file, else today.
func (f *gaugeFlags) day(readings *job.Gaugings) (string, error) {
	switch {
	case f.date != "":
		if err := job.CheckDate(f.date); err != nil {
			return "", fmt.Errorf("--date: %w", err)
		}
		return f.date, nil
	case readings.Date != "":
		return readings.Date, nil
	}
	return time.Now().Format(time.DateOnly), nil
}

// learnedFile is the name of the file of what was learned.
func (f *gaugeFlags) learnedFile(document string, j *job.Job) string {
	name := learnedName
	switch {
	case f.learned != "":
		return f.learned
	case j.Learned != nil:
		name = filepath.FromSlash(j.Learned.File)
	}
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(document), name)
}

// readLearned reads what was learned so far, nil where there is no file yet.
func readLearned(name string) (*job.Learned, error) {
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return job.DecodeLearned(filepath.Base(name), folder(filepath.Dir(name)))
}

// keepLearned writes what was learned, once it reads back.
func keepLearned(name string, l *job.Learned) error {
	text := l.Encode()
	if _, err := job.DecodeLearned(filepath.Base(name), oneText(text)); err != nil {
		return fmt.Errorf("what was learned does not read back, and %s is as it was; begin a new file with --learned: %w", name, err)
	}
	if err := writeFile(name, text); err != nil {
		return fmt.Errorf("what was learned could not be written: %w", err)
	}
	return nil
}
