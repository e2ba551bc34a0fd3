package draft

import (
	"fmt"

	"seamwright/bench/intake"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// geometry carries points as they were measured into tips in the arm's base, m.
type geometry struct {
	chain            *kinematics.Chain
	flangeFromTip    se3.Pose
	worldFromBase    se3.Pose
	baseFromMeasured se3.Pose
}

// findFrames asks where the arm's foot and the part stand, where the points
// were measured from elsewhere.
func (m *maker) findFrames() error {
	m.worldFromBase, m.baseFromMeasured = se3.Identity(), se3.Identity()
	worldFromPart, hasPart := se3.Identity(), false
	if m.Like != nil {
		c := m.Like.Job.Cell
		m.worldFromBase, worldFromPart, hasPart = c.WorldFromBase, c.WorldFromPart, c.HasPart
	}
	in := m.Table.Stated.MeasuredIn
	if in == "part" && m.Like != nil && !hasPart {
		return fmt.Errorf("the points are measured from the part, and %s does not say where that is: add world_from_part to its cell", m.Like.Name)
	}
	if in != "base" && m.Like == nil {
		m.worldFromBase, _ = m.askPose("world_from_base", "Where does the arm's foot stand in the world, and how is it turned?")
	}
	if in == "part" && m.Like == nil {
		worldFromPart, _ = m.askPose("world_from_part", "Where does the part's frame lie in the world, and how is it turned?")
	}
	switch in {
	case "world":
		m.baseFromMeasured = m.worldFromBase.Inv()
	case "part":
		m.baseFromMeasured = m.worldFromBase.Inv().Mul(worldFromPart)
	}
	return nil
}

// askPose asks for a frame of the cell.
func (m *maker) askPose(field, text string) (se3.Pose, bool) {
	value, ok := m.ask(Question{Question: intake.Question{ID: field, Default: -1, Text: text},
		Free: "x, y, z with units, then the turns in degrees about fixed X, Y, Z, such as 0 mm, 0 mm, 760 mm, 0, 0, 90", check: poseCheck(trial{"cell", field}, nil)})
	if !ok {
		return se3.Identity(), false
	}
	pose, err := parsePose(value)
	if err != nil {
		m.wrong = err
		return se3.Identity(), false
	}
	m.cell = append(m.cell, entry{field, poseYAML(value), m.note(field)})
	return pose, true
}

// up is the direction against gravity in the arm's base.
func (g *geometry) up() r3.Vec { return g.worldFromBase.R.T().Apply(r3.Vec{Z: 1}) }

// tip returns the pose of the wire tip at a row in the arm's base, m; turned
// is false where the row is a place alone.
func (m *maker) tip(i int) (baseFromTip se3.Pose, turned bool) {
	r := m.kept[i]
	if r.Joints != nil {
		var q kinematics.Q
		copy(q[:], r.Joints)
		if m.Like != nil {
			for k, shown := range m.Like.Job.Arm.Shown {
				q[k] = shown.File(q[k])
			}
		}
		var baseFromFlange se3.Pose
		m.chain.Forward(&q, &baseFromFlange)
		return baseFromFlange.Mul(m.flangeFromTip), true
	}
	pose := m.baseFromMeasured.Mul(r.Pose)
	if m.Table.Stated.Point == "flange" && r.HasTurn {
		pose = pose.Mul(m.flangeFromTip)
	}
	return pose, r.HasTurn
}

// length prints a length (m) in the table's own system of units.
func (m *maker) length(x float64) string {
	if m.Table.Stated.Length == "in" {
		return unit.Format(x, unit.Inches, 2)
	}
	return unit.Format(x, unit.Millimetres, 0)
}
