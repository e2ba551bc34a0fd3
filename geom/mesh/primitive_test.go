package mesh_test

import (
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// must fails the test for a primitive that was refused.
func must(t testing.TB) func(m mesh.Mesh, err error) mesh.Mesh {
	return func(m mesh.Mesh, err error) mesh.Mesh {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
}

// reporter is what tests and property tests have in common.
type reporter interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t reporter, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tolerance)
	}
}

// flatsOf is the number of flats that the documentation promises.
func flatsOf(radius, chord float64) float64 {
	return math.Max(8, math.Ceil(math.Pi/math.Acos(1-chord/radius)))
}

// Expected volumes and areas are elementary geometry: a regular n-gon in a
// circle of radius r has the area n/2 r^2 sin(2 pi/n) and the side
// 2 r sin(pi/n); pyramids and frustums follow.
func TestPrimitivesHaveTheirVolumeAndArea(t *testing.T) {
	const r, wall, l, chord = 0.05, 0.004, 0.3, 1e-4
	n := flatsOf(r, chord)
	gon := n / 2 * math.Sin(2*math.Pi/n) // area over r^2
	side := 2 * math.Sin(math.Pi/n)      // side over r
	apothem := math.Cos(math.Pi / n)     // middle of a side over r
	slant := func(foot, top float64) float64 {
		return math.Hypot(l, (foot-top)*apothem)
	}
	for _, row := range []struct {
		name         string
		mesh         mesh.Mesh
		volume, area float64
	}{
		{"box", must(t)(mesh.NewBox(r3.Vec{X: 0.1, Y: 0.2, Z: 0.3})), 0.006, 2 * (0.02 + 0.03 + 0.06)},
		{"plate", must(t)(mesh.NewPlate(0.4, 0.2, 0.01)), 0.0008, 2 * (0.08 + 0.004 + 0.002)},
		{"cylinder", must(t)(mesh.NewCylinder(r, l, chord)), gon * r * r * l, 2*gon*r*r + n*side*r*l},
		{"tube", must(t)(mesh.NewTube(r, wall, l, chord)), gon * (r*r - (r-wall)*(r-wall)) * l,
			2*gon*(r*r-(r-wall)*(r-wall)) + n*side*(r+r-wall)*l},
		{"cone", must(t)(mesh.NewCone(r, 0, l, chord)), gon * r * r * l / 3, gon*r*r + n*side*r/2*slant(r, 0)},
		{"cone on its point", must(t)(mesh.NewCone(0, r, l, chord)), gon * r * r * l / 3, gon*r*r + n*side*r/2*slant(r, 0)},
		{"frustum", must(t)(mesh.NewCone(r, 0.02, l, chord)), gon * l / 3 * (r*r + r*0.02 + 0.02*0.02),
			gon*(r*r+0.02*0.02) + n*side*(r+0.02)/2*slant(r, 0.02)},
	} {
		t.Run(row.name, func(t *testing.T) {
			near(t, "volume over expected", row.mesh.Volume()/row.volume, 1, 1e-12)
			near(t, "area over expected", row.mesh.Area()/row.area, 1, 1e-12)
			sound(t, row.mesh)
		})
	}
}

func sound(t testing.TB, m mesh.Mesh) mesh.Report {
	t.Helper()
	report, err := mesh.Check(m, mesh.CheckOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if !report.Sound() {
		t.Errorf("not sound: %s", strings.Join(report.Lines(), "; "))
	}
	return report
}

// Ball and capsule have no simple closed form for their flats: their volume and
// surface lie below the true ones, 4/3 pi r^3 + pi r^2 l and 4 pi r^2 + 2 pi r l,
// by no more than a layer as thick as the chord tolerance holds.
func TestCapsuleIsTrueWithinItsChord(t *testing.T) {
	for _, row := range []struct{ radius, length, chord float64 }{
		{0.05, 0.3, 1e-3}, {0.05, 0.3, 1e-5}, {0.05, 0, 1e-4}, {0.002, 1, 1e-4}, {0.01, 0.1, 5},
	} {
		m := must(t)(mesh.NewCapsule(row.radius, row.length, row.chord))
		report := sound(t, m)
		if report.Shells != 1 {
			t.Errorf("%+v: got %d shells", row, report.Shells)
		}
		area := 4*math.Pi*row.radius*row.radius + 2*math.Pi*row.radius*row.length
		volume := 4.0/3*math.Pi*math.Pow(row.radius, 3) + math.Pi*row.radius*row.radius*row.length
		if got := report.Volume; got > volume || got < volume-area*row.chord {
			t.Errorf("%+v: volume %g, want %g less at most %g", row, got, volume, area*row.chord)
		}
		half := row.length / 2
		for i := range m.Triangles {
			a, b, c := m.Corners(i)
			middle := a.Add(b).Add(c).Scale(1.0 / 3)
			axis := r3.Vec{Z: math.Max(-half, math.Min(half, middle.Z))}
			if d := row.radius - middle.Dist(axis); d < -1e-15 || d > row.chord {
				t.Fatalf("%+v: triangle %d lies %g m inside the true surface", row, i, d)
			}
		}
	}
}

func TestFlatsKeepTheChord(t *testing.T) {
	for _, chord := range []float64{1e-6, 1e-5, 1e-4, 1e-3, 0.02, 1} {
		m := must(t)(mesh.NewCylinder(0.05, 0.2, chord))
		worst := 0.0
		for i := range m.Triangles {
			a, b, c := m.Corners(i)
			for _, e := range [][2]r3.Vec{{a, b}, {b, c}, {c, a}} {
				if e[0].Z == e[1].Z && (a.Z != b.Z || b.Z != c.Z) { // on the wall, along the rim
					p := e[0].Lerp(e[1], 0.5)
					worst = math.Max(worst, 0.05-math.Hypot(p.X, p.Y))
				}
			}
		}
		if worst > chord {
			t.Errorf("chord %g: a flat lies %g m inside", chord, worst)
		}
	}
}

func TestPrimitivesLieWhereTheySay(t *testing.T) {
	box := func(m mesh.Mesh) mesh.Box { return m.Box() }
	for _, row := range []struct {
		name string
		got  mesh.Box
		want mesh.Box
	}{
		{"box", box(must(t)(mesh.NewBox(r3.Vec{X: 2, Y: 4, Z: 6}))), mesh.Box{Min: r3.Vec{X: -1, Y: -2, Z: -3}, Max: r3.Vec{X: 1, Y: 2, Z: 3}}},
		{"plate", box(must(t)(mesh.NewPlate(2, 4, 6))), mesh.Box{Max: r3.Vec{X: 2, Y: 4, Z: 6}}},
		{"cylinder", box(must(t)(mesh.NewCylinder(1, 4, 9))), mesh.Box{Min: r3.Vec{X: -1, Y: -1, Z: -2}, Max: r3.Vec{X: 1, Y: 1, Z: 2}}},
		{"tube", box(must(t)(mesh.NewTube(1, 0.5, 4, 9))), mesh.Box{Min: r3.Vec{X: -1, Y: -1, Z: -2}, Max: r3.Vec{X: 1, Y: 1, Z: 2}}},
		{"cone", box(must(t)(mesh.NewCone(1, 0, 4, 9))), mesh.Box{Min: r3.Vec{X: -1, Y: -1}, Max: r3.Vec{X: 1, Y: 1, Z: 4}}},
		{"capsule", box(must(t)(mesh.NewCapsule(1, 4, 9))), mesh.Box{Min: r3.Vec{X: -1, Y: -1, Z: -3}, Max: r3.Vec{X: 1, Y: 1, Z: 3}}},
	} {
		if row.got.Min.Dist(row.want.Min) > 1e-15 || row.got.Max.Dist(row.want.Max) > 1e-15 {
			t.Errorf("%s: got %v, want %v", row.name, row.got, row.want)
		}
	}
}

func TestPrimitivesRefuseWhatIsNoBody(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	try := func(_ mesh.Mesh, err error) error { return err }
	for _, row := range []struct {
		name string
		err  error
		want string
	}{
		{"flat box", try(mesh.NewBox(r3.Vec{X: 1, Y: 1})), "box: found a size along z of 0 m"},
		{"NaN plate", try(mesh.NewPlate(1, nan, 1)), "plate: found a width of NaN m"},
		{"endless cylinder", try(mesh.NewCylinder(1, inf, 0.1)), "cylinder: found a length of +Inf m"},
		{"no chord", try(mesh.NewCylinder(1, 1, 0)), "cylinder: found a chord tolerance of 0 m"},
		{"chord too fine", try(mesh.NewCylinder(1, 1, 1e-9)), "cylinder: found a chord tolerance of 1e-09 m for a radius of 1 m"},
		{"solid tube", try(mesh.NewTube(1, 1, 1, 0.1)), "tube: found a wall of 1 m; allowed: less than the radius of 1 m"},
		{"cone of no radius", try(mesh.NewCone(0, 0, 1, 0.1)), "cone: found a larger radius of 0 m"},
		{"cone turned inside out", try(mesh.NewCone(-1, 1, 1, 0.1)), "cone: found a radius of -1 m"},
		{"cone with a point that is none", try(mesh.NewCone(1, 1e-12, 1, 0.1)), "cone: found a radius of 1e-12 m"},
		{"capsule of negative length", try(mesh.NewCapsule(1, -1, 0.1)), "capsule: found a length of -1 m"},
	} {
		t.Run(row.name, func(t *testing.T) {
			if row.err == nil || !strings.HasPrefix(row.err.Error(), row.want) || !strings.Contains(row.err.Error(), "to mend: ") {
				t.Errorf("got %v, want %q and how to mend it", row.err, row.want)
			}
		})
	}
}
