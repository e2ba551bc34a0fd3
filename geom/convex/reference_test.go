package convex_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Distances that elementary geometry gives in closed form; the formulas are
// derived here or, where named, from C. Ericson, Real-Time Collision Detection
// (2005), from memory.

// rounding is the share of a distance, dimensionless, to which it is proven.
const rounding = 2e-12

type caseMaker struct{ *rand.Rand }

func (r caseMaker) vec(scale float64) r3.Vec {
	return r3.Vec{X: scale * r.NormFloat64(), Y: scale * r.NormFloat64(), Z: scale * r.NormFloat64()}
}

// size draws a length of a few millimetres to a metre.
func (r caseMaker) size() float64 { return 0.005 + r.Float64()*r.Float64() }

func (r caseMaker) pose() se3.Pose { return se3.Pose{R: se3.Exp(r.vec(1.5)), P: r.vec(0.8)} }

// pointBox returns the distance of a point from a box, m.
func pointBox(p, size r3.Vec) float64 {
	over := func(x, s float64) float64 { return max(0, math.Abs(x)-s/2) }
	return r3.Vec{X: over(p.X, size.X), Y: over(p.Y, size.Y), Z: over(p.Z, size.Z)}.Norm()
}

// pointCylinder returns the distance of a point from a cylinder about z, m.
func pointCylinder(p r3.Vec, radius, length float64) float64 {
	return math.Hypot(max(0, math.Hypot(p.X, p.Y)-radius), max(0, math.Abs(p.Z)-length/2))
}

// pointCone returns the distance of a point from a frustum about z: in the
// half plane of the axis and the point, from a trapezium, m.
func pointCone(p r3.Vec, foot, top, length float64) float64 {
	x, z, h := math.Hypot(p.X, p.Y), p.Z, length/2
	if math.Abs(z) <= h && x <= foot+(top-foot)*(z+h)/length {
		return 0
	}
	segment := func(x0, z0, x1, z1 float64) float64 {
		f := ((x-x0)*(x1-x0) + (z-z0)*(z1-z0)) / ((x1-x0)*(x1-x0) + (z1-z0)*(z1-z0))
		f = max(0, min(1, f))
		return math.Hypot(x-x0-f*(x1-x0), z-z0-f*(z1-z0))
	}
	side := segment(foot, -h, top, h)
	below := math.Hypot(max(0, x-foot), z+h)
	above := math.Hypot(max(0, x-top), z-h)
	return min(side, below, above)
}

// segmentSegment returns the distance of two segments p + s u and q + t v, s
// and t in 0 to 1, m: the least of the four ends against the other segment and,
// if it lies within both, of the common perpendicular.
func segmentSegment(p, u, q, v r3.Vec) float64 {
	point := func(x, a, d r3.Vec) float64 {
		if d == (r3.Vec{}) {
			return x.Dist(a)
		}
		f := max(0, min(1, x.Sub(a).Dot(d)/d.Dot(d)))
		return x.Dist(a.AddScaled(f, d))
	}
	least := min(point(p, q, v), point(p.Add(u), q, v), point(q, p, u), point(q.Add(v), p, u))
	n := u.Cross(v)
	if nn := n.Dot(n); nn > 0 {
		w := q.Sub(p)
		s, t := w.Cross(v).Dot(n)/nn, w.Cross(u).Dot(n)/nn
		if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			least = min(least, math.Abs(w.Dot(n))/math.Sqrt(nn))
		}
	}
	return least
}

func TestBallsAndCapsules(t *testing.T) {
	r := caseMaker{rand.New(rand.NewPCG(11, 1))}
	worst := map[string]float64{}
	check := func(name string, a, b convex.Solid, pose se3.Pose, want, tolerance float64) {
		t.Helper()
		want = max(0, want)
		back := pose.Inv()
		for _, got := range []float64{convex.Distance(&a, &b, &pose).Distance, convex.Distance(&b, &a, &back).Distance} {
			off := math.Abs(got - want)
			worst[name] = max(worst[name], off)
			if off > tolerance+rounding*want {
				t.Fatalf("%s: %.17g, want %.17g, at %v of %v and %v", name, got, want, pose, a, b)
			}
		}
	}
	for range 4000 {
		pose, radius := r.pose(), r.size()/4
		ball := convex.Solid{Kind: convex.Sphere, Radius: radius}
		other := convex.Solid{Kind: convex.Sphere, Radius: r.size() / 4}
		check("balls", ball, other, pose, pose.P.Norm()-ball.Radius-other.Radius, 1e-14)

		box := convex.Solid{Kind: convex.Box, Size: r3.Vec{X: r.size(), Y: r.size(), Z: r.size()}}
		check("box, ball", box, ball, pose, pointBox(pose.P, box.Size)-radius, 1e-14)

		cylinder := convex.Solid{Kind: convex.Cylinder, Radius: r.size() / 2, Length: r.size()}
		check("cylinder, ball", cylinder, ball, pose, pointCylinder(pose.P, cylinder.Radius, cylinder.Length)-radius, 1e-9)

		cone := convex.Solid{Kind: convex.Cone, Radius: r.size() / 2, TopRadius: r.size() / 2, Length: r.size()}
		if r.IntN(4) == 0 {
			cone.TopRadius = 0
		}
		check("cone, ball", cone, ball, pose, pointCone(pose.P, cone.Radius, cone.TopRadius, cone.Length)-radius, 1e-9)

		one := convex.Solid{Kind: convex.Capsule, Radius: radius, Length: r.size()}
		two := convex.Solid{Kind: convex.Capsule, Radius: r.size() / 4, Length: r.size()}
		if r.IntN(4) == 0 { // nearly or quite parallel
			pose.R = se3.Exp(r.vec(math.Pow(10, -float64(r.IntN(17)))))
		}
		u, v := r3.Vec{Z: one.Length}, pose.R.Z().Scale(two.Length)
		want := segmentSegment(u.Scale(-0.5), u, pose.P.AddScaled(-0.5, v), v)
		check("capsules", one, two, pose, want-one.Radius-two.Radius, 1e-14)
	}
	t.Logf("largest differences, m: %v", worst)
}

func TestCylindersInSimplePlaces(t *testing.T) {
	r := caseMaker{rand.New(rand.NewPCG(11, 2))}
	worst := 0.0
	for range 4000 {
		a := convex.Solid{Kind: convex.Cylinder, Radius: r.size() / 2, Length: r.size()}
		b := convex.Solid{Kind: convex.Cylinder, Radius: r.size() / 2, Length: r.size()}
		over := func(z float64) float64 { return max(0, math.Abs(z)-a.Length/2-b.Length/2) }
		spin := se3.RotZ(6 * r.Float64())
		flip := spin.Mul(se3.RotX(math.Pi * float64(r.IntN(2))))
		rows := map[string]struct {
			pose se3.Pose
			want float64
		}{}
		put := func(name string, pose se3.Pose, want float64) {
			rows[name] = struct {
				pose se3.Pose
				want float64
			}{pose, want}
		}
		at := r.vec(0.6)
		put("on one axis", se3.Pose{R: flip, P: r3.Vec{Z: at.Z}}, over(at.Z))
		put("parallel", se3.Pose{R: flip, P: at},
			math.Hypot(max(0, math.Hypot(at.X, at.Y)-a.Radius-b.Radius), over(at.Z)))
		// Square to each other, feet of the common perpendicular on both axes.
		f, g := (r.Float64()-0.5)*a.Length, (r.Float64()-0.5)*b.Length
		at.X = max(at.X, -min(a.Radius, b.Radius, a.Length/2)) // not out on the other side
		gap := a.Radius + b.Radius + at.X
		put("crosswise", se3.Pose{R: se3.RotX(math.Pi / 2).Mul(spin), P: r3.Vec{X: gap, Y: g, Z: f}}, max(0, at.X))
		// b lies on a's end: its side against the flat of a, over the middle.
		put("lying on an end", se3.Pose{R: se3.RotX(math.Pi / 2).Mul(spin), P: r3.Vec{Z: a.Length/2 + b.Radius + at.X}}, max(0, at.X))
		for name, row := range rows {
			got := convex.Distance(&a, &b, &row.pose).Distance
			worst = max(worst, math.Abs(got-row.want))
			if math.Abs(got-row.want) > 1e-9 {
				t.Fatalf("%s: %.17g, want %.17g, at %v of %v and %v", name, got, row.want, row.pose, a, b)
			}
		}
	}
	t.Logf("largest difference %.2g m", worst)
}

// boxes are held against the 15 axes on which two boxes are apart if they are at
// all (Gottschalk, Lin and Manocha 1996; from memory), and their distance
// against that of all corners and edges.
func TestBoxes(t *testing.T) {
	r := caseMaker{rand.New(rand.NewPCG(11, 3))}
	hits, worst := 0, 0.0
	for k := range 6000 {
		a := convex.Solid{Kind: convex.Box, Size: r3.Vec{X: r.size(), Y: r.size(), Z: r.size()}}
		b := convex.Solid{Kind: convex.Box, Size: r3.Vec{X: r.size(), Y: r.size(), Z: r.size()}}
		pose := r.pose()
		if k%3 == 0 {
			pose.R = se3.RotZ(math.Pi / 2 * float64(r.IntN(4))).Mul(se3.Exp(r.vec(math.Pow(10, -float64(r.IntN(17))))))
		}
		pose.P = pose.P.Scale(0.5)
		apart := math.Inf(-1)
		look := func(n r3.Vec) {
			if n.Norm() < 1e-9 {
				return
			}
			n = n.Unit()
			apart = max(apart, math.Abs(pose.P.Dot(n))-reach(a.Size, n)-reach(b.Size, pose.R.T().Apply(n)))
		}
		mine := [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}
		yours := [3]r3.Vec{pose.R.X(), pose.R.Y(), pose.R.Z()}
		for i := range 3 {
			look(mine[i])
			look(yours[i])
			for j := range 3 {
				look(mine[i].Cross(yours[j]))
			}
		}
		got := convex.Distance(&a, &b, &pose).Distance
		if hit := apart <= 0; math.Abs(apart) > 1e-12 && hit != (got == 0) {
			t.Fatalf("the axes are %g apart, distance %g, at %v of %v and %v", apart, got, pose, a, b)
		}
		if got == 0 {
			hits++
			depth, _ := convex.Depth(&a, &b, &pose)
			if depth < -apart-1e-12 || depth > -apart*(1+convex.Slack)+2e-6 {
				t.Fatalf("depth %g, the axes say %g, at %v of %v and %v", depth, -apart, pose, a, b)
			}
			continue
		}
		want := cornersAndEdges(a.Size, b.Size, pose)
		worst = max(worst, math.Abs(got-want))
		if math.Abs(got-want) > 1e-14+rounding*want {
			t.Fatalf("%.17g, want %.17g, at %v of %v and %v", got, want, pose, a, b)
		}
	}
	t.Logf("%d overlap, largest difference of the others %.2g m", hits, worst)
	if hits < 500 {
		t.Errorf("only %d boxes overlap", hits)
	}
}

// reach returns how far a box reaches along a unit direction, m.
func reach(size, n r3.Vec) float64 {
	return (math.Abs(n.X)*size.X + math.Abs(n.Y)*size.Y + math.Abs(n.Z)*size.Z) / 2
}

// cornersAndEdges returns the distance of two boxes that do not overlap, m: of
// a corner of one to the other, or of two edges.
func cornersAndEdges(a, b r3.Vec, pose se3.Pose) float64 {
	least := math.Inf(1)
	back := pose.Inv()
	corner := func(size r3.Vec, i int) r3.Vec {
		sign := func(bit int) float64 { return float64(i>>bit&1) - 0.5 }
		return r3.Vec{X: sign(0) * size.X, Y: sign(1) * size.Y, Z: sign(2) * size.Z}
	}
	for i := range 8 {
		least = min(least, pointBox(back.Apply(corner(a, i)), b), pointBox(pose.Apply(corner(b, i)), a))
		for k := range 3 {
			if i>>k&1 != 0 {
				continue
			}
			p, u := corner(a, i), corner(a, i|1<<k).Sub(corner(a, i))
			for j := range 8 {
				for l := range 3 {
					if j>>l&1 == 0 {
						q := pose.Apply(corner(b, j))
						least = min(least, segmentSegment(p, u, q, pose.Apply(corner(b, j|1<<l)).Sub(q)))
					}
				}
			}
		}
	}
	return least
}
