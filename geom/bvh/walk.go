package bvh

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// walk is the state of one query between two trees. It lives on the stack.
type walk struct {
	a, b  *Tree
	pose  se3.Pose // aFromB
	best  float64  // looked for: distances under this, m
	gap   Gap      // the nearest pair so far, slots instead of indices
	found bool

	// What follows serves the boxes: single precision, mid to mid.
	r00, r01, r02, r10, r11, r12, r20, r21, r22 float32
	a00, a01, a02, a10, a11, a12, a20, a21, a22 float32 // absolute values
	tx, ty, tz                                  float32
	limit                                       float32 // best, rounded up by slack
	slack                                       float32 // covers the rounding of all box arithmetic, m
	v                                           axis

	// The direction of v in double precision: in a's frame, in b's, and the
	// height of b's origin along it, m.
	along, back r3.Vec
	from        float64
}

// axis is a direction from a to b: in a's frame, with absolute values in a's
// frame and in b's. The zero value separates nothing.
type axis struct{ x, y, z, ax, ay, az, bx, by, bz float32 }

// visit is a pair of nodes still to be looked at, and the squared distance (m2)
// that their boxes are apart at least.
type visit struct {
	a, b int32
	key  float32
}

func abs32(x float32) float32 { return math.Float32frombits(math.Float32bits(x) &^ (1 << 31)) }

// pos returns x, or 0 for a negative x.
func pos(x float32) float32 {
	bits := math.Float32bits(x)
	return math.Float32frombits(bits &^ uint32(int32(bits)>>31))
}

// start prepares a query for distances under limit, m.
func (w *walk) start(a, b *Tree, aFromB se3.Pose, limit float64) {
	w.b = b
	w.place(a, aFromB, ball{b.mid, b.size}, limit)
}

// ball is a middle (m) and a radius (m).
type ball struct {
	mid  r3.Vec
	size float64
}

// place prepares a query for distances under limit, m, between a and what lies
// in the ball b of another frame.
func (w *walk) place(a *Tree, aFromB se3.Pose, b ball, limit float64) {
	w.a, w.pose = a, aFromB
	r := &aFromB.R
	t := aFromB.Apply(b.mid).Sub(a.mid)
	w.r00, w.r01, w.r02 = float32(r[0]), float32(r[1]), float32(r[2])
	w.r10, w.r11, w.r12 = float32(r[3]), float32(r[4]), float32(r[5])
	w.r20, w.r21, w.r22 = float32(r[6]), float32(r[7]), float32(r[8])
	w.a00, w.a01, w.a02 = abs32(w.r00), abs32(w.r01), abs32(w.r02)
	w.a10, w.a11, w.a12 = abs32(w.r10), abs32(w.r11), abs32(w.r12)
	w.a20, w.a21, w.a22 = abs32(w.r20), abs32(w.r21), abs32(w.r22)
	w.tx, w.ty, w.tz = float32(t.X), float32(t.Y), float32(t.Z)
	// Some twenty operations on numbers of this size, each rounded by 6e-8.
	w.slack = float32(2e-6 * (a.size + b.size + t.Norm()))
	w.under(limit)
}

// under sets the distance (m) under which pairs are still looked for.
func (w *walk) under(d float64) {
	w.best = d
	w.limit = float32(d*(1+1e-6)) + w.slack
}

// look takes q - p, from a point of a to one of b, as separating direction.
func (w *walk) look(p, q r3.Vec) {
	d := q.Sub(p)
	n := d.Norm()
	if !(n > 1e-9) {
		return
	}
	d = d.Scale(1 / n)
	e := w.pose.R.T().Apply(d)
	w.along, w.back, w.from = d, e, d.Dot(w.pose.P)
	w.v = axis{
		float32(d.X), float32(d.Y), float32(d.Z),
		float32(math.Abs(d.X)), float32(math.Abs(d.Y)), float32(math.Abs(d.Z)),
		float32(math.Abs(e.X)), float32(math.Abs(e.Y)), float32(math.Abs(e.Z)),
	}
}

// bound returns the squared distance that the boxes x of a and y of b are apart
// at least and the squared distance of their centres, both m2; near is false
// if the boxes are no nearer than the limit.
func (w *walk) bound(x, y *node) (key, centres float32, near bool) {
	limit := w.limit
	dx := w.r00*y.cx + w.r01*y.cy + w.r02*y.cz + (w.tx - x.cx)
	dy := w.r10*y.cx + w.r11*y.cy + w.r12*y.cz + (w.ty - x.cy)
	dz := w.r20*y.cx + w.r21*y.cy + w.r22*y.cz + (w.tz - x.cz)
	v := &w.v
	if v.x*dx+v.y*dy+v.z*dz-(v.ax*x.hx+v.ay*x.hy+v.az*x.hz)-(v.bx*y.hx+v.by*y.hy+v.bz*y.hz) >= limit {
		return 0, 0, false
	}
	// In a's axes: box to box, and box of a to ball of b.
	ux, uy, uz := abs32(dx)-x.hx, abs32(dy)-x.hy, abs32(dz)-x.hz
	gx := pos(ux - (w.a00*y.hx + w.a01*y.hy + w.a02*y.hz))
	gy := pos(uy - (w.a10*y.hx + w.a11*y.hy + w.a12*y.hz))
	gz := pos(uz - (w.a20*y.hx + w.a21*y.hy + w.a22*y.hz))
	key = gx*gx + gy*gy + gz*gz
	if key >= limit*limit {
		return 0, 0, false
	}
	ux, uy, uz = pos(ux), pos(uy), pos(uz)
	if reach := limit + y.r; ux*ux+uy*uy+uz*uz >= reach*reach {
		return 0, 0, false
	}
	// The same in b's axes.
	ex := abs32(w.r00*dx+w.r10*dy+w.r20*dz) - y.hx
	ey := abs32(w.r01*dx+w.r11*dy+w.r21*dz) - y.hy
	ez := abs32(w.r02*dx+w.r12*dy+w.r22*dz) - y.hz
	gx = pos(ex - (w.a00*x.hx + w.a10*x.hy + w.a20*x.hz))
	gy = pos(ey - (w.a01*x.hx + w.a11*x.hy + w.a21*x.hz))
	gz = pos(ez - (w.a02*x.hx + w.a12*x.hy + w.a22*x.hz))
	other := gx*gx + gy*gy + gz*gz
	if other >= limit*limit {
		return 0, 0, false
	}
	ex, ey, ez = pos(ex), pos(ey), pos(ez)
	if reach := limit + x.r; ex*ex+ey*ey+ez*ez >= reach*reach {
		return 0, 0, false
	}
	return max(key, other), dx*dx + dy*dy + dz*dz, true
}

// run looks at all pairs of triangles that may be nearer than the limit, or,
// if any is enough, until it has found one.
func (w *walk) run(any bool) {
	if w.found && w.best == 0 {
		return
	}
	var stack [2*maxDepth + 2]visit
	key, _, near := w.bound(&w.a.nodes[0], &w.b.nodes[0])
	if !near {
		return
	}
	stack[0] = visit{0, 0, key}
	for top := 1; top > 0; {
		top--
		at := stack[top]
		if at.key >= w.limit*w.limit {
			continue
		}
		for {
			x, y := &w.a.nodes[at.a], &w.b.nodes[at.b]
			var first, second visit
			switch {
			case x.link < 0 && y.link < 0:
				w.leaves(x, y)
				if w.found && (any || w.best == 0) {
					return
				}
			case y.link < 0 || x.link >= 0 && x.r > y.r:
				first, second = visit{a: x.link, b: at.b}, visit{a: x.link + 1, b: at.b}
			default:
				first, second = visit{a: at.a, b: y.link}, visit{a: at.a, b: y.link + 1}
			}
			if first == (visit{}) {
				break
			}
			key, centres, one := w.bound(&w.a.nodes[first.a], &w.b.nodes[first.b])
			other, others, two := w.bound(&w.a.nodes[second.a], &w.b.nodes[second.b])
			first.key, second.key = key, other
			if !one && !two {
				break
			}
			if one && two {
				if other < key || other == key && others < centres {
					first, second = second, first
				}
				stack[top] = second
				top++
			} else if two {
				first = second
			}
			at = first
		}
	}
}

// leaves compares the triangles of two leaves: first their extents along the
// direction looked along, then themselves.
func (w *walk) leaves(x, y *node) {
	i0, i1 := x.leaf()
	j0, j1 := y.leaf()
	along, back, from := w.along, w.back, w.from // w's change with what is found
	var top [leafSize]float64                    // how far each of a's triangles reaches, m
	for i := i0; i < i1; i++ {
		t := &w.a.tris[i]
		top[i-i0] = max(along.Dot(t.a), along.Dot(t.b), along.Dot(t.c))
	}
	for j := j0; j < j1; j++ {
		t := &w.b.tris[j]
		bottom := from + min(back.Dot(t.a), back.Dot(t.b), back.Dot(t.c))
		var moved triangle
		var ready bool
		for i := i0; i < i1; i++ {
			if bottom-top[i-i0] > w.best {
				continue
			}
			if !ready {
				moved, ready = w.moved(j), true
			}
			w.try(i, j, &moved)
		}
	}
}

// moved returns b's triangle in a slot, in a's frame.
func (w *walk) moved(slot int32) triangle {
	t := &w.b.tris[slot]
	p := &w.pose
	return triangle{p.Apply(t.a), p.Apply(t.b), p.Apply(t.c), p.R.Apply(t.n)}
}

// try compares a's triangle in slot i with b's in slot j, which is t in a's
// frame.
func (w *walk) try(i, j int32, t *triangle) {
	c, ok := between(&w.a.tris[i], t, w.best)
	if !ok {
		if !w.found {
			w.look(c.p, c.q)
		}
		return
	}
	if !(c.d > Touch) {
		c.d = 0
	}
	w.found = true
	w.gap = Gap{Distance: c.d, A: c.p, B: c.q, Pair: Pair{i, j}}
	w.under(c.d)
	w.look(c.p, c.q)
}
