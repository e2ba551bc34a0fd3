package job

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// Distortion is what is known of the part as a beam that its welds bend.
type Distortion struct {
	Given bool
	// At and Along are the neutral axis of the welded section: a place on it (m) and
	// its direction; Towards is the way in which the bow is wanted, square to it. Arm
	// base frame.
	At, Along, Towards r3.Vec
	// Section is the area (m2) and Inertia the second moment (m4) of the welded
	// section about the axis square to Along and Towards; 0: not said.
	Section, Inertia float64
	// Held is the end that is held: "start", that from which Along points, "end", or
	// "none".
	Held string
	// BackStep is the longest piece that is welded in one go, m, 0: no back-step.
	BackStep float64
	Place    Place
}

// distortionDraft is the section "distortion" while it is read.
type distortionDraft struct {
	dist               Distortion
	frame              FrameName
	at, along, towards []float64
	read               node
}

// Ranges of sense, common practice, no source.
var (
	beamSection = span{10 * unit.MM2, 1e6 * unit.MM2} // m2
	beamInertia = span{1e-12, 1}                      // m4
	backStep    = span{20 * unit.MM, 2}               // m
)

// form is the table of the section "distortion".
func (d *distortionDraft) form() record {
	s := &d.dist
	return record{at: &s.Place, example: "{measured_in: part, at: [0 mm, 0 mm, 40 mm], along: [1, 0, 0], towards: [0, 0, 1]}", fields: []field{
		need("measured_in", oneOf(&d.frame, FrameBase, FrameWorld, FramePart)),
		need("at", lengths(&d.at, 3, anyLength)),
		need("along", directionForm(&d.along)),
		need("towards", directionForm(&d.towards)),
		may("section", quantity(unit.Area, &s.Section, beamSection, "24 cm2")),
		may("inertia", quantity(unit.SecondMoment, &s.Inertia, beamInertia, "800 cm4")),
		may("held", oneOf(&s.Held, "none", "start", "end")),
		may("back_step", quantity(unit.Length, &s.BackStep, backStep, "150 mm")),
	}, check: func(ps *Problems, n node, clean bool) {
		d.read = n
		if !clean {
			return
		}
		along, _ := n.get("along")
		towards, _ := n.get("towards")
		s.At = vec(d.at)
		s.Along = direction(ps, along, d.along, "write the direction of the part's length, such as [1, 0, 0]")
		s.Towards = direction(ps, towards, d.towards, "write the way in which the bow is wanted, such as [0, 0, 1]")
		const steep = 0.1 // of a right angle's cosine
		if a, b := s.Along.Norm(), s.Towards.Norm(); a > 0 && b > 0 && s.Along.Dot(s.Towards) > steep*a*b {
			ps.add(towards.at, towards.found()+", which runs along the part", "a direction square to along", "write the way in which the part bends, such as [0, 0, 1]")
		}
		s.Given = true
	}}
}

// resolve carries the axis into the base.
func (d *distortionDraft) resolve(ps *Problems, c chain, cell Cell) Distortion {
	out := d.dist
	if !out.Given {
		return Distortion{}
	}
	baseFromAxis := se3.Identity()
	if c.turns {
		if at, given := d.read.get("measured_in"); given && d.frame != FramePart {
			ps.add(at.at, at.found()+" where a turning table carries the part", "part: the axis turns with the table", "say measured_in: part, and count the places from arm.part_link")
		}
	} else {
		baseFromAxis = footFrom(ps, d.frame, d.read, c, cell)
	}
	out.At, out.Along = baseFromAxis.Apply(out.At), baseFromAxis.Dir(out.Along).Unit()
	out.Towards = baseFromAxis.Dir(out.Towards).Reject(out.Along).Unit()
	return out
}
