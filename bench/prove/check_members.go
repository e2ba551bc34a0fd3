package prove

import (
	"math"

	"seamwright/bench/job"
	"seamwright/geom/r3"
)

// rectangle is a face of a typed plate: a corner, its edges and how long they are,
// and its outward normal.
type rectangle struct {
	corner, u, v, n r3.Vec
	lu, lv          float64 // m
}

// faceOf returns a face of a typed plate. The front looks along x across; the plate
// lies behind it.
func (p *proof) faceOf(f job.MemberFace) (rectangle, bool) {
	for i := range p.job.Plates {
		t := &p.job.Plates[i]
		if t.Name != f.Plate {
			continue
		}
		u := t.Along.Unit()
		v := t.Across.Reject(u).Unit()
		n := u.Cross(v)
		c := t.Corner
		switch f.Face {
		case job.FaceFront:
			return rectangle{c, u, v, n, t.Length, t.Width}, true
		case job.FaceRear:
			return rectangle{c.AddScaled(-t.Thickness, n), u, v, n.Neg(), t.Length, t.Width}, true
		case job.FaceStart:
			return rectangle{c, v, n.Neg(), u.Neg(), t.Width, t.Thickness}, true
		case job.FaceEnd:
			return rectangle{c.AddScaled(t.Length, u), v, n.Neg(), u, t.Width, t.Thickness}, true
		case job.FaceNear:
			return rectangle{c, u, n.Neg(), v.Neg(), t.Length, t.Thickness}, true
		case job.FaceFar:
			return rectangle{c.AddScaled(t.Width, v), u, n.Neg(), v, t.Length, t.Thickness}, true
		}
	}
	return rectangle{}, false
}

// off is how far a place is from the plane of the face, m.
func (r *rectangle) off(v r3.Vec) float64 { return math.Abs(v.Sub(r.corner).Dot(r.n)) }

// tubeOf returns a typed tube.
func (p *proof) tubeOf(name string) (job.TypedTube, bool) {
	for _, t := range p.job.Tubes {
		if t.Name == name {
			return t, true
		}
	}
	return job.TypedTube{}, false
}

// offTube is how far a place is from a tube's surface of a radius, m.
func offTube(v r3.Vec, t *job.TypedTube, radius float64) float64 {
	return math.Abs(v.Sub(t.Point).Reject(t.Axis.Unit()).Norm() - radius)
}

// meeting holds the seam where two typed plates meet: it lies in both faces, and runs
// as far as both reach, trimmed as the job says.
func (d *drawnSeam) meeting() {
	m := &d.doc.Meeting
	base, ok := d.faceOf(m.Base)
	other, ok2 := d.faceOf(m.Upright)
	if !ok || !ok2 {
		d.m.line.fail(d.where(""), "its plates are not among the members")
		return
	}
	travel := base.n.Cross(other.n).Unit() // with the other plate on the left
	if m.Stands == job.PlateRight {
		travel = travel.Neg()
	}
	for _, f := range d.frames() {
		d.m.line.hold(max(base.off(f.root), other.off(f.root)), onLine, d.where(""))
		d.m.faces.hold(f.normal.Angle(base.n), trueFace, d.where("base plate"))
		d.m.faces.hold(otherFace(&f).Angle(other.n), trueFace, d.where("upright"))
		d.m.faces.hold(f.travel.Angle(travel), trueFace, d.where("travel"))
	}
	from, to := math.Inf(-1), math.Inf(1)
	start := d.rootAt(0)
	for _, r := range []*rectangle{&base, &other} {
		a, b := r.over(start, travel)
		from, to = max(from, a), min(to, b)
	}
	whole := to - from // of the line that both plates reach
	begin, end := m.From, whole
	if m.To > 0 {
		end = m.To
	}
	d.endsOn([2]float64{-from - begin, -from - begin + d.line.length}, end-begin)
}

// missing is the most by which a plate may stand off the line in which the planes
// meet, m: a root gap of 5 mm (common practice, no source).
const missing = 5e-3

// over returns from where to where, m from a place along a unit direction in the plane
// of the face, a line runs over it. Edges that it runs along may lie beside it.
func (r *rectangle) over(v, dir r3.Vec) (from, to float64) {
	from, to = math.Inf(-1), math.Inf(1)
	for _, side := range [2]struct {
		dir  r3.Vec
		long float64
	}{{r.u, r.lu}, {r.v, r.lv}} {
		at, slope := v.Sub(r.corner).Dot(side.dir), dir.Dot(side.dir)
		low, high := 0.0, side.long
		if math.Abs(slope) < 0.5 {
			low, high = -missing, side.long+missing
		}
		if math.Abs(slope) < 1e-9 {
			continue
		}
		a, b := (low-at)/slope, (high-at)/slope
		from, to = max(from, min(a, b)), min(to, max(a, b))
	}
	return from, to
}

// tubeOnPlate holds the seam round a tube that stands on a plate: it lies in the
// plate's face and on the tube's wall, and turns as far as the job says.
func (d *drawnSeam) tubeOnPlate() {
	t := &d.doc.TubeOnPlate
	plate, ok := d.faceOf(t.Plate)
	tube, ok2 := d.tubeOf(t.Tube)
	if !ok || !ok2 {
		d.m.line.fail(d.where(""), "its members are not in the job")
		return
	}
	radius := tube.Diameter / 2
	if t.Wall == job.PlateTubeInside {
		radius = tube.Inner()
	}
	for s := 0.0; s <= d.line.length; s += 1e-3 {
		v := d.rootAt(s)
		d.m.line.hold(max(plate.off(v), offTube(v, &tube, radius)), onCurve, d.where(""))
	}
	for _, f := range d.frames() {
		d.m.faces.hold(f.normal.Angle(plate.n), trueFace, d.where("base plate"))
		out := f.root.Sub(tube.Point).Reject(tube.Axis.Unit()).Unit()
		if t.Wall == job.PlateTubeInside {
			out = out.Neg()
		}
		d.m.faces.hold(otherFace(&f).Angle(squared(out, f.travel)), roundFace, d.where("tube"))
	}
	d.swept(&tube, t.Sweep)
}

// roundFace is how far the face of a tube may be from its radius at a place that a
// curve is told, rad: the places lie within 0.01 mm of it.
const roundFace = 0.1

// swept holds how far round a tube the seam goes, with its overlap.
func (d *drawnSeam) swept(tube *job.TypedTube, sweep float64) {
	if d.stitch > 0 || d.part >= 0 || d.doc.Restart.At > 0 {
		return
	}
	axis := tube.Axis.Unit()
	whole := d.line.length
	if d.doc.Closed {
		whole -= d.doc.Overlap
	}
	sum, last := 0.0, d.rootAt(0).Sub(tube.Point).Reject(axis)
	const steps = 400
	for i := 1; i <= steps; i++ {
		now := d.rootAt(whole * float64(i) / steps).Sub(tube.Point).Reject(axis)
		sum += math.Atan2(last.Cross(now).Dot(axis), last.Dot(now))
		last = now
	}
	// In m at the tube's wall: as far as the seam would begin or end elsewhere.
	d.m.ends.hold(math.Abs(sum-sweep)*tube.Diameter/2, onCurve, d.where("how far round it goes"))
}

// saddle holds the seam of a branch tube on a run tube: it lies on both.
func (d *drawnSeam) saddle() {
	s := &d.doc.Saddle
	run, ok := d.tubeOf(s.Run)
	branch, ok2 := d.tubeOf(s.Branch)
	if !ok || !ok2 {
		d.m.line.fail(d.where(""), "its tubes are not in the job")
		return
	}
	for t := 0.0; t <= d.line.length; t += 1e-3 {
		v := d.rootAt(t)
		d.m.line.hold(max(offTube(v, &run, run.Diameter/2), offTube(v, &branch, branch.Diameter/2)), onCurve, d.where(""))
	}
	for _, f := range d.frames() {
		out := f.root.Sub(run.Point).Reject(run.Axis.Unit()).Unit()
		d.m.faces.hold(f.normal.Angle(squared(out, f.travel)), roundFace, d.where("run"))
		wall := f.root.Sub(branch.Point).Reject(branch.Axis.Unit()).Unit()
		d.m.faces.hold(otherFace(&f).Angle(squared(wall, f.travel)), roundFace, d.where("branch"))
	}
	d.swept(&branch, s.Sweep)
}
