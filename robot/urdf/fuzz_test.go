package urdf_test

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/robot/urdf"
)

func parse(text string) (*urdf.Robot, error) { return urdf.Parse(strings.NewReader(text), "t.urdf") }

// FuzzParse: whatever the bytes, Parse ends with a sound robot or with problems
// that have a place and words.
func FuzzParse(f *testing.F) {
	files, err := filepath.Glob("testdata/*.urdf")
	if err != nil || len(files) == 0 {
		f.Fatalf("%d seeds, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add(joint("revolute", sound))
	f.Add(joint("continuous", `<axis xyz="1e-300 0 0"/>`))
	f.Add(visual(`<mesh filename="a.stl" scale="1 1 1"/>`))
	f.Add(around(`<joint name="j" type="fixed"><parent link="b"/><child link="b"/></joint>`))
	f.Fuzz(func(t *testing.T, text string) {
		r, err := parse(text)
		var bad *urdf.Error
		switch {
		case err == nil:
			checkSound(t, r)
		case !errors.As(err, &bad) || len(bad.Problems) == 0:
			t.Fatalf("error without problems: %v", err)
		default:
			for _, p := range bad.Problems {
				if p.Line < 1 || p.Column < 1 || p.Field == "" || p.Found == "" || p.Allowed == "" || p.Mend == "" {
					t.Fatalf("incomplete problem %+v", p)
				}
			}
		}
	})
}

// checkSound fails where a robot is not a tree of named links with proper axes.
func checkSound(t *testing.T, r *urdf.Robot) {
	t.Helper()
	if len(r.Joints) != len(r.Links)-1 || r.Link(r.Root()) == nil {
		t.Fatalf("%d links, %d joints, root %q", len(r.Links), len(r.Joints), r.Root())
	}
	for _, j := range r.Joints {
		if math.Abs(j.Axis.Norm()-1) > 1e-12 || !j.Origin.P.IsFinite() {
			t.Fatalf("joint %+v", j)
		}
		steps := 0
		for at := j.Child; at != r.Root(); at = r.ParentJoint(at).Parent {
			if steps++; steps > len(r.Joints) {
				t.Fatalf("joint %q is not connected to the root", j.Name)
			}
		}
	}
}
