package plan

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/weld/seam"
)

// met builds the seam of typed members: path and plates follow from their sizes.
func (b *seamBuilder) met() (seam.Spec, error) {
	var spec seam.Spec
	var err error
	switch b.seam.Path {
	case job.PathMeeting:
		spec, err = b.meeting()
	case job.PathTubeOnPlate:
		spec, err = b.tubeOnPlate()
	default:
		spec, err = b.saddle()
	}
	if err != nil || !b.seam.Closed {
		return spec, err
	}
	spec.Path, err = b.closed(spec.Path)
	return spec, err
}

func (b *seamBuilder) meeting() (seam.Spec, error) {
	m := &b.seam.Meeting
	base, err := b.surface(m.Base)
	if err != nil {
		return seam.Spec{}, err
	}
	other, err := b.surface(m.Upright)
	if err != nil {
		return seam.Spec{}, err
	}
	side := seam.Left
	if m.Stands == job.PlateRight {
		side = seam.Right
	}
	return seam.MeetPlates(seam.PlatesRequest{Joint: b.seam.Joint, Base: base, Other: other, Stands: side, From: m.From, To: m.To})
}

func (b *seamBuilder) tubeOnPlate() (seam.Spec, error) {
	t := &b.seam.TubeOnPlate
	plate, err := b.surface(t.Plate)
	if err != nil {
		return seam.Spec{}, err
	}
	tube := b.tubeOf(t.Tube)
	wall, radius := seam.Outside, tube.Diameter/2
	if t.Wall == job.PlateTubeInside {
		wall, radius = seam.Inside, tube.Inner()
	}
	return seam.MeetPlateTube(seam.PlateTubeRequest{
		Plate: plate, Tube: curve.Tube{Point: tube.Point, Axis: tube.Axis, Radius: radius}, Wall: wall,
		Zero: t.Zero, Start: t.Start, Sweep: t.Sweep,
	})
}

func (b *seamBuilder) saddle() (seam.Spec, error) {
	s := &b.seam.Saddle
	run, branch := b.tubeOf(s.Run), b.tubeOf(s.Branch)
	if branch.Diameter > run.Diameter {
		return seam.Spec{}, fmt.Errorf("the branch %q, %.1f mm across, is wider than the run %q, %.1f mm: the run goes on below the branch; change the two over, or check the diameters",
			s.Branch, branch.Diameter*1e3, s.Run, run.Diameter*1e3)
	}
	return seam.MeetTubes(curve.SaddleRequest{
		Run:    curve.Tube{Point: run.Point, Axis: run.Axis, Radius: run.Diameter / 2},
		Branch: curve.Tube{Point: branch.Point, Axis: branch.Axis, Radius: branch.Diameter / 2},
		Start:  s.Start, Sweep: s.Sweep,
	})
}

// surface returns a face of a typed plate; the document was checked to have it.
func (b *seamBuilder) surface(f job.MemberFace) (seam.Surface, error) {
	p := b.plateOf(f.Plate)
	s, err := seam.Plate{Corner: p.Corner, Along: p.Along, Across: p.Across, Length: p.Length, Width: p.Width, Thickness: p.Thickness}.Surface(plateSides[f.Face])
	if err != nil {
		return s, fmt.Errorf("plate %q: %w", f.Plate, err)
	}
	return s, nil
}

var plateSides = map[job.FaceName]seam.PlateSide{
	job.FaceFront: seam.PlateFront, job.FaceRear: seam.PlateRear, job.FaceStart: seam.PlateStart,
	job.FaceEnd: seam.PlateEnd, job.FaceNear: seam.PlateNear, job.FaceFar: seam.PlateFar,
}

func (b *seamBuilder) plateOf(name string) job.TypedPlate {
	for _, p := range b.job.Plates {
		if p.Name == name {
			return p
		}
	}
	return job.TypedPlate{}
}

func (b *seamBuilder) tubeOf(name string) job.TypedTube {
	for _, t := range b.job.Tubes {
		if t.Name == name {
			return t
		}
	}
	return job.TypedTube{}
}

// thick returns the document's seam with the thicknesses, m, of its members: of a
// plate square to the welded face where that is front or rear, not said where a
// narrow face is welded.
func (b *seamBuilder) thick() *job.Seam {
	s := *b.seam
	face := func(f job.MemberFace) float64 {
		if f.Face == job.FaceFront || f.Face == job.FaceRear {
			return b.plateOf(f.Plate).Thickness
		}
		return 0
	}
	switch s.Path {
	case job.PathMeeting:
		s.BaseThickness, s.OtherThickness = face(s.Meeting.Base), face(s.Meeting.Upright)
	case job.PathTubeOnPlate:
		s.BaseThickness, s.OtherThickness = face(s.TubeOnPlate.Plate), b.tubeOf(s.TubeOnPlate.Tube).Wall
	case job.PathSaddle:
		s.BaseThickness, s.OtherThickness = b.tubeOf(s.Saddle.Run).Wall, b.tubeOf(s.Saddle.Branch).Wall
	}
	return &s
}

// place returns a typed place, or that of a point where one is named, m.
func (b *seamBuilder) place(label string, typed r3.Vec) r3.Vec {
	if label != "" {
		return b.tips[label].baseFromTip.P
	}
	return typed
}
