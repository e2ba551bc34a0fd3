package job

import (
	"fmt"
	"slices"
)

// pathRules are the rules of what goes with a path; has tells which fields the
// seam has.
func (d *seamDraft) pathRules(has func(string) bool) []rule {
	s := &d.seam
	path := s.Path
	known := path != ""
	cornered := path == PathPolyline || path == PathSides
	bent := cornered || path == PathSpline
	round := path == PathArc || path == PathCircle
	from := d.path.startAt
	open := known && !s.Closed && !d.halfClosed()
	const closes = "on a closed path only"
	return []rule{
		{s.Closed && !has("overlap") && !has("stitches"), "overlap", "nothing",
			"how far a closed path runs past its start", "add overlap: 15 mm; 0 mm ends where it began"},
		{open && has("overlap"), "overlap", "",
			"overlap " + closes, "delete overlap, or " + d.closing()},
		{open && has("start_at"), "start_at", "",
			"start_at " + closes, "delete start_at, or " + d.closing()},
		{known && !bent && has("closed"), "closed", "",
			"closed on polyline, sides and spline only", "delete closed, or give the seam as circle"},
		{cornered && s.Closed && s.corners() < 3, "closed", "",
			"closed on three sides or more", "delete closed, or add the points of the other sides"},
		{known && !round && has("radius"), "radius", "",
			"a radius on arc and circle only", d.noRadius(cornered)},
		{known && !round && has("plane"), "plane", "",
			"a plane on arc and circle only", "delete plane: the points tell where the path lies"},
		{known && !cornered && has("corners"), "corners", "",
			"corners on polyline and sides only", "delete corners, or give the seam as polyline"},
		{cornered && len(s.Corners) > 1 && len(s.Corners) != s.corners(), "corners", counted(len(s.Corners), "corner"),
			fmt.Sprintf("one for all, or %d, one for each in the order of travel", s.corners()),
			"write one for each; a closed path comes to its first point last"},
		{from.text != "" && !slices.ContainsFunc(d.path.refs(path), func(r ref) bool { return r.text == from.text }), "start_at", quote(from.text),
			"one of the points of the path", "name the point of the path behind which it begins, or give the length along the path alone"},
	}
}

// halfClosed says whether what stands in closed is neither true nor false, which
// is reported there.
func (d *seamDraft) halfClosed() bool {
	if v, given := d.read.get("closed"); given {
		return v.text != "true" && v.text != "false"
	}
	return false
}

// closing says how the seam would become closed.
func (d *seamDraft) closing() string {
	switch d.seam.Path {
	case PathPolyline, PathSides, PathSpline:
		return "say closed: true"
	case PathTubeOnPlate, PathSaddle:
		return "say sweep: 360 deg"
	}
	return "give the seam as circle"
}

func (d *seamDraft) noRadius(cornered bool) string {
	if cornered {
		return "say corners: {radius: ...} for the radius of the corners"
	}
	return "delete radius, or give the seam as arc"
}
