package prove

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/unit"
)

// How true a seam as the plan draws it is held to the points and members of the job.
const (
	onLine  = 5e-6    // m: where it follows from them alone
	onCurve = 0.02e-3 // m: where plan.json tells it place by place, within 0.01 mm
	touches = 3e-3    // m: how far a touched point may be from a line laid through many
	touch   = 0.5e-3  // m: deviation of a touch by hand; it weighs nothing where all are alike
)

// lineMeters are the rows of the seams as drawn.
type lineMeters struct{ line, ends, faces *meter }

// drawn holds the seams as the plan draws them, along which everything else is held,
// against the job: the line against its points and members, the faces against its
// plates, the ends against its lengths.
func (p *proof) drawn() {
	m := lineMeters{
		line:  atMost("seam line through the job's points and members", "mm", 1/unit.MM),
		ends:  atMost("where the seam begins and ends", "mm", 1/unit.MM),
		faces: atMost("faces of the joint as the job tells them", "deg", 1/unit.Deg),
	}
	for i, l := range p.lines {
		s := &p.plan.Seams[i]
		if l == nil {
			continue
		}
		from, ok := p.placedOf(s.Name)
		if !ok {
			m.line.fail(place{seam: s.Name}, "the job has no such seam")
			continue
		}
		if math.Abs(l.length-s.Length*unit.MM) > onLine {
			m.ends.fail(place{seam: s.Name}, "its path is %.3f mm long, its length %.3f mm", l.length/unit.MM, s.Length)
		}
		if s.Joint != from.doc.Joint.String() {
			m.faces.fail(place{seam: s.Name}, "a %s joint, the job has a %v", cut(s.Joint), from.doc.Joint)
		}
		d := drawnSeam{proof: p, m: &m, placed: from, line: l, file: s}
		d.check()
	}
	p.add(m.line, m.ends, m.faces)
}

// drawnSeam is one seam that is held against the job.
type drawnSeam struct {
	*proof
	placed
	m    *lineMeters
	line *seamLine
	file *seamFile
}

func (d *drawnSeam) where(what string) place { return place{seam: d.file.Name, what: what} }

// rootAt is the root at an arc length, carried back to the seam of the job.
func (d *drawnSeam) rootAt(along float64) r3.Vec { return d.old(d.line.frameAt(along).root) }

func (d *drawnSeam) check() {
	switch d.doc.Path {
	case job.PathMeeting:
		d.meeting()
	case job.PathTubeOnPlate:
		d.tubeOnPlate()
	case job.PathSaddle:
		d.saddle()
	case job.PathLine:
		d.straight()
		d.plates()
	default:
		d.bent()
		d.plates()
	}
	d.overlap()
}

// straight holds a straight seam against the line through its points.
func (d *drawnSeam) straight() {
	line, err := fit.Line(d.places(d.doc.Points), touch)
	if err != nil {
		d.m.line.fail(d.where(""), "its points: %v", err)
		return
	}
	d.alongLine(line.From, line.To)
}

// alongLine holds the seam against the line from one place to another, and its ends
// against the parts or stitches into which the job cuts that.
func (d *drawnSeam) alongLine(from, to r3.Vec) {
	dir, whole := to.Sub(from).Unit(), to.Dist(from)
	ends := [2]float64{}
	for i, s := range [2]float64{0, d.line.length} {
		at := d.rootAt(s).Sub(from)
		ends[i] = at.Dot(dir)
		d.m.line.hold(at.Reject(dir).Norm(), onLine, d.where(endName(i)))
	}
	d.endsOn(ends, whole)
}

func endName(i int) string { return [2]string{"its start", "its end"}[i] }

// endsOn holds from where to where of the whole seam (m, of length whole) the seam
// runs.
func (d *drawnSeam) endsOn(ends [2]float64, whole float64) {
	want := [2]float64{0, whole}
	switch {
	case d.stitch > 0:
		length := d.doc.Stitches.Run.Length
		off := math.Abs(ends[1] - ends[0] - length)
		if d.doc.Restart.At > 0 { // of the one that stopped the rest is welded
			off = ends[1] - ends[0] - length
		}
		d.m.ends.hold(off, onLine, d.where("its length"))
		d.m.ends.hold(max(-ends[0], ends[1]-whole), onLine, d.where("its place on the seam"))
		return
	case d.doc.Restart.At > 0:
		d.m.ends.hold(max(-ends[0], ends[1]-whole), onLine, d.where("its place on the seam"))
		return
	case d.part >= 0:
		if d.part > 0 {
			want[0] = d.doc.Split.At[d.part-1] - d.doc.Split.TieIn
		}
		if d.part < len(d.doc.Split.At) {
			want[1] = d.doc.Split.At[d.part]
		}
	}
	for i := range ends {
		d.m.ends.hold(math.Abs(ends[i]-want[i]), onLine, d.where(endName(i)))
	}
}

// overlap holds how far a closed seam runs past its start.
func (d *drawnSeam) overlap() {
	if !d.doc.Closed || d.stitch > 0 || d.part >= 0 || d.doc.Restart.At > 0 {
		return
	}
	apart := d.rootAt(d.line.length).Dist(d.rootAt(d.doc.Overlap))
	d.m.ends.hold(apart, onCurve, d.where("where it closes"))
}

// bent holds a bent seam against its points: where the path follows from them alone
// they lie on it; where it is laid through more, as near as touches are.
func (d *drawnSeam) bent() {
	points := d.places(d.doc.Points)
	limit := d.reach(len(points))
	for i, v := range points {
		if off, ok := d.off(v); ok {
			d.m.line.hold(off, limit[i], d.where(fmt.Sprintf("point %q", cut(d.doc.Points[i]))))
		}
	}
	d.roundness(points)
	if d.doc.Path == job.PathPolyline {
		d.sides(points)
	}
	if !d.doc.Closed && d.stitch == 0 && d.part < 0 && d.doc.Restart.At == 0 && d.doc.Path != job.PathSides {
		n := len(points) - 1
		for i, s := range [2]float64{0, d.line.length} {
			d.m.ends.hold(d.rootAt(s).Dist(points[i*n]), limit[i*n], d.where(endName(i)))
		}
	}
}

// reach is how far each point of a bent seam may be from it, m.
func (d *drawnSeam) reach(n int) []float64 {
	limit := make([]float64, n)
	for i := range limit {
		switch d.doc.Path {
		case job.PathSides:
			limit[i] = touches
		case job.PathArc, job.PathCircle:
			limit[i] = onCurve
			if n > 3 || d.doc.Radius > 0 || d.doc.Plane.Kind != job.FlatUnstated {
				limit[i] = touches
			}
		default:
			limit[i] = onCurve
		}
	}
	if d.doc.Path == job.PathPolyline {
		for i := range limit { // a corner that is rounded is cut off
			limit[i] = max(limit[i], d.cutOff(i))
		}
	}
	return limit
}

// cutOff is the most by which a rounded corner at point i lies beside it, m: it turns
// by a right angle and a half at most.
func (d *drawnSeam) cutOff(i int) float64 {
	radius := 0.0
	for _, c := range d.doc.Corners {
		radius = max(radius, c.Radius)
	}
	if !d.doc.Closed && (i == 0 || i == len(d.doc.Points)-1) {
		return 0
	}
	return radius * (1/math.Cos(67.5*unit.Deg) - 1)
}

// off is how far a point is from the seam; false where another part or stitch of the
// same seam is nearer to it.
func (d *drawnSeam) off(v r3.Vec) (float64, bool) {
	best, where := d.nearest(v)
	if d.part >= 0 || d.stitch > 0 || d.doc.Restart.At > 0 {
		if where < onLine || where > d.line.length-onLine {
			return 0, false
		}
	}
	return best, true
}

// nearest returns the distance of a point of the job from the seam, and where that is,
// m: by looking every millimetre, then nearer.
func (d *drawnSeam) nearest(v r3.Vec) (apart, along float64) {
	const step = 1e-3
	n := int(math.Ceil(d.line.length / step))
	apart = math.Inf(1)
	for i := range n + 1 {
		s := d.line.length * float64(i) / float64(n)
		if a := d.rootAt(s).Dist(v); a < apart {
			apart, along = a, s
		}
	}
	for w := step; w > 1e-8; w /= 2 {
		for _, s := range [2]float64{along - w, along + w} {
			if s = min(d.line.length, max(0, s)); d.rootAt(s).Dist(v) < apart {
				apart, along = d.rootAt(s).Dist(v), s
			}
		}
	}
	return apart, along
}

// roundness holds the radius of the drawing and the plane of an arc or a circle.
func (d *drawnSeam) roundness(points []r3.Vec) {
	if d.doc.Path != job.PathArc && d.doc.Path != job.PathCircle {
		return
	}
	for i := range d.line.pieces {
		piece := &d.line.pieces[i]
		if !piece.round {
			d.m.line.fail(d.where(""), "an arc that is drawn as something else")
			continue
		}
		if d.doc.Radius > 0 {
			d.m.line.hold(math.Abs(piece.radius-d.doc.Radius), onLine, d.where("its radius"))
		}
		axis := d.oldDir(piece.axis)
		want := r3.Vec{}
		switch d.doc.Plane.Kind {
		case job.FlatLevel:
			want = d.up(d.doc)
		case job.FlatDirection:
			want = d.doc.Plane.Direction
		case job.FlatTouched:
			if plane, err := fit.Plane(d.places(d.doc.Plane.Points), touch); err == nil {
				want = plane.Normal
			}
		default:
			continue
		}
		d.m.faces.hold(lineAngle(axis, want), trueFace, d.where("plane of the arc"))
	}
}

// lineAngle is the angle between two directions whose sense does not matter, rad.
func lineAngle(a, b r3.Vec) float64 { return math.Min(a.Angle(b), a.Angle(b.Neg())) }

// sides holds the straight pieces of a polyline: each lies between two points.
func (d *drawnSeam) sides(points []r3.Vec) {
	n := len(points)
	for i := range d.line.pieces {
		piece := &d.line.pieces[i]
		if piece.round || piece.told != nil {
			continue
		}
		a, b := d.rootAt(piece.begin), d.rootAt(piece.begin+piece.length)
		least := math.Inf(1)
		for k := range n {
			if k == n-1 && !d.doc.Closed {
				break
			}
			from, to := points[k], points[(k+1)%n]
			least = min(least, max(fromSegment(a, from, to), fromSegment(b, from, to)))
		}
		d.m.line.hold(least, onLine, d.where(fmt.Sprintf("side %d", i+1)))
	}
}

// fromSegment is the distance of a place from the straight way between two others, m.
func fromSegment(v, from, to r3.Vec) float64 {
	way := to.Sub(from)
	share := min(1, max(0, v.Sub(from).Dot(way)/way.Dot(way)))
	return v.Dist(from.AddScaled(share, way))
}
