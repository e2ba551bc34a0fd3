package kinematics_test

import (
	"bufio"
	"compress/gzip"
	"encoding/json"
	"math"
	"os"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// readRobot parses testdata/NAME.urdf.
func readRobot(t testing.TB, name string) *urdf.Robot {
	t.Helper()
	f, err := os.Open("testdata/" + name + ".urdf")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := urdf.Parse(f, name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// readChain returns the chain of a testdata arm with the limits of its file.
func readChain(t testing.TB, name string) *kinematics.Chain {
	t.Helper()
	return newChain(t, readRobot(t, name), "link0", "flange")
}

// readFreeChain returns the chain of a testdata arm without joint limits.
func readFreeChain(t testing.TB, name string) *kinematics.Chain {
	t.Helper()
	r := readRobot(t, name)
	for i := range r.Joints {
		if r.Joints[i].Kind == urdf.Revolute {
			r.Joints[i].Kind = urdf.Continuous
		}
	}
	return newChain(t, r, "link0", "flange")
}

func newChain(t testing.TB, r *urdf.Robot, base, flange string) *kinematics.Chain {
	t.Helper()
	c, err := kinematics.NewChain(r, base, flange)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func newSolver(t testing.TB, c *kinematics.Chain) *kinematics.Solver {
	t.Helper()
	s, err := kinematics.NewSolver(c)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// eachRow calls f with every line of testdata/NAME, a gzipped JSON-lines file.
func eachRow[T any](t testing.TB, name string, f func(T)) {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	z, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(z)
	lines.Buffer(nil, 1<<20)
	n := 0
	for lines.Scan() {
		var row T
		if err := json.Unmarshal(lines.Bytes(), &row); err != nil {
			t.Fatalf("%s line %d: %v", name, n+1, err)
		}
		f(row)
		n++
	}
	if err := lines.Err(); err != nil || n == 0 {
		t.Fatalf("%s: %d rows, %v", name, n, err)
	}
}

// poseOf turns three rows of four into a pose.
func poseOf(m []float64) se3.Pose {
	return se3.Pose{
		R: se3.Rot{m[0], m[1], m[2], m[4], m[5], m[6], m[8], m[9], m[10]},
		P: r3.Vec{X: m[3], Y: m[7], Z: m[11]},
	}
}

// largest returns the largest difference of the twelve numbers of two poses.
func largest(a, b se3.Pose) float64 {
	d := max(math.Abs(a.P.X-b.P.X), math.Abs(a.P.Y-b.P.Y), math.Abs(a.P.Z-b.P.Z))
	for i := range a.R {
		d = max(d, math.Abs(a.R[i]-b.R[i]))
	}
	return d
}

// apart returns the largest joint difference modulo whole turns, rad.
func apart(a, b []float64) float64 {
	d := 0.0
	for i := range a {
		d = max(d, math.Abs(math.Remainder(a[i]-b[i], 2*math.Pi)))
	}
	return d
}

// nearestTo returns the distance of q from the nearest of list, rad.
func nearestTo(q []float64, list [][]float64) float64 {
	d := math.Inf(1)
	for _, s := range list {
		d = min(d, apart(q, s))
	}
	return d
}

// slices of the postures in out.
func postures(out *kinematics.Solutions) [][]float64 {
	var list [][]float64
	for i := range out.N {
		list = append(list, append([]float64(nil), out.Q[i][:6]...))
	}
	return list
}

// qOf pads joint values.
func qOf(v []float64) (q kinematics.Q) {
	copy(q[:], v)
	return q
}

// checkPostures fails where Forward of a posture is not at the pose.
func checkPostures(t testing.TB, s *kinematics.Solver, pose se3.Pose, out *kinematics.Solutions) {
	t.Helper()
	for i := range out.N {
		var got se3.Pose
		s.Chain().Forward(&out.Q[i], &got)
		lin, ang := got.P.Dist(pose.P), got.R.AngleTo(pose.R)
		if lin > 1e-9 || ang > 1e-9 {
			t.Errorf("posture %d %v: forward is off by %.3g m, %.3g rad", i, out.Q[i], lin, ang)
		}
	}
}
