package bvh_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// coordinate draws from a coarse grid, so that corners meet, faces lie in one
// plane and triangles degenerate, or from anywhere, m.
func coordinate(t *rapid.T, grid bool) float64 {
	if grid {
		return float64(rapid.IntRange(-2, 2).Draw(t, "grid")) / 4
	}
	return rapid.Float64Range(-0.6, 0.6).Draw(t, "free")
}

func point(t *rapid.T, grid bool) r3.Vec {
	return r3.Vec{X: coordinate(t, grid), Y: coordinate(t, grid), Z: coordinate(t, grid)}
}

type mesh struct {
	vertices  []r3.Vec
	triangles [][3]int32
}

func (m mesh) tree(t failer) *bvh.Tree {
	t.Helper()
	tree, err := bvh.New(m.vertices, m.triangles)
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func (m mesh) corners(i int) [3]r3.Vec {
	c := m.triangles[i]
	return [3]r3.Vec{m.vertices[c[0]], m.vertices[c[1]], m.vertices[c[2]]}
}

// anyMesh draws a soup of triangles, some of them near each other, some
// degenerate.
func anyMesh(t *rapid.T, most int) mesh {
	grid := rapid.Bool().Draw(t, "on grid")
	n := rapid.IntRange(3, most+2).Draw(t, "vertices")
	var m mesh
	for range n {
		m.vertices = append(m.vertices, point(t, grid))
	}
	for range rapid.IntRange(1, most).Draw(t, "triangles") {
		var c [3]int32
		for k := range c {
			c[k] = int32(rapid.IntRange(0, n-1).Draw(t, "corner"))
		}
		m.triangles = append(m.triangles, c)
	}
	return m
}

// anyPose draws a pose that keeps the grid or turns it anyhow.
func anyPose(t *rapid.T) se3.Pose {
	if rapid.Bool().Draw(t, "pose on grid") {
		quarter := func(s string) float64 { return float64(rapid.IntRange(0, 3).Draw(t, s)) * math.Pi / 2 }
		return se3.Pose{
			R: se3.RotZ(quarter("z")).Mul(se3.RotX(quarter("x"))),
			P: point(t, true).Scale(float64(rapid.IntRange(0, 4).Draw(t, "out"))),
		}
	}
	turn := rapid.Float64Range(-3, 3)
	return se3.Pose{
		R: se3.RotZ(turn.Draw(t, "z")).Mul(se3.RotY(turn.Draw(t, "y"))).Mul(se3.RotX(turn.Draw(t, "x"))),
		P: point(t, false).Scale(rapid.Float64Range(0, 4).Draw(t, "out")),
	}
}

// brute returns the least distance over all pairs of triangles, m.
func brute(a, b mesh, aFromB se3.Pose) float64 {
	least := math.Inf(1)
	for i := range a.triangles {
		for j := range b.triangles {
			q := b.corners(j)
			for k := range q {
				q[k] = aFromB.Apply(q[k])
			}
			least = min(least, simplexes(a.corners(i), q))
		}
	}
	return least
}

// simplexes returns the distance of two triangles by another way than the
// package's: the nearest points of every corner, edge line and plane of the
// one with every one of the other, kept where both lie within. Of plane with
// plane there is no need: crossing triangles have an edge through a face.
func simplexes(p, q [3]r3.Vec) float64 {
	least := math.Inf(1)
	for _, s := range subsets {
		for _, r := range subsets {
			if len(s) == 3 && len(r) == 3 {
				continue
			}
			if d, ok := nearestOfSpans(p, q, s, r); ok {
				least = min(least, d)
			}
		}
	}
	return least
}

var subsets = [][]int{{0}, {1}, {2}, {0, 1}, {1, 2}, {2, 0}, {0, 1, 2}}

// nearestOfSpans minimises over the affine spans of some corners of each by
// the normal equations.
func nearestOfSpans(p, q [3]r3.Vec, s, r []int) (float64, bool) {
	p0, q0 := p[s[0]], q[r[0]]
	var dirs []r3.Vec
	for _, k := range s[1:] {
		dirs = append(dirs, p[k].Sub(p0))
	}
	for _, k := range r[1:] {
		dirs = append(dirs, q[k].Sub(q0).Neg())
	}
	w := q0.Sub(p0)
	// Orthogonalise: x = sum of c_i e_i, then back to the given directions.
	n := len(dirs)
	e := make([]r3.Vec, n)
	tri := make([][]float64, n) // dirs[i] = sum over k of tri[i][k] e[k]
	for i, d := range dirs {
		tri[i] = make([]float64, n)
		for range 2 { // twice is enough
			for k := range i {
				c := d.Dot(e[k])
				tri[i][k] += c
				d = d.AddScaled(-c, e[k])
			}
		}
		tri[i][i] = d.Norm()
		if tri[i][i] < 1e-9*(1e-9+dirs[i].Norm()) {
			return 0, false // dependent: a smaller subset has the answer
		}
		e[i] = d.Scale(1 / tri[i][i])
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = w.Dot(e[i])
		for k := i + 1; k < n; k++ {
			x[i] -= x[k] * tri[k][i]
		}
		x[i] /= tri[i][i]
	}
	var sumA, sumB float64
	rest := w
	for i, c := range x {
		if c < -1e-12 {
			return 0, false
		}
		if i < len(s)-1 {
			sumA += c
		} else {
			sumB += c
		}
		rest = rest.AddScaled(-c, dirs[i])
	}
	return rest.Norm(), sumA <= 1+1e-12 && sumB <= 1+1e-12
}

const tolerance = 1e-10 // m

func TestDistanceAgainstAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose := anyMesh(t, 14), anyMesh(t, 14), anyPose(t)
		want := brute(a, b, pose)
		ta, tb := a.tree(t), b.tree(t)
		gap := ta.Distance(tb, pose)
		if math.Abs(gap.Distance-want) > tolerance {
			t.Fatalf("distance %.17g, all pairs %.17g", gap.Distance, want)
		}
		checkWitness(t, ta, tb, pose, gap)
		if hit := ta.Overlaps(tb, pose); hit != (gap.Distance == 0) {
			t.Fatalf("overlaps %v at %.17g", hit, gap.Distance)
		}
		if back := tb.Distance(ta, pose.Inv()); math.Abs(back.Distance-want) > tolerance {
			t.Fatalf("the other way round %.17g, all pairs %.17g", back.Distance, want)
		}
		start := bvh.Pair{A: int32(rapid.IntRange(-1, ta.Len()).Draw(t, "a")), B: int32(rapid.IntRange(-1, tb.Len()).Draw(t, "b"))}
		warm := ta.DistanceFrom(tb, pose, start)
		if math.Abs(warm.Distance-gap.Distance) > tolerance {
			t.Fatalf("from %v %.17g, afresh %.17g", start, warm.Distance, gap.Distance)
		}
		checkWitness(t, ta, tb, pose, warm)
		for _, limit := range []float64{0, 0.1, want * 0.999, want * 1.001, want + 0.2} {
			under, near := ta.DistanceUnder(tb, pose, limit, start)
			switch {
			case near != (want < limit) && math.Abs(want-limit) > tolerance:
				t.Fatalf("under %g: %v at %.17g", limit, near, want)
			case near && math.Abs(under.Distance-want) > tolerance:
				t.Fatalf("under %g: %.17g, want %.17g", limit, under.Distance, want)
			case !near && under.Distance != limit:
				t.Fatalf("under %g: %.17g", limit, under.Distance)
			}
			if clear := ta.Clears(tb, pose, limit); clear != (want >= limit && want > bvh.Touch) && math.Abs(want-limit) > tolerance {
				t.Fatalf("clears %g: %v at %.17g", limit, clear, want)
			}
		}
	})
}

func TestMovingBothChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose, move := anyMesh(t, 20), anyMesh(t, 20), anyPose(t), anyPose(t)
		before := a.tree(t).Distance(b.tree(t), pose)
		moved := mesh{triangles: a.triangles}
		for _, v := range a.vertices {
			moved.vertices = append(moved.vertices, move.Apply(v))
		}
		after := moved.tree(t).Distance(b.tree(t), move.Mul(pose))
		if math.Abs(before.Distance-after.Distance) > tolerance {
			t.Fatalf("%.17g before, %.17g after", before.Distance, after.Distance)
		}
	})
}

// cube is the surface of an axis-parallel cube about the origin.
func cube(half float64) mesh {
	var m mesh
	for i := range 8 {
		s := func(bit int) float64 { return half * float64(i>>bit&1*2-1) }
		m.vertices = append(m.vertices, r3.Vec{X: s(0), Y: s(1), Z: s(2)})
	}
	for _, f := range [][4]int32{{0, 1, 3, 2}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 3, 7, 6}, {0, 2, 6, 4}, {1, 3, 7, 5}} {
		m.triangles = append(m.triangles, [3]int32{f[0], f[1], f[2]}, [3]int32{f[0], f[2], f[3]})
	}
	return m
}

func TestCubes(t *testing.T) {
	big, small := cube(1).tree(t), cube(0.25).tree(t)
	at := func(x, y, z float64) se3.Pose { return se3.Translation(r3.Vec{X: x, Y: y, Z: z}) }
	turned := func(p se3.Pose, r se3.Rot) se3.Pose { p.R = r; return p }
	rows := []struct {
		name string
		pose se3.Pose
		want float64
	}{
		{"face to face", at(3, 0, 0), 1.75},
		{"edge to edge", at(2.25, 2.25, 0), math.Sqrt2},
		{"corner to corner", at(2.25, 2.25, 2.25), math.Sqrt(3)},
		{"faces touch", at(1.25, 0.1, 0.2), 0},
		{"edges touch", at(1.25, 1.25, 0), 0},
		{"corners touch", at(1.25, 1.25, 1.25), 0},
		{"crossing", at(1.1, 0, 0), 0},
		{"faces in one plane inside", at(0.75, 0, 0), 0},
		{"inside, skin to skin", at(0, 0, 0), 0.75},
		{"inside, nearer one side", at(0, -0.5, 0), 0.25},
		{"edge to face", turned(at(3, 0, 0), se3.RotZ(math.Pi/4)), 2 - 0.25*math.Sqrt2},
		{"far", at(1e5, 0, 0), 1e5 - 1.25},
	}
	for _, row := range rows {
		gap := big.Distance(small, row.pose)
		if math.Abs(gap.Distance-row.want) > 1e-12*max(1, row.want) {
			t.Errorf("%s: %.17g, want %.17g", row.name, gap.Distance, row.want)
		}
		checkWitness(t, big, small, row.pose, gap)
		if hit := big.Overlaps(small, row.pose); hit != (row.want == 0) {
			t.Errorf("%s: overlaps %v", row.name, hit)
		}
	}
}

func TestPosesAndLimitsThatAreNoNumbers(t *testing.T) {
	tree := cube(1).tree(t)
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		pose := se3.Translation(r3.Vec{Y: x})
		if gap := tree.Distance(tree, pose); !math.IsNaN(gap.Distance) || gap.Pair != bvh.NoPair() {
			t.Errorf("at %v: %v", x, gap)
		}
		if tree.Clears(tree, pose, 0) || !tree.Overlaps(tree, pose) {
			t.Errorf("at %v: reads as clear", x)
		}
	}
	far := se3.Translation(r3.Vec{Y: 5})
	if tree.Clears(tree, far, math.NaN()) || !tree.Clears(tree, far, 3) || tree.Clears(tree, far, 3.001) {
		t.Error("Clears at 3 m")
	}
	if gap, near := tree.DistanceUnder(tree, far, math.NaN(), bvh.NoPair()); near || !math.IsNaN(gap.Distance) {
		t.Errorf("under NaN: %v", gap)
	}
	if _, near := tree.DistanceUnder(tree, far, -1, bvh.NoPair()); near {
		t.Error("under -1: near")
	}
}

func TestMeshesThatAreRefused(t *testing.T) {
	corners := []r3.Vec{{}, {X: 1}, {Y: 1}}
	with := func(p r3.Vec) []r3.Vec { return append([]r3.Vec{p}, corners...) }
	rows := []struct {
		name      string
		vertices  []r3.Vec
		triangles [][3]int32
		want      string
	}{
		{"empty", corners, nil, "a mesh without triangles has no surface: give at least one triangle"},
		{"index too large", corners, [][3]int32{{0, 1, 2}, {0, 1, 3}}, "triangle 1 names vertex 3, but there are 3 vertices, counted from 0"},
		{"index below 0", corners, [][3]int32{{0, -1, 2}}, "triangle 0 names vertex -1, but there are 3 vertices, counted from 0"},
		{"not a number", with(r3.Vec{X: math.NaN()}), [][3]int32{{0, 1, 2}}, "vertex 0 is at (NaN, 0, 0) m: coordinates are finite and at most 1e+06 m"},
		{"too far", with(r3.Vec{Z: -2e6}), [][3]int32{{3, 2, 0}}, "vertex 0 is at (0, 0, -2e+06) m: coordinates are finite and at most 1e+06 m"},
	}
	for _, row := range rows {
		if _, err := bvh.New(row.vertices, row.triangles); err == nil || err.Error() != row.want {
			t.Errorf("%s: %v, want %s", row.name, err, row.want)
		}
	}
	if _, err := bvh.New(with(r3.Vec{X: math.NaN()}), [][3]int32{{1, 2, 3}}); err != nil {
		t.Errorf("a vertex that no triangle uses: %v", err)
	}
}

func TestNoQueryAllocates(t *testing.T) {
	a, b := cube(1).tree(t), cube(0.5).tree(t)
	pose := se3.Translation(r3.Vec{X: 3, Y: 0.3})
	var kept strings.Builder // keeps the answers in use
	if n := testing.AllocsPerRun(100, func() {
		gap := a.Distance(b, pose)
		gap = a.DistanceFrom(b, pose, gap.Pair)
		_, near := a.DistanceUnder(b, pose, 0.1, gap.Pair)
		if near || !a.Clears(b, pose, 0.01) || a.Overlaps(b, pose) {
			kept.WriteString("wrong")
		}
	}); n != 0 || kept.Len() > 0 {
		t.Errorf("%v allocations %s", n, kept.String())
	}
}
