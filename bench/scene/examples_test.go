package scene_test

import (
	"io"
	"io/fs"
	"os"
	"path"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
)

// folder opens files relative to a folder.
type folder struct {
	fs  fs.FS
	dir string
}

func (f folder) Open(name string) (io.ReadCloser, error) { return f.fs.Open(path.Join(f.dir, name)) }

// decode reads a job of the examples.
func decode(t testing.TB, name string) *job.Job {
	t.Helper()
	j, err := job.Decode("job.yaml", folder{os.DirFS("../../examples"), name})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// cellOf returns the cell of a job as plans have it.
func cellOf(t testing.TB, j *job.Job) *cell.Cell {
	t.Helper()
	spec := cell.Spec{WorldFromFoot: j.Cell.WorldFromBase, BaseFromPart: se3.Identity(), FlangeFromTip: j.Torch.FlangeFromTip}
	from := j.Arm.BaseLink
	joints := 0
	if j.Arm.PartLink != "" {
		table, err := kinematics.NewChain(j.Arm.Robot, j.Arm.PartLink, j.Arm.BaseLink)
		if err != nil {
			t.Fatal(err)
		}
		from, spec.Table, joints = j.Arm.PartLink, table, table.N()
	}
	chain, err := kinematics.NewChain(j.Arm.Robot, from, j.Arm.FlangeLink)
	if err != nil {
		t.Fatal(err)
	}
	if spec.Solver, err = kinematics.NewTableSolver(chain, joints); err != nil {
		t.Fatal(err)
	}
	if j.Torch.Measured {
		m := j.Torch
		pose, err := cell.Torch{Body: m.Body, Neck: m.Neck, NeckAngle: m.NeckAngle, Turn: m.Turn, Sideways: m.Sideways, TipRecess: m.TipRecess, StickOut: m.StickOut}.FlangeFromTip()
		if err != nil {
			t.Fatal(err)
		}
		spec.FlangeFromTip = pose
	}
	return cell.New(spec)
}

func TestExamplesHaveScenes(t *testing.T) {
	for _, name := range []string{"keel-cradle", "header-stand", "sluice-lug", "dock-beam"} {
		j := decode(t, name)
		s, err := scene.New(j, cellOf(t, j))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		t.Log(name, len(s.Model.Bodies()), len(s.Model.Pairs()))
		for _, c := range s.Choices {
			if !c.Kept && c.Why != "left out: fixed to each other" {
				t.Log(c)
			}
		}
		for i, p := range s.Model.Pairs() {
			b := s.Model.Bodies()
			if l := s.Limit(scene.Weld, i); l.Eased {
				t.Log(b[p.A].Name, b[p.B].Name, l)
			}
		}
	}
}
