package plan

import (
	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/weld"
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

// lie classifies seam i once more as it will be welded: the table may then stand
// otherwise than when it was taught.
func (m *maker) lie(i int) (err error) {
	s := &m.plan.Seams[i]
	mo := s.Passes[0].Motion
	if mo == nil || m.plan.Cell.Table == nil {
		return nil
	}
	start := s.Geometry.At(0)
	s.Position, err = weld.Classify(weldKind(m.shapes[i].doc.Joint), start.T, start.Bisector, m.plan.Cell.Up(&mo.Stations[mo.First].Q))
	return err
}
