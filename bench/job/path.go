package job

import (
	"fmt"

	"seamwright/unit"
)

// PathKind is the shape of a seam, in words for messages.
type PathKind string

const (
	PathLine     PathKind = "line"
	PathArc      PathKind = "arc"
	PathCircle   PathKind = "circle"
	PathPolyline PathKind = "polyline"
	PathSides    PathKind = "sides"
	PathSpline   PathKind = "spline"
	// The seam where two typed plates meet, a typed tube stands on a typed plate,
	// a typed branch tube meets a typed run tube.
	PathMeeting     PathKind = "meeting"
	PathTubeOnPlate PathKind = "tube_on_plate"
	PathSaddle      PathKind = "saddle"
)

// pathKinds are the forms in which a path is given, by the names of their
// fields. A seam has exactly one.
var pathKinds = []PathKind{PathLine, PathArc, PathCircle, PathPolyline, PathSides, PathSpline, PathMeeting, PathTubeOnPlate, PathSaddle}

// ofMembers reports whether a path follows from typed plates and tubes, and its
// plates with it.
func (k PathKind) ofMembers() bool {
	return k == PathMeeting || k == PathTubeOnPlate || k == PathSaddle
}

// pathDraft is a seam's path while it is read.
type pathDraft struct {
	line, arc, circle, polyline, spline []ref
	sides                               [][]ref
	startAt                             ref
	plane                               planeDraft
	met                                 metDraft
}

// maxPath bounds the points of one seam.
const maxPath = 1000

// fields lists the path forms and what belongs to them.
func (d *pathDraft) fields(s *Seam) []field {
	points := func(dst *[]ref, low int, example string) form {
		return manyOf(dst, low, maxPath, "points", func(r *ref) form { return named(r, "W1 start") }).like(example)
	}
	return append([]field{
		may("line", points(&d.line, 2, "[W1 start, W1 end]")),
		may("arc", points(&d.arc, 3, "[W1 start, W1 mid, W1 end]")),
		may("circle", points(&d.circle, 3, "[W1 a, W1 b, W1 c]")),
		may("polyline", points(&d.polyline, 3, "[W1 a, W1 b, W1 c]")),
		may("sides", manyOf(&d.sides, 2, maxPath, "sides", func(side *[]ref) form {
			return points(side, 2, "[W1 a, W1 b]")
		}).like("[[W1 a, W1 b], [W1 c, W1 d]]")),
		may("spline", points(&d.spline, 3, "[W1 a, W1 b, W1 c]")),
		may("radius", quantity(unit.Length, &s.Radius, radius, "40 mm")),
		may("plane", d.plane.form(&s.Plane)),
		may("corners", cornersForm(&s.Corners)),
		may("closed", flag(&s.Closed)),
		may("start_at", startForm(&s.StartAt, &d.startAt)),
		may("overlap", quantity(unit.Length, &s.Overlap, overlap, "15 mm")),
	}, d.met.fields(s)...)
}

// refs returns the points of a path in order of travel; of sides those of all.
func (d *pathDraft) refs(kind PathKind) []ref {
	switch kind {
	case PathLine:
		return d.line
	case PathArc:
		return d.arc
	case PathCircle:
		return d.circle
	case PathPolyline:
		return d.polyline
	case PathSpline:
		return d.spline
	case PathSides:
		var all []ref
		for _, side := range d.sides {
			all = append(all, side...)
		}
		return all
	}
	return nil
}

// names lists every point that the path refers to.
func (d *pathDraft) names() []ref {
	var all []ref
	for _, kind := range pathKinds {
		all = append(all, d.refs(kind)...)
	}
	return append(append(all, d.plane.touched...), d.startAt)
}

// path sets the path's kind and points, and refuses points that follow
// themselves: a line of no length, an arc that has no radius.
func (d *seamDraft) setPath(ps *Problems) PathKind {
	s := &d.seam
	for _, kind := range pathKinds {
		switch {
		case !d.read.has(string(kind)):
		case s.Path != "": // reported by the table; nothing else is known then
			s.Path = ""
			return s.Path
		default:
			s.Path = kind
		}
	}
	points := d.path.refs(s.Path)
	s.Points, s.Sides = labels(points), nil
	for _, side := range d.path.sides {
		s.Sides = append(s.Sides, labels(side))
	}
	s.Closed = s.Closed || s.Path == PathCircle || s.goesRound()
	d.repeated(ps, points)
	return s.Path
}

// repeated reports points that stand twice where they must differ.
func (d *seamDraft) repeated(ps *Problems, points []ref) {
	kind := d.seam.Path
	mend := "delete it"
	switch kind {
	case PathArc:
		mend = "delete it, or give the seam as circle"
	case PathCircle:
		mend = "delete it: a circle closes by itself"
	case PathPolyline, PathSpline:
		if n := len(points) - 1; d.seam.Closed && n > 0 && points[0].text == points[n].text {
			mend = "delete it: closed brings the path back to its first point"
		}
	}
	crossing := kind == PathLine || kind == PathPolyline || kind == PathSpline || kind == PathSides // may come by a point again
	last := map[string]int{}
	for i, p := range points {
		before, again := last[p.text]
		closing := d.seam.Closed && crossing && kind != PathSides && i == len(points)-1 && before == 0
		if again && p.text != "" && (before == i-1 && !d.cornerShared(i) || closing || !crossing) {
			ps.add(p.at, fmt.Sprintf("%s a second time", quote(p.text)), "points that differ", mend)
		}
		last[p.text] = i
	}
}

// cornerShared says whether point i of the path begins another side than the
// point before it: a corner that was touched for both.
func (d *seamDraft) cornerShared(i int) bool {
	if d.seam.Path != PathSides {
		return false
	}
	begin := 0
	for _, side := range d.path.sides {
		if begin == i {
			return true
		}
		begin += len(side)
	}
	return false
}

// corners returns how many corners the path has between its sides.
func (s *Seam) corners() int {
	sides := len(s.Sides)
	if s.Path == PathPolyline {
		sides = len(s.Points) - 1
		if s.Closed {
			sides++
		}
	}
	if s.Closed {
		return sides
	}
	return sides - 1
}
