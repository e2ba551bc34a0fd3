package examples

import (
	"math"
	"os"
	"os/exec"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// arms says of each example arm what its file and README.md say in words. The
// flange at zero is the sum of the lengths in the file's head.
var arms = []struct {
	file   string
	family kinematics.Family
	atZero se3.Pose   // base from flange with every joint at zero, m
	lower  [6]float64 // joint limits, deg
	upper  [6]float64
}{
	{
		"kittiwake.urdf", kinematics.SphericalWrist,
		se3.Pose{
			R: se3.RotColumns(r3.Vec{Z: -1}, r3.Vec{Y: 1}, r3.Vec{X: 1}),
			P: r3.Vec{X: 0.070 + 0.615 + 0.095, Z: 0.385 + 0.590 + 0.045},
		},
		[6]float64{-170, -100, -200, -190, -125, -360},
		[6]float64{170, 130, 70, 190, 125, 360},
	},
	{
		"dunlin.urdf", kinematics.ThreeParallel,
		se3.Pose{
			R: se3.RotColumns(r3.Vec{X: 1}, r3.Vec{Z: -1}, r3.Vec{Y: 1}),
			P: r3.Vec{Y: 0.155 + 0.105, Z: 0.190 + 0.595 + 0.540 + 0.115},
		},
		[6]float64{-360, -360, -160, -360, -360, -360},
		[6]float64{360, 360, 160, 360, 360, 360},
	},
}

// folder is where the example arms lie.
const folder = "../../examples/arms/"

func TestArmsAreWhatTheySay(t *testing.T) {
	for _, arm := range arms {
		t.Run(arm.file, func(t *testing.T) {
			robot := parse(t, arm.file)
			chain, err := kinematics.NewChain(robot, "base", "flange")
			if err != nil {
				t.Fatal(err)
			}
			solver, err := kinematics.NewSolver(chain)
			if err != nil {
				t.Fatal(err)
			}
			if solver.Family() != arm.family || !solver.Exact() {
				t.Errorf("family %v, exact %v; want %v, exact", solver.Family(), solver.Exact(), arm.family)
			}
			var zero kinematics.Q
			var got se3.Pose
			chain.Forward(&zero, &got)
			if off := got.Minus(arm.atZero); off.Linear.Norm() > 1e-12 || off.Angular.Norm() > 1e-12 {
				t.Errorf("flange at zero %v, want %v", got, arm.atZero)
			}
			for i := range chain.N() {
				j := chain.Joint(i)
				// The file rounds to a millionth of a radian.
				if math.Abs(j.Lower-arm.lower[i]*math.Pi/180) > 1e-6 || math.Abs(j.Upper-arm.upper[i]*math.Pi/180) > 1e-6 {
					t.Errorf("joint %s: limits %g to %g rad, want %g to %g deg", j.Name, j.Lower, j.Upper, arm.lower[i], arm.upper[i])
				}
				if !(j.Velocity > 0) || !(j.Effort > 0) {
					t.Errorf("joint %s: velocity %g, effort %g, want both stated", j.Name, j.Velocity, j.Effort)
				}
			}
		})
	}
}

func TestArmsHaveACartPlateBesideTheChain(t *testing.T) {
	for _, arm := range arms {
		robot := parse(t, arm.file)
		mount := robot.Link("mount")
		if mount == nil || len(mount.Collisions) == 0 || robot.ParentJoint("mount").Kind != urdf.Fixed {
			t.Errorf("%s: want a link mount with a shape, fixed to the base", arm.file)
		}
	}
}

// TestReferenceURDFCheck asks the reference program whether the files are URDF.
// Source: check_urdf of Debian's liburdfdom-tools.
func TestReferenceURDFCheck(t *testing.T) {
	for _, arm := range arms {
		if out, err := exec.Command("check_urdf", folder+arm.file).CombinedOutput(); err != nil {
			t.Errorf("check_urdf %s: %v (make packages installs it)\n%s", arm.file, err, out)
		}
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
