package export

import (
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

const (
	mm    = 1e3
	deg   = 180 / math.Pi
	mm2   = 1e6
	kjmm  = 1e-6
	mmin  = 60
	round = 1e6 // display values keep six decimals; poses and joints keep all
)

// plain takes the minus from zero, which JSON would print.
func plain(x float64) float64 {
	if x == 0 {
		return 0
	}
	return x
}

func r6(x float64) float64 { return plain(math.Round(x*round) / round) }

// optional returns nil for NaN, which JSON cannot hold.
func optional(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x = r6(x)
	return &x
}

func vec(v r3.Vec) [3]float64 { return [3]float64{plain(v.X), plain(v.Y), plain(v.Z)} }

func newPose(p se3.Pose) poseDoc {
	q := p.R.Quat()
	return poseDoc{
		XYZ:  vec(p.P),
		Quat: [4]float64{plain(q.W), plain(q.X), plain(q.Y), plain(q.Z)},
	}
}

func joints(q *kinematics.Q, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = plain(q[i])
	}
	return list
}

func newFindings(list []finding.Finding) []findingDoc {
	docs := make([]findingDoc, 0, len(list))
	for _, f := range list {
		docs = append(docs, findingDoc{
			Code: string(f.Code), Severity: f.Severity.String(), Where: f.Where.String(),
			Measured: optional(f.Measured), Limit: optional(f.Limit), Unit: f.Unit,
			Message: f.Message, Remedy: f.Remedy, Source: f.Source,
		})
	}
	return docs
}

func newPlan(j *job.Job, p *plan.Plan) planDoc {
	n := p.Cell.Chain.N()
	d := planDoc{
		Seamwright: FormatVersion,
		Job:        jobDoc{File: j.File, Name: j.Name, Part: j.Part, Drawing: j.Drawing, Revision: j.Revision, Code: j.Code.String()},
		Arm:        j.Arm.URDF, BaseLink: j.Arm.BaseLink, FlangeLink: j.Arm.FlangeLink,
		FlangeFromTip: newPose(p.Cell.FlangeFromTip), WorldFromBase: newPose(p.Cell.WorldFromBase(&kinematics.Q{})),
		Payload: r6(j.Arm.Payload), TorchMass: r6(j.Torch.Mass), HandGuiding: j.Arm.HandGuiding,
		TipDistance: r6(j.Torch.ContactTipDistance() * mm),
		Fit:         p.Fit(),
		Times:       timesDoc{Arc: r6(p.Times.Arc), Weld: r6(p.Times.Weld), Air: r6(p.Times.Air), Wait: r6(p.Times.Wait), Total: r6(p.Times.Total)},
		Joints:      []string{}, Seams: []seamDoc{}, Steps: []stepDoc{}, // never null
		Distortion: newDistortion(p), Findings: newFindings(p.Findings),
		Caution: Caution,
	}
	if p.Cell.Table != nil {
		foot := newPose(p.Cell.WorldFromFoot)
		d.BaseLink, d.FootLink, d.WorldFromFoot = j.Arm.PartLink, j.Arm.BaseLink, &foot
	}
	for i := range n {
		d.Joints = append(d.Joints, p.Cell.Chain.Joint(i).Name)
	}
	for i := range p.Seams {
		d.Seams = append(d.Seams, newSeam(j, p, &p.Seams[i]))
	}
	for i := range p.Stitched {
		d.Stitched = append(d.Stitched, newStitched(&p.Stitched[i]))
	}
	d.Air = newAir(p.Air)
	for i := range p.Steps {
		d.Steps = append(d.Steps, newStep(i+1, &p.Steps[i], n))
	}
	return d
}
