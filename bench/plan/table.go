package plan

import (
	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
)

// A turning table carries the part against gravity: which way is up on the part,
// and so how a seam lies, depends on how the table stands.

// stood returns joint values (rad or m) with those of the turning table as they
// were when the point was taught, and zero for the others.
func (t tip) stood() (q kinematics.Q) {
	if t.point != nil {
		copy(q[:], t.point.Table)
	}
	return q
}

// up returns the direction against gravity in the base when a seam was taught:
// at its first point.
func (all tips) up(c *cell.Cell, s *job.Seam) r3.Vec {
	var q kinematics.Q
	if c.Table != nil && len(s.Points) > 0 {
		q = all[s.Points[0]].stood()
	}
	return c.Up(&q)
}
