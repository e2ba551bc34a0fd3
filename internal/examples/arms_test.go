package examples

import (
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// arms says of each example arm what its file and README.md say in words. The
// flange at zero is the sum of the lengths in the file's head.
var arms = []struct {
	file         string
	base         string // from where the chain runs to flange
	free         []int  // joints that are chosen and not solved for
	family       kinematics.Family
	atZero       se3.Pose  // base from flange with every joint at zero, m
	lower, upper []float64 // joint limits, deg or m
}{
	{
		file: "kittiwake.urdf", base: "base", family: kinematics.SphericalWrist,
		atZero: se3.Pose{R: forwards, P: r3.Vec{X: 0.070 + 0.615 + 0.095, Z: 0.385 + 0.590 + 0.045}},
		lower:  []float64{-170, -100, -200, -190, -125, -360},
		upper:  []float64{170, 130, 70, 190, 125, 360},
	},
	{
		file: "dunlin.urdf", base: "base", family: kinematics.ThreeParallel,
		atZero: se3.Pose{
			R: se3.RotColumns(r3.Vec{X: 1}, r3.Vec{Z: -1}, r3.Vec{Y: 1}),
			P: r3.Vec{Y: 0.155 + 0.105, Z: 0.190 + 0.595 + 0.540 + 0.115},
		},
		lower: []float64{-360, -360, -160, -360, -360, -360},
		upper: []float64{360, 360, 160, 360, 360, 360},
	},
	{
		file: "turnstone.urdf", base: "base", family: kinematics.General,
		atZero: se3.Pose{R: forwards, P: r3.Vec{X: 0.090 + 0.640 + 0.130, Z: 0.400 + 0.620 + 0.060 + 0.055 + 0.040}},
		lower:  []float64{-175, -105, -190, -185, -130, -360},
		upper:  []float64{175, 125, 75, 185, 130, 360},
	},
	{
		file: "redshank.urdf", base: "base", free: []int{0}, family: kinematics.WristMeet12,
		atZero: se3.Pose{R: forwards, P: r3.Vec{X: 0.050 + 0.440 + 0.110, Z: 0.360 + 0.460}},
		lower:  []float64{-170, -120, -170, -130, -175, -120, -360},
		upper:  []float64{170, 120, 170, 85, 175, 120, 360},
	},
	{
		file: "fulmar.urdf", base: "portal", free: []int{0}, family: kinematics.SphericalWrist,
		atZero: se3.Pose{R: se3.RotX(math.Pi).Mul(forwards), P: r3.Vec{X: 0.060 + 0.580 + 0.090, Z: 3.1 - 0.340 - 0.560 - 0.040}},
		lower:  []float64{-1.8, -170, -110, -200, -190, -125, -360},
		upper:  []float64{1.8, 170, 130, 70, 190, 125, 360},
	},
	{
		file: "whimbrel.urdf", base: "table_top", free: []int{0, 1}, family: kinematics.ThreeParallel,
		// Seen from the table's top, 1.150 forward of the arm and 0.800 up.
		atZero: se3.Pose{
			R: se3.RotX(math.Pi / 2),
			P: r3.Vec{X: -1.150, Y: -0.120 - 0.090, Z: 0.450 + 0.170 + 0.520 + 0.480 + 0.100 - 0.800},
		},
		lower: []float64{-720, -100, -360, -200, -160, -360, -360, -360},
		upper: []float64{720, 100, 360, 200, 160, 360, 360, 360},
	},
}

// forwards is a flange whose z looks along the base's x.
var forwards = se3.RotColumns(r3.Vec{Z: -1}, r3.Vec{Y: 1}, r3.Vec{X: 1})

// folder is where the example arms lie.
const folder = "../../examples/arms/"

func TestEveryArmIsListed(t *testing.T) {
	found, err := filepath.Glob(folder + "*.urdf")
	if err != nil || len(found) != len(arms) {
		t.Errorf("arms are %v, tested are %d, %v", found, len(arms), err)
	}
}

func TestArmsAreWhatTheySay(t *testing.T) {
	for _, arm := range arms {
		t.Run(arm.file, func(t *testing.T) {
			robot := parse(t, arm.file)
			chain, err := kinematics.NewChain(robot, arm.base, "flange")
			if err != nil {
				t.Fatal(err)
			}
			solver, err := kinematics.NewSolver(chain)
			if err != nil {
				t.Fatal(err)
			}
			var free []int
			for _, f := range solver.Free() {
				free = append(free, f.Joint)
			}
			if solver.Family() != arm.family || !solver.Exact() || !slices.Equal(free, arm.free) {
				t.Errorf("family %v, exact %v, free %v; want %v, exact, %v", solver.Family(), solver.Exact(), free, arm.family, arm.free)
			}
			var zero kinematics.Q
			var got se3.Pose
			chain.Forward(&zero, &got)
			if off := got.Minus(arm.atZero); off.Linear.Norm() > 1e-12 || off.Angular.Norm() > 1e-12 {
				t.Errorf("flange at zero %v, want %v", got, arm.atZero)
			}
			if chain.N() != len(arm.lower) {
				t.Fatalf("%d joints, want %d", chain.N(), len(arm.lower))
			}
			for i := range chain.N() {
				j := chain.Joint(i)
				per := degree
				if j.Kind == kinematics.Prismatic {
					per = 1
				}
				// The file rounds to a millionth of a radian.
				if math.Abs(j.Lower-arm.lower[i]*per) > 1e-6 || math.Abs(j.Upper-arm.upper[i]*per) > 1e-6 {
					t.Errorf("joint %s: limits %g to %g, want %g to %g deg or m", j.Name, j.Lower, j.Upper, arm.lower[i], arm.upper[i])
				}
				if !(j.Velocity > 0) || !(j.Effort > 0) {
					t.Errorf("joint %s: velocity %g, effort %g, want both stated", j.Name, j.Velocity, j.Effort)
				}
			}
		})
	}
}

// Every link of a chain has shapes to look at and the same to keep clear of,
// but for the flange's frame.
func TestArmsHaveShapes(t *testing.T) {
	for _, arm := range arms {
		robot := parse(t, arm.file)
		for i := range robot.Links {
			l := &robot.Links[i]
			if l.Name == "flange" {
				continue
			}
			if len(l.Visuals) == 0 || len(l.Visuals) != len(l.Collisions) {
				t.Errorf("%s: link %s has %d shapes to look at, %d to keep clear of", arm.file, l.Name, len(l.Visuals), len(l.Collisions))
				continue
			}
			for k := range l.Visuals {
				if l.Visuals[k].Origin != l.Collisions[k].Origin || l.Visuals[k].Geometry != l.Collisions[k].Geometry {
					t.Errorf("%s: shape %d of link %s differs", arm.file, k, l.Name)
				}
			}
		}
	}
}

func TestArmsHaveACartPlateBesideTheChain(t *testing.T) {
	for _, arm := range arms {
		if arm.base != "base" {
			continue // these stand on a floor or under a beam
		}
		robot := parse(t, arm.file)
		mount := robot.Link("mount")
		if mount == nil || len(mount.Collisions) == 0 || robot.ParentJoint("mount").Kind != urdf.Fixed {
			t.Errorf("%s: want a link mount with a shape, fixed to the base", arm.file)
		}
	}
}

// TestReferenceURDFCheck asks the reference program whether the files are URDF:
// every one of the project, tests' files included.
// Source: check_urdf of Debian's liburdfdom-tools.
func TestReferenceURDFCheck(t *testing.T) {
	checked := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".urdf" {
			return err
		}
		checked++
		if out, err := exec.Command("check_urdf", path).CombinedOutput(); err != nil {
			t.Errorf("check_urdf %s: %v (make packages installs it)\n%s", path, err, out)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if checked < 18 {
		t.Errorf("only %d files were found", checked)
	}
}

func parse(t *testing.T, file string) *urdf.Robot {
	t.Helper()
	f, err := os.Open(folder + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	robot, err := urdf.Parse(f, file)
	if err != nil {
		t.Fatal(err)
	}
	return robot
}
