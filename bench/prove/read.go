package prove

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
)

// The files of a plan folder that are read here.
const (
	planName     = "plan.json"
	stepsName    = "steps.csv"
	traceName    = "trace.csv"
	findingsName = "findings.json"
)

// formRead is the form of plan.json that is read here.
const formRead = 1

// Files returns the bytes of a file of a plan folder by its name.
type Files func(name string) ([]byte, error)

// Folder is a plan folder that was read.
type Folder struct {
	files    Files
	text     []byte // of plan.json
	plan     planFile
	steps    table
	trace    table
	findings []findingFile
}

// Read reads a plan folder. The error says which file cannot be used and why; what
// is only wrong is left to Prove.
func Read(folder Files) (*Folder, error) {
	f := &Folder{files: folder}
	if err := f.readPlan(folder); err != nil {
		return nil, err
	}
	if err := decodeFile(folder, findingsName, &f.findings); err != nil {
		return nil, err
	}
	for _, c := range []struct {
		name string
		into *table
	}{{stepsName, &f.steps}, {traceName, &f.trace}} {
		data, err := folder(c.name)
		if err != nil {
			return nil, err
		}
		if *c.into, err = readTable(string(data)); err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
	}
	return f, nil
}

// JobPath returns the path of the job document as seen from the folder, with
// slashes; empty where the plan knows none.
func (f *Folder) JobPath() string { return f.plan.Job.Path }

func (f *Folder) readPlan(folder Files) error {
	var err error
	if f.text, err = folder(planName); err != nil {
		return err
	}
	if err := decode(planName, f.text, &f.plan); err != nil {
		return err
	}
	p := &f.plan
	switch {
	case p.Form == 0:
		return fmt.Errorf("%s is no plan: it does not say seamwright_plan", planName)
	case p.Form != formRead:
		return fmt.Errorf("%s is a plan of form %d; form %d is read here: plan the job again", planName, p.Form, formRead)
	case p.Fit == nil:
		return fmt.Errorf("%s does not say whether the plan is fit", planName)
	case p.Seal == nil:
		return fmt.Errorf("%s has no seal: plan the job again", planName)
	case len(p.Joints) == 0:
		return fmt.Errorf("%s names no joints", planName)
	}
	return nil
}

// decodeFile reads a JSON file. A field that stands twice is refused: another reader
// might take the other one.
func decodeFile(folder Files, name string, into any) error {
	data, err := folder(name)
	if err != nil {
		return err
	}
	return decode(name, data, into)
}

func decode(name string, data []byte, into any) error {
	if err := json.Unmarshal(data, into); err != nil {
		wrong := (*json.SyntaxError)(nil)
		if errors.As(err, &wrong) {
			line := 1 + bytes.Count(data[:min(int(wrong.Offset), len(data))], []byte{'\n'})
			return fmt.Errorf("%s, line %d: %w", name, line, err)
		}
		return fmt.Errorf("%s: %w", name, err)
	}
	if key, twice := fieldTwice(data); twice {
		return fmt.Errorf("%s has the field %q twice in one place", name, key)
	}
	return nil
}
