package export

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// The files of a plan folder.
const (
	PlanFile     = "plan.json"
	StepsFile    = "steps.csv"
	TraceFile    = "trace.csv"
	FindingsFile = "findings.json"
)

var files = []string{PlanFile, StepsFile, TraceFile, FindingsFile}

// Plan writes plan.json.
func Plan(w io.Writer, j *job.Job, p *plan.Plan) error { return writeJSON(w, newPlan(j, p)) }

// Findings writes findings.json.
func Findings(w io.Writer, p *plan.Plan) error { return writeJSON(w, newFindings(p.Findings)) }

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}

// Folder writes a plan into the folder dir, all files or none: they are
// written and synced in a folder beside it, which then takes dir's name. An
// older plan in dir is replaced; a folder that holds anything else is refused,
// so that no file of the user's is ever lost.
func Folder(dir string, j *job.Job, p *plan.Plan) error {
	dir = filepath.Clean(dir)
	if err := checkTarget(dir); err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-new-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(fresh) // after the rename there is nothing left to remove
	if err := os.Chmod(fresh, 0o755); err != nil {
		return err
	}
	write := map[string]func(io.Writer) error{
		PlanFile:     func(w io.Writer) error { return Plan(w, j, p) },
		StepsFile:    func(w io.Writer) error { return Steps(w, p) },
		TraceFile:    func(w io.Writer) error { return Trace(w, p) },
		FindingsFile: func(w io.Writer) error { return Findings(w, p) },
	}
	for _, name := range files {
		if err := writeFile(filepath.Join(fresh, name), write[name]); err != nil {
			return err
		}
	}
	return swap(dir, fresh)
}

// checkTarget refuses a folder that holds more than an older plan.
func checkTarget(dir string) error {
	entries, err := os.ReadDir(dir)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return err
	}
	var foreign []string
	for _, e := range entries {
		if !slices.Contains(files, e.Name()) || !e.Type().IsRegular() {
			foreign = append(foreign, e.Name())
		}
	}
	if len(foreign) > 0 {
		return fmt.Errorf("%s holds files that are not a plan's (%s); name an empty or a new folder", dir, strings.Join(foreign[:min(3, len(foreign))], ", "))
	}
	return nil
}

// swap gives the folder fresh the name dir. An older dir is moved aside first
// and removed last, so that at every instant one whole plan exists.
func swap(dir, fresh string) error {
	if err := syncDir(fresh); err != nil {
		return err
	}
	old := fresh + "-old"
	err := os.Rename(dir, old)
	switch {
	case err == nil:
		defer os.RemoveAll(old)
	case !os.IsNotExist(err):
		return err
	}
	if err := os.Rename(fresh, dir); err != nil {
		os.Rename(old, dir) // best effort: the older plan keeps its name
		return err
	}
	return syncDir(filepath.Dir(dir))
}

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	defer f.Close()
	w := bufio.NewWriterSize(f, 1<<16)
	if err := write(w); err != nil {
		return err
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return f.Close()
}

func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}
