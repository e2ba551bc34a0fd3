package prove

import (
	"fmt"
	"math"
	"sort"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// frame is the joint at one place of a seam, base frame: its root, the unit
// directions of travel, of the base plate's normal and of its open side, and the
// angle between the plates, rad.
type frame struct {
	root, travel, normal, open r3.Vec
	included                   float64
}

// seamLine is a seam as the plan draws it.
type seamLine struct {
	pieces []linePiece
	length float64 // m
}

// linePiece is a piece of a seam: straight, an arc, or told place by place.
type linePiece struct {
	begin, length float64 // m, of arc length
	from, dir     r3.Vec
	start         frame
	round         bool
	centre, axis  r3.Vec
	radius        float64
	told          []frame
	at            []float64 // m of arc length from begin, of each told frame
}

// square is how far directions that are square may be from it, dimensionless: the
// digits of the file keep a thousand times more.
const square = 1e-6

func vec(what string, v []float64) (r3.Vec, error) {
	if len(v) != 3 {
		return r3.Vec{}, fmt.Errorf("%s with %d numbers, not 3", what, len(v))
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}, nil
}

// frame reads a frame and checks that its directions are unit ones and square.
func (f *frameFile) frame() (out frame, err error) {
	for _, c := range []struct {
		what string
		from []float64
		to   *r3.Vec
	}{{"root_m", f.Root, &out.root}, {"travel", f.Travel, &out.travel}, {"base_normal", f.Normal, &out.normal}, {"base_open_side", f.Open, &out.open}} {
		if *c.to, err = vec(c.what, c.from); err != nil {
			return out, err
		}
	}
	out.included = f.Included * unit.Deg
	for _, c := range []struct {
		what string
		off  float64
	}{
		{"travel", out.travel.Norm() - 1}, {"base_normal", out.normal.Norm() - 1}, {"base_open_side", out.open.Norm() - 1},
		{"travel and base_normal", out.travel.Dot(out.normal)}, {"travel and base_open_side", out.travel.Dot(out.open)},
		{"base_normal and base_open_side", out.normal.Dot(out.open)},
	} {
		if !(math.Abs(c.off) < square) {
			return out, fmt.Errorf("%s not of unit length or not square", c.what)
		}
	}
	return out, nil
}

// line reads the seam's path.
func (s *seamFile) line() (*seamLine, error) {
	start, err := s.Start.frame()
	if err != nil {
		return nil, fmt.Errorf("start: %w", err)
	}
	if len(s.Path) == 0 {
		return nil, fmt.Errorf("no path")
	}
	l := &seamLine{}
	for i := range s.Path {
		p, err := s.Path[i].piece(start)
		if err != nil {
			return nil, fmt.Errorf("piece %d of the path: %w", i+1, err)
		}
		p.begin = l.length
		l.length += p.length
		l.pieces = append(l.pieces, p)
	}
	return l, nil
}

func (f *pieceFile) piece(start frame) (p linePiece, err error) {
	p.length, p.start = f.Length*unit.MM, start
	if f.Start != nil {
		if p.start, err = f.Start.frame(); err != nil {
			return p, err
		}
	}
	if !(p.length > 0) {
		return p, fmt.Errorf("length %g mm", f.Length)
	}
	to := r3.Vec{}
	if p.from, err = vec("from_m", f.From); err == nil {
		to, err = vec("to_m", f.To)
	}
	if err != nil {
		return p, err
	}
	switch f.Kind {
	case "line":
		d := to.Sub(p.from)
		p.dir = d.Unit()
		if math.Abs(d.Norm()-p.length) > samePlace {
			return p, fmt.Errorf("a line of %g mm whose ends are %g mm apart", f.Length, d.Norm()/unit.MM)
		}
		return p, nil
	case "arc":
		return p, f.arc(&p, to)
	case "curve":
		return p, f.places(&p)
	}
	return p, fmt.Errorf("kind %q: line, arc or curve", cut(f.Kind))
}

func (f *pieceFile) arc(p *linePiece, to r3.Vec) (err error) {
	if p.centre, err = vec("centre_m", f.Centre); err == nil {
		p.axis, err = vec("axis", f.Axis)
	}
	if err != nil {
		return err
	}
	p.round, p.radius = true, f.Radius*unit.MM
	sweep := f.Sweep * unit.Deg
	end := p.centre.Add(se3.RotAxis(p.axis, sweep).Apply(p.from.Sub(p.centre)))
	switch {
	case math.Abs(p.axis.Norm()-1) > square:
		return fmt.Errorf("an axis that is no unit direction")
	case math.Abs(p.from.Dist(p.centre)-p.radius) > samePlace || math.Abs(p.radius*sweep-p.length) > samePlace || end.Dist(to) > samePlace:
		return fmt.Errorf("an arc whose ends, radius, sweep and length do not belong together")
	}
	if len(f.Joints) > 0 {
		return f.places(p)
	}
	return nil
}

// places reads a piece that is told place by place.
func (f *pieceFile) places(p *linePiece) error {
	if len(f.Joints) < 2 {
		return fmt.Errorf("a curve of %d places", len(f.Joints))
	}
	sum := 0.0
	for i := range f.Joints {
		told, err := f.Joints[i].frame()
		if err != nil {
			return err
		}
		if i > 0 {
			sum += told.root.Dist(p.told[i-1].root)
		}
		p.told, p.at = append(p.told, told), append(p.at, sum)
	}
	if !(sum > 0) || sum > p.length*1.0001+samePlace || sum < p.length*0.99 {
		return fmt.Errorf("a curve of %g mm whose places lie %g mm apart in all", f.Length, sum/unit.MM)
	}
	for i := range p.at {
		p.at[i] *= p.length / sum
	}
	return nil
}

// frameAt returns the joint at an arc length, m.
func (l *seamLine) frameAt(along float64) frame {
	i := sort.Search(len(l.pieces), func(i int) bool { return l.pieces[i].begin > along }) - 1
	p := &l.pieces[max(0, i)]
	return p.frameAt(along - p.begin)
}

func (p *linePiece) frameAt(along float64) frame {
	switch {
	case p.told != nil:
		return p.between(along)
	case p.round:
		r := se3.RotAxis(p.axis, along/p.radius)
		f := p.start
		f.root = p.centre.Add(r.Apply(p.from.Sub(p.centre)))
		f.travel, f.normal, f.open = r.Apply(f.travel), r.Apply(f.normal), r.Apply(f.open)
		return f
	}
	f := p.start
	f.root = p.from.AddScaled(along, p.dir)
	return f
}

// between returns the joint between two told places.
func (p *linePiece) between(along float64) frame {
	i := sort.SearchFloat64s(p.at, along)
	i = min(max(1, i), len(p.at)-1)
	a, b := &p.told[i-1], &p.told[i]
	share := 0.0
	if d := p.at[i] - p.at[i-1]; d > 0 {
		share = (along - p.at[i-1]) / d
	}
	ra := se3.RotColumns(a.travel, a.open, a.normal) // of one handedness on both sides
	rb := se3.RotColumns(b.travel, b.open, b.normal)
	turn := se3.Exp(rb.Mul(ra.T()).Log().Scale(share))
	return frame{
		root: a.root.Lerp(b.root, share), travel: turn.Apply(a.travel), normal: turn.Apply(a.normal), open: turn.Apply(a.open),
		included: a.included + share*(b.included-a.included),
	}
}

// torch is what a torch pose means at one place of a seam: work angle from the base
// plate's normal to the open side, travel angle from the plane square to the travel,
// push positive, rad; the tip from the root along the travel, and where the wire
// meets the base plate's face: offset to the open side and what is left along the
// wire, m. Definitions: AWS A3.0 (READ, secondary).
type torch struct {
	work, travel             float64
	along, offset, distance  float64
	acrossOpen, acrossNormal float64
}

func (f *frame) torchOf(tip *se3.Pose) torch {
	d := tip.P.Sub(f.root)
	back := tip.R.Z().Neg() // from the arc to the torch
	t := torch{along: d.Dot(f.travel), acrossOpen: d.Dot(f.open), acrossNormal: d.Dot(f.normal)}
	n, o, w := back.Dot(f.normal), back.Dot(f.open), back.Dot(f.travel)
	t.work = math.Atan2(o, n)
	t.travel = math.Atan2(-w, math.Hypot(n, o))
	t.offset = t.acrossOpen
	if n > 1e-2 { // else the wire grazes the plate
		t.distance = t.acrossNormal / n
		t.offset -= t.distance * o
	}
	return t
}
