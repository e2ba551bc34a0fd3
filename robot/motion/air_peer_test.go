package motion_test

import (
	"bytes"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// writeScene writes a scene as testdata/peer/scene.hpp reads it.
func writeScene(tb testing.TB, w io.Writer, s *scene) {
	tb.Helper()
	robot, chain := readSceneArm(tb, s.Arm)
	pose := func(p se3.Pose) {
		for r, t := range [3]float64{p.P.X, p.P.Y, p.P.Z} {
			fmt.Fprintf(w, " %.17g %.17g %.17g %.17g", p.R[3*r], p.R[3*r+1], p.R[3*r+2], t)
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w, "joints", chain.N())
	for i := range chain.N() {
		j := robot.ParentJoint(fmt.Sprintf("link%d", i+1))
		pose(j.Origin)
		fmt.Fprintf(w, "%.17g %.17g\n", j.Limit.Lower, j.Limit.Upper)
	}
	var bodies bytes.Buffer
	count := 0
	for i := range robot.Links {
		for _, c := range robot.Links[i].Collisions {
			count++
			fmt.Fprintf(&bodies, "%s ", strings.TrimPrefix(robot.Links[i].Name, "link"))
			switch g := c.Geometry; g.Kind {
			case urdf.Box:
				fmt.Fprintf(&bodies, "box %.17g %.17g %.17g", g.Size.X, g.Size.Y, g.Size.Z)
			case urdf.Cylinder:
				fmt.Fprintf(&bodies, "cylinder %.17g %.17g", g.Radius, g.Length)
			case urdf.Sphere:
				fmt.Fprintf(&bodies, "sphere %.17g", g.Radius)
			default:
				tb.Fatalf("geometry %v", g)
			}
			out := w
			w = &bodies
			pose(c.Origin)
			w = out
		}
	}
	fmt.Fprintln(w, "bodies", count)
	if _, err := bodies.WriteTo(w); err != nil {
		tb.Fatal(err)
	}
	fmt.Fprintln(w, "boxes", len(s.Boxes))
	for i := range s.Boxes {
		b := &s.Boxes[i]
		fmt.Fprintf(w, "%.17g %.17g %.17g", b.Size[0], b.Size[1], b.Size[2])
		pose(poseOf16(&b.T))
	}
	writeMeshes(tb, w, s, pose)
}

func writeMeshes(tb testing.TB, w io.Writer, s *scene, pose func(se3.Pose)) {
	tb.Helper()
	vertices, triangles := readPart(tb)
	fmt.Fprintln(w, "mesh", len(vertices), len(triangles))
	for _, v := range vertices {
		fmt.Fprintf(w, "%.17g %.17g %.17g\n", v.X, v.Y, v.Z)
	}
	for _, t := range triangles {
		fmt.Fprintln(w, t[0], t[1], t[2])
	}
	fmt.Fprintln(w, "meshes", len(s.Meshes))
	for i := range s.Meshes {
		pose(poseOf16(&s.Meshes[i]))
	}
}

func writePosture(w io.Writer, q *kinematics.Q) {
	for _, v := range q[:6] {
		fmt.Fprintf(w, " %.17g", v)
	}
	fmt.Fprintln(w)
}

// buildPeer compiles a program of testdata/peer. It fails, and does not skip,
// where the library is missing: a check that was not made must not read as passed.
func buildPeer(tb testing.TB, name string, flags ...string) string {
	tb.Helper()
	program := filepath.Join(tb.TempDir(), name)
	args := []string{"-std=c++17", "-I/usr/include/eigen3", "-I/usr/include/ompl-1.5", "testdata/peer/" + name + ".cpp", "-o", program}
	if out, err := exec.Command("g++", append(args, flags...)...).CombinedOutput(); err != nil {
		tb.Fatalf("building %s: %v\n%s\nThis needs Debian's packages g++, libfcl-dev and libeigen3-dev, and libompl-dev for omplrrt", name, err, out)
	}
	return program
}

// runPeer runs a program of testdata/peer.
func runPeer(tb testing.TB, program string, in io.Reader, args ...string) io.Reader {
	tb.Helper()
	cmd := exec.Command(program, args...)
	var out, words bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = in, &out, &words
	if err := cmd.Run(); err != nil {
		tb.Fatalf("%s: %v\n%s", filepath.Base(program), err, words.String())
	}
	return &out
}
