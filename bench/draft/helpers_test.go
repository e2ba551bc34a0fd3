package draft_test

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
	"seamwright/bench/job"
	"seamwright/robot/urdf"
)

// memory holds files by name.
type memory map[string]string

func (m memory) Open(name string) (io.ReadCloser, error) {
	text, ok := m[name]
	if !ok {
		return nil, fmt.Errorf("open %s: %w", name, os.ErrNotExist)
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

// armText is one of the example arms, both invented.
func armText(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "arms", "kittiwake.urdf"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func parseArm(t testing.TB, text string) *draft.Arm {
	t.Helper()
	r, err := urdf.Parse(strings.NewReader(text), "arm.urdf")
	if err != nil {
		t.Fatal(err)
	}
	return &draft.Arm{File: "arm.urdf", Robot: r}
}

// torch are answers that give a torch by its measurements.
func torch() map[string]string {
	return map[string]string{"torch": "measured", "torch.body": "215 mm", "torch.neck": "118 mm", "torch.neck_angle": "35 deg",
		"torch.nozzle": "20 mm", "torch.tip_recess": "2 mm", "torch.stick_out": "14 mm"}
}

// read reads a table as far as it goes with the answers.
func read(t testing.TB, table string, known intake.Known) (intake.Table, []intake.Point, []intake.Problem) {
	t.Helper()
	read, questions, err := intake.Read([]byte(table), known)
	if err != nil {
		t.Fatal(err)
	}
	if len(questions) > 0 {
		t.Fatalf("questions about the table: %+v", questions)
	}
	points, problems := intake.Apply(read)
	return read, points, problems
}

// input is a table with its answers, ready to be made.
func input(t testing.TB, table string, answers map[string]string) draft.Input {
	t.Helper()
	all := draft.Answers{}
	for id, v := range answers {
		all[id] = draft.Answer{Value: v, How: draft.Answered}
	}
	in, points, problems := read(t, table, intake.Known{Answers: all.Plain()})
	return draft.Input{Source: "points.csv", Table: in, Points: points, Missing: problems, Slips: intake.Suspicions(points, in.Stated),
		Arm: parseArm(t, armText(t)), Answers: all}
}

// decode reads a document as a job.
func decode(t testing.TB, d draft.Document, more memory) (*job.Job, error) {
	t.Helper()
	m := memory{}
	for name, text := range more {
		m[name] = text
	}
	if _, own := m["arm.urdf"]; !own {
		m["arm.urdf"] = armText(t)
	}
	for _, f := range d.Files {
		m[f.Name] = string(f.Data)
	}
	return job.Decode(draft.JobFile, m)
}

// settle takes the default of every open question, and the value of otherwise
// where there is none.
func settle(t testing.TB, in draft.Input, otherwise map[string]string) draft.Document {
	t.Helper()
	for range 100 {
		d, open, err := draft.Make(in)
		if err != nil {
			t.Fatal(err)
		}
		if len(open) == 0 {
			return d
		}
		for _, q := range open {
			if c, ok := q.Proposed(); ok {
				in.Answers[q.ID] = draft.Answer{Value: c.Value, How: draft.Accepted}
				continue
			}
			value, ok := otherwise[q.ID]
			if _, part, cut := strings.Cut(q.ID, "."); !ok && cut {
				value, ok = otherwise["."+part]
			}
			if !ok {
				t.Fatalf("no answer to %s: %s %+v", q.ID, q.Text, q.Choices)
			}
			in.Answers[q.ID] = draft.Answer{Value: value, How: draft.Answered}
		}
	}
	t.Fatal("questions without end")
	return draft.Document{}
}

func fileOf(t testing.TB, d draft.Document, name string) string {
	t.Helper()
	for _, f := range d.Files {
		if f.Name == name {
			return string(bytes.TrimRight(f.Data, "\n"))
		}
	}
	t.Fatalf("no file %s", name)
	return ""
}

// cutSeam takes the seam off the name of a question.
func cutSeam(id string) (seam, part string, ok bool) {
	if seam = draft.SeamOf(id); seam == "" {
		return "", id, false
	}
	return seam, id[len(seam)+1:], true
}

// oneBlank is a label as the document keeps it, without blanks around it.
func oneBlank(label string) string { return strings.TrimSpace(label) }
