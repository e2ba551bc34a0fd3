package export

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/bench/plan"
)

// The files of a plan folder.
const (
	PlanFile     = "plan.json"
	StepsFile    = "steps.csv"
	TraceFile    = "trace.csv"
	FindingsFile = "findings.json"
)

// part is one file of a plan folder.
type part struct {
	name  string
	write func(io.Writer) error
}

// Findings writes findings.json.
func Findings(w io.Writer, p *plan.Plan) error { return writeJSON(w, newFindings(p.Findings)) }

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}

// Folder writes the files of a plan into the folder dir, all of them or none: they
// are written and synced in a folder beside it, which then takes dir's name. An
// older plan in dir is replaced; a folder that holds anything else is refused,
// so that no file of the user's is ever lost. A symbolic link is followed and
// stays. The folder that the caller stands in is refused: it would be swapped
// away from under the terminal.
func Folder(dir string, files []File) error {
	parts := make([]part, len(files))
	for i, f := range files {
		parts[i] = part{f.Name, func(w io.Writer) error {
			_, err := w.Write(f.Data)
			return err
		}}
	}
	return writeFolder(dir, parts)
}

// CheckFolder returns the error that Folder would return for dir before it
// writes anything: a folder of other files, a file, the folder one stands in.
func CheckFolder(dir string) error {
	_, err := target(dir)
	return err
}

func writeFolder(dir string, parts []part) error {
	dir, err := target(dir)
	if err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	prefix := "." + filepath.Base(dir) + "-new-"
	sweep(parent, prefix)
	fresh, err := os.MkdirTemp(parent, prefix)
	if err != nil {
		return err
	}
	if err := fill(fresh, parts); err != nil {
		return errors.Join(err, remove(fresh))
	}
	return swap(dir, fresh)
}

// target returns the folder that dir means and refuses one that cannot be
// replaced.
func target(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	if info, err := os.Lstat(dir); err == nil && info.Mode()&os.ModeSymlink != 0 {
		real, err := filepath.EvalSymlinks(dir)
		if err != nil {
			return "", fmt.Errorf("%s is a link to a folder that is not there; name a folder", dir)
		}
		dir = real
	}
	info, err := os.Stat(dir)
	if os.IsNotExist(err) {
		return dir, nil
	}
	if err != nil {
		return "", err
	}
	if !info.IsDir() {
		return "", fmt.Errorf("%s is a file; name an empty or a new folder", dir)
	}
	if here, err := os.Stat("."); err == nil && os.SameFile(here, info) {
		return "", fmt.Errorf("%s is the folder you stand in, which cannot be replaced as a whole; name an empty or a new folder", dir)
	}
	return dir, refuseForeign(dir)
}

// refuseForeign refuses a folder that holds more than an older plan. The names
// of the files alone do not make a plan: plan.json has to be one.
func refuseForeign(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) == 0 {
		return err
	}
	var foreign []string
	for _, e := range entries {
		if e.IsDir() && slices.Contains(drawingDirs, e.Name()) {
			more, err := foreignDrawings(dir, e.Name())
			if err != nil {
				return err
			}
			foreign = append(foreign, more...)
		} else if !e.Type().IsRegular() || !isPlanFile(e.Name()) && !isSheet(filepath.Join(dir, e.Name())) {
			foreign = append(foreign, e.Name())
		}
	}
	if len(foreign) == 0 && !holdsPlan(dir) {
		foreign = append(foreign, entries[0].Name())
	}
	if len(foreign) == 0 {
		return nil
	}
	list := strings.Join(foreign[:min(3, len(foreign))], ", ")
	if more := len(foreign) - 3; more > 0 {
		list += fmt.Sprintf(" and %d more", more)
	}
	return fmt.Errorf("%s holds files that are not a plan's (%s); name an empty or a new folder", dir, list)
}

func isPlanFile(name string) bool {
	return slices.Contains([]string{PlanFile, StepsFile, TraceFile, FindingsFile}, name)
}

// foreignDrawings lists what a folder of drawings in dir holds besides them.
func foreignDrawings(dir, drawings string) ([]string, error) {
	entries, err := os.ReadDir(filepath.Join(dir, drawings))
	if err != nil {
		return nil, err
	}
	var foreign []string
	for _, e := range entries {
		if name := filepath.Join(drawings, e.Name()); !e.Type().IsRegular() || !isDrawing(filepath.Join(dir, name)) {
			foreign = append(foreign, name)
		}
	}
	return foreign, nil
}

// isDrawing reports whether a file begins as our drawings do.
func isDrawing(name string) bool {
	return strings.HasSuffix(name, ".svg") && begins(name, drawingMark)
}

// isSheet reports whether a file begins as the sheet of procedures does.
func isSheet(name string) bool {
	return filepath.Base(name) == ProcedureFile && begins(name, procedureMark)
}

// begins reports whether the mark stands near the beginning of a file.
func begins(name, mark string) bool {
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, 256)
	n, _ := io.ReadFull(f, head)
	return strings.Contains(string(head[:n]), mark)
}

// holdsPlan reports whether the folder's plan.json says that it is a plan.
func holdsPlan(dir string) bool {
	f, err := os.Open(filepath.Join(dir, PlanFile))
	if err != nil {
		return false
	}
	defer f.Close()
	var head struct {
		Seamwright int `json:"seamwright_plan"`
	}
	return json.NewDecoder(f).Decode(&head) == nil && head.Seamwright > 0
}

// remove takes a folder of plan files away. It never takes a file that is not
// a plan's, and then fails and leaves the folder.
func remove(dir string) error {
	for _, name := range []string{PlanFile, StepsFile, TraceFile, FindingsFile} {
		if err := os.Remove(filepath.Join(dir, name)); err != nil && !os.IsNotExist(err) {
			return err
		}
	}
	if err := removeOurs(filepath.Join(dir, ProcedureFile), isSheet); err != nil {
		return err
	}
	for _, drawings := range drawingDirs {
		if err := removeDrawings(filepath.Join(dir, drawings)); err != nil {
			return err
		}
	}
	return os.Remove(dir)
}

// removeOurs takes a file away that is ours, or empty: it may have been in the
// writing when its run was killed.
func removeOurs(name string, ours func(string) bool) error {
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() > 0 && !ours(name) {
		return nil
	}
	return os.Remove(name)
}

// removeDrawings takes away a folder of drawings, and nothing else that it may
// hold.
func removeDrawings(dir string) error {
	entries, err := os.ReadDir(dir)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return err
	}
	for _, e := range entries {
		if err := removeOurs(filepath.Join(dir, e.Name()), isDrawing); err != nil {
			return err
		}
	}
	return os.Remove(dir)
}

// sweep takes away what a killed run left beside dir. A leftover is renamed
// first: should its run be alive after all, that run then fails whole, and
// never gives dir's name to a half-emptied folder. What cannot be taken away
// does no harm and stays.
func sweep(parent, prefix string) {
	entries, err := os.ReadDir(parent)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !e.IsDir() || !strings.HasPrefix(e.Name(), prefix) {
			continue
		}
		left := filepath.Join(parent, e.Name())
		if os.Rename(left, left+"-left") == nil {
			_ = remove(left + "-left")
		}
	}
}
