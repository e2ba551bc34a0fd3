package prove

import (
	"math"

	"seamwright/bench/job"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/unit"
)

// trueFace is how far a face may be from what the job says of it, rad.
const trueFace = 0.01 * unit.Deg

// frames are the joints at which the faces are looked at: at the start of each piece
// and at its end, and at every place that a curve is told.
func (d *drawnSeam) frames() (out []frame) {
	for i := range d.line.pieces {
		piece := &d.line.pieces[i]
		for _, f := range piece.told {
			out = append(out, d.oldFrame(f))
		}
		if piece.told == nil {
			out = append(out, d.oldFrame(piece.frameAt(0)), d.oldFrame(piece.frameAt(piece.length)))
		}
	}
	return out
}

// plates holds the faces of a seam that the job tells by words, directions, angles or
// touches.
func (d *drawnSeam) plates() {
	for _, f := range d.frames() {
		d.basePlate(&f)
		d.otherPlate(&f)
	}
	for i := range d.line.pieces { // the travel runs with the path, but for the error of the points
		piece := &d.line.pieces[i]
		const step = 0.1e-3
		for _, s := range [2]float64{0, piece.length - step} {
			a, b := piece.frameAt(s), piece.frameAt(s+step)
			d.m.faces.hold(a.travel.Angle(b.root.Sub(a.root)), mostOff, d.where("its travel against its path"))
		}
	}
}

// mostOff is how far the travel from which angles are counted may be off the path,
// rad: the plates are touched apart from it.
const mostOff = 5 * unit.Deg

// squared is a normal made square to the travel, as the joint has it.
func squared(normal, travel r3.Vec) r3.Vec { return normal.Reject(travel).Unit() }

func (d *drawnSeam) basePlate(f *frame) {
	var want r3.Vec
	switch p := &d.doc.Base; p.Kind {
	case job.PlateUp, job.PlateLevel:
		want = d.up(d.doc)
	case job.PlateDown:
		want = d.up(d.doc).Neg()
	case job.PlateDirection:
		want = p.Direction
	case job.PlateTouched, job.PlateTouchedVertical:
		d.touched(f.normal, f.travel, p, "base plate")
		return
	default:
		d.m.faces.note = "the faces of some joints follow from their paths"
		return
	}
	d.m.faces.hold(f.normal.Angle(squared(want, f.travel)), trueFace, d.where("base plate"))
}

// touched holds a face against the plane through its touched points. Which side of it
// is welded the torch says, and the work angle with it.
func (d *drawnSeam) touched(normal, travel r3.Vec, p *job.Plate, what string) {
	points := d.places(p.Points)
	var found r3.Vec
	if p.Kind == job.PlateTouchedVertical {
		found = d.plumb(points)
	} else {
		plane, err := fit.Plane(points, touch)
		if err != nil {
			d.m.faces.fail(d.where(what), "its touched points: %v", err)
			return
		}
		found = plane.Normal
	}
	d.m.faces.hold(lineAngle(normal, squared(found, travel)), trueFace, d.where(what))
}

// plumb is the level normal of a plumb plate by points seen from above.
func (d *drawnSeam) plumb(points []r3.Vec) r3.Vec {
	up := d.up(d.doc)
	x := r3.Vec{X: 1}.Reject(up)
	if x.Norm() < 0.5 {
		x = r3.Vec{Y: 1}.Reject(up)
	}
	x = x.Unit()
	y := up.Cross(x)
	var mx, my float64
	for _, v := range points {
		mx, my = mx+v.Dot(x)/float64(len(points)), my+v.Dot(y)/float64(len(points))
	}
	var xx, xy, yy float64
	for _, v := range points {
		a, b := v.Dot(x)-mx, v.Dot(y)-my
		xx, xy, yy = xx+a*a, xy+a*b, yy+b*b
	}
	along := 0.5 * math.Atan2(2*xy, xx-yy)
	return x.Scale(-math.Sin(along)).AddScaled(math.Cos(along), y)
}

// otherFace is the outward normal of the butting member in a frame.
func otherFace(f *frame) r3.Vec {
	sin, cos := math.Sincos(f.included)
	return f.open.Scale(sin).AddScaled(-cos, f.normal)
}

func (d *drawnSeam) otherPlate(f *frame) {
	if flat(d.doc.Joint) {
		return
	}
	stands := func(left bool, included float64) {
		open := f.travel.Cross(f.normal) // to the right of the travel: the plate stands left
		if !left {
			open = open.Neg()
		}
		d.m.faces.hold(f.open.Angle(open), trueFace, d.where("open side"))
		d.m.faces.hold(math.Abs(f.included-included), trueFace, d.where("angle between the plates"))
	}
	switch p := &d.doc.Other; p.Kind {
	case job.PlateLeft:
		stands(true, math.Pi/2)
	case job.PlateRight:
		stands(false, math.Pi/2)
	case job.PlateAngleLeft:
		stands(true, p.Angle)
	case job.PlateAngleRight:
		stands(false, p.Angle)
	case job.PlateDirection:
		d.m.faces.hold(otherFace(f).Angle(squared(p.Direction, f.travel)), trueFace, d.where("upright"))
	case job.PlateTouched, job.PlateTouchedVertical:
		d.touched(otherFace(f), f.travel, p, "upright")
	default:
		d.m.faces.note = "the faces of some joints follow from their paths"
	}
}
