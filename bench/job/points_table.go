package job

import (
	"fmt"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// stood carries what was measured into the base, point by point: where a turning
// table carries the part, that depends on how the table stood.
type stood struct {
	draft            *pointsDraft
	chain            chain
	footFromMeasured se3.Pose
	onPart           bool      // measured on the part itself, whichever way it was turned
	said             bool      // that it is not known how the table stood
	all              []float64 // the table's values where a row has none of its own
	frames           map[string]se3.Pose
}

// newStood reads how the table stood for all points.
func newStood(ps *Problems, d *pointsDraft, c chain, cell Cell) stood {
	s := stood{draft: d, chain: c, frames: map[string]se3.Pose{}}
	s.onPart = c.turns && d.frame == FramePart
	if c.turns && cell.HasPart {
		ps.add(cell.At.sub("world_from_part"), "the part's place in the world beside arm.part_link", "one of the two: on a turning table the part's frame is that link",
			"delete world_from_part")
	}
	s.footFromMeasured = footFrom(ps, d.frame, d.read, c, cell)
	if len(d.table) == 0 || !s.fits(ps, d.read, len(d.table)) {
		return s
	}
	c.checkKinds(ps, d.table, "a joint value", "deg", "mm")
	for i, x := range d.table {
		s.all = append(s.all, c.joints[i].shown.File(x.value))
	}
	return s
}

// footFrom returns the frame in which a section was measured in the arm's base
// link.
func footFrom(ps *Problems, frame FrameName, read node, c chain, cell Cell) se3.Pose {
	switch baseFromWorld := cell.WorldFromBase.Inv(); {
	case frame == FrameWorld:
		return baseFromWorld
	case frame == FramePart && !c.turns:
		if !cell.HasPart {
			at, _ := read.get("measured_in")
			ps.add(at.at, at.found()+" without the part's place", "part where the cell has world_from_part", "add world_from_part to cell, or say base or world")
		}
		return baseFromWorld.Mul(cell.WorldFromPart)
	}
	return se3.Identity()
}

// fits reports whether there are n joints of a table.
func (s *stood) fits(ps *Problems, read node, n int) bool {
	at, given := read.get("table")
	switch {
	case !s.chain.known:
		return false
	case !given: // a row of a file
		at = read
	}
	if s.chain.table == nil {
		ps.add(at.at, "the values of a turning table", "none where the arm's file carries the part on no table", "add part_link to arm, or delete table")
		return false
	}
	if want := s.chain.table.N(); n != want {
		names := listed(s.chain.names()[:want])
		ps.add(at.at, counted(n, "joint value")+" of the turning table", fmt.Sprintf("%d, one for each of %s", want, names), "write all of them in this order")
		return false
	}
	return true
}

// values returns the table's values when a row was taught, as the arm's file has
// them, rad or m: those of its joint values, its own, or those of all rows.
func (s *stood) values(ps *Problems, r row, joints []float64) []float64 {
	switch {
	case r.table != nil && !s.fits(ps, node{at: r.at.sub("table")}, len(r.table)):
		return nil
	case s.chain.table == nil || r.broken:
		return nil
	case r.joints != nil && r.table != nil:
		ps.add(r.at.sub("table"), "the values of the turning table beside joint values, which hold them", "one of the two in a row", "delete table")
		return nil
	case joints != nil:
		return joints[:s.chain.table.N()]
	case r.joints != nil: // too few or too many, as was said
		return nil
	case r.table != nil:
		return s.draft.fileValues(r.table, s.chain)
	case !s.draft.read.has("table") && !s.said:
		s.said = true
		ps.add(s.draft.read.at.sub("table"), "nothing", "how the turning table stood when the points were taught: "+listed(s.chain.names()[:s.chain.table.N()]),
			"add table where it stood so for all of them, such as table: [0 deg], or to each row")
	}
	return s.all
}

// at returns the frame of what was measured in the base while the table stood at
// its values, and keeps it under a point's label.
func (s *stood) at(label string, table []float64) se3.Pose {
	baseFromMeasured := s.footFromMeasured
	if s.chain.table != nil && !s.onPart {
		var q kinematics.Q
		var baseFromFoot se3.Pose
		copy(q[:], table)
		s.chain.table.Forward(&q, &baseFromFoot)
		baseFromMeasured = baseFromFoot.Mul(s.footFromMeasured)
	}
	if _, taken := s.frames[label]; !taken {
		s.frames[label] = baseFromMeasured
	}
	return baseFromMeasured
}

// when returns the frame of what was measured in the base when a seam was
// taught: at its first point. Without a table that is the same for all.
func (s *stood) when(points []string) se3.Pose {
	if len(points) > 0 {
		if frame, ok := s.frames[points[0]]; ok {
			return frame
		}
	}
	return s.footFromMeasured
}
