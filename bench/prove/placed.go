package prove

import (
	"strings"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// placed is a seam of the plan and how it was carried from the job's seam that it is
// made of: moved to a copy's place, then mirrored.
type placed struct {
	doc        *job.Seam
	copied     int // 0: the seam itself
	mirrored   bool
	part       int // of a split seam, from 0; -1: not split
	stitch     int // from 1; 0: no stitch
	newFromOld se3.Pose
	at, normal r3.Vec // of the mirror's plane
}

// placedOf finds the seam of the job that a seam of the plan is made of.
func (p *proof) placedOf(name string) (placed, bool) {
	for i := range p.job.Seams {
		doc := &p.job.Seams[i]
		for h, hand := range doc.Hands() {
			for k := range max(1, doc.Repeat.Count) {
				out := placed{doc: doc, copied: k, mirrored: h > 0, part: -1, newFromOld: repeated(&doc.Repeat, k), normal: doc.Mirror.Normal.Unit()}
				out.at = p.pointOr(doc.Mirror.Point, doc.Mirror.At)
				own := doc.CopyName(hand, k)
				if doc.Stitches.Asked() {
					if rest, ok := strings.CutPrefix(name, own+" stitch "); ok {
						out.stitch = stitchNumber(rest)
						return out, out.stitch > 0
					}
					continue
				}
				for part := range len(doc.Split.At) + 1 {
					if name == doc.PartName(own, part) {
						if len(doc.Split.At) > 0 {
							out.part = part
						}
						return out, true
					}
				}
			}
		}
	}
	return placed{}, false
}

// repeated carries a seam to its copy k.
func repeated(r *job.Repeat, k int) se3.Pose {
	switch {
	case k == 0:
		return se3.Identity()
	case r.About:
		turn := se3.RotAxis(r.Axis.Unit(), float64(k)*r.Every)
		return se3.Pose{R: turn, P: r.At.Sub(turn.Apply(r.At))}
	}
	return se3.Translation(r.Step.Scale(float64(k)))
}

// pointOr is the place of a point of the job, or a place where none is named.
func (p *proof) pointOr(label string, typed r3.Vec) r3.Vec {
	if tip, ok := p.taught(label); ok {
		return tip.P
	}
	return typed
}

// taught is the tip's pose at a point of the job; of a touched point only the place
// means something.
func (p *proof) taught(label string) (se3.Pose, bool) {
	for i := range p.job.Points {
		t := &p.job.Points[i]
		if t.Label != label {
			continue
		}
		switch {
		case !t.HasPose:
			q, err := jointValues(t.Joints, len(p.arm.limits))
			return p.arm.tip(&q), err == nil
		case !t.TipPose:
			return t.Pose.Mul(p.arm.flangeFromTip), true
		}
		return t.Pose, true
	}
	return se3.Pose{}, false
}

// places are the places of points of the job, m.
func (p *proof) places(labels []string) (out []r3.Vec) {
	for _, label := range labels {
		if tip, ok := p.taught(label); ok {
			out = append(out, tip.P)
		}
	}
	return out
}

// up is the direction against gravity in the base when a seam was taught: that of its
// first point, where a turning table carries the part.
func (p *proof) up(doc *job.Seam) r3.Vec {
	var q kinematics.Q
	for i := range p.job.Points {
		if t := &p.job.Points[i]; len(doc.Points) > 0 && t.Label == doc.Points[0] {
			copy(q[:], t.Table)
		}
	}
	return p.arm.worldFromBase(&q).R.T().Apply(r3.Vec{Z: 1})
}

// old carries a place of the plan's seam back to the job's.
func (s *placed) old(v r3.Vec) r3.Vec {
	if s.mirrored {
		v = v.AddScaled(-2*v.Sub(s.at).Dot(s.normal), s.normal)
	}
	return s.newFromOld.Inv().Apply(v)
}

// oldDir carries a direction back.
func (s *placed) oldDir(v r3.Vec) r3.Vec {
	if s.mirrored {
		v = v.AddScaled(-2*v.Dot(s.normal), s.normal)
	}
	return s.newFromOld.Inv().Dir(v)
}

// oldFrame carries a frame back.
func (s *placed) oldFrame(f frame) frame {
	f.root, f.travel, f.normal, f.open = s.old(f.root), s.oldDir(f.travel), s.oldDir(f.normal), s.oldDir(f.open)
	return f
}
