package bvh_test

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// The live comparison with the Flexible Collision Library, on fresh poses.

var peerSeed = flag.Uint64("fcl.seed", 0, "seed of the poses at which the collision library is asked; 0: a fresh one")

// TestLibraryLive builds testdata/peer and asks it. It fails, and does not skip,
// where the library is missing: a check that was not made must not read as
// passed.
func TestLibraryLive(t *testing.T) {
	program := filepath.Join(t.TempDir(), "fclpeer")
	if out, err := exec.Command("make", "-s", "-C", "testdata/peer", "OUT="+program).CombinedOutput(); err != nil {
		t.Fatalf("building the program that asks the collision library: %v\n%s\nThis check needs Debian's packages g++, make and libfcl-dev: tools/packages.sh", err, out)
	}
	seed := *peerSeed
	if seed == 0 {
		seed = rand.Uint64() | 1
	}
	t.Logf("poses of -fcl.seed=%d", seed)
	for k, row := range []struct {
		name string
		run  func(*testing.T, *peer)
	}{{"meshes", meshesLive}, {"solids", solidsLive}, {"solids and meshes", solidsAndMeshesLive}} {
		t.Run(row.name, func(t *testing.T) {
			row.run(t, &peer{program: program, Rand: rand.New(rand.NewPCG(seed, uint64(k)))})
		})
	}
}

// peer collects questions for the program, to be asked all at once.
type peer struct {
	bytes.Buffer
	*rand.Rand
	program string
	asked   int
}

func (p *peer) mesh(name string, m mesh) {
	fmt.Fprintf(p, "mesh %s %d %d\n", name, len(m.vertices), len(m.triangles))
	for _, v := range m.vertices {
		fmt.Fprintf(p, "%.17g %.17g %.17g\n", v.X, v.Y, v.Z)
	}
	for _, c := range m.triangles {
		fmt.Fprintf(p, "%d %d %d\n", c[0], c[1], c[2])
	}
}

func (p *peer) solid(name string, s *convex.Solid) {
	fmt.Fprintf(p, "solid %s %v", name, s.Kind)
	switch s.Kind {
	case convex.Box:
		fmt.Fprintf(p, " %.17g %.17g %.17g\n", s.Size.X, s.Size.Y, s.Size.Z)
	case convex.Sphere:
		fmt.Fprintf(p, " %.17g\n", s.Radius)
	default:
		fmt.Fprintf(p, " %.17g %.17g\n", s.Radius, s.Length)
	}
}

func (p *peer) ask(word, a, b string, at se3.Pose, more ...float64) {
	fmt.Fprintf(p, "%s %s %s", word, a, b)
	r, o := at.R, [3]float64{at.P.X, at.P.Y, at.P.Z}
	for i := range 3 {
		fmt.Fprintf(p, " %.17g %.17g %.17g %.17g", r[3*i], r[3*i+1], r[3*i+2], o[i])
	}
	for _, x := range more {
		fmt.Fprintf(p, " %.17g", x)
	}
	fmt.Fprintln(p)
	p.asked++
}

// answers asks everything and returns the first number of each answer.
func (p *peer) answers(t *testing.T) []float64 {
	t.Helper()
	cmd := exec.Command(p.program)
	cmd.Stdin = &p.Buffer
	var words bytes.Buffer
	cmd.Stderr = &words
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("asking the collision library: %v\n%s", err, words.String())
	}
	var list []float64
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); {
		var x float64
		if _, err := fmt.Sscan(strings.Fields(lines.Text())[0], &x); err != nil {
			t.Fatal(err)
		}
		list = append(list, x)
	}
	if len(list) != p.asked {
		t.Fatalf("%d answers to %d questions", len(list), p.asked)
	}
	return list
}

func (p *peer) vec(scale float64) r3.Vec {
	return r3.Vec{X: scale * p.NormFloat64(), Y: scale * p.NormFloat64(), Z: scale * p.NormFloat64()}
}

func (p *peer) pose(scale float64) se3.Pose {
	return se3.Pose{R: se3.Exp(p.vec(1.5)), P: p.vec(scale)}
}

// atMesh draws a pose whose origin is near a random triangle of a mesh.
func (p *peer) atMesh(m mesh, scale float64) se3.Pose {
	c := m.corners(p.IntN(len(m.triangles)))
	pose := p.pose(scale * p.Float64())
	pose.P = pose.P.Add(c[0].Add(c[1]).Add(c[2]).Scale(1.0 / 3))
	return pose
}

func meshesLive(t *testing.T, p *peer) {
	part, torch := packedMesh(t, "part.mesh.gz"), packedMesh(t, "torch.mesh.gz")
	a, b := part.tree(t), torch.tree(t)
	p.mesh("part", part)
	p.mesh("torch", torch)
	poses := make([]se3.Pose, 1000)
	for i := range poses {
		poses[i] = p.atMesh(part, 0.3)
		p.ask("touch", "part", "torch", poses[i])
		p.ask("distance", "part", "torch", poses[i])
		p.ask("under", "part", "torch", poses[i], 0.05)
	}
	list := p.answers(t)
	hits, worst := 0, 0.0
	for i, pose := range poses {
		touch, distance, under := list[3*i] == 1, list[3*i+1], list[3*i+2]
		gap := a.Distance(b, pose)
		if touch {
			hits++
			distance, under = 0, 0 // the library's distance of crossing triangles need not be 0
		}
		if got := a.Overlaps(b, pose); got != touch {
			t.Errorf("%v: overlaps %v, the library says %v, distance %g", pose, got, touch, gap.Distance)
		}
		worst = max(worst, math.Abs(gap.Distance-distance))
		if math.Abs(gap.Distance-distance) > 1e-12 {
			t.Errorf("%v: distance %.17g, the library says %.17g", pose, gap.Distance, distance)
		}
		if got, near := a.DistanceUnder(b, pose, 0.05, bvh.NoPair()); near != (under >= 0) || near && math.Abs(got.Distance-under) > 1e-12 {
			t.Errorf("%v: under 50 mm %v %.17g, the library says %.17g", pose, near, got.Distance, under)
		}
		if got := a.Clears(b, pose, 0.05); got != (under < 0) {
			t.Errorf("%v: clears 50 mm %v, the library says %.17g", pose, got, under)
		}
	}
	t.Logf("%d poses, %d overlap, largest difference of distance %.2g m", len(poses), hits, worst)
	if hits < 50 || hits > 950 {
		t.Errorf("%d of %d overlap: the poses are too much alike", hits, len(poses))
	}
}

// peerSolids are those that the library has too: its cones end in a point.
func (p *peer) solids() []convex.Solid {
	size := func() float64 { return 0.02 + 0.5*p.Float64()*p.Float64() }
	return []convex.Solid{
		{Kind: convex.Box, Size: r3.Vec{X: size(), Y: size(), Z: size()}},
		{Kind: convex.Cylinder, Radius: size() / 2, Length: size()},
		{Kind: convex.Sphere, Radius: size() / 2},
		{Kind: convex.Capsule, Radius: size() / 2, Length: size()},
		{Kind: convex.Cone, Radius: size() / 2, Length: size()},
	}
}

// closedForm lists the pairs for which the library has a formula. For others it
// searches until it gains less than 1e-6 m, which may be some time before it is
// there: mostly by micrometres, in one pair of 50,000 by centimetres, always too
// far. Overlaps are compared where the distance, or the depth, is more than its
// 1e-6 m.
var closedForm = map[[2]convex.Kind]bool{
	{convex.Sphere, convex.Sphere}: true, {convex.Sphere, convex.Box}: true, {convex.Sphere, convex.Capsule}: true,
	{convex.Sphere, convex.Cylinder}: true, {convex.Capsule, convex.Capsule}: true,
}

// checkSearched holds a distance (m) between the points x and y against one that
// the library searched for, or, if exact, computed. One that is shorter than the
// library's is right if the points are in their bodies: xOff and yOff say how far
// (m) they are not.
func checkSearched(t *testing.T, what any, got, library float64, exact bool, x, y r3.Vec, xOff, yOff float64) {
	t.Helper()
	if got > library+1e-9+bvh.Blur || exact && math.Abs(got-library) > 1e-11 {
		t.Errorf("%v: distance %.17g, the library says %.17g", what, got, library)
	}
	if got < library-1e-9 && (math.Abs(x.Dist(y)-got) > 1e-9 || xOff > 1e-9 || yOff > 1e-9) {
		t.Errorf("%v: distance %.17g, the library says %.17g, and points %v and %v are %g and %g m off their bodies", what, got, library, x, y, xOff, yOff)
	}
}

func solidsLive(t *testing.T, p *peer) {
	type question struct {
		a, b convex.Solid
		pose se3.Pose
	}
	var asked []question
	for range 20 {
		one, two := p.solids(), p.solids()
		for i := range one {
			name := fmt.Sprintf("a%d", i)
			p.solid(name, &one[i])
			for j := range two {
				p.solid("b", &two[j])
				for range 4 {
					q := question{one[i], two[j], p.pose(0.2)}
					p.ask("touch", name, "b", q.pose)
					p.ask("distance", name, "b", q.pose)
					asked = append(asked, q)
				}
			}
		}
	}
	list := p.answers(t)
	hits := 0
	for i, q := range asked {
		touch, distance := list[2*i] == 1, list[2*i+1]
		gap := convex.Distance(&q.a, &q.b, &q.pose)
		depth, _ := convex.Depth(&q.a, &q.b, &q.pose)
		if got := gap.Distance == 0; got != touch && gap.Distance+depth > 2e-6 {
			t.Errorf("%v and %v at %v: touch %v, the library says %v; distance %g, depth %g", q.a, q.b, q.pose, got, touch, gap.Distance, depth)
		}
		if touch {
			hits++
			continue
		}
		exact := closedForm[[2]convex.Kind{q.a.Kind, q.b.Kind}] || closedForm[[2]convex.Kind{q.b.Kind, q.a.Kind}]
		checkSearched(t, q, gap.Distance, distance, exact, gap.A, gap.B,
			beyondSolid(&q.a, gap.A), beyondSolid(&q.b, q.pose.Inv().Apply(gap.B)))
	}
	t.Logf("%d pairs, %d overlap", len(asked), hits)
	if hits < len(asked)/100 {
		t.Errorf("only %d of %d overlap", hits, len(asked))
	}
}

func solidsAndMeshesLive(t *testing.T, p *peer) {
	part := packedMesh(t, "part.mesh.gz")
	tree := part.tree(t)
	p.mesh("part", part)
	type question struct {
		s    convex.Solid
		pose se3.Pose
	}
	var asked []question
	for range 40 {
		for _, s := range p.solids() {
			p.solid("s", &s)
			for range 4 {
				q := question{s, p.atMesh(part, 0.4)}
				p.ask("touch", "part", "s", q.pose)
				p.ask("distance", "part", "s", q.pose)
				asked = append(asked, q)
			}
		}
	}
	list := p.answers(t)
	hits := 0
	for i, q := range asked {
		touch, distance := list[2*i] == 1, list[2*i+1]
		spot, _ := tree.SolidUnder(&q.s, q.pose, math.Inf(1))
		smaller := q.s
		smaller.Radius -= 2e-6
		smaller.Length -= 4e-6
		smaller.Size = smaller.Size.Sub(r3.Vec{X: 4e-6, Y: 4e-6, Z: 4e-6})
		if spot.Distance < 2e-6 && tree.ClearsSolid(&smaller, q.pose, 0) {
			continue // within the library's 1e-6 m of touching
		}
		if got := spot.Distance == 0; got != touch {
			t.Errorf("%v at %v: touches %v, the library says %v; distance %g", q.s, q.pose, got, touch, spot.Distance)
		}
		if got := tree.ClearsSolid(&q.s, q.pose, 0); got == touch {
			t.Errorf("%v at %v: clears %v, the library says %v", q.s, q.pose, got, !touch)
		}
		if touch {
			hits++
			continue
		}
		checkSearched(t, q, spot.Distance, distance, q.s.Kind == convex.Sphere, spot.At, spot.On,
			off(tree, spot.Triangle, spot.At), beyondSolid(&q.s, q.pose.Inv().Apply(spot.On)))
	}
	t.Logf("%d pairs, %d touch", len(asked), hits)
	if hits < len(asked)/20 {
		t.Errorf("only %d of %d touch", hits, len(asked))
	}
}
