package plan

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
)

// plannable are the arms that a pass is planned for.
const plannable = "six to nine joints, those of a turning table counted, six of which can move the flange every way"

// resolveCell builds the arm, the torch and the frames that the job describes.
func resolveCell(j *job.Job) (*cell.Cell, error) {
	solver, table, err := resolveArm(j)
	if err != nil {
		return nil, err
	}
	flangeFromTip := j.Torch.FlangeFromTip
	if j.Torch.Measured {
		flangeFromTip, err = torch(j.Torch).FlangeFromTip()
		if err != nil {
			return nil, problem(j.Torch.At, "measurements that do not make a torch", "the torch's own measurements", err.Error())
		}
	}
	baseFromPart := se3.Identity() // on a table the part's frame is the base
	if table == nil {
		baseFromPart = j.Cell.WorldFromBase.Inv().Mul(j.Cell.WorldFromPart)
	}
	return cell.New(cell.Spec{
		Solver: solver, Table: table, WorldFromFoot: j.Cell.WorldFromBase,
		BaseFromPart: baseFromPart, FlangeFromTip: flangeFromTip,
	}), nil
}

// resolveArm returns the inverse of the chain from what carries the part to the
// flange, and the chain of the turning table, nil where there is none.
func resolveArm(j *job.Job) (*kinematics.Solver, *kinematics.Chain, error) {
	chain, table, err := resolveChain(&j.Arm)
	if err != nil {
		return nil, nil, err
	}
	joints := 0
	if table != nil {
		joints = table.N()
	}
	solver, err := kinematics.NewTableSolver(chain, joints)
	if err != nil {
		return nil, nil, problem(j.Arm.At, j.Arm.URDF, plannable, err.Error())
	}
	for i := range chain.N() {
		if joint := chain.Joint(i); !(joint.Velocity > 0) {
			return nil, nil, problem(j.Arm.At, fmt.Sprintf("joint %q of %s states no speed limit", joint.Name, j.Arm.URDF),
				"a velocity above 0 for every joint", `add velocity="..." (rad/s, m/s where it slides) to the joint's <limit>`)
		}
	}
	return solver, table, nil
}

// resolveChain returns the chain from what carries the part to the flange, its
// last joint narrowed to what the torch's cable allows, and that of the table.
func resolveChain(a *job.Arm) (chain, table *kinematics.Chain, err error) {
	from := a.BaseLink
	if a.PartLink != "" {
		from = a.PartLink
		if table, err = kinematics.NewChain(a.Robot, from, a.BaseLink); err != nil {
			return nil, nil, problem(a.At, a.URDF, "a turning table whose joints lead from part_link to base_link", err.Error())
		}
	}
	chain, err = kinematics.NewChain(a.Robot, from, a.FlangeLink)
	if err != nil {
		return nil, nil, problem(a.At, a.URDF, "an arm whose joints lead from base_link to flange_link", err.Error())
	}
	if a.Cable != nil { // the document has made sure that it leaves something
		chain, _ = chain.Narrowed(chain.N()-1, a.Cable.Lower, a.Cable.Upper)
	}
	return chain, table, nil
}

func torch(t job.Torch) cell.Torch {
	return cell.Torch{
		Body: t.Body, Neck: t.Neck, NeckAngle: t.NeckAngle, Turn: t.Turn, Sideways: t.Sideways,
		TipRecess: t.TipRecess, StickOut: t.StickOut,
	}
}

// problem is an error about the job's own text.
func problem(at job.Place, found, allowed, mend string) *job.Problems {
	return &job.Problems{List: []job.Problem{{Place: at, Found: found, Allowed: allowed, Mend: mend}}}
}

// tips holds the tip pose of every taught point by label.
type tips map[string]tip

type tip struct {
	point       *job.Point
	baseFromTip se3.Pose
}

// resolveTips carries every taught point to a pose of the wire tip in the base
// frame: flange poses through the torch, joint values through the arm.
func resolveTips(j *job.Job, c *cell.Cell) tips {
	all := make(tips, len(j.Points))
	for i := range j.Points {
		p := &j.Points[i]
		pose := p.Pose
		switch {
		case !p.HasPose:
			q := jointValues(p)
			pose = c.BaseFromTip(&q)
		case !p.TipPose:
			pose = p.Pose.Mul(c.FlangeFromTip)
		}
		if _, taken := all[p.Label]; !taken {
			all[p.Label] = tip{point: p, baseFromTip: pose}
		}
	}
	return all
}

func jointValues(p *job.Point) kinematics.Q {
	var q kinematics.Q
	copy(q[:], p.Joints)
	return q
}
