package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/weld"
)

// MaxMiss is the largest distance (m) by which a plate may stand off the line in
// which its plane meets the other: 5 mm, the root gap from which a structural
// fillet is refused (common practice, no source).
const MaxMiss = 5e-3

// PlatesRequest says how two typed plates meet. The seam runs where the planes
// of the two surfaces meet, as far as both plates reach; From and To trim it, m
// from its start, a To of 0 leaving its end. Stands is the side of the travel on
// which the other plate stands (see Upright) and so gives the direction.
type PlatesRequest struct {
	Joint       weld.JointType
	Base, Other Surface
	Stands      Side
	From, To    float64 // m
}

// MeetPlates returns the seam, ready for New, in which two typed plates meet. It
// fails for a butt or an edge joint, whose seam is an edge (Surface.Edges), for
// a side that is not stated, planes nearly parallel (curve.MinCross), plates
// that miss the line in which their planes meet or each other along it, and a
// trim outside what is left.
func MeetPlates(r PlatesRequest) (Spec, error) {
	if flat(r.Joint) {
		return Spec{}, fmt.Errorf("seam: the plates of a %v joint do not meet in a line of their faces: weld along an edge of one of them", r.Joint)
	}
	if r.Stands != Left && r.Stands != Right {
		return Spec{}, fmt.Errorf("seam: on which side of the travel the other plate stands is not told; say left or right, seen along the travel with the base plate's welded side up")
	}
	travel := r.Base.n.Cross(r.Other.n) // with the other plate on the left
	if r.Stands == Right {
		travel = travel.Neg()
	}
	reach := travel.Unit()
	whole, err := curve.Meet(r.Base.Flat(), r.Other.Flat(), r.Base.corner, r.Base.corner.Add(reach))
	if err != nil {
		return Spec{}, fmt.Errorf("seam: base plate's %s and other plate's %s: %w", r.Base.name, r.Other.name, err)
	}
	from, to := math.Inf(-1), math.Inf(1)
	for _, p := range []struct {
		what string
		s    Surface
	}{{"base plate", r.Base}, {"other plate", r.Other}} {
		a, b, miss := p.s.clip(whole.Start(), whole.Dir())
		if miss > 0 {
			return Spec{}, fmt.Errorf("seam: the %s of the %s stands %.1f mm off the line in which the plates' planes meet; %.0f mm at most is taken for a gap: check corner and sizes", p.s.name, p.what, miss*1e3, MaxMiss*1e3)
		}
		from, to = max(from, a), min(to, b)
	}
	if !(to-from >= curve.MinLength) {
		return Spec{}, fmt.Errorf("seam: the plates reach past each other: along the line in which their planes meet one ends %.1f mm before the other begins", (from-to)*1e3)
	}
	start, _ := whole.At(from)
	end, _ := whole.At(to)
	line, err := curve.NewLine(start, end)
	if err != nil {
		return Spec{}, fmt.Errorf("seam: %w", err)
	}
	if r.To == 0 {
		r.To = line.Length()
	}
	path, err := curve.Trim(line, r.From, r.To)
	if err != nil {
		return Spec{}, fmt.Errorf("seam: the plates meet over %.1f mm: %w", line.Length()*1e3, err)
	}
	return Spec{Path: path, Joint: r.Joint, Base: Plane{N: r.Base.n}, Other: Plane{N: r.Other.n}}, nil
}

// clip returns from where to where (m from p along the unit direction dir) a
// line in the surface's plane runs over the rectangle, and how far (m) beyond
// MaxMiss it misses it sideways. The pair of edges that the line runs across, at
// 30 deg or more, ends it exactly; past edges that it runs along it may lie
// MaxMiss outside.
func (s Surface) clip(p, dir r3.Vec) (from, to, miss float64) {
	from, to = math.Inf(-1), math.Inf(1)
	for _, side := range []struct {
		dir  r3.Vec
		size float64
	}{{s.u, s.lu}, {s.v, s.lv}} {
		at, slope := p.Sub(s.corner).Dot(side.dir), dir.Dot(side.dir)
		low, high := 0.0, side.size
		if math.Abs(slope) < 0.5 {
			low, high = -MaxMiss, side.size+MaxMiss
		}
		if math.Abs(slope) < 1e-9 {
			if off := max(-at, at-side.size); off > MaxMiss {
				miss = max(miss, off)
			}
			continue
		}
		a, b := (low-at)/slope, (high-at)/slope
		from, to = max(from, min(a, b)), min(to, max(a, b))
	}
	return from, to, miss
}

// PlateTubeRequest says how a tube stands on a typed plate, at any angle. The
// tube's Axis points out of the plate along the tube. The walk round it is
// curve.EllipseRequest's: from the angle Start, counted from the side that faces
// Zero, by Sweep, right-handed about the axis where positive.
type PlateTubeRequest struct {
	Plate        Surface
	Tube         curve.Tube // of the welded wall
	Wall         Wall
	Zero         r3.Vec
	Start, Sweep float64 // rad
}

// MeetPlateTube returns the seam, ready for New, in which a tube meets a typed
// plate: a circle where it stands square, else an ellipse. It fails where
// curve.NewEllipse does, for a wall that is not stated, a tube that points into
// the plate and a seam that runs over the plate's edge.
func MeetPlateTube(r PlateTubeRequest) (Spec, error) {
	if r.Wall != Outside && r.Wall != Inside {
		return Spec{}, fmt.Errorf("seam: which wall of the tube is welded is not told; say outside or inside")
	}
	axis := r.Tube.Axis.Unit()
	if !(axis.Dot(r.Plate.n) > 0) {
		return Spec{}, fmt.Errorf("seam: the tube's axis does not point out of the plate's face, it leans by %.0f deg from there: give it the other way, or the other face", deg(r.Tube.Axis.Angle(r.Plate.n)))
	}
	ellipse, err := curve.NewEllipse(curve.EllipseRequest{
		Tube: r.Tube, Point: r.Plate.corner, Normal: r.Plate.n, Zero: r.Zero, Start: r.Start, Sweep: r.Sweep,
	})
	if err != nil {
		return Spec{}, fmt.Errorf("seam: tube on plate: %w", err)
	}
	var path curve.Curve = ellipse
	if axis.Cross(r.Plate.n).Norm() < 1e-9 { // a circle, walked faster as one
		start, _ := ellipse.At(0)
		centre := r.Tube.Point.AddScaled(r.Plate.corner.Sub(r.Tube.Point).Dot(axis), axis)
		if path, err = curve.NewArc(curve.ArcRequest{Centre: centre, Axis: axis, Start: start, Sweep: r.Sweep}); err != nil {
			return Spec{}, fmt.Errorf("seam: tube on plate: %w", err)
		}
	}
	stations, err := walk(path)
	if err != nil {
		return Spec{}, err
	}
	for _, s := range stations {
		p, _ := path.At(s)
		if over := r.Plate.within(p); over > curve.JoinTolerance {
			return Spec{}, fmt.Errorf("seam: the tube stands %.1f mm over the edge of the plate at %.1f mm of the path; walk only the part on the plate, or check place and sizes", over*1e3, s*1e3)
		}
	}
	return Spec{
		Path: path, Joint: weld.Tee, Base: Plane{N: r.Plate.n},
		Other: Cylinder{Point: r.Tube.Point, Axis: axis, Outward: r.Wall == Outside},
	}, nil
}

// MeetTubes returns the seam, ready for New, in which a branch tube meets a run
// tube, both from outside: work is measured from the run's wall. It fails where
// curve.NewSaddle does. Where the branch is nearly as wide as the run the walls
// come close to one surface at the run's sides, which is no fillet any more: New
// refuses that and names the place.
func MeetTubes(r curve.SaddleRequest) (Spec, error) {
	path, err := curve.NewSaddle(r)
	if err != nil {
		return Spec{}, fmt.Errorf("seam: branch on run: %w", err)
	}
	return Spec{
		Path: path, Joint: weld.Tee,
		Base:  Cylinder{Point: r.Run.Point, Axis: r.Run.Axis.Unit(), Outward: true},
		Other: Cylinder{Point: r.Branch.Point, Axis: r.Branch.Axis.Unit(), Outward: true},
	}, nil
}
