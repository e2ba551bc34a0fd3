package bvh

import "seamwright/geom/r3"

// seed finds a pair of near triangles to start from: the corners spread over
// the smaller tree, each with a corner of the larger that is near it.
func (w *walk) seed() {
	small, large, pose, swapped := w.a, w.b, w.pose.Inv(), false
	if len(w.a.tris) > len(w.b.tris) {
		small, large, pose, swapped = w.b, w.a, w.pose, true
	}
	at, with := int32(-1), int32(-1)
	least := w.best * w.best
	for _, s := range small.samples {
		if slot, dd, ok := large.nearCorner(pose.Apply(s.at), least); ok {
			at, with, least = s.slot, slot, dd
		}
	}
	if at < 0 {
		return
	}
	if swapped {
		at, with = with, at
	}
	t := w.moved(with)
	w.try(at, with, &t)
}

// nearCorner returns the slot of a triangle that has a corner nearer to p (m)
// than the square root of least (m2), and its squared distance (m2). It may
// miss corners that are less than half as near as they might be.
func (t *Tree) nearCorner(p r3.Vec, least float64) (slot int32, dd float64, ok bool) {
	q := p.Sub(t.mid)
	x, y, z := float32(q.X), float32(q.Y), float32(q.Z)
	dd = least
	var stack [maxDepth + 1]visit
	if 2*float64(t.nodes[0].away(x, y, z)) >= dd {
		return 0, dd, false
	}
	for top := 1; top > 0; {
		top--
		at := stack[top]
		if 2*float64(at.key) >= dd {
			continue
		}
		n := &t.nodes[at.a]
		for n.link >= 0 {
			i := n.link
			one, two := t.nodes[i].away(x, y, z), t.nodes[i+1].away(x, y, z)
			first, second := i, i+1
			if two < one {
				first, second, one, two = second, first, two, one
			}
			if 2*float64(one) >= dd {
				n = nil
				break
			}
			if 2*float64(two) < dd {
				stack[top] = visit{a: second, key: two}
				top++
			}
			n = &t.nodes[first]
		}
		if n == nil {
			continue
		}
		first, end := n.leaf()
		for i := first; i < end; i++ {
			tri := &t.tris[i]
			for _, c := range [3]*r3.Vec{&tri.a, &tri.b, &tri.c} {
				d := c.Sub(p)
				if d2 := d.Dot(d); d2 < dd {
					slot, dd, ok = i, d2, true
				}
			}
		}
	}
	return slot, dd, ok
}

// away returns the squared distance (m2) of a point from the node's box.
func (n *node) away(x, y, z float32) float32 {
	dx, dy, dz := pos(abs32(x-n.cx)-n.hx), pos(abs32(y-n.cy)-n.hy), pos(abs32(z-n.cz)-n.hz)
	return dx*dx + dy*dy + dz*dz
}
