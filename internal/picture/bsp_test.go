package picture

import "seamwright/geom/r3"

// slack is the distance (m) within which a point lies in a plane.
const slack = 2e-5

// face is a flat convex polygon, or a stroke where it has two points. Places
// are metres in the arm's base frame.
type face struct {
	points []r3.Vec
	edge   []bool // whether the edge after each point is drawn
	normal r3.Vec // outward; zero for a stroke
	paint  paint
}

// paint is how a face looks.
type paint struct {
	fill  string // a colour; empty for a stroke
	class string // of its edges
}

// tree orders faces by splitting space along their planes.
type tree struct {
	normal      r3.Vec
	offset      float64 // m, of the plane along its normal
	on          []face
	front, back *tree
}

// grow builds the tree of faces; nil for none. Strokes never split.
func grow(faces []face) *tree {
	if len(faces) == 0 {
		return nil
	}
	pick := splitter(faces)
	if pick < 0 {
		return &tree{on: faces}
	}
	t := &tree{normal: faces[pick].normal, offset: faces[pick].normal.Dot(faces[pick].points[0])}
	var front, back []face
	for i := range faces {
		f := &faces[i]
		switch ahead, behind := t.sides(f); {
		case ahead && behind:
			a, b := t.cut(f)
			front, back = append(front, a), append(back, b)
		case ahead:
			front = append(front, *f)
		case behind:
			back = append(back, *f)
		default:
			t.on = append(t.on, *f)
		}
	}
	t.front, t.back = grow(front), grow(back)
	return t
}

// splitter chooses the face, out of a few, that cuts the fewest others.
func splitter(faces []face) int {
	const tries = 16
	best, least := -1, 0
	step := max(1, len(faces)/tries)
	for i := 0; i < len(faces); i++ {
		f := &faces[i]
		if f.normal == (r3.Vec{}) || i%step != 0 && best >= 0 {
			continue
		}
		t := tree{normal: f.normal, offset: f.normal.Dot(f.points[0])}
		cuts, balance := 0, 0
		for k := range faces {
			ahead, behind := t.sides(&faces[k])
			switch {
			case ahead && behind:
				cuts++
			case ahead:
				balance++
			case behind:
				balance--
			}
		}
		if cost := 6*cuts + max(balance, -balance); best < 0 || cost < least {
			best, least = i, cost
		}
	}
	return best
}

// sides reports whether the face has points ahead of and behind the plane.
func (t *tree) sides(f *face) (ahead, behind bool) {
	for _, p := range f.points {
		d := t.normal.Dot(p) - t.offset
		ahead, behind = ahead || d > slack, behind || d < -slack
	}
	return ahead, behind
}

// cut divides a face at the plane. The new edge between the parts is not drawn.
func (t *tree) cut(f *face) (ahead, behind face) {
	ahead, behind = face{normal: f.normal, paint: f.paint}, face{normal: f.normal, paint: f.paint}
	n := len(f.points)
	last := n // a stroke has no edge from its end to its start
	if n == 2 {
		last = 1
	}
	for i, p := range f.points {
		d := t.normal.Dot(p) - t.offset
		if d >= -slack {
			ahead.push(p, f.edge[i])
		}
		if d <= slack {
			behind.push(p, f.edge[i])
		}
		if i == last {
			break
		}
		q := f.points[(i+1)%n]
		e := t.normal.Dot(q) - t.offset
		if d > slack && e < -slack || d < -slack && e > slack {
			at := p.Lerp(q, d/(d-e))
			ahead.push(at, f.edge[i] && e > 0)
			behind.push(at, f.edge[i] && e < 0)
		}
	}
	ahead.mend(t)
	behind.mend(t)
	return ahead, behind
}

func (f *face) push(p r3.Vec, edge bool) {
	f.points, f.edge = append(f.points, p), append(f.edge, edge)
}

// mend hides edges that lie in the cutting plane.
func (f *face) mend(t *tree) {
	n := len(f.points)
	if n == 2 {
		return
	}
	for i := range f.points {
		a, b := t.normal.Dot(f.points[i])-t.offset, t.normal.Dot(f.points[(i+1)%n])-t.offset
		if max(a, -a) <= slack && max(b, -b) <= slack {
			f.edge[i] = false
		}
	}
}

// walk visits the faces from the farthest to the nearest for an eye that looks
// from the direction eye, infinitely far away.
func (t *tree) walk(eye r3.Vec, visit func(*face)) {
	if t == nil {
		return
	}
	far, near := t.back, t.front
	if t.normal.Dot(eye) < 0 {
		far, near = near, far
	}
	far.walk(eye, visit)
	for i := range t.on {
		visit(&t.on[i])
	}
	near.walk(eye, visit)
}
